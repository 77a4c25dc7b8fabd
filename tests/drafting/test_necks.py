"""Necks: the reference figures, what passes, where edges run square and where they come to a point."""

import math

import pytest

from drafting.contract.cutting import FinishedEdge, cut_out
from drafting.geometry.path import Path
from drafting.geometry.point import Point
from drafting.geometry.segments import Line
from drafting.parts.neck import (
    FRONT_POINTS,
    NeckBase,
    edge_allowance,
    least_shoulder,
    neckline,
    solved,
    v_depth,
)

SLOPE = math.radians(20)
#: The median woman of the 1988 survey: neck base 34.5, bust level 26.7, head 54.4, half the shoulders 19.6 cm.
WOMAN = NeckBase(69.0, SLOPE, 162.9 / 163, 267.0)
#: What the head needs of a seam at 40 % stretch, mm.
HEAD = 554.0 / 1.32
HALF_SHOULDERS = 196.0


@pytest.mark.parametrize(
    ("kind", "ratio", "widened", "half_width", "front", "back", "ring"),
    [
        # Round with a band of 0.85: its back is 0.3 cm longer than by the rule (a circle at the shoulder), so it is
        # widened by 0.2 cm less.
        ("round", 0.85, 23.0, 97.0, 107.0, 25.0, 494.0),
        # Turned, or with a rib of 0.78 at 90 %.
        ("round", 1.0, 6.0, 80.0, 90.0, 20.0, 420.0),
        ("boat", 1.0, 0.0, 119.0, 58.0, 30.0, 495.0),
        # The ring is 0.5 cm longer than by the rule, for the same reason twice.
        ("v", 0.92, 0.0, 74.0, 180.0, 20.0, 549.0),
    ],
)
def test_reference_figures(kind, ratio, widened, half_width, front, back, ring):
    neck = solved(kind, WOMAN, HEAD / ratio, HALF_SHOULDERS)
    assert neck.widened == pytest.approx(widened, abs=3.0)
    assert neck.end.x == pytest.approx(half_width, abs=3.0)
    assert neck.front.start.y == pytest.approx(front, abs=3.0)
    assert neck.back.start.y == pytest.approx(back, abs=1.0)
    assert neck.ring == pytest.approx(ring, abs=3.0)


@pytest.mark.parametrize("kind", ["round", "boat", "v"])
@pytest.mark.parametrize("wanted", [380.0, 460.0, 520.0, 560.0])
def test_the_neck_is_the_smallest_that_is_long_enough(kind, wanted):
    neck = solved(kind, WOMAN, wanted, HALF_SHOULDERS)
    assert neck.ring >= wanted - 1e-6
    if neck.widened > 0:
        assert neckline(kind, WOMAN, neck.widened - 0.01).ring < wanted
        assert neck.ring == pytest.approx(wanted, abs=0.05)


def test_a_neck_is_never_wider_than_it_may_be():
    neck = solved("round", WOMAN, 5000.0, 120.0)
    assert neck.end.x == pytest.approx(120.0)
    assert neck.ring < 5000.0


@pytest.mark.parametrize("widened", [0.0, 10.0, 30.0])
@pytest.mark.parametrize("slope", [12, 20, 28])
def test_round_edges_meet_the_shoulder_and_the_fold_square(widened, slope):
    base = NeckBase(69.0, math.radians(slope), 1.0, 267.0)
    neck = neckline("round", base, widened)
    shoulder = Point(math.cos(base.slope), math.sin(base.slope))
    for edge in (neck.front, neck.back):
        assert edge.segments[-1].tangent(1.0).dot(shoulder) == pytest.approx(0.0, abs=1e-6)
        assert edge.segments[0].tangent(0.0).y == pytest.approx(0.0, abs=1e-6)
        assert edge.start.x == 0.0
    assert neck.front.end.distance(neck.back.end) < 1e-9
    # The end lies on the shoulder line, and the back never above it.
    assert neck.end.y == pytest.approx((neck.end.x - 69.0) * math.tan(base.slope))
    assert neck.back.start.y >= neck.end.y + 15.0 - 1e-9


def test_a_boat_lies_below_its_end_and_comes_in_flat():
    neck = neckline("boat", WOMAN, 5.0)
    assert neck.front.start.y == pytest.approx(neck.end.y + 40.0 * WOMAN.grown)
    assert neck.back.start.y == pytest.approx(neck.end.y + 12.0 * WOMAN.grown)
    assert [end for end, _ in FRONT_POINTS["boat"]] == ["end"]


def test_a_v_is_deepened_as_it_is_widened_and_stays_above_the_bust():
    assert v_depth(WOMAN, 0.0) == pytest.approx(180.0 * WOMAN.grown)
    assert v_depth(WOMAN, 5.0) == pytest.approx(180.0 * WOMAN.grown + 20.0)
    assert v_depth(WOMAN, 50.0) == pytest.approx(267.0 - 50.0 * WOMAN.grown)
    small = NeckBase(52.0, SLOPE, 0.7, 165.0)
    assert v_depth(small, 0.0) == pytest.approx(165.0 - 70.0 * 0.7)
    asked = NeckBase(69.0, SLOPE, 1.0, 267.0, 150.0)
    assert neckline("v", asked, 0.0).front.start.y == pytest.approx(150.0)


def test_least_shoulder_and_allowance():
    assert least_shoulder(1.0) == 30.0
    assert least_shoulder(0.6) == 25.0
    neck = neckline("round", WOMAN, 20.0)
    assert edge_allowance(neck, 20.0) == 10.0
    tight = neckline("round", NeckBase(50.0, SLOPE, 0.6, 150.0), 5.0)
    assert edge_allowance(tight, 10.0) == pytest.approx(max(6.0, tight.tightest - 10.0))


def test_a_point_is_cut_off_on_the_fold():
    """The cut line of a V begins on the fold, its allowance away from the stitch line all along."""
    corners = [Point(0.0, 100.0), Point(50.0, 0.0), Point(50.0, 200.0), Point(0.0, 200.0)]
    names = ("v", "side", "foot")
    edges = [
        FinishedEdge(
            name, Path((Line(corners[k], corners[k + 1]),)), 10.0, points=(("start", "a V"),) if k == 0 else ()
        )
        for k, name in enumerate(names)
    ]
    cut = cut_out(edges, 0.0, 0.0)
    assert cut.line[0].x == pytest.approx(0.0, abs=1e-9)
    assert cut.line[-1].x == pytest.approx(0.0, abs=1e-9)
    # Square to a line that falls by 2 in 1: 10 aside is 10·√5 up the fold.
    v = cut.edges[0]
    assert v.stitch.start.y - cut.line[0].y == pytest.approx(10.0 * math.sqrt(5.0))
    assert v.comes_to_a_point("start")
    assert not v.comes_to_a_point("end")


def test_a_turned_edge_is_not_mirrored_at_a_point():
    """Where a boat meets the shoulder the cut edges are carried on until they meet, so that no ear stands out."""
    base = NeckBase(69.0, SLOPE, 1.0, 267.0)
    neck = neckline("boat", base, 0.0)
    end, foot = Point(220.0, 55.0), Point(220.0, 200.0)
    edges = [
        FinishedEdge("neck", neck.front, 10.0, turned=True, points=FRONT_POINTS["boat"]),
        FinishedEdge("shoulder", Path((Line(neck.end, end),)), 10.0),
        FinishedEdge("side", Path((Line(end, foot),)), 10.0),
        FinishedEdge("foot", Path((Line(foot, Point(0.0, 200.0)),)), 10.0),
    ]
    cut = cut_out(edges, 0.0, 0.0)
    corner = cut.corners[0] - cut.shift
    for path in (neck.front.segments[-1], edges[1].path.segments[0]):
        along = path.tangent(1.0 if path is neck.front.segments[-1] else 0.0)
        assert abs(along.cross(corner - neck.end)) == pytest.approx(10.0, abs=0.3)
