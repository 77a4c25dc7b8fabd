"""Seams that are sewn together are equally long, and their notches meet. Never missed.

If it is, the draft is at fault.
"""

from drafting import sources
from drafting.contract.judging import Way, Words
from drafting.contract.seams import off
from drafting.contract.set_out import SetOut
from drafting.problems import Check

ID = "seams_equal"
ORDER = 70
WAYS: tuple[Way, ...] = ()


def judge(draft: SetOut, words: Words) -> Check | None:
    """Compares both sides of each seam, less the stated ease, and their notches."""
    pieces = {piece.name: piece for piece in draft.pieces}
    wash = 1 - draft.cloth.shrink_across, 1 - draft.cloth.shrink_along
    worst = max((off(seam, pieces, wash) for seam in draft.seams), default=0.0)
    if worst > sources.EQUAL_WITHIN:
        says = f"Seams or notches that are sewn together are {words(worst)} apart."
        return Check(ID, "stop", says, worst, sources.EQUAL_WITHIN)
    return Check(ID, "pass", "Seams that are sewn together are equally long.", worst, sources.EQUAL_WITHIN)
