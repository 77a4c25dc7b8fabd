"""Enough shoulder must be left beside the neck, since the poncho hangs from it."""

from drafting.contract.judging import Words, fixed
from drafting.contract.set_out import SetOut
from drafting.parts.judged import MUCH_MORE_ACROSS, shoulder_left
from drafting.problems import Check

ID = "shoulder_run"
ORDER = 11


def judge(draft: SetOut, words: Words) -> Check | None:
    """Stops when the neck, made wide enough for the head, leaves less shoulder than holds it."""
    return shoulder_left(ID, draft.facts["shoulder_run"], draft.facts["shoulder_run_least"], words)


WAYS = (
    MUCH_MORE_ACROSS,
    fixed("style.neck", "round", "Choose a round neck, which is narrower than a boat.", rank=2),
    fixed("style.neck", "v", "Choose a V neck, which is deep instead of wide.", rank=2),
)
