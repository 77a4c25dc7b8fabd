"""The ring of the underarm must fit above the waist."""

import math

from drafting.contract.judging import Value, Way, Words, fixed
from drafting.contract.set_out import SetOut
from drafting.problems import Check

ID = "underarm_room"
ORDER = 20


def judge(draft: SetOut, words: Words) -> Check | None:
    """Stops when the arm would find no room above the waist. A set-out draft always passes."""
    if ID not in draft.refused:
        return None
    says = (
        "The sleeve would have to begin at the waist or below it to give the arm room. A gusset, set in "
        "by hand, would also do."
    )
    return Check(ID, "stop", says)


def _angles(draft: SetOut) -> list[Value]:
    now = math.degrees(draft.choices.overarm)
    return [angle for angle in (25, 20, 15, 10, 5, 0) if angle < now]


WAYS = (
    Way("style.overarm_angle", _angles, lambda value, words: f"Let the sleeve fall by {value:g} degrees only."),
    fixed("style.fit", "close", "Choose a closer fit."),
    fixed("style.underarm", "regular", "Choose the regular underarm."),
    Way(
        "style.overarm_angle",
        lambda draft: (0,),
        lambda value, words: "Let the sleeve lie level, and choose a closer fit.",
        (("style.fit", "close"),),
    ),
)
