"""Caution: the tools on the table."""

from drafting.contract.judging import Way, Words
from drafting.contract.set_out import SetOut
from drafting.problems import Check

ID = "tools"
ORDER = 84
WAYS: tuple[Way, ...] = ()


def judge(draft: SetOut, words: Words) -> Check | None:
    """Always shown, once (common practice, no source)."""
    says = "Close the rotary blade after each cut, count the pins, and test the iron on a scrap."
    return Check(ID, "caution", says, unit="")
