"""Seat, legs and area of `knit_trousers` beside scipy and shapely, each found anew from the rules of their curves."""

import math
from typing import Any

import numpy
import pytest
from scipy.optimize import brentq
from shapely import LineString, Polygon

from drafting.contract.set_out import SetOut
from tests.drafting import bodies
from tests.drafting.bodies import BODIES, Data, measured_for
from tests.drafting.test_leggings_outside import along, arc


def set_out(body: str, style: Data | None = None) -> SetOut:
    return bodies.set_out(measured_for(BODIES[body], "knit_trousers"), style, garment="knit_trousers")


@pytest.mark.parametrize("cut", ["straight", "wide"])
@pytest.mark.parametrize("body", BODIES)
def test_seat_inner_legs_and_sides_are_as_long_as_scipy_says(body: str, cut: str) -> None:
    found = set_out(body, {"silhouette": cut})
    front, back = found.pieces[:2]
    lengths = {
        (piece.name, edge): along(piece.edge(edge).stitch)
        for piece in (front, back)
        for edge in ("seat", "inner", "side")
    }
    seat = next(figure.value for figure in found.figures if figure.at == "seat")
    assert seat == pytest.approx(lengths["front", "seat"] + lengths["back", "seat"], abs=0.02)
    for edge in ("inner", "side"):
        assert lengths["front", edge] == pytest.approx(lengths["back", edge], abs=0.06)


@pytest.mark.parametrize("cut", ["straight", "wide"])
@pytest.mark.parametrize("body", ["median woman", "man", "child of 12"])
def test_how_far_the_back_point_is_lowered_is_found_anew(body: str, cut: str) -> None:
    """Down to the knee the inner leg is one cubic x(y), 1.45 of its chord steep at the crotch, then straight, and over
    its last 4 a parabola that ends upright (CALC).
    """
    found = set_out(body, {"silhouette": cut})
    knees = {}
    for piece in found.pieces[:2]:
        crease = piece.guides[0].line[0].x
        joint = piece.edge("inner").stitch.segments[0].end
        knees[piece.name] = (joint.x - crease, joint.y - piece.level("waist"))
    points = found.points

    def inner(name: str, down: float) -> float:
        start = points[f"{name}_crotch"].x, down
        knee, hem = knees[name], points[f"{name}_hem"]
        turn = min(40.0, 0.35 * (hem.y - knee[1]))
        slope = (hem.x - knee[0]) / (hem.y - turn / 2 - knee[1])
        third, chord = (knee[1] - down) / 3, (knee[0] - start[0]) / (knee[1] - down)
        first = start[0] + 1.45 * chord * third, down + third
        upper = arc([start, first, (knee[0] - slope * third, knee[1] - third), knee])
        begins = hem.x - slope * turn / 2, hem.y - turn
        bend = hem.x, hem.y - turn / 2
        one, two = (
            tuple(a + (b - a) * 2 / 3 for a, b in zip(end, bend, strict=True)) for end in (begins, (hem.x, hem.y))
        )
        return upper + math.dist(knee, begins) + arc([begins, one, two, (hem.x, hem.y)])

    front = points["front_crotch"].y
    long = inner("front", front)
    lowered = brentq(lambda down: inner("back", down) - long, front - 30, front + 60)
    assert points["back_crotch"].y == pytest.approx(float(lowered), abs=0.05)


@pytest.mark.parametrize("body", BODIES)
def test_the_widths_at_each_level_are_those_that_are_told(body: str) -> None:
    found = set_out(body, {"silhouette": "wide"})
    girths = {girth.at: girth.girth for girth in found.girths}

    def wide(piece: Any, level: float) -> float:
        outline = Polygon([(p.x, p.y) for p in piece.stitch_line])
        low, _, high, _ = outline.bounds
        return float(outline.intersection(LineString([(low - 10, level), (high + 10, level)])).length)

    for at, times in (("hip", 2.0), ("knee", 1.0)):
        told = times * sum(wide(piece, piece.level(at)) for piece in found.pieces[:2])
        assert told == pytest.approx(girths[at], abs=0.3), at
    hem = sum(wide(piece, piece.level("hem") - 0.01) for piece in found.pieces[:2])
    assert hem == pytest.approx(girths["hem"], abs=0.1)


@pytest.mark.parametrize("body", ["median woman", "child of 6"])
def test_the_area_is_what_the_widths_make_of_it(body: str) -> None:
    for piece in set_out(body).pieces[:2]:
        outline = Polygon([(p.x, p.y) for p in piece.stitch_line])
        low, top, high, deep = outline.bounds
        levels = numpy.linspace(top, deep, 3001)
        lines = [LineString([(low - 10, level), (high + 10, level)]) for level in levels]
        area = numpy.trapezoid([outline.intersection(line).length for line in lines], levels)
        assert outline.area == pytest.approx(float(area), rel=1e-3)
