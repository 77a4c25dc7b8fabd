"""Sew: what to do after the cut, one step large, all of them below it to tick."""

import flet as ft

from app import actions as act
from app import parts
from app.screens.scene import Scene, frame
from app.screens.trade_words import words_told
from app.sewing import SewItem, Sewing, sewing_of
from app.state import GarmentRecord, Place
from app.text import words
from app.theme import EDGE, LARGE, SMALL, TITLE


def sew(scene: Scene) -> ft.Control:
    """The sewing of the garment in work."""
    look, garment = scene.paper, scene.state.garment
    if garment is None:
        return frame(scene, look, title=words("sew.title"), children=[], on_back=scene.go_home)
    drafted = scene.state.drafted
    sewing = sewing_of(garment, scene.state.frozen.get(garment.id), drafted)
    if sewing is None:
        waiting = drafted is not None and drafted.garment == garment.id and drafted.result is not None
        waiting = waiting and drafted is not None and not drafted.laid and not garment.chalking
        says = parts.say(look, words("proof.waiting" if waiting else "sew.none"), soft=True)
        return frame(scene, look, title=words("sew.title"), children=[says], on_back=scene.go("paper"))
    item = sewing.next(garment.sewn)
    now = ft.Semantics(identifier="sew-now", container=True, content=parts.stack(_now(scene, sewing, item)))
    if item is None:
        foot = parts.primary_button(look, words("sew.home"), lambda: scene.send(act.Go(Place())), identifier="next")
    else:
        key = item.key
        foot = parts.primary_button(
            look, words("sew.done"), lambda: scene.send(act.StepSewn(garment.id, key)), identifier="sew-done"
        )
    # Beside the list it scrolls by itself: a step may say more than a phone on its side is high.
    beside = ft.Column(
        [now], scroll=ft.ScrollMode.AUTO, expand=True, horizontal_alignment=ft.CrossAxisAlignment.STRETCH
    )
    children = [*([] if scene.wide else [now]), *_steps(scene, garment, sewing, item), *_besides(scene, sewing, item)]
    children += words_told(scene, [line for each in sewing.items for line in each.lines])
    return frame(
        scene, look, title=words("sew.title"), children=children, on_back=scene.go("paper"), foot=[foot],
        drawn=beside if scene.wide else None, scroll_key=item.key if item is not None else "end",
    )  # fmt: skip


def _now(scene: Scene, sewing: Sewing, item: SewItem | None) -> list[ft.Control]:
    """What comes next, large; where the garment is tried on, also what that may show."""
    look, count = scene.paper, len(sewing.items)
    if item is None:
        end = parts.say(look, words("sew.end"), size=TITLE, strong=True)
        told = parts.stack([end, parts.say(look, words("sew.end.says", count=count), size=LARGE)])
        return [ft.Semantics(live_region=True, container=True, content=told)]
    at = sewing.items.index(item) + 1
    where = parts.say(look, words("sew.where", at=at, all=count), soft=True)
    heard = words("sew.heard", at=at, all=count, title=item.title)
    lines: list[ft.Control] = [
        ft.Semantics(label=heard, live_region=True, container=True, exclude_semantics=True, content=where),
        ft.Semantics(header=True, heading_level=2, content=parts.say(look, item.title, size=TITLE, strong=True)),
        *(parts.alone(parts.say(look, line, size=LARGE)) for line in item.lines),
    ]
    return [*lines, _tried_on(scene, sewing)] if item.tries_on and sewing.try_on else lines


def _tried_on(scene: Scene, sewing: Sewing) -> ft.Control:
    look = scene.paper
    rows: list[ft.Control] = []
    for row in sewing.try_on:
        seen = parts.say(look, row.seen, strong=True)
        rows.append(ft.Container(parts.stack([seen, parts.say(look, row.change)], 0), padding=ft.Padding.only(bottom=EDGE)))
    return parts.section_fold(look, identifier="sew-try-on", title=words("sew.try_on"), children=rows)


def _steps(scene: Scene, garment: GarmentRecord, sewing: Sewing, item: SewItem | None) -> list[ft.Control]:
    """Every step in its order, to tick and to take the tick away."""
    look = scene.paper
    rows = [
        parts.tick_row(
            look, identifier=f"tick-{each.key.replace('.', '-')}", title=each.title, now=each is item,
            lines=() if each.key in garment.sewn or each is item else each.lines, ticked=each.key in garment.sewn,
            on_tap=scene.doing((act.StepNotSewn if each.key in garment.sewn else act.StepSewn)(garment.id, each.key)),
        )
        for each in sewing.items
    ]  # fmt: skip
    how = parts.say(look, words("sew.all.says"), soft=True, size=SMALL)
    return [parts.stack([parts.heading(look, words("sew.all")), how, parts.stack(rows, 0)])]


def _besides(scene: Scene, sewing: Sewing, item: SewItem | None) -> list[ft.Control]:
    """The try-on, where it does not stand with its step already, and what to take care of."""
    look = scene.paper
    lines: list[ft.Control] = []
    if sewing.try_on and not (item is not None and item.tries_on):
        lines.append(_tried_on(scene, sewing))
    if sewing.cautions:
        says = [parts.say(look, each) for each in sewing.cautions]
        lines.append(parts.section_fold(look, identifier="sew-care", title=words("sew.care"), children=says))
    return lines
