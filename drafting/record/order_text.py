"""The text of an order or of a backup: bytes in, plain data or problems out, before any key of it is looked at.

Only what JSON itself leaves open is judged here: the encoding, keys given twice, numbers that no computer keeps, depth.
"""

import json
import math
from dataclasses import dataclass
from typing import Any

from drafting.problems import Problem

#: Bytes of the largest file that is read. Our choice: a long order has 4,000, and a device without end must not hang.
MOST_BYTES = 20_000_000
#: Digits of the longest whole number. Our choice: what a float keeps without loss.
MOST_DIGITS = 15
#: Braces and brackets inside each other. Our choice: an order needs four.
DEEPEST = 20

_ENCODINGS = {"utf-16": "UTF-16", "utf-32": "UTF-32"}
_CHECK = "check commas, quotes and braces"


@dataclass(frozen=True, slots=True)
class _Unfit:
    """Stands in the data where a value cannot be taken."""

    wrong: str
    fix: str


def read_text(content: bytes, most: int = MOST_BYTES) -> tuple[Any, tuple[Problem, ...]]:
    """The plain data of a file, or None and what is wrong with it. A byte-order mark of UTF-8 is read over.

    What has more than `most` bytes is not read at all.
    """
    if len(content) > most:
        return None, (_whole("this file is far larger than any order or backup", "check its name"),)
    encoding = json.detect_encoding(content)
    known = next((name for start, name in _ENCODINGS.items() if encoding.startswith(start)), None)
    if known is not None:
        return None, (_whole(f"this file is written in {known}", "save it as UTF-8"),)
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        wrong = f"the letter at line {line} is not UTF-8, perhaps the file is in Latin-1"
        return None, (_whole(wrong, "save it as UTF-8"),)
    try:
        typed = json.loads(
            text, object_pairs_hook=_pairs, parse_int=_integer, parse_float=_number, parse_constant=_constant
        )
    except json.JSONDecodeError as error:
        return None, (_whole(f"this is not JSON at line {error.lineno}", _CHECK),)
    except RecursionError:
        return None, (_too_deep(),)
    problems = _unfit(typed)
    return (None if problems else typed), problems


def _pairs(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found: dict[str, Any] = {}
    for key, value in pairs:
        found[key] = _Unfit("this key is given twice", "keep one of the two") if key in found else value
    return found


def _integer(text: str) -> Any:
    digits = len(text.lstrip("-"))
    if digits > MOST_DIGITS:
        return _Unfit(f"a number of {digits:,} digits is out of reach", f"give at most {MOST_DIGITS} digits")
    return int(text)


def _number(text: str) -> Any:
    value = float(text)
    return value if math.isfinite(value) else _Unfit("this number is out of reach", "give a smaller one")


def _constant(text: str) -> Any:
    return _Unfit(f"{text} is not a number that can be measured", "give a number")


def _unfit(typed: Any) -> tuple[Problem, ...]:
    """What could not be taken, each with its field, in the order of the file."""
    found: list[Problem] = []
    left: list[tuple[str, Any, int]] = [("", typed, 0)]
    while left:
        field, value, depth = left.pop()
        if isinstance(value, _Unfit):
            found.append(Problem("order", field or "order", "refuse", value.wrong, value.fix))
        elif isinstance(value, str):
            if _torn(value):
                found.append(_torn_at(field))
        elif isinstance(value, dict | list):
            if depth >= DEEPEST:
                return (_too_deep(),)
            inner = value.items() if isinstance(value, dict) else enumerate(value)
            torn = [key for key in value if isinstance(key, str) and _torn(key)] if isinstance(value, dict) else []
            found.extend(_torn_at(field) for _ in torn[:1])
            children = [(f"{field}.{key}" if field else str(key), one, depth + 1) for key, one in inner]
            left.extend(reversed(children))
    return tuple(found)


def _torn(text: str) -> bool:
    """Whether half of a character stands in it, which no file can hold."""
    return any("\ud800" <= character <= "\udfff" for character in text)


def _torn_at(field: str) -> Problem:
    return Problem("order", field or "order", "refuse", "half of a character stands in this text", "type it anew")


def _too_deep() -> Problem:
    return _whole("braces or brackets stand inside each other too deeply", f"use at most {DEEPEST}, one in another")


def _whole(wrong: str, fix: str) -> Problem:
    return Problem("order", "order", "refuse", wrong, fix)
