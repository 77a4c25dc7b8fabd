"""What is missing is one calm list, and wrong is not called missing."""

import asyncio
import weakref
from typing import Any

import flet as ft
import pytest

from app import actions as act
from app import parts
from app.actions import Action
from app.asked import asked_of
from app.parts.hand import GROWN_WITHIN, LOOK_AFTER, SHOW_AFTER, Hand, place_key
from app.screens.judged import Judged, judged
from app.screens.missing import missing_list
from app.screens.scene import Kept, Scene
from app.state import GarmentRecord, PersonRecord, Place, State
from app.text import words
from app.theme import TOUCH
from app.typed import order_of
from app.update import start, update
from drafting.order import read_order
from drafting.problems import Problem, Severity
from tests.app.records import loaded


def after(*actions: Action) -> State:
    state = start("/")[0]
    for action in (loaded(), act.AddGarment(), *actions):
        state = update(state, action)[0]
    return state


def lists(state: State, sent: list[Action] | None = None) -> dict[str, Any]:
    """The lists for a state, by their name: the title and lines."""
    assert state.garment is not None
    assert state.person is not None
    typed, problems = order_of(state.garment, state.person)
    if typed is not None:
        problems = (*problems, *read_order(typed)[1])
    scene = Scene(state, (sent if sent is not None else []).append, 390, 664, False, Kept())
    return {each.identifier: said(each) for each in missing_list(scene, problems, state.person.kind, page_of)}


def page_of(measure: str) -> int:
    """The page of a measure of the garment that all this is about."""
    return asked_of(PersonRecord(""), GarmentRecord("")).page_of(measure)


def said(control: Any) -> list[str]:
    if isinstance(control, ft.Text):
        return [control.value]
    below = [getattr(control, "content", None), *(getattr(control, "controls", None) or [])]
    return [text for each in below if each is not None for text in said(each)]


CLOTH = [act.SetCloth("g1", key, text) for key, text in (("width", "160"), ("stretch_across", "50"),
                                                         ("stretch_along", "30"))]  # fmt: skip


BODY = [act.TypeMeasure("p2", "stature", "168"), act.TypeMeasure("p2", "bust_girth", "92")]


def test_a_new_garment_has_one_list_of_what_is_missing_by_its_names() -> None:
    assert lists(after()) == {
        "list-missing": [
            words("missing.missing"), words("cloth.width.label"), words("cloth.stretch_across.label"),
            words("cloth.stretch_along.label"),
        ]
    }  # fmt: skip
    found = lists(after(*CLOTH))
    assert found.keys() == {"list-missing"}
    assert "Stature" in found["list-missing"]
    assert len(found["list-missing"]) == 3, "the title, stature and bust"
    assert all(len(line) < 40 for line in found["list-missing"]), "names, no paragraphs"


def test_wrong_is_not_called_missing() -> None:
    found = lists(after(*CLOTH, act.TypeMeasure("p2", "stature", "far")))
    assert "Stature" not in found["list-missing"]
    assert found["list-wrong"][0] == words("missing.wrong")
    assert found["list-wrong"][1].startswith("Stature: “far” cannot be read as a length.")
    assert len(found["list-wrong"]) == 2


def test_a_warning_keeps_nothing_from_being_made() -> None:
    found = lists(after(*CLOTH, act.SetCloth("g1", "width", "62")))
    assert all("sold" not in line for lines in found.values() for line in lines)


@pytest.mark.parametrize(
    ("action", "list_name", "number", "place"),
    [
        (act.SetCloth("g1", "width", ""), "list-missing", 0, Place("cloth", "g1")),
        (act.SetCloth("g1", "width", "x"), "list-wrong", 0, Place("cloth", "g1")),
        (
            act.TypeMeasure("p2", "stature", "x"),
            "list-wrong",
            0,
            Place("person", "g1", "", page_of("stature")),
        ),
        (act.TypeAge("p2", "x"), "list-wrong", 0, Place("person", "g1")),
        (act.SetStyle("g1", "hem_girth", "x"), "list-wrong", 0, Place("shape", "g1")),
    ],
)
def test_each_line_leads_to_its_field(action: Action, list_name: str, number: int, place: Place) -> None:
    state = after(*CLOTH, *BODY, action)
    sent: list[Action] = []
    typed, problems = order_of(state.garment, state.person)  # type: ignore[arg-type]
    if typed is not None:
        problems = (*problems, *read_order(typed)[1])
    scene = Scene(state, sent.append, 390, 664, False, Kept())
    found = {each.identifier: each for each in missing_list(scene, problems, "woman", page_of)}  # type: ignore[attr-defined]
    rows = [each for each in every(found[list_name]) if isinstance(each, ft.TextButton)]
    assert all(row.style.padding.top * 2 + 22 >= TOUCH for row in rows)  # type: ignore[union-attr]
    rows[number].on_click(None)  # type: ignore[misc, call-arg, operator]
    assert sent == [act.Go(place)]


def every(control: Any) -> list[Any]:
    below = [getattr(control, "content", None), *(getattr(control, "controls", None) or [])]
    return [control, *(one for each in below if each is not None for one in every(each))]


def test_the_field_has_the_focus_as_soon_as_its_screen_is_there() -> None:
    async def job() -> list[str]:
        hand, focused = Hand(lambda: None), []

        class Box(ft.TextField):
            async def focus(self) -> None:  # type: ignore[override]
                focused.append(self.data)

        hand.lead_to("cloth-width")
        await asyncio.sleep(LOOK_AFTER * 2.5)
        assert focused == [], "the screen is not there yet"
        hand.content = ft.Column([Box(data="cloth-length"), Box(data="cloth-width")])
        await asyncio.sleep(LOOK_AFTER * 1.8)
        return focused

    assert asyncio.run(job()) == ["cloth-width"]


class Scrolled(ft.Column):
    """What scrolls, and where it was moved to."""

    def __init__(self, moved: list[object], controls: list[ft.Control]) -> None:
        super().__init__(controls, scroll=ft.ScrollMode.AUTO)
        self._moved = moved

    async def scroll_to(self, **to: object) -> None:  # type: ignore[override]
        self._moved.append(to["scroll_key"])


def test_what_opens_at_the_end_of_a_page_is_moved_into_sight() -> None:
    async def job() -> list[object]:
        hand, moved = Hand(lambda: None), list[object]()
        hand.move_to("settings")  # there is no page yet: nothing fails
        await asyncio.sleep(SHOW_AFTER * 1.5)
        hand.content = ft.Column([ft.Text("title"), Scrolled(moved, [ft.Text("words")])])
        hand.move_to("settings")
        await asyncio.sleep(SHOW_AFTER * 1.5)
        return moved

    assert asyncio.run(job()) == ["settings"]


@pytest.mark.parametrize(("wait", "shown"), [(0.0, True), (GROWN_WITHIN - 0.1, True), (GROWN_WITHIN + 0.1, False)])
def test_the_next_field_is_moved_into_sight_once_the_one_before_says_what_is_wrong(wait: float, shown: bool) -> None:
    async def job() -> list[object]:
        hand, moved = Hand(lambda: None), list[object]()
        hand.content = Scrolled(moved, [ft.TextField(data="waist"), ft.TextField(data="hip")])
        for box in hand.content.controls:
            box._parent = weakref.ref(hand.content)
        hand.came("waist")
        await asyncio.sleep(SHOW_AFTER * 1.5)
        assert moved == [], "nothing has grown"
        hand.grew()
        await asyncio.sleep(wait)
        hand.came("hip")
        await asyncio.sleep(SHOW_AFTER * 1.5)
        return moved

    assert asyncio.run(job()) == ([place_key("hip")] if shown else [])


def test_a_field_that_is_empty_is_not_judged_and_a_doubt_is_no_refusal() -> None:
    def told(severity: Severity, typed: str) -> Judged:
        problem = Problem("unit_slip", "cloth.width", severity, "45 cm is 17¾ in", "measure again", (), "45 in")
        return judged((problem,), "cloth.width", typed)

    instead = parts.Instead(words("field.instead", text="45 in"), "45 in")
    assert told("refuse", "45") == Judged("45 cm is 17¾ in. Measure again.", "", instead)
    assert told("warn", "45") == Judged("", "45 cm is 17¾ in. Measure again.", instead)
    assert told("refuse", " ") == Judged()
