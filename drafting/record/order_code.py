"""An order as the text of a QR code: what a chalk sheet needs to be made again on another device.

The order without its defaults as JSON, made short by zlib and written in base 45 (RFC 9285), whose letters a QR code
packs most closely. What is told of a person beside kind and unit (name, measures, age, the day they were taken) is only
in it where the order says so (`sheet_measures`), since paper lies about.
"""

from __future__ import annotations

import json
import zlib
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from drafting.order import Order

__all__ = ["LONGEST", "MARK", "code_text", "read_code"]

MARK = "FOLDMARK-1:"
"""Begins the text, so that the code of something else is known for what it is."""
LONGEST = 100_000
"""Bytes of the longest order that is read out of a code: our choice, because the longest order has a tenth of it."""
_LETTERS = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:"
_OF_ANYBODY = ("kind", "unit")
"""What of a person always stands in the code: what the garment's lengths and its form depend on."""


def code_text(order: Order) -> str:
    """The text that the code of an order holds."""
    held: dict[str, Any] = order.model_dump(mode="json", exclude_defaults=True)
    if not order.sheet_measures:
        held["person"] = {key: each for key, each in held["person"].items() if key in _OF_ANYBODY}
        name = order.person.name.casefold()
        if name and name in order.title.casefold():
            del held["title"]  # "Ilse's dress" would tell the name after all
    plain = json.dumps(held, ensure_ascii=False, separators=(",", ":"), sort_keys=True)
    return MARK + to_base45(zlib.compress(plain.encode("utf-8", "surrogatepass"), 9))


def read_code(text: str) -> dict[str, Any] | None:
    """The order that a code holds, as plain data to be read like any other; None where it holds none."""
    if not text.startswith(MARK):
        return None
    try:
        work = zlib.decompressobj()
        plain = work.decompress(from_base45(text.removeprefix(MARK)), LONGEST)
        held = json.loads(plain.decode("utf-8")) if work.eof else None
    except (ValueError, zlib.error, RecursionError):
        return None
    if not isinstance(held, dict):
        return None
    return {"format": "foldmark-order", "version": 1, **held}


def to_base45(data: bytes) -> str:
    """Bytes in base 45: two of them become three letters, the last of an odd number two (RFC 9285, section 4)."""
    found = []
    for at in range(0, len(data), 2):
        pair = data[at : at + 2]
        value = int.from_bytes(pair, "big")
        for _ in range(len(pair) + 1):
            value, rest = divmod(value, 45)
            found.append(_LETTERS[rest])
    return "".join(found)


def from_base45(text: str) -> bytes:
    """The bytes again; ValueError for a text that is none."""
    found = bytearray()
    for at in range(0, len(text), 3):
        part = text[at : at + 3]
        if not set(part) <= set(_LETTERS):
            raise ValueError("no base 45")
        value = sum(_LETTERS.index(letter) * 45**place for place, letter in enumerate(part))
        found += _fitting(value, len(part) - 1)
    return bytes(found)


def _fitting(value: int, count: int) -> bytes:
    """A value in so many bytes; ValueError where it has no room in them."""
    if count < 1 or value >= 256**count:
        raise ValueError("no base 45")
    return value.to_bytes(count, "big")
