"""What a screen lights of a piece: the parts of its outline between two places, and level lines across it."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from drafting.geometry.point import Point
from drafting.geometry.polyline import lengths_along, nearest_on, point_along, simplified

#: How far a lit line may lie from the line of the draft, mm: less than the breadth of a chalk line (our choice).
NEAR = 0.2


def thinned(points: Sequence[Point]) -> tuple[Point, ...]:
    """The points that a lit line needs."""
    found = simplified([(point.x, point.y) for point in points], NEAR) if len(points) > 2 else range(len(points))
    return tuple(points[index] for index in found)


@dataclass(frozen=True, slots=True)
class Outline:
    """The line that is chalked, from the top of the fold round to its end."""

    points: tuple[Point, ...]
    along: tuple[float, ...]

    @classmethod
    def of(cls, points: Sequence[Point]) -> "Outline":
        """The line with its lengths."""
        return cls(tuple(points), tuple(lengths_along(points)))

    def between(self, start: Point, end: Point) -> tuple[Point, ...]:
        """The part of it from one place on it to a later one; from a later to an earlier one it is ruled straight."""
        first, last = (nearest_on(self.points, self.along, point)[0] for point in (start, end))
        if last <= first:
            return start, end
        inner = [point for point, at in zip(self.points, self.along, strict=True) if first < at < last]
        ends = point_along(self.points, self.along, first), point_along(self.points, self.along, last)
        return thinned((ends[0], *inner, ends[1]))

    def across(self, down: float) -> float:
        """How far from x = 0 a level line first leaves the piece, mm."""
        found = [
            a.x + (b.x - a.x) * (down - a.y) / (b.y - a.y)
            for a, b in pairwise(self.points)
            if a.y != b.y and min(a.y, b.y) <= down <= max(a.y, b.y)
        ]
        out = [x for x in found if x > NEAR]
        return min(out) if out else max((point.x for point in self.points if abs(point.y - down) < 1.0), default=0.0)
