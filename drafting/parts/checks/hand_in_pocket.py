"""The opening of a pocket must let the hand in."""

from drafting.contract.judging import Way, Words, fixed
from drafting.contract.set_out import SetOut
from drafting.parts.pouch import OPENING_LEAST
from drafting.problems import Check

ID = "hand_in_pocket"
ORDER = 27
NO_POCKETS = fixed("style.pockets", "none", "Leave the pockets out.")
WAYS: tuple[Way, ...] = (fixed("style.pouch", "none", "Leave the pouch out."), NO_POCKETS)
#: The facts that it judges, each with what it is called.
OPENINGS = {"pouch_opening": "the pouch", "pocket_opening": "the pockets"}


def judge(draft: SetOut, words: Words) -> Check | None:
    """Warns where an opening is shorter than half the hand and 3.5 cm; says nothing without a pocket."""
    found = [(draft.facts[fact], what) for fact, what in OPENINGS.items() if fact in draft.facts]
    if not found:
        return None
    (value, what), limit = min(found), draft.body.hand_girth / 2 + OPENING_LEAST
    if value >= limit - 1e-6:
        says = f"Each opening of {what} is {words(value)} long; the hand needs {words(limit)}."
        return Check(ID, "pass", says, value, limit)
    says = f"Each opening of {what} is {words(limit - value)} too short for the hand."
    return Check(ID, "warn", says, value, limit)
