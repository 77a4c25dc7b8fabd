"""Paper: the chalk sheet and the pattern to print, save or share; files for other programs are folded away."""

import flet as ft

from app import actions as act
from app import parts
from app.actions import Way
from app.screens.scene import Scene, frame
from app.state import GarmentRecord
from app.text import words
from app.theme import GRID, SMALL

PAPERS = ("chalk-sheet.pdf", "pattern.pdf")
FILES = ("pattern.svg", "cloth.svg", "order.json", "draft.json")
_WAYS: tuple[Way, ...] = ("print", "save", "share")


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
    children.append(
        parts.choices(
            look, identifier="paper-size", label=words("paper.size"), chosen=garment.paper,
            options=[parts.Option(each, words(f"paper.size.{each}")) for each in ("A4", "Letter")],
            on_choose=lambda value: scene.send(act.SetPaper(garment.id, "Letter" if value == "Letter" else "A4")),
        )
    )  # fmt: skip
    children += [_paper(scene, garment, name, enabled=printable) for name in PAPERS]
    children.append(
        parts.choices(
            look, identifier="sheet-measures", label=words("paper.code"), how=(words("paper.code.how"),),
            options=[parts.Option(each, words(f"paper.code.{each}")) for each in ("no", "yes")],
            chosen="yes" if garment.sheet_measures else "no",
            on_choose=lambda value: scene.send(act.SheetMeasures(garment.id, value == "yes")),
        )
    )  # fmt: skip
    laid = garment.chalking or (result is not None and result.layout is not None)
    there = {
        "pattern.svg": printable, "cloth.svg": printable and laid, "order.json": True,
        "draft.json": printable or result is not None,
    }  # fmt: skip
    files: list[ft.Control] = [_file(scene, garment, name, enabled=there[name]) for name in FILES]
    children.append(parts.section_fold(look, identifier="paper-files", title=words("paper.files"), children=files))
    on = parts.primary_button(look, words("paper.sew"), scene.go("sew"), identifier="next", enabled=printable)
    return frame(scene, look, title=words("paper.title"), children=children, on_back=scene.go("chalk"), foot=[on])


def _paper(scene: Scene, garment: GarmentRecord, name: str, *, enabled: bool) -> ft.Control:
    """One paper: what it is for, what can be done with it, and how it comes out true."""
    look = scene.paper
    lines: list[ft.Control] = [parts.heading(look, words(f"file.{name}")), parts.say(look, words(f"file.{name}.says"))]
    lines += [
        parts.quiet_button(
            look, words(f"file.{name}.{way}"), scene.doing(act.AskFile(garment.id, name, way)),
            identifier=f"{way}-{name.replace('.', '-')}", icon=way, enabled=enabled and not scene.state.busy, wide=True,
        )
        for way in _WAYS
    ]  # fmt: skip
    return parts.stack([*lines, parts.say(look, words(f"file.{name}.how"), soft=True, size=SMALL)])


def _file(scene: Scene, garment: GarmentRecord, name: str, *, enabled: bool) -> ft.Control:
    """One file for another program."""
    look = scene.paper
    save = parts.quiet_button(
        look, words(f"file.{name}"), scene.doing(act.AskFile(garment.id, name)),
        identifier=f"save-{name.replace('.', '-')}", icon="save", enabled=enabled and not scene.state.busy, wide=True,
    )  # fmt: skip
    return parts.stack([save, parts.say(look, words(f"file.{name}.says"), soft=True, size=SMALL)], GRID)
