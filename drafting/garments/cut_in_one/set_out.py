"""Setting out `cut_in_one`: from a body, choices and cloth to front and back on the cloth."""

import math
from dataclasses import replace
from functools import partial
from typing import Final

from drafting import sources
from drafting.cloth import ClothFacts, passing_factor
from drafting.contract.chalked_line import ChalkedLine
from drafting.contract.cutting import EdgesDoNotMeetError
from drafting.contract.set_out import SetOut
from drafting.garments.cut_in_one import bands
from drafting.garments.cut_in_one import neck as necks
from drafting.garments.cut_in_one import sleeve as sleeves
from drafting.garments.cut_in_one.along_marks import measured
from drafting.garments.cut_in_one.asked import asked
from drafting.garments.cut_in_one.bands import with_cuff
from drafting.garments.cut_in_one.findings import chalked_rings, figures, girths, points_of, record
from drafting.garments.cut_in_one.finishing import allowances_for, opened, opening_end, slant_drop
from drafting.garments.cut_in_one.joint import joint_for
from drafting.garments.cut_in_one.lay_out import Parts, facing_size, opening_reached, pieces
from drafting.garments.cut_in_one.seams import seams
from drafting.garments.cut_in_one.sewing import after_cut
from drafting.garments.cut_in_one.shaping import shapings
from drafting.garments.cut_in_one.style import Choices, with_flounces
from drafting.garments.cut_in_one.wing import keep_gap, wing_with_bust
from drafting.garments.cut_in_one.worn import worn
from drafting.parts.flounce import can_be_cut, flounce_facts
from drafting.parts.hem import Hem, hem_of_body
from drafting.parts.hood import hood_of
from drafting.parts.pockets import pockets_of
from drafting.parts.pouch import pouch_of
from drafting.parts.side import Side
from drafting.parts.walking import slit_height
from drafting.parts.widths import Levels, levels, widths
from drafting.person.measures import Body
from drafting.person.passing import head_spread
from drafting.problems import Adjustment

NAME: Final = "cut_in_one"
#: How often a draft is set out again because its underarm curve takes a smaller allowance. Our choice: twice is enough.
ALLOWANCE_ROUNDS = 3


def set_out(body: Body, choices: Choices, cloth: ClothFacts, chalked: ChalkedLine) -> SetOut:
    """Sets out front and back, or says what stops it. Lengths in mm; pure and deterministic."""
    adjusted: list[Adjustment] = []
    facts: dict[str, float] = {}
    choices, cuff = with_cuff(body, with_flounces(choices, body, adjusted), cloth, chalked)

    def stopped(check: str) -> SetOut:
        return SetOut(
            NAME, body, choices.whole, cloth, chalked, facts=facts, adjusted=tuple(adjusted), refused=(check,)
        )

    height = necks.neck_height(body, choices, adjusted)
    scooped = height < sources.NECK_SCOOP_BELOW
    if scooped:
        front_neck, back_neck, neck_ring = necks.scooped_pair(
            body, choices, cloth, adjusted, bands.neck_ring(body, choices, cloth)
        )
        half_width = front_neck.half_width
        _tell_scooped(choices, height, adjusted)
    else:
        narrowest = necks.column_half_width(body, choices, cloth, chalked, choices.shoulder)
        half_width = necks.foot_half_width(body, choices, narrowest, height)
        neck_ring = 4 * narrowest
    run = body.shoulder_width / 2 - half_width
    facts |= {"shoulder_run": run, "shoulder_run_least": necks.least_run(body), "neck_ring": neck_ring}
    if run < necks.least_run(body) - 1e-6:
        return stopped("shoulder_run")
    over = necks.shoulder(body, choices, half_width)
    head_ring, half, allowance = neck_ring, half_width, choices.shoulder
    if not scooped:
        front_neck, over, allowance = _stand(body, choices, cloth, chalked, half_width, height)
        back_neck, half = front_neck, necks.narrowest_half(front_neck.column)
        neck_ring = 4 * half
        head_ring = 4 * necks.chalked_half(half, choices, chalked, cloth, allowance)
    # What decided the width: an estimated head, with its spread, or something else.
    by_head = choices.neck_half_width is None and not choices.opening
    facts |= {"neck_ring": neck_ring, "head_ring": head_ring, "opening": 0.0}
    facts["neck_spread"] = head_spread(body) / passing_factor(cloth.across) if by_head else 0.0
    overarm = sleeves.Overarm(over.corner, over.along)
    necks.tell_drop(choices, over, adjusted)

    # The side's allowance decides where its marks are read, and the underarm curve may limit it: then once more.
    side_allowance = choices.side
    for _ in range(ALLOWANCE_ROUNDS):
        notes: list[Adjustment] = []
        at = levels(body, choices, notes)
        wide = widths(body, choices, cloth, at, chalked, side_allowance, notes)
        wing, side = wing_with_bust(body, choices, cloth, at, wide, overarm, notes)
        if wing is None:
            adjusted.extend(notes)
            return stopped("underarm_room")
        out = side.knots[0].end.x - wide.bust
        side, hem = hem_of_body(body, choices, cloth, at, wide, out, chalked, side_allowance, notes)
        seam = side.between(wing.underarm.side_level if wing.underarm else wing.corner.y, hem.corner.y)
        allowances = allowances_for(choices, wing, front_neck, back_neck, side.slope(hem.corner.y), seam, notes)
        if abs(allowances["side"] - side_allowance) < sources.EQUAL_WITHIN / 10:
            break
        side_allowance = allowances["side"]
    adjusted.extend(notes)
    assert wing is not None
    wing = keep_gap(body, choices, cloth, side, hem, overarm, wing, allowances, adjusted)
    if wing.underarm is None and not wing.sleeve.cap:
        return stopped("underarm_radius")

    slit = _slit(body, choices, cloth, at, side, hem, facts, adjusted)
    flounces = bands.flounces_of(body, choices, cloth, chalked, wing.sleeve.end_girth, 4 * hem.quarter, allowances)
    facts |= flounce_facts([flounce for flounce in flounces if flounce is not None], cloth)
    if not all(can_be_cut(flounce, cloth) for flounce in flounces if flounce is not None):
        return stopped("flounce_turns")
    parts = Parts(
        body,
        choices,
        cloth,
        at,
        side,
        hem,
        over,
        overarm,
        wing.corner,
        wing.sleeve,
        wing.underarm,
        allowances,
        slit,
        opening_end(body, choices, cloth, front_neck, back_neck, neck_ring),
        slant_drop(choices, front_neck, adjusted),
        chalked,
        joint_for(choices, overarm, wing.sleeve, wing.underarm, adjusted),
        bands.cuff_band(choices, allowances["sleeve_end"], wing.sleeve.end_girth, cuff),
        bands.neck_band(body, choices, cloth, neck_ring, allowances["neck_top"], chalked) if scooped else None,
        *flounces,
        hood_of(
            body,
            neck_ring,
            back_neck.top.length(),
            allowances["neck_top"],
            corded=choices.corded,
            strip=choices.hood_strip,
            lined=choices.hood_lined,
        )
        if choices.hooded and scooped
        else None,
        pouch_of(body, wide.bust, at.waist, at.hem) if choices.pouch else None,
        pockets_of(
            choices.pockets,
            body,
            wide.bust,
            at,
            side,
            hem.corner,
            slit,
            allowances["side"],
            wing.underarm.side_level if wing.underarm else wing.corner.y,
        ),
    )
    try:
        made = pieces(parts, front_neck, back_neck)
    except EdgesDoNotMeetError as error:
        return replace(
            stopped("outline_simple"),
            crossed=error.edges,
            shapings=shapings(body, choices, cloth, at, wide, wing.corner.y),
        )
    facts |= opened(choices, front_neck, back_neck, opening_reached(parts, made), facts)
    record(facts, parts, wing, front_neck, wide)
    points = points_of(parts, front_neck)
    shoulder = points["neck_corner" if scooped else "column_foot"].distance(points["shoulder_point"])
    return SetOut(
        NAME,
        body,
        choices.whole,
        cloth,
        chalked,
        made,
        seams(made, parts),
        measured(girths(parts, wing, wide, neck_ring), made, cloth, scooped=scooped),
        figures(parts, wing, front_neck),
        tuple(adjusted),
        facts,
        points,
        after_cut=after_cut(
            parts,
            facts,
            shoulder,
            scooped=scooped,
            unit=chalked.tape.unit,
            facing=facing_size(made),
            back_neck=back_neck.top.length(),
        ),
        asked=asked(parts, made, front_neck, wide),
        shapings=shapings(body, choices, cloth, at, wide, wing.corner.y),
        worn=worn(parts, front_neck),
        set_on=(*(() if parts.pouch is None else parts.pouch.set_on), *parts.pockets.set_on),
        let_in=parts.pockets.let_in(("front", "back"), "side"),
        closed_by_hand=facts["opening"] > 0,
        chalked_facts=partial(chalked_rings, parts, None if scooped or choices.opening else (half, allowance)),
    )


def _slit(
    body: Body, choices: Choices, cloth: ClothFacts, at: Levels, side: Side, hem: Hem, facts: dict[str, float],
    adjusted: list[Adjustment],
) -> float:  # fmt: skip
    """The height of the slits; a hem that a flounce closes has none, whatever a step needs."""
    found = slit_height(body, choices, cloth, at, side, hem, facts, adjusted)
    if choices.hem_flounce is not None:
        facts["slit"] = found = 0.0
    return found


def _tell_scooped(choices: Choices, height: float, adjusted: list[Adjustment]) -> None:
    """Says what a scooped edge has not: a lean, and a height."""
    if choices.lean > 0:
        why = "a scooped edge has no neck stand to lean"
        adjusted.append(Adjustment("neck_lean", "lean of the neck", math.degrees(choices.lean), 0.0, why, "deg"))
    if height > 0:
        adjusted.append(
            Adjustment(
                "neck_height",
                "neck height",
                height,
                0.0,
                "a neck stand this low rolls over, so the edge is scooped",
            )
        )


def _stand(
    body: Body, choices: Choices, cloth: ClothFacts, chalked: ChalkedLine, half_width: float, height: float
) -> tuple[necks.Neck, necks.Shoulder, float]:
    """A neck stand with its shoulder, and the allowance of its sides, mm.

    The curve into the shoulder may limit that allowance, which decides where the sides of the neck are read.
    """
    allowance = choices.shoulder
    for _ in range(ALLOWANCE_ROUNDS):
        over = necks.shoulder(body, choices, half_width)
        made = necks.column(body, choices, half_width, height, over)
        before, allowance = allowance, necks.shoulder_allowance(choices, made.curve_radius)
        if abs(allowance - before) < sources.EQUAL_WITHIN / 10:
            break
        narrowest = necks.column_half_width(body, choices, cloth, chalked, allowance)
        half_width = necks.foot_half_width(body, choices, narrowest, height)
    return made, over, allowance
