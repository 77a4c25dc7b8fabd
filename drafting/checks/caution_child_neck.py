"""Caution: children's necks."""

from drafting.contract.judging import Way, Words
from drafting.contract.set_out import SetOut
from drafting.problems import Check

ID = "child_neck"
ORDER = 80
WAYS: tuple[Way, ...] = ()


def judge(draft: SetOut, words: Words) -> Check | None:
    """Shown for a child, on whatever has a neck (EN 14682; US 16 CFR 1120 and ASTM F1816)."""
    if draft.body.kind != "child" or not draft.from_shoulders:
        return None
    says = "Sew no cords or ties to the neck of a child's garment. The rules of your country come first."
    if draft.body.age is not None and draft.body.age < 3 and not draft.closed_by_hand:
        says += " Under 3 years, open the back of the neck rather than pull it over the head."
    return Check(ID, "caution", says, unit="", rules="EN 14682, US 16 CFR 1120 and ASTM F1816")
