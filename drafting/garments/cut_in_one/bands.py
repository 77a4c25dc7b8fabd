"""The bands of `cut_in_one`, a cuff at the end of a sleeve and the band of a scooped neck, and its flounces.

Finished millimetres.
"""

import math
from dataclasses import replace

from drafting import sources
from drafting.cloth import ClothFacts, passing_factor
from drafting.contract.chalked_line import ChalkedLine
from drafting.garments.cut_in_one import sleeve as sleeves
from drafting.garments.cut_in_one.style import Choices
from drafting.parts.band import Band, quarter_marks
from drafting.parts.band_size import (
    BAND_ALLOWANCE,
    CUFF_FULLNESS,
    CUFF_ROOM,
    NECK_RATIO,
    NECK_RATIO_RIB,
    band_height,
    band_length,
)
from drafting.parts.flounce import Flounce, flounce_of
from drafting.parts.rib import band_stretch, other_cloth
from drafting.parts.widths import through_hem
from drafting.person.measures import Body
from drafting.person.passing import hand_needs, head_needs


def with_cuff(body: Body, choices: Choices, cloth: ClothFacts, chalked: ChalkedLine) -> tuple[Choices, float]:
    """The choices of a sleeve that ends in a cuff, and the girth of the cuff; 0 without one.

    The sleeve is shorter by the cuff and narrowest at its end, at most CUFF_FULLNESS times the cuff there.
    """
    if choices.cuff is None:
        return choices, 0.0
    share = min(choices.sleeve_length / body.arm_length, 1.0)
    round_arm = sleeves.arm_girth_at(body, share) + CUFF_ROOM[choices.fit]
    stretch = band_stretch(choices.rib, cloth)
    girth = band_length(round_arm, hand_needs(body) / passing_factor(stretch), math.inf, cloth, chalked)
    height = choices.cuff
    if not choices.cuff_given:
        height = band_height(height, choices.sleeve_end, cloth, chalked)
    room = sources.SLEEVE_ROOM[choices.fit] * sources.scale(body.stature)
    end = min(sleeves.arm_girth_at(body, share) + room, CUFF_FULLNESS * girth)
    end = max(end, sleeves.least_for_hand(body, choices, cloth))
    shorter = replace(
        choices,
        cuff=height,
        sleeve_length=choices.sleeve_length - height,
        narrowest_at=1.0,
        narrowest_girth=end if choices.narrowest_girth is None else choices.narrowest_girth,
    )
    return shorter, girth


def cuff_band(choices: Choices, allowance: float, end_girth: float, cuff: float) -> Band | None:
    """The cuffs of sleeves that end with `end_girth`; `cuff` is their girth, 0 without one."""
    if choices.cuff is None or cuff <= 0:
        return None
    return Band(
        "cuff", "Cuff", "the sleeve", end_girth, cuff / end_girth, choices.cuff, allowance, BAND_ALLOWANCE, cut=2,
        other_cloth=other_cloth(choices.rib),
    )  # fmt: skip


def flounces_of(
    body: Body, choices: Choices, cloth: ClothFacts, chalked: ChalkedLine, sleeve_end: float, sweep: float,
    allowances: dict[str, float],
) -> tuple[Flounce | None, Flounce | None]:  # fmt: skip
    """The flounces of the sleeves and of the hem, which are so long round before they are sewn on, mm."""
    sleeve, hem = choices.sleeve_flounce, choices.hem_flounce
    passing = through_hem(body, choices) + sources.PASSING_EASE * sources.scale(body.stature)
    return (
        None if sleeve is None else flounce_of(
            "sleeve", sleeve, sleeve_end, hand_needs(body), 2, allowances["sleeve_end"], cloth, chalked
        ),
        None if hem is None else flounce_of("hem", hem, sweep, passing, 1, allowances["hem"], cloth, chalked),
    )  # fmt: skip


def neck_ring(body: Body, choices: Choices, cloth: ClothFacts) -> float:
    """How long a scooped neck must be for the head: through its edge, or through its band."""
    ring = head_needs(body) / passing_factor(cloth.across)
    if choices.neck_band is None:
        return ring
    return max(ring, head_needs(body) / passing_factor(band_stretch(choices.rib, cloth)) / _neck_ratio(choices))


def _neck_ratio(choices: Choices) -> float:
    """Length of the neck band as a share of the neck."""
    return NECK_RATIO if choices.rib is None else NECK_RATIO_RIB


def neck_band(
    body: Body, choices: Choices, cloth: ClothFacts, ring: float, allowance: float, chalked: ChalkedLine
) -> Band | None:
    """The band of a scooped neck of this ring; the head passes it as it will be chalked."""
    if choices.neck_band is None:
        return None
    needed = min(head_needs(body) / passing_factor(band_stretch(choices.rib, cloth)), ring)
    length = band_length(_neck_ratio(choices) * ring, needed, ring, cloth, chalked)
    height = choices.neck_band
    if not choices.neck_band_given:
        height = band_height(height, allowance, cloth, chalked)
    return Band(
        "neck_band", "Neck band", "the neck", ring, length / ring, height, allowance, BAND_ALLOWANCE,
        quarter_marks(ring), other_cloth=other_cloth(choices.rib),
    )  # fmt: skip


def band_as_chalked(band: Band, cloth: ClothFacts, chalked: ChalkedLine) -> float:
    """The length of a band as a tape chalks it, mm."""
    return 2 * chalked.chalked(band.length / 2, band.end_allowance, cloth.shrink_across)
