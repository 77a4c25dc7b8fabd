"""Caution: cloth that does not spring back."""

from drafting.contract.judging import Way, Words
from drafting.contract.set_out import SetOut
from drafting.problems import Check

ID = "recovery"
ORDER = 86
WAYS: tuple[Way, ...] = ()


def judge(draft: SetOut, words: Words) -> Check | None:
    """Shown for cloth of fair or poor recovery (common practice, no source).

    Shoulder seams are taped where they carry the garment, and its neck is not, where the head has to pass it.
    """
    if draft.cloth.recovery == "good":
        return None
    if not draft.from_shoulders:
        says = "This cloth does not spring back fully: let the garment hang a day before hemming."
        return Check(ID, "caution", says, unit="")
    says = (
        "This cloth does not spring back fully: sew a tape into each shoulder seam, from the neck to the shoulder "
        "point, and let the garment hang a day before hemming."
    )
    if not draft.closed_by_hand:
        says += " Do not tape the neck: it has to stretch over the head."
    return Check(ID, "caution", says, unit="")
