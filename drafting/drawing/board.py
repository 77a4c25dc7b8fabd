"""The board a drawing is put together on: it collects strokes and words, and finds free places for the words."""

import itertools
import math
from collections.abc import Callable, Iterable, Sequence
from typing import NamedTuple, TypeVar

from drafting.drawing.items import (
    Anchoring,
    Box,
    Drawing,
    Item,
    Label,
    Role,
    Stroke,
    bounds,
    crosses_box,
    label_box,
    overlap,
    text_width,
)
from drafting.geometry.point import Point

T = TypeVar("T")

#: Words further than this from their place get a thin line that leads to them, mm of paper.
_LEAD_FROM = 3.0
#: Beside words, so that 7 and 8 never read as 78, and above and below several lines of them, mm of paper.
_APART = 0.8
#: Round the box of a drawing, mm of paper.
_PAD = 0.8
#: (clear distance in mm of paper, turn in radians from the outward direction), nearest and straightest first.
_SPOTS = sorted(
    (
        (gap, turn * side)
        for gap in (1.1, 2.2, 3.6, 5.5, 8.0, 11.0, 15.0, 20.0, 26.0)
        for turn in (0.0, 0.4, 0.8, 1.2, 1.7)
        for side in ((1, -1) if turn else (1,))
    ),
    key=lambda spot: (spot[0] + 1.6 * abs(spot[1]), spot[1]),
)


class Spot(NamedTuple):
    """Words at a place where they might be written, as in Label."""

    at: Point
    text: str
    anchor: Anchoring = "start"
    angle: float = 0.0


def least_bad(choices: Iterable[T], harm: Callable[[T], int]) -> T:
    """The first choice that does no harm, or the first of those that do least. None is looked at after one without."""
    best: tuple[int, T] | None = None
    for choice in choices:
        done = harm(choice)
        if best is None or done < best[0]:
            best = done, choice
        if done == 0:
            break
    if best is None:
        raise ValueError("there is nothing to choose from")
    return best[1]


class Board:
    """Collects items, and remembers which boxes and lines are taken.

    `scale` is the mm of cloth under one mm of paper times `letters`, by which words and signs are enlarged.
    """

    def __init__(self, scale: float, letters: float = 1.0) -> None:
        self.paper_scale = scale
        self.letters = letters
        self.scale = scale * letters
        self.items: list[Item] = []
        self.taken: list[Box] = []
        self.walls: list[tuple[Point, Point]] = []

    def stroke(
        self, points: Iterable[Point], role: Role, *, closed: bool = False, filled: bool = False, wall: bool = False
    ) -> None:
        """Draw joined points; a `wall` is a line that words keep off."""
        run = tuple(points)
        self.items.append(Stroke(run, role, closed, filled))
        if wall:
            whole = (*run, run[0]) if closed else run
            self.walls.extend(itertools.pairwise(thinned(whole, 0.6 * self.scale)))

    def label(
        self, at: Point, text: str, size: float, anchor: Anchoring = "start", *,
        angle: float = 0.0, role: Role = "level", strong: bool = False,
    ) -> None:  # fmt: skip
        """Write at a given place, `size` in mm of paper before enlarging."""
        label = Label(at, text, size * self.letters, anchor, angle, role, strong)
        self.items.append(label)
        self.taken.append(label_box(label, self.paper_scale))

    def write(self, spots: Sequence[Spot], size: float, *, role: Role = "level", strong: bool = False) -> None:
        """Write at the first of the spots where the words touch nothing; at the least bad one if all touch."""
        best = least_bad((self._label_at(spot, size, role, strong) for spot in spots), self._touches)
        self.items.append(best)
        self.taken.append(label_box(best, self.paper_scale))

    def touched(self, spot: Spot, size: float, *, strong: bool = False) -> int:
        """How much words at a spot would touch; 0 where they are free."""
        return self._touches(self._label_at(spot, size, "level", strong=strong))

    def _label_at(self, spot: Spot, size: float, role: Role, strong: bool) -> Label:
        return Label(spot.at, spot.text, size * self.letters, spot.anchor, spot.angle, role, strong)

    def _touches(self, label: Label) -> int:
        return self.struck(label_box(label, self.paper_scale))

    def dot(self, at: Point, role: Role = "mark") -> None:
        """A small full dot."""
        ring = 0.75 * self.scale
        self.stroke((at + Point(ring, 0).turned(n * math.tau / 20) for n in range(20)), role, closed=True, filled=True)
        self.taken.append((at.x - ring, at.y - ring, at.x + ring, at.y + ring))

    def arrow(self, start: Point, end: Point, role: Role, *, both: bool = False) -> None:
        """A straight arrow, with a head at the end or at both ends."""
        along = (end - start).unit()
        self.stroke((start, end), role, wall=True)
        self.head(end, along, role)
        if both:
            self.head(start, along * -1, role)

    def head(self, tip: Point, along: Point, role: Role) -> None:
        """The head of an arrow that travels `along` (a unit vector)."""
        back, side = along * (-2.4 * self.scale), along.left() * (0.8 * self.scale)
        self.stroke((tip, tip + back + side, tip + back - side), role, closed=True, filled=True)

    def place(
        self, at: Point, away: Point, texts: Sequence[str], size: float, role: Role, *,
        strong: bool = False, lead: bool = True, lead_from: float = _LEAD_FROM,
    ) -> None:  # fmt: skip
        """Write lines near `at`, outward along `away`, where they touch nothing; the least bad place if all do.

        From `lead_from` mm of paper on a thin line leads to them.
        """
        half_wide = max(text_width(text, size, strong) for text in texts) * self.scale / 2
        half_tall = (0.8 + 1.15 * (len(texts) - 1)) * size * self.scale / 2

        def centre_of(spot: tuple[float, float]) -> Point:
            out = away.turned(spot[1])
            return at + out * (spot[0] * self.scale + half_wide * abs(out.x) + half_tall * abs(out.y))

        def lead_to(spot: tuple[float, float]) -> tuple[Point, Point] | None:
            if not lead or spot[0] <= lead_from:
                return None
            centre = centre_of(spot)
            near = Point(
                min(max(at.x, centre.x - half_wide), centre.x + half_wide),
                min(max(at.y, centre.y - half_tall), centre.y + half_tall),
            )
            return at.between(near, 0.18), at.between(near, 0.88)

        best, fewest = _SPOTS[0], -1
        for spot in _SPOTS:
            middle = centre_of(spot)
            room = half_wide + _APART * self.scale
            tall = half_tall + (_APART * self.scale if len(texts) > 1 else 0.0)
            box = (middle.x - room, middle.y - tall, middle.x + room, middle.y + tall)
            struck = self.struck(box) + self._run_through(lead_to(spot), at)
            if fewest < 0 or struck < fewest:
                best, fewest = spot, struck
            if struck == 0:
                break
        centre, line = centre_of(best), lead_to(best)
        if line is not None:
            self.stroke(line, "dimension", wall=True)
        for index, text in enumerate(texts):
            y = centre.y + (index - (len(texts) - 1) / 2) * size * 1.15 * self.scale
            self.label(Point(centre.x, y), text, size, "middle", role=role, strong=strong)

    def _run_through(self, line: tuple[Point, Point] | None, of: Point) -> int:
        """How much a thin line to a place touches: the words and dots it runs through, but for those at that place."""
        if line is None:
            return 0
        others = (box for box in self.taken if not (box[0] <= of.x <= box[2] and box[1] <= of.y <= box[3]))
        return 5 * sum(1 for box in others if crosses_box(*line, box))

    def struck(self, box: Box) -> int:
        """How much of what is taken a box touches; words on words weigh more than words on a line."""
        return 10 * self.covered(box) + sum(1 for a, b in self.walls if crosses_box(a, b, box))

    def covered(self, box: Box) -> int:
        """How many words a box touches."""
        return sum(1 for other in self.taken if overlap(box, other))

    def drawing(self, title: str) -> Drawing:
        """All that was put on the board, in a box that holds it."""
        corners: list[Point] = []
        for item in self.items:
            if isinstance(item, Stroke):
                corners.extend(item.points)
            else:
                box = label_box(item, self.paper_scale)
                corners.extend((Point(box[0], box[1]), Point(box[2], box[3])))
        left, top, right, bottom = bounds(corners)
        pad = _PAD * self.scale
        size = (right - left + 2 * pad, bottom - top + 2 * pad)
        return Drawing(tuple(self.items), *size, self.paper_scale, left - pad, top - pad, title)


def thinned(points: Sequence[Point], step: float) -> list[Point]:
    """The points without those nearer than `step` to the last one kept; both ends stay."""
    kept = [points[0]]
    for point in points[1:-1]:
        if kept[-1].distance(point) >= step:
            kept.append(point)
    return [*kept, points[-1]]
