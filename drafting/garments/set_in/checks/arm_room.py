"""The arm must have room in the sleeve under the cap."""

from drafting import sources
from drafting.contract.judging import Words, fixed
from drafting.contract.set_out import SetOut
from drafting.garments.set_in.rules import ARM_ROOM
from drafting.problems import Check

ID = "arm_room"
ORDER = 21


def judge(draft: SetOut, words: Words) -> Check | None:
    """Warns where the sleeve is tighter under the arm than the fit asks for."""
    value = draft.facts["cap_width"]
    limit = draft.body.upper_arm_girth + ARM_ROOM[draft.choices.fit] * sources.scale(draft.body.stature)
    if value >= limit - 0.5:
        return Check(ID, "pass", f"The sleeve is {words(value)} round under the arm.", value, limit)
    says = f"Under the arm the sleeve is {words(limit - value)} tighter than a {draft.choices.fit} fit asks for."
    return Check(ID, "warn", says, value, limit)


WAYS = (fixed("style.fit", "close", "Choose a closer fit."), fixed("style.fit", "regular", "Choose the regular fit."))
