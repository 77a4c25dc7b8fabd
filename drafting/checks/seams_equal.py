"""Seams that are sewn together are equally long, and their notches meet. Never missed.

If it is, the draft is at fault.
"""

from drafting import sources
from drafting.checks import Way, Words
from drafting.garments import SetOut
from drafting.problems import Check

ID = "seams_equal"
ORDER = 70
WAYS: tuple[Way, ...] = ()


def judge(draft: SetOut, words: Words) -> Check | None:
    """Compares each seam with the one it is sewn to, less the stated ease, and their notches."""
    by_name = {piece.name: piece for piece in draft.pieces}
    worst = 0.0
    for piece in draft.pieces:
        for edge in piece.edges:
            if edge.sewn_to is None:
                continue
            other = next(e for e in by_name[edge.sewn_to[0]].edges if e.name == edge.sewn_to[1])
            if other.stitch is not edge.stitch:
                worst = max(worst, abs(edge.stitch.length() - other.stitch.length() - edge.ease))
        ours = [(n.seam, n.id, n.at) for n in piece.notches]
        for other_piece in draft.pieces:
            theirs = {(n.seam, n.id): n.at for n in other_piece.notches}
            worst = max([worst, *(abs(at - theirs[s, i]) for s, i, at in ours if (s, i) in theirs)])
    if worst > sources.EQUAL_WITHIN:
        says = f"Seams or notches that are sewn together are {words(worst)} apart."
        return Check(ID, "stop", says, worst, sources.EQUAL_WITHIN)
    return Check(ID, "pass", "Seams that are sewn together are equally long.", worst, sources.EQUAL_WITHIN)
