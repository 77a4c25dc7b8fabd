"""The foot of a screen: what moves the work on, within reach of a thumb."""

from collections.abc import Sequence

import flet as ft

from app.parts.words import stack
from app.theme import EDGE, GAP, Look


def bottom_bar(look: Look, children: Sequence[ft.Control]) -> ft.Control:
    """The controls under each other on the ground of the surface, with a thin line above."""
    return ft.Container(
        stack(children, spacing=GAP),
        bgcolor=look.ground,
        padding=ft.Padding.only(left=EDGE, right=EDGE, top=12, bottom=EDGE),
        border=ft.Border.only(top=ft.BorderSide(1, look.hair)),
    )
