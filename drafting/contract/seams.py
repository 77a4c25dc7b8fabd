"""What is sewn to what: the seams of a garment, each with its two sides.

A garment hands them over in an order in which they may be sewn: one that runs over the end of another stands after it,
as the seat of trousers, left leg to right leg, after the inner legs. Whoever compares lengths, pairs notches or writes
seams down knows no edge by its name. Lengths are mm along the stitching line on the cloth as it is cut; of a `washed`
seam, as it lies after the wash.
"""

from collections.abc import Mapping
from dataclasses import dataclass

from drafting.contract.pieces import Notch, Piece
from drafting.geometry.point import Point

#: What the wash leaves of the cloth, across and down; as it is cut, all of it.
Scale = tuple[float, float]
AS_CUT: Scale = (1.0, 1.0)


@dataclass(frozen=True, slots=True)
class EdgeRun:
    """An edge of a piece as a part of one side of a seam; `times` counts the copies and halves that follow another.

    One that is sewn `backwards` begins at the end of its edge: an outline runs down one side of a whole piece and up
    the other.
    """

    piece: str
    edge: str
    times: int = 1
    backwards: bool = False


@dataclass(frozen=True, slots=True)
class Seam:
    """Two sides that are sewn together, each one edge or several in the order in which they follow one another.

    `ease` is how much longer the first side is than the second, on purpose, mm. Notches of one name on both sides must
    meet: each of the side that has fewer of them one of the other, and where a side has several edges, or is cut with
    ease, at the same share of its length. A `washed` seam is compared as it lies after the wash: of cloth that shrinks
    unevenly a curve and the straight strip that is sewn to it cannot agree both before the wash and after it.
    """

    one: tuple[EdgeRun, ...]
    other: tuple[EdgeRun, ...]
    ease: float = 0.0
    washed: bool = False

    @property
    def sides(self) -> tuple[tuple[EdgeRun, ...], tuple[EdgeRun, ...]]:
        """Both sides."""
        return self.one, self.other


@dataclass(frozen=True, slots=True)
class SetOn:
    """A piece that is sewn onto another one, its edges turned in: its outline lies on the line `guide` of its host."""

    piece: str
    host: str
    guide: str


@dataclass(frozen=True, slots=True)
class LetIn:
    """A pocket bag in a seam of its host, which stays open from the notch `begins` down to the notch `ends`.

    The bag's `edge` lies on the host's `host_edge`, cut edge on cut edge; bag and host have both notches alike. A bag
    lies on either side of the seam, so that as many edges of it are let in as there are edges of its hosts.
    """

    piece: str
    edge: str
    host: str
    host_edge: str
    begins: str
    ends: str


def plain_seam(one: tuple[str, str], other: tuple[str, str], ease: float = 0.0) -> Seam:
    """One edge sewn to one other; each is a piece and its edge."""
    return Seam((EdgeRun(*one),), (EdgeRun(*other),), ease)


@dataclass(frozen=True, slots=True)
class Measured:
    """One side of a seam on its pieces: its length, and each notch on it with its distance from the side's start."""

    length: float
    notches: tuple[tuple[Notch, float], ...]


def measured(side: tuple[EdgeRun, ...], pieces: Mapping[str, Piece], scale: Scale = AS_CUT) -> Measured:
    """A side of a seam; an edge that stands in it several times has its notches on the first."""
    length, notches = 0.0, list[tuple[Notch, float]]()
    for run in side:
        piece = pieces[run.piece]
        stitch = piece.edge(run.edge).stitch
        own = [(notch, notch.at) for notch in piece.notches if notch.seam == run.edge]
        if scale != AS_CUT:
            stitch = stitch.scaled(*scale, Point(0.0, 0.0))
            own = [(notch, stitch.nearest(notch.inner.scaled(*scale))[0]) for notch, _ in own]
        long = stitch.length()
        notches += [(notch, length + (long - at if run.backwards else at)) for notch, at in own]
        length += run.times * long
    return Measured(length, tuple(notches))


def off(seam: Seam, pieces: Mapping[str, Piece], wash: Scale = AS_CUT) -> float:
    """By how much the sides of a seam (less its ease) or notches of one name on them miss each other, mm.

    `wash` is what the wash leaves of the cloth, across and down; it counts for a seam that is compared `washed`.
    """
    one, other = (measured(side, pieces, wash if seam.washed else AS_CUT) for side in seam.sides)
    worst = abs(one.length - other.length - seam.ease)
    share = one.length / other.length if seam.ease else 1.0
    ours, theirs = (_by_name(side.notches) for side in (one, other))
    for name in ours.keys() & theirs.keys():
        fewer, more = sorted((ours[name], [at * share for at in theirs[name]]), key=len)
        worst = max(worst, *(min(abs(at - their) for their in more) for at in fewer))
    return worst


def _by_name(notches: tuple[tuple[Notch, float], ...]) -> dict[str, list[float]]:
    """How far the notches of each name lie from the start of a side, mm."""
    found: dict[str, list[float]] = {}
    for notch, at in notches:
        found.setdefault(notch.id, []).append(at)
    return found


def sewn_to(seams: tuple[Seam, ...], piece: str, edge: str) -> tuple[EdgeRun, float] | None:
    """The first edge that an edge is sewn to, and by how much it is longer on purpose, its share of the seam, mm."""
    for seam in seams:
        for side, other, sign in ((seam.one, seam.other, 1.0), (seam.other, seam.one, -1.0)):
            if any((run.piece, run.edge) == (piece, edge) for run in side):
                return other[0], sign * seam.ease / sum(run.times for run in side)
    return None
