"""Choosing one of a few by large pictures: a group of radio buttons like all choices, two or more beside each other."""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import flet as ft

from app.parts.choices import Option, one_of, touch
from app.parts.fitted import lines_of
from app.parts.signs import sign
from app.parts.words import LINE_HEIGHT, say, stack
from app.theme import BODY, GAP, GRID, Look

LEAST, MOST = 72.0, 200.0
"""The side of the smallest and of the largest picture, px: our choice, because a smaller one no longer tells two
garments apart, and a larger one says no more."""
_PAD, _TICK = 10.0, 20.0
"""Room within the edge of a tile, and the sign on the chosen one, px."""


@dataclass(frozen=True, slots=True)
class Tiling:
    """How many tiles stand in a row, how wide each is, how high its words are, and the side of its picture, px."""

    columns: int
    width: float
    words: float
    picture: float

    @property
    def height(self) -> float:
        """How high a tile is, px."""
        return self.picture + GRID + self.words + 2 * _PAD


def tiling(names: Sequence[str], width: float, height: float, text: float = 1.0) -> Tiling:
    """The tiles for these names in a box of px, with the largest pictures; what does not fit takes the fewest rows.

    The device shows letters `text` times larger than usual.
    """
    size, best = BODY * text, None
    for columns in range(1, min(len(names), 4) + 1):
        wide = (width - (columns - 1) * GAP) / columns
        inner = wide - 2 * _PAD
        lines = [lines_of(name.replace("-", "- "), size, inner, strong=True) for name in names]
        if columns > 1 and 0 in lines:  # a word is wider than its tile
            continue
        words = math.ceil(max(*lines, 1) * size * LINE_HEIGHT)
        rows = math.ceil(len(names) / columns)
        high = (height - (rows - 1) * GAP) / rows - words - GRID - 2 * _PAD
        picture = float(math.floor(min(max(high, LEAST), MOST, inner)))
        if best is None or picture > best.picture or (picture == best.picture == LEAST):
            best = Tiling(columns, wide, words, picture)
    assert best is not None
    return best


def tiles(
    look: Look,
    laid: Tiling,
    *,
    identifier: str,
    options: Sequence[Option],
    chosen: str | None,
    on_choose: Callable[[str], None],
    label: str,
) -> ft.Control:
    """The options in rows; the chosen one is filled and ticked."""
    each = [_tile(look, laid, option, option.value == chosen, on_choose, identifier) for option in options]
    rows: list[ft.Control] = [
        ft.Row(each[at : at + laid.columns], spacing=GAP) for at in range(0, len(each), laid.columns)
    ]
    return one_of(stack(rows), identifier, label, chosen, on_choose)


def _tile(
    look: Look, laid: Tiling, option: Option, now: bool, on_choose: Callable[[str], None], identifier: str
) -> ft.Control:
    picture = option.picture(look) if option.picture is not None else None
    seen: ft.Control = ft.Container(picture, height=laid.picture, alignment=ft.Alignment.CENTER)
    if now:
        seen = ft.Stack([seen, ft.Container(sign("check", look.ink, _TICK), right=0, top=0)])
    told = say(look, option.words, strong=now, align=ft.TextAlign.CENTER)
    edge = 2 if now else 1
    face = ft.Container(
        ft.Column([seen, told], spacing=GRID, horizontal_alignment=ft.CrossAxisAlignment.STRETCH),
        width=laid.width - 2 * _PAD,
        height=laid.height - 2 * _PAD,
    )
    return touch(look, option, now, on_choose, identifier, face, ft.Padding.all(_PAD - edge))
