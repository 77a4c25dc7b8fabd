"""One proof of the draft: its sign and word, what it says, and the ways out to tap; and one thing that was adjusted."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import flet as ft

from app.parts.buttons import quiet_button
from app.parts.named import named
from app.parts.signs import RESULTS, result_sign
from app.parts.words import say, stack
from app.theme import CARD_CORNER, EDGE, GAP, GRID, SMALL, Look


@dataclass(frozen=True, slots=True)
class Way:
    """A way out: its name, what it changes, what a tap does, and what follows from it."""

    identifier: str
    words: str
    on_take: Callable[[], None]
    follows: str = ""


def check_card(
    look: Look,
    *,
    identifier: str,
    result: str,
    result_words: str,
    says: str,
    ways: Sequence[Way] = (),
    detail: str = "",
    ways_words: str = "",
) -> ft.Control:
    """A check. The shape of the sign and the word tell the result, the colour only helps."""
    if result not in RESULTS:
        raise ValueError(f"no sign for the result {result!r}")
    colour = {"stop": look.stop, "warn": look.stop, "caution": look.caution, "pass": look.good}.get(result, look.soft)
    lines: list[ft.Control] = [say(look, result_words, size=SMALL, strong=True, colour=colour), say(look, says)]
    if detail:
        lines.append(say(look, detail, size=SMALL, soft=True))
    top = ft.Row(
        [result_sign(result, colour, look.sheet), ft.Container(ft.Column(lines, spacing=2, tight=True), expand=True)],
        spacing=12,
        vertical_alignment=ft.CrossAxisAlignment.START,
    )
    parts: list[ft.Control] = [top]
    if ways and ways_words:
        parts.append(say(look, ways_words, size=SMALL, soft=True))
    parts += [_way(look, way) for way in ways]
    grave = result == "stop"
    box = ft.Container(
        stack(parts, spacing=GAP),
        padding=EDGE - (1 if grave else 0),
        bgcolor=look.sheet,
        border=ft.Border.all(2 if grave else 1, colour if grave else look.hair),
        border_radius=CARD_CORNER,
    )
    return named(identifier, box)


def _way(look: Look, way: Way) -> ft.Control:
    """The button says what it changes; what follows from it stands under it."""
    button = quiet_button(look, way.words, way.on_take, identifier=way.identifier, icon="forward", wide=True)
    if not way.follows:
        return button
    below = ft.Container(
        named(f"{way.identifier}-follows", say(look, way.follows, size=SMALL, soft=True)),
        padding=ft.Padding.only(left=EDGE, right=EDGE, bottom=GAP),
    )
    return stack([button, below], GRID)


def adjust_card(look: Look, *, identifier: str, what: str, before: str, after: str, why: str) -> ft.Control:
    """A value that the draft moved by itself: what, from and to, and why."""
    numbers = ft.Row(
        [say(look, before, soft=True), say(look, "→", soft=True), say(look, after, strong=True)], spacing=GAP, wrap=True
    )
    return named(
        identifier,
        ft.Container(
            stack([say(look, what, strong=True), numbers, say(look, why, size=SMALL, soft=True)], spacing=2),
            padding=EDGE,
            bgcolor=look.sheet,
            border=ft.Border.all(1, look.hair),
            border_radius=CARD_CORNER,
        ),
    )
