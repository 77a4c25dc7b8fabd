"""What was changed here and in another tab at once: a standing card on every screen until a person has chosen."""

from collections.abc import Callable

import flet as ft

from app import actions as act
from app import parts
from app.names import garment_name
from app.state import Clash, State
from app.text import words
from app.theme import CORNER, EDGE, GAP, SMALL, TOUCH, Look

Send = Callable[[act.Action], None]


def clash_cards(state: State, send: Send, look: Look) -> list[ft.Control]:
    """A card for each of them, with both ways on."""
    return [_card(state, send, look, clash) for clash in state.clashes]


def clash_line(state: State, look: Look, on_tap: Callable[[], None]) -> ft.Control | None:
    """One line at the table that says so; a tap leads to the card."""
    if not state.clashes:
        return None
    says = parts.say(look, clash_words(state, state.clashes[0]), size=SMALL, strong=True, one_line=True)
    face = ft.Row(
        [parts.result_sign("caution", look.caution, look.ground, 20), ft.Container(says, expand=True)], spacing=GAP
    )
    return parts.touchable(
        look, face, on_tap, identifier="clash-line", height=TOUCH, padding=ft.Padding.symmetric(horizontal=EDGE)
    )


def clash_words(state: State, clash: Clash) -> str:
    """What happened to which person or garment."""
    key = clash.key.partition(".")[2]
    garment, person = state.book.garment(key), state.book.person(key)
    name = words("person.unnamed")
    if garment is not None:
        name = garment_name(state.book, garment)
    elif (known := person or state.book.cloth(key)) is not None and known.name.strip():
        name = known.name.strip()
    return words("saved.clash.gone" if clash.theirs is None else "saved.clash", name=name)


def _card(state: State, send: Send, look: Look, clash: Clash) -> ft.Control:
    gone, key = clash.theirs is None, clash.key
    both = parts.primary_button(
        look, words("saved.clash.mine" if gone else "saved.clash.both"), lambda: send(act.KeepBoth(key)),
        identifier="clash-both",
    )  # fmt: skip
    theirs = parts.quiet_button(
        look, words("saved.clash.let_go" if gone else "saved.clash.theirs"), lambda: send(act.TakeTheirs(key)),
        identifier="clash-theirs", wide=True,
    )  # fmt: skip
    box = ft.Container(
        parts.stack([parts.say(look, clash_words(state, clash), strong=True), both, theirs], GAP),
        padding=EDGE, bgcolor=look.well, border_radius=CORNER, border=ft.Border.all(2, look.caution),
    )  # fmt: skip
    return ft.Semantics(identifier="clash", live_region=True, container=True, content=box)
