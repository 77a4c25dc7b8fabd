"""The panels of `circle_skirt` beside what shapely and plain geometry say of parts of a ring."""

import math

import pytest
from shapely import Polygon

from drafting.contract.set_out import SetOut
from drafting.garments.circle_skirt.panel import Ring
from drafting.garments.circle_skirt.style import CIRCLES, FEWEST
from tests.drafting import bodies
from tests.drafting.bodies import Data, bdims

WOMAN: Data = {"kind": "woman", "measures": {"stature": 163, "waist_girth": 72, "hip_girth": 97}}
EVERY = [(circle, panels) for circle in CIRCLES for panels in range(FEWEST[circle], 9)]


def drafted(circle: str, panels: int, **cloth: float) -> tuple[SetOut, Ring]:
    style = {"circle": circle, "panels": str(panels)}
    found = bodies.set_out(WOMAN, style, {"width": "240 cm", **cloth}, garment="circle_skirt")
    share = CIRCLES[circle]
    radius = found.facts["waist_seam"] / (2 * math.pi * share)
    return found, Ring(share, panels, radius, found.choices.length, 10.0, 15.0, 15.0)


@pytest.mark.parametrize(("circle", "panels"), EVERY)
def test_all_panels_together_are_that_share_of_a_ring(circle: str, panels: int) -> None:
    found, ring = drafted(circle, panels)
    half = Polygon([(p.x, p.y) for p in found.pieces[0].stitch_line]).area
    whole = math.pi * CIRCLES[circle] * (ring.outer**2 - ring.radius**2)
    assert 2 * panels * half == pytest.approx(whole, rel=1e-4)


@pytest.mark.parametrize("shrink", [0, 4])
@pytest.mark.parametrize(("circle", "panels"), EVERY)
def test_the_width_and_length_reckoned_beforehand_are_those_of_the_panel(
    circle: str, panels: int, shrink: float
) -> None:
    """R·sin θ + allowance·cos θ, or R from a quarter of a turn on; what is reckoned is never less than what is cut."""
    found, ring = drafted(circle, panels, shrink_across=shrink, shrink_along=shrink)
    left, top, right, low = Polygon([(p.x, p.y) for p in found.pieces[0].cut_line]).bounds
    assert left == pytest.approx(0.0, abs=1e-6)
    assert 0.0 <= ring.width(found.cloth) - right < 0.6  # the corner lies on the arc, a little inside of what is added
    assert -0.6 < ring.long(found.cloth) - (low - top) < 0.6


@pytest.mark.parametrize(("across", "along"), [(8, 3), (0, 9), (9, 0)])
@pytest.mark.parametrize("circle", CIRCLES)
def test_on_cloth_that_shrinks_unevenly_a_panel_is_no_wider_than_reckoned(
    circle: str, across: float, along: float
) -> None:
    for panels in range(FEWEST[circle], 9):
        found, ring = drafted(circle, panels, shrink_across=across, shrink_along=along)
        right = Polygon([(p.x, p.y) for p in found.pieces[0].cut_line]).bounds[2]
        assert -0.1 <= ring.width(found.cloth) - right < 4.0


def test_the_panels_of_many_people_go_on_the_cloth_they_are_drafted_for() -> None:
    for person in bdims()[::25]:
        for circle in CIRCLES:
            found = bodies.set_out(person, {"circle": circle}, garment="circle_skirt")
            right = Polygon([(p.x, p.y) for p in found.pieces[0].cut_line]).bounds[2]
            assert 2 * right <= 1500.0 - 2 * 15.0
