"""Measures how soon the drawing follows a choice and a typed key: from the input event to changed pixels, at scale 1.

In real Chromium (headless, software drawing) on this computer, in server mode; a phone differs. Judged by a screencast,
not by the accessibility tree, which lags behind.
"""

import base64
import io
import statistics
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

from PIL import Image, ImageChops
from playwright.sync_api import Page, sync_playwright

ROOT = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(ROOT / "tests" / "app"))

import browser as b  # noqa: E402 - the tests' way of driving the app

OUTLINE = (0, 110, 330, 400)
"""Where the outline lies on the shape screen at 390 × 844, so that the chips' own change does not count."""


def lag(page: Page, session: Any, frames: list[tuple[float, str]], act: Callable[[], None]) -> float | None:
    """Milliseconds from the act to the first frame whose outline has changed; None when none did."""
    page.wait_for_timeout(900)
    base = Image.open(io.BytesIO(page.screenshot())).convert("L").crop(OUTLINE)
    frames.clear()
    begin = time.time()
    act()
    page.wait_for_timeout(1200)
    for at, data in frames:
        frame = Image.open(io.BytesIO(base64.b64decode(data))).convert("L").resize((390, 844)).crop(OUTLINE)
        changed = ImageChops.difference(base, frame).point([255 if value > 70 else 0 for value in range(256)])
        if changed.histogram()[255] > 300:
            return 1000 * (at - begin)
    return None


def main() -> int:
    """Serve the app, tap and type, print the medians."""
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        server = b.app_server(Path(folder) / "log")
        try:
            with b.browser_at(playwright, Path(folder) / "profile", device_scale_factor=1) as context:
                page = b.open_app(context, server.address)
                b.tap(page, "try-demo")
                b.at(page, "screen-shape").wait_for(state="attached", timeout=30_000)
                page.wait_for_timeout(2500)
                frames: list[tuple[float, str]] = []
                session = context.new_cdp_session(page)

                def seen(event: dict[str, Any]) -> None:
                    frames.append((event["metadata"]["timestamp"], event["data"]))
                    session.send("Page.screencastFrameAck", {"sessionId": event["sessionId"]})

                session.on("Page.screencastFrame", seen)
                session.send("Page.startScreencast", {"format": "jpeg", "quality": 40, "everyNthFrame": 1})

                def tapped(name: str) -> Callable[[], None]:
                    box = b.at(page, name).bounding_box()
                    assert box
                    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
                    return lambda: page.mouse.click(x, y)

                order = ("length-knee", "length-hip", "length-mid_thigh") * 3
                taps = [lag(page, session, frames, tapped(name)) for name in order]
                b.tap(page, "length-own")
                page.wait_for_timeout(800)
                b.type_into(page, "length-length", "7")
                keys = []
                for key in "09080":
                    keys.append(lag(page, session, frames, lambda key=key: page.keyboard.type(key)))  # type: ignore[misc]
                    page.keyboard.press("Backspace")
        finally:
            server.kill()
    for name, found in (("tap on a choice", taps), ("typed key", keys)):
        known = [value for value in found if value is not None]
        shown = (
            f"{statistics.median(known):6.0f} ms median, {min(known):.0f} to {max(known):.0f}" if known else "not seen"
        )
        print(f"{name + ' to changed outline':36}{shown}")
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
