"""The lower sleeve cut apart: where it is joined, and its own piece on the fold of the overarm.

The line of the joint is one curve for both pieces, square to the overarm and to the under line, so that the sewn sleeve
lies exactly as a whole one and the ring of the seam runs smooth (trueing: common practice, no source).
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from drafting import sources
from drafting.cloth import ClothFacts, passing_factor
from drafting.contract.cutting import FinishedEdge, anchors, cut_out
from drafting.contract.pieces import AnchorKind, Level, Notch, Piece
from drafting.garments.cut_in_one.chalking import LOWER_SLEEVE_PARTS, LOWER_SLEEVE_STAGES
from drafting.garments.cut_in_one.sleeve import Overarm, Sleeve, Underarm, stretch_round
from drafting.garments.cut_in_one.style import Choices
from drafting.geometry.path import Path
from drafting.geometry.point import Point
from drafting.geometry.segments import Cubic, Line, Segment
from drafting.geometry.solve import least_enough
from drafting.parts.flounce import Flounce, flounce_notches
from drafting.problems import Adjustment


@dataclass(frozen=True, slots=True)
class Joint:
    """A sleeve cut apart, finished, body axes.

    `edge` runs from the overarm to the under line; `upper` is what is left of the under line from there inward, `lower`
    the under line of the lower sleeve from the joint outward; `at` how far along the overarm it lies, mm.
    """

    edge: tuple[Segment, ...]
    upper: tuple[Segment, ...]
    lower: tuple[Segment, ...]
    at: float

    @property
    def half(self) -> float:
        """Half the girth of the joint, mm."""
        return sum(segment.length() for segment in self.edge)


def joint_for(
    choices: Choices, over: Overarm, made: Sleeve, underarm: Underarm | None, adjusted: list[Adjustment]
) -> Joint | None:
    """The joint that was asked for; None, with a note, where the sleeve is too short to be cut apart."""
    if not choices.joined:
        return None
    if underarm is not None and not made.cap:
        found = cut_apart(over, made, underarm, made.share, choices.sleeve_length)
        if found is not None:
            return found
    adjusted.append(
        Adjustment("lower_sleeve", "lower sleeve, joined", 1.0, 0.0, "the sleeve is too short to be cut apart", "")
    )
    return None


def cut_apart(over: Overarm, made: Sleeve, underarm: Underarm, share: float, length: float) -> Joint | None:
    """Cuts a sleeve at its narrowest place, or at JOINT_AT of one that is narrowest at its end.

    None where that would leave a lower sleeve shorter than LOWER_SLEEVE_LEAST, or cut into the underarm curve.
    """
    curve_end = (underarm.curve[0].start - over.start).dot(over.along)
    if share < 1.0:
        at = share * length
        inner, outer = underarm.under[-1:], underarm.under[:-1]
        edge: tuple[Segment, ...] = (Line(over.at(at), made.narrowest),)
    else:
        at = sources.JOINT_AT * length
        found = _square_curve(over, underarm.under[-1], max(at, curve_end + sources.JOINT_BEYOND_CURVE))
        if found is None:
            return None
        at, edge, t = found
        far, near = underarm.under[-1].split(t)
        inner, outer = (near,), (*underarm.under[:-1], far)
    if at < curve_end + sources.JOINT_BEYOND_CURVE - 1e-6 or length - at < sources.LOWER_SLEEVE_LEAST:
        return None
    return Joint(edge, inner, tuple(segment.reversed() for segment in reversed(outer)), at)


def _square_curve(over: Overarm, under: Segment, at: float) -> tuple[float, tuple[Segment, ...], float] | None:
    """A curve square to the overarm at `at` and to the under line, as an arc about the apex where both would meet."""

    def place(distance: float) -> float | None:
        def along(t: float) -> float:
            return (under.at(t) - over.start).dot(over.along)

        if not along(1.0) + 1.0 < distance < along(0.0) - 1.0:
            return None
        # The under line runs from the sleeve's end inward.
        return least_enough(lambda t: along(t) <= distance, 0.0, 1.0, 1e-15)

    top, aim, t = over.at(at), at, 0.0
    for _ in range(12):
        found = place(aim)
        if found is None:
            return None
        t = found
        outward = under.tangent(t) * -1.0
        angle = math.atan2(outward.cross(over.along), outward.dot(over.along))
        aim = at + over.depth(under.at(t)) * math.tan(angle / 2)
    foot, inward = under.at(t), under.tangent(t)
    square = inward.left()
    if square.dot(over.below) < 0:
        square = square * -1.0
    reach = top.distance(foot) / 3
    return at, (Cubic(top, top + over.below * reach, foot - square * reach, foot),), t


def stretch_at(cloth: ClothFacts, overarm: float) -> float:
    """How far the joint stretches, as a fraction: as the stiffer of the two cloths that meet there."""
    return min(cloth.across, stretch_round(cloth, overarm))


def passing(cloth: ClothFacts, overarm: float, joint: Joint, end_girth: float) -> tuple[float, float]:
    """Girth and stretch that decide whether a hand passes: joint (the stiffer of its two cloths) or sleeve end.

    The lower sleeve lies along the cloth, so the crosswise stretch goes round it.
    """
    rings = ((2 * joint.half, stretch_at(cloth, overarm)), (end_girth, cloth.across))
    return min(rings, key=lambda ring: ring[0] * passing_factor(ring[1]))


def lower_sleeve(over: Overarm, made: Sleeve, joint: Joint, allowances: dict[str, float], cloth: ClothFacts,
                 *, hemmed: bool = True, flounce: Flounce | None = None) -> Piece:  # fmt: skip
    """The lower sleeve, cut twice on the fold of its overarm, the arm's length along the cloth.

    `hemmed` says that its end is turned up, and not sewn to a cuff or to its `flounce`.
    """
    start = over.at(joint.at)

    def turned(segments: Sequence[Segment]) -> tuple[Segment, ...]:
        return tuple(_in_axes(segment, start, over) for segment in segments)

    edges = [
        FinishedEdge("joint", Path.of(turned(joint.edge)), allowances["sleeve_joint"],
                     label="sleeve joint"),
        FinishedEdge("under", Path.of(turned(joint.lower)), allowances["side"],
                     label="under seam"),
        FinishedEdge("sleeve_end", Path.of(turned([s.reversed() for s in reversed(made.end)])),
                     allowances["sleeve_end"], turned=hemmed),
    ]  # fmt: skip
    cut = cut_out(edges, cloth.shrink_across, cloth.shrink_along)
    joint_corner, end_corner = cut.corners
    notches = []
    for name, notch_id, label in (
        ("joint", "joint", "middle of the joint"),
        ("under", "under", "middle of the under seam"),
    ):
        edge = next(edge for edge in cut.edges if edge.name == name)
        at = edge.stitch.length() / 2
        inner, tangent = edge.stitch.at_length(at)
        notches.append(Notch(name, notch_id, label, at, inner, inner + tangent.left() * edge.allowance))
    notches += flounce_notches(flounce, cut, "sleeve_end", edges[2].path, (0.0, 0.5))
    wanted: list[tuple[str, str, AnchorKind, str, Point]] = [
        ("joint_fold", "joint at the fold", "fold", "levels", cut.line[0]),
        ("joint_under", "underside of the joint", "corner", "widths", joint_corner),
        ("sleeve_end_under", "underside of the sleeve end", "corner", "widths", end_corner),
        ("sleeve_end_fold", "sleeve end at the fold", "fold", "levels", cut.line[-1]),
    ]
    levels = (
        Level("joint", "joint", cut.place(Point(0.0, 0.0)).y),
        Level("sleeve_end", "sleeve end", cut.place(_axes(made.top, start, over)).y, width=True, ends=True),
    )
    return Piece("lower_sleeve", "Lower sleeve", 2, True, cut.edges, cut.line, levels, anchors(cut.line, wanted),
                 tuple(notches), stages=LOWER_SLEEVE_STAGES, parts=LOWER_SLEEVE_PARTS)  # fmt: skip


def _axes(point: Point, start: Point, over: Overarm) -> Point:
    """Across is how far below the overarm, down is how far along it from the joint."""
    away = point - start
    return Point(away.dot(over.below), away.dot(over.along))


def _in_axes(segment: Segment, start: Point, over: Overarm) -> Segment:
    if isinstance(segment, Line):
        return Line(_axes(segment.start, start, over), _axes(segment.end, start, over))
    points = (segment.start, segment.first, segment.second, segment.end)
    return Cubic(*(_axes(point, start, over) for point in points))
