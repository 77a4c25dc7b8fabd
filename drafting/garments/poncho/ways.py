"""Ways out of the shared checks that change the style of `poncho`, and what makes it go on its cloth."""

import math
from collections.abc import Mapping
from typing import Final

from drafting.cloth import SPARE
from drafting.contract.judging import Change, Changes, Value, Way, Words, each, fixed, length_of, millimetres
from drafting.contract.set_out import SetOut
from drafting.garments.poncho.style import SLOPE_LIMITS, length_to


def _shorter(draft: SetOut) -> list[Value]:
    """Lengths that the cloth's length allows, both pieces one after the other."""
    if draft.cloth_needed is None or draft.cloth.length is None:
        return []
    over = (draft.cloth_needed - draft.cloth.length) / 2
    least = length_to(draft.body, "waist")
    wanted = [draft.choices.length - over - spare for spare in (2, 15, 40)]
    return [millimetres(length) for length in wanted if length >= least]


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


def _length_words(value: Value, words: Words) -> str:
    return f"Make it {words(length_of(value))} long from the side-neck point."


def _of_change(changes: Changes, words: Words) -> str:
    return _length_words(str(changes[0][1]), words)


def _slope_words(changes: Changes, words: Words) -> str:
    return f"Let the seam fall by {changes[0][1]:g} degrees over shoulder and arm."


WAYS: Final[Mapping[str, tuple[Way, ...]]] = {
    "cloth_long_enough": (
        Way("style.length", _shorter, _length_words),
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
