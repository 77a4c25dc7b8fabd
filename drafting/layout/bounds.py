"""What no layout can beat: lower bounds on the length of cloth, mm."""

from collections.abc import Sequence

from drafting.cloth import ClothFacts
from drafting.contract.pieces import Piece
from drafting.layout.shapes import cloth_area


def by_area(pieces: Sequence[Piece], cloth: ClothFacts) -> float:
    """All the cloth that is cut out, spread over the full width between the selvages."""
    return sum(cloth_area(piece) for piece in pieces) / cloth.usable_width


def along_fold(pieces: Sequence[Piece]) -> float:
    """Pieces on one fold lie one under the other, so what they take of the fold itself adds."""
    return sum(abs(piece.cut_line[-1].y - piece.cut_line[0].y) for piece in pieces)


def longest(heights: Sequence[float]) -> float:
    """The longest piece as it lies."""
    return max(heights, default=0.0)
