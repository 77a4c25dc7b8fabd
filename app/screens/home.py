"""Home: garments in work and people, or one invitation when there is nothing yet."""

from typing import get_args

import flet as ft

from app import actions as act
from app import parts
from app.asked import asked_of
from app.chalking import read_chalking
from app.found import garments_found, people_found
from app.measured import due
from app.names import garment_name
from app.other_garment import several
from app.pictured import picture_of
from app.preset_pictures import preset_outline
from app.presets import garment_named, preset_of
from app.screens.backup import opens
from app.screens.scene import Scene, frame
from app.state import GarmentRecord, Light, PersonRecord, Place, Screen, SortedBy, State
from app.text import words
from app.typed import cloth_is_known
from app.update_backup import OFFERED_AFTER, changes_of
from app.update_garment import END, chalking_of, item_at
from drafting.contract.fields import Preset


LONG = 6
"""So many garments or people and one looks for them by name."""


def home(scene: Scene) -> ft.Control:
    """The first screen."""
    look, book = scene.paper, scene.state.book
    if not scene.state.loaded:
        return frame(scene, look, title=words("app"), children=[parts.say(look, words("home.loading"), soft=True)])
    if scene.state.locked:
        again = parts.primary_button(look, words("saved.try"), lambda: scene.send(act.LoadAgain()), identifier="try-again")
        return frame(scene, look, title=words("app"), children=[parts.say(look, words("home.locked"))], foot=[again])
    new = parts.primary_button(look, words("home.new"), lambda: scene.send(act.AddGarment()), identifier="new-garment")
    demo = parts.quiet_button(
        look, words("home.demo"), lambda: scene.send(act.TryDemo()), identifier="try-demo", wide=True
    )
    if not book.garments and not book.people and not scene.state.left:
        empty = parts.empty_state(
            look, identifier="welcome", title=words("home.welcome"), says=words("home.welcome.says"),
            children=[demo, opens(scene)], low=scene.lying,
        )  # fmt: skip
        return frame(scene, look, title=words("app"), children=[empty, *_about(scene)], foot=[new])
    children: list[ft.Control] = [*_left(scene), *_offer(scene)]
    long = max(len(book.garments), len(book.people)) > LONG
    children += _looking(scene) if long else []
    garments, people, shown = garments_found(scene.state), people_found(scene.state), scene.state.shown
    if book.garments:
        children += [parts.heading(look, words("home.garments"))]
        children += [_garment(scene, garment) for garment in garments[:shown]]
        children += [] if garments or people else [parts.say(look, words("home.none"), soft=True)]
        children += [_more_of(scene)] if len(garments) > shown else []
    else:
        children += [demo]
    children += [parts.gap(2), parts.heading(look, words("home.people"))]
    children += [_person(scene, person) for person in people[:shown]]
    children += [_more_of(scene, "people")] if len(people) > shown else []
    children += [
        parts.quiet_button(
            look,
            words("person.add"),
            lambda: scene.send(act.AddPerson()),
            identifier="add-person",
            icon="add",
            wide=True,
        ),
        *([demo] if book.garments and len(book.garments) < 3 else []),
        parts.gap(2),
        *_about(scene),
    ]
    return frame(scene, look, title=words("app"), children=children, foot=[new])


def _looking(scene: Scene) -> list[ft.Control]:
    """The field to look for something, and the order of what is found."""
    look, send = scene.paper, scene.send
    return [
        parts.field(
            look, identifier="look-for", label=words("home.search"), value=scene.state.looked_for,
            on_change=lambda text: send(act.LookFor(text)),
        ),
        parts.choices(
            look, identifier="sort", label=words("home.sort"), chosen=scene.state.sorted_by,
            options=[parts.Option(each, words(f"home.sort.{each}")) for each in get_args(SortedBy)],
            on_choose=lambda value: send(act.SortBy(next(each for each in get_args(SortedBy) if each == value))),
        ),
    ]  # fmt: skip


def _more_of(scene: Scene, what: str = "garments") -> ft.Control:
    return parts.quiet_button(
        scene.paper, words("home.more"), scene.doing(act.ShowMore()), identifier=f"more-{what}", wide=True
    )


def _left(scene: Scene) -> list[ft.Control]:
    """What is kept and could not be read, with a way to try again."""
    look, left = scene.paper, scene.state.left
    if not left:
        return []
    says = words("saved.left.one") if len(left) == 1 else words("saved.left", count=len(left))
    newer = [parts.say(look, words("saved.left.newer"))] if "newer" in left.values() else []
    again = parts.quiet_button(
        look, words("saved.try"), lambda: scene.send(act.LoadAgain()), identifier="try-again", wide=True
    )
    return [parts.say(look, says, strong=True), *newer, again, parts.gap(1)]


def _offer(scene: Scene) -> list[ft.Control]:
    """A quiet line where much was changed that is in no backup yet."""
    if changes_of(scene.state) < OFFERED_AFTER:
        return []
    look = scene.paper
    save = parts.quiet_button(
        look, words("backup.offer.do"), scene.doing(act.Go(Place("backup"))), identifier="offer-backup", icon="save"
    )
    says = ft.Container(parts.say(look, words("backup.offer"), soft=True), expand=True)
    return [ft.Row([says, save], vertical_alignment=ft.CrossAxisAlignment.CENTER)]


def _about(scene: Scene) -> list[ft.Control]:
    look = scene.paper
    light = parts.choices(
        look,
        identifier="light",
        label=words("home.light"),
        options=[parts.Option(each, words(f"home.light.{each}")) for each in ("system", "light", "dark")],
        chosen=scene.state.book.settings.light,
        on_choose=lambda value: scene.send(act.SetLight(_light(value))),
    )
    says = parts.say(look, words("home.network" if scene.open_network else "home.kept"), soft=True, size=14)
    backup = parts.quiet_button(
        look, words("backup.title"), scene.doing(act.Go(Place("backup"))), identifier="backup", icon="save", wide=True
    )
    folded = [light, backup] if scene.open_network else [light, backup, says]
    fold = parts.section_fold(look, identifier="settings", title=words("home.settings"), children=folded, last=True)
    return [says, fold] if scene.open_network else [fold]  # a warning is never folded away


def _light(value: str) -> Light:
    return "light" if value == "light" else "dark" if value == "dark" else "system"


def _garment(scene: Scene, garment: GarmentRecord) -> ft.Control:
    look, book = scene.paper, scene.state.book
    person = book.person(garment.person)
    frozen = scene.state.frozen.get(garment.id) if garment.chalking else None
    chalking = read_chalking(frozen.draft, frozen.order) if frozen else None
    whose = words("garment.nobody") if person is None else words("garment.for.unnamed")
    if person is not None and person.name.strip():
        whose = words("garment.for", name=person.name.strip())
    facts = [whose, next_words(scene.state, garment) if not garment.state else words(f"state.{garment.state}")]
    share: float | None = None
    share_words = ""
    on_fold = False
    if chalking is None:
        outline = picture_of(book.pictures.get(garment.id, "")) or preset_outline(garment.garment, _like(garment))
    else:
        done = sum(1 for item in chalking.items if item.key in garment.chalk_done)
        share = done / len(chalking.items)
        share_words = words("garment.chalked", done=done, all=len(chalking.items))
        first = next(iter(chalking.pieces.values()))
        outline, on_fold = first.outline, first.on_fold
    name = garment_name(book, garment)
    screen: Screen = "chalk" if garment.chalking else "shape" if person else "person"
    return parts.garment_card(
        look,
        identifier=f"garment-{garment.id}",
        title=name,
        facts=facts,
        on_open=lambda: scene.send(act.Go(Place(screen, garment.id))),
        outline=outline,
        on_fold=on_fold,
        chalked=chalking is not None,
        more=_more_of_garment(scene, garment, name),
        share=share,
        share_words=share_words,
    )


def _like(garment: GarmentRecord) -> Preset | None:
    """The preset that a garment is like; where there are several garments, its first one shows at least which it is."""
    like = preset_of(garment.garment, garment.style)
    return like or (next(iter(garment_named(garment.garment).presets), None) if several() else None)


def _more_of_garment(scene: Scene, garment: GarmentRecord, name: str) -> parts.More:
    key = garment.id
    more = _more(scene, key, name, act.CopyGarment(key), act.DeleteGarment(key), act.AskBackup(garment=key))
    first = [
        parts.Action("turn", words("garment.same_for"), scene.doing(act.SameForAnother(key)), f"same-{key}",
                     words("garment.same_for.of", name=name)),
        parts.Action("list", words("garment.notes"), scene.doing(act.Go(Place("notes", key))), f"notes-{key}",
                     words("garment.notes.of", name=name)),
    ]  # fmt: skip
    return parts.More(more.words, more.identifier, [*first, *more.actions])


def _more(
    scene: Scene, key: str, name: str, copy: act.Action, delete: act.Action, backup: act.Action
) -> parts.More:
    """What stands behind the small button of a card: a copy, deleting, which can be undone, and a backup of it."""
    actions = [
        parts.Action("copy", words("copy"), scene.doing(copy), f"copy-{key}", words("copy.of", name=name)),
        parts.Action("delete", words("delete"), scene.doing(delete), f"delete-{key}", words("delete.of", name=name)),
        parts.Action(
            "save", words("backup.save.one"), scene.doing(backup), f"backup-{key}", words("backup.save.of", name=name)
        ),
    ]
    return parts.More(words("more.for", name=name), f"more-{key}", actions)


def next_words(state: State, garment: GarmentRecord) -> str:
    """Where the chalking of a garment goes on, by the item it stands at; else the step that is next."""
    chalking = chalking_of(state, garment)
    if chalking is not None:
        at = item_at(garment, chalking)
        if at == END:
            return words("chalk.end")
        index, count = chalking.index(at), len(chalking.items)
        item = chalking.items[index]
        if item.kind == "mark":
            return words("garment.go_on.mark", number=item.number, at=index + 1, all=count)
        return words("garment.go_on", at=index + 1, all=count)
    if garment.chalking:  # its marks are read when it is opened
        return words("garment.ticked", done=len(garment.chalk_done))
    if state.book.person(garment.person) is None:
        return words("garment.next.person")
    return words("garment.next.proof" if cloth_is_known(garment) else "garment.next.cloth")


def person_facts(person: PersonRecord, garment: GarmentRecord | None = None, today: str = "") -> str:
    """One line on a person: kind and how many of the measures are there that are asked, for a garment or usually.

    With the day of today it says of a child whether it is to be measured again.
    """
    asked = asked_of(person, garment).asked
    taken = sum(1 for name in asked if person.measures.get(name, "").strip())
    kind = words(f"kind.{person.kind}")
    if due(person, today):
        return words("person.facts.due", kind=kind, taken=taken, asked=len(asked))
    return words("person.facts", kind=kind, taken=taken, asked=len(asked))


def _person(scene: Scene, person: PersonRecord) -> ft.Control:
    name = person.name.strip() or words("person.unnamed")
    return parts.person_card(
        scene.paper,
        identifier=f"person-{person.id}",
        name=name,
        facts=person_facts(person, today=scene.state.today),
        on_open=lambda: scene.send(act.Go(Place("person", person=person.id))),
        open_words=words("open"),
        more=_more(
            scene, person.id, name, act.CopyPerson(person.id), act.DeletePerson(person.id),
            act.AskBackup(person=person.id),
        ),
    )
