"""Delete everything on this device: what goes, and that nothing brings it back."""

import flet as ft

from app import actions as act
from app import parts
from app.screens.scene import Scene, frame
from app.state import Place
from app.text import words
from drafting.sentences import listed


def erase(scene: Scene) -> ft.Control:
    """What is deleted, in numbers, and the button that does it."""
    look, book, busy = scene.paper, scene.state.book, scene.state.busy
    counts = (("people", len(book.people)), ("garments", len(book.garments)), ("cloths", len(book.cloths)))
    there = [words(f"erase.{what}.one") if count == 1 else words(f"erase.{what}", count=count) for what, count in counts if count]
    says = words("erase.says", what=listed(there)) if there else words("erase.nothing")
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
