"""The cloth with its pieces, to look at closely; shared by the proof and the lay screen."""

from functools import lru_cache

import flet as ft

from app import parts
from app.canvas import worded
from app.screens.scene import Scene
from app.text import words
from app.theme import COLUMN, EDGE
from drafting.cloth import ClothFacts
from drafting.drawing.piece import Drawing, cloth_drawing
from drafting.layout import Layout, at_table
from drafting.contract.pieces import Piece
from drafting.units import Tape, Unit

WORD_PX = 12.0
"""How high the words are, px: the smallest of them, which are a little lower, then still have 11."""
ROOMY = 400.0
"""The height of a drawing from which on there is room for all its words, px: our choice."""


class _Same:
    """A layout with its pieces as a key: the same layout is the same drawing."""

    def __init__(self, layout: Layout, pieces: tuple[Piece, ...], cloth: ClothFacts) -> None:
        self.layout, self.pieces, self.cloth = layout, pieces, cloth

    def __hash__(self) -> int:
        return id(self.layout)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Same) and other.layout is self.layout


def cloth_heard(drawn: str, layout: Layout, pieces: tuple[Piece, ...], tape: Tape) -> str:
    """What a reader of the screen says of the cloth that is `drawn` like this: also which pieces lie on it."""
    return words("lay.drawn.heard", drawn=drawn, count=at_table(layout, pieces, tape).count)


def laid_cloth(
    scene: Scene, layout: Layout, pieces: tuple[Piece, ...], cloth: ClothFacts, unit: Unit, *,
    identifier: str, says: str, height: float, beside: bool = False, width: float | None = None,
    word_px: float = WORD_PX,
) -> ft.Control:  # fmt: skip
    """The drawing in a box `height` px high; `beside` fills the room beside the column, else it is as wide as that.

    A `width` of its own, px, may be given instead; `word_px` is how large its words are. A drawing lower than
    `ROOMY` px is `sparing` with them.
    """
    own, width = width, width or (scene.beside[0] if beside else min(scene.width, COLUMN))
    few = height < ROOMY
    same = _Same(layout, pieces, cloth)
    return scene.region(
        identifier,
        (scene.cloth, scene.calm, same, round(width), round(height), says, word_px),
        lambda: parts.drawing_view(
            scene.cloth, _drawing(same, unit, round(width), round(height), word_px, few), identifier=identifier, words=says,
            fit_words=words("drawing.fit"), calm=scene.calm, height=height, width=width if beside or own else None,
            likely=width - 2 * EDGE,
        ),
    )  # fmt: skip


@lru_cache(maxsize=6)
def _drawing(same: _Same, unit: Unit, width: int, height: int, word_px: float, sparing: bool) -> Drawing:
    layout = same.layout

    def make(scale: float) -> Drawing:
        return cloth_drawing(layout, same.pieces, same.cloth, unit, scale=scale, sparing=sparing)

    return worded(make, layout.laid_width, layout.length, width, height, word_px)
