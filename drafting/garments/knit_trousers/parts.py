"""Everything of `knit_trousers` that was set out: what pieces, findings, sewing and picture are made from."""

from dataclasses import dataclass

from drafting.cloth import ClothFacts
from drafting.contract.chalked_line import ChalkedLine
from drafting.garments.knit_trousers.outline import WAIST_CORNERS, Outline
from drafting.garments.knit_trousers.style import Choices
from drafting.parts.legs.findings import Measured
from drafting.parts.legs.held import Held
from drafting.parts.pockets import NO_POCKETS, Pockets
from drafting.person.measures import Body


@dataclass(frozen=True, slots=True)
class Parts:
    """The finished parts, mm; `seams` is the allowance of the seams."""

    body: Body
    choices: Choices
    cloth: ClothFacts
    chalked: ChalkedLine
    outline: Outline
    held: Held
    seams: float
    pockets: Pockets = NO_POCKETS

    @property
    def measured(self) -> Measured:
        """What the outline measures."""
        made = self.outline
        return Measured(
            made.upper.hip, made.thigh, made.hem, made.seat, made.front.inner.length(), made.raised, made.at.crotch,
            WAIST_CORNERS,
        )  # fmt: skip
