"""What is saved comes back whole, whatever was typed; what is not ours is refused; addresses lead where they say."""

import json
from dataclasses import fields

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.state import (
    SCREENS,
    STEPS,
    Book,
    FrozenDraft,
    GarmentRecord,
    Gone,
    PersonRecord,
    Place,
    Settings,
    State,
    book_text,
    frozen_text,
    place_of,
    place_text,
    read_book,
    read_frozen,
    read_place,
)

TEXT = st.text(st.characters(exclude_categories=["Cs"]), max_size=30)
TEXTS = st.dictionaries(TEXT, TEXT, max_size=4)
PEOPLE = st.builds(
    PersonRecord, id=TEXT, name=TEXT, kind=st.sampled_from(["woman", "man", "child"]), age=TEXT,
    unit=st.sampled_from(["cm", "in"]), taken_on=TEXT, measures=TEXTS,
)  # fmt: skip
GARMENTS = st.builds(
    GarmentRecord, id=TEXT, title=TEXT, person=TEXT, style=TEXTS, cloth=TEXTS,
    tape=st.sampled_from(["1/8", "1/4", "0.5", "0.1"]), tape_length=TEXT, line=st.sampled_from(["cut", "stitch"]),
    paper=st.sampled_from(["A4", "Letter"]), chalking=st.booleans(),
    chalk_done=st.lists(TEXT, max_size=3).map(tuple), chalk_at=TEXT, sewn=st.lists(TEXT, max_size=3).map(tuple),
)  # fmt: skip
PLACES = st.builds(Place, st.sampled_from(SCREENS), TEXT, TEXT, st.integers(0, 999))
BOOKS = st.builds(
    Book, st.lists(PEOPLE, max_size=2).map(tuple), st.lists(GARMENTS, max_size=2).map(tuple),
    st.builds(
        Settings, st.sampled_from(["cm", "in"]), st.sampled_from(["system", "light", "dark"]),
        st.sampled_from(["left", "right"]), st.sampled_from(["far", "near"]),
    ),
    st.integers(1, 10**6),
    st.none() | st.builds(Gone, TEXT, st.integers(0, 9), st.none() | GARMENTS, st.none() | PEOPLE), TEXTS,
)  # fmt: skip


@given(BOOKS)
def test_a_saved_book_comes_back_as_it_was(book):
    assert read_book(book_text(book)) == book


@given(PLACES)
def test_a_kept_place_comes_back_as_it_was(place):
    assert read_place(place_text(place)) == place


@given(TEXT, TEXT)
def test_a_frozen_draft_comes_back_as_it_was(order, draft):
    assert read_frozen(frozen_text(FrozenDraft(order, draft))) == FrozenDraft(order, draft)


@pytest.mark.parametrize(
    "text",
    ["", "null", "[]", "7", "{", '{"format": "other"}', json.dumps(json.loads(book_text(Book())) | {"version": 2}),
     json.dumps(json.loads(book_text(Book())) | {"people": [{"id": None}]}),
     json.dumps(json.loads(book_text(Book())) | {"people": [{"id": "p1", "kind": "cat"}]}),
     json.dumps(json.loads(book_text(Book())) | {"settings": {"fold": "middle"}}),
     json.dumps(json.loads(book_text(Book())) | {"settings": {"top": "middle"}}),
     json.dumps(json.loads(book_text(Book())) | {"garments": 3})],
)  # fmt: skip
def test_what_is_no_book_of_this_version_is_refused(text):
    assert read_book(text) is None


@pytest.mark.parametrize("text", ["", "[]", "{}", '{"format": "foldmark-frozen"}', book_text(Book())])
def test_what_is_no_frozen_draft_is_refused(text):
    assert read_frozen(text) is None


def test_a_key_that_an_older_app_did_not_write_takes_its_default():
    book = Book(people=(PersonRecord("p1", "Ngozi"),), garments=(GarmentRecord("g1", person="p1"),))
    saved = json.loads(book_text(book))
    for folder, kind in (("people", PersonRecord), ("garments", GarmentRecord)):
        for field in fields(kind):
            if field.name not in ("id", "name", "person"):
                less = json.loads(book_text(book))
                del less[folder][0][field.name]
                assert read_book(json.dumps(less)) == book
    assert read_book(json.dumps(saved | {"from_later": 1})) == book


@given(st.sampled_from(STEPS), st.integers(0, 999))
def test_an_address_leads_back_to_its_place(screen, step):
    for place in (Place(), Place("person", person="p7", step=step), Place(screen, "g3", step=step)):
        assert place_of(place.route) == place
        assert place_of(place.route + "?from=elsewhere") == place


@pytest.mark.parametrize(
    "route",
    ["/nowhere", "/garment", "/garment/g1", "/garment/g1/home", "/garment/g1/dance", "/person", "/person/p1/x",
     "/person/p1/1/2", "/garment/g1/shape/-1", "/garment/g1/shape/9999"],
)  # fmt: skip
def test_an_address_that_leads_nowhere_is_seen(route):
    assert place_of(route) is None


def test_the_person_of_a_garment_comes_before_the_one_looked_at():
    people = (PersonRecord("p1"), PersonRecord("p2"))
    book = Book(people, (GarmentRecord("g1", person="p2"),))
    assert State(book, Place("shape", "g1", "p1")).person == people[1]
    assert State(book, Place("person", person="p1")).person == people[0]
