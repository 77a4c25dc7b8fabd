"""The finished outline of `knit_trousers`: front and back of one leg, each about its crease.

Axes of a half: x across from the crease, with the crotch to the right and the side to the left, y down from the waist
at the side. Finished millimetres.
"""

from dataclasses import dataclass, replace
from typing import Final

from drafting import sources
from drafting.cloth import ClothFacts
from drafting.contract.chalked_line import ChalkedLine
from drafting.garments.knit_trousers.style import Choices
from drafting.geometry.path import Path
from drafting.geometry.point import Point
from drafting.geometry.segments import Line, Segment, hermite
from drafting.geometry.solve import crossing_value
from drafting.parts.legs.edges import leaves_crotch, seat_edge, smooth_down, square_waist, straight_down
from drafting.parts.legs.sizes import Upper, hip_level, knee_level, least_hem, slack, trousers_crotch, upper
from drafting.parts.side import Side
from drafting.person.measures import Body
from drafting.problems import Adjustment

#: Lengths are solved to this, mm: far below what a tape shows.
ACCURACY: Final = 0.01
#: What is chalked at so many corners makes up the ring of the waist.
WAIST_CORNERS: Final = 8
#: A knee nearer than this above the hem shapes nothing, mm × scale, and is not marked (our choice).
CLEAR: Final = 80.0
#: The side leaves the waist at so many times the slope of the straight to the hip. Our choice, as on a skirt.
LEAVES_WAIST: Final = sources.SKIRT_LEAVES_WAIST


@dataclass(frozen=True, slots=True)
class Half:
    """Front or back: the waist from side to centre, the seat, the inner leg, and the side from the waist down."""

    waist: Path
    seat: Path
    inner: Path
    side: Path

    @property
    def point(self) -> Point:
        """The crotch point."""
        return self.seat.end

    @property
    def hem(self) -> Path:
        """The hem from the inner leg to the side."""
        return Path((Line(self.inner.end, self.side.end),))

    def at(self, level: float) -> tuple[float, float]:
        """How far side and inner leg lie from the crease at a level below the crotch; the side is negative."""
        return Side(self.side.segments).x(level), Side(self.inner.segments).x(level)


@dataclass(frozen=True, slots=True)
class Levels:
    """How far below the waist everything lies."""

    hip: float
    crotch: float
    knee: float
    hem: float

    @property
    def has_knee(self) -> bool:
        """Whether the knee lies so far above the hem that it shapes the leg."""
        return self.knee < self.hem


@dataclass(frozen=True, slots=True)
class Outline:
    """Front and back of one leg."""

    upper: Upper
    at: Levels
    front: Half
    back: Half
    raised: float

    @property
    def halves(self) -> tuple[Half, Half]:
        """Front and back."""
        return self.front, self.back

    @property
    def ring(self) -> float:
        """Girth of the waist edge."""
        return 2 * sum(half.waist.length() for half in self.halves)

    @property
    def seat(self) -> float:
        """Length of the seat seam."""
        return sum(half.seat.length() for half in self.halves)

    @property
    def thigh(self) -> float:
        """The leg at the crotch."""
        return sum(half.point.x - half.at(half.point.y)[0] for half in self.halves)

    @property
    def hem(self) -> float:
        """Girth of the hem."""
        return sum(half.hem.length() for half in self.halves)

    def round_leg(self, level: float) -> float:
        """Girth of one leg at a level below the crotch."""
        return sum(inner - side for side, inner in (half.at(level) for half in self.halves))


def outline_of(
    body: Body, choices: Choices, cloth: ClothFacts, chalked: ChalkedLine, adjusted: list[Adjustment]
) -> Outline:
    """The outline, solved in its order: hip, crotch, extensions, waist, leg, front, back point, side."""
    grown = sources.scale(body.stature)
    hip = body.hip_girth * (1 + sources.TROUSERS_EASE[choices.silhouette])
    round_waist = body.waist_girth + sources.SKIRT_WAIST_EASE * grown
    spare = slack(chalked, cloth, WAIST_CORNERS)
    found = upper(body, cloth, hip, round_waist, sources.TROUSERS_LOSE, spare, adjusted)
    crotch = trousers_crotch(body)
    knee = knee_level(body, crotch)
    if choices.length - knee < CLEAR * grown:
        knee = choices.length  # the leg runs on straight to its hem
    at = Levels(hip_level(body, crotch), crotch, knee, choices.length)
    extensions = _extensions(body, found.hip)
    thigh = found.hip / 2 + sum(extensions)
    at_knee, at_hem = _leg(body, choices, cloth, chalked, thigh, at, adjusted)
    make = _Maker(body, found, at, extensions, at_knee, at_hem, choices.seams + sources.SEAT_ROUNDER)
    front = make.half(0, 0.0)

    def longer(down: float) -> float:
        return make.inner(1, down).length() - front.inner.length()

    back = make.half(1, crossing_value(longer, -40.0 * grown, 60.0 * grown, ACCURACY))
    # The sides are made equal at the waist: that of the longer one is lowered, that of the other raised.
    for _ in range(3):
        apart = back.side.length() - front.side.length()
        make = replace(make, corner=make.corner + apart)
        front, back = make.half(0, 0.0), make.half(1, back.point.y - at.crotch)
    return Outline(found, at, front, back, sources.BACK_RAISED * grown)


def _extensions(body: Body, hip: float) -> tuple[float, float]:
    """Front and back extensions, let out where the thigh needs more."""
    front, back = (share * hip for share in sources.EXTENSIONS)
    needed = body.thigh_girth + sources.THIGH_ROOM * sources.scale(body.stature)
    more = max(0.0, needed - hip / 2 - front - back)
    return front + more * front / (front + back), back + more * back / (front + back)


def _leg(
    body: Body, choices: Choices, cloth: ClothFacts, chalked: ChalkedLine, thigh: float, at: Levels,
    adjusted: list[Adjustment],
) -> tuple[float, float]:  # fmt: skip
    """Girths of one leg at the knee and at the hem; a hem left to us lets the foot through."""
    knee, floor = (share * thigh for share in sources.TROUSER_LEG[choices.silhouette])
    down = body.waist_height - sources.ABOVE_FLOOR
    share = (at.hem - at.knee) / max(1.0, down - at.knee) if at.has_knee else 0.0
    hem = knee + (floor - knee) * min(1.0, share)
    if choices.hem_girth is None:
        return knee, max(hem, least_hem(body, cloth, chalked))
    most = sources.TROUSER_HEM_MOST * thigh
    if choices.hem_girth > most + 1e-6:
        why = "all the width falls at the seams, where more would hang in points"
        adjusted.append(Adjustment("hem_girth", "hem, round one leg", choices.hem_girth, most, why))
    return knee, min(choices.hem_girth, most)


@dataclass(frozen=True, slots=True)
class _Maker:
    """Makes front (0) and back (1); `corner` is how far the side of the back begins below that of the front."""

    body: Body
    upper: Upper
    at: Levels
    extensions: tuple[float, float]
    knee: float
    hem: float
    radius: float
    corner: float = 0.0

    def _middle(self, number: int) -> tuple[float, float, float]:
        """Side, hip at the centre, and crotch point of a half, across from its crease."""
        hip, out = (self.upper.front_hip, self.upper.back_hip)[number], self.extensions[number]
        side = -(hip + out) / 2 + number * sources.BACK_CREASE * sources.scale(self.body.stature)
        return side, side + hip, side + hip + out

    def _widths(self, number: int) -> tuple[float, float]:
        """Half of what a half is wide at knee and hem."""
        sign, grown = (-1.0, 1.0)[number], sources.scale(self.body.stature)
        knee, hem = sources.LEG_SPLIT
        if not self.at.has_knee:
            knee, hem = hem, knee
        return (self.knee / 2 + sign * knee * grown) / 2, (self.hem / 2 + sign * hem * grown) / 2

    def inner(self, number: int, down: float) -> Path:
        """The inner leg, with the crotch point so far below the crotch level."""
        point = Point(self._middle(number)[2], self.at.crotch + down)
        return Path(tuple(self._down([point], number, 1.0)))

    def _down(self, above: list[Point], number: int, side: float) -> list[Segment]:
        """From points above through the knee, straight to the hem and square into it."""
        knee, hem = self._widths(number)
        end = Point(side * hem, self.at.hem)
        if not self.at.has_knee:
            return self._joined(above, end, 0.0)
        slope, below = straight_down(Point(side * knee, self.at.knee), end)
        return [*self._joined(above, below[0].start, slope), *below]

    def _joined(self, above: list[Point], end: Point, slope: float) -> list[Segment]:
        if len(above) == 1:
            return [hermite(above[0], leaves_crotch(above[0], end), end, slope)]
        waist, hip = above[:2]
        chord = (hip.x - waist.x) / (hip.y - waist.y)
        return smooth_down([*above, end], LEAVES_WAIST * chord, slope)

    def half(self, number: int, down: float) -> Half:
        """Front or back, with its crotch point so far below the crotch level."""
        grown, at = sources.scale(self.body.stature), self.at
        side, centre, point = self._middle(number)
        inner = self.inner(number, down)
        loses = (self.upper.front, self.upper.back)[number]
        top = (sources.FRONT_LOWERED, -sources.BACK_RAISED)[number] * grown
        leaves = inner.segments[0].tangent(0.0)
        seat = seat_edge(
            Point(centre - loses, top), Point(centre, at.hip), at.crotch * (1 - sources.SEAT_BEGINS[number]),
            Point(point, at.crotch + down), leaves.x / leaves.y, self.extensions[number],
            sources.SEAT_HANDLES[number], self.radius,
        )  # fmt: skip
        corner = Point(side + self.upper.side, (-0.5, 0.5)[number] * self.corner)
        # From hip to crotch it runs straight down, so that the thigh has all its room.
        outer = self._down([corner, Point(side, at.hip), Point(side, at.crotch)], number, -1.0)
        first, along = outer[0].tangent(0.0), seat.segments[0].tangent(0.0)
        waist = square_waist(corner, first.x / first.y, seat.start, along.x / along.y)
        return Half(Path((waist,)), seat, inner, Path(tuple(outer)))
