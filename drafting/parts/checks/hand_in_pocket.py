"""The opening of a pouch must let the hand in."""

from drafting.contract.judging import Way, Words, fixed
from drafting.contract.set_out import SetOut
from drafting.parts.pouch import OPENING_LEAST
from drafting.problems import Check

ID = "hand_in_pocket"
ORDER = 27
WAYS: tuple[Way, ...] = (fixed("style.pouch", "none", "Leave the pouch out."),)


def judge(draft: SetOut, words: Words) -> Check | None:
    """Warns where an opening is shorter than half the hand and 3.5 cm; says nothing without a pouch."""
    if "pouch_opening" not in draft.facts:
        return None
    value, limit = draft.facts["pouch_opening"], draft.body.hand_girth / 2 + OPENING_LEAST
    if value >= limit - 1e-6:
        says = f"Each opening of the pouch is {words(value)} long; the hand needs {words(limit)}."
        return Check(ID, "pass", says, value, limit)
    says = f"Each opening of the pouch is {words(limit - value)} too short for the hand."
    return Check(ID, "warn", says, value, limit)
