"""Which garment it is to be: asked before the measures, since they depend on it; each is seen on a plain body."""

import flet as ft

from app import actions as act
from app import parts
from app.asked import asked_of
from app.preset_pictures import garment_picture
from app.screens.changed_band import changed_card
from app.screens.scene import Scene, frame
from app.state import GarmentRecord
from app.text import words
from app.theme import BODY, COLUMN, EDGE, GAP
from drafting.garments import garments

_FOOT = 85.0
"""Height of the foot with its button, px."""
_BETWEEN = 3 * GAP
"""What lies between two parts of a page, px."""


def which(scene: Scene) -> ft.Control:
    """The garments to choose from, for the garment in work."""
    look, garment = scene.paper, scene.state.garment
    if garment is None:
        return frame(scene, look, title=words("which.title"), children=[], on_back=scene.go_home)
    says = [words("which.says"), *([words("which.kept")] if garment.aside else [])]
    width = min(scene.width, COLUMN) - 2 * EDGE
    laid = parts.tiling([each.label for each in garments().values()], width, _room(scene, says, width), scene.text)
    shown = parts.tiles(
        look, laid, identifier="which", label=words("which.title"), chosen=garment.garment,
        options=[
            parts.Option(name, each.label, picture=garment_picture(name, laid.picture))
            for name, each in garments().items()
        ],
        on_choose=lambda name: scene.send(act.ChooseGarment(garment.id, name)),
    )  # fmt: skip
    first, *more = (parts.say(look, each, soft=True) for each in says)
    children: list[ft.Control] = [*changed_card(scene, look, garment), first, shown, *more]
    foot = [parts.primary_button(look, words("next"), lambda: _on(scene, garment), identifier="next")]
    return frame(
        scene, look, title=words("which.title"), children=children, on_back=scene.go_home, foot=foot,
        with_progress=False,
    )  # fmt: skip


def _room(scene: Scene, says: list[str], width: float) -> float:
    """What the page has left for the pictures, px."""
    lines = sum(parts.said_height(each, width, BODY * scene.text) + _BETWEEN for each in says)
    return scene.height - parts.TOP - _FOOT - lines - 4 * EDGE


def _on(scene: Scene, garment: GarmentRecord) -> None:
    """Go on to whom it is for; where all that it needs is known of them, to the shape."""
    person = scene.state.book.person(garment.person)
    needed = () if person is None else asked_of(person, garment).required
    known = person is not None and all(person.measures.get(name, "").strip() for name in needed)
    scene.go("shape" if known else "person")()
