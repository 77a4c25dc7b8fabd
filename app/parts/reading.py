"""A tape reading, the largest thing on its screen; number and fraction never break apart."""

from collections.abc import Sequence

import flet as ft

from app.parts.words import letters, say
from app.theme import BIG, BODY, COLUMN, EDGE, GAP, LARGE, READING, STRONG, Look
from drafting.drawing import text_width


def reading(
    look: Look, *, identifier: str, label: str, value: str, unit: str = "", size: float = READING, lit: bool = True
) -> ft.Control:
    """The label over the reading, its unit small beside it. `value` is a reading's pretty form ("8⅛" or "20.5")."""
    colour = (look.accent if look.name == "cloth" else look.ink) if lit else look.faded
    number = ft.Text(
        value=value,
        style=ft.TextStyle(
            size=size,
            font_family=STRONG,
            color=colour,
            height=1.1,
            letter_spacing=-size / 72,
            weight=ft.FontWeight.NORMAL,
        ),
        no_wrap=True,
        max_lines=1,
    )
    spans: list[ft.Control] = [number]
    if unit:
        beside = ft.Text(value=unit, style=letters(look, LARGE if size > BIG else BODY, soft=True), no_wrap=True)
        spans.append(ft.Container(beside, padding=ft.Padding.only(bottom=size * 0.14)))
    line = ft.Row(spans, spacing=GAP - 2, tight=True, vertical_alignment=ft.CrossAxisAlignment.END)
    return ft.Semantics(
        identifier=identifier,
        label=f"{label} {value} {unit}".strip(),
        exclude_semantics=True,
        container=True,
        content=ft.Column([say(look, label, size=LARGE, soft=True), line], spacing=0, tight=True),
    )


def readings(
    look: Look,
    *,
    identifier: str,
    pairs: Sequence[tuple[str, str]],
    unit: str = "",
    room: float = COLUMN - 2 * EDGE,
    lit: bool = True,
) -> ft.Control:
    """Readings beside each other, or under each other where `room` px do not hold them at their full size.

    Each is named identifier-1, identifier-2 ...
    """
    need = [text_width(value, READING, True) + text_width(unit, LARGE) + GAP for _, value in pairs]
    beside = sum(need) + 2 * EDGE * (len(pairs) - 1) <= room
    each = [
        reading(look, identifier=f"{identifier}-{number}", label=label, value=value, unit=unit, lit=lit)
        for number, (label, value) in enumerate(pairs, start=1)
    ]
    if beside:
        return ft.Row([ft.Container(one, expand=True) for one in each], spacing=2 * EDGE)
    return ft.Column(each, spacing=GAP, tight=True)
