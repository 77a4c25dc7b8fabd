"""The drawing on the chalk screen: what is said is lit in it, and it lies as the cloth does before the cutter."""

from collections.abc import Callable

import flet as ft

from app import parts
from app.chalking import Chalking, Item
from app.screens.scene import Scene
from app.spoken import heard
from app.state import GarmentRecord
from app.text import words
from app.theme import COLUMN
from app.turn import AS_DRAFTED, seen_turn


def item_heard(chalking: Chalking, item: Item) -> str:
    """What a reader of the screen says of an item, with its readings."""
    piece = chalking.pieces[item.piece]
    return heard(item, piece.label.capitalize(), max(piece.numbers.values(), default=0), chalking.unit)


def chalk_drawing(
    scene: Scene, garment: GarmentRecord, chalking: Chalking, item: Item, *, height: float,
    on_mark: Callable[[str | None], None],
) -> ft.Control:  # fmt: skip
    """The piece of an item with its marks. `on_mark` is given the key of the touched mark's item, or None."""
    piece, start = chalking.pieces[item.piece], f"{item.piece}."
    done = frozenset(key.removeprefix(start) for key in garment.chalk_done if key.startswith(start))
    now = scene.state.book.settings
    seen = seen_turn(fold_right=now.fold == "right", top_near=now.top == "near")
    zeros = {words(f"chalk.zero.{number}"): (0.0, down) for number, down in enumerate(piece.noughts[:3], start=1)}
    marks, drawing, turn = piece.marks, piece.drawing, piece.turn.then(seen)
    says = item_heard(chalking, item) if item.pairs else words("chalk.drawing", piece=piece.label.lower())
    if item.picture == "cloth" and chalking.cloth is not None:
        marks, drawing, turn, zeros = {}, chalking.cloth.drawing, seen, dict(chalking.cloth.zeros)
        says = f"{words('chalk.drawing.cloth')} {says}" if item.pairs else words("chalk.drawing.cloth")
    elif item.picture == "opened":  # its words say how it is held, which is the same for everybody
        marks, drawing, turn = {}, piece.opened, AS_DRAFTED
    return parts.drawing_view(
        scene.cloth,
        drawing,
        identifier="chalk-drawing",
        words=says,
        announced=True,
        height=height,
        marks=marks,
        lit=item.lit,
        done=done & frozenset(marks),
        numbers={name: piece.numbers[name] for name in marks},
        zeros=zeros,
        turn=turn,
        close_up=True,
        likely=scene.width - scene.column if scene.wide else min(scene.width, COLUMN),
        on_mark=lambda mark: on_mark(f"{start}{mark}" if mark else None),
        fit_words=words("drawing.fit"), calm=scene.calm,
    )
