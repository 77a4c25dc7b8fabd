"""What keys do on the chalk screen."""

import pytest

from app import actions as act
from app.chalking import Chalking
from app.screens import chalk_key
from app.state import Place, State
from app.update import update
from app.update_garment import END, chalking_of
from tests.app.chalking_app import in_work

BOOK, FROZEN = in_work()


CHALK = Place("chalk", "g1")


def at(key: int | None = 3, lit: str = "", place: Place = CHALK) -> State:
    """The chalk screen at an item, or at the end."""
    state = State(book=BOOK, frozen=FROZEN, loaded=True)
    item = END if key is None else keys(state)[key]
    garments = tuple(
        each if each.id != "g1" else type(each)(each.id, person=each.person, chalking=True, chalk_at=item)
        for each in BOOK.garments
    )
    return State(book=type(BOOK)(BOOK.people, garments), place=place, frozen=FROZEN, loaded=True, lit=lit)


def keys(state: State) -> list[str]:
    garment = state.book.garment("g1")
    assert garment is not None
    chalking = chalking_of(state, garment)
    assert isinstance(chalking, Chalking)
    return [item.key for item in chalking.items]


@pytest.mark.parametrize("key", ["Arrow Left", "Backspace"])
def test_left_and_backspace_go_back(key: str) -> None:
    state = at(3)
    assert chalk_key(state, key) == act.ChalkBack("g1", keys(state)[3])
    assert chalk_key(at(None), key) == act.ChalkBack("g1", END)


def test_right_goes_on_without_ticking() -> None:
    state = at(3)
    action = chalk_key(state, "Arrow Right")
    assert action == act.ChalkOn("g1", keys(state)[3])
    after = update(state, action)[0].garment
    assert after is not None
    assert (after.chalk_at, after.chalk_done) == (keys(state)[4], ())


def test_a_mark_that_is_only_looked_at_is_left_first() -> None:
    state = at(3, lit=keys(at())[9])
    for key in ("Arrow Left", "Backspace", "Arrow Right", "Escape"):
        assert chalk_key(state, key) == act.LightMark("")
    assert chalk_key(at(3), "Escape") is None


@pytest.mark.parametrize("place", [Place("chalk", "g1", step=1), Place("proof", "g1"), Place()])
def test_no_other_screen_knows_these_keys(place: Place) -> None:
    assert chalk_key(at(3, place=place), "Arrow Left") is None
    assert chalk_key(at(3), "A") is None
    assert chalk_key(at(3), " ") is None, "Space is the focused button's own"
