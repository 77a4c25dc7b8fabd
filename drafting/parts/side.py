"""The side seam from bust to hem: one smooth line through the widths, and the skirt below the hip.

Body axes, finished: x across from the fold, y down from the side-neck level, millimetres. The side has no corner: where
its slope changes it turns evenly.
"""

from dataclasses import dataclass

from drafting import sources
from drafting.geometry.point import Point
from drafting.geometry.segments import Cubic, Line, Segment, hermite, quadratic
from drafting.parts.widths import BodyChoices, Levels, Widths


@dataclass(frozen=True, slots=True)
class Skirt:
    """How the side runs below the body: from level `start` it turns to `slope` (dx/dy) and runs on straight.

    `pegged` bends evenly all the way instead, upright at its beginning and with `slope` at the hem.
    """

    start: float
    slope: float
    pegged: bool = False


@dataclass(frozen=True, slots=True)
class Side:
    """The virtual side seam: straight down to `knots[0]`, then curves whose y runs evenly along their parameter."""

    knots: tuple[Segment, ...]

    def x(self, y: float) -> float:
        """Width at a level, mm: straight on above the first knot, the last segment continued below its end."""
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

    def length(self, top: float, bottom: float) -> float:
        """Length of the seam between two levels, mm."""
        return sum(segment.length() for segment in self.between(top, bottom))

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


def body_slope(wide: Widths, at: Levels) -> float:
    """Slope of a straight side, dx/dy; 0 for a shaped one."""
    return (wide.low - wide.bust) / (at.low - wide.knot) if wide.straight else 0.0


def sides_are_straight(waist: str, kind: str) -> bool:
    """Whether the sides run straight past the waist: where that is chosen, and for men and children by themselves."""
    return waist == "straight" or (waist == "auto" and kind != "woman")


def skirt_as_chosen(choices: BodyChoices, at: Levels, wide: Widths) -> Skirt:
    """The skirt that `body` asks for; it begins at the hip."""
    if choices.body == "flared":
        return Skirt(at.hip, max(sources.SKIRT_FLARE, body_slope(wide, at)))
    if choices.body == "pegged":
        return Skirt(at.hip, 2 * sources.SKIRT_PEG, pegged=True)
    return Skirt(at.hip, 0.0)


def side_seam(grown: float, at: Levels, wide: Widths, skirt: Skirt, bust_out: float = 0.0) -> Side:
    """The line through bust, waist, hip and skirt. `bust_out` widens the bust knot; `grown` is the body's scale.

    Shaped: cubic Hermite, without slope at the bust, but for what comes in there, and without slope at a waist that is
    the narrowest. A natural spline bulges past the hip and a shape-keeping one makes a barrel of a flared skirt, so
    neither is used.
    """
    bust, low = Point(wide.bust + bust_out, wide.knot), Point(wide.low, at.low)
    if wide.straight:
        slope = (low.x - bust.x) / (low.y - bust.y)
        upper: list[Segment] = [Line(bust - Point(slope, 1.0) * 1000.0, bust), Line(bust, low)]
        at_low = slope
    else:
        waist = Point(wide.waist, at.waist)
        into, out_of = (waist.x - bust.x) / (waist.y - bust.y), (low.x - waist.x) / (low.y - waist.y)
        at_waist = 0.0
        if into * out_of > 0:
            # Where the side runs one way through the waist, it does so at the slope of the whole, or as steeply as two
            # smooth curves allow (Fritsch and Carlson 1980: at most three times a chord's slope).
            gentler = 3 * min(abs(into), abs(out_of))
            at_waist = min(max((low.x - bust.x) / (low.y - bust.y), -gentler), gentler)
        if not at.reaches_hip:
            at_low = out_of
        else:
            wanted = 0.0 if skirt.pegged or skirt.start < at.hip else min(skirt.slope, sources.SKIRT_FLARE)
            at_low = min(wanted, max(0.0, 3 * out_of))
        upper = [
            Line(bust - Point(-wide.comes_in, 1.0) * 1000.0, bust),
            hermite(bust, -wide.comes_in, waist, at_waist),
            hermite(waist, at_waist, low, at_low),
        ]
    if not at.reaches_hip:
        return Side(tuple(upper))
    body = Side(tuple(upper))
    start = Point(body.x(skirt.start), skirt.start)
    if skirt.start < at.hip:
        upper = [upper[0], *body.between(wide.knot, skirt.start)]
    return Side((*upper, *skirt_below(grown, start, body.slope(skirt.start), at.hem, skirt)))


def skirt_below(grown: float, start: Point, slope: float, hem: float, skirt: Skirt) -> list[Segment]:
    """The skirt from its start to the level of the hem."""
    rest = max(hem - start.y, 1.0)
    settled = 0.0 if skirt.pegged else skirt.slope
    found: list[Segment] = []
    if abs(slope - settled) > 1e-9:
        turn = min(sources.SIDE_TURN * grown, sources.SIDE_TURN_SHARE * rest)
        end = start + Point((slope + settled) / 2 * turn, turn)
        found.append(quadratic(start, start + Point(slope * turn / 2, turn / 2), end))
        start, rest = end, rest - turn
    if skirt.pegged:
        foot = start + Point(skirt.slope / 2 * rest, rest)
        found.append(quadratic(start, start + Point(0.0, rest / 2), foot))
    else:
        found.append(Line(start, start + Point(settled * rest, rest)))
    return found
