"""What a style asks for in lengths, girths and angles, and how each is measured on the finished outline.

A garment hands over one `Asked` for each; the check `as_asked` measures them and knows no style key by name. Everything
is measured on the stitch lines of the pieces with the shrinkage taken out again, so as the garment is sewn and washed;
only an allowance is measured on the cloth. Lengths in millimetres, angles in degrees.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal, Protocol

from drafting.cloth import ClothFacts
from drafting.contract.pieces import Edge, Piece
from drafting.geometry.path import Path
from drafting.geometry.point import Point
from drafting.geometry.polyline import distance_to_polyline, lines_meet, turn_between
from drafting.geometry.segments import Cubic, Line, flatten

#: How near an outline is looked at, mm: four layers of it together stay far under the 0.5 mm that is promised.
_NEAR = 0.02
#: How near a corner lies to the line that it ends, mm. Our choice: half of what its level may be off.
_CORNER_WITHIN = 0.25
#: An asked length or girth is met within this, mm (design of the draft: asked girths are met within half a millimetre).
MET_WITHIN = 0.5
#: An asked angle is met within this, degrees. Our choice: a third of a millimetre over 20 cm.
ANGLE_WITHIN = 0.1


class FinishedOutline:
    """The pieces of a draft as they are sewn and washed: each edge, level and notch by its name."""

    def __init__(self, pieces: Sequence[Piece], cloth: ClothFacts) -> None:
        self._pieces = {piece.name: piece for piece in reversed(pieces)}
        self._across, self._down = 1 - cloth.shrink_across, 1 - cloth.shrink_along
        self._paths: dict[tuple[str, str], Path] = {}

    def piece(self, name: str) -> Piece:
        """A piece by its name."""
        return self._pieces[name]

    def edge(self, piece: str, name: str) -> Edge:
        """An edge as it lies on the cloth."""
        return next(edge for edge in self._pieces[piece].edges if edge.name == name)

    def path(self, piece: str, edge: str) -> Path:
        """The stitch line of an edge, finished."""
        key = piece, edge
        if key not in self._paths:
            stitch = self.edge(piece, edge).stitch
            plain = self._across == self._down == 1.0
            self._paths[key] = stitch if plain else stitch.scaled(self._across, self._down, Point(0.0, 0.0))
        return self._paths[key]

    def place(self, point: Point) -> Point:
        """A place on the cloth as it lies on the finished piece."""
        return point.scaled(self._across, self._down)

    def level(self, piece: str, name: str) -> float:
        """How far down a level lies, mm."""
        return self._pieces[piece].level(name) * self._down

    def zero(self, piece: str) -> float:
        """How far down construction points are measured from, mm."""
        return self._pieces[piece].zero * self._down

    def notch(self, piece: str, name: str) -> Point | None:
        """The place of a notch on the stitch line; None where there is none."""
        found = next((notch.inner for notch in self._pieces[piece].notches if notch.id == name), None)
        return None if found is None else self.place(found)

    def centre(self, piece: str) -> float:
        """Where the fold lies, or the stitch line of a straight centre seam, mm across."""
        return self._pieces[piece].edges[0].stitch.start.x * self._across


class Measure(Protocol):
    """One way to measure a finished outline."""

    def of(self, outline: FinishedOutline) -> float:
        """The figure found, mm or degrees."""


@dataclass(frozen=True, slots=True)
class EdgeLength:
    """Length along an edge."""

    piece: str
    edge: str

    def of(self, outline: FinishedOutline) -> float:
        """Mm."""
        return outline.path(self.piece, self.edge).length()


@dataclass(frozen=True, slots=True)
class FromCorner:
    """Length of an edge's straight end, from a notch on it or from the corner that is rounded off at the notch.

    The corner is where the straight lines before and after the curve would meet, as lengths of the trade count.
    """

    piece: str
    edge: str
    notch: str

    def of(self, outline: FinishedOutline) -> float:
        """Mm; infinite where the notch is missing or the edge does not end straight."""
        segments = outline.path(self.piece, self.edge).segments
        last, place = segments[-1], outline.notch(self.piece, self.notch)
        if place is None or not isinstance(last, Line):
            return math.inf
        begins = len(segments) - 1  # of the curve that runs into the straight end
        while begins > 0 and isinstance(segments[begins - 1], Cubic):
            begins -= 1
        if begins < len(segments) - 1 and distance_to_polyline(place, [last.start, last.end]) > _NEAR:
            into = segments[begins]
            place = lines_meet(into.start, into.tangent(0.0), last.end, last.tangent(1.0))
        return (last.end - place).dot(last.tangent(1.0))


@dataclass(frozen=True, slots=True)
class FoldLength:
    """Length of the fold of a piece, from its first edge to its last."""

    piece: str

    def of(self, outline: FinishedOutline) -> float:
        """Mm."""
        edges = outline.piece(self.piece).edges
        return outline.path(self.piece, edges[-1].name).end.y - outline.path(self.piece, edges[0].name).start.y


@dataclass(frozen=True, slots=True)
class BelowLevel:
    """How far an edge's beginning or end lies below a level of its piece; negative above it."""

    piece: str
    level: str
    edge: str
    at: Literal["start", "end"]

    def of(self, outline: FinishedOutline) -> float:
        """Mm."""
        path = outline.path(self.piece, self.edge)
        place = path.start if self.at == "start" else path.end
        return place.y - outline.level(self.piece, self.level)


@dataclass(frozen=True, slots=True)
class NotchBelowLevel:
    """How far a notch lies below a level of its piece; negative above it."""

    piece: str
    level: str
    notch: str

    def of(self, outline: FinishedOutline) -> float:
        """Mm; infinite where the notch is missing."""
        place = outline.notch(self.piece, self.notch)
        return math.inf if place is None else place.y - outline.level(self.piece, self.level)


@dataclass(frozen=True, slots=True)
class NotchAboveEnd:
    """How far a notch lies above the end of an edge; 0 without the notch, since nothing is then marked there."""

    piece: str
    edge: str
    notch: str

    def of(self, outline: FinishedOutline) -> float:
        """Mm."""
        place = outline.notch(self.piece, self.notch)
        return 0.0 if place is None else outline.path(self.piece, self.edge).end.y - place.y


@dataclass(frozen=True, slots=True)
class Across:
    """Width from the fold to the nearest outline at a level."""

    piece: str
    level: str

    def of(self, outline: FinishedOutline) -> float:
        """Mm; infinite where no edge meets the level."""
        level, centre = outline.level(self.piece, self.level), outline.centre(self.piece)
        found = math.inf
        for edge in outline.piece(self.piece).edges:
            path = outline.path(self.piece, edge.name)
            if abs(path.start.x - centre) < 1e-6 and abs(path.end.x - centre) < 1e-6:
                continue  # a straight centre seam, where the fold would be
            for segment in path.segments:
                heights = [segment.start.y, segment.end.y]
                heights += [segment.first.y, segment.second.y] if isinstance(segment, Cubic) else []
                if not min(heights) <= level <= max(heights):
                    continue
                for a, b in pairwise(flatten((segment,), _NEAR)):
                    if min(a.y, b.y) <= level <= max(a.y, b.y) and a.y != b.y:
                        found = min(found, a.between(b, (level - a.y) / (b.y - a.y)).x)
        return found - centre


@dataclass(frozen=True, slots=True)
class LeastAcross:
    """The least distance of an edge from the fold."""

    piece: str
    edge: str

    def of(self, outline: FinishedOutline) -> float:
        """Mm."""
        points = outline.path(self.piece, self.edge).flatten(_NEAR)
        return min(point.x for point in points) - outline.centre(self.piece)


@dataclass(frozen=True, slots=True)
class StartAcross:
    """How far from the fold an edge begins."""

    piece: str
    edge: str

    def of(self, outline: FinishedOutline) -> float:
        """Mm."""
        return outline.path(self.piece, self.edge).start.x - outline.centre(self.piece)


@dataclass(frozen=True, slots=True)
class LeastFromEnd:
    """The least distance of an edge from the straight end of another, carried on: half a sleeve at its narrowest."""

    piece: str
    straight: str
    edge: str

    def of(self, outline: FinishedOutline) -> float:
        """Mm."""
        last = outline.path(self.piece, self.straight).segments[-1]
        along = last.tangent(1.0)
        points = outline.path(self.piece, self.edge).flatten(_NEAR)
        return min(abs(along.cross(point - last.end)) for point in points)


@dataclass(frozen=True, slots=True)
class RoundedCorner:
    """How far a corner that a curve rounds off lies above a level.

    The corner is a construction point, `down` from the zero of its piece and `across` from the fold. It must lie on the
    continuation of the line that runs into the curve, or it is no corner of this outline.
    """

    piece: str
    edge: str
    level: str
    across: float
    down: float

    def of(self, outline: FinishedOutline) -> float:
        """Mm; infinite where the corner lies beside that line."""
        corner = Point(self.across + outline.centre(self.piece), self.down + outline.zero(self.piece))
        beside = min(
            (
                _beside_continuation(segment, corner)
                for segment in outline.path(self.piece, self.edge).segments
                if isinstance(segment, Cubic)
            ),
            default=math.inf,
        )
        return math.inf if beside > _CORNER_WITHIN else outline.level(self.piece, self.level) - corner.y


def _beside_continuation(curve: Cubic, point: Point) -> float:
    """How far a point lies beside a curve carried on beyond its end, mm."""
    t = 1 + curve.end.distance(point) / max(curve.velocity(1.0).length(), 1e-9)
    for _ in range(12):
        apart, speed = curve.at(t) - point, curve.velocity(t)
        bend = speed.dot(speed) + apart.dot(curve.acceleration(t))
        if bend <= 1e-9:
            break
        t = min(max(t - apart.dot(speed) / bend, 1.0), 20.0)
    return curve.at(t).distance(point)


@dataclass(frozen=True, slots=True)
class LeansAtStart:
    """The angle of an edge's beginning to the fold: 0 where it runs straight down, positive where it leans inward."""

    piece: str
    edge: str

    def of(self, outline: FinishedOutline) -> float:
        """Degrees."""
        first = outline.path(self.piece, self.edge).segments[0].tangent(0.0)
        return math.degrees(math.atan2(-first.x, first.y))


@dataclass(frozen=True, slots=True)
class TurnsBy:
    """By how much an edge turns from its beginning to its end: the angle of a flare."""

    piece: str
    edge: str

    def of(self, outline: FinishedOutline) -> float:
        """Degrees."""
        segments = outline.path(self.piece, self.edge).segments
        return abs(math.degrees(turn_between(segments[0].tangent(0.0), segments[-1].tangent(1.0))))


@dataclass(frozen=True, slots=True)
class TrimFalls:
    """The angle at which the trimmed edge of an opened-out piece falls across."""

    piece: str

    def of(self, outline: FinishedOutline) -> float:
        """Degrees; 0 without a trimmed edge."""
        trim = [outline.place(point) for point in outline.piece(self.piece).trim]
        if len(trim) < 3:
            return 0.0
        run = trim[2] - trim[1]
        return math.degrees(math.atan2(run.y, run.x))


@dataclass(frozen=True, slots=True)
class Allowance:
    """How far the cut line lies outside an edge, on the cloth."""

    piece: str
    edge: str

    def of(self, outline: FinishedOutline) -> float:
        """Mm, where it differs most from what the edge says, of five places along the cut edge."""
        edge = outline.edge(self.piece, self.edge)
        last = len(edge.cut) - 1
        if edge.swing is not None:  # carried on along its circle
            centre, radius = edge.swing.centre, edge.swing.stitch
            found = [abs(edge.cut[last * step // 6].distance(centre) - radius) for step in range(1, 6)]
            return max(found, key=lambda away: abs(away - edge.allowance))
        stitch = _carried_on(edge.stitch)
        found = [distance_to_polyline(edge.cut[last * step // 6], stitch) for step in range(1, 6)]
        return max(found, key=lambda away: abs(away - edge.allowance))


def _carried_on(path: Path) -> list[Point]:
    """An edge joined straight, and carried on at both ends, since cut edges reach beyond it at corners."""
    points = path.flatten(_NEAR)
    first, last = path.segments[0].tangent(0.0), path.segments[-1].tangent(1.0)
    return [points[0] - first * 150.0, *points, points[-1] + last * 150.0]


@dataclass(frozen=True, slots=True)
class Sum:
    """Several figures, each counted so many times: the four quarters of a girth, two runs of a length."""

    parts: tuple[tuple[float, Measure], ...]

    def of(self, outline: FinishedOutline) -> float:
        """Mm."""
        return sum(times * part.of(outline) for times, part in self.parts)


@dataclass(frozen=True, slots=True)
class NotBelowZero:
    """A figure, or 0 where it would be negative: a neck edge that lies below its level has no height."""

    part: Measure

    def of(self, outline: FinishedOutline) -> float:
        """Mm."""
        return max(0.0, self.part.of(outline))


@dataclass(frozen=True, slots=True)
class Asked:
    """One length, girth or angle that a style asks for.

    `key` is the style's key, by which an Adjustment may say that it became another; `asked` is None where nothing was
    asked and only what an adjustment says is to be proven. `measure` is None where the outline has nothing of the kind:
    an adjustment must then say that it became 0. `at_least` holds where the figure may be larger, never smaller. `unit`
    is "mm" or "deg".
    """

    key: str
    what: str
    asked: float | None
    measure: Measure | None
    at_least: bool = False
    unit: Literal["mm", "deg"] = "mm"

    @property
    def within(self) -> float:
        """How nearly it is met, in its unit."""
        return MET_WITHIN if self.unit == "mm" else ANGLE_WITHIN
