"""The tightest inward curve of the cut line must be possible to cut."""

from drafting import sources
from drafting.contract.judging import Way, Words, fixed, length_of, millimetres
from drafting.contract.set_out import SetOut
from drafting.parts.judged import large_blade_fails, snips
from drafting.problems import Check

ID = "cut_radius"
ORDER = 45


def judge(draft: SetOut, words: Words) -> Check | None:
    """Warns when shears or a 28 mm blade cannot follow; says when only a 45 mm blade cannot."""
    facts = draft.facts
    radii = [
        facts["column_radius"] - facts["shoulder_allowance"],
        facts.get("underarm_radius", facts.get("cap_radius", float("inf"))) - facts["side_allowance"],
        facts["turn_radius"] - facts["side_allowance"],
    ]
    value = min(*radii, 9999.0)
    limit = sources.CUT_RADIUS["shears"]
    if value < limit - 0.05:
        return snips(ID, value, limit, words)
    if value < sources.CUT_RADIUS["rotary 45"]:
        return large_blade_fails(ID, value, limit, words)
    return Check(ID, "pass", "Every curve can be cut with shears or a rotary blade.", value, limit)


WAYS = (
    Way(
        "style.allowances.shoulder",
        lambda draft: (millimetres(7.0),),
        lambda value, words: f"Take an allowance of {words(length_of(value))} along shoulder and overarm.",
    ),
    Way(
        "style.allowances.side",
        lambda draft: (millimetres(10.0),),
        lambda value, words: f"Take an allowance of {words(length_of(value))} along side and underarm.",
    ),
    Way(
        "style.neck_height",
        lambda draft: (millimetres(100.0),),
        lambda value, words: f"Make the neck {words(length_of(value))} high.",
    ),
    fixed("style.flare", "none", "Choose a sleeve without flare."),
    fixed("style.underarm", "regular", "Choose the regular underarm."),
)
