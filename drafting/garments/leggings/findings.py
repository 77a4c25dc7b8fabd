"""What finished `leggings` are found to be: girths, figures, points, what was asked for, the facts of their checks."""

from collections.abc import Collection

from drafting.cloth import wearing
from drafting.contract.asked import Asked, BelowLevel, EdgeLength, Sum
from drafting.contract.chalked_line import ChalkedLine
from drafting.contract.girths import AcrossAt, AcrossMarks, Along, ChalkedGirth, FinishedGirth, SumOf
from drafting.contract.pieces import FinishedFigure
from drafting.garments.leggings.lay_out import LEG
from drafting.garments.leggings.outline import turned_over
from drafting.garments.leggings.parts import Parts
from drafting.geometry.point import Point
from drafting.parts.legs.findings import (
    Wide,
    hem_passes,
    leg_allowances,
    leg_facts,
    leg_figures,
    leg_rings,
    waist_girths,
)
from drafting.parts.legs.style import shortest


def girths(parts: Parts) -> tuple[FinishedGirth, ...]:
    """Waist, hip, and of one leg thigh, knee and hem, mm, each with how it runs over the marks."""
    body, made = parts.body, parts.outline
    waist = SumOf(((2.0, Along(LEG, ("waist_front", "waist_back"))),))
    found = waist_girths(body, parts.choices, parts.cloth, parts.held, waist)
    hip = _between(parts, "hip", "seat", (("waist_back", "crotch_back"), ("crotch_front", "waist_front")),
                   (made.upper.front_hip, made.upper.back_hip), 2.0)  # fmt: skip
    thigh = AcrossMarks(LEG, ("crotch_front", "crotch_back"))
    found += [
        FinishedGirth("hip", "hip", made.upper.hip, body.hip_girth, chalked=hip),
        # `thigh_room` judges how far it is stretched.
        FinishedGirth("thigh", "leg at the crotch", made.thigh, body.thigh_girth, chalked=thigh, worn_stretched=False),
    ]
    if parts.has_knee:
        wide = made.front.at(made.at.knee), made.back.at(made.at.knee)
        knee = _between(parts, "knee", "inner", (("crotch_back", "hem_back"), ("hem_front", "crotch_front")), wide, 1.0)
        found.append(FinishedGirth("knee", "knee", sum(wide), body.knee_girth, chalked=knee))
    found.append(
        FinishedGirth("hem", "hem of one leg", made.hem, 0.0, chalked=Along(LEG, ("hem_back", "hem_front")),
                      passes=hem_passes(body, parts.cloth))
    )  # fmt: skip
    return tuple(found)


def _between(
    parts: Parts, level: str, edge: str, runs: tuple[tuple[str, str], tuple[str, str]], wide: tuple[float, float],
    times: float,
) -> ChalkedGirth:  # fmt: skip
    """A width at a level from the edge of the front to that of the back; both count from the first corner."""
    corner = turned_over(parts.outline.front.waist).x
    front, back = wide
    return SumOf(
        (
            (times, AcrossAt(LEG, runs[0], f"back_{edge}", level, back - corner)),
            (-times, AcrossAt(LEG, runs[1], f"front_{edge}", level, -front - corner)),
        )
    )


def figures(parts: Parts) -> tuple[FinishedFigure, ...]:
    """Lengths that no girth says, mm."""
    return leg_figures(parts.choices, parts.held, parts.measured)


def points_of(parts: Parts) -> dict[str, Point]:
    """Finished construction points, from the side line at the waist, for tests and drawings."""
    front, back = parts.outline.front, parts.outline.back
    return {
        "front_waist": turned_over(front.waist),
        "back_waist": back.waist,
        "front_crotch": turned_over(front.point),
        "back_crotch": back.point,
        "front_hem": turned_over(front.hem),
        "back_hem": back.hem,
    }


def record(parts: Parts) -> dict[str, float]:
    """What the checks judge: mm, but for stretches and shares."""
    body, found = parts.body, parts.measured
    return {
        **leg_facts(body, parts.choices, parts.cloth, parts.chalked, parts.held, found),
        "thigh_opens": found.thigh * (1 + wearing(parts.cloth.across)),
        "thigh_needs": body.thigh_girth,
        "leg_least": shortest(body),
    }


def chalked_rings(parts: Parts, chalked: ChalkedLine) -> dict[str, float]:
    """The facts of the rings that something must pass, as a tape chalks them, mm."""
    return leg_rings(parts.cloth, parts.held, parts.measured, chalked)


def asked(parts: Parts, moved: Collection[str]) -> tuple[Asked, ...]:
    """Everything that the style asks for in lengths and girths, mm; `moved` are the keys of what the draft moved."""
    choices = parts.choices
    by_itself = (
        Asked("hip", "hip, all round", None, Sum(((2.0, Wide(LEG, "hip")),))),
        Asked("crotch_level", "crotch below the waist", None, BelowLevel(LEG, "waist", "front_inner", "end")),
    )
    return (
        *(one for one in by_itself if one.key in moved),
        Asked("length", "length from the waist", choices.length, BelowLevel(LEG, "waist", "hem", "start")),
        Asked("hem_girth", "hem, round one leg", choices.hem_girth, EdgeLength(LEG, "hem")),
        *leg_allowances(choices, parts.held, EDGES),
    )


#: Where each allowance lies.
EDGES: dict[str, list[tuple[str, str]]] = {
    "waist": [(LEG, "waist")],
    "seams": [(LEG, edge) for edge in ("back_seat", "back_inner", "front_inner", "front_seat")],
    "hem": [(LEG, "hem")],
}
