"""The skirt is as wide as the hip where the hip is."""

from drafting.contract.judging import Way, Words, fixed
from drafting.contract.set_out import SetOut
from drafting.problems import Check

ID = "room_at_hip"
ORDER = 23


def judge(draft: SetOut, words: Words) -> Check | None:
    """Warns where the ring at the level of the hip is narrower than the hip; the waist is let out for it."""
    value, limit = draft.facts["hip_ring"], draft.body.hip_girth
    if value >= limit - 0.5:
        says = f"At the level of the hip the skirt is {words(value)} round, and the hip {words(limit)}."
        return Check(ID, "pass", says, value, limit)
    says = f"At the level of the hip the skirt is {words(limit - value)} narrower than the hip."
    return Check(ID, "warn", says, value, limit)


WAYS: tuple[Way, ...] = (fixed("style.circle", "half", "Cut half a circle."),)
