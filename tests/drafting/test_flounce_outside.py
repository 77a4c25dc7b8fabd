"""A flounce beside the plain arithmetic of a ring, and its arcs beside lengths integrated by scipy and shapely's areas.

The examples are worked out apart from the code, with C/(2πf) and C + 2πfd alone, in centimetres to the millimetre.
"""

import math
from typing import Any

import pytest
from scipy.integrate import quad
from shapely import Polygon

from drafting.cloth import ClothFacts
from drafting.contract.chalked_line import ChalkedLine
from drafting.parts.flounce import Flouncing, flounce_of, flounce_piece
from tests.drafting import bodies
from tests.drafting.bodies import BODIES

#: Edge, depth, fullness; inner radius and sweep, cm.
EXAMPLES = [(26, 15, 0.5, 8.3, 73.1), (26, 15, 1.0, 4.1, 120.3), (100, 20, 1.0, 15.9, 225.7)]


def cloth(**more: Any) -> ClothFacts:
    found = bodies.set_out(BODIES["man"], {}, {"width": "240 cm", **more}, garment="poncho")
    return found.cloth


def speed(segment: Any, t: float) -> float:
    """How fast a cubic or a line runs at t, from its corners."""
    corners = [segment.start, getattr(segment, "first", None), getattr(segment, "second", None), segment.end]
    if corners[1] is None:
        return math.hypot(segment.end.x - segment.start.x, segment.end.y - segment.start.y)
    weights = (3 * (1 - t) ** 2, 6 * (1 - t) * t, 3 * t * t)
    steps = list(zip(corners, corners[1:], weights, strict=False))
    return math.hypot(sum(w * (b.x - a.x) for a, b, w in steps), sum(w * (b.y - a.y) for a, b, w in steps))


def along(path: Any) -> float:
    return sum(quad(lambda t, s=segment: speed(s, t), 0, 1, epsabs=1e-9)[0] for segment in path.segments)


@pytest.mark.parametrize(("edge", "deep", "share", "radius", "sweep"), EXAMPLES)
def test_the_examples_are_met_and_the_arcs_are_as_long_as_told(
    edge: float, deep: float, share: float, radius: float, sweep: float
) -> None:
    made = flounce_of("hem", Flouncing(10.0 * deep, share), 10.0 * edge, 0.0, 1, 10.0, cloth(), ChalkedLine())
    assert made.radius / 10 == pytest.approx(radius, abs=0.051)
    assert made.sweep / 10 == pytest.approx(sweep, abs=0.06)  # 26 + 2π·15 is 120.25
    assert made.parts == {0.5: 1, 1.0: 2}[share]
    piece = flounce_piece(made, cloth())
    inner, side, hem = (along(one.stitch) for one in piece.edges)
    assert 2 * made.parts * inner == pytest.approx(10 * edge, abs=0.02)
    assert 2 * made.parts * hem == pytest.approx(10 * edge + 2 * math.pi * share * 10 * deep, abs=0.05)
    assert side == pytest.approx(10 * deep, abs=1e-6)
    area = 2 * made.parts * Polygon([(p.x, p.y) for p in piece.stitch_line]).area
    assert area == pytest.approx(math.pi * share * (made.outer**2 - made.radius**2), rel=1e-3)


def test_on_cloth_that_shrinks_it_is_as_long_as_told_after_the_wash() -> None:
    shrunk = cloth(shrink_across=3, shrink_along=6)
    made = flounce_of("hem", Flouncing(150.0, 0.5), 900.0, 0.0, 1, 10.0, shrunk, ChalkedLine())
    edge, _, hem = (one.stitch.scaled(0.97, 0.94, one.stitch.start) for one in flounce_piece(made, shrunk).edges)
    assert 2 * along(edge) == pytest.approx(900.0, abs=0.05)
    assert 2 * along(hem) == pytest.approx(900.0 + math.pi * 150.0, abs=0.05)
