import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, box
from shapely import Point as ShapelyPoint

from drafting.drawing import Stroke, clipped
from drafting.geometry.point import Point
from drafting.render.pdf import runs_within

pytestmark = pytest.mark.outside

BOX = (-10.0, -20.0, 15.0, 25.0)
places = st.builds(Point, st.floats(-50, 50), st.floats(-50, 50))


@given(places, places)
def test_clipping_agrees_with_shapely(a: Point, b: Point):
    inside = LineString([(a.x, a.y), (b.x, b.y)]).intersection(box(*BOX)).length
    found = clipped(a, b, BOX)
    length = 0.0 if found is None else (found[1] - found[0]) * a.distance(b)
    assert length == pytest.approx(inside, abs=1e-6)


@given(st.lists(places, min_size=2, max_size=12), st.booleans())
def test_lines_cut_at_a_sheet_keep_their_length_and_place(points: list[Point], closed: bool):
    stroke = Stroke(tuple(points), "cut", closed)
    ring = [*points, points[0]] if closed else points
    wanted = sum(
        LineString([(a.x, a.y), (b.x, b.y)]).intersection(box(*BOX)).length for a, b in itertools.pairwise(ring)
    )
    found = 0.0
    for run, begun in runs_within(stroke, BOX):
        found += sum(a.distance(b) for a, b in itertools.pairwise(run))
        # `begun` is how far along the whole line the run begins, so that dashes go on where the sheet before ended.
        there = LineString([(p.x, p.y) for p in ring]).interpolate(begun)
        assert there.distance(ShapelyPoint(run[0].x, run[0].y)) < 1e-6
        assert all(BOX[0] - 1e-9 <= p.x <= BOX[2] + 1e-9 and BOX[1] - 1e-9 <= p.y <= BOX[3] + 1e-9 for p in run)
    assert found == pytest.approx(wanted, abs=1e-5)
