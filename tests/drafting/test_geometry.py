"""Lines, cubics, paths and joined points against shapely and scipy, and the handbook's worked curves.

Examples 9 and 10 (CALC): cubic quarter circle, quarter ellipses, an arc of radius 10, shoulder slopes.
"""

import itertools
import math
from collections.abc import Sequence

import numpy
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.integrate import quad
from shapely import LineString, Polygon
from shapely import Point as Place

from drafting.geometry.path import Path
from drafting.geometry.point import Point, direction
from drafting.geometry.polyline import (
    area,
    crossing,
    distance_to_polyline,
    lengths_along,
    lines_meet,
    mirrored,
    offset,
    own_crossing,
    point_along,
)
from drafting.geometry.segments import Cubic, Line, arc, fillet, flatten, hermite, quadratic

number = st.floats(-500, 500)
points = st.builds(Point, number, number)
cubics = st.builds(Cubic, points, points, points, points)
#: Curves as smooth as a garment's: handles of a third of the chord, turned by less than a right angle.
smooth = st.builds(
    lambda size, first, last: Cubic(
        Point(0, 0), direction(first) * (size / 3), Point(size, 0) - direction(last) * (size / 3), Point(size, 0)
    ),
    st.floats(5, 700),
    st.floats(-1.4, 1.4),
    st.floats(-1.4, 1.4),
)


def pairs(run: Sequence[Point]) -> list[tuple[float, float]]:
    return [(point.x, point.y) for point in run]


def true_length(curve: Cubic) -> float:
    """Arc length by scipy's adaptive quadrature, in pieces so that cusps cannot be stepped over."""
    steps = numpy.linspace(0, 1, 17)
    return sum(quad(lambda t: curve.velocity(t).length(), a, b, limit=100)[0] for a, b in itertools.pairwise(steps))


def quarter_ellipse(a: float, b: float) -> Cubic:
    kappa = 0.5522847498
    return Cubic(Point(a, 0), Point(a, kappa * b), Point(kappa * a, b), Point(0, b))


def test_the_cubic_quarter_circle_of_the_handbook() -> None:
    quarter = quarter_ellipse(1000, 1000)
    assert quarter.length() == pytest.approx(1571.0167, abs=0.001)
    away = [quarter.at(step / 1000).length() / 1000 - 1 for step in range(1001)]
    assert max(away) == pytest.approx(0.000273, abs=1e-6)
    assert min(away) >= -1e-9


@pytest.mark.parametrize(("a", "b", "length"), [(7, 8, 11.7941), (7, 2, 7.6254), (6.5, 7.5, 11.0096), (2.5, 3, 4.3286)])
def test_quarter_ellipses_of_the_handbook(a: float, b: float, length: float) -> None:
    # The true ellipse by scipy's complete elliptic integral; the cubic is as much longer as the quarter circle's.
    from scipy.special import ellipe

    long, short = max(a, b), min(a, b)
    exact = long * ellipe(1 - (short / long) ** 2)
    assert exact == pytest.approx(length, abs=0.00005)
    assert quarter_ellipse(a * 10, b * 10).length() / 10 == pytest.approx(length, rel=0.00025)


def test_the_arc_of_the_handbook() -> None:
    quarter = arc(Point(0, 0), 100, 0, math.pi / 2)
    assert Path(tuple(quarter)).length() == pytest.approx(157.08, abs=0.005)
    assert quarter[0].start.distance(quarter[-1].end) == pytest.approx(141.42, abs=0.005)
    sagitta = 100 - Place(0, 0).distance(LineString(pairs((quarter[0].start, quarter[-1].end))))
    assert sagitta == pytest.approx(29.29, abs=0.005)


@pytest.mark.parametrize(
    ("half", "neck", "drop", "slope", "length"),
    [(20, 6.5, 4, 16.50, 14.080), (20, 6.5, 5, 20.32, 14.396), (19, 7, 4.5, 20.56, 12.816)],
)
def test_shoulders_of_the_handbook(half: float, neck: float, drop: float, slope: float, length: float) -> None:
    shoulder = Line(Point(neck, 0), Point(half, drop))
    assert shoulder.length() == pytest.approx(length, abs=0.0006)
    along = shoulder.tangent(0)
    assert math.degrees(math.atan2(along.y, along.x)) == pytest.approx(slope, abs=0.006)
    assert along.distance(direction(math.radians(slope))) < 1e-4


@given(smooth)
def test_arc_length_agrees_with_scipy(curve: Cubic) -> None:
    assert curve.length() == pytest.approx(true_length(curve), abs=0.0005)


@given(cubics)
def test_arc_length_of_any_curve_agrees_too(curve: Cubic) -> None:
    assert curve.length() == pytest.approx(true_length(curve), abs=0.01)


@given(cubics, st.sampled_from([0.02, 0.05, 0.5]))
def test_flattening_keeps_its_tolerance(curve: Cubic, tolerance: float) -> None:
    joined = flatten([curve], tolerance)
    assume(len(set(joined)) > 1)
    line = LineString(pairs(joined))
    for step in range(101):
        point = curve.at(step / 100)
        assert line.distance(Place(point.x, point.y)) <= tolerance + 1e-9


@given(cubics, st.floats(0.05, 0.95))
def test_splitting_keeps_the_curve_and_its_length(curve: Cubic, t: float) -> None:
    first, second = curve.split(t)
    assert first.end.distance(curve.at(t)) < 1e-6
    assert first.length() + second.length() == pytest.approx(curve.length(), abs=0.01)
    assert first.at(0.5).distance(curve.at(t / 2)) < 1e-6


@given(cubics, st.floats(0.01, 0.99))
def test_tangent_and_curvature_agree_with_differences(curve: Cubic, t: float) -> None:
    assume(curve.velocity(t).length() > 50)
    step = 1e-5
    before, here, after = curve.at(t - step), curve.at(t), curve.at(t + step)
    assert curve.tangent(t).distance((after - before).unit()) < 1e-4
    turn = (here - before).unit().cross((after - here).unit()) / ((after - before).length() / 2)
    assert curve.curvature(t) == pytest.approx(turn, abs=1e-3, rel=0.01)


@given(st.floats(20, 500), st.floats(-3, 3), st.floats(0.05, 6.2), st.booleans())
def test_an_arc_keeps_its_radius_and_length(radius: float, begin: float, sweep: float, back: bool) -> None:
    end = begin - sweep if back else begin + sweep
    made = arc(Point(3, -7), radius, begin, end)
    for curve in made:
        for step in range(11):
            assert curve.at(step / 10).distance(Point(3, -7)) == pytest.approx(radius, rel=3e-4)
    assert Path(tuple(made)).length() == pytest.approx(radius * sweep, rel=3e-4)


@given(st.floats(0.1, 3.0), st.booleans(), st.floats(5, 50))
def test_a_fillet_touches_both_legs(turn: float, right: bool, leg: float) -> None:
    towards = Point(1, 0)
    away = towards.turned(turn if right else -turn)
    corner = Point(40, 60)
    curve = fillet(corner, towards, away, leg)
    assert curve[0].start.distance(corner - towards * leg) < 1e-9
    assert curve[-1].end.distance(corner + away * leg) < 1e-6
    assert curve[0].tangent(0).distance(towards) < 1e-6
    assert curve[-1].tangent(1).distance(away) < 1e-6
    radius = leg / math.tan(turn / 2)
    assert 1 / abs(curve[0].curvature(0)) == pytest.approx(radius, rel=0.01)


def test_no_fillet_where_nothing_turns() -> None:
    assert fillet(Point(0, 0), Point(1, 0), Point(1, 0), 10) == []


@given(points, points, points, st.floats(0, 1))
def test_a_quadratic_is_raised_exactly(start: Point, control: Point, end: Point, t: float) -> None:
    s = 1 - t
    expected = start * (s * s) + control * (2 * s * t) + end * (t * t)
    assert quadratic(start, control, end).at(t).distance(expected) < 1e-9


@given(st.floats(-1, 1), st.floats(-1, 1), st.floats(0, 1))
def test_a_hermite_runs_evenly_down_with_its_slopes(first: float, last: float, t: float) -> None:
    from scipy.interpolate import CubicHermiteSpline

    curve = hermite(Point(200, 100), first, Point(260, 400), last)
    other = CubicHermiteSpline([100, 400], [200, 260], [first, last])
    point = curve.at(t)
    assert point.y == pytest.approx(100 + 300 * t, abs=1e-9)
    assert point.x == pytest.approx(float(other(point.y)), abs=1e-9)


@given(st.lists(cubics, min_size=1, max_size=3), st.floats(0, 1))
def test_a_place_along_a_path_agrees_with_shapely(curves: list[Cubic], share: float) -> None:
    chained = [curves[0]]
    for curve in curves[1:]:
        shift = chained[-1].end - curve.start
        chained.append(curve.scaled(1, 1, shift))
    path = Path(tuple(chained))
    size = path.length()
    assume(size > 1)
    line = LineString(pairs(path.flatten(0.001)))
    point, _ = path.at_length(size * share)
    there = line.interpolate(share, normalized=True)
    assert point.distance(Point(there.x, there.y)) < 0.05
    assert path.reversed().length() == pytest.approx(size, abs=0.01)


@given(st.floats(-0.9, 0.9), st.floats(0, 1))
def test_the_distance_of_a_point_on_a_path_is_where_it_lies(slope: float, share: float) -> None:
    path = Path((Line(Point(0, -100), Point(0, 0)), hermite(Point(0, 0), 0.0, Point(80, 300), slope)))
    point, tangent = path.at_length(path.length() * share)
    assert path.nearest(point)[0] == pytest.approx(path.length() * share, abs=0.002)
    assert tangent.length() == pytest.approx(1, abs=1e-9)


shapes = st.lists(points, min_size=3, max_size=12, unique=True)


@given(shapes)
def test_area_and_lengths_agree_with_shapely(run: list[Point]) -> None:
    along = lengths_along(run)
    line = LineString(pairs(run))
    assert along[-1] == pytest.approx(line.length, abs=1e-9)
    half = point_along(run, along, along[-1] / 2)
    there = line.interpolate(line.length / 2)
    assert half.distance(Point(there.x, there.y)) < 1e-6
    if line.is_simple and LineString(pairs([*run, run[0]])).is_simple:
        assert area(run) == pytest.approx(Polygon(pairs(run)).area, rel=1e-9, abs=1e-6)


@given(shapes, points)
def test_distances_to_joined_points_agree_with_shapely(run: list[Point], point: Point) -> None:
    expected = LineString(pairs(run)).distance(Place(point.x, point.y))
    assert distance_to_polyline(point, run) == pytest.approx(expected, abs=1e-9)


@given(st.lists(st.builds(Point, st.integers(0, 12), st.integers(0, 12)), min_size=4, max_size=10, unique=True))
def test_crossing_itself_agrees_with_shapely(run: list[Point]) -> None:
    turns = [(b - a).cross(c - b) for a, b, c in zip(run, run[1:], run[2:], strict=False)]
    assume(all(turn != 0 for turn in turns))  # a run that doubles back on itself crosses nothing but overlaps
    line = LineString(pairs(run))
    if line.is_simple:
        near = [
            LineString(pairs(run[i : i + 2])).distance(LineString(pairs(run[j : j + 2])))
            for i in range(len(run) - 1)
            for j in range(i + 2, len(run) - 1)
        ]
        # shapely lets the last point lie on the first; we call that touching.
        if not near or min(near) > 1e-6:
            assert own_crossing(run) is None
    elif not _only_overlaps(run):
        assert own_crossing(run) is not None


def _only_overlaps(run: list[Point]) -> bool:
    """Whether all meetings are between parallel pieces, which our crossing test passes over."""
    for i in range(len(run) - 1):
        for j in range(i + 2, len(run) - 1):
            a, b = LineString(pairs(run[i : i + 2])), LineString(pairs(run[j : j + 2]))
            if a.intersects(b) and (run[i + 1] - run[i]).cross(run[j + 1] - run[j]) != 0:
                return False
    return True


@given(st.floats(5, 20), st.floats(-1.2, 1.2), st.sampled_from([0.02, 0.1]))
def test_an_offset_of_an_arch_lies_at_its_distance(away: float, sweep: float, tolerance: float) -> None:
    assume(abs(sweep) > 0.05)
    curve = arc(Point(0, 0), 120, 0.3, 0.3 + sweep)
    made = LineString(pairs(offset(curve, away, tolerance)))
    base = LineString(pairs(flatten(curve, 0.001)))
    for step in range(51):
        place = made.interpolate(step / 50, normalized=True)
        assert base.distance(place) == pytest.approx(away, abs=tolerance + 0.005)
    # Left of travel: outward of an arc that runs counter-clockwise on the screen is to its right.
    sign = 1 if sweep > 0 else -1
    middle = made.interpolate(0.5, normalized=True)
    assert math.hypot(middle.x, middle.y) == pytest.approx(120 + sign * away, abs=0.2)


def test_left_is_left_on_the_screen() -> None:
    assert Point(1, 0).left() == Point(0, -1)  # travelling right, left is up, and y runs down
    assert Point(0, 1).left() == Point(1, 0)


@given(points, points, points)
def test_a_mirror_image_lies_as_far_on_the_other_side(point: Point, on: Point, towards: Point) -> None:
    assume(on.distance(towards) > 1)
    along = (towards - on).unit()
    image = mirrored(point, on, along)
    assert mirrored(image, on, along).distance(point) < 1e-6
    assert (image - on).dot(along) == pytest.approx((point - on).dot(along), abs=1e-6)
    assert (image - on).cross(along) == pytest.approx(-(point - on).cross(along), abs=1e-6)


def test_lines_meet_and_cross_where_shapely_says() -> None:
    first, second = [Point(0, 0), Point(100, 30)], [Point(60, -50), Point(40, 80)]
    found = crossing(first, second)
    there = LineString(pairs(first)).intersection(LineString(pairs(second)))
    assert found is not None
    assert found[2].distance(Point(there.x, there.y)) < 1e-9
    endless = lines_meet(first[0], first[1] - first[0], second[0], second[1] - second[0])
    assert endless.distance(found[2]) < 1e-9
    assert crossing(first, [Point(200, 0), Point(210, 50)]) is None


@given(smooth, st.floats(0.0, 1.0), st.floats(0.0, 1.0))
def test_a_part_of_a_path_is_what_lies_between_two_lengths(curve: Cubic, one: float, other: float) -> None:
    path = Path((Line(Point(-60.0, 10.0), curve.start), curve))
    start, end = sorted((one * path.length(), other * path.length()))
    assume(end - start > 1.0)
    part = path.part(start, end)
    assert part.length() == pytest.approx(end - start, abs=1e-3)
    assert part.start.distance(path.at_length(start)[0]) < 1e-3
    assert part.end.distance(path.at_length(end)[0]) < 1e-3
    whole = LineString([(p.x, p.y) for p in path.flatten(0.001)])
    assert max(whole.distance(Place(p.x, p.y)) for p in part.flatten(0.01)) < 0.01
