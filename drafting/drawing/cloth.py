"""The cloth drawn as it lies on the table: folds, selvages, layers, and every piece in its place.

Places are millimetres of cloth; letters and signs millimetres of paper. Weight, dash, hatching and word carry the
meaning, never colour: hatched is cloth that lies double, a heavy line is a fold, a dash-dot line is the centre of a
piece laid whole, a ring with a dot is the place that a piece's readings count from.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING, Literal

from drafting.drawing.board import Board
from drafting.drawing.items import Box, Drawing, crosses_box, overlap, text_width
from drafting.geometry.point import Point
from drafting.geometry.polyline import distance_to_line
from drafting.layout import AcrossFold, Region, across_folds, begins_at, in_cutting_order, laid, say_laid, way_of
from drafting.layout.shapes import Outline, moved, simpler
from drafting.sentences import lower_first
from drafting.units import say_length

if TYPE_CHECKING:
    from drafting.cloth import ClothFacts
    from drafting.contract.pieces import Piece
    from drafting.layout import Layout, Place
    from drafting.units import Unit

_UP, _DOWN = -math.pi / 2, math.pi / 2
#: Letters and signs, mm of paper (our choice, as on the drawings of the pieces).
# Sizes of letters in mm of paper; nothing is smaller than 7 points, which is 2.47 mm.
_NAME, _WORD, _SMALL, _RING = 3.2, 2.5, 2.5, 1.15
_HATCH_EVERY = 3.4
#: How finely a free place for a name is sought, steps a side. Our choice.
_STEPS = 20


def cloth_drawing(
    layout: Layout, pieces: Sequence[Piece], cloth: ClothFacts, unit: Unit = "cm", *, scale: float = 10.0,
    sparing: bool = False,
) -> Drawing:  # fmt: skip
    """The cloth as it lies for this way, with every piece in its place, numbered in the order of cutting.

    Outlines are those of the layout; pieces laid whole are drawn whole. x counts from the left fold or edge, y from the
    cut end. `scale` is the mm of cloth under one mm of paper. A `sparing` drawing names pieces and folds, and
    leaves out what else is said round the cloth, so that the cloth is larger.
    """
    board = Board(scale)
    wide, long = layout.laid_width, layout.length
    by_name = {piece.name: piece for piece in pieces}
    ordered = in_cutting_order(layout, pieces)
    outlines = [laid(by_name[place.piece], place) for place in ordered]
    few = [simpler(outline, 0.12 * scale) for outline in outlines]
    regions = way_of(layout).regions(layout)
    for region in regions:
        if region.layers == 2:
            _hatch(board, (region.left, 0.0, region.right, long), few)
    board.stroke((Point(0, 0), Point(wide, 0), Point(wide, long), Point(0, long)), "frame", closed=True)
    _selvages(board, layout, cloth)
    for place, outline, rough in zip(ordered, outlines, few, strict=True):
        board.stroke(outline, "piece_fill", closed=True, filled=True)
        on_fold = by_name[place.piece].on_fold and not place.opened
        board.stroke(outline, "cut", closed=not on_fold)
        board.walls.extend(zip(rough, (*rough[1:], rough[0]), strict=True))
    for fold in layout.folds:
        if not fold.across:
            board.stroke((Point(fold.at, 0), Point(fold.at, long)), "fold", wall=True)
    folds = across_folds(layout, pieces)
    _folds_across(board, layout, folds, ordered, by_name, few)
    for place in ordered:
        _centre(board, by_name[place.piece], place)
    for place in ordered:
        _zero(board, begins_at(by_name[place.piece], place))
    if sparing:
        _folds_named(board, layout, cloth, beside=bool(folds))
    else:
        _words_round(board, layout, cloth, unit, regions, beside=bool(folds))
    for number, (place, outline) in enumerate(zip(ordered, few, strict=True), start=1):
        _name(board, number, by_name[place.piece], place, outline, doubled=way_of(layout).doubled)
    for place, outline in zip(ordered, few, strict=True):
        word = "top" if by_name[place.piece].starts_off else "0"
        _zero_word(board, begins_at(by_name[place.piece], place), outline, word)
    return board.drawing(f"The cloth: {lower_first(way_of(layout).name)}")


def fold_drawing(layout: Layout, pieces: Sequence[Piece], fold: AcrossFold, *, scale: float = 20.0) -> Drawing:
    """The cloth folded across for one piece: the end that is turned over lies hatched, the piece's half on the fold."""
    board = Board(scale)
    wide, at = layout.laid_width, fold.at
    by_name = {piece.name: piece for piece in pieces}
    piece, cut_end = by_name[fold.place.piece], fold.end == "cut end"
    over = at if cut_end else layout.length - at
    away = 1.0 if cut_end else -1.0
    rest = max(layout.length - at, over) if cut_end else max(at, over)
    flip = (fold.place.turned % 360 == 90) != cut_end
    outline = moved(piece.cut_line, fold.place.turned, flip, fold.place.x, at)
    low, high = sorted((at, at + away * over))
    _hatch(board, (0.0, low, wide, high), [simpler(outline, 0.12 * scale)])
    far = at + away * rest
    board.stroke((Point(0, at), Point(0, far), Point(wide, far), Point(wide, at)), "frame")
    board.stroke((Point(0, at + away * over), Point(wide, at + away * over)), "selvage")
    board.stroke(outline, "cut", wall=True)
    board.stroke((Point(0, at), Point(wide, at)), "fold", wall=True)
    _zero(board, Point(begins_at(piece, fold.place).x, at))
    few = simpler(outline, 0.12 * scale)
    name = ((piece.label, _WORD, True),)
    spot = _Room(board, few).middle_for(name, 0.0)
    if spot is not None:
        _write(board, name, spot, 0.0)
    board.label(Point(wide / 2, at - away * 2.2 * scale), "FOLD", _WORD, "middle", role="fold", strong=True)
    turned = f"{fold.end}, turned over"
    board.label(Point(wide + 2.0 * scale, at + away * over / 2), turned, _SMALL, "middle", angle=_DOWN)
    return board.drawing(f"{fold.end.capitalize()} turned over for the {lower_first(piece.label)}")


# ---- the cloth itself ------------------------------------------------------------------------------------------------


def _selvages(board: Board, layout: Layout, cloth: ClothFacts) -> None:
    """Edges of the cloth that lie within the outline, and the selvages kept free beside every edge."""
    wide, long = layout.laid_width, layout.length
    for edge in way_of(layout).edges(layout, cloth.selvage):
        if 0.0 < edge.at < wide:
            board.stroke((Point(edge.at, 0), Point(edge.at, long)), "frame", wall=True)
        for x in edge.selvages:
            board.stroke((Point(x, 0), Point(x, long)), "selvage", wall=True)


def _hatch(board: Board, box: Box, outlines: Sequence[Outline]) -> None:
    """Thin slanting lines over a part of the cloth, left out where a piece lies."""
    left, top, right, bottom = box
    step = _HATCH_EVERY * board.scale * math.sqrt(2)
    for number in range(math.floor((top + left) / step) + 1, math.ceil((bottom + right) / step)):
        total = number * step  # the line x + y = total
        start, end = max(left, total - bottom), min(right, total - top)
        if end <= start:
            continue
        a, b = Point(start, total - start), Point(end, total - end)
        for first, last in _outside(a, b, outlines):
            board.stroke((a.between(b, first), a.between(b, last)), "hatch")


def _outside(a: Point, b: Point, outlines: Sequence[Outline]) -> list[tuple[float, float]]:
    """The shares of the way from a to b that lie in none of the outlines."""
    covered: list[tuple[float, float]] = []
    way = b - a
    for outline in outlines:
        crossed = []
        for p, q in zip(outline, (*outline[1:], outline[0]), strict=True):
            from_p, from_q = way.cross(p - a), way.cross(q - a)
            if (from_p > 0) != (from_q > 0):
                place = p.between(q, from_p / (from_p - from_q))
                crossed.append((place - a).dot(way) / way.dot(way))
        crossed.sort()
        covered.extend(zip(crossed[::2], crossed[1::2], strict=False))
    free: list[tuple[float, float]] = []
    at = 0.0
    for low, high in sorted(covered):
        if low > at:
            free.append((at, min(low, 1.0)))
        at = max(at, high)
        if at >= 1.0:
            break
    if at < 1.0:
        free.append((at, 1.0))
    return [(low, high) for low, high in free if high - low > 1e-6 and low < 1.0]


def _folds_across(
    board: Board, layout: Layout, folds: Sequence[AcrossFold], ordered: Sequence[Place],
    by_name: dict[str, Piece], outlines: Sequence[Outline],
) -> None:  # fmt: skip
    """Each fold across: heavy in its piece, dash-dot on to the edges, with an arrow for the end that is turned over."""
    wide, scale = layout.laid_width, board.scale
    lowest = {"left": -math.inf, "right": -math.inf}
    for fold in sorted(folds, key=lambda fold: fold.at):
        number = ordered.index(fold.place) + 1
        outline = laid(by_name[fold.place.piece], fold.place)
        left, right = min(p.x for p in outline), max(p.x for p in outline)
        board.stroke((Point(left, fold.at), Point(right, fold.at)), "fold", wall=True)
        for start, end in ((0.0, left), (right, wide)):
            a, b = Point(start, fold.at), Point(end, fold.at)
            for first, last in _outside(a, b, outlines) if end > start else ():
                board.stroke((a.between(b, first), a.between(b, last)), "centre")
        side = "left" if lowest["left"] <= lowest["right"] else "right"
        y = max(fold.at, lowest[side] + 11 * scale)
        lowest[side] = y
        out = -1.0 if side == "left" else 1.0
        edge = 0.0 if side == "left" else wide
        near = Point(edge + out * 1.2 * scale, y)
        if y > fold.at:
            board.stroke((Point(edge, fold.at), near), "dimension")
        down = fold.end == "cut end"
        _turning(board, near, out, down=down)
        anchor: Literal["start", "end"] = "end" if side == "left" else "start"
        at = near + Point(out * 4.8 * scale, 0)
        rows = (f"FOLD {number}", fold.end, "over")
        for row, text in enumerate(rows):
            size, strong = (_WORD, True) if row == 0 else (_SMALL, False)
            spot = at + Point(0, (row - 1) * 2.6 * scale)
            board.label(spot, text, size, anchor, role="fold", strong=strong)


def _turning(board: Board, at: Point, out: float, *, down: bool) -> None:
    """Half a turn round the end of a fold, from the side that is turned over to the side it comes to lie on."""
    scale = board.scale
    reach = 4.0 * scale
    sense = 1.0 if down else -1.0
    angles = [math.pi * k / 12 for k in range(13)]
    run = [at + Point(out * 0.9 * reach * math.sin(t), -sense * reach * math.cos(t)) for t in angles]
    board.stroke(run, "grain")
    board.head(run[-1] + Point(-out * 0.6 * scale, 0), Point(-out, 0.25 * sense).unit(), "grain")


def _centre(board: Board, piece: Piece, place: Place) -> None:
    """The centre line of a piece laid whole, as a guide that is chalked and never cut."""
    if not (place.whole and piece.on_fold):
        return
    start, end = moved((piece.cut_line[0], piece.cut_line[-1]), place.turned, place.mirrored, place.x, place.y)
    board.stroke((start, end), "centre", wall=True)


def _zero(board: Board, at: Point) -> None:
    """A ring with a dot: the place at which a piece is begun on the cloth, its 0 or its top."""
    ring = _RING * board.scale
    board.stroke((at + Point(ring, 0).turned(n * math.tau / 24) for n in range(24)), "mark", closed=True)
    dot = 0.35 * board.scale
    board.stroke((at + Point(dot, 0).turned(n * math.tau / 12) for n in range(12)), "mark", closed=True, filled=True)
    board.taken.append((at.x - ring, at.y - ring, at.x + ring, at.y + ring))


def _zero_word(board: Board, at: Point, outline: Outline, word: str) -> None:
    xs, ys = [p.x for p in outline], [p.y for p in outline]
    inward = Point((min(xs) + max(xs)) / 2 - at.x, (min(ys) + max(ys)) / 2 - at.y)
    lean = Point(0.7 if inward.x >= -1e-6 else -0.7, 0.7 if inward.y >= -1e-6 else -0.7)
    board.place(at, lean.unit(), (word,), _WORD, "mark", strong=True)


# ---- names in the pieces ---------------------------------------------------------------------------------------------

_Lines = tuple[tuple[str, float, bool], ...]


def _name(board: Board, number: int, piece: Piece, place: Place, outline: Outline, *, doubled: bool) -> None:
    """Number in the cutting order, name and how it lies, as large as they go into the piece; else the number alone.

    Where not even that goes, number and name stand beside the piece, with a line that leads to it.
    """
    how = _how(piece, place, doubled=doubled)
    title = f"{number}  {piece.label}"
    broken = title.replace(": ", ":\n", 1).split("\n") if ": " in title else [f"{number}", *piece.label.split(" ", 1)]
    styles: list[_Lines] = []
    for size in (_NAME, 2.7, 2.5):
        styles.append(((title, size, True), *((line, _WORD, False) for line in how)))
        styles.append((*((line, size, True) for line in broken), *((line, _WORD, False) for line in how)))
        styles.append(((title, size, True),))
    first, _, rest = title.rpartition(" ")
    styles.append(((first, _SMALL, True), (rest, _SMALL, True)))
    styles.append(tuple((line, _SMALL, True) for line in broken))
    room = _Room(board, outline)
    for lines in styles:
        for angle in (0.0, _UP):
            at = room.middle_for(lines, angle)
            if at is not None:
                _write(board, lines, at, angle)
                return
    for size in (2.5, 2.1, 1.8):
        at = room.middle_for(((str(number), size, True),), 0.0)
        if at is not None:
            board.label(at, str(number), size, "middle", role="cut", strong=True)
            return
    beside = max(outline, key=lambda p: p.x)
    board.place(beside, Point(1, 0), (title,), 2.5, "cut", strong=True, lead_from=0.0)


def _how(piece: Piece, place: Place, *, doubled: bool) -> tuple[str, ...]:
    if piece.on_fold and not place.whole:
        return ("on the fold",)
    if piece.on_fold:
        return ("laid whole,", "two layers") if place.layers == 2 else ("laid whole,", "one layer")
    if place.layers == 2:
        return ("a pair,", "two layers")
    return ("upper layer",) if doubled else ("one layer",)


def _size(lines: _Lines, scale: float) -> tuple[float, float]:
    wide = max(text_width(text, size, strong) for text, size, strong in lines) * scale
    return wide, sum(size * 1.15 for _, size, _ in lines) * scale


class _Room:
    """Free places within a piece: on a grid, those nearest to its middle first, each with its way to the next line."""

    def __init__(self, board: Board, outline: Outline) -> None:
        self.board = board
        xs, ys = [p.x for p in outline], [p.y for p in outline]
        box = (min(xs), min(ys), max(xs), max(ys))
        self.walls = [wall for wall in board.walls if crosses_box(*wall, box)]
        self.taken = [one for one in board.taken if overlap(one, box)]
        middle = _middle(outline)
        steps = [(i + 0.5) / _STEPS for i in range(_STEPS)]
        grid = [Point(box[0] + (box[2] - box[0]) * i, box[1] + (box[3] - box[1]) * j) for i in steps for j in steps]
        inside = [at for at in grid if _holds(outline, at)]
        inside.sort(key=lambda at: (round(at.distance(middle), 3), at.x, at.y))
        self.spots = inside
        self.free: dict[Point, float] = {}

    def middle_for(self, lines: _Lines, angle: float) -> Point | None:
        """The middle of a box that holds the lines and touches nothing; None where there is none."""
        wide, tall = _size(lines, self.board.scale)
        if angle:
            wide, tall = tall, wide
        room = 0.7 * self.board.scale
        half_wide, half_tall = wide / 2 + room, tall / 2 + room
        least, enough = min(half_wide, half_tall), math.hypot(half_wide, half_tall)
        for at in self.spots:
            free = self._free(at)
            if free < least:
                continue
            box = (at.x - half_wide, at.y - half_tall, at.x + half_wide, at.y + half_tall)
            if any(overlap(box, one) for one in self.taken):
                continue
            if free >= enough or not any(crosses_box(a, b, box) for a, b in self.walls):
                return at
        return None

    def _free(self, at: Point) -> float:
        """How far the nearest line is, mm of cloth."""
        found = self.free.get(at)
        if found is None:
            found = self.free[at] = min((distance_to_line(at, a, b) for a, b in self.walls), default=math.inf)
        return found


def _middle(outline: Outline) -> Point:
    """The centre of the area."""
    total = x = y = 0.0
    for a, b in zip(outline, (*outline[1:], outline[0]), strict=True):
        part = a.cross(b)
        total += part
        x += (a.x + b.x) * part
        y += (a.y + b.y) * part
    return Point(x / (3 * total), y / (3 * total))


def _holds(outline: Outline, at: Point) -> bool:
    inside = False
    for a, b in zip(outline, (*outline[1:], outline[0]), strict=True):
        if (a.y > at.y) != (b.y > at.y) and at.x < a.x + (b.x - a.x) * (at.y - a.y) / (b.y - a.y):
            inside = not inside
    return inside


def _write(board: Board, lines: _Lines, at: Point, angle: float) -> None:
    _, tall = _size(lines, board.scale)
    y = -tall / 2
    for text, size, strong in lines:
        step = size * 1.15 * board.scale
        spot = at + Point(0, y + step / 2).turned(angle)
        board.label(spot, text, size, "middle", angle=angle, role="cut", strong=strong)
        y += step


# ---- words round the cloth -------------------------------------------------------------------------------------------


def _words_round(
    board: Board, layout: Layout, cloth: ClothFacts, unit: Unit, regions: Sequence[Region], *, beside: bool
) -> None:
    scale, wide, long = board.scale, layout.laid_width, layout.length
    _above(board, layout, unit, regions)
    _at_left(board, layout, cloth, beside=beside)
    _at_right(board, layout, unit, beside=beside)
    y = long + 2.2 * scale
    for edge in way_of(layout).edges(layout, cloth.selvage):
        if edge.says:
            board.stroke((Point(edge.at, long), Point(edge.at, y)), "dimension")
            board.label(Point(edge.at, y + 1.4 * scale), edge.says, _SMALL, "middle", role="selvage")
            y += 3.4 * scale
    if cloth.kind == "woven":
        return
    y += 1.8 * scale
    across, along = cloth.across, cloth.along
    if cloth.turned:  # the facts are then those of the pieces, which lie a quarter turned
        across, along = along, across
    if across >= along:
        reach = max(wide * 0.38, 13 * scale)
        board.arrow(Point(wide / 2 - reach, y), Point(wide / 2 + reach, y), "stretch", both=True)
        word = "most stretch" if across > along else "stretch, alike both ways"
        board.label(Point(wide / 2, y + 2.8 * scale), word, 2.6, "middle", role="stretch")
        return
    x = wide / 2 - 12 * scale
    board.arrow(Point(x, y - 1 * scale), Point(x, y + 13 * scale), "stretch", both=True)
    board.label(Point(x + 3 * scale, y + 6 * scale), "most stretch", 2.6, role="stretch")


def _folds_named(board: Board, layout: Layout, cloth: ClothFacts, *, beside: bool) -> None:
    """At the left the fold or the selvage and which way the nap runs; at the right the second fold."""
    _at_left(board, layout, cloth, beside=beside)
    if way_of(layout).fold_right:
        _fold_at_right(board, layout)


def _fold_at_right(board: Board, layout: Layout) -> None:
    at = Point(layout.laid_width + 3.0 * board.scale, layout.length * 0.2)
    board.label(at, "FOLD", 3.0, "middle", angle=_DOWN, role="fold", strong=True)


def _above(board: Board, layout: Layout, unit: Unit, regions: Sequence[Region]) -> None:
    scale, wide = board.scale, layout.laid_width
    y = -2.4 * scale
    board.label(Point(wide / 2, y), "cut end", _SMALL, "middle", role="dimension")
    y -= 3.2 * scale
    ends: list[float] = []
    lines = 1
    for region in regions:
        words = region.says
        room = text_width(words, _WORD) * scale
        middle = (region.left + region.right) / 2
        row = 1 if ends and middle - room / 2 < ends[-1] + 2 * scale else 0
        if row:
            lines = 2
            board.stroke((Point(middle, -0.8 * scale), Point(middle, y - 1.4 * scale)), "dimension")
        board.label(Point(middle, y - row * 3.0 * scale), words, _WORD, "middle", role="level")
        ends.append(middle + room / 2)
    y -= lines * 3.2 * scale
    if layout.laid_width < layout.cloth_width - 1e-6:
        says = f"{say_length(wide, unit)} folded, {say_length(layout.cloth_width, unit)} open"
    else:
        says = f"{say_length(wide, unit)} wide"
    board.label(Point(wide / 2, y), says, _WORD, "middle", role="dimension")
    board.label(Point(wide / 2, y - 4.4 * scale), way_of(layout).name, _NAME, "middle", role="frame", strong=True)


def _at_left(board: Board, layout: Layout, cloth: ClothFacts, *, beside: bool) -> None:
    scale, long = board.scale, layout.length
    if not way_of(layout).fold_left:
        y = 9 * scale if beside else long / 2
        if not beside or all(fold.at > 22 * scale for fold in layout.folds):
            board.label(Point(-2.4 * scale, y), "selvage", _WORD, "middle", angle=_UP, role="selvage")
    else:
        board.label(Point(-3.2 * scale, long / 2), "FOLD", 3.0, "middle", angle=_UP, role="fold", strong=True)
    if cloth.one_way:
        top, foot = Point(-3.2 * scale, long * 0.66), Point(-3.2 * scale, long * 0.66 + 20 * scale)
        board.arrow(top, foot, "nap")
        middle = top.between(foot, 0.5) - Point(2.2 * scale, 0)
        board.label(middle, "one way", _WORD, "middle", angle=_UP, role="nap")


def _at_right(board: Board, layout: Layout, unit: Unit, *, beside: bool) -> None:
    scale, wide, long = board.scale, layout.laid_width, layout.length
    near = Point(wide + 2.6 * scale, long * 0.2)
    if way_of(layout).fold_right:
        _fold_at_right(board, layout)
    elif not beside or all(fold.at > 22 * scale for fold in layout.folds):
        near = Point(near.x, 9 * scale) if beside else near
        board.label(near, way_of(layout).right_says, _WORD, "middle", angle=_DOWN, role="selvage")
    words = f"{say_laid(long, unit)} of cloth"
    far = wide + (2.6 if not beside else 21.0) * scale
    says = "FOLD" if way_of(layout).fold_right else way_of(layout).right_says
    room = (text_width(says, 3.0, True) + text_width(words, 3.0, True)) / 2 + 1.5
    if not beside and room * scale > (0.68 - 0.2) * long:
        far += 4.2 * scale  # on short cloth there is no room for it behind the other words
    board.label(Point(far, long * 0.68), words, 3.0, "middle", angle=_DOWN, role="dimension", strong=True)
