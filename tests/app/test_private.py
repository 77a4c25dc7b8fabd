"""What a person typed is in no address, in no name of a file and in no report."""

import json
import re
from pathlib import Path
from typing import Any

import pytest

from app import actions as act
from app.asks import GoTo, MakeFile
from app.effects import report_of
from app.screens.paper import FILES, PAPERS
from app.state import SCREENS, Place, State
from app.update import start, update
from tests.app.records import loaded

DEMO = (Path(__file__).resolve().parents[2] / "assets" / "demo" / "order.json").read_text("utf-8")
SECRET = "Thorvalda 93.7"
ADDRESS = re.compile(r"/|/backup|/erase|/garment/g[0-9a-z-]+/[a-z]+(/\d+)?|/person/p[0-9a-z-]+(/\d+)?")


def typed() -> str:
    """The demo's order under another name, with other words wherever a person may write."""
    order: dict[str, Any] = json.loads(DEMO)
    return json.dumps({**order, "title": SECRET, "person": {**order["person"], "name": SECRET}})


@pytest.fixture
def state() -> State:
    now = start("/")[0]
    for action in (loaded(), act.AddDemo(typed())):
        now = update(now, action)[0]
    assert SECRET in repr(now), "it is kept in the book"
    return now


def test_an_address_has_numbers_of_records_and_words_of_ours_alone(state: State) -> None:
    (garment,), (person,) = state.book.garments, state.book.people
    places = [Place(screen, garment.id, step=step) for screen in SCREENS[1:] for step in (0, 3)]
    for place in [Place(), Place("person", person=person.id, step=2), *places]:
        assert ADDRESS.fullmatch(place.route), place.route
    for record in (garment.id, person.id):
        assert record.isalnum()
    asked = update(state, act.Go(Place("cloth", garment.id)))[1]
    assert [each.route for each in asked if isinstance(each, GoTo)] == [f"/garment/{garment.id}/cloth"]


@pytest.mark.parametrize("name", [*PAPERS, *FILES])
def test_a_file_is_called_by_what_it_is(state: State, name: str) -> None:
    (garment,) = state.book.garments
    asked = update(state, act.AskFile(garment.id, name))[1]
    assert [each.name for each in asked if isinstance(each, MakeFile)] == [name]
    assert re.fullmatch(r"[a-z-]+\.(pdf|svg|json)", name)


@pytest.mark.parametrize("kind", [ValueError, KeyError, LookupError, UnicodeError])
def test_a_report_says_where_and_never_what(state: State, kind: type[Exception]) -> None:
    def deep(book: str) -> None:
        raise kind(book) from RuntimeError(book)

    with pytest.raises(kind) as caught:
        deep(repr(state.book))
    report = report_of(caught.value, "SetName")
    assert kind.__name__ in report
    assert "test_private.py:" in report
    for part in SECRET.split():
        assert part not in report
    assert "while: SetName" in report
