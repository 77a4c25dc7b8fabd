"""A piece as its outline only, in a small box."""

from collections.abc import Sequence

import flet as ft
import flet.canvas as cv

from app.canvas import outline_shapes
from app.theme import CLOTH, CORNER, Look


def piece_thumbnail(
    look: Look,
    outline: Sequence[tuple[float, float]],
    *,
    on_fold: bool = True,
    width: float = 72,
    height: float = 72,
    words: str = "",
) -> ft.Control:
    """The outline (mm) chalked on a small piece of cloth; empty cloth where there is none yet."""
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
