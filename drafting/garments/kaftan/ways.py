"""Ways out of the shared checks that change the style of `kaftan`, and what makes it go on its cloth."""

import math
from collections.abc import Mapping
from typing import Final

from drafting.cloth import SPARE
from drafting.contract.judging import (
    Change,
    Changes,
    Value,
    Way,
    Words,
    each,
    fixed,
    fixed_change,
    length_of,
    millimetres,
)
from drafting.contract.pieces import of_the_cloth
from drafting.contract.set_out import SetOut
from drafting.parts.ways import SHORTER


def _sleeves(draft: SetOut) -> list[Value]:
    """Shorter sleeves that come within half the cloth."""
    over = max(piece.width for piece in of_the_cloth(draft.pieces)) - (draft.cloth.usable_width - SPARE) / 2
    shorter = draft.choices.sleeve_length - over / math.cos(draft.choices.overarm)
    least = 0.3 * draft.body.arm_length
    return [millimetres(value) for value in (shorter - 1, shorter - 15, shorter - 40) if value > least]


def _sleeve_words(changes: Changes, words: Words) -> str:
    return f"Make the sleeve {words(length_of(str(changes[0][1])))} long."


WAYS: Final[Mapping[str, tuple[Way, ...]]] = {
    "cloth_long_enough": (
        SHORTER,
        fixed("style.lower_sleeve", "joined", "Cut the lower sleeve as a piece of its own, and sew it on."),
        fixed("style.length", "knee", "Let it end at the knee.", rank=2),
        fixed("style.length", "hip", "Make it hip length.", rank=3),
    ),
}

_CUT_APART: Final = fixed_change(
    "Cut the lower sleeve as a piece of its own, and sew it on.",
    "A seam goes round the sleeve.",
    ("style.lower_sleeve", "joined"),
)
_SHORT_SLEEVE: Final = Change(each("style.sleeve_length", _sleeves), _sleeve_words, "The sleeve ends above the wrist.")
_ELBOW: Final = fixed_change(
    "Let the sleeve end at the elbow.", "The sleeve covers half the arm.", ("style.sleeve_length", "elbow"), rank=2
)

#: Best first: what a person sees least comes first. Our choice.
TO_FIT: Final = (_CUT_APART, _SHORT_SLEEVE, _ELBOW)
TO_SAVE: Final = (_CUT_APART,)
