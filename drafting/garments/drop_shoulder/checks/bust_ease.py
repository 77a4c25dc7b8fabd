"""Broad shoulders on a slim body ask for a wider garment than the fit does."""

from drafting.contract.judging import Words, fixed
from drafting.contract.set_out import SetOut
from drafting.garments.drop_shoulder.rules import EASE_TOLD_FROM
from drafting.problems import Check

ID = "bust_ease"
ORDER = 51


def judge(draft: SetOut, words: Words) -> Check | None:
    """Says so over 22 % of ease at the bust that the fit did not ask for."""
    value, limit = 100 * draft.facts["bust_ease"], 100 * EASE_TOLD_FROM
    if draft.choices.ease_bust is not None or value <= max(limit, 100 * draft.facts["bust_ease_usual"] + 0.5):
        return None
    says = f"Your shoulders decide the width: the bust has {value:.0f} % of ease."
    return Check(ID, "shown", says, value, limit, "%")


WAYS = (fixed("style.extension", 0, "Let the shoulder end at the shoulder point."),)
