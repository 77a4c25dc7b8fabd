"""Pictures of every screen, phone and desk, light and dark, into the ignored folder screens/, to be looked at."""

import sys
import tempfile
from pathlib import Path

from playwright.sync_api import Page, sync_playwright

ROOT = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(ROOT / "tests" / "app"))

import browser as b  # noqa: E402 - the tests' way of driving the app

OUT = ROOT / "screens"


def picture(page: Page, name: str) -> None:
    """Wait until the screen is still and take its picture."""
    page.wait_for_timeout(1200)
    page.screenshot(path=OUT / f"{name}.png")
    print(name, flush=True)


def walk(page: Page, name: str) -> None:
    """From the empty home through the demo to the paper, a picture of each screen."""
    picture(page, f"{name}-1-home")
    b.tap(page, "try-demo")
    b.at(page, "screen-shape").wait_for(state="attached", timeout=30_000)
    picture(page, f"{name}-3-shape")
    b.tap(page, "progress-person")
    b.at(page, "screen-person").wait_for(state="attached")
    picture(page, f"{name}-2-person")
    b.tap(page, "next")
    picture(page, f"{name}-2-person-measures")
    page.go_back()
    page.wait_for_timeout(600)
    b.tap(page, "progress-shape")
    b.at(page, "screen-shape").wait_for(state="attached")
    for screen, number in (("cloth", 4), ("proof", 5)):
        b.tap(page, "next")
        b.at(page, f"screen-{screen}").wait_for(state="attached", timeout=30_000)
        picture(page, f"{name}-{number}-{screen}")
    b.tap(page, "progress-lay")
    b.at(page, "save-0").wait_for(state="attached", timeout=60_000)
    picture(page, f"{name}-6-lay")
    b.tap(page, "start-chalking")
    b.at(page, "screen-chalk").wait_for(state="attached", timeout=30_000)
    picture(page, f"{name}-7-chalk-words")
    for _ in range(8):
        b.tap(page, "done")
        page.wait_for_timeout(350)
    picture(page, f"{name}-7-chalk-mark")
    b.tap(page, "mark-list")
    b.at(page, "item-1").wait_for(state="attached")
    page.wait_for_timeout(350)
    b.tap(page, "progress-paper")
    b.at(page, "screen-paper").wait_for(state="attached")
    picture(page, f"{name}-8-paper")


def main() -> int:
    """Serve the app, walk it in four settings."""
    OUT.mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        server = b.app_server(Path(folder) / "log")
        try:
            for size, settings in (("phone", b.PHONE), ("desk", b.DESK)):
                for light in ("light", "dark"):
                    profile = Path(folder) / f"{size}-{light}"
                    with b.browser_at(playwright, profile, color_scheme=light, **settings) as context:
                        walk(b.open_app(context, server.address), f"{size}-{light}")
        finally:
            server.kill()
    print(f"In {OUT}")
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
