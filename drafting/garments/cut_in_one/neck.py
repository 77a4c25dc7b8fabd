"""Neck, shoulder and overarm: from the top of the fold to the end of the sleeve along the top.

All in body axes: x across from the fold, y down from the side-neck level, finished, millimetres.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from drafting import sources
from drafting.cloth import ClothFacts, passing_factor
from drafting.contract.chalked_line import ChalkedLine
from drafting.garments.cut_in_one.style import Choices
from drafting.geometry.path import Path
from drafting.geometry.point import Point, direction
from drafting.geometry.polyline import turn_between
from drafting.geometry.segments import Cubic, Line, Segment, arc, fillet, flatten
from drafting.geometry.solve import crossing_value, least_enough
from drafting.parts.widths import kept_open
from drafting.person.measures import Body
from drafting.person.passing import head_needs
from drafting.problems import Adjustment

#: A scoop is shallow when it rises less than this share of the way across. Our choice: from there on a single curve is
#: as round as a circle.
SCOOP_SHALLOW = 0.5
#: A drop of the shoulder is told as moved from so much on, mm: less is not seen on any tape.
DROP_TOLD_FROM = 0.1

#: A width of a neck is solved to this, mm. Our choice: far below what a tape shows.
ACCURACY = 1e-3


@dataclass(frozen=True, slots=True)
class Neck:
    """The neck and shoulder of one piece.

    `half_width` is that of the foot of a neck stand, or of the end of a scooped edge.
    `top` runs from the fold to the neck corner; `column` from there to where the shoulder line is straight;
    `foot` is where column and shoulder line would meet; `shoulder_start` is the side-neck point of the body, where the
    shoulder line begins.
    """

    half_width: float
    height: float
    scooped: bool
    top: Path
    column: tuple[Segment, ...]
    foot: Point
    shoulder_start: Point
    curve_radius: float


@dataclass(frozen=True, slots=True)
class FoldOver:
    """The fold-over line of a neck stand, finished, body axes.

    `stands` is how high above the side-neck level it lies at the fold; `line` runs from there to the side; `turn` is
    the place on the side, a little below, from which the seam is sewn with its allowances to the other side.
    """

    stands: float
    line: tuple[Segment, ...]
    turn: Point


@dataclass(frozen=True, slots=True)
class Shoulder:
    """The shoulder point and the `corner` where the overarm begins, which `softening` rounds.

    `along` is the direction of the overarm, and `deviation` how far the corner lies off the shoulder point, mm.
    """

    point: Point
    corner: Point
    softening: tuple[Segment, ...]
    along: Point
    deviation: float


def side_neck(body: Body) -> float:
    """Half the width between the side-neck points, mm (a fifth of the neck base)."""
    return body.neck_base_girth * sources.NECK_BASE_SHARE


def half_width_for_head(body: Body, cloth: ClothFacts) -> float:
    """Half width of a closed neck ring that just passes the head, mm."""
    return head_needs(body) / passing_factor(cloth.across) / 4


def column_half_width(body: Body, choices: Choices, cloth: ClothFacts, chalked: ChalkedLine, allowance: float) -> float:
    """Half width of the neck stand at its narrowest, mm: given, or for standing and for the head as it will be chalked.

    An opening sees to the head. `allowance` is that of the sides.
    """
    if choices.neck_half_width is not None:
        return choices.neck_half_width
    standing = (body.neck_girth + sources.NECK_STANDING_EASE) / 4
    if choices.opening:
        return standing
    needed = half_width_for_head(body, cloth)
    if choices.lean > 0:
        # The narrowest place lies between marks that are read both ways, each within half a step.
        return max(standing, needed + chalked.tape.size / 2 * (1 - cloth.shrink_across))
    return kept_open(max(standing, needed), needed, chalked, cloth, allowance)


def shoulder_allowance(choices: Choices, curve_radius: float) -> float:
    """The allowance of the shoulder seam and the sides of the neck stand that the curve between them takes, mm."""
    return min(choices.shoulder, max(6.0, curve_radius - sources.COLUMN_CURVE_SPARE))


def chalked_half(
    narrowest: float, choices: Choices, chalked: ChalkedLine, cloth: ClothFacts, allowance: float
) -> float:
    """The narrowest half width of a neck stand as it will be chalked, mm; of a leaning one the least it can become."""
    if choices.lean > 0:
        return narrowest - chalked.tape.size / 2 * (1 - cloth.shrink_across)
    return chalked.chalked(narrowest, allowance, cloth.shrink_across)


def foot_half_width(body: Body, choices: Choices, narrowest: float, height: float) -> float:
    """Half width at the foot of a neck stand that is `narrowest` at its narrowest, to within 0.001 mm.

    An upright stand is as wide at its foot. One that leans narrows down to the curve into the shoulder, which cuts its
    foot away: the foot itself is narrower than any ring of the finished edge.
    """
    foot = narrowest
    if choices.lean < 1e-9 or body.shoulder_width / 2 - narrowest < least_run(body):
        return foot  # upright, or refused for want of a shoulder
    for _ in range(20):
        wide = narrowest_half(column(body, choices, foot, height, shoulder(body, choices, foot)).column)
        foot += narrowest - wide
        if abs(wide - narrowest) < 1e-3:
            break
    return foot


def narrowest_half(side: Sequence[Segment]) -> float:
    """The least half width of a neck stand, measured level across its finished side and curve, mm (to 0.001)."""
    return min(point.x for point in flatten(side, 0.001))


def least_run(body: Body) -> float:
    """The least run of shoulder outside the neck, mm."""
    return max(sources.SHOULDER_RUN_LEAST, sources.SHOULDER_RUN_SCALED * sources.scale(body.stature))


def neck_height(body: Body, choices: Choices, adjusted: list[Adjustment]) -> float:
    """Height of the column from the side-neck level to its finished edge, limited to what stands or folds, mm."""
    if body.stature < sources.NECK_SMALL_CHILD_STATURE:
        most = sources.NECK_SMALL_CHILD_SHARE * body.stature
        why = "a higher neck reaches the chin of somebody this small"
    elif choices.folded:
        most = min(sources.NECK_FOLDED_MOST, sources.NECK_FOLDED_SHARE * body.stature)
        why = "a higher neck does not fold over well"
    else:
        most = sources.NECK_SINGLE_SHARE * body.stature
        why = "a higher single neck reaches the chin; fold it over to go higher"
    if choices.neck_height > most + 1e-6:
        adjusted.append(Adjustment("neck_height", "neck height", choices.neck_height, most, why))
        return most
    return choices.neck_height


def shoulder(body: Body, choices: Choices, half_width: float) -> Shoulder:
    """Sets out shoulder point and overarm, softened where they meet.

    Where the overarm falls more steeply than the shoulder the corner moves outward by the curve's deviation, so that
    the curve passes through the shoulder point and never cuts into it.
    """
    begin = Point(side_neck(body), 0.0)
    half = body.shoulder_width / 2
    point = Point(half, (half - begin.x) * math.tan(choices.slope))
    along = direction(choices.overarm)
    run = half - half_width
    foot = column_foot(body, choices, half_width)
    leg = min(
        sources.SOFTENING_LEG * sources.scale(body.stature),
        sources.SOFTENING_SHARE * run / math.cos(choices.slope),
        sources.SOFTENING_SLEEVE_SHARE * choices.sleeve_length,
    )
    if abs(choices.overarm - choices.slope) < 1e-6:
        return Shoulder(point, point, (), along, 0.0)
    corner = point
    deviation = 0.0
    if choices.overarm > choices.slope:
        for _ in range(4):
            down = (corner - foot).unit()
            deviation = leg * math.tan(abs(turn_between(down, along)) / 4)
            corner = point + (down + along).unit().left() * deviation
    down = (corner - foot).unit()
    return Shoulder(point, corner, tuple(fillet(corner, down, along, leg)), along, deviation)


def finished_point(over: Shoulder) -> Point:
    """The shoulder point on the seam: the middle of the curve that softens it."""
    if not over.softening:
        return over.point
    curve = Path(over.softening)
    return curve.at_length(curve.length() / 2)[0]


def tell_drop(choices: Choices, over: Shoulder, adjusted: list[Adjustment]) -> None:
    """Says where the seam passes outside a shoulder point whose drop was asked for."""
    drop = finished_point(over).y
    if choices.drop is None or abs(drop - choices.drop) <= DROP_TOLD_FROM:
        return
    why = "the seam runs in a curve from the shoulder into the flatter overarm"
    adjusted.append(Adjustment("shoulder_drop", "drop of the shoulder point", choices.drop, drop, why))


def column_foot(body: Body, choices: Choices, half_width: float) -> Point:
    """Where the column meets the shoulder line of the body (which starts at the side-neck point, not at the column)."""
    return Point(half_width, (half_width - side_neck(body)) * math.tan(choices.slope))


def column(body: Body, choices: Choices, half_width: float, height: float, over: Shoulder) -> Neck:
    """The grown-on column: its top edge, its side and the curve into the shoulder."""
    foot = column_foot(body, choices, half_width)
    grown = sources.scale(body.stature)
    lean = choices.lean
    if lean < 1e-9:
        top_corner = Point(half_width, -height)
        top: list[Segment] = [Line(Point(0.0, -height), top_corner)]
    else:
        apex = Point(0.0, foot.y + half_width / math.tan(lean))
        radius = apex.y + height
        top = list(arc(apex, radius, -math.pi / 2, -math.pi / 2 + lean))
        top_corner = top[-1].end
    down = (foot - top_corner).unit()
    out = (over.corner - foot).unit()
    used = (over.softening[0].start.distance(over.corner)) if over.softening else 0.0
    leg = min(
        sources.COLUMN_CURVE_LEG * grown,
        foot.distance(over.corner) - used - 5.0,
        foot.distance(top_corner) / 2,
    )
    curve = fillet(foot, down, out, leg)
    radius_of_curve = leg / math.tan(abs(turn_between(down, out)) / 2)
    side: tuple[Segment, ...] = (Line(top_corner, curve[0].start), *curve)
    return Neck(half_width, height, False, Path.of(top), side, foot, Point(side_neck(body), 0.0), radius_of_curve)


def fold_over(neck: Neck, lean: float) -> FoldOver:
    """Where a folded neck stand turns over, so that its edge ends FOLD_OVER_EDGE_ABOVE above the side-neck level.

    Height in all = 2 x the part that stands - that. The line keeps one distance from the top edge, as that turns down
    over it; of a leaning stand it is an arc about the same apex and meets the sides square. `lean` in radians. The side
    is straight down to the line and below it (CALC: its curve takes at most half of the side).
    """
    stands = (neck.height + sources.FOLD_OVER_EDGE_ABOVE) / 2
    line: tuple[Segment, ...]
    if lean < 1e-9:
        line = (Line(Point(0.0, -stands), Point(neck.half_width, -stands)),)
    else:
        apex = Point(0.0, neck.foot.y + neck.half_width / math.tan(lean))
        line = tuple(arc(apex, apex.y + stands, -math.pi / 2, -math.pi / 2 + lean))
    down = neck.top.end.distance(line[-1].end) + sources.FOLD_OVER_TURNS_BELOW
    turn, _ = Path(neck.column).at_length(down)
    return FoldOver(stands, line, turn)


def scoop(body: Body, choices: Choices, half_width: float, depth: float, outward: Point) -> Neck:
    """A scooped neck edge: square to the fold at `depth`, square to the shoulder line as it is drawn at `half_width`.

    `outward` is the unit vector square to that line, up and out. `curve_radius` is infinite: no curve leaves a column.
    """
    foot = column_foot(body, choices, half_width)
    fold = Point(0.0, depth)
    # The two square ends meet in `corner`. A shallow edge runs level and then turns in a circle, which takes an
    # allowance where a single curve would turn too sharply; a deep one is a single curve.
    leg = (foot.y - depth) / outward.y
    corner = foot - outward * leg
    if leg < corner.x * SCOOP_SHALLOW:
        bend = fillet(corner, Point(1.0, 0.0), outward, leg)
        edge: list[Segment] = [Line(fold, bend[0].start), *bend]
    else:
        short = min(leg, corner.x)
        edge = [Cubic(fold, corner - Point(0.6 * short, 0.0), corner + outward * (0.2 * short), foot)]
    return Neck(half_width, 0.0, True, Path.of(edge), (), foot, Point(side_neck(body), 0.0), math.inf)


def scooped_pair(
    body: Body, choices: Choices, cloth: ClothFacts, adjusted: list[Adjustment], needed: float = 0.0
) -> tuple[Neck, Neck, float]:
    """Front and back scooped edges and the true length of the whole ring, mm.

    The front is deepened first, as far as a scoop goes, then the neck widened, until the head passes; a given half
    width is kept. `needed` is how long the ring must be, where that is not what the head alone asks. How deep the front
    lies is a finished figure; only the widening is told as moved.
    """
    grown = sources.scale(body.stature)
    wanted = needed or head_needs(body) / passing_factor(cloth.across)
    shallow, deep = (limit * grown for limit in sources.SCOOP_FRONT)
    back_depth = sources.SCOOP_BACK * grown
    start = choices.neck_half_width or side_neck(body) + sources.SCOOP_OUTSIDE * grown

    square: dict[float, Point] = {}  # square to the shoulder line, by half width

    def ring(width: float, front_depth: float) -> tuple[Neck, Neck, float]:
        if width not in square:
            # A neck as wide as the shoulders leaves no line to be square to; the check on the shoulder then stops it.
            inside = min(width, body.shoulder_width / 2 - 5.0)
            square[width] = (shoulder(body, choices, inside).corner - column_foot(body, choices, inside)).unit().left()
        foot = column_foot(body, choices, width).y
        front = scoop(body, choices, width, front_depth + foot, square[width])
        back = scoop(body, choices, width, back_depth + foot, square[width])
        return front, back, 2 * (front.top.length() + back.top.length())

    found = ring(start, shallow)
    if found[2] >= wanted or choices.opening:
        return found
    if ring(start, deep)[2] >= wanted:
        return ring(start, least_enough(lambda value: ring(start, value)[2] >= wanted, shallow, deep, ACCURACY))
    if choices.neck_half_width is not None:
        return ring(start, deep)
    width = least_enough(lambda value: ring(value, deep)[2] >= wanted, start, body.shoulder_width / 2, ACCURACY)
    adjusted.append(Adjustment("neck_half_width", "half width of the neck", start, width, "the head must pass"))
    return ring(width, deep)


def ring_with_slit(neck: Neck, end: float) -> float:
    """The tightest loop through a neck stand that is slit down the back to the level `end`, mm.

    It runs straight across the front, and from the sides round the end of the slit at the back; it is measured at
    every level of the finished side and curve: 2x + 2·√(x² + e²) where the slit ends e below (CALC).
    """
    sides = [point for point in flatten(neck.column, 0.01) if point.y < end]
    return min((2 * p.x + 2 * math.hypot(p.x, end - p.y) for p in sides), default=4 * narrowest_half(neck.column))


def slit_for_head(body: Body, cloth: ClothFacts, neck: Neck, lowest: float) -> float:
    """The level to which the back of a neck stand is slit so that the head passes, `lowest` at most, mm (to 0.01)."""
    wanted = head_needs(body) / passing_factor(cloth.across)
    highest = min(neck.foot.y + sources.OPENING_LEAST, lowest)
    if ring_with_slit(neck, highest) >= wanted or ring_with_slit(neck, lowest) < wanted:
        return highest if ring_with_slit(neck, highest) >= wanted else lowest
    return crossing_value(lambda end: ring_with_slit(neck, end) - wanted, highest, lowest, 0.01)
