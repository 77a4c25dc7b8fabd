"""What a backup would change, and what it changes: nothing that was not asked for, and nothing is lost."""

from dataclasses import fields, replace
from itertools import count
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.backup import REFERS, Backup, lists, read_backup, write_backup
from app.merging import FROZEN, SETTINGS, Choice, Entry, Merged, compare, merge
from app.plain import kinds_of
from app.state import Book, FrozenDraft, GarmentRecord, PersonRecord, Settings
from tests.app.test_backup import CHALKED, a_book, sample
from tests.app.test_shown import DEMO

OTHER = replace(CHALKED, order=CHALKED.order + " ")
Which = tuple[str, str]


def of(book: Book, frozen: dict[str, FrozenDraft] | None = None, **part: Any) -> Backup:
    read = read_backup(write_backup(book, frozen or {}, **part).text.encode())
    assert isinstance(read, Backup)
    return read


def taken(
    book: Book, frozen: dict[str, FrozenDraft], backup: Backup, choices: dict[Which, Choice] | None = None
) -> Merged:
    known = {each.id for kind in lists() for each in getattr(book, kind)}
    numbers = count(91)
    entries = compare(book, frozen, backup)

    def fresh(kind: str) -> str:
        return next(key for key in (f"{kind[0]}{number}" for number in numbers) if key not in known)

    return merge(book, frozen, backup, entries, choices or {}, fresh)


def told(book: Book, frozen: dict[str, FrozenDraft], backup: Backup) -> dict[str, str]:
    return {each.key: each.status for each in compare(book, frozen, backup)}


def put(book: Book, *records: Any) -> Book:
    """The book with these records in place of those with their ids."""
    for each in records:
        kind = "people" if isinstance(each, PersonRecord) else "garments"
        kept = tuple(each if one.id == each.id else one for one in getattr(book, kind))
        book = replace(book, **{kind: kept})
    return book


@settings(max_examples=40, deadline=None)
@given(st.data())
def test_everything_comes_back_into_an_empty_book(data: st.DataObject) -> None:
    book, frozen = a_book(data)
    restored = taken(Book(), {}, of(book, frozen))
    assert restored.book == book
    assert restored.frozen == frozen
    assert sorted(restored.written) == sorted(frozen)
    assert restored.removed == ()


@settings(max_examples=40, deadline=None)
@given(st.data())
def test_what_is_here_stays_as_it_is_unless_it_is_chosen(data: st.DataObject) -> None:
    """Two books that share some ids: with everything left as it is here, no record of here is touched."""
    book, frozen = a_book(data)
    other, drafts = a_book(data)
    backup = of(other, drafts)
    entries = compare(book, frozen, backup)
    stay: dict[Which, Choice] = {each.which: "here" for each in entries}
    merged = taken(book, frozen, backup, stay)
    for kind in lists():
        mine = {each.id: each for each in getattr(book, kind)}
        after = {each.id: each for each in getattr(merged.book, kind)}
        assert mine.items() <= after.items()
        assert after.keys() == mine.keys() | {each.id for each in getattr(other, kind)}
    assert merged.book.settings == book.settings
    assert frozen.items() <= merged.frozen.items()
    assert merged.removed == ()


@settings(max_examples=40, deadline=None)
@given(st.data())
def test_what_the_file_has_is_there_when_both_are_kept(data: st.DataObject) -> None:
    book, frozen = a_book(data)
    other, drafts = a_book(data)
    backup = of(other, drafts)
    both: dict[Which, Choice] = {each.which: "both" for each in compare(book, frozen, backup)}
    merged = taken(book, frozen, backup, both)
    assert all(each in merged.book.people for each in book.people)
    bare = [replace(each, id="", name="") for each in merged.book.people]
    assert all(replace(each, id="", name="") in bare for each in other.people)
    assert frozen.items() <= merged.frozen.items()
    drawn = [(each.draft, each.order) for each in merged.frozen.values()]
    assert all((each.draft, each.order) in drawn for each in drafts.values())


def test_the_same_backup_again_changes_nothing() -> None:
    book, frozen = sample()
    backup = of(book, frozen)
    assert set(told(book, frozen, backup).values()) == {"same"}
    assert taken(book, frozen, backup) == Merged(book, frozen)


def test_each_kind_of_record_is_new_the_same_or_different() -> None:
    book, frozen = sample()
    backup = of(book, frozen)
    here = put(book, replace(book.people[1], age="40"))
    here = replace(here, garments=here.garments[:-1], settings=replace(here.settings, light="light"))
    assert told(here, frozen, backup) == {
        "p1": "same", "p2": "differs", "g1": "new", "g2": "same", "g3": "same", SETTINGS: "differs",
    }  # fmt: skip
    merged = taken(here, frozen, backup)
    assert [each.id for each in merged.book.garments] == ["g3", "g2", "g1"]
    assert merged.book.people == here.people
    assert merged.book.settings == here.settings
    assert (merged.added, merged.changed) == (1, 0)


def test_a_garment_that_is_nobodys_keeps_its_lengths_in_a_book_of_another_unit() -> None:
    """Its bare numbers stand in the unit of its book, which is inches in the backup."""
    book, frozen = sample()
    backup = of(book, frozen)
    here = Book(book.people, settings=Settings("cm"))
    stay: dict[Which, Choice] = {(SETTINGS, SETTINGS): "here"}
    merged = taken(here, {}, backup, stay).book
    nobodys = merged.garment("g3")
    assert nobodys is not None
    assert nobodys.cloth["width"] == f"{book.garments[0].cloth['width']} in"
    assert told(merged, frozen, backup)["g3"] == "same"
    assert told(replace(here, garments=book.garments), frozen, backup)["g3"] == "differs"
    alone = read_backup(write_backup(book, {}, garment="g3").text.encode())
    assert isinstance(alone, Backup)
    assert taken(here, {}, alone).book.garment("g3") == nobodys
    assert told(book, frozen, alone) == {"g3": "same"}


def test_each_difference_can_be_taken_left_or_kept_beside() -> None:
    book, frozen = sample()
    older = replace(book.people[0], measures=book.people[0].measures | {"bust_girth": "90"}, taken_on="2026-01-01")
    here = put(book, older)
    backup = of(book, frozen)
    (entry,) = [each for each in compare(here, frozen, backup) if each.status == "differs"]
    assert entry == Entry("people", "p1", "differs", ("taken_on", "measures"), "file", "here")
    assert taken(here, frozen, backup).book == here
    assert taken(here, frozen, backup, {entry.which: "file"}).book == book
    both = taken(here, frozen, backup, {entry.which: "both"}).book
    assert both.people == (*here.people, replace(book.people[0], id="p91", name="Ilse, copy"))
    assert both.garments == here.garments, "a garment of here stays with the person of here"
    assert compare(book, frozen, of(here, frozen))[0].later == "here"


def test_a_choice_counts_only_where_there_is_one() -> None:
    book, frozen = sample()
    backup = of(book, frozen)
    chosen: dict[Which, Choice] = {("people", "p1"): "both", ("garments", "g1"): "file"}
    assert taken(book, frozen, backup, chosen) == Merged(book, frozen)
    assert taken(Book(), {}, backup, {("people", "p1"): "here"}).book.people == book.people


def test_another_person_under_the_same_id_is_kept_beside_and_keeps_her_garments() -> None:
    book, frozen = sample()
    here = Book((PersonRecord("p1", "Ngozi"),), (GarmentRecord("g9", person="p1"),))
    merged = taken(here, {}, of(book, frozen))
    assert [each.name for each in merged.book.people] == ["Ngozi", "Otto", "Ilse"]
    whose = {each.id: each.person for each in merged.book.garments}
    assert whose == {"g9": "p1", "g1": "p91", "g2": "p91", "g3": ""}


def test_a_frozen_draft_that_is_missing_here_comes_back_and_one_that_differs_is_asked_about() -> None:
    book, frozen = sample()
    backup = of(book, frozen)
    assert told(book, {}, backup)["g2"] == "draft"
    back = taken(book, {}, backup)
    assert (back.book, back.frozen, back.written) == (book, frozen, ("g2",))
    (entry,) = [each for each in compare(book, {"g2": OTHER}, backup) if each.status == "differs"]
    assert (entry.key, entry.differing, entry.usual) == ("g2", (FROZEN,), "here")
    assert taken(book, {"g2": OTHER}, backup).frozen == {"g2": OTHER}
    chosen = taken(book, {"g2": OTHER}, backup, {entry.which: "file"})
    assert (chosen.frozen, chosen.written) == (frozen, ("g2",))
    both = taken(book, {"g2": OTHER}, backup, {entry.which: "both"})
    assert both.frozen == {"g2": OTHER, "g91": CHALKED}
    unread = compare(book, {}, backup, frozenset({"g2"}))
    assert [each.status for each in unread if each.key == "g2"] == ["differs"], "it is kept here and may be read again"


def test_a_garment_taken_without_chalking_lets_go_of_the_draft_frozen_for_it() -> None:
    book, frozen = sample()
    plain = put(book, book.garments[1].unchalked())
    backup = of(plain)
    (entry,) = [each for each in compare(book, frozen, backup) if each.status == "differs"]
    assert entry.usual == "here"
    assert taken(book, frozen, backup).frozen == frozen
    chosen = taken(book, frozen, backup, {entry.which: "file"})
    assert (chosen.book, chosen.frozen, chosen.removed) == (plain, {}, ("g2",))


def test_a_backup_that_lacks_a_frozen_draft_takes_no_tick_away() -> None:
    book, frozen = sample()
    lacking = of(book, {})
    assert lacking.lost == ("g2",)
    assert set(told(book, frozen, lacking).values()) == {"same"}
    further = put(book, replace(book.garments[1], chalk_done=("front.a", "front.b"), title="Blue"))
    entries = compare(further, frozen, lacking)
    assert [each.differing for each in entries if each.status == "differs"] == [("title",)]
    chosen = taken(further, frozen, lacking, {("garments", "g2"): "file"})
    assert chosen.book.garment("g2") == replace(further.garments[1], title="")
    assert chosen.frozen == frozen
    alone = taken(Book(), {}, lacking).book.garment("g2")
    assert alone is not None
    assert not alone.chalking
    assert alone.chalk_done == ()


def test_settings_are_taken_into_an_empty_book_and_asked_about_otherwise() -> None:
    book, frozen = sample()
    backup = of(book, frozen)
    assert taken(Book(), {}, backup).book.settings == book.settings
    here = Book((PersonRecord("p7"),))
    assert taken(here, {}, backup).book.settings == Settings()
    assert taken(here, {}, backup, {(SETTINGS, SETTINGS): "file"}).book.settings == book.settings
    assert SETTINGS not in told(here, {}, of(book, frozen, person="p1"))


def test_an_order_is_a_new_garment_for_the_person_if_she_is_known() -> None:
    order = read_backup(DEMO.encode())
    assert isinstance(order, Backup)
    first = taken(Book(), {}, order)
    assert (first.book.people[0].id, first.book.garments[0].id) == ("p91", "g92")
    assert first.book.garments[0].person == "p91"
    assert first.added == 2
    again = taken(replace(first.book, garments=()), {}, order)
    assert [each.id for each in again.book.people] == ["p91"]
    assert again.book.garments[0].person == "p91"
    other = put(first.book, replace(first.book.people[0], age="30"))
    assert len(taken(other, {}, order).book.people) == 2


def test_every_field_that_names_another_record_is_known() -> None:
    """A field that is called as a list of records is, in the singular, names one of them."""
    singular = {"people": "person", "garments": "garment", "cloths": "cloth"}
    for kind, record in lists().items():
        named = {each.name for each in fields(record) if each.name.removeprefix("of_") in singular.values()}
        texts = {name for name in named if kinds_of(record)[name] is str}
        assert texts - {"garment"} == set(REFERS.get(kind, {})) - {"chalk_for"}, "“garment” says which one it is"


@pytest.mark.parametrize("kind", list(lists()))
def test_a_record_has_an_id(kind: str) -> None:
    assert kinds_of(lists()[kind])["id"] is str
