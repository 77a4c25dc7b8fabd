"""Long texts made short for where they are kept, and back."""

import base64
import binascii
import zlib
from functools import lru_cache

LONGEST = 5_000_000
"""No text kept this way is longer, in bytes: a damaged one must not fill the memory."""


def packed(text: str) -> str:
    """The text in a third of its length or less, in plain characters."""
    return base64.b64encode(zlib.compress(text.encode(), 9)).decode()


@lru_cache(maxsize=4)
def unpacked(text: str) -> str | None:
    """The text that was packed; None where this is not one."""
    try:
        reader = zlib.decompressobj()
        found = reader.decompress(base64.b64decode(text, validate=True), LONGEST)
        return found.decode() if reader.eof else None
    except (ValueError, binascii.Error, zlib.error):
        return None
