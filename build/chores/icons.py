"""Draw the icons of the site and the app from assets/icons/mark.svg, with Chromium; run after the mark changes.

Writes assets/favicon.png and assets/icons/*.png, under the names Flet's web client asks for, so that server mode and
the static site show the same mark.
"""

from __future__ import annotations

import shutil
import sys
from pathlib import Path

ICONS = Path(__file__).resolve().parents[2] / "assets" / "icons"
SAFE = 0.72
"""Part of a maskable icon's side the mark may fill: phones cut the icon to a circle of 80 per cent."""

SIZES = {
    "../favicon.png": (48, "plain"),
    "icon-192.png": (192, "plain"),
    "icon-512.png": (512, "plain"),
    "icon-maskable-192.png": (192, "full"),
    "icon-maskable-512.png": (512, "full"),
    "apple-touch-icon-192.png": (192, "square"),
    "loading-animation.png": (256, "plain"),
}
"""plain: rounded ground. full: ground to the edges, mark within the safe circle. square: the phone rounds it itself."""


def picture(kind: str) -> str:
    """Return the mark's drawing for one kind of icon."""
    drawing = (ICONS / "mark.svg").read_text("utf-8")
    if kind != "plain":
        drawing = drawing.replace('rx="96"', 'rx="0"')
    if kind == "full":
        smaller = f"translate(256 256) scale({SAFE}) translate(-256 -256)"
        drawing = drawing.replace('<g id="mark">', f'<g transform="{smaller}">')
    return drawing


def main() -> int:
    """Draw every icon."""
    from playwright.sync_api import sync_playwright

    chromium = shutil.which("chromium") or shutil.which("chromium-browser")
    if not chromium:
        print("Chromium is needed: apt-get install chromium", file=sys.stderr)
        return 1
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=chromium, args=["--no-sandbox", "--disable-gpu"])
        for name, (size, kind) in SIZES.items():
            page = browser.new_page(viewport={"width": size, "height": size})
            page.set_content(
                f"<style>body{{margin:0}}svg{{display:block;width:{size}px;height:{size}px}}</style>" + picture(kind)
            )
            page.screenshot(path=ICONS / name, omit_background=True)
            page.close()
        browser.close()
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
