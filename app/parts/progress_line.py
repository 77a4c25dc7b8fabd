"""The thin line at the top that says where one is: a tape with one long tick for each stop."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import flet as ft

from app.parts.named import named
from app.parts.touchable import touchable
from app.parts.words import say
from app.theme import SMALL, TOUCH, Look

_TALL_TICK, _LOW_TICK, _LINE = 14, 7, 2
_SHARE = 6
"""What every stop has of the width beside its letters, in letters: no long word is cut, a short one can be tapped."""


@dataclass(frozen=True, slots=True)
class Stop:
    """A stop on the way: `reached` when one may go there."""

    key: str
    words: str
    reached: bool = True


def progress_line(
    look: Look, steps: Sequence[Stop], here: str, on_go: Callable[[str], None], *, identifier: str = "progress"
) -> ft.Control:
    """The stops beside each other; a tap on one that was reached goes there. This one stands on yellow."""
    row = ft.Row([_stop(look, step, step.key == here, on_go, identifier) for step in steps], spacing=0)
    return named(identifier, row)


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
    name, share = f"{identifier}-{step.key}", len(step.words) + _SHARE
    if step.reached and not now:
        return touchable(look, face, lambda: on_go(step.key), identifier=name, height=TOUCH, expand=share)
    return ft.Semantics(
        identifier=name, selected=now, expand=share, container=True, content=ft.Container(face, height=TOUCH)
    )
