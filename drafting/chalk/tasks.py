"""What there is to do at the table, as records: what `deciding` decides and `words` says.

A record holds places, readings, marks and the names that a garment gives, and no sentence. Lengths are in mm; x runs
across from the line that a piece is measured from, y down it.
"""

from dataclasses import dataclass

from drafting.chalk.lying import Lying, Spot
from drafting.chalk.marks import ChalkLine, GuideMarks, Joins, Look, Mark, Swung
from drafting.contract.pieces import Notch, Stage
from drafting.geometry.point import Point
from drafting.units import Reading


@dataclass(frozen=True, slots=True)
class Measured:
    """A place on a piece that is no mark: where it lies exactly, and what the tape says; `down` is from the first 0."""

    point: Point
    across: Reading
    down: Reading


@dataclass(frozen=True, slots=True)
class JoinedLeg:
    """One leg of an outline, from mark to mark, as a hand draws it; `line` is what a screen lights.

    `swung` says how the tape is swung for one that is an arc.
    """

    start: Mark
    through: tuple[Mark, ...]
    end: Mark
    joins: Joins
    line: tuple[Point, ...]
    swung: Swung | None = None

    @property
    def marks(self) -> tuple[str, ...]:
        """The ids of all marks on it, in order."""
        return (self.start.id, *(mark.id for mark in self.through), self.end.id)


@dataclass(frozen=True, slots=True)
class LayCloth:
    """Before any piece the cloth is washed, squared and laid out; the words of both are known."""

    washing: str
    laying_out: tuple[str, ...]
    stretches: bool = True


@dataclass(frozen=True, slots=True)
class PlacedPiece:
    """One place of a piece on the cloth: `number` counts the places of that piece from 1, `of` is how many it has.

    `place` is the number of the place in the layout, from 0. `fold` is how far its fold across lies from the cut end.
    """

    piece: str
    label: str
    number: int
    of: int
    spot: Spot
    place: int
    fold: Reading | None


@dataclass(frozen=True, slots=True)
class ChalkPlaces:
    """Every fold across the cloth and every 0, or top, is chalked before the first cut."""

    places: tuple[PlacedPiece, ...]


@dataclass(frozen=True, slots=True)
class Begin:
    """A piece is begun at its 0, wherever that lies on the cloth; `first` is the id of its first mark.

    `begins` is where its line begins, where that is not at 0. `off` is how far its 0 lies above its top, off the piece,
    where it is begun at its top.
    """

    label: str
    lying: Lying
    spot: Spot
    line: ChalkLine
    begins: Reading | None
    first: str
    off: Reading | None = None


@dataclass(frozen=True, slots=True)
class FoldAndBegin:
    """The cloth is folded lengthwise and 0 is chalked at the top; the simplest way of laying.

    `washing` is said before the first piece and empty later; `again` is true from the second piece on. `laid` says
    that a layout tells how the cloth is folded. `begins` and `first` as in Begin. A piece of `other_cloth` is begun on
    that; `again` is true from the second piece of it on. Woven cloth, which does not stretch, is folded along a thread.
    """

    label: str
    lying: Lying
    washing: str
    again: bool
    laid: bool
    line: ChalkLine
    begins: Reading | None
    first: str
    other_cloth: str = ""
    stretches: bool = True


@dataclass(frozen=True, slots=True)
class ChalkZero:
    """A further 0 where the tape does not reach: `number` is 2 for the second, `below` how far it lies from the last.

    `down` is how far it lies from the first.
    """

    number: int
    label: str
    base: str
    below: Reading
    down: Reading
    stage: str


@dataclass(frozen=True, slots=True)
class RuledLevel:
    """A level that is ruled across: what it is called, how far down it lies, the line that is ruled.

    `mark` is the mark at which the piece ends, for the last one.
    """

    key: str
    words: str
    down: Reading
    line: tuple[Point, Point]
    mark: Mark | None = None


@dataclass(frozen=True, slots=True)
class RuleLevels:
    """All levels of a piece are ruled across before its marks; `folds` are the ids of its marks on the fold.

    `spot` is the place on the cloth where it is chalked first; None where no layout is known.
    """

    stage: Stage
    lying: Lying
    spot: Spot | None
    levels: tuple[RuledLevel, ...]
    folds: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class MarkFold:
    """The marks on the fold of a piece that ends in an arc: nothing is ruled across. `spot` as in RuleLevels."""

    stage: Stage
    lying: Lying
    spot: Spot | None
    marks: tuple[Mark, ...]


@dataclass(frozen=True, slots=True)
class StraightCheck:
    """A straightedge from a curve point to a corner must pass the mark between them; the words are the garment's."""

    start: Mark
    past: Mark
    past_words: str
    end: Mark
    end_words: str


@dataclass(frozen=True, slots=True)
class ChalkedGuide:
    """A line inside the piece, and how it runs from mark to mark; no legs where it has one mark only."""

    guide: GuideMarks
    legs: tuple[JoinedLeg, ...]
    line: tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class ChalkMarks:
    """The marks of one stage. `only_on` is the label of the piece where the one it is carried over from lacks them.

    `swings` are the legs that the tape is swung for before these marks are measured, the nearest first.
    """

    stage: Stage
    marks: tuple[Mark, ...]
    checks: tuple[StraightCheck, ...] = ()
    guides: tuple[ChalkedGuide, ...] = ()
    only_on: str = ""
    swings: tuple[JoinedLeg, ...] = ()


@dataclass(frozen=True, slots=True)
class ProvenLength:
    """A length between two marks, as it is read."""

    start: Mark
    end: Mark
    reads: Reading


@dataclass(frozen=True, slots=True)
class MeasureProofs:
    """Proof lengths are measured. `slack` is how much one may be off, `alone` are marks that none proves twice."""

    lengths: tuple[ProvenLength, ...]
    slack: Reading
    alone: tuple[Mark, ...]
    look: Look | None


@dataclass(frozen=True, slots=True)
class Mend:
    """It is said what to do when the cloth has slipped or a mark is wrong."""


@dataclass(frozen=True, slots=True)
class JoinMarks:
    """The marks are joined, leg by leg."""

    legs: tuple[JoinedLeg, ...]


@dataclass(frozen=True, slots=True)
class ChalkOtherHalf:
    """The other half of a piece laid whole is chalked; `line` is its outline."""

    base: str
    line: tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class PlacedNotch:
    """A notch on the chalked line: at a mark, or at readings of its own where no mark is near."""

    notch: Notch
    at: Measured
    mark: Mark | None


@dataclass(frozen=True, slots=True)
class ChalkNotches:
    """The notches are chalked."""

    notches: tuple[PlacedNotch, ...]


@dataclass(frozen=True, slots=True)
class ClippedCurve:
    """A curve whose allowance may be clipped, between two marks."""

    start: Mark
    end: Mark
    line: tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class ClipCurves:
    """Curves are clipped once they are sewn, `every` so many mm."""

    curves: tuple[ClippedCurve, ...]
    every: float


@dataclass(frozen=True, slots=True)
class ChalkSlit:
    """A seam stays open at its end: for how far, from where, and the line that stays open."""

    open_for: Reading
    stop: Measured
    line: tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class Allowed:
    """The allowance of one edge, outside the stitching line."""

    edge: str
    words: str
    reads: Reading
    line: tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class CutPiece:
    """A piece is cut. `allowances` are added first where the stitching line was chalked, and empty otherwise."""

    label: str
    lying: Lying
    allowances: tuple[Allowed, ...]
    notches: bool


@dataclass(frozen=True, slots=True)
class TrimMark:
    """A place that is marked on an opened-out piece: so far to the right of its centre (left below 0), so far down."""

    spot: Point
    aside: Reading
    down: Reading


@dataclass(frozen=True, slots=True)
class TrimEdge:
    """A slanted edge is trimmed on the piece opened out with its right side up and that edge away from the person.

    `edge` is what it is called. Its lower side is the wearer's `wearer` side, on the person's `seen` side. `marks` run
    along the trimmed edge, from its high side to its low one.
    """

    label: str
    edge: str
    wearer: str
    seen: str
    lying: Lying
    marks: tuple[TrimMark, ...]


@dataclass(frozen=True, slots=True)
class LayAgain:
    """A further place of a piece that is cut more than once: the first is laid there and chalked round.

    `number` is 2 for the second place. `over` says that it is turned over. `lines` are the guides carried over. One of
    `other_cloth`, or of cloth on which the pieces do not go, has no spot: it follows the first one on the fold.
    """

    label: str
    number: int
    lying: Lying
    spot: Spot | None
    over: bool
    lines: tuple[str, ...]
    other_cloth: str = ""


@dataclass(frozen=True, slots=True)
class LayOver:
    """An earlier piece is laid on the cloth and chalked round for this one; `slit` says that its slit is the same."""

    label: str
    first: str
    lying: Lying
    spot: Spot | None
    lines: tuple[str, ...]
    slit: bool


@dataclass(frozen=True, slots=True)
class ChalkDiffering:
    """The marks that lie elsewhere than on the piece that was chalked round."""

    label: str
    marks: tuple[Mark, ...]


@dataclass(frozen=True, slots=True)
class NothingDiffers:
    """A piece is chalked exactly like the one that was chalked round."""

    label: str
    first: str


@dataclass(frozen=True, slots=True)
class CountedPiece:
    """How many of a piece there are, in words, and whether they are cut on the fold."""

    counted: str
    folded: bool


@dataclass(frozen=True, slots=True)
class CountPieces:
    """The pieces are counted before the cloth is put away."""

    total: int
    pieces: tuple[CountedPiece, ...]


Task = (
    LayCloth
    | ChalkPlaces
    | Begin
    | FoldAndBegin
    | ChalkZero
    | RuleLevels
    | MarkFold
    | ChalkMarks
    | MeasureProofs
    | Mend
    | JoinMarks
    | ChalkOtherHalf
    | ChalkNotches
    | ClipCurves
    | ChalkSlit
    | CutPiece
    | TrimEdge
    | LayAgain
    | LayOver
    | ChalkDiffering
    | NothingDiffers
    | CountPieces
)
