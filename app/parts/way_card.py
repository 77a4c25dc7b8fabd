"""A card for one of several ways to do something: what it costs, what it is called, and its details folded away."""

from collections.abc import Callable, Sequence

import flet as ft

from app.parts.choices import radio
from app.parts.section_fold import section_fold
from app.parts.signs import sign
from app.parts.words import say, stack
from app.theme import CARD_CORNER, EDGE, GAP, GRID, LARGE, SMALL, Look


@ft.component
def way_card(
    look: Look,
    *,
    identifier: str,
    value: str,
    headline: str,
    name: str,
    notes: Sequence[str] = (),
    taken: str = "",
    on_take: Callable[[], None],
    more: str = "",
    details: Sequence[str] = (),
) -> ft.Control:
    """The card, one of a group. `headline` is what the way costs. `taken` are the words that mark the one taken.

    `value` is what the group knows it by. `more` is the line that opens the `details`.
    """
    lines: list[ft.Control] = []
    if taken:
        row = [sign("check", look.on_tape, 18), say(look, taken, size=SMALL, strong=True, colour=look.on_tape)]
        badge = ft.Container(
            ft.Row(row, spacing=GRID, tight=True), bgcolor=look.tape, border_radius=4,
            padding=ft.Padding.symmetric(horizontal=GAP, vertical=2),
        )  # fmt: skip
        lines.append(ft.Row([badge]))
    lines += [say(look, headline, size=LARGE, strong=True), say(look, name)]
    lines += [say(look, note, size=SMALL, soft=True) for note in notes]
    face = ft.Container(
        stack(lines, 2), padding=ft.Padding.symmetric(horizontal=EDGE, vertical=12), on_click=lambda _: on_take()
    )
    parts: list[ft.Control] = [radio(look, value, face, lambda _: on_take(), identifier=identifier)]
    if details:
        told = [say(look, line, size=SMALL) for line in details]
        fold = section_fold(look, identifier=f"{identifier}-more", title=more, children=told, size=SMALL)
        parts.append(ft.Container(fold, padding=ft.Padding.only(left=EDGE, right=EDGE, bottom=GRID)))
    return ft.Container(
        stack(parts, 0),
        bgcolor=look.well if taken else look.sheet,
        border=ft.Border.all(2 if taken else 1, look.ink if taken else look.edge),
        border_radius=CARD_CORNER,
        clip_behavior=ft.ClipBehavior.NONE,  # or the ring of the keyboard is cut off
    )
