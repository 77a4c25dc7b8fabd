"""Where the pieces lie: the records that a layout is made of."""

from dataclasses import dataclass

#: The ways a piece of cloth is laid for cutting, in the order in which they are tried.
WAYS = ("half", "centre_back_seam", "open", "two_folds", "part_fold", "crosswise")


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

    `length` is the cloth needed, `bound` what no layout of this fold can beat, both mm; `use` is the share of that
    cloth's area that lies within the pieces.

    `fold` is the way of laying (one of WAYS). `laid_width` is how wide the cloth lies on the table, `folds` where it is
    folded, `refolds` how often it is folded anew while cutting, `chalked` how many outlines are chalked. x of a place
    counts from the left fold, or from the left edge of the cloth where it lies open.
    """

    fold: str
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
    def doubled(self) -> bool:
        """Whether the cloth lies double all over, so that what is cut from one layer is cut from the upper one."""
        return self.fold in {"half", "centre_back_seam", "two_folds"}

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
