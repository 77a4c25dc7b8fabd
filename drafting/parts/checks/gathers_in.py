"""The waist edge is not so much longer than what holds it that it cannot be drawn in."""

from drafting import sources
from drafting.contract.judging import Words, fixed
from drafting.contract.set_out import SetOut
from drafting.parts.judged import MORE_ACROSS
from drafting.problems import Check

ID = "gathers_in"
ORDER = 23


def judge(draft: SetOut, words: Words) -> Check | None:
    """Stops where the edge is more than 1.5 times as long as the elastic, or as the band that holds by itself.

    Says nothing of one that can be drawn in, of which `gather` says how far.
    """
    most = sources.GATHERED[1]
    value, limit = 100 * (draft.facts["gathered"] - 1), 100 * (most - 1)
    if value <= limit + 1e-4:
        return None
    says = (
        f"The waist edge is {value:.0f} % longer than what holds it, too much to be drawn in. It would need "
        "darts or an opening, which this garment has not."
    )
    return Check(ID, "stop", says, value, limit, "%")


WAYS = (
    fixed("style.waistband", "casing", "Sew a waistband with elastic, as long as the waist edge."),
    MORE_ACROSS,
)
