"""Girths, figures and chalked rings that tops of stretch cloth have alike. Finished millimetres."""

import math

from drafting.cloth import passing_factor
from drafting.contract.chalked_line import ChalkedLine
from drafting.contract.girths import AcrossAt, Along, ChalkedGirth, FinishedGirth, Passes, SumOf
from drafting.contract.pieces import FinishedFigure
from drafting.parts.band import Band
from drafting.parts.flounce import flounce_figures, flounce_girths, opens_as
from drafting.parts.hood import hood_figures, hood_girths
from drafting.parts.pouch import pouch_figures
from drafting.parts.rib import band_stretch
from drafting.parts.top import TopParts
from drafting.parts.widths import through_hem_passes
from drafting.person.passing import hand_needs, head_needs, over_bust

BODY = ("front", "back")
SIDE = ("underarm", "hem_corner")


def across_level(level: str, quarter: float) -> ChalkedGirth:
    """How a girth runs over the marks that goes round front and back at a level."""
    return SumOf(tuple((2.0, AcrossAt(piece, SIDE, "side", level, quarter)) for piece in BODY))


def neck_girth(parts: TopParts) -> FinishedGirth:
    """The neck edge, which the head passes."""
    body = parts.body
    along = SumOf(tuple((2.0, Along(piece, ("neck_fold", "neck_corner"))) for piece in BODY))
    return FinishedGirth(
        "neck", "neck edge", parts.neck.ring, body.neck_girth, chalked=along, worn_stretched=False,
        passes=Passes("head", head_needs(body), parts.cloth.across),
    )  # fmt: skip


def waist_hip_hem(parts: TopParts, sweep: float, through: float) -> list[FinishedGirth]:
    """Waist, hip and hem; `sweep` is the whole hem, `through` the largest girth that goes through it, mm."""
    body, at, across = parts.body, parts.at, parts.cloth.across
    found = [
        FinishedGirth(
            "waist", "waist", 4 * parts.side.x(at.waist), body.waist_girth,
            chalked=across_level("waist", parts.side.x(at.waist)), passes=Passes("bust", over_bust(body), across),
        ),
    ]  # fmt: skip
    if at.reaches_hip:
        hip = parts.side.x(at.hip)
        found.append(FinishedGirth("hip", "hip", 4 * hip, body.hip_girth, chalked=across_level("hip", hip)))
    hem = SumOf(tuple((2.0, Along(piece, ("hem_corner", "hem_fold"))) for piece in BODY))
    found.append(FinishedGirth("hem", "hem", sweep, 0.0, chalked=hem, passes=through_hem_passes(body, through, across)))
    return found


def band_girths(parts: TopParts, through: float, arm: float) -> list[FinishedGirth]:
    """The bands, each round what it lies on, and the flounces, each open to what goes through it.

    `arm` is the arm under the cuff, mm.
    """
    body, bands, found = parts.body, parts.bands, list[FinishedGirth]()
    stretch = band_stretch(parts.choices.rib, parts.cloth)
    for band, round_body, passes in (
        (bands.neck, body.neck_girth, Passes("head", head_needs(body), stretch)),
        (bands.cuff, arm, Passes("hand", hand_needs(body), stretch)),
        (bands.hem, 0.0, through_hem_passes(body, through, stretch)),
    ):
        if band is None:
            continue
        along = SumOf(((2.0, Along(band.name, (f"{band.name}_top", f"{band.name}_corner"))),))
        found.append(
            FinishedGirth(
                band.name, band.label.lower(), band.length, round_body, chalked=along, worn_stretched=False,
                passes=passes,
            )
        )  # fmt: skip
    found += hood_girths(parts.hood, body, parts.cloth)
    through_hem = through_hem_passes(body, through, parts.cloth.across)
    found += flounce_girths(parts.sleeve_flounce, parts.cloth, "hand", hand_needs(body))
    found += flounce_girths(parts.hem_flounce, parts.cloth, through_hem.what, through_hem.needs)
    return found


def neck_figures(parts: TopParts) -> list[FinishedFigure]:
    """How long it is, and how deep its neck."""
    return [
        FinishedFigure("length", "side-neck level to hem", parts.at.hem + parts.choices.below_hem),
        FinishedFigure("front_neck", "front neck below the side-neck level", parts.neck.front.start.y),
        FinishedFigure("back_neck", "back neck below the side-neck level", parts.neck.back.start.y),
    ]


def band_figures(parts: TopParts) -> list[FinishedFigure]:
    """How high each band is, how large the hood, and how deep each flounce."""
    bands = [
        FinishedFigure(f"{band.name}_height", f"height of the {band.label.lower()}", band.height)
        for band in parts.bands.all
    ]
    return [
        *bands,
        *hood_figures(parts.hood),
        *pouch_figures(parts.pouch),
        *parts.pockets.figures,
        *flounce_figures(parts.flounces),
    ]


def rings_as_chalked(parts: TopParts, chalked: ChalkedLine, sleeve_end: float) -> dict[str, float]:
    """The facts of the rings that something must pass, as a tape chalks them, mm.

    A band or a flounce counts with what it opens to, as a ring of the cloth that opens as far. `sleeve_end` is the end
    of the sleeve as it is chalked.
    """
    at, side, hem, bands, cloth = parts.at, parts.side, parts.hem, parts.bands, parts.cloth
    stretch = band_stretch(parts.choices.rib, cloth)

    def band_ring(band: Band | None) -> float | None:
        if band is None:
            return None
        length = 2 * chalked.chalked(band.length / 2, band.end_allowance, cloth.shrink_across)
        return length * passing_factor(stretch) / passing_factor(cloth.across)

    neck, cuff, foot = (band_ring(band) for band in (bands.neck, bands.cuff, bands.hem))
    sweep = 4 * _chalked(parts, chalked, hem.quarter, side.slope(hem.corner.y))
    flounced = {one.role: opens_as(one, chalked.tape, cloth) for one in parts.flounces}
    return {
        "head_ring": min(parts.neck.ring, neck if neck is not None else math.inf),
        "hand_ring": min(sleeve_end, flounced.get("sleeve", math.inf), cuff if cuff is not None else math.inf),
        "waist_chalked": 4 * _chalked(parts, chalked, side.x(at.waist), side.slope(at.waist)),
        "hem_chalked": min(sweep, flounced.get("hem", math.inf), foot if foot is not None else math.inf),
    }


def _chalked(parts: TopParts, chalked: ChalkedLine, quarter: float, slope: float) -> float:
    """A quarter as it will be chalked, mm; on a slanting side, which is read both ways, the least it can become."""
    shrink = parts.cloth.shrink_across
    if abs(slope) < 1e-6:
        return chalked.chalked(quarter, parts.allowances["side"], shrink)
    return quarter - chalked.tape.size / 2 * (1 + abs(slope)) * (1 - shrink)
