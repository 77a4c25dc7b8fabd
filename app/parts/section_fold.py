"""A part of a screen that is folded away until it is wanted."""

from collections.abc import Callable, Sequence

import flet as ft

from app.parts.hand import HAND, Hand
from app.parts.signs import sign
from app.parts.touchable import touchable
from app.parts.words import say, stack
from app.theme import BODY, GAP, SMALL, Look

_ROUND = 17
"""Above and below the title, px: with letters of the usual size the line is higher than a finger."""


def section_fold(
    look: Look,
    *,
    identifier: str,
    title: str,
    children: Sequence[ft.Control],
    note: str = "",
    opened: bool = False,
    size: float = BODY,
    last: bool = False,
) -> ft.Control:
    """A line to tap and what it opens; `opened` is where it starts. It stays open while its neighbours come and go.

    The `last` one of a page would open out of sight, so the page moves to it.
    """
    key = ft.ScrollKey(identifier) if last else identifier  # type: ignore[call-arg] # mypy does not see its base
    return ft.Container(_fold(look, identifier, title, children, note, opened, size, last), key=key)


@ft.component
def _fold(
    look: Look,
    identifier: str,
    title: str,
    children: Sequence[ft.Control],
    note: str,
    opened: bool,
    size: float,
    last: bool,
) -> ft.Control:
    now, set_now = ft.use_state(opened)
    hand: Hand | None = ft.use_context(HAND)

    def turn() -> None:
        set_now(not now)
        if last and not now and hand is not None:
            hand.move_to(identifier)

    depends = [look, identifier, title, note, size, now]
    head = ft.use_memo(lambda: _head(look, identifier, title, note, size, now, turn), depends)
    return stack([head, *children] if now else [head], spacing=GAP * 2)


def _head(
    look: Look, identifier: str, title: str, note: str, size: float, now: bool, turn: Callable[[], None]
) -> ft.Control:
    words: list[ft.Control] = [ft.Container(say(look, title, strong=True, size=size), expand=True)]
    if note:
        words.append(say(look, note, size=SMALL, soft=True))
    words.append(sign("less" if now else "more", look.ink, 20))
    face = ft.Row(words, spacing=GAP, vertical_alignment=ft.CrossAxisAlignment.CENTER)
    line = touchable(
        look, face, turn, identifier=identifier, padding=ft.Padding.symmetric(vertical=_ROUND), opened=now, corner=0
    )
    return ft.Container(line, border=ft.Border.only(top=ft.BorderSide(1, look.hair)))
