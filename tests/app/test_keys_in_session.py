"""How a session keeps the keyboard's place: what a key brought there is followed, what a finger did is not."""

import asyncio
from collections.abc import Callable
from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import flet as ft
import pytest

from app import actions as act
from app.main import AGAIN_AFTER, ARRIVES, BY_KEY, SENT_WITHIN, Desk
from app.parts.named import as_one
from app.state import Place
from app.storage import MemoryStore, Record
from tests.app.records import loaded


class Page:
    """As much of a page as a session asks for."""

    def __init__(self) -> None:
        self.services: list[Any] = []
        self.data: Callable[[str], None] | None = None
        self.asked: list[Any] = []
        self.route = "/"

    def run_task(self, call: Any, *_: Any) -> None:
        self.asked.append(call)


def key(name: str) -> Any:
    return SimpleNamespace(key=name, ctrl=False, alt=False, meta=False, shift=False)


def shown(*names: str) -> tuple[ft.Control, dict[str, ft.TextButton]]:
    buttons = {name: ft.TextButton() for name in names}
    return ft.Column([as_one(name, button) for name, button in buttons.items()]), buttons


def session() -> tuple[Desk, Page]:
    page = Page()
    return Desk(page, MemoryStore()), page  # type: ignore[arg-type]


@pytest.fixture
def clock(monkeypatch: pytest.MonkeyPatch) -> SimpleNamespace:
    """A clock that is put forward by hand."""
    now = SimpleNamespace(at=100.0)
    monkeypatch.setattr("app.main.time", SimpleNamespace(monotonic=lambda: now.at))
    return now


def test_what_a_key_brought_there_and_is_gone_hands_the_focus_on(clock: SimpleNamespace) -> None:
    async def job() -> None:
        desk, page = session()
        desk.hand.content, _ = shown("a", "b", "c")
        desk.key(key("Tab"))
        assert page.data is not None
        page.data("b")
        desk.drawn()
        await asyncio.sleep(0)
        assert page.asked == [], "it is still there"
        clock.at += 60  # a draft may take its time
        desk.hand.content, buttons = shown("a", "c")
        desk.drawn()
        await asyncio.sleep(0)
        assert page.asked == [buttons["c"].focus]
        desk.hand.content, buttons = shown("a", "d")
        desk.drawn()
        await asyncio.sleep(0)
        assert page.asked[1:] == [buttons["d"].focus], "and on from there"

    asyncio.run(job())


def test_a_button_that_sleeps_while_it_works_gets_the_focus_back(clock: SimpleNamespace) -> None:
    async def job() -> None:
        desk, page = session()
        desk.hand.content, buttons = shown("a", "b", "c")
        desk.key(key("Tab"))
        assert page.data is not None
        page.data("b")
        clock.at += BY_KEY
        desk.key(key("Enter"))
        page.data("a")  # where the client goes by itself when the button falls asleep
        for busy, asked in (("pages", []), ("", ["b"])):
            desk.state, buttons["b"].disabled = replace(desk.state, busy=busy), bool(busy)
            desk.drawn()
            await asyncio.sleep(0)
            assert page.asked == [buttons[name].focus for name in asked]
        buttons["b"].disabled = True  # for good, with nothing being done
        desk.drawn()
        await asyncio.sleep(0)
        assert page.asked[1:] == [buttons["c"].focus]

    asyncio.run(job())


def test_what_a_finger_brought_there_is_not_followed(clock: SimpleNamespace) -> None:
    async def job() -> None:
        desk, page = session()
        desk.hand.content, _ = shown("a", "b")
        desk.key(key("Tab"))
        assert page.data is not None
        page.data("b")
        clock.at += BY_KEY
        page.data("b")
        desk.hand.content, _ = shown("a")
        desk.drawn()
        await asyncio.sleep(0)
        assert page.asked == []

    asyncio.run(job())


@pytest.mark.parametrize("left", ["hide", "pause", "inactive"])
def test_what_waits_to_be_saved_is_saved_when_the_page_is_left(left: str) -> None:
    async def job() -> None:
        desk, page = session()
        desk.send(loaded())
        desk.send(act.AddPerson())
        desk.lives(ft.AppLifecycleState.SHOW)
        assert page.asked[-1] == desk.ask_needs
        assert desk.effects.finish not in page.asked
        await asyncio.sleep(0)
        desk.lives(ft.AppLifecycleState(left))
        assert page.asked[-1] == desk.effects.finish
        assert await desk.effects._store.load("book") is None, "nothing is saved while somebody may type on"
        await page.asked[-1]()
        assert isinstance(await desk.effects._store.load("person.p1"), Record)

    asyncio.run(job())


@pytest.mark.parametrize(
    ("pressed", "wait", "by_keys"),
    [
        ("Enter", 0.0, True),
        (" ", ARRIVES - 0.1, True),
        ("Enter", ARRIVES, False),
        ("Tab", 0.0, False),
        ("A", 0.0, False),
    ],
)
def test_a_screen_is_come_to_by_enter_or_space_alone(
    clock: SimpleNamespace, pressed: str, wait: float, by_keys: bool
) -> None:
    async def job() -> None:
        desk, page = session()
        desk.send(loaded())
        desk.key(key(pressed))
        clock.at += wait
        desk.send(act.AddPerson())
        assert desk.state.place.screen == "person"
        assert desk.arrived is by_keys
        desk.drawn()
        await asyncio.sleep(2 * AGAIN_AFTER)
        assert (desk._focus in page.asked) is by_keys
        await desk.effects.finish()

    asyncio.run(job())


def test_one_who_comes_to_a_screen_sees_its_first_screenful_and_at_once_the_rest(clock: SimpleNamespace) -> None:
    async def job() -> None:
        desk, _ = session()
        redrawn: list[bool] = []
        desk.redraw = lambda: redrawn.append(desk.arriving)
        desk.send(loaded())
        await asyncio.sleep(10 * SENT_WITHIN)
        assert not any(redrawn), "one who opens the app does not come from another screen"
        redrawn.clear()
        desk.send(act.Go(Place("backup")))
        await asyncio.sleep(10 * SENT_WITHIN)
        assert redrawn
        assert all(redrawn), "nothing is drawn yet"
        redrawn.clear()
        desk.drawn()
        await asyncio.sleep(10 * SENT_WITHIN)
        assert redrawn == [False], "the rest follows by itself"
        redrawn.clear()
        desk.drawn()
        await asyncio.sleep(10 * SENT_WITHIN)
        assert not redrawn, "it is drawn no more often"

    asyncio.run(job())
