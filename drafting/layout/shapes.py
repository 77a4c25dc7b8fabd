"""True outlines of pieces as they are laid: half on the fold, whole, turned and mirrored.

An outline is closed points without the first repeated, mm. Nothing is boxed or simplified.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from drafting.contract.pieces import Piece
from drafting.geometry.point import Point
from drafting.geometry.polyline import area, simplified
from drafting.layout.places import Place

Outline = tuple[Point, ...]


def half(piece: Piece) -> Outline:
    """The piece as it is drafted: closed along the fold, or by its own centre edge."""
    return piece.cut_line


def whole(piece: Piece) -> Outline:
    """The piece as it lies open: its half and the mirror of it, or just itself when it has no fold."""
    if not piece.on_fold:
        return piece.cut_line
    mirror = [Point(-point.x, point.y) for point in reversed(piece.cut_line) if point.x > 1e-9]
    return (*piece.cut_line, *mirror)


def cloth_area(piece: Piece) -> float:
    """Area of all that is cut of this piece, mm²."""
    return area(piece.cut_line) * (2 if piece.on_fold else 1) * piece.cut


def moved(outline: Sequence[Point], turned: int, mirrored: bool, x: float = 0.0, y: float = 0.0) -> Outline:
    """Mirrored (x to −x), turned by a multiple of 90° clockwise, then moved. Exact for every quarter turn."""
    quarter = turned // 90 % 4
    cosine, sine = ((1, 0), (0, 1), (-1, 0), (0, -1))[quarter]
    flip = -1 if mirrored else 1
    return tuple(Point(flip * p.x * cosine - p.y * sine + x, flip * p.x * sine + p.y * cosine + y) for p in outline)


def begins_at(piece: Piece, place: Place) -> Point:
    """The place on the cloth from which a placed piece is begun: its 0, or its top at the fold where its 0 lies off it.

    A 0 off the piece may lie off the cloth too, or where another piece is cut out.
    """
    begin = piece.cut_line[0] if piece.starts_off else Point(0.0, 0.0)
    return moved((begin,), place.turned, place.mirrored, place.x, place.y)[0]


def laid(piece: Piece, place: Place) -> Outline:
    """The outline of a placed piece on the cloth as laid."""
    return moved(whole(piece) if place.opened else half(piece), place.turned, place.mirrored, place.x, place.y)


@dataclass(frozen=True, slots=True)
class Shape:
    """An outline in one orientation, moved so that it begins at 0, 0; `shift` is where the piece's origin then lies."""

    outline: Outline
    turned: int
    mirrored: bool
    width: float
    height: float
    shift: Point


def shape(outline: Outline, turned: int = 0, mirrored: bool = False) -> Shape:
    """An outline turned and mirrored, with its size."""
    points = moved(outline, turned, mirrored)
    left, top = math.inf, math.inf
    right, low = -math.inf, -math.inf
    for p in points:
        left, right = min(left, p.x), max(right, p.x)
        top, low = min(top, p.y), max(low, p.y)
    shifted = tuple(Point(p.x - left, p.y - top) for p in points)
    return Shape(shifted, turned, mirrored, right - left, low - top, Point(-left, -top))


def simpler(outline: Outline, within: float) -> Outline:
    """Fewer points, joined straight, with every point and all the area between at most `within` mm from them."""
    places = [(point.x, point.y) for point in outline]
    far = max(range(len(outline)), key=lambda i: outline[i].distance(outline[0]))
    there = simplified(places[: far + 1], within)
    back = simplified([*places[far:], places[0]], within)
    return tuple(outline[index] for index in (*there, *(far + index for index in back[1:-1])))
