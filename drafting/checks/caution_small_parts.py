"""Caution: the closure of an opening on a garment for a small child."""

from drafting import sources
from drafting.contract.judging import Way, Words
from drafting.contract.set_out import SetOut
from drafting.problems import Check

ID = "small_parts"
ORDER = 80
WAYS: tuple[Way, ...] = ()


def judge(draft: SetOut, words: Words) -> Check | None:
    """Shown where an opening for a child under three years is closed by something that might come off."""
    body = draft.body
    if body.kind != "child" or body.age is None or body.age >= sources.SMALL_PARTS_UNDER or not draft.closed_by_hand:
        return None
    says = (
        "Under 3 years nothing small may come off the closure: take a snap that is pressed through the cloth, and pull "
        "hard at it before each wear."
    )
    return Check(ID, "caution", says, unit="")
