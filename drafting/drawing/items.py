"""What a drawing is made of: strokes, words, their pens, and the boxes they fill.

Places are millimetres of cloth; weights of lines and sizes of letters are millimetres of paper.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Literal

from drafting.geometry.point import Point

Role = Literal[
    "cut", "stitch", "fold", "grain", "stretch", "nap", "notch", "clip", "level", "dimension", "mark", "frame",
    "selvage", "piece_fill", "proof", "guide", "trim", "centre", "hatch", "allowance",
]  # fmt: skip
Anchoring = Literal["start", "middle", "end"]


@dataclass(frozen=True, slots=True)
class Ink:
    """How a line is drawn, in mm of paper: its weight, and dash, gap, dash, gap ... (empty: solid)."""

    weight: float
    dash: tuple[float, ...] = ()


#: One pen for each role, in mm of paper (our choice, because they stay apart on a black-and-white printer).
INKS: dict[Role, Ink] = {
    "cut": Ink(0.6),
    "stitch": Ink(0.3, (3.0, 1.5)),
    "fold": Ink(1.1),
    "grain": Ink(0.3),
    "stretch": Ink(0.3),
    "nap": Ink(0.3),
    "notch": Ink(0.5),
    "clip": Ink(0.3),
    "level": Ink(0.18),
    "dimension": Ink(0.15),
    "mark": Ink(0.3),
    "frame": Ink(0.2),
    "selvage": Ink(0.4),
    "piece_fill": Ink(0.0),
    "proof": Ink(0.2, (4.0, 1.0, 0.6, 1.0)),
    "guide": Ink(0.5, (1.2, 0.8)),
    "trim": Ink(0.45, (6.0, 1.6)),
    "centre": Ink(0.25, (5.0, 1.2, 0.8, 1.2)),
    "hatch": Ink(0.09),
    "allowance": Ink(0.15),
}


@dataclass(frozen=True, slots=True)
class Stroke:
    """Points joined straight, mm of cloth; `closed` joins the last to the first, `filled` inks the inside."""

    points: tuple[Point, ...]
    role: Role
    closed: bool = False
    filled: bool = False


@dataclass(frozen=True, slots=True)
class Label:
    """Words at a place: `at` lies at half the height of the letters, at their start, middle or end.

    `size` is the letter size (em) in mm of paper; `angle` in radians turns the line of writing, clockwise on the
    page positive.
    """

    at: Point
    text: str
    size: float
    anchor: Anchoring = "start"
    angle: float = 0.0
    role: Role = "level"
    strong: bool = False


Item = Stroke | Label


@dataclass(frozen=True, slots=True)
class Drawing:
    """Items in order of drawing, within a box of `width` × `height` mm of cloth whose corner is (`left`, `top`).

    Places keep the axes of their piece (origin: fold at the top of the cut line), so `left` is often negative.
    """

    items: tuple[Item, ...]
    width: float
    height: float
    scale: float = 1.0
    left: float = 0.0
    top: float = 0.0
    title: str = ""

    @property
    def paper_width(self) -> float:
        """Width of the box in mm of paper."""
        return self.width / self.scale

    @property
    def paper_height(self) -> float:
        """Height of the box in mm of paper."""
        return self.height / self.scale


Box = tuple[float, float, float, float]
_FRACTIONS = frozenset("⅛¼⅜½⅝¾⅞×°✓−≥→←")


def text_width(text: str, size: float, strong: bool = False) -> float:
    """Room to keep for a line of writing, in the unit of `size`: a little more than it takes (± 15 %)."""
    ems = sum(0.95 if character in _FRACTIONS else 0.56 for character in text)
    return ems * size * (1.06 if strong else 1.0)


def label_box(label: Label, scale: float) -> Box:
    """The upright box a label fills, mm of cloth: left, top, right, bottom."""
    width, height = text_width(label.text, label.size, label.strong) * scale, label.size * 0.8 * scale
    shift = {"start": 0.0, "middle": -width / 2, "end": -width}[label.anchor]
    corners = [
        label.at + Point(x, y).turned(label.angle) for x in (shift, shift + width) for y in (-height / 2, height / 2)
    ]
    return bounds(corners)


def moved(item: Item, by: Point) -> Item:
    """The item moved by a vector, mm of cloth."""
    if isinstance(item, Label):
        return replace(item, at=item.at + by)
    return replace(item, points=tuple(point + by for point in item.points))


def bounds(points: Iterable[Point]) -> Box:
    """The upright box round some points (at least one)."""
    run = list(points)
    xs, ys = [point.x for point in run], [point.y for point in run]
    return min(xs), min(ys), max(xs), max(ys)


def overlap(a: Box, b: Box) -> bool:
    """Whether two boxes share more than an edge."""
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


def clipped(a: Point, b: Point, box: Box) -> tuple[float, float] | None:
    """The shares of the way from a to b at which a straight line enters and leaves a box (Liang and Barsky 1984)."""
    enter, leave = 0.0, 1.0
    run = b - a
    for step, near, far in ((run.x, box[0] - a.x, box[2] - a.x), (run.y, box[1] - a.y, box[3] - a.y)):
        if abs(step) < 1e-12:
            if near > 0 or far < 0:
                return None
            continue
        first, last = sorted((near / step, far / step))
        enter, leave = max(enter, first), min(leave, last)
        if enter > leave:
            return None
    return enter, leave


def crosses_box(a: Point, b: Point, box: Box) -> bool:
    """Whether a straight line touches a box."""
    left, top, right, bottom = box
    # Written out: this is asked a hundred thousand times of a drawing, and nearly every line lies to one side.
    if (a.x < left and b.x < left) or (a.x > right and b.x > right):
        return False
    if (a.y < top and b.y < top) or (a.y > bottom and b.y > bottom):
        return False
    return clipped(a, b, box) is not None
