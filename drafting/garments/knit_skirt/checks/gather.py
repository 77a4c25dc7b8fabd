"""The waist edge is gathered in to the elastic, or to a band that holds by itself: evenly, or in folds."""

from drafting import sources
from drafting.contract.judging import Words, fixed
from drafting.contract.set_out import SetOut
from drafting.parts.judged import MORE_ACROSS
from drafting.problems import Check

ID = "gather"
ORDER = 24


def judge(draft: SetOut, words: Words) -> Check | None:
    """Warns where the edge is more than 1.35 times as long as what holds it, and stops from 1.5 times on."""
    value = 100 * (draft.facts["gathered"] - 1)
    even, most = (100 * (limit - 1) for limit in sources.GATHERED)
    if value <= even + 1e-6:
        says = f"The waist of the skirt is {value:.0f} % longer than what holds it, and is drawn in evenly."
        return Check(ID, "pass", says, value, even, "%")
    if value <= most + 1e-6:
        says = f"The waist of the skirt is {value:.0f} % longer than what holds it, and is seen to be gathered."
        return Check(ID, "warn", says, value, even, "%")
    says = f"The waist of the skirt is {value:.0f} % longer than what holds it: too much to be gathered in."
    return Check(ID, "stop", says, value, most, "%")


WAYS = (fixed("style.fit", "close", "Choose the close fit."), MORE_ACROSS)
