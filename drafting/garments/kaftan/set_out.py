"""Setting out `kaftan`: from a body, choices and cloth to its pieces, in cloth of which nothing stretches.

Order of solving: neck and slit, width, overarm, ring of the underarm, flare and hem, curve of the underarm, stride.
"""

from typing import Final

from drafting import sources
from drafting.cloth import ClothFacts
from drafting.contract.chalked_line import ChalkedLine
from drafting.contract.cutting import EdgesDoNotMeetError
from drafting.contract.set_out import SetOut
from drafting.garments.kaftan import outline
from drafting.garments.kaftan.findings import asked, chalked_slit, figures, girths, points_of, record
from drafting.garments.kaftan.lay_out import pieces, seams
from drafting.garments.kaftan.outline import Opened, Parts
from drafting.garments.kaftan.sewing import after_cut
from drafting.garments.kaftan.shaping import shapings
from drafting.garments.kaftan.style import Choices
from drafting.garments.kaftan.worn import worn
from drafting.parts.neck import edge_allowance, least_shoulder
from drafting.parts.pockets import pockets_of
from drafting.parts.walking import slit_height
from drafting.parts.widths import Levels
from drafting.person.measures import Body
from drafting.problems import Adjustment

NAME: Final = "kaftan"


def set_out(body: Body, choices: Choices, cloth: ClothFacts, chalked: ChalkedLine) -> SetOut:
    """Sets out the pieces, or says what stops it. Lengths in mm; pure and deterministic."""
    adjusted: list[Adjustment] = []
    opened = outline.opened(body, choices, adjusted)
    facts = {
        "shoulder_run": body.shoulder_width / 2 - opened.neck.end.x,
        "shoulder_run_least": least_shoulder(sources.scale(body.stature)),
    }
    shaped = shapings(choices)

    def stopped(check: str, *edges: str) -> SetOut:
        return SetOut(NAME, body, choices, cloth, chalked, facts=facts, adjusted=tuple(adjusted), refused=(check,),
                      shapings=shaped, crossed=edges)  # fmt: skip

    if facts["shoulder_run"] < facts["shoulder_run_least"] - 1e-6:
        return stopped("shoulder_run")
    quarter = outline.widths(body, choices, adjusted)
    level = outline.underarm_level(body, choices, quarter)
    waist = body.back_neck_point_to_waist + sources.NAPE_ABOVE_SIDE_NECK
    at = Levels(outline.bust_level(body), waist, body.scye_depth, waist + body.waist_to_hip, choices.length)
    sleeve = outline.sleeve(body, choices, quarter, level, adjusted)
    curve = outline.underarm(body, sleeve, waist)
    if curve is None:
        return stopped("underarm_room")
    side, hem = outline.side_and_hem(sleeve.corner, choices.length)
    slit = slit_height(body, choices, cloth, at, side, hem, facts, adjusted)
    allowances = _allowances(choices, opened, adjusted)
    joint = outline.joint_at(choices, sleeve, curve, adjusted)
    pockets = pockets_of(
        choices.pockets, body, quarter, at, side, hem.corner, slit, allowances["side"], curve.curve[-1].end.y
    )
    parts = Parts(body, choices, cloth, chalked, at, opened, sleeve, curve, side, hem, slit, joint, allowances, pockets)
    try:
        made = pieces(parts)
    except EdgesDoNotMeetError as error:
        return stopped("outline_simple", *error.edges)
    facts |= record(parts, made)
    return SetOut(
        NAME,
        body,
        choices,
        cloth,
        chalked,
        made,
        seams(parts, made),
        girths(parts, made),
        figures(parts, made),
        tuple(adjusted),
        facts,
        points_of(parts),
        after_cut=after_cut(parts, chalked.tape.unit),
        asked=asked(parts, made),
        shapings=shaped,
        worn=worn(parts),
        set_on=parts.pockets.set_on,
        let_in=parts.pockets.let_in(("front", "back"), "side"),
        chalked_facts=lambda other: chalked_slit(parts, made, other),
    )


def _allowances(choices: Choices, opened: Opened, adjusted: list[Adjustment]) -> dict[str, float]:
    """Allowances, that of the neck limited where its curve would not take it; only what was asked for is told."""
    most = edge_allowance(opened.neck, choices.allowances["neck"])
    if choices.allowances["neck"] > most + 1e-6 and "neck" in choices.allowances_given:
        why = "the curve of the neck is too tight for more"
        adjusted.append(Adjustment("allowances.neck", "neck allowance", choices.allowances["neck"], most, why))
    return {**choices.allowances, "neck": most}
