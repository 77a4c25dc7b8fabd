"""Ways out of the shared checks that change the style of a top, and what makes it go on its cloth, or on less of it."""

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
from drafting.parts.ways import EASE_WITHIN_STRETCH, SHORTER


def _narrower(draft: SetOut) -> list[Value]:
    """Eases at the bust with which the widest piece comes within half the cloth; never less than none."""
    over = max(piece.width for piece in of_the_cloth(draft.pieces)) - (draft.cloth.usable_width - SPARE) / 2
    bust = next(girth.girth for girth in draft.girths if girth.at == "bust")
    ease = bust - draft.body.bust_girth - 4 * math.ceil(over)
    return [millimetres(value) for value in (ease - 2, ease - 20) if value > 0]


def _ease_words(changes: Changes, words: Words) -> str:
    return f"Take {words(length_of(str(changes[0][1])))} of ease at the bust."


WAYS: Final[Mapping[str, tuple[Way, ...]]] = {
    "cloth_long_enough": (
        SHORTER,
        fixed("style.sleeve_length", "elbow", "Let the sleeve end at the elbow.", rank=2),
        fixed("style.sleeve_length", "short", "Choose short sleeves.", rank=3),
        fixed("style.length", "hip", "Make it hip length.", rank=3),
        fixed("style.length", "cropped", "Make it cropped.", rank=4),
    ),
    "ease_within_stretch": EASE_WITHIN_STRETCH,
}


def less_ease(looks: str) -> Change:
    """Less ease at the bust, down to none; `looks` is what that does to the garment."""
    return Change(each("style.ease_bust", _narrower), _ease_words, looks)


CLOSE: Final = fixed_change("Choose the close fit.", "The garment is narrower all round.", ("style.fit", "close"))
STRAIGHT: Final = fixed_change("Choose a straight skirt.", "The hem is narrower.", ("style.body", "straight"))
RIB: Final = fixed_change(
    "Cut the bands of a rib.", "The bands look different from the rest.", ("style.band_cloth", "rib")
)
ELBOW: Final = fixed_change(
    "Let the sleeve end at the elbow.", "The sleeve covers half the arm.", ("style.sleeve_length", "elbow"), rank=2
)
