"""Measure the built site beside an empty one made the same way: bytes of a first visit, and how long each start takes.

Every figure is in real Chromium (headless, software drawing) on this computer, over loopback; a phone differs.
"painted" is when the picture stopped changing, judged by the pictures themselves, not by the accessibility tree.
"""

from __future__ import annotations

import json
import shutil
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT / "build"), str(ROOT / "tests" / "app")]

import browser as b  # noqa: E402 - the tests' way of driving the app

import site_offline  # noqa: E402
import web_site  # noqa: E402

START = 120.0
"""Seconds that a start may take at most."""
QUIET = 2.5
"""Seconds without a change after which the picture counts as finished."""

KEPT = "caches.keys().then((names) => names.some((name) => name.startsWith('foldmark-memory')))"
"""What the first start keeps of Python's memory for the later ones."""

EMPTY_APP = """
import flet as ft


def main(page: ft.Page) -> None:
    page.add(ft.Text("ready"))


def start() -> None:
    ft.run(main)
"""


def make_sites(folder: Path) -> dict[str, Path]:
    """Build the app's site and an empty one."""
    bare = folder / "bare"
    for name in ("assets", "build/locks"):
        shutil.copytree(ROOT / name, bare / name)
    (bare / "app").mkdir()
    shutil.rmtree(bare / "assets" / "demo", ignore_errors=True)
    (bare / "app" / "__init__.py").touch()
    (bare / "app" / "main.py").write_text(EMPTY_APP, "utf-8")
    web_site.build(web_site.Site(bare, folder / "empty", packages=("app",)))
    web_site.build(web_site.Site(ROOT, folder / "app"))
    return {"app": folder / "app", "empty": folder / "empty"}


def table(folder: Path) -> str:
    """Each file's share of a first visit: bytes as they are, as .br and as .gz, and hundredths of all that is .br."""
    found = site_offline.shares(web_site.Site(ROOT, folder))
    sent = sum(of[site_offline.BROTLI] for of in found.values())
    largest = sorted(found.items(), key=lambda one: -one[1][site_offline.BROTLI])
    lines = [
        f"{name:70}{of['']:11}{of[site_offline.BROTLI]:11}{of[site_offline.GZIP]:11}"
        f"{100 * of[site_offline.BROTLI] / sent:7.2f} %"
        for name, of in largest
    ]
    return "\n".join([f"{'file':70}{'bytes':>11}{'.br':>11}{'.gz':>11}    share", *lines])


def one_start(page: Any, go: Any) -> dict[str, float]:
    """Start once and return milliseconds from the page's beginning for each stage."""
    frames: list[float] = []
    session = page.context.new_cdp_session(page)

    def seen(event: dict[str, Any]) -> None:
        frames.append(event["metadata"]["timestamp"] * 1000)
        session.send("Page.screencastFrameAck", {"sessionId": event["sessionId"]})

    session.on("Page.screencastFrame", seen)
    session.send("Page.startScreencast", {"format": "jpeg", "quality": 30, "maxWidth": 200, "maxHeight": 400})
    go()
    b.wait_true(page, "globalThis.startTimes && startTimes.appStarted && startTimes.firstFrame", START)
    last, since = len(frames), time.monotonic()
    while time.monotonic() - since < QUIET:
        page.wait_for_timeout(100)
        if len(frames) != last:
            last, since = len(frames), time.monotonic()
    session.send("Page.stopScreencast")
    session.detach()
    times = page.evaluate("startTimes")
    begin = times.pop("page")
    return {**{name: at - begin for name, at in times.items()}, "painted": frames[-1] - begin}


def measure(folder: Path, scale: int, rounds: int) -> dict[str, Any]:
    """Measure first visits and warm starts of one site."""
    from playwright.sync_api import sync_playwright

    chromium = shutil.which("chromium") or "chromium"
    starts: dict[str, list[dict[str, float]]] = {"first visit": [], "warm": [], "without network": []}
    visit: dict[str, int] = {}
    with sync_playwright() as playwright:
        for _ in range(rounds):
            with tempfile.TemporaryDirectory() as scratch:
                log = Path(scratch) / "log"
                server = subprocess.Popen(
                    [sys.executable, str(ROOT / "build" / "site_server.py"), str(folder), "--log", str(log)],
                    stdout=subprocess.PIPE,
                    text=True,
                )
                assert server.stdout
                address = server.stdout.readline().strip()
                context = playwright.chromium.launch_persistent_context(
                    Path(scratch) / "profile",
                    executable_path=chromium,
                    viewport={"width": 390, "height": 844},
                    device_scale_factor=scale,
                    args=["--headless=new", "--no-sandbox", "--disable-gpu"],
                )
                try:
                    page = context.new_page()
                    starts["first visit"].append(one_start(page, lambda: page.goto(address)))  # noqa: B023
                    b.wait_true(page, "document.documentElement.dataset.offline === 'ready'", START)
                    b.wait_true(page, KEPT, START)
                    lines = [line.split() for line in log.read_text("utf-8").splitlines()]
                    visit = {
                        "requests": len(lines),
                        "answered 304": sum(line[1] == "304" for line in lines),
                        "bytes sent": sum(int(line[2]) for line in lines),
                    }
                    starts["warm"].append(one_start(page, page.reload))
                    server.kill()
                    server.wait()
                    starts["without network"].append(one_start(page, page.reload))
                finally:
                    context.close()
                    server.kill()
                    server.wait()
    middle = {
        kind: {name: round(statistics.median(run[name] for run in runs)) for name in runs[0]}
        for kind, runs in starts.items()
    }
    return {"first visit": visit, "milliseconds, median": middle}


def main() -> int:
    """Measure and print as JSON."""
    rounds = int(sys.argv[1]) if len(sys.argv) > 1 else 2
    with tempfile.TemporaryDirectory() as folder:
        sites = make_sites(Path(folder))
        for name, path in sites.items():
            print(f"site {name}\n{table(path)}", flush=True)
        for scale in (1, 3):
            for name, path in sites.items():
                print(json.dumps({"site": name, "scale": scale, **measure(path, scale, rounds)}), flush=True)
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
