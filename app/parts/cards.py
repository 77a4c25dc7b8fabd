"""Cards: a person, a garment in work."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import flet as ft

from app.parts.named import named
from app.parts.piece_thumbnail import piece_thumbnail
from app.parts.signs import sign
from app.parts.touchable import touchable
from app.parts.words import say
from app.theme import CARD_CORNER, EDGE, GAP, GRID, LARGE, SMALL, TOUCH, Look

_PICTURE = 72


@dataclass(frozen=True, slots=True)
class Action:
    """A small thing to do with a card: one of our signs, its words, what it does, its name, and the words read out."""

    icon: str
    words: str
    on_click: Callable[[], None]
    identifier: str
    says: str


@dataclass(frozen=True, slots=True)
class More:
    """What else can be done with a card, behind a button: the words of the button, its name, and the actions."""

    words: str
    identifier: str
    actions: Sequence[Action]


def person_card(
    look: Look,
    *,
    identifier: str,
    name: str,
    facts: str,
    on_open: Callable[[], None],
    open_words: str = "",
    chosen: bool = False,
    more: More | None = None,
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
    return _card(look, identifier, badge, lines, on_open, open_words, more, chosen)


def garment_card(
    look: Look,
    *,
    identifier: str,
    title: str,
    facts: Sequence[str],
    on_open: Callable[[], None],
    outline: Sequence[tuple[float, float]] = (),
    on_fold: bool = True,
    chalked: bool = True,
    more: More | None = None,
    share: float | None = None,
    share_words: str = "",
    open_words: str = "",
) -> ft.Control:
    """A garment in work: its outline, its title and facts, and how much of it is chalked (`share`, 0 to 1)."""
    picture = piece_thumbnail(look, outline, on_fold=on_fold, width=_PICTURE, height=_PICTURE, chalked=chalked)
    lines: list[ft.Control] = [say(look, title, size=LARGE, strong=True)]
    lines += [say(look, fact, size=SMALL, soft=True) for fact in facts]
    if share is not None:
        lines.append(_chalked(look, share, share_words))
    return _card(look, identifier, picture, lines, on_open, open_words, more, False)


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
    more: More | None,
    chosen: bool,
) -> ft.Control:
    told = ft.Column(lines, spacing=2, tight=True, horizontal_alignment=ft.CrossAxisAlignment.STRETCH)
    face = ft.Row(
        [picture, ft.Container(told, expand=True), *([sign("forward", look.soft, 20)] if more is None else [])],
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
        expand=more is not None or None,
    )
    inside = opens if more is None else _with_more(look, opens, more)
    whole = named(
        f"{identifier}-card",
        ft.Container(
            inside,
            bgcolor=look.sheet,
            border=ft.Border.all(2 if chosen else 1, look.ink if chosen else look.hair),
            border_radius=CARD_CORNER,
            clip_behavior=ft.ClipBehavior.NONE,  # or the ring of the keyboard is cut off
        ),
    )
    return ft.Container(whole, key=identifier)  # an opened card stays itself when its neighbours come and go


@ft.component
def _with_more(look: Look, opens: ft.Control, more: More) -> ft.Control:
    """The card with its button for more, and below both what that opens, until it is tapped again or one is done."""
    opened, set_opened = ft.use_state(False)

    def doing(action: Action) -> Callable[[], None]:
        def do() -> None:
            set_opened(False)
            action.on_click()

        return do

    dots = ft.Container(sign("dots", look.ink), width=TOUCH, alignment=ft.Alignment.CENTER)
    button = touchable(
        look, dots, lambda: set_opened(not opened), identifier=more.identifier, label=more.words, opened=opened,
        height=TOUCH,
    )  # fmt: skip
    head = ft.Row(
        [opens, ft.Container(button, width=TOUCH + GAP, padding=ft.Padding.only(right=GAP))], spacing=0,
        vertical_alignment=ft.CrossAxisAlignment.CENTER,
    )  # fmt: skip
    if not opened:
        return ft.Column([head], spacing=0, tight=True)
    row = ft.Row([_action(look, each, doing(each)) for each in more.actions], spacing=GAP, wrap=True)
    below = ft.Container(
        row, padding=ft.Padding.symmetric(horizontal=GRID), margin=ft.Margin.symmetric(horizontal=EDGE - GRID),
        border=ft.Border.only(top=ft.BorderSide(1, look.hair)),
    )  # fmt: skip
    return ft.Column([head, below], spacing=0, tight=True, horizontal_alignment=ft.CrossAxisAlignment.STRETCH)


def _action(look: Look, action: Action, do: Callable[[], None]) -> ft.Control:
    words = say(look, action.words)
    words.semantics_label = action.says  # no two buttons of a screen are read out alike
    face = ft.Row([sign(action.icon, look.ink), words], spacing=GRID + 2, tight=True)
    padding = ft.Padding.symmetric(horizontal=GAP)
    return touchable(look, face, do, identifier=action.identifier, height=TOUCH, padding=padding)
