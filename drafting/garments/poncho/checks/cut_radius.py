"""The tightest inward curve of the cut line must be possible to cut."""

from drafting import sources
from drafting.contract.judging import Way, Words, length_of, millimetres
from drafting.contract.set_out import SetOut
from drafting.problems import Check

ID = "cut_radius"
ORDER = 45


def judge(draft: SetOut, words: Words) -> Check | None:
    """Warns when neither shears nor a small blade can follow the neck."""
    value = min(draft.facts["neck_radius"] - draft.facts["neck_allowance"], 9999.0)
    least = sources.CUT_RADIUS["shears"] / 2  # a short bend of a neck is cut in two snips
    if value < least - 0.05:
        says = f"The tightest curve to cut has a radius of {words(value)}: cut it in small snips with the points."
        return Check(ID, "warn", says, value, least)
    return Check(ID, "pass", "Every curve can be cut with shears or a small rotary blade.", value, least)


WAYS = (
    Way(
        "style.allowances.neck",
        lambda draft: (millimetres(6.0),),
        lambda value, words: f"Take an allowance of {words(length_of(value))} at the neck edge.",
    ),
)
