"""A calm list of what is still to be done, each line the way to its place."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import flet as ft

from app.parts.named import named
from app.parts.signs import sign
from app.parts.touchable import touchable
from app.parts.words import say, stack
from app.theme import CARD_CORNER, EDGE, GAP, TOUCH, Look


@dataclass(frozen=True, slots=True)
class ToDo:
    """One line: its name, its words, and where a tap leads."""

    identifier: str
    words: str
    on_go: Callable[[], None]


def to_do_list(look: Look, *, identifier: str, title: str, lines: Sequence[ToDo]) -> ft.Control:
    """The title and its lines on one card; a line is at least as high as a finger."""
    rows = [_line(look, each) for each in lines]
    return named(
        identifier,
        ft.Container(
            stack([ft.Container(say(look, title, strong=True), padding=ft.Padding.only(bottom=GAP // 2)), *rows], 0),
            bgcolor=look.sheet,
            border=ft.Border.all(1, look.hair),
            border_radius=CARD_CORNER,
            padding=ft.Padding.only(left=EDGE, right=EDGE, top=EDGE, bottom=GAP),
        ),
    )


def _line(look: Look, line: ToDo) -> ft.Control:
    face = ft.Row(
        [ft.Container(say(look, line.words), expand=True), sign("forward", look.soft, 20)],
        spacing=GAP,
        vertical_alignment=ft.CrossAxisAlignment.CENTER,
    )
    button = touchable(
        look, face, line.on_go, identifier=line.identifier, corner=0,
        padding=ft.Padding.symmetric(vertical=(TOUCH - 22) / 2),
    )  # fmt: skip
    return ft.Container(button, border=ft.Border.only(top=ft.BorderSide(1, look.hair)))
