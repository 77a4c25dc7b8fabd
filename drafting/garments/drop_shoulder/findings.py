"""What a finished `drop_shoulder` is found to be: girths, figures, construction points, and the facts of its checks."""

import math

from drafting.cloth import passing_factor
from drafting.contract.chalked_line import ChalkedLine
from drafting.contract.girths import AcrossAt, Along, ChalkedGirth, FinishedGirth, Passes, SumOf
from drafting.contract.pieces import FinishedFigure
from drafting.garments.drop_shoulder.lay_out import hem_edge
from drafting.garments.drop_shoulder.parts import Parts
from drafting.garments.drop_shoulder.sleeve import arm_girth
from drafting.garments.drop_shoulder.upper import bust_ease
from drafting.geometry.point import Point
from drafting.parts.band import Band
from drafting.parts.rib import band_stretch
from drafting.parts.widths import through_hem_passes
from drafting.person.passing import hand_needs, head_needs, over_bust

BODY = ("front", "back")
SIDE = ("underarm", "hem_corner")


def hem_sweep(parts: Parts) -> float:
    """The whole hem, mm; over a full bust the front is a little longer."""
    return 2 * sum(segment.length() for front in (True, False) for segment in hem_edge(parts, front=front))


def girths(parts: Parts, through: float) -> tuple[FinishedGirth, ...]:
    """Every girth of the sewn garment with the body girth it goes round, mm, and how it runs over the marks.

    `through` is the largest girth that goes through the hem, mm.
    """
    body, at, sleeve, across = parts.body, parts.at, parts.sleeve, parts.cloth.across
    under = parts.armhole.underarm

    def level(name: str, quarter: float) -> ChalkedGirth:
        return SumOf(tuple((2.0, AcrossAt(piece, SIDE, "side", name, quarter)) for piece in BODY))

    neck = SumOf(tuple((2.0, Along(piece, ("neck_fold", "neck_corner"))) for piece in BODY))
    found = [
        FinishedGirth("neck", "neck edge", parts.neck.ring, body.neck_girth, chalked=neck, worn_stretched=False,
                      passes=Passes("head", head_needs(body), across)),
        *_bands(parts, through),
        FinishedGirth("bust", "bust", 4 * under.x, body.bust_girth, chalked=level("underarm", under.x)),
        FinishedGirth(
            "waist", "waist", 4 * parts.side.x(at.waist), body.waist_girth,
            chalked=level("waist", parts.side.x(at.waist)), passes=Passes("bust", over_bust(body), across),
        ),
    ]  # fmt: skip
    if at.reaches_hip:
        hip = parts.side.x(at.hip)
        found.append(FinishedGirth("hip", "hip", 4 * hip, body.hip_girth, chalked=level("hip", hip)))
    hem = SumOf(tuple((2.0, Along(piece, ("hem_corner", "hem_fold"))) for piece in BODY))
    found.append(
        FinishedGirth(
            "hem", "hem", hem_sweep(parts), 0.0, chalked=hem, passes=through_hem_passes(body, through, across)
        )
    )
    half = parts.armhole.cap_half
    upper = SumOf(((2.0, AcrossAt("sleeve", ("cap_corner", "sleeve_end_corner"), "under", "cap_foot", half)),))
    found.append(
        FinishedGirth("upper_arm", "sleeve under the arm", 2 * half, body.upper_arm_girth, chalked=upper,
                      worn_stretched=False)
    )  # fmt: skip
    end = SumOf(((2.0, Along("sleeve", ("sleeve_end_corner", "sleeve_end_fold"))),))
    found.append(
        FinishedGirth("sleeve_end", "sleeve end", sleeve.end_girth, 0.0, chalked=end, worn_stretched=False,
                      passes=Passes("hand", hand_needs(body), across))
    )  # fmt: skip
    return tuple(found)


def _bands(parts: Parts, through: float) -> list[FinishedGirth]:
    """The bands, each round what it lies on, and open to what goes through it."""
    body, bands, found = parts.body, parts.bands, list[FinishedGirth]()
    stretch = band_stretch(parts.choices.rib, parts.cloth)
    for band, round_body, passes in (
        (bands.neck, body.neck_girth, Passes("head", head_needs(body), stretch)),
        (bands.cuff, arm_girth(body, parts.sleeve.share), Passes("hand", hand_needs(body), stretch)),
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
    return found


def figures(parts: Parts) -> tuple[FinishedFigure, ...]:
    """Where things lie that the rules place by themselves, finished, mm."""
    choices, sleeve = parts.choices, parts.sleeve
    found = [
        FinishedFigure("length", "side-neck level to hem", parts.at.hem + (choices.hem_band or 0.0)),
        FinishedFigure("front_neck", "front neck below the side-neck level", parts.neck.front.start.y),
        FinishedFigure("back_neck", "back neck below the side-neck level", parts.neck.back.start.y),
        FinishedFigure("extension", "shoulder past the shoulder point", parts.over.extension),
        FinishedFigure("underarm", "underarm below the side-neck level", parts.armhole.underarm.y),
        FinishedFigure("sleeve", "top of the cap to the sleeve end", sleeve.length),
    ]
    for band in parts.bands.all:
        found.append(FinishedFigure(f"{band.name}_height", f"height of the {band.label.lower()}", band.height))
    if parts.dip > 0:
        found.append(FinishedFigure("front_longer", "front longer at its fold, for the bust", parts.dip))
    return tuple(found)


def points_of(parts: Parts) -> dict[str, Point]:
    """Finished construction points, from the side-neck level, for tests and drawings."""
    return {
        "front_neck": parts.neck.front.start,
        "back_neck": parts.neck.back.start,
        "neck_corner": parts.neck.end,
        "shoulder_end": parts.over.end,
        "underarm": parts.armhole.underarm,
        "hem_corner": parts.hem.corner,
    }


def record(facts: dict[str, float], parts: Parts, through: float) -> None:
    """What the checks judge: mm, but for the slope in radians and the shares of ease and fullness.

    `through` is the largest girth that goes through the hem.
    """
    body, sleeve, armhole = parts.body, parts.sleeve, parts.armhole
    usual = body.bust_girth * bust_ease(parts.choices, parts.cloth)
    facts |= {
        "neck_band": 0.0 if parts.bands.neck is None else parts.bands.neck.length,
        "bust_ease": 4 * armhole.underarm.x / body.bust_girth - 1,
        "bust_ease_usual": usual / body.bust_girth,
        "cap_width": 2 * armhole.cap_half,
        "cap_slope": max(
            math.atan2(abs(sleeve.cap.velocity(step / 40).y), sleeve.cap.velocity(step / 40).x) for step in range(41)
        ),
        "armhole_length": armhole.length,
        "armhole_radius": armhole.radius,
        "armhole_bow": armhole.bow,
        "armhole_allowance": parts.allowances["armhole"],
        "neck_radius": parts.neck.tightest,
        "neck_allowance": parts.allowances["neck"],
        "cuff": sleeve.cuff,
        "sleeve_fullness": sleeve.end_girth / sleeve.cuff if sleeve.cuff else 1.0,
        "through_hem": through,
        "hem_above_floor": body.waist_height - (parts.at.hem + (parts.choices.hem_band or 0.0) - parts.at.waist),
        **chalked_rings(parts, parts.chalked),
    }


def chalked_rings(parts: Parts, chalked: ChalkedLine) -> dict[str, float]:
    """The facts of the rings that something must pass, as a tape chalks them, mm.

    A band counts with what it opens to, as a ring of the cloth that opens as far.
    """
    at, side, hem, bands, cloth = parts.at, parts.side, parts.hem, parts.bands, parts.cloth
    stretch = band_stretch(parts.choices.rib, cloth)

    def band_ring(band: Band | None) -> float | None:
        if band is None:
            return None
        length = 2 * chalked.chalked(band.length / 2, band.end_allowance, cloth.shrink_across)
        return length * passing_factor(stretch) / passing_factor(cloth.across)

    end = 2 * chalked.chalked(parts.sleeve.end_half, parts.allowances["side"], cloth.shrink_across)
    neck, cuff, foot = (band_ring(band) for band in (bands.neck, bands.cuff, bands.hem))
    sweep = 4 * _chalked(parts, chalked, hem.quarter, side.slope(hem.corner.y))
    return {
        "head_ring": min(parts.neck.ring, neck if neck is not None else math.inf),
        "hand_ring": end if cuff is None else min(end, cuff),
        "waist_chalked": 4 * _chalked(parts, chalked, side.x(at.waist), side.slope(at.waist)),
        "hem_chalked": min(sweep, foot if foot is not None else math.inf),
    }


def _chalked(parts: Parts, chalked: ChalkedLine, quarter: float, slope: float) -> float:
    """A quarter as it will be chalked, mm; on a slanting side, which is read both ways, the least it can become."""
    shrink = parts.cloth.shrink_across
    if abs(slope) < 1e-6:
        return chalked.chalked(quarter, parts.allowances["side"], shrink)
    return quarter - chalked.tape.size / 2 * (1 + abs(slope)) * (1 - shrink)
