"""Caution: long or narrow hems."""

from drafting.contract.judging import Way, Words
from drafting.contract.set_out import SetOut
from drafting.problems import Check

ID = "long_hem"
ORDER = 83
WAYS: tuple[Way, ...] = ()
#: Shown when the hem is nearer the floor than this share of stature. Our choice: the middle of the calf.
NEAR_FLOOR_SHARE = 0.17


def judge(draft: SetOut, words: Words) -> Check | None:
    """Shown for hems near the floor and for hems narrower than a step (common practice, no source)."""
    near = draft.facts["hem_above_floor"] < NEAR_FLOOR_SHARE * draft.body.stature
    narrow = draft.facts["slit_needed"] > 0
    if not near and not narrow:
        return None
    says = "A long or narrow hem can trip the wearer. Take care on stairs, bicycles and escalators."
    if draft.facts["slit"] > 0:
        says = (
            "A long or narrow hem can trip the wearer. Take care on stairs, bicycles and escalators, and do not sew "
            "the slits shut."
        )
    return Check(ID, "caution", says, unit="")
