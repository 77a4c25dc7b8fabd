"""The tightest inward curve of the cut line must be possible to cut."""

from drafting.contract.judging import Way, Words, length_of, millimetres
from drafting.contract.set_out import SetOut
from drafting.parts.judged import NECK_BEND, snips
from drafting.problems import Check

ID = "cut_radius"
ORDER = 45


def judge(draft: SetOut, words: Words) -> Check | None:
    """Warns when neither shears nor a small blade can follow the neck."""
    value = draft.facts["neck_radius"] - draft.facts["neck_allowance"]
    if value < NECK_BEND - 0.05:
        return snips(ID, value, NECK_BEND, words)
    return Check(ID, "pass", "Every curve can be cut with shears or a small rotary blade.", value, NECK_BEND)


WAYS = (
    Way(
        "style.allowances.neck",
        lambda draft: (millimetres(6.0),),
        lambda value, words: f"Take an allowance of {words(length_of(value))} at the neck edge.",
    ),
)
