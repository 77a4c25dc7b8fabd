"""A screen with nothing on it yet: a folded corner of cloth with a first chalk tick, and a warm word."""

from collections.abc import Sequence

import flet as ft
import flet.canvas as cv

from app.canvas import fill_paint, line_paint
from app.parts.named import named
from app.parts.signs import path_of
from app.parts.words import say, stack
from app.theme import CLOTH, GAP, TITLE, Look

_WIDE, _HIGH = 240, 168


def folded_corner(look: Look) -> ft.Control:
    """Cloth folded over at its corner, the fold heavy, one chalk line begun and one mark on it."""
    cloth = CLOTH.well if look.dark else CLOTH.ground
    under = CLOTH.edge if look.dark else CLOTH.hair
    drawn: list[cv.Shape] = [
        # the cloth, its far corner turned over
        cv.Path(path_of("M28 22 L212 14 L222 104 L168 158 L36 150 Z"), paint=fill_paint(cloth)),
        # the turned corner: the wrong side of the cloth
        cv.Path(path_of("M222 104 C206 100 188 98 172 101 C175 120 173 139 168 158 Z"), paint=fill_paint(under)),
        cv.Path(
            path_of("M222 104 C206 100 188 98 172 101 C175 120 173 139 168 158"), paint=line_paint(look.ground, 1.5)
        ),
        # the fold, heavy, along the left
        cv.Path(path_of("M31 23.5 L38.6 148"), paint=line_paint(CLOTH.ink, 4)),
        # chalk: a neck, a shoulder and a sleeve begun
        cv.Path(path_of("M33 46 C46 46 56 44 60 32 M60 32 C86 40 112 48 134 62"), paint=line_paint(CLOTH.ink, 2)),
        cv.Path(path_of("M134 62 C146 69 156 76 166 84"), paint=line_paint(CLOTH.ink, 2, (5, 5))),
        # this mark, now
        cv.Path(path_of("M128 52 L140 72"), paint=line_paint(CLOTH.tape, 4)),
        # a stick of chalk
        cv.Path(path_of("M150 50 L184 28 L190 37 L156 59 Z"), paint=fill_paint(CLOTH.ink)),
        cv.Path(path_of("M172 36 L178 45"), paint=line_paint(CLOTH.soft, 1.5)),
    ]
    return cv.Canvas(shapes=drawn, width=_WIDE, height=_HIGH)


def empty_state(
    look: Look,
    *,
    identifier: str,
    title: str,
    says: str,
    children: Sequence[ft.Control] = (),
    low: bool = False,
) -> ft.Control:
    """The drawing, the word and what to do first. On a `low` page the word stands beside the drawing."""
    align = ft.TextAlign.START if low else ft.TextAlign.CENTER
    word = [say(look, title, size=TITLE, strong=True, align=align), say(look, says, soft=True, align=align)]
    drawn = folded_corner(look)
    first: list[ft.Control]
    if low:
        beside = ft.Container(stack(word, spacing=2 * GAP), expand=True)
        first = [ft.Row([drawn, beside], spacing=2 * GAP, vertical_alignment=ft.CrossAxisAlignment.CENTER)]
    else:
        first = [ft.Row([drawn], alignment=ft.MainAxisAlignment.CENTER), *word]
    return named(identifier, stack([*first, *children], spacing=2 * GAP))
