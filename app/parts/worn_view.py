"""The garment on the person: a plain figure to scale, and on it the garment as its front is seen."""

from collections.abc import Sequence

import flet as ft
import flet.canvas as cv

from app.canvas import NEAR, Fit, fill_paint, fit, line_paint, run, thinned
from app.parts.body_outline import smooth
from app.theme import Look, see_through
from drafting.contract.front_view import Figure, Worn
from drafting.drawing.piece import Drawing
from drafting.geometry.point import Point

BELOW_HEM = 0.14
"""How much of the legs is shown below the hem, as a share of the stature: our choice, because it says how high the hem
lies and leaves the garment large."""
CLOTH_SHARE = 0.26
"""How much of the ink covers what lies under the cloth: our choice, so that the body within still shows."""
BESIDE = 6.0
"""Room at all sides, px."""


def crop(worn: Worn, figure: Figure) -> tuple[float, float, float, float]:
    """Left, top, width and height of what is shown, mm: from the crown to some way below the hem, hand to hand."""
    hem = max(place.y for place in worn.outline)
    foot = min(figure.floor, hem + BELOW_HEM * (figure.floor - figure.crown))
    top = min(figure.crown, *(place.y for place in worn.outline))
    reach = max(place.x for place in (*figure.body, *worn.outline))
    return -reach, top, 2 * reach, foot - top


def worn_shapes(look: Look, worn: Worn, figure: Figure, width: float, height: float) -> list[cv.Shape]:
    """The shapes of figure and garment fitted into a box of px; what lies below the crop is left to be clipped."""
    left, top, wide, high = crop(worn, figure)
    fitted = fit(Drawing((), wide, high, left=left, top=top), width, height, BESIDE)
    drawn: list[cv.Shape] = []
    for places in (figure.body, figure.head):
        steps = _rounded(places, fitted)
        drawn += [cv.Path(steps, paint=fill_paint(look.well)), cv.Path(steps, paint=line_paint(look.edge, 1))]
    outline = thinned([fitted.px(place.x, place.y) for place in worn.outline], NEAR)
    steps = run(outline, closed=True)
    drawn += [
        cv.Path(steps, paint=fill_paint(see_through(look.ink, CLOTH_SHARE))),
        cv.Path(steps, paint=line_paint(look.ink, 1.5)),
    ]
    if worn.lines:
        inside = [step for line in worn.lines for step in run(fitted.px(place.x, place.y) for place in line)]
        drawn.append(cv.Path(inside, paint=line_paint(look.ink, 1.2)))
    return drawn


def _rounded(places: Sequence[Point], fitted: Fit) -> list[cv.Path.PathElement]:
    at = [fitted.px(place.x, place.y) for place in places]
    steps: list[cv.Path.PathElement] = [cv.Path.MoveTo(*at[0])]
    for one, two, end in smooth(at):
        steps.append(cv.Path.CubicTo(*(round(each, 2) for each in (*one, *two, *end))))
    return [*steps, cv.Path.Close()]


def worn_view(
    look: Look, worn: Worn, figure: Figure, *, identifier: str, words: str, width: float, height: float
) -> ft.Control:
    """The garment on its person, fitted into its box; `words` are read out in its place."""
    picture = ft.Container(
        cv.Canvas(worn_shapes(look, worn, figure, width, height), width=width, height=height, key=str(id(worn))),
        width=width,
        height=height,
        bgcolor=look.ground if identifier else None,
        clip_behavior=ft.ClipBehavior.HARD_EDGE,
    )
    if not identifier:
        return picture
    return ft.Semantics(identifier=identifier, image=True, label=words, exclude_semantics=True, content=picture)
