"""An unexpected failure, wherever it happens: a calm page, a report without personal data, and nothing is lost."""

from pathlib import Path

import browser as b
import journey as j
from playwright.sync_api import Page, Playwright

NAME, BUST, STATURE = "Thorvalda", "93.7", "171.3"
PRIVATE = [NAME, BUST, STATURE, "Ferry"]
"""What is typed here, and the name of the demo's garment."""


def the_page_is_calm(page: Page, what: str) -> None:
    """The trouble page says what it must; the report can be copied, names the failure and quotes nothing typed."""
    b.at(page, "screen-trouble").wait_for(state="attached", timeout=20_000)
    b.still(page)
    assert "Your measures are safe." in b.spoken(page, "screen-trouble")
    report = b.field_value(page, "report")
    assert what in report
    assert "failing_app.py:" in report, "where it happened"
    b.tap(page, "copy-report")
    copied = ""
    for _ in range(100):
        copied = page.evaluate("navigator.clipboard.readText()")
        if copied.split() == report.split():
            break
        page.wait_for_timeout(100)
    else:
        raise AssertionError(f"what is shown was never copied: {copied!r}")
    for text in (b.spoken(page, "screen-trouble"), report, copied):
        assert [each for each in PRIVATE if each in text] == []
    b.tap(page, "leave-trouble")
    j.arrive(page, "home")


def the_person_is_there(page: Page) -> None:
    """Home shows the person, and no trouble."""
    assert not b.at(page, "screen-trouble").count()
    b.wait_until(page, lambda: NAME in b.text(page, "screen-home"), "the person is there")


def everything_is_there(page: Page) -> None:
    """From home: the person as typed."""
    the_person_is_there(page)
    opened = page.locator('[flt-semantics-identifier^="person-p"]:not([flt-semantics-identifier$="-card"])').first
    opened.tap()
    j.arrive(page, "person")
    assert b.field_value(page, "name") == NAME
    expected = {"measure-stature": STATURE, "measure-bust_girth": BUST}
    for _ in range(6):
        j.onward(page)
        for field in [each for each in expected if b.at(page, each).count()]:
            assert b.field_value(page, field) == expected.pop(field)
        if not expected:
            break
    assert not expected
    j.at_home(page)


def a_garment_for_somebody(page: Page) -> None:
    """The demo, for somebody with a name and figures of their own."""
    b.tap(page, "try-demo")
    j.arrive(page, "shape")
    b.tap(page, "progress-person")
    j.arrive(page, "person")
    b.type_into(page, "name", NAME)
    j.measured(page, {"stature": STATURE, "bust_girth": BUST})
    b.kept(page, lambda book: book["people"][0]["measures"]["bust_girth"] == BUST, "all that was typed")


def test_an_unexpected_failure_loses_nothing_and_tells_nothing(playwright: Playwright, tmp_path: Path) -> None:
    said = tmp_path / "said"
    program = (str(Path(__file__).with_name("failing_app.py")),)
    with (
        b.app_server(tmp_path / "log", program=program, said=said) as server,
        b.browser_at(playwright, tmp_path / "profile", permissions=["clipboard-read", "clipboard-write"]) as context,
    ):
        page = b.open_app(context, server.address)
        a_garment_for_somebody(page)
        j.at_home(page)
        # Where a choice is taken in.
        b.tap(page, "settings")
        b.tap(page, "light-dark")
        the_page_is_calm(page, "ValueError")
        the_person_is_there(page)
        # Where a screen is drawn.
        b.tap(page, f"garment-{b.newest(page)}")
        j.arrive(page, "shape")
        b.tap(page, "next")
        the_page_is_calm(page, "RuntimeError")
        the_person_is_there(page)
        # Where work goes on behind the screen.
        page.goto(f"{server.address}garment/{b.newest(page)}/paper")
        b.switch_on(page, "screen-paper")
        b.tap(page, "paper-files")
        b.wait_until(page, lambda: b.awake(page, "save-pattern-svg"), "the pattern can be saved")
        b.tap(page, "save-pattern-svg")
        the_page_is_calm(page, "LookupError")
        everything_is_there(page)
        b.reload(page)
        everything_is_there(page)
        written = said.read_text()
        assert "ValueError" in written
        assert [each for each in PRIVATE if each in written] == [], "nor does the server's own output quote anything"
