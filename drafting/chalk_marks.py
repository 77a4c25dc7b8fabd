"""The records of a chalk plan: marks, proof lengths, steps.

Millimetres inside; what a person reads are tape readings. x runs across from the fold, y down the fold, and every
reading of a piece is taken from its one origin, the fold at the top of the cut line: never a running total.
"""

from dataclasses import dataclass
from typing import Literal

from drafting.geometry.point import Point
from drafting.pieces import Stage
from drafting.units import Reading, Tape

MarkKind = Literal["fold", "corner", "level", "guide", "curve"]
Joins = Literal["straight", "curve"]
ChalkLine = Literal["cut", "stitch"]


@dataclass(frozen=True, slots=True)
class Mark:
    """One place to chalk on the cut line, or on the stitch line when that was asked for.

    `point` is exact, `across` and `down` are what the tape says. `order` is its number in chalking, from 1.
    `joins` says how the outline runs to it from the mark before it round the piece: "straight" when it keeps
    within a millimetre of the straight join, else "curve". For the first mark that way is along the fold.
    `stage` is the key of the stage of the work in which it is chalked.
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
class Step:
    """One thing to do at the table: `title` names it, `says` tells how, `marks` are the ids it concerns."""

    order: int
    piece: str
    title: str
    says: str
    marks: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class PieceMarks:
    """The marks of one piece, once round the outline from the top of the fold, and its proof lengths.

    `stages` are the stages of its chalking in their order, each with the title that a person reads.
    `same_as` names an earlier piece whose outline is the same, so that it is chalked round and needs no table.
    """

    piece: str
    marks: tuple[Mark, ...]
    proofs: tuple[Proof, ...]
    stages: tuple[Stage, ...] = ()
    same_as: str | None = None


@dataclass(frozen=True, slots=True)
class ChalkPlan:
    """All marks and steps, in the order of work, for one tape and one line ("cut" or "stitch")."""

    tape: Tape
    line: ChalkLine
    pieces: tuple[PieceMarks, ...]
    steps: tuple[Step, ...]
