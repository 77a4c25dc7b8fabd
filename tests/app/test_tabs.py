"""Two tabs of one browser in both modes, two browsers at one server, a page opened again during a save."""

from collections.abc import Callable
from pathlib import Path

import browser as b
import journey as j
import pytest
from playwright.sync_api import BrowserContext, Page, Playwright


@pytest.fixture(params=["static", pytest.param("app", marks=pytest.mark.long)], ids=["site", "server"])
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


def test_tabs_and_browsers(server: b.Server, known: Path, playwright: Playwright, tmp_path: Path) -> None:
    with b.browser_at(playwright, known) as context:
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
        b.wait_until(first, lambda: length(first) == "knee", "the first tab follows")
        assert "another tab" in b.spoken(first, "notice"), "and says why"
        b.tap(first, "length-ankle")
        kept(first, "ankle")
        second.bring_to_front()
        b.wait_until(second, lambda: length(second) == "ankle", "the second follows the first")
        b.reload(first, "screen-shape")
        b.wait_until(first, lambda: length(first) == "ankle", "loaded again, it goes on from what stands")
        b.tap(first, "length-knee")
        kept(first, "knee")
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
            b.reload(first, "screen-shape")
            b.wait_until(first, lambda: length(first) == "knee", "the other browser changed nothing here")


_BEHIND_ITS_BACK = """async ([before, after]) => {
    const open = (request) => new Promise((done) => { request.onsuccess = () => done(request.result); });
    const [{ name }] = await indexedDB.databases();
    const records = (await open(indexedDB.open(name))).transaction("records", "readwrite").objectStore("records");
    const found = (await open(records.getAll())).filter((each) => each.key.startsWith("garment.")).at(-1);
    const text = found.text.replace(before, after);
    await open(records.put({ ...found, text, revision: found.revision + 1 }));
    return text !== found.text;
}"""
"""Changes the garment as a tab would whose word of it has not come yet."""


def test_what_is_changed_in_two_tabs_at_once_is_asked_about(static: b.Server, known_phone: BrowserContext) -> None:
    page = b.open_app(known_phone, static.address)
    b.tap(page, "try-demo")
    j.arrive(page, "shape")
    kept(page, "hip")
    assert page.evaluate(_BEHIND_ITS_BACK, ['"length": "hip"', '"length": "ankle"'])
    b.choose(page, "length-knee")
    b.at(page, "clash").wait_for(state="attached", timeout=20_000)
    assert "here and in another tab" in b.spoken(page, "clash")
    kept(page, "ankle")
    assert length(page) == "knee", "what was chosen here is still shown"
    b.tap(page, "clash-both")
    b.kept(page, lambda book: [each["style"]["length"] for each in book["garments"]] == ["knee", "ankle"], "both")
    assert not b.at(page, "clash").count()
    assert length(page) == "knee"
    assert page.evaluate(_BEHIND_ITS_BACK, ['"length": "knee"', '"length": "mid_thigh"'])
    b.choose(page, "length-hip")
    b.at(page, "clash").wait_for(state="attached", timeout=20_000)
    b.tap(page, "clash-theirs")
    b.wait_until(page, lambda: length(page) in ("mid_thigh", ""), "what the other has is shown")


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


@pytest.mark.long
def test_opened_again_in_the_middle_of_a_save(static: b.Server, known_phone: BrowserContext) -> None:
    page = b.open_app(known_phone, static.address)
    b.tap(page, "try-demo")
    j.arrive(page, "shape")
    kept(page, "hip")
    opened_in_the_middle_of_a_save(page, lambda: b.reload(page, "screen-shape"))
