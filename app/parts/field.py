"""A field: its label, how the measure is taken, what was typed, its unit, and what is wrong in a sentence."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import flet as ft

from app.parts.buttons import quiet_button
from app.parts.fractions_tape import fractions_tape
from app.parts.hand import HAND, Hand, Held, place_key
from app.parts.keypad_keys import Kind
from app.parts.named import Described, unsaid
from app.parts.problem_line import problem_line
from app.parts.stops import tells
from app.parts.words import letters, say, stack
from app.theme import CORNER, GRID, LARGE, SMALL, TOUCH, Look, see_through


@dataclass(frozen=True, slots=True)
class Instead:
    """What may have been meant: the words of its button, and the text that a tap puts in."""

    words: str
    text: str


def _edge(colour: str, width: float) -> ft.OutlineInputBorder:
    return ft.OutlineInputBorder(side=ft.BorderSide(width, colour), border_radius=CORNER)


class _Text:
    """The text of one box. While somebody types it is ahead of what we know of it.

    Only what the keypad wrote, or a value that changed elsewhere, may replace what stands in the box.
    """

    def __init__(self, value: str) -> None:
        self.said = self.told = value
        self.written: str | None = None
        self.box: ft.TextField | None = None

    def shown(self, value: str) -> str:
        """What the box shows next, for the value that is kept."""
        shown = self.now() if self.written is not None or value in (self.said, self.told) else value
        self.told, self.written = value, None
        return shown

    def now(self) -> str:
        """What stands in the box, or was just written for it."""
        if self.written is not None:
            return self.written
        return self.told if self.box is None else str(self.box.value or "")


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
    keys: Kind | None = None,
    signed: bool = False,
    name: bool = False,
    on_focus: Callable[[], None] | None = None,
    on_blur: Callable[[], None] | None = None,
    on_done: Callable[[], None] | None = None,
    autofocus: bool = False,
    note: str = "",
    warning: str = "",
    instead: Instead | None = None,
    spoken: str = "",
) -> ft.Control:
    """A field for text, or with `keys` for what those keys of the keypad write; with `signed` it may be below zero.

    `how` are lines of how to take it, `estimate` stands in grey where nothing was typed, `problem` with its sign under
    it, `warning` without. Both wait until the field is left, so that nobody is corrected while typing; `instead` is
    what may have been meant, as a button under them. With `fractions` the eighths can be tapped, where there is no
    keypad: while `active`, or, where that is None, once the field was touched. `spoken` is read out for a label that
    another field has too. Only the `name` of somebody or
    something begins with a capital by itself.
    """
    touched, set_touched = ft.use_state(False)
    typing, set_typing = ft.use_state(False)
    held, set_held = ft.use_state(False)
    _, again = ft.use_state(0)
    text = ft.use_memo(lambda: _Text(value), [])
    hand: Hand | None = ft.use_context(HAND)
    keypad = keys is not None and hand is not None and hand.wanted
    typed = text.shown(value)

    def takes(new: str) -> None:
        text.said = new
        set_typing(True)
        on_change(new)

    def write(new: str) -> None:
        text.written = new
        takes(new)
        again(lambda count: count + 1)

    def left() -> None:
        _grown(hand, typing and bool(problem or warning or instead is not None))
        set_typing(False)
        set_held(False)
        if on_blur is not None:
            on_blur()

    def taken(*, touched: bool) -> None:
        if (
            keypad
            and hand is not None
            and keys is not None
            and hand.take(Held(identifier, keys, signed, text.now, write, left, on_done), touched=touched)
        ):
            set_held(True)

    def focused(event: ft.Event[ft.TextField]) -> None:
        tells(identifier)(event)
        set_touched(True)
        _came(hand, identifier)
        taken(touched=False)
        if on_focus is not None:
            on_focus()

    def blurred(_: object) -> None:
        if keypad and hand is not None and hand.holds(identifier):
            hand.loosen(identifier)
        else:
            left()

    def submitted(_: object) -> None:
        if keypad and hand is not None and hand.holds(identifier):
            hand.put_away()
        else:
            set_typing(False)
        if on_done is not None:
            on_done()

    def put_in(new: str) -> None:
        text.written = text.said = new
        on_change(new)
        again(lambda count: count + 1)

    wrong = "" if typing else problem
    box = ft.TextField(
        value=typed,
        data=identifier if keys is not None else None,
        on_change=lambda event: takes(str(event.control.value or "")),
        on_focus=focused,
        on_blur=blurred,
        on_submit=submitted,
        on_click=(lambda _: taken(touched=True)) if keypad else None,
        always_call_on_tap=keypad,
        on_tap_outside=(lambda _: hand.loosen(identifier)) if keypad and hand is not None else None,
        autofocus=autofocus,
        keyboard_type=_keyboard(keys, keypad),
        capitalization=ft.TextCapitalization.WORDS if name else ft.TextCapitalization.NONE,
        autocorrect=name,
        enable_suggestions=name,
        smart_quotes_type=False,
        smart_dashes_type=False,
        text_style=letters(look, LARGE),
        cursor_color=look.ink,
        selection_color=see_through(look.tape, 0.45),
        filled=True,
        fill_color=look.sheet,
        hover_color=look.sheet,
        border={
            ft.ControlState.FOCUSED: _edge(look.stop if wrong else look.ink, 2),
            ft.ControlState.DEFAULT: _edge(
                look.stop if wrong else look.ink if held else look.edge, 2 if wrong or held else 1
            ),
        },
        content_padding=ft.Padding.symmetric(horizontal=12, vertical=14),
        suffix_icon=_unit(look, unit) if unit and not own_unit(typed) else None,
        suffix_icon_size_constraints=ft.BoxConstraints(min_width=0, min_height=0),
    )
    place = ft.ScrollKey(place_key(identifier))  # type: ignore[call-arg] # mypy does not see its base
    text.box = box
    lines: list[ft.Control] = [
        ft.Container(say(look, label, strong=True), key=place),
        *(say(look, line, size=SMALL, soft=True) for line in how),
        ft.Container(
            _heard(identifier, box, spoken or label, (typed.strip(), unit), "" if typing else problem or warning),
            margin=ft.Margin.only(top=GRID),
        ),
    ]
    if fractions and not keypad and (touched if active is None else active):
        lines.append(fractions_tape(look, typed, write, identifier))
    if not typing:
        lines += _judged(look, identifier, problem, warning, instead, put_in)
    soft = [estimate] if estimate and not typed.strip() else []
    lines += [say(look, line, size=SMALL, soft=True) for line in (*soft, note) if line]
    return stack(lines, spacing=GRID)


def _heard(identifier: str, box: ft.Control, label: str, holds: tuple[str, str], judged: str) -> ft.Control:
    """The box as a reader of the screen hears it: its name, what it holds with its unit, and what is said about that.

    The page's own box is empty until it has the focus, so its name says what stands in it.
    """
    value, unit = holds
    said = value if own_unit(value) else f"{value} {unit}".strip()
    name = f"{label}: {said}" if value else f"{label}, {unit}" if unit else label
    return ft.MergeSemantics(content=Described(identifier=identifier, label=name, hint=judged or None, content=box))


def own_unit(typed: str) -> bool:
    """Whether what stands in a field says its unit itself, in letters or with a sign."""
    end = typed.strip()[-1:]
    return end.isalpha() or end in tuple("%'\"′″")


def _unit(look: Look, unit: str) -> ft.Control:
    """The unit at the end of the box. The client shows a suffix only where something is typed, but an icon always."""
    words = ft.Row([unsaid(say(look, unit, soft=True))], tight=True, vertical_alignment=ft.CrossAxisAlignment.CENTER)
    return ft.Container(words, height=TOUCH, padding=ft.Padding.symmetric(horizontal=12))


def _keyboard(keys: Kind | None, keypad: bool) -> ft.KeyboardType:
    """The keyboard that the device shows: none of its own where the keypad is ours."""
    if keypad:
        return ft.KeyboardType.NONE
    return ft.KeyboardType.TEXT if keys is None else ft.KeyboardType.NUMBER


def _grown(hand: Hand | None, says: bool) -> None:
    """Tell the hand that a field which is left `says` something now."""
    if hand is not None and says:
        hand.grew()


def _came(hand: Hand | None, identifier: str) -> None:
    """Tell the hand that the focus came to a field which its keypad does not type into."""
    if hand is not None and not hand.holds(identifier):
        hand.came(identifier)


def _judged(
    look: Look, identifier: str, problem: str, warning: str, instead: Instead | None, put_in: Callable[[str], None]
) -> list[ft.Control]:
    """What is said about a text that was left: what is wrong, what is odd, and what to put in its place."""
    lines: list[ft.Control] = []
    if problem:
        lines.append(problem_line(look, problem, identifier))
    if warning:
        said = say(look, warning, size=SMALL, soft=True)
        lines.append(ft.Semantics(identifier=f"{identifier}-warning", live_region=True, container=True, content=said))
    if instead is not None:
        text = instead.text
        lines.append(quiet_button(look, instead.words, lambda: put_in(text), identifier=f"{identifier}-instead"))
    return lines
