"""print.js by itself, in a page without Python: what is shown for printing, and where a browser does not."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

SCRIPT = (Path(__file__).resolve().parents[2] / "assets" / "web" / "print.js").read_text("utf-8")
STUB = """([views, coarse, refuses]) => {
    Object.defineProperty(navigator, "pdfViewerEnabled", { value: views, configurable: true });
    globalThis.matchMedia = (asked) => ({ matches: asked === "(pointer: coarse)" && coarse });
    globalThis.printed = 0;
    Object.defineProperty(HTMLIFrameElement.prototype, "contentWindow", { configurable: true, get() {
        return { focus() {}, print() { if (refuses) throw new DOMException("", "SecurityError"); printed += 1; } };
    } });
}"""
PRINT = """async () => {
    const answer = await pageDoes.print(new TextEncoder().encode("%PDF-1.7 two"));
    const frame = document.getElementById("to-print");
    const shown = frame ? await (await fetch(frame.src)).text() : "";
    return [answer, printed, shown, document.querySelectorAll("iframe").length];
}"""


@pytest.mark.parametrize(
    ("views", "coarse", "refuses", "answer"),
    [
        (True, False, False, [True, 1, "%PDF-1.7 two", 1]),
        (True, False, True, [False, 0, "%PDF-1.7 two", 1]),
        (False, False, False, [False, 0, "", 0]),
        (True, True, False, [False, 0, "", 0]),
    ],
    ids=["printed", "refused", "shows no PDF", "a phone"],
)
def test_a_pdf_is_printed_where_the_browser_shows_one(
    bare: Any, views: bool, coarse: bool, refuses: bool, answer: list[object]
) -> None:
    bare.evaluate("() => document.getElementById('to-print')?.remove()")
    bare.evaluate(STUB, [views, coarse, refuses])
    assert bare.evaluate(PRINT) == answer


def test_a_second_print_takes_the_place_of_the_first(bare: Any) -> None:
    bare.evaluate(STUB, [True, False, False])
    assert bare.evaluate(PRINT)[3] == 1
    assert bare.evaluate(PRINT)[3] == 1
