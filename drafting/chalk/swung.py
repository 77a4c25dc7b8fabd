"""Edges that are swung with the tape: which join is swung, and the line of marks with their arcs between them.

A swung join needs no points between its ends. What is measured along the marks, as an area or a girth, follows its arc:
the exact one of the draft, or the one that the tape swings where its readings put it.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from drafting.chalk.curve_points import Run
from drafting.chalk.marks import ChalkLine, Mark, Swung
from drafting.contract.pieces import Piece
from drafting.geometry.point import Point
from drafting.units import Tape

#: How near the ends and the middle of a join lie to the arc of an edge that is swung, mm (our choice).
ON_ARC = 0.3
#: The angle between the points that stand for an arc, radians: 0.04 mm beside an arc of a metre (CALC).
_EVERY = math.radians(1.0)


def swung_between(piece: Piece, run: Run, begin: float, end: float, tape: Tape, line: ChalkLine) -> Swung | None:
    """How the line is swung between two distances along it; None where no edge that is swung runs there."""
    places = [run.at(begin + (end - begin) * share) for share in (0.0, 0.5, 1.0)]
    for edge in piece.edges:
        if edge.swing is None:
            continue
        radius = edge.swing.cut if line == "cut" else edge.swing.stitch
        if all(abs(place.distance(edge.swing.centre) - radius) <= ON_ARC for place in places):
            centre = edge.swing.centre
            return Swung(centre, radius, tape.reading(radius), tape.reading(centre.y))
    return None


@dataclass(frozen=True, slots=True)
class Along:
    """A place on the line of marks: the id of its mark, empty on an arc; where it should lie, and as it is chalked."""

    id: str
    exact: Point
    chalked: Point


def line_of(marks: Sequence[Mark]) -> tuple[Along, ...]:
    """The marks once round, with places on every arc between them.

    Where the tape was swung the line is there already: a mark on it counts where the arc runs past it, however far
    beside the arc its own two readings lie.
    """
    found: list[Along] = []
    for index, mark in enumerate(marks):
        if index > 0 and mark.swung is not None:
            before, swung = marks[index - 1], mark.swung
            exact = _arc(swung.centre, swung.radius, before.point, mark.point)
            chalked = _arc(swung.chalked_centre, swung.reads.mm, before.chalked, mark.chalked, len(exact))
            found[-1] = Along(before.id, before.point, chalked[0])
            found += [Along("", one, other) for one, other in zip(exact[1:-1], chalked[1:-1], strict=True)]
            found.append(Along(mark.id, mark.point, chalked[-1]))
            continue
        found.append(Along(mark.id, mark.point, mark.chalked))
    return tuple(found)


def _arc(centre: Point, radius: float, start: Point, end: Point, count: int | None = None) -> list[Point]:
    """Places on an arc between the directions of two points, `count` of them, both directions among them."""
    first, last = (math.atan2((point - centre).y, (point - centre).x) for point in (start, end))
    number = count or max(3, math.ceil(abs(last - first) / _EVERY) + 1)
    angles = [first + (last - first) * k / (number - 1) for k in range(number)]
    return [centre + Point(math.cos(angle), math.sin(angle)) * radius for angle in angles]
