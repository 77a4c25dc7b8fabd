"""A tape reading, the largest thing on its screen; number and fraction never break apart."""

from collections.abc import Sequence

import flet as ft

from app.parts.words import letters, say
from app.theme import BIG, BODY, COLUMN, EDGE, GAP, LARGE, READING, STRONG, Look
from drafting.drawing import text_width

SIZES = (READING, 64, 56, 50, BIG, 36)
"""The sizes of readings beside each other, in pixels, the largest that fits first."""
_LEAST = 96.0
"""Pixels left to the shortest reading, so that its label does not break in the middle of a word."""


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
    largest: float = READING,
    high: bool = False,
    lit: bool = True,
) -> ft.Control:
    """Readings beside each other, as large as `room` px hold them; under each other where that would be too small.

    `largest` is the most that the height of the page allows; on a `high` page they are rather set under each other than
    made smaller.

    All are seen at once so, on a small phone too. Each is named identifier-1, identifier-2 ...
    """
    between = 2 * EDGE * (len(pairs) - 1)
    sizes = [each for each in SIZES if each <= largest and sum(need(pairs, unit, each)) + between <= room]
    size = sizes[0] if sizes else largest
    under = not sizes or (high and size < largest)
    size = largest if under else size
    each = [
        reading(look, identifier=f"{identifier}-{number}", label=label, value=value, unit=unit, size=size, lit=lit)
        for number, (label, value) in enumerate(pairs, start=1)
    ]  # fmt: skip
    if under:
        return ft.Column(each, spacing=GAP, tight=True)
    return ft.Row(
        [ft.Container(one, expand=round(wide)) for one, wide in zip(each, need(pairs, unit, size), strict=True)],
        spacing=2 * EDGE,
        vertical_alignment=ft.CrossAxisAlignment.END,
    )


def need(pairs: Sequence[tuple[str, str]], unit: str, size: float) -> list[float]:
    """How many pixels each reading takes at a size, its unit beside it; a long label goes on in a second line."""
    beside = LARGE if size > BIG else BODY
    return [max(text_width(value, size, True) + text_width(unit, beside) + 2 * GAP, _LEAST) for _, value in pairs]
