"""Two tabs of one browser in both modes, two browsers at one server, a page opened again during a save."""

from collections.abc import Callable
from pathlib import Path

import browser as b
import journey as j
import pytest
from playwright.sync_api import BrowserContext, Page, Playwright


@pytest.fixture(params=["static", "app"], ids=["site", "server"])
def server(request: pytest.FixtureRequest) -> b.Server:
    """Foldmark in one mode and in the other."""
    found = request.getfixturevalue(request.param)
    assert isinstance(found, b.Server)
    return found


def length(page: Page) -> str:
    """Which of some lengths is chosen on the shape screen; "" for none of them."""
    chips = {name: b.at(page, f"length-{name}") for name in ("hip", "knee", "ankle")}
    chosen = [name for name, chip in chips.items() if chip.get_attribute("aria-checked") == "true"]
    return chosen[0] if len(chosen) == 1 else ""


def kept(page: Page, length: str) -> None:
    """Wait until the browser keeps the garment with this length."""
    b.kept(page, lambda book: book["garments"][0]["style"]["length"] == length, length)


def test_tabs_and_browsers(server: b.Server, playwright: Playwright, tmp_path: Path) -> None:
    with b.browser_at(playwright, tmp_path / "one") as context:
        first = b.open_app(context, server.address)
        b.tap(first, "try-demo")
        j.arrive(first, "shape")
        kept(first, "hip")
        assert length(first) == "hip"
        second = b.open_app(context, server.address, "screen-shape")
        b.still(second)
        assert not b.at(first, "notice").count()
        b.tap(second, "length-knee")
        b.wait_until(second, lambda: length(second) == "knee", "the second tab has it")
        kept(second, "knee")
        first.bring_to_front()
        b.at(first, "notice").wait_for(state="attached", timeout=20_000)
        assert "another tab" in b.spoken(first, "notice"), "the first tab says that it is behind"
        # Whoever goes on in the first tab all the same changes nothing of what the second has saved.
        b.tap(first, "length-ankle")
        b.wait_until(first, lambda: length(first) == "ankle", "what is tapped is shown")
        first.wait_for_timeout(1500)  # by now it would have been saved
        kept(second, "knee")
        b.reload(first, "screen-shape")
        b.wait_until(first, lambda: length(first) == "knee", "loaded again, the first tab goes on from what stands")
        b.still(first)
        assert not b.at(first, "notice").count()
        if server.command[1:3] != ["-m", "app.main"]:
            return  # behind the site is a host of plain files, through which browsers share nothing
        # Another browser, at the same time, sees nothing of it, and what it does is not seen here.
        with b.browser_at(playwright, tmp_path / "other", **b.DESK) as stranger:
            page = b.open_app(stranger, server.address)
            b.at(page, "welcome").wait_for(state="attached", timeout=20_000)
            assert not page.locator('[flt-semantics-identifier^="garment-"]').count()
            b.tap(page, "try-demo")
            j.arrive(page, "shape")
            b.tap(page, "length-ankle")
            b.wait_until(page, lambda: length(page) == "ankle", "the other browser has it")
            kept(page, "ankle")
            assert length(first) == "knee"
            assert not b.at(first, "notice").count()
            b.reload(first, "screen-shape")
            b.wait_until(first, lambda: length(first) == "knee", "the other browser changed nothing here")


def opened_in_the_middle_of_a_save(page: Page, open_again: Callable[[], object]) -> None:
    """On the shape screen open it again right after a choice, and while one is being saved; the next choice is kept."""
    for chosen, wait in (("knee", 0), ("ankle", 320)):
        b.still(page)
        before = length(page)
        b.tap(page, f"length-{chosen}")
        page.wait_for_timeout(wait)
        open_again()
        b.wait_until(page, lambda stands={before, chosen}: length(page) in stands, f"{before} or {chosen}")  # type: ignore[misc]
    b.still(page)
    b.choose(page, "length-mid_thigh")  # not kept before
    kept(page, "mid_thigh")


def test_opened_again_in_the_middle_of_a_save(static: b.Server, phone: BrowserContext) -> None:
    page = b.open_app(phone, static.address)
    b.tap(page, "try-demo")
    j.arrive(page, "shape")
    kept(page, "hip")
    opened_in_the_middle_of_a_save(page, lambda: b.reload(page, "screen-shape"))
