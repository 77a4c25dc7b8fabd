"""What a step of the chalk plan says, told one by one: each thing with its words, its readings and what to light.

A screen shows one at a time, with its line, curve or place lit in the drawing; the words here are short, because two
readings stand beside them.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from drafting.chalk.joins import legs
from drafting.chalk.lying import Lying, Spot, ordinal
from drafting.chalk.marks import Apart, Counts, Leg, Mark
from drafting.contract.pieces import Piece
from drafting.geometry.point import Point
from drafting.geometry.polyline import kept, lengths_along, nearest_on, point_along
from drafting.layout import Layout, fold_reading
from drafting.sentences import lower_first, upper_first
from drafting.units import Tape

#: How far a lit line may lie from the line of the draft, mm: less than the breadth of a chalk line (our choice).
NEAR = 0.2
_ZEROS: tuple[Counts, ...] = ("down", "down_second", "down_third")
_FROM: dict[str, Counts] = {
    "the fold": "from_fold",
    "the left fold": "from_left_fold",
    "the right fold": "from_right_fold",
    "the left edge": "from_left_edge",
}


def down_from(mm: float, tape: Tape) -> tuple[Counts, str]:
    """A reading down, with the 0 that it counts from."""
    number, reading = tape.from_zero(tape.reading(mm))
    return _ZEROS[min(number, len(_ZEROS)) - 1], reading.text


def readings_of(point: Point, tape: Tape) -> tuple[tuple[Counts, str], ...]:
    """The two readings of a place on a piece."""
    return ("across", tape.reading(point.x).text), down_from(point.y, tape)


def thinned(points: Sequence[Point]) -> tuple[Point, ...]:
    """The points that a lit line needs."""
    found = kept([(point.x, point.y) for point in points], NEAR) if len(points) > 2 else range(len(points))
    return tuple(points[index] for index in found)


@dataclass(frozen=True, slots=True)
class Outline:
    """The line that is chalked, from the top of the fold round to its end."""

    points: tuple[Point, ...]
    along: tuple[float, ...]

    @classmethod
    def of(cls, points: Sequence[Point]) -> "Outline":
        """The line with its lengths."""
        return cls(tuple(points), tuple(lengths_along(points)))

    def between(self, start: Point, end: Point) -> tuple[Point, ...]:
        """The part of it from one place on it to a later one; from a later to an earlier one it is ruled straight."""
        first, last = (nearest_on(self.points, self.along, point)[0] for point in (start, end))
        if last <= first:
            return start, end
        inner = [point for point, at in zip(self.points, self.along, strict=True) if first < at < last]
        ends = point_along(self.points, self.along, first), point_along(self.points, self.along, last)
        return thinned((ends[0], *inner, ends[1]))

    def across(self, down: float) -> float:
        """How far from x = 0 a level line first leaves the piece, mm."""
        found = [
            a.x + (b.x - a.x) * (down - a.y) / (b.y - a.y)
            for a, b in pairwise(self.points)
            if a.y != b.y and min(a.y, b.y) <= down <= max(a.y, b.y)
        ]
        out = [x for x in found if x > NEAR]
        return min(out) if out else max((point.x for point in self.points if abs(point.y - down) < 1.0), default=0.0)


def level(key: str, name: str, down: float, rule: str, line: Outline, tape: Tape, title: str, *, whole: bool) -> Apart:
    """A level of the body, ruled across."""
    out = line.across(down)
    ends = Point(-out if whole else 0.0, down), Point(out, down)
    says = f"{upper_first(name)}: {lower_first(rule)}"
    return Apart(f"level.{key}", "level", title, says, (down_from(down, tape),), line=ends)


def joins(marks: Sequence[Mark], line: Outline, *, closed: bool) -> tuple[Apart, ...]:
    """Every leg of the outline, ruled or drawn."""
    by_id = {mark.id: mark for mark in marks}
    return tuple(_join(leg, by_id, line) for leg in legs(marks, closed=closed))


def _join(leg: Leg, marks: dict[str, Mark], line: Outline) -> Apart:
    start, end = marks[leg.start], marks[leg.end]
    title, key = "Join the marks", f"join.{leg.start}-{leg.end}"
    names = (leg.start, *leg.through, leg.end)
    if leg.joins == "straight":
        says = f"Rule straight from ({start.order}) to ({end.order})."
        return Apart(key, "join", title, says, marks=names, line=(start.point, end.point))
    through = ", ".join(f"({marks[name].order})" for name in leg.through)
    way = (
        f"from ({start.order}) through {through} to ({end.order})"
        if through
        else f"from ({start.order}) to ({end.order})"
    )
    says = f"Draw one smooth curve {way}. A corner in it shows a mark that has slipped."
    return Apart(key, "join", title, says, marks=names, line=line.between(start.point, end.point))


def places(pieces: Sequence[Piece], lying: Sequence[Lying], layout: Layout, tape: Tape) -> tuple[Apart, ...]:
    """Every fold across the cloth and every 0, before the first cut."""
    found: list[Apart] = []
    for piece, lies in zip(pieces, lying, strict=True):
        for number, spot in enumerate(lies.spots, start=1):
            again = f"{ordinal(number)} " if number > 1 else ""
            name, key = f"the {again}{lower_first(piece.label)}", f"{piece.name}.{number}"
            at = layout.places.index(spot.at)
            if spot.fold is not None:
                says = f"Chalk the fold for {name}, straight across the cloth."
                reads: tuple[tuple[Counts, str], ...] = (("from_cut_end", fold_reading(spot.fold.at, tape).text),)
                found.append(Apart(f"fold.{key}", "fold", "Places", says, reads, place=at))
            found.append(_place(spot, name, f"place.{key}", at))
    return tuple(found)


def _place(spot: Spot, name: str, key: str, at: int) -> Apart:
    laying = spot.laying
    aside: tuple[Counts, str] = (_FROM[laying.counted_from], laying.across.text)
    if spot.fold is not None:
        return Apart(key, "place", "Places", f"Chalk the 0 of {name} on its fold.", (aside,), place=at)
    down: tuple[Counts, str] = ("from_cut_end", laying.down.text)
    if laying.across.steps == 0:
        says = f"Chalk the 0 of {name} on {laying.counted_from}, with its name."
        return Apart(key, "place", "Places", says, (down,), place=at)
    return Apart(key, "place", "Places", f"Chalk the 0 of {name}, with its name.", (aside, down), place=at)
