"""A sleeve that stays wider than its cuff takes up is gathered."""

from drafting.contract.judging import Words, fixed
from drafting.contract.set_out import SetOut
from drafting.parts.band_size import CUFF_FULLNESS, CUFF_GATHERED_MOST
from drafting.problems import Check

ID = "cuff_gathered"
ORDER = 24


def judge(draft: SetOut, words: Words) -> Check | None:
    """Warns where the sleeve's end is over 1.5 times as wide as its cuff."""
    value = draft.facts["sleeve_fullness"]
    if draft.facts["cuff"] <= 0 or value <= CUFF_FULLNESS + 1e-6:
        return None
    if value <= CUFF_GATHERED_MOST + 1e-6:
        says = f"The sleeve is {value:.1f} times as wide as its cuff and is gathered into it."
        return Check(ID, "shown", says, value, CUFF_GATHERED_MOST, "")
    says = f"The sleeve is {value:.1f} times as wide as its cuff. Over {CUFF_GATHERED_MOST:g} it bunches."
    return Check(ID, "warn", says, value, CUFF_GATHERED_MOST, "")


WAYS = (
    fixed("style.sleeve_finish", "hem", "Choose a hem instead of a cuff."),
    fixed("style.sleeve_length", "wrist", "Let the sleeve reach the wrist."),
    fixed("style.fit", "close", "Choose a closer fit."),
)
