"""How the marks of a piece are joined: which legs are ruled, which are drawn in a curve, and the words for both."""

from collections.abc import Container, Sequence
from itertools import pairwise

from drafting.chalk.marks import Joins, Leg, Mark

#: A straight join that touches a curve is ruled from this length on, mm; a shorter one is drawn with the curve. Our
#: choice: rulers laid along the short joins of a curve would give it corners.
RULED_FROM = 100.0


def legs(marks: Sequence[Mark], *, closed: bool = False) -> tuple[Leg, ...]:
    """The legs of an outline once round; `marks` go round it. No leg runs past a mark without naming it.

    A curve runs on through curve points, and through levels and guides where it is curved on both sides of them. Of a
    `closed` piece the last leg runs back to the first mark, straight.
    """
    found: list[Leg] = []
    for before, mark in pairwise(marks):
        joins = _drawn(before, mark)
        last = found[-1] if found else None
        if last is not None and joins == last.joins == "curve" and before.kind in {"curve", "level", "guide"}:
            found[-1] = Leg(last.start, (*last.through, before.id), mark.id, "curve")
        else:
            found.append(Leg(before.id, (), mark.id, joins))
    if closed and len(marks) > 1:
        found.append(Leg(marks[-1].id, (), marks[0].id, "straight"))
    return tuple(found)


def _drawn(before: Mark, mark: Mark) -> Joins:
    """How a hand draws one join: a short straight piece of a curve belongs to the curve."""
    touches = before.kind == "curve" or mark.kind == "curve"
    if mark.joins == "straight" and touches and before.point.distance(mark.point) < RULED_FROM:
        return "curve"
    return mark.joins


def joined(marks: Sequence[Mark], *, closed: bool = False) -> dict[str, str]:
    """For each mark by its id, how the outline runs to it from the mark before: "straight from 4", for a table.

    The first mark of a piece on the fold has nothing before it and an empty text.
    """
    number = {mark.id: mark.order for mark in marks}
    found = dict.fromkeys(number, "")
    for leg in legs(marks, closed=closed):
        start, end = number[leg.start], number[leg.end]
        between = ", ".join(str(number[name]) for name in leg.through)
        if leg.joins == "straight":
            found[leg.end] = f"straight from {start}"
        else:
            found[leg.end] = f"curve from {start} through {between}" if between else f"curve from {start}"
            for name in leg.through:
                found[name] = f"on the curve from {start} to {end}"
    return found


def stage_joins(
    marks: Sequence[Mark], *, closed: bool = False, touching: Container[str] | None = None
) -> dict[str, str]:
    """What is joined once the marks of a stage are chalked, by the key of the stage.

    A leg belongs to the stage of the mark on it that is chalked last. The numbers are those of chalking:
    "Rule 3–7. Curve 7–8–9." `touching` keeps only the legs on which one of these marks lies.
    """
    by_id = {mark.id: mark for mark in marks}
    said: dict[str, dict[Joins, list[str]]] = {}
    for leg in legs(marks, closed=closed):
        along = [by_id[name] for name in (leg.start, *leg.through, leg.end)]
        if touching is not None and not any(mark.id in touching for mark in along):
            continue
        stage = max(along, key=lambda mark: mark.order).stage
        said.setdefault(stage, {}).setdefault(leg.joins, []).append("–".join(str(mark.order) for mark in along))
    words: tuple[tuple[Joins, str], ...] = (("straight", "Rule"), ("curve", "Curve"))
    return {
        stage: " ".join(f"{verb} {', '.join(found[joins])}." for joins, verb in words if joins in found)
        for stage, found in said.items()
    }


def join_words(marks: Sequence[Mark], *, closed: bool = False) -> str:
    """The step that joins the marks, every leg named."""
    number = {mark.id: f"({mark.order})" for mark in marks}
    straight: list[str] = []
    curved: list[str] = []
    for leg in legs(marks, closed=closed):
        start, end = number[leg.start], number[leg.end]
        if leg.joins == "straight":
            straight.append(f"{start} to {end}")
        else:
            through = ", ".join(number[name] for name in leg.through)
            curved.append(f"{start} through {through} to {end}" if through else f"{start} to {end}")
    said = []
    if straight:
        said.append(f"Rule straight: {'; '.join(straight)}.")
    if curved:
        said.append(f"Draw each of these as one smooth curve: {'; '.join(curved)}.")
        said.append("A corner in a curve shows a mark that has slipped.")
    return " ".join(said)


def guide_words(marks: Sequence[Mark]) -> str:
    """How the line of a guide runs from mark to mark: "(6) straight to (7)"."""
    number = {mark.id: f"({mark.order})" for mark in marks}
    said = number[marks[0].id]
    for leg in legs(marks):
        if leg.joins == "straight":
            said += f" straight to {number[leg.end]}"
        else:
            between = "".join(f" through {number[name]}" for name in leg.through)
            said += f" in one smooth curve{between} to {number[leg.end]}"
    return said
