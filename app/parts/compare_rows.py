"""Things compared, one a row: what, how much, and a note under it; the one in hand stands out."""

from collections.abc import Sequence
from dataclasses import dataclass

import flet as ft

from app.parts.named import alone, named
from app.parts.signs import sign
from app.parts.words import say
from app.theme import GAP, SMALL, TOUCH, Look


@dataclass(frozen=True, slots=True)
class Compared:
    """One row: its words, its amount, a note, and whether it is the one in hand."""

    words: str
    amount: str
    note: str = ""
    now: bool = False


def compare_rows(look: Look, rows: Sequence[Compared], *, identifier: str) -> ft.Control:
    """The rows under each other with a hairline between them, amounts under amounts at the right."""
    lines = [_row(look, row) for row in rows]
    return named(
        identifier,
        ft.Column(lines, spacing=0, tight=True, horizontal_alignment=ft.CrossAxisAlignment.STRETCH),
    )


def _row(look: Look, row: Compared) -> ft.Control:
    mark = ft.Container(sign("check", look.ink, 18) if row.now else None, width=20)
    left: list[ft.Control] = [say(look, row.words, strong=row.now)]
    if row.note:
        left.append(say(look, row.note, size=SMALL, soft=True))
    face = ft.Container(
        ft.Row(
            [mark, ft.Container(ft.Column(left, spacing=0, tight=True), expand=True),
             say(look, row.amount, strong=row.now, soft=not row.note)],
            spacing=GAP, vertical_alignment=ft.CrossAxisAlignment.CENTER,
        ),
        border=ft.Border.only(top=ft.BorderSide(1, look.hair)),
        padding=ft.Padding.symmetric(vertical=6, horizontal=0),
        height=TOUCH + 8,
    )  # fmt: skip
    return alone(face)
