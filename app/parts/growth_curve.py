"""A small curve of how a child grew: a point for each day it was measured, joined by a line."""

from collections.abc import Sequence
from typing import Final

import flet as ft
import flet.canvas as cv

from app.canvas import fill_paint, line_paint
from app.parts.words import say
from app.theme import GRID, SMALL, Look

HEIGHT: Final = 96.0
_EDGE: Final = 10.0
_POINT: Final = 4.0


def growth_curve(
    look: Look, *, identifier: str, width: float, days: Sequence[float], heights: Sequence[float], words: str,
    first: str, last: str,
) -> ft.Control:  # fmt: skip
    """`days` since the first and `heights`, mm, both at least two and growing in time; `words` are read out.

    `first` and `last` are written below the two ends.
    """
    places = curve_places(width, days, heights)
    line: list[cv.Path.PathElement] = [cv.Path.MoveTo(*places[0]), *(cv.Path.LineTo(*place) for place in places[1:])]
    ground: list[cv.Path.PathElement] = [cv.Path.MoveTo(0, HEIGHT - 1), cv.Path.LineTo(width, HEIGHT - 1)]
    drawn: list[cv.Shape] = [
        cv.Path(ground, paint=line_paint(look.edge, 1)),
        cv.Path(line, paint=line_paint(look.accent, 2.5)),
        *(cv.Circle(x, y, _POINT, paint=fill_paint(look.ink)) for x, y in places),
    ]
    ends = ft.Row(
        [say(look, first, size=SMALL, soft=True), say(look, last, size=SMALL, soft=True)],
        alignment=ft.MainAxisAlignment.SPACE_BETWEEN,
    )
    shown = ft.Column([cv.Canvas(shapes=drawn, width=width, height=HEIGHT), ends], spacing=GRID, tight=True)
    return ft.Semantics(identifier=identifier, image=True, label=words, exclude_semantics=True, content=shown)


def curve_places(width: float, days: Sequence[float], heights: Sequence[float]) -> list[tuple[float, float]]:
    """Where the points lie, px: the first day at the left, the greatest height at the top."""
    span = days[-1] - days[0]
    low, high = min(heights), max(heights)
    return [
        (
            _EDGE + (width - 2 * _EDGE) * (day - days[0]) / span,
            HEIGHT - _EDGE - (HEIGHT - 2 * _EDGE) * ((height - low) / (high - low) if high > low else 0.5),
        )
        for day, height in zip(days, heights, strict=True)
    ]
