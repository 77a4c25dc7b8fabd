"""What a finished `drop_shoulder` is found to be: girths, figures, construction points, and the facts of its checks."""

import math

from drafting.contract.chalked_line import ChalkedLine
from drafting.contract.girths import AcrossAt, Along, FinishedGirth, Passes, SumOf
from drafting.contract.pieces import FinishedFigure
from drafting.garments.drop_shoulder.lay_out import hem_edge
from drafting.garments.drop_shoulder.parts import Parts
from drafting.garments.drop_shoulder.upper import bust_ease
from drafting.geometry.point import Point
from drafting.parts.arm import arm_girth
from drafting.parts.flounce import flounce_facts
from drafting.parts.hood import hood_facts
from drafting.parts.pouch import pouch_facts
from drafting.parts.top_findings import (
    across_level,
    band_figures,
    band_girths,
    neck_figures,
    neck_girth,
    rings_as_chalked,
    waist_hip_hem,
)
from drafting.person.passing import hand_needs


def hem_sweep(parts: Parts) -> float:
    """The whole hem, mm; over a full bust the front is a little longer."""
    return 2 * sum(segment.length() for front in (True, False) for segment in hem_edge(parts, front=front))


def girths(parts: Parts, through: float) -> tuple[FinishedGirth, ...]:
    """Every girth of the sewn garment with the body girth it goes round, mm, and how it runs over the marks.

    `through` is the largest girth that goes through the hem, mm.
    """
    body, sleeve, across = parts.body, parts.sleeve, parts.cloth.across
    under, half = parts.armhole.underarm, parts.armhole.cap_half
    upper = SumOf(((2.0, AcrossAt("sleeve", ("cap_corner", "sleeve_end_corner"), "under", "cap_foot", half)),))
    end = SumOf(((2.0, Along("sleeve", ("sleeve_end_corner", "sleeve_end_fold"))),))
    return (
        neck_girth(parts),
        *band_girths(parts, through, arm_girth(body, parts.sleeve.share)),
        FinishedGirth("bust", "bust", 4 * under.x, body.bust_girth, chalked=across_level("underarm", under.x)),
        *waist_hip_hem(parts, hem_sweep(parts), through),
        FinishedGirth("upper_arm", "sleeve under the arm", 2 * half, body.upper_arm_girth, chalked=upper,
                      worn_stretched=False),
        FinishedGirth("sleeve_end", "sleeve end", sleeve.end_girth, 0.0, chalked=end, worn_stretched=False,
                      passes=Passes("hand", hand_needs(body), across)),
    )  # fmt: skip


def figures(parts: Parts) -> tuple[FinishedFigure, ...]:
    """Where things lie that the rules place by themselves, finished, mm."""
    found = [
        *neck_figures(parts),
        FinishedFigure("extension", "shoulder past the shoulder point", parts.over.extension),
        FinishedFigure("underarm", "underarm below the side-neck level", parts.armhole.underarm.y),
        FinishedFigure("sleeve", "top of the cap to the sleeve end", parts.sleeve.length),
        *band_figures(parts),
    ]
    if parts.dip > 0:
        found.append(FinishedFigure("front_longer", "front longer at its fold, for the bust", parts.dip))
    return tuple(found)


def points_of(parts: Parts) -> dict[str, Point]:
    """Finished construction points, from the side-neck level, for tests and drawings."""
    return {
        "front_neck": parts.neck.front.start,
        "back_neck": parts.neck.back.start,
        "neck_corner": parts.neck.end,
        "shoulder_end": parts.over.end,
        "underarm": parts.armhole.underarm,
        "hem_corner": parts.hem.corner,
    }


def record(facts: dict[str, float], parts: Parts, through: float) -> None:
    """What the checks judge: mm, but for the slope in radians and the shares of ease and fullness.

    `through` is the largest girth that goes through the hem.
    """
    body, sleeve, armhole = parts.body, parts.sleeve, parts.armhole
    usual = body.bust_girth * bust_ease(parts.choices, parts.cloth)
    facts |= {
        "neck_band": 0.0 if parts.bands.neck is None else parts.bands.neck.length,
        "bust_ease": 4 * armhole.underarm.x / body.bust_girth - 1,
        "bust_ease_usual": usual / body.bust_girth,
        "cap_width": 2 * armhole.cap_half,
        "cap_slope": max(
            math.atan2(abs(sleeve.cap.velocity(step / 40).y), sleeve.cap.velocity(step / 40).x) for step in range(41)
        ),
        "armhole_length": armhole.length,
        "armhole_radius": armhole.radius,
        "armhole_bow": armhole.bow,
        "armhole_allowance": parts.allowances["armhole"],
        "neck_radius": parts.neck.tightest,
        "neck_allowance": parts.allowances["neck"],
        "cuff": sleeve.cuff,
        "sleeve_fullness": sleeve.end_girth / sleeve.cuff if sleeve.cuff else 1.0,
        "through_hem": through,
        "hem_above_floor": body.waist_height - (parts.at.hem + parts.choices.below_hem - parts.at.waist),
        **flounce_facts(parts.flounces, parts.cloth),
        **hood_facts(parts.hood),
        **pouch_facts(parts.pouch),
        **parts.pockets.facts,
        **chalked_rings(parts, parts.chalked),
    }


def chalked_rings(parts: Parts, chalked: ChalkedLine) -> dict[str, float]:
    """The facts of the rings that something must pass, as a tape chalks them, mm."""
    turned = 0.0 if parts.choices.sleeve_sewn else parts.allowances["sleeve_end"]
    beside = parts.sleeve.corner_beside_end(parts.cloth, parts.allowances["side"], turned)
    end = 2 * chalked.chalked(parts.sleeve.end_half, beside, parts.cloth.shrink_across)
    return rings_as_chalked(parts, chalked, end)
