"""Printing on the static site: the page's own script shows a file in the browser's print view."""

from typing import Any


async def print_in_page(content: bytes) -> bool:
    """Show a PDF for printing; False where this browser shows none within a page, as phones do not.

    Only possible inside the site's worker (print.js does it in the page).
    """
    import page_asks  # type: ignore[import-not-found]
    from pyodide.ffi import to_js  # type: ignore[import-not-found]

    asks: Any = page_asks
    return bool(await asks.ask("print", to_js(content)))
