"""The underarm curve must be round enough to be sewn and to last."""

import math

from drafting import sources
from drafting.contract.judging import Value, Way, Words, fixed, millimetres
from drafting.contract.set_out import SetOut
from drafting.problems import Check

ID = "underarm_radius"
ORDER = 42


def judge(draft: SetOut, words: Words) -> Check | None:
    """Warns below 5 % of stature; stops below the side allowance and 2 cm."""
    if ID in draft.refused:
        return Check(ID, "stop", "Between sleeve and side there is no room for a curve at the underarm.")
    if "underarm_radius" not in draft.facts:
        return None
    value = draft.facts["underarm_radius"]
    limit = sources.UNDERARM_RADIUS_WARN_SHARE * draft.body.stature
    least = draft.facts["side_allowance"] + sources.UNDERARM_RADIUS_SPARE
    if value < least - 0.05:
        return Check(ID, "stop", f"The underarm curve is too tight to sew: {words(value)} radius.", value, least)
    if value < limit - 0.05:
        better = words.needed(limit, value)
        says = f"The underarm curve is tight ({words(value)} radius; {better} is better). Tape it and clip it well."
        return Check(ID, "warn", says, value, limit)
    return Check(ID, "pass", f"The underarm curve has a radius of {words(value)}.", value, limit)


def _higher(draft: SetOut) -> list[Value]:
    if not draft.choices.deep:
        return []
    grown = sources.scale(draft.body.stature)
    return [millimetres(step * 10 * grown) for step in (8, 10, 12, 14)]


def _angles(draft: SetOut) -> list[Value]:
    now = math.degrees(draft.choices.overarm)
    return [angle for angle in (30, 25, 20, 15, 10, 5, 0) if angle < now]


WAYS = (
    fixed("style.underarm", "regular", "Choose the regular underarm."),
    Way(
        "style.underarm_above_waist",
        _higher,
        lambda value, words: f"Put the underarm {words(float(str(value).split()[0]))} above the waist.",
    ),
    Way("style.overarm_angle", _angles, lambda value, words: f"Let the sleeve fall by {value:g} degrees only."),
    fixed("style.fit", "close", "Choose a closer fit."),
)
