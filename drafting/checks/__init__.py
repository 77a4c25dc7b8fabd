"""The checks on a draft, one a file, found by discovery: a module here with `judge` is a check.

`judge(draft, words)` reads what was set out and returns a Check, or None where it does not apply. `WAYS` lists
changes to the order that may make it pass, best first, and `ways(draft)`, where a check has it, those that depend on
the draft; drafting.ways_out tries them and keeps only those that do. A check that needs the marks has
`judge_chalked(areas, words)` instead and is judged once the marks are known. `ORDER` sorts them as a person asks: the
neck first, the edges last.
"""

import pkgutil
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from importlib import import_module
from types import ModuleType

from drafting.garments import SetOut
from drafting.problems import Check
from drafting.units import INCH, Unit, say_length

Value = float | str


@dataclass(frozen=True, slots=True)
class ChalkedArea:
    """The area inside one line of a piece, mm²: as it is drafted, and as its chalked marks joined straight hold it."""

    label: str
    drafted: float
    chalked: float

    @property
    def more(self) -> float:
        """The share by which it is chalked larger."""
        return self.chalked / self.drafted - 1


@dataclass(frozen=True, slots=True)
class Words:
    """Says lengths in the person's unit."""

    unit: Unit

    def __call__(self, mm: float) -> str:
        """The length in words, mm turned into the unit."""
        least, shown = ("⅛ in", INCH / 16) if self.unit == "in" else ("0.1 cm", 0.5)
        if 0.05 < abs(mm) < shown:
            return f"less than {least}"  # less than the tape shows, and yet not nothing
        return say_length(mm, self.unit)

    def needed(self, limit: float, value: float) -> str:
        """What is needed where `value` falls short of it, both mm: one step more where both would read the same."""
        if say_length(limit, self.unit) != say_length(value, self.unit):
            return self(limit)
        return self(limit + (INCH / 8 if self.unit == "in" else 1.0))


@dataclass(frozen=True, slots=True)
class Way:
    """One kind of way out: the order key it sets, the values to try in order, and its words.

    `says(value, words)` is the sentence; `values(draft)` may be empty where the way makes no sense; `also` are
    further keys set with it. `unsaid` is tried only where the order leaves the key open.
    """

    key: str
    values: Callable[[SetOut], Iterable[Value]]
    says: Callable[[Value, Words], str]
    also: tuple[tuple[str, Value], ...] = ()
    unsaid: bool = False


def fixed(key: str, value: Value, says: str) -> Way:
    """A way that sets one key to one value."""
    return Way(key, lambda draft: (value,), lambda chosen, words: says)


def millimetres(value: float) -> str:
    """A length as an order carries it, the same in every person's unit."""
    return f"{value:.2f} mm"


def length_of(value: Value) -> float:
    """The millimetres of a value made by `millimetres`."""
    return float(str(value).removesuffix(" mm"))


@cache
def rules() -> tuple[ModuleType, ...]:
    """All check modules, by their ORDER and name."""
    found = [import_module(f"{__name__}.{module.name}") for module in pkgutil.iter_modules(__path__)]
    judging = (m for m in found if hasattr(m, "judge") or hasattr(m, "judge_chalked"))
    return tuple(sorted(judging, key=lambda m: (m.ORDER, m.__name__)))


def ways_of(check_id: str, draft: SetOut) -> tuple[Way, ...]:
    """The ways out that a check offers to try: its own, and those that it finds in the draft by its `ways`."""
    module = next((module for module in rules() if check_id == module.ID), None)
    if module is None:
        return ()
    own: tuple[Way, ...] = module.WAYS
    return (*module.ways(draft), *own) if hasattr(module, "ways") else own


def judge(draft: SetOut, unit: Unit, known: Mapping[str, Check | None] | None = None) -> tuple[Check, ...]:
    """Every check that applies. Of a draft that was refused only the refusing ones are judged.

    `known` are results found elsewhere, by the check's id: what needs the pieces laid is not laid twice.
    """
    words = Words(unit)
    known = known or {}
    judging = [module for module in rules() if hasattr(module, "judge")]
    chosen = [module for module in judging if not draft.refused or module.ID in draft.refused]
    found = (known[module.ID] if module.ID in known else module.judge(draft, words) for module in chosen)
    return tuple(check for check in found if check is not None)


def judge_chalked(areas: Sequence[ChalkedArea], unit: Unit) -> tuple[Check, ...]:
    """Every check that needs the marks, of a draft that is not stopped."""
    words = Words(unit)
    found = (module.judge_chalked(areas, words) for module in rules() if hasattr(module, "judge_chalked"))
    return tuple(check for check in found if check is not None)
