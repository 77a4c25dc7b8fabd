"""The two things an outline is made of: a straight line and a cubic Bézier curve.

Arc length and splitting come from fontTools; what is written here is only the view of them as one family.
"""

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from fontTools.misc.bezierTools import calcCubicArcLength, splitCubicAtT

from drafting.geometry.point import Point

#: How nearly chord and handles of a part must agree, as a share of them, before it counts as measured. Our choice:
#: the edges of a garment then come out within 0.0005 mm, a hundredth of what a notch may be off.
LENGTH_TOLERANCE = 0.00001


@dataclass(frozen=True, slots=True)
class Line:
    """A straight line from `start` to `end`."""

    start: Point
    end: Point

    def at(self, t: float) -> Point:
        """The point at parameter t in 0…1 (beyond: on the line's continuation)."""
        return self.start.between(self.end, t)

    def tangent(self, t: float) -> Point:
        """Unit vector of travel, the same for every t."""
        return (self.end - self.start).unit()

    def beside(self, t: float, distance: float) -> Point:
        """The point `distance` mm to the left of travel at parameter t."""
        return self.at(t) + self.tangent(t).left() * distance

    def curvature(self, t: float) -> float:
        """Zero: a line does not bend."""
        return 0.0

    def length(self) -> float:
        """Length in mm, exact."""
        return self.start.distance(self.end)

    def split(self, *parameters: float) -> "list[Line]":
        """Cut at rising parameters within 0…1."""
        cuts = [0.0, *parameters, 1.0]
        return [Line(self.at(a), self.at(b)) for a, b in itertools.pairwise(cuts)]

    def reversed(self) -> "Line":
        """The same line travelled the other way."""
        return Line(self.end, self.start)

    def scaled(self, across: float, down: float, shift: Point) -> "Line":
        """Each axis multiplied by its own factor, then moved by `shift`."""
        return Line(_placed(self.start, across, down, shift), _placed(self.end, across, down, shift))

    def parameters(self, tolerance: float) -> list[float]:
        """Parameters at which straight joins stay within `tolerance` mm: the two ends."""
        return [0.0, 1.0]


@dataclass(frozen=True, slots=True)
class Cubic:
    """A cubic Bézier curve from `start` to `end` with its two handles."""

    start: Point
    first: Point
    second: Point
    end: Point

    def at(self, t: float) -> Point:
        """The point at parameter t in 0…1."""
        s = 1.0 - t
        a, b, c, d = s * s * s, 3 * s * s * t, 3 * s * t * t, t * t * t
        return Point(
            a * self.start.x + b * self.first.x + c * self.second.x + d * self.end.x,
            a * self.start.y + b * self.first.y + c * self.second.y + d * self.end.y,
        )

    def velocity(self, t: float) -> Point:
        """First derivative with respect to t."""
        s = 1.0 - t
        a, b, c = 3 * s * s, 6 * s * t, 3 * t * t
        start, first, second, end = self.start, self.first, self.second, self.end
        return Point(
            (first.x - start.x) * a + (second.x - first.x) * b + (end.x - second.x) * c,
            (first.y - start.y) * a + (second.y - first.y) * b + (end.y - second.y) * c,
        )

    def acceleration(self, t: float) -> Point:
        """Second derivative with respect to t."""
        start, first, second, end = self.start, self.first, self.second, self.end
        a, b = 6 * (1 - t), 6 * t
        return Point(
            (second.x - 2 * first.x + start.x) * a + (end.x - 2 * second.x + first.x) * b,
            (second.y - 2 * first.y + start.y) * a + (end.y - 2 * second.y + first.y) * b,
        )

    def tangent(self, t: float) -> Point:
        """Unit vector of travel; at an end whose handle is pulled in, the direction of the next handle."""
        velocity = self.velocity(t)
        if velocity.length() > 1e-9:
            return velocity.unit()
        return (self.at(min(1.0, t + 1e-4)) - self.at(max(0.0, t - 1e-4))).unit()

    def beside(self, t: float, distance: float) -> Point:
        """The point `distance` mm to the left of travel at parameter t."""
        speed = self.velocity(t)
        size = math.hypot(speed.x, speed.y)
        on = self.at(t)
        if size <= 1e-9:
            return on + self.tangent(t).left() * distance
        share = distance / size
        return Point(on.x + speed.y * share, on.y - speed.x * share)

    def curvature(self, t: float) -> float:
        """1/mm; positive when the curve bends to the right of travel on the screen (y down)."""
        velocity = self.velocity(t)
        speed = velocity.length()
        return velocity.cross(self.acceleration(t)) / speed**3 if speed > 1e-9 else 0.0

    def length(self) -> float:
        """Arc length in mm.

        To within 0.0005 mm for the smooth curves of a garment (within 0.01 mm for one with a cusp).
        """
        return _arc_length(self._corners())

    def split(self, *parameters: float) -> "list[Cubic]":
        """Cut at rising parameters within 0…1."""
        parts = splitCubicAtT(*self._corners(), *parameters)
        return [Cubic(*(Point(x, y) for x, y in part)) for part in parts]

    def reversed(self) -> "Cubic":
        """The same curve travelled the other way."""
        return Cubic(self.end, self.second, self.first, self.start)

    def scaled(self, across: float, down: float, shift: Point) -> "Cubic":
        """Each axis multiplied by its own factor, then moved by `shift` (exact: Béziers are affine)."""
        return Cubic(
            _placed(self.start, across, down, shift),
            _placed(self.first, across, down, shift),
            _placed(self.second, across, down, shift),
            _placed(self.end, across, down, shift),
        )

    def parameters(self, tolerance: float) -> list[float]:
        """Even parameters at which straight joins stay within `tolerance` mm of the curve.

        From the bound on the second derivative: sagitta ≤ max|B''|·Δt²/8 (Farin, Curves and Surfaces; CALC).
        """
        bend = max(self.acceleration(0).length(), self.acceleration(1).length())
        count = max(1, math.ceil(math.sqrt(bend / (8 * tolerance))))
        return [step / count for step in range(count + 1)]

    def _corners(self) -> tuple[tuple[float, float], ...]:
        return tuple((p.x, p.y) for p in (self.start, self.first, self.second, self.end))


def _placed(point: Point, across: float, down: float, shift: Point) -> Point:
    return Point(point.x * across + shift.x, point.y * down + shift.y)


@lru_cache(maxsize=1024)
def _arc_length(corners: tuple[tuple[float, float], ...]) -> float:
    """Remembered, because a draft asks for the length of one curve again and again."""
    return float(calcCubicArcLength(*corners, tolerance=LENGTH_TOLERANCE))


Segment = Line | Cubic


def arc(centre: Point, radius: float, begin: float, end: float) -> list[Cubic]:
    """A circular arc as cubics, from angle `begin` to `end` (radians, from x towards y), in mm.

    Pieces of at most a quarter circle; radial error at most 0.0273 % of the radius (the usual cubic quarter
    circle; far less for smaller pieces).
    """
    count = max(1, math.ceil(abs(end - begin) / (math.pi / 4) - 1e-9))
    step = (end - begin) / count
    handle = 4 / 3 * math.tan(step / 4) * radius
    cubics: list[Cubic] = []
    for index in range(count):
        a, b = begin + index * step, begin + (index + 1) * step
        from_point = Point(centre.x + radius * math.cos(a), centre.y + radius * math.sin(a))
        to_point = Point(centre.x + radius * math.cos(b), centre.y + radius * math.sin(b))
        out = Point(-math.sin(a), math.cos(a)) * handle
        back = Point(-math.sin(b), math.cos(b)) * handle
        cubics.append(Cubic(from_point, from_point + out, to_point - back, to_point))
    return cubics


def quadratic(start: Point, control: Point, end: Point) -> Cubic:
    """A quadratic Bézier raised to a cubic (exact)."""
    return Cubic(start, start.between(control, 2 / 3), end.between(control, 2 / 3), end)


def hermite(start: Point, start_slope: float, end: Point, end_slope: float) -> Cubic:
    """The cubic x(y) between two points with given slopes dx/dy at its ends, as a Bézier (exact).

    y runs linearly along the parameter, so the curve at share t lies at y = start.y + t·(end.y − start.y).
    """
    third = (end.y - start.y) / 3
    return Cubic(
        start,
        Point(start.x + start_slope * third, start.y + third),
        Point(end.x - end_slope * third, end.y - third),
        end,
    )


def fillet(corner: Point, towards: Point, away: Point, leg: float) -> list[Cubic]:
    """A circular arc that rounds `corner` with equal legs of `leg` mm.

    `towards` is the unit vector of travel into the corner, `away` out of it. An empty list when it does not turn.
    """
    turn = math.atan2(towards.cross(away), towards.dot(away))
    if abs(turn) < 1e-9:
        return []
    start = corner - towards * leg
    radius = leg / math.tan(abs(turn) / 2)
    inward = towards.left() * (-1.0 if turn > 0 else 1.0)
    centre = start + inward * radius
    begin = math.atan2(start.y - centre.y, start.x - centre.x)
    return arc(centre, radius, begin, begin + turn)


def flatten(segments: Sequence[Segment], tolerance: float) -> list[Point]:
    """Points along connected segments, joined straight within `tolerance` mm; shared ends appear once."""
    points: list[Point] = []
    for segment in segments:
        for t in segment.parameters(tolerance):
            if t == 0.0 and points:
                continue
            points.append(segment.at(t))
    return points
