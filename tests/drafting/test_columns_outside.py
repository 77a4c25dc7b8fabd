"""Outlines as columns, against what shapely (a general-purpose library for geometry) finds in them."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Polygon, box

from drafting.geometry.point import Point
from drafting.layout.columns import Cover, cover, forbidden, joined
from drafting.layout.shapes import moved, shape
from tests.drafting.bodies import made


def spans(covered: Cover) -> dict[int, list[tuple[float, float]]]:
    """The intervals of every column."""
    found = {column: [span] for column, span in enumerate(zip(covered.lows, covered.highs, strict=True))}
    for column, low, high in covered.more:
        found[column].append((low, high))
    return {column: sorted(span for span in each if span[0] < math.inf) for column, each in found.items()}


U = ((0, 0), (30, 0), (30, 80), (70, 80), (70, 20), (100, 20), (100, 100), (0, 100))
"""A U with one leg longer than the other; its edges lie on edges of columns."""
LEAN = ((0, 0), (50, 13), (50 + 1e-13, 40), (90.3, 61), (20, 90), (0, 55))
"""An outline with an edge that runs down but for a rounding."""


@pytest.mark.parametrize("turned", [0, 90, 180, 270])
@pytest.mark.parametrize("width", [0.5, 2.5, 10.0])
@pytest.mark.parametrize("spare", [0.0, 2.75])
@pytest.mark.parametrize("name", ["U", "lean", "front"])
def test_a_cover_is_what_shapely_finds_in_each_column_and_beside_it(
    name: str, spare: float, width: float, turned: int
) -> None:
    outline = made("median woman", "default").draft.pieces[0].cut_line
    if name != "front":
        outline = tuple(Point(x, y) for x, y in (U if name == "U" else LEAN))
    there = shape(outline, turned).outline
    area, at = Polygon([(p.x, p.y) for p in there]), 0.37 * width
    covered = cover(there, at, spare, width)
    checked = 0
    for column, found in list(spans(covered).items())[:: max(1, round(20 / width))]:
        left = (covered.first + column) * width - at
        part = area.intersection(box(left - spare, -1e4, left + width + spare, 1e4))
        parts = sorted((one.bounds[1], one.bounds[3]) for one in getattr(part, "geoms", [part]) if not part.is_empty)
        apart: list[tuple[float, float]] = []
        for top, foot in parts:
            if apart and top <= apart[-1][1]:
                apart[-1] = apart[-1][0], max(apart[-1][1], foot)
            else:
                apart.append((top, foot))
        assert len(found) == len(apart)
        for (low, high), (top, foot) in zip(found, apart, strict=True):
            assert (low, high) == pytest.approx((top - spare, foot + spare), abs=1e-6)
            checked += 1
    assert checked >= 3
    assert len(covered.lows) == math.ceil((max(p.x for p in there) + at + spare) / width - 1e-9) - covered.first


def test_the_gap_of_a_u_is_free_by_what_the_clearance_of_both_legs_leaves() -> None:
    lying = moved([Point(x, y) for x, y in U], 90, False, 100.0)
    (inside,) = {tuple(each) for column, each in spans(cover(lying, 0.0, 2.0, 10.0)).items() if 4 <= column <= 8}
    assert inside == ((-2.0, 32.0), (68.0, 102.0))
    (closed,) = {tuple(each) for column, each in spans(cover(lying, 0.0, 20.0, 10.0)).items() if 7 <= column <= 8}
    assert closed == ((-20.0, 50.0), (50.0, 120.0))


intervals = st.lists(st.tuples(st.integers(0, 60), st.integers(1, 12)), min_size=1, max_size=3)


@st.composite
def covers(draw: st.DrawFn) -> tuple[Cover, list[list[tuple[int, int]]]]:
    """A cover of a few columns, and its intervals column by column: the longest is the main one, as in `covering`."""
    columns = [
        joined([(float(low), float(low + long)) for low, long in found])
        for found in draw(st.lists(intervals, min_size=1, max_size=5))
    ]
    largest = [max(found, key=lambda one: one[1] - one[0]) for found in columns]
    more = [(c, *one) for c, found in enumerate(columns) for one in found if one != largest[c]]
    first = draw(st.integers(-3, 3))
    return Cover(first, [low for low, _ in largest], [high for _, high in largest], more), columns


@given(covers(), covers(), st.integers(-4, 4))
def test_the_forbidden_shifts_are_those_at_which_any_two_intervals_of_a_column_overlap(still, moving, columns) -> None:
    (one, its), (other, theirs) = still, moving
    blocked = forbidden(one, other, columns)
    for half in range(-160, 160):
        shift = half / 2 + 0.25  # never at an end of an interval
        meets = any(
            low < high_other + shift and low_other + shift < high
            for index, found in enumerate(its)
            for place, others in enumerate(theirs)
            if one.first + index == other.first + columns + place
            for low, high in found
            for low_other, high_other in others
        )
        assert meets == any(low < shift < high for low, high in blocked), shift
