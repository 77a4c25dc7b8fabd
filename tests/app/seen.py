"""What can be pressed and what is written on a page: how large, how far apart and how clear, from boxes and pixels."""

import io
from typing import NamedTuple

import browser as b
import paint
from PIL import Image
from playwright.sync_api import Page

FINGER, APART, LINE = 48, 8, 1.5
"""The least side of what is pressed, the least space between two that are apart, and the most between two that only a
line parts; px. WCAG 2.2, 2.5.5, asks for 44."""
CLEAR, CLEAREST = 4.5, 7.0
"""The least contrast of words and of readings (WCAG 2.2, 1.4.3 and 1.4.6)."""
ROUND = 12.0
"""A bit of an edge so near to a corner, px, is its rounding."""


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
