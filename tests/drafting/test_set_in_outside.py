"""Armholes and cap of `set_in` beside scipy and shapely: lengths, the cap's height found anew, areas of the pieces."""

import math
from typing import Any

import numpy
import pytest
from scipy.integrate import quad
from scipy.optimize import brentq
from shapely import LineString, Polygon

from drafting.garments import garments
from drafting.geometry.segments import Cubic
from tests.drafting import bodies
from tests.drafting.bodies import BODIES, Data

CASES: dict[str, Data] = {
    name: dict(garments()["set_in"].cases[name].style) for name in ("default", "close", "loose and short", "V dress")
}
Handles = tuple[tuple[float, float], ...]


def draft(body: str, style: str) -> Any:
    return bodies.set_out(BODIES[body], CASES[style], garment="set_in")


def speed(handles: Handles, t: float) -> float:
    """How fast a cubic runs at t, from the corners of its frame."""
    p = numpy.array(handles)
    a, b, c = p[1] - p[0], p[2] - p[1], p[3] - p[2]
    return float(numpy.hypot(*(3 * (1 - t) ** 2 * a + 6 * (1 - t) * t * b + 3 * t * t * c)))


def arc(handles: Handles) -> float:
    return float(quad(lambda t: speed(handles, t), 0, 1, epsabs=1e-7, limit=200)[0])


def along(path: Any) -> float:
    """The length of a path by scipy."""
    found = 0.0
    for one in path.segments:
        if isinstance(one, Cubic):
            found += arc(tuple((p.x, p.y) for p in (one.start, one.first, one.second, one.end)))
        else:
            found += math.dist((one.start.x, one.start.y), (one.end.x, one.end.y))
    return found


@pytest.mark.parametrize("style", CASES)
@pytest.mark.parametrize("body", BODIES)
def test_cap_and_armholes_are_as_long_as_scipy_says(body: str, style: str) -> None:
    pieces = {piece.name: piece for piece in draft(body, style).pieces}
    front, back, cap = (
        along(pieces[name].edge(edge).stitch)
        for name, edge in (("front", "armhole"), ("back", "armhole"), ("sleeve", "cap"))
    )
    assert cap == pytest.approx(1.005 * (front + back), abs=0.1)
    assert pieces["front"].edge("armhole").stitch.length() == pytest.approx(front, abs=0.01)


@pytest.mark.parametrize("style", CASES)
@pytest.mark.parametrize("body", ["median woman", "man", "child of 6"])
def test_the_height_of_the_cap_is_found_anew(body: str, style: str) -> None:
    """From the width under the arm, both armholes, and the directions in which the drafted cap ends."""
    found = draft(body, style)
    pieces = {piece.name: piece for piece in found.pieces}
    holes = {name: 1.005 * along(pieces[name].edge("armhole").stitch) for name in ("front", "back")}
    wide = next(girth.girth for girth in found.girths if girth.at == "upper_arm")
    height = next(figure.value for figure in found.figures if figure.at == "cap_height")
    cap = pieces["sleeve"].edge("cap").stitch
    corner = cap.segments[-1].tangent(1.0)
    front = cap.segments[-2]
    over = cap.segments[-1].end.x - front.start.x
    hollow = math.hypot(cap.end.x - front.second.x, cap.end.y - front.second.y) / over
    shapes = {"front": (0.52, hollow), "back": (0.56, hollow - 0.06)}

    def half(name: str, width: float, high: float) -> float:
        top, foot = shapes[name]
        end = width - corner.x, high - corner.y
        second = width - corner.x * foot * width, high - corner.y * foot * width
        return arc(((0.0, 0.0), (top * width, 0.0), second, end)) + 1.0

    def widths(high: float) -> float:
        return sum(
            float(
                brentq(lambda width, name=name: half(name, width, high) - holes[name], holes[name] - high, holes[name])
            )
            for name in holes
        )

    anew = brentq(lambda high: widths(high) - wide, 0.5 * height, 1.5 * height, xtol=1e-4)
    assert height == pytest.approx(float(anew), abs=0.1)


@pytest.mark.parametrize("style", CASES)
@pytest.mark.parametrize("body", BODIES)
def test_areas_are_those_of_plain_shapes_with_their_curves(body: str, style: str) -> None:
    """The sleeve: half of what lies under its cap by shapely, and below it a trapezium and the turn to its end."""
    found = draft(body, style)
    sleeve = next(piece for piece in found.pieces if piece.name == "sleeve")
    whole = Polygon([(p.x, p.y) for p in sleeve.stitch_line]).area
    girths = {girth.at: girth.girth for girth in found.girths}
    figures = {figure.at: figure.value for figure in found.figures}
    long, high = figures["sleeve"], figures["cap_height"]
    cap = sleeve.edge("cap").stitch.flatten(0.01)
    under_cap = Polygon([(p.x, p.y) for p in cap]).area
    turn = min(40.0, 0.35 * (long - high))
    below = (girths["upper_arm"] + girths["sleeve_end"]) / 2 * (long - high - turn / 2)
    below += girths["sleeve_end"] * turn / 2
    # Each parabola that turns to the end takes a sixth of the triangle of its frame off, which is twice as much here.
    taper = (girths["upper_arm"] - girths["sleeve_end"]) / 2 / (long - high - turn / 2)
    below += 2 * (turn / 2) ** 2 * taper / 6
    assert whole == pytest.approx(under_cap + below, rel=2e-4)


@pytest.mark.parametrize("body", BODIES)
def test_the_pieces_lie_on_each_other_where_they_are_sewn(body: str) -> None:
    """Near the underarm each end of the cap, laid corner on corner, keeps to its armhole as the check says."""
    found = draft(body, "default")
    pieces = {piece.name: piece for piece in found.pieces}
    cap = pieces["sleeve"].edge("cap").stitch.flatten(0.01)
    worst = 0.0
    for name, run, mirror in (("front", cap[::-1], 1.0), ("back", cap, -1.0)):
        hole = pieces[name].edge("armhole").stitch.flatten(0.01)[::-1]
        ends = [numpy.array([(mirror * p.x, p.y) for p in run]), numpy.array([(p.x, p.y) for p in hole])]
        laid = []
        for end in ends:
            points = end - end[0]
            angle = -math.atan2(*(points[next(k for k in range(len(points)) if numpy.hypot(*points[k]) > 0.9)])[::-1])
            turn = numpy.array([[math.cos(angle), -math.sin(angle)], [math.sin(angle), math.cos(angle)]])
            laid.append(LineString(points @ turn.T))
        reach = 0.22 * laid[1].length
        for step in range(1, 9):
            one, other = (line.interpolate(reach * step / 8) for line in laid)
            worst = max(worst, one.distance(other))
    assert found.facts["cap_gap"] == pytest.approx(worst, abs=0.6)
