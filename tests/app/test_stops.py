"""What the keyboard can stop at on a page, and where it goes on when what it was at has gone."""

import asyncio

import flet as ft
import pytest

from app.parts import after, stops_in
from app.parts.hand import Hand, Held
from app.parts.named import as_one
from app.parts.stops import tells


def button(name: str, *, enabled: bool = True) -> ft.Control:
    return as_one(name, ft.TextButton(disabled=not enabled))


def page(*names: str) -> list[tuple[str, ft.Control]]:
    return list(stops_in(ft.Column([button(name) for name in names])))


def test_everything_that_can_be_stopped_at_is_found_in_the_order_of_the_page() -> None:
    whole = ft.Column(
        [
            ft.Row([button("first"), ft.Text("words"), button("asleep", enabled=False)]),
            ft.Semantics(identifier="group", content=ft.Column([as_one("chip", ft.Radio(value="a"))])),
            as_one("field", ft.TextField()),
            ft.Container(ft.Stack([as_one("wide", ft.FilledButton())])),
            ft.Semantics(identifier="title", content=ft.KeyboardListener(ft.Text("title"))),
        ]
    )
    assert [name for name, _ in stops_in(whole)] == ["first", "chip", "field", "wide", "title"]


@pytest.mark.parametrize(
    ("gone", "now", "goes_to"),
    [
        ("b", ("a", "c", "d"), "c"),
        ("b", ("a", "new", "c"), "new"),
        ("a", ("b", "c"), "b"),
        ("d", ("a", "b", "c"), "c"),
        ("c", ("a", "d"), "d"),
        ("d", ("x", "y"), "x"),
        ("never seen", ("x", "y"), "x"),
    ],
)
def test_what_stands_in_its_place_is_gone_to(gone: str, now: tuple[str, ...], goes_to: str) -> None:
    stops = page(*now)
    stop = after(gone, ("a", "b", "c", "d"), stops)
    assert next(name for name, each in stops if each is stop) == goes_to


def test_a_radio_button_is_passed_over_and_nothing_is_gone_to_on_an_empty_page() -> None:
    chip, last = ("chip", ft.Radio(value="a")), ("last", ft.TextButton())
    assert after("b", ("a", "b"), [page("a")[0], chip, last]) is last[1]
    assert after("b", ("a", "b"), []) is None
    assert after("b", ("a", "b"), [chip]) is None


def test_a_control_tells_its_name_to_whom_its_page_has() -> None:
    class Heard:
        def __init__(self, page: object) -> None:
            self.page = page

    class Page:
        def __init__(self) -> None:
            self.names: list[str] = []
            self.data = self.names.append

    here = Page()
    tells("one")(Heard(here))  # type: ignore[arg-type]
    tells("two")(Heard(None))  # type: ignore[arg-type]
    assert here.names == ["one"]


def test_a_real_keyboard_needs_no_keypad_until_a_field_is_touched() -> None:
    async def job() -> None:
        hand = Hand(lambda: None)
        lefts: list[str] = []
        held = Held("one", "cm", False, lambda: "", lambda text: None, lambda: lefts.append("one"), None)
        assert hand.take(held, touched=True)
        assert hand.holds("one")
        assert not hand.holds("two")
        hand.by_keys()
        assert lefts == ["one"]
        assert not hand.take(held, touched=False)
        assert not hand.holds("one")
        assert hand.take(held, touched=True)
        hand.forget()
        other = Held("two", "cm", False, lambda: "", lambda text: None, lambda: None, None)
        assert hand.take(other, touched=False), "a touch has shown that there is a finger again"

    asyncio.run(job())
