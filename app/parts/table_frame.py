"""The frame at the table: nothing scrolls, readings and the way on keep their place, and the drawing gives."""

from collections.abc import Sequence

import flet as ft

from app.parts.named import named
from app.theme import COLUMN, EDGE, GAP, Look

TOP = 56.0
FOOT = 84.0
BAND = 52.0
"""Heights of the top, the foot and the band, px; the band is pressed 8 below the buttons of the top."""
UNDER = 4.0
"""The part of the band that is left empty under the top, px."""


def table_frame(
    look: Look,
    *,
    identifier: str,
    top: ft.Control,
    drawn: ft.Control,
    zone: ft.Control,
    foot: Sequence[ft.Control],
    band: ft.Control | None = None,
    notice: ft.Control | None = None,
    width: float = 390,
    column: float = COLUMN,
    beside: bool = False,
    drawing: float | None = None,
) -> ft.Control:
    """The whole content of a view.

    `zone` and `foot` stand still. `drawn` takes what is left above the zone, or stands `beside` a column of `column`
    px. A `band` of one line takes its height from the drawing alone, and a `notice` lies over the drawing. `foot`
    stands in one row. With a `drawing` that is so many px high, what is left is the zone's instead.
    """
    above: list[ft.Control] = (
        [ft.Container(band, height=BAND, padding=ft.Padding.only(top=UNDER))] if band is not None else []
    )
    over: list[ft.Control] = []
    if notice is not None:
        over.append(ft.Container(notice, left=GAP, right=GAP, top=GAP))
    seen = ft.Container(
        ft.Stack([ft.Container(drawn, alignment=ft.Alignment.CENTER), *over], fit=ft.StackFit.EXPAND),
        key="seen",
        expand=drawing is None or beside,
        height=None if beside else drawing,
        clip_behavior=ft.ClipBehavior.HARD_EDGE,
    )
    # What keeps its key stays itself when its neighbours change, and so keeps the keyboard's focus.
    bar = ft.Container(
        ft.Row(list(foot), spacing=GAP, vertical_alignment=ft.CrossAxisAlignment.CENTER),
        key="foot",
        height=FOOT,
        padding=ft.Padding.only(left=EDGE, right=EDGE, top=12, bottom=EDGE),
        border=ft.Border.only(top=ft.BorderSide(1, look.hair)),
    )
    stretched = ft.CrossAxisAlignment.STRETCH
    filling = beside or drawing is not None
    told = ft.Container(
        zone, key="zone", expand=filling or None, alignment=ft.Alignment.BOTTOM_LEFT if filling else None
    )
    head = ft.Container(top, key="head", height=TOP)
    page: ft.Control
    if beside:
        page = ft.Row(
            [
                ft.Column([*above, seen], spacing=0, expand=True, horizontal_alignment=stretched),
                ft.Container(
                    ft.Column(
                        [head, told, bar],
                        spacing=0,
                        horizontal_alignment=stretched,
                    ),
                    width=column,
                    border=ft.Border.only(left=ft.BorderSide(1, look.hair)),
                ),
            ],
            spacing=0,
            expand=True,
            vertical_alignment=stretched,
        )
    else:
        body = ft.Container(
            ft.Column([head, *above, seen, told, bar], spacing=0, expand=True, horizontal_alignment=stretched),
            width=min(width, COLUMN),
        )
        page = ft.Row([body], alignment=ft.MainAxisAlignment.CENTER, expand=True, vertical_alignment=stretched)
    return named(
        identifier,
        ft.Container(ft.SafeArea(page, expand=True), bgcolor=look.ground, expand=True),
        expand=True,
    )
