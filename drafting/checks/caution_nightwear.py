"""Caution: children's nightwear."""

from drafting.contract.judging import Way, Words
from drafting.contract.set_out import SetOut
from drafting.problems import Check

ID = "nightwear"
ORDER = 81
WAYS: tuple[Way, ...] = ()


def judge(draft: SetOut, words: Words) -> Check | None:
    """Shown for every child (US 16 CFR 1615 and 1616; UK Nightwear Regulations 1985, BS EN 14878)."""
    if draft.body.kind != "child":
        return None
    says = (
        "This is not checked as children's nightwear, which must resist flames. The rules of your country come first."
    )
    return Check(ID, "caution", says, unit="", rules="US 16 CFR 1615, US 16 CFR 1616 and BS EN 14878")
