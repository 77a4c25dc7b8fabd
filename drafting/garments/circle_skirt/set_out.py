"""Setting out `circle_skirt`: from a body, choices and cloth to a panel and a waistband on the cloth."""

import math
from functools import partial
from typing import Final

from drafting import sources
from drafting.cloth import ClothFacts
from drafting.contract.asked import Allowance, Asked, EdgeLength, Sum, TurnsBy
from drafting.contract.chalked_line import ChalkedLine
from drafting.contract.cutting import EdgesDoNotMeetError
from drafting.contract.girths import Along, ChalkedGirth, FinishedGirth, Passes, SumOf
from drafting.contract.pieces import FinishedFigure
from drafting.contract.set_out import SetOut
from drafting.garments.circle_skirt.band import waistband_of
from drafting.garments.circle_skirt.lay_out import PANEL, Parts, pieces, seams
from drafting.garments.circle_skirt.panel import chalked_waist, solved, waist_needed
from drafting.garments.circle_skirt.sewing import after_cut
from drafting.garments.circle_skirt.style import ALLOWANCES, Choices
from drafting.garments.circle_skirt.worn import worn
from drafting.parts.arcs import smaller_stretch
from drafting.parts.rib import band_stretch
from drafting.parts.waistband import chalked_band
from drafting.person.measures import Body
from drafting.person.passing import hip_needs
from drafting.problems import Adjustment

NAME: Final = "circle_skirt"
#: The side's allowance is at most this share of the radius of the waist. Our choice: beyond it the corner at the waist
#: runs to a long point.
SIDE_MOST: Final = 0.4


def set_out(body: Body, choices: Choices, cloth: ClothFacts, chalked: ChalkedLine) -> SetOut:
    """Sets out the panel and the waistband. Lengths in mm; pure and deterministic."""
    adjusted: list[Adjustment] = []
    ring = solved(body, choices, cloth, chalked, _allowances(body, choices, cloth, adjusted))
    held = waistband_of(body, choices, cloth, ring, chalked)
    parts = Parts(body, cloth, ring, held)
    facts = {
        "waist_seam": ring.seam,
        "waist_stretch": smaller_stretch(cloth),
        "band_length": held.band.length,
        "band_is_jersey": float(held.elastic is None),
        "band_stretch": band_stretch(choices.rib, cloth),
        "elastic": 0.0 if held.elastic is None else held.elastic.length,
        "hip_needs": hip_needs(body),
        "hip_ring": ring.at(body.waist_to_hip),
        "hem_sweep": ring.sweep,
        "hem_floor": body.waist_height - ring.length,
        "waist_cut_radius": ring.radius / (1 - max(cloth.shrink_across, cloth.shrink_along)) - ring.waist,
        "panels": float(ring.panels),
        **_chalked(parts, chalked),
    }
    try:
        made = pieces(parts)
    except EdgesDoNotMeetError as error:
        return SetOut(NAME, body, choices, cloth, chalked, facts=facts, adjusted=tuple(adjusted),
                      refused=("outline_simple",), crossed=error.edges, from_shoulders=False)  # fmt: skip
    return SetOut(
        NAME,
        body,
        choices,
        cloth,
        chalked,
        made,
        seams(parts),
        _girths(parts, facts["band_stretch"]),
        _figures(parts),
        tuple(adjusted),
        facts,
        after_cut=after_cut(parts, chalked.tape.unit, choices.rib),
        asked=_asked(parts, choices),
        worn=worn(parts),
        from_shoulders=False,
        chalked_facts=partial(_chalked, parts),
    )


def _allowances(body: Body, choices: Choices, cloth: ClothFacts, adjusted: list[Adjustment]) -> dict[str, float]:
    """The allowances, held to what a curved hem and a small waist take."""
    found = {key: getattr(choices, key) for key in ALLOWANCES}
    least = waist_needed(body, choices, cloth) / (2 * math.pi * choices.circle)
    most = {
        "hem": (sources.CURVED_HEM_MOST, "hem", "a curved edge cannot be turned up by more"),
        "side": (SIDE_MOST * least, "side", "the waist is too small a circle for more"),
        "waist": (SIDE_MOST * least, "waist", "the waist is too small a circle for more"),
    }
    for key, (limit, label, why) in most.items():
        if found[key] > limit:
            adjusted.append(Adjustment(f"allowances.{key}", f"{label} allowance", found[key], limit, why))
            found[key] = limit
    return found


def _chalked(parts: Parts, chalked: ChalkedLine) -> dict[str, float]:
    """The facts of the rings that something must pass, as a tape chalks them, mm."""
    band = parts.waistband.band
    return {
        "waist_seam_chalked": chalked_waist(parts.ring, parts.cloth, chalked),
        "band_chalked": chalked_band(band.length, band.end_allowance, parts.cloth, chalked),
    }


def _girths(parts: Parts, stretch: float) -> tuple[FinishedGirth, ...]:
    """Waistband, waist seam, hip and hem, from the top down, each with how it runs over the marks.

    `stretch` is that of the waistband along its length.
    """
    body, ring, band = parts.body, parts.ring, parts.waistband.band
    times = 2.0 * ring.panels
    waist = Along(PANEL, ("waist_fold", "waist_side"))
    hem = Along(PANEL, ("hem_side", "hem_fold"))
    down = body.waist_to_hip / ring.length
    at_hip: ChalkedGirth = SumOf(((times * (1 - down), waist), (times * down, hem)))
    top = Along(band.name, (f"{band.name}_top", f"{band.name}_corner"))
    found = [
        FinishedGirth(
            "waistband", "waistband" if parts.waistband.elastic is None else "casing of the waistband", band.length,
            body.waist_girth, chalked=SumOf(((2.0, top),)), passes=Passes("hip", hip_needs(body), stretch),
        ),
        FinishedGirth(
            "waist_seam", "waist seam", ring.seam, body.waist_girth, chalked=SumOf(((times, waist),)),
            passes=Passes("hip", hip_needs(body), smaller_stretch(parts.cloth)),
        ),
        FinishedGirth("hip", "hip", ring.at(body.waist_to_hip), body.hip_girth, chalked=at_hip),
        FinishedGirth("hem", "hem", ring.sweep, 0.0, chalked=SumOf(((times, hem),))),
    ]  # fmt: skip
    return tuple(found)


def _figures(parts: Parts) -> tuple[FinishedFigure, ...]:
    """Lengths that no girth says."""
    found = [
        FinishedFigure("length", "waist seam to hem", parts.ring.length),
        FinishedFigure("band_height", "height of the waistband", parts.waistband.band.height),
        FinishedFigure("radius", "radius of the waist seam", parts.ring.radius),
    ]
    if parts.waistband.elastic is not None:
        found.append(FinishedFigure("elastic", "elastic, with its ends over each other", parts.waistband.elastic.cut))
    return tuple(found)


def _asked(parts: Parts, choices: Choices) -> tuple[Asked, ...]:
    """Everything that the style asks for in lengths and angles."""
    ring, band = parts.ring, parts.waistband.band
    turned = Sum(((2.0 * ring.panels, TurnsBy(PANEL, "hem")),))
    on = {
        "waist": [(PANEL, "waist"), (band.name, band.first_edge), (band.name, band.second_edge)],
        "side": [(PANEL, "side")],
        "hem": [(PANEL, "hem")],
    }
    return (
        Asked("length", "length from the waist seam", choices.length, EdgeLength(PANEL, "side")),
        Asked("circle", "angle of the whole skirt", 360.0 * choices.circle, turned, unit="deg"),
        Asked("waistband_height", "height of the waistband", choices.band_height if choices.band_height_given else None,
              Sum(((0.5, EdgeLength(band.name, band.end)),))),
        *(
            Asked(f"allowances.{key}", f"allowance of the {key}", getattr(choices, key), Allowance(piece, edge))
            for key in sorted(choices.allowances_given)
            for piece, edge in on[key]
        ),
    )  # fmt: skip
