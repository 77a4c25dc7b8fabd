"""A word of the trade that explains itself: a tap on it opens one sentence in its place."""

import flet as ft

from app.parts.signs import sign
from app.parts.touchable import touchable
from app.parts.words import letters, say
from app.theme import GAP, SMALL, TOUCH, Look


def explained(look: Look, *, identifier: str, word: str, says: str) -> ft.Control:
    """The word with a dotted line under it, and below it `says` once it was tapped; a second tap closes it.

    It keeps its state while its neighbours come and go.
    """
    return ft.Container(_explained(look, identifier, word, says), key=identifier)


@ft.component
def _explained(look: Look, identifier: str, word: str, says: str) -> ft.Control:
    opened, set_opened = ft.use_state(False)
    style = letters(look, SMALL)
    style.decoration = ft.TextDecoration.UNDERLINE
    style.decoration_style = ft.TextDecorationStyle.DOTTED
    style.decoration_thickness = 2
    face = ft.Row(
        [ft.Text(value=word, style=style), sign("less" if opened else "more", look.soft, 16)],
        spacing=GAP // 2,
        tight=True,
        vertical_alignment=ft.CrossAxisAlignment.CENTER,
    )
    word_to_tap = touchable(
        look, face, lambda: set_opened(not opened), identifier=identifier, height=TOUCH, opened=opened,
        padding=ft.Padding.only(right=GAP),
    )  # fmt: skip
    head = ft.Row([word_to_tap])
    lines: list[ft.Control] = [head]
    if opened:
        told = ft.Semantics(identifier=f"{identifier}-says", live_region=True, content=say(look, says, size=SMALL))
        lines.append(
            ft.Container(
                told,
                padding=ft.Padding.only(left=12, top=GAP // 2, bottom=GAP // 2),
                border=ft.Border.only(left=ft.BorderSide(3, look.tape)),
            )
        )
    return ft.Column(lines, spacing=0, tight=True)
