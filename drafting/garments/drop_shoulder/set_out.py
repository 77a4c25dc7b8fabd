"""Setting out `drop_shoulder`: from a body, choices and cloth to its pieces.

Order of solving: neck with its band, quarter and shoulder, armhole with its cap, side, hem, sleeve, allowances.
"""

from dataclasses import replace
from functools import partial
from typing import Final

from drafting import sources
from drafting.cloth import ClothFacts
from drafting.contract.chalked_line import ChalkedLine
from drafting.contract.cutting import EdgesDoNotMeetError
from drafting.contract.set_out import SetOut
from drafting.garments.drop_shoulder import rules
from drafting.garments.drop_shoulder.asked import asked
from drafting.garments.drop_shoulder.findings import chalked_rings, figures, girths, points_of, record
from drafting.garments.drop_shoulder.lay_out import pieces
from drafting.garments.drop_shoulder.parts import Parts
from drafting.garments.drop_shoulder.seams import seams
from drafting.garments.drop_shoulder.sewing import after_cut
from drafting.garments.drop_shoulder.shaping import shapings
from drafting.garments.drop_shoulder.sleeve import sleeve
from drafting.garments.drop_shoulder.style import Choices
from drafting.garments.drop_shoulder.upper import armhole, shoulder
from drafting.garments.drop_shoulder.worn import worn
from drafting.parts import neck as necks
from drafting.parts.flounce import can_be_cut, flounce_facts
from drafting.parts.hem import hem_of_body
from drafting.parts.pockets import pockets_of
from drafting.parts.pouch import pouch_of
from drafting.parts.side import Skirt, body_slope
from drafting.parts.top import BodyAsked, allowances_of, flounces_of, hood_on, neck_of, slit_of
from drafting.parts.top_bands import (
    Bands,
    as_read,
    cuff_band,
    hem_band,
    neck_band,
)
from drafting.parts.top_style import with_flounces_held
from drafting.parts.widths import levels, through_hem
from drafting.person.measures import Body
from drafting.person.passing import head_needs
from drafting.problems import Adjustment

NAME: Final = "drop_shoulder"


def set_out(body: Body, choices: Choices, cloth: ClothFacts, chalked: ChalkedLine) -> SetOut:
    """Sets out front, back, sleeve and bands, or says what stops it. Lengths in mm; pure and deterministic."""
    adjusted: list[Adjustment] = []
    choices = with_flounces_held(as_read(choices, cloth, chalked), body, adjusted)
    facts: dict[str, float] = {}

    def stopped(check: str) -> SetOut:
        return SetOut(NAME, body, choices, cloth, chalked, facts=facts, adjusted=tuple(adjusted), refused=(check,))

    grown = sources.scale(body.stature)
    # Waist and hip keep the regular ease whatever the fit: it is wide at the bust, and its side runs in one line.
    to_hem = BodyAsked(
        choices.straight,
        choices.body,
        choices.length - choices.below_hem,
        choices.hem_girth,
        None,
        choices.ease_waist,
        choices.ease_hip,
    )
    at = levels(body, to_hem, adjusted)
    base = necks.NeckBase(
        body.neck_base_girth * sources.NECK_BASE_SHARE, choices.slope, grown, at.bust, choices.neck_depth
    )
    neck = neck_of(body, choices, cloth, base, adjusted)
    run = body.shoulder_width / 2 - neck.end.x
    facts |= {"shoulder_run": run, "shoulder_run_least": necks.least_shoulder(grown), "neck_ring": neck.ring}
    if run < necks.least_shoulder(grown) - 1e-6:
        return stopped("shoulder_run")
    over = shoulder(body, choices, cloth)
    made = armhole(body, choices, to_hem, cloth, at, over, chalked, choices.side, adjusted)
    skirt = Skirt(at.hip, body_slope(made.wide, at)) if choices.straight and choices.body == "straight" else None
    side, hem = hem_of_body(body, to_hem, cloth, at, made.wide, 0.0, chalked, choices.side, adjusted, skirt)
    made_sleeve = sleeve(body, choices, cloth, over, made, chalked, choices.side, adjusted)
    allowances = allowances_of(
        choices, neck, max(6.0, made.radius - rules.ARMHOLE_SPARE), side.slope(hem.corner.y), adjusted
    )
    passing = through_hem(body, to_hem) + sources.PASSING_EASE * grown
    bands = Bands(
        neck_band(choices, cloth, neck, allowances["neck"], head_needs(body), chalked),
        cuff_band(choices, made_sleeve.end_girth, made_sleeve.cuff),
        hem_band(choices, cloth, 4 * hem.quarter, passing, chalked),
    )
    slit = slit_of(body, choices, cloth, at, side, hem, facts, adjusted)
    dip = full_bust(body) if not choices.hem_sewn else 0.0
    flounces = flounces_of(body, choices, cloth, chalked, (made_sleeve.end_girth, 4 * hem.quarter), passing, allowances)
    if not all(can_be_cut(one, cloth) for one in flounces.values() if one is not None):
        facts |= flounce_facts([one for one in flounces.values() if one is not None], cloth)
        return stopped("flounce_turns")
    parts = Parts(
        body=body,
        choices=choices,
        cloth=cloth,
        chalked=chalked,
        base=base,
        neck=neck,
        over=over,
        at=at,
        armhole=made,
        side=side,
        hem=hem,
        dip=dip,
        sleeve=made_sleeve,
        **flounces,
        hood=hood_on(body, choices, neck, allowances),
        pouch=pouch_of(body, made.wide.bust, at.waist, at.hem) if choices.pouch else None,
        pockets=pockets_of(choices.pockets, body, made.wide.bust, at, side, hem.corner, slit, allowances["side"]),
        bands=bands,
        allowances=allowances,
        slit=slit,
    )
    shaped = shapings(choices)
    try:
        cut = pieces(parts)
    except EdgesDoNotMeetError as error:
        return replace(stopped("outline_simple"), crossed=error.edges, shapings=shaped)
    record(facts, parts, through_hem(body, to_hem))
    return SetOut(
        NAME,
        body,
        choices,
        cloth,
        chalked,
        cut,
        seams(parts),
        girths(parts, through_hem(body, to_hem)),
        figures(parts),
        tuple(adjusted),
        facts,
        points_of(parts),
        after_cut=after_cut(parts, facts, chalked.tape.unit),
        asked=asked(parts),
        shapings=shaped,
        worn=worn(parts),
        chalked_facts=partial(chalked_rings, parts),
        set_on=(*(() if parts.pouch is None else parts.pouch.set_on), *parts.pockets.set_on),
        let_in=parts.pockets.let_in(("front", "back"), "side"),
    )


def full_bust(body: Body) -> float:
    """How much longer the front is at its fold for a full bust, mm; only where the upper chest was measured."""
    if body.kind != "woman" or body.estimated("upper_chest_girth"):
        return 0.0
    over = body.bust_girth - body.upper_chest_girth - rules.FULL_BUST_FROM
    return min(rules.FULL_BUST + rules.FULL_BUST_SHARE * over, rules.FULL_BUST_MOST) if over > 0 else 0.0
