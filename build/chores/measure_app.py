"""Measures how soon the drawing follows a choice, a typed key and the tap that opens a garment.

From the input event to the painted pixels; of a garment that is opened, to the last picture that changes the drawing.

In real Chromium (headless, software drawing) on this computer, in server mode; a phone differs. Beside it an app with
one box that changes colour when it is tapped: what no app of this kind can be quicker than here. The page itself notes
when a picture is handed to the screen and whether the outline in it has changed.

It is measured twice: as most people use it, and with the tree for readers of the screen, where a tap first moves the
reader's place and so costs a picture of its own.
"""

import statistics
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path

from playwright.sync_api import BrowserContext, Page, sync_playwright

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT / "tests" / "app"))

import browser as b  # noqa: E402 - the tests' way of driving the app
import journey as j  # noqa: E402

WATCH = """
(() => {
  const wide = 300, high = 280, top = 110;
  const seen = new OffscreenCanvas(wide, high).getContext('2d', {willReadFrequently: true});
  globalThis.paints = []; globalThis.inputs = [];
  const show = ImageBitmapRenderingContext.prototype.transferFromImageBitmap;
  ImageBitmapRenderingContext.prototype.transferFromImageBitmap = function (picture) {
    const at = performance.now();
    const dpr = devicePixelRatio;
    seen.drawImage(picture, 0, top * dpr, wide * dpr, high * dpr, 0, 0, wide, high);
    const pixels = new Uint32Array(seen.getImageData(0, 0, wide, high).data.buffer);
    let sum = 0;
    for (let i = 0; i < pixels.length; i += 5) sum = (Math.imul(sum, 31) + pixels[i]) | 0;
    paints.push([at, sum]);
    return show.call(this, picture);
  };
  for (const kind of ['pointerup', 'keydown']) addEventListener(kind, e => inputs.push(e.timeStamp), true);
})();
"""

FORGET = "(() => { const last = paints.at(-1)?.[1]; paints.length = inputs.length = 0; return last })()"
"""The last picture; none before it is counted any more."""

ONE_BOX = """
import sys
sys.path.insert(0, {root!r})
import flet as ft
from app.server import serve

def main(page):
    page.padding = 0
    def tapped(_):
        box.bgcolor = "#222222" if box.bgcolor != "#222222" else "#dddddd"
    box = ft.Container(width=390, height=420, bgcolor="#dddddd", on_click=tapped)
    page.add(ft.Semantics(identifier="box", content=box))

serve(main, "127.0.0.1", {port})
"""


SLOP = 15
"""So many px of a finger's way are taken before the page scrolls with it."""

ROUNDS = 8
"""So often a garment is opened."""

Lags = dict[str, list[float | None]]


def lag(page: Page, act: Callable[[], None]) -> float | None:
    """Milliseconds from the last input event of the act to the first picture with another outline; None without one."""
    page.wait_for_timeout(900)
    before = page.evaluate(FORGET)
    act()
    page.wait_for_timeout(1000)
    paints, inputs = page.evaluate("[paints, inputs]")
    for at, seen in paints:
        if seen != before and at > inputs[-1]:
            return float(at - inputs[-1])
        before = seen
    return None


def opened(page: Page, garment: tuple[float, float]) -> float | None:
    """Milliseconds from the tap that opens a garment to the last picture that changes where its drawing is."""
    page.wait_for_timeout(900)
    before = page.evaluate(FORGET)
    page.touchscreen.tap(*garment)
    page.wait_for_timeout(2500)
    paints, inputs = page.evaluate("[paints, inputs]")
    tapped, last = inputs[0], None
    for at, seen in paints:
        if seen != before and at > tapped:
            last = float(at - tapped)
        before = seen
    return last


def from_home(page: Page, home: str, back: tuple[float, float], card: tuple[float, float]) -> list[float | None]:
    """Opens the one garment of the book from home, again and again, its draft made before."""
    taken = []
    for _ in range(ROUNDS):
        while page.url != home:
            page.touchscreen.tap(*back)
            at_rest(page)
        taken.append(opened(page, card))
        at_rest(page)
    return taken


def middle(page: Page, name: str) -> tuple[float, float]:
    """Where the middle of a control is."""
    box = b.at(page, name).bounding_box()
    assert box
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def the_app(context: BrowserContext, address: str) -> Lags:
    """Taps on choices and keys in a field, with the demo order; at first with the tree for readers of the screen."""
    page = b.open_app(context, address)
    b.tap(page, "try-demo")
    b.at(page, "screen-shape").wait_for(state="attached", timeout=30_000)
    page.wait_for_timeout(1500)
    there, first, back = page.url, middle(page, "length-hip"), middle(page, "back")
    demo = f"garment-{b.newest(page)}"
    j.at_home(page)
    home, card = page.url, middle(page, demo)
    b.tap(page, demo)
    b.at(page, "screen-shape").wait_for(state="attached", timeout=30_000)
    b.still(page)
    b.tap(page, "length-hip")  # brings the choices onto the screen
    b.still(page)
    scrolled = first[1] - middle(page, "length-hip")[1]
    choices = [middle(page, f"length-{name}") for name in ("mid_thigh", "knee", "hip")]
    read = on_choices(page, choices)
    own = middle(page, "length-own")
    page.touchscreen.tap(*own)
    page.wait_for_timeout(800)
    field = middle(page, "length-length")
    read_keys = in_field(page, field)
    b.tap(page, "length-hip")
    page.wait_for_timeout(1000)
    page.close()
    page = context.new_page()
    page.goto(there)
    at_rest(page)
    far = {"x": choices[0][0], "y": choices[0][1], "yDistance": -scrolled - SLOP}
    still = {"gestureSourceType": "touch", "speed": 400, "preventFling": True}
    context.new_cdp_session(page).send("Input.synthesizeScrollGesture", {**far, **still})
    at_rest(page)
    plain = on_choices(page, choices)
    page.touchscreen.tap(*own)
    page.wait_for_timeout(800)
    plain_keys = in_field(page, field)
    return {
        "tap on a choice": plain,
        "typed key": plain_keys,
        "a garment opened": from_home(page, home, back, card),
        "tap, with a reader of the screen": read,
        "typed key, with one": read_keys,
    }


def at_rest(page: Page) -> None:
    """Wait until the page has shown pictures and shows no more of them for two seconds."""
    shown = -1
    while (now := page.evaluate("paints.length")) != shown or not now:
        shown = now
        page.wait_for_timeout(2000)


def on_choices(page: Page, choices: list[tuple[float, float]]) -> list[float | None]:
    """Taps on the choices, round and round."""
    return [lag(page, lambda at=at: page.touchscreen.tap(*at)) for at in choices * 4]  # type: ignore[misc]


def in_field(page: Page, field: tuple[float, float]) -> list[float | None]:
    """Keys in a field, each taken back again."""
    page.touchscreen.tap(*field)
    page.wait_for_timeout(800)
    page.keyboard.press("Control+a")
    page.keyboard.type("70.", delay=25)
    keys = []
    for key in "579135792":
        keys.append(lag(page, lambda key=key: page.keyboard.type(key)))  # type: ignore[misc]
        page.keyboard.press("Backspace")
    return keys


def one_box(context: BrowserContext, address: str) -> Lags:
    """Taps on the box of the app that does nothing else."""
    page = b.open_app(context, address, "box")
    at = middle(page, "box")
    page.wait_for_timeout(1500)
    return {"a box that changes colour": [lag(page, lambda: page.touchscreen.tap(*at)) for _ in range(12)]}


SCALES = 1, 3
"""Pixels a px: a plain screen, and a phone's."""


def main() -> int:
    """Measure at every scale."""
    for scale in SCALES:
        print(f"scale {scale}")
        measure(scale)
    return 0


def measure(scale: int) -> None:
    """Serve both apps, tap and type, print the medians."""
    found: Lags = {}
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        here, port = Path(folder), b.free_port()
        (here / "one_box.py").write_text(ONE_BOX.format(root=str(ROOT), port=port), "utf-8")
        bare = [sys.executable, str(here / "one_box.py")]
        starts: tuple[tuple[str, Callable[[], b.Server], Callable[[BrowserContext, str], Lags]], ...] = (
            ("box", lambda: b.Server(bare, here / "box.log", f"http://127.0.0.1:{port}/"), one_box),
            ("app", lambda: b.app_server(here / "app.log"), the_app),
        )
        for name, start, walk in starts:
            server = start()
            try:
                with b.browser_at(playwright, here / name, device_scale_factor=scale) as context:
                    context.add_init_script(WATCH)
                    found |= walk(context, server.address)
            finally:
                server.kill()
    for name, taken in found.items():
        known = [value for value in taken if value is not None]
        shown = (
            f"{statistics.median(known):6.0f} ms median, {min(known):.0f} to {max(known):.0f}" if known else "unseen"
        )
        print(f"{name:34}{shown}, {len(known)} of {len(taken)} seen")


if __name__ == "__main__":
    raise SystemExit(main())
