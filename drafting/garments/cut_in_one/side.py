"""The side seam from bust to hem: widths at bust, waist, hip and hem, and the line through them.

Body axes, finished: x across from the fold, y down from the side-neck level, millimetres.
"""

import math
from dataclasses import dataclass

from drafting import sources
from drafting.cloth import ClothFacts, ease_share, passing_factor
from drafting.garments.cut_in_one.style import Choices
from drafting.geometry.point import Point
from drafting.geometry.segments import Cubic, Line, Segment, hermite, quadratic
from drafting.measures import Body
from drafting.problems import Adjustment


@dataclass(frozen=True, slots=True)
class Levels:
    """Distances down the fold from the side-neck level, finished."""

    bust: float
    waist: float
    armpit: float
    hip: float
    hem: float


@dataclass(frozen=True, slots=True)
class Widths:
    """Finished quarters at bust, waist and hip; `hem` is None where the side seam decides it."""

    bust: float
    waist: float
    hip: float
    hem: float | None


def levels(body: Body, choices: Choices) -> Levels:
    """The body levels as they lie on the cloth (distances on the cloth, not heights on the body)."""
    waist = body.back_neck_point_to_waist + sources.NAPE_ABOVE_SIDE_NECK
    return Levels(body.side_neck_point_to_bust_point, waist, body.scye_depth, waist + body.waist_to_hip, choices.length)


def passing_girth(body: Body, cloth: ClothFacts, largest: float) -> float:
    """Finished girth of a ring through which `largest` passes with the usual spare, mm."""
    return (largest + sources.PASSING_EASE * sources.scale(body.stature)) / passing_factor(cloth.across)


def through_waist(body: Body) -> float:
    """The largest girth that goes through a waist put on over the head, mm."""
    return max(body.bust_girth, body.upper_chest_girth)


def through_hem(body: Body, choices: Choices) -> float:
    """The largest girth that goes through the hem: bust, and hips where the hem lies below their level, mm."""
    below_hip = choices.length > body.back_neck_point_to_waist + sources.NAPE_ABOVE_SIDE_NECK + body.waist_to_hip
    return max(body.bust_girth, body.hip_girth) if below_hip else body.bust_girth


def widths(body: Body, choices: Choices, cloth: ClothFacts, at: Levels, adjusted: list[Adjustment]) -> Widths:
    """Finished quarters, with the waist let out where it would not pass what goes through it or come in too steeply."""
    share = ease_share(cloth.across, choices.fit)

    def quarter(girth: float, ease: float | None) -> float:
        return (girth + (girth * share if ease is None else ease)) / 4

    bust = quarter(body.bust_girth, choices.ease_bust)
    waist = quarter(body.waist_girth, choices.ease_waist)
    hip = quarter(body.hip_girth, choices.ease_hip)
    hip_least = passing_girth(body, cloth, through_hem(body, choices)) / 4
    if choices.ease_hip is None and hip < hip_least - 1e-6:
        why = "all that goes through it when it is put on must pass"
        adjusted.append(Adjustment("hip, all round", 4 * hip, 4 * hip_least, why))
        hip = hip_least
    if choices.ease_waist is None:
        for least, why in (
            (passing_girth(body, cloth, through_waist(body)) / 4, "bust and shoulders must pass through it"),
            (
                hip - sources.WAIST_TO_HIP_SLOPE * (at.hip - at.waist),
                "the side seam would run in too steeply to the hip",
            ),
            (
                bust - sources.WAIST_TO_BUST_SLOPE * (at.waist - min(at.bust, at.waist - sources.BUST_ABOVE_WAIST)),
                "the side seam would run in too steeply from the bust",
            ),
        ):
            if waist < least - 1e-6:
                adjusted.append(Adjustment("waist, all round", 4 * waist, 4 * least, why))
                waist = least
    # The bust must be met at its level, though the seam already comes in to the waist there: the seam is let out
    # above the waist for it, by a bounded amount, and beyond that the waist itself. (3 − 2s)·s² is how far it has
    # come in (CALC).
    knot = min(at.bust, at.waist - sources.BUST_ABOVE_WAIST * sources.scale(body.stature))
    down = min(1.0, (at.bust - knot) / (at.waist - knot))
    come_in = (3 - 2 * down) * down * down
    if come_in > 0:
        least = bust - sources.BUST_LET_OUT_MOST * (1 - come_in) / come_in
        if waist < least - 1e-6:
            adjusted.append(Adjustment("waist, all round", 4 * waist, 4 * least, "the bust lies so near the waist"))
            waist = least
    return Widths(bust, waist, hip, None if choices.hem_girth is None else choices.hem_girth / 4)


@dataclass(frozen=True, slots=True)
class Side:
    """The virtual side seam: straight down to `knots[0]`, then curves whose y runs evenly along their parameter."""

    knots: tuple[Segment, ...]

    def x(self, y: float) -> float:
        """Width at a level, mm: straight up above the first knot, the last segment continued below its end."""
        segment, t = self._find(y)
        return segment.at(t).x

    def slope(self, y: float) -> float:
        """dx/dy at a level."""
        segment, t = self._find(y)
        if isinstance(segment, Line):
            return (segment.end.x - segment.start.x) / (segment.end.y - segment.start.y)
        velocity = segment.velocity(t)
        return velocity.x / velocity.y

    def bend(self, y: float) -> float:
        """d²x/dy² at a level, 1/mm."""
        segment, t = self._find(y)
        if isinstance(segment, Line):
            return 0.0
        height = segment.end.y - segment.start.y
        return segment.acceleration(t).x / (height * height)

    def between(self, top: float, bottom: float) -> list[Segment]:
        """The seam from one level down to another as segments."""
        parts: list[Segment] = []
        for index, segment in enumerate(self.knots):
            last = index == len(self.knots) - 1
            low = max(segment.start.y, top)
            high = bottom if last else min(segment.end.y, bottom)
            if high - low <= 1e-9:
                continue
            parts.append(_part(segment, low, high))
        return parts

    def _find(self, y: float) -> tuple[Segment, float]:
        for segment in self.knots:
            if y <= segment.end.y:
                break
        else:
            segment = self.knots[-1]
        return segment, (y - segment.start.y) / (segment.end.y - segment.start.y)


def _part(segment: Segment, low: float, high: float) -> Segment:
    """The part of a y-even segment between two levels (beyond its end it is continued)."""
    height = segment.end.y - segment.start.y
    a, b = (low - segment.start.y) / height, (high - segment.start.y) / height
    if isinstance(segment, Line):
        return Line(segment.at(a), segment.at(b))
    start, end = segment.at(a), segment.at(b)
    third = (b - a) / 3
    return Cubic(start, start + segment.velocity(a) * third, end - segment.velocity(b) * third, end)


def side_seam(body: Body, choices: Choices, at: Levels, wide: Widths, bust_out: float = 0.0) -> Side:
    """The line through bust, waist, hip and skirt. `bust_out` widens the bust knot by that much.

    Cubic Hermite: no slope at the bust; none at the waist where it is the narrowest; the skirt's slope at the hip. A
    natural spline bulges past the hip and a shape-keeping one makes a barrel of a flared skirt, so neither is used.
    """
    grown = sources.scale(body.stature)
    bust = Point(wide.bust + bust_out, min(at.bust, at.waist - sources.BUST_ABOVE_WAIST * grown))
    waist, hip = Point(wide.waist, at.waist), Point(wide.hip, at.hip)
    into, out_of = (waist.x - bust.x) / (waist.y - bust.y), (hip.x - waist.x) / (hip.y - waist.y)
    # Where the seam runs one way through the waist, the harmonic mean of both slopes keeps it from swinging.
    at_waist = 2 * into * out_of / (into + out_of) if into * out_of > 0 else 0.0
    skirt_length = max(at.hem - at.hip, 1.0)
    if wide.hem is not None and at.hem > at.hip:
        wanted = (wide.hem - hip.x) / skirt_length
    else:
        wanted = {"straight": 0.0, "flared": sources.SKIRT_FLARE, "pegged": sources.SKIRT_PEG}[choices.body]
    at_hip = 0.0 if wanted <= 0 else min(wanted, max(0.0, 3 * out_of))
    foot = Point(hip.x + wanted * skirt_length, hip.y + skirt_length)
    straight = abs(at_hip - wanted) < 1e-9
    skirt: Segment = (
        Line(hip, foot)
        if straight
        else quadratic(hip, Point(hip.x + at_hip * skirt_length / 2, hip.y + skirt_length / 2), foot)
    )
    top = Line(Point(bust.x, bust.y - 1000.0), bust)
    return Side((top, hermite(bust, 0.0, waist, at_waist), hermite(waist, at_waist, hip, at_hip), skirt))


@dataclass(frozen=True, slots=True)
class Hem:
    """The hem from the side seam to the fold, and where it begins on the side."""

    corner: Point
    edge: Segment

    @property
    def quarter(self) -> float:
        """Length of the hem edge of this half piece, mm."""
        return self.edge.length()


def hem(side: Side, at: Levels) -> Hem:
    """The hem: square to the fold and square to the side seam, level with `at.hem` at the fold.

    It rises at a flared side, and falls at a pegged one, by x·tan(β/2), β the side's angle to the fold: half the width
    times sin β for the small angles of a skirt (CALC: an arc about the cone's apex).
    """

    def low_by(y: float) -> float:
        return y + side.x(y) * math.tan(math.atan(side.slope(y)) / 2) - at.hem

    low, high = at.hem - 250.0, at.hem + 250.0
    for _ in range(60):
        middle = (low + high) / 2
        if low_by(middle) < 0:
            low = middle
        else:
            high = middle
    y = (low + high) / 2
    corner, slope = Point(side.x(y), y), side.slope(y)
    fold = Point(0.0, at.hem)
    if abs(slope) < 1e-9:
        return Hem(corner, Line(corner, fold))
    angle = math.atan(slope)
    handle = 4 / 3 * math.tan(abs(angle) / 4) * corner.x / math.sin(abs(angle))
    away = Point(-math.cos(angle), math.sin(angle))
    return Hem(corner, Cubic(corner, corner + away * handle, fold + Point(handle, 0.0), fold))
