"""The code in a picture of a chalk sheet, read by the site's own script (picture.js) in the worker that runs Python."""

from typing import Any

from app.page_table import ask

_BEGINS = (b"\x89PNG\r\n\x1a\n", b"\xff\xd8\xff", b"GIF8", b"BM")
_BOXED = {b"WEBP": 8, b"ftyp": 4}
"""What stands a few bytes further on: WebP, and what phones of one maker take their pictures in."""


def is_picture(content: bytes) -> bool:
    """Whether a file is a picture, by how it begins, and not text."""
    return content.startswith(_BEGINS) or any(content[at : at + 4] == name for name, at in _BOXED.items())


async def camera_in_page(name: str, close: str) -> str | None:
    """What the code before the camera says; "" where the person has closed it, None where there is no camera to use.

    `name` is what its picture is called, `close` the words of the button that closes it.
    """
    found = await ask("readCamera", name, close)
    return found if isinstance(found, str) else None


async def read_in_page(content: bytes) -> str:
    """What the code in a picture says; "" where none is found, or where it is no picture that this browser knows."""
    import page_picture  # type: ignore[import-not-found]
    from pyodide.ffi import to_js  # type: ignore[import-not-found]

    script: Any = page_picture
    return str(await script.read(to_js(content)))
