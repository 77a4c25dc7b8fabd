"""What reading a tape in steps does to the girths: each is measured along the exact marks and along the chalked ones.

Both are joined straight from mark to mark, each mark where its two readings put it, and along the arc where the tape is
swung. A hand that rules and sweeps
through the marks sees nothing of the curve that was meant between them, so the true curve shifted with its marks would
show dents that nobody draws; and what straight joins cut off a bend is the same in both and cancels. The chalked line
is measured as it lies: a seam keeps its allowance from it, so it moves alike.
"""

from collections.abc import Sequence
from dataclasses import replace

from drafting.chalk.marks import ChalkPlan, PieceMarks
from drafting.chalk.swung import line_of
from drafting.checks import ChalkedRing
from drafting.cloth import ClothFacts
from drafting.contract.girths import FinishedGirth, MarkedPiece, Run
from drafting.contract.pieces import Piece


def after_rounding(
    girths: Sequence[FinishedGirth], pieces: Sequence[Piece], plan: ChalkPlan, cloth: ClothFacts
) -> tuple[FinishedGirth, ...]:
    """The girths as they come out when the marks of a plan lie where the tape's steps put them, mm."""
    return as_marked(girths, pieces, plan.pieces, cloth)


def rings(
    girths: Sequence[FinishedGirth], pieces: Sequence[Piece], marks: Sequence[PieceMarks], cloth: ClothFacts
) -> tuple[ChalkedRing, ...]:
    """The rings that something must pass, each as far as it opens as drafted and as chalked."""
    return tuple(
        ChalkedRing(
            girth.label, girth.passes.what, girth.passes.needs, girth.passes.opened(girth.girth),
            girth.passes.opened(girth.after_rounding),
        )
        for girth in as_marked([one for one in girths if one.passes is not None], pieces, marks, cloth)
        if girth.passes is not None
    )  # fmt: skip


def as_marked(
    girths: Sequence[FinishedGirth], pieces: Sequence[Piece], marks: Sequence[PieceMarks], cloth: ClothFacts
) -> tuple[FinishedGirth, ...]:
    """The girths as they come out when these marks lie where the tape's steps put them, mm.

    Each is measured as its garment says, over every piece that it runs over. What changes from the exact marks to the
    chalked ones is added to the true girth.
    """
    scale = 1 - cloth.shrink_across, 1 - cloth.shrink_along
    marked = {}
    for piece, chalked in zip(pieces, marks, strict=True):
        line = line_of(chalked.marks)
        run = Run(
            tuple(place.id for place in line),
            tuple(place.exact.scaled(*scale) for place in line),
            tuple(place.chalked.scaled(*scale) for place in line),
        )
        marked[piece.name] = MarkedPiece(piece, run, scale)
    return tuple(
        replace(girth, after_rounding=girth.girth + (girth.chalked.change(marked) if girth.chalked else 0.0))
        for girth in girths
    )
