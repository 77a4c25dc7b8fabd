"""What home shows of a long book."""

from dataclasses import replace

from app import actions as act
from app.found import garments_found, people_found
from app.state import CARDS, Book, GarmentRecord, PersonRecord, Place, State
from tests.app.test_shown import after, screen

PEOPLE = (PersonRecord("p1", "Runa"), PersonRecord("p2", "ada"), PersonRecord("p3", notes="swims"))
GARMENTS = (
    GarmentRecord("g9", "Harbour tunic", "p1", state="sewn"), GarmentRecord("g8", "Skirt", "p2", chalking=True),
    GarmentRecord("g7", "Poncho", "p3", notes="for the harbour"), GarmentRecord("g6", "Dress", "p1", state="cut"),
)  # fmt: skip
STATE = State(Book(PEOPLE, GARMENTS), loaded=True)


def ids(state: State) -> list[str]:
    return [each.id for each in garments_found(state)]


def test_one_looks_by_name_person_or_notes():
    assert ids(STATE) == ["g9", "g8", "g7", "g6"]
    assert ids(after(STATE, act.LookFor("HARBOUR"))) == ["g9", "g7"]
    assert ids(after(STATE, act.LookFor(" runa "))) == ["g9", "g6"]
    assert ids(after(STATE, act.LookFor("nothing"))) == []
    assert [each.id for each in people_found(after(STATE, act.LookFor("swim")))] == ["p3"]
    assert len(people_found(STATE)) == 3


def test_the_order_is_by_age_person_or_state():
    assert ids(after(STATE, act.SortBy("person"))) == ["g8", "g9", "g6", "g7"], "who has no name comes last"
    assert ids(after(STATE, act.SortBy("state"))) == ["g8", "g7", "g6", "g9"]
    assert ids(after(STATE, act.SortBy("state"), act.SortBy("newest"))) == ids(STATE)


def test_a_long_book_is_shown_in_parts():
    many = tuple(GarmentRecord(f"g{number}", f"No {number}", "p1") for number in range(CARDS * 2 + 1, 0, -1))
    state = replace(STATE, book=Book(PEOPLE, many), place=Place())
    shown = screen(state)
    assert "No 25" in shown
    assert "No 13" not in shown
    assert "Show more" in shown
    more = after(state, act.ShowMore())
    assert "No 1" in screen(more)
    assert "Show more" not in screen(more)
    assert after(more, act.LookFor("No 2")).shown == CARDS, "what is looked for begins at the top"
    assert "Nothing here is called that." in screen(after(state, act.LookFor("xyz")))
