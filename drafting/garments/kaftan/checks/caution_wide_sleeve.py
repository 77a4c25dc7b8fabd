"""Caution: wide sleeves and loose hems near fire and machines."""

from drafting.contract.judging import Way, Words
from drafting.contract.set_out import SetOut
from drafting.problems import Check

ID = "wide_sleeve"
ORDER = 82
WAYS: tuple[Way, ...] = ()
#: Shown from this much more than the wrist at the sleeve's end, where that lies below the elbow. Our choice, less than
#: on a knit: woven cloth does not cling.
LOOSE_FROM = 150.0


def judge(draft: SetOut, words: Words) -> Check | None:
    """Shown for loose sleeve ends below the elbow (ISO/TR 9240 on clothing burns)."""
    long_enough = draft.choices.sleeve_length > 0.5 * draft.body.arm_length
    if not long_enough or draft.facts["sleeve_end_girth"] - draft.body.wrist_girth <= LOOSE_FROM:
        return None
    says = (
        "Keep wide sleeves and loose hems from cookers, candles, open fires and turning machines: loose woven cloth "
        "catches fire easily and burns fast."
    )
    return Check(ID, "caution", says, unit="", rules="ISO/TR 9240")
