"""The skirt gives as much at the hip as sitting down needs."""

from drafting import sources
from drafting.cloth import wearing
from drafting.contract.judging import Words, fixed
from drafting.contract.set_out import SetOut
from drafting.parts.judged import MORE_ACROSS
from drafting.problems import Check

ID = "sits"
ORDER = 25


def judge(draft: SetOut, words: Words) -> Check | None:
    """Warns where the hip at half the stretch of its cloth is less than 1.06 times the hip of the body."""
    value = draft.facts["hip_finished"] * (1 + wearing(draft.cloth.across))
    limit = (1 + sources.SITTING_HIP) * draft.body.hip_girth
    if value >= limit - sources.EQUAL_WITHIN:
        says = f"Sitting down takes {words(limit)} at the hip, and the skirt gives as far as {words(value)}."
        return Check(ID, "pass", says, value, limit)
    says = f"Sitting down takes {words(limit)} at the hip, and the skirt gives only as far as {words(value)}."
    return Check(ID, "warn", says, value, limit)


WAYS = (
    fixed("style.fit", "regular", "Choose the regular fit."),
    fixed("style.fit", "loose", "Choose the loose fit."),
    MORE_ACROSS,
)
