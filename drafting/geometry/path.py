"""A run of connected segments with arc length along it."""

import math
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise

from drafting.geometry.point import Point
from drafting.geometry.segments import Line, Segment, flatten
from drafting.geometry.solve import newton_crossing


@dataclass(frozen=True, slots=True)
class Path:
    """Connected segments travelled from `start` to `end`."""

    segments: tuple[Segment, ...]

    @staticmethod
    def of(segments: Iterable[Segment]) -> "Path":
        """A path of the segments that have a length (over a millionth of a millimetre)."""
        return Path(tuple(s for s in segments if s.start.distance(s.end) > 1e-6))

    @property
    def start(self) -> Point:
        """Where the path begins."""
        return self.segments[0].start

    @property
    def end(self) -> Point:
        """Where the path ends."""
        return self.segments[-1].end

    def length(self) -> float:
        """Arc length in mm, to within 0.0005 mm a segment."""
        return sum(segment.length() for segment in self.segments)

    def flatten(self, tolerance: float) -> list[Point]:
        """Points joined straight within `tolerance` mm."""
        return flatten(self.segments, tolerance)

    def at_length(self, distance: float) -> tuple[Point, Point]:
        """The point at `distance` mm along the path, and the unit vector of travel there.

        Accuracy: the point is within 0.001 mm along the path. Past the ends the end itself is given.
        """
        for index, segment in enumerate(self.segments):
            size = segment.length()
            if distance <= size or index == len(self.segments) - 1:
                t = _parameter_at(segment, min(max(distance, 0.0), size), size)
                return segment.at(t), segment.tangent(t)
            distance -= size
        raise ValueError("a path has at least one segment")

    def nearest(self, point: Point) -> tuple[float, Point, Point]:
        """The place nearest to a point: its distance along the path, itself, and the unit vector of travel there.

        Accuracy: 0.001 mm along the path for a point on it.
        """
        best, index, share = float("inf"), 0, 0.0
        for at, segment in enumerate(self.segments):
            t = _nearest(segment, point, best)
            if t is not None:
                best, index, share = segment.at(t).distance(point), at, t
        found = self.segments[index]
        before = sum(segment.length() for segment in self.segments[:index])
        part = found.split(share)[0].length() if 0.0 < share < 1.0 else share * found.length()
        return before + part, found.at(share), found.tangent(share)

    def scaled(self, across: float, down: float, shift: Point) -> "Path":
        """Each axis multiplied by its own factor, then moved by `shift`."""
        return Path(tuple(segment.scaled(across, down, shift) for segment in self.segments))

    def part(self, start: float, end: float) -> "Path":
        """The part of the path between two distances along it, mm."""
        found, at = list[Segment](), 0.0
        for segment in self.segments:
            size = segment.length()
            first, last = max(start - at, 0.0), min(end - at, size)
            if last - first > 1e-6:
                shares = [_parameter_at(segment, distance, size) for distance in (first, last) if 0 < distance < size]
                pieces = segment.split(*shares) if shares else [segment]
                found.append(pieces[1 if first > 0 else 0])
            at += size
        return Path(tuple(found))

    def reversed(self) -> "Path":
        """The same path travelled the other way."""
        return Path(tuple(segment.reversed() for segment in reversed(self.segments)))


def _nearest(segment: Segment, point: Point, best: float) -> float | None:
    """The parameter of the place on a segment nearest to a point, by Newton steps from samples.

    None if not under `best`.
    """
    if isinstance(segment, Line):
        run = segment.end - segment.start
        t = min(max((point - segment.start).dot(run) / run.dot(run), 0.0), 1.0)
        return t if segment.at(t).distance(point) < best else None
    # A curve lies within the box round its corners.
    corners = (segment.start, segment.first, segment.second, segment.end)
    aside = max(min(c.x for c in corners) - point.x, 0.0, point.x - max(c.x for c in corners))
    above = max(min(c.y for c in corners) - point.y, 0.0, point.y - max(c.y for c in corners))
    if math.hypot(aside, above) >= best:
        return None
    samples = segment.parameters(1.0)
    places = [segment.at(share) for share in samples]
    away = [place.distance(point) for place in places]
    nearest = away.index(min(away))
    # Between two samples the curve comes nearer than both by less than their distance.
    if away[nearest] - max(a.distance(b) for a, b in pairwise(places)) >= best:
        return None
    t = samples[nearest]
    for _ in range(12):
        apart, speed = segment.at(t) - point, segment.velocity(t)
        bend = speed.dot(speed) + apart.dot(segment.acceleration(t))
        step = apart.dot(speed) / bend if bend > 1e-9 else 0.0
        t = min(max(t - step, 0.0), 1.0)
        if abs(step) < 1e-9:
            break
    if segment.at(t).distance(point) > away[nearest]:
        t = samples[nearest]
    return t if segment.at(t).distance(point) < best else None


def _parameter_at(segment: Segment, distance: float, size: float) -> float:
    if size <= 0.0:
        return 0.0
    if isinstance(segment, Line):
        return distance / size

    def over(t: float) -> tuple[float, float]:
        part = segment.split(t)[0].length() if 0.0 < t < 1.0 else (0.0 if t <= 0.0 else size)
        return part - distance, segment.velocity(t).length()

    return newton_crossing(over, distance / size, 0.0, 1.0, least_slope=1e-9, value_within=1e-4)
