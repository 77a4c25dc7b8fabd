"""Which field is being typed into: it joins the field that has the focus to the keypad at the foot of the page."""

import asyncio
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Final

import flet as ft
from flet.components.component import Component

from app.parts.keypad_keys import Kind, press

LEAVE_AFTER: Final = 0.25
"""Seconds after a touch beside a field in which a key of the keypad may still show that the field was not left: our
choice, because both come from one touch."""
BACK_WITHIN: Final = 0.6
"""Seconds after the keypad went in which the focus may come back to its field by itself, as where a reader of the
screen is on: our choice. A touch on the field brings the keypad back at any time."""
LOOK_AFTER: Final = 0.15
LOOKS: Final = 20
"""Seconds between two looks for a field on a screen that is still on its way, and how many: our choice, three seconds
are longer than a screen takes."""
SHOW_AFTER: Final = 0.12
"""Seconds in which the page makes room for the keypad, before the field is moved into sight."""
GROWN_WITHIN: Final = 0.5
"""Seconds between the leaving of a field, under which something is then said, and the keyboard's coming to the next:
our choice, because both come from one key."""


@dataclass(frozen=True, slots=True)
class Held:
    """A field in the hand: its name, what it takes, and what it lets others do with it."""

    identifier: str
    kind: Kind
    signed: bool
    text: Callable[[], str]
    write: Callable[[str], None]
    left: Callable[[], None]
    on_next: Callable[[], None] | None


class Hand:
    """The field that is typed into, one a session. `wanted` says whether this device needs a keypad of ours."""

    def __init__(self, redraw: Callable[[], None]) -> None:
        """Nothing is held yet; `redraw` draws the page when the keypad comes, changes or goes."""
        self.now: Held | None = None
        self.wanted = False
        self.more = False
        self.content: ft.Control | None = None
        self._redraw = redraw
        self._leaving: asyncio.TimerHandle | None = None
        self._went: tuple[str, float] = ("", 0.0)
        self._by_keys = False
        self._grew = -GROWN_WITHIN

    def take(self, held: Held, *, touched: bool) -> bool:
        """A field got the focus, or was `touched`: the one before is left.

        False where the focus only fell back, or came by the keyboard.
        """
        if touched:
            self._by_keys = False
        elif self._by_keys:
            return False
        if not touched and self._went[0] == held.identifier and time.monotonic() < self._went[1] + BACK_WITHIN:
            return False
        self.keep()
        before, self.now = self.now, held
        if before is not None and before.identifier != held.identifier:
            before.left()
        if before is None or before.identifier != held.identifier:
            self.more = False
            self._redraw()
            asyncio.get_running_loop().call_later(SHOW_AFTER, self._show, held.identifier)
        return True

    def grew(self) -> None:
        """A field was left and says what is wrong under it: what stands below moves down, perhaps out of sight."""
        self._grew = time.monotonic()

    def came(self, identifier: str) -> None:
        """The keyboard came to a field: it is moved into sight where the one before has just grown."""
        if time.monotonic() < self._grew + GROWN_WITHIN:
            asyncio.get_running_loop().call_later(SHOW_AFTER, self._show, identifier)

    def holds(self, identifier: str) -> bool:
        """Whether the keypad types into the field of this name."""
        return self.now is not None and self.now.identifier == identifier

    def by_keys(self) -> None:
        """A real keyboard is there: no keypad until a field is touched."""
        self._by_keys = True
        self.put_away()

    def loosen(self, identifier: str) -> None:
        """The field lost the focus, or something beside it was touched: it is left unless a key follows at once."""
        if self.now is not None and self.now.identifier == identifier:
            self.keep()
            self._leaving = asyncio.get_running_loop().call_later(LEAVE_AFTER, self.put_away)

    def keep(self) -> None:
        """A finger is on the keypad: nothing is left."""
        if self._leaving is not None:
            self._leaving.cancel()
            self._leaving = None

    def forget(self) -> None:
        """Another screen comes: its own fields are taken up anew."""
        self.keep()
        self.now = None

    def put_away(self) -> None:
        """The field is left and the keypad goes."""
        self.keep()
        held, self.now = self.now, None
        if held is not None:
            self._went = held.identifier, time.monotonic()
            held.left()
            self._redraw()

    def press(self, key: str) -> None:
        """A key of the keypad was tapped."""
        self.keep()
        held = self.now
        if held is None:
            return
        if key in ("more", "digits"):
            self.more = key == "more"
            self._redraw()
        elif key == "next":
            self._next(held)
        else:
            held.write(press(held.text(), key))

    def _next(self, held: Held) -> None:
        if held.on_next is not None:
            self.put_away()
            held.on_next()
            return
        boxes = list(boxes_in(self.content))
        names = [box.data for box in boxes]
        at = names.index(held.identifier) + 1 if held.identifier in names else len(boxes)
        if at < len(boxes):
            asyncio.get_running_loop().create_task(boxes[at].focus())  # type: ignore[no-untyped-call] # Flet's own
        else:
            self.put_away()

    def lead_to(self, identifier: str, tries: int = LOOKS) -> None:
        """Put the focus into the field of this name as soon as its screen shows it."""

        def look() -> None:
            box = next((each for each in boxes_in(self.content) if each.data == identifier), None)
            if box is not None:
                asyncio.get_running_loop().create_task(box.focus())  # type: ignore[no-untyped-call] # Flet's own
            elif tries > 1:
                self.lead_to(identifier, tries - 1)

        asyncio.get_running_loop().call_later(LOOK_AFTER, look)

    def move_to(self, key: str) -> None:
        """Move the page to what has this key, once what was opened there is drawn."""

        def move() -> None:
            page = next(scrolled_in(self.content), None)
            if page is not None:
                asyncio.get_running_loop().create_task(page.scroll_to(scroll_key=key))

        asyncio.get_running_loop().call_later(SHOW_AFTER, move)

    def _show(self, identifier: str) -> None:
        """Move the field of this name into sight."""
        box = next((each for each in boxes_in(self.content) if each.data == identifier), None)
        above: ft.BaseControl | None = box
        while above is not None and not (isinstance(above, ft.Column) and above.scroll is not None):
            above = above.parent
        if isinstance(above, ft.Column):
            asyncio.get_running_loop().create_task(above.scroll_to(scroll_key=place_key(identifier)))


def place_key(identifier: str) -> str:
    """The key of the place on the page that must be in sight while the field of this name is typed into."""
    return f"place-{identifier}"


def every_in(control: object) -> Iterator[ft.BaseControl]:
    """What a page shows, from its top to its foot."""
    if isinstance(control, (list, tuple)):
        for each in control:
            yield from every_in(each)
    elif isinstance(control, Component):
        yield from every_in(control._b)
    elif isinstance(control, ft.BaseControl):
        yield control
        for name in ("content", "controls"):
            yield from every_in(getattr(control, name, None))


def boxes_in(control: object) -> Iterator[ft.TextField]:
    """The boxes for lengths and numbers, from the top of a page to its foot."""
    return (each for each in every_in(control) if isinstance(each, ft.TextField) and each.data)


def scrolled_in(control: object) -> Iterator[ft.Column]:
    """What scrolls on a page."""
    return (each for each in every_in(control) if isinstance(each, ft.Column) and each.scroll is not None)


NOBODY: Final[Hand | None] = None
HAND: Final = ft.create_context(NOBODY)
"""Where a field finds the hand of its session; none where it stands alone."""
