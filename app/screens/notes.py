"""Beside the way of a garment: how far it is, what was really cut, and what else is worth keeping."""

import flet as ft

from app import actions as act
from app import parts
from app.names import garment_name
from app.screens.scene import Scene, frame
from app.state import GarmentRecord, GarmentState
from app.text import words


def notes(scene: Scene) -> ft.Control:
    """The state and the notes of a garment."""
    look, garment = scene.paper, scene.state.garment
    if garment is None:
        return frame(scene, look, title=words("notes.title"), children=[], on_back=scene.go_home)
    key = garment.id
    children: list[ft.Control] = [
        parts.say(look, garment_name(scene.state.book, garment), strong=True),
        parts.choices(
            look, identifier="state", label=words("notes.state"), chosen=garment.state or "begun",
            options=[
                parts.Option("begun", words("state.chalking" if garment.chalking else "state.planned")),
                parts.Option("cut", words("state.cut")),
                parts.Option("sewn", words("state.sewn")),
            ],
            on_choose=lambda value: scene.send(act.SetState(key, _state(value))),
        ),
        parts.field(
            look, identifier="cut-notes", label=words("notes.cut"), value=garment.cut_notes,
            how=(words("notes.cut.how"),), on_change=lambda text: scene.send(act.TypeCutNotes(key, text)),
        ),
        parts.field(
            look, identifier="garment-notes", label=words("notes.notes"), value=garment.notes,
            how=(words("notes.notes.how"),), on_change=lambda text: scene.send(act.TypeGarmentNotes(key, text)),
        ),
    ]  # fmt: skip
    done = parts.primary_button(look, words("done"), scene.go_home, identifier="next")
    return frame(
        scene, look, title=words("notes.title"), children=children, on_back=scene.go_home, foot=[done], with_progress=False
    )


def _state(value: str) -> GarmentState:
    return "cut" if value == "cut" else "sewn" if value == "sewn" else ""

