"""The chalk screen in a real browser, as a hand uses it: what is whole on it at every size, keys, looking and going."""

import io
from collections.abc import Iterator
from itertools import product
from pathlib import Path
from typing import NamedTuple

import browser as b
import journey as j
import pytest
from PIL import Image, ImageChops
from playwright.sync_api import Page, Playwright

SIZES = ((360, 640), (390, 664), (412, 732), (390, 844), (844, 390), (768, 1024), (1280, 800))
LEAST = 44
"""How high a reading is at least, px; its digits are 0.73 of that in our letters."""
GROUND = 0x16
"""The red of the ground; all that is written on it has far more."""
LONG, SHORT = "end of the neck stand curve", "top of the sleeve end"
"""A mark whose name is long, and one whose name is short and whose readings are wide."""


@pytest.fixture(scope="module")
def chalking(tmp_path_factory: pytest.TempPathFactory) -> Iterator[b.Server]:
    """The app in the middle of chalking."""
    with b.app_server(tmp_path_factory.mktemp("log") / "log", program=("tests/app/chalking_app.py",)) as server:
        yield server


@pytest.fixture
def page(chalking: b.Server, playwright: Playwright, tmp_path: Path) -> Iterator[Page]:
    """The chalk screen of the garment in centimetres."""
    with b.browser_at(playwright, tmp_path / "profile", device_scale_factor=1) as context:
        yield b.open_app(context, f"{chalking.address}garment/g1/chalk", "done")


class Box(NamedTuple):
    """Where something stands, whole pixels."""

    left: int
    top: int
    right: int
    bottom: int


def box(page: Page, name: str) -> Box:
    found = b.at(page, name).first.bounding_box()
    assert found is not None, name
    left, top = round(found["x"]), round(found["y"])
    return Box(left, top, left + round(found["width"]), top + round(found["height"]))


def foot(page: Page) -> int:
    """Where Done ends, px from the top; 0 while the page is drawn anew."""
    found = b.at(page, "done").bounding_box() if b.at(page, "done").count() else None
    return 0 if found is None else round(found["y"]) + round(found["height"])


def at_size(page: Page, size: tuple[int, int], text: int) -> None:
    """Another window, and letters so many per cent of the usual: as the browser's own setting does it."""
    page.evaluate(f"document.documentElement.style.fontSize = '{text * 16 / 100}px'")
    page.set_viewport_size({"width": size[0], "height": size[1]})
    b.wait_until(page, lambda: foot(page) == size[1] - 16, f"drawn for {size}")
    page.wait_for_timeout(400)  # until the letters are measured anew and everything is drawn for them
    b.still(page)


_ROWS = """() => [...document.querySelectorAll("[flt-semantics-identifier^='item-']")]
    .map((each) => [each.getAttribute("flt-semantics-identifier"), each.innerText + (each.ariaLabel ?? "")])"""


def go_to(page: Page, name: str) -> None:
    """Go to a mark by the list."""
    b.tap(page, "mark-list")
    b.at(page, "item-1").wait_for(state="attached", timeout=30_000)
    b.still(page)
    rows = page.evaluate(_ROWS)
    b.tap(page, next(row for row, said in rows if ", mark " in said and name in said))
    b.at(page, "done").wait_for(state="attached", timeout=30_000)
    b.still(page)


def painted(picture: Image.Image, area: Box, yellow: bool) -> Box | None:
    """Where inside an area something of the reading's yellow, or anything at all, is painted; None for nothing."""
    red, green, blue = picture.crop(area).split()
    if yellow:
        masks = [red.point(lambda v: 255 * (v > 180)), green.point(lambda v: 255 * (v > 140)),
                 blue.point(lambda v: 255 * (v < 130))]  # fmt: skip
        mask = ImageChops.darker(ImageChops.darker(masks[0], masks[1]), masks[2])
    else:
        mask = red.point(lambda v: 255 * (v > GROUND + 60))
    found = mask.getbbox()
    return None if found is None else Box(*found)


def whole(page: Page, size: tuple[int, int], text: int) -> tuple[dict[str, Box], int]:
    """Hold that everything the hand needs is whole; the boxes, and how high the digits are."""
    what = f"{size} at {text} %"
    names = ("readings-name", "readings-1", "readings-2", "done")
    boxes = {name: box(page, name) for name in names}
    picture = Image.open(io.BytesIO(page.screenshot())).convert("RGB")
    for name, each in boxes.items():
        assert 0 <= each.left < each.right <= size[0], f"{name} {what}"
        assert 56 <= each.top < each.bottom <= size[1], f"{name} {what}"
    name, first, second, done = boxes.values()
    assert name.bottom <= min(first.top, second.top), what
    assert max(first.bottom, second.bottom) <= done.top, what
    aside = size[0] > size[1] and size != (768, 1024)
    if aside:
        assert first.top == second.top, f"side by side {what}"
        assert box(page, "chalk-drawing").right <= name.left, what
    else:
        assert box(page, "chalk-drawing").bottom <= name.top, what
    drawn = box(page, "chalk-drawing")
    assert drawn.bottom - drawn.top > 100, what
    digits = []
    for one in (first, second):
        assert one.bottom - one.top >= LEAST, what
        number = painted(picture, one, yellow=True)
        assert number is not None, what
        digits.append(number.bottom - number.top)
        assert digits[-1] >= 0.72 * LEAST, what
        assert 0 < number.top < number.bottom < one.bottom - one.top, f"no digit is cut off {what}"
        unit = painted(picture, Box(one.left + number.right + 2, one.top, one.right, one.bottom), yellow=False)
        assert unit is not None, f"the unit is there {what}"
        assert unit.right - unit.left >= 14, f"and whole: a letter i would be narrower {what}"
        beyond = Box(one.right, one.top, min(one.right + 6, size[0]), one.bottom)
        assert painted(picture, beyond, yellow=False) is None, f"nothing runs out of its box {what}"
    assert abs(digits[0] - digits[1]) <= 2, what
    around = name.left, name.right
    assert painted(picture, Box(around[0], name.top, around[1], name.bottom), yellow=False) is not None
    for edge in (
        Box(around[0], name.top - 3, around[1], name.top + 1),
        Box(around[0], name.bottom - 1, around[1], name.bottom + 2),
    ):
        assert painted(picture, edge, yellow=False) is None, f"no line of the name is cut off {what}"
    assert not b.at(page, "progress").count(), "the step strip goes away"
    return boxes, min(digits)


@pytest.mark.parametrize(("garment", "unit"), [pytest.param("g1", "cm", marks=pytest.mark.long), ("g3", "in")])
def test_readings_name_and_done_are_whole_at_every_size(
    garment: str, unit: str, chalking: b.Server, playwright: Playwright, tmp_path: Path
) -> None:
    with b.browser_at(playwright, tmp_path / "profile", device_scale_factor=1) as context:
        page = b.open_app(context, f"{chalking.address}garment/{garment}/chalk", "done")
        go_to(page, LONG)
        assert unit in b.text(page, "readings-1")
        kept: dict[tuple[tuple[int, int], int], dict[str, Box]] = {}
        for size in SIZES:
            usual = 0
            for text in (100, 200):
                at_size(page, size, text)
                boxes, digits = whole(page, size, text)
                assert digits >= usual, "never smaller than with letters of the usual size"
                usual = digits
                kept[size, text] = boxes
        # The number zone never moves: not from a mark with a long name to one with a short name.
        at_size(page, (390, 664), 100)
        go_to(page, SHORT)
        for size, text in (((390, 664), 100), ((390, 664), 200), ((844, 390), 200)):
            at_size(page, size, text)
            boxes, _ = whole(page, size, text)
            assert boxes == kept[size, text], f"{size} at {text} %"


def test_the_browsers_own_setting_for_letters_is_followed(
    chalking: b.Server, playwright: Playwright, tmp_path: Path
) -> None:
    preferences = tmp_path / "profile" / "Default" / "Preferences"
    preferences.parent.mkdir(parents=True)
    preferences.write_text('{"webkit": {"webprefs": {"default_font_size": 32}}}', "utf-8")
    with b.browser_at(playwright, tmp_path / "profile", device_scale_factor=1) as context:
        page = b.open_app(context, f"{chalking.address}garment/g1/chalk", "done")
        page.set_viewport_size({"width": 390, "height": 664})
        go_to(page, LONG)
        b.wait_until(page, lambda: box(page, "readings-name").bottom - box(page, "readings-name").top >= 80, "larger")
        b.still(page)
        whole(page, (390, 664), 200)


def place(page: Page) -> int:
    """Where in the order the screen is."""
    now = j.look(page)
    return 0 if now is None else now.place


def arrives_at(page: Page, number: int) -> None:
    b.wait_until(page, lambda: place(page) == number, f"{number} is shown, not {place(page)}")
    page.wait_for_timeout(150)


def test_keys_do_done_back_and_on(chalking: b.Server, playwright: Playwright, tmp_path: Path) -> None:
    with b.browser_at(playwright, tmp_path / "profile", **b.DESK) as context:
        page = b.open_app(context, f"{chalking.address}garment/g1/chalk", "done")
        arrives_at(page, 1)
        for key, number in (
            ("Space", 2), ("Enter", 3), ("Space", 4), ("ArrowLeft", 3), ("Backspace", 2), ("ArrowRight", 3),
            ("ArrowRight", 4), ("ArrowRight", 5), ("Space", 6), ("ArrowLeft", 5),
        ):  # fmt: skip
            page.keyboard.press(key)
            arrives_at(page, number)
        assert b.at(page, "readings-done").count(), "what was ticked off shows that it is"
        page.keyboard.press("ArrowLeft")
        arrives_at(page, 4)
        assert not b.at(page, "readings-done").count(), "the arrow ticked nothing off"
        assert "Left arrow" in b.spoken(page, "screen-chalk"), "the keys are said to who listens"


def test_a_touch_on_the_drawing_only_reads_a_mark(page: Page) -> None:
    go_to(page, SHORT)
    at, name = place(page), b.text(page, "readings-name")
    drawn, undisturbed = box(page, "chalk-drawing"), box(page, "readings-1")
    rows, columns = range(drawn.top + 20, drawn.bottom - 60, 30), range(drawn.left + 30, drawn.right, 30)
    for y, x in product(rows, columns):
        page.touchscreen.tap(x, y)
        page.wait_for_timeout(420)
        if b.at(page, "look-back").count():
            break
    looked = b.text(page, "readings-name")
    assert looked != name
    assert "only looking" in b.text(page, "screen-chalk")
    assert box(page, "readings-1") == undisturbed, "the number zone stays where it is"
    b.wait_until(page, lambda: not b.at(page, "done").count(), "Done waits meanwhile")
    b.tap(page, "look-back")
    b.at(page, "done").wait_for(state="attached")
    arrives_at(page, at)
    assert b.text(page, "readings-name") == name
    b.still(page)
    for _ in range(5):  # a busy machine may draw the screen anew under the finger
        page.touchscreen.tap(x, y)
        page.wait_for_timeout(1500)
        if b.at(page, "go-to").count():
            break
    b.still(page)
    b.tap(page, "go-to")
    b.wait_until(page, lambda: place(page) not in (0, at), "another mark is in hand")
    assert b.text(page, "readings-name") == looked
    b.still(page)
    b.tap(page, "notice-action")
    arrives_at(page, at)
