"""Outlines as columns: what makes a layout provably free of overlap.

The cloth is divided into columns of one width. In each column a few intervals down the cloth cover the piece: they hold
every point of it in that column, with half the clearance all round. Where the intervals of two pieces are disjoint in
every column that both reach, the pieces do not overlap. In one column, the shifts at which they do overlap are the
differences of their intervals. The union of these over all columns is the set of forbidden shifts, exact for the
covers. So the least free shift is computed, and no shift has to be tried.
"""

import math
from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass

from drafting.layout.shapes import Outline
from drafting.stepwise import Pauses, finished

#: Columns that are looked at between two pauses, so that a screen can answer. Our choice: a few milliseconds.
PAUSE = 1_500

Interval = tuple[float, float]
#: The left end, the right end, the slope (0 where it runs straight down), and the columns that it reaches: from one on,
#: and up to another.
_Edge = tuple[float, float, float, float, float, int, int]


@dataclass(frozen=True, slots=True)
class Cover:
    """Intervals of an outline in columns `first`, `first + 1`, …: `lows` and `highs` of the main one.

    `more` holds the others where there are any: (column, low, high), counted from the first column.
    """

    first: int
    lows: list[float]
    highs: list[float]
    more: list[tuple[int, float, float]]


def cover(outline: Outline, at: float, spare: float, column_width: float) -> Cover:
    """The columns that `covering` gives, without a pause."""
    return finished(covering(outline, at, spare, column_width))


def covering(outline: Outline, at: float, spare: float, column_width: float) -> Pauses[Cover]:
    """The columns, `column_width` mm each, of an outline with `spare` mm all round it.

    The outline begins at x = 0, which lies `at` mm from a column's edge. Every point of it is covered, and every point
    within `spare` of it across and down. It pauses after every PAUSE columns that are looked at.
    """
    first = math.floor((at - spare) / column_width + 1e-9)
    right = max(p.x for p in outline) + at
    count = max(1, math.ceil((right + spare) / column_width - 1e-9) - first)
    origin = first * column_width - at  # the first column's left edge, from the outline's
    middles = [origin + (column + 0.5) * column_width for column in range(count)]
    edges = _edges(outline, spare, origin, column_width, count)
    reach = column_width / 2 + spare
    # In nearly every column the inside is one interval between two edges, and all edges near the column touch it.
    # There the two ends are enough. Only in the other columns are the intervals listed and joined, which takes longer.
    # Both ends are compared by hand, because these loops are where the time goes.
    lows, highs, crossed = [math.inf] * count, [-math.inf] * count, [0] * count
    looked_at = 0
    for lx, ly, rx, _, slope, begin, stop in edges:
        if looked_at >= PAUSE:
            yield None
            looked_at = 0
        looked_at += stop - begin
        for column in range(begin, stop):
            middle = middles[column]
            if lx <= middle < rx:
                y = ly + slope * (middle - lx)
                crossed[column] += 1
                if y < lows[column]:  # noqa: PLR1730
                    lows[column] = y
                if y > highs[column]:  # noqa: PLR1730
                    highs[column] = y
    apart = {column for column, times in enumerate(crossed) if times != 2}
    for lx, ly, rx, ry, slope, begin, stop in edges:
        if looked_at >= PAUSE:
            yield None
            looked_at = 0
        looked_at += stop - begin
        for column in range(begin, stop):
            near, far = middles[column] - reach, middles[column] + reach
            p = ly if near <= lx else ly + slope * (near - lx)
            q = ry if far >= rx else ly + slope * (far - lx)
            if p > q:
                p, q = q, p
            if p > highs[column] or q < lows[column]:
                apart.add(column)
                continue
            if p < lows[column]:  # noqa: PLR1730
                lows[column] = p
            if q > highs[column]:  # noqa: PLR1730
                highs[column] = q
    yield None
    more: list[tuple[int, float, float]] = []
    for column, spans in _spans(edges, sorted(apart), middles, reach).items():
        merged = joined(spans)
        largest = max(merged, key=lambda span: span[1] - span[0], default=(math.inf, -math.inf))
        lows[column], highs[column] = largest
        more += [(column, low - spare, high + spare) for low, high in merged if (low, high) != largest]
    return Cover(first, [low - spare for low in lows], [high + spare for high in highs], more)


def _edges(outline: Outline, spare: float, origin: float, column_width: float, count: int) -> list[_Edge]:
    """Every edge, and the columns that it reaches."""
    found: list[_Edge] = []
    before = outline[-1]
    for point in outline:
        left, right = (before, point) if before.x <= point.x else (point, before)
        begin = max(0, math.floor((left.x - spare - origin) / column_width - 1e-9))
        stop = min(count, math.floor((right.x + spare - origin) / column_width + 1e-9) + 1)
        run = right.x - left.x
        slope = (right.y - left.y) / run if run > 1e-12 else 0.0
        found.append((left.x, left.y, right.x, right.y, slope, begin, stop))
        before = point
    return found


def _spans(
    edges: Sequence[_Edge], columns: Sequence[int], middles: Sequence[float], reach: float
) -> dict[int, list[Interval]]:
    """By column the intervals that its edges cover, and those that are inside the outline along its middle."""
    spans: dict[int, list[Interval]] = {column: [] for column in columns}
    crossed: dict[int, list[float]] = {}
    for lx, ly, rx, ry, slope, begin, stop in edges:
        for column in columns[bisect_left(columns, begin) : bisect_left(columns, stop)]:
            middle = middles[column]
            if lx <= middle < rx:
                crossed.setdefault(column, []).append(ly + slope * (middle - lx))
            p = ly if middle - reach <= lx else ly + slope * (middle - reach - lx)
            q = ry if middle + reach >= rx else ly + slope * (middle + reach - lx)
            spans[column].append((p, q) if p <= q else (q, p))
    for column, inside in crossed.items():
        inside.sort()
        spans[column].extend(zip(inside[::2], inside[1::2], strict=True))
    return spans


def joined(intervals: list[Interval]) -> list[Interval]:
    """Intervals that touch or overlap made one, in order."""
    intervals.sort()
    out: list[Interval] = []
    for low, high in intervals:
        if out and low <= out[-1][1]:
            if high > out[-1][1]:
                out[-1] = (out[-1][0], high)
        else:
            out.append((low, high))
    return out


def forbidden(still: Cover, moving: Cover, columns: int) -> list[Interval]:
    """Shifts down at which `moving`, set `columns` to the right, meets `still`: open intervals, joined."""
    first = moving.first + columns
    begin, end = max(still.first, first), min(still.first + len(still.lows), first + len(moving.lows))
    if begin >= end:
        return []
    a, b, count = begin - still.first, begin - first, end - begin
    runs: list[Interval] = []
    # Neighbouring columns mostly overlap, so they are joined as they come; only the few runs left are sorted.
    run_low, run_high = math.inf, -math.inf
    for low, high, low_other, high_other in zip(
        still.lows[a : a + count], still.highs[a : a + count],
        moving.lows[b : b + count], moving.highs[b : b + count], strict=True,
    ):  # fmt: skip
        least, most = low - high_other, high - low_other
        if least >= most:
            continue
        if least < run_high and most > run_low:
            # Compared by hand: this loop is where the time goes.
            if least < run_low:  # noqa: PLR1730
                run_low = least
            if most > run_high:  # noqa: PLR1730
                run_high = most
        else:
            runs.append((run_low, run_high))
            run_low, run_high = least, most
    runs.append((run_low, run_high))
    if still.more or moving.more:
        extra_still = [(c - a, low, high) for c, low, high in still.more if 0 <= c - a < count]
        extra_moving = [(c - b, low, high) for c, low, high in moving.more if 0 <= c - b < count]
        runs += [(low - moving.highs[b + c], high - moving.lows[b + c]) for c, low, high in extra_still]
        runs += [(still.lows[a + c] - high, still.highs[a + c] - low) for c, low, high in extra_moving]
        others: dict[int, list[Interval]] = {}
        for d, low, high in extra_moving:
            others.setdefault(d, []).append((low, high))
        runs += [
            (low - high_other, high - low_other)
            for c, low, high in extra_still
            for low_other, high_other in others.get(c, ())
        ]
    return joined([run for run in runs if run[0] < run[1]])


def least_free(blocked: list[Interval], start: float = 0.0) -> float:
    """The least shift from `start` on that lies in none of the open intervals; they need not be sorted or joined."""
    free = start
    for low, high in sorted(blocked):
        if high <= free:
            continue
        if low >= free - 1e-9:
            break
        free = high
    return free


def column_of(x: float, column_width: float) -> tuple[int, float]:
    """The column that a place across lies in, and how far from its left edge, mm."""
    column = math.floor(x / column_width + 1e-9)
    return column, max(0.0, x - column * column_width)
