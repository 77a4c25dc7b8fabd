"""The figure that shows where the tape goes: a plain body, and the measure one is at lit on it."""

import math

import flet as ft
import flet.canvas as cv

from app.canvas import fill_paint, line_paint, run
from app.parts.body_outline import HALF_WIDE, TAPES, Place, Placing, Tape, framed, outlines, placing, shown, smooth
from app.theme import Look
from drafting.person.measures import Kind

_FLAT = 0.26  # how flat a loop round the body looks


def figure(
    look: Look,
    *,
    kind: Kind,
    measure: str | None,
    age: float | None = None,
    height: float = 260,
    width: float | None = None,
    words: str = "",
) -> ft.Control:
    """A body with one measure's tape lit; it turns and comes nearer by itself as the measure needs.

    Without a measure the whole body is shown from the front. A child is drawn for its `age` in years. `words` are read
    out.
    """
    tape = TAPES.get(measure) if measure else None
    place = placing(kind, age)
    top, foot = shown(tape, place)
    wide = width or max(2 * HALF_WIDE * height / (foot - top), height * 0.5)
    left, top, scale = framed(tape, place, wide, height)

    def px(at: Place) -> Place:
        return (at[0] - left) * scale, (at[1] - top) * scale

    drawn: list[cv.Shape] = []
    for outline in outlines(tape.view if tape else "front", kind, age):
        drawn += _body(look, [px(at) for at in outline.places])
    if tape is None or tape.view != "side":
        drawn += _inner_lines(look, tape.view if tape else "front", place, px)
    if tape is not None:
        drawn += _taped(look, tape, place, px, scale)
    picture = ft.Container(
        cv.Canvas(shapes=drawn, width=wide, height=height),
        width=wide,
        height=height,
        clip_behavior=ft.ClipBehavior.HARD_EDGE,
    )
    return ft.Semantics(identifier="figure", image=True, label=words or None, content=picture)


def _body(look: Look, places: list[Place]) -> list[cv.Shape]:
    steps: list[cv.Path.PathElement] = [cv.Path.MoveTo(*places[0])]
    for one, two, end in smooth(places):
        steps.append(cv.Path.CubicTo(*one, *two, *end))
    steps.append(cv.Path.Close())
    return [cv.Path(steps, paint=fill_paint(look.well)), cv.Path(steps, paint=line_paint(look.soft, 1.5))]


def _inner_lines(look: Look, view: str, place: Placing, px: Placing) -> list[cv.Shape]:
    """The few lines inside: collar bones from the front, the spine and shoulder blades from the back."""
    runs = (
        (((1.0, 17.0), (4.0, 16.9), (7.6, 17.6)), ((-1.0, 17.0), (-4.0, 16.9), (-7.6, 17.6)))
        if view == "front"
        else (
            ((0.0, 18.0), (0.0, 42.0)),
            ((3.6, 21.0), (4.6, 24.0), (3.8, 26.6)),
            ((-3.6, 21.0), (-4.6, 24.0), (-3.8, 26.6)),
        )
    )
    steps: list[cv.Path.PathElement] = []
    for places in runs:
        steps += _curve([px(place(at)) for at in places])
    return [cv.Path(steps, paint=line_paint(look.edge, 1))]


def _curve(places: list[Place]) -> list[cv.Path.PathElement]:
    steps: list[cv.Path.PathElement] = [cv.Path.MoveTo(*places[0])]
    for one, two, end in smooth(places, closed=False):
        steps.append(cv.Path.CubicTo(*one, *two, *end))
    return steps


def _taped(look: Look, tape: Tape, place: Placing, px: Placing, scale: float) -> list[cv.Shape]:
    """The tape: yellow with dark edges on paper, so that it is seen on every ground."""
    edge = look.on_tape if not look.dark else look.ground
    if tape.round is not None:
        (x, y), half, lean = tape.round
        left, right = place((x - half, y)), place((x + half, y))
        middle, reach = px(((left[0] + right[0]) / 2, left[1])), (right[0] - left[0]) / 2 * scale + 1.5
        near, far = _loop(middle, reach, lean, front=True), _loop(middle, reach, lean, front=False)
        hidden = cv.Path(run(far), paint=line_paint(look.accent, 1.5, (3, 3)))
        return [hidden, *_ribbon(look, run(near), edge)]
    places = [px(place(at)) for at in tape.line]
    drawn = _ribbon(look, _curve(places), edge)
    steps: list[cv.Path.PathElement] = []
    if tape.beside:
        for x, y in (places[0], places[-1]):
            steps += [cv.Path.MoveTo(x - 9, y), cv.Path.LineTo(x + 9, y)]
        drawn.append(cv.Path(steps, paint=line_paint(look.ink, 2)))
    else:
        for x, y in (places[0], places[-1]):
            steps.append(cv.Path.Oval(x - 4, y - 4, 8, 8))
        drawn.append(cv.Path(steps, paint=fill_paint(look.ink)))
    return drawn


def _loop(middle: Place, reach: float, lean: float, *, front: bool) -> list[Place]:
    """Half of a ring round the body, seen a little from above; lean in radians."""
    side = 1 if front else -1
    places = []
    for step in range(25):
        turn = math.pi * step / 24
        x, y = reach * math.cos(turn), side * reach * _FLAT * math.sin(turn)
        places.append(
            (
                middle[0] + x * math.cos(lean) - y * math.sin(lean),
                middle[1] + x * math.sin(lean) + y * math.cos(lean),
            )
        )
    return places


def _ribbon(look: Look, steps: list[cv.Path.PathElement], edge: str) -> list[cv.Shape]:
    return [cv.Path(steps, paint=line_paint(edge, 6.5)), cv.Path(steps, paint=line_paint(look.tape, 4))]
