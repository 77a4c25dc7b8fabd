"""What the page on the static site shows before the engine is there (glimpse.js): kept for it, and put away."""

from app.page_table import ask


async def glimpse_in_page(text: str) -> None:
    """Have the page keep what it shows when it is opened again, or forget it where the text is empty."""
    await ask("glimpse", text)


async def arrived_in_page() -> None:
    """Tell the page that the screen is drawn with what was kept, so that nothing need stand before it any more."""
    await ask("arrived")
