"""Pictures of every screen at every size, unit, text size, light and dark, into the ignored folder screens/."""

import argparse
import re
import sys
import tempfile
from collections.abc import Iterator
from itertools import product
from pathlib import Path

from playwright.sync_api import Page, sync_playwright

ROOT = Path(__file__).resolve().parents[1]
sys.path[:0] = [str(ROOT), str(ROOT / "tests" / "app")]

import browser as b  # noqa: E402 - the tests' way of driving the app
import journey as j  # noqa: E402

OUT = ROOT / "screens"
SIZES = ("390x664", "360x640", "412x732", "390x844", "844x390", "768x1024", "1280x800")
UNITS = ("cm", "in")
TEXTS = ("100", "200")
LOOKS = ("light", "dark", "forced")
"""The last has the colours of the device instead of ours."""
Shown = tuple[str, str]
"""The name of a picture, and what must be in view on it; empty for the top of the screen."""
WALKED = "390x664"
"""The size at which the way is walked; each screen that is reached is then shown at every size."""


def settled(page: Page, size: str, text: str, view: str = "") -> None:
    """Draw the page at a size, with letters so many per cent of the usual, as the browser's own setting does it.

    `view` is scrolled to.
    """
    wide, high = map(int, size.split("x"))
    page.evaluate("(size) => { document.documentElement.style.fontSize = size; }", f"{int(text) * 0.16}px")
    page.set_viewport_size({"width": wide, "height": high})
    page.wait_for_timeout(1000)  # until Python has heard of it, and has drawn it
    b.still(page, 3)
    if view and b.at(page, view).count():
        b.at(page, view).first.scroll_into_view_if_needed()
        b.still(page, 3)


def fold_out(page: Page, name: str) -> None:
    """Open or close what is folded away."""
    b.tap(page, name)
    b.still(page)


def begin(page: Page, unit: str) -> Iterator[Shown]:
    """From the empty home over the measures to the cloth."""
    yield "home-empty", ""
    fold_out(page, "settings")
    yield "home-settings", "light-dark"
    b.tap(page, "try-demo")
    j.arrive(page, "shape")
    b.tap(page, "progress-person")
    j.arrive(page, "person")
    b.choose(page, f"unit-{unit}")
    b.still(page)
    yield "person", ""
    j.onward(page)
    yield "person-stature", ""
    b.type_into(page, "measure-stature", "1715")
    page.wait_for_timeout(600)
    yield "person-doubtful", "measure-stature-instead"
    b.type_into(page, "measure-stature", "168 cm")
    for _ in range(20):
        if b.at(page, "measure-wrist_girth").count():
            break
        j.onward(page)
    yield "person-wrist", ""
    b.tap(page, "measuring-list")
    b.at(page, "measure-head_girth").wait_for(state="attached", timeout=30_000)
    b.still(page)
    yield "person-list", ""
    b.tap(page, "progress-shape")
    j.arrive(page, "shape")
    b.at(page, "other-view").wait_for(state="attached", timeout=30_000)
    yield "shape", ""
    b.tap(page, "other-view")
    fold_out(page, "more-shape")
    yield "shape-flat", ""
    b.choose(page, "narrowest_girth-own")
    b.still(page)
    b.type_into(page, "narrowest_girth-length", "14 cm")
    yield "shape-more", "narrowest_girth-length"
    b.tap(page, "other-view")
    j.onward(page)
    j.arrive(page, "cloth")
    yield "cloth", ""
    fold_out(page, "more-cloth")
    yield "cloth-more", "cloth-shrink-along"


def prove(page: Page) -> Iterator[Shown]:
    """From the cloth to a proof that stops, and by its first way out to one that passes."""
    way = "way-hand_passes_sleeve-0"
    j.onward(page)
    j.arrive(page, "proof")
    b.at(page, way).wait_for(state="attached", timeout=60_000)
    b.still(page)
    yield "proof-stopped", ""
    b.tap(page, way)
    b.wait_until(page, lambda: b.awake(page, "start-chalking"), "chalking can start", 60)
    yield "proof-changed", ""
    b.tap(page, "notice-close")
    b.still(page)
    yield "proof", ""


def at_the_table(page: Page) -> Iterator[Shown]:
    """From the proof to the last step of the sewing."""
    b.tap(page, "progress-lay")
    b.at(page, "save-0").wait_for(state="attached", timeout=60_000)
    yield "lay", ""
    b.tap(page, "lay-large")
    b.at(page, "save-0").wait_for(state="detached")
    yield "lay-large", ""
    b.tap(page, "back")
    b.wait_until(page, lambda: b.awake(page, "start-chalking"), "chalking can start")
    b.tap(page, "start-chalking")
    b.at(page, "done").wait_for(state="attached", timeout=30_000)
    yield "chalk-words", ""
    j.chalk(page, 8)
    yield "chalk-mark", ""
    b.tap(page, "mark-list")
    b.at(page, "item-1").wait_for(state="attached", timeout=30_000)
    b.still(page)
    yield "chalk-list", ""
    b.tap(page, "progress-paper")
    j.arrive(page, "paper")
    yield "paper", ""
    fold_out(page, "paper-files")
    yield "paper-files", "save-order-json"
    j.onward(page)
    j.arrive(page, "sew")
    b.tap(page, "sew-done")
    yield "sew", ""


def what_else_there_is(page: Page) -> Iterator[Shown]:
    """What was changed after the chalk, home with work on it, and a garment of which nothing is known."""
    b.tap(page, "progress-shape")
    j.arrive(page, "shape")
    b.choose(page, "length-mid_thigh")
    b.at(page, "changed").wait_for(state="attached", timeout=30_000)
    b.still(page)
    fold_out(page, "changed-more")
    yield "changed", "changed"
    b.tap(page, "progress-chalk")
    b.at(page, "changed-line").wait_for(state="attached", timeout=30_000)
    yield "chalk-changed", ""
    while not b.at(page, "screen-home").count():
        b.tap(page, "back")
        b.still(page)
    yield "home", ""
    name = b.newest(page)
    fold_out(page, f"more-{name}")
    yield "home-more", f"delete-{name}"
    b.tap(page, "new-garment")
    b.at(page, "screen-home").wait_for(state="detached", timeout=30_000)
    b.still(page)
    if b.at(page, "screen-which").count():
        yield "which", ""
        b.tap(page, "next")
    j.arrive(page, "person")
    b.tap(page, "add-person")
    b.at(page, "name").wait_for(state="attached")
    b.still(page)
    yield "person-new", ""
    b.tap(page, "progress-cloth")
    j.arrive(page, "cloth")
    j.onward(page)
    j.arrive(page, "proof")
    yield "missing", ""
    b.tap(page, "mend-0")
    b.at(page, "keypad").wait_for(state="attached", timeout=30_000)
    yield "keypad", ""


def walk(page: Page, unit: str) -> Iterator[Shown]:
    """Every screen of the app, one after the other."""
    yield from begin(page, unit)
    yield from prove(page)
    yield from at_the_table(page)
    yield from what_else_there_is(page)


def size(text: str) -> str:
    """A size as it is asked for."""
    if not re.fullmatch(r"\d{3,4}x\d{3,4}", text):
        raise argparse.ArgumentTypeError(f"{text} is no size such as 390x664")
    return text


def chosen() -> argparse.Namespace:
    """Which pictures are asked for; all of them where nothing is said."""
    reader = argparse.ArgumentParser(prog="build/screens", description=__doc__)
    reader.add_argument("--size", nargs="+", default=SIZES, type=size, help="such as 390x664; any size will do")
    reader.add_argument("--unit", nargs="+", default=UNITS, choices=UNITS)
    reader.add_argument("--text", nargs="+", default=TEXTS, choices=TEXTS, help="how large letters are, per cent")
    reader.add_argument("--look", nargs="+", default=LOOKS, choices=LOOKS)
    reader.add_argument("--out", type=Path, default=OUT, help="the folder for the pictures")
    return reader.parse_args()


def main() -> int:
    """Serve the app, and walk it once for each unit and look."""
    asked = chosen()
    count = 0
    with (
        tempfile.TemporaryDirectory() as folder,
        sync_playwright() as playwright,
        b.app_server(Path(folder) / "log") as server,
    ):
        for unit, look in product(asked.unit, asked.look):
            wide, high = map(int, WALKED.split("x"))
            colours = {"forced_colors": "active"} if look == "forced" else {"color_scheme": look}
            with b.browser_at(
                playwright,
                Path(folder) / f"{unit}-{look}",
                viewport={"width": wide, "height": high},
                device_scale_factor=2,
                **colours,
            ) as context:
                page = b.open_app(context, server.address)
                for number, (name, view) in enumerate(walk(page, unit), start=1):
                    for size, text in product(asked.size, asked.text):
                        settled(page, size, text, view)
                        path = asked.out / f"{size}-{text}" / f"{unit}-{look}" / f"{number:02}-{name}.png"
                        path.parent.mkdir(parents=True, exist_ok=True)
                        page.screenshot(path=path)
                        count += 1
                    settled(page, WALKED, "100")
                    print(f"{unit} {look} {number:02}-{name}", flush=True)
    print(f"{count} pictures in {asked.out}, a folder for each size, unit and look")
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
