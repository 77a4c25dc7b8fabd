"""A band: a strip of cloth that is folded along its length and sewn to a ring, both long edges in one seam.

A neck band, a roll collar, a cuff, a hem band and a waistband are all cut like this. Its length runs across the cloth,
where the cloth stretches most, and it lies on the fold: the fold is its middle, the seam that closes it its end. Length
= ring × ratio and a seam's allowance at either end; cut height = 2 × finished height + 2 × allowance (common practice,
from memory). It is read in the finest steps of the tape: half a step more on one side of the fold-over line would show
at its seam. Millimetres.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from drafting.cloth import ClothFacts
from drafting.contract.cutting import CutOut, FinishedEdge, anchors, cut_out
from drafting.contract.pieces import AnchorKind, Guide, GuideMark, Notch, Piece, Stage
from drafting.contract.seams import EdgeRun, Seam
from drafting.geometry.path import Path
from drafting.geometry.point import Point
from drafting.geometry.segments import Line
from drafting.sentences import lower_first

STAGES: Final[tuple[Stage, ...]] = (
    Stage("levels", "Height"),
    Stage("widths", "Length"),
    Stage("crease", "Fold-over line"),
)
#: A mark this near to the fold or to the seam of a band is left out, mm: they are marks themselves (our choice).
MARK_CLEAR: Final = 5.0


@dataclass(frozen=True, slots=True)
class BandMark:
    """A place of the ring that the band is pinned to: `at` is mm along the finished ring from the seam of the band.

    `id` is the name of the notch on both sides of the seam, `label` what a person calls it. Both halves of the band lie
    one on the other, so a mark stands in both: `at` is at most half the ring.
    """

    id: str
    label: str
    at: float


def quarter_marks(ring: float, id: str = "quarter", label: str = "quarter mark") -> tuple[BandMark, ...]:
    """Marks at the quarters of the ring. Its half is the fold of the band, its seam the last of the four.

    Quarters of the ring, not its seams (CALC): the band is then stretched evenly all round.
    """
    return (BandMark(id, label, ring / 4),)


@dataclass(frozen=True, slots=True)
class Band:
    """What a band is to be, finished: `ring` is the girth of the opening that it is sewn to, mm.

    `name` is the name of its piece and the beginning of the names of its edges and marks, `label` what a person calls
    it. `sewn_to` ends a sentence: "both long edges are sewn to the waist of the skirt."
    `ratio` is its length as a share of the ring, `height` its finished height. `allowance` lies along both long edges,
    `end_allowance` at the seam that closes it. `cut` is how many are cut, `marks` the places where it is pinned. `says`
    is written beside the line: whole sentences, or nothing. `other_cloth` is what it is cut of where that is not the
    cloth of the garment.
    """

    name: str
    label: str
    sewn_to: str
    ring: float
    ratio: float
    height: float
    allowance: float
    end_allowance: float
    marks: tuple[BandMark, ...] = ()
    cut: int = 1
    says: str = ""
    other_cloth: str = ""

    @property
    def length(self) -> float:
        """Its finished girth, mm."""
        return self.ring * self.ratio

    @property
    def ease(self) -> float:
        """By how much it is longer than the ring it is sewn to, finished; negative where it is shorter, mm."""
        return self.length - self.ring

    @property
    def said(self) -> str:
        """What it is called in the middle of a sentence."""
        return lower_first(self.label)

    @property
    def first_edge(self) -> str:
        """The long edge that lies at the top on the cloth, from the fold to the end."""
        return f"{self.name}_edge"

    @property
    def second_edge(self) -> str:
        """The long edge that lies at the bottom on the cloth, from the end back to the fold."""
        return f"{self.name}_second_edge"

    @property
    def end(self) -> str:
        """The short edge that closes it to a ring."""
        return f"{self.name}_end"


def band_piece(band: Band, cloth: ClothFacts) -> Piece:
    """The band as it is cut, on the fold."""
    half, high = band.length / 2, 2 * band.height
    corners = (Point(0.0, 0.0), Point(half, 0.0), Point(half, high), Point(0.0, high))
    edges = (
        _edge(band.first_edge, corners[0], corners[1], band.allowance, f"upper edge of the {band.said}"),
        _edge(band.end, corners[1], corners[2], band.end_allowance, f"end of the {band.said}"),
        _edge(band.second_edge, corners[2], corners[3], band.allowance, f"lower edge of the {band.said}"),
    )
    cut = cut_out(edges, cloth.shrink_across, cloth.shrink_along)
    wanted: list[tuple[str, str, AnchorKind, str, Point]] = [
        (f"{band.name}_top", "upper edge at the fold", "fold", STAGES[0].key, cut.line[0]),
        (f"{band.name}_corner", "upper corner at the end", "corner", STAGES[1].key, cut.corners[0]),
        (f"{band.name}_second_corner", "lower corner at the end", "corner", STAGES[1].key, cut.corners[1]),
        (f"{band.name}_foot", "lower edge at the fold", "fold", STAGES[0].key, cut.line[-1]),
    ]
    return Piece(
        band.name, band.label, band.cut, True, cut.edges, cut.line, (), anchors(cut.line, wanted),
        _notches(band, cut), stages=STAGES, guides=(_crease(band, cut),), other_cloth=band.other_cloth, fine=True,
    )  # fmt: skip


def band_seam(band: Band, ring: Sequence[EdgeRun]) -> Seam:
    """The seam of the band and the ring; `ring` are the edges it is sewn to, from the fold of the band to its seam.

    It is compared after the wash, because the band is straight and the ring is curved. `ring` counts both halves: an
    edge on the fold stands in it twice.
    """
    return Seam((EdgeRun(band.name, band.first_edge, 2),), tuple(ring), band.ease, washed=True)


def band_end_seam(band: Band) -> Seam:
    """The seam that closes the band."""
    return Seam((EdgeRun(band.name, band.end),), (EdgeRun(band.name, band.end),))


def mark_on_ring(cut: CutOut, edge: str, finished: Point, mark: BandMark, where: str = "") -> Notch:
    """The notch that meets a mark of the band: on an edge of the ring, at a finished place on it."""
    return _notch(cut, edge, cut.place(finished), mark, where)


def _edge(name: str, start: Point, end: Point, allowance: float, label: str) -> FinishedEdge:
    return FinishedEdge(name, Path((Line(start, end),)), allowance, label=label)


def _notches(band: Band, cut: CutOut) -> tuple[Notch, ...]:
    half, found = band.length / 2, list[Notch]()
    for mark in band.marks:
        across = half - mark.at * band.ratio
        if across < -1e-6 or mark.at < -1e-6:
            raise ValueError(f"the mark {mark.id} of {band.name} lies beyond half the ring")
        if MARK_CLEAR <= across <= half - MARK_CLEAR:
            found.append(_notch(cut, band.first_edge, cut.place(Point(across, 0.0)), mark, "on the upper edge"))
            low = cut.place(Point(across, 2 * band.height))
            found.append(_notch(cut, band.second_edge, low, mark, "on the lower edge"))
    return tuple(found)


def _notch(cut: CutOut, name: str, place: Point, mark: BandMark, where: str) -> Notch:
    edge = next(edge for edge in cut.edges if edge.name == name)
    at, inner, tangent = edge.stitch.nearest(place)
    return Notch(name, mark.id, mark.label, at, inner, inner + tangent.left() * edge.allowance, where)


def _crease(band: Band, cut: CutOut) -> Guide:
    """The line along the middle of the height on which it is folded, wrong sides together."""
    begin = cut.place(Point(0.0, band.height))
    inner = cut.place(Point(band.length / 2, band.height))
    outer = Point(cut.corners[0].x, inner.y)
    marks = (
        GuideMark(f"{band.name}_crease", "fold-over line at the fold", "fold", begin, begin),
        GuideMark(f"{band.name}_crease_end", "fold-over line at the end", "guide", outer, inner),
    )
    says = f"Fold the {band.said} on this line, wrong sides together: both long edges are sewn to {band.sewn_to}."
    if band.says:
        says = f"{says} {band.says}"
    return Guide(f"{band.name}_crease_line", "fold-over line", STAGES[2].key, (begin, outer), marks, says)
