"""What stands on the keys of the keypad, and what a key does to the text of its field. Pure.

What stands last in a field, a fraction or a unit, stays last: a digit goes in front of it, and the key for deleting
takes it away whole.
"""

import re
from typing import Final, Literal

from app.parts.fractions_tape import EIGHTHS, with_fraction

Kind = Literal["cm", "in", "number", "whole"]
"""What a field takes: a length whose bare numbers stand in a unit, any other number, or a whole number."""

UNITS: Final = ("mm", "cm", "m", "in", "ft", "yd")
WRITES: Final = {
    **{digit: digit for digit in "0123456789"},
    **{f"{number}/8": sign for number, sign in enumerate(EIGHTHS, start=1)},
    **{unit: unit for unit in UNITS},
    "point": ".", "comma": ",", "slash": "/", "space": " ", "minus": "−",
}  # fmt: skip
"""The keys that write, and what each writes."""
ACTS: Final = ("back", "next", "more", "digits")
"""The keys that do something else: delete, next field, the second page of keys, and the first again."""
LONGEST: Final = 40
"""Characters that the keypad writes: our choice, longer than any length."""

_LEFT: Final = ("1 2 3", "4 5 6", "7 8 9")
_PAGES: Final[dict[Kind, tuple[str, ...]]] = {
    "cm": ("1 2 3 4/8 back", "4 5 6 cm in", "7 8 9 minus more", "comma 0 point next next"),
    "in": ("2/8 4/8 6/8 in cm", "1 2 3 1/8 back", "4 5 6 3/8 minus", "7 8 9 5/8 more", "point 0 slash 7/8 next"),
    "number": ("1 2 3 back", "4 5 6 comma", "7 8 9 point", "0 0 next next"),
    "whole": (*_LEFT, "back 0 next"),
}
_MORE: Final = ("mm cm m back", "in ft yd minus", "slash comma point space", "digits digits next next")


_FLAT: Final = (
    *"1234567890", "point", "comma", "slash", "space", *(f"{number}/8" for number in range(1, 8)), "minus", *UNITS,
    "digits", "more", "back", "next",
)  # fmt: skip
"""The order of the keys in long rows."""


def rows(kind: Kind, *, signed: bool, more: bool, columns: int = 0) -> list[list[tuple[str, int]]]:
    """The keys from the top, each with its width in keys; all in `columns` columns where a low page needs it.

    Only where `signed` is a minus among them; a space, which parts a whole number and a fraction written out, takes
    its place.
    """
    page = _MORE if more and kind in ("cm", "in") else _PAGES[kind]
    lines = [_merged(line.split()) for line in page]
    if not signed:
        spare = "space" if not more else ""
        lines = [[(spare if key == "minus" else key, wide) for key, wide in line] for line in lines]
    if not columns:
        return lines
    flat = [(key, 1) for line in lines for key, _ in line if key]
    flat.sort(key=lambda key: _FLAT.index(key[0]))
    count = -(-len(flat) // columns)
    even = -(-len(flat) // count)
    return [flat[start : start + even] for start in range(0, len(flat), even)]


def _merged(keys: list[str]) -> list[tuple[str, int]]:
    return [(key, keys.count(key)) for index, key in enumerate(keys) if key not in keys[:index]]


_SUFFIX: Final = re.compile(r" ?(?:[½¼¾⅐-⅞]|%|\b(?:mm|cm|in)\b)$")
_LAST_NUMBER: Final = re.compile(r"(?P<head>.*[^\d\s.,/½¼¾⅐-⅞]\s*)?(?P<number>.*)", re.DOTALL)
_ENDING: Final = re.compile(r" ?\b(?:mm|cm|m|in|ft|yd)$|.$", re.DOTALL)


def press(text: str, key: str) -> str:
    """The text of the field after a key that writes, or "back"; a key that has no meaning there leaves it as it is."""
    if key == "back":
        return _ENDING.sub("", text.rstrip()).rstrip()
    sign = WRITES[key]
    if key == "minus":
        return text[1:] if text[:1] in ("-", "−") else f"{sign}{text}"
    if len(text) >= LONGEST:
        return text
    if key in UNITS:
        return _with_unit(text.rstrip(), key)
    if sign in EIGHTHS:
        found = _LAST_NUMBER.fullmatch(_bare(text))
        assert found is not None  # it fits every text
        unit = text[len(_bare(text)) :]
        return f"{found['head'] or ''}{with_fraction(found['number'], sign)}{unit}"
    return _written(text, key, sign)


def _bare(text: str) -> str:
    """The text without the unit at its end."""
    return re.sub(r" ?\b(?:mm|cm|in)$", "", text)


def _with_unit(text: str, unit: str) -> str:
    """The text with a unit behind its last number; the same unit again takes it away, another takes its place."""
    last = re.search(r" ?\b(mm|cm|m|in|ft|yd)$", text)
    body = text[: last.start()] if last else text
    if not re.search(r"[\d.,½¼¾⅐-⅞]$", body):
        return text
    return body if last and last[1] == unit else f"{body} {unit}"


def _written(text: str, key: str, sign: str) -> str:
    ending = _SUFFIX.search(text)
    while ending is not None and (further := _SUFFIX.search(text[: ending.start()])) is not None:
        ending = further
    body, suffix = (text[: ending.start()], text[ending.start() :]) if ending else (text, "")
    number = re.search(r"[\d.,/]*$", body)
    standing = number[0] if number else ""
    if key in ("point", "comma") and re.search(r"[.,/]", standing):
        return text
    if key == "slash" and (not standing.isdigit()):
        return text
    if key == "space":
        return f"{body} " if standing and not suffix else text
    parted = " " if body[-1:].isalpha() else ""
    gap = " " if suffix and not suffix.startswith(" ") else ""
    return f"{body}{parted}{sign}{gap}{suffix}"
