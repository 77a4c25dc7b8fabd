"""Whether a roll collar stands or falls softly."""

from drafting.contract.judging import Words, fixed, more_stretch
from drafting.contract.set_out import SetOut
from drafting.parts.band_size import ROLL_STANDS
from drafting.problems import Check

ID = "roll_stands"
ORDER = 12


def judge(draft: SetOut, words: Words) -> Check | None:
    """A note where the collar is longer than the neck by more than stands."""
    if draft.choices.finish != "roll":
        return None
    value, limit = draft.facts["neck_band"], draft.body.neck_girth + ROLL_STANDS
    if value <= limit + 1e-6:
        return Check(ID, "pass", "The roll collar stands.", value, limit)
    says = f"The roll collar is {words(value)} round, so it falls softly and does not stand."
    return Check(ID, "shown", says, value, limit)


WAYS = (
    fixed("style.band_cloth", "rib", "Cut the bands of a rib, which stretches more."),
    more_stretch(),
)
