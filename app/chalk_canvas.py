"""The marks over a drawing: their numbers, what is lit with the ways to it, and every 0; from mm to px.

All sizes are px on the screen: what is drawn is made smaller by as much as the picture is pinched larger, so that
nothing covers what lies close together.
"""

import math
from collections.abc import Collection, Iterable, Mapping, Sequence
from itertools import pairwise

import flet as ft
import flet.canvas as cv

from app.canvas import NEAR, Fit, Place, box_of, fill_paint, fit, line_paint, run, thinned
from app.lit import NOTHING, Lit
from app.theme import FONT, STRONG, Look
from app.turn import AS_DRAFTED, Turn
from drafting.drawing.items import Box, crosses_box, overlap, text_width
from drafting.drawing.piece import Drawing
from drafting.geometry.point import Point

#: Letters of the numbers and of the lit one, px: neither is drawn smaller, whatever the picture's size (our choice).
NUMBER_PX = 12.0
LIT_PX = 15.0
#: Half across: a mark, a lit mark and the ring round it, a 0.
DOT, BALL, RING, ZERO = 2.5, 6.0, 12.0, 5.0
#: From this many lit marks on they are lit without a ring: a line through many marks stays to be seen.
MANY = 3
_TICK = 7.0
"""Half the tick of a second 0, px."""
_GAP = 2.0
_LINE = 3.0
#: A closer picture keeps so much round what is lit, and never shows less of the drawing than the second share; it is
#: taken where it is that much larger (our choice).
ROUND, LEAST_SHOWN, CLOSER = 0.12, 0.36, 1.3


def mark_shapes(
    marks: Mapping[str, Place], look: Look, fitted: Fit, *, lit: Lit = NOTHING, done: Collection[str] = (),
    numbers: Mapping[str, int] | None = None, zeros: Mapping[str, Place] | None = None,
    room: tuple[float, float] | None = None, zoom: float = 1.0, kept: Sequence[Box] = (),
) -> list[cv.Shape]:  # fmt: skip
    """The marks one chalks: those done faded, those to come small, what is lit with the ways to it, and their numbers.

    A number is left out where it would lie on another thing; those of lit marks come first. `marks` go once round the
    outline. `zeros` are the places that readings count from, by their names. `room` is the width and height of the
    canvas in px: words of what lies inside stay inside, and off the boxes in `kept`. `zoom` is how much the picture is
    pinched larger.
    """
    unit = 1.0 / zoom
    at = {name: fitted.px(x, y) for name, (x, y) in marks.items()}
    glowing = [name for name in lit.marks if name in marks]
    balls = [*(at[name] for name in glowing), *(fitted.px(x, y) for x, y in lit.spots)]
    ringed = len(balls) < MANY
    out = (RING if ringed else BALL) * unit
    runs = [thinned([fitted.px(x, y) for x, y in points], NEAR) for points in lit.runs(marks)]
    dots = {
        name: place for name, place in at.items()
        if name not in glowing and all(math.dist(place, ball) > out + DOT * unit for ball in balls)
    }  # fmt: skip
    nought = {name: fitted.px(x, y) for name, (x, y) in (zeros or {}).items()}
    free = _Free(runs, room)
    for box in kept:
        free.take(box)
    for place in balls:
        free.take(_square(place, out))
    for place in dots.values():
        free.take(_square(place, DOT * unit))
    for place in nought.values():
        free.take(_square(place, ZERO * unit))
    drawn: list[cv.Shape] = [
        *_dots(dots, look, done, unit),
        *_noughts([p for p in nought.values() if all(math.dist(p, ball) > out for ball in balls)], look, unit),
    ]
    if runs:
        ways = [step for points in runs for step in run(points)]
        if lit.zero and lit.ways:
            ox, oy = fitted.px(lit.base, lit.zero)
            tx, ty = (_TICK * unit * part for part in fitted.turn.x)
            ways += run(((ox - tx, oy - ty), (ox + tx, oy + ty)))
        drawn.append(cv.Path(elements=ways, paint=line_paint(look.accent, 2 * unit if lit.ways else _LINE * unit)))
    if balls:
        drawn.append(
            cv.Path(elements=_ovals(balls, (BALL if ringed else BALL * 0.7) * unit), paint=fill_paint(look.accent))
        )
        if ringed:
            drawn.append(cv.Path(elements=_ovals(balls, RING * unit), paint=line_paint(look.accent, 2 * unit)))
    outward = _outward(list(at.values()))
    away = dict(zip(at, outward, strict=True))
    for name in sorted((each for each in (numbers or {}) if each in at), key=lambda each: each not in glowing):
        if name not in glowing and name not in dots:
            continue
        now = name in glowing
        size = (LIT_PX if now else NUMBER_PX) * unit
        text = str((numbers or {})[name])
        colour = look.accent if now else look.soft if name in done else look.ink
        spot = free.beside(at[name], (out if now else DOT * unit) + _GAP * unit, _size(text, size), away[name])
        if spot is not None:
            drawn.append(_word(text, spot, size, colour, strong=now))
    for name, nil in nought.items():
        way = fitted.turn.at(-math.sqrt(0.5), -math.sqrt(0.5))
        spot = free.beside(nil, (ZERO + _GAP) * unit, _size(name, NUMBER_PX * unit), way)
        if spot is not None:
            drawn.append(_word(name, spot, NUMBER_PX * unit, look.ink, strong=True))
    return drawn


class _Free:
    """Which places of the canvas are still free, px."""

    def __init__(self, lines: Iterable[Sequence[Place]], room: tuple[float, float] | None) -> None:
        self._taken: list[Box] = []
        self._lines = [(Point(*a), Point(*b)) for line in lines for a, b in pairwise(line)]
        self._room = room

    def take(self, box: Box) -> None:
        """Nothing more is written there."""
        self._taken.append(box)

    def beside(self, at: Place, apart: float, size: tuple[float, float], away: Place) -> Place | None:
        """The middle of a free box of a size beside a place, `away` from the piece if it can be; then it is taken."""
        wide, high = size
        inside = self._room is not None and self._holds(_square(at, 0.0))
        for turned in (0, 45, -45, 90, -90, 135, -135, 180):
            angle = math.atan2(away[1], away[0]) + math.radians(turned)
            x, y = math.cos(angle), math.sin(angle)
            reach = apart + min(wide / 2 / max(abs(x), 1e-9), high / 2 / max(abs(y), 1e-9))
            middle = at[0] + x * reach, at[1] + y * reach
            box = (middle[0] - wide / 2, middle[1] - high / 2, middle[0] + wide / 2, middle[1] + high / 2)
            if inside and not self._holds(box):
                continue
            if any(overlap(box, other) for other in self._taken):
                continue
            if any(crosses_box(a, b, box) for a, b in self._lines):
                continue
            self.take(box)
            return middle
        return None

    def _holds(self, box: Box) -> bool:
        if self._room is None:
            return True
        return box[0] >= 0 and box[1] >= 0 and box[2] <= self._room[0] and box[3] <= self._room[1]


def _size(text: str, size: float) -> tuple[float, float]:
    return text_width(text, size, strong=True), size * 1.1


def _square(at: Place, half: float) -> Box:
    return at[0] - half, at[1] - half, at[0] + half, at[1] + half


def _ovals(places: Iterable[Place], half: float) -> list[cv.Path.PathElement]:
    return [cv.Path.Oval(x - half, y - half, 2 * half, 2 * half) for x, y in places]


def _dots(dots: Mapping[str, Place], look: Look, done: Collection[str], unit: float) -> list[cv.Shape]:
    drawn: list[cv.Shape] = []
    if faded := _ovals((place for name, place in dots.items() if name in done), DOT * unit):
        drawn.append(cv.Path(elements=faded, paint=fill_paint(look.faded)))
    if waiting := _ovals((place for name, place in dots.items() if name not in done), DOT * unit):
        drawn.append(cv.Path(elements=waiting, paint=line_paint(look.ink, 1.2 * unit)))
    return drawn


def _noughts(places: Sequence[Place], look: Look, unit: float) -> list[cv.Shape]:
    """Every 0: a ring with a dot, as on the drawing of the cloth."""
    if not places:
        return []
    return [
        cv.Path(elements=_ovals(places, ZERO * unit), paint=line_paint(look.ink, 1.5 * unit)),
        cv.Path(elements=_ovals(places, 1.5 * unit), paint=fill_paint(look.ink)),
    ]


def _word(text: str, at: Place, size: float, colour: str, *, strong: bool) -> cv.Text:
    return cv.Text(
        x=round(at[0], 2),
        y=round(at[1], 2),
        value=text,
        alignment=ft.Alignment(0, 0),
        style=ft.TextStyle(size=round(size, 2), font_family=STRONG if strong else FONT, color=colour, height=1.1),
    )


def _outward(places: Sequence[Place]) -> list[Place]:
    """For each place once round an outline the way out of it, of length 1."""
    around = sum(a[0] * b[1] - b[0] * a[1] for a, b in pairwise([*places, *places[:1]]))
    side = 1.0 if around >= 0 else -1.0
    found: list[Place] = []
    for index in range(len(places)):
        before, after = places[max(index - 1, 0)], places[min(index + 1, len(places) - 1)]
        x, y = after[0] - before[0], after[1] - before[1]
        long = math.hypot(x, y)
        found.append((side * y / long, -side * x / long) if long > 1e-9 else (0.0, -1.0))
    return found


def nearest(marks: Mapping[str, Place], fitted: Fit, x: float, y: float, within: float = 26.0) -> str | None:
    """The mark nearest to a place on the canvas, if one lies within that many px."""
    best, least = None, within
    for name, (mx, my) in marks.items():
        away = math.dist(fitted.px(mx, my), (x, y))
        if away <= least:
            best, least = name, away
    return best


def window_for(
    drawing: Drawing, marks: Mapping[str, Place], lit: Lit, width: float, height: float, turn: Turn = AS_DRAFTED
) -> Box | None:
    """The part of a drawing that is worth showing alone, mm: what is lit, with the ways to it and something round it.

    None where nothing is lit, or where the whole drawing is nearly as large in a box of so many px.
    """
    places = [*lit.places(marks), *(place for line in lit.runs(marks) for place in line)]
    if not places:
        return None
    left, top, right, foot = box_of(drawing)
    ways = [
        _span([place[0] for place in places], left, right),
        _span([place[1] for place in places], top, foot),
    ]
    window = ways[0][0], ways[1][0], ways[0][1], ways[1][1]
    whole = fit(drawing, width, height, turn=turn).scale
    close = fit(drawing, width, height, turn=turn, window=window).scale
    return window if close >= CLOSER * whole else None


def _span(needed: Sequence[float], low: float, high: float) -> tuple[float, float]:
    """A stretch within `low` and `high` round what is needed."""
    long = high - low
    start, end = min(needed) - ROUND * long, max(needed) + ROUND * long
    short = max(LEAST_SHOWN * long - (end - start), 0.0)
    start, end = start - short / 2, end + short / 2
    start, end = (low, low + end - start) if start < low else (start, end)
    start, end = (high - (end - start), high) if end > high else (start, end)
    return max(start, low), min(end, high)
