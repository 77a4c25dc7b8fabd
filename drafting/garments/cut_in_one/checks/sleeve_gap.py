"""Sleeve and body must lie far enough apart on the cloth to be cut between."""

import math

from drafting import sources
from drafting.contract.judging import Value, Way, Words, fixed
from drafting.contract.set_out import SetOut
from drafting.problems import Check

ID = "sleeve_gap"
ORDER = 44


def judge(draft: SetOut, words: Words) -> Check | None:
    """Stops when their cut edges come closer than 2 cm."""
    if draft.facts["cap"]:
        return None
    value = draft.facts["gap"]
    if value >= sources.SLEEVE_GAP - 0.05:
        says = f"Sleeve and body lie {words(value)} apart between their cut edges."
        return Check(ID, "pass", says, value, sources.SLEEVE_GAP)
    says = "Sleeve and body lie too close together, or over each other, to be cut from the cloth."
    return Check(ID, "stop", says, value, sources.SLEEVE_GAP)


def _angles(draft: SetOut) -> list[Value]:
    now = math.degrees(draft.choices.overarm)
    return [angle for angle in (25, 20, 15, 10, 5, 0) if angle < now]


WAYS = (
    Way("style.overarm_angle", _angles, lambda value, words: f"Let the sleeve fall by {value:g} degrees only."),
    fixed("style.flare", "none", "Choose a sleeve without flare."),
    fixed("style.body", "straight", "Choose a straight body."),
)
