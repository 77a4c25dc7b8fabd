"""What the papers of a draft are made of, as a record of plain values, and as a text that any later version reads.

A draft that is being chalked keeps this text, so that its papers come from what was drafted then, whatever the
garment's rules are by now. To change one of the records it is made of: a new field gets a default, and anything else
is a new `VERSION` with a reader for the old one; tests/drafting/papers/ holds a text of every version.
"""

import json
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cache
from typing import Any

from pydantic import TypeAdapter, ValidationError

from drafting.chalk.marks import ChalkPlan
from drafting.cloth import ClothFacts
from drafting.contract.after_cut import AfterCut
from drafting.contract.girths import ToldGirth
from drafting.contract.pieces import FinishedFigure, Piece
from drafting.garments import garments
from drafting.layout import Layout
from drafting.order import Order, Result
from drafting.person.measures import Estimate
from drafting.person.table import MEASURES
from drafting.problems import Adjustment, Check
from drafting.record.backup_file import same_marks
from drafting.record.order_code import code_text
from drafting.sentences import lower_first
from drafting.units import Unit

__all__ = [
    "FARTHEST",
    "VERSION",
    "Papers",
    "fits_draft",
    "kept_papers",
    "papers_of",
    "papers_text",
    "read_papers",
    "title_of",
]

VERSION = 1
FARTHEST = 10_000.0
"""No place of a piece or on the cloth lies farther than this from its 0, mm: our choice, because no cloth on a table is
so long, and a text that was tampered with must not ask for a thousand sheets of paper."""
_PLACES = ("pieces", "plan", "stitching", "layouts")


@dataclass(frozen=True, slots=True)
class Papers:
    """All that the papers tell. Lengths in mm; `unit` is the one a person reads sentences in.

    `plan` is chalked; `stitching` is the plan of the other line, where both were asked for. `layouts` are the ways to
    lay the cloth, the one taken first. `told` are the measures that a garment told, as words in a sentence. `code` is
    the order as the text of a code, without what it tells of the person, and `code_with_measures` with it.
    """

    title: str
    person: str
    taken_on: str | None
    unit: Unit
    pieces: tuple[Piece, ...]
    plan: ChalkPlan
    cloth: ClothFacts
    code: str
    code_with_measures: str
    sheet_measures: bool = False
    stitching: ChalkPlan | None = None
    layouts: tuple[Layout, ...] = ()
    checks: tuple[Check, ...] = ()
    adjusted: tuple[Adjustment, ...] = ()
    finished: tuple[ToldGirth, ...] = ()
    figures: tuple[FinishedFigure, ...] = ()
    estimates: tuple[Estimate, ...] = ()
    told: tuple[str, ...] = ()
    after_cut: AfterCut | None = None

    @property
    def layout(self) -> Layout | None:
        """The way that the cloth is laid; None where the pieces do not go on it."""
        return self.layouts[0] if self.layouts else None

    @property
    def laid_whole(self) -> frozenset[str]:
        """The names of the pieces that are laid open on the cloth."""
        return self.layout.laid_whole if self.layout is not None else frozenset()


def title_of(order: Order) -> str:
    """The title, or a plain one."""
    return order.title.strip() or garments()[order.garment].title


def papers_of(result: Result) -> Papers:
    """What the papers of a result are made of. Raises ValueError where the chalk plan is withheld."""
    if result.plan is None:
        raise ValueError("there is no chalk plan to print")
    order, taken = result.order, result.layout
    return Papers(
        title=title_of(order),
        person=order.person.name,
        taken_on=order.person.taken_on,
        unit=order.person.unit,
        pieces=result.draft.pieces,
        plan=result.plan,
        cloth=result.ready.cloth,
        code=code_text(order.model_copy(update={"sheet_measures": False})),
        code_with_measures=code_text(order.model_copy(update={"sheet_measures": True})),
        sheet_measures=order.sheet_measures,
        stitching=result.stitch_plan,
        layouts=() if taken is None else (taken, *(each for each in result.layouts if each != taken)),
        checks=tuple(_told(check) for check in result.checks),
        adjusted=result.draft.adjusted,
        finished=tuple(girth.told for girth in result.girths),
        figures=result.draft.figures,
        estimates=result.estimates,
        told=tuple(lower_first(MEASURES[each].label_for(order.person.kind)) for each in result.told),
        after_cut=result.draft.after_cut,
    )


def _told(check: Check) -> Check:
    """A check with what its ways out say; what they would change is no matter of paper."""
    return replace(check, ways_out=tuple(replace(way, changes=()) for way in check.ways_out))


@cache
def _adapter() -> TypeAdapter[Papers]:
    return TypeAdapter(Papers)


def papers_text(papers: Papers) -> str:
    """The papers as a text: JSON, with every number in full, so that they are read back as they were."""
    return json.dumps({"version": VERSION, "papers": _adapter().dump_python(papers, mode="json")}, ensure_ascii=False)


def read_papers(text: str) -> Papers | None:
    """The papers of a text; None where it is not one that this version reads."""
    try:
        found = json.loads(text)
        if found["version"] != VERSION:
            return None
        held = found["papers"]
        if not all(_is_near(number) for each in _PLACES for number in _numbers(held[each])):
            return None
        return _adapter().validate_python(held)
    except (AttributeError, KeyError, TypeError, ValueError, RecursionError, ValidationError):
        return None


def kept_papers(text: str, draft: str) -> Papers | None:
    """The papers of a text that is kept with a draft.json; None where there is none, or it has other marks."""
    papers = read_papers(text) if text else None
    return papers if papers is not None and fits_draft(papers, draft) else None


def fits_draft(papers: Papers, draft: str) -> bool:
    """Whether these papers print the marks of this draft.json: same marks, same readings, places within `SAME`."""
    printed = {
        (piece.piece, mark.id): (mark.across.text, mark.down.text, mark.point.x, mark.point.y)
        for piece in papers.plan.pieces
        for mark in piece.every
    }
    return same_marks(draft, printed)


def _numbers(value: Any) -> Iterator[float]:
    """Every number in plain data."""
    left = [value]
    while left:
        each = left.pop()
        if isinstance(each, dict):
            left.extend(each.values())
        elif isinstance(each, list):
            left.extend(each)
        elif isinstance(each, int | float):
            yield each


def _is_near(number: float) -> bool:
    return abs(number) <= FARTHEST  # also false of what is no number
