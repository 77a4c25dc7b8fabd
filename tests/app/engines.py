"""WebKit and Firefox, driven through as much of Playwright's page as the helpers in browser.py and journey.py use.

So one helper serves three engines. WebKit: Debian's driver (WebKitWebDriver) and MiniBrowser, on a screen of its own
(Xvfb). Firefox speaks WebDriver BiDi itself and needs no driver. Neither can reach another host.
"""

from __future__ import annotations

import base64
import itertools
import json
import os
import re
import shutil
import subprocess
import time
from abc import ABC, abstractmethod
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from types import TracebackType
from typing import Any, ClassVar, Self, cast

import browser as b
from playwright.sync_api import Page
from selenium.webdriver.common.actions.action_builder import ActionBuilder
from selenium.webdriver.common.actions.pointer_input import PointerInput
from selenium.webdriver.remote.client_config import ClientConfig
from selenium.webdriver.remote.remote_connection import RemoteConnection
from selenium.webdriver.remote.webdriver import WebDriver
from selenium.webdriver.webkitgtk.options import Options
from selenium.webdriver.webkitgtk.service import Service
from websocket import WebSocket, create_connection

KEYS = {
    "Tab": "\ue004",
    "Enter": "\ue007",
    "Space": " ",
    "Backspace": "\ue003",
    "ArrowLeft": "\ue012",
    "ArrowRight": "\ue014",
}
"""Names of keys and the characters by which both protocols know them."""
NOWHERE = ("127.0.0.1", 9)
"""Where nobody listens: what is sent to any other host goes there."""


@dataclass(frozen=True)
class Found:
    """What a selector finds on the page at the moment of asking."""

    engine: Engine
    selector: str

    def _ask(self, does: str, given: Any = None) -> Any:
        return self.engine.evaluate(
            f"([selector, given]) => {{ const all = [...document.querySelectorAll(selector)], it = all[0]; {does} }}",
            [self.selector, given],
        )

    @property
    def first(self) -> Found:
        """The first of them; every question but `count` is about it anyway."""
        return self

    def locator(self, inner: str) -> Found:
        """What another selector finds inside."""
        return Found(self.engine, f"{self.selector} {inner}")

    def count(self) -> int:
        """How many there are."""
        return int(self._ask("return all.length;"))

    def inner_text(self) -> str:
        """What it says."""
        return str(self._ask("return it.innerText;"))

    def get_attribute(self, name: str) -> str | None:
        """One of its attributes."""
        found: str | None = self._ask("return it.getAttribute(given);", name)
        return found

    def evaluate(self, function: str, given: Any = None) -> Any:
        """What a function of JavaScript says of it."""
        return self._ask(f"return ({function})(it, given);", given)

    def bounding_box(self) -> dict[str, float] | None:
        """Where it stands."""
        found: dict[str, float] | None = self._ask(
            "if (!it) return null; const {x, y, width, height} = it.getBoundingClientRect();"
            " return {x, y, width, height};"
        )
        return found

    def scroll_into_view_if_needed(self) -> None:
        """Have it on the screen."""
        self._ask("it.scrollIntoView({block: 'center'});")

    def wait_for(self, *, state: str = "attached", timeout: float = b.START) -> None:
        """Wait until it is there."""
        assert state == "attached"
        self.engine.wait(lambda: self.count() > 0, f"{self.selector} is there", timeout / 1000)

    def click(self) -> None:
        """Press in its middle once it stands still there, with nothing over it."""
        b.still(self.engine.page)
        for _ in range(20):
            found = self._ask(
                "if (!it) return null; const {x, y, width, height} = it.getBoundingClientRect();"
                " const at = [Math.round(x + width / 2), Math.round(y + height / 2)];"
                " return it.contains(document.elementFromPoint(...at)) ? at : null;"
            )
            if found is not None:
                self.engine.press_at(*found)
                return
            if self.count():
                self.scroll_into_view_if_needed()
            self.engine.wait_for_timeout(250)
        raise AssertionError(f"{self.selector} cannot be pressed")

    tap = click


class Keyboard:
    """The keys of an engine."""

    def __init__(self, engine: Engine) -> None:
        self._engine = engine

    def press(self, name: str) -> None:
        """Press and let go of one key."""
        self._engine.press_key(KEYS[name])


_SHOWS = """() => {
    const names = [...document.querySelectorAll("[flt-semantics-identifier]")].map((it) =>
        it.getAttribute("flt-semantics-identifier"));
    const told = document.body.innerText.replace(/\\s+/g, " ").slice(0, 120);
    return `${location.pathname} shows ${names.slice(0, 12).join(" ") || "nothing of the app"}; it says "${told}"`;
}"""
"""What the page shows, in words for a failure."""


class Engine(ABC):
    """A browser with one page, and where what it saves arrives."""

    def __init__(self, folder: Path) -> None:
        """Start it with everything that it keeps in a folder."""
        self.folder = folder
        self.saved = folder / "saved"
        self.saved.mkdir(parents=True, exist_ok=True)
        self.keyboard = Keyboard(self)
        self.begun = ""  # the garment that its page has begun
        self.address = ""  # where its page comes from

    def __enter__(self) -> Self:
        return self

    def __exit__(self, kind: type[BaseException] | None, fault: BaseException | None, at: TracebackType | None) -> None:
        self.close()

    @property
    def page(self) -> Page:
        """The same, as the helpers of browser.py and journey.py name it."""
        return cast(Page, self)

    def open(self, address: str, ready: str = "screen-home") -> Page:
        """Go to the app and wait until a named control is there."""
        self.goto(address)
        b.switch_on(self.page, ready)
        return self.page

    def locator(self, selector: str) -> Found:
        """What a selector finds."""
        return Found(self, selector)

    def wait(self, holds: Callable[[], bool], what: str, seconds: float) -> None:
        """Wait until something holds; a failure says what the page shows instead."""
        try:
            b.wait_until(self.page, holds, what, seconds)
        except AssertionError as fault:
            raise AssertionError(f"{fault}; {self.evaluate(_SHOWS)}") from None

    def wait_for_selector(self, selector: str, *, state: str, timeout: float) -> None:
        """Wait until a selector finds something."""
        Found(self, selector).wait_for(state=state, timeout=timeout)

    def wait_for_timeout(self, milliseconds: float) -> None:
        """Let some time pass."""
        time.sleep(milliseconds / 1000)

    @property
    def url(self) -> str:
        """Where the page is."""
        return str(self.evaluate("() => location.href"))

    def file(self, pattern: str, seconds: float = 60) -> Path:
        """The one file that fits, once it has arrived whole."""
        self.wait(lambda: any(each.stat().st_size for each in self.saved.glob(pattern)), f"saved: {pattern}", seconds)
        sizes = [0]
        while sizes[-1] == 0 or sizes[-1] != sizes[-2]:
            self.wait_for_timeout(200)
            (found,) = self.saved.glob(pattern)
            sizes.append(found.stat().st_size)
        return found

    @abstractmethod
    def goto(self, address: str) -> None:
        """Go to an address."""

    @abstractmethod
    def evaluate(self, function: str, given: Any = None) -> Any:
        """Return what a function of JavaScript gives, or what it promises; an expression is taken as well."""

    @abstractmethod
    def set_viewport_size(self, size: dict[str, int]) -> None:
        """Give the page another size."""

    @abstractmethod
    def press_at(self, x: int, y: int) -> None:
        """Press at a place of the page."""

    @abstractmethod
    def press_key(self, key: str) -> None:
        """Press and let go of a key, by its character."""

    @abstractmethod
    def screenshot(self) -> bytes:
        """A picture of the page, PNG."""

    @abstractmethod
    def close(self) -> None:
        """End the browser and all that was started with it."""


_CALL = """const [source, given, done] = arguments;
    Promise.resolve().then(() => { const it = (0, eval)(source); return typeof it === "function" ? it(given) : it; })
        .then((found) => done([true, found]), (fault) => done([false, String(fault)]));"""


class WebKit(Engine):
    """MiniBrowser, the small browser that comes with WebKit for GTK. What it keeps ends with it."""

    BROWSER = next(Path("/usr/lib").glob("*/webkit2gtk-4.1/MiniBrowser"), None)
    BARE = "* { min-width: 0; min-height: 0; margin: 0; border: 0; padding: 0; font-size: 1px; }"
    """Makes its bar so small that the window can be as narrow as a phone."""
    SPOKEN = "C.UTF-8"
    """The language it runs under: its tag is none, which once stopped the drawing client for good."""

    def __init__(self, folder: Path) -> None:
        super().__init__(folder)
        driver = shutil.which("WebKitWebDriver")
        assert driver, "WebKitWebDriver is missing: apt-get install webkit2gtk-driver"
        assert self.BROWSER, "MiniBrowser is missing: apt-get install webkit2gtk-driver"
        settings = folder / "settings"
        (settings / "gtk-3.0").mkdir(parents=True)
        (settings / "gtk-3.0" / "gtk.css").write_text(self.BARE)
        (settings / "user-dirs.dirs").write_text(f'XDG_DOWNLOAD_DIR="{self.saved}"\n')
        hears, tells = os.pipe()
        self._screen = subprocess.Popen(
            ["Xvfb", "-displayfd", str(tells), "-screen", "0", "1400x1000x24", "-nolisten", "tcp"],
            pass_fds=[tells],
            stderr=subprocess.DEVNULL,
        )
        os.close(tells)
        with os.fdopen(hears) as heard:
            display = heard.readline().strip()
        nowhere = "http://{}:{}".format(*NOWHERE)
        around = {
            "DISPLAY": f":{display}",
            "HOME": str(folder),
            "XDG_CONFIG_HOME": str(settings),
            "LC_ALL": self.SPOKEN,
            "http_proxy": nowhere,
            "https_proxy": nowhere,
            "no_proxy": "127.0.0.1",
        }
        options = Options()
        options.binary_location = str(self.BROWSER)
        options.add_argument("--automation")
        self._service = Service(executable_path=driver, env={**os.environ, **around})
        try:
            self._service.start()
            reach = RemoteConnection(client_config=ClientConfig(self._service.service_url, timeout=b.START // 500))
            self._driver = WebDriver(reach, options=options)
        except BaseException:
            self._end()
            raise
        self._driver.set_script_timeout(b.START / 1000)

    def goto(self, address: str) -> None:
        self._driver.get(address)

    def evaluate(self, function: str, given: Any = None) -> Any:
        answered, found = self._driver.execute_async_script(_CALL, f"({function})", given)  # type: ignore[no-untyped-call]
        assert answered, found
        return found

    def set_viewport_size(self, size: dict[str, int]) -> None:
        asked = dict(size)
        for _ in range(10):  # the window has a bar and takes its size a moment later
            self._driver.set_window_rect(width=asked["width"], height=asked["height"])
            self.wait_for_timeout(200)
            inside = self.evaluate("() => ({width: innerWidth, height: innerHeight})")
            if inside == size:
                return
            outside = self._driver.get_window_rect()
            asked = {side: size[side] + outside[side] - inside[side] for side in size}
        raise AssertionError(f"the window would not become {size}")

    def press_at(self, x: int, y: int) -> None:
        actions = ActionBuilder(self._driver, mouse=PointerInput("mouse", "mouse"), duration=0)
        actions.pointer_action.move_to_location(x, y).pointer_down().pause(0.05).pointer_up()  # type: ignore[no-untyped-call]
        actions.perform()

    def press_key(self, key: str) -> None:
        actions = ActionBuilder(self._driver)
        actions.key_action.key_down(key).key_up(key)  # type: ignore[no-untyped-call]
        actions.perform()

    def screenshot(self) -> bytes:
        return self._driver.get_screenshot_as_png()

    def close(self) -> None:
        try:
            self._driver.quit()
        finally:
            self._end()

    def _end(self) -> None:
        self._service.stop()
        self._screen.terminate()
        self._screen.wait(10)


class Firefox(Engine):
    """Firefox without a window. Its profile stays in the folder for the next one."""

    PREFERENCES: ClassVar[dict[str, object]] = {
        "app.normandy.enabled": False,
        "browser.download.folderList": 2,
        "browser.download.alwaysOpenPanel": False,
        "browser.helperApps.neverAsk.saveToDisk": "application/pdf,application/json,image/svg+xml",
        "browser.shell.checkDefaultBrowser": False,
        "datareporting.policy.dataSubmissionEnabled": False,
        "dom.w3c_touch_events.enabled": 1,
        "network.proxy.type": 1,
        "network.proxy.http": NOWHERE[0],
        "network.proxy.http_port": NOWHERE[1],
        "network.proxy.ssl": NOWHERE[0],
        "network.proxy.ssl_port": NOWHERE[1],
        "pdfjs.disabled": True,
    }

    def __init__(self, folder: Path, scale: float = 1) -> None:
        super().__init__(folder)
        self._scale = scale
        program = shutil.which("firefox-esr") or shutil.which("firefox")
        assert program, "Firefox is missing: apt-get install firefox-esr"
        profile = folder / "profile"
        profile.mkdir(exist_ok=True)
        kept = {**self.PREFERENCES, "browser.download.dir": str(self.saved)}
        lines = (f"user_pref({json.dumps(name)}, {json.dumps(value)});\n" for name, value in kept.items())
        (profile / "user.js").write_text("".join(lines))
        said = folder / "firefox.log"
        with said.open("w") as log:
            self._process = subprocess.Popen(
                [program, "--headless", "--no-remote", "--profile", str(profile), "--remote-debugging-port", "0"],
                stdout=log,
                stderr=log,
                env={**os.environ, "HOME": str(folder)},
            )
        self._numbers = itertools.count(1)
        end = time.monotonic() + 60
        while not (found := re.search(r"BiDi listening on (ws://\S+)", said.read_text())):
            assert time.monotonic() < end, said.read_text()
            assert self._process.poll() is None, said.read_text()
            time.sleep(0.05)
        self._socket: WebSocket = create_connection(f"{found[1]}/session", timeout=b.START / 1000, suppress_origin=True)
        self._send("session.new", capabilities={})
        self._context = self._send("browsingContext.getTree")["contexts"][0]["context"]

    def _send(self, method: str, **parameters: Any) -> Any:
        number = next(self._numbers)
        self._socket.send(json.dumps({"id": number, "method": method, "params": parameters}))
        while (answer := json.loads(self._socket.recv())).get("id") != number:
            pass  # an event
        assert answer["type"] == "success", answer
        return answer["result"]

    def _here(self, method: str, **parameters: Any) -> Any:
        return self._send(method, context=self._context, **parameters)

    def goto(self, address: str) -> None:
        self._here("browsingContext.navigate", url=address, wait="complete")

    def evaluate(self, function: str, given: Any = None) -> Any:
        call = (
            f"(async () => {{ const it = ({function});"
            f" return JSON.stringify(await (typeof it === 'function' ? it({json.dumps(given)}) : it)); }})()"
        )
        answer = self._send("script.evaluate", expression=call, target={"context": self._context}, awaitPromise=True)
        assert answer["type"] == "success", answer["exceptionDetails"]["text"]
        found = answer["result"].get("value")
        return None if found is None else json.loads(found)

    def set_viewport_size(self, size: dict[str, int]) -> None:
        self._here("browsingContext.setViewport", viewport=size, devicePixelRatio=self._scale)

    def _perform(self, kind: str, actions: list[dict[str, Any]], **more: Any) -> None:
        self._here("input.performActions", actions=[{"type": kind, "id": kind, "actions": actions, **more}])

    def press_at(self, x: int, y: int) -> None:
        self._perform(
            "pointer",
            [
                {"type": "pointerMove", "x": x, "y": y},
                {"type": "pointerDown", "button": 0},
                {"type": "pause", "duration": 50},
                {"type": "pointerUp", "button": 0},
            ],
            parameters={"pointerType": "touch"},
        )

    def press_key(self, key: str) -> None:
        self._perform("key", [{"type": "keyDown", "value": key}, {"type": "keyUp", "value": key}])

    def screenshot(self) -> bytes:
        return base64.b64decode(self._here("browsingContext.captureScreenshot")["data"])

    def close(self) -> None:
        try:
            self._send("browser.close")
            self._process.wait(20)
        finally:
            if self._process.poll() is None:
                self._process.kill()
                self._process.wait(10)
            self._socket.close()


ENGINES: tuple[type[Engine], ...] = (WebKit, Firefox)
