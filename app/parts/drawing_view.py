"""A drawing to look at closely: pinch, drag, wheel; a double tap fits it again; a tap on a mark reads it."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field

import flet as ft
import flet.canvas as cv

from app.canvas import Place, fit, shapes
from app.chalk_canvas import RING, mark_shapes, nearest, window_for
from app.lit import NOTHING, Lit
from app.parts.buttons import icon_button
from app.theme import COLUMN, CORNER, TOUCH, Look, see_through
from app.turn import AS_DRAFTED, Turn
from drafting.drawing.items import Box
from drafting.drawing.piece import Drawing

#: How far a picture can be pinched larger.
MOST = 10.0
#: The steps in which the letters over a pinched picture keep their size, as shares of it.
_STEP = 1.1
_FITTING = 150
"""How long a picture takes to be fitted again, ms."""
_GLIDES, _STOPS = 0.0000135, 1e-300
"""What is left of the speed of a picture that was let go, a second later: the client's own, and none at all."""
_INSET = 8.0
"""From the button that fits to the edges of the drawing, px."""


@dataclass(slots=True)
class Pinch:
    """How much a picture is pinched larger, as its gestures tell it: each counts from where it began."""

    begun: float = 1.0
    now: float = 1.0

    def begin(self) -> None:
        """A gesture begins."""
        self.begun = self.now

    def to(self, scale: float) -> None:
        """The gesture has made the picture so many times larger since it began."""
        self.now = min(max(self.begun * scale, 1.0), MOST)

    def fit(self) -> None:
        """The picture is fitted again."""
        self.begun = self.now = 1.0


@dataclass(slots=True)
class _Shown:
    """What a view keeps from one drawing to the next.

    Its pinch, the drawing with the part of it that was shown when that began, whether a closer one is worth it, and
    whether the whole was asked for.
    """

    pinch: Pinch = field(default_factory=Pinch)
    drawing: Drawing | None = None
    window: Box | None = None
    closer: bool = False
    whole: bool = False


def corner(width: float, height: float, lit: Sequence[Place]) -> Box:
    """Where the button that fits stands, px: below at the right, or above where it would cover what is lit."""
    left, right = width - _INSET - TOUCH, width - _INSET
    below = left, height - _INSET - TOUCH, right, height - _INSET
    covers = any(left - RING <= x <= right + RING and y >= below[1] - RING for x, y in lit)
    return (left, _INSET, right, _INSET + TOUCH) if covers else below


@ft.component
def drawing_view(
    look: Look,
    drawing: Drawing | None,
    *,
    identifier: str,
    words: str,
    announced: bool = False,
    height: float,
    width: float | None = None,
    likely: float = 0.0,
    marks: Mapping[str, Place] | None = None,
    lit: Lit = NOTHING,
    done: frozenset[str] = frozenset(),
    numbers: Mapping[str, int] | None = None,
    zeros: Mapping[str, Place] | None = None,
    turn: Turn = AS_DRAFTED,
    close_up: bool = False,
    on_mark: Callable[[str | None], None] | None = None,
    fit_words: str = "Fit",
    calm: bool = False,
) -> ft.Control:
    """The drawing fitted into its box; `words` are read out in its place, and at once when they change if `announced`.

    `marks` are places in mm by the id of their mark: they are drawn over the drawing (so ask the drawing for none) with
    their `numbers`, those in `done` faded, and what is `lit`. `zeros` are drawn with their names. A tap calls `on_mark`
    with the nearest id, or None beside all. `turn` says how the picture lies. With `close_up`, what is lit is shown
    closer where it is small in a large drawing; then the button that fits shows the whole, and closer again.
    Without a `width` it fills the room it has, once that is told; until then it is drawn `likely` px wide. It may never
    be told: a drawing that takes the place of another of the same size changes no size. `calm` moves nothing that a
    finger does not move.
    """
    seen, set_seen = ft.use_state(width or likely)
    _, set_whole = ft.use_state(False)
    zoom, set_zoom = ft.use_state(1.0)
    viewer: ft.MutableRef[ft.Ref[ft.InteractiveViewer]] = ft.use_ref(ft.Ref[ft.InteractiveViewer])
    kept: ft.MutableRef[_Shown] = ft.use_ref(_Shown)
    wide = width or seen
    ref, shown = viewer.current, kept.current
    assert ref is not None
    assert shown is not None

    def sized(event: ft.LayoutSizeChangeEvent[ft.LayoutControl]) -> None:
        if abs(event.width - seen) > 0.5:
            set_seen(event.width)

    async def fitted_again(_: object = None) -> None:
        shown.pinch.fit()
        set_zoom(1.0)
        if ref.current is not None:
            await ref.current.reset(ft.Duration(milliseconds=0 if calm else _FITTING))

    def fit_now() -> None:
        if shown.closer and shown.pinch.now <= _STEP:
            shown.whole = not shown.whole
            set_whole(shown.whole)
        ft.context.page.run_task(fitted_again)

    def pinched(_: object) -> None:
        if not 1 / _STEP < shown.pinch.now / zoom < _STEP:
            set_zoom(shown.pinch.now)

    inner: ft.Control = ft.Container()
    stands = corner(wide, height, [])
    if drawing is not None and wide > 0:
        places = marks or {}
        if zoom <= _STEP or drawing is not shown.drawing:  # a picture that is pinched stays where it is
            window = window_for(drawing, places, lit, wide, height, turn) if close_up else None
            shown.drawing, shown.closer, shown.window = drawing, window is not None, None if shown.whole else window
        fitted = fit(drawing, wide, height, turn=turn, window=shown.window)
        stands = corner(wide, height, [fitted.px(x, y) for x, y in lit.places(places)])
        drawn = shapes(drawing, look, fitted) + mark_shapes(
            places, look, fitted, lit=lit, done=done, numbers=numbers, zeros=zeros, room=(wide, height), zoom=zoom,
            kept=[stands] if zoom <= _STEP else [],
        )  # fmt: skip

        def tapped(event: ft.TapEvent[ft.GestureDetector]) -> None:
            if on_mark is not None and event.local_position is not None:
                at = event.local_position
                on_mark(nearest(places, fitted, at.x, at.y, TOUCH / 2 / zoom))

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
        max_scale=MOST,
        boundary_margin=ft.Margin.all(max(wide, height) / 2),
        trackpad_scroll_causes_scale=True,
        interaction_update_interval=20,
        interaction_end_friction_coefficient=_STOPS if calm else _GLIDES,
        # Only where numbers or names stand over the drawing is it told how much it is pinched.
        on_interaction_start=(lambda _: shown.pinch.begin()) if numbers or zeros else None,
        on_interaction_update=(lambda event: shown.pinch.to(event.scale)) if numbers or zeros else None,
        on_interaction_end=pinched if numbers or zeros else None,
    )
    button = ft.use_memo(
        lambda: ft.Container(
            icon_button(look, "fit", fit_words, fit_now, identifier=f"{identifier}-fit"),
            right=_INSET,
            top=stands[1],
            width=TOUCH,
            height=TOUCH,
            bgcolor=see_through(look.ground, 0.8),
            border_radius=CORNER,
            clip_behavior=ft.ClipBehavior.NONE,  # or the ring of the keyboard is cut off
        ),
        [look, fit_words, identifier, stands],
    )
    image = ft.Semantics(
        identifier=identifier, label=words, image=True, live_region=announced, exclude_semantics=True, content=page
    )
    return ft.Container(
        ft.Stack([image, button], width=wide or COLUMN, height=height),
        height=height,
        width=width,
        bgcolor=look.ground,
        clip_behavior=ft.ClipBehavior.HARD_EDGE,
        on_size_change=sized if width is None else None,
        alignment=ft.Alignment.CENTER,
    )
