"""The tightest inward curve of the cut line must be possible to cut."""

from drafting import sources
from drafting.contract.judging import Way, Words, length_of, millimetres
from drafting.contract.set_out import SetOut
from drafting.parts.judged import NECK_BEND, large_blade_fails, snips
from drafting.problems import Check

ID = "cut_radius"
ORDER = 45


def judge(draft: SetOut, words: Words) -> Check | None:
    """Warns when shears or a 28 mm blade cannot follow the neck or the armhole; says when only a 45 mm blade cannot."""
    facts = draft.facts
    neck = facts["neck_radius"] - facts["neck_allowance"], NECK_BEND
    armhole = facts["armhole_radius"] - facts["armhole_allowance"], sources.CUT_RADIUS["shears"]
    for radius, least in (neck, armhole):
        if radius < least - 0.05:
            return snips(ID, radius, least, words)
    value, limit = min(neck, armhole)
    if value < sources.CUT_RADIUS["rotary 45"]:
        return large_blade_fails(ID, value, limit, words)
    return Check(ID, "pass", "Every curve can be cut with shears or a rotary blade.", min(value, 9999.0), limit)


WAYS = (
    Way(
        "style.allowances.neck",
        lambda draft: (millimetres(6.0),),
        lambda value, words: f"Take an allowance of {words(length_of(value))} at the neck edge.",
    ),
    Way(
        "style.allowances.armhole",
        lambda draft: (millimetres(7.0),),
        lambda value, words: f"Take an allowance of {words(length_of(value))} at armhole and cap.",
    ),
)
