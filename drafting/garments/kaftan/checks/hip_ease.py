"""Cloth that does not stretch needs ease at the hip, to sit down."""

from drafting import sources
from drafting.contract.judging import Words, fixed
from drafting.contract.set_out import SetOut
from drafting.problems import Check

ID = "hip_ease"
ORDER = 31


def judge(draft: SetOut, words: Words) -> Check | None:
    """Warns below 8 cm; only an ease that was asked for at the bust can leave less."""
    value, limit = draft.facts["hip_ease"], sources.WOVEN_HIP_EASE
    if value >= limit - 0.05:
        return Check(ID, "pass", f"It is {words(value)} wider than the hip, so you can sit down in it.", value, limit)
    if value < 0:
        says = f"It is {words(-value)} narrower than the hip, and does not go on over it."
    else:
        says = f"It is {words(value)} wider than the hip. To sit down in it needs {words.needed(limit, value)}."
    return Check(ID, "warn", says, value, limit)


WAYS = (fixed("style.ease_bust", "auto", "Let the ease at the bust be worked out."),)
