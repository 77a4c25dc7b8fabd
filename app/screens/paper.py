"""Paper: the chalk sheet, the pattern and the files, each handed to the device by one tap."""

import flet as ft

from app import actions as act
from app import parts
from app.screens.scene import Scene, frame
from app.text import words
from app.theme import GRID, SMALL

FILES = ("chalk-sheet.pdf", "pattern.pdf", "pattern.svg", "cloth.svg", "order.json", "draft.json")


def paper(scene: Scene) -> ft.Control:
    """The papers of the garment in work."""
    look, garment = scene.paper, scene.state.garment
    if garment is None:
        return frame(scene, look, title=words("paper.title"), children=[], on_back=scene.go_home)
    drafted = scene.state.drafted
    result = drafted.result if drafted is not None and drafted.garment == garment.id else None
    printable = garment.chalking or (result is not None and result.plan is not None)
    children: list[ft.Control] = []
    if garment.chalking:
        children.append(parts.say(look, words("paper.frozen"), soft=True))
    elif not printable:
        children.append(parts.say(look, words("paper.stop" if drafted and drafted.laid else "proof.waiting")))
    children += [
        parts.choices(
            look, identifier="paper-size", label=words("paper.size"), chosen=garment.paper,
            options=[parts.Option(each, words(f"paper.size.{each}")) for each in ("A4", "Letter")],
            on_choose=lambda value: scene.send(act.SetPaper(garment.id, "Letter" if value == "Letter" else "A4")),
        ),
    ]  # fmt: skip
    fits = garment.chalking or (result is not None and result.layout is not None)
    for name in FILES[1:]:
        there = printable or name == "order.json" or (name == "draft.json" and result is not None)
        there = there and (name != "cloth.svg" or fits)
        save = parts.quiet_button(
            look, words(f"file.{name}"), scene.doing(act.AskFile(garment.id, name)),
            identifier=f"save-{name.replace('.', '-')}", icon="save", enabled=there and not scene.state.busy, wide=True,
        )  # fmt: skip
        children.append(parts.stack([save, parts.say(look, words(f"file.{name}.says"), soft=True, size=SMALL)], GRID))
    sheet = parts.primary_button(
        look, words("file.chalk-sheet.pdf"), lambda: scene.send(act.AskFile(garment.id, FILES[0])),
        identifier="save-chalk-sheet-pdf", enabled=printable, busy=scene.state.busy,
    )  # fmt: skip
    on = parts.quiet_button(
        look, words("paper.sew"), scene.go("sew"), identifier="next", icon="forward", wide=True, enabled=printable
    )
    return frame(scene, look, title=words("paper.title"), children=children, on_back=scene.go("chalk"), foot=[sheet, on])
