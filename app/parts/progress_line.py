"""The thin line at the top that says where one is: a tape with one long tick for each stop."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import flet as ft

from app.parts.named import unsaid
from app.parts.touchable import touchable
from app.parts.words import say
from app.theme import SMALL, TOUCH, Look

_TALL_TICK, _LOW_TICK, _LINE = 14, 7, 2
_SHARE = 6
"""What every stop has of the width beside its letters, in letters: no long word is cut, a short one can be tapped."""


@dataclass(frozen=True, slots=True)
class Stop:
    """A stop on the way: `reached` when one may go there. `spoken` is read out for it: which one it is of how many."""

    key: str
    words: str
    reached: bool = True
    spoken: str = ""


def progress_line(
    look: Look,
    steps: Sequence[Stop],
    here: str,
    on_go: Callable[[str], None],
    *,
    label: str = "",
    identifier: str = "progress",
) -> ft.Control:
    """The stops beside each other; a tap on one that was reached goes there. This one stands on yellow.

    To a reader of the screen they are a group, called `label`.
    """
    row = ft.Row([_stop(look, step, step.key == here, on_go, identifier) for step in steps], spacing=0)
    return ft.Semantics(identifier=identifier, label=label or None, container=True, content=row)


def _stop(look: Look, step: Stop, now: bool, on_go: Callable[[str], None], identifier: str) -> ft.Control:
    open_to = step.reached or now
    colour = look.ink if open_to else look.soft
    tick = ft.Container(
        width=3 if now else 1.5,
        height=_TALL_TICK if now else _LOW_TICK,
        bgcolor=look.on_tape if now else look.ink if open_to else look.faded,
    )
    words = say(look, step.words, size=SMALL, strong=now, colour=colour, align=ft.TextAlign.CENTER, one_line=True)
    face = ft.Column(
        spacing=2,
        horizontal_alignment=ft.CrossAxisAlignment.CENTER,
        controls=[
            ft.Container(
                tick,
                height=_TALL_TICK + _LINE,
                alignment=ft.Alignment.TOP_CENTER,
                bgcolor=look.tape if now else None,
                border=ft.Border.only(top=ft.BorderSide(_LINE, look.ink if open_to else look.faded)),
                border_radius=0,
            ),
            words,
        ],
    )
    name, share, spoken = f"{identifier}-{step.key}", len(step.words) + _SHARE, step.spoken or None
    shown = unsaid(face) if spoken else face
    if step.reached and not now:
        return touchable(
            look, shown, lambda: on_go(step.key), identifier=name, label=spoken, height=TOUCH, expand=share
        )
    return ft.Semantics(
        identifier=name,
        label=spoken,
        selected=now,
        expand=share,
        container=True,
        content=ft.Container(shown, height=TOUCH),
    )
