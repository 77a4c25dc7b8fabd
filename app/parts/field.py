"""A field: its label, how the measure is taken, what was typed, its unit, and what is wrong in a sentence."""

from collections.abc import Callable, Sequence

import flet as ft

from app.parts.fractions_tape import fractions_tape
from app.parts.named import as_one
from app.parts.problem_line import problem_line
from app.parts.words import letters, say, stack
from app.theme import CORNER, GRID, LARGE, SMALL, Look, see_through


def _edge(colour: str, width: float) -> ft.OutlineInputBorder:
    return ft.OutlineInputBorder(side=ft.BorderSide(width, colour), border_radius=CORNER)


@ft.component
def field(
    look: Look,
    *,
    identifier: str,
    label: str,
    value: str,
    on_change: Callable[[str], None],
    how: Sequence[str] = (),
    unit: str = "",
    problem: str = "",
    estimate: str = "",
    fractions: bool = False,
    active: bool | None = None,
    numeric: bool = True,
    on_focus: Callable[[], None] | None = None,
    on_blur: Callable[[], None] | None = None,
    on_done: Callable[[], None] | None = None,
    autofocus: bool = False,
    note: str = "",
) -> ft.Control:
    """A field for text or for a length as it is typed.

    `how` are lines of how to take it, `estimate` stands in grey where nothing was typed, `problem` with its sign under
    it. With `fractions` the eighths can be tapped: while `active`, or, where that is None, once the field was touched.
    """
    touched, set_touched = ft.use_state(False)
    last: ft.MutableRef[ft.TextField | None] = ft.use_ref(None)
    said, told = ft.use_ref(value), ft.use_ref(value)
    # What is being typed is ahead of what we know: only a value that changed elsewhere may replace the text in the box.
    typed = last.current.value if last.current is not None and value in (said.current, told.current) else value
    told.current = value

    def changed(event: ft.Event[ft.TextField]) -> None:
        said.current = str(event.control.value or "")
        on_change(said.current)

    def focused(_: object) -> None:
        set_touched(True)
        if on_focus is not None:
            on_focus()

    box = ft.TextField(
        value=typed,
        on_change=changed,
        on_focus=focused,
        on_blur=(lambda _: on_blur()) if on_blur else None,
        on_submit=(lambda _: on_done()) if on_done else None,
        autofocus=autofocus,
        keyboard_type=ft.KeyboardType.NUMBER if numeric else ft.KeyboardType.TEXT,
        autocorrect=False,
        enable_suggestions=False,
        smart_quotes_type=False,
        smart_dashes_type=False,
        text_style=letters(look, LARGE),
        cursor_color=look.ink,
        selection_color=see_through(look.tape, 0.45),
        filled=True,
        fill_color=look.sheet,
        hover_color=look.sheet,
        border={
            ft.ControlState.FOCUSED: _edge(look.stop if problem else look.ink, 2),
            ft.ControlState.DEFAULT: _edge(look.stop if problem else look.edge, 2 if problem else 1),
        },
        content_padding=ft.Padding.symmetric(horizontal=12, vertical=14),
        suffix=say(look, unit, soft=True) if unit else None,
    )
    last.current = box
    lines: list[ft.Control] = [say(look, label, strong=True)]
    lines += [say(look, line, size=SMALL, soft=True) for line in how]
    lines.append(ft.Container(as_one(identifier, box, label=label), margin=ft.Margin.only(top=GRID)))
    if fractions and (touched if active is None else active):
        lines.append(fractions_tape(look, value, on_change, identifier))
    if problem:
        lines.append(problem_line(look, problem, identifier))
    if estimate and not value.strip():
        lines.append(say(look, estimate, size=SMALL, soft=True))
    if note:
        lines.append(say(look, note, size=SMALL, soft=True))
    return stack(lines, spacing=GRID)
