"""From drafting's neutral drawing (mm) to the shapes of a Flet canvas (px).

All strokes of one role become one shape, so that a whole piece is a dozen shapes. Points nearer to their line than
an eighth of a pixel are left out: the outline stays within that of the draft, and what travels to the screen is small.
Plain lines travel as pairs of places, which cost the client and us a fifth of the steps of a path.
"""

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

import flet as ft
import flet.canvas as cv

from app.theme import FONT, STRONG, Look, see_through
from app.turn import AS_DRAFTED, Turn
from drafting.drawing.items import Box
from drafting.drawing.piece import INKS, Drawing, Label, Role, Stroke
from drafting.geometry.point import Point
from drafting.geometry.polyline import simplified

Place = tuple[float, float]

#: How far a drawn line may lie from the draft, px at the size that fits the screen.
NEAR = 0.12
#: The same for the edge of a filled shape, which lies under a drawn line, px.
NEAR_UNDER_LINE = 0.4
#: The size of the plain words of a drawing, px, when its scale comes from `drawing_scale`; and of those words in mm of
#: paper (drafting.drawing.piece's own size of words).
WORD_PX = 13.0
WORD_MM = 2.7
_LEAST_LINE = 1.0
MARGIN = 8.0
"""Round a drawing in its box, px."""
LEAST_SHARE = 0.3
"""What is drawn keeps so much of the box beside its words, or those become smaller: our choice."""
#: No word of a drawing is smaller, px: smaller ones cannot be read on a phone at arm's length (our choice).
LEAST_LETTER = 11.0


@dataclass(frozen=True, slots=True)
class Fit:
    """How mm of cloth become px: turned, `scale` px a millimetre, then moved by (`across`, `down`) px."""

    scale: float
    across: float
    down: float
    turn: Turn = AS_DRAFTED

    def px(self, x: float, y: float) -> Place:
        """The place on the canvas of a place on the cloth."""
        x, y = self.turn.at(x, y)
        return x * self.scale + self.across, y * self.scale + self.down

    def mm(self, x: float, y: float) -> Place:
        """The place on the cloth of a place on the canvas."""
        return self.turn.back((x - self.across) / self.scale, (y - self.down) / self.scale)


def fit(
    drawing: Drawing, width: float, height: float, margin: float = MARGIN, *, turn: Turn = AS_DRAFTED,
    window: Box | None = None,
) -> Fit:  # fmt: skip
    """Fit a drawing into a box of px, in its middle, with a margin all round.

    With a `window` (left, top, right, bottom in mm of cloth) only that part of it is fitted, and the rest runs out of
    the box.
    """
    left, top, right, foot = window or box_of(drawing)
    room_x, room_y = max(width - 2 * margin, 1.0), max(height - 2 * margin, 1.0)
    (ax, ay), (bx, by) = turn.at(left, top), turn.at(right, foot)
    wide, high = abs(bx - ax), abs(by - ay)
    scale = min(room_x / max(wide, 1e-9), room_y / max(high, 1e-9))
    return Fit(scale, (width - (ax + bx) * scale) / 2, (height - (ay + by) * scale) / 2, turn)


def box_of(drawing: Drawing) -> Box:
    """The box of a drawing, mm of cloth: left, top, right, bottom."""
    return drawing.left, drawing.top, drawing.left + drawing.width, drawing.top + drawing.height


def drawing_scale(wide: float, high: float, width: float, height: float, words: float = WORD_PX) -> float:
    """The scale to ask drafting.drawing.piece for, so that its words come out `words` px high.

    `wide` and `high` are the piece or the cloth in mm, `width` and `height` the room on the screen in px.
    """
    return words / WORD_MM / min(width / max(wide, 1.0), height / max(high, 1.0))


def worded(
    make: Callable[[float], Drawing], wide: float, high: float, width: float, height: float, words: float
) -> Drawing:
    """A drawing whose words come out `words` px high in a box of px, with all that stands round what is drawn.

    `make` draws for a scale; `wide` and `high` are what is drawn without its words, mm of cloth. What stands round it
    grows with the scale, so a first drawing tells how much there is of it.
    """
    first = drawing_scale(wide, high, width, height, words)
    drawing = make(first)
    size, scales = words / WORD_MM, [first]
    for room, long, all_of_it in ((width, wide, drawing.width), (height, high, drawing.height)):
        free, around = room - 2 * MARGIN, max((all_of_it - long) / first, 1e-9)
        as_large = min(size, (1 - LEAST_SHARE) * free / around)
        scales.append(as_large * long / (free - as_large * around))
    scale = max(scales[1:])
    return drawing if abs(scale / first - 1) < 0.02 else make(scale)


def thinned(points: Sequence[Place], near: float) -> list[Place]:
    """The points without those nearer than `near` to the line that then remains."""
    return [points[index] for index in simplified(points, near)] if len(points) > 2 else list(points)


def colour_of(role: Role, look: Look) -> str:
    """The colour of a role; weight, dash and word tell the roles apart, colour only helps."""
    if role in ("level", "dimension", "frame", "selvage", "proof", "hatch"):
        return look.soft
    if role == "piece_fill":
        return see_through(look.ink, 0.10 if look.dark else 0.06)
    if role in ("stitch", "guide", "clip", "stretch", "grain", "nap"):
        return look.soft if role == "stitch" else look.ink
    return look.ink


def line_paint(colour: str, width: float, dash: Sequence[float] = ()) -> ft.Paint:
    """The paint of a line: px; the dash is dash, gap, dash, gap."""
    return ft.Paint(
        color=colour,
        stroke_width=width,
        style=ft.PaintingStyle.STROKE,
        stroke_cap=ft.StrokeCap.BUTT if dash else ft.StrokeCap.ROUND,
        stroke_join=ft.StrokeJoin.ROUND,
        stroke_dash_pattern=list(dash) or None,
    )


def fill_paint(colour: str) -> ft.Paint:
    """The paint of a filled shape."""
    return ft.Paint(color=colour, style=ft.PaintingStyle.FILL)


def run(points: Iterable[Place], closed: bool = False) -> list[cv.Path.PathElement]:
    """Joined points as the elements of a path."""
    steps: list[cv.Path.PathElement] = []
    for x, y in points:
        at = (round(x, 2), round(y, 2))
        steps.append(cv.Path.LineTo(*at) if steps else cv.Path.MoveTo(*at))
    if closed and steps:
        steps.append(cv.Path.Close())
    return steps


def lines(runs: Iterable[Sequence[Place]], paint: ft.Paint) -> cv.Points:
    """Joined points, a run each, as one shape of straight lines; the paint has no dash."""
    pairs: list[Place] = []
    for points in runs:
        at = [(round(x, 2), round(y, 2)) for x, y in points]
        for step in pairwise(at):
            pairs += step
    return cv.Points(points=list[ft.OffsetValue](pairs), point_mode=cv.PointMode.LINES, paint=paint)


def shapes(drawing: Drawing, look: Look, fitted: Fit) -> list[cv.Shape]:
    """The shapes of a drawing: one a role (two where some are filled), then its words."""
    strokes: dict[tuple[Role, bool], list[list[Place]]] = {}
    words: list[cv.Shape] = []
    done: dict[int, list[Place]] = {}  # a filled outline and the line round it share their points
    for item in drawing.items:
        if isinstance(item, Label):
            words.append(_words(item, look, fitted, drawing.scale))
        else:
            strokes.setdefault((item.role, item.filled), []).append(_places(item, fitted, done))
    drawn: list[cv.Shape] = []
    for (role, filled), runs in sorted(strokes.items(), key=lambda pair: pair[0][0] != "piece_fill"):
        paint = _paint(role, filled, look, fitted.scale * drawing.scale)
        if filled or INKS[role].dash:
            drawn.append(cv.Path(elements=[step for points in runs for step in run(points, filled)], paint=paint))
        else:
            drawn.append(lines(runs, paint))
    return drawn + words


def _places(stroke: Stroke, fitted: Fit, done: dict[int, list[Place]]) -> list[Place]:
    """Where a stroke runs on the canvas, thinned; back to its beginning if it is closed."""
    places = done.get(id(stroke.points))
    if places is None:
        places = thinned([fitted.px(point.x, point.y) for point in stroke.points], NEAR)
        done[id(stroke.points)] = places
    if stroke.role == "piece_fill":
        places = thinned(places, NEAR_UNDER_LINE)
    return [*places, places[0]] if stroke.closed else places


def _paint(role: Role, filled: bool, look: Look, paper_mm: float) -> ft.Paint:
    colour, ink = colour_of(role, look), INKS[role]
    if filled:
        return fill_paint(colour)
    return line_paint(colour, max(ink.weight * paper_mm, _LEAST_LINE), [part * paper_mm for part in ink.dash])


_ANCHORS = {"start": -1.0, "middle": 0.0, "end": 1.0}


def _words(label: Label, look: Look, fitted: Fit, scale: float) -> cv.Text:
    x, y = fitted.px(label.at.x, label.at.y)
    angle, anchor = upright(label.angle, fitted.turn)
    family = STRONG if label.strong else FONT
    size = max(label.size * scale * fitted.scale, LEAST_LETTER)
    return cv.Text(
        x=round(x, 2),
        y=round(y, 2),
        value=label.text,
        alignment=ft.Alignment(anchor * _ANCHORS[label.anchor], 0),
        rotate=angle,
        style=ft.TextStyle(size=round(size, 2), font_family=family, color=colour_of(label.role, look), height=1.2),
    )


def upright(angle: float, turn: Turn) -> tuple[float, int]:
    """The angle of a line of writing in a turned picture, and −1 where it then runs the other way: never on its head.

    A picture that is not turned keeps its angles.
    """
    if turn == AS_DRAFTED:
        return angle, 1
    x, y = turn.at(math.cos(angle), math.sin(angle))
    way = -1 if x < -1e-9 or (abs(x) <= 1e-9 and y > 0) else 1
    return math.atan2(way * y, way * x), way


def outline_shapes(
    outline: Sequence[Place], look: Look, width: float, height: float, *, on_fold: bool, margin: float = 6.0
) -> list[cv.Shape]:
    """Only the outline of a piece in a small box: filled, its cut edge drawn, the fold heavy."""
    if len(outline) < 2:
        return []
    places = [Point(x, y) for x, y in outline]
    left, right = min(p.x for p in places), max(p.x for p in places)
    top, foot = min(p.y for p in places), max(p.y for p in places)
    fitted = fit(Drawing((), right - left, foot - top, left=left, top=top), width, height, margin)
    line = thinned([fitted.px(p.x, p.y) for p in places], NEAR)
    drawn: list[cv.Shape] = [
        cv.Path(elements=run(line, closed=True), paint=fill_paint(colour_of("piece_fill", look))),
        cv.Path(elements=run(line, closed=not on_fold), paint=line_paint(look.ink, 1.5)),
    ]
    if on_fold:
        drawn.append(cv.Path(elements=run((line[0], line[-1])), paint=line_paint(look.ink, 3)))
    return drawn
