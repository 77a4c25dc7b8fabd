"""table.js by itself, in a page without Python: a stub voice and a stub lock, and where a browser has neither."""

from pathlib import Path
from typing import Any

import pytest

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
def test_the_devices_own_voice_says_it(bare: Any, voices: list[Any], online: bool, late: bool, said: str) -> None:
    bare.evaluate(VOICES, [voices, online, late])
    assert bare.evaluate("pageDoes.speak('eleven and a half')") == ("spoken" if said else "no_voice")
    assert bare.evaluate("said") == (["-", f"{said}: eleven and a half"] if said else ["-"])


def test_without_words_it_only_stops_and_what_is_newer_is_said(bare: Any) -> None:
    bare.evaluate(VOICES, [[voice("Kate", "en-GB")], True, False])
    assert bare.evaluate("pageDoes.speak('')") == "spoken"
    assert bare.evaluate("said") == ["-"]
    bare.evaluate(VOICES, [[voice("Kate", "en-GB")], True, True])
    bare.evaluate("Promise.all([pageDoes.speak('first'), pageDoes.speak('second')])")
    assert bare.evaluate("said") == ["-", "-", "Kate: second"]


def test_the_screen_is_kept_awake_and_let_go(bare: Any) -> None:
    bare.evaluate(LOCK, False)
    assert bare.evaluate("pageDoes.stayAwake(true)") is True
    assert bare.evaluate("pageDoes.stayAwake(true)") is True
    assert bare.evaluate("locks") == ["screen"], "asked once"
    assert bare.evaluate("pageDoes.stayAwake(false)") is True
    assert bare.evaluate("locks") == ["screen", "released"]
    bare.evaluate("document.dispatchEvent(new Event('visibilitychange'))")
    assert bare.evaluate("locks") == ["screen", "released"], "not asked again once it is no longer wanted"


def test_what_the_browser_lets_go_of_is_asked_for_again(bare: Any) -> None:
    bare.evaluate(LOCK, False)
    bare.evaluate("""async () => {
        const ask = navigator.wakeLock.request;
        navigator.wakeLock.request = async (kind) => (globalThis.last = await ask(kind));
        await pageDoes.stayAwake(true);
        last.dispatchEvent(new Event("release"));
        document.dispatchEvent(new Event("visibilitychange"));
        await new Promise((done) => setTimeout(done, 50));
    }""")
    assert bare.evaluate("locks") == ["screen", "screen"]
    bare.evaluate("pageDoes.stayAwake(false)")


@pytest.mark.parametrize("refuses", [True, "none"])
def test_a_browser_that_refuses_is_told_of(bare: Any, refuses: object) -> None:
    bare.evaluate(LOCK, refuses)
    assert bare.evaluate("pageDoes.stayAwake(true)") is False
    assert bare.evaluate("pageDoes.stayAwake(false)") is True
