"""What is drawn, apart from what draws it: pieces, the cloth and the key of signs as strokes and words in mm.

Places are millimetres of cloth; weights of lines and sizes of letters are millimetres of paper. `Drawing.scale`
says how many mm of cloth lie under one mm of paper, so one drawing reads the same at true size and on a sheet.
The signs are those of the trade: weight, dash and word carry the meaning, never colour alone.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from drafting.drawing.board import Board, Spot, least_bad
from drafting.drawing.cloth import cloth_drawing, fold_drawing
from drafting.drawing.items import (
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
from drafting.drawing.shared import differing, draw_onto, label_of, name_lines, onto, own_notches
from drafting.drawing.words import (
    NUMBER_SIZE,
    SMALL_SIZE,
    WORD_SIZE,
    beside_edges,
    level_lines,
    level_names,
    names,
    reach_at,
    widths,
)
from drafting.geometry.point import Point
from drafting.geometry.polyline import distance_to_line, lengths_along, point_along
from drafting.sentences import lower_first

if TYPE_CHECKING:
    from drafting.chalk.marks import Mark, PieceMarks
    from drafting.contract.pieces import Guide, Notch, Piece
    from drafting.units import Tape, Unit

__all__ = [
    "INKS", "Box", "Drawing", "Ink", "Item", "Label", "Role", "Stroke", "beside", "clipped",
    "cloth_drawing", "crosses_box", "cut_words", "fold_drawing", "key_drawing", "label_box", "moved",
    "piece_drawing", "reach_at", "text_width",
]  # fmt: skip

_SIDES_AT = (0.42, 0.5, 0.58, 0.34, 0.66, 0.26, 0.74, 0.18, 0.82)
"""Shares of a line that runs down, at which its sides may be named; the first that is free is taken."""
_LOW_STRIP = 150.0  # mm of cloth: a band or a cuff is lower, and no other piece
_BRACKET_EVERY = 60.0  # mm of paper between levels that deserve a fold bracket of their own


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
    allowances: Unit | None = None,
    others: Sequence[Piece] = (),
) -> Drawing:
    """One piece as it lies on the cloth, cut and stitching line, with its signs and words.

    `marks` adds the numbered marks (the number is the order of chalking) and, when asked for, the proof lengths.
    `show_signs` adds the piece's name, grain, most stretch and the names of the levels; `half_and_full` the widths
    of the cut line at waist, hip and hem. `letters` enlarges words and signs (1.5 suits true size). `whole` is a piece
    on the fold that is laid open instead: its half is drawn, with a centre line in place of the fold. `allowances` is
    the unit in which the allowance of every edge stands beside it; None leaves them out. `others` are pieces
    drawn on this one, which differ from it by a little of their outline: their own lines are added and named.
    """
    board = Board(scale, letters)
    _outline(board, piece, show_stitch)
    if piece.on_fold:  # lines first, so that all words keep off them
        _fold_line(board, piece, "centre" if whole else "fold")
    if show_signs:
        level_lines(board, piece)
    _snips(board, piece)
    for other in others:
        draw_onto(board, piece, other, stitched=show_stitch, fold="centre" if whole else "fold")
        _ticks(board, own_notches(piece, other))
    guides = _all_guides(piece, others)
    _guides(board, piece, guides, aside=scale > 1.0)
    if marks is not None and show_proofs:
        _proofs(board, marks)
    if marks is not None and show_marks:
        _swings(board, piece, marks)
        _numbers(board, piece, marks)
    _slits(board, piece)
    _guide_names(board, guides)
    if others:
        name_lines(board, (piece, *others))
    if piece.on_fold:
        _fold_words(board, piece, whole=whole)
    if allowances is not None:
        beside_edges(board, piece, allowances)
    if show_signs:
        drawn = replace(piece, label=label_of((piece, *others)))
        each = f"cut {piece.cut} of each" if others else f"cut {piece.cut}"
        names(board, drawn, cut_words(piece, whole).replace(f"cut {piece.cut}", each))
        level_names(board, piece)
    if half_and_full and piece.on_fold:
        widths(board, piece, tape)
    return board.drawing(piece.label)


def cut_words(piece: Piece, whole: bool = False) -> str:
    """How many to cut, in words: "cut 1 on the fold", "cut 1, laid whole", or "cut 2 of rib on the fold"."""
    if whole and piece.on_fold:
        return f"cut {piece.cut}, laid whole"
    of = f" of {piece.other_cloth}" if piece.other_cloth else ""
    return f"cut {piece.cut}{of} on the fold" if piece.on_fold else f"cut {piece.cut}{of}"


def key_drawing(*, scale: float = 1.0, columns: int = 1, wide: float = 56.0, stretches: bool = True) -> Drawing:
    """The small key of signs, `wide` mm of paper a column; of woven cloth, of which nothing stretches, without that."""
    board = Board(scale)
    signs = [one for one in _SIGNS if stretches or one[0] != "stretch"]
    rows = math.ceil(len(signs) / columns)
    for index, (sign, name) in enumerate(signs):
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


# ---- the parts of a piece ----------------------------------------------------------------------------------------


def _outline(board: Board, piece: Piece, show_stitch: bool) -> None:
    board.stroke(piece.cut_line, "piece_fill", closed=True, filled=True)
    if show_stitch and any(edge.allowance > 0 for edge in piece.edges):
        board.stroke(piece.stitch_line, "stitch", closed=not piece.on_fold, wall=True)
    board.stroke(piece.cut_line, "cut", closed=not piece.on_fold, wall=True)


def _fold_line(board: Board, piece: Piece, role: Role) -> None:
    top, foot = piece.cut_line[0].y, piece.cut_line[-1].y
    board.stroke((Point(0, top), Point(0, foot)), role, wall=True)


def _fold_words(board: Board, piece: Piece, *, whole: bool) -> None:
    """Brackets at the fold; of a piece laid whole the words of the centre line, which is chalked and never cut."""
    top, foot = piece.cut_line[0].y, piece.cut_line[-1].y
    if whole:
        words = "CENTRE LINE: mirror this half"
        if text_width(words, 2.8, strong=True) * board.scale > foot - top:
            words = "CENTRE LINE"  # the key says the rest
        # At true size a sheet of the pattern ends beside the line, so its words stand on the piece.
        aside = (-2.6, -7.0) if board.paper_scale > 1.0 else (2.6, 4.6, 7.0)
        spots = [
            Spot(Point(out * board.scale, top + (foot - top) * share), words, "middle", _UP)
            for out in aside
            for share in (0.62, 0.5, 0.75, 0.4)
        ]
        board.write(spots, 2.8, role="centre", strong=True)
        return
    # No bracket beside a line that runs down the fold.
    top = max([top, *(point.y for guide in piece.guides if _on_fold(guide) for point in guide.line)])
    met = (guide.line[0].y for guide in piece.guides if abs(guide.line[0].x) < _NOTHING)
    stops = sorted({top, foot, *(y for y in (*(level.down for level in piece.levels), *met) if top < y < foot)})
    gaps = sorted(itertools.pairwise(stops), key=lambda gap: gap[0] - gap[1])
    for start, end in [gaps[0], *(gap for gap in gaps[1:] if gap[1] - gap[0] > _BRACKET_EVERY * board.scale)]:
        half = min((end - start) * 0.42, 26 * board.scale)
        _bracket(board, (start + end) / 2, half, low=piece.long < _LOW_STRIP)


_UP = -math.pi / 2


def _bracket(board: Board, middle: float, half: float, *, low: bool) -> None:
    """The bracket whose two arrows point at the fold, with its words.

    In a `low` strip the short word comes before the long one beside the fold, where a sheet of the pattern ends.
    """
    scale = board.scale
    near, deep = 1.2 * scale, 3.6 * scale
    start, end = middle - half, middle + half
    board.stroke((Point(near, start), Point(deep, start), Point(deep, end), Point(near, end)), "grain", wall=True)
    for y in (start, end):
        board.head(Point(0.55 * scale, y), Point(-1, 0), "grain")
    tried = [(words, x) for words in ("FOLD: do not cut", "FOLD") for x in (deep + 2.3 * scale, -2.4 * scale)]
    if low:
        tried.sort(key=lambda one: one[1] < 0)
    spots = [Spot(Point(x, middle), words, "middle", _UP) for words, x in tried]
    level = Spot(Point(deep + scale, middle + scale), "FOLD")  # a strip may be too low for a word that runs up it
    spots.insert(next(k for k, (words, _) in enumerate(tried) if words == "FOLD"), level)
    spots += [Spot(Point(deep + scale, middle + down * scale), "FOLD") for down in (0.5, 0.0, -0.5, 1.5)]
    # Or it is too narrow for it, and numbers may stand beside it.
    spots += [Spot(Point(out * scale, middle + scale), "FOLD", "end") for out in (-1.5, -7.5)]
    board.write(spots, 3.0, role="fold", strong=True)


def _ticks(board: Board, notches: Sequence[Notch]) -> None:
    scale = board.scale
    for notch in notches:
        out = notch.outer - notch.inner
        if out.length() > _NOTHING:
            begin = notch.outer - out.unit() * min(out.length(), 2.2 * scale)
            board.stroke((begin, notch.outer + out.unit() * (1.4 * scale)), "notch", wall=True)


def _snips(board: Board, piece: Piece) -> None:
    scale = board.scale
    _ticks(board, piece.notches)
    for edge, inner in piece.clips:
        deep = inner - edge
        if deep.length() > _NOTHING:
            wide = deep.unit().left() * (0.8 * scale)
            board.stroke((edge + wide, edge + deep * 0.75, edge - wide), "clip", wall=True)


_NOTHING = 1e-6


def _slits(board: Board, piece: Piece) -> None:
    scale = board.scale
    if piece.slit is not None:
        slit, side = piece.slit, piece.edge(piece.slit.edge)
        notch = next((notch for notch in piece.notches if notch.id == slit.notch), None)
        top = notch.inner if notch else side.stitch.at_length(max(side.stitch.length() - slit.high, 0.0))[0]
        edge = notch.outer if notch else min(side.cut, key=lambda point: point.distance(top))
        out = (edge - top).unit()
        board.stroke((edge - out * (4 * scale), edge + out * (1.8 * scale)), "notch", wall=True)
        board.place(edge + out * (1.8 * scale), out, ("slit up to here",), WORD_SIZE, "guide")
    if len(piece.trim) > 1:
        board.stroke(piece.trim, "trim", wall=True)
        end = max(piece.trim, key=lambda point: point.x)
        lower = f"lower at the {piece.trim_side}" if piece.trim_side else "lower at one side"
        words = ("opened out, trim to", f"this line, {lower}")
        board.place(end + Point(9 * scale, 0), Point(1, 0), words, SMALL_SIZE, "trim", lead=False)


def _all_guides(piece: Piece, others: Sequence[Piece]) -> tuple[Guide, ...]:
    """The lines inside the piece; one that only another piece drawn on it has is called by that piece."""
    found = list(piece.guides)
    for other in others:
        for guide in onto(piece, other).guides:
            if not any(guide.id == one.id and not differing(guide.line, one.line) for one in found):
                found.append(replace(guide, label=f"{guide.label}, {lower_first(other.label)}"))
    return tuple(found)


def _guides(board: Board, piece: Piece, guides: Sequence[Guide], *, aside: bool) -> None:
    """Lines inside the piece, dashed.

    One that runs down the fold is set `aside` where the drawing is small, to be seen; at true size it lies where it is
    chalked.
    """
    scale = board.scale
    for guide in guides:
        away = Point(1.1 * scale, 0) if aside and piece.on_fold and _on_fold(guide) else Point(0, 0)
        board.stroke((point + away for point in guide.line), "guide", wall=True)
        if _runs_down(guide):
            end = guide.line[-1]
            board.stroke((end - Point(1.5 * scale, 0), end + Point(4 * scale, 0)), "notch", wall=True)


def _guide_names(board: Board, guides: Sequence[Guide]) -> None:
    """What the lines inside the piece are called: at the end of one that runs down, else along it or beside it."""
    scale = board.scale
    for guide in guides:
        start, end = guide.line[0], guide.line[-1]
        if abs(start.x) < _NOTHING and abs(end.x) < _NOTHING and not _on_fold(guide):
            # Out from the fold and back to it: beside its end the bracket of the fold stands.
            spots = [
                Spot(at + Point(x * scale, down * scale), guide.label)
                for at in (start, end)
                for down in (1.9, -1.7)
                for x in (6.0, 4.0, 8.0, 1.6)
            ]
            board.write(spots, WORD_SIZE, role="guide")
        elif _runs_down(guide):
            board.place(end + Point(3 * scale, 0), Point(1, 0), guide.label.split(), WORD_SIZE, "guide", lead=False)
            _sides(board, guide)
        elif (room := abs(end.x - start.x) - 3 * scale - text_width(guide.label, WORD_SIZE) * scale) > 0:
            near = 8.0 if room > 8 * scale else 1.6
            spots = [
                Spot(start + Point(x * scale, down * scale), guide.label)
                for down in (-1.7, 1.9, -3.0, 3.2)
                for x in (near, 1.6, 4.0)
            ]
            board.write(spots, WORD_SIZE, role="guide")
        else:
            out = end if end.x > start.x else start
            board.place(out, Point(1, 0), (guide.label,), WORD_SIZE, "guide")


def _sides(board: Board, guide: Guide) -> None:
    """What lies to both sides of a line that runs down, both at one height, where they touch least."""
    if not all(guide.beside):
        return
    start, end = guide.line[0], guide.line[-1]
    away = Point(1.5 * board.scale, 0)
    nearer, beyond = guide.beside

    def pair(share: float) -> tuple[Spot, Spot]:
        at = start + (end - start) * share
        return Spot(at - away, nearer, "end"), Spot(at + away, beyond, "start")

    def harm(spots: tuple[Spot, Spot]) -> int:
        return sum(board.touched(each, WORD_SIZE) for each in spots)

    best = least_bad((pair(share) for share in _SIDES_AT), harm)
    for spot in best:
        board.write((spot,), WORD_SIZE, role="guide")


def _runs_down(guide: Guide) -> bool:
    way = guide.line[-1] - guide.line[0]
    return abs(way.y) > abs(way.x)


def _on_fold(guide: Guide) -> bool:
    return all(abs(point.x) < _NOTHING for point in guide.line)


def _proofs(board: Board, marks: PieceMarks) -> None:
    at = {mark.id: mark.point for mark in marks.marks}
    for proof in marks.proofs:
        board.stroke((at[proof.start], at[proof.end]), "proof")


def _swings(board: Board, piece: Piece, marks: PieceMarks) -> None:
    """Where the tape is held for what is swung, with the way of the tape down the fold to the farthest of it."""
    swung = [mark.swung for mark in marks.marks if mark.swung is not None]
    for centre in dict.fromkeys(one.centre for one in swung):
        scale = board.scale
        # The fold is drawn already from where the piece begins.
        end = Point(centre.x, max(centre.y, piece.cut_line[0].y))
        board.stroke((centre, end), "guide", wall=True)
        ring = 1.15 * scale
        board.stroke((centre + Point(ring, 0).turned(n * math.tau / 24) for n in range(24)), "mark", closed=True)
        board.dot(centre)
        held = next(one for one in swung if one.centre == centre)
        words = "0, hold the tape here" if held.at_zero else "hold the tape here"
        board.place(centre, Point(1, 0), (words,), WORD_SIZE, "mark", lead=False)


def _numbers(board: Board, piece: Piece, marks: PieceMarks) -> None:
    along = lengths_along(piece.cut_line)
    for mark in marks.every:
        board.dot(mark.point)
    for mark in marks.every:
        away = _outward(piece, mark, along, 3 * board.scale)
        board.place(mark.point, away, (str(mark.order),), NUMBER_SIZE, "mark", strong=True)


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


# ---- the key of signs --------------------------------------------------------------------------------------------

_SIGNS: tuple[tuple[Role, str], ...] = (
    ("cut", "cutting line"),
    ("stitch", "stitching line"),
    ("fold", "fold: do not cut"),
    ("centre", "centre line: mirror there"),
    ("grain", "grain"),
    ("stretch", "most stretch"),
    ("notch", "notch: a short tick"),
    ("clip", "clip: snip once sewn"),
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
        board.label(middle, "12", NUMBER_SIZE, role="mark", strong=True)
    else:
        board.stroke((at, end), "cut" if sign in ("notch", "clip") else sign)
    if sign == "notch":
        board.stroke((middle - Point(0, 1.5 * scale), middle + Point(0, 1.5 * scale)), "notch")
    if sign == "clip":
        aside = Point(0.8 * scale, 0)
        board.stroke((middle - aside, middle + Point(0, 2 * scale), middle + aside), "clip")
