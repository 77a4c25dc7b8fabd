"""The built site in WebKit, the engine of every iPhone, and in Firefox.

One journey of each: the demo to a mark, the same mark after a reload and with the host gone.
"""

from collections.abc import Iterator
from pathlib import Path

import browser as b
import journey as j
import pytest
from engines import ENGINES, Engine
from playwright.sync_api import Page

PHONE = {"width": 390, "height": 664}


def called(engine: type[Engine]) -> str:
    return engine.__name__


@pytest.fixture(params=ENGINES, ids=called)
def engine(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Engine]:
    """A browser that is not Chromium."""
    with request.param(tmp_path / "engine") as started:
        yield started


def to_a_mark(engine: Engine, address: str) -> Page:
    """On a phone the demo, over its screens, to its first thing to chalk."""
    engine.set_viewport_size(PHONE)
    page = engine.open(address)
    b.tap(page, "try-demo")
    j.arrive(page, "shape")
    for screen in ("cloth", "proof"):
        j.onward(page)
        j.arrive(page, screen)
    b.wait_until(page, lambda: b.awake(page, "start-chalking"), "it can be chalked", 90)
    b.tap(page, "start-chalking")
    b.at(page, "done").wait_for(state="attached", timeout=60_000)
    b.still(page)
    return page


def shows(page: Page, expected: j.Seen) -> None:
    """Wait until the chalk screen shows this."""
    b.wait_until(page, lambda: j.look(page) == expected, f"{expected.place} of {expected.of}, not {j.look(page)}", 60)


def test_the_demo_to_a_mark_and_the_same_mark_again_without_its_host(
    engine: Engine, site: Path, tmp_path: Path
) -> None:
    with b.static_server(site, tmp_path / "log") as host:
        page = to_a_mark(engine, host.address)
        mark, ticked = j.look(page), 0
        while mark is not None and not mark.readings:
            b.tap(page, "done")
            ticked += 1
            b.wait_until(page, lambda mark=mark: j.look(page) not in (None, mark), "the next is shown")  # type: ignore[misc]
            b.still(page)
            mark = j.look(page)
        assert mark is not None
        b.kept(page, lambda book: len(book["garments"][0]["chalk_done"]) == ticked, "what is ticked off")
        assert str(page.evaluate("navigator.language")).startswith("en"), "a tag that is none is put aside"
        page.goto(host.address)
        b.switch_on(page, "done")
        shows(page, mark)
        b.offline_ready(page)
        host.kill()
        page.goto(host.address)
        b.switch_on(page, "done")
        shows(page, mark)
