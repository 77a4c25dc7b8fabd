"""What the chalk sheet tells, and where each part of it is looked up."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from drafting.chalk.lying import Lying, lyings

if TYPE_CHECKING:
    from drafting.chalk.marks import Belongs, ChalkPlan, Step
    from drafting.cloth import ClothFacts
    from drafting.contract.after_cut import AfterCut
    from drafting.contract.girths import ToldGirth
    from drafting.contract.pieces import FinishedFigure, Piece
    from drafting.layout import Layout
    from drafting.person.measures import Estimate
    from drafting.problems import Adjustment, Check
    from drafting.units import Unit


@dataclass(frozen=True, slots=True)
class ChalkSheet:
    """All that the chalk sheet tells. Lengths in mm; `unit` is the one a person reads sentences in.

    `told` are the measures that a garment told, as words in a sentence. `taken_on` is the date of the measures as
    typed, or None: then a line is left to write it on. `after_cut` is how the garment is sewn, tried on and what it
    takes besides the cloth; None leaves that out. `code` is the text of the QR code that is printed, with what is said
    beside it; "" leaves it out.
    """

    title: str
    person: str
    taken_on: str | None
    unit: Unit
    pieces: tuple[Piece, ...]
    plan: ChalkPlan
    cloth: ClothFacts
    layout: Layout | None = None
    checks: tuple[Check, ...] = ()
    adjusted: tuple[Adjustment, ...] = ()
    finished: tuple[ToldGirth, ...] = ()
    figures: tuple[FinishedFigure, ...] = ()
    estimates: tuple[Estimate, ...] = ()
    told: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    layouts: tuple[Layout, ...] = ()
    after_cut: AfterCut | None = None
    code: str = ""
    code_says: tuple[str, ...] = ()

    @property
    def lying(self) -> tuple[Lying, ...]:
        """How each piece lies, in the order of the pieces."""
        return lyings(self.pieces, self.layout, self.plan.tape)

    def said(self, belongs: Belongs, piece: str | None = None) -> tuple[Step, ...]:
        """The steps that stand in one place of the sheet, of one piece or of all, without those that tables replace."""
        return tuple(
            step for step in self.plan.work if step.belongs == belongs and step.on_paper and piece in {None, step.piece}
        )
