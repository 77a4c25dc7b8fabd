"""A part of a screen that is folded away until it is wanted."""

from collections.abc import Callable, Sequence

import flet as ft

from app.parts.signs import sign
from app.parts.words import say, stack
from app.theme import BODY, GAP, SMALL, TOUCH, Look


@ft.component
def section_fold(
    look: Look,
    *,
    identifier: str,
    title: str,
    children: Sequence[ft.Control],
    note: str = "",
    opened: bool = False,
    on_turn: Callable[[bool], None] | None = None,
    size: float = BODY,
) -> ft.Control:
    """A line to tap and what it opens. Without `on_turn` it keeps its own state, `opened` being where it starts."""
    own, set_own = ft.use_state(opened)
    now = opened if on_turn is not None else own

    def turned(_: object) -> None:
        if on_turn is not None:
            on_turn(not now)
        else:
            set_own(not now)

    words: list[ft.Control] = [ft.Container(say(look, title, strong=True, size=size), expand=True)]
    if note:
        words.append(say(look, note, size=SMALL, soft=True))
    words.append(sign("less" if now else "more", look.ink, 20))
    line = ft.Container(
        ft.Row(words, spacing=GAP, vertical_alignment=ft.CrossAxisAlignment.CENTER),
        height=TOUCH + GAP,
        border=ft.Border.only(top=ft.BorderSide(1, look.hair)),
        on_click=turned,
        ink=True,
    )
    head = ft.Semantics(identifier=identifier, button=True, expanded=now, content=line)
    return stack([head, *children] if now else [head], spacing=GAP * 2)
