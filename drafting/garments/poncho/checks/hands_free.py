"""The hands must be free: a poncho that hangs over them catches on what they do."""

import math

from drafting.contract.judging import Value, Way, Words, fixed, length_of, millimetres
from drafting.contract.set_out import SetOut
from drafting.garments.poncho.style import length_to
from drafting.problems import Check

ID = "hands_free"
ORDER = 36


def judge(draft: SetOut, words: Words) -> Check | None:
    """Warns when the seam reaches past the wrist (our choice: the hand begins there)."""
    value = draft.facts["past_wrist"]
    if value <= 0.05:
        return Check(ID, "pass", f"The hem ends {words(-value)} above the wrist, so the hand is free.", value, 0.0)
    says = (
        f"The hem reaches {words(value)} past the wrist, so it covers the hand. Keep away from flames and machines "
        "while you wear it."
    )
    return Check(ID, "warn", says, value, 0.0)


def _shorter(draft: SetOut) -> list[Value]:
    length = draft.choices.length - math.ceil(draft.facts["past_wrist"])
    return [millimetres(length)] if length >= length_to(draft.body, "waist") else []


WAYS = (
    Way(
        "style.length",
        _shorter,
        lambda value, words: f"Make it {words(length_of(value))} long from the side-neck point.",
    ),
    fixed("style.length", "hip", "Make it hip length.", rank=2),
    fixed("style.length", "waist", "Let it end at the waist.", rank=3),
)
