"""Starts a session: holds the one state, lets actions change it, has effects done and the screen drawn."""

import argparse
import asyncio
import gc
import math
import sys
import time
from collections.abc import Awaitable, Callable, Mapping
from pathlib import Path

import flet as ft

from app import actions as act
from app import screens
from app.asks import Load
from app.effects import Effects, report_of
from app.glimpse import glimpse_of
from app.page_files import watch_files
from app.page_glimpse import arrived_in_page, glimpse_in_page
from app.page_picture import camera_in_page, read_in_page
from app.page_table import Heard, awake_in_page, installs_in_page, speak_in_page
from app.parts import HAND, Hand, after, stops_in
from app.print_page import print_in_page
from app.screens.scene import Kept, Scene
from app.state import Installs, State
from app.storage import Store
from app.storage_page import PageStore
from app.storage_server import ServerStore
from app.text import words
from app.theme import WIDE, look_for, page_theme
from app.update import start as first
from app.update import update
from app.watch import Watch

IN_BROWSER = sys.platform == "emscripten"
RENDER_WITHIN = 3.0
"""Seconds in which the loop was free and after which a drawing of the screen that has not ended counts as failed: our
choice, because even a phone draws within one."""


FIRST = ("outline",)
"""When a draft comes, these regions are drawn first, so that they follow the finger. The others are drawn a moment
later."""
SENT_WITHIN = 0.002
"""Seconds that are waited after the first regions were drawn, so that they leave for the client before the others are
built."""
PROBE = 100
"""The size of a letter below the screen, px. Its height on the screen is measured, because the client tells neither
Python nor the page how large the device shows letters."""
ONCE = (
    act.AddGarment,
    act.CopyGarment,
    act.AddPerson,
    act.CopyPerson,
    act.TryDemo,
    act.MarkDone,
    act.StepSewn,
    act.TakeOver,
)
"""What a second tap of a trembling finger must not do again."""
LEFT = frozenset({ft.AppLifecycleState.HIDE, ft.AppLifecycleState.PAUSE, ft.AppLifecycleState.INACTIVE})
"""What a page that may soon be gone tells: it is hidden, or another one is before it."""
AGAIN_AFTER = 0.1
"""Seconds after a screen was drawn before what is ONCE may be done again: our choice, because nobody has seen the new
screen sooner, and a finger that lands then was meant for the old one."""
BY_KEY = 0.5
"""Seconds after a key within which what has the focus has it by that key: our choice, both are told in one turn."""
ARRIVES = 3.0
"""Seconds after Enter or Space in which another screen was asked for by it: our choice, some screens take a moment."""


class Desk:
    """One session's state and what surrounds it. `send` is the only way the state changes."""

    def __init__(self, page: ft.Page, store: Store, *, open_network: bool = False) -> None:
        """Join a page and a store; nothing is asked of them yet."""
        self.page, self.open_network = page, open_network
        self.state = State()
        self.redraw: Callable[[], None] = lambda: None
        self.kept = Kept()
        self.hand = Hand(self.draw)
        self._watch = Watch(RENDER_WITHIN, self._not_drawn)
        self.hurried = self.arriving = self._refocus = False
        self._keyed = self._pressed = -ARRIVES
        self.arrived = False
        self._at, self._stops, self._slept = "", tuple[str, ...](), False
        page.data = self._came_to
        self.text = 1.0
        self.stark = self.calm = False
        self._once: dict[type[act.Action], float] = {}
        self._picker = ft.FilePicker(on_result=self._picked)
        self.pick = ft.PickFiles(self._picker, with_data=True, cancel_upload_on_window_blur=False)
        self._share = ft.Share()
        page.services.append(self._picker)
        page.services.append(self._share)
        self._awake = ft.Wakelock()
        page.services.append(self._awake)
        self._needs = ft.SemanticsService()
        page.services.append(self._needs)
        self._waits: act.FilePicked | None = None
        self.effects = Effects(store, self, lambda: self.state, self.send)
        self._glimpsed: str | None = None
        self._seen = False
        if IN_BROWSER:
            self.effects.on_kept = self._glimpse

    def begin(self) -> None:
        """Ask for what is saved."""
        self.state, asked = first(self.page.route or "/")
        for each in asked:
            self.effects.do(each)
        if IN_BROWSER:
            watch_files(self.given)

    def given(self, content: bytes | None, size: int) -> None:
        """A file came by itself; it is opened once what is kept here has been read."""
        self._waits = act.FilePicked(content, size)
        self._take_waiting()

    def _take_waiting(self) -> None:
        if self._waits is not None and self.state.loaded:
            action, self._waits = self._waits, None
            self.send(action)

    def again(self) -> None:
        """The browser came back to this session, as after a reload in server mode: read what another tab changed."""
        route = self.page.route or "/"
        if self.state.locked:
            self.effects.do(Load(route))
        else:
            self.send(act.Routed(route))
        self.page.run_task(self.ask_needs)
        self.draw()  # what changed while nobody looked

    def send(self, action: act.Action) -> None:
        """Let an action change the state; a failure leaves the state as it was and shows the trouble page."""
        if isinstance(action, ONCE):
            if time.monotonic() < self._once.get(type(action), 0.0) + AGAIN_AFTER:
                return
            self._once[type(action)] = math.inf  # until the screen that follows is drawn
        try:
            state, asked = update(self.state, action)
            changed = state is not self.state
            if state.place != self.state.place:
                self.hand.forget()
                self.arrived, self._at = time.monotonic() < self._pressed + ARRIVES, ""
                self._refocus, self.arriving = self.arrived, True
                self.page.run_task(self.ask_needs)
            self.state = state
            for each in asked:
                self.effects.do(each)
        except Exception as failure:
            self._trouble(report_of(failure, type(action).__name__))
            return
        if isinstance(action, act.Loaded):
            asyncio.get_running_loop().call_soon(self._take_waiting)
        if isinstance(action, ONCE) and not changed and not asked:
            self._once.pop(type(action), None)
        self._refocus = self._refocus or isinstance(action, act.MarkDone)
        if changed:
            self.hurried = isinstance(action, act.DraftCame) and not action.drafted.laid
            self.draw()

    def draw(self) -> None:
        """Have the screen drawn, and see to it that it is."""
        self.redraw()
        self._watch.begin()

    def drawn(self) -> None:
        """The screen has been drawn, or at first only what is in sight or what FIRST names; then the rest follows."""
        self._watch.end()
        if IN_BROWSER and not self._seen and (self.state.loaded or self.state.trouble is not None):
            self._seen = True
            self.page.run_task(arrived_in_page)
        if self.hurried or self.arriving:
            self.hurried = self.arriving = False
            asyncio.get_running_loop().call_later(SENT_WITHIN, self.draw)
        if self._refocus:  # what is new beside the button takes the focus from it where a reader listens
            self._refocus = False
            asyncio.get_running_loop().call_later(AGAIN_AFTER, self.page.run_task, self._focus)
        self._once |= {kind: time.monotonic() for kind, at in self._once.items() if at == math.inf}
        asyncio.get_running_loop().call_soon(self._stay)

    def _glimpse(self, revisions: Mapping[str, int]) -> None:
        """Have the page keep what the next start shows first."""
        surfaces = (look_for(name, dark(self.page, self.state), self.stark) for name in ("cloth", "paper"))
        text = glimpse_of(self.state, revisions, *surfaces)
        if text != self._glimpsed:
            self._glimpsed = text
            self.page.run_task(glimpse_in_page, text)

    async def _focus(self) -> None:
        if (stop := self.kept.first.current or self.kept.heading.current) is not None:
            await stop.focus()  # type: ignore[no-untyped-call]

    def _came_to(self, name: str) -> None:
        """The focus is at the control of this name. Only what a key brought there is followed.

        Where a button sleeps while it works, the client goes elsewhere by itself: that is not followed either.
        """
        now = time.monotonic()
        if now < self._keyed + BY_KEY:
            self._at, self._slept = name, False
            self._stops = tuple(each for each, _ in stops_in(self.hand.content))
        elif not self.state.busy and now >= self._pressed + BY_KEY:
            self._at = ""

    def _stay(self) -> None:
        """Where what the keyboard was at has gone, go to what stands in its place."""
        if not self._at:
            return
        now = list(stops_in(self.hand.content))
        stop = next((each for name, each in now if name == self._at), None)
        if stop is None and self.state.busy and self._at in dict(stops_in(self.hand.content, asleep=True)):
            self._slept = True  # as a button while what it does is being done
            return
        if self._slept or stop is None:
            stop = stop or after(self._at, self._stops, now)
            self._at = next((name for name, each in now if each is stop), "")
            if stop is not None and not isinstance(stop, ft.Radio):
                self.page.run_task(stop.focus)  # type: ignore[attr-defined] # all that is no radio button can be gone to
        self._slept, self._stops = False, tuple(name for name, _ in now)

    def _not_drawn(self) -> None:
        if self.state.trouble is not None:
            return
        looking: object = self.page.session.connection
        if looking is None:  # nobody looks just now, as while a phone sleeps
            return
        self.page.session.start_updates_scheduler()  # type: ignore[no-untyped-call] # ended by the failure
        self._trouble(f"Foldmark\nthe screen {self.state.place.screen} was not drawn")

    def _trouble(self, report: str) -> None:
        self._once.clear()
        print(report, file=sys.stderr, flush=True)
        self.state = update(self.state, act.Troubled(report))[0]
        self.draw()

    def letters(self, high: float) -> None:
        """A letter of PROBE px was measured to be so high, px: where that has changed, the screen is drawn for it."""
        text = round(high / PROBE, 2)
        if abs(text - self.text) > 0.01 and text > 0:
            self.text = text
            self.draw()

    def brightness(self) -> None:
        """The device has turned dark or light."""
        self.page.run_task(self.ask_needs)
        self.draw()

    def lives(self, now: ft.AppLifecycleState) -> None:
        """One came back to the page or left it. What waits to be saved is saved before a hidden page may be gone."""
        self.page.run_task(self.ask_needs)
        if now in LEFT:
            self.page.run_task(self.effects.finish)

    async def ask_needs(self) -> None:
        """Ask the device whether it forces colours or wants less motion; where that has changed, draw for it.

        The client knows both and tells neither when it changes, so it is asked when a screen changes, when the
        device turns dark or light, and when one comes back to the page.
        """
        try:
            needs = await self._needs.get_accessibility_features()
        except (RuntimeError, TimeoutError):  # nobody looks just now, as while a phone sleeps
            return
        stark, calm = needs.high_contrast, needs.disable_animations or needs.reduce_motion
        if (stark, calm) != (self.stark, self.calm):
            self.stark, self.calm = stark, calm
            self.page.theme, self.page.dark_theme = page_theme(False, stark), page_theme(True, stark)
            self.draw()

    def key(self, event: ft.KeyboardEvent) -> None:
        """A key on the chalk screen; Space and Enter are the focused button's own, which is Done from the start."""
        ft.context.disable_auto_update()  # type: ignore[no-untyped-call]
        now = time.monotonic()
        if event.key in ("Enter", " "):
            self._pressed = now
        else:
            self._keyed = now
        if event.key == "Tab":
            self.hand.by_keys()
        action = (
            None if event.ctrl or event.alt or event.meta or event.shift else screens.chalk_key(self.state, event.key)
        )
        if action is not None:
            self._refocus = True
            self.send(action)

    # ---- What the effects need of the device ------------------------------------------------------------------------

    async def go(self, route: str) -> None:
        """Show this address."""
        await self.page.push_route(route)

    async def offer(self, name: str, content: bytes) -> None:
        """Hand a file to the person."""
        await self._picker.save_file(file_name=name, src_bytes=content)

    def _picked(self, event: ft.FilePickerResultEvent) -> None:
        """A file was chosen, or none: the client opens its list within the tap, as browsers want it."""
        ft.context.disable_auto_update()  # type: ignore[no-untyped-call]
        for file in event.files[:1]:
            content = None if file.bytes is None and file.size else bytes(file.bytes or b"")
            self.send(act.FilePicked(content, file.size))

    async def print_file(self, name: str, content: bytes) -> bool:
        """Show a file in the browser's print view; only a page that has our own scripts can."""
        return IN_BROWSER and await print_in_page(content)

    async def read_picture(self, content: bytes) -> str | None:
        """Read the code in a picture; only a page that has our own scripts can."""
        return await read_in_page(content) if IN_BROWSER else None

    async def read_camera(self) -> str | None:
        """Read a code with the camera; only a page that has our own scripts can."""
        return await camera_in_page(words("camera.open"), words("camera.close")) if IN_BROWSER else None

    async def installs(self, *, now: bool) -> Installs:
        """Whether the page can be installed, and with `now` have it installed; only a site of our own can."""
        return await installs_in_page(now) if IN_BROWSER else "no"

    async def speak(self, text: str) -> Heard:
        """Read a text aloud; only a page that has our own scripts can."""
        return await speak_in_page(text) if IN_BROWSER else "not_here"

    async def stay_awake(self, on: bool) -> bool:
        """Keep the screen awake, or let it sleep again."""
        if IN_BROWSER:
            return await awake_in_page(on)
        try:
            change: Callable[[], Awaitable[None]] = self._awake.enable if on else self._awake.disable
            await change()
        except asyncio.CancelledError:
            raise
        except Exception:  # the browser's own refusal, as where the address is not a safe one
            return False
        return True

    async def share(self, name: str, content: bytes) -> bool | None:
        """Open the device's own list of what takes a file."""
        file = ft.ShareFile.from_bytes(content, mime_type="application/pdf", name=name)
        try:
            told = await self._share.share_files(
                [file], download_fallback_enabled=False, mail_to_fallback_enabled=False
            )
        except asyncio.CancelledError:
            raise
        except Exception:  # the client's own refusal: this browser has no such list
            return False
        if told.status == ft.ShareResultStatus.DISMISSED:
            return None
        return told.status == ft.ShareResultStatus.SUCCESS


def dark(page: ft.Page, state: State) -> bool:
    """Whether the screen is dark just now."""
    light = state.book.settings.light
    return page.platform_brightness == ft.Brightness.DARK if light == "system" else light == "dark"


def typed_by_touch(page: ft.Page) -> bool:
    """Whether numbers are typed on a keypad of ours: on phones and tablets, and on a page as small as theirs."""
    return page.platform in (ft.PagePlatform.ANDROID, ft.PagePlatform.IOS) or (page.width or 390) < WIDE


@ft.component
def App(desk: Desk) -> ft.View:  # noqa: N802 - components are written like classes
    """The one view: the screen of the place where the person is."""
    version, again = ft.use_state(0)
    desk.redraw = lambda: again(lambda last: last + 1)
    ft.use_effect(desk.drawn, [version])
    page, state = desk.page, desk.state
    is_dark = dark(page, state)
    kept_free = page.media.padding  # what a notch or the edge of a rounded screen takes
    width = (page.width or 390) - kept_free.left - kept_free.right
    height = (page.height or 844) - kept_free.top - kept_free.bottom
    scene = Scene(
        state, desk.send, width, height, is_dark, desk.kept, desk.open_network,
        text=desk.text, stark=desk.stark, calm=desk.calm, hand=desk.hand, pick=desk.pick,
        arriving=desk.arriving,
    )  # fmt: skip
    desk.hand.wanted = typed_by_touch(page)
    desk.kept.begin(
        state.place.route if state.trouble is None else "", FIRST if desk.hurried else None, by_keys=desk.arrived
    )
    surface = "cloth" if state.place.screen == "chalk" and state.trouble is None else "paper"
    try:
        report = state.trouble.report if state.trouble else ""
        shown = screens.ALL[state.place.screen]
        content = screens.trouble(scene, report) if report else HAND(desk.hand, lambda: shown(scene))
        desk.hand.content = content
    except Exception as failure:
        desk.kept.begin("")
        content = screens.trouble(scene, report_of(failure, f"screen {state.place.screen}"))
    content.key = f"{surface}{state.place.route}"  # a new screen is built anew: nothing of the last one lingers in it
    look = look_for("cloth" if surface == "cloth" else "paper", is_dark, desk.stark)
    probe = ft.use_memo(lambda: _probe(desk), [])
    screen = ft.Stack([probe, content], fit=ft.StackFit.EXPAND, expand=True)
    return ft.View(route="/", padding=0, bgcolor=look.ground, controls=[screen])


def _probe(desk: Desk) -> ft.Control:
    """One letter that nobody sees, below the screen, to learn how large the device shows letters."""
    letter = ft.Text("0", style=ft.TextStyle(size=PROBE, height=1), no_wrap=True, opacity=0)
    told = ft.Container(letter, on_size_change=lambda event: desk.letters(event.height))
    return ft.Container(told, left=0, top=0, key="probe")


async def main(page: ft.Page) -> None:
    """Start one session on the static site or in server mode."""
    await _session(page, open_network=False)


async def main_on_network(page: ft.Page) -> None:
    """Start one session that is served to the local network."""
    await _session(page, open_network=True)


async def _session(page: ft.Page, *, open_network: bool) -> None:
    page.title = "Foldmark"
    page.theme, page.dark_theme = page_theme(False), page_theme(True)
    store: Store
    if IN_BROWSER:
        store = PageStore()
    else:
        preferences = ft.SharedPreferences()
        page.services.append(preferences)
        store = ServerStore(preferences)
    desk = Desk(page, store, open_network=open_network)
    page.on_route_change = lambda event: desk.send(act.Routed(event.route))
    page.on_connect = lambda _: desk.again()
    page.on_keyboard_event = desk.key
    page.on_resize = lambda _: desk.draw()
    page.on_platform_brightness_change = lambda _: desk.brightness()
    page.on_app_lifecycle_state_change = lambda event: desk.lives(event.state)

    async def close() -> None:
        await desk.effects.finish()
        if isinstance(store, ServerStore):
            store.close()

    page.on_close = close
    page.render_views(App, desk)
    desk.begin()
    page.run_task(desk.ask_needs)


def freeze_loaded() -> None:
    """Keep the objects that are loaded by now out of later garbage collections, which then take a third of the time."""
    gc.collect()
    gc.freeze()


def start() -> None:
    """Start the app on the static site; the site's worker calls this once Flet's client is there.

    The worker has frozen what is loaded, before it kept Python's memory.
    """
    ft.run(main)


if __name__ == "__main__":
    from app.server import serve

    parser = argparse.ArgumentParser(description="Serve Foldmark from this computer.")
    parser.add_argument("--host", default="127.0.0.1")
    parser.add_argument("--port", type=int, default=8000)
    parser.add_argument("--log", type=Path)
    given = parser.parse_args()
    freeze_loaded()
    serve(main if given.host == "127.0.0.1" else main_on_network, given.host, given.port, given.log)
