"""A picture of the stretch test: the folded cloth at rest with its two marks, and pulled between two hands."""

from typing import Final

import flet as ft
import flet.canvas as cv

from app.canvas import fill_paint, line_paint
from app.theme import Look

HEIGHT: Final = 168.0
_MARKED: Final = 0.34
"""How far apart the marks lie at rest, as a share of the width."""
_PULLED: Final = 1.5
"""How many times as far they lie when the cloth is pulled."""


def stretch_picture(look: Look, *, identifier: str, width: float, words: str, folded: bool) -> ft.Control:
    """Above the cloth at rest, below the same cloth pulled over the tape; `folded` shows the fold along its top.

    `width` is in px; `words` are read out.
    """
    left = width * 0.2
    rest, pulled = left + width * _MARKED, left + width * _MARKED * _PULLED
    drawn: list[cv.Shape] = []
    drawn += _cloth(look, left - 34, rest + 34, 14, 34, folded=folded)
    drawn += _marks(look, (left, rest), 14, 34)
    drawn += _cloth(look, left - 34, pulled + 34, 84, 28, folded=folded)
    drawn += _marks(look, (left, pulled), 84, 28)
    drawn += _tape(look, left, pulled, 122)
    drawn += _hand(look, left - 30, 98, -1)
    drawn += _hand(look, pulled + 30, 98, 1)
    drawn += _arrow(look, rest + 6, pulled - 6, 66)
    way = [cv.Path.MoveTo(rest, 52), cv.Path.LineTo(rest, 60)]
    drawn.append(cv.Path(way, paint=line_paint(look.edge, 1)))
    return ft.Semantics(
        identifier=identifier,
        image=True,
        label=words,
        content=cv.Canvas(shapes=drawn, width=width, height=HEIGHT - 12),
    )


def _box(x0: float, x1: float, y: float, high: float) -> list[cv.Path.PathElement]:
    return [
        cv.Path.MoveTo(x0, y),
        cv.Path.LineTo(x1, y),
        cv.Path.LineTo(x1, y + high),
        cv.Path.LineTo(x0, y + high),
        cv.Path.Close(),
    ]


def _cloth(look: Look, x0: float, x1: float, y: float, high: float, *, folded: bool) -> list[cv.Shape]:
    drawn: list[cv.Shape] = []
    if folded:  # the layer below looks out a little
        drawn.append(cv.Path(_box(x0 + 5, x1 + 5, y + 4, high), paint=line_paint(look.soft, 1)))
    drawn += [
        cv.Path(_box(x0, x1, y, high), paint=fill_paint(look.well)),
        cv.Path(_box(x0, x1, y, high), paint=line_paint(look.soft, 1.5)),
    ]
    if folded:
        drawn.append(cv.Path([cv.Path.MoveTo(x0, y), cv.Path.LineTo(x1, y)], paint=line_paint(look.ink, 3.5)))
    return drawn


def _marks(look: Look, places: tuple[float, float], y: float, high: float) -> list[cv.Shape]:
    steps: list[cv.Path.PathElement] = []
    for x in places:
        steps += [cv.Path.MoveTo(x, y + 6), cv.Path.LineTo(x, y + high + 6)]
    return [cv.Path(steps, paint=line_paint(look.ink, 2.5))]


def _tape(look: Look, x0: float, x1: float, y: float) -> list[cv.Shape]:
    """A piece of tape from the first mark on, with its ticks."""
    end = x1 + 24
    ticks: list[cv.Path.PathElement] = []
    count = 24
    for index in range(count + 1):
        x = x0 + (x1 - x0) * index / count
        ticks += [cv.Path.MoveTo(x, y), cv.Path.LineTo(x, y + (12 if index % 4 == 0 else 6))]
    return [
        cv.Path(_box(x0, end, y, 20), paint=fill_paint(look.tape)),
        cv.Path(_box(x0, end, y, 20), paint=line_paint(look.on_tape if not look.dark else look.ground, 1)),
        cv.Path(ticks, paint=line_paint(look.on_tape, 1)),
    ]


def _hand(look: Look, x: float, y: float, side: int) -> list[cv.Shape]:
    """A fist that holds the end of the cloth, its fingers towards the cloth; `side` is -1 left of it, 1 right."""
    edge = line_paint(look.ink, 1.5)
    drawn: list[cv.Shape] = []
    arm: list[cv.Path.PathElement] = [
        cv.Path.MoveTo(x + side * 8, y - 11),
        cv.Path.LineTo(x + side * 40, y - 9),
        cv.Path.MoveTo(x + side * 40, y + 11),
        cv.Path.LineTo(x + side * 8, y + 12),
    ]
    drawn.append(cv.Path(arm, paint=edge))
    for index in range(4):
        finger: list[cv.Path.PathElement] = [cv.Path.Oval(x - 11 if side > 0 else x - 9, y - 15 + index * 7.5, 20, 8.5)]
        drawn += [cv.Path(finger, paint=fill_paint(look.sheet)), cv.Path(finger, paint=edge)]
    return drawn


def _arrow(look: Look, x0: float, x1: float, y: float) -> list[cv.Shape]:
    steps: list[cv.Path.PathElement] = [
        cv.Path.MoveTo(x0, y),
        cv.Path.LineTo(x1, y),
        cv.Path.MoveTo(x1 - 8, y - 5),
        cv.Path.LineTo(x1, y),
        cv.Path.LineTo(x1 - 8, y + 5),
    ]
    return [cv.Path(steps, paint=line_paint(look.accent, 2.5))]
