"""Yes or no: a word and a switch, the whole row to tap."""

from collections.abc import Callable

import flet as ft

from app.parts.words import say
from app.theme import EDGE, SMALL, TOUCH, Look

_WIDE, _HIGH, _KNOB = 52, 30, 22


def toggle(
    look: Look, *, identifier: str, label: str, value: bool, on_change: Callable[[bool], None], says: str = ""
) -> ft.Control:
    """A row that turns over when tapped. `says` is a line under the label."""
    lines: list[ft.Control] = [say(look, label)]
    if says:
        lines.append(say(look, says, size=SMALL, soft=True))
    knob = ft.Container(
        width=_KNOB, height=_KNOB, border_radius=_KNOB / 2, bgcolor=look.on_tape if value else look.edge
    )
    track = ft.Container(
        knob,
        width=_WIDE,
        height=_HIGH,
        border_radius=_HIGH / 2,
        padding=3,
        bgcolor=look.tape if value else look.sheet,
        border=ft.Border.all(1, look.ink if value and not look.dark else look.edge),
        alignment=ft.Alignment.CENTER_RIGHT if value else ft.Alignment.CENTER_LEFT,
    )
    row = ft.Row(
        [ft.Container(ft.Column(lines, spacing=2, tight=True), expand=True), track],
        spacing=EDGE,
        vertical_alignment=ft.CrossAxisAlignment.CENTER,
    )
    box = ft.Container(
        ft.Container(
            row, padding=ft.Padding.symmetric(horizontal=0, vertical=9 if says else 0), height=None if says else TOUCH
        ),
        on_click=lambda _: on_change(not value),
        ink=True,
    )
    return ft.Semantics(identifier=identifier, toggled=value, button=True, content=box)
