"""Caution: trouser hems that trail."""

from drafting import sources
from drafting.contract.judging import Way, Words
from drafting.contract.set_out import SetOut
from drafting.problems import Check

ID = "trailing_hem"
ORDER = 83
WAYS: tuple[Way, ...] = ()


def judge(draft: SetOut, words: Words) -> Check | None:
    """Shown for a loose hem that lies lower than the ankle (common practice, no source)."""
    low = draft.facts["hem_above_floor"] < sources.ANKLE_SHARE * draft.body.stature - sources.EQUAL_WITHIN
    if not low or draft.facts["leg_end"] <= draft.body.heel_girth:
        return None
    says = (
        "A hem that trails trips the wearer: try it on with the shoes that go with it before you hem it, and take care "
        "on stairs, bicycles and escalators."
    )
    return Check(ID, "caution", says, unit="")
