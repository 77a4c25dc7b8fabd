"""How far the garment rides up when the arm is raised level."""

import math

from drafting import sources
from drafting.contract.judging import Value, Way, Words, fixed
from drafting.contract.set_out import SetOut
from drafting.problems import Check

ID = "arm_lift"
ORDER = 40


def judge(draft: SetOut, words: Words) -> Check | None:
    """Warns above 5 cm, more plainly above 10 cm. Caps leave the arm free and are not judged."""
    if "arm_lift" not in draft.facts:
        return None
    value = draft.facts["arm_lift"]
    quiet, felt = sources.ARM_LIFT
    if value <= quiet:
        return Check(ID, "pass", "The arm can be raised level without lifting the body.", value, quiet)
    if value <= felt:
        says = f"When the arms are raised level, the garment rides up by about {words(value)}."
    else:
        says = f"When the arms are raised level, they pull the whole garment up by about {words(value)}."
    return Check(ID, "warn", says, value, quiet)


def _angles(draft: SetOut) -> list[Value]:
    now = math.degrees(draft.choices.overarm)
    return [angle for angle in (25, 20, 15, 10, 5, 0) if angle < now]


WAYS = (
    Way("style.overarm_angle", _angles, lambda value, words: f"Let the sleeve fall by {value:g} degrees only."),
    fixed("style.underarm", "regular", "Choose the regular underarm."),
)
