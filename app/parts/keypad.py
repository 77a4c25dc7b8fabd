"""The keypad for lengths and numbers, at the foot of the page while a field of that kind is typed into."""

from collections.abc import Callable, Mapping
from typing import Final

import flet as ft

from app.parts.keypad_keys import WRITES, Kind, rows
from app.parts.signs import sign
from app.parts.touchable import touchable
from app.parts.words import say
from app.theme import COLUMN, GAP, LARGE, SMALL, TOUCH, Look

_SIGNS: Final = {"back": "erase", "space": "space"}
TALL: Final = 56
"""The height of a key, px; `TOUCH` on a low page."""
_LOW: Final = 740
"""A page lower than this has low keys, px: our choice, so that a field keeps its place above them at 390 x 664."""


def keypad(
    look: Look,
    *,
    kind: Kind,
    signed: bool,
    more: bool,
    width: float,
    height: float,
    says: Mapping[str, str],
    on_press: Callable[[str], None],
    on_touch: Callable[[], None],
    flat: bool = False,
) -> ft.Control:
    """The keys on a page of this width and height, px; `flat` lays them in few long rows.

    `says` has what is read out for a key, and what is written on "digits", "more" and "next". `on_touch` is told when a
    finger comes down, `on_press` the name of the key when it goes up.
    """
    columns = int((width - GAP) // (TOUCH + GAP)) if flat else 0
    high = TOUCH if flat or height < _LOW else TALL
    lines: list[ft.Control] = [
        ft.Row(
            [_key(look, key, wide, high, says, on_press, on_touch) for key, wide in line],
            spacing=GAP,
        )
        for line in rows(kind, signed=signed, more=more, columns=columns)
    ]
    keys = ft.Container(
        ft.Column(lines, spacing=GAP, tight=True), width=(width if flat else min(width, COLUMN)) - 2 * GAP
    )
    return ft.Semantics(
        identifier="keypad",
        label=says["keypad"],
        content=ft.Container(
            ft.Row([ft.Container(keys, padding=GAP)], alignment=ft.MainAxisAlignment.CENTER),
            bgcolor=look.well,
            border=ft.Border.only(top=ft.BorderSide(1, look.hair)),
            on_tap_down=lambda _: on_touch(),
        ),
    )


def _key(
    look: Look,
    key: str,
    wide: int,
    high: float,
    says: Mapping[str, str],
    on_press: Callable[[str], None],
    on_touch: Callable[[], None],
) -> ft.Control:
    if not key:
        return ft.Container(expand=wide, height=high)
    onward = key == "next"
    ink = look.on_deed if onward else look.ink
    if key in _SIGNS:
        face: ft.Control = sign(_SIGNS[key], ink)
    elif onward:
        face = ft.Row(
            [say(look, says["next"], strong=True, colour=ink), sign("forward", ink, 20)] if wide > 1 else
            [sign("forward", ink)],
            alignment=ft.MainAxisAlignment.CENTER, spacing=GAP // 2,
        )  # fmt: skip
    else:
        small = key in ("more", "digits")
        face = say(look, WRITES.get(key) or says[f"{key}.sign"], size=SMALL if small else LARGE, strong=small)
    button = touchable(
        look, face, lambda: on_press(key), identifier=f"key-{key.replace('/', '-')}", label=says.get(key), height=high,
        fill=look.deed if onward else look.sheet, edge=look.deed if onward else look.edge,
    )  # fmt: skip
    return ft.GestureDetector(button, on_tap_down=lambda _: on_touch(), exclude_from_semantics=True, expand=wide)
