"""A piece as its outline only, in a small box."""

from collections.abc import Sequence

import flet as ft
import flet.canvas as cv

from app.canvas import outline_shapes
from app.parts.signs import sign
from app.theme import CLOTH, CORNER, Look


def piece_thumbnail(
    look: Look,
    outline: Sequence[tuple[float, float]],
    *,
    on_fold: bool = True,
    width: float = 72,
    height: float = 72,
    words: str = "",
    chalked: bool = True,
) -> ft.Control:
    """The outline (mm) chalked on a small piece of cloth, or drawn quietly on paper where it is not `chalked` yet.

    Paper without an outline shows a tape: the measures come first.
    """
    if not chalked:
        return _quiet(look, outline, width, height)
    cloth = CLOTH if not look.dark else look
    box = ft.Container(
        cv.Canvas(shapes=outline_shapes(outline, cloth, width, height, on_fold=on_fold), width=width, height=height),
        width=width,
        height=height,
        bgcolor=CLOTH.ground,
        border_radius=CORNER,
        clip_behavior=ft.ClipBehavior.HARD_EDGE,
    )
    return ft.Semantics(image=True, label=words, content=box) if words else box


def _quiet(look: Look, outline: Sequence[tuple[float, float]], width: float, height: float) -> ft.Control:
    drawn = outline_shapes(outline, look, width, height, on_fold=False)
    return ft.Container(
        cv.Canvas(shapes=drawn, width=width, height=height) if drawn else sign("tape", look.soft, 24),
        width=width,
        height=height,
        bgcolor=look.well,
        border_radius=CORNER,
        alignment=ft.Alignment.CENTER,
        clip_behavior=ft.ClipBehavior.HARD_EDGE,
    )
