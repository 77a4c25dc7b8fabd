"""Outline and areas of `kaftan` beside scipy and shapely: what encloses them, found anew from the construction."""

import math
from typing import Any

import pytest
from scipy.integrate import quad
from scipy.optimize import brentq
from shapely import LineString, Polygon
from shapely.geometry import Point as Place

from tests.drafting import bodies
from tests.drafting.bodies import BODIES, Data

STYLES: dict[str, Data] = {
    "default": {},
    "straight, steep": {"sleeve_shape": "straight", "overarm_angle": 15, "length": "knee"},
    "level, short": {"sleeve_length": "elbow", "overarm_angle": 0, "length": "mid_thigh"},
}


def draft(body: str, style: str) -> Any:
    return bodies.set_out(BODIES[body], STYLES[style], garment="kaftan")


def outline(piece: Any) -> LineString:
    return LineString([(p.x, p.y) for p in piece.stitch_line])


@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("body", BODIES)
def test_the_area_of_front_and_back_is_that_of_plain_shapes(body: str, style: str) -> None:
    """Body and sleeve between straight lines, less what the neck takes, and the rounded underarm and the hem's arc."""
    found = draft(body, style)
    points, side_neck = found.points, found.body.neck_base_girth / 5
    slope = math.tan(found.choices.overarm)
    corner, end = points["underarm"], points["sleeve_end_top"]
    under = points["sleeve_end_under"]
    hem = points["hem_corner"]
    length = found.choices.length
    top = -side_neck * slope  # where the overarm would meet the fold
    frame = Polygon([(0, top), (end.x, end.y), (under.x, under.y), (corner.x, corner.y), (hem.x, hem.y), (0, length)])

    def below_chord(centre: Place, one: Place, other: Place) -> float:
        """The segment of a circle between two places, from its angle."""
        radius = centre.distance(one)
        angle = 2 * math.asin(one.distance(other) / 2 / radius)
        return radius * radius * (angle - math.sin(angle)) / 2

    apex = Place(0, corner.y - corner.x / 0.1)
    area = frame.area + below_chord(apex, Place(hem.x, hem.y), Place(0, length))
    radius, turn = found.facts["corner_radius"], _turn(corner, under, hem)
    area += radius * radius * (math.tan(turn / 2) - turn / 2)
    width = end.x - under.x, end.y - under.y
    if found.choices.tapered:  # the end bends inward, about the point where overarm and under line would meet
        line = LineString([(corner.x, corner.y), (under.x, under.y)])
        away = (under.x - corner.x) / line.length, (under.y - corner.y) / line.length
        along = math.cos(found.choices.overarm), math.sin(found.choices.overarm)
        reach = brentq(
            lambda t: (under.x + t * away[0] - end.x) * along[1] - (under.y + t * away[1] - end.y) * along[0], 0, 1e6
        )
        meet = Place(under.x + reach * away[0], under.y + reach * away[1])
        area -= below_chord(meet, Place(end.x, end.y), Place(under.x, under.y))
    assert math.hypot(*width) > 0
    for name in ("front", "back"):
        piece = next(one for one in found.pieces if one.name == name)
        edge = piece.edge("neck_edge").stitch
        neck = Polygon([(0, top + piece.zero), *((p.x, p.y) for p in edge.flatten(0.005))]).area
        whole = Polygon([(p.x, p.y) for p in piece.stitch_line]).area
        assert whole == pytest.approx(area - neck, rel=3e-4), name


def _turn(corner: Any, under: Any, hem: Any) -> float:
    """By how much the outline turns at the underarm."""
    into = math.atan2(corner.y - under.y, corner.x - under.x)
    away = math.atan2(hem.y - corner.y, hem.x - corner.x)
    return abs((into - away + math.pi) % (2 * math.pi) - math.pi)


@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("body", ["median woman", "man", "child of 6"])
def test_the_neck_edge_is_as_long_as_scipy_says(body: str, style: str) -> None:
    found = draft(body, style)
    total = 0.0
    for name in ("front", "back"):
        edge = next(one for one in found.pieces if one.name == name).edge("neck_edge").stitch
        for segment in edge.segments:
            if hasattr(segment, "velocity"):
                total += quad(lambda t, s=segment: math.hypot(s.velocity(t).x, s.velocity(t).y), 0, 1, epsabs=1e-7)[0]
            else:
                total += math.dist((segment.start.x, segment.start.y), (segment.end.x, segment.end.y))
    told = next(girth.girth for girth in found.girths if girth.at == "neck")
    assert told == pytest.approx(2 * total, abs=0.05)


@pytest.mark.parametrize("body", BODIES)
def test_the_facing_lies_within_its_host(body: str) -> None:
    """Laid neck on neck; only what is turned under or in reaches past it."""
    found = draft(body, "default")
    for name in ("front", "back"):
        host, facing = (next(one for one in found.pieces if one.name == one_) for one_ in (name, f"{name}_facing"))
        by = host.edge("neck_edge").stitch.start.y - facing.edge("neck_edge").stitch.start.y
        laid = Polygon([(p.x, p.y + by) for p in facing.stitch_line])
        whole = Polygon([(p.x, p.y) for p in host.stitch_line])
        assert laid.difference(whole.buffer(0.1)).area < 1.0, name
        assert laid.area > 0.3 * 60 * facing.edge("neck_edge").stitch.length(), name
