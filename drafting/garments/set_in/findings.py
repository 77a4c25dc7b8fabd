"""What a finished `set_in` is found to be: girths, figures, construction points, and the facts of its checks."""

from drafting.contract.chalked_line import ChalkedLine
from drafting.contract.girths import AcrossAt, Along, FinishedGirth, Passes, SumOf
from drafting.contract.pieces import FinishedFigure
from drafting.garments.set_in import rules
from drafting.garments.set_in.cap import off_armhole
from drafting.garments.set_in.parts import Parts
from drafting.garments.set_in.sleeve import elbow_level
from drafting.geometry.path import Path
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


def girths(parts: Parts, through: float) -> tuple[FinishedGirth, ...]:
    """Every girth of the sewn garment with the body girth it goes round, mm, and how it runs over the marks.

    `through` is the largest girth that goes through the hem, mm.
    """
    body, cap, under = parts.body, parts.sleeve.cap, parts.armholes.underarm
    level, quarter = ("underarm", under.x) if parts.bust is None else ("bust", parts.side.x(parts.bust))
    upper = SumOf(
        (
            (1.0, AcrossAt("sleeve", ("front_corner", "end_front"), "under_front", "cap_foot", cap.width)),
            (-1.0, AcrossAt("sleeve", ("back_corner", "cap_top"), "cap", "cap_foot", 0.0)),
        )
    )
    return (
        neck_girth(parts),
        *band_girths(parts, through, arm_girth(body, parts.sleeve.share)),
        FinishedGirth("bust", "bust", 4 * quarter, body.bust_girth, chalked=across_level(level, quarter)),
        *waist_hip_hem(parts, 4 * parts.hem.quarter, through),
        FinishedGirth("upper_arm", "sleeve under the arm", cap.width, body.upper_arm_girth, chalked=upper,
                      worn_stretched=False),
        FinishedGirth("sleeve_end", "sleeve end", parts.sleeve.end_girth, 0.0,
                      chalked=Along("sleeve", ("end_front", "end_back")), worn_stretched=False,
                      passes=Passes("hand", hand_needs(body), parts.cloth.across)),
    )  # fmt: skip


def figures(parts: Parts) -> tuple[FinishedFigure, ...]:
    """Where things lie that the rules place by themselves, finished, mm."""
    over, sleeve = parts.over, parts.sleeve
    return (
        *neck_figures(parts),
        FinishedFigure("shoulder", "shoulder seam", parts.neck.end.distance(over.end)),
        FinishedFigure("across_back", "across the back", 2 * over.back),
        FinishedFigure("across_front", "across the front", 2 * over.front),
        FinishedFigure("underarm", "underarm below the side-neck level", parts.armholes.underarm.y),
        FinishedFigure("cap_height", "height of the sleeve cap", sleeve.cap.height),
        FinishedFigure("sleeve", "top of the cap to the sleeve end", sleeve.length),
        *band_figures(parts),
    )


def points_of(parts: Parts) -> dict[str, Point]:
    """Finished construction points, from the side-neck level, for tests and drawings."""
    return {
        "front_neck": parts.neck.front.start,
        "back_neck": parts.neck.back.start,
        "neck_corner": parts.neck.end,
        "shoulder_end": parts.over.end,
        "underarm": parts.armholes.underarm,
        "hem_corner": parts.hem.corner,
    }


def record(facts: dict[str, float], parts: Parts, through: float, radius: float) -> None:
    """What the checks judge: mm, but for the shares of both armholes that the cap is and may be high.

    `through` is the largest girth that goes through the hem, `radius` the smallest of armholes and cap.
    """
    body, sleeve, armholes, fit = parts.body, parts.sleeve, parts.armholes, parts.choices.fit
    cap, level = sleeve.cap, elbow_level(body)
    halves = [Path(cap.half(front=front)).length() for front in (True, False)]
    wanted = [long * (1 + rules.CAP_EASE) for long in armholes.lengths]
    facts |= {
        "neck_band": 0.0 if parts.bands.neck is None else parts.bands.neck.length,
        "cap_width": cap.width,
        "cap_share": cap.height / armholes.whole,
        "cap_least": rules.CAP_LEAST[fit],
        "cap_most": rules.CAP_MOST[fit],
        "cap_off": max(abs(half - want) for half, want in zip(halves, wanted, strict=True)),
        "cap_gap": off_armhole(cap, armholes),
        "turns_within": armholes.underarm.x - parts.over.back,
        "over_across": parts.over.end.x - parts.over.back,
        "elbow": sleeve.width(level) if sleeve.length > level else 0.0,
        "elbow_needed": body.elbow_girth + rules.ELBOW_ROOM[fit],
        "armhole_radius": radius,
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
    """The facts of the rings that something must pass, as a tape chalks them, mm.

    Both marks of the sleeve's end may be read half a step too near.
    """
    end = parts.sleeve.end_girth - chalked.tape.finest.size * (1 - parts.cloth.shrink_across)
    return rings_as_chalked(parts, chalked, end)
