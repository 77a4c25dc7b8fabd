"""From the first page to the first marks by keyboard alone, at a desk: what has the focus is reached and shows it."""

import io
from collections import Counter

import browser as b
import journey as j
import pytest
from keys import begins_at, focused, press, to
from PIL import Image
from playwright.sync_api import BrowserContext, Page

from app.theme import contrast

_IN_PAGE = """() => [...document.querySelectorAll("[flt-semantics-identifier]")]
    .map((each) => each.getAttribute("flt-semantics-identifier"))"""


def in_reading_order(page: Page, passed: list[str]) -> None:
    """The keyboard came through all that scrolls in the order of the page, and to nothing else."""
    passed = [name for name in passed if name != "other-view"]  # stands beside the column
    assert len(passed) > 12
    written = page.evaluate(_IN_PAGE)
    assert passed == sorted(passed, key=written.index)
    assert not [name for name in passed if name == "back" or name.startswith("progress-")]


RADIO = "document.activeElement?.closest('flt-semantics')?.getAttribute('role') === 'radio'"


@pytest.mark.parametrize("touches", [True, pytest.param(False, marks=pytest.mark.long)], ids=["a finger", "a mouse"])
def test_a_finger_on_a_choice_leaves_the_keyboards_place_and_a_mouse_brings_it(
    touches: bool, app: b.Server, request: pytest.FixtureRequest
) -> None:
    """With a finger the client would draw that the place has moved, and only then what was chosen."""
    page = b.open_app(request.getfixturevalue("phone" if touches else "desk"), app.address)
    b.tap(page, "try-demo")
    j.arrive(page, "shape")
    b.tap(page, "length-mid_thigh")
    b.wait_until(page, lambda: b.chosen(page, "length-mid_thigh"), "it is chosen")
    assert page.evaluate(RADIO) is not touches


def test_the_demo_is_chalked_without_a_pointer(app: b.Server, desk: BrowserContext) -> None:
    page = b.open_app(desk, app.address)
    to(page, "try-demo")
    page.keyboard.press("Enter")
    j.arrive(page, "shape")
    begins_at(page, "heading")
    passed = to(page, "length-hip")
    assert "progress-cloth" in passed, "every step of the way is reached too"
    page.keyboard.press("ArrowRight")
    b.still(page)
    b.wait_until(page, lambda: b.chosen(page, "length-mid_thigh"), "an arrow chooses the next of a group")
    press(page, "more-shape")
    b.at(page, "neck_layers-single").wait_for(state="attached", timeout=30_000)
    b.still(page)
    in_reading_order(page, to(page, "next"))
    page.keyboard.press("Enter")
    j.arrive(page, "cloth")
    to(page, "cloth-width")
    in_reading_order(page, to(page, "next"))
    page.keyboard.press("Space")
    j.arrive(page, "proof")
    begins_at(page, "heading")
    b.wait_until(page, lambda: b.awake(page, "start-chalking"), "chalking can start")
    to(page, "start-chalking")
    page.keyboard.press("Enter")
    j.arrive(page, "chalk")
    b.wait_until(page, lambda: bool(b.at(page, "done").count()), "there is something to chalk")
    for _ in range(4):  # held, and as slow as a hand: the screen has long gone on
        page.keyboard.down("Space")
        page.wait_for_timeout(500)
    page.keyboard.up("Space")
    b.wait_until(page, lambda: b.awake(page, "mark-back"), "Space ticks it off and goes on, once")
    page.keyboard.press("ArrowLeft")
    b.wait_until(page, lambda: not b.awake(page, "mark-back"), "the arrow to the left goes back")


AROUND = 8
"""So far round a control its pictures reach, px."""


def with_and_without(page: Page, identifier: str) -> tuple[Image.Image, Image.Image]:
    """A control that has the focus with what is round it, and the same once the focus has gone on."""

    def place() -> dict[str, float]:
        box = b.at(page, identifier).bounding_box()
        assert box is not None
        wide, high = box["width"] + 2 * AROUND, box["height"] + 2 * AROUND
        return {"x": box["x"] - AROUND, "y": box["y"] - AROUND, "width": wide, "height": high}

    def seen() -> Image.Image:
        return Image.open(io.BytesIO(page.screenshot(clip=place()))).convert("RGB")  # type: ignore[arg-type]

    def settled() -> Image.Image:
        """The picture, once two that were taken after each other are the same: a busy machine draws late."""
        b.still(page)
        now, last = seen(), None
        for _ in range(12):
            page.wait_for_timeout(300)
            now, last = seen(), now
            if now.tobytes() == last.tobytes():
                break
        return now

    assert focused(page) == identifier
    with_focus = settled()
    page.keyboard.press("Shift+Tab")  # what stands before it is in sight, so the page does not scroll
    b.wait_until(page, lambda: seen().tobytes() != with_focus.tobytes(), f"the focus on {identifier} changes something")
    without = settled()
    assert with_focus.size == without.size, f"{identifier} is still wholly in sight"
    return with_focus, without


def ring(page: Page, identifier: str) -> float:
    """The least contrast of what the focus changes round a control, of the part of it that changes most."""
    with_focus, without = with_and_without(page, identifier)
    along = 2 * (with_focus.width + with_focus.height - 4 * AROUND)
    pairs = Counter(zip(with_focus.get_flattened_data(), without.get_flattened_data(), strict=True))
    found = {pair: count for pair, count in pairs.items() if pair[0] != pair[1]}
    clear = [contrast(hexed(now), hexed(then)) for (now, then), count in found.items() if count > along / 4]
    assert clear, f"the focus on {identifier} changes no more than {sum(found.values())} pixels"
    return max(clear)


def ringed(page: Page, identifier: str) -> dict[str, int]:
    """How thick the ring is on each side of a button, px: what changes at 3:1 or better across the middle of it."""
    with_focus, without = with_and_without(page, identifier)
    wide, high = with_focus.size
    lines = {
        "left": [(x, high // 2) for x in range(AROUND)],
        "right": [(wide - 1 - x, high // 2) for x in range(AROUND)],
        "top": [(wide // 2, y) for y in range(AROUND)],
        "bottom": [(wide // 2, high - 1 - y) for y in range(AROUND)],
    }
    return {
        side: sum(contrast(hexed(with_focus.getpixel(at)), hexed(without.getpixel(at))) >= 3 for at in line)
        for side, line in lines.items()
    }  # type: ignore[arg-type]


def hexed(colour: tuple[int, int, int]) -> str:
    return "#{:02X}{:02X}{:02X}".format(*colour)


@pytest.mark.long
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_the_focus_is_seen_at_three_to_one_or_better(app: b.Server, desk: BrowserContext, scheme: str) -> None:
    """WCAG 2.2, 1.4.11 and 2.4.13: 3:1 between the focused and the other state, on paper."""
    page = desk.pages[0] if desk.pages else desk.new_page()
    page.emulate_media(color_scheme="light" if scheme == "light" else "dark")
    page = b.open_app(desk, app.address)
    page.emulate_media(color_scheme="light" if scheme == "light" else "dark")
    b.still(page)
    to(page, "try-demo")
    assert ring(page, "try-demo") >= 3
    b.tap(page, "try-demo")
    j.arrive(page, "shape")
    for name in ("progress-cloth", "length-hip", "neck_height-less", "fit-regular", "next"):
        to(page, name)
        assert ring(page, name) >= 3, name


@pytest.mark.long
@pytest.mark.parametrize("size", [(1280, 800), (390, 664)])
def test_the_ring_of_the_button_under_the_drawing_is_whole(
    app: b.Server, desk: BrowserContext, size: tuple[int, int]
) -> None:
    """On the person, and on a flat piece, which has another ground than what scrolls below it."""
    page = b.open_app(desk, app.address)
    page.set_viewport_size({"width": size[0], "height": size[1]})
    b.still(page)
    b.tap(page, "try-demo")
    j.arrive(page, "shape")
    for _ in range(2):
        to(page, "other-view")
        found = ringed(page, "other-view")
        assert min(found.values()) >= 2, found
        press(page, "other-view")
        b.still(page)


@pytest.mark.long
def test_fields_words_folds_and_ways_to_lay_show_the_focus(app: b.Server, desk: BrowserContext) -> None:
    """One of each kind that the cloth and the lay have, on paper."""
    page = b.open_app(desk, app.address)

    def shown(screen: str, *names: str) -> None:
        press(page, f"progress-{screen}")
        j.arrive(page, screen)
        for name in names:
            b.at(page, name).first.wait_for(state="attached", timeout=90_000)
            to(page, name)
            assert ring(page, name) >= 3, name

    b.still(page)
    press(page, "try-demo")
    j.arrive(page, "shape")
    shown("cloth", "cloth-width", "word-selvage", "one-way-no", "more-cloth", "tape-cm5")
    shown("lay", "lay-half", "lay-half-more", "save-0")
