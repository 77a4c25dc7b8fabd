"""Delete everything on this device: what goes, and that nothing brings it back."""

import flet as ft

from app import actions as act
from app import parts
from app.backup import lists
from app.backup_words import counted
from app.screens.scene import Scene, frame
from app.state import Place
from app.text import words


def erase(scene: Scene) -> ft.Control:
    """What is deleted, in numbers, and the button that does it."""
    look, book, busy = scene.paper, scene.state.book, scene.state.busy
    what = counted({name: len(getattr(book, name)) for name in lists()})
    says = words("erase.says", what=what) if what else words("erase.nothing")
    children: list[ft.Control] = [
        parts.say(look, says, strong=True),
        parts.say(look, words("erase.for_good")),
        parts.say(look, words("erase.app"), soft=True),
        parts.quiet_button(
            look, words("erase.do"), scene.doing(act.EraseAll()), identifier="erase-all", icon="delete",
            enabled=not busy and not scene.state.locked, wide=True,
        ),
    ]  # fmt: skip
    back = scene.doing(act.Go(Place("backup")))
    keep = parts.primary_button(look, words("erase.keep"), back, identifier="keep-all", busy=busy)
    return frame(scene, look, title=words("erase.title"), children=children, on_back=back, foot=[keep])
