"""Small turns of wording that every part that tells something needs."""

import re
from collections.abc import Sequence
from typing import Final

NO_BREAK: Final = "\u00a0"
"""A space that keeps a number and its unit on one line."""
_UNIT = r"(?:mm|cm|m|in|ft|yd|%|degrees?|years?|layers?|marks?|steps?|pieces?)"
_TOGETHER: Final = re.compile(rf"(?<=[0-9⅛¼⅜½⅝¾⅞]) (?={_UNIT}(?![A-Za-z]))|(?<=\bof) (?=[0-9])|(?<=[±−]) (?=[0-9])")


def listed(items: Sequence[str]) -> str:
    """One, two and three."""
    return items[0] if len(items) == 1 else f"{', '.join(items[:-1])} and {items[-1]}"


def lower_first(words: str) -> str:
    """The words as they stand in the middle of a sentence."""
    return words[:1].lower() + words[1:]


def upper_first(words: str) -> str:
    """The words as they stand at the beginning of a sentence."""
    return words[:1].upper() + words[1:]


def unbroken(text: str) -> str:
    """The text with no line end between a number and what it counts, nor before the last number of "3 of 12"."""
    return _TOGETHER.sub(NO_BREAK, text)
