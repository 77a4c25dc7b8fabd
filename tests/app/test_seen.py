"""Every screen as weak eyes and thick fingers meet it: measured in a real browser, all screens in one page load."""

import io
from collections.abc import Callable, Iterator
from itertools import combinations
from pathlib import Path
from typing import Any, NamedTuple

import browser as b
import paint
import pytest
import walk
from PIL import Image
from playwright.sync_api import Page, Playwright

FINGER, APART, LINE = 48, 8, 1.5
"""The least side of what is pressed, the least space between two that are apart, and the most between two that only a
line parts; px. WCAG 2.2, 2.5.5, asks for 44."""
PHONE, USUAL = (360, 640), (390, 664)
CLEAR, CLEAREST = 4.5, 7.0
"""The least contrast of words and of readings (WCAG 2.2, 1.4.3 and 1.4.6)."""
ROUND = 12.0
"""A bit of an edge so near to a corner, px, is its rounding."""
TALL = 2000
"""A page so high shows all of a screen at once, px."""


class Pressed(NamedTuple):
    """Something that can be pressed: its name, its words, its box in px, and whether a scrolled part cuts it off."""

    name: str
    says: str
    left: float
    top: float
    right: float
    bottom: float
    cut: bool


_PRESSED = """() => {
    const scrolls = (it) => it.localName === "flt-semantics" &&   // hidden for half a second after a touch
        /auto|scroll|hidden/.test(getComputedStyle(it).overflowX + getComputedStyle(it).overflowY);
    const found = [...document.querySelectorAll("flt-semantics")].filter((it) => it.hasAttribute("flt-tappable") ||
        /^(button|radio|checkbox|switch|slider)$/.test(it.getAttribute("role")) ||
        it.querySelector(":scope > input, :scope > textarea"));
    return found.map((it) => {
        const {left, top, right, bottom} = it.getBoundingClientRect();
        let around = it.parentElement;
        while (around && !scrolls(around)) around = around.parentElement;
        const edge = around?.getBoundingClientRect();
        const cut = Boolean(edge) && (left <= edge.left + 0.5 || right >= edge.right - 0.5 ||
            top <= edge.top + 0.5 || bottom >= edge.bottom - 0.5);
        const named = it.closest("[flt-semantics-identifier]")?.getAttribute("flt-semantics-identifier") ?? "";
        return [named, (it.ariaLabel || it.innerText || "").slice(0, 40), left, top, right, bottom, cut];
    });
}"""


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


def pressed(page: Page) -> list[Pressed]:
    """All that can be pressed on the page."""
    return [Pressed(*each) for each in page.evaluate(_PRESSED)]


def too_small(found: list[Pressed]) -> list[str]:
    """What a finger misses, in words."""
    return [
        f"{each.name} {each.says!r} is {each.right - each.left:.0f} by {each.bottom - each.top:.0f}"
        for each in found
        if not each.cut and min(each.right - each.left, each.bottom - each.top) < FINGER - 0.5
    ]


def too_near(found: list[Pressed]) -> list[str]:
    """Pairs that are apart by less than they should, in words; what touches or lies in another is one surface."""
    near = []
    for index, one in enumerate(found):
        for other in found[index + 1 :]:
            across = max(one.left, other.left) - min(one.right, other.right)
            down = max(one.top, other.top) - min(one.bottom, other.bottom)
            gap = max(across, down)
            if LINE < gap < APART - 0.5 and min(across, down) < 0 and not (one.cut or other.cut):
                near.append(f"{one.name} and {other.name} are {gap:.0f} apart")
    return near


_WRITTEN = """() => {
    const scrolls = (it) => it.localName === "flt-semantics" &&   // hidden for half a second after a touch
        /auto|scroll|hidden/.test(getComputedStyle(it).overflowX + getComputedStyle(it).overflowY);
    const box = (it) => {
        const {left, top, right, bottom} = it.getBoundingClientRect();
        return [left, top, right, bottom];
    };
    const says = (it) => it.ariaLabel || [...it.childNodes].some((one) => one.nodeName !== "FLT-SEMANTICS" &&
        one.textContent.trim()) || it.querySelector(":scope > input, :scope > textarea");
    const found = [...document.querySelectorAll("flt-semantics, flt-semantics-host h1, flt-semantics-host h2")];
    return found.filter((it) => says(it) && !/^(group|radiogroup|list)$/.test(it.getAttribute("role")) &&
        !it.closest("[role=img], [aria-disabled=true]")).map((it) => {
        let around = it.parentElement;
        while (around && !scrolls(around)) around = around.parentElement;
        const edge = around ? box(around) : [-1e9, -1e9, 1e9, 1e9], own = box(it);
        const cut = own[0] <= edge[0] + 0.5 || own[1] <= edge[1] + 0.5 || own[2] >= edge[2] - 0.5 ||
            own[3] >= edge[3] - 0.5;
        const named = it.closest("[flt-semantics-identifier]")?.getAttribute("flt-semantics-identifier") ?? "";
        return [named, (it.ariaLabel || it.innerText || "").slice(0, 60), own, cut,
            [...it.querySelectorAll("flt-semantics")].map(box)];
    });
}"""


class Written(NamedTuple):
    """Something with words: its name, what it says, its box in px, whether it is cut off, and the boxes within."""

    name: str
    says: str
    box: tuple[float, float, float, float]
    cut: bool
    within: list[tuple[float, float, float, float]]


def written(page: Page) -> list[Written]:
    """All that has words on the page, drawings and what is asleep aside."""
    return [Written(*each) for each in page.evaluate(_WRITTEN)]


def too_faint(page: Page, scale: int) -> list[str]:
    """What is hard to read, in words; looked at again where something was, since a busy machine draws late."""
    found = faint(page, scale)
    if found:
        page.wait_for_timeout(1500)
        b.still(page)
        found = faint(page, scale)
    return found


def faint(page: Page, scale: int) -> list[str]:
    """What is hard to read now, in words: by the colours of its pixels."""
    light = paint.luminance(Image.open(io.BytesIO(page.screenshot())))
    found = []
    words = 0
    for each in written(page):
        left, top, right, bottom = (max(round(edge * scale), 0) for edge in each.box)
        if each.cut or right - left < 4 or bottom - top < 4 or bottom > light.shape[0]:
            continue
        part = light[top:bottom, left:right].copy()
        for inner in each.within:
            a, b_, c, d = (max(round(edge * scale), 0) for edge in inner)
            part[max(b_ - top, 0) : max(d - top, 0), max(a - left, 0) : max(c - left, 0)] = -1
        least = CLEAREST if each.name.startswith("readings") else CLEAR
        for word in paint.words(part, scale):
            words += 1
            runs_out = word.top < 1 or word.bottom > part.shape[0] / scale - 1  # a shape: letters have room round them
            small = word.bottom - word.top < ROUND and word.right - word.left < ROUND
            edges = (
                min(word.left, part.shape[1] / scale - word.right),
                min(word.top, part.shape[0] / scale - word.bottom),
            )
            if word.clear < least and not runs_out and not (small and max(edges) < 2):
                found.append(f"{each.name} {each.says!r} has {word.clear:.1f} at {word.left:.0f}, {word.top:.0f}")
    assert words > 3, "words were found"
    return found


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


def test_fingers_meet_what_they_aim_at_and_eyes_can_read_it(page: Page) -> None:
    """At the narrowest phone, as high as it is and high enough to show all of a screen, in the light setting."""

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
