"""Addresses lead where they say; whose measures a place shows; the order of what a book holds."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.state import (
    STEPS,
    Book,
    GarmentRecord,
    PersonRecord,
    Place,
    State,
    in_order,
    number_of,
    place_of,
)


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


@pytest.mark.parametrize(("key", "number"), [
    ("g1", 1), ("p12-5f0c91aa", 12), ("g999999999-a", 999_999_999), ("g1000000000", 0), ("", 0), ("Runa", 0), ("7", 0),
])  # fmt: skip
def test_a_record_has_the_number_of_its_id(key, number):
    assert number_of(key) == number


def test_people_stand_oldest_first_and_garments_newest_first():
    ids = ["g10-a", "g9-b", "g2-c", "g10-b"]
    assert [each.id for each in in_order(map(GarmentRecord, ids), newest=True)] == ["g10-b", "g10-a", "g9-b", "g2-c"]
    assert [each.id for each in in_order(map(PersonRecord, ids))] == ["g2-c", "g9-b", "g10-a", "g10-b"]
