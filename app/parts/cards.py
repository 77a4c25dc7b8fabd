"""Cards: a person, a garment in work."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import flet as ft

from app.parts.buttons import icon_button
from app.parts.named import named
from app.parts.piece_thumbnail import piece_thumbnail
from app.parts.signs import sign
from app.parts.touchable import touchable
from app.parts.words import say
from app.theme import CARD_CORNER, EDGE, GAP, GRID, LARGE, SMALL, Look

_PICTURE = 72


@dataclass(frozen=True, slots=True)
class Action:
    """A small thing to do with a card: one of our signs, its words, what it does and its name."""

    icon: str
    words: str
    on_click: Callable[[], None]
    identifier: str


def person_card(
    look: Look,
    *,
    identifier: str,
    name: str,
    facts: str,
    on_open: Callable[[], None],
    open_words: str = "",
    chosen: bool = False,
    actions: Sequence[Action] = (),
) -> ft.Control:
    """A person: the name, a line of facts, and what else can be done with them."""
    badge = ft.Container(
        sign("check" if chosen else "person", look.ink, 24),
        width=48,
        height=48,
        border_radius=24,
        bgcolor=look.well,
        alignment=ft.Alignment.CENTER,
    )
    lines: list[ft.Control] = [say(look, name, size=LARGE, strong=True), say(look, facts, size=SMALL, soft=True)]
    return _card(look, identifier, badge, lines, on_open, open_words, actions, chosen)


def garment_card(
    look: Look,
    *,
    identifier: str,
    title: str,
    facts: Sequence[str],
    on_open: Callable[[], None],
    outline: Sequence[tuple[float, float]] = (),
    on_fold: bool = True,
    actions: Sequence[Action] = (),
    share: float | None = None,
    share_words: str = "",
    open_words: str = "",
) -> ft.Control:
    """A garment in work: its outline, its title and facts, and how much of it is chalked (`share`, 0 to 1)."""
    picture = piece_thumbnail(look, outline, on_fold=on_fold, width=_PICTURE, height=_PICTURE)
    lines: list[ft.Control] = [say(look, title, size=LARGE, strong=True)]
    lines += [say(look, fact, size=SMALL, soft=True) for fact in facts]
    if share is not None:
        lines.append(_chalked(look, share, share_words))
    return _card(look, identifier, picture, lines, on_open, open_words, actions, False)


def _chalked(look: Look, share: float, words: str) -> ft.Control:
    part = round(min(max(share, 0.0), 1.0) * 100)
    segments: list[ft.Control] = []
    if part:
        segments.append(ft.Container(bgcolor=look.ink, height=4, expand=part))
    if part < 100:
        segments.append(ft.Container(bgcolor=look.hair, height=4, expand=100 - part))
    bar = ft.Container(ft.Row(segments, spacing=0), padding=ft.Padding.only(top=6))
    return ft.Column(
        [bar, say(look, words, size=SMALL)] if words else [bar],
        spacing=GRID,
        tight=True,
        horizontal_alignment=ft.CrossAxisAlignment.STRETCH,
    )


def _card(
    look: Look,
    identifier: str,
    picture: ft.Control,
    lines: list[ft.Control],
    on_open: Callable[[], None],
    open_words: str,
    actions: Sequence[Action],
    chosen: bool,
) -> ft.Control:
    told = ft.Column(lines, spacing=2, tight=True, horizontal_alignment=ft.CrossAxisAlignment.STRETCH)
    face = ft.Row(
        [picture, ft.Container(told, expand=True), sign("forward", look.soft, 20)],
        spacing=12,
        vertical_alignment=ft.CrossAxisAlignment.CENTER,
    )
    opens = touchable(
        look,
        face,
        on_open,
        identifier=identifier,
        selected=chosen or None,
        hint=open_words or None,
        padding=ft.Padding.all(12),
        corner=CARD_CORNER,
    )
    parts: list[ft.Control] = [opens]
    if actions:
        row = ft.Row(
            [icon_button(look, a.icon, a.words, a.on_click, identifier=a.identifier, show_label=True) for a in actions],
            spacing=GAP,
        )
        parts.append(
            ft.Container(
                row,
                padding=ft.Padding.symmetric(horizontal=GRID),
                border=ft.Border.only(top=ft.BorderSide(1, look.hair)),
                margin=ft.Margin.symmetric(horizontal=EDGE - GRID),
            )
        )
    return named(
        f"{identifier}-card",
        ft.Container(
            ft.Column(parts, spacing=0, tight=True, horizontal_alignment=ft.CrossAxisAlignment.STRETCH),
            bgcolor=look.sheet,
            border=ft.Border.all(2 if chosen else 1, look.ink if chosen else look.hair),
            border_radius=CARD_CORNER,
        ),
    )
