"""The eighths of an inch as a piece of tape to tap, under a field that takes inches."""

import re
from collections.abc import Callable
from typing import Final

import flet as ft

from app.parts.touchable import touchable
from app.parts.words import say
from app.theme import LARGE, Look

EIGHTHS: Final = "⅛¼⅜½⅝¾⅞"
_TICKS: Final = (6, 10, 6, 16, 6, 10, 6)
_WRITTEN: Final = re.compile(
    r"^\s*(?P<whole>\d+)?(?P<rest>(?:\s+|-)?(?:\d+\s*/\s*\d*|[¼½¾⅐-⅞])|[.,]\d*)?\s*(?P<unit>[a-zA-Z\"”″].*)?$"
)
_HIGH = 56


def with_fraction(text: str, fraction: str) -> str:
    """The text with its fraction put in the place of the one it had; the same fraction again takes it away.

    Whole inches and a unit written behind are kept. What cannot be read as a number is kept in front as it is.
    """
    found = _WRITTEN.match(text)
    if found is None:
        return f"{text.rstrip()} {fraction}".lstrip()
    whole, rest, unit = found["whole"] or "", (found["rest"] or "").strip(), (found["unit"] or "").strip()
    if rest and not whole and "/" in rest:
        whole = ""
    chosen = "" if rest == fraction else fraction
    return " ".join(part for part in (whole, chosen, unit) if part)


def shown_fraction(text: str) -> str:
    """The eighth that stands in a text, as its sign, or nothing."""
    return next((sign for sign in EIGHTHS if sign in text), "")


def fractions_tape(look: Look, text: str, on_choose: Callable[[str], None], identifier: str) -> ft.Control:
    """Seven segments of tape with their ticks; a tap calls back with the whole new text."""
    now = shown_fraction(text)

    def tapped(sign: str) -> Callable[[], None]:
        return lambda: on_choose(with_fraction(text, sign))

    segments: list[ft.Control] = [
        _segment(look, sign, tick, sign == now, tapped(sign), identifier, number)
        for number, (sign, tick) in enumerate(zip(EIGHTHS, _TICKS, strict=True), start=1)
    ]
    return ft.Row(segments, spacing=0)


def _segment(
    look: Look, sign: str, tick: int, now: bool, on_click: Callable[[], None], identifier: str, number: int
) -> ft.Control:
    fill, ink = (look.tape, look.on_tape) if now else (look.sheet, look.ink)
    face = ft.Column(
        spacing=0,
        horizontal_alignment=ft.CrossAxisAlignment.CENTER,
        controls=[
            ft.Container(
                ft.Container(width=1.5, height=tick, bgcolor=ink), height=18, alignment=ft.Alignment.TOP_CENTER
            ),
            say(look, sign, size=LARGE, strong=now, colour=ink),
        ],
    )
    line = ft.BorderSide(1, look.edge)
    none = ft.BorderSide.none()
    parting = ft.BorderSide(1, look.hair)
    border = ft.Border(
        top=line, bottom=line, left=line if number == 1 else parting, right=line if number == len(EIGHTHS) else none
    )
    segment = touchable(
        look, face, on_click, identifier=f"{identifier}-{number}-8", height=_HIGH, fill=fill, selected=now, corner=0
    )
    return ft.Container(segment, border=border, expand=True)
