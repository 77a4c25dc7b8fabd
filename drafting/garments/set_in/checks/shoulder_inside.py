"""Broad shoulders beside a narrow back or chest end farther inside the shoulder point than usual."""

from drafting import sources
from drafting.contract.judging import Words, fixed
from drafting.contract.set_out import SetOut
from drafting.garments.set_in.rules import SHOULDER_INSIDE, TOLD_FROM
from drafting.problems import Check

ID = "shoulder_inside"
ORDER = 51


def judge(draft: SetOut, words: Words) -> Check | None:
    """Says so where the seam ends over half a centimetre farther in than usual."""
    value = draft.body.shoulder_width / 2 - draft.points["shoulder_end"].x
    limit = SHOULDER_INSIDE * sources.scale(draft.body.stature) + TOLD_FROM
    if value <= limit + 1e-6:
        return Check(ID, "pass", "The shoulder seam ends just inside the shoulder point.", value, limit)
    says = f"The shoulder seam ends {words(value)} inside the shoulder point, since the shoulders are broad here."
    return Check(ID, "shown", says, value, limit)


WAYS = (
    fixed("style.fit", "regular", "Choose the regular fit."),
    fixed("style.fit", "loose", "Choose the loose fit."),
    fixed("style.ease_bust", "auto", "Let the ease at the bust be worked out."),
)
