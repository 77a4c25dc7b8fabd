"""Pieces that are drawn on each other because only a little of their outline differs, such as a front and its back."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise
from typing import TYPE_CHECKING

from drafting.drawing.board import Board
from drafting.drawing.words import WORD_SIZE
from drafting.geometry.point import Point
from drafting.geometry.polyline import lengths_along, near_polyline, point_along
from drafting.sentences import lower_first

if TYPE_CHECKING:
    from drafting.contract.pieces import Notch, Piece
    from drafting.drawing.items import Role

#: Lines nearer than this are one line, mm (our choice: no pen and no pair of shears tells them apart).
SAME_LINE = 0.1
#: So much of an outline may differ, and only from its beginning at the neck on (our choice: then both are easily read).
DIFFERS = 0.35

Run = tuple[Point, ...]


def together(pieces: Sequence[Piece], whole: frozenset[str] = frozenset()) -> tuple[tuple[Piece, ...], ...]:
    """The pieces in groups that share a drawing, in their order; `whole` names those that are laid open."""
    groups: list[list[Piece]] = []
    for piece in pieces:
        for group in groups:
            if (group[0].name in whole) == (piece.name in whole) and _shares(group[0], piece):
                group.append(piece)
                break
        else:
            groups.append([piece])
    return tuple(tuple(group) for group in groups)


def label_of(group: Sequence[Piece]) -> str:
    """What pieces that share a drawing are called: "Front and back"."""
    return " and ".join([group[0].label, *(lower_first(piece.label) for piece in group[1:])])


def onto(model: Piece, piece: Piece) -> Piece:
    """The piece moved along its fold until its hem lies on the model's."""
    by = Point(0.0, model.cut_line[-1].y - piece.cut_line[-1].y)
    if by.length() < 1e-9:
        return piece
    return replace(
        piece,
        cut_line=tuple(point + by for point in piece.cut_line),
        notches=tuple(replace(one, inner=one.inner + by, outer=one.outer + by) for one in piece.notches),
        guides=tuple(replace(one, line=tuple(point + by for point in one.line)) for one in piece.guides),
        clips=tuple((cut + by, inner + by) for cut, inner in piece.clips),
    )


def differing(line: Sequence[Point], model: Sequence[Point]) -> tuple[Run, ...]:
    """The parts of a line that do not lie on the model's, mm."""
    lies_on = near_polyline(model, SAME_LINE)
    runs: list[list[Point]] = []
    for (a, at_a), (b, at_b) in pairwise([(point, lies_on(point)) for point in line]):
        if not (at_a and at_b and lies_on(a.between(b, 0.5))):
            if runs and runs[-1][-1] == a:
                runs[-1].append(b)
            else:
                runs.append([a, b])
    return tuple(tuple(run) for run in runs)


def draw_onto(board: Board, model: Piece, piece: Piece, *, stitched: bool, fold: Role) -> None:
    """Draws on the model the lines that another piece has elsewhere, and as much more of the fold as it needs."""
    moved = onto(model, piece)
    if moved.cut_line[0].y < model.cut_line[0].y:
        board.stroke((moved.cut_line[0], model.cut_line[0]), fold, wall=True)
    for run in differing(moved.cut_line, model.cut_line):
        board.stroke(run, "cut", wall=True)
    if stitched:
        by = Point(0.0, model.cut_line[-1].y - piece.cut_line[-1].y)
        for run in differing(tuple(point + by for point in piece.stitch_line), model.stitch_line):
            board.stroke(run, "stitch", wall=True)


def own_notches(model: Piece, piece: Piece) -> tuple[Notch, ...]:
    """The notches of a piece, moved onto the model, that the model has not."""
    return tuple(
        one
        for one in onto(model, piece).notches
        if not any(one.outer.distance(other.outer) <= SAME_LINE for other in model.notches)
    )


def name_lines(board: Board, group: Sequence[Piece]) -> None:
    """Names each line where the pieces differ by its first edge: "front neck edge", "back neck edge"."""
    model = group[0]
    moved = [onto(model, piece) for piece in group]
    for piece in moved:
        others = [other for other in moved if other is not piece]
        runs = [run for other in others for run in differing(piece.cut_line, other.cut_line)]
        if not runs:
            continue
        run = max(runs, key=lambda each: lengths_along(each)[-1])
        along = lengths_along(run)
        at = point_along(run, along, along[-1] * 0.4)
        way = point_along(run, along, along[-1] * 0.45) - point_along(run, along, along[-1] * 0.35)
        out = way.unit().left() if way.length() > 0 else Point(0.0, -1.0)
        board.place(at, out, (f"{lower_first(piece.label)} {piece.edges[0].label}",), WORD_SIZE, "cut", strong=True)


def _shares(model: Piece, piece: Piece) -> bool:
    if not (model.on_fold and piece.on_fold) or (model.trim, model.slit) != (piece.trim, piece.slit):
        return False
    if (len(model.edges), model.cut) != (len(piece.edges), piece.cut):
        return False
    moved = onto(model, piece)
    runs = differing(moved.cut_line, model.cut_line)
    if not runs:
        return not differing(model.cut_line, moved.cut_line)
    length = sum(lengths_along(run)[-1] for run in runs)
    begins = len(runs) == 1 and runs[0][0] == moved.cut_line[0]
    return begins and length <= DIFFERS * lengths_along(moved.cut_line)[-1]
