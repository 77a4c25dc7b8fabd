"""Which way to lay the cloth: every way is placed, the cheapest in cloth and handwork is taken.

`search` is a generator, so that a screen can redraw between its steps and stop listening to cancel.
"""

import math
from collections.abc import Generator, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Literal, TypeAlias

from drafting.cloth import ClothFacts
from drafting.contract.pieces import Piece, of_the_cloth
from drafting.layout import bounds
from drafting.layout.cost import HAND, cost, longest_for, rank, ranked, steps_bought
from drafting.layout.places import FoldLine, Layout, Place
from drafting.layout.placing import Spot, place
from drafting.layout.shapes import Outline, cloth_area
from drafting.layout.ways import EVERY_WAY, Plan, plans
from drafting.stepwise import Steps, finished
from drafting.work import Work

#: Lengths of cloth that differ by less, mm, are alike. Our choice: no shears cut nearer.
NO_DIFFERENCE = 1.0


Only: TypeAlias = Literal["cheapest", "shortest"]


@dataclass(frozen=True, slots=True)
class Progress:
    """How far the search is: the way being tried, steps done of steps planned, and what has been found, best first."""

    way: str
    done: int
    total: int
    found: tuple[Layout, ...]


def allowed_ways(cloth: ClothFacts) -> tuple[str, ...]:
    """The ways this cloth may be laid without drafting anew.

    One that turns the cloth turns its stretch round, so it is free only on cloth that stretches and shrinks alike both
    ways; on any other the order asks for it and is drafted and checked for it.
    """
    if cloth.lay != "auto":
        return (cloth.lay,)
    alike = cloth.across == cloth.along and cloth.shrink_across == cloth.shrink_along
    return tuple(way.key for way in EVERY_WAY if alike or not way.turns_cloth)


def search(
    pieces: Sequence[Piece], cloth: ClothFacts, ways: Sequence[str] | None = None, blocks: Sequence[Outline] = (), *,
    only: Only | None = None, work: Work | None = None,
) -> Generator[Progress | None, None, tuple[Layout, ...]]:  # fmt: skip
    """Lays the pieces in every way and yields its Progress after each step, and None for a pause before it or within.

    Pieces of another cloth are left out.
    Its value is the best of every way. The way taken comes first, then the others by length; of every way the plan is
    kept that is cheapest by the same sum. A cloth of known length takes only what fits on it. Where `only` one is asked
    for, the cheapest or the shortest of all, it is the very same as among all, comes alone and is found sooner. `work`
    counts, and ends the search when it is spent: what was found is then told. Pure and deterministic.
    """
    work, pieces = work or Work(), of_the_cloth(pieces)
    planned: list[Plan] = []
    for way in ways or allowed_ways(cloth):
        planned += plans(pieces, cloth, way)
        yield None
    if only is not None:
        planned.sort(key=lambda plan: _least(plan, cloth, only))
    best: dict[str, Layout] = {}
    told: tuple[Layout, ...] = ()
    for number, plan in enumerate(planned):
        beaten = _to_beat(plan, best, cloth, only)
        if plan.bound >= beaten or work.spent():
            continue
        for tried in place(plan.items, beaten, blocks, work):
            found = None if tried is None else tried.best
            if found is not None:
                made = _layout(plan, found[0], found[1], pieces, cloth)
                kept = best.get(plan.way)
                if kept is None or (rank(made, cloth), made.length) < (rank(kept, cloth), kept.length):
                    best[plan.way] = made
                    told = _told(best, cloth, only)
            if tried is None:
                yield None
                continue
            yield Progress(plan.way, number, len(planned), told)
            if work.spent() or (found is not None and found[0] <= plan.bound + 1e-6):
                break
    return told


def _told(best: Mapping[str, Layout], cloth: ClothFacts, only: Only | None) -> tuple[Layout, ...]:
    if only == "shortest":
        return tuple(sorted(best.values(), key=lambda one: (one.length, rank(one, cloth)))[:1])
    found = ranked(best.values(), cloth)
    return found[:1] if only else found


def _least(plan: Plan, cloth: ClothFacts, only: Only) -> float:
    """What a plan cannot beat: its length, or its cost."""
    if only == "shortest":
        return plan.bound
    return steps_bought(plan.bound, cloth, cloth.sold_in) + HAND * (plan.chalked + plan.foldings)


def _to_beat(plan: Plan, best: Mapping[str, Layout], cloth: ClothFacts, only: Only | None) -> float:
    """The length that a layout of this plan must stay under to be worth finding, mm."""
    most = math.inf if cloth.length is None else cloth.length + 1e-3
    work = HAND * (plan.chalked + plan.foldings)
    if only == "shortest":
        return min([most, *(one.length for one in best.values())])
    if plan.way in best:
        most = min(most, longest_for(cost(best[plan.way], cloth) - work, cloth) + 1e-3)
    if not best:
        return most
    taken = ranked(best.values(), cloth)[0]
    if only == "cheapest":
        most = min(most, longest_for(cost(taken, cloth) - work, cloth) + 1e-3)
    elif plan.must_pay:
        less = steps_bought(taken.length, cloth, cloth.sold_in) - 1
        most = min(most, longest_for(max(cost(taken, cloth) - work, less), cloth) + 1e-3)
    return most


def candidates(pieces: Sequence[Piece], cloth: ClothFacts, ways: Sequence[str] | None = None) -> tuple[Layout, ...]:
    """The best layout of every way that works: the way taken first, then by length."""
    return finished(search(pieces, cloth, ways))


def lay(pieces: Sequence[Piece], cloth: ClothFacts) -> Layout | None:
    """The layout that is taken by itself, or None when the pieces go on this cloth in no way it may be laid."""
    found = finished(search(pieces, cloth, only="cheapest"))
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


def left_out(cloth: ClothFacts, found: Iterable[Layout]) -> tuple[str, ...]:
    """The ways that this cloth may be laid without drafting anew, and in which the pieces were found not to go."""
    gone = {layout.way for layout in found}
    return tuple(way for way in allowed_ways(cloth) if way not in gone)


def fits_across(pieces: Sequence[Piece], cloth: ClothFacts, ways: Sequence[str] | None = None) -> tuple[str, ...]:
    """The ways in which the pieces go on a cloth of this width, however long; nothing is placed, so it is quick."""
    endless, laid = replace(cloth, length=None), of_the_cloth(pieces)
    return tuple(way for way in ways or allowed_ways(endless) if plans(laid, endless, way))


def shortest(pieces: Sequence[Piece], cloth: ClothFacts, work: Work | None = None) -> Steps[Layout | None]:
    """The shortest layout of all ways, however long the cloth; a step at a time."""
    found = yield from search(pieces, replace(cloth, length=None), only="shortest", work=work)
    return found[0] if found else None


def going_within(pieces: Sequence[Piece], cloth: ClothFacts, work: Work | None = None) -> Steps[Layout | None]:
    """The first layout found that needs no more than the cloth's length; the search stops there."""
    for progress in search(pieces, cloth, only="shortest", work=work):
        yield progress
        if progress is not None and progress.found:
            return progress.found[0]
    return None
