"""Laying the pieces on the cloth: folded in half lengthwise, fold at the left, pieces one under the other."""

from collections.abc import Sequence
from dataclasses import dataclass

from drafting.cloth import ClothFacts
from drafting.geometry.polyline import area
from drafting.pieces import Piece


@dataclass(frozen=True, slots=True)
class Place:
    """Where a piece's origin lies: x from the fold, y from the cut end, mm; turned in degrees, mirrored or not."""

    piece: str
    x: float
    y: float
    turned: int = 0
    mirrored: bool = False


@dataclass(frozen=True, slots=True)
class Layout:
    """The pieces on the cloth.

    `length` is the cloth needed and `bound` what no layout of this fold can beat, both in mm; `use` is the share of
    that cloth's area that lies within the pieces.
    """

    fold: str
    cloth_width: float
    length: float
    bound: float
    use: float
    places: tuple[Place, ...]


def lay(pieces: Sequence[Piece], cloth: ClothFacts) -> Layout | None:
    """Both pieces along the whole fold, so nothing nests and the length is the sum of theirs: its own lower bound.

    None when a piece is wider than half the usable width, or all are longer than the cloth in hand.
    """
    if max(piece.width for piece in pieces) > cloth.usable_width / 2 + 1e-6:
        return None
    places: list[Place] = []
    length = 0.0
    for piece in pieces:
        for _ in range(piece.cut):
            places.append(Place(piece.name, 0.0, length))
            length += piece.height
    if cloth.length is not None and length > cloth.length + 1e-6:
        return None
    covered = sum(2 * area(piece.cut_line) * piece.cut for piece in pieces)
    return Layout("half", cloth.width, length, length, covered / (length * cloth.width), tuple(places))
