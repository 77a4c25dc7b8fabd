"""Placing pieces on one plane of cloth so that they need as little length as can be found.

This is a beam search. The pieces are set down one after the other, in several orders. Each is tried at every place
across and in every turn that it may have, always at the least free shift down, and only the best few partial layouts
are continued. Few pieces are placed on fine columns at once. More are first placed on coarse columns, then on fine ones
near the places found and against either side. No outcome depends on chance.
"""

import itertools
import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from drafting.layout.columns import Cover, Interval, column_of, covering, forbidden, least_free
from drafting.layout.shapes import Outline, Shape, moved, shape, simpler
from drafting.stepwise import Pauses
from drafting.work import Work

#: Pieces keep this far apart, mm. Our choice: a chalk line on either side. Two pieces on the same fold may touch, since
#: one cut parts them.
CLEARANCE = 5.0
#: ORDERS is how many orders are tried, ORDERS_OF_MORE the same for more pieces than BREADTH names. BREADTH gives, by
#: the number of pieces, how many partial layouts are continued and how many places of one piece are kept in each. Our
#: choice, for time.
ORDERS, ORDERS_OF_MORE = 6, 4
BREADTH = {1: (1, 1), 2: (24, 8), 3: (24, 8), 4: (12, 5)}
BREADTH_OF_MORE = (6, 3)
#: Outlines are simplified to within this for the search, and as much is added to the clearance, mm. Our choice, for
#: time.
SIMPLER = 0.25
#: Widths of the columns, mm, and for how many pieces each is used. Our choice, for time: two upright edges in a column
#: may be held apart by its width more than their clearance. On the finest columns the pieces are tried only against
#: either side, where a fraction of a millimetre may decide whether they fit.
COARSE, FINE, FINEST = 10.0, 2.5, 0.5
COARSE_FROM, FINE_UP_TO, FINEST_UP_TO = 3, 3, 2
#: A width that fits to within this counts as fitting, mm.
WITHIN = 1e-6

#: What the steps of the search count, in units of work: trying one place across, comparing two pieces, their columns,
#: and covering one column. Our choice, from a trial computation.
TRIED, COMPARED, COLUMNS_A_UNIT, COVERED = 3, 5, 4, 6
#: After so many units of work the search pauses within an order, so that a screen can answer. Our choice: a few
#: milliseconds, well under the time of one frame.
PAUSE = 1_000

Turn = tuple[int, bool]  # degrees clockwise, mirrored


@dataclass(frozen=True, slots=True)
class Item:
    """A piece to place: its outline, how it may be turned, and between which two lines across it must lie.

    `on_fold` items have their fold on the line `left` (mirrored ones on `right`) and are never moved across.
    """

    name: str
    outline: Outline
    turns: tuple[Turn, ...]
    left: float
    right: float
    on_fold: bool = False


@dataclass(frozen=True, slots=True)
class Spot:
    """An item set down: its shape, and where the shape's top left corner lies."""

    item: int
    shape: Shape
    x: float
    y: float


@dataclass(slots=True)
class Variant:
    """One kind of item in one turn at one offset from the columns, with the columns it may begin at."""

    key: int
    shape: Shape
    offset: float
    spaced: Cover
    tight: Cover
    starts: tuple[int, ...]
    on_fold: bool


@dataclass(slots=True)
class _Kind:
    """Items that are alike."""

    members: list[int]
    variants: list[Variant]


@dataclass(frozen=True, slots=True)
class Tried:
    """One order that was tried to its end: `best` is a new best length with its spots, or None."""

    best: tuple[float, tuple[Spot, ...]] | None


@dataclass(frozen=True, slots=True)
class _Set:
    """One item set down during the search."""

    kind: int
    variant: Variant
    column: int
    y: float


@dataclass(slots=True)
class _Plane:
    kinds: list[_Kind]
    blocks: tuple[Variant, ...]
    mirrorable: bool
    column_width: float
    every: int
    work: Work
    pairs: dict[tuple[int, int, int], list[Interval]] = field(default_factory=dict)
    paused_at: int = 0

    def pause_is_due(self) -> bool:
        """Whether PAUSE of work was done since this last said so."""
        due = self.work.done - self.paused_at >= PAUSE
        if due:
            self.paused_at = self.work.done
        return due

    def between(self, still: Variant, moving: Variant, columns: int) -> list[Interval]:
        key = (still.key, moving.key, columns)
        found = self.pairs.get(key)
        if found is None and (turned := self.pairs.get((moving.key, still.key, -columns))) is not None:
            found = self.pairs[key] = [(-high, -low) for low, high in reversed(turned)]
        if found is None:
            if still.on_fold and moving.on_fold:
                found = forbidden(still.tight, moving.tight, columns)
            else:
                found = forbidden(still.spaced, moving.spaced, columns)
            self.pairs[key] = found
            self.work.done += COMPARED + len(moving.spaced.lows) // COLUMNS_A_UNIT
        return found

    def least(self, placed: Sequence[_Set], moving: Variant, column: int) -> float:
        blocked: list[Interval] = []
        self.work.done += TRIED
        for block in self.blocks:
            blocked += self.between(block, moving, column - block.starts[0])
        for other in placed:
            y = other.y
            for low, high in self.between(other.variant, moving, column - other.column):
                if high + y > 0.0:
                    blocked.append((low + y, high + y))
        return least_free(blocked) if blocked else 0.0


def place(
    items: Sequence[Item], beaten: float = math.inf, blocks: Sequence[Outline] = (), work: Work | None = None
) -> Iterator[Tried | None]:
    """Yields a Tried after every order, and None for every pause within one. Stop listening to cancel.

    `beaten` is a length that must be beaten; `blocks` are outlines no piece may lie on. Nothing is found when an item
    fits nowhere across. Lengths in mm; the covers are conservative, so the result never overlaps. What is found does
    not depend on `beaten`, but for being found at all. `work` counts, and ends the search when it is spent.
    """
    work = work or Work()
    best, near = math.inf, None
    coarse = len(items) >= COARSE_FROM
    for column_width in (COARSE, FINE, FINEST) if coarse else (FINE, FINEST):
        if len(items) > {COARSE: math.inf, FINE: FINE_UP_TO, FINEST: FINEST_UP_TO}[column_width]:
            return
        if work.spent(_covering(items, column_width)):
            return
        # None: everywhere across; else near to what was found, and against the sides.
        wanted: dict[int, float] | None = {} if column_width == FINEST else (near or {}) if coarse else None
        plane = yield from _plane(items, blocks, column_width, None if column_width == COARSE else wanted, work)
        if column_width != COARSE:
            best = min(best, beaten)  # the coarse search shows where to look, whatever is to be beaten
        if any(not kind.variants for kind in plane.kinds):
            return
        heights = [min(v.shape.height for v in kind.variants) for kind in plane.kinds]
        by_size = sorted(range(len(plane.kinds)), key=lambda k: (-heights[k], k))
        for order in _orders([(k, len(plane.kinds[k].members)) for k in by_size]):
            found = yield from _search(plane, order, best)
            if found is None:
                yield Tried(None)
                continue
            best = found[0]
            spots = _spots(plane, found[1])
            near = {spot.item: spot.x for spot in spots}
            yield Tried((best, spots) if best < beaten else None)


def _covering(items: Sequence[Item], column_width: float) -> int:
    """The most work that covering some items takes: each turn at up to two offsets."""
    return sum(COVERED * 2 * len(item.turns) * math.ceil(_reach(item) / column_width + 3) for item in items)


def _reach(item: Item) -> float:
    xs, ys = [p.x for p in item.outline], [p.y for p in item.outline]
    return max(max(xs) - min(xs), max(ys) - min(ys))


def _plane(
    items: Sequence[Item], blocks: Sequence[Outline], column_width: float, near: dict[int, float] | None, work: Work
) -> Pauses[_Plane]:
    """Covers the items and pauses after each cover.

    `near` is what a coarse search found: only places across near that, and against either side, are then tried.
    """
    grouped: dict[tuple[object, ...], list[int]] = {}
    for index, item in enumerate(items):
        alike = (item.outline, item.turns, item.left, item.right, item.on_fold)
        grouped.setdefault(alike, []).append(index)
    keys = itertools.count()
    kinds = []
    for members in grouped.values():
        wanted = None if near is None else [near[index] for index in members if index in near]
        kinds.append(_Kind(members, (yield from _variants(items[members[0]], keys, column_width, wanted))))
    work.add(COVERED * sum(len(variant.spaced.lows) for kind in kinds for variant in kind.variants))
    there: list[Variant] = []
    for outline in blocks:
        there.append((yield from _block(outline, keys, column_width)))
    folded = any(item.on_fold for item in items)
    step = 1 if near is not None else round(COARSE / column_width) * (min(len(items) - 1, 3) or 1)
    return _Plane(
        kinds,
        tuple(there),
        mirrorable=not blocks and not folded,
        column_width=column_width,
        every=step,
        work=work,
    )


def _variants(
    item: Item, keys: Iterator[int], column_width: float, near: Sequence[float] | None
) -> Pauses[list[Variant]]:
    found: list[Variant] = []
    room = item.right - item.left
    few = simpler(item.outline, SIMPLER)
    for turned, mirrored in item.turns:
        yield None
        made = shape(item.outline, turned, mirrored)
        if made.width > room + WITHIN:
            continue
        at_right = item.right - made.width
        if item.on_fold:
            right_fold = made.mirrored != (made.turned % 360 == 180)
            first, offset = column_of(at_right if right_fold else item.left, column_width)
            found.append((yield from _variant(made, few, offset, (first,), keys, True, column_width)))
            continue
        first, offset = column_of(item.left, column_width)
        last, other = column_of(at_right, column_width)
        starts = tuple(range(first, last + (offset <= other + WITHIN))) or (first,)
        if near is not None:
            starts = tuple(
                c for c in starts
                if c == first or any(abs(c * column_width + offset - x) <= COARSE + WITHIN for x in near)
            )  # fmt: skip
        found.append((yield from _variant(made, few, offset, starts, keys, False, column_width)))
        if abs(other - offset) > 0.01 and at_right > item.left + 0.01:
            found.append((yield from _variant(made, few, other, (last,), keys, False, column_width)))
    return found


def _variant(
    made: Shape, few: Outline, offset: float, starts: tuple[int, ...], keys: Iterator[int], on_fold: bool,
    column_width: float,
) -> Pauses[Variant]:  # fmt: skip
    turned = moved(few, made.turned, made.mirrored, made.shift.x, made.shift.y)
    spaced = yield from covering(turned, offset, CLEARANCE / 2 + SIMPLER, column_width)
    tight = (yield from covering(made.outline, offset, 0.0, column_width)) if on_fold else spaced
    return Variant(next(keys), made, offset, spaced, tight, starts, on_fold)


def _block(outline: Outline, keys: Iterator[int], column_width: float) -> Pauses[Variant]:
    column, offset = column_of(min(p.x for p in outline), column_width)
    made = shape(outline)
    variant = yield from _variant(made, outline, offset, (column,), keys, False, column_width)
    top = min(p.y for p in outline)
    cover_there = variant.spaced
    lower = Cover(
        cover_there.first,
        [low + top for low in cover_there.lows],
        [high + top for high in cover_there.highs],
        [(c, low + top, high + top) for c, low, high in cover_there.more],
    )
    return Variant(variant.key, made, offset, lower, lower, variant.starts, False)


def _orders(counts: list[tuple[int, int]]) -> list[tuple[int, ...]]:
    """The orders in which kinds are tried, at most ORDERS of them; in the first the largest kind comes first."""
    flat = tuple(itertools.chain.from_iterable([kind] * count for kind, count in counts))
    found: dict[tuple[int, ...], None] = {flat: None}
    for order in itertools.islice(itertools.permutations(flat), 2000):
        found.setdefault(order)
        if len(found) >= (ORDERS if len(flat) in BREADTH else ORDERS_OF_MORE):
            break
    return list(found)


def _search(plane: _Plane, order: Sequence[int], beaten: float) -> Pauses[tuple[float, tuple[_Set, ...]] | None]:
    """The shortest layout found in one order, with its length; None where none is shorter than `beaten`.

    It pauses whenever PAUSE of work was done.
    """
    states: list[tuple[float, float, tuple[_Set, ...]]] = [(0.0, 0.0, ())]
    beam, keep = BREADTH.get(len(order), BREADTH_OF_MORE)
    for step, kind in enumerate(order):
        carried: dict[tuple[float, ...], tuple[float, float, tuple[_Set, ...]]] = {}
        for end, ends, placed in states:
            for variant in plane.kinds[kind].variants:
                if plane.work.spent():
                    return None
                if step > 0 or plane.blocks:
                    spots = yield from _best(plane, placed, variant, keep)
                else:
                    spots = _first(variant, plane.mirrorable)
                for y, column in spots:
                    reach = max(end, y + variant.shape.height)
                    if reach >= beaten - 1e-6:
                        continue
                    total = ends + y + variant.shape.height
                    fresh = (reach, total, (*placed, _Set(kind, variant, column, y)))
                    carried.setdefault((round(reach, 3), round(total, 3), variant.key, column), fresh)
        if not carried:
            return None
        states = sorted(carried.values(), key=lambda s: (s[0], s[1]))[:beam]
    return states[0][0], states[0][2]


def _first(variant: Variant, left_only: bool) -> list[tuple[float, int]]:
    """The first piece lies against the left side, and against the right one too unless the layout may be mirrored."""
    ends = (variant.starts[0],) if left_only else (variant.starts[0], variant.starts[-1])
    return [(0.0, column) for column in dict.fromkeys(ends)]


def _best(plane: _Plane, placed: Sequence[_Set], variant: Variant, keep: int) -> Pauses[list[tuple[float, int]]]:
    """The best few places across for a piece: coarse steps are tried first, then every column near the best two."""
    starts, every = variant.starts, plane.every
    tried: dict[int, float] = {}
    for index in (*range(0, len(starts), every), len(starts) - 1):
        if plane.work.spent():
            return []
        if plane.pause_is_due():
            yield None
        tried[index] = plane.least(placed, variant, starts[index])
    if every > 1:
        for index in sorted(tried, key=lambda i: (tried[i], i))[:2]:
            for beside in range(max(0, index - every + 1), min(len(starts), index + every)):
                if beside not in tried:
                    if plane.pause_is_due():
                        yield None
                    tried[beside] = plane.least(placed, variant, starts[beside])
    kept: list[tuple[float, int]] = []
    apart = 2 * COARSE / plane.column_width
    for index in sorted(tried, key=lambda i: (round(tried[i], 3), i)):
        column = starts[index]
        if all(abs(column - other) > apart or abs(tried[index] - y) > COARSE for y, other in kept):
            kept.append((tried[index], column))
            if len(kept) == keep:
                break
    return kept


def _spots(plane: _Plane, placed: Sequence[_Set]) -> tuple[Spot, ...]:
    waiting = [list(kind.members) for kind in plane.kinds]
    width = plane.column_width
    spots = [Spot(waiting[s.kind].pop(0), s.variant.shape, s.column * width + s.variant.offset, s.y) for s in placed]
    return tuple(sorted(spots, key=lambda spot: spot.item))
