"""The curve of the underarm must be round enough to be sewn and to last."""

from drafting import sources
from drafting.contract.judging import Way, Words, fixed
from drafting.contract.set_out import SetOut
from drafting.problems import Check

ID = "underarm_radius"
ORDER = 42


def judge(draft: SetOut, words: Words) -> Check | None:
    """Warns below the allowance and 2 cm, as its clips then open too far."""
    value = draft.facts["corner_radius"]
    limit = draft.facts["side_allowance"] + sources.UNDERARM_RADIUS_SPARE
    if value < limit - 0.05:
        says = f"The curve of the underarm is tight ({words(value)} radius): tape it and clip it well."
        return Check(ID, "warn", says, value, limit)
    return Check(ID, "pass", f"The curve of the underarm has a radius of {words(value)}.", value, limit)


WAYS: tuple[Way, ...] = (
    Way(
        "style.allowances.side",
        lambda draft: ("6.00 mm",),
        lambda value, words: f"Take an allowance of {words(6.0)} at underarm and side.",
    ),
    fixed("style.sleeve_length", "wrist", "Let the sleeve reach the wrist."),
    fixed("style.overarm_angle", 0, "Let the overarm lie level."),
)
