"""A slider whose value is said in words, with a step less and a step more beside it."""

from collections.abc import Callable

import flet as ft
import flet.canvas as cv

from app.canvas import fill_paint, line_paint
from app.parts.buttons import icon_button
from app.parts.named import alone
from app.parts.touchable import APART, RING
from app.parts.words import say, stack
from app.theme import SMALL, TOUCH, Look

_KNOB = 12.0
_TICKS = 20


@ft.component
def slider(
    look: Look,
    *,
    identifier: str,
    label: str,
    value: float,
    low: float,
    high: float,
    step: float,
    says: Callable[[float], str],
    on_change: Callable[[float], None],
    on_settled: Callable[[float], None] | None = None,
    ends: tuple[str, str] = ("", ""),
    less_words: str = "Less",
    more_words: str = "More",
) -> ft.Control:
    """A value between two limits, in whole steps. While it is dragged only the words and `on_change` follow."""
    held, set_held = ft.use_state(value)
    given, set_given = ft.use_state(value)
    wide, set_wide = ft.use_state(200.0)
    if given != value:  # changed from outside
        set_given(value)
        set_held(value)
        held = value

    def stepped(number: float) -> float:
        return min(max(low + round((number - low) / step) * step, low), high)

    def moved(number: float) -> None:
        to = stepped(number)
        if to != held:
            set_held(to)
            on_change(to)

    def settled(number: float) -> None:
        if on_settled is not None:
            on_settled(stepped(number))

    def nudge(by: float) -> None:
        moved(held + by)
        settled(held + by)

    def sized(event: ft.LayoutSizeChangeEvent[ft.LayoutControl]) -> None:
        if abs(event.width - wide) > 0.5:
            set_wide(event.width)

    def pulled(event: ft.DragUpdateEvent[ft.GestureDetector] | ft.TapEvent[ft.GestureDetector]) -> None:
        if event.local_position is not None:
            share = (event.local_position.x - _KNOB) / max(wide - 2 * _KNOB, 1)
            moved(low + min(max(share, 0.0), 1.0) * (high - low))

    # Not Flet's own slider: its hidden value bubble lies over the whole page for readers of the screen.
    knob = ft.Container(
        ft.GestureDetector(
            content=cv.Canvas(_tape(look, wide, (held - low) / max(high - low, 1e-9)), width=wide, height=TOUCH),
            mouse_cursor=ft.MouseCursor.CLICK,
            drag_interval=16,
            exclude_from_semantics=True,
            on_tap_down=pulled,
            on_horizontal_drag_update=pulled,
            on_horizontal_drag_end=lambda _: settled(held),
        ),
        height=TOUCH,
        on_size_change=sized,
    )
    # Nor a slider of the client's semantics: the page's own is made without a name, and counts from 0 to 2.
    top = ft.Row(
        [
            ft.Container(alone(say(look, label, strong=True)), expand=True),
            ft.Semantics(
                identifier=f"{identifier}-says",
                live_region=True,
                container=True,
                content=say(look, says(held), strong=True),
            ),
        ],
        vertical_alignment=ft.CrossAxisAlignment.START,
    )
    middle = ft.Row(
        [
            icon_button(look, "minus", f"{label}: {less_words}", lambda: nudge(-step), identifier=f"{identifier}-less"),
            ft.Semantics(identifier=identifier, content=knob, expand=True),
            icon_button(look, "add", f"{label}: {more_words}", lambda: nudge(step), identifier=f"{identifier}-more"),
        ],
        spacing=0,
    )
    lines: list[ft.Control] = [top, middle]
    if any(ends):
        lines.append(
            ft.Row(
                [alone(say(look, end, size=SMALL, soft=True)) for end in ends],
                alignment=ft.MainAxisAlignment.SPACE_BETWEEN,
            )
        )
    rows = stack(lines, spacing=RING + APART)  # or the ring round a button covers the words above it
    return ft.Semantics(identifier=f"{identifier}-group", label=label, container=True, content=rows)


def _tape(look: Look, wide: float, share: float) -> list[cv.Shape]:
    """A tape from end to end, what is measured off drawn heavier, and the knob at its place."""
    middle, start, end = TOUCH / 2, _KNOB, max(wide - _KNOB, _KNOB)
    at = start + min(max(share, 0.0), 1.0) * (end - start)
    ticks: list[cv.Path.PathElement] = []
    for index in range(_TICKS + 1):
        x = start + (end - start) * index / _TICKS
        ticks += [cv.Path.MoveTo(x, middle + 4), cv.Path.LineTo(x, middle + (14 if index % 10 == 0 else 9))]
    return [
        cv.Path(elements=ticks, paint=line_paint(look.edge, 1)),
        cv.Line(start, middle, end, middle, paint=line_paint(look.edge, 2)),
        cv.Line(start, middle, at, middle, paint=line_paint(look.ink, 4)),
        cv.Circle(at, middle, _KNOB, paint=fill_paint(look.tape)),
        cv.Circle(at, middle, _KNOB, paint=line_paint(look.ink, 2)),
    ]
