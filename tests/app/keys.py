"""Working the app by keyboard alone: where the focus is, going there by Tab, pressing, typing."""

import browser as b
from playwright.sync_api import Page

_FOCUSED = """() => {
    const at = document.activeElement?.closest("[flt-semantics-identifier]");
    return at ? at.getAttribute("flt-semantics-identifier") : "";
}"""
MOST = 80
"""So many presses of Tab reach everything on a page."""


def focused(page: Page) -> str:
    """The name of what has the keyboard's focus."""
    return str(page.evaluate(_FOCUSED))


def to(page: Page, identifier: str) -> list[str]:
    """Press Tab until the focus is there; what was passed on the way."""
    passed: list[str] = []
    for _ in range(MOST):
        now = focused(page)
        if now == identifier:
            return passed
        passed.append(now)
        page.keyboard.press("Tab")
        page.wait_for_timeout(40)
    raise AssertionError(f"{identifier} was not reached by Tab, only {passed}")


def press(page: Page, identifier: str, key: str = "Enter") -> None:
    """Go to a control by Tab as soon as it can be pressed, and press it."""
    b.wait_until(page, lambda: b.awake(page, identifier), f"{identifier} can be pressed", 60)
    to(page, identifier)
    page.keyboard.press(key)


def fill(page: Page, identifier: str, text: str) -> None:
    """Go to a field by Tab and type over what stands in it."""
    to(page, identifier)
    page.keyboard.press("Control+a")
    page.keyboard.type(text, delay=15)


def begins_at(page: Page, identifier: str) -> None:
    """Wait until the focus stands there by itself, as on a new screen."""
    b.wait_until(page, lambda: focused(page) == identifier, f"the focus is at {identifier}, not {focused(page)!r}", 15)
