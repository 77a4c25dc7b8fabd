"""What was changed after chalking began is said: what it was, what it is, and which marks a new draft would move."""

import json
from dataclasses import replace
from math import dist
from pathlib import Path

import pytest

from app import actions as act
from app.changed import changed_of, moved_words
from app.compared import differences
from app.state import Drafted, FrozenDraft, State
from app.text import words
from app.typed import order_of, order_text, records_of
from app.update import start, update
from app.update_garment import chalking_of
from drafting.order import make, read_order
from drafting.record.documents import draft_json
from tests.app.records import again, loaded

DEMO = (Path(__file__).resolve().parents[2] / "assets" / "demo" / "order.json").read_text("utf-8")


def after(state: State, *actions: act.Action) -> State:
    for action in actions:
        state = update(state, action)[0]
    return state


def drafted(state: State) -> Drafted:
    """What the core answers for the garment as it is now."""
    garment = state.book.garment("g1")
    typed, problems = order_of(garment, state.book.person(garment.person))
    order, _ = read_order(typed)
    result = None if order is None else make(order, with_ways_out=False)
    return Drafted("g1", typed, result, problems, laid=True)


@pytest.fixture(scope="module")
def chalking() -> State:
    state = after(start("/")[0], loaded(), act.AddDemo(DEMO))
    answer = drafted(state)
    frozen = FrozenDraft(order_text(answer.typed), draft_json(answer.result).decode())
    return after(state, act.StartChalking("g1"), act.Froze("g1", frozen))


def found(state: State, answer: Drafted | None = None):
    garment = state.book.garment("g1")
    return changed_of(garment, state.book.person(garment.person), state.frozen.get("g1"), answer)


def measure(state: State, name: str, text: str) -> State:
    return after(state, act.TypeMeasure(state.book.garment("g1").person, name, text))


def test_nothing_is_said_while_all_is_as_it_was_chalked(chalking):
    assert found(chalking, drafted(chalking)) is None
    person = chalking.book.garment("g1").person
    other = after(chalking, act.TypeName(person, "Another name"), act.TypeTitle("g1", "Another title"))
    assert found(other, drafted(other)) is None
    before = chalking.book.person(person).measures["bust_girth"]
    assert found(measure(chalking, "bust_girth", f"{before} cm"), None) is None, "the same length written otherwise"
    assert found(replace(chalking, frozen={}), None) is None


def test_a_measure_is_told_with_what_it_was_and_is_and_the_marks_that_move(chalking):
    person = chalking.book.garment("g1").person
    before = float(chalking.book.person(person).measures["bust_girth"])
    state = measure(chalking, "bust_girth", f"{before + 4:g}")
    answer = drafted(state)
    changed = found(state, answer)
    assert changed is not None
    assert changed.says == (f"Bust girth: {before:g} cm when it was chalked, {before + 4:g} cm now.",)
    # The marks of both drafts, compared by hand.
    front = next(each for each in json.loads(chalking.frozen["g1"].draft)["pieces"] if each["name"] == "front")
    was = {("front", mark["id"]): (mark["x"], mark["y"], mark["order"]) for mark in front["marks"]}
    now = {("front", mark.id): mark.point for mark in answer.result.plan.pieces[0].every}
    both = was.keys() & now.keys()
    away = {key: dist(was[key][:2], (now[key].x, now[key].y)) for key in both}
    moved = {key for key in both if away[key] >= 0.5}
    assert changed.moves is not None
    assert 0 < changed.moves.count == len(moved) < changed.moves.every == len(both)
    assert changed.moves.far == pytest.approx(max(away.values()))
    assert changed.moves.number == was[max(away, key=lambda key: away[key])][2]
    assert changed.moves.others == (was.keys() != now.keys())
    says = moved_words(changed, "cm")
    assert f"move {len(moved)} of {len(both)} marks" in says
    garment = chalking.book.garment("g1")
    done = sum(1 for item in chalking_of(chalking, garment).items if item.kind == "mark")
    assert len(both) == done, "the end of the chalking counts as many; the back is traced from the front"
    assert found(state, None).moves is None
    assert moved_words(found(state, None), "cm") == words("changed.waiting")
    assert moved_words(found(state, replace(answer, laid=False)), "cm") == words("changed.waiting")


@pytest.mark.parametrize(
    ("action", "says"),
    [
        (act.SetStyle("g1", "length", "knee"), "Length, finished: hip when it was chalked, knee now."),
        (act.SetStyle("g1", "hem_girth", "130"), "Hem girth"),
        (act.SetCloth("g1", "width", "140"), "Width of the cloth: "),
        (act.SetCloth("g1", "stretch_across", "70"), "Stretch across the cloth: "),
        (act.SetTape("g1", "1/8"), "The tape you chalk with"),
        (act.SetLine("g1", "stitch"), "The line to chalk: Cutting line when it was chalked, Stitching line now."),
        (act.SetCloth("g1", "one_way", "yes"), "Does the cloth have a nap or a shade?"),
    ],
)  # fmt: skip
def test_each_choice_is_told_in_its_own_words(chalking, action, says):
    changed = found(after(chalking, action))
    assert changed is not None
    assert len(changed.says) == 1
    assert says in changed.says[0]
    assert changed.says[0].endswith(".")
    assert not any(sign in changed.says[0] for sign in ("_", "None", "True", "False", "::"))


def test_lengths_are_told_in_the_unit_of_now_and_the_tape_by_its_name(chalking):
    person = chalking.book.garment("g1").person
    inches = after(chalking, act.ChooseUnit(person, "in"), act.TypeMeasure(person, "bust_girth", "40"))
    says = found(inches).says
    assert says[0] == "Bust girth: 37 in when it was chalked, 40 in now."
    tape = found(after(chalking, act.SetTape("g1", "1/8"))).says
    was, now = words("tape.cm5"), words("tape.in8")
    assert tape == (words("changed.one", what=words("cloth.tape"), was=was, now=now),)


def test_what_is_no_longer_chosen_and_what_is_chosen_anew_are_told_apart(chalking):
    gone = found(after(chalking, act.SetStyle("g1", "length", None))).says
    assert gone == (words("changed.gone", what="Length, finished", was="hip"),)
    added = found(after(chalking, act.SetCloth("g1", "length", "300"))).says
    assert added == (words("changed.added", what=words("cloth.length.label"), now="300 cm"),)


def test_a_tapes_length_counts_by_its_length_however_it_is_written(chalking):
    state = after(chalking, act.TypeTapeLength("g1", "200"))
    frozen = {"g1": FrozenDraft(order_text(drafted(state).typed), chalking.frozen["g1"].draft)}
    known = replace(state, frozen=frozen)
    assert found(known) is None
    assert found(after(known, act.TypeTapeLength("g1", "200 cm"))) is None
    assert found(after(known, act.TypeTapeLength("g1", "2 m"))) is None
    changed = found(after(known, act.TypeTapeLength("g1", "201")))
    assert changed is not None
    assert changed.says == ("How long the tape is: 200 cm when it was chalked, 201 cm now.",)


def test_what_is_kept_is_not_told_again_until_something_else_changes(chalking):
    state = after(chalking, act.SetStyle("g1", "length", "knee"))
    kept = after(state, act.KeepChalked("g1", found(state).print))
    assert found(kept) is None
    assert found(after(kept, act.SetStyle("g1", "length", "ankle"))) is not None
    assert again(kept.book).garment("g1").kept == kept.book.garment("g1").kept != ""
    assert after(kept, act.DraftAgain("g1")).book.garment("g1").kept == ""


def test_what_cannot_be_chalked_now_is_told(chalking):
    state = after(chalking, act.SetCloth("g1", "width", "20"))
    changed = found(state, drafted(state))
    assert changed is not None
    assert changed.stopped
    assert moved_words(changed, "cm") == words("changed.stopped")
    unread = after(chalking, act.SetCloth("g1", "stretch_across", "much"))
    changed = found(unread)
    assert changed is not None
    assert changed.says == (words("changed.unread"),)


def test_a_change_that_moves_nothing_says_so(chalking):
    state = after(chalking, act.SetCloth("g1", "length", "300"))
    changed = found(state, drafted(state))
    assert changed is not None
    assert moved_words(changed, "cm") == words("changed.still")


@pytest.mark.parametrize(("style", "counts"), [({}, False), ({"pockets": "in_seam"}, True)])
def test_a_measure_that_only_some_styles_rest_on_counts_for_those(style, counts):
    """An opening in a side seam rests on the hand, and nothing else of a skirt does."""
    typed = json.loads(DEMO) | {"garment": "knit_skirt", "style": style}
    was, person = records_of(typed, "g1", "p1")
    found = differences(order_text(typed), was, replace(person, measures={**person.measures, "hand_girth": "21"}))
    assert [(each.folder, each.key, each.now) for each in found] == [("measures", "hand_girth", "21")] * counts
