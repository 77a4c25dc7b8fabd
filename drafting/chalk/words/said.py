"""What the words of every subject are made with: a step that has been said, and how names and readings are written.

"Across" is measured from the fold (of a piece laid whole from its centre line), "down" from 0, the place where the
piece begins, or from the second 0 where the tape is too short for that. Numbers in brackets are those of the marks on
the drawing.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from drafting.chalk.marks import Apart, Belongs, Counts, Mark
from drafting.chalk.tasks import Measured
from drafting.sentences import lower_first
from drafting.units import Reading, Tape

#: What a reading down counts from: the first 0, the second, the third.
_ZEROS: tuple[Counts, ...] = ("down", "down_second", "down_third")
_NUMBERS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth")


@dataclass(frozen=True, slots=True)
class Said:
    """A step before it has a number; the fields are those of Step."""

    title: str
    says: str
    marks: tuple[str, ...] = ()
    belongs: Belongs = "cloth"
    stage: str = ""
    beside: str | None = None
    apart: tuple[Apart, ...] = ()
    rest: str | None = None


def ordinal(number: int) -> str:
    """First, second, third and so on to the eighth; all further ones are told as the eighth."""
    return _NUMBERS[min(number, len(_NUMBERS)) - 1]


def the(label: str) -> str:
    """A piece in the middle of a sentence."""
    return f"the {lower_first(label)}"


def short(mark: Mark) -> str:
    """A mark by its number and its name."""
    return f"({mark.order}) {lower_first(mark.label)}"


def down(reading: Reading) -> str:
    """A reading down, and from which 0 where it is not the first."""
    number, reads = reading.tape.from_zero(reading)
    return reads.pretty if number == 1 else f"{reads.pretty} from the {ordinal(number)} 0"


def place(at: Measured) -> str:
    """The two readings of a place on a piece."""
    return f"across {at.across.pretty}, down {down(at.down)}"


def listed_marks(marks: Iterable[Mark]) -> str:
    """Marks with their readings, one after another."""
    return "; ".join(f"{short(mark)} across {mark.across.pretty}, down {down(mark.down)}" for mark in marks)


def small(mm: float, tape: Tape) -> str:
    """A few millimetres as people say them, whatever the step of the tape."""
    return f"{mm:g} mm" if tape.unit == "cm" else "⅛ in"


def ids(marks: Iterable[Mark]) -> tuple[str, ...]:
    """The ids of marks."""
    return tuple(mark.id for mark in marks)


def counts_down(reading: Reading) -> tuple[Counts, str]:
    """A reading down for a screen, with the 0 that it counts from."""
    number, reads = reading.tape.from_zero(reading)
    return _ZEROS[min(number, len(_ZEROS)) - 1], reads.text


def counts(at: Measured) -> tuple[tuple[Counts, str], ...]:
    """The two readings of a place on a piece, for a screen."""
    return ("across", at.across.text), counts_down(at.down)
