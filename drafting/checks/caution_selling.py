"""Caution: garments that are sold."""

from drafting.checks import Way, Words
from drafting.garments import SetOut
from drafting.problems import Check

ID = "selling"
ORDER = 85
WAYS: tuple[Way, ...] = ()


def judge(draft: SetOut, words: Words) -> Check | None:
    """Always shown, once (ISO 3758; EU 1007/2011; 16 CFR 1610)."""
    says = (
        "What is sold needs fibre and care labels (ISO 3758; EU 1007/2011; 16 CFR 1610): local law and "
        "a licensed adviser decide."
    )
    return Check(ID, "caution", says, unit="")
