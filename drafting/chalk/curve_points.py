"""As few points on a curved run as keep straight joins within a given distance of it.

A run is a polyline. Its greatest distance from the straight join of its ends is that of its farthest corner, because
the distance to a straight line is convex along each side of a polyline (CALC). The join lies no farther from the run
than that, because every point of the join has a point of the run square beside it.
"""

import math
from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from dataclasses import dataclass

from drafting.geometry.point import Point
from drafting.geometry.polyline import lengths_along, point_along
from drafting.geometry.solve import least_enough, seeking_least
from drafting.stepwise import Steps, finished

#: The far end of a join is found to this accuracy, mm: well under the least step of any tape (our choice).
_NEAR = 0.02
#: The least tolerance is found to this share of the one that is given (our choice).
_SHARE = 1 / 3000


@dataclass(frozen=True, slots=True)
class Run:
    """Joined points with the distance along them of each, mm."""

    points: tuple[Point, ...]
    along: tuple[float, ...]

    @staticmethod
    def of(points: Sequence[Point]) -> "Run":
        """The run of the points."""
        return Run(tuple(points), tuple(lengths_along(points)))

    @property
    def length(self) -> float:
        """Length of the whole run, mm."""
        return self.along[-1]

    def at(self, distance: float) -> Point:
        """The point `distance` mm along."""
        return point_along(self.points, self.along, distance)

    def reversed(self) -> "Run":
        """The same run travelled the other way."""
        return Run.of(self.points[::-1])

    def part(self, begin: float, end: float) -> "Run":
        """The run between two distances along it."""
        first, last = bisect_right(self.along, begin), bisect_left(self.along, end)
        return Run.of((self.at(begin), *self.points[first:last], self.at(end)))

    def strays(self, begin: float, end: float, stop_at: float = math.inf) -> float:
        """Greatest distance in mm of the run between two distances along it from the straight join of the two.

        Beyond `stop_at` infinity is returned as soon as it is known.
        """
        start, finish = self.at(begin), self.at(end)
        sx, sy = start.x, start.y
        dx, dy = finish.x - sx, finish.y - sy
        size = dx * dx + dy * dy
        worst, limit = 0.0, stop_at * stop_at
        for point in self.points[bisect_right(self.along, begin) : bisect_left(self.along, end)]:
            px, py = point.x - sx, point.y - sy
            share = (px * dx + py * dy) / size if size > 0.0 else 0.0
            # Compared by hand: this loop is where the time goes.
            share = 0.0 if share < 0.0 else 1.0 if share > 1.0 else share
            ox, oy = px - share * dx, py - share * dy
            away = ox * ox + oy * oy
            if away > worst:
                worst = away
                if worst > limit:
                    return math.inf
        return math.sqrt(worst)


def curve_points(run: Run, within: float) -> tuple[float, ...]:
    """The points that `choosing` chooses, without a pause."""
    return finished(choosing(run, within))


def choosing(run: Run, within: float) -> Steps[tuple[float, ...]]:
    """Distances along the run of the fewest points that keep straight joins within `within` mm of it, ends not counted.

    Each join reaches as far as the tolerance allows. On a run that bends one way no other choice needs fewer points,
    because a part of a join never strays more than the whole join. On a run that bends both ways this is tried from
    either end, and no point is kept that can be left out. The points are then spread evenly: their tolerance is made
    as small as their number allows. The same run gives the same points. They come a step at a time.
    """
    if run.length <= 0.0 or run.strays(0.0, run.length, within) <= within:
        return ()
    forward = _reaching(run, within, math.inf) or ()
    yield None
    backward = _reaching(run.reversed(), within, len(forward) - 1)
    if backward is None:
        return _spared(run, (yield from _spread(run, forward, within)), within)
    turned = yield from _spread(run.reversed(), backward, within)
    return _spared(run, tuple(run.length - at for at in reversed(turned)), within)


def _reaching(run: Run, within: float, most: float) -> tuple[float, ...] | None:
    """Points each as far from the one before as the tolerance lets it be; None when that takes more than `most`."""
    points: list[float] = []
    begin = 0.0
    while run.strays(begin, run.length, within) > within:
        if len(points) >= most:
            return None
        begin = _farthest(run, begin, within)
        points.append(begin)
    return tuple(points)


def _farthest(run: Run, begin: float, within: float) -> float:
    """The farthest end of a join that begins at `begin` and keeps the tolerance, found to _NEAR.

    Where the tolerance is finer than the search, no end keeps it: then the nearest one that was tried is taken, so that
    the points stay apart.
    """
    tried = run.length

    def keeps(end: float) -> bool:
        nonlocal tried
        kept = run.strays(begin, end, within) <= within
        tried = tried if kept else end
        return kept

    end = least_enough(keeps, run.length, begin, _NEAR)
    return end if end > begin else tried


def _spread(run: Run, points: tuple[float, ...], within: float) -> Steps[tuple[float, ...]]:
    """As many points at the least tolerance that needs no more of them."""
    found = points

    def enough(tolerance: float) -> bool:
        nonlocal found
        tried = _reaching(run, tolerance, len(found))
        if tried is not None:
            found = tried
        return tried is not None

    yield from seeking_least(enough, 0.0, within, _SHARE * within)
    return found


def _spared(run: Run, points: tuple[float, ...], within: float) -> tuple[float, ...]:
    """The points without any that its neighbours' straight join does not need."""
    kept = [0.0, *points, run.length]
    index = 1
    while index < len(kept) - 1:
        if run.strays(kept[index - 1], kept[index + 1], within) <= within:
            del kept[index]
        else:
            index += 1
    return tuple(kept[1:-1])
