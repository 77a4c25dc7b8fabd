"""A waistband: a band of jersey or rib that holds by itself, or a casing with elastic. Finished millimetres.

It must hold the waist and pass over the hip. A band in proportion to a waist seam that the hip has set would slide
down, so a band that holds by itself goes by the waist of the body. Where that does not pass over the hip the band is a
casing, as long as the seam, and the elastic in it holds.
"""

import math
from dataclasses import dataclass
from typing import Final, Protocol

from drafting import sources
from drafting.cloth import ClothFacts, passing_factor
from drafting.contract.chalked_line import ChalkedLine
from drafting.parts.band import Band, BandMark, quarter_marks
from drafting.parts.reading import Length, StyleReader
from drafting.parts.rib import band_stretch, other_cloth
from drafting.person.measures import Body
from drafting.person.passing import hip_needs

#: Finished height of the waistband when none is given, grown and child, and what may be asked. Our choice.
BAND_HEIGHT: Final = 40.0
BAND_HEIGHT_CHILD: Final = 30.0
BAND_HEIGHTS: Final = (20.0, 80.0)
#: The name of its piece.
WAISTBAND: Final = "waistband"


class WaistbandChoices(Protocol):
    """What a style says about its waistband, mm."""

    @property
    def waistband(self) -> str:
        """Whether it holds by itself ("jersey"), is a casing, or is left to the draft ("auto")."""

    @property
    def band_height(self) -> float:
        """Its finished height."""

    @property
    def band_height_given(self) -> bool:
        """Whether that height was asked for."""

    @property
    def rib(self) -> float | None:
        """The stretch of the rib that it is cut of; None where it is cut of the garment's cloth."""


@dataclass(frozen=True, slots=True)
class Elastic:
    """Elastic in a casing: its length round the waist, its width, mm, and by what share it must stretch."""

    length: float
    wide: float
    stretch: float

    @property
    def cut(self) -> float:
        """Its length with what its ends overlap."""
        return self.length + sources.ELASTIC_JOINED


@dataclass(frozen=True, slots=True)
class Waistband:
    """What holds a garment at the waist: the band, and the elastic in it where it is a casing."""

    band: Band
    elastic: Elastic | None

    @property
    def holds(self) -> float:
        """Length of what lies round the waist and holds it, mm."""
        return self.band.length if self.elastic is None else self.elastic.length


def read_band_height(read: StyleReader, given: Length | None, body: Body) -> tuple[float, bool]:
    """The finished height of the waistband, mm, and whether it was asked for."""
    usual = BAND_HEIGHT_CHILD if body.kind == "child" else BAND_HEIGHT
    height = read.maybe("waistband_height", given, *BAND_HEIGHTS)
    return (usual, False) if height is None else (height, True)


def band_alone(body: Body) -> float:
    """The finished length of a band that holds by itself, mm."""
    return sources.WAISTBAND_RATIO * body.waist_girth


def elastic_of(body: Body, height: float, ratio: float = sources.ELASTIC_RATIO) -> Elastic:
    """The elastic of a casing of this finished height; `ratio` is its length as a share of the waist."""
    length = ratio * body.waist_girth
    return Elastic(length, height - sources.ELASTIC_ROOM, max(0.0, hip_needs(body) / length - 1))


def chalked_band(length: float, allowance: float, cloth: ClothFacts, chalked: ChalkedLine) -> float:
    """The length of a band as it comes of its reading in the finest steps of the tape, finished, mm."""
    fine = ChalkedLine(chalked.tape.finest, chalked.line)
    return 2 * fine.chalked(length / 2, allowance, cloth.shrink_across)


def band_passes(
    body: Body, cloth: ClothFacts, allowance: float, chalked: ChalkedLine, rib: float | None = None
) -> bool:
    """Whether a band that holds by itself goes over the hip by its own stretch, as drafted and as chalked."""
    drafted = band_alone(body)
    length = min(drafted, chalked_band(drafted, allowance, cloth, chalked))
    return length * passing_factor(band_stretch(rib, cloth)) >= hip_needs(body)


def whole_height(choices: WaistbandChoices, cloth: ClothFacts, allowance: float, chalked: ChalkedLine) -> float:
    """The finished height; one left to us is raised so that both halves are cut a whole step of the tape high."""
    if choices.band_height_given:
        return choices.band_height
    step, grown = chalked.tape.finest.size, 1 / (1 - cloth.shrink_along)
    half = choices.band_height * grown + allowance
    return (math.ceil(half / step - 1e-6) * step - allowance) / grown


def waistband(
    body: Body,
    choices: WaistbandChoices,
    cloth: ClothFacts,
    seam: float,
    allowance: float,
    chalked: ChalkedLine,
    marks: tuple[BandMark, ...] = (),
    ratio: float = sources.ELASTIC_RATIO,
    garment: str = "skirt",
) -> Waistband:
    """The waistband that was asked for; left to us, one that holds by itself where it passes over the hip.

    `seam` is the girth of the waist seam, with the allowance that lies along it; `marks` are where the band is pinned,
    and its quarters where none are given. `ratio` is the length of the elastic as a share of the waist, `garment` what
    it holds.
    """
    alone = choices.waistband == "jersey"
    if choices.waistband == "auto":
        alone = band_passes(body, cloth, allowance, chalked, choices.rib)
    height = whole_height(choices, cloth, allowance, chalked)
    band = Band(
        WAISTBAND, "Waistband", f"the waist of the {garment}", seam, (band_alone(body) if alone else seam) / seam,
        height, allowance, allowance, marks or quarter_marks(seam), other_cloth=other_cloth(choices.rib),
    )  # fmt: skip
    return Waistband(band, None if alone else elastic_of(body, height, ratio))
