"""table.js by itself, in a page without Python: a stub voice and a stub lock, and where a browser has neither."""

from pathlib import Path
from typing import Any

import browser as b
import pytest
from playwright.sync_api import Playwright

SCRIPT = (Path(__file__).resolve().parents[2] / "assets" / "web" / "table.js").read_text("utf-8")
VOICES = """([voices, online, late]) => {
    globalThis.said = [];
    let now = late ? [] : voices, tell = null;
    Object.defineProperty(navigator, "onLine", { value: online, configurable: true });
    globalThis.SpeechSynthesisUtterance = class { constructor(text) { this.text = text; } };
    Object.defineProperty(globalThis, "speechSynthesis", { configurable: true, value: {
        getVoices: () => now, cancel: () => said.push("-"), speak: (one) => said.push(`${one.voice.name}: ${one.text}`),
        addEventListener: (kind, call) => { tell = call; },
    } });
    if (late) setTimeout(() => { now = voices; tell(); }, 100);
}"""
LOCK = """(refuses) => {
    globalThis.locks = [];
    Object.defineProperty(navigator, "wakeLock", { configurable: true, value: refuses === "none" ? undefined : {
        request: async (kind) => {
            if (refuses) throw new DOMException("", "NotAllowedError");
            const lock = new EventTarget();
            lock.release = async () => { locks.push("released"); lock.dispatchEvent(new Event("release")); };
            locks.push(kind);
            return lock;
        } } });
}"""


def voice(name: str, lang: str, here: bool = True) -> dict[str, object]:
    return {"name": name, "lang": lang, "localService": here}


@pytest.fixture(scope="module")
def page(app: b.Server, playwright: Playwright, tmp_path_factory: pytest.TempPathFactory) -> Any:
    with b.browser_at(playwright, tmp_path_factory.mktemp("table"), **b.DESK) as context:
        page = context.new_page()
        page.goto(app.address + "icons/icon-192.png")
        page.evaluate(SCRIPT)
        yield page


@pytest.mark.parametrize(
    ("voices", "online", "late", "said"),
    [
        ([voice("Anna", "de-DE"), voice("Away", "en-GB", False), voice("Kate", "en-GB")], True, False, "Kate"),
        ([voice("Anna", "de-DE"), voice("Away", "en-GB", False)], True, False, "Away"),
        ([voice("Anna", "de-DE"), voice("Away", "en-GB", False)], False, False, "Anna"),
        ([voice("Away", "en-GB", False)], False, False, ""),
        ([voice("Kate", "en_GB")], True, True, "Kate"),
        ([], True, False, ""),
    ],
    ids=["here before elsewhere", "its language before another", "no network", "none without network", "late", "none"],
)
def test_the_devices_own_voice_says_it(page: Any, voices: list[Any], online: bool, late: bool, said: str) -> None:
    page.evaluate(VOICES, [voices, online, late])
    assert page.evaluate("pageDoes.speak('eleven and a half')") == ("spoken" if said else "no_voice")
    assert page.evaluate("said") == (["-", f"{said}: eleven and a half"] if said else ["-"])


def test_without_words_it_only_stops_and_what_is_newer_is_said(page: Any) -> None:
    page.evaluate(VOICES, [[voice("Kate", "en-GB")], True, False])
    assert page.evaluate("pageDoes.speak('')") == "spoken"
    assert page.evaluate("said") == ["-"]
    page.evaluate(VOICES, [[voice("Kate", "en-GB")], True, True])
    page.evaluate("Promise.all([pageDoes.speak('first'), pageDoes.speak('second')])")
    assert page.evaluate("said") == ["-", "-", "Kate: second"]


def test_the_screen_is_kept_awake_and_let_go(page: Any) -> None:
    page.evaluate(LOCK, False)
    assert page.evaluate("pageDoes.stayAwake(true)") is True
    assert page.evaluate("pageDoes.stayAwake(true)") is True
    assert page.evaluate("locks") == ["screen"], "asked once"
    assert page.evaluate("pageDoes.stayAwake(false)") is True
    assert page.evaluate("locks") == ["screen", "released"]
    page.evaluate("document.dispatchEvent(new Event('visibilitychange'))")
    assert page.evaluate("locks") == ["screen", "released"], "not asked again once it is no longer wanted"


def test_what_the_browser_lets_go_of_is_asked_for_again(page: Any) -> None:
    page.evaluate(LOCK, False)
    page.evaluate("""async () => {
        const ask = navigator.wakeLock.request;
        navigator.wakeLock.request = async (kind) => (globalThis.last = await ask(kind));
        await pageDoes.stayAwake(true);
        last.dispatchEvent(new Event("release"));
        document.dispatchEvent(new Event("visibilitychange"));
        await new Promise((done) => setTimeout(done, 50));
    }""")
    assert page.evaluate("locks") == ["screen", "screen"]
    page.evaluate("pageDoes.stayAwake(false)")


@pytest.mark.parametrize("refuses", [True, "none"])
def test_a_browser_that_refuses_is_told_of(page: Any, refuses: object) -> None:
    page.evaluate(LOCK, refuses)
    assert page.evaluate("pageDoes.stayAwake(true)") is False
    assert page.evaluate("pageDoes.stayAwake(false)") is True
