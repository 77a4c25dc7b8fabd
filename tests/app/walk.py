"""Every screen of the app in one page load, one after the other, to be measured as a person sees it."""

from collections.abc import Iterator

import browser as b
import journey as j
from playwright.sync_api import Page

from app.state import STEPS


def to_step(page: Page, step: str) -> None:
    """Go to a step of the way; where the line of steps is too long, it is moved with a finger first.

    The finger goes along the line itself. A step in a line that was moved stands too high in the client's tree, and a
    step that is far out of sight is not in it.
    """
    name = f"progress-{step}"
    line = b.at(page, "progress").bounding_box()
    assert line is not None
    left, right, middle = line["x"], line["x"] + line["width"], line["y"] + line["height"] / 2
    for _ in range(6):
        box = b.at(page, name).bounding_box() if b.at(page, name).count() else None
        if box is not None and box["x"] > left - 1 and box["x"] + box["width"] < right + 1:
            break
        first = next(each for each in STEPS if b.at(page, f"progress-{each}").count())
        before = box["x"] < left if box is not None else STEPS.index(step) < STEPS.index(first)
        start, end = (0.2, 0.8) if before else (0.8, 0.2)
        across = [left + line["width"] * (start + (end - start) * part / 8) for part in range(9)]
        b.touch(page, [[(x, middle) for x in across]])
        b.still(page)
    else:
        raise AssertionError(f"a finger does not bring {name} into sight")
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
    b.tap(page, "measure-flat")
    b.at(page, "flat-stretch_across").wait_for(state="attached", timeout=30_000)
    b.still(page)
    yield "person, a garment that fits"
    b.tap(page, "back")
    b.at(page, "measure-flat").wait_for(state="attached", timeout=30_000)
    b.still(page)
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
    j.at_home(page)
    yield "home, in work"
