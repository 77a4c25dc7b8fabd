"""What holds leggings and trousers at the waist: a band, or a casing that is turned in, and the elastic in it."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from drafting import sources
from drafting.cloth import ClothFacts
from drafting.contract.chalked_line import ChalkedLine
from drafting.contract.seams import EdgeRun, Seam
from drafting.parts.band import Band, BandMark, band_end_seam, band_seam
from drafting.parts.legs.style import TURNED, LegChoices
from drafting.parts.waistband import Elastic, Waistband, chalked_band, elastic_of, waistband, whole_height
from drafting.person.measures import Body


@dataclass(frozen=True, slots=True)
class Held:
    """The band and the elastic, where there are; `casing` is the height of either, `ring` the girth of the waist edge.

    `allowance` is what lies beyond the stitching at the waist, mm.
    """

    ring: float
    waistband: Waistband | None
    elastic: Elastic | None
    casing: float
    allowance: float

    @property
    def band(self) -> Band | None:
        """The band that is sewn to the waist, where there is one."""
        return None if self.waistband is None else self.waistband.band

    @property
    def along_edge(self) -> float:
        """The allowance along the waist edge: of a casing that is turned in, with the casing."""
        return self.allowance if self.band is not None else self.allowance + self.casing

    @property
    def called(self) -> str:
        """What is at the waist."""
        return "casing" if self.band is None else "waistband"

    @property
    def holds(self) -> float:
        """Length of what lies round the waist and holds."""
        if self.elastic is not None:
            return self.elastic.length
        assert self.band is not None, "what has no elastic has a band"
        return self.band.length


def held(
    body: Body, choices: LegChoices, cloth: ClothFacts, chalked: ChalkedLine, ring: float, behind: float, garment: str
) -> Held:  # fmt: skip
    """What holds a waist edge of this girth; `behind` is its length from the centre back to a side, on one leg."""
    if choices.waistband == TURNED:  # an allowance does not grow with what the cloth will lose
        height = whole_height(choices, replace(cloth, shrink_along=0.0), choices.waist, chalked)
        return Held(ring, None, elastic_of(body, height, sources.SKIRT_ELASTIC_RATIO), height, choices.waist)
    marks = (BandMark("side", "side", behind),)
    made = waistband(body, choices, cloth, ring, choices.waist, chalked, marks, sources.SKIRT_ELASTIC_RATIO, garment)
    return Held(ring, made, made.elastic, made.band.height, choices.waist)


def held_seams(found: Held, edges: Sequence[EdgeRun]) -> tuple[Seam, ...]:
    """The band to the waist edges, from its fold to its seam, and to itself; nothing without a band."""
    return () if found.band is None else (band_seam(found.band, edges), band_end_seam(found.band))


def band_as_chalked(found: Held, cloth: ClothFacts, chalked: ChalkedLine) -> dict[str, float]:
    """The length of the band as a tape chalks it, as a fact; nothing without a band."""
    if found.band is None:
        return {}
    return {"band_chalked": chalked_band(found.band.length, found.band.end_allowance, cloth, chalked)}
