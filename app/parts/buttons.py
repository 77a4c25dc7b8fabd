"""Buttons: the one that moves the work on, the quiet ones beside it, and those that are a sign."""

from collections.abc import Callable

import flet as ft
import flet.canvas as cv

from app.canvas import line_paint
from app.parts.named import as_one
from app.parts.signs import sign
from app.parts.stops import tells
from app.parts.touchable import sides
from app.parts.words import letters, say
from app.theme import CORNER, EDGE, GAP, LARGE, TOUCH, Look, see_through

_TALL = 56
_TICK_EVERY = 8
_BESIDE = 6
_ROUND = 13
"""Above and below the words of a button, px: one line of the usual letters makes it a finger high, and it grows."""


def _style(look: Look, fill: str | None, ink: str, side: str | None, padding: float) -> ft.ButtonStyle:
    return ft.ButtonStyle(
        color={ft.ControlState.DISABLED: look.soft, ft.ControlState.DEFAULT: ink},
        bgcolor={
            ft.ControlState.DISABLED: look.well if fill else "#00000000",
            ft.ControlState.DEFAULT: fill or "#00000000",
        },
        overlay_color=see_through(ink, 0.12),
        elevation=0,
        side=sides(look, ft.BorderSide(1, side) if side else None),
        shape=ft.RoundedRectangleBorder(radius=CORNER),
        padding=ft.Padding.symmetric(horizontal=padding, vertical=0),
        visual_density=ft.VisualDensity.STANDARD,
        animation_duration=ft.Duration(milliseconds=0),
    )


def _tape_end(look: Look, colour: str) -> ft.Control:
    """The ticks of a tape along the left edge of the button: long, short, middle, short."""
    lengths = (14, 6, 10, 6, 14, 6)
    steps: list[cv.Path.PathElement] = []
    for index, length in enumerate(lengths):
        y = 8 + index * _TICK_EVERY
        steps += [cv.Path.MoveTo(0, y), cv.Path.LineTo(length, y)]
    return cv.Canvas(shapes=[cv.Path(elements=steps, paint=line_paint(colour, 1.5))], width=16, height=_TALL)


def primary_button(
    look: Look, text: str, on_click: Callable[[], None], *, identifier: str, enabled: bool = True, busy: str = "",
    size: float = LARGE, first: ft.Ref[ft.FilledButton] | None = None,
) -> ft.Control:  # fmt: skip
    """The one button of a screen that moves the work on: as wide as there is room, with the ticks of a tape.

    `busy` are the words shown while it works; it cannot be tapped then. `size` is that of its letters, px.
    The button of a screen that has a `first` has the keyboard's focus when the screen comes, and can be given it again.
    """
    awake = enabled and not busy
    ink = look.on_deed if awake else look.soft
    words = say(look, busy or text, size=size, strong=True, colour=ink, align=ft.TextAlign.CENTER)
    face = ft.Row(
        spacing=0,
        controls=[
            _tape_end(look, ink if awake else look.edge),
            ft.Container(words, expand=True, alignment=ft.Alignment.CENTER, padding=ft.Padding.only(right=16)),
        ],
    )
    button = ft.FilledButton(
        content=face,
        on_click=(lambda _: on_click()) if awake else None,
        on_focus=tells(identifier),
        disabled=not awake,
        autofocus=first is not None,
        ref=first,
        height=_TALL if first is not None else None,  # else as high as its words, whose canvas is never lower
        expand=True,
        style=_style(look, look.deed, look.on_deed, None, 0),
    )
    return ft.Row([as_one(identifier, button, expand=True)])


def quiet_button(
    look: Look,
    text: str,
    on_click: Callable[[], None] | None,
    *,
    identifier: str,
    icon: str = "",
    enabled: bool = True,
    wide: bool = False,
    action: ft.ClientAction | None = None,
) -> ft.Control:
    """A button beside the way on: an edge and words, with one of our signs before them where that helps.

    `action` is what the client does within the tap, where a browser allows it at no other time.
    """
    ink = look.ink if enabled else look.soft
    align = ft.TextAlign.START if icon and wide else ft.TextAlign.CENTER
    words = ft.Text(value=text, style=letters(look, strong=True, colour=ink), text_align=align)
    face: ft.Control = words
    if icon:
        both = [sign(icon, ink, 20), ft.Container(words, expand=True) if wide else words]
        face = ft.Row(both[::-1] if icon == "forward" else both, spacing=GAP, tight=not wide)
    face = ft.Container(face, padding=ft.Padding.symmetric(vertical=_ROUND))
    button = ft.TextButton(
        content=face,
        on_click=(lambda _: on_click()) if enabled and on_click is not None else None,
        action=action if enabled else None,
        on_focus=tells(identifier),
        disabled=not enabled,
        expand=wide,
        style=_style(look, None, ink, look.edge if enabled else look.hair, EDGE),
    )
    return ft.Row([as_one(identifier, button, expand=True)]) if wide else as_one(identifier, button)


def icon_button(
    look: Look,
    icon: str,
    label: str,
    on_click: Callable[[], None],
    *,
    identifier: str,
    enabled: bool = True,
    show_label: bool = False,
) -> ft.Control:
    """A button that is one of our signs; its label is read out, and written beside it when asked for."""
    ink = look.ink if enabled else look.faded
    face: ft.Control = sign(icon, ink)
    if show_label:
        face = ft.Row([face, say(look, label, colour=ink)], spacing=_BESIDE, tight=True)
        face = ft.Container(face, padding=ft.Padding.symmetric(vertical=_ROUND))
    button = ft.TextButton(
        content=face,
        on_click=(lambda _: on_click()) if enabled else None,
        on_focus=tells(identifier),
        disabled=not enabled,
        height=None if show_label else TOUCH,
        width=None if show_label else TOUCH,
        style=_style(look, None, ink, None, GAP if show_label else 0),
    )
    return as_one(identifier, button, label=None if show_label else label)
