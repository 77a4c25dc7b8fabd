"""Everything of a `knit_skirt` that was set out: what pieces, findings, sewing and picture are made from."""

from dataclasses import dataclass

from drafting.cloth import ClothFacts
from drafting.contract.chalked_line import ChalkedLine
from drafting.garments.knit_skirt.outline import Outline
from drafting.garments.knit_skirt.style import Choices
from drafting.parts.band import Band
from drafting.parts.flounce import Flounce
from drafting.parts.pockets import NO_POCKETS, Pockets
from drafting.parts.waistband import Elastic, Waistband
from drafting.person.measures import Body


@dataclass(frozen=True, slots=True)
class Parts:
    """The finished parts, mm. `waistband` is None where a casing is turned in from the skirt; `slit` is its height."""

    body: Body
    choices: Choices
    cloth: ClothFacts
    chalked: ChalkedLine
    outline: Outline
    waistband: Waistband | None
    elastic: Elastic | None
    casing: float
    slit: float
    allowances: dict[str, float]
    hem_flounce: Flounce | None = None
    pockets: Pockets = NO_POCKETS

    @property
    def band(self) -> Band | None:
        """The band that is sewn to the waist, where there is one."""
        return None if self.waistband is None else self.waistband.band

    @property
    def flounces(self) -> tuple[Flounce, ...]:
        """The flounce at the hem, where there is one."""
        return () if self.hem_flounce is None else (self.hem_flounce,)

    @property
    def turned_in(self) -> float:
        """What is turned in at the waist: the casing and what lies beyond its stitching; 0 with a band."""
        return self.allowances["waist"] if self.waistband is None else 0.0

    @property
    def holds(self) -> float:
        """Length of what lies round the waist and holds the skirt: the elastic, or a band that holds by itself."""
        if self.elastic is not None:
            return self.elastic.length
        assert self.band is not None, "what has no elastic has a band"
        return self.band.length
