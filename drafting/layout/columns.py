"""Outlines as columns: what makes a layout provably free of overlap.

The cloth is divided into columns of one width. In each column a few intervals down the cloth cover the piece: they hold
every point of it in that column, with half the clearance all round. Where the intervals of two pieces are disjoint in
every column that both reach, the pieces do not overlap. In one column, the shifts at which they do overlap are the
differences of their intervals. The union of these over all columns is the set of forbidden shifts, exact for the
covers. So the least free shift is computed, and no shift has to be tried.
"""

import math
from dataclasses import dataclass

from drafting.layout.shapes import Outline
from drafting.stepwise import Pauses, finished

#: Columns that are looked at between two pauses, so that a screen can answer. Our choice: a few milliseconds.
PAUSE = 1_500

Interval = tuple[float, float]


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
    found: list[list[Interval]] = [[] for _ in range(count)]
    crossed: list[list[float]] = [[] for _ in range(count)]
    origin = first * column_width - at  # the first column's left edge, from the outline's
    reach = column_width / 2 + spare
    looked_at = 0
    ax, ay = outline[-1].x, outline[-1].y
    for point in outline:
        if looked_at >= PAUSE:
            yield None
            looked_at = 0
        bx, by = point.x, point.y
        lx, ly, rx, ry = (ax, ay, bx, by) if ax <= bx else (bx, by, ax, ay)
        begin = max(0, math.floor((lx - spare - origin) / column_width - 1e-9))
        stop = min(count - 1, math.floor((rx + spare - origin) / column_width + 1e-9))
        looked_at += stop - begin + 1
        run = rx - lx
        slope = (ry - ly) / run if run > 1e-12 else 0.0
        middle = origin + (begin - 0.5) * column_width
        for column in range(begin, stop + 1):
            middle += column_width
            if lx <= middle < rx:
                crossed[column].append(ly + slope * (middle - lx))
            if run <= 1e-12:
                found[column].append((ly, ry) if ly <= ry else (ry, ly))
                continue
            p = ly if middle - reach <= lx else ly + slope * (middle - reach - lx)
            q = ry if middle + reach >= rx else ly + slope * (middle + reach - lx)
            found[column].append((p, q) if p <= q else (q, p))
        ax, ay = bx, by
    lows: list[float] = []
    highs: list[float] = []
    more: list[tuple[int, float, float]] = []
    for column in range(count):
        if column % PAUSE == 0:
            yield None
        spans = found[column]
        inside = crossed[column]
        if len(inside) == 2:
            spans.append((inside[0], inside[1]) if inside[0] <= inside[1] else (inside[1], inside[0]))
        elif inside:
            inside.sort()
            spans.extend(zip(inside[::2], inside[1::2], strict=True))
        merged = joined(spans)
        if len(merged) == 1:
            lows.append(merged[0][0] - spare)
            highs.append(merged[0][1] + spare)
            continue
        if not merged:
            lows.append(math.inf)
            highs.append(-math.inf)
            continue
        largest = max(merged, key=lambda span: span[1] - span[0])
        for low, high in merged:
            if (low, high) == largest:
                lows.append(low - spare)
                highs.append(high + spare)
            else:
                more.append((column, low - spare, high + spare))
    return Cover(first, lows, highs, more)


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
