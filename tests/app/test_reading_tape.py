"""The marks read on another tape while they are being chalked: what is frozen stays, only the readings change."""

import json
from pathlib import Path

import pytest

from app import actions as act
from app.chalking import Chalking, read_chalking, read_on_tape
from app.effects import _on_other_tape
from app.saved import read, text_of
from app.state import FrozenDraft, OtherTape, State
from app.typed import order_of, order_text
from app.update import start, update
from drafting.order import make, read_order
from drafting.record.documents import draft_json
from drafting.record.packed import packed, unpacked
from drafting.units import TAPES
from tests.app.records import again, loaded

DEMO = (Path(__file__).resolve().parents[2] / "assets" / "demo" / "order.json").read_text("utf-8")


def after(state: State, *actions: act.Action) -> State:
    for action in actions:
        state = update(state, action)[0]
    return state


@pytest.fixture(scope="module")
def demo() -> State:
    return after(start("/")[0], loaded(), act.AddDemo(DEMO))


@pytest.fixture(scope="module")
def frozen(demo) -> FrozenDraft:
    garment = demo.book.garments[0]
    typed, _ = order_of(garment, demo.book.person(garment.person))
    order, _ = read_order(typed)
    result = make(order)
    own = result.ready.tape.step
    others = {tape.step: _on_other_tape(result, tape.step) for tape in TAPES if tape.step != own}
    return FrozenDraft(order_text(typed), draft_json(result).decode(), others)


def begun(demo: State, frozen: FrozenDraft) -> State:
    return after(demo, act.StartChalking("g1"), act.Froze("g1", frozen))


def test_what_is_packed_comes_back_and_what_is_damaged_does_not():
    text = "8⅛ " * 5000
    assert unpacked(packed(text)) == text
    assert len(packed(text)) < len(text) / 3
    assert unpacked(packed(text)[:-8]) is None
    assert unpacked("no such thing") is None


@pytest.mark.parametrize("step", ["1/8", "1/4", "0.1"])
def test_another_tape_reads_the_same_marks_in_the_same_order(demo, frozen, step):
    chalking = begun(demo, frozen)
    read, asking = update(chalking, act.ReadOn("g1", step))
    garment = read.book.garment("g1")
    assert garment.reads == step
    assert asking, "it is kept"
    assert read.frozen == chalking.frozen
    before, now = read_on_tape(frozen, ""), read_on_tape(frozen, step)
    assert before is not None
    assert now is not None

    def measured(read: Chalking) -> list[tuple[str, int]]:
        return [(item.key, item.number) for item in read.items if item.kind in ("mark", "proof")]

    assert measured(now) == measured(before)
    assert now.unit == ("in" if "/" in step else "cm")
    for name, piece in before.pieces.items():
        assert now.pieces[name].marks == piece.marks
    # Every reading is the nearest step to where the mark lies, worked out here from the millimetres alone.
    size = {"1/8": 25.4 / 8, "1/4": 25.4 / 4, "0.1": 1.0}[step]
    draft = json.loads(unpacked(frozen.others[step].draft))
    for piece in draft["pieces"]:
        for mark in piece["marks"]:
            whole, _, part = mark["across"].rpartition(" ") if "/" in mark["across"] else (mark["across"], "", "")
            top, _, bottom = part.partition("/")
            value = (float(whole or 0) + (float(top) / float(bottom) if part else 0)) * (25.4 if "/" in step else 10)
            assert abs(value - mark["x"]) <= size / 2 + 1e-4
    back = after(read, act.ReadOn("g1", "0.5"))
    assert back.book.garment("g1").reads == ""
    assert read_on_tape(frozen, "") == read_chalking(frozen.draft, frozen.order)


def test_ticks_stay_when_the_tape_changes(demo, frozen):
    chalking = begun(demo, frozen)
    first = read_on_tape(frozen, "").items[0].key
    ticked = after(chalking, act.MarkDone("g1", first))
    read = after(ticked, act.ReadOn("g1", "1/8")).book.garment("g1")
    assert (read.chalk_done, read.chalk_at) == (
        ticked.book.garment("g1").chalk_done,
        ticked.book.garment("g1").chalk_at,
    )
    assert read.chalk_done


def test_one_goes_on_at_the_same_thing_or_at_the_next_that_this_tape_says_too(demo, frozen):
    chalking = begun(demo, frozen)
    fine, coarse = (read_on_tape(frozen, step).items for step in ("", "1/4"))
    keys = [item.key for item in coarse]
    assert any(item.key not in keys for item in fine), "this order says something that a coarse tape leaves out"
    for at, item in enumerate(fine):
        read = after(chalking, act.ChalkAt("g1", item.key), act.ReadOn("g1", "1/4")).book.garment("g1")
        assert read.chalk_at == next((each.key for each in fine[at:] if each.key in keys), "end")
        if item.key in keys:
            assert read.chalk_at == item.key


def test_a_tape_that_would_close_a_ring_is_not_taken_and_says_so(demo, frozen):
    closed = FrozenDraft(frozen.order, frozen.draft, frozen.others | {"1/4": OtherTape(says="The neck is too narrow.")})
    refused = after(begun(demo, closed), act.ReadOn("g1", "1/4"))
    assert refused.book.garment("g1").reads == ""
    assert refused.notice is not None
    assert "The neck is too narrow." in refused.notice.words
    assert refused.notice.tone == "caution"
    taken = after(refused, act.ReadOn("g1", "1/8"))
    assert taken.book.garment("g1").reads == "1/8"


def test_it_is_kept_and_an_older_record_reads_as_it_was_frozen(demo, frozen):
    state = after(begun(demo, frozen), act.ReadOn("g1", "0.1"))
    assert read("frozen.g1", text_of(frozen)) == frozen
    assert again(state.book).garment("g1").reads == "0.1"
    first = {"format": "foldmark-frozen", "version": 1, "order": frozen.order, "draft": frozen.draft}
    older = read("frozen.g1", json.dumps(first))
    assert older == FrozenDraft(frozen.order, frozen.draft)
    assert read_on_tape(older, "0.1") == read_chalking(frozen.draft, frozen.order)
    assert after(begun(demo, older), act.ReadOn("g1", "0.1")).book.garment("g1").reads == ""
    damaged = FrozenDraft(frozen.order, frozen.draft, {"0.1": OtherTape("damaged")})
    assert read_on_tape(damaged, "0.1") == read_chalking(frozen.draft, frozen.order)


def test_a_new_draft_begins_on_its_own_tape(demo, frozen):
    state = after(begun(demo, frozen), act.ReadOn("g1", "1/8"))
    assert after(state, act.DraftAgain("g1")).book.garment("g1").reads == ""
    copied = after(state, act.CopyGarment("g1")).book.garments[0]
    assert (copied.reads, copied.chalking) == ("", False)
