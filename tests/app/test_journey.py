"""The whole job in real Chromium: new person, shape, cloth, proof, every mark, paper; on the site and from a server.

What is saved must say what the command line says for the same order.
"""

import json
import re
import subprocess
import sys
from pathlib import Path
from typing import Any

import browser as b
import pytest
from playwright.sync_api import BrowserContext, Page, Playwright
from pypdf import PdfReader

ROOT = Path(__file__).resolve().parents[2]
DESK = {**b.DESK, "device_scale_factor": 1, "is_mobile": False, "has_touch": False}


def arrive(page: Page, screen: str) -> None:
    """Wait for a screen and let its movement end."""
    b.at(page, f"screen-{screen}").wait_for(state="attached", timeout=30_000)
    page.wait_for_timeout(700)


def onward(page: Page, screen: str, most: int = 8) -> None:
    """Tap the one way on until a screen is reached."""
    for _ in range(most):
        b.tap(page, "next")
        page.wait_for_timeout(900)
        if b.at(page, f"screen-{screen}").count():
            return
    raise AssertionError(f"{screen} was not reached from {page.url}")


def chalk_all(page: Page) -> int:
    """Tick off everything on the chalk screen; returns how many things there were."""
    for done in range(90):
        page.wait_for_timeout(350)
        if not b.at(page, "done").count():
            return done
        b.tap(page, "done")
    raise AssertionError("the chalking never ends")


def save(page: Page, what: str, folder: Path) -> Path:
    """Save a file from the paper screen."""
    with page.expect_download(timeout=90_000) as download:
        b.tap(page, f"save-{what}")
    target = folder / download.value.suggested_filename
    download.value.save_as(target)
    page.wait_for_timeout(500)
    return target


def by_command_line(order: Path, folder: Path) -> Path:
    """Draft the saved order with the command line."""
    out = folder / "by-command"
    done = subprocess.run([sys.executable, "-m", "drafting", str(order), "--out", str(out)], cwd=ROOT, check=False)
    assert done.returncode == 0
    return out


def words(pdf: Path) -> str:
    return "\n".join(page.extract_text() for page in PdfReader(pdf).pages)


def numbers_agree(ours: Any, theirs: Any, path: str = "") -> None:
    if isinstance(ours, dict):
        assert ours.keys() == theirs.keys(), path
        for key in ours:
            numbers_agree(ours[key], theirs[key], f"{path}.{key}")
    elif isinstance(ours, list):
        assert len(ours) == len(theirs), path
        for index, (one, other) in enumerate(zip(ours, theirs, strict=True)):
            numbers_agree(one, other, f"{path}[{index}]")
    elif isinstance(ours, float):
        assert ours == pytest.approx(theirs, abs=1e-6), path
    else:
        assert ours == theirs, path


def says_what_the_command_line_says(page: Page, folder: Path) -> None:
    """Sheet, order and draft as saved by the app agree with the command line's for the same order."""
    order = save(page, "order-json", folder)
    sheet, draft = save(page, "chalk-sheet-pdf", folder), save(page, "draft-json", folder)
    out = by_command_line(order, folder)
    numbers_agree(json.loads(draft.read_text("utf-8")), json.loads((out / "draft.json").read_text("utf-8")))
    assert words(sheet) == words(out / "chalk-sheet.pdf")


def new_person_in_inches(page: Page) -> None:
    """From the empty home to the proof, in inches, with a slip on the way that is told at its field."""
    b.tap(page, "new-garment")
    b.at(page, "name").wait_for(state="attached")
    page.wait_for_timeout(600)
    b.type_into(page, "name", "Runa")
    b.tap(page, "unit-in")
    page.wait_for_timeout(500)
    b.tap(page, "next")
    page.wait_for_timeout(900)
    b.type_into(page, "measure-stature", "66")
    b.type_into(page, "measure-head_girth", "22 1/2")
    b.tap(page, "next")
    page.wait_for_timeout(900)
    b.type_into(page, "measure-bust_girth", "98")
    page.get_by_text("Did you mean 98 cm?").first.wait_for(state="attached", timeout=10_000)
    b.type_into(page, "measure-bust_girth", "38 1/4")
    page.wait_for_timeout(500)
    onward(page, "shape")
    b.tap(page, "flare-slight")
    b.tap(page, "length-hip")
    page.wait_for_timeout(600)
    b.tap(page, "next")
    arrive(page, "cloth")
    b.type_into(page, "cloth-width", "70")
    b.type_into(page, "cloth-stretch-across", "50")
    b.type_into(page, "cloth-stretch-along", "30")
    page.wait_for_timeout(500)
    b.tap(page, "next")
    arrive(page, "proof")


def test_the_whole_job_on_the_site_with_the_network_off(site: Path, playwright: Playwright, tmp_path: Path) -> None:
    server = b.static_server(site, tmp_path / "log")
    profile = tmp_path / "profile"
    try:
        with b.browser_at(playwright, profile) as context:
            asked = b.other_hosts(context)
            page = b.open_app(context, server.address)
            b.offline_ready(page)
            server.kill()
            gone = len(server.requests())
            b.reload(page)
            new_person_in_inches(page)
            b.tap(page, "start-chalking")
            arrive(page, "chalk")
            page.wait_for_timeout(1500)
            for _ in range(3):
                b.tap(page, "done")
                page.wait_for_timeout(500)
            page.wait_for_timeout(1500)
        # A new browser process, the server still gone: back at the same mark, everything as it was left.
        with b.browser_at(playwright, profile) as context:
            asked += b.other_hosts(context)
            page = b.open_app(context, server.address, "screen-chalk")
            page.wait_for_timeout(1000)
            assert chalk_all(page) > 15
            b.tap(page, "next")
            arrive(page, "paper")
            says_what_the_command_line_says(page, tmp_path)
            b.reload(page, "screen-paper")
        assert len(server.requests()) == gone, "with the network off nothing was asked of the server"
        assert asked == []
    finally:
        server.kill()


def test_the_whole_job_from_a_server_at_a_desk_in_centimetres(
    app: b.Server, playwright: Playwright, tmp_path: Path
) -> None:
    with b.browser_at(playwright, tmp_path / "profile", **DESK) as context:
        asked = b.other_hosts(context)
        page = b.open_app(context, app.address)
        b.tap(page, "try-demo")
        arrive(page, "shape")
        page.wait_for_timeout(1000)
        b.tap(page, "next")
        arrive(page, "cloth")
        # Back in the middle, by the browser's own button, loses nothing.
        b.type_into(page, "cloth-width", "170")
        page.wait_for_timeout(500)
        page.go_back()
        arrive(page, "shape")
        page.go_forward()
        arrive(page, "cloth")
        assert b.field_value(page, "cloth-width") == "170"
        b.tap(page, "next")
        arrive(page, "proof")
        b.tap(page, "start-chalking")
        arrive(page, "chalk")
        assert chalk_all(page) > 15
        b.tap(page, "next")
        arrive(page, "paper")
        says_what_the_command_line_says(page, tmp_path)
        order = json.loads(next(tmp_path.glob("*.json")).read_text("utf-8"))
        assert order.get("format") in {"foldmark-order", "foldmark-draft"}
        b.reload(page, "screen-paper")
        assert asked == []
    # Another browser sees nothing of it.
    with b.browser_at(playwright, tmp_path / "other", **DESK) as context:
        page = b.open_app(context, app.address)
        b.at(page, "try-demo").wait_for(state="attached", timeout=20_000)
        assert not page.locator('[flt-semantics-identifier^="garment-"]').count()


def test_double_taps_and_absurd_input_on_a_phone(app: b.Server, phone: BrowserContext) -> None:
    page = b.open_app(phone, app.address)
    target = b.button(page, "try-demo")
    target = target if target.count() else b.at(page, "try-demo")
    box = target.bounding_box()
    assert box
    for _ in range(2):
        page.touchscreen.tap(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
    arrive(page, "shape")
    page.wait_for_timeout(1200)
    b.tap(page, "progress-cloth")
    arrive(page, "cloth")
    for absurd in ("-5", "abc", "1e9", "½½", "9" * 60):
        b.type_into(page, "cloth-width", absurd)
        page.wait_for_timeout(400)
        assert b.field_value(page, "cloth-width") == absurd, "nothing typed is ever lost"
        assert not b.at(page, "screen-trouble").count()
    b.type_into(page, "cloth-width", "160")
    page.wait_for_timeout(800)
    b.tap(page, "next")
    arrive(page, "proof")
    b.at(page, "start-chalking").wait_for(state="attached", timeout=20_000)
    page.goto(app.address)
    b.switch_on(page)
    assert page.locator('[flt-semantics-identifier^="garment-"]').count() <= 2, "a double tap makes one garment"


def test_a_second_tab_never_overwrites_the_first(app: b.Server, phone: BrowserContext) -> None:
    first = b.open_app(phone, app.address)
    b.tap(first, "try-demo")
    arrive(first, "shape")
    first.wait_for_timeout(2000)
    second = b.open_app(phone, app.address, "screen-shape")
    second.wait_for_timeout(600)
    b.tap(second, "length-knee")
    second.wait_for_timeout(2500)
    first.bring_to_front()
    first.wait_for_timeout(1200)
    assert b.at(first, "notice").count(), "the first tab says that it is behind"
    first.reload()
    b.switch_on(first, "screen-shape")
    first.wait_for_timeout(1500)
    assert not b.at(first, "notice").count()


def test_the_address_of_the_network_says_that_figures_pass_in_the_clear(playwright: Playwright, tmp_path: Path) -> None:
    server = b.app_server(tmp_path / "log", host="0.0.0.0")
    try:
        with b.browser_at(playwright, tmp_path / "profile") as context:
            page = b.open_app(context, server.address)
            page.get_by_text(re.compile("not encrypted")).first.wait_for(state="attached", timeout=15_000)
    finally:
        server.kill()
