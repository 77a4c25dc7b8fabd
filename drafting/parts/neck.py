"""Round, boat and V necks: one unknown widens and deepens them until the head passes the seam and its band.

Body axes, finished: x across from the fold, y down from the side-neck level, millimetres. An edge runs from the fold to
its end on the shoulder line, which begins at the side-neck point of the body. The rules are common practice, from
memory; the figures are our choice, tried on 453 people of the 1988 survey.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, Literal

from drafting import sources
from drafting.contract.pieces import Points
from drafting.geometry.path import Path
from drafting.geometry.point import Point
from drafting.geometry.segments import Cubic, Line, Segment, fillet
from drafting.geometry.solve import least_enough

NeckKind = Literal["round", "boat", "v"]

#: How far outside the side-neck point a neck begins × scale: round and V, and boat.
OUTSIDE: Final[dict[NeckKind, float]] = {"round": 5.0, "boat": 50.0, "v": 5.0}
#: How far below the side-neck level a round front begins to be cut × scale, wider than its half width by this.
ROUND_FRONT: Final = 15.0
#: Least depth of a back × scale, and how far it lies below the neck's end at the shoulder.
BACK_LEAST, BACK_BELOW_END = 20.0, 15.0
#: Depth of a boat below its end at the shoulder × scale, in front and behind.
BOAT_FRONT, BOAT_BACK = 40.0, 12.0
#: A boat comes in flat: its handles, as shares of the width and of the depth.
BOAT_HANDLE, BOAT_END_FRONT, BOAT_END_BACK, BOAT_RISE = 0.5, 0.8, 0.75, 0.45
#: Depth of a V × scale, the least and the most that may be asked for.
V_DEPTH, V_LEAST, V_MOST = 180.0, 140.0, 200.0
#: A V ends so far above the bust level × scale: one left to us, and the deepest.
V_ABOVE_BUST, V_ABOVE_BUST_LEAST = 70.0, 50.0
#: A V is deepened by this for each millimetre that it is widened.
V_DEEPENS: Final = 4.0
#: Shoulder that must be left outside the neck: this, and this × scale.
RUN_LEAST, RUN_SCALED = 25.0, 30.0
#: A width is solved to this, mm: far below what a tape shows.
ACCURACY: Final = 1e-3
#: Handle of a quarter ellipse as a share of its half axis (CALC: the usual cubic quarter circle).
QUARTER: Final = 0.5523
#: Where the front of a neck comes to a point, and why.
FRONT_POINTS: Final[dict[NeckKind, Points]] = {
    "round": (),
    "boat": (("end", "a boat comes in flat and ends in a point at the shoulder"),),
    "v": (
        ("start", "the two halves of a V meet in a point at the fold"),
        ("end", "the straight edge of a V meets the shoulder at an angle of its own"),
    ),
}
#: The same of its back.
BACK_POINTS: Final[dict[NeckKind, Points]] = {
    "round": (),
    "boat": FRONT_POINTS["boat"],
    "v": (("end", "it meets the straight edge of a V"),),
}


@dataclass(frozen=True, slots=True)
class NeckBase:
    """The body that a neck is cut for: half the width between the side-neck points, the shoulder's slope (radians).

    `grown` is the body's scale, `bust` the level of the bust; `depth` is what was asked for a V, None for ours.
    """

    side_neck: float
    slope: float
    grown: float
    bust: float
    depth: float | None = None

    def end(self, half_width: float) -> Point:
        """Where a neck of this half width meets the shoulder line."""
        return Point(half_width, (half_width - self.side_neck) * math.tan(self.slope))


@dataclass(frozen=True, slots=True)
class Neckline:
    """A neck: its front and back edge from the fold to the shoulder, and by how much it was widened."""

    kind: NeckKind
    widened: float
    front: Path
    back: Path

    @property
    def end(self) -> Point:
        """Where both edges meet at the shoulder."""
        return self.front.end

    @property
    def ring(self) -> float:
        """The length of the whole edge, both halves of front and back."""
        return 2 * (self.front.length() + self.back.length())

    @property
    def tightest(self) -> float:
        """The smallest radius of either edge; infinite where both are straight."""
        segments = (*self.front.segments, *self.back.segments)
        sharpest = max(abs(segment.curvature(step / 8)) for segment in segments for step in range(9))
        return 1 / sharpest if sharpest > 0 else math.inf


def neckline(kind: NeckKind, base: NeckBase, widened: float) -> Neckline:
    """The neck of a kind, widened by so much on each side."""
    end = base.end(base.side_neck + OUTSIDE[kind] * base.grown + widened)
    if kind == "boat":
        return Neckline(kind, widened, _boat(base, end, front=True), _boat(base, end, front=False))
    back = _back(base, end)
    if kind == "v":
        return Neckline(kind, widened, Path((Line(Point(0.0, v_depth(base, widened)), end),)), back)
    depth = base.side_neck + ROUND_FRONT * base.grown + widened
    return Neckline(kind, widened, _round_front(base, end, depth), back)


def set_round(base: NeckBase, half_width: float, depth: float) -> Neckline:
    """A round neck of a half width and a depth of its own in front; its back as behind every round neck."""
    end = base.end(half_width)
    return Neckline("round", 0.0, _round_front(base, end, depth), _back(base, end))


def _round_front(base: NeckBase, end: Point, depth: float) -> Path:
    """A quarter ellipse whose end is turned square to the shoulder."""
    curve = Cubic(
        Point(0.0, depth),
        Point(QUARTER * end.x, depth),
        end - _up(base) * (QUARTER * (depth - end.y)),
        end,
    )
    return Path((curve,))


def v_depth(base: NeckBase, widened: float) -> float:
    """How far below the side-neck level a V ends, mm."""
    usual = min(V_DEPTH * base.grown, base.bust - V_ABOVE_BUST * base.grown)
    deepest = max(usual, base.bust - V_ABOVE_BUST_LEAST * base.grown, base.depth or 0.0)
    return min((usual if base.depth is None else base.depth) + V_DEEPENS * widened, deepest)


def solved(kind: NeckKind, base: NeckBase, ring: float, widest: float) -> Neckline:
    """The narrowest neck whose edge is at least `ring` long, mm, or as wide as `widest` (half) allows.

    `ring` is what the seam needs or what its band needs, whichever is more: a band of a ratio asks for its length over
    that ratio.
    """
    least = neckline(kind, base, 0.0)
    if least.ring >= ring:
        return least
    most = max(0.0, widest - base.side_neck - OUTSIDE[kind] * base.grown)
    if neckline(kind, base, most).ring < ring:
        return neckline(kind, base, most)
    return neckline(
        kind, base, least_enough(lambda value: neckline(kind, base, value).ring >= ring, 0.0, most, ACCURACY)
    )


def least_shoulder(grown: float) -> float:
    """The least shoulder that must be left outside a neck, measured level, mm."""
    return max(RUN_LEAST, RUN_SCALED * grown)


def edge_allowance(neck: Neckline, wanted: float) -> float:
    """The allowance that the curves of a neck edge take, mm: `wanted`, or less."""
    return min(wanted, sources.SCOOP_HEM_MOST, max(6.0, neck.tightest - sources.COLUMN_CURVE_SPARE))


def inner_edge(edge: Sequence[Point], height: float) -> list[Point]:
    """The upper edge of a neck band as it is seen: so far inside its seam, which runs from the fold to the shoulder."""
    found = []
    for number, place in enumerate(edge):
        before, after = edge[max(number - 1, 0)], edge[min(number + 1, len(edge) - 1)]
        found.append(place + (after - before).unit().left() * height)
    return [Point(max(place.x, 0.0), place.y) for place in found]


def _up(base: NeckBase) -> Point:
    """The unit vector square to the shoulder line, up and out."""
    return Point(math.sin(base.slope), -math.cos(base.slope))


def _back(base: NeckBase, end: Point) -> Path:
    """The back of a round neck and of a V: level, then turned in a circle to meet the shoulder square.

    The rule this stands for was one curve with a handle of 0.7 of the depth at the shoulder, which turns in less than a
    seam's allowance there (radius 0.4 to 1 cm); the circle has 1.6 to 2.8 and makes half the back 0.3 longer.
    """
    depth = max(BACK_LEAST * base.grown, end.y + BACK_BELOW_END * base.grown)
    leg = (depth - end.y) / math.cos(base.slope)
    bend = fillet(end - _up(base) * leg, Point(1.0, 0.0), _up(base), leg)
    edge: list[Segment] = [Line(Point(0.0, depth), bend[0].start), *bend]
    return Path.of(edge)


def _boat(base: NeckBase, end: Point, *, front: bool) -> Path:
    below = (BOAT_FRONT if front else BOAT_BACK) * base.grown
    depth = end.y + below
    second = BOAT_END_FRONT if front else BOAT_END_BACK
    return Path(
        (
            Cubic(
                Point(0.0, depth),
                Point(BOAT_HANDLE * end.x, depth),
                Point(second * end.x, end.y + BOAT_RISE * below),
                end,
            ),
        )
    )
