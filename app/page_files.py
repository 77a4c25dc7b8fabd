"""Files that come to the site by themselves: dropped on the page, shared by another app, or opened with it."""

import asyncio
import contextvars
from collections.abc import Callable
from typing import Any

Take = Callable[[bytes | None, int], None]


def watch_files(take: Take) -> None:
    """Have `take` called with the bytes of each, None where they are too many to be read, and how many they are."""
    import page_files  # type: ignore[import-not-found]
    from pyodide.ffi import create_proxy  # type: ignore[import-not-found]

    loop, context = asyncio.get_running_loop(), contextvars.copy_context()  # Flet finds its page by the context

    def came(content: Any, size: int) -> None:
        given: bytes = content.to_bytes()
        loop.call_soon(take, None if size and not given else given, int(size), context=context)

    script: Any = page_files
    script.watch(create_proxy(came))
