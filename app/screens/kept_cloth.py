"""On the cloth's page: the cloths that are kept by name, and keeping this one."""

import flet as ft

from app import actions as act
from app import parts
from app.screens.scene import Scene
from app.state import ClothRecord, GarmentRecord
from app.text import words
from app.update_cloth import as_used, facts_of


def from_kept(scene: Scene, garment: GarmentRecord) -> list[ft.Control]:
    """Which of the kept cloths it is to be; nothing where none is kept."""
    cloths = scene.state.book.cloths
    if not cloths:
        return []
    return [parts.choices(
        scene.paper, identifier="kept-cloth", label=words("cloths.from"), chosen=garment.of_cloth,
        options=[parts.Option(each.id, cloth_words(each)) for each in cloths],
        on_choose=lambda value: scene.send(act.UseCloth(garment.id, value)),
    )]  # fmt: skip


def cloth_words(cloth: ClothRecord) -> str:
    """The name of a kept cloth and how much of it is left."""
    name, left = cloth.name.strip() or words("cloths.unnamed"), cloth.facts.get("length", "").strip()
    return (
        words("cloths.left", name=name, left=f"{left} {cloth.unit}" if left.replace(".", "").isdecimal() else left)
        if left
        else name
    )


def keeping(scene: Scene, garment: GarmentRecord) -> ft.Control:
    """Keep this cloth by name for other garments, or what is known of it now."""
    look, cloth = scene.paper, scene.state.book.cloth(garment.of_cloth)
    children: list[ft.Control] = [parts.say(look, words("cloths.says"), soft=True)]
    if cloth is None:
        children.append(parts.quiet_button(
            look, words("cloths.keep"), scene.doing(act.KeepCloth(garment.id)), identifier="keep-cloth", wide=True
        ))  # fmt: skip
        return parts.section_fold(look, identifier="keep-cloth-fold", title=words("cloths.title"), children=children)
    key = cloth.id
    children += [
        parts.field(
            look, identifier="cloth-name", label=words("cloths.name"), value=cloth.name, name=True,
            on_change=lambda text: scene.send(act.TypeClothName(key, text)),
        ),
        parts.choices(
            look, identifier="washed", label=words("cloths.washed"), chosen="yes" if cloth.washed else "no",
            options=[parts.Option("yes", words("cloths.washed.yes")), parts.Option("no", words("cloths.washed.no"))],
            on_choose=lambda value: scene.send(act.SetWashed(key, value == "yes")),
        ),
    ]  # fmt: skip
    if as_used(cloth) != facts_of(garment):
        children.append(parts.quiet_button(
            look, words("cloths.renew"), scene.doing(act.KeepCloth(garment.id)), identifier="keep-cloth", wide=True
        ))  # fmt: skip
    children.append(parts.quiet_button(
        look, words("cloths.delete"), scene.doing(act.DeleteCloth(key)), identifier="delete-cloth", wide=True
    ))  # fmt: skip
    return parts.section_fold(
        look, identifier="keep-cloth-fold", title=words("cloths.title"), children=children, opened=not cloth.name
    )
