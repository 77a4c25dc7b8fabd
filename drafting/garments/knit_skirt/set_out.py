"""Setting out `knit_skirt`: from a body, choices and cloth to its pieces."""

from dataclasses import replace
from functools import partial
from typing import Final

from drafting import sources
from drafting.cloth import ClothFacts
from drafting.contract.chalked_line import ChalkedLine
from drafting.contract.cutting import EdgesDoNotMeetError
from drafting.contract.set_out import SetOut
from drafting.garments.knit_skirt.findings import asked, chalked_rings, figures, girths, points_of, record
from drafting.garments.knit_skirt.lay_out import PANEL, band_marks, pieces, seams
from drafting.garments.knit_skirt.outline import Outline, outline_of
from drafting.garments.knit_skirt.parts import Parts
from drafting.garments.knit_skirt.sewing import after_cut
from drafting.garments.knit_skirt.shaping import shapings
from drafting.garments.knit_skirt.style import TURNED, Choices
from drafting.garments.knit_skirt.worn import worn
from drafting.parts.flounce import can_be_cut, flounce_of
from drafting.parts.flounce_style import held_at_hem
from drafting.parts.pockets import pockets_of
from drafting.parts.skirt import shortest
from drafting.parts.waistband import elastic_of, waistband, whole_height
from drafting.parts.walking import slit_height
from drafting.parts.widths import Levels
from drafting.person.measures import Body
from drafting.problems import Adjustment

NAME: Final = "knit_skirt"


def set_out(body: Body, choices: Choices, cloth: ClothFacts, chalked: ChalkedLine) -> SetOut:
    """Sets out the half skirt and what holds it. Lengths in mm; pure and deterministic."""
    adjusted: list[Adjustment] = []
    facts: dict[str, float] = {}
    choices = replace(choices, hem_flounce=held_at_hem(choices.hem_flounce, choices.length - shortest(body), adjusted))
    turned = 0.0
    if choices.waistband == TURNED:  # an allowance does not grow with what the cloth will lose
        turned = whole_height(choices, replace(cloth, shrink_along=0.0), choices.waist, chalked)
    made = outline_of(body, choices, cloth, chalked, turned, adjusted)
    at = Levels(0.0, 0.0, 0.0, made.depth, choices.body_length)  # from the waist down, so no bust and no armpit
    slit = slit_height(body, choices, cloth, at, made.side, made.hem, facts, adjusted)
    parts = _flounced(_held(body, choices, cloth, chalked, made, turned, slit, adjusted))
    pockets = pockets_of(
        choices.pockets, body, made.hip, at, made.side, made.hem.corner, slit, parts.allowances["side"],
        turned_in=parts.turned_in,
    )  # fmt: skip
    parts = replace(parts, pockets=pockets)
    facts |= record(parts)
    shaped = shapings(choices)
    drafted = SetOut(NAME, body, choices, cloth, chalked, facts=facts, adjusted=tuple(adjusted), shapings=shaped,
                     from_shoulders=False)  # fmt: skip
    if not all(can_be_cut(flounce, cloth) for flounce in parts.flounces):
        return replace(drafted, refused=("flounce_turns",))
    try:
        cut = pieces(parts)
    except EdgesDoNotMeetError as error:
        return replace(drafted, refused=("outline_simple",), crossed=error.edges)
    return replace(
        drafted,
        pieces=cut,
        seams=seams(parts),
        girths=girths(parts),
        figures=figures(parts),
        points=points_of(parts),
        after_cut=after_cut(parts, chalked.tape.unit),
        asked=asked(parts),
        worn=worn(parts),
        let_in=parts.pockets.let_in((PANEL,), "side"),
        chalked_facts=partial(chalked_rings, parts),
    )


def _flounced(parts: Parts) -> Parts:
    """With the flounce at its hem, where one was asked for."""
    asked_for = parts.choices.hem_flounce
    if asked_for is None:
        return parts
    sweep = 4 * parts.outline.hem.quarter
    made = flounce_of("hem", asked_for, sweep, 0.0, 1, parts.allowances["hem"], parts.cloth, parts.chalked)
    return replace(parts, hem_flounce=made)


def _held(
    body: Body, choices: Choices, cloth: ClothFacts, chalked: ChalkedLine, made: Outline, turned: float, slit: float,
    adjusted: list[Adjustment],
) -> Parts:  # fmt: skip
    """The outline with what holds it: a waistband, or a casing of the height `turned` that is turned in."""
    allow = _allowances(choices, made, adjusted)
    if turned > 0:
        elastic = elastic_of(body, turned, sources.SKIRT_ELASTIC_RATIO)
        allow["waist"] += turned
        return Parts(body, choices, cloth, chalked, made, None, elastic, turned, slit, allow)
    held = waistband(body, choices, cloth, made.seam, allow["waist"], chalked, band_marks(made.seam),
                     sources.SKIRT_ELASTIC_RATIO)  # fmt: skip
    return Parts(body, choices, cloth, chalked, made, held, held.elastic, held.band.height, slit, allow)


def _allowances(choices: Choices, made: Outline, adjusted: list[Adjustment]) -> dict[str, float]:
    """The allowances, held to what a slanting hem takes; only what was asked for is told."""
    found = {"waist": choices.waist, "side": choices.side, "hem": choices.hem}
    slope = abs(made.side.slope(made.hem.corner.y))
    most = max(sources.CURVED_HEM_MOST, sources.SLANTING_HEM_EASED / slope) if slope > 1e-6 else found["hem"]
    if choices.hem_flounce is None and found["hem"] > most + 1e-6:
        if "hem" in choices.allowances_given:
            why = "on a slanting side a hem does not turn up flat with more"
            adjusted.append(Adjustment("allowances.hem", "hem allowance", found["hem"], most, why))
        found["hem"] = most
    return found
