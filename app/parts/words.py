"""Words on a surface, and the spaces between things."""

from collections.abc import Sequence

import flet as ft

from app.parts.fitted import LINE, lines_of
from app.theme import BODY, FONT, GAP, GRID, LARGE, STRONG, Look
from drafting.sentences import unbroken

LINE_HEIGHT = 1.4
_TIGHT = 1.15


def letters(
    look: Look, size: float = BODY, *, strong: bool = False, soft: bool = False, colour: str | None = None
) -> ft.TextStyle:
    """The style of some words."""
    return ft.TextStyle(
        size=size,
        font_family=STRONG if strong else FONT,
        color=colour or (look.soft if soft else look.ink),
        height=LINE_HEIGHT if size <= LARGE else _TIGHT,
        weight=ft.FontWeight.NORMAL,
        letter_spacing=0,
    )


def tight(look: Look, size: float = BODY, *, strong: bool = False) -> ft.TextStyle:
    """The style of words that must keep to a box: as parts.fitted reckons their lines."""
    style = letters(look, size, strong=strong)
    style.height = LINE
    return style


def said_height(text: str, width: float, size: float = BODY) -> float:
    """How high words are that `say` shows in so much width, at a size of letters no larger than LARGE; all in px."""
    return max(lines_of(text, size, width), 1) * size * LINE_HEIGHT


def say(
    look: Look,
    text: str,
    *,
    size: float = BODY,
    soft: bool = False,
    strong: bool = False,
    align: ft.TextAlign | None = None,
    colour: str | None = None,
    one_line: bool = False,
) -> ft.Text:
    """Plain words that wrap, but never between a number and its unit.

    `one_line` never wraps and ends in an ellipsis.
    """
    shown = unbroken(text)
    return ft.Text(
        value=shown,
        semantics_label=text if shown != text else None,  # read out, and found by its words, as it is written
        style=letters(look, size, strong=strong, soft=soft, colour=colour),
        text_align=align or ft.TextAlign.START,
        no_wrap=one_line,
        max_lines=1 if one_line else None,
        overflow=ft.TextOverflow.ELLIPSIS if one_line else ft.TextOverflow.CLIP,
    )


def heading(look: Look, text: str) -> ft.Control:
    """The words over a part of a screen, read out as a heading."""
    return ft.Semantics(header=True, heading_level=2, content=say(look, text, size=LARGE, strong=True))


def gap(steps: int = 2) -> ft.Control:
    """Empty space of so many steps of the grid, both ways."""
    return ft.Container(width=steps * GRID, height=steps * GRID)


def strip(controls: Sequence[ft.Control]) -> ft.Control:
    """Small controls beside each other, wrapping, with the space between that fingers need."""
    return ft.Row(controls=list(controls), wrap=True, spacing=GAP, run_spacing=GAP)


def stack(controls: Sequence[ft.Control], spacing: float = GAP) -> ft.Column:
    """Controls under each other, as wide as there is room."""
    return ft.Column(
        controls=list(controls), spacing=spacing, tight=True, horizontal_alignment=ft.CrossAxisAlignment.STRETCH
    )
