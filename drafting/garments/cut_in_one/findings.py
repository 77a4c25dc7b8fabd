"""What a finished draft is found to be: girths, construction points, and the facts that checks judge."""

import itertools
import math

from drafting.cloth import passing_factor
from drafting.contract.chalked_line import ChalkedLine
from drafting.contract.girths import FinishedGirth, Passes
from drafting.contract.pieces import FinishedFigure
from drafting.garments.cut_in_one import joint as joints
from drafting.garments.cut_in_one import neck as necks
from drafting.garments.cut_in_one import sleeve as sleeves
from drafting.garments.cut_in_one.bands import band_as_chalked
from drafting.garments.cut_in_one.lay_out import Parts
from drafting.garments.cut_in_one.wing import BUST_TOLD_FROM, Wing, cloth_at, gap
from drafting.geometry.point import Point
from drafting.geometry.segments import flatten
from drafting.parts.arcs import smaller_stretch
from drafting.parts.band import Band
from drafting.parts.flounce import (
    Flounce,
    chalked_short,
    flounce_facts,
    flounce_figures,
    flounce_girths,
    opens_as,
)
from drafting.parts.hood import hood_facts, hood_figures, hood_girths
from drafting.parts.pouch import pouch_facts, pouch_figures
from drafting.parts.rib import band_stretch
from drafting.parts.widths import Widths, through_hem, through_hem_passes
from drafting.person.passing import hand_needs, head_needs, over_bust

#: A sleeve within so much of the girth of its joint, mm, is as narrow there: our choice, as nearly as a tape shows.
AS_WIDE = 0.05


def girths(parts: Parts, wing: Wing, wide: Widths, neck_ring: float) -> tuple[FinishedGirth, ...]:
    """Every girth of the sewn garment with the body girth it goes round, mm."""
    body, at, across = parts.body, parts.at, parts.cloth.across
    # A neck that is opened at the back is judged by the ring that this gives, which is no girth of the closed garment.
    head = None if parts.choices.opening else Passes("head", head_needs(body), across)
    hand = hand_needs(body)
    round_sleeve = sleeves.stretch_round(parts.cloth, parts.choices.overarm)
    found = [
        FinishedGirth("neck", "neck at its narrowest", neck_ring, body.neck_girth, worn_stretched=False, passes=head),
        FinishedGirth("bust", "bust", _bust(parts, wing, wide), body.bust_girth),
        FinishedGirth(
            "bust_level", "bust with the batwing", 4 * cloth_at(at.bust, parts.side, wing.underarm), body.bust_girth
        ),
        FinishedGirth(
            "waist",
            "waist",
            4 * parts.side.x(at.waist),
            body.waist_girth,
            passes=Passes("bust", over_bust(body), across),
        ),
    ]
    if at.reaches_hip:
        found.append(FinishedGirth("hip", "hip", 4 * parts.side.x(at.hip), body.hip_girth))
    through = through_hem_passes(body, through_hem(body, parts.choices), across)
    found.append(FinishedGirth("hem", "hem", 4 * parts.hem.quarter, 0.0, passes=through))
    underarm = FinishedGirth(
        "underarm", "sleeve at the underarm", wing.ring, body.upper_arm_girth, worn_stretched=False
    )
    found.append(underarm)
    if not wing.sleeve.cap:
        share = wing.sleeve.share * parts.choices.sleeve_length / body.arm_length
        arm = sleeves.arm_girth_at(body, min(1.0, share))
        girth = wing.sleeve.narrowest_girth
        stretch = round_sleeve
        if parts.joint is not None:  # below the joint the arm lies along the cloth; at it the stiffer cloth counts
            at_joint = girth >= 2 * parts.joint.half - AS_WIDE
            stretch = joints.stretch_at(parts.cloth, parts.choices.overarm) if at_joint else across
        found.append(
            FinishedGirth("narrowest", "sleeve at its narrowest", girth, arm, worn_stretched=False,
                          passes=Passes("hand", hand, stretch))
        )  # fmt: skip
    at_end = Passes("hand", hand, across if parts.joint is not None else round_sleeve)
    found.append(FinishedGirth("sleeve_end", "sleeve end", wing.sleeve.end_girth, 0.0, passes=at_end))
    of_band = band_stretch(parts.choices.rib, parts.cloth)
    if parts.cuff is not None:
        arm = sleeves.arm_girth_at(body, min(1.0, _to_end(parts) / body.arm_length))
        cuffed = Passes("hand", hand, of_band)
        found.append(FinishedGirth("cuff", "cuff", parts.cuff.length, arm, worn_stretched=False, passes=cuffed))
    if parts.neck_band is not None:
        found.append(
            FinishedGirth("neck_band", "neck band", parts.neck_band.length, body.neck_girth, worn_stretched=False,
                          passes=Passes("head", head_needs(body), of_band))
        )  # fmt: skip
    found += hood_girths(parts.hood, body, parts.cloth)
    found += flounce_girths(parts.sleeve_flounce, parts.cloth, "hand", hand)
    found += flounce_girths(parts.hem_flounce, parts.cloth, through.what, through.needs)
    return tuple(found)


def _to_end(parts: Parts) -> float:
    """From the shoulder point to the end of the sleeve, its cuff or its flounce counted, mm."""
    return parts.choices.sleeve_length + parts.choices.below_sleeve


def figures(parts: Parts, wing: Wing, front: necks.Neck) -> tuple[FinishedFigure, ...]:
    """Where things lie that the rules place by themselves, finished, mm: each is said once, for every body."""
    found = [
        FinishedFigure("length", "side-neck level to hem", parts.at.hem + parts.choices.below_hem),
        FinishedFigure("sleeve", "shoulder point to sleeve end", _to_end(parts)),
        FinishedFigure("underarm", "underarm above the waist", parts.at.waist - wing.corner.y),
    ]
    if front.scooped:
        depth = front.top.start.y
        found.append(FinishedFigure("front_neck", "front neck below the side-neck level", depth))
    else:
        label = "neck above the side-neck level"
        label += ", before it is folded" if parts.choices.folded else ""
        found.append(FinishedFigure("neck_height", label, front.height))
        if parts.choices.folded:
            stands = necks.fold_over(front, parts.choices.lean).stands
            found.append(FinishedFigure("fold_over", "fold-over line above the side-neck level", stands))
    if not wing.sleeve.cap and wing.sleeve.share < 1.0:
        place = wing.sleeve.share * parts.choices.sleeve_length
        found.append(FinishedFigure("narrowest", "narrowest place of the sleeve from the shoulder point", place))
    return (
        *found,
        *hood_figures(parts.hood),
        *pouch_figures(parts.pouch),
        *parts.pockets.figures,
        *flounce_figures(parts.flounces),
    )


def _bust(parts: Parts, wing: Wing, wide: Widths) -> float:
    """The bust on the side seam carried on, all round, mm; the cloth where the side cannot be let out to it."""
    cloth = 4 * cloth_at(parts.at.bust, parts.side, wing.underarm)
    short = parts.at.bust < parts.at.hem and cloth < 4 * (wide.bust - BUST_TOLD_FROM)
    return cloth if short else 4 * wide.bust


def record(facts: dict[str, float], parts: Parts, wing: Wing, neck: necks.Neck, wide: Widths) -> None:
    """What the checks judge: mm, but for shares and the one truth value, which stand apart."""
    body, at, sleeve = parts.body, parts.at, wing.sleeve
    # Shares: of the way from armpit to waist, and of stretch.
    facts["wing_depth"] = (wing.corner.y - at.armpit) / max(1.0, at.waist - at.armpit)
    facts["stretch_round_sleeve"] = sleeves.stretch_round(parts.cloth, parts.choices.overarm)
    # 1 where the sleeve is a cap without an under seam, else 0.
    facts["cap"] = float(sleeve.cap)
    facts |= {
        "half_width": neck.half_width,
        "narrowest_girth": sleeve.narrowest_girth,
        "sleeve_end_girth": sleeve.end_girth,
        "sleeve_passing": min(sleeve.narrowest_girth, sleeve.end_girth),
        "sleeve_wanted": sleeves.wanted_girth(body, parts.choices, parts.cloth, sleeve.share),
        "turn_radius": math.inf if wing.underarm is None else sleeves.hollow_radius(wing.underarm.under),
        "column_radius": neck.curve_radius,
        **chalked_rings(parts, None, parts.chalked),
        "bust_quarter": wide.bust,
        # Ease that shaping left in the waist; -1 where the sides are straight or the ease was asked for.
        "waist_ease_left": -1.0
        if wide.straight or parts.choices.ease_waist is not None
        else max(0.0, 4 * parts.side.x(at.waist) - body.waist_girth),
        "through_hem": through_hem(body, parts.choices),
        "gap": math.inf if sleeve.cap else gap(parts.side, parts.hem, sleeve, parts.allowances),
        "hem_above_floor": body.waist_height - (at.hem + parts.choices.below_hem - at.waist),
        **flounce_facts(parts.flounces, parts.cloth),
        **hood_facts(parts.hood),
        **pouch_facts(parts.pouch),
        **parts.pockets.facts,
        "side_allowance": parts.allowances["side"],
        "shoulder_allowance": parts.allowances["shoulder"],
    }
    if parts.joint is not None:
        girth, give = joints.passing(parts.cloth, parts.choices.overarm, parts.joint, sleeve.end_girth)
        facts |= {"sleeve_passing": girth, "stretch_round_sleeve": give}
    if parts.cuff is not None:
        facts["sleeve_wanted"] = min(facts["sleeve_wanted"], parts.choices.narrowest_girth or math.inf)
        facts |= _through_cuff(parts, parts.cuff, parts.chalked)
    if parts.sleeve_flounce is not None:
        facts |= _through_flounce(parts, parts.sleeve_flounce, parts.chalked)
    if wing.underarm is not None and sleeve.cap:
        facts["cap_radius"] = wing.underarm.radius
    elif wing.underarm is not None:
        facts["underarm_radius"] = wing.underarm.radius
        facts["arm_lift"] = _arm_lift(parts, wing)


def chalked_rings(parts: Parts, stand: tuple[float, float] | None, chalked: ChalkedLine) -> dict[str, float]:
    """The facts of the rings that something must pass, as a tape chalks them, mm.

    `stand` is the narrowest half width of a neck stand that the head must pass, with the allowance of its sides.
    """
    at, side, hem = parts.at, parts.side, parts.hem
    found = {
        "waist_chalked": 4 * _chalked(parts, chalked, side.x(at.waist), side.slope(at.waist)),
        "hem_chalked": 4 * _chalked(parts, chalked, hem.quarter, side.slope(hem.corner.y)),
    }
    if parts.neck_band is not None:
        # The band counts as a ring of the cloth that opens as far.
        opens = passing_factor(band_stretch(parts.choices.rib, parts.cloth)) / passing_factor(parts.cloth.across)
        band = band_as_chalked(parts.neck_band, parts.cloth, chalked)
        found["head_ring"] = min(parts.neck_band.ring, band * opens)
    if parts.cuff is not None:
        found |= _through_cuff(parts, parts.cuff, chalked)
    if parts.sleeve_flounce is not None:
        found |= _through_flounce(parts, parts.sleeve_flounce, chalked)
    if parts.hem_flounce is not None:
        found["hem_chalked"] = min(found["hem_chalked"], opens_as(parts.hem_flounce, chalked.tape, parts.cloth))
    if stand is not None:
        half, allowance = stand
        found["head_ring"] = 4 * necks.chalked_half(half, parts.choices, chalked, parts.cloth, allowance)
    return found


def _through_cuff(parts: Parts, cuff: Band, chalked: ChalkedLine) -> dict[str, float]:
    """What the hand goes through: the sleeve's narrowest ring or the cuff, which lies across the cloth, mm."""
    return _narrower(parts, band_as_chalked(cuff, parts.cloth, chalked), band_stretch(parts.choices.rib, parts.cloth))


def _through_flounce(parts: Parts, flounce: Flounce, chalked: ChalkedLine) -> dict[str, float]:
    """What the hand goes through: the sleeve's narrowest ring or the upper edge of the flounce, mm."""
    least = flounce.seam - chalked_short(flounce, chalked.tape, parts.cloth)
    return _narrower(parts, least, smaller_stretch(parts.cloth))


def _narrower(parts: Parts, other: float, stretch: float) -> dict[str, float]:
    """Of the sleeve's narrowest ring and another of this stretch the one that opens less, mm."""
    sleeve, cloth = parts.sleeve, parts.cloth
    ring = min(sleeve.narrowest_girth, sleeve.end_girth), sleeves.stretch_round(cloth, parts.choices.overarm)
    if parts.joint is not None:
        ring = joints.passing(cloth, parts.choices.overarm, parts.joint, sleeve.end_girth)
    girth, give = min((ring, (other, stretch)), key=lambda one: one[0] * passing_factor(one[1]))
    return {"sleeve_passing": girth, "stretch_round_sleeve": give}


def _chalked(parts: Parts, chalked: ChalkedLine, quarter: float, slope: float) -> float:
    """A quarter as it will be chalked, mm; on a slanting side, which is read both ways, the least it can become."""
    shrink = parts.cloth.shrink_across
    if abs(slope) < 1e-6:
        return chalked.chalked(quarter, parts.allowances["side"], shrink)
    return quarter - chalked.tape.size / 2 * (1 + abs(slope)) * (1 - shrink)


def _arm_lift(parts: Parts, wing: Wing) -> float:
    """How far the waist is drawn up when the arm is raised level, mm (CALC).

    A point of the under line (the narrowest place, or half-way on a plain sleeve) is turned about the shoulder until
    the overarm is level; its distance to the waist less the seam between them, stretched by half the smaller stretch.
    """
    assert wing.underarm is not None
    share = wing.sleeve.share
    place = wing.sleeve.narrowest
    run = [*flatten(wing.underarm.under, 0.5), *flatten(wing.underarm.curve, 0.5)[1:]]
    if share == 1.0:
        middle = parts.overarm.start.distance(parts.overarm.at(parts.choices.sleeve_length)) / 2
        place = min(run, key=lambda p: abs((p - parts.overarm.start).dot(parts.overarm.along) - middle))
    begin = min(range(len(run)), key=lambda i: run[i].distance(place))
    run = [*run[begin:], *flatten(parts.side.between(wing.underarm.side_level, parts.at.waist), 0.5)[1:]]
    seam = sum(a.distance(b) for a, b in itertools.pairwise(run))
    waist = Point(parts.side.x(parts.at.waist), parts.at.waist)
    raised = parts.overarm.start + (place - parts.overarm.start).turned(-parts.choices.overarm)
    give = 1 + min(parts.cloth.across, parts.cloth.along) / 2
    return raised.distance(waist) - seam * give


def points_of(parts: Parts, neck: necks.Neck) -> dict[str, Point]:
    """Finished construction points, from the side-neck level, for tests and drawings."""
    return {
        "neck_corner": neck.top.end,
        "column_foot": neck.foot,
        "shoulder_point": parts.shoulder.point,
        "overarm_middle": parts.overarm.at(parts.choices.sleeve_length / 2),
        "sleeve_end_top": parts.sleeve.top,
        "sleeve_end_under": parts.sleeve.end[-1].end,
        "narrowest": parts.sleeve.narrowest,
        "underarm": parts.corner,
        "hem_corner": parts.hem.corner,
    }
