"""Seat, inner leg and area of `leggings` beside scipy and shapely, each found anew from the corners of its curves."""

import math
from typing import Any

import numpy
import pytest
from scipy.integrate import quad
from scipy.optimize import brentq
from shapely import LineString, Polygon

from drafting.contract.set_out import SetOut
from drafting.geometry.segments import Cubic
from tests.drafting import bodies
from tests.drafting.bodies import BODIES, Data, measured_for

JERSEY: Data = {"stretch_across": 50, "stretch_along": 20}


def set_out(body: str, style: Data | None = None) -> SetOut:
    return bodies.set_out(measured_for(BODIES[body], "leggings"), style, JERSEY, garment="leggings")


def arc(corners: Any) -> float:
    """The length of a cubic by scipy."""
    p = numpy.array(corners)
    a, b, c = p[1] - p[0], p[2] - p[1], p[3] - p[2]

    def speed(t: float) -> float:
        return float(numpy.hypot(*(3 * (1 - t) ** 2 * a + 6 * (1 - t) * t * b + 3 * t * t * c)))

    return float(quad(speed, 0, 1, epsabs=1e-8, limit=200)[0])


def along(path: Any) -> float:
    found = 0.0
    for one in path.segments:
        if isinstance(one, Cubic):
            found += arc([(p.x, p.y) for p in (one.start, one.first, one.second, one.end)])
        else:
            found += math.dist((one.start.x, one.start.y), (one.end.x, one.end.y))
    return found


@pytest.mark.parametrize("body", BODIES)
def test_seat_and_inner_legs_are_as_long_as_scipy_says(body: str) -> None:
    found = set_out(body)
    leg = found.pieces[0]
    lengths = {name: along(leg.edge(name).stitch) for name in ("front_seat", "back_seat", "front_inner", "back_inner")}
    seat = next(figure.value for figure in found.figures if figure.at == "seat")
    assert seat == pytest.approx(lengths["front_seat"] + lengths["back_seat"], abs=0.02)
    assert lengths["front_inner"] == pytest.approx(lengths["back_inner"], abs=0.05)
    lowered = any(moved.key == "crotch_level" for moved in found.adjusted)
    raised = next(figure.value for figure in found.figures if figure.at == "raised")
    least = 35.0 * found.body.stature / 1630.0
    if lowered or raised > least + 0.5:  # solved for sitting
        takes = (found.body.crotch_length + 30.0 * found.body.stature / 1630.0) / 1.1
        assert seat == pytest.approx(takes, abs=2.3)


@pytest.mark.parametrize("body", ["median woman", "man", "child of 12"])
def test_how_far_the_back_point_is_lowered_is_found_anew(body: str) -> None:
    """A leg to the knee is one cubic x(y) from the crotch, 1.45 of its chord there and upright at the hem (CALC)."""
    found = set_out(body, {"length": "knee"})
    points = found.points
    front, back = points["front_crotch"], points["back_crotch"]
    hems = points["front_hem"], points["back_hem"]

    def inner(x: float, y: float, hem_x: float, hem_y: float) -> float:
        third, chord = (hem_y - y) / 3, (hem_x - x) / (hem_y - y)
        return arc([(x, y), (x + 1.45 * chord * third, y + third), (hem_x, hem_y - third), (hem_x, hem_y)])

    long = inner(-front.x, front.y, -hems[0].x, hems[0].y)
    lowered = brentq(lambda y: inner(back.x, y, hems[1].x, hems[1].y) - long, front.y - 20, front.y + 60)
    assert back.y == pytest.approx(float(lowered), abs=0.05)


@pytest.mark.parametrize("body", BODIES)
def test_the_leg_is_what_its_widths_make_of_it(body: str) -> None:
    """Its area by shapely and by the widths at each level, which are those of its girths at hip, knee and hem."""
    found = set_out(body)
    leg = found.pieces[0]
    outline = Polygon([(p.x, p.y) for p in leg.stitch_line])
    low, _, high, deep = 0.0, *outline.bounds[1:2], *outline.bounds[2:]

    def wide(level: float) -> float:
        return float(outline.intersection(LineString([(low - 10, level), (high + 10, level)])).length)

    levels = numpy.linspace(outline.bounds[1], deep, 4001)
    area = numpy.trapezoid([wide(level) for level in levels], levels)
    assert outline.area == pytest.approx(float(area), rel=1e-3)
    girths = {girth.at: girth.girth for girth in found.girths}
    assert 2 * wide(leg.level("hip")) == pytest.approx(girths["hip"], abs=0.3)
    assert wide(leg.level("knee")) == pytest.approx(girths["knee"], abs=0.1)
    assert wide(leg.level("hem") - 0.01) == pytest.approx(girths["hem"], abs=0.1)


def turns(path: Any) -> float:
    """The smallest radius of the last curve of a seat, by numpy from its corners."""
    cubic = next(one for one in path.segments if isinstance(one, Cubic))
    p = numpy.array([(q.x, q.y) for q in (cubic.start, cubic.first, cubic.second, cubic.end)])
    t = numpy.linspace(0.0, 1.0, 2001)[:, None]
    first = 3 * ((1 - t) ** 2 * (p[1] - p[0]) + 2 * t * (1 - t) * (p[2] - p[1]) + t * t * (p[3] - p[2]))
    second = 6 * ((1 - t) * (p[2] - 2 * p[1] + p[0]) + t * (p[3] - 2 * p[2] + p[1]))
    bends = (first[:, 0] * second[:, 1] - first[:, 1] * second[:, 0]) / numpy.hypot(first[:, 0], first[:, 1]) ** 3
    return float(1 / numpy.abs(bends).max())


UNEVEN: Data = {"shrink_across": 9, "shrink_along": 0}
SEATS = {
    "leggings": (("leg", "front_seat"), ("leg", "back_seat")),
    "knit_trousers": (("front", "seat"), ("back", "seat")),
}


@pytest.mark.parametrize(("garment", "asked"), [("leggings", 14.0), ("leggings", 40.0), ("knit_trousers", 45.0)])
@pytest.mark.parametrize("shrinks", [{}, UNEVEN], ids=["plain", "uneven"])
def test_an_allowance_that_the_seat_is_too_tight_for_is_less_and_told(
    garment: str, asked: float, shrinks: Data
) -> None:
    """A cut line beyond a hollow of this radius keeps 1 mm of it: above that it is less, below it is what was asked."""
    child = measured_for(BODIES["child of 6"], garment)

    def drafted(allowance: float) -> SetOut:
        style = {"allowances": {"seams": f"{allowance:.3f} mm"}}
        return bodies.set_out(child, style, {**JERSEY, **shrinks}, garment=garment)

    def seams(found: SetOut) -> list[float]:
        pieces = {piece.name: piece for piece in found.pieces}
        return [pieces[name].edge(edge).allowance for name, edge in SEATS[garment]]

    found = drafted(asked)
    told = [one for one in found.adjusted if one.key == "allowances.seams"]
    assert [one.before for one in told] == [pytest.approx(asked, abs=0.001)]
    most = told[0].after
    pieces = {piece.name: piece for piece in found.pieces}
    assert most == pytest.approx(
        min(turns(pieces[name].edge(edge).stitch) for name, edge in SEATS[garment]) - 1, abs=0.1
    )
    assert seams(found) == [most, most]
    for piece in found.pieces:
        assert Polygon([(p.x, p.y) for p in piece.cut_line]).is_valid, piece.name
    less, more = drafted(most - 0.05), drafted(most + 0.05)
    assert not [one for one in less.adjusted if one.key == "allowances.seams"]
    assert seams(less) == [pytest.approx(most - 0.05, abs=0.001)] * 2
    assert [one.after for one in more.adjusted if one.key == "allowances.seams"] == [pytest.approx(most, abs=0.01)]
