"""A drawing to look at closely: pinch, drag, wheel; a double tap fits it again; a tap on a mark reads it."""

from collections.abc import Callable, Mapping

import flet as ft
import flet.canvas as cv

from app.canvas import fit, mark_shapes, nearest, shapes
from app.parts.buttons import icon_button
from app.theme import COLUMN, CORNER, TOUCH, Look, see_through
from drafting.drawing import Drawing

Place = tuple[float, float]


@ft.component
def drawing_view(
    look: Look,
    drawing: Drawing | None,
    *,
    identifier: str,
    words: str,
    height: float,
    width: float | None = None,
    likely: float = 0.0,
    marks: Mapping[str, Place] | None = None,
    lit: str | None = None,
    done: frozenset[str] = frozenset(),
    zero: float = 0.0,
    on_mark: Callable[[str | None], None] | None = None,
    fit_words: str = "Fit",
) -> ft.Control:
    """The drawing fitted into its box; `words` are read out in its place.

    `marks` are places in mm by the id of their mark: they are drawn over the drawing (so ask the drawing for none),
    those in `done` faded, `lit` with the two ways to it, down from `zero` mm. A tap calls `on_mark` with the nearest
    id, or None beside all.
    Without a `width` it fills the room it has, once that is told; until then it is drawn `likely` px wide. It may never
    be told: a drawing that takes the place of another of the same size changes no size.
    """
    seen, set_seen = ft.use_state(width or likely)
    viewer: ft.MutableRef[ft.Ref[ft.InteractiveViewer]] = ft.use_ref(ft.Ref[ft.InteractiveViewer])
    wide = width or seen
    ref = viewer.current
    assert ref is not None

    def sized(event: ft.LayoutSizeChangeEvent[ft.LayoutControl]) -> None:
        if abs(event.width - seen) > 0.5:
            set_seen(event.width)

    async def fitted_again(_: object = None) -> None:
        if ref.current is not None:
            await ref.current.reset(ft.Duration(milliseconds=150))

    def fit_now() -> None:
        ft.context.page.run_task(fitted_again)

    inner: ft.Control = ft.Container()
    if drawing is not None and wide > 0:
        fitted = fit(drawing, wide, height)
        places = marks or {}
        drawn = shapes(drawing, look, fitted) + mark_shapes(places, look, fitted, lit=lit, done=done, zero=zero)

        def tapped(event: ft.TapEvent[ft.GestureDetector]) -> None:
            if on_mark is not None and event.local_position is not None:
                at = event.local_position
                on_mark(nearest(places, fitted, at.x, at.y))

        inner = ft.GestureDetector(
            # Another drawing is another canvas: exchanging it is quicker than comparing it point by point.
            content=cv.Canvas(shapes=drawn, key=str(id(drawing)), width=wide, height=height),
            on_tap_up=tapped if on_mark is not None else None,
            on_double_tap=fitted_again,
        )
    page = ft.InteractiveViewer(
        ref=ref,
        content=ft.Container(inner, width=wide or None, height=height),
        min_scale=1,
        max_scale=10,
        boundary_margin=ft.Margin.all(max(wide, height) / 2),
        trackpad_scroll_causes_scale=True,
    )
    button = ft.use_memo(
        lambda: ft.Container(
            icon_button(look, "fit", fit_words, fit_now, identifier=f"{identifier}-fit"),
            right=4,
            bottom=4,
            width=TOUCH,
            height=TOUCH,
            bgcolor=see_through(look.ground, 0.8),
            border_radius=CORNER,
        ),
        [look, fit_words, identifier],
    )
    image = ft.Semantics(identifier=identifier, label=words, image=True, exclude_semantics=True, content=page)
    return ft.Container(
        ft.Stack([image, button], width=wide or COLUMN, height=height),
        height=height,
        width=width,
        bgcolor=look.ground,
        clip_behavior=ft.ClipBehavior.HARD_EDGE,
        on_size_change=sized if width is None else None,
        alignment=ft.Alignment.CENTER,
    )
