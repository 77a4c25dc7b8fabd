"""Ways out of the shared checks that change the style of `poncho`, and what makes it go on its cloth."""

import math
from collections.abc import Mapping
from typing import Final

from drafting.cloth import SPARE
from drafting.contract.judging import Change, Changes, Value, Way, Words, each, fixed, millimetres
from drafting.contract.set_out import SetOut
from drafting.garments.poncho.style import SLOPE_LIMITS, length_to
from drafting.parts.ways import lengths_for_cloth, long_from_side_neck


def _shorter(draft: SetOut) -> list[Value]:
    return lengths_for_cloth(draft, length_to(draft.body, "waist"))


def _for_width(draft: SetOut) -> list[Value]:
    """Lengths with which the piece comes within half the cloth."""
    over = max(piece.width for piece in draft.pieces) - (draft.cloth.usable_width - SPARE) / 2
    least = length_to(draft.body, "waist")
    wanted = [draft.choices.length - math.ceil(over / math.cos(draft.choices.slope)) - spare for spare in (1, 20)]
    return [millimetres(length) for length in wanted if least <= length < draft.choices.length]


def _steeper(draft: SetOut) -> list[Value]:
    """Slopes, degrees, steeper than the one there is."""
    now = math.degrees(draft.choices.slope)
    return [slope for slope in (30.0, 35.0, math.degrees(SLOPE_LIMITS[1])) if slope > now + 1e-6]


def _of_change(changes: Changes, words: Words) -> str:
    return long_from_side_neck(str(changes[0][1]), words)


def _slope_words(changes: Changes, words: Words) -> str:
    return f"Let the seam fall by {changes[0][1]:g} degrees over shoulder and arm."


WAYS: Final[Mapping[str, tuple[Way, ...]]] = {
    "cloth_long_enough": (
        Way("style.length", _shorter, long_from_side_neck),
        fixed("style.length", "hip", "Make it hip length.", rank=2),
        fixed("style.length", "waist", "Let it end at the waist.", rank=3),
    ),
}

_SHORTER = Change(each("style.length", _for_width), _of_change, "The poncho is shorter all round.", rank=2)
_STEEPER = Change(
    each("style.shoulder_slope", _steeper), _slope_words, "The poncho lies closer to the arms and is less wide."
)

#: Best first: what a person sees least comes first. Our choice.
TO_FIT: Final = (_STEEPER, _SHORTER)
TO_SAVE: Final = (_STEEPER,)
