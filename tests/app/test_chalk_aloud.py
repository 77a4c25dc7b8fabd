"""Reading aloud and staying awake: on the built site with a stub voice and a stub lock, and from a server."""

from pathlib import Path

import browser as b
import journey as j
import pytest
from playwright.sync_api import BrowserContext, Page, Playwright

STUBS = """
    globalThis.said = [];
    globalThis.locks = [];
    globalThis.SpeechSynthesisUtterance = class { constructor(text) { this.text = text; } };
    Object.defineProperty(globalThis, "speechSynthesis", { configurable: true, value: {
        getVoices: () => globalThis.voiceless ? [] : [{ name: "Kate", lang: "en-GB", localService: true }],
        cancel: () => {}, speak: (one) => said.push(one.text), addEventListener: () => {},
    } });
    Object.defineProperty(navigator, "wakeLock", { configurable: true, value: { request: async (kind) => {
        const lock = new EventTarget();
        lock.release = async () => { locks.push("released"); };
        locks.push(kind);
        return globalThis.lastLock = lock;
    } } });
"""


def told(page: Page, words: str) -> None:
    """The notice says so."""
    b.wait_until(page, lambda: bool(b.at(page, "notice").count()) and words in b.spoken(page, "notice"), words)


@pytest.fixture
def chalked(static: b.Server, known_phone: BrowserContext) -> Page:
    """The demo on the built site, at its first thing to chalk, with the stubs in the page."""
    known_phone.add_init_script(STUBS)
    page = b.open_app(known_phone, static.address)
    j.demo_to_chalk(page)
    return page


def test_the_site_reads_aloud_and_stays_awake(chalked: Page) -> None:
    page = chalked
    b.wait_until(page, lambda: page.evaluate("locks") == ["screen"], "the screen stays awake")
    while not b.at(page, "readings-2").count():
        seen = j.look(page)
        b.tap(page, "done")
        b.wait_until(page, lambda seen=seen: j.look(page) not in (None, seen), "the next is shown")  # type: ignore[misc]
        b.still(page)
    assert page.evaluate("said") == [], "nobody asked yet"
    b.tap(page, "read-aloud")
    b.wait_until(page, lambda: len(page.evaluate("said")) == 1, "the mark is said")
    first = page.evaluate("said[0]")
    assert first.startswith("Mark 1, ")
    assert first.endswith("Zero across, zero down.")
    b.at(page, "say-again").wait_for(state="attached")
    b.still(page)
    page.touchscreen.tap(*b.middle(page, "readings-1"))
    b.wait_until(page, lambda: page.evaluate("said") == [first, first], "again on a tap")
    b.tap(page, "say-again")
    b.wait_until(page, lambda: page.evaluate("said.length") == 3, "and by its button")
    b.tap(page, "done")
    b.wait_until(page, lambda: page.evaluate("said.length") == 4, "what comes next is said")
    assert page.evaluate("said[3]") != first
    b.kept(page, lambda book: book["settings"]["aloud"] is True, "that it reads aloud")
    b.still(page)
    b.tap(page, "back")
    j.arrive(page, "proof")
    b.wait_until(page, lambda: page.evaluate("locks") == ["screen", "released"], "the screen may sleep again")
    # Where there is no voice, a sentence says so and the switch goes back.
    page.evaluate("globalThis.voiceless = true")
    b.wait_until(page, lambda: b.awake(page, "start-chalking"), "one may go on chalking")
    b.tap(page, "start-chalking")
    told(page, "no voice")
    b.kept(page, lambda book: book["settings"]["aloud"] is False, "that it does not read aloud")


def test_a_server_keeps_the_screen_awake_and_says_where_marks_are_read_aloud(
    playwright: Playwright, tmp_path: Path
) -> None:
    with (
        b.app_server(tmp_path / "log", program=("tests/app/chalking_app.py",)) as server,
        b.browser_at(playwright, tmp_path / "profile") as context,
    ):
        context.add_init_script(STUBS)
        page = b.open_app(context, f"{server.address}garment/g1/chalk", "done")
        b.wait_until(page, lambda: page.evaluate("locks") == ["screen"], "the screen stays awake")
        page.evaluate("lastLock.dispatchEvent(new Event('release'))")
        page.evaluate("document.dispatchEvent(new Event('visibilitychange'))")
        b.wait_until(
            page, lambda: page.evaluate("locks") == ["screen", "screen"], "asked again once it was out of sight"
        )
        b.still(page)
        b.tap(page, "read-aloud")
        told(page, "not from a server")
        assert not b.at(page, "say-again").count()
        b.still(page)
        b.tap(page, "back")
        b.wait_until(page, lambda: page.evaluate("locks") == ["screen", "screen", "released"], "it may sleep again")
        page.evaluate("document.dispatchEvent(new Event('visibilitychange'))")
        page.wait_for_timeout(300)
        assert page.evaluate("locks") == ["screen", "screen", "released"], "and is not asked for any more"
