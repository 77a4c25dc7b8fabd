"""Measures of several days: what is kept of them, what changed, and which ones a garment stays with."""

from dataclasses import fields, replace

import pytest

from app import actions as act
from app.asked import asked_of
from app.measured import before_words, changes_since, due, grown, next_set, two_tapes
from app.parts import curve_places
from app.state import Book, GarmentRecord, MeasureSet, PersonRecord, Place, State
from app.text import words
from app.typed import order_of
from app.update import update
from tests.app.records import again
from tests.app.test_shown import after, demo, screen

RUNA = PersonRecord(
    "p1", "Runa", taken_on="2026-11-02", set="2",
    measures={"bust_girth": "96", "waist_girth": "76", "hip_girth": "101", "stature": "168"},
    earlier=(MeasureSet("1", "2026-05-03", "", {"bust_girth": "94", "waist_girth": "80", "hip_girth": "101 cm"}),),
)  # fmt: skip


def test_what_changed_is_told_the_greatest_first():
    assert changes_since(RUNA) == ("Waist girth −4 cm", "Bust girth +2 cm")
    assert changes_since(replace(RUNA, earlier=())) == ()
    inches = replace(
        RUNA, unit="in", measures={"bust_girth": "37"}, earlier=(MeasureSet("1", measures={"bust_girth": "36 1/2"}),)
    )
    assert changes_since(inches) == ("Bust girth +½ in",)
    unread = replace(RUNA, measures={"bust_girth": "far", "no_such": "3"})
    assert changes_since(unread) == ()


def test_a_measure_says_what_it_was():
    assert before_words(RUNA, "bust_girth") == "It was 94 cm on 2026-05-03."
    assert before_words(RUNA, "hip_girth") == "", "it is what it was"
    assert before_words(RUNA, "stature") == ""
    assert before_words(
        replace(RUNA, earlier=(MeasureSet("1", measures={"bust_girth": "94"}),)), "bust_girth"
    ).endswith("on an earlier day.")


@pytest.mark.parametrize(("kind", "taken", "today", "old"), [
    ("child", "2026-08-04", "2026-11-02", False), ("child", "2026-08-03", "2026-11-02", True),
    ("woman", "2020-01-01", "2026-11-02", False), ("child", "", "2026-11-02", False),
    ("child", "last spring", "2026-11-02", False), ("child", "2026-08-01", "", False),
])  # fmt: skip
def test_a_child_is_to_be_measured_again_after_three_months(kind, taken, today, old):
    assert due(replace(RUNA, kind=kind, taken_on=taken), today) is old


@pytest.mark.parametrize(("second", "said"), [
    ("97", False), ("95", False), ("97.1", True), ("94.9", True), ("", False), ("far", False),
])  # fmt: skip
def test_two_tapes_that_differ_by_more_than_a_centimetre_are_told(second, said):
    assert bool(two_tapes(replace(RUNA, again={"bust_girth": second}), "bust_girth")) is said


def test_a_child_grows_in_a_curve():
    child = replace(
        RUNA, kind="child", taken_on="2026-11-02", measures={"stature": "124"},
        earlier=(
            MeasureSet("1", "2026-05-03", "6", {"stature": "118"}),
            MeasureSet("2", "2026-08-01", "6", {"stature": "121"}),
        ),
    )  # fmt: skip
    growth = grown(child)
    assert growth is not None
    assert growth.heights == (1180.0, 1210.0, 1240.0)
    assert [day.isoformat() for day in growth.days] == ["2026-05-03", "2026-08-01", "2026-11-02"]
    places = curve_places(300, [0, 90, 183], growth.heights)
    assert [x for x, _ in places] == sorted(x for x, _ in places)
    assert [y for _, y in places] == sorted((y for _, y in places), reverse=True), "up is more"
    assert grown(replace(child, earlier=())) is None
    assert grown(replace(child, kind="woman")) is None
    assert curve_places(100, [0, 10], [1200, 1200])[0][1] == curve_places(100, [0, 10], [1200, 1200])[1][1]


def begun() -> State:
    return replace(demo(), today="2026-11-27")


def test_measuring_again_keeps_the_earlier_measures_and_garments_stay_with_them():
    state = begun()
    before = state.book.people[0]
    measured = after(state, act.MeasureAgain("p2"))
    person = measured.book.people[0]
    assert (person.taken_on, person.set, person.again) == ("2026-11-27", "2", {})
    assert person.earlier == (MeasureSet("1", before.taken_on, before.age, before.measures),)
    assert measured.book.garments[0].measured == "1"
    changed, asking = update(measured, act.TypeMeasure("p2", "bust_girth", "110"))
    assert changed.person.measures["bust_girth"] == before.measures["bust_girth"], "the garment stays with the earlier"
    assert changed.newest.measures["bust_girth"] == "110"
    assert not [each for each in asking if type(each).__name__ == "Draft"], "nothing is drafted anew for it"
    newest = after(changed, act.UseMeasures("g1", ""))
    assert newest.person.measures["bust_girth"] == "110"
    assert order_of(newest.garment, newest.person)[0]["person"]["measures"]["bust_girth"] == "110"
    new = after(changed, act.AddGarment("p2"))
    assert new.person.measures["bust_girth"] == "110", "a new one is made with the newest"
    assert after(measured, act.UndoLast()).book.people == state.book.people
    assert after(measured, act.UndoLast()).person == state.person
    assert again(changed.book) == changed.book
    third = after(changed, act.MeasureAgain("p2")).book
    assert [each.id for each in third.people[0].earlier] == ["1", "2"]
    assert third.garments[0].measured == "1"
    assert next_set(third.people[0]) == "4"


@pytest.mark.parametrize(
    "action",
    [
        act.TypeMeasure("p2", "bust_girth", "1"),
        act.TypeAgain("p2", "bust_girth", "1"),
        act.TypeFlat("p2", "half_chest", "46"),
        act.TypeName("p2", "Runa"),
        act.TypeAge("p2", "40"),
        act.TypeTakenOn("p2", "2026-11-26"),
        act.TypeNotes("p2", "after lunch"),
        act.ChooseKind("p2", "man"),
        act.ChooseUnit("p2", "in"),
        act.Go(Place("person", "g1", step=2)),
    ],
)
def test_the_undo_of_new_measures_goes_once_one_goes_on(action):
    measured = after(begun(), act.MeasureAgain("p2"))
    assert measured.notice.undo is not None
    assert after(measured, act.FocusMeasure("bust_girth")).notice == measured.notice, "nothing is typed yet"
    assert after(measured, action).notice is None, "it would lie over the field, and take back what is typed"
    deleted = after(begun(), act.DeletePerson("p2"))
    assert after(deleted, act.AddPerson(), act.Go(Place())).notice == deleted.notice, "what was deleted can be put back"


def test_another_person_comes_with_her_newest_measures():
    state = after(begun(), act.MeasureAgain("p2"), act.AddPerson("g1"))
    assert state.garment.measured == ""
    assert state.garment.person == "p3"


def test_another_unit_leaves_the_lengths_of_every_day():
    state = after(begun(), act.TypeAgain("p2", "bust_girth", "95"), act.MeasureAgain("p2"), act.ChooseUnit("p2", "in"))
    earlier = state.book.people[0].earlier[0]
    assert (earlier.measures["bust_girth"], earlier.again["bust_girth"]) == ("94 cm", "95 cm")


def test_what_is_put_back_goes_to_the_measures_that_were_chalked():
    person = PersonRecord("p1", set="2", measures={"a": "new"}, earlier=(MeasureSet("1", measures={"a": "old"}),))
    old = person.measured("1")
    assert old.measures == {"a": "old"}
    back = person.with_measures(replace(old, measures={"a": "put back"}))
    assert (back.measures, back.earlier[0].measures) == ({"a": "new"}, {"a": "put back"})
    assert person.with_measures(replace(person, measures={"a": "x"})).measures == {"a": "x"}
    assert person.measured("gone") == person


def test_the_page_of_a_person_says_it():
    state = after(
        begun(), act.MeasureAgain("p2"), act.TypeMeasure("p2", "bust_girth", "98"), act.Go(Place("person", "g1"))
    )
    told = screen(state)
    assert "This garment stays with the measures of 2026-10-18." in told
    assert "Make it with the newest measures" in told
    assert "Since 2026-10-18: Bust girth +4 cm." in told
    at = asked_of(state.newest, state.garment).page_of("bust_girth")
    page = screen(after(state, act.Go(Place("person", "g1", step=at))))
    assert "It was 94 cm on 2026-10-18." in page
    assert "Measure it a second time" in page
    twice = after(state, act.Go(Place("person", "g1", step=at)), act.FocusMeasure("again.bust_girth"))
    assert "Bust girth, second tape" in screen(twice)


def test_a_child_is_reminded_on_every_way_and_its_growth_is_drawn():
    measured = after(
        begun(), act.ChooseKind("p2", "child"), act.TypeMeasure("p2", "stature", "121"), act.MeasureAgain("p2"),
        act.TypeMeasure("p2", "stature", "124"), act.Go(Place("person", "g1")),
    )  # fmt: skip
    page = screen(measured)
    ends = {"121 cm on 2026-10-18", "124 cm on 2026-11-27"}
    assert ends <= set(page), "they stand below the ends of the curve"
    places = [Place("person", "g1"), Place("person", person="p2")]
    for today, due_now in (("2027-02-25", False), ("2027-02-26", True)):
        later = replace(measured, today=today)
        for place in places:
            assert (words("set.due") in screen(after(later, act.Go(place)))) is due_now
        for home in (after(later, act.Go(Place())), after(later, act.ChoosePerson("g1", ""))):
            assert bool([each for each in screen(home) if each.endswith(" · measure again")]) is due_now
    grown_up = after(measured, act.ChooseKind("p2", "woman"))
    assert not ends & set(screen(grown_up))


def test_where_two_tapes_differ_it_is_said_at_the_second():
    state = begun()
    at = asked_of(state.newest, state.garment).page_of("bust_girth")
    there = after(state, act.Go(Place("person", "g1", step=at)), act.TypeAgain("p2", "bust_girth", "95"))
    assert not [each for each in screen(there) if each.startswith("The two tapes differ")]
    told = screen(after(there, act.TypeAgain("p2", "bust_girth", "95.5")))
    assert words("set.apart", by="1.5 cm") in told


CARRIED = {
    "style", "cloth", "aside", "tape", "tape_length", "line", "paper", "garment", "of_cloth",
}  # fmt: skip
"""What a garment for another person has of the first one's; a new field of the record is hers unless it is put here."""


def test_the_same_for_another_person_has_nothing_else_of_the_first_garment():
    first = begun().garment
    odd = {
        str: "hers", bool: True, tuple[str, ...]: ("hers",), dict[str, str]: {"hers": "hers"},
        dict[str, dict[str, str]]: {"poncho": {"style.hem": "hers"}},
    }  # fmt: skip
    every = {each.name: odd.get(each.type, "hers") for each in fields(GarmentRecord) if each.name not in CARRIED}
    state = begun()
    full = replace(first, **(every | {"id": "g1", "person": "p2"}))
    full_of_it = replace(state, book=replace(state.book, garments=(full,), pictures={"g1": "1,2 3,4"}))
    after_it = after(full_of_it, act.SameForAnother("g1"))
    new = after_it.book.garments[0]
    assert "hers" not in repr(new)
    assert new == replace(GarmentRecord(new.id, made_on="2026-11-27"), **{name: getattr(new, name) for name in CARRIED})
    assert {getattr(new, name) == getattr(full, name) for name in CARRIED - {"cloth", "style"}} == {True}
    assert new.id not in after_it.book.pictures
    assert new.id not in after_it.frozen


def test_the_same_for_another_person_carries_nothing_that_is_hers():
    state = after(
        begun(), act.TypeTitle("g1", "Runa's"), act.TypeGarmentNotes("g1", "her scar"), act.TypeNotes("p2", "hers"),
        act.TypeCutNotes("g1", "hem −2"), act.SetState("g1", "sewn"), act.StepSewn("g1", "needle"),
        act.MeasureAgain("p2"), act.SheetMeasures("g1", True), act.SameForAnother("g1"),
    )  # fmt: skip
    new = state.book.garments[0]
    assert state.place == Place("person", new.id)
    assert (new.title, new.person, new.notes, new.cut_notes, new.state, new.sewn, new.measured, new.made_on) == (
        "", "", "", "", "", (), "", "2026-11-27",
    )  # fmt: skip
    assert state.book.garments[1].sheet_measures
    assert not new.sheet_measures  # nobody asked for another person's measures on paper
    assert (new.style, new.cloth) == (state.book.garments[1].style, state.book.garments[1].cloth)
    chosen = after(state, act.AddPerson(new.id))
    assert chosen.garment.person == chosen.person.id != "p2"


@pytest.mark.parametrize("leave", [act.SameForAnother("g1"), act.ChoosePerson("g1", ""), act.DeletePerson("p2")])
def test_a_garment_keeps_its_lengths_while_it_is_nobodys(leave):
    """160 cm of cloth stay 160 cm for somebody who uses inches, whatever is chosen while nobody is."""
    inches = after(begun(), act.AddPerson(), act.AddPerson(), act.ChooseUnit("p4", "in"), leave)
    key = inches.book.garments[0].id
    assert inches.book.person(inches.book.garments[0].person) is None
    assert inches.book.garments[0].cloth["width"] == "160 cm"
    assert after(inches, act.ChoosePerson(key, "p4")).book.garments[0].cloth["width"] == "160 cm"
    typed = after(inches, act.SetCloth(key, "width", "63"))
    chosen = after(typed, act.ChoosePerson(key, "p3"))
    assert chosen.book.garments[0].cloth["width"] == "63 in", "that is what bare numbers stood in"
    assert after(typed, act.ChoosePerson(key, "p4")).book.garments[0].cloth["width"] == "63"
    assert after(typed, act.ChooseUnit("p4", "cm")).book.garments[0].cloth["width"] == "63 in"


def test_a_garment_says_how_far_it_is():
    state = begun()
    assert state.garment.stage == "planned"
    assert replace(state.garment, chalking=True).stage == "chalking"
    cut = after(
        state, act.SetState("g1", "cut"), act.TypeCutNotes("g1", "hem 2 cm shorter"), act.Go(Place("notes", "g1"))
    )
    assert cut.garment.stage == "cut"
    assert again(cut.book) == cut.book
    assert "What was really cut" in screen(cut)
    assert "Cut" in screen(after(cut, act.Go(Place())))


def test_a_book_of_one_garment_offers_no_search():
    assert "Look for a garment or a person" not in screen(after(begun(), act.Go(Place())))
    assert isinstance(Book(), Book)
