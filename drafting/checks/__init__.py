"""The checks on a draft, one a file, found by discovery: a module here with `judge` is a check of every garment.

A garment brings further ones of its own, and ways out of these that change its style.
`judge(draft, words)` reads what was set out and returns a Check, or None where it does not apply. `WAYS` lists
changes to the order that may make it pass, best first, and `ways(draft)`, where a check has it, those that depend on
the draft; drafting.ways_out.find tries them and keeps only those that do. A check that needs the marks has
`judge_chalked(found, words)` instead and is judged once the marks are known. `ORDER` sorts them as a person asks: the
neck first, the edges last.
"""

import pkgutil
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib import import_module
from types import ModuleType

from drafting.contract.judging import Way, Words
from drafting.contract.set_out import SetOut
from drafting.garments import garments
from drafting.problems import Check
from drafting.stepwise import Steps, finished
from drafting.units import Unit


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
class ChalkedRing:
    """A ring that something must pass: the girth to which it opens as drafted and as chalked, and what is needed, mm.

    `label` is what the ring is called, `what` what passes it ("head").
    """

    label: str
    what: str
    needs: float
    drafted: float
    opens: float


@dataclass(frozen=True, slots=True)
class AsChalked:
    """What the marks of a draft make of it: the area of each piece on each line, and every ring that is passed."""

    areas: tuple[ChalkedArea, ...]
    rings: tuple[ChalkedRing, ...] = ()


@cache
def rules(garment: str) -> tuple[ModuleType, ...]:
    """All check modules of a garment, the shared ones and its own, by their ORDER and name."""
    found = [import_module(f"{__name__}.{module.name}") for module in pkgutil.iter_modules(__path__)]
    found += garments()[garment].checks
    judging = (m for m in found if hasattr(m, "judge") or hasattr(m, "judge_chalked"))
    return tuple(sorted(judging, key=lambda m: (m.ORDER, m.__name__.rpartition(".")[2])))


def ways_of(check_id: str, draft: SetOut) -> tuple[Way, ...]:
    """The ways out that a check offers to try: its own, those of the garment, and those that `ways` finds in it."""
    module = next((module for module in rules(draft.garment) if check_id == module.ID), None)
    if module is None:
        return ()
    found = module.ways(draft) if hasattr(module, "ways") else ()
    own: tuple[Way, ...] = (*module.WAYS, *garments()[draft.garment].ways.get(check_id, ()))
    return (*found, *sorted(own, key=lambda way: way.rank))


def judge(draft: SetOut, unit: Unit, known: Mapping[str, Check | None] | None = None) -> tuple[Check, ...]:
    """Every check that applies. Of a draft that was refused only the refusing ones are judged.

    `known` are results found elsewhere, by the check's id: what needs the pieces laid is not laid twice.
    """
    return finished(judging(draft, unit, known))


def judging(draft: SetOut, unit: Unit, known: Mapping[str, Check | None] | None = None) -> Steps[tuple[Check, ...]]:
    """As `judge`, a step for each check."""
    words = Words(unit)
    known = known or {}
    modules = [module for module in rules(draft.garment) if hasattr(module, "judge")]
    found: list[Check] = []
    for module in modules:
        if draft.refused and module.ID not in draft.refused:
            continue
        check = known[module.ID] if module.ID in known else module.judge(draft, words)
        if check is not None:
            found.append(check)
        yield None
    return tuple(found)


def judge_chalked(garment: str, as_chalked: AsChalked, unit: Unit) -> tuple[Check, ...]:
    """Every check of a garment that needs the marks, of a draft that is not stopped."""
    words = Words(unit)
    found = (module.judge_chalked(as_chalked, words) for module in rules(garment) if hasattr(module, "judge_chalked"))
    return tuple(check for check in found if check is not None)
