"""The girths of a sewn garment, and how each is measured along the marks of its pieces.

A garment hands over a way to measure with each girth; drafting.chalk.rounding asks it by how much the girth grows when
the marks lie where the tape's steps put them. Pieces, marks, edges and notches are named by the garment. Lengths are
mm, washed.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Protocol

from drafting.cloth import passing_factor
from drafting.contract.pieces import Piece
from drafting.geometry.point import Point
from drafting.geometry.polyline import distance_to_line, lengths_along, nearest_on

#: The finished outline is as wide at a level as the girth there says, but for this, mm; else it is measured elsewhere.
_AT_LEVEL = 0.5


@dataclass(frozen=True, slots=True)
class Run:
    """Marks one after the other, joined straight, as they should lie and as they are chalked."""

    ids: tuple[str, ...]
    exact: tuple[Point, ...]
    chalked: tuple[Point, ...]

    def part(self, start: str, end: str) -> "Run":
        """From one mark to another, past the first of all marks where the other one stands before it."""
        first, last = self.ids.index(start), self.ids.index(end)
        chosen = range(first, last + 1) if first <= last else [*range(first, len(self.ids)), *range(last + 1)]
        exact, chalked = (tuple(run[k] for k in chosen) for run in (self.exact, self.chalked))
        return Run(tuple(self.ids[k] for k in chosen), exact, chalked)

    def shift(self, place: Point) -> Point:
        """How far the place of the exact run nearest to `place` is shifted."""
        along = lengths_along(self.exact)
        at, _ = nearest_on(self.exact, along, place)
        index = next(k for k in range(len(along) - 1) if at <= along[k + 1] or k == len(along) - 2)
        share = (at - along[index]) / (along[index + 1] - along[index])
        before, after = (self.chalked[k] - self.exact[k] for k in (index, index + 1))
        return before.between(after, share)


@dataclass(frozen=True, slots=True)
class MarkedPiece:
    """One piece with its marks once round; `scale` is what the wash leaves of the cloth, across and down."""

    piece: Piece
    marks: Run
    scale: tuple[float, float]

    def washed(self, place: Point) -> Point:
        """A place of the cloth once it is washed."""
        return place.scaled(*self.scale)

    def seam(self, edge: str) -> list[Point]:
        """The stitch line of an edge."""
        stitch = next(one.stitch for one in self.piece.edges if one.name == edge)
        return [self.washed(point) for point in stitch.flatten(0.05)]

    def notch(self, notch: str) -> Point:
        """Where a notch meets the cut line."""
        return self.washed(next(one.outer for one in self.piece.notches if one.id == notch))


Marked = Mapping[str, MarkedPiece]
#: From one mark to another, by name.
Between = tuple[str, str]


class ChalkedGirth(Protocol):
    """One way in which a girth runs over its pieces."""

    def change(self, marked: Marked) -> float:
        """By how much the girth is larger as it is chalked, mm."""


@dataclass(frozen=True, slots=True)
class SumOf:
    """Several runs together, each so many times."""

    parts: tuple[tuple[float, ChalkedGirth], ...]

    def change(self, marked: Marked) -> float:
        """The changes added up."""
        return sum(times * part.change(marked) for times, part in self.parts)


@dataclass(frozen=True, slots=True)
class LeastOf:
    """The smallest of several rings, each with its exact girth; `now` is the girth that is told."""

    now: float
    rings: tuple[tuple[float, ChalkedGirth], ...]

    def change(self, marked: Marked) -> float:
        """Which ring is the smallest is looked at anew."""
        return min(exact + ring.change(marked) for exact, ring in self.rings) - self.now


@dataclass(frozen=True, slots=True)
class Along:
    """The length of the outline from mark to mark."""

    piece: str
    between: Between

    def change(self, marked: Marked) -> float:
        """By how much the chalked run is longer."""
        run = marked[self.piece].marks.part(*self.between)
        return lengths_along(run.chalked)[-1] - lengths_along(run.exact)[-1]


@dataclass(frozen=True, slots=True)
class Narrowest:
    """The least distance across of the outline from mark to mark."""

    piece: str
    between: Between

    def change(self, marked: Marked) -> float:
        """By how much it grows."""
        run = marked[self.piece].marks.part(*self.between)
        return min(point.x for point in run.chalked) - min(point.x for point in run.exact)


@dataclass(frozen=True, slots=True)
class AcrossMarks:
    """How far one mark lies beside another, across: the width of a leg from crotch point to crotch point."""

    piece: str
    between: Between

    def change(self, marked: Marked) -> float:
        """By how much they lie farther apart."""
        marks = marked[self.piece].marks
        one, other = (marks.ids.index(mark) for mark in self.between)
        return abs(marks.chalked[other].x - marks.chalked[one].x) - abs(marks.exact[other].x - marks.exact[one].x)


@dataclass(frozen=True, slots=True)
class AcrossAt:
    """The width from the fold, or from a straight centre seam, to an edge at a level; `wide` is what it should be.

    Where the edge runs more across than down there, as at the bust under a batwing, the place counts that is as wide as
    it should be and lies nearest to the level. `between` are the marks that hold the edge.
    """

    piece: str
    between: Between
    edge: str
    level: str
    wide: float

    def change(self, marked: Marked) -> float:
        """By how much it is wider."""
        one = marked[self.piece]
        run, seam = one.marks.part(*self.between), one.seam(self.edge)
        wide = self.wide + (0.0 if one.piece.on_fold else one.washed(one.piece.edges[0].stitch.start).x)
        y = one.washed(Point(0.0, one.piece.level(self.level))).y
        if any(abs(x - wide) <= _AT_LEVEL for x in _across(seam, y, steep=True)):
            exact, chalked = (_across(points, y) for points in (run.exact, run.chalked))
            if exact and chalked:
                true = min(exact, key=lambda x: abs(x - wide))
                return min(chalked, key=lambda x: abs(x - true)) - true
        return run.shift(_as_wide(seam, wide, y)).x


@dataclass(frozen=True, slots=True)
class FromLine:
    """How far the place of a notch lies from the last straight join of another run of marks."""

    piece: str
    notch: str
    between: Between
    line: Between

    def change(self, marked: Marked) -> float:
        """By how much it lies farther away."""
        one = marked[self.piece]
        exact, chalked = _last_join(one, self.line)
        place = one.notch(self.notch)
        moved = place + one.marks.part(*self.between).shift(place)
        return distance_to_line(moved, *chalked) - distance_to_line(place, *exact)


@dataclass(frozen=True, slots=True)
class LeastFromLine:
    """The least distance of a run of marks, as far as a notch on it, from the last straight join of another run."""

    piece: str
    notch: str
    between: Between
    line: Between

    def change(self, marked: Marked) -> float:
        """By how much it grows."""
        one = marked[self.piece]
        run = one.marks.part(*self.between)
        along = lengths_along(run.exact)
        reach, _ = nearest_on(run.exact, along, one.notch(self.notch))
        count = max(1, sum(at <= reach for at in along))
        exact, chalked = (
            min(distance_to_line(point, *line) for point in points[:count])
            for points, line in zip((run.exact, run.chalked), _last_join(one, self.line), strict=True)
        )
        return chalked - exact


def _last_join(one: MarkedPiece, between: Between) -> tuple[tuple[Point, Point], tuple[Point, Point]]:
    """The last straight join of a run, exact and chalked."""
    run = one.marks.part(*between)
    return (run.exact[-2], run.exact[-1]), (run.chalked[-2], run.chalked[-1])


def _across(line: Sequence[Point], level: float, *, steep: bool = False) -> list[float]:
    """Where a line crosses a level, distances across; only where it runs more down than across if it is to be steep."""
    return [
        a.between(b, (level - a.y) / (b.y - a.y)).x
        for a, b in pairwise(line)
        if a.y != b.y and min(a.y, b.y) <= level <= max(a.y, b.y) and not (steep and abs(b.x - a.x) > abs(b.y - a.y))
    ]


def _as_wide(seam: Sequence[Point], wide: float, level: float) -> Point:
    """The place of a seam that lies so far across, the nearest to a level; where there is none, the nearest across."""
    found = [
        a.between(b, (wide - a.x) / (b.x - a.x))
        for a, b in pairwise(seam)
        if a.x != b.x and min(a.x, b.x) <= wide <= max(a.x, b.x)
    ]
    nearest = min(seam, key=lambda point: abs(point.x - wide))
    return min(found, key=lambda point: abs(point.y - level), default=nearest)


@dataclass(frozen=True, slots=True)
class Passes:
    """What goes through a ring as the garment is put on: `what` it is called, and the girth that it `needs`, mm.

    `stretch` is that of the cloth round the ring, as a fraction; some of it is kept in hand (drafting.cloth). `adds` is
    what an open slit adds to the ring: twice its length, mm.
    """

    what: str
    needs: float
    stretch: float
    adds: float = 0.0

    def opened(self, girth: float) -> float:
        """The girth to which a ring of this girth opens, mm."""
        return girth * passing_factor(self.stretch) + self.adds


@dataclass(frozen=True, slots=True)
class ToldGirth:
    """A girth as paper tells it, mm: finished, of the body (0 if nothing), as chalked (0 where that is the same)."""

    label: str
    girth: float
    body: float
    after_rounding: float = 0.0

    @property
    def ease(self) -> float:
        """Finished girth less body girth, mm."""
        return self.girth - self.body


@dataclass(frozen=True, slots=True)
class FinishedGirth:
    """A girth of the sewn garment, mm: `body` is what it goes round (0 if nothing), `ease` the difference.

    `after_rounding` is what it comes to as it is chalked, measured as `chalked` says; without that it stays as it is.
    `worn_stretched` says that the body may stretch it all day, so that it counts for the wear of the cloth. `passes`
    says what goes through it, None where nothing does or where it is opened for that.
    """

    at: str
    label: str
    girth: float
    body: float
    after_rounding: float = 0.0
    chalked: ChalkedGirth | None = None
    worn_stretched: bool = True
    passes: Passes | None = None

    @property
    def ease(self) -> float:
        """Finished girth less body girth, mm."""
        return self.girth - self.body

    @property
    def told(self) -> ToldGirth:
        """What paper tells of it."""
        return ToldGirth(self.label, self.girth, self.body, self.after_rounding)
