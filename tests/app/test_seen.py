"""Every screen as weak eyes and thick fingers meet it: measured in a real browser, all screens in one page load."""

import io
from collections.abc import Callable, Iterator
from itertools import combinations
from pathlib import Path
from typing import Any

import browser as b
import paint
import pytest
import walk
from PIL import Image
from playwright.sync_api import Page, Playwright
from seen import pressed, too_faint, too_near, too_small, written

PHONE, USUAL = (360, 640), (390, 664)
TALL = 2000
"""A page so high shows all of a screen at once, px."""


@pytest.fixture
def page(app: b.Server, playwright: Playwright, tmp_path: Path) -> Iterator[Page]:
    """The empty home on a small phone, with nothing kept."""
    size = {"width": PHONE[0], "height": PHONE[1]}
    with b.browser_at(playwright, tmp_path / "profile", viewport=size, device_scale_factor=2) as context:
        yield b.open_app(context, app.address)


def at_size(page: Page, size: tuple[int, int]) -> None:
    """Another window, drawn for it."""
    page.set_viewport_size({"width": size[0], "height": size[1]})
    page.wait_for_timeout(500)  # until Python has heard of it
    b.still(page)


FORWARD = ("next", "new-garment", "start-chalking", "mend", "done", "sew-done", "back", "mark-back")
"""What moves the work on, and back."""


def out_of_reach(page: Page) -> list[str]:
    """What should move the work on and is not whole on the page, in words; one such thing there must be."""
    size = page.viewport_size
    assert size is not None
    found = [each for each in pressed(page) if each.name in FORWARD]
    assert found, "something moves the work on"
    return [
        f"{each.name} lies at {each.left:.0f}, {each.top:.0f} to {each.right:.0f}, {each.bottom:.0f}"
        for each in found
        if each.left < 0 or each.top < 0 or each.right > size["width"] + 0.5 or each.bottom > size["height"] + 0.5
    ]


def run_over(page: Page) -> list[str]:
    """Words that lie on others or run out of the page, in words."""
    size = page.viewport_size
    assert size is not None
    leaves = [each for each in written(page) if not each.within and not each.cut]
    found = [
        f"{each.name} {each.says!r} runs out of the page"
        for each in leaves
        if each.box[0] < -0.5 or each.box[2] > size["width"] + 0.5
    ]
    for one, other in combinations(leaves, 2):
        across = min(one.box[2], other.box[2]) - max(one.box[0], other.box[0])
        down = min(one.box[3], other.box[3]) - max(one.box[1], other.box[1])
        if across > 2 and down > 2:
            found.append(f"{one.name} {one.says!r} lies on {other.name} {other.says!r}")
    return found


def on_every_screen(page: Page, look: Callable[[], list[str]]) -> None:
    """Nothing is found on any screen."""
    found: list[str] = []
    for screen in walk.every_screen(page):
        b.still(page)
        found += [f"{screen}: {each}" for each in look()]
    assert not found, "\n".join(found)


@pytest.mark.long
def test_fingers_meet_what_they_aim_at_and_eyes_can_read_it(page: Page) -> None:
    """At the narrowest phone, as high as it is and high enough to show all of a screen, in the light setting.

    test_reader.py asks the same every day, of what a phone of the usual size shows.
    """

    def look() -> list[str]:
        at_size(page, (PHONE[0], TALL))
        found = [*too_small(pressed(page)), *too_near(pressed(page)), *too_faint(page, 2)]
        at_size(page, PHONE)
        return [*found, *too_small(pressed(page)), *too_near(pressed(page))]

    on_every_screen(page, look)


@pytest.mark.long
def test_fingers_meet_what_they_aim_at_on_a_larger_phone(page: Page) -> None:
    at_size(page, USUAL)
    on_every_screen(page, lambda: [*too_small(pressed(page)), *too_near(pressed(page))])


SETTINGS: dict[str, dict[str, Any]] = {
    "dark": {"color_scheme": "dark"},
    "forced light": {"color_scheme": "light", "forced_colors": "active"},
    "forced dark": {"color_scheme": "dark", "forced_colors": "active"},
}


@pytest.mark.long
@pytest.mark.parametrize("setting", SETTINGS)
def test_words_are_clear_in_the_dark_and_where_colours_are_forced(page: Page, setting: str) -> None:
    page.emulate_media(**SETTINGS[setting])
    at_size(page, (USUAL[0], TALL))
    on_every_screen(page, lambda: too_faint(page, 2))


def test_forced_colours_are_taken_up_at_once(page: Page) -> None:
    def ground() -> tuple[int, ...]:
        corner = Image.open(io.BytesIO(page.screenshot(clip={"x": 2, "y": 2, "width": 2, "height": 2})))
        return tuple(corner.convert("RGB").getpixel((1, 1)))  # type: ignore[arg-type]

    page.emulate_media(color_scheme="light")
    b.wait_until(page, lambda: ground() == (0xF6, 0xF3, 0xEC), "paper")
    page.emulate_media(color_scheme="dark", forced_colors="active")
    b.wait_until(page, lambda: ground() == (0, 0, 0), "black")
    page.emulate_media(color_scheme="light", forced_colors="active")
    b.wait_until(page, lambda: ground() == (255, 255, 255), "white")
    page.emulate_media(color_scheme="dark", forced_colors="none")
    b.wait_until(page, lambda: ground() == (0x1F, 0x1E, 0x1C), "dark paper again")


@pytest.mark.long
def test_what_moves_the_work_on_is_reached_on_a_phone_on_its_side(page: Page) -> None:
    at_size(page, (USUAL[1] + 180, 390))
    on_every_screen(page, lambda: out_of_reach(page))


@pytest.mark.long
def test_letters_twice_as_large_lie_on_nothing_and_lose_nothing(page: Page) -> None:
    at_size(page, USUAL)
    page.evaluate("document.documentElement.style.fontSize = '32px'")
    page.wait_for_timeout(900)
    on_every_screen(page, lambda: [*run_over(page), *out_of_reach(page)])


def test_words_are_found_and_judged_by_their_pixels() -> None:
    """A card with a filled chip on it: the words of both are found, and only the faint one is faint."""
    from PIL import ImageDraw, ImageFont

    picture = Image.new("RGB", (600, 300), "#FFFFFF")
    pen = ImageDraw.Draw(picture)
    letters = ImageFont.truetype(str(b.ROOT / "assets" / "fonts" / "FoldmarkSans-Regular.ttf"), 32)
    pen.rectangle((20, 20, 580, 280), outline="#827B6E", width=2)
    pen.text((40, 40), "Across 12½", "#1C1B19", letters)
    pen.text((40, 100), "faint words", "#9A9A9A", letters)
    pen.rectangle((40, 180, 300, 250), fill="#1D222D")
    pen.text((60, 195), "on a chip", "#F7F3E8", letters)
    found = [(each.top, each.clear) for each in paint.words(paint.luminance(picture), 2)]
    assert [clear > 12 for top, clear in found if top < 40] == [True, True]
    assert [2.5 < clear < 3 for top, clear in found if 45 < top < 70] == [True]
    assert [clear > 12 for top, clear in found if top > 90] == [True]
    assert len(found) == 4
