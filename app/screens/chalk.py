"""Chalk: one mark at a time on the cloth surface, its readings as large as they go."""

from collections.abc import Callable

import flet as ft

from app import actions as act
from app import parts
from app.chalking import Chalking, Item
from app.screens.changed_band import changed_card, changed_line
from app.screens.chalk_drawing import chalk_drawing, item_heard
from app.screens.reading_tape import reading_tape
from app.screens.clash import clash_line
from app.screens.scene import Scene, frame, notice
from app.screens.table_side import table_side
from app.screens.trade_words import words_told
from app.spoken import named
from app.state import GarmentRecord, Place
from app.text import words
from app.theme import COLUMN, CORNER, EDGE, GAP, LARGE, TITLE, TOUCH
from app.update_garment import END, chalking_of, item_at


_LEAST_DRAWN = 0.3
"""The share of the height under the top that the drawing keeps with letters of the usual size; less with larger ones."""
_BUTTON = 54.0
"""The height for words in the button that moves on, px."""
_LEAST_GROWN = 0.22
"""The share that it keeps however large the letters are."""


def chalk(scene: Scene) -> ft.Control:
    """The chalking of the garment in work, from its frozen draft."""
    look, garment = scene.cloth, scene.state.garment
    if garment is None:
        return frame(scene, look, title=words("chalk.title"), children=[], on_back=scene.go_home)
    chalking = chalking_of(scene.state, garment)
    if chalking is None:
        if garment.id in scene.state.unread or garment.id in scene.state.frozen:  # what is there cannot be followed
            return _unread(scene, garment)
        return _reading(scene) if garment.chalking else _begin(scene, garment)
    if scene.state.place.step == 1:
        return _list(scene, garment, chalking)
    key = item_at(garment, chalking)
    if key == END:
        return _end(scene, garment, chalking)
    return _item(scene, garment, chalking, chalking.index(key))


def _unread(scene: Scene, garment: GarmentRecord) -> ft.Control:
    """For marks that are kept and cannot be read: they are tried again, or left for a new draft on purpose."""
    look = scene.cloth
    button = parts.primary_button(
        look, words("chalk.unread.try"), lambda: scene.send(act.ReadFrozen(garment.id)), identifier="read-again",
        busy=scene.state.busy,
    )  # fmt: skip
    again = parts.quiet_button(
        look, words("chalk.again"), lambda: scene.send(act.DraftAgain(garment.id)), identifier="draft-again",
    )  # fmt: skip
    says = [parts.say(look, words("chalk.unread")), parts.say(look, words("chalk.again.says"), soft=True), again]
    foot = [button] if garment.id in scene.state.unread else []  # what was read is the same at the next try
    return frame(scene, look, title=words("chalk.title"), children=says, on_back=scene.go("proof"), foot=foot)


def _reading(scene: Scene) -> ft.Control:
    """While the marks are read from what is kept."""
    look = scene.cloth
    return frame(
        scene, look, title=words("chalk.title"), children=[parts.say(look, words("busy.read"), soft=True)],
        on_back=scene.go_home,
    )  # fmt: skip


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
    """The item of this place, or the mark that a touch on the drawing reads; the order stays where it is then."""
    look, now = scene.cloth, chalking.items[at]
    item = next((each for each in chalking.items if each.key == scene.state.lit), now)
    looking, column = item is not now, scene.column if scene.wide else min(scene.width, COLUMN)
    room = column - 2 * EDGE
    zone = _zone(scene, chalking, room)
    band = clash_line(scene.state, look, scene.go("chalk", 1)) or changed_line(scene, garment)
    shown: ft.Control
    if item.pairs:
        height = scene.height - parts.TOP - parts.FOOT - zone.height - (parts.BAND if band is not None else 0.0)
        shown = parts.named_readings(
            look, zone, identifier="readings", name=named(item), unit=chalking.unit, lit=not looking,
            pairs=[(words(f"chalk.{label}"), value) for label, value in item.pairs],
            done=words("chalk.ticked") if item.key in garment.chalk_done else "",
        )  # fmt: skip
        if scene.state.book.settings.aloud:  # all of the zone is large enough for a hand with chalk on it
            shown = ft.GestureDetector(
                content=shown, on_tap=lambda _: scene.send(act.SayAgain()), exclude_from_semantics=True
            )
    else:
        height = _height(scene)
        shown = _words(scene, item, garment.chalk_done)
    if looking:
        title = words("chalk.looking")
        foot = [_way_on(scene, words("chalk.look_back"), act.LightMark(""), "look-back", room)]
    else:
        title = words("chalk.where", piece=chalking.pieces[item.piece].label.capitalize(), at=at + 1, all=len(chalking.items))
        ticked = item.key in garment.chalk_done or item.kind == "words"
        done = _way_on(scene, words("chalk.next" if ticked else "chalk.done"), act.MarkDone(garment.id, item.key), "done", room)
        keys = ft.Semantics(identifier="keys", label=words("chalk.keys"), container=True, content=ft.Container(width=1, height=1))
        back = _back(scene, lambda: scene.send(act.ChalkBack(garment.id, item.key)), enabled=at > 0)
        # What only a reader finds lies over a corner of "back", so that Done ends at the edge of the readings.
        foot = [ft.Stack([back, ft.Container(keys, left=0, bottom=0)]), done]
    drawn = _drawn(scene, garment, chalking, item, height=scene.beside[1] if scene.wide else height)
    over: list[ft.Control] = []
    if looking:
        go = parts.quiet_button(
            look, words("chalk.go_to"), lambda: scene.send(act.ChalkAt(garment.id, item.key)), identifier="go-to"
        )
        over = [ft.Container(go, left=GAP, bottom=GAP, bgcolor=look.ground, border_radius=CORNER,
                             clip_behavior=ft.ClipBehavior.NONE)]  # fmt: skip
    drawn = ft.Stack([drawn, *over])  # always one, so that the drawing stays itself and keeps its pinch
    return parts.table_frame(
        look, identifier="screen-chalk", top=_top(scene, title, column), drawn=drawn, zone=shown, foot=foot,
        notice=notice(scene, look), band=band, width=scene.width, column=column, beside=scene.wide,
        drawing=None if item.pairs else height,
    )  # fmt: skip


def _zone(scene: Scene, chalking: Chalking, room: float) -> parts.Zone:
    """The room that name and readings take on this page, the same for everything that is chalked."""
    read = [item for item in chalking.items if item.pairs]
    names = tuple(named(item) for item in read if item.kind == "mark")
    rare = tuple(named(item) for item in read if item.kind != "mark")
    readings = tuple(tuple((words(f"chalk.{label}"), value) for label, value in item.pairs) for item in read)
    high = scene.height - parts.TOP - parts.FOOT
    least, grown = (0.0, 0.0) if scene.wide else (_LEAST_DRAWN * high, _LEAST_GROWN * high)
    return parts.zone_for(
        names, readings, chalking.unit, rare=rare, room=room, height=high - least, text=scene.text, lying=scene.lying,
        largest=high - grown,
    )  # fmt: skip


def _words(scene: Scene, item: Item, done: tuple[str, ...]) -> ft.Control:
    """What is only read: it may be long, so it scrolls."""
    look = scene.cloth
    lines = [parts.say(look, item.title, size=TITLE, strong=True), parts.say(look, item.says, size=LARGE)]
    said = ft.Semantics(identifier="step-says", live_region=True, container=True, content=parts.stack(lines))
    told = parts.stack([said, *words_told(scene, (item.title, item.says), look)])
    return ft.Column(
        [ft.Container(told, padding=EDGE)], scroll=ft.ScrollMode.AUTO, expand=True, key=item.key,
        horizontal_alignment=ft.CrossAxisAlignment.STRETCH,
    )  # fmt: skip


def _top(scene: Scene, title: str, column: float) -> ft.Control:
    """The way back to the proof, where one is in the order, and the list of all marks."""
    look = scene.cloth
    back = parts.icon_button(look, "back", words("back"), scene.go("proof"), identifier="back")
    aloud = scene.state.book.settings.aloud
    again = parts.icon_button(
        look, "turn", words("aloud.again"), scene.doing(act.SayAgain()), identifier="say-again"
    )
    actions = [
        *([again] if aloud else []),
        parts.icon_button(look, "sound" if aloud else "silent", words("aloud.off" if aloud else "aloud.on"),
                          lambda: scene.send(act.SetAloud(not aloud)), identifier="read-aloud"),
        parts.icon_button(look, "list", words("chalk.list"), scene.go("chalk", 1), identifier="mark-list")]
    room = column - (1 + len(actions)) * TOUCH - 4 * GAP
    size = parts.fitted(title, room, parts.TOP - GAP, LARGE * scene.text, True) / scene.text
    said = ft.Text(title, style=parts.tight(look, size, strong=True))
    heading = ft.Semantics(header=True, heading_level=1, content=said)
    return ft.Row(
        [ft.Container(width=0), back, ft.Container(heading, expand=True), ft.Row(actions, spacing=GAP, tight=True), ft.Container(width=0)],
        spacing=4, vertical_alignment=ft.CrossAxisAlignment.CENTER,
    )  # fmt: skip


def _way_on(scene: Scene, text: str, action: act.Action, identifier: str, room: float) -> ft.Control:
    """The one button that the hand needs, its words as large as the device asks and the button holds."""
    size = parts.fitted(text, room - 3 * TOUCH, _BUTTON, LARGE * scene.text, True)
    return ft.Container(
        parts.primary_button(
            scene.cloth, text, lambda: scene.send(action), identifier=identifier, size=size / scene.text, first=scene.kept.first
        ),
        expand=True,
    )


def _back(scene: Scene, go: Callable[[], None], *, enabled: bool) -> ft.Control:
    look = scene.cloth
    button = parts.icon_button(look, "back", words("chalk.back"), go, identifier="mark-back", enabled=enabled)
    edge = ft.Border.all(1, look.edge if enabled else look.hair)
    return ft.Container(button, border=edge, border_radius=CORNER, clip_behavior=ft.ClipBehavior.NONE)


def _height(scene: Scene) -> float:
    """The height of the drawing above words, px."""
    return min(max(scene.height * 0.3, 150), 340)


def _drawn(scene: Scene, garment: GarmentRecord, chalking: Chalking, item: Item, *, height: float) -> ft.Control:
    return chalk_drawing(
        scene, garment, chalking, item, height=height,
        on_mark=lambda key: scene.send(act.LightMark(_looked(garment, chalking, key or ""))),
    )  # fmt: skip


def _looked(garment: GarmentRecord, chalking: Chalking, key: str) -> str:
    """What a touch on the drawing reads: nothing beside all marks, and nothing anew at the mark one is at."""
    known = any(item.key == key for item in chalking.items)
    return key if known and key != item_at(garment, chalking) else ""


def _list(scene: Scene, garment: GarmentRecord, chalking: Chalking) -> ft.Control:
    look = scene.cloth
    rows: list[ft.Control] = []
    for index, item in enumerate(chalking.items):
        said = words("chalk.heard.row", at=index + 1, all=len(chalking.items), says=item_heard(chalking, item))
        rows.append(_row(scene, garment, item, index + 1, said, now=item.key == item_at(garment, chalking)))
    tape = reading_tape(scene, look, garment)
    again = parts.quiet_button(
        look, words("chalk.again"), lambda: scene.send(act.DraftAgain(garment.id)), identifier="draft-again",
        icon="turn",        wide=True,
    )  # fmt: skip
    return frame(
        scene, look, title=words("chalk.list"), on_back=scene.go("chalk"),
        children=[
            *changed_card(scene, look, garment, opened=True), table_side(scene, look), *([tape] if tape is not None else []),
            parts.gap(2), parts.stack(rows, 0), parts.gap(3), parts.say(look, words("chalk.again.says"), soft=True), again,
        ],
    )  # fmt: skip


def _row(scene: Scene, garment: GarmentRecord, item: Item, number: int, said: str, *, now: bool) -> ft.Control:
    """One line of the list: done or not, what it is, its readings; `said` is read out for it."""
    look = scene.cloth
    done = item.key in garment.chalk_done
    label = item.says
    if item.kind == "mark":
        second = any(name == "down_second" for name, _ in item.pairs)
        label = words("chalk.mark_second" if second else "chalk.mark", number=item.number, label=item.says)
    text = item.title if item.kind == "words" else label
    colour = look.accent if now else look.soft if done else look.ink
    readings = " / ".join(value for _, value in item.pairs)
    face = ft.Row(
        [
            ft.Container(parts.sign("check", colour, 20) if done else None, width=28),
            ft.Container(parts.say(look, text, colour=colour, strong=now), expand=True),
            parts.say(look, readings, colour=colour, strong=True, one_line=True),
        ],
        spacing=GAP,
    )
    tapped = parts.touchable(
        look, face, scene.doing(act.ChalkAt(garment.id, item.key)), identifier=f"item-{number}",
        label=f"{said} {words('chalk.ticked')}" if done else said, selected=now, corner=0,
        padding=ft.Padding.symmetric(vertical=14),
    )  # fmt: skip
    return ft.Container(tapped, border=ft.Border.only(bottom=ft.BorderSide(1, look.hair)))


def _end(scene: Scene, garment: GarmentRecord, chalking: Chalking) -> ft.Control:
    look = scene.cloth
    marks = [item.key for item in chalking.items if item.kind == "mark"]
    left = sum(1 for key in marks if key not in garment.chalk_done)
    says = words("chalk.left_over", count=left) if left else words("chalk.all_done", count=len(marks))
    told = [parts.say(look, words("chalk.end"), size=TITLE, strong=True), parts.say(look, says, size=LARGE)]
    back = parts.quiet_button(
        look,
        words("chalk.back"),
        lambda: scene.send(act.ChalkBack(garment.id, END)),
        identifier="mark-back",
        icon="back",
    )
    listed = parts.quiet_button(look, words("chalk.list"), scene.go("chalk", 1), identifier="mark-list", icon="list")
    on = parts.primary_button(
        look, words("chalk.paper"), lambda: scene.send(act.Go(Place("paper", garment.id))), identifier="next",
        first=scene.kept.first,
    )  # fmt: skip
    return frame(
        scene, look, title=words("chalk.title"), on_back=scene.go("proof"),
        children=[ft.Semantics(identifier="step-says", live_region=True, container=True, content=parts.stack(told))],
        foot=[parts.strip([back, listed]), on],
    )  # fmt: skip
