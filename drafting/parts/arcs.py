"""Panels of a ring of cloth: arcs about one centre, swung with the tape, and how much of the cloth such a panel takes.

A panel lies on the fold; its 0 is the centre that both of its arcs are swung from. x runs across from the fold, y down
it from that centre. Finished millimetres; angles in radians from the fold.
"""

import math
from itertools import pairwise
from typing import Final

from drafting.cloth import ClothFacts
from drafting.geometry.path import Path
from drafting.geometry.point import Point
from drafting.geometry.segments import Cubic, Line

#: An arc is drawn in cubics of at most this angle: each then lies within a millionth of its radius (CALC).
ARC_STEP: Final = math.radians(30)
#: The straight end of an inner arc that cannot be swung, mm. Our choice.
LAST_BIT: Final = 0.5


def smaller_stretch(cloth: ClothFacts) -> float:
    """The stretch of a seam that runs round a circle: it meets every direction of the cloth, so the smaller one."""
    return min(cloth.across, cloth.along)


def arc(radius: float, start: float, end: float) -> Path:
    """An arc about the centre, from one angle from the fold to another."""
    count = max(1, math.ceil(abs(end - start) / ARC_STEP - 1e-9))
    angles = [start + (end - start) * k / count for k in range(count + 1)]
    return Path(tuple(_part(radius, a, b) for a, b in pairwise(angles)))


def _part(radius: float, start: float, end: float) -> Cubic:
    handle = 4 / 3 * math.tan((end - start) / 4) * radius
    begin, finish = place(radius, start), place(radius, end)
    return Cubic(begin, begin + _ahead(start) * handle, finish - _ahead(end) * handle, finish)


def place(radius: float, angle: float) -> Point:
    """A place so far from the centre, in a direction counted from the fold."""
    return Point(radius * math.sin(angle), radius * math.cos(angle))


def _ahead(angle: float) -> Point:
    """The direction in which an arc runs away from the fold."""
    return Point(math.cos(angle), -math.sin(angle))


def inner_arc(radius: float, angle: float, cloth: ClothFacts) -> Path:
    """The inner edge of half a panel, from its fold to its side.

    Where it cannot be swung its last bit is straight, so that its cut edge is carried on in its own direction to the
    side's: over so little an arc turns by less than half a degree.
    """
    if abs(cloth.shrink_across - cloth.shrink_along) < 1e-9:
        return arc(radius, 0.0, angle)
    run = arc(radius, 0.0, angle - LAST_BIT / radius)
    end = run.end + run.segments[-1].tangent(1.0) * LAST_BIT
    return Path((*run.segments, Line(run.end, end)))


def panel_width(outer: float, angle: float, hem: float, side: float, cloth: ClothFacts) -> float:
    """How far a panel of the radius `outer` and half the angle `angle` reaches across from its fold as cut, mm (CALC).

    `hem` and `side` are allowances.
    """
    across, down = 1 / (1 - cloth.shrink_across), 1 / (1 - cloth.shrink_along)
    reach = outer * across + hem
    if angle > math.pi / 2 - 1e-9:
        return reach
    # The side's allowance lies square to it, and its direction turns a little where the cloth shrinks unevenly.
    slant = math.atan2(math.sin(angle) * across, math.cos(angle) * down)
    return min(reach, reach * math.sin(angle) + side * math.cos(slant) + abs(across - down) * hem)


def panel_long(
    radius: float, outer: float, angle: float, allowances: tuple[float, float, float], cloth: ClothFacts
) -> float:
    """How much of the cloth's length such a panel takes as cut, mm (CALC).

    `radius` is that of its inner edge; `allowances` are those of the inner edge, the side and the hem.
    """
    inner, side, hem = allowances
    down = 1 / (1 - cloth.shrink_along)
    # The inner corner lies on its arc, one allowance beside the side.
    reach = math.sqrt(max(0.0, (radius * down - inner) ** 2 - side**2))
    return outer * down + hem - (reach * math.cos(angle) - side * math.sin(angle))
