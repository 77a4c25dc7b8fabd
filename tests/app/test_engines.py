"""The built site in WebKit, the engine of every iPhone, and in Firefox.

In the ordinary run one journey of each: the demo to a mark, and the same mark opened again with the host gone. In the
long run also keys, the boxes of the chalk screen, saved files and a start during a save.
"""

import json
import shutil
from collections.abc import Iterator
from pathlib import Path

import browser as b
import journey as j
import pytest
from engines import ENGINES, Engine, WebKit
from playwright.sync_api import Page
from pypdf import PdfReader
from test_chalk_screen import LONG, SHORT, at_size, go_to, whole
from test_keyboard import to
from test_tabs import opened_in_the_middle_of_a_save

from drafting.order import read_order

PHONE = {"width": 390, "height": 664}


def called(engine: type[Engine]) -> str:
    return engine.__name__


@pytest.fixture(params=ENGINES, ids=called)
def engine(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Engine]:
    """A browser that is not Chromium."""
    with request.param(tmp_path / "engine") as started:
        yield started


def site_for(engine: type[Engine], request: pytest.FixtureRequest) -> Path:
    """The built site; for WebKit the one that lets its driver work."""
    site: Path = request.getfixturevalue("driven_site" if engine is WebKit else "site")
    return site


def to_a_mark(engine: Engine, address: str) -> Page:
    """On a phone the demo, over its screens, to its first thing to chalk."""
    engine.set_viewport_size(PHONE)
    page = engine.open(address)
    j.demo_to_chalk(page)
    return page


def shows(page: Page, expected: j.Seen) -> None:
    """Wait until the chalk screen shows this."""
    b.wait_until(page, lambda: j.look(page) == expected, f"{expected.place} of {expected.of}, not {j.look(page)}", 60)


def test_the_demo_to_a_mark_and_the_same_mark_again_without_its_host(
    engine: Engine, request: pytest.FixtureRequest, tmp_path: Path
) -> None:
    with b.static_server(site_for(type(engine), request), tmp_path / "log") as host:
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
        b.offline_ready(page)
        b.memory_kept(page)
        host.kill()
        page.goto(host.address)
        b.switch_on(page, "done")
        shows(page, mark)
        assert "woken" in page.evaluate("() => startTimes"), "Python was woken from its memory"


@pytest.mark.parametrize("engine", [WebKit], indirect=True, ids=called)
def test_a_page_that_is_left_in_the_middle_of_a_change_does_not_lock_the_records(
    engine: Engine, tmp_path: Path
) -> None:
    """WebKit keeps a page that is left as it is, with what it was changing: in about half of such cases a lock."""
    folder = tmp_path / "plain"
    folder.mkdir()
    shutil.copy(b.ROOT / "assets" / "web" / "storage.js", folder)
    (folder / "index.html").write_text("<!doctype html><title>Records</title>")
    have = "async (key) => { globalThis.store = await import('./storage.js'); return key && await store.get(key); }"
    change = "() => { (async () => { for (let n = 0; ; n++) await store.put(`a${n}`, 'text', 0); })(); return 0; }"
    with b.static_server(folder, tmp_path / "log") as host:
        for turn in range(8):
            engine.goto(f"{host.address}index.html?{turn}")
            engine.evaluate(have, "")
            engine.evaluate(change)
            engine.wait_for_timeout(300 + 37 * turn)
            engine.goto(f"{host.address}index.html?after")
            assert engine.evaluate(have, "a0") == {"text": "text", "revision": 1}


@pytest.fixture(scope="module", params=ENGINES, ids=called)
def chalked(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Engine]:
    """A browser with the demo begun, kept for one test after the other."""
    with (
        b.static_server(site_for(request.param, request), tmp_path_factory.mktemp("chalked") / "log") as host,
        request.param(tmp_path_factory.mktemp("chalked")) as started,
    ):
        page = to_a_mark(started, host.address)
        b.kept(page, lambda book: book["garments"][0]["chalking"], "that it is being chalked")
        started.begun, started.address = b.newest(page), host.address
        yield started


def place(page: Page) -> int:
    """Where in the order the chalk screen is."""
    now = j.look(page)
    return 0 if now is None else now.place


@pytest.mark.long
def test_keys_chalk_and_reach_the_choices(chalked: Engine) -> None:
    page = chalked.open(f"{chalked.address}garment/{chalked.begun}/chalk", "done")
    first = place(page)
    for key, by in (("Space", 1), ("Enter", 2), ("ArrowLeft", 1), ("Backspace", 0), ("ArrowRight", 1)):
        page.keyboard.press(key)
        b.wait_until(page, lambda by=by: place(page) == first + by, f"{key} leads to {first + by}, not {place(page)}")  # type: ignore[misc]
        b.still(page)
        page.wait_for_timeout(150)
    page = chalked.open(f"{chalked.address}garment/{chalked.begun}/shape", "screen-shape")
    b.still(page)
    to(page, "length-hip")
    page.keyboard.press("ArrowRight")
    b.wait_until(page, lambda: b.chosen(page, "length-mid_thigh"), "an arrow chooses the next of a group")
    page.keyboard.press("ArrowLeft")
    b.wait_until(page, lambda: b.chosen(page, "length-hip"), "and the one before")
    b.kept(page, lambda book: book["garments"][0]["style"].get("length") == "hip", "the choice")


@pytest.mark.long
def test_the_chalk_screen_is_whole(chalked: Engine) -> None:
    page = chalked.open(f"{chalked.address}garment/{chalked.begun}/chalk", "done")
    go_to(page, LONG)
    kept = {}
    for size in ((390, 664), (844, 390)):
        at_size(page, size, 100)
        kept[size], _ = whole(page, size, 100)
    at_size(page, (390, 664), 100)
    go_to(page, SHORT)
    for size, before in kept.items():
        at_size(page, size, 100)
        boxes, _ = whole(page, size, 100)
        assert boxes == before, f"the numbers stay where they are, {size}"
    at_size(page, (390, 664), 100)


@pytest.mark.long
def test_what_is_saved_arrives(chalked: Engine) -> None:
    page = chalked.open(f"{chalked.address}garment/{chalked.begun}/paper", "screen-paper")
    b.wait_until(page, lambda: b.awake(page, "save-chalk-sheet-pdf"), "the sheet can be saved", 90)
    b.tap(page, "save-chalk-sheet-pdf")
    sheet = chalked.file("*.pdf")
    assert "0" in PdfReader(sheet).pages[0].extract_text()
    b.still(page)
    b.tap(page, "paper-files")  # those for other programs are folded away at first
    b.wait_until(page, lambda: b.awake(page, "save-order-json"), "the order can be saved", 90)
    b.tap(page, "save-order-json")
    order = json.loads(chalked.file("*.json").read_text("utf-8"))
    read, problems = read_order(order)
    assert read is not None, problems
    assert order["style"]["length"] == "hip"


@pytest.mark.long
def test_opened_again_in_the_middle_of_a_save(chalked: Engine) -> None:
    page = chalked.open(f"{chalked.address}garment/{chalked.begun}/shape", "screen-shape")
    opened_in_the_middle_of_a_save(page, lambda: chalked.open(page.url, "screen-shape"))
