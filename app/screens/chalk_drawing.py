"""The drawing on the chalk screen: what is said is lit in it, and it lies as the cloth does before the cutter."""

from collections.abc import Callable

import flet as ft

from app import parts
from app.chalking import Chalking, Item
from app.screens.scene import Scene
from app.state import GarmentRecord
from app.text import words
from app.theme import COLUMN
from app.turn import seen_turn


def chalk_drawing(
    scene: Scene, garment: GarmentRecord, chalking: Chalking, item: Item, *, height: float,
    on_mark: Callable[[str | None], None],
) -> ft.Control:  # fmt: skip
    """The piece of an item with its marks. `on_mark` is given the key of the touched mark's item, or None."""
    piece, start = chalking.pieces[item.piece], f"{item.piece}."
    done = frozenset(key.removeprefix(start) for key in garment.chalk_done if key.startswith(start))
    seen = scene.state.book.settings
    return parts.drawing_view(
        scene.cloth,
        piece.drawing,
        identifier="chalk-drawing",
        words=words("chalk.drawing", piece=piece.label.lower()),
        height=height,
        marks=piece.marks,
        lit=item.lit,
        done=done & frozenset(piece.marks),
        numbers=piece.numbers,
        zeros={words(f"chalk.zero.{number}"): (0.0, down) for number, down in enumerate(piece.noughts[:3], start=1)},
        turn=seen_turn(fold_right=seen.fold == "right", top_near=seen.top == "near"),
        close_up=True,
        likely=scene.width - scene.column if scene.wide else min(scene.width, COLUMN),
        on_mark=lambda mark: on_mark(f"{start}{mark}" if mark else None),
        fit_words=words("drawing.fit"),
    )
