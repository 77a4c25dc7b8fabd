"""The edges of a leg: the seat from waist to crotch, the inner leg and the side from there down, the waist edge.

A half is reckoned with its crotch to the right: x across from the axis of the leg, y down from the waist. Finished
millimetres; slopes are dx/dy.
"""

from collections.abc import Sequence
from itertools import pairwise
from typing import Final

from drafting import sources
from drafting.cloth import ClothFacts
from drafting.geometry.path import Path
from drafting.geometry.point import Point
from drafting.geometry.segments import Cubic, Line, Segment, hermite, quadratic
from drafting.parts.legs.style import LegChoices
from drafting.problems import Adjustment

#: So often the straight of the seat is aimed anew, so that its curve passes the hip; each time it comes ten times
#: nearer.
AIMED: Final = 7
#: The longest handles of a seat, in so many steps from its own. Our choice, for the short extensions of a child.
HANDLES_MOST: Final = (0.82, 1.05)
ROUNDER: Final = 6
#: At so many places the radius of a seat is looked at for its allowance: it is then found within 0.05 mm.
FINELY: Final = 100
#: A curve keeps its direction while its slope at an end is at most so many times that of its chord (Fritsch and Carlson
#: 1980).
STEEPER_MOST: Final = 3.0


def seat_edge(waist: Point, hip: Point, begins: float, point: Point, leaves: float, extension: float,
              handles: tuple[float, float], radius: float) -> Path:  # fmt: skip
    """From the waist down through the hip to the crotch point, where it meets the inner leg square.

    It runs straight down to the level `begins`, and its curve passes through the `hip`, also where that lies on the
    curve. `leaves` is the slope at which the inner leg leaves the crotch point, `extension` how far the curve runs out.
    Where it would turn more tightly than `radius`, which an allowance on its hollow side needs, its handles are made
    longer; where none are long enough, it is the roundest of those tried.
    """
    tried = []
    for step in range(ROUNDER + 1):
        share = step / ROUNDER
        longer = [own + (most - own) * share for own, most in zip(handles, HANDLES_MOST, strict=True)]
        path = _seat(waist, hip, begins, point, leaves, extension, (longer[0], longer[1]))
        tried.append((tightest(path.segments[-1]), path))
        if tried[-1][0] >= radius:
            return path
    return max(tried, key=lambda one: one[0])[1]


def tightest(segment: Segment, places: int = 16) -> float:
    """The smallest radius of a segment at so many places and its beginning, mm."""
    return 1 / max(1e-9, *(abs(segment.curvature(step / places)) for step in range(places + 1)))


def seam_allowance(choices: LegChoices, seats: Sequence[Path], cloth: ClothFacts, adjusted: list[Adjustment]) -> float:
    """The allowance of the seams, held to what the curves of these seats take, and told.

    The cut line beyond a hollow turns more tightly by the allowance, and where no radius is left it crosses itself.
    """
    across, down = 1 / (1 - cloth.shrink_across), 1 / (1 - cloth.shrink_along)
    curves = [seat.scaled(across, down, Point(0.0, 0.0)).segments[-1] for seat in seats]
    most = min(tightest(curve, FINELY) for curve in curves) - sources.SEAT_CUT_LEAST
    if choices.seams <= most + 1e-6:
        return choices.seams
    why = "the curve of the seat is too tight for more"
    adjusted.append(Adjustment("allowances.seams", "seam allowance", choices.seams, most, why))
    return most


def _seat(waist: Point, hip: Point, begins: float, point: Point, leaves: float, extension: float,
          handles: tuple[float, float]) -> Path:  # fmt: skip
    along = Point(1.0, -leaves).unit()
    last = point - along * (handles[1] * extension)
    aim = hip.x
    for _ in range(AIMED):
        down = (Point(aim, hip.y) - waist).unit()
        foot = waist + down * ((begins - waist.y) / down.y)
        curve = Cubic(foot, foot + down * (handles[0] * (point.y - begins)), last, point)
        if hip.y <= begins:
            break
        aim -= curve.at(parameter_at_level(curve, hip.y)).x - hip.x
    return Path((Line(waist, foot), curve))


def parameter_at_level(curve: Cubic, level: float) -> float:
    """The parameter at which a curve that runs down all the way crosses a level."""
    low, high = 0.0, 1.0
    for _ in range(45):
        middle = (low + high) / 2
        if curve.at(middle).y < level:
            low = middle
        else:
            high = middle
    return (low + high) / 2


def leaves_crotch(point: Point, knee: Point) -> float:
    """The slope at which an inner leg leaves the crotch point."""
    return sources.INNER_LEG_LEAVES * (knee.x - point.x) / (knee.y - point.y)


def smooth_down(points: Sequence[Point], first: float, last: float) -> list[Segment]:
    """One smooth line through points that lie one below the other, with its slopes at both ends.

    Between them its slope is what two curves that do not swing back allow (Fritsch and Carlson 1980).
    """
    chords = [(b.x - a.x) / (b.y - a.y) for a, b in pairwise(points)]
    slopes = [steepest(first, chords[0])]
    for above, here, below, one, other in zip(points, points[1:], points[2:], chords, chords[1:], strict=False):
        if one * other <= 0:
            slopes.append(0.0)
            continue
        up, down = here.y - above.y, below.y - here.y
        near, far = 2 * down + up, down + 2 * up
        slopes.append((near + far) / (near / one + far / other))
    slopes.append(last)
    return [hermite(a, m, b, n) for (a, b), (m, n) in zip(pairwise(points), pairwise(slopes), strict=True)]


def turn_of(long: float) -> float:
    """Over how much of a leg of this length below the knee its edge turns square to the hem."""
    return min(sources.LEG_TURN, sources.LEG_TURN_SHARE * long)


def straight_down(knee: Point, hem: Point) -> tuple[float, list[Segment]]:
    """From the knee straight to the hem and square into it: the slope at the knee, and the segments."""
    turn = turn_of(hem.y - knee.y)
    bend = Point(hem.x, hem.y - turn / 2)
    slope = (bend.x - knee.x) / (bend.y - knee.y)
    begins = Point(bend.x - slope * turn / 2, hem.y - turn)
    return slope, [Line(knee, begins), quadratic(begins, bend, hem)]


def steepest(slope: float, chord: float) -> float:
    """A slope held to what a curve over this chord takes without swinging back."""
    low, high = sorted((0.0, STEEPER_MOST * chord))
    return min(max(slope, low), high)


def square_waist(left: Point, left_slope: float, right: Point, right_slope: float) -> Cubic:
    """A waist edge between two corners, square to the edges that go down from them at these slopes (dx/dy)."""
    third = (right.x - left.x) / 3
    return Cubic(
        left, left + Point(third, -left_slope * third), right - Point(third, -right_slope * third), right
    )  # fmt: skip
