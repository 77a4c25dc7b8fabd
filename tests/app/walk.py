"""Every screen of the app in one page load, one after the other, to be measured as a person sees it."""

from collections.abc import Iterator

import browser as b
import journey as j
from playwright.sync_api import Page


def to_step(page: Page, step: str) -> None:
    """Go to a step of the way; where the line of steps is too long, it is moved with a finger first."""
    name = f"progress-{step}"
    size = page.viewport_size
    assert size is not None
    for _ in range(6):
        box = b.at(page, name).bounding_box()
        assert box is not None, name
        if box["x"] > -1 and box["x"] + box["width"] < size["width"] + 1:
            break
        ends = (0.2, 0.8) if box["x"] < 0 else (0.8, 0.2)
        across = [size["width"] * (ends[0] + (ends[1] - ends[0]) * part / 8) for part in range(9)]
        b.touch(page, [[(x, box["y"] + box["height"] / 2) for x in across]])
        b.still(page)
    b.tap(page, name)
    j.arrive(page, step)


def every_screen(page: Page) -> Iterator[str]:
    """From the empty home with the demo to the sewing; a name for each screen once it stands still."""
    yield "home, empty"
    b.tap(page, "settings")
    b.at(page, "light-dark").wait_for(state="attached")
    yield "home, settings"
    b.tap(page, "try-demo")
    j.arrive(page, "shape")
    b.at(page, "other-view").wait_for(state="attached", timeout=30_000)
    yield "shape, on the person"
    b.tap(page, "other-view")
    b.tap(page, "more-shape")
    b.at(page, "neck_layers-single").wait_for(state="attached", timeout=30_000)
    yield "shape, flat"
    to_step(page, "person")
    yield "person, who"
    j.onward(page)
    yield "person, one measure"
    b.tap(page, "measuring-list")
    b.at(page, "measure-head_girth").wait_for(state="attached", timeout=30_000)
    yield "person, all measures"
    to_step(page, "cloth")
    yield "cloth"
    j.onward(page)
    j.arrive(page, "proof")
    b.wait_until(page, lambda: b.awake(page, "start-chalking"), "chalking can start")
    yield "proof"
    to_step(page, "lay")
    b.at(page, "save-0").wait_for(state="attached", timeout=60_000)
    yield "lay"
    b.tap(page, "start-chalking")
    j.arrive(page, "chalk")
    b.wait_until(page, lambda: bool(b.at(page, "done").count()), "there is something to chalk")
    yield "chalk, words"
    for _ in range(40):
        if b.at(page, "readings-2").count():
            break
        b.tap(page, "done")
        b.still(page)
    yield "chalk, a mark"
    b.tap(page, "mark-list")
    b.at(page, "item-1").wait_for(state="attached", timeout=30_000)
    yield "chalk, the list"
    to_step(page, "paper")
    b.tap(page, "paper-files")
    b.at(page, "save-order-json").wait_for(state="attached", timeout=30_000)
    yield "paper"
    j.onward(page)
    j.arrive(page, "sew")
    yield "sew"
    to_step(page, "person")
    b.tap(page, "back")
    j.arrive(page, "home")
    yield "home, in work"
