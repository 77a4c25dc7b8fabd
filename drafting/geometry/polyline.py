"""Straight-joined points: lengths along them, offsets, crossings, area."""

import math
from bisect import bisect_right
from collections.abc import Callable, Sequence
from itertools import accumulate, pairwise

from drafting.geometry.point import Point
from drafting.geometry.segments import Segment

#: Joins whose boxes are farther apart than this, mm, do not meet. Much more than any rounding of floats.
_APART = 1.0


def lengths_along(points: Sequence[Point]) -> list[float]:
    """Distance along the points from the first to each, mm."""
    steps = (a.distance(b) for a, b in pairwise(points))
    return list(accumulate(steps, initial=0.0))


def point_along(points: Sequence[Point], along: Sequence[float], distance: float) -> Point:
    """The point `distance` mm along; `along` comes from lengths_along. Past the ends the end itself."""
    index = min(max(bisect_right(along, distance) - 1, 0), len(points) - 2)
    step = along[index + 1] - along[index]
    share = (distance - along[index]) / step if step > 0 else 0.0
    return points[index].between(points[index + 1], min(max(share, 0.0), 1.0))


def nearest_on(line: Sequence[Point], along: Sequence[float], point: Point) -> tuple[float, Point]:
    """Distance along a line, and place on it, nearest to a point. Plain floats, because it runs over every joint."""
    px, py = point.x, point.y
    best, index, share = math.inf, 0, 0.0
    ax, ay = line[0].x, line[0].y
    for at in range(1, len(line)):
        bx, by = line[at].x, line[at].y
        dx, dy = bx - ax, by - ay
        t = ((px - ax) * dx + (py - ay) * dy) / (dx * dx + dy * dy)
        t = 0.0 if t < 0.0 else min(t, 1.0)
        ex, ey = ax + t * dx - px, ay + t * dy - py
        square = ex * ex + ey * ey
        if square < best:
            best, index, share = square, at - 1, t
            if square < 1e-14:  # on the line
                break
        ax, ay = bx, by
    foot = line[index].between(line[index + 1], share)
    return along[index] + (along[index + 1] - along[index]) * share, foot


def distance_to_line(point: Point, start: Point, end: Point) -> float:
    """Distance from a point to the straight line between two others, ends included, mm."""
    # In plain numbers, because it is asked often: four times as fast as with points, and the same to the last digit.
    sx, sy = start.x, start.y
    ex, ey = end.x - sx, end.y - sy
    size = ex * ex + ey * ey
    share = min(max(((point.x - sx) * ex + (point.y - sy) * ey) / size, 0.0), 1.0) if size > 0 else 0.0
    return math.hypot(point.x - (sx + ex * share), point.y - (sy + ey * share))


def distance_to_polyline(point: Point, points: Sequence[Point]) -> float:
    """Shortest distance from a point to the joined points, mm."""
    return min(distance_to_line(point, a, b) for a, b in pairwise(points))


def near_polyline(points: Sequence[Point], within: float) -> Callable[[Point], bool]:
    """Tells of any number of places whether they lie within so many mm of the joined points."""
    corners = frozenset(points)
    boxes = [
        (min(a.x, b.x) - within, min(a.y, b.y) - within, max(a.x, b.x) + within, max(a.y, b.y) + within, a, b)
        for a, b in pairwise(points)
    ]

    def is_near(place: Point) -> bool:
        x, y = place.x, place.y
        return place in corners or any(
            left <= x <= right and top <= y <= bottom and distance_to_line(place, a, b) <= within
            for left, top, right, bottom, a, b in boxes
        )

    return is_near


def offset(segments: Sequence[Segment], distance: float, tolerance: float) -> list[Point]:
    """Points `distance` mm to the left of travel (y down: (x, y) turned to (y, −x)) of connected segments.

    Each point is exactly `distance` along the normal; straight joins keep within `tolerance` mm of the true
    offset. Segments must join smoothly or turn away from the offset by little; corners are the caller's business.
    """
    points: list[Point] = []
    for segment in segments:
        # The offset of an arc of radius r has radius r ± distance, and its chords leave it by that much more or less.
        bend = max(abs(segment.curvature(step / 4)) for step in range(5))
        for t in segment.parameters(tolerance / (1 + bend * abs(distance))):
            if t == 0.0 and points:
                continue
            points.append(segment.beside(t, distance))
    return points


def crossing(first: Sequence[Point], second: Sequence[Point]) -> tuple[int, int, Point] | None:
    """Where the end of one run of points crosses the beginning of the next: (index in first, index in second, point).

    The last crossing along `first` is taken; indices name the joined pair that begins there. None without one.
    """
    boxes = [(j, *_box(second[j], second[j + 1], _APART)) for j in range(len(second) - 1)]
    if not boxes:
        return None
    far_left, far_right = min(box[1] for box in boxes), max(box[2] for box in boxes)
    far_top, far_bottom = min(box[3] for box in boxes), max(box[4] for box in boxes)
    for i in range(len(first) - 2, -1, -1):
        a, b = first[i], first[i + 1]
        left, right, top, bottom = _box(a, b, 0.0)
        if left > far_right or right < far_left or top > far_bottom or bottom < far_top:
            continue
        for j, other_left, other_right, other_top, other_bottom in boxes:
            if left > other_right or right < other_left or top > other_bottom or bottom < other_top:
                continue
            point = _meet(a, b, second[j], second[j + 1])
            if point is not None:
                return i, j, point
    return None


def _box(a: Point, b: Point, spare: float) -> tuple[float, float, float, float]:
    """Left, right, top and bottom of the box round a join, with `spare` mm all round."""
    return min(a.x, b.x) - spare, max(a.x, b.x) + spare, min(a.y, b.y) - spare, max(a.y, b.y) + spare


def _meet(a: Point, b: Point, c: Point, d: Point) -> Point | None:
    along, over = b - a, d - c
    turn = along.cross(over)
    if abs(turn) < 1e-12:
        return None
    t, u = (c - a).cross(over) / turn, (c - a).cross(along) / turn
    if -1e-9 <= t <= 1 + 1e-9 and -1e-9 <= u <= 1 + 1e-9:
        return a.between(b, t)
    return None


def lines_meet(a: Point, along: Point, c: Point, over: Point) -> Point:
    """Where two endless lines meet, each given by a point and a direction. Raises ZeroDivisionError if parallel."""
    return a + along * ((c - a).cross(over) / along.cross(over))


def mirrored(point: Point, on: Point, along: Point) -> Point:
    """The point reflected in the endless line through `on` with unit direction `along`."""
    offset_from = point - on
    return on + along * (2 * offset_from.dot(along)) - offset_from


def area(points: Sequence[Point]) -> float:
    """Area within the closed points, mm² (shoelace formula; always positive)."""
    total = sum(a.cross(b) for a, b in zip(points, [*points[1:], points[0]], strict=False))
    return abs(total) / 2


def own_crossing(points: Sequence[Point]) -> tuple[int, int, Point] | None:
    """Where joined points cross or touch themselves but at shared ends: the two joins that do, and the place.

    A join is named by the index of the point at which it begins. It is None where nothing crosses. The joins are swept
    in the order of their least x.
    """
    count = len(points) - 1
    boxes = sorted((min(points[i].x, points[i + 1].x), max(points[i].x, points[i + 1].x), i) for i in range(count))
    for place, (_, right, i) in enumerate(boxes):
        for left_other, _, j in boxes[place + 1 :]:
            if left_other > right:
                break
            if abs(i - j) <= 1:
                continue
            meet = _meet(points[i], points[i + 1], points[j], points[j + 1])
            if meet is not None:
                return min(i, j), max(i, j), meet
    return None


def turn_between(before: Point, after: Point) -> float:
    """Signed turn from one direction to the next in radians, clockwise on the screen positive."""
    return math.atan2(before.cross(after), before.dot(after))


def simplified(places: Sequence[tuple[float, float]], near: float) -> list[int]:
    """A polyline simplified: the indices of those places whose straight joins stay within `near` of all the others.

    Both ends are always among them. The polyline is divided at its farthest place until every part lies within `near`
    of its chord (Douglas and Peucker, 1973).
    """
    last = len(places) - 1
    needed = {0, last}
    waiting = [(0, last)]
    while waiting:
        first, final = waiting.pop()
        ax, ay = places[first]
        dx, dy = places[final][0] - ax, places[final][1] - ay
        size = dx * dx + dy * dy
        worst, farthest = near * near, -1
        for index in range(first + 1, final):
            px, py = places[index][0] - ax, places[index][1] - ay
            share = (px * dx + py * dy) / size if size else 0.0
            share = 0.0 if share < 0.0 else min(share, 1.0)
            ex, ey = px - share * dx, py - share * dy
            away = ex * ex + ey * ey
            if away > worst:
                worst, farthest = away, index
        if farthest >= 0:
            needed.add(farthest)
            waiting += [(first, farthest), (farthest, final)]
    return sorted(needed)
