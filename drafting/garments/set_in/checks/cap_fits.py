"""The cap is as long as its armholes and its ease, and lies on them near the underarm."""

from drafting.contract.judging import Way, Words
from drafting.contract.set_out import SetOut
from drafting.garments.set_in.rules import CAP_WITHIN, LIES_WITHIN
from drafting.problems import Check

ID = "cap_fits"
ORDER = 23
WAYS: tuple[Way, ...] = ()


def judge(draft: SetOut, words: Words) -> Check | None:
    """Stops where a half of the cap is off its armhole by over 1 mm; a note where it lies over 1.5 cm off it."""
    off, gap = draft.facts["cap_off"], draft.facts["cap_gap"]
    if off > CAP_WITHIN:
        says = f"The cap of the sleeve is {words(off)} off what its armhole needs."
        return Check(ID, "stop", says, off, CAP_WITHIN)
    if gap > LIES_WITHIN:
        says = f"Near the underarm the cap of the sleeve lies {words(gap)} off the armhole: ease it in there."
        return Check(ID, "shown", says, gap, LIES_WITHIN)
    return Check(ID, "pass", "The cap of the sleeve fits its armholes.", gap, LIES_WITHIN)
