"""The head must pass the neck's seam and its band, at 80 % of the stretch."""

from drafting.contract.judging import Words, fixed
from drafting.contract.set_out import SetOut
from drafting.parts.judged import MORE_ACROSS, head_passes
from drafting.problems import Check

ID = "head_passes_neck"
ORDER = 10


def judge(draft: SetOut, words: Words) -> Check | None:
    """Stops when head + 1 cm does not pass the narrower of both as it will be chalked."""
    return head_passes(ID, draft, draft.facts["head_ring"], words)


WAYS = (
    fixed("style.neck_finish", "turned", "Turn the neck edge in instead of a band."),
    MORE_ACROSS,
)
