"""The bar at the foot: what was just done, and how to undo it."""

from collections.abc import Callable
from typing import Literal

import flet as ft

from app.parts.named import as_one
from app.parts.signs import result_sign, sign
from app.parts.stops import tells
from app.parts.touchable import sides
from app.parts.words import letters, say
from app.theme import CLOTH, CORNER, GAP, TOUCH, Look, see_through

Tone = Literal["plain", "caution", "stop"]


def notice(
    look: Look,
    text: str,
    *,
    identifier: str,
    action: str = "",
    on_action: Callable[[], None] | None = None,
    on_close: Callable[[], None] | None = None,
    close_words: str = "",
    tone: Tone = "plain",
) -> ft.Control:
    """A strip of cloth with the words, one action ("Undo") and a way to put it aside. Read out when it appears."""
    strip = CLOTH
    fill = strip.well if look.dark else strip.ground
    parts: list[ft.Control] = []
    if tone != "plain":
        colour = strip.caution if tone == "caution" else strip.stop
        parts.append(result_sign(tone, colour, fill, 22))
    parts.append(ft.Container(say(strip, text), expand=True, padding=ft.Padding.symmetric(horizontal=0, vertical=12)))
    if action and on_action is not None:
        act = on_action
        words = ft.Text(value=action, style=letters(strip, strong=True, colour=strip.tape))
        parts.append(as_one(f"{identifier}-action", _bare(words, act, None, f"{identifier}-action")))
    if on_close is not None:
        close = on_close
        cross = _bare(sign("close", strip.ink, 20), close, TOUCH, f"{identifier}-close")
        parts.append(as_one(f"{identifier}-close", cross, label=close_words or None))
    box = ft.Container(
        ft.Row(parts, spacing=GAP, vertical_alignment=ft.CrossAxisAlignment.CENTER),
        bgcolor=fill,
        border_radius=CORNER,
        clip_behavior=ft.ClipBehavior.NONE,  # or the ring of the keyboard is cut off
        padding=ft.Padding.only(left=16, right=4 if on_close or action else 16, top=0, bottom=0),
    )
    return ft.Semantics(identifier=identifier, live_region=True, content=box)


def _bare(face: ft.Control, on_click: Callable[[], None], width: float | None, identifier: str) -> ft.Control:
    return ft.TextButton(
        content=face,
        on_click=lambda _: on_click(),
        on_focus=tells(identifier),
        height=TOUCH,
        width=width,
        style=ft.ButtonStyle(
            padding=ft.Padding.symmetric(horizontal=0 if width else 12),
            overlay_color=see_through(CLOTH.ink, 0.12),
            side=sides(CLOTH, None),
            shape=ft.RoundedRectangleBorder(radius=CORNER),
        ),
    )
