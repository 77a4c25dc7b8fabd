"""The bands of a top: neck band or roll collar, cuffs, hem band; each is cut of the cloth or of a rib. Finished mm."""

import math
from dataclasses import dataclass, replace

from drafting.cloth import ClothFacts, passing_factor
from drafting.contract.chalked_line import ChalkedLine
from drafting.parts.band import Band, quarter_marks
from drafting.parts.band_size import (
    BAND_ALLOWANCE,
    HEM_BAND_RATIO,
    NECK_RATIO,
    NECK_RATIO_RIB,
    NECK_RATIO_V,
    band_height,
    band_length,
)
from drafting.parts.neck import Neckline
from drafting.parts.rib import band_stretch, other_cloth
from drafting.parts.top_style import AnyTop, TopChoices


@dataclass(frozen=True, slots=True)
class Bands:
    """The bands of one garment; None where an edge is turned."""

    neck: Band | None
    cuff: Band | None
    hem: Band | None

    @property
    def all(self) -> tuple[Band, ...]:
        """Those that there are."""
        return tuple(band for band in (self.neck, self.cuff, self.hem) if band is not None)


def neck_ratio(choices: TopChoices) -> float:
    """Length of the neck band as a share of the neck."""
    if choices.neck == "v":
        return NECK_RATIO_V
    return NECK_RATIO if choices.rib is None else NECK_RATIO_RIB


def as_read(choices: AnyTop, cloth: ClothFacts, chalked: ChalkedLine) -> AnyTop:
    """The choices with cuff and hem band as high as the tape reads them, since sleeve and body are shorter by that."""
    cuff, hem = choices.cuff, choices.hem_band
    if cuff is not None:
        cuff = _height(choices, cloth, "cuff_height", cuff, choices.sleeve_end, chalked)
    if hem is not None:
        hem = _height(choices, cloth, "hem_band_height", hem, choices.hem, chalked)
    return replace(choices, cuff=cuff, hem_band=hem)


def neck_band(
    choices: TopChoices, cloth: ClothFacts, neck: Neckline, allowance: float, head: float, chalked: ChalkedLine
) -> Band | None:
    """The band of the neck; its length passes `head` mm as it will be chalked."""
    if not choices.banded:
        return None
    ring = neck.ring
    needed = head / passing_factor(band_stretch(choices.rib, cloth))
    length = band_length(ring * neck_ratio(choices), needed, ring, cloth, chalked)
    roll = choices.finish == "roll"
    marks = () if choices.neck == "v" else quarter_marks(ring)
    return Band(
        "neck_band",
        "Roll collar" if roll else "Neck band",
        "the neck",
        ring,
        length / ring,
        _height(choices, cloth, "band_height", choices.band_height, allowance, chalked),
        allowance,
        BAND_ALLOWANCE,
        marks,
        says="Worn, it is turned over to half its height." if roll else "",
        other_cloth=other_cloth(choices.rib),
    )


def cuff_band(choices: TopChoices, end_girth: float, cuff: float) -> Band | None:
    """The cuffs, sewn to sleeves that end with `end_girth`; `cuff` is their girth."""
    if choices.cuff is None:
        return None
    share = cuff / end_girth
    return Band(
        "cuff", "Cuff", "the sleeve", end_girth, share, choices.cuff, choices.sleeve_end, BAND_ALLOWANCE, cut=2,
        other_cloth=other_cloth(choices.rib),
    )  # fmt: skip


def cuff_girth(choices: TopChoices, cloth: ClothFacts, wanted: float, hand: float, chalked: ChalkedLine) -> float:
    """The girth of a cuff of about `wanted` that lets a hand of `hand` mm through."""
    return band_length(wanted, hand / passing_factor(band_stretch(choices.rib, cloth)), math.inf, cloth, chalked)


def hem_band(choices: TopChoices, cloth: ClothFacts, sweep: float, passing: float, chalked: ChalkedLine) -> Band | None:
    """The band of a hem of this sweep; it opens to `passing` mm as it will be chalked, where the hem itself does."""
    if choices.hem_band is None:
        return None
    needed = min(passing / passing_factor(band_stretch(choices.rib, cloth)), sweep)
    length = band_length(max(HEM_BAND_RATIO * sweep, needed), needed, sweep, cloth, chalked)
    return Band(
        "hem_band", "Hem band", "the hem", sweep,  length / sweep, choices.hem_band, choices.hem, BAND_ALLOWANCE,
        quarter_marks(sweep), other_cloth=other_cloth(choices.rib),
    )  # fmt: skip


def _height(
    choices: TopChoices, cloth: ClothFacts, key: str, height: float, allowance: float, chalked: ChalkedLine
) -> float:
    """The finished height of a band, mm: as asked, or as the tape reads its cut height."""
    if key in choices.given:
        return height
    return band_height(height, allowance, cloth, chalked)
