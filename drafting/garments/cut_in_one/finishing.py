"""Hem, allowances, slit, opening and slant: what finishes the edges of `cut_in_one`."""

import math

from drafting import sources
from drafting.cloth import ClothFacts, passing_factor
from drafting.garments.cut_in_one import neck as necks
from drafting.garments.cut_in_one import sleeve as sleeves
from drafting.garments.cut_in_one.style import Choices
from drafting.garments.cut_in_one.wing import Wing
from drafting.geometry.segments import Segment
from drafting.person.measures import Body
from drafting.person.passing import head_needs
from drafting.problems import Adjustment


def allowances_for(
    choices: Choices,
    wing: Wing,
    neck: necks.Neck,
    back: necks.Neck,
    hem_slope: float,
    seam: list[Segment],
    adjusted: list[Adjustment],
) -> dict[str, float]:
    """Allowances, limited where a curve or a curved hem would not take them."""
    found = {
        "shoulder": choices.shoulder,
        "side": choices.side,
        "hem": choices.hem,
        "sleeve_end": choices.sleeve_end,
        "neck_top": choices.neck_top,
        "centre_back": choices.centre_back,
        "sleeve_joint": choices.sleeve_joint,
    }

    def limit(key: str, label: str, most: float, why: str, *, rule: bool = False) -> None:
        """Limits one allowance. What the `rule` of a curved edge takes from the usual one is no adjustment."""
        if found[key] > most + 1e-6:
            if not rule or key in choices.allowances_given:
                adjusted.append(Adjustment(f"allowances.{key}", f"{label} allowance", found[key], most, why))
            found[key] = most

    if not neck.scooped:
        most = necks.shoulder_allowance(choices, neck.curve_radius)
        limit("shoulder", "shoulder", most, "the curve out of the neck is too tight for more")
        most = max(6.0, neck.column[0].length() - 5.0)
        limit("neck_top", "neck edge", most, "turned in, it would reach the curve out of the neck")
    if wing.underarm is not None:
        most = max(6.0, wing.underarm.radius - sources.UNDERARM_RADIUS_SPARE)
        limit("side", "side", most, "the underarm curve is too tight for more")
        hollow = sleeves.hollow_radius((*wing.underarm.under[-1:], *seam))
        limit("side", "side", max(6.0, hollow - sources.SLEEVE_TURN_SPARE), "the side hollows too tightly for more")
    if abs(hem_slope) > 1e-6 and choices.hem_flounce is None:
        most = max(sources.CURVED_HEM_MOST, sources.SLANTING_HEM_EASED / abs(hem_slope))
        limit("hem", "hem", most, "on a slanting side a hem does not turn up flat with more", rule=True)
    if wing.underarm is not None:
        room = sleeves.hollow_radius(wing.underarm.under or wing.underarm.curve) - found["side"]
        limit("sleeve_end", "sleeve end", max(10.0, room), "turned up, it would reach the bend of the under edge")
    if wing.sleeve.cap:
        limit("sleeve_end", "sleeve end", sources.CURVED_HEM_MOST, "the edge of a cap is curved", rule=True)
    elif wing.sleeve.flare > sources.CURVED_END_FROM:
        why = "a curved sleeve end does not turn up flat with more"
        limit("sleeve_end", "sleeve end", sources.CURVED_HEM_MOST, why, rule=True)
    if neck.scooped:
        edges = (*neck.top.segments, *back.top.segments)
        sharpest = max(abs(segment.curvature(step / 8)) for segment in edges for step in range(9))
        most = min(sources.SCOOP_HEM_MOST, max(6.0, 1 / sharpest - sources.COLUMN_CURVE_SPARE))
        limit("neck_top", "neck edge", most, "a scooped edge is curved", rule=True)
    return found


def opening_end(
    body: Body,
    choices: Choices,
    cloth: ClothFacts,
    front: necks.Neck,
    back: necks.Neck,
    narrowest: float,
) -> float:
    """Level (from the side-neck level) to which the centre back is opened, mm; the top edge of a closed neck.

    Solved so that the head passes, limited to a share of the way down to the waist; `narrowest` is the closed ring.
    """
    top = back.top.start.y
    if not choices.opening:
        return top
    lowest = sources.OPENING_SHARE * (body.back_neck_point_to_waist + sources.NAPE_ABOVE_SIDE_NECK)
    if front.scooped:
        wanted = head_needs(body) / passing_factor(cloth.across)
        below = max(sources.OPENING_LEAST, (wanted - narrowest) / 2)
        return min(top + below, lowest)
    return necks.slit_for_head(body, cloth, front, lowest)


def opened(
    choices: Choices, front: necks.Neck, back: necks.Neck, end: float, facts: dict[str, float]
) -> dict[str, float]:
    """The facts of a neck that is opened down to the level `end`: how long the slit is, and the ring the head finds."""
    top = back.top.start.y
    if not choices.opening:
        return {"opening": 0.0, "opening_end": top}
    narrowest = facts["neck_ring"]
    ring = narrowest + 2 * (end - top) if front.scooped else necks.ring_with_slit(front, end)
    return {"opening": end - top, "head_ring": ring, "opening_end": end}


def slant_drop(choices: Choices, neck: necks.Neck, adjusted: list[Adjustment]) -> float:
    """How much lower the low side of a slanted neck edge is, mm; what must remain of the column limits it."""
    if choices.slant <= 0:
        return 0.0
    if neck.scooped:
        why = "a scooped edge has no neck stand to slant"
        adjusted.append(_slant_moved(choices, 0.0, why))
        return 0.0
    # The low end lies where the side leans in, so the edge slants over that much less:
    # drop = (run − drop·tan lean)·tan slant (CALC).
    run, lean = 2 * (neck.top.end.x - sources.SLANT_SQUARE), math.tan(choices.lean)
    drop = run * math.tan(choices.slant) / (1 + lean * math.tan(choices.slant))
    most = max(0.0, neck.column[0].length() * math.cos(choices.lean) - sources.SLANT_SQUARE)
    if drop <= most:
        return drop
    angle = math.degrees(math.atan(most / (run - most * lean)))
    why = "the low side must keep a straight end"
    adjusted.append(_slant_moved(choices, angle, why))
    return most


def _slant_moved(choices: Choices, after: float, why: str) -> Adjustment:
    return Adjustment("neck_slant", "slant of the neck edge", math.degrees(choices.slant), after, why, "deg")
