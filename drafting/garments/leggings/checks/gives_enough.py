"""Leggings want cloth that gives both ways."""

from drafting import sources
from drafting.contract.judging import Words
from drafting.contract.set_out import SetOut
from drafting.parts.judged import MORE_ACROSS, MORE_ALONG
from drafting.problems import Check

ID = "gives_enough"
ORDER = 51


def judge(draft: SetOut, words: Words) -> Check | None:
    """Warns below 40 % of stretch across or 15 % along (common practice, no source)."""
    across, along = (100 * share for share in (draft.cloth.across, draft.cloth.along))
    wide, long = (100 * share for share in sources.LEGGINGS_STRETCH)
    if across < wide - 1e-6:
        says = f"Leggings want cloth that stretches {wide:.0f} % round the leg; this stretches {across:.0f} %."
        return Check(ID, "warn", says, across, wide, "%")
    if along < long - 1e-6:
        says = f"Leggings want cloth that stretches {long:.0f} % lengthwise; this stretches {along:.0f} %."
        return Check(ID, "warn", says, along, long, "%")
    return Check(ID, "pass", "The cloth gives enough both ways.", across, wide, "%")


WAYS = (MORE_ACROSS, MORE_ALONG)
