"""Where the pieces lie: the records that a layout is made of."""

from dataclasses import dataclass
from typing import Literal

#: Which way something runs on the laid cloth. "from_fold" is away from the fold, "both_sides" to both sides of the
#: centre line of a piece, "right" and "left" are as one stands at the cut end.
Toward = Literal[
    "from_cut_end",
    "to_cut_end",
    "to_left_edge",
    "to_right_edge",
    "from_fold",
    "to_fold",
    "to_left_fold",
    "to_right_fold",
    "to_selvages",
    "both_sides",
    "right",
    "left",
]


@dataclass(frozen=True, slots=True)
class Place:
    """Where a piece's origin lies on the cloth as laid: x across, y from the cut end, mm.

    A point of the piece is first mirrored (x to −x), then turned by `turned` degrees clockwise, then moved to (x, y).
    `opened` is a piece laid whole in one layer or whole through two: its half and the mirror of it. `layers` is 2 where
    the cloth lies double there.
    """

    piece: str
    x: float
    y: float
    turned: int = 0
    mirrored: bool = False
    opened: bool = False
    layers: int = 2

    @property
    def across_fold(self) -> bool:
        """Whether it lies on a fold across the cloth that is made for it alone."""
        return self.layers == 2 and self.turned % 180 == 90

    @property
    def whole(self) -> bool:
        """Whether both halves of a piece with a fold are chalked, and its centre is not a fold of the cloth."""
        return self.opened and not self.across_fold


@dataclass(frozen=True, slots=True)
class FoldLine:
    """A fold: at `at` mm across the laid cloth (down it for `across` folds), `depth` mm of cloth turned over it."""

    at: float
    depth: float
    across: bool = False


@dataclass(frozen=True, slots=True)
class Layout:
    """The pieces on the cloth.

    `length` is the cloth needed, `bound` what no layout of this way can beat, both mm; `use` is the share of that
    cloth's area that lies within the pieces.

    `way` is the key of the way of laying. `laid_width` is how wide the cloth lies on the table, `folds` where it is
    folded, `refolds` how often it is folded anew while cutting, `chalked` how many outlines are chalked. x of a place
    counts from the left fold, or from the left edge of the cloth where it lies open.
    """

    way: str
    cloth_width: float
    length: float
    bound: float
    use: float
    places: tuple[Place, ...]
    laid_width: float = 0.0
    folds: tuple[FoldLine, ...] = ()
    refolds: int = 0
    chalked: int = 0

    @property
    def foldings(self) -> int:
        """How often the cloth is folded, the first time counted too."""
        return len(self.folds)

    @property
    def turns(self) -> bool:
        """Whether its pieces lie in more than one direction, or across: only for cloth without nap or shade."""
        turned = {place.turned % 360 for place in self.places}
        return len(turned) > 1 or any(one % 180 for one in turned)

    @property
    def laid_whole(self) -> frozenset[str]:
        """The names of the pieces that lie whole."""
        return frozenset(place.piece for place in self.places if place.whole)
