"""How one stands at the cloth: the fold at the left or right, the top far away or near. Kept for every garment."""

import flet as ft

from app import actions as act
from app import parts
from app.screens.scene import Scene
from app.state import FoldSide, TopSide
from app.text import words
from app.theme import GAP, Look

FOLDS: tuple[FoldSide, ...] = ("left", "right")
TOPS: tuple[TopSide, ...] = ("far", "near")


def table_side(scene: Scene, look: Look) -> ft.Control:
    """Two choices of two; the drawing on the chalk screen follows them."""
    now = scene.state.book.settings

    def fold_at(value: str) -> None:
        scene.send(act.SeeFrom(next(each for each in FOLDS if each == value), now.top))

    def top_at(value: str) -> None:
        scene.send(act.SeeFrom(now.fold, next(each for each in TOPS if each == value)))

    return parts.stack(
        [
            parts.choices(
                look, identifier="see-fold", label=words("chalk.fold"), chosen=now.fold, on_choose=fold_at,
                options=[parts.Option(each, words(f"chalk.fold.{each}")) for each in FOLDS],
            ),
            parts.choices(
                look, identifier="see-top", label=words("chalk.top"), chosen=now.top, on_choose=top_at,
                options=[parts.Option(each, words(f"chalk.top.{each}")) for each in TOPS],
            ),
        ],
        spacing=2 * GAP,
    )  # fmt: skip
