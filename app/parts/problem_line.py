"""What is wrong with a field, with its sign, right under it."""

import flet as ft

from app.parts.signs import result_sign
from app.parts.words import say
from app.theme import GAP, SMALL, Look


def problem_line(look: Look, text: str, identifier: str) -> ft.Control:
    """The sign and the sentence; read out as soon as it stands there. Named identifier-problem."""
    row = ft.Row(
        spacing=GAP,
        vertical_alignment=ft.CrossAxisAlignment.START,
        controls=[
            ft.Container(result_sign("warn", look.stop, look.sheet, 18), padding=ft.Padding.only(top=1)),
            ft.Container(say(look, text, size=SMALL, colour=look.stop), expand=True),
        ],
    )
    return ft.Semantics(identifier=f"{identifier}-problem", live_region=True, content=row)
