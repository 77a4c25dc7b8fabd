"""How large words may be in a box of a known size, reckoned from the widths of their letters."""

from typing import Final

from app.theme import LARGE
from drafting.drawing.piece import text_width

LINE = 1.25
"""From one line to the next, in sizes of the letters."""
_SPARE = 1.03
"""What a line may be wider on the screen than reckoned: its letters stand on whole pixels there."""
_STEP = 2.0
"""Sizes are tried in steps of so many px."""
_EMS: Final = {
    letter: em
    for em, letters in (
        (1.02, "W@—→←↑↓"), (0.92, "Mm"), (0.85, "w%…"), (0.79, "OQ"), (0.76, "CDGHNU"), (0.73, "AVXYK"),
        (0.68, "0123456789BEFLPRSTZ#$&+=<>~±≈≤≥×÷−"), (0.64, "bdghnopqu"), (0.6, "acekvxyzJ"),
    )
    for letter in letters
}  # fmt: skip
"""How wide the letters are that are wider than most, in sizes; a test compares them with the fonts."""
LEAST = 11.0
"""The smallest size that is tried, px. It is only reached where words are far too long for their box."""


def word_width(word: str, size: float, strong: bool = False) -> float:
    """How wide a word is at a size, no less than the font has it; all in px."""
    letters = sum(_EMS.get(letter, 0.56) for letter in word) * size
    return max(letters, text_width(word, size, strong))


def lines_of(text: str, size: float, width: float, strong: bool = False) -> int:
    """How many lines of `width` px the words take at a size in px; 0 where a single word is wider than that."""
    lines, taken = 1, 0.0
    space = text_width(" ", size, strong) * _SPARE
    for word in text.split():
        wide = word_width(word, size, strong) * _SPARE
        if wide > width:
            return 0
        if taken and taken + space + wide > width:
            lines, taken = lines + 1, wide
        else:
            taken += wide + (space if taken else 0.0)
    return lines


def height_of(text: str, size: float, width: float, strong: bool = False) -> float | None:
    """How high the words are at a size in lines of `width` px; None where a word is too wide for a line. All in px."""
    lines = lines_of(text, size, width, strong)
    return lines * size * LINE if lines else None


def fitted(text: str, width: float, height: float, largest: float = LARGE, strong: bool = False) -> float:
    """The largest size, up to `largest`, at which the words stand in a box of `width` and `height`; all in px."""
    size = largest
    while size > LEAST:
        high = height_of(text, size, width, strong)
        if high is not None and high <= height + 0.01:
            return size
        size -= _STEP
    return LEAST
