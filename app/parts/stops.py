"""What the keyboard can stop at on a page, and where it goes on when that went away."""

from collections.abc import Callable, Iterator, Sequence
from typing import Any

import flet as ft
from flet.components.component import Component

HEADING = "heading"
"""The name of the heading of a page, where the keyboard begins on it."""
_BUTTONS = (ft.TextButton, ft.FilledButton, ft.KeyboardListener)


def tells(identifier: str) -> Callable[[ft.Event[Any]], None]:
    """What a control does when the keyboard comes to it: it tells its name to the session, which `listens`."""

    def told(event: ft.Event[Any]) -> None:
        if (heard := getattr(getattr(event, "page", None), "data", None)) is not None:
            ft.context.disable_auto_update()  # type: ignore[no-untyped-call]
            heard(identifier)

    return told


def stops_in(control: object, name: str = "", *, asleep: bool = False) -> Iterator[tuple[str, ft.Control]]:
    """Every control that the keyboard stops at, with its name, from the top of a page to its foot.

    With `asleep` also those that cannot be used just now.
    """
    if isinstance(control, (list, tuple)):
        for each in control:
            yield from stops_in(each, name, asleep=asleep)
    elif isinstance(control, Component):
        yield from stops_in(control._b, name, asleep=asleep)
    elif isinstance(control, (*_BUTTONS, ft.TextField, ft.Radio)):
        if asleep or not control.disabled:
            yield name, control
    elif isinstance(control, ft.BaseControl):
        if isinstance(control, ft.Semantics) and control.identifier:
            name = control.identifier
        for below in ("content", "controls"):
            yield from stops_in(getattr(control, below, None), name, asleep=asleep)


def after(gone: str, before: Sequence[str], stops: Sequence[tuple[str, ft.Control]]) -> ft.Control | None:
    """What stands now where the one that is gone stood: the next after the last that was before it and still is.

    A radio button is passed over, because the client cannot be told to go to one.
    """
    names = [name for name, _ in stops]
    still = [name for name in before[: before.index(gone)] if name in names] if gone in before else []
    start = names.index(still[-1]) + 1 if still else 0
    return next(
        (each for _, each in (*stops[start:], *reversed(stops[:start])) if not isinstance(each, ft.Radio)), None
    )
