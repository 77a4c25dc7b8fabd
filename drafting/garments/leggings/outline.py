"""The finished outline of `leggings`: one leg in one piece, without a side seam.

Axes of the leg: x across from the side line, y down from the waist at the side. Front and back are each reckoned with
their crotch to the right; on the cloth the front lies to the left of the side line. Finished millimetres.
"""

from dataclasses import dataclass
from typing import Final

from drafting import sources
from drafting.cloth import ClothFacts, wearing
from drafting.contract.chalked_line import ChalkedLine
from drafting.garments.leggings.style import Choices
from drafting.geometry.path import Path
from drafting.geometry.point import Point
from drafting.geometry.segments import Cubic, Segment
from drafting.geometry.solve import crossing_value
from drafting.parts.legs.edges import leaves_crotch, seat_edge, smooth_down
from drafting.parts.legs.findings import sitting_takes
from drafting.parts.legs.sizes import Upper, ankle_level, hip_level, knee_level, least_hem, slack, upper
from drafting.parts.side import Side
from drafting.person.measures import Body
from drafting.problems import Adjustment

#: Lengths are solved to this, mm: far below what a tape shows.
ACCURACY: Final = 0.01
#: The seat is solved to this, mm: half of what is promised.
SEAT_ACCURACY: Final = 0.25
#: What is chalked at so many corners makes up the ring of the waist.
WAIST_CORNERS: Final = 4
#: A knee nearer than this above the hem is not marked, mm (our choice).
MARKED_ABOVE: Final = 30.0
#: A knee or a calf nearer than this above the hem shapes nothing, mm × scale (our choice).
CLEAR: Final = 100.0
#: A seat that is so little too short is left as it is, mm: our choice, no hand feels it.
SHORT_WITHIN: Final = 2.0


@dataclass(frozen=True, slots=True)
class Half:
    """Front or back of a leg: seat from the waist to the crotch, inner leg from there to the hem."""

    seat: Path
    inner: Path

    @property
    def waist(self) -> Point:
        """The corner at the waist."""
        return self.seat.start

    @property
    def point(self) -> Point:
        """The crotch point."""
        return self.seat.end

    @property
    def hem(self) -> Point:
        """The corner at the hem."""
        return self.inner.end

    def at(self, level: float) -> float:
        """How far the inner leg lies from the side line at a level."""
        return Side(self.inner.segments).x(level)


@dataclass(frozen=True, slots=True)
class Levels:
    """How far below the waist everything lies."""

    hip: float
    crotch: float
    knee: float
    calf: float
    ankle: float
    hem: float


@dataclass(frozen=True, slots=True)
class Outline:
    """One leg; `thigh` is its width at the crotch, `raised` how far the centre back stands above the waist."""

    upper: Upper
    at: Levels
    front: Half
    back: Half
    raised: float
    lowered: float

    @property
    def seat(self) -> float:
        """Length of the seat seam."""
        return self.front.seat.length() + self.back.seat.length()

    @property
    def thigh(self) -> float:
        """The leg at the crotch, from point to point across."""
        return self.front.point.x + self.back.point.x

    @property
    def hem(self) -> float:
        """Girth of the hem."""
        return self.front.hem.x + self.back.hem.x

    @property
    def has_knee(self) -> bool:
        """Whether the knee lies so far above the hem that it is marked."""
        return self.at.knee < self.at.hem - MARKED_ABOVE

    @property
    def waist(self) -> Path:
        """The waist edge of one leg, from the centre front through the side to the centre back."""
        left, right, side = turned_over(self.front.waist), self.back.waist, Point(0.0, 0.0)
        slopes = [-seat_slope(half) for half in (self.front, self.back)]
        middle = ((side.y - left.y) / (side.x - left.x) + (right.y - side.y) / (right.x - side.x)) / 2
        third, far = (side.x - left.x) / 3, (right.x - side.x) / 3
        return Path(
            (
                Cubic(left, left + Point(third, -slopes[0] * third), side - Point(third, middle * third), side),
                Cubic(side, side + Point(far, middle * far), right - Point(far, slopes[1] * far), right),
            )
        )  # fmt: skip


def turned_over(place: Point) -> Point:
    """A place of the front as it lies on the cloth."""
    return Point(-place.x, place.y)


def seat_slope(half: Half) -> float:
    """The slope at which the seat leaves the waist, dx/dy."""
    down = half.seat.segments[0].tangent(0.0)
    return down.x / down.y


def smaller_by(cloth: ClothFacts) -> float:
    """By what share leggings are smaller than the body."""
    of_stretch, most = sources.LEGGINGS_LESS
    return min(most, of_stretch * cloth.across)


def outline_of(
    body: Body, choices: Choices, cloth: ClothFacts, chalked: ChalkedLine, adjusted: list[Adjustment]
) -> Outline:
    """The outline, solved in its order: hip, waist, extensions, leg, seat; then raised and lowered for sitting."""
    make = _Maker.of(body, choices, cloth, chalked, adjusted)
    grown, target = sources.scale(body.stature), sitting_takes(body) / (1 + wearing(cloth.along))
    least, most = (grown * each for each in sources.LEGGINGS_RAISED)

    def short(raised: float, lowered: float) -> float:
        return make(raised, lowered).seat - target

    raised, lowered = most, 0.0
    left = short(most, 0.0)
    if left >= 0:
        raised = crossing_value(lambda high: short(high, 0.0), least, most, SEAT_ACCURACY)
    elif left < -SHORT_WITHIN:
        deepest = sources.CROTCH_LOWERED_MOST * grown
        lowered = crossing_value(lambda deep: short(most, deep), 0.0, deepest, SEAT_ACCURACY)
        why = "sitting takes a longer seat than the crotch depth gives"
        depth = body.crotch_depth
        adjusted.append(Adjustment("crotch_level", "crotch below the waist", depth, depth + lowered, why))
    return make(raised, lowered)


@dataclass(frozen=True, slots=True)
class _Maker:
    """Makes the leg for any height of the centre back and any depth of the crotch."""

    body: Body
    upper: Upper
    extensions: tuple[float, float]
    girths: tuple[float, float, float]
    length: float
    asked_hem: float | None
    least_hem: float
    radius: float

    @classmethod
    def of(cls, body: Body, choices: Choices, cloth: ClothFacts, chalked: ChalkedLine,
           adjusted: list[Adjustment]) -> "_Maker":  # fmt: skip
        less = smaller_by(cloth)
        round_waist = body.waist_girth * (1 - sources.LEGGINGS_WAIST_LESS * less)
        spare = slack(chalked, cloth, WAIST_CORNERS)
        found = upper(body, cloth, body.hip_girth * (1 - less), round_waist, sources.LEGGINGS_LOSE, spare, adjusted)
        low, high = (share * found.hip for share in sources.LEGGINGS_EXTENSION)
        whole = min(max(body.thigh_girth * (1 - less) - found.hip / 2, low), high)
        front = sources.LEGGINGS_EXTENSION_FRONT * whole
        girths = tuple((1 - less) * girth for girth in (body.knee_girth, body.calf_girth, body.ankle_girth))
        hem, thigh = choices.hem_girth, found.hip / 2 + whole
        if hem is not None and hem > thigh + 1e-6:
            why = "a leg without a side seam is no wider below than at the thigh"
            adjusted.append(Adjustment("hem_girth", "hem, round one leg", hem, thigh, why))
            hem = thigh
        knee, calf, ankle = girths
        return cls(body, found, (front, whole - front), (knee, calf, ankle), choices.length, hem,
                   least_hem(body, cloth, chalked), choices.seams + sources.SEAT_ROUNDER)  # fmt: skip

    def __call__(self, raised: float, lowered: float) -> Outline:
        body, grown = self.body, sources.scale(self.body.stature)
        crotch = body.crotch_depth + lowered
        knee, ankle = knee_level(body, crotch), ankle_level(body)
        ankle = max(ankle, knee + CLEAR * grown)
        calf = knee + sources.CALF_BELOW_KNEE * (ankle - knee)
        at = Levels(hip_level(body, crotch), crotch, knee, calf, ankle, self.length)
        points = [
            Point(hip + out, crotch)
            for hip, out in zip((self.upper.front_hip, self.upper.back_hip), self.extensions, strict=True)
        ]
        hems = self._hems(points, at)
        front_inner = self._inner(points[0], hems[0], at, front=True)
        long = front_inner.length()

        def longer(down: float) -> float:
            return self._inner(points[1] + Point(0.0, down), hems[1], at, front=False).length() - long

        point = points[1] + Point(0.0, crossing_value(longer, -40.0 * grown, 100.0 * grown, ACCURACY))
        back_inner = self._inner(point, hems[1], at, front=False)
        front = Half(self._seat(points[0], front_inner, at, raised, front=True), front_inner)
        back = Half(self._seat(point, back_inner, at, raised, front=False), back_inner)
        return Outline(self.upper, at, front, back, raised, lowered)

    def _leg(self, at: Levels, *, front: bool) -> list[Point]:
        """Knee, calf and ankle of a half, from the top down."""
        sign, grown = (-1.0 if front else 1.0), sources.scale(self.body.stature)
        levels = (at.knee, at.calf, at.ankle)
        return [
            Point(girth / 2 + sign * split * grown, level)
            for girth, split, level in zip(self.girths, sources.LEGGINGS_SPLIT, levels, strict=True)
        ]

    def _hems(self, points: list[Point], at: Levels) -> list[float]:
        """How far front and back lie from the side line at the hem, which the foot passes unless it was asked for."""
        found = []
        for point, front in zip(points, (True, False), strict=True):
            leg = [point, *self._leg(at, front=front)]
            whole = Side(tuple(smooth_down(leg, leaves_crotch(point, leg[1]), 0.0)))
            found.append(whole.x(min(at.hem, at.ankle)))
        more = max(0.0, self.least_hem - sum(found)) if self.asked_hem is None else self.asked_hem - sum(found)
        return [wide + more / 2 for wide in found]

    def _inner(self, point: Point, hem: float, at: Levels, *, front: bool) -> Path:
        end, clear = Point(hem, at.hem), CLEAR * sources.scale(self.body.stature)
        leg = [place for place in self._leg(at, front=front) if place.y < at.hem - clear]
        if self.asked_hem is not None and self.asked_hem > self.girths[0]:
            leg = leg[:1]  # it widens from the knee
        segments: list[Segment] = smooth_down([point, *leg, end], leaves_crotch(point, [*leg, end][0]), 0.0)
        return Path(tuple(segments))

    def _seat(self, point: Point, inner: Path, at: Levels, raised: float, *, front: bool) -> Path:
        number, grown = 0 if front else 1, sources.scale(self.body.stature)
        hip = self.upper.front_hip if front else self.upper.back_hip
        loses = self.upper.front if front else self.upper.back
        top = sources.FRONT_LOWERED * grown if front else -raised
        leaves = inner.segments[0].tangent(0.0)
        return seat_edge(
            Point(hip - loses, top), Point(hip, at.hip), at.crotch * (1 - sources.SEAT_BEGINS[number]), point,
            leaves.x / leaves.y, self.extensions[number], sources.SEAT_HANDLES[number], self.radius,
        )  # fmt: skip
