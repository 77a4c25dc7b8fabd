"""The girths of a draft measured anew along its marks, by shapely, for each way in which a garment measures one.

The core says by how much a girth changes; here it is measured whole, once along the exact marks and once along those
that are built anew from the printed readings.
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import shapely
from shapely import LineString

from drafting.chalk.plan import ChalkPlan, Mark
from drafting.contract.girths import (
    AcrossAt,
    AcrossMarks,
    Along,
    ChalkedGirth,
    FromLine,
    LeastFromLine,
    LeastOf,
    Narrowest,
    SumOf,
)
from drafting.contract.pieces import Piece
from drafting.contract.set_out import SetOut
from drafting.units import read_length

#: An arc that is swung is looked at in so many short joins.
ARC = 180
#: A level section of the marks is as wide as its girth says but for this, mm; else the girth is measured elsewhere.
LEVEL = 1.0


def read(mark: Mark) -> tuple[float, float]:
    """Where the printed readings of a mark put it, mm."""
    unit = mark.across.tape.unit
    across, down = read_length(mark.across.text, unit), read_length(mark.down.text, unit)
    assert isinstance(across, float)
    assert isinstance(down, float)
    return across, down


Place = tuple[float, float]


def line_of(marks: Sequence[Mark], *, chalked: bool) -> list[tuple[str, Place]]:
    """The marks once round with their places, joined straight, and along the arc where the tape is swung.

    Chalked marks lie where their printed readings put them, but on an arc where the swung tape runs past them. The
    places on an arc between its ends have no name.
    """
    found: list[tuple[str, Place]] = []
    for index, mark in enumerate(marks):
        place = read(mark) if chalked else (mark.point.x, mark.point.y)
        if index == 0 or mark.swung is None:
            found.append((mark.id, place))
            continue
        swung = mark.swung
        held = (0.0, swung.held.mm) if chalked else (swung.centre.x, swung.centre.y)
        radius = swung.reads.mm if chalked else swung.radius
        begin = read(marks[index - 1]) if chalked else found[-1][1]
        ends = [math.atan2(y - held[1], x - held[0]) for x, y in (begin, place)]
        arc = []
        for step in range(ARC + 1):
            angle = ends[0] + (ends[1] - ends[0]) * step / ARC
            arc.append((held[0] + radius * math.cos(angle), held[1] + radius * math.sin(angle)))
        found[-1] = (found[-1][0], arc[0])
        found += [("", one) for one in arc[1:-1]]
        found.append((mark.id, arc[-1]))
    return found


@dataclass(frozen=True)
class Joined:
    """The line of the marks of a piece as it is sewn and washed; `exact` is it where it should lie."""

    piece: Piece
    places: Sequence[tuple[str, Place]]
    exact: Sequence[tuple[str, Place]]
    scale: tuple[float, float]
    inner: bool

    def run(self, between: tuple[str, str], *, exact: bool = False) -> list[Place]:
        line = self.exact if exact else self.places
        ids = [name for name, _ in line]
        first, last = ids.index(between[0]), ids.index(between[1])
        chosen = line[first : last + 1] if first <= last else [*line[first:], *line[: last + 1]]  # past the first
        return [place for _, place in chosen]

    @property
    def middle(self) -> float:
        """Where the fold lies, or the straight seam in its place; on the line that is chalked where that moves."""
        return 0.0 if self.piece.on_fold else self.piece.edges[0].stitch.start.x * self.scale[0]

    def notch(self, name: str) -> tuple[float, float]:
        found = next(one for one in self.piece.notches if one.id == name)
        place = found.inner if self.inner else found.outer
        return place.x * self.scale[0], place.y * self.scale[1]

    def moved(self, place: tuple[float, float], between: tuple[str, str]) -> tuple[float, float]:
        """Where a place beside a run of marks comes to lie when they are chalked."""
        exact, here = self.run(between, exact=True), self.run(between)
        line = LineString(exact)
        at = line.project(shapely.Point(place))
        for index in range(len(exact) - 1):
            long = math.dist(exact[index], exact[index + 1])
            if at <= long or index == len(exact) - 2:
                share = at / long
                shift = [
                    (1 - share) * (here[index][k] - exact[index][k])
                    + share * (here[index + 1][k] - exact[index + 1][k])
                    for k in (0, 1)
                ]
                return place[0] + shift[0], place[1] + shift[1]
            at -= long
        raise AssertionError("a run of one mark")


Marked = Mapping[str, Joined]


def whole(girth: ChalkedGirth, marked: Marked) -> float | None:  # noqa: PLR0911 - one line for each kind
    """A girth along its marks, mm; None where no level section of them is as wide as it, as at a bust under a sleeve.

    A way of measuring that is not known here is an error: a garment that brings one brings its measure too.
    """
    if isinstance(girth, SumOf):
        parts = [(times, whole(part, marked)) for times, part in girth.parts]
        return None if any(part is None for _, part in parts) else sum(times * (part or 0.0) for times, part in parts)
    if isinstance(girth, LeastOf):
        rings = [whole(ring, marked) for _, ring in girth.rings]
        return None if None in rings else min(ring for ring in rings if ring is not None)
    assert isinstance(girth, (Along, Narrowest, AcrossAt, AcrossMarks, FromLine, LeastFromLine)), (
        f"how is {girth} measured?"
    )
    one = marked[girth.piece]
    if isinstance(girth, AcrossMarks):
        places = dict(one.places)
        return abs(places[girth.between[1]][0] - places[girth.between[0]][0])
    run = one.run(girth.between)
    if isinstance(girth, Along):
        return float(LineString(run).length)
    if isinstance(girth, Narrowest):
        return float(LineString(run).bounds[0]) - one.middle
    if isinstance(girth, AcrossAt):
        level = one.piece.level(girth.level) * one.scale[1]
        at, above = (
            _across(one.run(girth.between, exact=True), y, girth.wide + one.middle) for y in (level, level - 1)
        )
        if abs(at - one.middle - girth.wide) > LEVEL or abs(at - above) > 0.95:
            return None
        return _across(run, level, at) - one.middle
    line = one.run(girth.line)[-2:]
    if isinstance(girth, FromLine):
        return _away(one.moved(one.notch(girth.notch), girth.between), line)
    exact = LineString(one.run(girth.between, exact=True))
    reach = exact.project(shapely.Point(one.notch(girth.notch)))
    at = [0.0]
    for a, b in zip(exact.coords, exact.coords[1:], strict=False):
        at.append(at[-1] + math.dist(a, b))
    return min(_away(point, line) for point, here in zip(run, at, strict=True) if here <= reach + 1e-6)


def _across(run: list[tuple[float, float]], level: float, wide: float) -> float:
    """Where a run crosses a level, the place nearest to `wide`; infinite where it does not."""
    cut = LineString(run).intersection(LineString([(-9e3, level), (9e3, level)]))
    return min((float(x) for x, _ in shapely.get_coordinates(cut)), key=lambda x: abs(x - wide), default=math.inf)


def _away(point: tuple[float, float], line: list[tuple[float, float]]) -> float:
    """The distance of a point from a straight line through two others, carried on."""
    (ax, ay), (bx, by) = line
    return abs((bx - ax) * (point[1] - ay) - (by - ay) * (point[0] - ax)) / math.dist(*line)


def joined(draft: SetOut, plan: ChalkPlan, *, chalked: bool, inner: bool = False) -> Marked:
    """Every piece of a draft by its marks: where they should lie, or where their printed readings put them.

    Notches stand on the cut line, or on the stitch line when the `inner` end is meant.
    """
    scale = 1 - draft.cloth.shrink_across, 1 - draft.cloth.shrink_along
    found = {}
    for piece, own in zip(draft.pieces, plan.pieces, strict=True):
        exact, places = (
            [(name, (x * scale[0], y * scale[1])) for name, (x, y) in line_of(own.marks, chalked=read)]
            for read in (False, chalked)
        )
        found[piece.name] = Joined(piece, places, exact, scale, inner)
    return found
