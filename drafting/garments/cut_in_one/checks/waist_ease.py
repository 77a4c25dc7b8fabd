"""A shaped waist that stays wide: what one seam may shape leaves more ease than a waist is drawn for."""

from drafting import sources
from drafting.contract.judging import Words, fixed
from drafting.contract.set_out import SetOut
from drafting.problems import Check

ID = "waist_ease"
ORDER = 51


def judge(draft: SetOut, words: Words) -> Check | None:
    """Warns over 15 cm of ease that was not asked for, since straight sides then look the same and sew easier.

    Less than half a centimetre is not worth a word.
    """
    left = draft.facts["waist_ease_left"]
    if left < sources.WAIST_EASE_SHOWN:
        return None
    if left <= sources.WAIST_EASE_MUCH:
        return Check(ID, "pass", f"The shaped waist keeps {words(left)} of ease.", left, sources.WAIST_EASE_MUCH)
    says = (
        f"The shaped waist keeps {words(left)} of ease, because one seam at each side takes in no more. "
        "Straight sides may look better."
    )
    return Check(ID, "warn", says, left, sources.WAIST_EASE_MUCH)


WAYS = (
    fixed("style.waist", "straight", "Choose straight sides."),
    fixed("style.fit", "close", "Choose the close fit."),
)
