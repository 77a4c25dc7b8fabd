"""What reading a tape in steps does to the girths: each is measured on the exact marks and on the chalked ones."""

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from drafting.chalk import Mark, PieceMarks
from drafting.geometry.point import Point
from drafting.pieces import FinishedGirth, Piece


def after_rounding(
    girths: Sequence[FinishedGirth], piece: Piece, marked: PieceMarks, shrink_across: float
) -> tuple[FinishedGirth, ...]:
    """The girths as they come out when the marks lie where the tape's steps put them, mm.

    Outlines are joined straight through the marks; what changes between the exact and the chalked one is added to the
    true girth (four layers round the body, two round the arm). Sleeve girths are measured square to the overarm.
    """
    exact = {mark.id: mark.point for mark in marked.marks}
    chalked = {mark.id: mark.chalked for mark in marked.marks}
    found = []
    for girth in girths:
        change = _change(girth.at, piece, marked.marks, exact, chalked) * (1 - shrink_across)
        found.append(replace(girth, after_rounding=girth.girth + change))
    return tuple(found)


def _change(at: str, piece: Piece, marks: Sequence[Mark], exact: dict[str, Point], chalked: dict[str, Point]) -> float:
    if at == "neck":
        name = "column_foot" if "column_foot" in exact else "neck_corner"
        return 4 * (chalked[name].x - exact[name].x)
    if at in {"waist", "hip"} and at in exact:
        return 4 * (chalked[at].x - exact[at].x)
    if at == "hem":
        return 4 * (_run(marks, "hem_corner", "hem_fold", True) - _run(marks, "hem_corner", "hem_fold", False))
    if at == "sleeve_end":
        names = ("sleeve_end_top", "sleeve_end_under")
        return 2 * (_run(marks, *names, True) - _run(marks, *names, False))
    if at in {"narrowest", "underarm"}:
        name = "narrowest" if at == "narrowest" else _nearest_to_underarm(piece, marks)
        name = name if name in exact else "sleeve_end_under"
        return 2 * (_below_overarm(chalked, name) - _below_overarm(exact, name))
    level = piece.levels.get("bust" if at == "bust_level" else at)
    if level is None:
        return 0.0
    ours, theirs = _width_at(marks, level, True), _width_at(marks, level, False)
    return 4 * (ours - theirs) if ours is not None and theirs is not None else 0.0


def _run(marks: Sequence[Mark], start: str, end: str, chalked: bool) -> float:
    ids = [mark.id for mark in marks]
    chosen = marks[ids.index(start) : ids.index(end) + 1]
    points = [mark.chalked if chalked else mark.point for mark in chosen]
    return sum(a.distance(b) for a, b in pairwise(points))


def _below_overarm(points: dict[str, Point], name: str) -> float:
    start, end = points["shoulder_point"], points["sleeve_end_top"]
    return abs((points[name] - start).cross((end - start).unit()))


def _nearest_to_underarm(piece: Piece, marks: Sequence[Mark]) -> str:
    place = next((notch.outer for notch in piece.notches if notch.id == "underarm"), None)
    if place is None:
        return "sleeve_end_under"
    return min(marks, key=lambda mark: mark.point.distance(place)).id


def _width_at(marks: Sequence[Mark], level: float, chalked: bool) -> float | None:
    """Distance from the fold to the outline below the sleeve, at a level; None where the level meets no such edge."""
    ids = [mark.id for mark in marks]
    points = [mark.chalked if chalked else mark.point for mark in marks[ids.index("sleeve_end_under") :]]
    found = [
        a.between(b, (level - a.y) / (b.y - a.y)).x
        for a, b in pairwise(points)
        if a.y != b.y and min(a.y, b.y) <= level <= max(a.y, b.y)
    ]
    return min(found) if found else None
