"""A garment that fits, measured flat on the screen of a person: typed, told, taken as new measures, and drafted."""

from dataclasses import replace

import pytest

from app import actions as act
from app.backup import Backup, read_backup, write_backup
from app.flat import measures_of, missing_of, read_garment, typed_flat
from app.state import FLAT, Drafted, MeasureSet, PersonRecord, Place, State
from app.text import words
from app.typed import order_of, person_of, records_of
from app.update import update
from drafting.cloth import ease_share
from drafting.order import make, read_order
from drafting.person.flat_fields import FLAT_FIELDS
from tests.app.records import again
from tests.app.test_on_person import on_screen, tapped
from tests.app.test_shown import after, demo, parts_of, said, screen

#: A regular pullover of jersey that gives by 40 %, cm.
TYPED = {"stretch_across": "40", "half_chest": "46", "half_hip": "48", "along_sleeve": "60", "half_upper_arm": "17"}


def begun(**typed: str) -> State:
    state = replace(demo(act.Go(Place("person", "g1", step=FLAT))), today="2026-11-27")
    return after(state, *(act.TypeFlat("p2", name, text) for name, text in (TYPED | typed).items()))


def proven(state: State) -> State:
    """The proof of the garment in work, which is drafted."""
    assert state.garment is not None
    typed, problems = order_of(state.garment, state.person)
    order, found = read_order(typed or {})
    assert order is not None, found
    drafted = Drafted("g1", typed or {}, make(order, with_ways_out=False), (*problems, *found))
    return after(state, act.Go(Place("proof", "g1")), act.DraftCame(drafted))


def fields(state: State) -> dict[str, dict[str, object]]:
    names = ((each.kwargs.get("identifier"), each.kwargs) for each in parts_of(on_screen(state)))
    return {str(name): kwargs for name, kwargs in names if str(name).startswith("flat-")}


def test_the_first_page_of_a_person_leads_to_it() -> None:
    state = demo(act.Go(Place("person", "g1")))
    assert tapped(state, words("flat.open")) == [act.Go(Place("person", "g1", step=FLAT))]
    assert set(fields(after(state, act.Go(Place("person", "g1", step=FLAT))))) >= {
        f"flat-{each.name}" for each in FLAT_FIELDS
    }
    alone = replace(state, place=Place("person", person="p2", step=FLAT))
    assert words("flat.title") in screen(alone)


def test_what_is_missing_is_told_and_nothing_can_be_taken_before() -> None:
    bare = demo(act.Go(Place("person", "g1", step=FLAT)))
    told = screen(bare)
    assert "Still missing: stretch of its cloth, round the body and half width at the chest." in told
    assert after(bare, act.TakeFlat("p2")) == bare
    assert fields(bare)["flat-stature"]["value"] == "168", "the wearer's own, where it is known"
    nobody = after(bare, act.TypeMeasure("p2", "stature", ""))
    assert missing_of(nobody.book.people[0])[0] == "Stature of its wearer"


@pytest.mark.parametrize(
    ("name", "typed", "says"),
    [
        ("stretch_across", "a lot", "not a number"),
        ("stretch_across", "900", "outside"),
        ("half_chest", "46 things", "things"),
        ("half_chest", "95", "Was it measured all round?"),
    ],
)
def test_what_cannot_be_right_is_said_at_its_field(name: str, typed: str, says: str) -> None:
    state = begun(**{name: typed})
    at = fields(state)[f"flat-{name}"]
    assert says in str(at["problem"])
    assert at["value"] == typed, "what was typed stays"
    assert words("flat.wrong") in screen(state) or "Still missing" in " ".join(screen(state))
    assert after(state, act.TakeFlat("p2")) == state
    others = [each for key, each in fields(state).items() if key != f"flat-{name}" and each.get("problem")]
    assert others == []


def test_what_it_tells_is_said_with_how_sure_it_is() -> None:
    told = " ".join(screen(begun()))
    assert "Bust girth: about " in told
    assert ", give or take " in told
    assert "Upper arm girth: " in told
    assert " at most, " in told
    assert "It does not tell " in told
    state = begun()
    found, problems = read_garment(state.book.people[0])
    assert problems == ()
    assert found is not None
    bust = next(one for one in found.told if one.measure == "bust_girth")
    assert bust.value == pytest.approx(2 * 460 / (1 + ease_share(0.40, "regular")), abs=0.01)


def test_new_measures_are_made_of_it_and_those_of_the_body_stay_as_they_were() -> None:
    state = begun()
    before = state.book.people[0]
    taken, asked = update(state, act.TakeFlat("p2"))
    person = taken.book.people[0]
    found, _ = read_garment(before)
    assert found is not None
    told = measures_of(found, before)
    assert person.told == tuple(told)
    assert "bust_girth" in told
    assert "stature" not in told, "it was taken on the body"
    assert {name: person.measures[name] for name in told} == told
    rest = {name: text for name, text in before.measures.items() if name not in told}
    assert {name: person.measures[name] for name in rest} == rest
    assert person.earlier == (MeasureSet("1", before.taken_on, before.age, before.measures),)
    assert (person.taken_on, person.set) == ("2026-11-27", "2")
    assert taken.book.garments[0].measured == "1", "what is in work stays with its measures"
    assert taken.place.step == 0
    assert {"GoTo", "SaveBook"} <= {type(each).__name__ for each in asked}
    assert words("flat.set") in screen(taken)
    assert again(taken.book) == taken.book
    assert after(taken, act.UndoLast()).book.people == state.book.people


def test_it_is_drafted_like_any_other() -> None:
    taken = after(begun(), act.TakeFlat("p2"), act.UseMeasures("g1", ""))
    typed, _ = order_of(taken.garment, taken.person)
    assert typed is not None
    assert taken.person is not None
    assert typed["person"]["measures"]["bust_girth"] == taken.person.measures["bust_girth"]
    order, problems = read_order(typed)
    assert order is not None, problems
    result = make(order, with_ways_out=False)
    assert result.draft.pieces
    assert set(order.person.told) == set(taken.person.told), "the order tells which were not measured on the body"
    assert set(result.told) <= set(taken.person.told)
    assert records_of(order.model_dump(mode="json"), "g", "p")[1].told == taken.person.told


def test_an_order_of_a_measured_body_is_what_it_was_before_a_garment_could_tell_any() -> None:
    state = begun()
    typed, _ = order_of(state.garment, state.person)
    assert typed is not None
    assert "told" not in typed["person"]
    emptied = replace(state.person, measures={"bust_girth": " "}, told=("bust_girth",))
    assert "told" not in person_of(emptied, [])


def test_a_measure_that_was_told_is_marked_until_it_is_taken() -> None:
    taken = after(begun(), act.TakeFlat("p2"), act.SetMeasuring("list", 1), act.Go(Place("person", "g1", step=1)))
    assert words("flat.by_garment") in screen(taken)
    person = taken.book.people[0]
    first, *others = person.told
    assert after(taken, act.TypeMeasure("p2", first, "90")).book.people[0].told == tuple(others), (
        "that one alone is taken"
    )
    typed = after(taken, *(act.TypeMeasure("p2", name, "90") for name in person.told))
    assert typed.book.people[0].told == ()
    assert words("flat.by_garment") not in screen(typed)
    assert words("flat.set") not in screen(after(typed, act.Go(Place("person", "g1"))))
    measured = after(taken, act.MeasureAgain("p2"))
    assert measured.book.people[0].told == person.told, "they are begun with, and not taken yet"
    assert measured.book.people[0].earlier[-1].told == person.told


def test_a_second_garment_leaves_the_mark_on_what_only_the_first_told() -> None:
    first = after(begun(), act.TakeFlat("p2")).book.people[0]
    assert "upper_arm_girth" in first.told
    second = after(begun(), act.TakeFlat("p2"), act.TypeFlat("p2", "half_upper_arm", ""), act.TakeFlat("p2"))
    assert set(second.book.people[0].told) == set(first.told)
    assert len(second.book.people[0].told) == len(first.told)


def test_a_garment_that_stays_with_measures_knows_whether_a_garment_told_them() -> None:
    taken = after(begun(), act.TakeFlat("p2"))
    assert taken.person is not None
    assert taken.newest is not None
    assert (taken.person.set, taken.person.told) == ("1", ()), "it stays with those of the body"
    assert taken.newest.told
    chosen = after(taken, act.UseMeasures("g1", ""), act.MeasureAgain("p2"), act.TypeMeasure("p2", "bust_girth", "92"))
    person = chosen.book.people[0]
    assert chosen.person is not None
    assert chosen.person.told == person.earlier[-1].told != person.told
    day = words("set.stays.told", day="2026-11-27")
    assert day in screen(after(chosen, act.Go(Place("person", "g1"))))
    assert day not in screen(after(taken, act.Go(Place("person", "g1"))))
    kept = person.with_measures(chosen.person)
    assert kept == person, "what is put back into those measures leaves the mark on them"


def test_a_backup_brings_what_was_typed_of_it_and_what_it_told() -> None:
    book = after(begun(), act.TakeFlat("p2"), act.MeasureAgain("p2")).book
    found = read_backup(write_backup(book, {}).text.encode())
    assert isinstance(found, Backup)
    assert found.book.people == book.people
    assert found.book.people[0].flat == TYPED
    assert found.book.people[0].earlier[-1].told


def test_where_nobody_was_measured_it_becomes_the_first_measures() -> None:
    new = PersonRecord("p9", unit="in", flat={"stature": "66", "stretch_across": "40", "half_chest": "18 1/8"})
    state = begun()
    state = replace(state, book=replace(state.book, people=(*state.book.people, new)))
    taken = after(state, act.TakeFlat("p9")).book.person("p9")
    assert taken is not None
    assert (taken.earlier, taken.set, taken.measures["stature"]) == ((), "1", "66")
    assert 30 < float(taken.measures["bust_girth"]) < 40, "in her own unit"


def test_another_unit_leaves_its_lengths_and_its_percentage() -> None:
    state = begun(half_chest="46 ")
    before, _ = read_garment(state.book.people[0])
    other = after(state, act.ChooseUnit("p2", "in")).book.people[0]
    assert other.flat["stretch_across"] == "40"
    assert other.flat["half_chest"].strip() == "46 cm"
    assert read_garment(other)[0] == before


def test_a_choice_is_its_first_option_until_another_is_taken() -> None:
    state = begun()
    assert typed_flat(state.book.people[0], "fit") == "regular"
    closer = after(state, act.TypeFlat("p2", "fit", "close"))
    one, other = (read_garment(each.book.people[0])[0] for each in (state, closer))
    assert one is not None
    assert other is not None
    assert one.told[0].value < other.told[0].value, "a closer one leaves a larger body"
    assert said(on_screen(closer))


def test_what_was_measured_in_vain_says_why() -> None:
    straight = screen(begun(half_waist="46"))
    assert "Waist girth: it cannot be told. The sides of the garment run straight past the waist." in straight
    assert not [line for line in screen(begun(half_waist="40")) if "it cannot be told" in line]
    above = screen(after(begun(half_wrist="10"), act.TypeFlat("p2", "ends_at", "above")))
    assert [line.split(":")[0] for line in above if "it cannot be told" in line] == ["Arm length", "Wrist girth"]


def test_the_proof_says_what_a_garment_told() -> None:
    says = "Told by a garment, not measured on the body: bust girth, "
    taken = after(begun(), act.TakeFlat("p2"))
    assert [line for line in screen(proven(after(taken, act.UseMeasures("g1", "")))) if line.startswith(says)]
    assert not [line for line in screen(proven(taken)) if line.startswith(says)], "it stays with those of the body"
