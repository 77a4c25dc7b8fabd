"""What a finished `kaftan` is found to be: girths, figures, points, what was asked for, and the facts of its checks."""

import math
from dataclasses import dataclass

from drafting.contract.asked import (
    Allowance,
    Asked,
    BelowLevel,
    EdgeLength,
    FinishedOutline,
    FoldLength,
    FromCorner,
    Measure,
    NotchAboveEnd,
    Sum,
)
from drafting.contract.chalked_line import ChalkedLine
from drafting.contract.girths import AcrossAt, Along, ChalkedGirth, FinishedGirth, FromLine, Passes, SumOf
from drafting.contract.pieces import FinishedFigure, Piece
from drafting.garments.kaftan.lay_out import slit_as_chalked
from drafting.garments.kaftan.outline import Parts
from drafting.geometry.path import Path
from drafting.geometry.point import Point
from drafting.geometry.polyline import lines_meet
from drafting.parts.neck import least_shoulder
from drafting.parts.widths import through_hem_passes
from drafting.person.passing import hand_needs
from drafting.sources import scale

BODY = ("front", "back")
#: The marks that hold the side, and those of the overarm, whose last join is straight.
SIDE = ("underarm_end", "hem_corner")
OVERARM = ("shoulder_point", "overarm_end")
#: The edges that each allowance of a style lies outside of, by piece.
_EDGES = {
    "shoulder": (("front", "shoulder"), ("back", "shoulder")),
    "side": (("front", "side"), ("back", "side"), ("lower_sleeve", "under")),
    "hem": (("front", "hem"), ("back", "hem")),
    "sleeve_end": (("front", "sleeve_end"), ("back", "sleeve_end"), ("lower_sleeve", "sleeve_end")),
    "neck": (("front", "neck_edge"), ("back", "neck_edge"), ("front_facing", "neck_edge")),
    "sleeve_joint": (("front", "sleeve_joint"), ("back", "sleeve_joint"), ("lower_sleeve", "joint")),
}
#: How far the arms are raised above level where the lift of the hem is told, radians (CALC): level, half-way, overhead.
RAISED = (0.0, math.pi / 4, math.pi / 2)


@dataclass(frozen=True, slots=True)
class CornerAcross:
    """How far from the fold the straight beginning and the straight end of an edge would meet."""

    piece: str
    edge: str

    def of(self, outline: FinishedOutline) -> float:
        """Mm."""
        first, *_, last = outline.path(self.piece, self.edge).segments
        meet = lines_meet(first.start, first.tangent(0.0), last.end, last.tangent(1.0))
        return meet.x - outline.centre(self.piece)


@dataclass(frozen=True, slots=True)
class Falls:
    """The angle at which a straight edge falls below level."""

    piece: str
    edge: str

    def of(self, outline: FinishedOutline) -> float:
        """Degrees."""
        away = outline.path(self.piece, self.edge).segments[-1].tangent(1.0)
        return math.degrees(math.atan2(away.y, away.x))


@dataclass(frozen=True, slots=True)
class CutDown:
    """How far a cut down the fold runs below the edge that it begins at."""

    piece: str

    def of(self, outline: FinishedOutline) -> float:
        """Mm."""
        return outline.place(Point(0.0, outline.piece(self.piece).slit_down)).y


def _both(parts: tuple[ChalkedGirth, ...], times: float = 1.0) -> ChalkedGirth:
    return SumOf(tuple((times, part) for part in parts))


def girths(parts: Parts, made: tuple[Piece, ...]) -> tuple[FinishedGirth, ...]:
    """Every girth of the sewn garment with the body girth it goes round, mm."""
    body, at, side = parts.body, parts.at, parts.side

    def level(key: str, label: str, y: float, around: float) -> FinishedGirth:
        quarter = side.x(y)
        across = _both(tuple(AcrossAt(name, SIDE, "side", key, quarter) for name in BODY), 2.0)
        return FinishedGirth(key, label, 4 * quarter, around, chalked=across)

    neck = _both(tuple(Along(name, ("neck_fold", "neck_corner")) for name in BODY), 2.0)
    hem = _both(tuple(Along(name, ("hem_corner", "hem_fold")) for name in BODY), 2.0)
    if parts.joint is None:
        end = _both(tuple(Along(name, ("overarm_end", "underarm_end")) for name in BODY))
    else:
        end = _both((Along("lower_sleeve", ("sleeve_end_under", "sleeve_end_fold")),), 2.0)
    ring = _both(tuple(FromLine(name, "underarm_middle", SIDE, OVERARM) for name in BODY))
    through = max(body.bust_girth, body.hip_girth)
    slit = slit_as_chalked(parts, made)
    found = [
        FinishedGirth("neck", "neck edge", parts.neck.ring, body.neck_girth, chalked=neck, worn_stretched=False,
                      passes=Passes("head", parts.opened.needs, 0.0, 2 * slit)),
        level("underarm", "bust, at the foot of the underarm curve", parts.side_from, body.bust_girth),
        level("waist", "waist", at.waist, body.waist_girth),
        level("hip", "hip", at.hip, body.hip_girth),
        FinishedGirth("hem", "hem", 4 * parts.hem.quarter, 0.0, chalked=hem,
                      passes=through_hem_passes(body, through, 0.0)),
        FinishedGirth("sleeve_ring", "sleeve at the underarm", 2 * parts.sleeve.depth(_corner(parts)),
                      body.upper_arm_girth, chalked=ring, worn_stretched=False),
        FinishedGirth("sleeve_end", "sleeve end", 2 * parts.sleeve.half(parts.sleeve.length), 0.0, chalked=end,
                      passes=Passes("hand", hand_needs(body), 0.0)),
    ]  # fmt: skip
    return tuple(found)


def _corner(parts: Parts) -> Point:
    """The middle of the underarm's curve."""
    curve = Path(parts.underarm.curve)
    return curve.at_length(curve.length() / 2)[0]


def figures(parts: Parts, made: tuple[Piece, ...]) -> tuple[FinishedFigure, ...]:
    """Where things lie that the rules place by themselves, finished, mm."""
    neck = parts.neck
    return (
        FinishedFigure("length", "side-neck level to hem", parts.at.hem),
        FinishedFigure("sleeve", "shoulder point to sleeve end", parts.sleeve.length),
        FinishedFigure("reach", "centre to sleeve end, level", parts.sleeve.top(parts.sleeve.length).x),
        FinishedFigure("front_neck", "front neck below the side-neck level", neck.front.start.y),
        FinishedFigure("back_neck", "back neck below the side-neck level", neck.back.start.y),
        FinishedFigure("neck_slit", "slit of the neck", slit_as_chalked(parts, made)),
        FinishedFigure("underarm", "underarm above the waist", parts.at.waist - parts.sleeve.corner.y),
        *parts.pockets.figures,
    )


def points_of(parts: Parts) -> dict[str, Point]:
    """Finished construction points, from the side-neck level, for tests and drawings."""
    sleeve = parts.sleeve
    return {
        "neck_corner": parts.neck.end,
        "shoulder_point": sleeve.start,
        "underarm": sleeve.corner,
        "sleeve_end_top": sleeve.top(sleeve.length),
        "sleeve_end_under": parts.under(sleeve.length),
        "slit_end": Point(0.0, parts.opened.end),
        "hem_corner": parts.hem.corner,
    }


def record(parts: Parts, made: tuple[Piece, ...]) -> dict[str, float]:
    """What the checks judge, all mm."""
    body = parts.body
    level, half_way, overhead = (lift(parts, angle) for angle in RAISED)
    return {
        **chalked_slit(parts, made, parts.chalked),
        "head_needed": parts.opened.needs,
        "slit_length": slit_as_chalked(parts, made),
        "shoulder_run": body.shoulder_width / 2 - parts.neck.end.x,
        "shoulder_run_least": least_shoulder(scale(body.stature)),
        "hand_ring": 2 * parts.sleeve.half(parts.sleeve.length),
        "sleeve_end_girth": 2 * parts.sleeve.half(parts.sleeve.length),
        "bust_ease": 4 * parts.sleeve.corner.x - body.bust_girth,
        "hip_ease": 4 * parts.side.x(parts.at.hip) - body.hip_girth,
        "lift_level": level,
        "lift_half_way": half_way,
        "lift_overhead": overhead,
        "neck_radius": parts.neck.tightest,
        "neck_allowance": parts.allowances["neck"],
        "corner_radius": parts.underarm.radius,
        "side_allowance": parts.allowances["side"],
        **parts.pockets.facts,
    }


def chalked_slit(parts: Parts, made: tuple[Piece, ...], chalked: ChalkedLine) -> dict[str, float]:
    """The ring of the neck with its slit open, as a tape reads the stop of the slit, mm."""
    front = made[0]
    stop = chalked.tape.reading(front.edges[0].stitch.start.y + front.slit_down).mm
    slit = (stop - front.edges[0].stitch.start.y) * (1 - parts.cloth.shrink_along)
    return {"slit_ring": parts.neck.ring + 2 * slit}


def lift(parts: Parts, raised: float) -> float:
    """How far the hem is lifted when the arm is `raised` so far above level, mm; below 0 where it is not (CALC).

    The corner of the underarm is turned about the shoulder point with the arm; by as much as it then lies farther from
    the waist the body of the garment goes up.
    """
    sleeve = parts.sleeve
    waist = Point(parts.side.x(parts.at.waist), parts.at.waist)
    overarm = math.atan2(sleeve.along.y, sleeve.along.x)
    turned = sleeve.start + (sleeve.corner - sleeve.start).turned(-(overarm + raised))
    return turned.distance(waist) - sleeve.corner.distance(waist)


def asked(parts: Parts, made: tuple[Piece, ...]) -> tuple[Asked, ...]:
    """Everything that the style asks for in lengths, girths and angles, mm and degrees."""
    choices, joined = parts.choices, parts.joint is not None
    found = [
        Asked("length", "length from the side-neck level", choices.length, BelowLevel(name, "side_neck", "hem", "end"))
        for name in BODY
    ]
    for name in BODY:
        upper: Measure = FromCorner(name, "shoulder", "shoulder_point")
        long = Sum(((1.0, upper), (1.0, FoldLength("lower_sleeve")))) if joined else upper
        found.append(
            Asked("sleeve_length", "length of the sleeve from the shoulder point", choices.sleeve_length, long)
        )
        if choices.slit is not None:
            found.append(Asked("slit", "slit", choices.slit, NotchAboveEnd(name, "side", "slit")))
    bust = None if choices.ease_bust is None else parts.body.bust_girth + choices.ease_bust
    found.append(
        Asked("ease_bust", "bust, all round", bust, Sum(tuple((2.0, CornerAcross(name, "side")) for name in BODY)))
    )
    if joined:
        end: Measure = Sum(((2.0, EdgeLength("lower_sleeve", "sleeve_end")),))
    else:
        end = Sum(tuple((1.0, EdgeLength(name, "sleeve_end")) for name in BODY))
    found.append(Asked("sleeve_end_girth", "girth at the sleeve end", choices.sleeve_end_girth, end))
    angle = math.degrees(choices.overarm)
    found.append(Asked("overarm_angle", "slope of the overarm", angle, Falls("front", "shoulder"), unit="deg"))
    found.append(Asked("neck_slit", "slit of the neck", choices.neck_slit, CutDown("front")))
    there = {(piece.name, edge.name) for piece in made for edge in piece.edges}
    found += [
        Asked(f"allowances.{key}", f"allowance of the {key.replace('_', ' ')}", choices.allowances[key],
              Allowance(piece, edge))
        for key in sorted(choices.allowances_given)
        for piece, edge in _EDGES[key]
        if (piece, edge) in there
    ]  # fmt: skip
    return tuple(found)
