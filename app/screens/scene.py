"""What every screen is given, and the frame that all steps of a garment share."""

from collections.abc import Callable, Collection, Sequence
from dataclasses import dataclass
from typing import Final

import flet as ft

from app import actions as act
from app import parts
from app.screens.clash import clash_cards
from app.state import STEPS, Place, Screen, State
from app.text import words
from app.typed import cloth_is_known
from app.theme import COLUMN, EDGE, GAP, GRID, LARGE, LOW, LYING, TOUCH, WIDE, Look, look_for

Send = Callable[[act.Action], None]
ROOMY: Final = 760
"""The height of a page, px, from which on a drawing keeps its place above a field and the keypad: our choice, because
the keypad takes 310 and a field with what is said at it 200."""


def keyed(key: str, control: ft.Control) -> ft.Control:
    """The control with a key of its own, so that it stays itself when its neighbours come and go."""
    return ft.Container(control, key=key)


class Kept:
    """The regions of one screen as it was last drawn. A region that is used again is not even compared.

    `first` is the button that has the keyboard's focus, where the screen gives it to one; where it does not, and one
    came `by_keys`, it is the `heading`.

    Only those of the last drawing are kept: what left the screen is built anew when it comes back.
    """

    def __init__(self) -> None:
        self.first: ft.Ref[ft.FilledButton] = ft.Ref()
        self.heading: ft.Ref[ft.KeyboardListener] = ft.Ref()
        self.by_keys = False
        self._screen = ""
        self._only: Collection[str] | None = None
        self._last: dict[str, tuple[tuple[object, ...], ft.Control]] = {}
        self._now: dict[str, tuple[tuple[object, ...], ft.Control]] = {}

    def begin(self, screen: str, only: Collection[str] | None = None, *, by_keys: bool = False) -> None:
        """Begin a drawing; another screen keeps nothing of the one before.

        With `only` just those regions are built again, and the others wait for the next drawing, which must follow.
        """
        if screen != self._screen:
            self._now, self.first, self.heading, self.by_keys = {}, ft.Ref(), ft.Ref(), by_keys
        self._last = self._now
        self._screen, self._now, self._only = screen, {}, only

    def region(self, key: str, depends: tuple[object, ...], build: Callable[[], ft.Control]) -> ft.Control:
        """The region of this key as it was, or as `build` makes it; ValueError for a key used twice on one screen."""
        if key in self._now:
            raise ValueError(f"two regions {key}")
        last = self._last.get(key)
        waits = self._only is not None and key not in self._only
        if last is None or (last[0] != depends and not waits):
            last = depends, keyed(key, build())
        self._now[key] = last
        return last[1]


@dataclass(frozen=True, slots=True)
class Scene:
    """The state, where actions go, the width and height of the page in pixels, whether it is dark, and what was drawn.

    `open_network` says that what is typed passes through another computer unencrypted. `text` is how many times larger
    than usual the device shows its letters, `stark` that it forces colours, `calm` that it asks for less motion.
    `hand` holds the field that is typed into, `pick` has the client open its list of files; None where no screen is
    shown to anybody. `arriving` says that one comes to the screen just now, and that it is drawn once more at once.
    """

    state: State
    send: Send
    width: float
    height: float
    dark: bool
    kept: Kept
    open_network: bool = False
    text: float = 1.0
    stark: bool = False
    calm: bool = False
    hand: parts.Hand | None = None
    pick: ft.ClientAction | None = None
    arriving: bool = False

    @property
    def paper(self) -> Look:
        """The surface of forms and lists."""
        return look_for("paper", self.dark, self.stark)

    @property
    def cloth(self) -> Look:
        """The surface of what is chalked."""
        return look_for("cloth", self.dark, self.stark)

    @property
    def lying(self) -> bool:
        """Whether the page is low and broad, as a phone's that lies on its side."""
        return self.height < LOW and self.width >= LYING

    @property
    def typing(self) -> str:
        """The name of the field that the keypad types into; empty while there is no keypad on the page."""
        return self.hand.now.identifier if self.hand is not None and self.hand.now is not None else ""

    @property
    def wide(self) -> bool:
        """Whether there is room for a drawing beside the column of words."""
        return self.width >= WIDE or self.lying

    @property
    def column(self) -> float:
        """The width of the column of words where a drawing stands beside it, px."""
        return min(COLUMN, round(self.width * 0.58))

    @property
    def room(self) -> float:
        """Pixels between the edges of the column of words."""
        return min(self.width, self.column if self.wide else COLUMN) - 2 * EDGE

    @property
    def beside(self) -> tuple[float, float]:
        """Width and height of the room beside the column, where there is one."""
        return self.width - self.column - 2 * EDGE, max(self.height - 2 * EDGE, COLUMN / 4)

    def region(self, key: str, depends: tuple[object, ...], build: Callable[[], ft.Control]) -> ft.Control:
        """A part of the screen that is built again only when what it depends on is no longer equal.

        Typing stays quick because all regions but the one typed into are left as they are. `build` may use the state
        of the moment only where `depends` names it, and `send` and ids in its callbacks.
        """
        return self.kept.region(key, depends, build)

    def below(self, build: Callable[[], Sequence[ft.Control]]) -> Sequence[ft.Control]:
        """What lies below the first screenful of a phone, which is drawn a moment after it where one comes to a screen.

        The client takes its time by the number of controls, and what is out of sight need not be waited for. Beside a
        drawing on a broad page nothing is out of sight.
        """
        return () if self.arriving and not (self.wide and not self.lying) else build()

    def doing(self, action: act.Action) -> Callable[[], None]:
        """What a button does that sends one action."""
        return lambda: self.send(action)

    def go(self, screen: Screen, step: int = 0) -> Callable[[], None]:
        """What a button does that goes to a step of the garment in work."""
        place = Place(
            screen, self.state.place.garment, "" if self.state.place.garment else self.state.place.person, step
        )
        return lambda: self.send(act.Go(place))

    def go_home(self) -> None:
        """Go home."""
        self.send(act.Go(Place()))


def progress(scene: Scene, look: Look, room: float) -> ft.Control:
    """The thin line that says where one is, in so many px. What has no person yet cannot be gone to."""
    garment = scene.state.garment
    sure = garment is not None and scene.state.person is not None
    here = scene.state.place
    stops = [
        _stop(step, at, open_to=step == "person" or (sure and _reached(scene, step)), now=step == here.screen)
        for at, step in enumerate(STEPS, start=1)
    ]
    return scene.region(
        "progress",
        (look, tuple(stops), here.screen, here.garment, room, scene.text),
        lambda: parts.progress_line(
            look, stops, here.screen, lambda key: scene.send(act.Go(Place(_screen(key), here.garment))),
            label=words("step.way", all=len(STEPS)),
            room=room, text=scene.text,
        ),
    )  # fmt: skip


def _stop(step: str, at: int, *, open_to: bool, now: bool) -> parts.Stop:
    """A step of the way, with what is read out for it."""
    name = words(f"step.{step}")
    heard = words(
        "step.here" if now else "step.there" if open_to else "step.later", step=name, at=at, all=len(STEPS)
    )
    return parts.Stop(step, name, open_to, heard)


_SAID_KEYS = (
    "keypad", "point", "comma", "slash", "space", "minus", "back", "next", "more", "digits", "more.sign",
    "digits.sign", "mm", "cm", "m", "in", "ft", "yd",
)  # fmt: skip


def keypad(scene: Scene) -> ft.Control | None:
    """The keypad, while a field of numbers is typed into on a device that needs one."""
    hand = scene.hand
    if hand is None or hand.now is None:
        return None
    kind, signed = hand.now.kind, hand.now.signed
    return scene.region(
        "keypad",
        (scene.paper, kind, signed, hand.more, scene.width, scene.height, scene.lying),
        lambda: parts.keypad(
            scene.paper, kind=kind, signed=signed, more=hand.more, width=scene.width, height=scene.height,
            says={key: words(f"key.{key}") for key in _SAID_KEYS}, on_press=hand.press, on_touch=hand.keep,
            flat=scene.lying,
        ),
    )  # fmt: skip


def _screen(key: str) -> Screen:
    return next(step for step in STEPS if step == key)


def _reached(scene: Scene, step: str) -> bool:
    garment = scene.state.garment
    if garment is None:
        return False
    return step in ("shape", "cloth") or garment.chalking or cloth_is_known(garment)


def frame(
    scene: Scene,
    look: Look,
    *,
    title: str,
    children: Sequence[ft.Control],
    on_back: Callable[[], None] | None = None,
    foot: Sequence[ft.Control] = (),
    drawn: ft.Control | None = None,
    actions: Sequence[ft.Control] = (),
    with_progress: bool = True,
    scroll_key: str = "",
) -> ft.Control:
    """The frame of a screen: where one is, the way back, the notice, and at the foot what moves the work on.

    `drawn` stands above what scrolls, or beside it where there is room. A new `scroll_key` starts at the top again. The
    keypad takes the place of the foot and of the line that says where one is; on a page that is not `ROOMY` also that
    of what is drawn above.
    """
    place, keys = scene.state.place, keypad(scene)
    column = scene.column if scene.wide and drawn is not None else min(scene.width, COLUMN)
    size = None
    if on_back is not None and not actions:
        room = column - 2 * EDGE - TOUCH
        size = parts.fitted(title, room, parts.TOP - GRID, LARGE * scene.text, True) / scene.text

    def top() -> ft.Control:
        first = scene.kept.heading if scene.kept.by_keys else None
        return parts.page_top(look, title, on_back, words("back"), actions, first, size)

    return parts.page_frame(
        look,
        identifier=f"screen-{place.screen}",
        top=top() if actions else scene.region("top", (look, title, on_back is None, size), top),
        children=[*clash_cards(scene.state, scene.send, look), *children],
        progress=progress(scene, look, column - 2 * GAP) if with_progress and place.garment and keys is None else None,
        foot=foot if keys is None else (),
        keypad=keys,
        aside=drawn if scene.wide else None,
        pinned=None if scene.wide or (keys is not None and scene.height < ROOMY) else drawn,
        notice=notice(scene, look),
        width=scene.width,
        column=scene.column,
        scroll_key=f"{place.route} {scroll_key}",
    )


def notice(scene: Scene, look: Look) -> ft.Control | None:
    """What has just happened, with its undo."""
    shown = scene.state.notice
    if shown is None:
        return None
    return parts.notice(
        look,
        shown.words,
        identifier="notice",
        action=words("undo") if shown.undo else "",
        on_action=(lambda: scene.send(act.UndoLast())) if shown.undo else None,
        on_close=lambda: scene.send(act.CloseNotice()),
        close_words=words("close"),
        tone=shown.tone,
    )
