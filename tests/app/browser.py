"""Driving the app in real Chromium: start servers and browsers, find what is on the screen, type, tap, drag, pinch."""

from __future__ import annotations

import os
import re
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager, nullcontext
from dataclasses import asdict
from pathlib import Path
from types import TracebackType
from typing import Any, Self
from urllib.parse import urlsplit

from playwright.sync_api import BrowserContext, Locator, Page, Playwright
from playwright.sync_api import TimeoutError as LateError

from app.saved import BOOK, KINDS, read_all

ROOT = Path(__file__).resolve().parents[2]
CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser") or ""
# Where there is no graphics processor, Flutter's client draws by itself in half the time that it takes to have one
# imitated. On a phone its own draws.
FLAGS = [
    "--headless=new",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-software-rasterizer",
    "--disable-quic",
    "--no-first-run",
    "--disable-sync",
    "--disable-background-networking",
    "--disable-component-update",
    "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1",
]
PHONE: dict[str, Any] = {
    "viewport": {"width": 390, "height": 844},
    "device_scale_factor": 3,
    "is_mobile": True,
    "has_touch": True,
}
DESK: dict[str, Any] = {
    "viewport": {"width": 1280, "height": 800},
    "device_scale_factor": 1,
    "is_mobile": False,
    "has_touch": False,
}
START = 90_000
"""Milliseconds a first start may take on a busy machine."""


class Server:
    """A server of its own process, with the log of the requests it answered. kill() ends it as a power cut would."""

    def __init__(self, command: list[str], log: Path, address: str | None = None, said: Path | None = None) -> None:
        """Start it and wait for its address: printed on its first line, or given and answering.

        `said` takes what it writes to standard error.
        """
        self.log = log
        self.command = command
        with said.open("w") if said else nullcontext() as heard:
            self.process = subprocess.Popen(
                command,
                cwd=ROOT,
                stdout=subprocess.PIPE,
                stderr=heard,
                text=True,
                env={**os.environ, "PYTHONPATH": str(ROOT)},
            )
        assert self.process.stdout
        if address is None:
            self.address = self.process.stdout.readline().strip()
            assert self.address.startswith("http"), f"the server did not start: {command}"
        else:
            self.address = address
            wait_for(address, alive=lambda: self.process.poll() is None)

    def __enter__(self) -> Self:
        return self

    def __exit__(self, kind: type[BaseException] | None, fault: BaseException | None, at: TracebackType | None) -> None:
        self.kill()

    @property
    def port(self) -> int:
        """The port it listens on."""
        return urlsplit(self.address).port or 80

    def requests(self) -> list[str]:
        """Return the log's lines: method, status, bytes, path."""
        return self.log.read_text("utf-8").splitlines() if self.log.exists() else []

    def kill(self) -> None:
        """End the process at once and make sure that nothing answers any more."""
        if self.process.poll() is None:
            self.process.send_signal(signal.SIGKILL)
        self.process.wait(10)
        if self.process.stdout:
            self.process.stdout.close()


def wait_for(address: str, seconds: float = 40, alive: Callable[[], bool] = lambda: True) -> None:
    """Wait until something answers at an address, for as long as what is to answer lives."""
    import urllib.error
    import urllib.request

    end = time.monotonic() + seconds
    while True:
        try:
            with urllib.request.urlopen(address, timeout=5):
                return
        except (urllib.error.URLError, OSError):
            if time.monotonic() > end or not alive():
                raise
            time.sleep(0.1)


def free_port() -> int:
    """Return a port nobody uses at the moment."""
    import socket

    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


def static_server(site: Path, log: Path, port: int = 0) -> Server:
    """Serve a built site."""
    return Server([sys.executable, "build/site_server.py", str(site), "--port", str(port), "--log", str(log)], log)


def app_server(
    log: Path,
    host: str = "127.0.0.1",
    port: int | None = None,
    *,
    program: tuple[str, ...] = ("-m", "app.main"),
    said: Path | None = None,
) -> Server:
    """Run the app in server mode, or a program that makes another of it."""
    port = port or free_port()
    command = [sys.executable, *program, "--host", host, "--port", str(port), "--log", str(log)]
    return Server(command, log, f"http://127.0.0.1:{port}/", said)


@contextmanager
def browser_at(
    playwright: Playwright, profile: Path, reach: str = "", flags: Sequence[str] = (), **settings: Any
) -> Iterator[BrowserContext]:
    """Start a browser process on a profile folder; leaving ends the process, the profile stays for the next one.

    `reach` is a host that it can reach beside 127.0.0.1, `flags` are more of the browser's own.
    """
    flags = [*(FLAGS[:-1] if reach else FLAGS), *([f"{FLAGS[-1]}, EXCLUDE {reach}"] if reach else []), *flags]
    context = playwright.chromium.launch_persistent_context(
        profile, executable_path=CHROMIUM, args=flags, accept_downloads=True, **{**PHONE, **settings}
    )
    try:
        yield context
    finally:
        context.close()


def other_hosts(context: BrowserContext) -> list[str]:
    """Return a list that fills with every address of another host that a page asks for, or tries to.

    So does what the page's own policy refuses, in the browser's words. Only listens: Playwright's routing would switch
    the browser's cache off. FLAGS keep other hosts out of reach.
    """
    asked: list[str] = []

    def note(request: Any) -> None:
        if not request.url.startswith(("http://127.0.0.1", "blob:", "data:")):
            asked.append(request.url)

    def refused(message: Any) -> None:
        if "Content Security Policy" in message.text:
            asked.append(message.text)

    context.on("request", note)
    context.on("console", refused)
    return asked


def open_app(context: BrowserContext, address: str, ready: str = "screen-home") -> Page:
    """Open the app in a new tab and wait until the control named `ready` is there."""
    page = context.new_page()
    page.goto(address)
    switch_on(page, ready)
    begun = page.evaluate("document.querySelectorAll('script[src*=flutter_bootstrap]').length")
    assert begun == 1, f"the drawing client was begun {begun} times"
    return page


def switch_on(page: Page, ready: str = "screen-home", timeout: float = START) -> None:
    """Switch the accessibility tree on (Flutter writes it only when asked) and wait for a named control."""
    page.wait_for_selector("flt-semantics-placeholder", state="attached", timeout=START)
    page.evaluate("document.querySelector('flt-semantics-placeholder').click()")
    try:
        at(page, ready).wait_for(state="attached", timeout=timeout)
    except LateError as late:
        raise AssertionError(f"{ready} is not there; at {page.url} there are {page.evaluate(_NAMES)}") from late


_NAMES = """() => [...document.querySelectorAll("[flt-semantics-identifier]")].map(
    (each) => each.getAttribute("flt-semantics-identifier"))"""


def reload(page: Page, ready: str = "screen-home") -> None:
    """Load the page again and wait for the app."""
    page.reload()
    switch_on(page, ready)


def at(page: Page, identifier: str) -> Locator:
    """Find a control by the identifier of its ft.Semantics."""
    return page.locator(f'[flt-semantics-identifier="{identifier}"]')


def button(page: Page, identifier: str) -> Locator:
    """Find the button inside a named control."""
    return at(page, identifier).locator("[role=button]")


def text(page: Page, identifier: str) -> str:
    """Return what a named control says."""
    return at(page, identifier).inner_text()


def spoken(page: Page, identifier: str) -> str:
    """Return all that a named control says, written, read out or standing in a field."""
    parts = "[it, ...it.querySelectorAll('*')].flatMap((one) => [one.ariaLabel ?? '', one.value ?? ''])"
    return str(at(page, identifier).evaluate(f"(it) => [it.innerText, ...{parts}].join(' ')"))


def wait_text(page: Page, identifier: str, pattern: str, seconds: float = 15) -> str:
    """Wait until a named control's text fits a pattern; return the text."""
    end = time.monotonic() + seconds
    while True:
        said = text(page, identifier) if at(page, identifier).count() else ""
        if re.search(pattern, said):
            return said
        assert time.monotonic() < end, f"{identifier} says {said!r}, not {pattern!r}"
        page.wait_for_timeout(40)


def wait_until(page: Page, holds: Callable[[], bool], what: str, seconds: float = 30) -> None:
    """Wait until something holds; `what` says it in a failure."""
    end = time.monotonic() + seconds
    while not holds():
        assert time.monotonic() < end, f"waited in vain: {what}"
        page.wait_for_timeout(25)


def wait_true(page: Page, expression: str, seconds: float = 30) -> None:
    """Wait until an expression of the page is true. Playwright's own waiting is refused by the page's policy."""
    wait_until(page, lambda: bool(page.evaluate(expression)), expression, seconds)


_PLACES = """() => [...document.querySelectorAll("flt-semantics")].map((each) => {
    const {x, y, width, height} = each.getBoundingClientRect();
    return [each.id, x, y, width, height].map((one) => typeof one === "number" ? Math.round(one) : one).join(" ");
}).join()"""


def still(page: Page, seconds: float = 10) -> None:
    """Wait until everything on the screen has kept its place for a fifth of a second; what moves on is no failure."""
    end, since, places = time.monotonic() + seconds, time.monotonic(), page.evaluate(_PLACES)
    while time.monotonic() < min(since + 0.2, end):
        page.wait_for_timeout(50)
        now = page.evaluate(_PLACES)
        if now != places:
            since, places = time.monotonic(), now


_RECORDS = """async () => {
    const start = "flutter.foldmark.", records = {};
    for (const key of Object.keys(localStorage).filter((each) => each.startsWith(`${start}pointer.`))) {
        const name = key.slice(`${start}pointer.`.length), slot = JSON.parse(localStorage.getItem(key)).split(" ")[0];
        const held = localStorage.getItem(`${start}${slot}.${name}`);
        if (held !== null) records[name] = JSON.parse(held).split("\\n").slice(1).join("\\n");
    }
    if (Object.keys(records).length) return records;
    const store = await import(new URL("storage.js", document.baseURI)).catch(() => null);
    const found = store && JSON.parse((await store.all("")).records);
    return Object.fromEntries((found ?? []).map(([key, text]) => [key, text]));
}"""


def records(page: Page) -> dict[str, str]:
    """What the browser keeps, by key, on the site or from a server."""
    return dict(page.evaluate(_RECORDS))


def book(page: Page) -> dict[str, Any]:
    """What the browser keeps of the people and garments, newest garment first; empty for nothing."""
    found = {key: text for key, text in records(page).items() if key.startswith((*KINDS, BOOK))}
    return asdict(read_all(found).book) if found else {}


def newest(page: Page) -> str:
    """The id of the garment that was begun last."""
    wait_until(page, lambda: bool(book(page).get("garments")), "a garment is kept")
    return str(book(page)["garments"][0]["id"])


def kept(page: Page, holds: Callable[[dict[str, Any]], object], what: str) -> None:
    """Wait until the browser keeps a book for which something holds; `what` says it in a failure."""

    def held() -> bool:
        try:
            return bool((found := book(page)) and holds(found))
        except LookupError:  # some of its records are saved, and not yet all
            return False

    wait_until(page, held, f"kept: {what}")


def chosen(page: Page, identifier: str) -> bool:
    """Whether a chip is the chosen one of its kind."""
    return at(page, identifier).get_attribute("aria-checked") == "true"


def choose(page: Page, identifier: str) -> None:
    """Tap a chip and wait until it is shown as the chosen one."""
    tap(page, identifier)
    wait_until(page, lambda: chosen(page, identifier), f"{identifier} is chosen")


def middle(page: Page, identifier: str) -> tuple[float, float]:
    """Where the middle of a named control lies on the screen, px; scrolled to where it lies outside."""
    target = control(page, identifier)
    for _ in range(2):
        box = target.bounding_box()
        assert box, identifier
        x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
        if target.evaluate("(it, [x, y]) => it.contains(document.elementFromPoint(x, y))", [x, y]):
            break
        target.scroll_into_view_if_needed()
        still(page)
    return x, y


def control(page: Page, identifier: str) -> Locator:
    """Wait for a named control, since a new screen may still be on its way; return its button, or itself."""
    at(page, identifier).first.wait_for(state="attached", timeout=30_000)
    target = button(page, identifier)
    return target if target.count() else at(page, identifier)


def awake(page: Page, identifier: str) -> bool:
    """Whether a named control is there and can be tapped."""
    name = f'[flt-semantics-identifier="{identifier}"]'
    return bool(page.locator(f"{name}[flt-tappable], {name} [flt-tappable]").count())


def tap_once(page: Page, identifier: str) -> None:
    """Tap where a control stands at this moment, without waiting for it to stand still."""
    x, y = middle(page, identifier)
    if page.evaluate("navigator.maxTouchPoints > 0"):
        page.touchscreen.tap(x, y)
    else:
        page.mouse.click(x, y)


_TWICE = """([x, y]) => {
    const it = document.elementFromPoint(x, y);
    const of = {bubbles: true, cancelable: true, composed: true, clientX: x, clientY: y, button: 0, isPrimary: true,
                pointerType: "touch"};
    for (const pointerId of [71, 72]) {
        it.dispatchEvent(new PointerEvent("pointerdown", {...of, pointerId, buttons: 1}));
        it.dispatchEvent(new PointerEvent("pointerup", {...of, pointerId, buttons: 0}));
        it.dispatchEvent(new MouseEvent("click", of));
    }
}"""


def tap_twice(page: Page, identifier: str) -> None:
    """Tap a control two times before the screen can answer, as a trembling finger on a slow phone does.

    The page itself is told of both: through the driver the second tap would wait until the first one's picture is
    there, up to a second, and would then be a tap on another screen. The control must be awake and stand still first,
    or neither tap would land on it.
    """
    wait_until(page, lambda: awake(page, identifier), f"{identifier} can be tapped")
    still(page)
    page.evaluate(_TWICE, list(middle(page, identifier)))


def tap(page: Page, identifier: str) -> None:
    """Tap a named control as a finger does (or click, where the page has no touch)."""
    target = control(page, identifier)
    if page.evaluate("navigator.maxTouchPoints > 0"):
        target.tap()
    else:
        target.click()


def type_into(page: Page, identifier: str, words: str, *, leave: bool = True) -> None:
    """Replace a field's text by typing on a real keyboard, and leave the field. A field is judged once it is left.

    Flutter fills the input element only once it has the focus; what stands above may grow under the finger, so that a
    first click misses it.
    """
    field = at(page, identifier).locator("input, textarea").first
    for _ in range(3):
        field.scroll_into_view_if_needed()
        still(page)  # or the click meets what stood there before
        field.click()
        page.wait_for_timeout(150)
        if field.evaluate("(it) => it === document.activeElement"):
            break
    else:
        raise AssertionError(f"{identifier} was clicked and never had the focus")
    page.keyboard.press("Control+a")
    page.keyboard.press("Backspace")
    page.keyboard.type(words, delay=25)
    if leave:
        page.keyboard.press("Enter")


def field_value(page: Page, identifier: str) -> str:
    """Return what a field holds; focuses it, and leaves it again."""
    field = at(page, identifier).locator("input, textarea").first
    field.click()
    page.wait_for_timeout(150)
    held = field.input_value()
    page.keyboard.press("Enter")
    return held


def offline_ready(page: Page) -> None:
    """Wait until the service worker keeps the whole site."""
    wait_true(page, "document.documentElement.dataset.offline === 'ready'", START / 1000)


MEMORIES = """async () => {
    const names = (await caches.keys()).filter((name) => name.startsWith("foldmark-memory"));
    if (!names.length) return [];
    return (await (await caches.open(names[0])).keys()).map((key) => new URL(key.url).pathname.split("/").pop());
}"""
"""The names under which a started Python is kept."""


def memory_kept(page: Page) -> str:
    """Wait until the started Python is kept for the next start; returns its name."""
    wait_until(page, lambda: len(page.evaluate(MEMORIES)) == 1 and page.evaluate(MEMORIES) != ["trying"], "Python", 60)
    return str(page.evaluate(MEMORIES)[0])


def touch(page: Page, fingers: list[list[tuple[float, float]]], pause: int = 16) -> None:
    """Move one or more fingers along their paths (all of one length): one path drags, two pinch."""
    session = page.context.new_cdp_session(page)
    for step in range(len(fingers[0])):
        points = [{"x": path[step][0], "y": path[step][1], "id": number} for number, path in enumerate(fingers)]
        session.send("Input.dispatchTouchEvent", {"type": "touchMove" if step else "touchStart", "touchPoints": points})
        page.wait_for_timeout(pause)
    session.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})
    session.detach()
