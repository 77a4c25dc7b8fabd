"""Caution: children's waists."""

from drafting.contract.judging import Way, Words
from drafting.contract.set_out import SetOut
from drafting.problems import Check

ID = "child_waist"
ORDER = 80
WAYS: tuple[Way, ...] = ()


def judge(draft: SetOut, words: Words) -> Check | None:
    """Shown for every child (EN 14682, which allows no loose ends of cord behind; from memory)."""
    if draft.body.kind != "child":
        return None
    says = (
        "Draw no cord through a child's waistband, and tie nothing behind. Elastic that is sewn in is no cord. The "
        "rules of your country come first."
    )
    return Check(ID, "caution", says, unit="", rules="EN 14682")
