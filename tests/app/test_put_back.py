"""The choices put back as they were when the chalking began: all that differs, nothing else, and to nobody else."""

import json
from dataclasses import replace
from pathlib import Path

import pytest

from app import actions as act
from app.compared import Difference, differences
from app.put_back import put_back
from app.state import Drafted, FrozenDraft, Place, State
from app.typed import order_of, order_text
from app.update import start, update
from drafting.order import make, read_order
from drafting.record.documents import draft_json
from tests.app.records import loaded
from tests.app.test_shown import screen

DEMO = (Path(__file__).resolve().parents[2] / "assets" / "demo" / "order.json").read_text("utf-8")
BACK = "Put the choices back as they were"


def after(state: State, *actions: act.Action) -> State:
    for action in actions:
        state = update(state, action)[0]
    return state


@pytest.fixture(scope="module")
def chalking() -> State:
    state = after(start("/")[0], loaded(), act.AddDemo(DEMO))
    assert state.garment is not None
    typed, _ = order_of(state.garment, state.person)
    order, _ = read_order(typed)
    assert typed is not None
    assert order is not None
    frozen = FrozenDraft(order_text(typed), draft_json(make(order, with_ways_out=False)).decode())
    return after(state, act.StartChalking("g1"), act.Froze("g1", frozen))


def found(state: State) -> tuple[Difference, ...]:
    garment = state.book.garment("g1")
    assert garment is not None
    return differences(state.frozen["g1"].order, garment, state.book.person(garment.person))


def test_what_is_only_written_otherwise_is_left_alone(chalking: State) -> None:
    assert found(chalking) == ()
    same = after(
        chalking, act.TypeTitle("g1", "Another name"), act.TypeName("p2", "Runa"), act.TypeTakenOn("p2", ""),
        act.TypeMeasure("p2", "bust_girth", "940 mm"), act.SetCloth("g1", "width", "1,6 m"), act.ChooseUnit("p2", "in"),
        act.SetTape("g1", "0.5"), act.SetCloth("g1", "stretch_across", "50,0"), act.SetCloth("g1", "lay_price", "12"),
        act.SetCloth("g1", "test_along_marked", "10"),
    )  # fmt: skip
    assert found(same) == ()
    back = after(same, act.PutBack("g1"))
    assert (back.garment, back.person) == (same.garment, same.person)
    assert found(after(chalking, act.TypeMeasure("p2", "bust_girth", "94.004"))) == ()
    assert len(found(after(chalking, act.TypeMeasure("p2", "bust_girth", "94.006")))) == 1


def test_every_kind_of_choice_goes_back_and_that_can_be_undone(chalking: State) -> None:
    changed = after(
        chalking, act.TypeMeasure("p2", "bust_girth", "98"), act.ChooseKind("p2", "man"),
        act.SetStyle("g1", "length", "knee"), act.SetStyle("g1", "overarm_angle", "25"),
        act.SetCloth("g1", "stretch_across", "40"), act.SetTape("g1", "1/8"), act.SetLine("g1", "stitch"),
        act.TypeTapeLength("g1", "200"), act.TypeAge("p2", "30"),
    )  # fmt: skip
    assert found(changed) == (
        Difference("measures", "bust_girth", "94", "98"), Difference("person", "kind", "woman", "man"),
        Difference("person", "age", None, "30"),
        Difference("style", "length", "hip", "knee"), Difference("style", "overarm_angle", None, "25"),
        Difference("cloth", "stretch_across", "50", "40"), Difference("tape", "tape", "0.5", "1/8"),
        Difference("tape", "length", None, "200"), Difference("tape", "line", "cut", "stitch"),
    )  # fmt: skip
    back = after(changed, act.PutBack("g1"))
    assert (back.garment, back.person, back.frozen) == (chalking.garment, chalking.person, chalking.frozen)
    undone = after(back, act.UndoLast())
    assert (undone.garment, undone.person) == (changed.garment, changed.person)


def test_measures_go_back_to_the_person_it_was_chalked_for_and_to_nobody_else(chalking: State) -> None:
    other = after(
        chalking, act.AddPerson(), act.TypeMeasure("p3", "bust_girth", "80"), act.ChooseUnit("p3", "in"),
        act.Go(Place("shape", "g1")), act.ChoosePerson("g1", "p3"), act.TypeMeasure("p2", "bust_girth", "98"),
    )  # fmt: skip
    back = after(other, act.PutBack("g1"))
    assert found(back) == ()
    assert back.garment is not None
    assert back.garment.person == "p2"
    assert back.book.person("p3") == other.book.person("p3")
    mine = back.book.person("p2")
    assert mine is not None
    assert mine.measures["bust_girth"] == "94"
    drafted = act.DraftCame(Drafted("g1", {}, None, ()))
    gone = after(other, act.DeletePerson("p2"), drafted)
    assert after(gone, act.PutBack("g1")) == gone
    assert BACK not in screen(gone)
    assert BACK in screen(after(other, drafted))


def test_nothing_goes_back_where_nothing_is_chalked(chalking: State) -> None:
    for state in (after(chalking, act.DraftAgain("g1")), after(chalking, act.DeleteGarment("g1"))):
        assert after(state, act.PutBack("g1")) == state
        assert all(each.chalk_for == "" for each in state.book.garments)


def test_a_length_goes_back_as_the_same_length_in_another_unit(chalking: State) -> None:
    inches = after(chalking, act.ChooseUnit("p2", "in"), act.TypeMeasure("p2", "bust_girth", "94"))
    assert Difference("measures", "bust_girth", "94", "94", ("cm", "in")) in found(inches)
    back = after(inches, act.PutBack("g1"))
    assert back.person is not None
    assert back.person.measures["bust_girth"] == "94 cm"
    assert found(back) == ()


def test_a_garment_that_is_not_being_chalked_is_left_alone(chalking: State) -> None:
    garment = chalking.garment
    assert garment is not None
    loose = after(chalking, act.SetStyle("g1", "length", "knee"))
    (other,) = loose.book.garments
    loose = replace(loose, book=replace(loose.book, garments=(replace(other, chalking=False),)))
    assert after(loose, act.PutBack("g1")) == loose


def test_a_measure_that_a_garment_told_is_marked_again_when_it_is_put_back(chalking: State) -> None:
    order = json.loads(chalking.frozen["g1"].order)
    order["person"]["told"] = ["bust_girth"]
    garment, person = chalking.book.garment("g1"), chalking.book.person("p2")
    assert garment is not None
    assert person is not None
    taken = replace(
        person, measures=person.measures | {"bust_girth": "97", "hip_girth": "99"}, told=("hip_girth", "waist_girth")
    )
    _, back = put_back(garment, taken, order_text(order))
    assert back.measures == person.measures
    assert sorted(back.told) == ["bust_girth", "waist_girth"]
    unmarked = order_text(order | {"person": {key: each for key, each in order["person"].items() if key != "told"}})
    assert differences(unmarked, garment, replace(person, told=("bust_girth",))) == (), "it is no other choice"
