"""Notches and marks on the edges of a piece that is cut out, at places of its finished outline. Millimetres."""

from itertools import pairwise

from drafting.contract.cutting import CutOut
from drafting.contract.pieces import Notch
from drafting.geometry.point import Point


def notch_at(
    cut: CutOut, edge: str, id: str, label: str, finished: Point, *, where: str = "", proven: bool = False
) -> Notch:
    """A notch on an edge, beside a finished point of it; `where` and `proven` are as in `Notch`."""
    found = next(one for one in cut.edges if one.name == edge)
    at, inner, tangent = found.stitch.nearest(cut.place(finished))
    return Notch(edge, id, label, at, inner, inner + tangent.left() * found.allowance, where, proven)


def plumb_with(cut: CutOut, near: Point) -> Point:
    """Where the cut line crosses the straight down through a place, the nearest to it: what a line inside begins at."""
    crossings = [
        a.between(b, (near.x - a.x) / (b.x - a.x))
        for a, b in pairwise(cut.line)
        if a.x != b.x and min(a.x, b.x) <= near.x <= max(a.x, b.x)
    ]
    return min(crossings, key=near.distance, default=near)


def level_with(cut: CutOut, level: float, near: Point) -> Point:
    """Where the cut line crosses a level, mm down on the cloth: the place that is marked on a ruled level.

    Of several the one nearest to `near`, which is given back where there is none.
    """
    crossings = [
        a.between(b, (level - a.y) / (b.y - a.y))
        for a, b in pairwise(cut.line)
        if a.y != b.y and min(a.y, b.y) <= level <= max(a.y, b.y)
    ]
    return min(crossings, key=near.distance, default=near)
