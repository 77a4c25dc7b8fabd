"""The records of a chalk plan: marks, proof lengths, steps.

Millimetres inside; what a person reads are tape readings. x runs across from the fold, y down the fold, and every
reading of a piece is taken from its one origin, the fold at the top of the cut line: never a running total.
"""

from dataclasses import dataclass
from typing import Literal

from drafting.contract.pieces import Stage
from drafting.geometry.point import Point
from drafting.units import Reading, Tape

MarkKind = Literal["fold", "corner", "level", "guide", "curve"]
Joins = Literal["straight", "curve", "swing"]
ChalkLine = Literal["cut", "stitch"]
#: Where a step stands on paper: what to know first, beside the marks of its piece, at the cloth, or after the cut.
Belongs = Literal["know", "marks", "cloth", "after"]


@dataclass(frozen=True, slots=True)
class Swung:
    """How the tape is swung: held at `centre`, which lies on the fold or on its continuation, at a `radius` in mm.

    `reads` is what the tape says, `held` what it says down to the centre from 0.
    """

    centre: Point
    radius: float
    reads: Reading
    held: Reading

    @property
    def at_zero(self) -> bool:
        """Whether the tape is held at 0."""
        return self.held.steps == 0

    @property
    def beyond_tape(self) -> bool:
        """Whether the tape does not reach so far, so that a string is swung."""
        return self.reads.mm > self.reads.tape.reach + 1e-6

    @property
    def chalked_centre(self) -> Point:
        """Where the tape is held as it reads."""
        return Point(0.0, self.held.mm)


@dataclass(frozen=True, slots=True)
class Mark:
    """One place to chalk on the cut line, or on the stitch line when that was asked for.

    `point` is exact, `across` and `down` are what the tape says. `order` is its number in chalking, from 1.
    `joins` says how the outline runs to it from the mark before it round the piece: "straight" when it keeps
    within a millimetre of the straight join, "swing" when the tape is swung as `swung` says, else "curve". For the
    first mark that way is along the fold, or back to it where the piece has none.
    `stage` is the key of the stage of the work in which it is chalked. `seen` says that a slip of it shows to the eye.
    """

    id: str
    label: str
    kind: MarkKind
    point: Point
    across: Reading
    down: Reading
    order: int
    joins: Joins
    stage: str
    seen: bool = False
    swung: Swung | None = None

    @property
    def zero(self) -> int:
        """Which 0 its place down is read from: 1, or 2 where a single tape does not reach."""
        return self.down.tape.from_zero(self.down)[0]

    @property
    def reads(self) -> Reading:
        """What the tape reads down from that 0; `down` itself is always counted from the first."""
        return self.down.tape.from_zero(self.down)[1]

    @property
    def chalked(self) -> Point:
        """Where the two readings put the mark, mm: at most half a step of the tape from `point` each way."""
        return Point(self.across.mm, self.down.mm)


@dataclass(frozen=True, slots=True)
class Proof:
    """A length to measure between two chalked marks: `length` in mm between the chalked points, `reads` on the tape."""

    start: str
    end: str
    length: float
    reads: Reading


@dataclass(frozen=True, slots=True)
class Look:
    """A mark that lies clearly farther one way than the other, and the sentence that tells to look at it.

    Chalked with across and down exchanged, the piece is mirrored and the sentence false.
    """

    mark: str
    farther: Literal["across", "down"]
    says: str


@dataclass(frozen=True, slots=True)
class Leg:
    """How the outline runs between two marks: ruled straight, swung, or in one curve through the marks between; ids."""

    start: str
    through: tuple[str, ...]
    end: str
    joins: Joins
    swung: Swung | None = None


#: What one thing told apart is about. "zero", "place" and "fold" are chalked before the marks, "level" and "swing" with
#: them, an
#: "allowance" before the cut; the others follow the marks of their step.
ApartKind = Literal[
    "zero",
    "place",
    "fold",
    "level",
    "swing",
    "allowance",
    "line",
    "check",
    "join",
    "half",
    "notch",
    "clips",
    "slit",
    "trim",
]
#: What a reading of a thing told apart counts from: keys that a screen has words for.
Counts = Literal[
    "across",
    "down",
    "down_second",
    "down_third",
    "from_fold",
    "from_left_fold",
    "from_right_fold",
    "from_left_edge",
    "from_cut_end",
    "outside",
    "open",
    "to_left",
    "to_right",
    "swing",
]


@dataclass(frozen=True, slots=True)
class Apart:
    """One thing that a step says, told alone, so that it can be lit in a drawing.

    `id` names it within its piece, `title` and `says` are its words, `reads` at most two readings. `marks` are the ids
    of marks it concerns, `spot` another place and `line` joined points, both on the piece in mm; of a "trim" they lie
    on the piece opened out, x to the right of one who looks at it with its neck away. `place` is the number of a place
    of the layout, from 0, where it concerns the cloth.
    """

    id: str
    kind: ApartKind
    title: str
    says: str
    reads: tuple[tuple[Counts, str], ...] = ()
    marks: tuple[str, ...] = ()
    spot: Point | None = None
    line: tuple[Point, ...] = ()
    place: int | None = None


@dataclass(frozen=True, slots=True)
class Step:
    """One thing to do at the table: `title` names it, `says` tells how, `marks` are the ids it concerns.

    `heed` marks what is to be known before any work: warnings with their ways out, and cautions. `belongs` and `stage`
    (a key, or empty) say where the step stands on paper, and `beside` what is left to say there: a sheet shows every
    reading once, in a table. None leaves `says` as it is, and nothing is left of an empty one. `apart` are the things
    it says one by one, and `rest` is what is left to say where they, its marks and its proof lengths are told alone;
    None where it tells nothing but words.
    """

    order: int
    piece: str
    title: str
    says: str
    marks: tuple[str, ...] = ()
    heed: bool = False
    belongs: Belongs = "cloth"
    stage: str = ""
    beside: str | None = None
    apart: tuple[Apart, ...] = ()
    rest: str | None = None

    @property
    def on_paper(self) -> str:
        """What is said where the tables stand beside it; empty where they say it all."""
        return self.says if self.beside is None else self.beside


@dataclass(frozen=True, slots=True)
class GuideMarks:
    """The marks of a line inside a piece, in order along it; `guide` is its id, `label` what a person calls it.

    `says` is what to know of it while chalking, whole sentences with the numbers of the marks.
    """

    guide: str
    label: str
    says: str
    marks: tuple[Mark, ...]


@dataclass(frozen=True, slots=True)
class PieceMarks:
    """The marks of one piece, once round the outline from the top of the fold, and its proof lengths.

    `stages` are the stages of its chalking in their order, each with the title that a person reads.
    `same_as` names an earlier piece whose outline is the same, so that it is chalked round and needs no table.
    `look` is the one look that shows across and down exchanged. `guides` are the lines inside the piece; their marks
    are numbered with those of the outline. `fine` says that its readings are in the finest steps of the tape.
    """

    piece: str
    marks: tuple[Mark, ...]
    proofs: tuple[Proof, ...]
    stages: tuple[Stage, ...] = ()
    same_as: str | None = None
    look: Look | None = None
    guides: tuple[GuideMarks, ...] = ()
    fine: bool = False

    @property
    def every(self) -> tuple[Mark, ...]:
        """All marks of the piece, those of its guides too, in the order of chalking."""
        found = [*self.marks, *(mark for guide in self.guides for mark in guide.marks)]
        return tuple(sorted(found, key=lambda mark: mark.order))

    @property
    def zeros(self) -> tuple[Reading, ...]:
        """Where a second 0 is chalked, and a third: readings down from the first. None where the tape reaches."""
        most = max((mark.zero for mark in self.marks), default=1)
        every = self.marks[0].down.tape.zero_every if self.marks else None
        return tuple(Reading(every.steps * number, every.tape) for number in range(1, most)) if every else ()


@dataclass(frozen=True, slots=True)
class ChalkPlan:
    """All marks and steps, in the order of work, for one tape and one line ("cut" or "stitch").

    `mending` is what to do when the cloth slipped or a mark is wrong, a sentence or two each.
    """

    tape: Tape
    line: ChalkLine
    pieces: tuple[PieceMarks, ...]
    steps: tuple[Step, ...]
    mending: tuple[str, ...] = ()

    @property
    def work(self) -> tuple[Step, ...]:
        """The steps of the work, without what is to be known before it."""
        return tuple(step for step in self.steps if not step.heed)
