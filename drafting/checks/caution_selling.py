"""Caution: garments that are sold."""

from drafting.contract.judging import Way, Words
from drafting.contract.set_out import SetOut
from drafting.problems import Check

ID = "selling"
ORDER = 85
WAYS: tuple[Way, ...] = ()


def judge(draft: SetOut, words: Words) -> Check | None:
    """Always shown, once (ISO 3758; EU 1007/2011; 16 CFR 1610)."""
    says = (
        "A garment that is sold needs labels for its fibre and its care. Ask a licensed adviser what the law of your "
        "country asks for."
    )
    return Check(ID, "caution", says, unit="", rules="ISO 3758, EU 1007/2011 and US 16 CFR 1610")
