"""The cap of `set_in`: its height solved from both armholes and the width under the arm, its hollow from where it lies.

Sleeve axes, finished: the grain line through the top of the cap is x = 0, the front to its right, the back to its left;
y down from the top, millimetres. Each half is reckoned outward from the grain line.
"""

from collections.abc import Callable
from dataclasses import dataclass, field

from drafting.garments.set_in import rules
from drafting.geometry.path import Path
from drafting.geometry.point import Point
from drafting.geometry.segments import Cubic, Line, Segment
from drafting.geometry.solve import crossing_value

#: Widths and heights are solved to this, mm: far below what a tape shows.
ACCURACY = 1e-3
#: The least half width that is looked for, mm.
NARROWEST = 0.5
#: In so many places it is looked how far a cap lies off its armhole.
PLACES = 3
#: Where a cap is only compared with others it is solved to this, mm.
ROUGHLY = 0.5

#: How far the under seam comes in for each mm down, for a cap so high.
Taper = Callable[[float], float]


@dataclass(frozen=True, slots=True)
class Armholes:
    """Both armholes from the end of the shoulder to the underarm, with their lengths, mm."""

    front: Path
    back: Path
    lengths: tuple[float, float] = field(init=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "lengths", (self.front.length(), self.back.length()))

    @property
    def whole(self) -> float:
        """Both together, mm."""
        return sum(self.lengths)

    @property
    def underarm(self) -> Point:
        """Where they meet the side."""
        return self.front.end


@dataclass(frozen=True, slots=True)
class Cap:
    """A cap: its height, the widths of its front and back, the slope of the under seams (dx/dy inward), its hollow."""

    height: float
    front: float
    back: float
    taper: float
    hollow: float

    @property
    def width(self) -> float:
        """The sleeve under the arm, mm."""
        return self.front + self.back

    def half(self, *, front: bool) -> tuple[Segment, ...]:
        """A half from the top to its corner, reckoned outward."""
        return _half(self.front if front else self.back, self.height, self.taper, self.hollow, front=front)

    def path(self) -> Path:
        """The whole edge: from the corner of the back over the top to that of the front."""
        back = [_turned_over(segment).reversed() for segment in reversed(self.half(front=False))]
        return Path((*back, *self.half(front=True)))


def _turned_over(segment: Segment) -> Segment:
    return segment.scaled(-1.0, 1.0, Point(0.0, 0.0))


def _half(width: float, height: float, taper: float, hollow: float, *, front: bool) -> tuple[Segment, ...]:
    """One half: level at the top, square to the under seam at its corner; its last millimetre is straight."""
    corner, square = Point(width, height), Point(1.0, taper).unit()
    shape = hollow if front else hollow - rules.HOLLOW_BACK_LESS
    last = corner - square * rules.STRAIGHT_END
    top = Point(rules.TOP_HANDLES[0 if front else 1] * width, 0.0)
    return Cubic(Point(0.0, 0.0), top, corner - square * (shape * width), last), Line(last, corner)


def widths(
    armholes: Armholes, height: float, taper: float, hollow: float, accuracy: float = ACCURACY
) -> tuple[float, float]:
    """The widths of front and back with which a cap of this height is as long as its armholes and its ease, mm.

    A half is longer the wider it is (CALC).
    """

    def of(*, front: bool) -> float:
        long = armholes.lengths[0 if front else 1] * (1 + rules.CAP_EASE)

        def short_by(width: float) -> float:
            return sum(segment.length() for segment in _half(width, height, taper, hollow, front=front)) - long

        return crossing_value(short_by, max(NARROWEST, long - height), long, accuracy)

    return of(front=True), of(front=False)


def reaches(armholes: Armholes, share: float, taper: Taper, hollow: float) -> float:
    """How wide the sleeve is under a cap that is this share of both armholes high, mm."""
    height = share * armholes.whole
    return sum(widths(armholes, height, taper(height), hollow))


def solved(armholes: Armholes, width: float, taper: Taper, hollow: float, accuracy: float = ACCURACY) -> Cap:
    """The cap of a sleeve so wide under the arm: the lower it is the wider, so its height is bracketed (CALC)."""

    def over(height: float) -> float:
        return sum(widths(armholes, height, taper(height), hollow, accuracy)) - width

    low, high = 0.05 * armholes.whole, 0.45 * armholes.whole
    height = crossing_value(over, low, high, accuracy)
    front, back = widths(armholes, height, taper(height), hollow, accuracy)
    return Cap(height, front, back, taper(height), hollow)


def tightest(path: Path) -> float:
    """The smallest radius of the curves of a path, mm."""
    sharpest = max(abs(segment.curvature(step / 12)) for segment in path.segments for step in range(13))
    return 1 / sharpest


def off_armhole(cap: Cap, armholes: Armholes) -> float:
    """How far the cap lies off its armholes near the underarm, laid on them there corner on corner, mm."""
    return max(_off(cap, armholes, front=front) for front in (True, False))


def _off(cap: Cap, armholes: Armholes, *, front: bool) -> float:
    edge = Path(cap.half(front=front)).reversed()
    hole = (armholes.front if front else armholes.back).reversed()
    along, under = edge.segments[0].tangent(0.0), hole.segments[0].tangent(0.0)
    reach = rules.LIES_OVER * armholes.lengths[0 if front else 1]
    worst = 0.0
    for place in range(1, PLACES + 1):
        at = reach * place / PLACES
        one, other = edge.at_length(at)[0] - edge.start, hole.at_length(at)[0] - hole.start
        # Both are seen from their corner, along the way in and square to it.
        apart = Point(one.dot(along) - other.dot(under), one.cross(along) - other.cross(under))
        worst = max(worst, apart.length())
    return worst


def hollowed(armholes: Armholes, width: float, taper: Taper) -> Cap:
    """The cap with the hollow with which it lies nearest to its armholes, and turns no more tightly than they do."""
    first, last = rules.HOLLOW
    middle = solved(armholes, width, taper, (first + last) / 2, ROUGHLY)
    radius = min(tightest(armholes.front), tightest(armholes.back))

    def off(hollow: float) -> tuple[float, float]:
        cap = Cap(middle.height, middle.front, middle.back, middle.taper, hollow)
        return max(0.0, radius - tightest(cap.path())), off_armhole(cap, armholes)

    steps = [first + (last - first) * step / (rules.HOLLOW_STEPS - 1) for step in range(rules.HOLLOW_STEPS)]
    return solved(armholes, width, taper, min(steps, key=off))
