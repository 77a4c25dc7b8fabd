"""The waist is cut along an inward curve that shears or a blade must follow."""

from drafting import sources
from drafting.contract.judging import Way, Words, fixed
from drafting.contract.set_out import SetOut
from drafting.problems import Check

ID = "waist_can_be_cut"
ORDER = 40


def judge(draft: SetOut, words: Words) -> Check | None:
    """Warns where the circle of the waist is too small for shears or a blade of 45 mm."""
    value, limit = draft.facts["waist_cut_radius"], sources.CUT_RADIUS["rotary 45"]
    if value >= limit:
        return Check(ID, "pass", f"The waist is cut along a circle of {words(value)} radius.", value, limit)
    says = f"The waist is cut along a circle of {words(value)} radius: cut it with shears, or with a blade of 28 mm."
    return Check(ID, "warn", says, value, limit)


WAYS: tuple[Way, ...] = (fixed("style.circle", "half", "Cut half a circle."),)
