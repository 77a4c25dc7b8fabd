"""The waistband of `circle_skirt`: a band of jersey or rib that holds by itself, or a casing with elastic."""

import math
from dataclasses import dataclass
from typing import Final

from drafting.cloth import ClothFacts, passing_factor
from drafting.contract.chalked_line import ChalkedLine
from drafting.garments.circle_skirt.panel import Ring, hip_needs, shares
from drafting.garments.circle_skirt.style import Choices
from drafting.parts.band import Band, BandMark, quarter_marks
from drafting.parts.rib import band_stretch, other_cloth
from drafting.person.measures import Body

#: A band of jersey as a share of the waist of the body, so that it holds. Our choice: between the 0.90 and 0.95 that
#: are common practice; a band of that share of a waist seam which the hip has set is longer than the waist, and slides
#: down.
JERSEY_RATIO: Final = 0.92
#: Elastic as a share of the waist. Common practice, no source.
ELASTIC_RATIO: Final = 0.90
#: Elastic is so much narrower than its casing, and is joined over this length, mm. Common practice, no source.
ELASTIC_ROOM: Final = 5.0
ELASTIC_JOINED: Final = 20.0


@dataclass(frozen=True, slots=True)
class Waistband:
    """What holds the skirt: the band, and its elastic where it is a casing, mm."""

    band: Band
    jersey: bool
    elastic: float
    elastic_wide: float
    elastic_stretch: float

    @property
    def elastic_cut(self) -> float:
        """Length of the elastic with what its ends overlap."""
        return self.elastic + ELASTIC_JOINED


def jersey_length(body: Body) -> float:
    """The finished length of a band of jersey, mm."""
    return JERSEY_RATIO * body.waist_girth


def chalked_band(length: float, allowance: float, cloth: ClothFacts, chalked: ChalkedLine) -> float:
    """The length of a band as it comes of its reading in the finest steps of the tape, finished, mm."""
    fine = ChalkedLine(chalked.tape.finest, chalked.line)
    return 2 * fine.chalked(length / 2, allowance, cloth.shrink_across)


def band_passes(
    body: Body, cloth: ClothFacts, allowance: float, chalked: ChalkedLine, rib: float | None = None
) -> bool:
    """Whether a band that holds by itself goes over the hip by its own stretch, as drafted and as chalked."""
    drafted = jersey_length(body)
    length = min(drafted, chalked_band(drafted, allowance, cloth, chalked))
    return length * passing_factor(band_stretch(rib, cloth)) >= hip_needs(body)


def _height(choices: Choices, cloth: ClothFacts, allowance: float, chalked: ChalkedLine) -> float:
    """The finished height; one left to us is raised so that both halves are cut a whole step of the tape high."""
    if choices.band_height_given:
        return choices.band_height
    step, grown = chalked.tape.finest.size, 1 / (1 - cloth.shrink_along)
    half = choices.band_height * grown + allowance
    return (math.ceil(half / step - 1e-6) * step - allowance) / grown


def waistband(body: Body, choices: Choices, cloth: ClothFacts, ring: Ring, chalked: ChalkedLine) -> Waistband:
    """The waistband that was asked for; left to us, jersey where it passes over the hip and else a casing."""
    jersey = choices.waistband == "jersey"
    if choices.waistband == "auto":
        jersey = band_passes(body, cloth, ring.waist, chalked, choices.rib)
    length = jersey_length(body) if jersey else ring.seam
    height = _height(choices, cloth, ring.waist, chalked)
    marks = tuple(
        BandMark(f"seam_{number}", "seam of the panels", share * ring.seam)
        if seam
        else BandMark(f"middle_{number}", "middle of a panel", share * ring.seam)
        for number, (share, seam) in enumerate(shares(ring.panels), start=1)
    )  # fmt: skip
    band = Band(
        "waistband", "Waistband", "the waist of the skirt", ring.seam, length / ring.seam, height,
        ring.waist, ring.waist, marks or quarter_marks(ring.seam), other_cloth=other_cloth(choices.rib),
    )  # fmt: skip
    elastic = 0.0 if jersey else ELASTIC_RATIO * body.waist_girth
    stretch = 0.0 if jersey else max(0.0, hip_needs(body) / elastic - 1)
    return Waistband(band, jersey, elastic, height - ELASTIC_ROOM, stretch)
