"""print.js by itself, in a page without Python: what is shown for printing, and where a browser does not."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import browser as b
import pytest
from playwright.sync_api import Playwright

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


@pytest.fixture(scope="module")
def page(app: b.Server, playwright: Playwright, tmp_path_factory: pytest.TempPathFactory) -> Any:
    with b.browser_at(playwright, tmp_path_factory.mktemp("print"), **b.DESK) as context:
        page = context.new_page()
        page.goto(app.address + "icons/icon-192.png")
        page.evaluate(SCRIPT)
        yield page


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
    page: Any, views: bool, coarse: bool, refuses: bool, answer: list[object]
) -> None:
    page.evaluate("() => document.getElementById('to-print')?.remove()")
    page.evaluate(STUB, [views, coarse, refuses])
    assert page.evaluate(PRINT) == answer


def test_a_second_print_takes_the_place_of_the_first(page: Any) -> None:
    page.evaluate(STUB, [True, False, False])
    assert page.evaluate(PRINT)[3] == 1
    assert page.evaluate(PRINT)[3] == 1
