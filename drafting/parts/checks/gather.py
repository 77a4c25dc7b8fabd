"""The waist edge is drawn in to the elastic, or to a band that holds by itself: evenly, or in gathers that are seen."""

from drafting import sources
from drafting.contract.judging import Words
from drafting.contract.set_out import SetOut
from drafting.parts.checks.gathers_in import WAYS
from drafting.problems import Check

__all__ = ["ID", "ORDER", "WAYS", "judge"]

ID = "gather"
ORDER = 24


def judge(draft: SetOut, words: Words) -> Check | None:
    """Warns where the edge is more than 1.35 times as long as what holds it; one that is stopped for it is left out."""
    even, most = sources.GATHERED
    share = draft.facts["gathered"]
    if share > most + 1e-6:  # `gathers_in` stops it
        return None
    value, limit = 100 * (share - 1), 100 * (even - 1)
    if share <= even + 1e-6:
        says = f"The waist edge is {value:.0f} % longer than what holds it, and is drawn in evenly."
        return Check(ID, "pass", says, value, limit, "%")
    says = f"The waist edge is {value:.0f} % longer than what holds it, so its gathers are seen."
    return Check(ID, "warn", says, value, limit, "%")
