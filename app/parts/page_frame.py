"""The frame of every page: back, title, where one is, what scrolls, and the foot."""

from collections.abc import Callable, Sequence

import flet as ft

from app.parts.bottom_bar import bottom_bar
from app.parts.buttons import icon_button
from app.parts.named import named
from app.parts.stops import HEADING
from app.parts.words import say, stack, tight
from app.theme import COLUMN, EDGE, GAP, LARGE, TITLE, Look


def page_frame(
    look: Look,
    *,
    identifier: str,
    top: ft.Control,
    children: Sequence[ft.Control],
    progress: ft.Control | None = None,
    foot: Sequence[ft.Control] = (),
    aside: ft.Control | None = None,
    notice: ft.Control | None = None,
    width: float = 390,
    column: float = COLUMN,
    wide: bool = False,
    pinned: ft.Control | None = None,
    keypad: ft.Control | None = None,
    on_scroll: Callable[[float], None] | None = None,
    scroll_key: str | None = None,
    spacing: float = 2 * GAP + GAP,
) -> ft.Control:
    """The whole content of a view.

    `top` comes from `page_top`; `width` is the page's width in px. `aside` stands beside the column of words, which is
    then `column` px wide. `pinned` stays above what scrolls. `wide` lets the column fill the page where there is no
    aside. `keypad` lies under everything, as wide as the page.
    `on_scroll` is told the offset in px; a new `scroll_key` starts at the top again.
    """
    broad = aside is not None
    scrolled = ft.Column(
        controls=[
            ft.Container(
                stack(children, spacing=spacing),
                padding=ft.Padding.only(left=EDGE, right=EDGE, top=EDGE, bottom=3 * EDGE),
            )
        ],
        scroll=ft.ScrollMode.AUTO,
        expand=True,
        spacing=0,
        key=scroll_key,
        horizontal_alignment=ft.CrossAxisAlignment.STRETCH,
        on_scroll=(lambda event: on_scroll(float(event.pixels))) if on_scroll else None,
        scroll_interval=200,
    )
    # Each has its place even when it is not there: what scrolls would be made anew, and its field lose the focus.
    parts: list[ft.Control] = [
        top,
        ft.Container(progress, padding=ft.Padding.symmetric(horizontal=GAP if progress is not None else 0)),
        ft.Container(pinned),
        scrolled,
    ]
    if notice is not None:
        parts.append(ft.Container(notice, padding=ft.Padding.only(left=GAP, right=GAP, top=0, bottom=GAP)))
    if foot:
        parts.append(bottom_bar(look, foot))
    room = column if broad else width if wide else min(width, COLUMN)
    body: ft.Control = ft.Container(
        ft.Column(parts, spacing=0, expand=True, horizontal_alignment=ft.CrossAxisAlignment.STRETCH), width=room
    )
    if broad:
        assert aside is not None
        page = ft.Row(
            [
                ft.Container(aside, expand=True, padding=EDGE),
                ft.Container(body, border=ft.Border.only(left=ft.BorderSide(1, look.hair))),
            ],
            spacing=0,
            expand=True,
            vertical_alignment=ft.CrossAxisAlignment.STRETCH,
        )
    else:
        page = ft.Row(
            [body], alignment=ft.MainAxisAlignment.CENTER, expand=True, vertical_alignment=ft.CrossAxisAlignment.STRETCH
        )
    below = [] if keypad is None else [keypad]
    whole = ft.Column([page, *below], spacing=0, expand=True)  # there without a keypad too, or a field loses the focus
    return named(
        identifier,
        ft.Container(ft.SafeArea(whole, expand=True), bgcolor=look.ground, expand=True),
        expand=True,
    )


def page_top(
    look: Look,
    title: str,
    on_back: Callable[[], None] | None = None,
    back_words: str = "Back",
    actions: Sequence[ft.Control] = (),
    first: ft.Ref[ft.KeyboardListener] | None = None,
    size: float | None = None,
) -> ft.Control:
    """The top of a page: the way back where there is one, the title, and what else can be done.

    The title that is `first` can have the keyboard's focus. Letters of a `size` stand in two lines at most.
    """
    said: ft.Control = say(look, title, size=LARGE if on_back else TITLE, strong=True, one_line=size is None)
    if size is not None:
        style = tight(look, size, strong=True)
        said = ft.Text(title, style=style, max_lines=2, overflow=ft.TextOverflow.ELLIPSIS)
    if first is not None:
        said = ft.KeyboardListener(said, ref=first)
    words = ft.Semantics(identifier=HEADING, header=True, heading_level=1, content=said)
    parts: list[ft.Control] = []
    if on_back is not None:
        parts.append(icon_button(look, "back", back_words, on_back, identifier="back"))
    parts += [ft.Container(words, expand=True), *actions]
    return ft.Container(
        ft.Row(parts, spacing=4, vertical_alignment=ft.CrossAxisAlignment.CENTER),
        height=56 if on_back else 72,
        padding=ft.Padding.only(left=4 if on_back else EDGE, right=GAP if actions else EDGE, top=0, bottom=0),
    )
