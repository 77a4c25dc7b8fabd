"""How the marks of a piece are joined: which legs are ruled, which are swung, and which are drawn in a curve."""

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from drafting.chalk.marks import Joins, Leg, Mark

#: A straight join that touches a curve is ruled from this length on, mm; a shorter one is drawn with the curve. Our
#: choice: rulers laid along the short joins of a curve would give it corners.
RULED_FROM = 100.0


def legs(marks: Sequence[Mark], *, closed: bool = False) -> tuple[Leg, ...]:
    """The legs of an outline once round; `marks` go round it. No leg runs past a mark without naming it.

    A curve runs on through curve points, and through levels and guides where it is curved on both sides of them. With
    no mark between its ends it is ruled: it strays from there by no more than any join may, and a hand cannot tell
    which way it bends. Of a `closed` piece the last leg runs back to the first mark, as that says. A leg that is swung
    stands alone.
    """
    found: list[Leg] = []
    for before, mark in pairwise((*marks, marks[0]) if closed and len(marks) > 1 else marks):
        joins = _drawn(before, mark)
        last = found[-1] if found else None
        if last is not None and joins == last.joins == "curve" and before.kind in {"curve", "level", "guide"}:
            found[-1] = Leg(last.start, (*last.through, before.id), mark.id, "curve")
        else:
            found.append(Leg(before.id, (), mark.id, joins, mark.swung))
    return tuple(replace(leg, joins="straight") if leg.joins == "curve" and not leg.through else leg for leg in found)


def _drawn(before: Mark, mark: Mark) -> Joins:
    """How a hand draws one join: a short straight piece of a curve belongs to the curve."""
    touches = before.kind == "curve" or mark.kind == "curve"
    if mark.joins == "straight" and touches and before.point.distance(mark.point) < RULED_FROM:
        return "curve"
    return mark.joins
