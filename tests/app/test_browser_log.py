"""Which hosts the browser says were asked: by the page, its workers and the service worker, which no page sees."""

import re
from pathlib import Path

import browser as b
from playwright.sync_api import Playwright

OF_CHROMIUM = {"accounts.google.com", "update.googleapis.com"}
"""What Chromium asks for by itself, whatever page is open (found out); FLAGS keep both out of reach."""
_ASKED = """async () => {
    const code = "fetch('http://on-purpose.invalid/').catch(() => postMessage(0))";
    const worker = new Worker(URL.createObjectURL(new Blob([code])));
    await new Promise((done) => (worker.onmessage = done));
}"""


def hosts_asked(log: Path) -> set[str]:
    """Every host of an address in Chromium's own log of the network, but for the browser's own."""
    return set(re.findall(r'"url":"(?:https?|wss?)://([^"/:]+)', log.read_text("utf-8"))) - OF_CHROMIUM


def test_all_that_is_fetched_and_kept_for_offline_comes_from_one_host(
    static: b.Server, playwright: Playwright, tmp_path: Path
) -> None:
    log = tmp_path / "log.json"
    with b.browser_at(playwright, tmp_path / "profile", flags=(f"--log-net-log={log}",)) as context:
        page = b.open_app(context, static.address)
        b.offline_ready(page)
    assert hosts_asked(log) == {"127.0.0.1"}


def test_the_log_tells_what_a_worker_asks_elsewhere(static: b.Server, playwright: Playwright, tmp_path: Path) -> None:
    log = tmp_path / "log.json"
    with b.browser_at(playwright, tmp_path / "profile", flags=(f"--log-net-log={log}",)) as context:
        page = context.new_page()
        page.goto(static.address + "version.json")  # no policy holds it
        page.evaluate(_ASKED)
    assert hosts_asked(log) == {"127.0.0.1", "on-purpose.invalid"}
