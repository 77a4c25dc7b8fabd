"""Choosing one of a few: chips that wrap, or rows with a note under each.

Each is a group of radio buttons, to a reader of the screen and to the keyboard: Tab comes to the chosen one, the arrows
choose the next, Space takes the one that the ring is round.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import flet as ft

from app.parts.named import Described, unsaid
from app.parts.problem_line import problem_line
from app.parts.signs import sign
from app.parts.stops import tells
from app.parts.touchable import RING
from app.parts.words import say, stack
from app.theme import CORNER, EDGE, GAP, GRID, SMALL, TOUCH, Look

_ALL_OVER = 1200.0
"""Pixels that reach from the middle of a row past its ends, on every screen."""


@dataclass(frozen=True, slots=True)
class Option:
    """One thing to choose: the value that is kept, its words, a note where it needs one, and a picture over them.

    `picture` draws it on a surface; the same function is the same picture. `spoken` is read out in place of all that.
    """

    value: str
    words: str
    note: str = ""
    picture: Callable[[Look], ft.Control] | None = None
    spoken: str = ""


class _Held:
    """The chips as they were last drawn, each with what it depends on, and what a tap on one does now."""

    def __init__(self) -> None:
        self.chips: dict[str, tuple[object, ft.Control]] = {}
        self.choose: Callable[[str], None] = lambda value: None

    def tapped(self, value: str) -> None:
        """Choose, as the newest drawing has it."""
        self.choose(value)


@ft.component
def choices(
    look: Look,
    *,
    identifier: str,
    options: Sequence[Option],
    chosen: str | None,
    on_choose: Callable[[str], None],
    label: str = "",
    problem: str = "",
    how: Sequence[str] = (),
) -> ft.Control:
    """Chips beside each other, wrapping. The chosen one is filled and ticked.

    A chip that stays as it was is used again, so that a tap compares and sends only two.
    """
    held: ft.MutableRef[_Held] = ft.use_ref(_Held)
    before = held.current or _Held()
    before.choose = on_choose
    chips: dict[str, tuple[object, ft.Control]] = {}
    for option in options:
        depends = (look, option, option.value == chosen, identifier)
        chip = before.chips.get(option.value)
        if chip is None or chip[0] != depends:
            control = _chip(look, option, option.value == chosen, before.tapped, identifier)
            chip = depends, control
        chips[option.value] = chip
    before.chips = chips
    row = ft.Row([control for _, control in chips.values()], wrap=True, spacing=GAP, run_spacing=GAP)
    group = one_of(row, identifier, label, chosen, before.tapped)
    return stack(_framed(look, label, how, [group], problem, identifier), spacing=GRID)


def choice_rows(
    look: Look,
    *,
    identifier: str,
    options: Sequence[Option],
    chosen: str | None,
    on_choose: Callable[[str], None],
    label: str = "",
    called: str = "",
    problem: str = "",
    how: Sequence[str] = (),
) -> ft.Control:
    """One option a row, with its note under it. Without a `label` of its own it is `called` what stands above it."""
    rows = [_row(look, option, option.value == chosen, on_choose, identifier) for option in options]
    group = one_of(stack(rows), identifier, label or called, chosen, on_choose)
    return stack(_framed(look, label, how, [group], problem, identifier), spacing=GRID)


def one_of(
    content: ft.Control, identifier: str, label: str, chosen: str | None, on_choose: Callable[[str], None]
) -> ft.Control:
    """What holds the options, each with its `radio`, as one group that is called `label`."""

    def changed(event: ft.Event[ft.RadioGroup]) -> None:
        if event.control.value is not None:
            on_choose(event.control.value)

    group = ft.RadioGroup(content=content, value=chosen, on_change=changed)
    return ft.Semantics(identifier=f"{identifier}-group", label=label, container=True, content=group)


def _framed(
    look: Look, label: str, how: Sequence[str], middle: list[ft.Control], problem: str, identifier: str
) -> list[ft.Control]:
    lines: list[ft.Control] = [say(look, label, strong=True)] if label else []
    lines += [say(look, line, size=SMALL, soft=True) for line in how]
    lines += middle
    if problem:
        lines.append(problem_line(look, problem, identifier))
    return lines


def touch(
    look: Look, option: Option, now: bool, on_choose: Callable[[str], None], identifier: str, face: ft.Control,
    padding: ft.Padding,
) -> ft.Control:  # fmt: skip
    """The face of one option as something to tap, filled and with a heavier edge where it is chosen `now`."""
    box = ft.Container(
        face,
        bgcolor=look.well if now else look.sheet,
        border=ft.Border.all(2 if now else 1, look.ink if now else look.edge),
        border_radius=CORNER,
        padding=padding,
        ink=False,
        on_click=lambda _: on_choose(option.value),
    )
    return radio(look, option.value, box, on_choose, identifier=f"{identifier}-{option.value}", label=option.spoken)


def radio(
    look: Look, value: str, face: ft.Control, on_choose: Callable[[str], None], *, identifier: str, label: str = ""
) -> ft.Control:  # fmt: skip
    """The face as one option of a group. A `label` is read out instead of its words.

    A tap of a reader of the screen chooses by itself, as a finger does on the face: the radio button would first show
    that it turns.
    """
    # The radio button lies below the face and is seen only where it stands out round it, while the keyboard is at it.
    clear = "#00000000"
    button = ft.Radio(
        value=value,
        fill_color=clear,
        overlay_color={ft.ControlState.FOCUSED: look.ink, ft.ControlState.DEFAULT: clear},
        splash_radius=_ALL_OVER,
        on_focus=tells(identifier),
    )
    around = ft.Container(
        button,
        left=-RING,
        top=-RING,
        right=-RING,
        bottom=-RING,
        border_radius=CORNER + RING,
        clip_behavior=ft.ClipBehavior.ANTI_ALIAS,
    )
    both = ft.Stack([around, unsaid(face) if label else face], clip_behavior=ft.ClipBehavior.NONE)
    named = Described(identifier=identifier, label=label or None, content=both, on_click=lambda _: on_choose(value))
    return ft.MergeSemantics(content=named)


def _chip(look: Look, option: Option, now: bool, on_choose: Callable[[str], None], identifier: str) -> ft.Control:
    words = say(look, option.words, strong=now)
    lines: ft.Control = words
    if option.note:
        lines = ft.Column([words, say(look, option.note, size=SMALL, soft=True)], spacing=0, tight=True)
    parts = [sign("check", look.ink, 18), lines] if now else [lines]
    if option.picture is not None:
        parts = [ft.Column([option.picture(look), ft.Row(parts, spacing=GAP, tight=True)], tight=True, spacing=0,
                           horizontal_alignment=ft.CrossAxisAlignment.CENTER)]  # fmt: skip
    tall = bool(option.note) or option.picture is not None
    face = ft.Row(
        parts,
        spacing=GAP,
        tight=True,
        vertical_alignment=ft.CrossAxisAlignment.CENTER,
        height=None if tall else TOUCH - 4,
    )
    side = 12 if now else 13
    return touch(
        look,
        option,
        now,
        on_choose,
        identifier,
        face,
        ft.Padding.symmetric(horizontal=side, vertical=4 if tall else 0 if now else 1),
    )


def _row(look: Look, option: Option, now: bool, on_choose: Callable[[str], None], identifier: str) -> ft.Control:
    lines: list[ft.Control] = [say(look, option.words, strong=now)]
    if option.note:
        lines.append(say(look, option.note, size=SMALL, soft=True))
    mark = ft.Container(sign("check", look.ink, 20) if now else None, width=20, height=20)
    face = ft.Row(
        [ft.Container(ft.Column(lines, spacing=2, tight=True), expand=True), mark],
        vertical_alignment=ft.CrossAxisAlignment.CENTER,
        spacing=GAP,
    )
    less = 0 if now else 1
    return touch(
        look,
        option,
        now,
        on_choose,
        identifier,
        face,
        ft.Padding.symmetric(horizontal=EDGE - 2 + less, vertical=12 + less),
    )
