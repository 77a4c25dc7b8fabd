"""The words and numbers on the drawing of a piece: its name, its levels, the allowance beside each edge, its widths.

Each is written where it touches no line and no other word, as near its usual place as that goes.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from drafting.drawing.board import Board, Spot, least_bad, thinned
from drafting.drawing.items import Box, Label, label_box, text_width
from drafting.geometry.point import Point
from drafting.geometry.polyline import distance_to_polyline, lengths_along, point_along
from drafting.units import say_length

if TYPE_CHECKING:
    from drafting.contract.pieces import Edge, Piece
    from drafting.units import Tape, Unit

# Sizes of letters in mm of paper (our choice: numbers are read standing, words sitting); 7 points are 2.47 mm.
NAME_SIZE, NUMBER_SIZE, WORD_SIZE, SMALL_SIZE = 5.0, 3.6, 2.7, 2.5
_LONGEST_ARROW, _SHORTEST_ARROW = 110.0, 8.0  # mm of paper
_CLEAR_OF_FOOT = 8.0  # mm of paper that the grain keeps from a foot that curves up
_CLEAR_OF_STITCH = 0.6  # mm of paper that it keeps from any stitching, if there is room elsewhere
_LOW, _LOW_NAME = 40.0, 3.2  # a strip under so many mm of paper has its name in a line of letters of this size
_LOWEST = 18.0  # and one under so many mm of paper has it below, where it is drawn smaller than it is
_STACK = 14.0  # mm of paper that the three lines of a width need, with room round them
_STEP = 4.0  # mm of paper between the places tried for the name of a piece
_CLEARLY = 1.15  # letters larger by this would still touch nothing
_OFF_PIECE = 10  # what it weighs that a grain runs off its piece or past its stitching: as much as over words
_RING = 0.25  # a piece that begins this share of its length down its fold is a ring
_SLIM = 12.0  # a piece on the fold that is narrower than so many mm of paper has its words beside it
_UP = -math.pi / 2


def reach_at(piece: Piece, y: float) -> float | None:
    """Half width of the cut line at a level: the first crossing outward from the fold, mm. None when there is none.

    Of a piece without a fold it is the second one, since the first is its own edge on the near side.
    """
    if piece.on_fold:
        return min((x for x in crossings(piece.cut_line, y) if x > 1.0), default=None)
    found = sorted({round(x, 6) for x in crossings((*piece.cut_line, piece.cut_line[0]), y)})
    return found[1] if len(found) > 1 else None


def crossings(points: Sequence[Point], y: float) -> list[float]:
    """Where joined points cross a level, x in the order they are met."""
    return [
        a.x + (b.x - a.x) * (y - a.y) / (b.y - a.y)
        for a, b in itertools.pairwise(points)
        if (a.y - y) * (b.y - y) <= 0 and a.y != b.y
    ]


# ---- levels ------------------------------------------------------------------------------------------------------


def _levels(piece: Piece) -> Iterator[tuple[str, float, float]]:
    """Each level to be drawn: what it is called, how far down it lies and how far across it reaches, mm."""
    wide = (level for level in piece.levels if level.width and not level.ends)
    across = [x for level in wide if (x := reach_at(piece, level.down)) is not None]
    for level in piece.levels:
        reach = reach_at(piece, level.down)
        if level.ends or reach is None:
            continue
        if level.narrows and across:
            reach = min(reach, 1.1 * max(across))
        yield level.words, level.down, reach


def level_lines(board: Board, piece: Piece) -> None:
    """The levels as thin lines from the fold outward."""
    for _, y, reach in _levels(piece):
        board.stroke((Point(0, y), Point(reach, y)), "level", wall=True)


def level_names(board: Board, piece: Piece) -> None:
    """The name of each level above its line, or below it; left of the fold where it finds no room inside."""
    scale = board.scale
    for words, y, reach in _levels(piece):
        short = words.removesuffix(" level")
        spots = []
        for text in dict.fromkeys((words, short)):
            last = reach - (text_width(text, WORD_SIZE) + 2.0) * scale
            starts = [x * scale for x in (8.0, 1.6, 12.0, 16.0, 20.0, 26.0) if x * scale <= last]
            spots += [Spot(Point(x, y + down * scale), text) for down in (-1.7, 1.9) for x in starts]
        spots += [Spot(Point(-out * scale, y), short, "end") for out in (1.8, 5.0)]
        board.write(spots, WORD_SIZE)


# ---- the name of the piece, most stretch and grain ---------------------------------------------------------------


def names(board: Board, piece: Piece, cut: str) -> None:
    """Name and number to cut with the most stretch above them, the grain farther down: where the piece asks for it."""
    foot = piece.cut_line[-1].y if piece.on_fold else piece.height
    name_at, grain_at = piece.written or (foot * 0.4, foot * 0.6)
    body = reach_at(piece, grain_at) or piece.width / 2
    if piece.long < _LOW * board.scale and piece.width > 2 * piece.long:
        _names_low(board, piece, cut)
        return
    if body < _SLIM * board.scale and piece.on_fold:  # no room on it, neither across nor along
        usual = Point(body + (_name_wide(piece, cut) / 2 + 6.0) * board.scale, name_at)
        at = _beside(board, piece, cut, usual, foot)
        _name(board, piece, cut, at, body)
        start, end = at + Point(0.0, 8.0 * board.scale), at + Point(0.0, 20.0 * board.scale)
        board.arrow(start, end, "grain")
        board.label(start.between(end, 0.5) + Point(2.0 * board.scale, 0.0), "grain", WORD_SIZE, "start", role="grain")
        return
    # Up along a ring its words would cross both of its arcs.
    ring = piece.on_fold and piece.cut_line[0].y - piece.top > _RING * piece.long
    too_wide = text_width(piece.label.upper(), NAME_SIZE, strong=True) * board.scale > body
    if not ring and too_wide and _goes_along(board, piece, body, foot):
        _names_along(board, piece, cut, body, foot)
        return
    usual = Point(max(body * 0.62, 20 * board.scale), name_at - 10.5 * board.scale)
    found = _name_place(board, piece, cut, usual, foot)
    if found is None and piece.width > 2 * piece.long:
        _names_low(board, piece, cut)
        return
    if found is None and not piece.on_fold and piece.guides:  # a line inside leaves no room across
        _names_along(board, piece, cut, body, foot, grain_at / foot)
        _stretch_low(board, body, foot)
        return
    _name(board, piece, cut, found or _beside(board, piece, cut, usual, foot), body)
    if ring:  # it is as long as anywhere beside its fold
        _grain(board, piece, body, piece.cut_line[0].y, foot, (0.15, 0.2, 0.25, 0.3))
    else:
        _grain(board, piece, body, grain_at, foot)


def _names_low(board: Board, piece: Piece, cut: str) -> None:
    """Name, number to cut, most stretch and grain of a low strip: in a line each, above and below its middle."""
    scale, top, long = board.scale, piece.top, piece.long
    title = f"{piece.label.upper()}, {cut}"
    if board.paper_scale > 1.0 and long < _LOWEST * scale:
        _names_below(board, piece, title)
        return
    rows = [top + long * share for share in (0.72, 0.66, 0.78, 0.3)]
    across = [piece.width * share for share in (0.36, 0.3, 0.42, 0.24, 0.5)]
    board.write([Spot(Point(x, y), title, "middle") for y in rows for x in across], _LOW_NAME, role="cut", strong=True)
    y = top + long * 0.28
    start, end = Point(piece.width * 0.55, y), Point(piece.width * 0.8, y)
    if piece.stretches:
        board.arrow(start, end, "stretch", both=True)
        beside = (text_width("most stretch", WORD_SIZE) / 2 + 2.0) * scale
        spots = [Spot(start - Point(beside, 0), "most stretch", "middle")]
        spots += [
            Spot(start.between(end, 0.5) + Point(0, down * scale), "most stretch", "middle") for down in (-2.2, 2.4)
        ]
        board.write(spots, WORD_SIZE, role="stretch")
    x = piece.width * 0.9
    board.arrow(Point(x, top + long * 0.12), Point(x, top + long * 0.88), "grain")
    spots = [Spot(Point(x + aside * scale, top + long * share), "grain", "middle") for aside in (-6.0, 6.0, -4.6, 4.6)
             for share in (0.75, 0.25, 0.5, 0.85, 0.15, 0.6, 0.4)]  # fmt: skip
    board.write(spots, WORD_SIZE, role="grain")


def _names_below(board: Board, piece: Piece, title: str) -> None:
    """Of a strip too low to be written on, its name and the most stretch stand below it, and only the grain on it."""
    scale, foot = board.scale, piece.top + piece.long
    shares = (0.3, 0.36, 0.42, 0.5, 0.24, 0.6)
    names = [Spot(Point(piece.width * x, foot + y * scale), title, "middle") for y in (7.5, 9.0) for x in shares]
    board.write(names, _LOW_NAME, role="cut", strong=True)
    if piece.stretches:
        start = Point(piece.width * 0.12, foot + 13.0 * scale)
        end = start + Point(max(piece.width * 0.25, 12.0 * scale), 0.0)
        board.arrow(start, end, "stretch", both=True)
        board.write([Spot(end + Point(3.0 * scale, 0.0), "most stretch")], WORD_SIZE, role="stretch")
    x, (begins, ends) = piece.width * 0.9, (piece.top + piece.long * share for share in (0.12, 0.88))
    board.arrow(Point(x, begins), Point(x, ends), "grain")
    beside = [Spot(Point(x + aside * scale, piece.top + piece.long * share), "grain", "middle")
              for aside in (-6.0, 6.0, -4.6, 4.6) for share in (0.75, 0.25, 0.5)]  # fmt: skip
    below = [Spot(Point(x, foot + y * scale), "grain", "middle") for y in (3.0, 5.0)]
    board.write([*beside, *below], WORD_SIZE, role="grain")


def _name_wide(piece: Piece, cut: str) -> float:
    """How wide the lines of the name are, mm of paper."""
    stretch = text_width("most stretch", WORD_SIZE) if piece.stretches else 0.0
    return max(text_width(piece.label.upper(), NAME_SIZE, strong=True), text_width(cut, WORD_SIZE), stretch, 14.0)


def _name_places(board: Board, piece: Piece, cut: str, usual: Point, foot: float) -> Iterator[tuple[Point, Box]]:
    """The usual place of the name, then all others by their distance from it, each with the box of its lines."""
    scale, wide = board.scale, _name_wide(piece, cut) * board.scale
    others = (
        Point(x * _STEP * scale + wide / 2, y * _STEP * scale)
        for x in range(int((piece.width + wide) / (_STEP * scale)) + 2)
        for y in range(1, max(int(foot / (_STEP * scale)), 2))
    )
    for at in (usual, *sorted(others, key=lambda p: p.distance(usual))):
        yield at, (at.x - wide / 2 - scale, at.y - 9.4 * scale, at.x + wide / 2 + scale, at.y + 6.4 * scale)


def _name_place(board: Board, piece: Piece, cut: str, usual: Point, foot: float) -> Point | None:
    """Where there is room for the name on the piece; None where there is none."""
    places = _name_places(board, piece, cut, usual, foot)
    return next((at for at, box in places if _inside(piece, box) and not board.struck(box)), None)


def _beside(board: Board, piece: Piece, cut: str, usual: Point, foot: float) -> Point:
    """Where there is room for the name beside the piece."""
    return next((at for at, box in _name_places(board, piece, cut, usual, foot) if not board.struck(box)), usual)


def _name(board: Board, piece: Piece, cut: str, at: Point, body: float) -> None:
    """The name of the piece at its place, with the number to cut below it and the most stretch above it."""
    scale, size, wide = board.scale, NAME_SIZE, _name_wide(piece, cut) * board.scale
    half = min(body * 0.6, wide / 2 + 6 * scale, _LONGEST_ARROW * scale / 2)
    while half > wide / 2 and board.struck((at.x - half, at.y - 6.2 * scale, at.x + half, at.y - 3.8 * scale)):
        half -= scale
    half = min(half, wide / 2) if half <= wide / 2 else half
    board.label(at, piece.label.upper(), size, "middle", role="cut", strong=True)
    board.label(at + Point(0, 4.6 * scale), cut, WORD_SIZE, "middle", role="cut")
    if not piece.stretches:
        return
    y = at.y - 5.0 * scale
    board.arrow(Point(at.x - half, y), Point(at.x + half, y), "stretch", both=True)
    board.label(Point(at.x, y - 2.2 * scale), "most stretch", WORD_SIZE, "middle", role="stretch")


def _stretch_low(board: Board, body: float, foot: float) -> None:
    """The most stretch of a piece whose name is written up along it: an arrow near its foot, without a word."""
    half = min(0.17 * body, _LONGEST_ARROW * board.scale / 2)
    for down in (0.85, 0.8, 0.9, 0.75):
        middle = Point(body * 0.74, foot * down)
        box = (middle.x - half, middle.y - 2.0 * board.scale, middle.x + half, middle.y + 2.0 * board.scale)
        if not board.struck(box):
            break
    board.arrow(middle - Point(half, 0), middle + Point(half, 0), "stretch", both=True)


def _along_piece(board: Board, text: str, across: float, size: float, body: float, foot: float) -> list[Spot]:
    """Where words may be written up along a piece, `across` a share of its reach, then left of it."""
    further = (0.0, 0.1, 0.2, -0.06, 0.28, 0.4)
    places = [(share, across + more) for more in further for share in (0.5, 0.4, 0.6, 0.3, 0.7)]
    spots = [Spot(Point(body * x, foot * share), text, "middle", _UP) for share, x in places]
    return spots + [Spot(Point(-size * board.scale, foot * share), text, "middle", _UP) for share in (0.5, 0.3, 0.7)]


def _goes_along(board: Board, piece: Piece, body: float, foot: float) -> bool:
    """Whether the name of a piece finds room up along it."""
    spots = _along_piece(board, piece.label.upper(), 0.2, NAME_SIZE, body, foot)
    return any(board.touched(spot, _CLEARLY * NAME_SIZE, strong=True) == 0 for spot in spots)


def _names_along(board: Board, piece: Piece, cut: str, body: float, foot: float, top: float = 0.25) -> None:
    """Name, number to cut and grain of a piece too narrow for its name: written up along it, left of its middle.

    The grain begins at `top`, a share of the way down.
    """
    for text, across, size, strong in ((piece.label.upper(), 0.2, NAME_SIZE, True), (cut, 0.38, WORD_SIZE, False)):
        spots = _along_piece(board, text, across, size, body, foot)
        clear = [spot for spot in spots if board.touched(spot, _CLEARLY * size, strong=strong) == 0]
        board.write(clear or spots, size, role="cut", strong=strong)
    start, end = Point(body * 0.72, foot * top), Point(body * 0.72, foot * 0.7)
    board.arrow(start, end, "grain")
    beside = [
        Spot(start.between(end, share) + Point(x * board.scale, 0), "grain", "middle", _UP)
        for share in (0.5, 0.3, 0.7)
        for x in (2.2, -2.0)
    ]
    board.write(beside, WORD_SIZE, role="grain")


def _inside(piece: Piece, box: Box) -> bool:
    """Whether the middle of a box lies on the piece."""
    return _within(piece.cut_line, Point((box[0] + box[2]) / 2, (box[1] + box[3]) / 2))


def _within(line: Sequence[Point], at: Point) -> bool:
    """Whether a place lies within an outline, whose ends are joined."""
    return sum(1 for crossing in crossings((*line, line[0]), at.y) if crossing > at.x) % 2 == 1


def _lowest(piece: Piece, x: float) -> float:
    """How far down the cut line lies at a place across, where it lies lowest, mm."""
    found = [
        a.y + (b.y - a.y) * (x - a.x) / (b.x - a.x)
        for a, b in itertools.pairwise(piece.cut_line)
        if (a.x - x) * (b.x - x) <= 0 and a.x != b.x
    ]
    return max(found, default=piece.height)


def _grain(
    board: Board, piece: Piece, body: float, top: float, foot: float,
    shares: Sequence[float] = (0.72, 0.6, 0.5, 0.4, 0.8, 0.3),
) -> None:  # fmt: skip
    """The grain and its word, at the freest of these shares of the piece's reach across."""
    scale = board.scale
    lowest = foot - (foot - top) * 0.12

    def ends(x: float, begins: float) -> tuple[Point, Point]:
        start = top + (foot - top) * begins
        last = min(lowest, start + _LONGEST_ARROW * scale, _lowest(piece, x) - _CLEAR_OF_FOOT * scale)
        return Point(x, start), Point(x, max(last, start + _SHORTEST_ARROW * scale))

    def spots(start: Point, end: Point) -> list[Spot]:
        return [
            Spot(start.between(end, share) + Point(aside * scale, 0), "grain", "middle", _UP)
            for asides in ((-2.0, 2.2), (-4.4, 4.6, -7.0, 7.2))
            for share in (0.7, 0.6, 0.5, 0.4, 0.3, 0.2, 0.8)
            for aside in asides
        ]

    def struck(arrow: tuple[Point, Point]) -> int:
        (start, end), beside = arrow, 0.8 * scale
        box = (start.x - beside, start.y, start.x + beside, end.y)
        word = least_bad(spots(start, end), lambda spot: board.touched(spot, WORD_SIZE))
        off = sum(1 for at in (start, start.between(end, 0.5)) if not _within(piece.cut_line, at))
        off += 0 if _within(piece.stitch_line, end + Point(0, _CLEAR_OF_STITCH * scale)) else 1
        return 10 * board.covered(box) + _OFF_PIECE * off + board.touched(word, WORD_SIZE)

    def higher() -> Iterator[tuple[Point, Point]]:
        """Shorter ones, anywhere on the piece: where all others run over a word or off the piece."""
        for long in (2 * _SHORTEST_ARROW * scale, _SHORTEST_ARROW * scale):
            for down in (0.6, 0.5, 0.7, 0.4, 0.3, 0.8, 0.2):
                for share in (0.5, 0.6, 0.4, 0.7, 0.3, 0.8, 0.2):
                    start = Point(piece.width * share, foot * down)
                    yield start, start + Point(0, long)

    usual = [ends(body * share, begins) for begins in (0.1, 0.35, 0.6) for share in shares]
    start, end = least_bad(usual, struck)
    if struck((start, end)) >= _OFF_PIECE:
        start, end = least_bad(itertools.chain([(start, end)], higher()), struck)
    board.arrow(start, end, "grain")
    board.write(spots(start, end), WORD_SIZE, role="grain")


# ---- allowances and widths ---------------------------------------------------------------------------------------


def beside_edges(board: Board, piece: Piece, unit: Unit) -> None:
    """The allowance of each edge beside it: outside its cut line, or within its stitching line where that is freer."""
    lines = {edge.name: thinned(edge.cut, 2 * board.scale) for edge in piece.edges}
    for edge in piece.edges:
        if edge.allowance <= 0:
            continue
        text = say_length(edge.allowance, unit)
        others = [line for name, line in lines.items() if name != edge.name]
        spots: list[Spot] = []
        for spot, line in _along(board, edge, lines[edge.name], text):
            label = Label(spot.at, text, SMALL_SIZE * board.letters, "middle", strong=True)
            if board.struck(label_box(label, board.paper_scale)) == 0:
                own = distance_to_polyline(spot.at, line)
                if all(distance_to_polyline(spot.at, other) > own for other in others):
                    spots = [spot]
                    break
            spots.append(spot)
        board.write(spots, SMALL_SIZE, role="allowance", strong=True)


def _along(board: Board, edge: Edge, cut: Sequence[Point], text: str) -> Iterator[tuple[Spot, Sequence[Point]]]:
    """Places along an edge, its middle first and outside before inside, each with the line it stands beside."""
    scale = board.scale
    wide, tall = text_width(text, SMALL_SIZE, strong=True) * scale / 2, 0.4 * SMALL_SIZE * scale
    for outside in (True, False):
        line = cut if outside else thinned(edge.stitch.flatten(0.5), 2 * scale)
        along = lengths_along(line)
        for gap in (1.2, 2.2, 3.6):
            for share in (0.5, 0.4, 0.6, 0.3, 0.7, 0.22, 0.78, 0.14, 0.86):
                at = along[-1] * share
                run = point_along(line, along, min(at + scale, along[-1])) - point_along(
                    line, along, max(at - scale, 0)
                )
                if run.length() > 0:
                    out = run.unit().left() * (1.0 if outside else -1.0)
                    away = out * (gap * scale + wide * abs(out.x) + tall * abs(out.y))
                    yield Spot(point_along(line, along, at) + away, text, "middle"), line


def widths(board: Board, piece: Piece, tape: Tape) -> None:
    """Half and whole width of the cut line, the whole as twice the half that is chalked."""
    foot = next((level.down for level in piece.levels if level.ends), math.inf)
    for level in piece.levels:
        if not level.width:
            continue
        y = level.down
        point = piece.edges[-1].cut[0] if level.ends else Point(reach_at(piece, y) or 0.0, y)
        near_foot = not level.ends and foot - y < _STACK * board.scale
        if point.x < 1 or near_foot:
            continue
        half = tape.reading(point.x)
        texts = (f"{level.words} as cut", f"half {half.pretty}", f"whole {tape.reading(2 * half.mm).pretty}")
        board.place(point + Point(4.6 * board.scale, 0), Point(1, 0), texts, SMALL_SIZE, "dimension", lead=False)
