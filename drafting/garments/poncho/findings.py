"""What a finished `poncho` is found to be: girths, figures, points, what was asked for, and the facts of its checks."""

import math
from dataclasses import dataclass

from drafting.contract.asked import Allowance, Asked, FinishedOutline
from drafting.contract.girths import Along, FinishedGirth, Passes, SumOf
from drafting.contract.pieces import FinishedFigure
from drafting.garments.poncho.outline import Parts
from drafting.geometry.point import Point
from drafting.parts.neck import least_shoulder
from drafting.person.passing import head_needs

BODY = ("front", "back")
#: The edge that each allowance of a style lies outside of.
_EDGES = {"shoulder": "shoulder", "hem": "hem", "neck": "neck_edge"}


@dataclass(frozen=True, slots=True)
class BelowSideNeck:
    """How far an edge ends below the side-neck level, which is the zero of its piece."""

    piece: str
    edge: str

    def of(self, outline: FinishedOutline) -> float:
        """Mm."""
        return outline.path(self.piece, self.edge).end.y - outline.zero(self.piece)


@dataclass(frozen=True, slots=True)
class FallsToTheSide:
    """The slope of a straight edge below level."""

    piece: str
    edge: str

    def of(self, outline: FinishedOutline) -> float:
        """Degrees."""
        away = outline.path(self.piece, self.edge).segments[-1].tangent(1.0)
        return math.degrees(math.atan2(away.y, away.x))


def girths(parts: Parts) -> tuple[FinishedGirth, ...]:
    """The neck and the hem, each all round, mm."""
    neck, hem = (
        SumOf(tuple((2.0, Along(name, between)) for name in BODY))
        for between in (("neck_fold", "neck_corner"), ("hem_corner", "hem_fold"))
    )
    ring = parts.neck.ring
    return (
        FinishedGirth("neck", "neck edge", ring, parts.body.neck_girth, chalked=neck, worn_stretched=False,
                      passes=Passes("head", head_needs(parts.body), parts.cloth.across)),
        FinishedGirth("hem", "hem", 4 * parts.hem.length(), 0.0, chalked=hem, worn_stretched=False),
    )  # fmt: skip


def figures(parts: Parts) -> tuple[FinishedFigure, ...]:
    """Where things lie that the rules place by themselves, finished, mm."""
    return (
        FinishedFigure("length", "side-neck level to hem", parts.choices.length),
        FinishedFigure("front_neck", "front neck below the side-neck level", parts.neck.front.start.y),
        FinishedFigure("back_neck", "back neck below the side-neck level", parts.neck.back.start.y),
        FinishedFigure("along_arm", "shoulder point to hem, along the arm", parts.shoulder_point.distance(parts.end)),
    )


def points_of(parts: Parts) -> dict[str, Point]:
    """Finished construction points, from the side-neck level, for tests and drawings."""
    return {"neck_corner": parts.neck.end, "hem_corner": parts.end, "arc_centre": parts.centre}


def record(parts: Parts) -> dict[str, float]:
    """What the checks judge, all mm."""
    return {
        "head_ring": parts.neck.ring,
        "shoulder_run": parts.body.shoulder_width / 2 - parts.neck.end.x,
        "shoulder_run_least": least_shoulder(parts.base.grown),
        "past_wrist": parts.past_wrist,
        "neck_radius": parts.neck.tightest,
        "neck_allowance": parts.allowances["neck"],
    }


def asked(parts: Parts) -> tuple[Asked, ...]:
    """Everything that the style asks for in lengths and angles, mm and degrees."""
    choices = parts.choices
    found = [
        Asked("length", "length from the side-neck level", choices.length, BelowSideNeck(name, "hem")) for name in BODY
    ]
    slope = math.degrees(choices.slope)
    found.append(
        Asked("shoulder_slope", "slope over shoulder and arm", slope, FallsToTheSide("front", "shoulder"), unit="deg")
    )
    wanted = {"shoulder": choices.shoulder, "hem": choices.hem, "neck": choices.neck_allowance}
    found += [
        Asked(f"allowances.{key}", f"allowance of the {key}", wanted[key], Allowance(name, _EDGES[key]))
        for key in sorted(choices.allowances_given)
        for name in BODY
    ]
    return tuple(found)
