"""What finished `knit_trousers` are found to be: girths, figures, points, what was asked for, facts of their checks."""

from collections.abc import Collection

from drafting import sources
from drafting.contract.asked import Asked, BelowLevel, EdgeLength, Sum
from drafting.contract.chalked_line import ChalkedLine
from drafting.contract.girths import AcrossAt, AcrossMarks, Along, ChalkedGirth, FinishedGirth, SumOf
from drafting.contract.pieces import FinishedFigure
from drafting.garments.knit_trousers.lay_out import BACK, FRONT
from drafting.garments.knit_trousers.outline import Half
from drafting.garments.knit_trousers.parts import Parts
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
from drafting.parts.side import Side

#: Where each allowance lies.
EDGES: dict[str, list[tuple[str, str]]] = {
    "waist": [(piece, "waist") for piece in (FRONT, BACK)],
    "seams": [(piece, edge) for piece in (FRONT, BACK) for edge in ("seat", "inner", "side")],
    "hem": [(piece, "hem") for piece in (FRONT, BACK)],
}


def girths(parts: Parts) -> tuple[FinishedGirth, ...]:
    """Waist, hip, and of one leg thigh, knee and hem, mm, each with how it runs over the marks."""
    body, made = parts.body, parts.outline
    waist = SumOf(tuple((2.0, Along(piece, ("waist_side", "waist_centre"))) for piece in (FRONT, BACK)))
    found = waist_girths(body, parts.choices, parts.cloth, parts.held, waist)
    hips = [(Side(half.side.segments).x(made.at.hip), wide) for half, wide in zip(
        made.halves, (made.upper.front_hip, made.upper.back_hip), strict=True)]  # fmt: skip
    hip = _between(parts, "hip", ("seat", ("waist_centre", "crotch_point")), [(x, x + wide) for x, wide in hips], 2.0)
    thigh = SumOf(tuple((1.0, AcrossMarks(piece, ("crotch_side", "crotch_point"))) for piece in (FRONT, BACK)))
    found += [
        FinishedGirth("hip", "hip", made.upper.hip, body.hip_girth, chalked=hip),
        FinishedGirth("thigh", "leg at the crotch", made.thigh, body.thigh_girth, chalked=thigh),
    ]
    if made.at.has_knee:
        wide = [half.at(made.at.knee) for half in made.halves]
        knee = _between(parts, "knee", ("inner", ("crotch_point", "hem_inner")), wide, 1.0)
        found.append(
            FinishedGirth("knee", "knee", sum(inner - side for side, inner in wide), body.knee_girth, chalked=knee)
        )
    hem = SumOf(tuple((1.0, Along(piece, ("hem_inner", "hem_side"))) for piece in (FRONT, BACK)))
    found.append(
        FinishedGirth("hem", "hem of one leg", made.hem, 0.0, chalked=hem, passes=hem_passes(body, parts.cloth))
    )
    return tuple(found)


def _between(
    parts: Parts, level: str, edge: tuple[str, tuple[str, str]], wide: list[tuple[float, float]], times: float
) -> ChalkedGirth:
    """A width at a level from the side to another edge, of front and back; both count from the first corner."""
    name, marks = edge
    found: list[tuple[float, ChalkedGirth]] = []
    for piece, half, (side, other) in zip((FRONT, BACK), parts.outline.halves, wide, strict=True):
        corner = half.waist.start.x
        found.append((times, AcrossAt(piece, marks, name, level, other - corner)))
        found.append((-times, AcrossAt(piece, ("hem_side", "waist_side"), "side", level, side - corner)))
    return SumOf(tuple(found))


def figures(parts: Parts) -> tuple[FinishedFigure, ...]:
    """Lengths that no girth says, mm."""
    return (*leg_figures(parts.choices, parts.held, parts.measured), *parts.pockets.figures)


def points_of(parts: Parts) -> dict[str, Point]:
    """Finished construction points, from the crease at the waist, for tests and drawings."""
    found: dict[str, Point] = {}
    named: tuple[tuple[str, Half], ...] = ((FRONT, parts.outline.front), (BACK, parts.outline.back))
    for name, half in named:
        found |= {
            f"{name}_side": half.waist.start,
            f"{name}_waist": half.waist.end,
            f"{name}_crotch": half.point,
            f"{name}_hem": half.inner.end,
        }
    return found


def record(parts: Parts) -> dict[str, float]:
    """What the checks judge: mm, but for stretches and shares."""
    body, found = parts.body, parts.measured
    return {
        **leg_facts(body, parts.choices, parts.cloth, parts.chalked, parts.held, found),
        "thigh_opens": found.thigh,
        "thigh_needs": body.thigh_girth + sources.THIGH_ROOM * sources.scale(body.stature),
        "leg_least": shortest(body),
        **parts.pockets.facts,
    }


def chalked_rings(parts: Parts, chalked: ChalkedLine) -> dict[str, float]:
    """The facts of the rings that something must pass, as a tape chalks them, mm."""
    return leg_rings(parts.cloth, parts.held, parts.measured, chalked)


def asked(parts: Parts, moved: Collection[str]) -> tuple[Asked, ...]:
    """Everything that the style asks for in lengths and girths, mm; `moved` are the keys of what the draft moved."""
    choices = parts.choices
    hip = Asked("hip", "hip, all round", None, Sum(tuple((2.0, Wide(piece, "hip")) for piece in (FRONT, BACK))))
    hem = Sum(tuple((1.0, EdgeLength(piece, "hem")) for piece in (FRONT, BACK)))
    return (
        *((hip,) if hip.key in moved else ()),
        Asked("length", "length from the waist", choices.length, BelowLevel(FRONT, "waist", "hem", "start")),
        Asked("hem_girth", "hem, round one leg", choices.hem_girth, hem),
        *leg_allowances(choices, parts.held, EDGES),
    )
