"""The stretch test as it was typed: how far the cloth stretches, how surely, and whether it springs back."""

from collections.abc import Mapping
from dataclasses import dataclass

from app.state import Tape as TapeStep
from app.typed import sentence
from drafting.cloth import Recovery, recovers, stretch_percent, stretch_within
from drafting.problems import Problem
from drafting.units import LengthProblem, Tape, Unit, read_length, say_length


@dataclass(frozen=True, slots=True)
class Pulled:
    """What the test says so far: stretch in percent, give or take `within`, and the recovery; None: not yet."""

    percent: float | None = None
    within: float | None = None
    recovery: Recovery | None = None
    wrong: str = ""


def tape_of(step: TapeStep) -> Tape:
    """The tape in hand, by its smallest step."""
    return Tape("in" if "/" in step else "cm", step)


def step_words(step: TapeStep) -> str:
    """One step of the tape for a sentence, such as "⅛ in" or "0.5 cm"."""
    tape = tape_of(step)
    return say_length(tape.size, tape.unit)


def marked_length(unit: Unit) -> str:
    """What is marked for the stretch test: 10 cm, or 4 in."""
    return "4" if unit == "in" else "10"


def read_test(cloth: Mapping[str, str], way: str, unit: Unit, step: TapeStep) -> Pulled:
    """Read the test of one way, "across" or "along", read on a tape of this step. Bare numbers stand in `unit`."""
    marked, pulled, after = (
        read_length(cloth.get(f"test_{way}_{each}", "") or (marked_length(unit) if each == "marked" else ""), unit)
        for each in ("marked", "pulled", "after")
    )
    if isinstance(marked, LengthProblem):
        return Pulled()
    size = tape_of(step).size
    percent = within = None
    wrong = ""
    if not isinstance(pulled, LengthProblem):
        found = stretch_percent(marked, pulled)
        if isinstance(found, LengthProblem):
            wrong = sentence(Problem("stretch_test", f"cloth.test_{way}_pulled", "refuse", found.wrong, found.fix))
        else:
            percent, within = found, stretch_within(marked, pulled, size)
    recovery = None if isinstance(after, LengthProblem) or marked <= 0 else recovers(marked, after, size)
    return Pulled(percent, within, recovery, wrong)
