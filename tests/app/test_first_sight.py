"""What the site shows before any engine: in real Chromium, with the engine's files withheld."""

from pathlib import Path

import browser as b
import journey as j
from playwright.sync_api import Page, Playwright

ENGINE = ("main.dart.js", "canvaskit/**", "pyodide/**", "*.zip", "libraries/**")
FORGET = """async () => {
    for (const each of await navigator.serviceWorker.getRegistrations()) await each.unregister();
    for (const name of await caches.keys()) await caches.delete(name);
}"""
KEPT = """() => {
    const [kept] = Object.entries(localStorage).filter(([key]) => key.startsWith("foldmark glimpse"));
    return kept ? JSON.parse(kept[1]).readings ?? [] : [];
}"""
SAVED_ANEW = """(key) => new Promise((resolve, reject) => {
    const opening = indexedDB.open("foldmark /");
    opening.onsuccess = () => {
        const store = opening.result.transaction("records", "readwrite").objectStore("records");
        const got = store.get(key);
        got.onsuccess = () => store.put({ ...got.result, revision: got.result.revision + 1 });
        store.transaction.oncomplete = () => { opening.result.close(); resolve(); };
        store.transaction.onabort = reject;
    };
})"""
BOXES = """() => [...document.querySelectorAll("#glimpse p, #glimpse h1, #starting")].map((each) => {
    const range = document.createRange();
    range.selectNodeContents(each);
    const { left, right, top, bottom } = range.getBoundingClientRect();
    return { words: each.textContent, left, right, top, bottom };
})"""


def to_a_mark(page: Page) -> j.Seen:
    """Over the demo's screens to its first mark with readings."""
    j.demo_to_chalk(page)
    while True:
        seen = j.look(page)
        if seen is not None and seen.readings:
            return seen
        b.tap(page, "done")
        b.wait_until(page, lambda seen=seen: j.look(page) not in (None, seen), "the next is shown")  # type: ignore[misc]
        b.still(page)


def readings(page: Page) -> list[str]:
    """The readings that the page keeps for its next start."""
    return [value for _, value in page.evaluate(KEPT)]


def test_the_mark_stands_before_any_engine_and_only_while_it_is_the_one_that_is_kept(
    site: Path, playwright: Playwright, tmp_path: Path
) -> None:
    with b.browser_at(playwright, tmp_path / "profile") as context, b.static_server(site, tmp_path / "log") as host:
        page = b.open_app(context, host.address)
        seen = to_a_mark(page)
        b.wait_until(
            page, lambda: readings(page) != [] and all(map(seen.said.__contains__, readings(page))), "it is kept"
        )
        values = readings(page)
        page.goto(host.address)
        b.switch_on(page, "done")
        b.wait_until(page, lambda: page.locator("#glimpse").count() == 0, "it goes once the screen is drawn")
        assert page.evaluate("startTimes.glimpse < startTimes.firstFrame"), "it stood before"
        page.evaluate(FORGET)
        for name in ENGINE:
            context.route(f"**/{name}", lambda route: None)  # it is never answered
        for size in ((390, 664), (844, 390), (360, 640)):
            page.set_viewport_size({"width": size[0], "height": size[1]})
            page.goto(host.address, wait_until="commit")
            page.locator("#glimpse").wait_for(timeout=30_000)
            shown = page.locator("#glimpse").inner_text()
            assert seen.said.splitlines()[0] in shown or any(each in shown for each in seen.said.splitlines())
            b.wait_true(page, "document.getElementById('starting')?.style.bottom === '24px'")
            boxes = page.evaluate(BOXES)
            for value in values:
                assert any(each["words"].startswith(value) for each in boxes), value
            for box in boxes:
                assert min(box["left"], box["top"]) >= 0, box
                assert box["right"] <= size[0], box
                assert box["bottom"] <= size[1], box
            places = sorted(boxes, key=lambda each: each["top"])
            assert "starting" in places[-1]["words"], "that it is not yet live stands under it"
            assert max(each["bottom"] for each in places[:-1]) <= places[-1]["top"], size
        page.evaluate("dispatchEvent(new Event('flutter-first-frame'))")
        assert page.locator("#glimpse #starting").count() == 1, "it is not yet live while Python has not drawn"
        for key in ("garment.", "frozen."):
            page.evaluate(SAVED_ANEW, key + b.newest(page))
            page.goto(host.address, wait_until="commit")
            page.locator("#starting").wait_for(timeout=30_000)
            page.wait_for_timeout(1500)
            assert page.locator("#glimpse").count() == 0, "another number may be the true one"
