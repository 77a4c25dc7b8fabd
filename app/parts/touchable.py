"""A surface to tap that a keyboard reaches too, and the ring that shows where the keyboard is."""

from collections.abc import Callable
from typing import Final

import flet as ft

from app.parts.named import unsaid
from app.parts.stops import tells
from app.theme import CORNER, Look, see_through

RING: Final = 3.0
"""How thick the ring round what the keyboard is at is drawn, px."""
APART: Final = 2.0
"""The ground left between a surface and its ring, px, so that the ring is seen round a dark button too."""


def ring(look: Look) -> ft.BorderSide:
    """The ring outside an edge; its colour is the one that words have on this surface."""
    return ft.BorderSide(RING, look.ink, stroke_align=1 + 2 * APART / RING)


def sides(look: Look, edge: ft.BorderSide | None) -> dict[ft.ControlState, ft.BorderSide]:
    """The edge of a button as it rests, and its ring while the keyboard is at it."""
    return {ft.ControlState.FOCUSED: ring(look), ft.ControlState.DEFAULT: edge or ft.BorderSide.none()}


def touchable(
    look: Look,
    face: ft.Control,
    on_click: Callable[[], None],
    *,
    identifier: str,
    padding: ft.Padding | None = None,
    height: float | None = None,
    fill: str = "#00000000",
    edge: str = "",
    corner: float = CORNER,
    label: str | None = None,
    hint: str | None = None,
    selected: bool | None = None,
    checked: bool | None = None,
    opened: bool | None = None,
    expand: bool | int | None = None,
) -> ft.Control:
    """The face as one thing to tap: reached by Tab, taken by Enter and Space, ringed while the keyboard is at it.

    To a reader of the screen it is a button, or a box to tick where `checked` is given; `selected` says that this is
    the one of several, `opened` whether what it folds away is seen. A `label` is read out instead of the words on it.
    """
    button = ft.TextButton(
        content=unsaid(face) if label else face,
        on_click=lambda _: on_click(),
        on_focus=tells(identifier),
        height=height,
        style=ft.ButtonStyle(
            bgcolor=fill,
            overlay_color=see_through(look.ink, 0.12),
            elevation=0,
            side=sides(look, ft.BorderSide(1, edge) if edge else None),
            shape=ft.RoundedRectangleBorder(radius=corner),
            padding=padding or ft.Padding.all(0),
            visual_density=ft.VisualDensity.STANDARD,
            animation_duration=ft.Duration(milliseconds=0),
        ),
    )
    named = ft.Semantics(
        identifier=identifier,
        label=label,
        selected=selected,
        checked=checked,
        expanded=opened,
        on_tap_hint_text=hint,
        content=button,
    )
    return ft.MergeSemantics(content=named, expand=expand)
