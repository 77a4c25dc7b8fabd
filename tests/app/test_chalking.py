"""The frozen draft as the chalk screen reads it: the 0 that a reading is taken from."""

import json
from dataclasses import asdict
from pathlib import Path

import pytest

from app import actions as act
from app.chalking import Chalking, read_chalking
from app.state import GarmentRecord, read_frozen
from app.update import start, update
from app.update_garment import chalking_of, item_at
from drafting.documents import draft_json
from drafting.order import make
from tests.drafting.bodies import BODIES, Data, order, read


def shown(record: Data, typed: Data, key: str) -> tuple[tuple[str, str], ...]:
    chalking: Chalking | None = read_chalking(json.dumps(record), json.dumps(typed))
    assert chalking is not None
    return next(item.pairs for item in chalking.items if item.key == key)


def cm(text: str) -> float:
    """A reading in centimetres as millimetres."""
    return float(text) * 10


def test_a_mark_past_the_tape_is_shown_from_the_second_0() -> None:
    cloth = {"width": "200 cm", "stretch_across": 40, "stretch_along": 20}
    typed = {**order(BODIES["tall woman"], {"length": "ankle"}, cloth), "tape": {"unit": "cm", "step": "0.5"}}
    result = make(read(typed), with_ways_out=False)
    assert result.plan is not None
    marks = {mark.id: mark for mark in result.plan.pieces[0].marks}
    hem, waist = marks["hem_corner"], marks["waist"]
    record = json.loads(draft_json(result))
    assert shown(record, typed, "front.hem_corner") == (
        ("across", hem.across.pretty),
        ("down_second", hem.reads.pretty),
    )
    chalking = read_chalking(json.dumps(record), json.dumps(typed))
    assert chalking is not None
    zeros = chalking.pieces["front"].zeros
    assert {each for each in marks if marks[each].zero == 2} == zeros.keys()
    for name, zero in zeros.items():  # the second 0 and what is read from it come to the place of the mark
        assert zero + cm(marks[name].reads.text) == pytest.approx(cm(marks[name].down.text))
    third = json.loads(json.dumps(record))  # a tape so short that there is a third 0
    third["pieces"][0]["zeros"] = ["80.0", "160.0"]
    next(mark for mark in third["pieces"][0]["marks"] if mark["id"] == "hem_corner")["zero"] = 3
    longest = read_chalking(json.dumps(third), json.dumps(typed))
    assert longest is not None
    assert longest.pieces["front"].zeros["hem_corner"] == 1600
    assert shown(record, typed, "front.waist") == (("across", waist.across.pretty), ("down", waist.down.pretty))
    # A draft frozen before tapes had an end has one 0, and still shows its reading.
    for piece in record["pieces"]:
        for mark in piece["marks"]:
            del mark["zero"], mark["reads"]
    assert shown(record, {**typed, "title": "older"}, "front.hem_corner") == (
        ("across", hem.across.pretty),
        ("down", hem.down.pretty),
    )


FROZEN = Path(__file__).parent / "frozen" / "open_ankle_dress.json"


def test_a_record_frozen_by_an_earlier_app_is_read_and_goes_on_where_it_was() -> None:
    """An ankle dress laid open, frozen before tapes had an end; `items` is what that app then showed, by its keys."""
    kept = json.loads(FROZEN.read_text("utf-8"))
    frozen = read_frozen(kept["record"])
    assert frozen is not None
    chalking = read_chalking(frozen.draft, frozen.order)
    assert chalking is not None
    assert len(kept["items"]) > 30
    now = {item.key: [item.kind, [list(pair) for pair in item.pairs]] for item in chalking.items}
    assert {key: now.get(key) for key, *_ in kept["items"]} == {key: rest for key, *rest in kept["items"]}
    # What that app passed over in silence is told now, and shifts no key.
    told = [item.key for item in chalking.items if item.key not in {key for key, *_ in kept["items"]}]
    assert told == ["begin.front", "besides.front.sleeve_end_top"]
    garment = GarmentRecord("g1", chalking=True, chalk_done=("step.0", "front.waist"), chalk_at="step.30")
    book = json.dumps({"format": "foldmark-book", "version": 1, "garments": [asdict(garment)]})
    state = update(start("/")[0], act.Loaded(book, {"g1": kept["record"]}, {}, "/garment/g1/chalk"))[0]
    assert state.garment is not None
    assert state.garment.chalking
    read_back = chalking_of(state, state.garment)
    assert read_back is not None
    at = read_back.items[read_back.index(item_at(state.garment, read_back))]
    assert (at.title, at.piece) == ("Notches", "front")


@pytest.mark.parametrize("lay", ["open", "auto"])
def test_nothing_that_the_plan_says_besides_readings_is_lost(lay: str) -> None:
    """Every sentence of the plan is on the screen but those of readings, which the marks themselves say."""
    cloth = {"width": "200 cm", "stretch_across": 40, "stretch_along": 20, "lay": lay}
    typed = order(BODIES["median woman"], {"length": "hip"}, cloth)
    result = make(read(typed), with_ways_out=False)
    assert result.plan is not None
    assert result.layout is not None
    chalking = read_chalking(draft_json(result).decode(), json.dumps({"tape": {"unit": "cm"}}))
    assert chalking is not None
    shown = " ".join(item.says for item in chalking.items if item.kind == "words")
    seen: set[tuple[str, str]] = set()
    lost = []
    for step in result.plan.steps:
        new = {(step.piece, mark) for mark in step.marks} - seen
        seen |= new
        sentences = [each.strip(" .") for each in step.says.split(". ")]
        lost += [each for each in sentences if each not in shown and not (new and each.startswith("In centimetres: ("))]
    assert lost == []
    front = result.plan.pieces[0]
    assert front.look is not None
    keys = [item.key for item in chalking.items]
    at = keys.index("look.front")
    look = chalking.items[at]
    assert (look.kind, look.says, look.ends) == ("words", front.look.says, (front.look.mark,))
    assert shown.count(front.look.says) == 1, "said once, where its mark is lit"
    assert [item.kind for item in chalking.items[at - len(front.proofs) : at]] == ["proof"] * len(front.proofs)
    if lay == "open":
        assert "Chalk one half first, then its mirror" in shown
