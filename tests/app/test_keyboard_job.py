"""The whole job by keyboard alone, at a desk, for somebody new: no pointer is needed, and the focus is never lost."""

from pathlib import Path

import browser as b
import journey as j
import pytest
from keys import begins_at, fill, focused, press, to
from playwright.sync_api import BrowserContext, Page

MEASURES = {"stature": "171,5", "bust_girth": "92.5", "head_girth": "57"}
_ASKED = """() => [...document.querySelectorAll("[flt-semantics-identifier^='measure-']")]
    .map((each) => each.getAttribute("flt-semantics-identifier").slice("measure-".length))"""


def asked(page: Page) -> list[str]:
    """The measures that the page asks for."""
    return list(page.evaluate(_ASKED))


def measured(page: Page) -> None:
    """Through the measures, one a screen: three are typed, the others are estimated or passed over."""
    typed = 0
    for _ in range(20):
        now = asked(page)
        if len(now) > 1:
            break
        url = page.url
        if now[0] in MEASURES:
            fill(page, f"measure-{now[0]}", MEASURES[now[0]])
            typed += 1
            b.wait_until(page, lambda: not b.at(page, "skip").count(), "what is typed is not passed over")
            press(page, "next")
        else:
            press(page, "skip")
        b.wait_until(page, lambda url=url: page.url != url, "the next measure is asked")  # type: ignore[misc]
        b.wait_until(page, lambda now=now: asked(page) not in ([], now), "its field is there")  # type: ignore[misc]
        b.still(page)
        begins_at(page, "heading")
    assert typed == len(MEASURES)


def shaped(page: Page) -> None:
    """A length and a flare by the arrows, a neck by its step."""
    to(page, "length-knee")
    page.keyboard.press("ArrowLeft")
    b.wait_until(page, lambda: b.chosen(page, "length-mid_thigh"), "an arrow chooses the length before")
    assert focused(page) == "length-mid_thigh"
    before = b.text(page, "neck_height-says")
    press(page, "neck_height-less")
    b.wait_until(page, lambda: b.text(page, "neck_height-says") != before, "the neck is lower by a step")
    assert focused(page) == "neck_height-less"


def stretched(page: Page) -> None:
    """The cloth, with its stretch as it is tested along and across."""
    fill(page, "cloth-width", "90")
    for way, pulled in (("across", "15"), ("along", "12,5")):
        fill(page, f"cloth-test-{way}-marked", "10")
        fill(page, f"cloth-test-{way}-pulled", pulled)
        page.keyboard.press("Enter")
    b.kept(page, lambda book: "stretch_along" in book["garments"][0]["cloth"], "the stretch of the test")


def mended(page: Page) -> None:
    """One way out is pressed; it goes away with what was wrong, and the focus goes on to what stands there."""
    b.wait_until(page, lambda: bool(ways(page)), "there is a way out", 90)
    way = ways(page)[0]
    press(page, way)
    b.wait_until(page, lambda: b.awake(page, "start-chalking") and way not in ways(page), "it goes on the cloth", 90)
    b.still(page)
    assert focused(page), "the focus is not lost with what was pressed"


def ways(page: Page) -> list[str]:
    found = """() => [...document.querySelectorAll("[flt-semantics-identifier^='way-']")]
        .map((each) => each.getAttribute("flt-semantics-identifier")).filter((name) => !name.endsWith("-follows"))"""
    return list(page.evaluate(found))


def chalked(page: Page) -> int:
    """Every mark ticked off by Space and Enter in turn, once back by an arrow and on again; how many there were."""
    begins_at(page, "done")
    seen = j.look(page)
    assert seen is not None
    for number in range(200):
        now = j.look(page)
        if now is None:
            return number
        page.wait_for_timeout(120)  # sooner keys are taken for tremblings of the last
        page.keyboard.press("Enter" if number % 2 else "Space")
        b.wait_until(page, lambda now=now: j.look(page) != now, f"{now.place} of {now.of} is ticked off")  # type: ignore[misc]
        if number == 4:
            after = j.look(page)
            page.keyboard.press("ArrowLeft")
            b.wait_until(page, lambda now=now: now.place == getattr(j.look(page), "place", 0), "the arrow goes back")  # type: ignore[misc]
            page.keyboard.press("ArrowRight")
            b.wait_until(page, lambda after=after: j.look(page) == after, "and on again")  # type: ignore[misc]
            begins_at(page, "done")
    raise AssertionError("there is no end to the marks")


@pytest.mark.long
def test_a_new_person_comes_to_the_paper_without_a_pointer(app: b.Server, desk: BrowserContext, tmp_path: Path) -> None:
    page = b.open_app(desk, app.address)
    press(page, "new-garment")
    b.at(page, "screen-home").wait_for(state="detached", timeout=30_000)
    b.still(page)
    if b.at(page, "screen-which").count():
        begins_at(page, "heading")
        to(page, "which-cut_in_one")
        press(page, "next")
    j.arrive(page, "person")
    begins_at(page, "heading")
    fill(page, "name", "Runa")
    press(page, "next")
    b.at(page, "measure-stature").wait_for(state="attached")
    begins_at(page, "heading")
    measured(page)
    press(page, "next")
    j.arrive(page, "shape")
    begins_at(page, "heading")
    shaped(page)
    press(page, "next")
    j.arrive(page, "cloth")
    begins_at(page, "heading")
    stretched(page)
    press(page, "next")
    j.arrive(page, "proof")
    begins_at(page, "heading")
    mended(page)
    press(page, "go-lay")
    j.arrive(page, "lay")
    begins_at(page, "heading")
    press(page, "lay-table")
    press(page, "start-chalking")
    j.arrive(page, "chalk")
    assert chalked(page) > 20
    begins_at(page, "next")
    page.keyboard.press("Enter")
    j.arrive(page, "paper")
    begins_at(page, "heading")
    with page.expect_download(timeout=90_000) as download:
        press(page, "save-chalk-sheet-pdf")
    download.value.save_as(tmp_path / "sheet.pdf")
    assert (tmp_path / "sheet.pdf").read_bytes().startswith(b"%PDF")
    assert b.book(page)["people"][0]["name"] == "Runa"
