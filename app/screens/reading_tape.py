"""Which tape the marks are read on. What is frozen stays where it is; only the readings change."""

import flet as ft

from app import actions as act
from app import parts
from app.chalking import frozen_step
from app.screens.scene import Scene
from app.state import GarmentRecord
from app.text import words
from app.theme import Look
from app.typed import TAPES



def reading_tape(scene: Scene, look: Look, garment: GarmentRecord) -> ft.Control | None:
    """A choice among the tapes, folded away; None for a draft that was frozen when only one was kept."""
    frozen = scene.state.frozen.get(garment.id)
    own = None if frozen is None else frozen_step(frozen.order)
    if frozen is None or own is None or not frozen.others:
        return None

    def take(value: str) -> None:
        scene.send(act.ReadOn(garment.id, next(step for step, _ in TAPES if step == value)))

    return parts.section_fold(
        look, identifier="reading-tape", title=words("chalk.reads.title"), children=[
            parts.choices(
                look, identifier="reads", label=words("chalk.reads"), chosen=garment.reads or own, on_choose=take,
                options=[parts.Option(step, words(f"tape.{name}")) for step, name in TAPES],
            ),
            parts.say(look, words("chalk.reads.says"), soft=True),
        ],
    )  # fmt: skip
