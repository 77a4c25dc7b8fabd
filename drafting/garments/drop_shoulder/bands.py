"""The bands of `drop_shoulder`: neck band or roll collar, cuffs, hem band; each is cut of the cloth or of a rib."""

import math
from dataclasses import dataclass, replace

from drafting.cloth import ClothFacts, passing_factor
from drafting.contract.chalked_line import ChalkedLine
from drafting.garments.drop_shoulder import rules
from drafting.garments.drop_shoulder.style import Choices
from drafting.parts.band import Band, quarter_marks
from drafting.parts.band_size import BAND_ALLOWANCE, NECK_RATIO, band_height, band_length
from drafting.parts.neck import Neckline


@dataclass(frozen=True, slots=True)
class Bands:
    """The bands of one garment; None where an edge is turned. `rib` is the stretch of their rib, None of own cloth."""

    neck: Band | None
    cuff: Band | None
    hem: Band | None
    rib: float | None

    @property
    def all(self) -> tuple[Band, ...]:
        """Those that there are."""
        return tuple(band for band in (self.neck, self.cuff, self.hem) if band is not None)

    @property
    def of_cloth(self) -> tuple[Band, ...]:
        """Those that are cut of the garment's own cloth."""
        return self.all if self.rib is None else ()

    @property
    def of_rib(self) -> tuple[Band, ...]:
        """Those that are cut of a rib."""
        return () if self.rib is None else self.all


def band_stretch(choices: Choices, cloth: ClothFacts) -> float:
    """How far the bands stretch along their length; they lie across the cloth."""
    return cloth.across if choices.rib is None else choices.rib


def neck_ratio(choices: Choices) -> float:
    """Length of the neck band as a share of the neck."""
    if choices.neck == "v":
        return rules.NECK_RATIO_V
    return NECK_RATIO if choices.rib is None else rules.NECK_RATIO_RIB


def as_read(choices: Choices, cloth: ClothFacts, chalked: ChalkedLine) -> Choices:
    """The choices with cuff and hem band as high as the tape reads them, since sleeve and body are shorter by that."""
    cuff, hem = choices.cuff, choices.hem_band
    if cuff is not None:
        cuff = _height(choices, cloth, "cuff_height", cuff, choices.sleeve_end, chalked)
    if hem is not None:
        hem = _height(choices, cloth, "hem_band_height", hem, choices.hem, chalked)
    return replace(choices, cuff=cuff, hem_band=hem)


def neck_band(
    choices: Choices, cloth: ClothFacts, neck: Neckline, allowance: float, head: float, chalked: ChalkedLine
) -> Band | None:
    """The band of the neck; its length passes `head` mm as it will be chalked."""
    if choices.finish == "turned":
        return None
    ring = neck.ring
    needed = head / passing_factor(band_stretch(choices, cloth))
    length = _length(choices, cloth, ring * neck_ratio(choices), needed, ring, chalked)
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
    )


def cuff_band(choices: Choices, end_girth: float, cuff: float) -> Band | None:
    """The cuffs, sewn to sleeves that end with `end_girth`; `cuff` is their girth."""
    if choices.cuff is None:
        return None
    share = cuff / end_girth
    return Band("cuff", "Cuff", "the sleeve", end_girth, share, choices.cuff, choices.sleeve_end, BAND_ALLOWANCE, cut=2)


def cuff_girth(choices: Choices, cloth: ClothFacts, wanted: float, hand: float, chalked: ChalkedLine) -> float:
    """The girth of a cuff of about `wanted` that lets a hand of `hand` mm through."""
    return _length(choices, cloth, wanted, hand / passing_factor(band_stretch(choices, cloth)), math.inf, chalked)


def hem_band(choices: Choices, cloth: ClothFacts, sweep: float, passing: float, chalked: ChalkedLine) -> Band | None:
    """The band of a hem of this sweep; it opens to `passing` mm as it will be chalked, where the hem itself does."""
    if choices.hem_band is None:
        return None
    needed = min(passing / passing_factor(band_stretch(choices, cloth)), sweep)
    length = _length(choices, cloth, max(rules.HEM_BAND_RATIO * sweep, needed), needed, sweep, chalked)
    return Band(
        "hem_band", "Hem band", "the hem", sweep,  length / sweep, choices.hem_band, choices.hem, BAND_ALLOWANCE,
        quarter_marks(sweep),
    )  # fmt: skip


def _length(
    choices: Choices, cloth: ClothFacts, wanted: float, needed: float, most: float, chalked: ChalkedLine
) -> float:
    """The length of a band near `wanted`, at least `needed` and at most `most`, mm, as its half will be chalked.

    One of rib is measured on another cloth and keeps what was wanted.
    """
    length = max(wanted, needed)
    if choices.rib is not None:
        return min(length, most)
    return band_length(wanted, needed, most, cloth, chalked)


def _height(
    choices: Choices, cloth: ClothFacts, key: str, height: float, allowance: float, chalked: ChalkedLine
) -> float:
    """The finished height of a band, mm: as asked, or as the tape reads its cut height."""
    if key in choices.given or choices.rib is not None:
        return height
    return band_height(height, allowance, cloth, chalked)
