"""Which way to lay the cloth: every way is placed, the shortest is taken.

`search` is a generator, so that a screen can redraw between its steps and stop listening to cancel.
"""

import math
from collections.abc import Generator, Iterable, Sequence
from dataclasses import dataclass, replace

from drafting.cloth import ClothFacts
from drafting.layout import bounds
from drafting.layout.places import WAYS, FoldLine, Layout, Place
from drafting.layout.placing import Spot, place
from drafting.layout.shapes import Outline, cloth_area
from drafting.layout.ways import Plan, folded_way, plans
from drafting.pieces import Piece
from drafting.stepwise import finished

#: Lengths of cloth that differ by less, mm, are alike. Our choice: no shears cut nearer.
NO_DIFFERENCE = 1.0


@dataclass(frozen=True, slots=True)
class Progress:
    """How far the search is: the way being tried, steps done of steps planned, and what has been found, best first."""

    way: str
    done: int
    total: int
    found: tuple[Layout, ...]


def allowed_ways(cloth: ClothFacts) -> tuple[str, ...]:
    """The ways this cloth may be laid without drafting anew.

    Crosswise turns the stretch round, so it is free only on cloth that stretches and shrinks alike both ways; on any
    other the order asks for it and is drafted and checked for it.
    """
    if cloth.lay != "auto":
        return (cloth.lay,)
    alike = cloth.across == cloth.along and cloth.shrink_across == cloth.shrink_along
    return tuple(way for way in WAYS if way != "crosswise" or alike)


def search(
    pieces: Sequence[Piece], cloth: ClothFacts, ways: Sequence[str] | None = None, blocks: Sequence[Outline] = ()
) -> Generator[Progress, None, tuple[Layout, ...]]:
    """Lays the pieces in every way and yields after each step. Its value is the best of every way, best first.

    A cloth of known length takes only what fits on it. Pure and deterministic.
    """
    planned = [plan for way in ways or allowed_ways(cloth) for plan in plans(pieces, cloth, way)]
    best: dict[str, Layout] = {}
    most = math.inf if cloth.length is None else cloth.length + 1e-3
    for number, plan in enumerate(planned):
        known = best[plan.way].length if plan.way in best else most
        if plan.way == "part_fold" and any(cut.layers == 1 for cut in plan.cuts):
            # Worth its trouble only where the single strip makes it the shortest.
            known = min([known, *(one.length for one in best.values())])
        for found in place(plan.items, known, blocks):
            if found is not None:
                best[plan.way] = _layout(plan, found[0], found[1], pieces, cloth)
            yield Progress(plan.way, number, len(planned), ranked(best.values()))
            if plan.way in best and best[plan.way].length <= plan.bound + 1e-6:
                break
    return ranked(best.values())


def candidates(pieces: Sequence[Piece], cloth: ClothFacts, ways: Sequence[str] | None = None) -> tuple[Layout, ...]:
    """The best layout of every way that works, best first."""
    return finished(search(pieces, cloth, ways))


def ranked(layouts: Iterable[Layout]) -> tuple[Layout, ...]:
    """The shortest first, then fewest refoldings, then fewest outlines to chalk. A millimetre is no difference."""
    return tuple(sorted(layouts, key=lambda one: (round(one.length), one.refolds, one.chalked, WAYS.index(one.fold))))


def lay(pieces: Sequence[Piece], cloth: ClothFacts) -> Layout | None:
    """The best layout of the pieces on this cloth, or None when they go on it in no way it may be laid."""
    found = candidates(pieces, cloth)
    return found[0] if found else None


def _layout(plan: Plan, length: float, spots: Sequence[Spot], pieces: Sequence[Piece], cloth: ClothFacts) -> Layout:
    places: list[Place] = []
    folds = list(plan.folds)
    for spot, cut in zip(spots, plan.cuts, strict=True):
        x, y = spot.x + spot.shape.shift.x, spot.y + spot.shape.shift.y
        made = spot.shape
        places.append(Place(cut.piece.name, x, y, made.turned, made.mirrored, cut.opened, cut.layers))
        if plan.across and cut.opened:
            folds.append(FoldLine(y, cut.piece.width, across=True))
    covered = sum(cloth_area(piece) for piece in pieces)
    bound = max(plan.bound, bounds.by_area(pieces, cloth))
    return Layout(plan.way, cloth.width, length, min(bound, length), covered / (length * cloth.width), tuple(places),
                  plan.laid_width, tuple(folds), plan.refolds, plan.chalked)  # fmt: skip


def left_out(pieces: Sequence[Piece], cloth: ClothFacts, found: Iterable[Layout]) -> tuple[str, ...]:
    """The ways that this cloth may be laid without drafting anew, and in which the pieces were found not to go."""
    folded = folded_way(pieces)
    gone = {layout.fold for layout in found}
    other = {"half", "centre_back_seam"} - {folded}
    return tuple(way for way in allowed_ways(cloth) if way not in gone | other)


def fits_across(pieces: Sequence[Piece], cloth: ClothFacts, ways: Sequence[str] | None = None) -> tuple[str, ...]:
    """The ways in which the pieces go on a cloth of this width, however long; nothing is placed, so it is quick."""
    endless = replace(cloth, length=None)
    return tuple(way for way in ways or allowed_ways(endless) if plans(pieces, endless, way))


def goes_within(pieces: Sequence[Piece], cloth: ClothFacts) -> Layout | None:
    """The first layout found that needs no more than the cloth's length; the search stops there."""
    for progress in search(pieces, cloth):
        if progress.found:
            return progress.found[0]
    return None
