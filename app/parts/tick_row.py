"""A line to tick: a box, what it is about, and what to know of it. What is ticked fades."""

from collections.abc import Callable, Sequence

import flet as ft

from app.parts.signs import sign
from app.parts.touchable import touchable
from app.parts.words import say
from app.theme import BODY, GAP, SMALL, TOUCH, Look

_BOX = 24


def tick_row(
    look: Look,
    *,
    identifier: str,
    title: str,
    lines: Sequence[str] = (),
    ticked: bool,
    now: bool = False,
    on_tap: Callable[[], None],
) -> ft.Control:
    """The whole line is tapped. `now` makes it stand out as the one that comes next."""
    box = ft.Container(
        sign("check", look.soft, 20) if ticked else None,
        width=_BOX,
        height=_BOX,
        border=ft.Border.all(2 if now else 1, look.ink if now else look.edge),
        border_radius=4,
        alignment=ft.Alignment.CENTER,
    )
    told: list[ft.Control] = [say(look, title, size=SMALL if ticked else BODY, strong=not ticked, soft=ticked)]
    told += [say(look, line, size=SMALL, soft=True) for line in lines]
    face = ft.Row(
        [box, ft.Container(ft.Column(told, spacing=2, tight=True), expand=True)],
        spacing=GAP + 4,
        vertical_alignment=ft.CrossAxisAlignment.CENTER if ticked or not lines else ft.CrossAxisAlignment.START,
    )
    line = touchable(
        look,
        face,
        on_tap,
        identifier=identifier,
        checked=ticked,
        padding=ft.Padding.symmetric(vertical=(TOUCH - _BOX) / 2, horizontal=GAP),
        corner=0,
    )
    return ft.Container(
        line, border=ft.Border.only(bottom=ft.BorderSide(1, look.hair)), bgcolor=look.well if now else None
    )
