"""Bands that are cut of a rib: another cloth than the garment's, with a stretch of its own.

A rib is chalked and cut like the cloth. It is taken to lose in the wash what the cloth loses, as one sold for the same
cloth does (our choice). Millimetres; stretches are fractions.
"""

import math
from collections.abc import Callable, Sequence
from typing import Final, Literal

from drafting.cloth import ClothFacts, before_shrinking
from drafting.contract.after_cut import ToBuy
from drafting.contract.fields import Chosen, Field, Option
from drafting.parts.band import Band
from drafting.parts.reading import StyleReader
from drafting.parts.sewing import Say
from drafting.problems import Problem

RIB: Final = "rib"
BandCloth = Literal["own", "rib"]
#: What a rib stretches by where nothing is said, and what may be asked for, %. Common practice, no source.
RIB_STRETCH: Final = 80.0
RIB_STRETCH_LIMITS: Final = (20.0, 200.0)
#: A rib is bought with so much to spare, mm: it is cut off crooked and curls. Our choice.
RIB_SPARE: Final = 50.0


def read_rib(read: StyleReader, band_cloth: BandCloth, band_stretch: float | None) -> float | None:
    """The stretch of the rib that the bands are cut of; None where they are cut of the garment's own cloth."""
    if band_stretch is not None and band_cloth != RIB:
        wrong = "this counts only for bands of rib"
        read.problems.append(Problem("style", "style.band_stretch", "warn", wrong, "choose rib, or leave this out"))
    stretch = RIB_STRETCH if band_stretch is None else band_stretch
    low, high = RIB_STRETCH_LIMITS
    if not low <= stretch <= high:
        read.refuse("band_stretch", f"a rib that stretches by {stretch:g} % is out of reach",
                    f"give {low:g} to {high:g} %")  # fmt: skip
    return stretch / 100 if band_cloth == RIB else None


def band_stretch(rib: float | None, cloth: ClothFacts) -> float:
    """How far the bands stretch along their length, which lies across the cloth."""
    return cloth.across if rib is None else rib


def other_cloth(rib: float | None) -> str:
    """What the bands are cut of where that is not the garment's own cloth."""
    return "" if rib is None else RIB


def rib_fields(shown: Callable[[Chosen], bool]) -> tuple[Field, Field]:
    """What is asked where a garment has a band: what it is cut of, and how far a rib stretches."""
    return (
        Field(
            "band_cloth", "choice", "Bands are cut of", (Option("own", "The same cloth"), Option(RIB, "A rib")),
            lambda chosen: "own", shown=shown,
        ),
        Field(
            "band_stretch", "percent", "Stretch of the rib", low=RIB_STRETCH_LIMITS[0],
            high=lambda chosen: RIB_STRETCH_LIMITS[1], usual=lambda chosen: RIB_STRETCH,
            shown=lambda chosen: shown(chosen) and chosen("band_cloth") == RIB,
        ),
    )  # fmt: skip


def rib_to_buy(bands: Sequence[Band], rib: float | None, cloth: ClothFacts, say: Say) -> tuple[ToBuy, ...]:
    """The rib of these bands, which lie side by side and under one another across it; nothing without a rib."""
    if rib is None or not bands:
        return ()
    longs = [before_shrinking(band.length, cloth.shrink_across) + 2 * band.end_allowance for band in bands]
    talls = [2 * (before_shrinking(band.height, cloth.shrink_along) + band.allowance) for band in bands]
    widest = max(longs)
    rows = [math.ceil(band.cut * long / widest) for band, long in zip(bands, longs, strict=True)]
    tall = sum(row * tall for row, tall in zip(rows, talls, strict=True))
    what = f"rib that stretches by {100 * rib:.0f} % or more, at least {say(widest)} wide laid flat and open"
    return (ToBuy(what, tall + RIB_SPARE),)
