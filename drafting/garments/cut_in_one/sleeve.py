"""The sleeve cut in one: ring at the underarm, narrowest place, flare, sleeve end, underarm curve.

Body axes, finished, millimetres. The overarm is a line from the shoulder's corner in direction `along`; `below` is the
direction square to it, towards the under side. Under lines are built from the underarm corner outward.
"""

import itertools
import math
from collections.abc import Sequence
from dataclasses import dataclass

from drafting import sources
from drafting.cloth import ClothFacts, passing_factor
from drafting.garments.cut_in_one.style import Choices
from drafting.geometry.point import Point
from drafting.geometry.segments import Cubic, Line, Segment, arc
from drafting.geometry.solve import least_enough, newton_crossing
from drafting.parts.side import Side
from drafting.person.measures import Body
from drafting.person.passing import hand_needs


@dataclass(frozen=True, slots=True)
class Overarm:
    """The line of the overarm: where it begins, its direction, and square below it."""

    start: Point
    along: Point

    @property
    def below(self) -> Point:
        """Unit vector square to the overarm, towards the under side of the sleeve."""
        return self.along.left() * -1.0

    def depth(self, point: Point) -> float:
        """How far a point lies below the overarm, square to it, mm."""
        return (point - self.start).dot(self.below)

    def at(self, distance: float) -> Point:
        """The point at a distance along the overarm."""
        return self.start + self.along * distance


@dataclass(frozen=True, slots=True)
class Sleeve:
    """A sleeve's end and under line, each from the outside inward as the outline runs.

    `end` runs from the overarm to the under side; `under` from there to the underarm corner, unrounded, empty for a
    cap. `narrowest` is the place of the narrowest girth on the under line, at `share` of the length; `flare` the angle
    drawn.
    """

    share: float
    top: Point
    end: tuple[Segment, ...]
    under: tuple[Segment, ...]
    narrowest: Point
    narrowest_girth: float
    end_girth: float
    flare: float
    cap: bool


def stretch_round(cloth: ClothFacts, overarm: float) -> float:
    """Stretch round a sleeve that lies at an angle on the cloth: along·cos² + across·sin² (CALC)."""
    return cloth.along * math.cos(overarm) ** 2 + cloth.across * math.sin(overarm) ** 2


def arm_girth_at(body: Body, share: float) -> float:
    """Girth of the arm at a share of its length from the shoulder point, mm, joined straight between the measures."""
    elbow_from, elbow_to = sources.ELBOW_AT
    knots = (
        (0.0, body.upper_arm_girth),
        (sources.ARM_FULLEST_AT, body.upper_arm_girth),
        (elbow_from, body.elbow_girth),
        (elbow_to, body.elbow_girth),
        (1.0, body.wrist_girth),
    )
    for (a, girth_a), (b, girth_b) in itertools.pairwise(knots):
        if share <= b:
            return girth_a + (girth_b - girth_a) * (share - a) / (b - a)
    return body.wrist_girth


def underarm_level(side: Side, over: Overarm, half_ring: float, low: float, high: float) -> float | None:
    """The highest level at which a corner on the side seam lies `half_ring` below the overarm; None if below `high`."""

    def short(y: float) -> bool:
        return over.depth(Point(side.x(y), y)) < half_ring

    if short(high):
        return None
    if not short(low):
        return low
    return least_enough(lambda y: not short(y), low, high, 1e-4)


def narrowest_share(body: Body, choices: Choices) -> float:
    """Where along the sleeve it is narrowest.

    As chosen, else the end of a plain sleeve and the middle of a flared one.
    """
    flared = choices.flare > 0 or choices.flare_girth is not None
    if not flared and choices.sleeve_length < sources.SHORT_SLEEVE_SHARE * body.arm_length:
        return 1.0
    if choices.narrowest_at is not None:
        return choices.narrowest_at
    return 0.5 if flared else 1.0


def least_for_hand(body: Body, choices: Choices, cloth: ClothFacts) -> float:
    """Girth of a sleeve that just passes the hand through the stretch round it, mm.

    A lower sleeve cut apart lies along the cloth, with the crosswise stretch round it; at the joint the stiffer counts.
    """
    give = stretch_round(cloth, choices.overarm)
    return hand_needs(body) / passing_factor(min(give, cloth.across) if choices.joined else give)


def wanted_girth(body: Body, choices: Choices, cloth: ClothFacts, share: float) -> float:
    """The narrowest girth when it is left to us: the arm there with room, and the hand must pass, mm."""
    room = sources.SLEEVE_ROOM[choices.fit] * sources.scale(body.stature)
    there = arm_girth_at(body, share * choices.sleeve_length / body.arm_length)
    return max(there + room, least_for_hand(body, choices, cloth))


def flare_of_girth(half: float, rest: float, end_girth: float) -> float:
    """The angle φ with 2·(rest + half/tan φ)·φ = end girth, by halving.

    0 when it is not wider than the sleeve (CALC).
    """
    if end_girth <= 2 * half + 1.0:
        return 0.0

    def enough(angle: float) -> bool:
        return 2 * (rest + half / math.tan(angle)) * angle >= end_girth

    return least_enough(enough, 1e-6, math.radians(89), 1e-9)


def sleeve(over: Overarm, corner: Point, length: float, share: float, girth: float, flare: float) -> Sleeve:
    """Sets out the sleeve from the underarm corner: narrowest place exact, both corners of the end square."""
    half = girth / 2
    reach = share * length
    top = over.at(length)
    narrow = over.at(reach) + over.below * half
    chord = corner.distance(narrow)
    # A sleeve that is narrowest at its end runs straight there and turns square only at last, so that it keeps its room
    # at the elbow; one that turns into a flare does so in one easy curve.
    square = sources.UNDER_LINE_TURN * chord
    if share == 1.0:
        square = min(square, max(sources.UNDER_LINE_SQUARE, sources.UNDER_LINE_SQUARE_SHARE * chord))
    inner = Cubic(corner, corner.between(narrow, sources.UNDER_LINE_BEGINS), narrow - over.along * square, narrow)
    rest = length - reach
    if flare <= 0.0:
        under_end = top + over.below * half
        outer: list[Segment] = [Line(narrow, under_end)] if rest > 1e-6 else []
        return Sleeve(share, top, (Line(top, under_end),), _inward([inner, *outer]), narrow, girth, girth, 0.0, False)
    radius = rest + half / math.tan(flare)
    centre = top - over.along * radius
    begin = math.atan2(over.along.y, over.along.x)
    end = arc(centre, radius, begin, begin + flare)
    under_end = end[-1].end
    outward = (under_end - centre).unit()
    span = narrow.distance(under_end)
    bell = Cubic(narrow, narrow + over.along * (sources.BELL_HANDLES[0] * span),
                 under_end - outward * (sources.BELL_HANDLES[1] * span), under_end)  # fmt: skip
    return Sleeve(share, top, tuple(end), _inward([inner, bell]), narrow, girth, 2 * radius * flare, flare, False)


def cap(over: Overarm, side: Side, level: float, length: float, radius: float) -> tuple[Sleeve, "Underarm"]:
    """A cap: no under line; the side seam turns out in an arc from `level` to meet the sleeve's end square.

    The arc turns by φ: at φ = 0 the end is an armhole that comes out to the side, at 90° + the overarm's angle a
    straight sleeve. Between the two, φ is solved so that the end bends evenly: the straight line across it halves the
    angle between its directions at both ends (CALC).
    """
    top = over.at(length)
    slope = side.slope(level)
    outward, down = Point(1.0, -slope).unit(), Point(slope, 1.0).unit()
    foot = Point(side.x(level), level)
    centre = foot + outward * radius

    def end(turn: float) -> tuple[Point, Point]:
        towards = outward * math.cos(turn) + down * math.sin(turn)
        return centre - towards * radius, towards

    def uneven(turn: float) -> float:
        corner, towards = end(turn)
        across = (corner - top).unit()
        return over.below.cross(across) + towards.cross(across)

    high = math.pi / 2 - math.atan2(over.below.x, over.below.y)
    if uneven(high) <= 0:
        high = least_enough(lambda turn: uneven(turn) <= 0, 0.0, high, 1e-9)
    corner, towards = end(high)
    reach = 0.36 * top.distance(corner)
    edge = Cubic(top, top + over.below * reach, corner - towards * reach, corner)
    begin = math.atan2(-towards.y, -towards.x)
    curve = arc(centre, radius, begin, begin - high)
    girth = 2 * edge.length()
    made = Sleeve(1.0, top, (edge,), (), corner, girth, girth, 0.0, True)
    return made, Underarm((), tuple(curve), radius, level)


def _inward(outward: list[Segment]) -> tuple[Segment, ...]:
    return tuple(segment.reversed() for segment in reversed(outward))


def hollow_radius(inward: Sequence[Segment]) -> float:
    """Smallest radius with which segments hollow, as seen from outside the cloth, mm (inf when they never do).

    The segments run as the outline does: from the sleeve's end inward and down the side.
    """
    sharpest = max(
        (-segment.curvature(step / 16) for segment in inward if isinstance(segment, Cubic) for step in range(17)),
        default=0.0,
    )
    return 1 / sharpest if sharpest > 1e-9 else math.inf


@dataclass(frozen=True, slots=True)
class Underarm:
    """The rounded underarm: what is left of the under line, the arc, and where it meets the side."""

    under: tuple[Segment, ...]
    curve: tuple[Segment, ...]
    radius: float
    side_level: float


def round_underarm(
    side: Side, under: tuple[Segment, ...], corner: Point, wanted: float, lowest: float, least: float = 5.0
) -> Underarm | None:
    """The largest circular arc up to `wanted` that touches under line and side seam.

    Its lower end lies no lower than `lowest` (the waist), its upper end uses at most UNDERARM_CURVE_SHARE of the
    under line from the corner to the narrowest place. None when not even `least` fits. The radius is found to 0.1 mm.
    """
    inner = under[-1].reversed()
    assert isinstance(inner, Cubic)
    t_most = sources.UNDERARM_CURVE_SHARE

    def touch(radius: float) -> tuple[float, Point, float] | None:
        near = inner.start.y

        def gap(t: float) -> tuple[float, Point, float]:
            nonlocal near
            centre = inner.at(t) - inner.tangent(t).left() * radius
            near = _nearest_level(side, centre, radius, near)
            return centre.distance(Point(side.x(near), near)) - radius, centre, near

        low, high = 0.0, t_most
        found, below = gap(high), gap(low)[0]
        if found[0] < 0:
            return None
        # The false position of `crossing_value`, kept here because `near` is carried from step to step: where the side
        # bends in tightly, which of two levels is the nearest depends on the steps before.
        above, stays = found[0], 0
        for step in range(60):
            if high - low < 1e-12 or found[0] < 1e-9:
                break
            share = 0.5 if step % 4 == 3 or below >= 0 else below / (below - above)
            middle = low + (high - low) * share
            attempt = gap(middle)
            if attempt[0] < 0:
                low, below = middle, attempt[0]
                above, stays = (above / 2 if stays < 0 else above), -1
            else:
                high, found = middle, attempt
                above = attempt[0]
                below, stays = (below / 2 if stays > 0 else below), 1
        apart, centre, y = found
        # Where the side bends in more tightly than the arc, no place of it is touched: a smaller arc is tried.
        return None if y > lowest + 1e-6 or abs(apart) > 1e-4 else (high, centre, y)

    found = touch(wanted)
    radius = wanted
    if found is None:
        found = touch(least)
        if found is None:
            return None
        radius = least_enough(lambda smaller: touch(smaller) is not None, wanted, least, 0.1)
        found = touch(radius) or found
    t, centre, y = found
    upper, lower = inner.at(t), Point(side.x(y), y)
    begin = math.atan2(upper.y - centre.y, upper.x - centre.x)
    end = math.atan2(lower.y - centre.y, lower.x - centre.x)
    while end > begin:
        end -= 2 * math.pi
    curve = arc(centre, radius, begin, end)
    rest = inner.split(t)[1].reversed()
    return Underarm((*under[:-1], rest), tuple(curve), radius, y)


def _nearest_level(side: Side, point: Point, reach: float, near: float) -> float:
    """The level of the side seam nearest to a point, found from `near` and within `reach` of the point."""
    low, high = point.y - reach, point.y + reach

    def growing(y: float) -> tuple[float, float]:
        """How the square distance grows at a level, and how that growth grows; halved both."""
        slope, apart = side.slope(y), side.x(y) - point.x
        return apart * slope + (y - point.y), 1 + slope * slope + apart * side.bend(y)

    return newton_crossing(growing, min(max(near, low), high), low, high, least_slope=0.1, within=1e-10)
