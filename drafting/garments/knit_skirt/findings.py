"""What a finished `knit_skirt` is found to be: girths, figures, points, what was asked for, the facts of its checks."""

from drafting import sources
from drafting.contract.asked import Across, Allowance, Asked, EdgeLength, FoldLength, NotchAboveEnd, Sum
from drafting.contract.chalked_line import ChalkedLine
from drafting.contract.girths import AcrossAt, Along, FinishedGirth, Passes, SumOf
from drafting.contract.pieces import FinishedFigure
from drafting.garments.knit_skirt.lay_out import PANEL
from drafting.garments.knit_skirt.outline import chalked_quarter
from drafting.garments.knit_skirt.parts import Parts
from drafting.geometry.point import Point
from drafting.parts.flounce import flounce_asked, flounce_facts, flounce_figures, flounce_girths
from drafting.parts.rib import band_stretch
from drafting.parts.top_asked import with_band
from drafting.parts.waistband import chalked_band
from drafting.person.passing import hip_needs


def girths(parts: Parts) -> tuple[FinishedGirth, ...]:
    """Waistband, waist edge, hip and hem, from the top down, mm, each with how it runs over the marks."""
    body, made, band = parts.body, parts.outline, parts.band
    found = []
    if band is not None:
        top = Along(band.name, (f"{band.name}_top", f"{band.name}_corner"))
        stretch = band_stretch(parts.choices.rib, parts.cloth)
        found.append(
            FinishedGirth(
                "waistband", "waistband" if parts.elastic is None else "casing of the waistband", band.length,
                body.waist_girth, chalked=SumOf(((2.0, top),)), passes=Passes("hip", hip_needs(body), stretch),
            )
        )  # fmt: skip
    waist = SumOf(((4.0, Along(PANEL, ("waist_fold", "waist_corner"))),))
    hip = SumOf(((4.0, AcrossAt(PANEL, ("waist_corner", "hem_corner"), "side", "hip", made.hip)),))
    hem = SumOf(((4.0, Along(PANEL, ("hem_corner", "hem_fold"))),))
    label = "waist edge" if band is None else "waist seam"
    found += [
        FinishedGirth("waist_seam", label, made.seam, body.waist_girth, chalked=waist,
                      passes=Passes("hip", hip_needs(body), parts.cloth.across)),
        FinishedGirth("hip", "hip", 4 * made.hip, body.hip_girth, chalked=hip),
        FinishedGirth("hem", "hem", 4 * made.hem.quarter, 0.0, chalked=hem),
    ]  # fmt: skip
    return (*found, *flounce_girths(parts.hem_flounce, parts.cloth, "", 0.0))


def figures(parts: Parts) -> tuple[FinishedFigure, ...]:
    """Lengths that no girth says, mm."""
    top, what = ("waist edge", "casing") if parts.band is None else ("waist seam", "waistband")
    found = [
        FinishedFigure("length", f"{top} to hem", parts.choices.length),
        FinishedFigure("band_height", f"height of the {what}", parts.casing),
    ]
    if parts.outline.rises > sources.EQUAL_WITHIN:
        found.append(FinishedFigure("waist_rises", "waist higher at the side than at the fold", parts.outline.rises))
    if parts.elastic is not None:
        found.append(FinishedFigure("elastic", "elastic, with its ends over each other", parts.elastic.cut))
    return (*found, *parts.pockets.figures, *flounce_figures(parts.flounces))


def points_of(parts: Parts) -> dict[str, Point]:
    """Finished construction points, from the waist edge at the fold, for tests and drawings."""
    made = parts.outline
    return {
        "waist_corner": made.waist.end,
        "hip_side": Point(made.hip, made.depth),
        "hem_corner": made.hem.corner,
    }


def record(parts: Parts) -> dict[str, float]:
    """What the checks judge: mm, but for stretches and shares."""
    body, made, band = parts.body, parts.outline, parts.band
    found = {
        "hip_needs": hip_needs(body),
        "waist_seam": made.seam,
        "waist_stretch": parts.cloth.across,
        "band_is_jersey": float(parts.elastic is None),
        "elastic": 0.0 if parts.elastic is None else parts.elastic.length,
        "gathered": made.seam / parts.holds,
        "hip_finished": 4 * made.hip,
        "hem_above_floor": body.waist_height - parts.choices.length,
        **flounce_facts(parts.flounces, parts.cloth),
        **parts.pockets.facts,
        **chalked_rings(parts, parts.chalked),
    }
    if band is not None:
        found |= {"band_length": band.length, "band_stretch": band_stretch(parts.choices.rib, parts.cloth)}
    return found


def chalked_rings(parts: Parts, chalked: ChalkedLine) -> dict[str, float]:
    """The facts of the rings that something must pass, as a tape chalks them, mm."""
    made, band = parts.outline, parts.band
    quarter = chalked_quarter(made.seam / 4, made.waist_slope, parts.choices, parts.cloth, chalked)
    found = {"waist_seam_chalked": 4 * quarter}
    if band is not None:
        found["band_chalked"] = chalked_band(band.length, band.end_allowance, parts.cloth, chalked)
    return found


def asked(parts: Parts) -> tuple[Asked, ...]:
    """Everything that the style asks for in lengths and girths, mm."""
    choices, band = parts.choices, parts.band
    height = choices.band_height if choices.band_height_given else None
    found = [
        Asked("length", "length from the waist", choices.length, with_band(FoldLength(PANEL), None, parts.hem_flounce)),
        Asked("fit", "hip, all round", None, Sum(((4.0, Across(PANEL, "hip")),))),
        Asked("hem_girth", "hem, all round", choices.hem_girth, Sum(((4.0, EdgeLength(PANEL, "hem")),))),
    ]
    if choices.slit is not None:
        found.append(Asked("slit", "slit", choices.slit, NotchAboveEnd(PANEL, "side", "slit")))
    if band is not None:
        found.append(
            Asked("waistband_height", "height of the waistband", height, Sum(((0.5, EdgeLength(band.name, band.end)),)))
        )
    elif height is not None:
        turned = height + choices.waist
        found.append(Asked("waistband_height", "what is turned in at the waist", turned, Allowance(PANEL, "waist")))
    on = {"waist": [(PANEL, "waist")], "side": [(PANEL, "side")], "hem": [(PANEL, "hem")]}
    if band is not None:
        on["waist"] += [(band.name, band.first_edge), (band.name, band.second_edge)]
    beyond = {"waist": 0.0 if band is not None else parts.casing}
    for key in sorted(choices.allowances_given):
        wanted = getattr(choices, key) + beyond.get(key, 0.0)
        found += [
            Asked(f"allowances.{key}", f"allowance of the {key}", wanted, Allowance(piece, edge))
            for piece, edge in on[key]
        ]
    return (*found, *flounce_asked(parts.hem_flounce, choices.hem_flounce))
