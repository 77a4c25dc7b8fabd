"""What is drawn, apart from what draws it: pieces, the cloth and the key of signs as strokes and words in mm.

Places are millimetres of cloth; weights of lines and sizes of letters are millimetres of paper. `Drawing.scale`
says how many mm of cloth lie under one mm of paper, so one drawing reads the same at true size and on a sheet.
The signs are those of the trade: weight, dash and word carry the meaning, never colour alone.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from typing import TYPE_CHECKING

from drafting.drawing_board import Board
from drafting.drawing_cloth import cloth_drawing, fold_drawing, whole_length
from drafting.drawing_items import (
    INKS,
    Box,
    Drawing,
    Ink,
    Item,
    Label,
    Role,
    Stroke,
    clipped,
    crosses_box,
    label_box,
    moved,
    text_width,
)
from drafting.geometry.point import Point
from drafting.geometry.polyline import distance_to_line, lengths_along, point_along

if TYPE_CHECKING:
    from drafting.chalk_marks import Mark, PieceMarks
    from drafting.pieces import Guide, Piece
    from drafting.units import Tape

__all__ = [
    "INKS", "LEVEL_NAMES", "Box", "Drawing", "Ink", "Item", "Label", "Role", "Stroke", "beside", "clipped",
    "cloth_drawing", "crosses_box", "cut_words", "fold_drawing", "key_drawing", "label_box", "moved",
    "piece_drawing", "reach_at", "text_width",
    "whole_length",
]  # fmt: skip

LEVEL_NAMES = {"side_neck": "shoulder level", "bust": "bust", "waist": "waist", "hip": "hip", "hem": "hem"}
# Sizes of letters in mm of paper (our choice: numbers are read standing, words sitting).
_NAME_SIZE, _NUMBER_SIZE, _WORD_SIZE, _SMALL_SIZE = 5.0, 3.6, 2.7, 2.5
_BRACKET_EVERY = 60.0  # mm of paper between levels that deserve a fold bracket of their own
_LONGEST_ARROW = 110.0  # mm of paper
_STACK = 14.0  # mm of paper that the three lines of a width need, with room round them


def piece_drawing(
    piece: Piece,
    marks: PieceMarks | None,
    tape: Tape,
    *,
    scale: float = 1.0,
    letters: float = 1.0,
    show_stitch: bool = True,
    show_marks: bool = True,
    show_proofs: bool = False,
    show_signs: bool = True,
    half_and_full: bool = True,
    whole: bool = False,
) -> Drawing:
    """One piece as it lies on the cloth, cut and stitching line, with its signs and words.

    `marks` adds the numbered marks (the number is the order of chalking) and, when asked for, the proof lengths.
    `show_signs` adds the piece's name, grain, most stretch and the names of the levels; `half_and_full` the widths
    of the cut line at waist, hip and hem. `letters` enlarges words and signs (1.5 suits true size). `whole` is a piece
    on the fold that is laid open instead: its half is drawn, with a centre line in place of the fold.
    """
    board = Board(scale, letters)
    _outline(board, piece, show_stitch)
    if piece.on_fold and whole:
        _centre_line(board, piece)
    elif piece.on_fold:
        _fold(board, piece)
    if show_signs:
        _levels(board, piece)
        _inside_words(board, piece, whole)
    _snips(board, piece)
    _guides(board, piece)
    if marks is not None and show_proofs:
        _proofs(board, marks)
    if marks is not None and show_marks:
        _numbers(board, piece, marks)
    _slits(board, piece)
    _guide_names(board, piece)
    if half_and_full and piece.on_fold:
        _widths(board, piece, tape)
    return board.drawing(piece.label)


def cut_words(piece: Piece, whole: bool = False) -> str:
    """How many to cut, in words: "cut 1 on the fold", or "cut 1, laid whole"."""
    if whole and piece.on_fold:
        return f"cut {piece.cut}, laid whole"
    return f"cut {piece.cut} on the fold" if piece.on_fold else f"cut {piece.cut}"


def key_drawing(*, scale: float = 1.0, columns: int = 1, wide: float = 56.0) -> Drawing:
    """The small key of signs, `wide` mm of paper a column."""
    board = Board(scale)
    rows = math.ceil(len(_SIGNS) / columns)
    for index, (sign, name) in enumerate(_SIGNS):
        at = Point((index // rows) * wide * scale, (index % rows) * 5.4 * scale)
        _sign(board, sign, at, scale)
        board.label(at + Point(19 * scale, 0), name, 2.9)
    return board.drawing("Key of signs")


def beside(drawings: Sequence[Drawing], gap: float, title: str = "") -> Drawing:
    """Drawings of one scale set beside each other, `gap` mm of cloth between them, tops level."""
    items: list[Item] = []
    at, tall = 0.0, 0.0
    for drawing in drawings:
        items.extend(moved(item, Point(at - drawing.left, -drawing.top)) for item in drawing.items)
        at += drawing.width + gap
        tall = max(tall, drawing.height)
    scale = drawings[0].scale if drawings else 1.0
    return Drawing(tuple(items), max(at - gap, 0.0), tall, scale, 0.0, 0.0, title)


def reach_at(piece: Piece, y: float) -> float | None:
    """Half width of the cut line at a level: the first crossing outward from the fold, mm. None when there is none."""
    return min((x for x in _crossings(piece.cut_line, y) if x > 1.0), default=None)


# ---- the parts of a piece ----------------------------------------------------------------------------------------


def _outline(board: Board, piece: Piece, show_stitch: bool) -> None:
    board.stroke(piece.cut_line, "piece_fill", closed=True, filled=True)
    if show_stitch and any(edge.allowance > 0 for edge in piece.edges):
        board.stroke(piece.stitch_line, "stitch", closed=not piece.on_fold, wall=True)
    board.stroke(piece.cut_line, "cut", closed=not piece.on_fold, wall=True)


def _levels(board: Board, piece: Piece) -> None:
    scale = board.scale
    across = [x for name in ("waist", "hip") if (x := reach_at(piece, piece.levels.get(name, -1.0))) is not None]
    for name, y in piece.levels.items():
        reach = reach_at(piece, y)
        if name == "hem" or reach is None:
            continue
        if name == "bust" and across:
            reach = min(reach, 1.1 * max(across))
        board.stroke((Point(0, y), Point(reach, y)), "level", wall=True)
        words = LEVEL_NAMES.get(name, name)
        start = 8 * scale
        if start + text_width(words, _WORD_SIZE) * scale > reach - 3 * scale:
            words, start = words.removesuffix(" level"), 1.6 * scale
        board.label(Point(start, y - 1.7 * scale), words, _WORD_SIZE)


def _fold(board: Board, piece: Piece) -> None:
    top, foot = piece.cut_line[0].y, piece.cut_line[-1].y
    board.stroke((Point(0, top), Point(0, foot)), "fold", wall=True)
    # No bracket beside a line that runs down the fold.
    top = max([top, *(point.y for guide in piece.guides if _on_fold(guide) for point in guide.line)])
    met = (guide.line[0].y for guide in piece.guides if abs(guide.line[0].x) < _NOTHING)
    stops = sorted({top, foot, *(y for y in (*piece.levels.values(), *met) if top < y < foot)})
    gaps = sorted(itertools.pairwise(stops), key=lambda gap: gap[0] - gap[1])
    for start, end in [gaps[0], *(gap for gap in gaps[1:] if gap[1] - gap[0] > _BRACKET_EVERY * board.scale)]:
        _bracket(board, (start + end) / 2, min((end - start) * 0.42, 26 * board.scale))


def _centre_line(board: Board, piece: Piece) -> None:
    """The centre of a piece laid whole: chalked, never cut; the other half is its mirror."""
    top, foot = piece.cut_line[0].y, piece.cut_line[-1].y
    board.stroke((Point(0, top), Point(0, foot)), "centre", wall=True)
    at = Point(2.6 * board.scale, top + (foot - top) * 0.62)
    board.label(at, "CENTRE LINE: mirror this half", 2.8, "middle", angle=-math.pi / 2, role="centre", strong=True)


def _bracket(board: Board, middle: float, half: float) -> None:
    """The bracket whose two arrows point at the fold, with its words."""
    scale = board.scale
    near, deep = 1.2 * scale, 3.6 * scale
    start, end = middle - half, middle + half
    board.stroke((Point(near, start), Point(deep, start), Point(deep, end), Point(near, end)), "grain")
    for y in (start, end):
        board.head(Point(0.55 * scale, y), Point(-1, 0), "grain")
    at = Point(deep + 2.3 * scale, middle)
    board.label(at, "FOLD: do not cut", 3.0, "middle", angle=-math.pi / 2, role="fold", strong=True)


def _snips(board: Board, piece: Piece) -> None:
    scale = board.scale
    for notch in piece.notches:
        out = notch.outer - notch.inner
        if out.length() > _NOTHING:
            begin = notch.outer - out.unit() * min(out.length(), 2.2 * scale)
            board.stroke((begin, notch.outer + out.unit() * (1.4 * scale)), "notch", wall=True)
    for edge, inner in piece.clips:
        deep = inner - edge
        if deep.length() > _NOTHING:
            wide = deep.unit().left() * (0.8 * scale)
            board.stroke((edge + wide, edge + deep * 0.75, edge - wide), "clip")


_NOTHING = 1e-6


def _slits(board: Board, piece: Piece) -> None:
    scale = board.scale
    side = piece.side_edge
    if piece.slit > 0 and side is not None:
        notch = next((notch for notch in piece.notches if notch.id == "slit"), None)
        top = notch.inner if notch else side.stitch.at_length(max(side.stitch.length() - piece.slit, 0.0))[0]
        edge = notch.outer if notch else min(side.cut, key=lambda point: point.distance(top))
        out = (edge - top).unit()
        board.stroke((edge - out * (4 * scale), edge + out * (1.8 * scale)), "notch", wall=True)
        board.place(edge + out * (1.8 * scale), out, ("slit up to here",), _WORD_SIZE, "guide")
    if len(piece.trim) > 1:
        board.stroke(piece.trim, "trim", wall=True)
        end = max(piece.trim, key=lambda point: point.x)
        lower = f"lower at the {piece.trim_side}" if piece.trim_side else "lower at one side"
        words = ("opened out, trim to", f"this line, {lower}")
        board.place(end + Point(9 * scale, 0), Point(1, 0), words, _SMALL_SIZE, "trim", lead=False)


def _guides(board: Board, piece: Piece) -> None:
    """Lines inside the piece, dashed; one that runs down the fold is drawn beside it."""
    scale = board.scale
    for guide in piece.guides:
        aside = Point(1.1 * scale, 0) if piece.on_fold and _on_fold(guide) else Point(0, 0)
        board.stroke((point + aside for point in guide.line), "guide", wall=True)
        if _runs_down(guide):
            end = guide.line[-1]
            board.stroke((end - Point(1.5 * scale, 0), end + Point(4 * scale, 0)), "notch", wall=True)


def _guide_names(board: Board, piece: Piece) -> None:
    """What the lines inside the piece are called: at the end of one that runs down, else along it or beside it."""
    scale = board.scale
    for guide in piece.guides:
        start, end = guide.line[0], guide.line[-1]
        if _runs_down(guide):
            board.place(end + Point(3 * scale, 0), Point(1, 0), guide.label.split(), _WORD_SIZE, "guide", lead=False)
        elif (room := abs(end.x - start.x) - 3 * scale - text_width(guide.label, _WORD_SIZE) * scale) > 0:
            begin = start + Point(8 * scale if room > 8 * scale else 1.6 * scale, -1.7 * scale)
            board.label(begin, guide.label, _WORD_SIZE, role="guide")
        else:
            out = end if end.x > start.x else start
            board.place(out, Point(1, 0), (guide.label,), _WORD_SIZE, "guide")


def _runs_down(guide: Guide) -> bool:
    way = guide.line[-1] - guide.line[0]
    return abs(way.y) > abs(way.x)


def _on_fold(guide: Guide) -> bool:
    return all(abs(point.x) < _NOTHING for point in guide.line)


def _proofs(board: Board, marks: PieceMarks) -> None:
    at = {mark.id: mark.point for mark in marks.marks}
    for proof in marks.proofs:
        board.stroke((at[proof.start], at[proof.end]), "proof")


def _numbers(board: Board, piece: Piece, marks: PieceMarks) -> None:
    along = lengths_along(piece.cut_line)
    for mark in marks.every:
        board.dot(mark.point)
    for mark in marks.every:
        away = _outward(piece, mark, along, 3 * board.scale)
        board.place(mark.point, away, (str(mark.order),), _NUMBER_SIZE, "mark", strong=True)


def _outward(piece: Piece, mark: Mark, along: Sequence[float], window: float) -> Point:
    """The unit vector away from the piece at a mark, from the run of the cut line `window` mm to both sides."""
    point, line = mark.point, piece.cut_line
    if piece.on_fold and mark.kind == "fold":
        lean = 0.6 * (1 if point.y > (line[0].y + line[-1].y) / 2 else -1)
        return Point(-0.8, lean)
    nearest = min(range(len(line) - 1), key=lambda i: distance_to_line(point, line[i], line[i + 1]))
    at = along[nearest] + min(point.distance(line[nearest]), along[nearest + 1] - along[nearest])
    travel = point_along(line, along, at + window) - point_along(line, along, at - window)
    return travel.unit().left() if travel.length() > _NOTHING else Point(1, 0)


def _inside_words(board: Board, piece: Piece, whole: bool) -> None:
    """Name and number to cut, most stretch above them in the chest, grain below the waist."""
    scale = board.scale
    foot = piece.cut_line[-1].y if piece.on_fold else piece.height
    bust, waist = piece.levels.get("bust", foot * 0.4), piece.levels.get("waist", foot * 0.6)
    body = reach_at(piece, waist) or piece.width / 2
    if text_width(piece.label.upper(), _NAME_SIZE, strong=True) * scale > body:
        _words_along(board, piece, body, foot)
        return
    middle = max(body * 0.62, 20 * scale)
    board.label(Point(middle, bust - 10.5 * scale), piece.label.upper(), _NAME_SIZE, "middle", role="cut", strong=True)
    board.label(Point(middle, bust - 5.9 * scale), cut_words(piece, whole), _WORD_SIZE, "middle", role="cut")
    y = bust - 15.5 * scale
    half = min(body * 0.6, middle - 9.5 * scale, _LONGEST_ARROW * scale / 2)
    board.arrow(Point(middle - half, y), Point(middle + half, y), "stretch", both=True)
    board.label(Point(middle, y - 2.2 * scale), "most stretch", _WORD_SIZE, "middle", role="stretch")
    start, end = waist + (foot - waist) * 0.1, foot - (foot - waist) * 0.12
    end = min(end, start + _LONGEST_ARROW * scale)
    x = body * 0.72
    board.arrow(Point(x, start), Point(x, end), "grain")
    at = Point(x - 2 * scale, start + (end - start) * 0.7)
    board.label(at, "grain", _WORD_SIZE, "middle", angle=-math.pi / 2, role="grain")


def _words_along(board: Board, piece: Piece, body: float, foot: float) -> None:
    """Name, number to cut and grain of a piece too narrow for its name: written up along it, beside its middle."""
    scale, up = board.scale, -math.pi / 2
    name, words = piece.label.upper(), cut_words(piece)
    x, y = body * 0.22, foot * 0.42
    below = (text_width(name, _NAME_SIZE, strong=True) + text_width(words, _WORD_SIZE)) / 2 + 3
    board.label(Point(x, y), name, _NAME_SIZE, "middle", angle=up, role="cut", strong=True)
    board.label(Point(x, y + below * scale), words, _WORD_SIZE, "middle", angle=up, role="cut")
    start, end = Point(body * 0.68, foot * 0.25), Point(body * 0.68, foot * 0.7)
    board.arrow(start, end, "grain")
    at = Point(start.x + 2.4 * scale, (start.y + end.y) / 2)
    board.label(at, "grain", _WORD_SIZE, "middle", angle=up, role="grain")


def _widths(board: Board, piece: Piece, tape: Tape) -> None:
    """Half and whole width of the cut line, the whole as twice the half that is chalked."""
    hem = piece.levels.get("hem")
    for name in ("waist", "hip", "hem"):
        y = piece.levels.get(name)
        if y is None:
            continue
        point = piece.edges[-1].cut[0] if name == "hem" else Point(reach_at(piece, y) or 0.0, y)
        near_hem = hem is not None and name != "hem" and hem - y < _STACK * board.scale
        if point.x < 1 or near_hem:
            continue
        half = tape.reading(point.x)
        texts = (f"{name} as cut", f"half {half.pretty}", f"whole {tape.reading(2 * half.mm).pretty}")
        board.place(point + Point(4.6 * board.scale, 0), Point(1, 0), texts, _SMALL_SIZE, "dimension", lead=False)


def _crossings(points: Sequence[Point], y: float) -> list[float]:
    """Where joined points cross a level, x in the order they are met."""
    return [
        a.x + (b.x - a.x) * (y - a.y) / (b.y - a.y)
        for a, b in itertools.pairwise(points)
        if (a.y - y) * (b.y - y) <= 0 and a.y != b.y
    ]


# ---- the key of signs --------------------------------------------------------------------------------------------

_SIGNS: tuple[tuple[Role, str], ...] = (
    ("cut", "cutting line"),
    ("stitch", "stitching line"),
    ("fold", "fold: do not cut"),
    ("centre", "centre line: mirror there"),
    ("grain", "grain"),
    ("stretch", "most stretch"),
    ("notch", "notch: a short tick"),
    ("clip", "clip: snip the allowance"),
    ("level", "level"),
    ("guide", "line named beside it"),
    ("mark", "mark and its number"),
)


def _sign(board: Board, sign: Role, at: Point, scale: float) -> None:
    end, middle = at + Point(15 * scale, 0), at + Point(7.5 * scale, 0)
    if sign in ("grain", "stretch"):
        board.arrow(at, end, sign, both=sign == "stretch")
    elif sign == "mark":
        board.dot(middle - Point(2 * scale, 0))
        board.label(middle, "12", _NUMBER_SIZE, role="mark", strong=True)
    else:
        board.stroke((at, end), "cut" if sign in ("notch", "clip") else sign)
    if sign == "notch":
        board.stroke((middle - Point(0, 1.5 * scale), middle + Point(0, 1.5 * scale)), "notch")
    if sign == "clip":
        aside = Point(0.8 * scale, 0)
        board.stroke((middle - aside, middle + Point(0, 2 * scale), middle + aside), "clip")
