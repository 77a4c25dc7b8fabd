"""The thin line at the top that says where one is: a tape with one long tick for each stop."""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import flet as ft

from app.parts.named import unsaid
from app.parts.touchable import APART, RING, touchable
from app.parts.words import LINE_HEIGHT, say
from app.theme import GAP, SMALL, TOUCH, Look
from drafting.drawing.piece import text_width

_TALL_TICK, _LOW_TICK, _LINE, _APART = 14, 7, 2, 2


@dataclass(frozen=True, slots=True)
class Stop:
    """A stop on the way: `reached` when one may go there. `spoken` is read out for it: which one it is of how many."""

    key: str
    words: str
    reached: bool = True
    spoken: str = ""


def stop_widths(stops: Sequence[Stop], here: str, room: float, text: float = 1.0) -> list[float]:
    """How wide each stop is, px: a finger at least, its words whole, and what `room` has left shared out.

    The device shows letters `text` times larger than usual.
    """
    needed = [max(TOUCH, text_width(each.words, SMALL * text, each.key == here) + GAP * text) for each in stops]
    left = max(room - sum(needed), 0.0) / max(len(stops), 1)
    return [each + left for each in needed]


def from_the_end(widths: Sequence[float], at: int) -> bool:
    """Whether a line that is too long shows its end rather than its beginning: where the stop at this place is seen."""
    return sum(widths[: at + 1]) > sum(widths[at:])


def progress_line(
    look: Look,
    steps: Sequence[Stop],
    here: str,
    on_go: Callable[[str], None],
    *,
    label: str = "",
    room: float,
    text: float = 1.0,
    identifier: str = "progress",
) -> ft.Control:
    """The stops beside each other; a tap on one that was reached goes there. This one stands on yellow.

    To a reader of the screen they are a group, called `label`.
    Where they are wider than the `room`, px, the line runs on out of it and can be moved; this stop is seen.
    The device shows letters `text` times larger than usual.
    """
    widths = stop_widths(steps, here, room, text)
    at = next((index for index, step in enumerate(steps) if step.key == here), 0)
    high = max(TOUCH, _TALL_TICK + _LINE + _APART + math.ceil(SMALL * LINE_HEIGHT * text))
    stops = [
        _stop(look, step, step.key == here, on_go, identifier, (width, high))
        for step, width in zip(steps, widths, strict=True)
    ]
    if sum(widths) < room + 1:
        return _group(ft.Row(stops, spacing=0), identifier, label)
    # A list that begins at its end is there at once; one that is asked to move may be gone when it answers.
    end, around = from_the_end(widths, at), RING + APART
    line = ft.ListView(
        stops[::-1] if end else stops,
        horizontal=True,
        reverse=end,
        spacing=0,
        height=high + 2 * around,
        padding=ft.Padding.symmetric(vertical=around),
        build_controls_on_demand=False,
        scroll=ft.ScrollMode.HIDDEN,
    )
    return _group(line, identifier, label)


def _group(line: ft.Control, identifier: str, label: str) -> ft.Control:
    return ft.Semantics(identifier=identifier, label=label or None, container=True, content=line)


def _stop(
    look: Look, step: Stop, now: bool, on_go: Callable[[str], None], identifier: str, size: tuple[float, float]
) -> ft.Control:
    (width, high), open_to = size, step.reached or now
    colour = look.ink if open_to else look.soft
    tick = ft.Container(
        width=3 if now else 1.5,
        height=_TALL_TICK if now else _LOW_TICK,
        bgcolor=look.on_tape if now else look.ink if open_to else look.faded,
    )
    words = say(look, step.words, size=SMALL, strong=now, colour=colour, align=ft.TextAlign.CENTER, one_line=True)
    face = ft.Column(
        spacing=_APART,
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
    name, spoken = f"{identifier}-{step.key}", step.spoken or None
    if step.reached and not now:
        tapped = touchable(look, face, lambda: on_go(step.key), identifier=name, label=spoken, height=high)
        return ft.Container(tapped, width=width)
    held = ft.Container(unsaid(face) if spoken else face, height=high, width=width)
    return ft.Semantics(identifier=name, label=spoken, selected=now, container=True, content=held)
