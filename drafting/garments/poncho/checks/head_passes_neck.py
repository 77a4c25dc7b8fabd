"""The head must pass the neck at 80 % of the stretch."""

from drafting.contract.judging import Words
from drafting.contract.set_out import SetOut
from drafting.parts.judged import MORE_ACROSS, head_passes
from drafting.problems import Check

ID = "head_passes_neck"
ORDER = 10


def judge(draft: SetOut, words: Words) -> Check | None:
    """Stops when the head, with what it needs beside its girth, does not pass the neck."""
    return head_passes(ID, draft, draft.facts["head_ring"], words)


WAYS = (MORE_ACROSS,)
