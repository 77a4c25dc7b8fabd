"""A cap that rises steeply wants to be eased in, which a knit does not need."""

import math

from drafting.contract.judging import Words, fixed
from drafting.contract.set_out import SetOut
from drafting.garments.drop_shoulder.rules import CAP_STEEP
from drafting.problems import Check

ID = "cap_slope"
ORDER = 23


def judge(draft: SetOut, words: Words) -> Check | None:
    """Warns over 30 degrees at the steepest place."""
    value, limit = math.degrees(draft.facts["cap_slope"]), math.degrees(CAP_STEEP)
    if value <= limit:
        return Check(ID, "pass", "The cap of the sleeve is flat enough to be sewn in flat.", value, limit, "deg")
    says = f"The cap of the sleeve rises by over {limit:.0f} degrees at its steepest, so it is hard to sew in flat."
    return Check(ID, "warn", says, value, limit, "deg")


WAYS = (fixed("style.cap_height", "auto", "Let the height of the cap be worked out."),)
