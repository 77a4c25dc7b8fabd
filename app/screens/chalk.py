"""Chalk: one mark at a time on the cloth surface, its readings as large as they go."""

import flet as ft

from app import actions as act
from app import parts
from app.chalking import Chalking, Item
from app.screens.chalk_drawing import chalk_drawing
from app.screens.scene import Scene, frame
from app.screens.table_side import table_side
from app.state import GarmentRecord, Place
from app.text import words
from app.theme import GAP, LARGE, READING, TITLE
from app.update_garment import END, chalking_of, item_at


_LYING = 50.0
"""The largest a reading goes on a phone that lies on its side, px: two lines of label fit above it."""


_HIGH = 780.0
"""From this height on a page holds both readings under each other at their full size, px."""


def chalk(scene: Scene) -> ft.Control:
    """The chalking of the garment in work, from its frozen draft."""
    look, garment = scene.cloth, scene.state.garment
    if garment is None:
        return frame(scene, look, title=words("chalk.title"), children=[], on_back=scene.go_home)
    chalking = chalking_of(scene.state, garment)
    if chalking is None:
        return _begin(scene, garment)
    if scene.state.place.step == 1:
        return _list(scene, garment, chalking)
    key = item_at(garment, chalking)
    if key == END:
        return _end(scene, garment, chalking)
    return _item(scene, garment, chalking, chalking.index(key))


def _begin(scene: Scene, garment: GarmentRecord) -> ft.Control:
    look, drafted = scene.cloth, scene.state.drafted
    ready = drafted is not None and drafted.garment == garment.id and drafted.result is not None
    ready = ready and drafted is not None and drafted.result is not None and drafted.result.plan is not None
    button = parts.primary_button(
        look, words("proof.chalk"), lambda: scene.send(act.StartChalking(garment.id)), identifier="start-chalking",
        enabled=ready, busy=scene.state.busy,
    )  # fmt: skip
    waiting = drafted is not None and drafted.result is not None and not drafted.laid
    says = words("chalk.begin" if ready else "proof.waiting" if waiting else "chalk.not_ready")
    return frame(
        scene,
        look,
        title=words("chalk.title"),
        children=[parts.say(look, says)],
        on_back=scene.go("proof"),
        foot=[button],
    )


def _item(scene: Scene, garment: GarmentRecord, chalking: Chalking, at: int) -> ft.Control:
    look, item = scene.cloth, chalking.items[at]
    drawn = _drawn(scene, garment, chalking, item, height=scene.beside[1] if scene.wide else _height(scene, item))
    children: list[ft.Control] = []
    if item.kind == "words":
        children += [parts.say(look, item.title, size=TITLE, strong=True), parts.say(look, item.says, size=LARGE)]
    else:
        name = words("chalk.mark", number=item.number, label=item.says) if item.kind == "mark" else item.says
        children += [
            parts.stack([parts.say(look, item.title, soft=True), parts.say(look, name, size=LARGE, strong=True)], 0)
        ]
        pairs = [(words(f"chalk.{label}"), value) for label, value in item.pairs]
        if len(pairs) == 2:
            children += [
                parts.readings(
                    look, identifier="readings", pairs=pairs, unit=chalking.unit, room=scene.room,
                    largest=_LYING if scene.lying else READING, high=scene.height >= _HIGH,
                )
            ]  # fmt: skip
        else:
            children += [
                parts.reading(look, identifier="readings", label=label, value=value, unit=chalking.unit)
                for label, value in pairs
            ]
    done = parts.primary_button(
        look, words("chalk.done" if item.kind != "words" else "chalk.next"),
        lambda: scene.send(act.MarkDone(garment.id, item.key)), identifier="done",
    )  # fmt: skip
    others = [
        parts.quiet_button(look, words("chalk.back"), lambda: scene.send(act.ChalkBack(garment.id, item.key)),
                           identifier="mark-back", icon="back", enabled=at > 0),
        parts.quiet_button(look, words("chalk.list"), scene.go("chalk", 1), identifier="mark-list", icon="list"),
    ]  # fmt: skip
    # A page that is low leaves its height to the readings.
    foot = [ft.Row([*others, ft.Container(done, expand=True)], spacing=GAP)] if scene.lying else [parts.strip(others), done]
    title = words("chalk.where", piece=chalking.pieces[item.piece].label.capitalize(), at=at + 1, all=len(chalking.items))
    return frame(
        scene, look, title=title, children=children, on_back=scene.go("proof"), foot=foot,
        drawn=drawn,
    )  # fmt: skip


def _height(scene: Scene, item: Item) -> float:
    room = 0.24 if item.kind == "words" else 0.3
    return min(max(scene.height * room, 150), 340)


def _drawn(scene: Scene, garment: GarmentRecord, chalking: Chalking, item: Item, *, height: float) -> ft.Control:
    return chalk_drawing(
        scene, garment, chalking, item, height=height,
        on_mark=lambda key: scene.send(act.ChalkAt(garment.id, key)) if key else None,
    )  # fmt: skip


def _list(scene: Scene, garment: GarmentRecord, chalking: Chalking) -> ft.Control:
    look = scene.cloth
    rows: list[ft.Control] = []
    for index, item in enumerate(chalking.items):
        rows.append(_row(scene, garment, item, index + 1, now=item.key == item_at(garment, chalking)))
    again = parts.quiet_button(
        look, words("chalk.again"), lambda: scene.send(act.DraftAgain(garment.id)), identifier="draft-again",
        icon="turn",        wide=True,
    )  # fmt: skip
    return frame(
        scene, look, title=words("chalk.list"), on_back=scene.go("chalk"),
        children=[table_side(scene, look), parts.gap(2), parts.stack(rows, 0), parts.gap(3), parts.say(look, words("chalk.again.says"), soft=True), again],
    )  # fmt: skip


def _row(scene: Scene, garment: GarmentRecord, item: Item, number: int, *, now: bool) -> ft.Control:
    """One line of the list: done or not, what it is, its readings."""
    look = scene.cloth
    done = item.key in garment.chalk_done
    label = item.says
    if item.kind == "mark":
        second = any(name == "down_second" for name, _ in item.pairs)
        label = words("chalk.mark_second" if second else "chalk.mark", number=item.number, label=item.says)
    text = item.title if item.kind == "words" else label
    colour = look.accent if now else look.faded if done else look.ink
    readings = " / ".join(value for _, value in item.pairs)
    face = ft.Row(
        [
            ft.Container(parts.sign("check", colour, 20) if done else None, width=28),
            ft.Container(parts.say(look, text, colour=colour, strong=now), expand=True),
            parts.say(look, readings, colour=colour, strong=True, one_line=True),
        ],
        spacing=GAP,
    )
    tapped = ft.Container(
        face, on_click=lambda _: scene.send(act.ChalkAt(garment.id, item.key)), ink=True,
        padding=ft.Padding.symmetric(vertical=14),
        border=ft.Border.only(bottom=ft.BorderSide(1, look.hair)),
    )  # fmt: skip
    return ft.Semantics(identifier=f"item-{number}", button=True, selected=now, content=tapped)


def _end(scene: Scene, garment: GarmentRecord, chalking: Chalking) -> ft.Control:
    look = scene.cloth
    marks = [item.key for item in chalking.items if item.kind == "mark"]
    left = sum(1 for key in marks if key not in garment.chalk_done)
    says = words("chalk.left_over", count=left) if left else words("chalk.all_done", count=len(marks))
    back = parts.quiet_button(
        look,
        words("chalk.back"),
        lambda: scene.send(act.ChalkBack(garment.id, END)),
        identifier="mark-back",
        icon="back",
    )
    listed = parts.quiet_button(look, words("chalk.list"), scene.go("chalk", 1), identifier="mark-list", icon="list")
    on = parts.primary_button(
        look, words("chalk.paper"), lambda: scene.send(act.Go(Place("paper", garment.id))), identifier="next"
    )
    return frame(
        scene, look, title=words("chalk.title"), on_back=scene.go("proof"),
        children=[parts.say(look, words("chalk.end"), size=TITLE, strong=True), parts.say(look, says, size=LARGE)],
        foot=[parts.strip([back, listed]), on],
    )  # fmt: skip
