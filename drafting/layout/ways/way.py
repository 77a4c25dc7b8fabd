"""What a way of laying is: how it plans, how the cloth then lies, and its words.

All coordinates are those of the cloth as it lies on the table: x from the left fold, or from the left edge where the
cloth lies open; y from the cut end. Selvages are kept free. One-way cloth has every piece the same way up.
"""

from abc import ABC, abstractmethod
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import ClassVar

from drafting.cloth import ClothFacts
from drafting.contract.pieces import Piece
from drafting.layout.places import FoldLine, Layout, Place, Toward
from drafting.layout.placing import WITHIN, Item, Turn
from drafting.layout.shapes import Outline, whole
from drafting.units import Tape

#: The sentence with which the laying out of every way begins.
SQUARE = "Square the cut end: follow a rib of the knit across, and cut it straight."
#: The same of woven cloth.
SQUARE_WOVEN = "Square the cut end: pull out a thread that runs across, and cut along the line that it leaves."
#: What a drawing says of a part of the cloth that lies double.
TWO_LAYERS = "two layers (hatched), wrong side up"

UPRIGHT: Turn = (0, False)
#: On the left fold a half turn only flips a piece top to bottom.
FLIPPED: Turn = (180, True)
_PAIR: tuple[Turn, ...] = ((0, False), (180, False), (0, True), (180, True))


@dataclass(frozen=True, slots=True)
class Cut:
    """What one placed item is: which piece, whether it lies whole, and through how many layers it is cut."""

    piece: Piece
    opened: bool
    layers: int


@dataclass(frozen=True, slots=True)
class Plan:
    """One way to lay, ready to be placed: `way` is its key and `bound` what no placing of it can beat, mm.

    `cuts` goes with `items`. `across` is cloth folded across itself. `must_pay` says that the layout is kept only where
    it costs less than the one taken, or less cloth is bought for it.
    """

    way: str
    items: tuple[Item, ...]
    cuts: tuple[Cut, ...]
    bound: float
    laid_width: float
    folds: tuple[FoldLine, ...] = ()
    across: bool = False
    must_pay: bool = False

    @property
    def chalked(self) -> int:
        """Outlines that are chalked: a piece laid whole in one layer counts for both of its halves."""
        return sum(2 if cut.opened and cut.layers == 1 and cut.piece.on_fold else 1 for cut in self.cuts)

    @property
    def refolds(self) -> int:
        """How often the cloth is folded anew after the first time."""
        return max(0, self.foldings - 1)

    @property
    def foldings(self) -> int:
        """How often the cloth is folded, the first time counted too."""
        return sum(1 for cut in self.cuts if cut.opened and cut.layers == 2) if self.across else len(self.folds)


@dataclass(frozen=True, slots=True)
class Region:
    """A part of the laid cloth from `left` to `right`, mm, that is one thing all the way down; `says` what it is."""

    left: float
    right: float
    layers: int
    says: str


@dataclass(frozen=True, slots=True)
class ClothEdge:
    """An edge of the cloth at `at` mm across, with the lines of its selvages; `says` what it is, if it lies inside."""

    at: float
    selvages: tuple[float, ...]
    says: str = ""


class WayToLay(ABC):
    """A way to lay the cloth for cutting. Each has a file and is listed in `ways`."""

    #: Its name in an order and in a draft's record.
    key: ClassVar[str]
    #: Its name for people.
    name: ClassVar[str]
    #: Whether the cloth lies double all over, so that what is cut from one layer is cut from the upper one.
    doubled: ClassVar[bool] = False
    #: Whether the cloth lies in one layer all over and is never folded, so that a corner of it may be missing.
    flat: ClassVar[bool] = False
    #: Whether the cloth is turned under the garment, so that what stretches along it goes round the body.
    turns_cloth: ClassVar[bool] = False
    #: Of a way that has to be asked for: the sentence that offers it, and what it costs in looks.
    offered: ClassVar[tuple[str, str] | None] = None
    #: The same of woven cloth, which does not stretch.
    offered_woven: ClassVar[tuple[str, str] | None] = None
    #: The sentence about pieces that do not all lie the same way up.
    turned_says: ClassVar[str] = "Pieces are turned head to tail."
    #: Whether the left of the laid cloth is a fold, and whether its right is one.
    fold_left: ClassVar[bool] = True
    fold_right: ClassVar[bool] = False
    #: What lies at the right where that is no fold.
    right_says: ClassVar[str] = "selvage"

    @abstractmethod
    def all_plans(self, pieces: Sequence[Piece], cloth: ClothFacts) -> list[Plan]:
        """Its plans for some pieces, also those with a piece that is too large for its place."""

    def plans(self, pieces: Sequence[Piece], cloth: ClothFacts) -> list[Plan]:
        """Its plans for some pieces; none where the pieces cannot lie so."""
        return [plan for plan in self.all_plans(pieces, cloth) if all(_fits(item) for item in plan.items)]

    @abstractmethod
    def laying_out(self, layout: Layout, tape: Tape) -> tuple[str, ...]:
        """What is done before any piece, a sentence or two each; readings in the finest steps of the tape."""

    def aside(self, place: Place, layout: Layout) -> tuple[float, str]:
        """How far a place lies across, mm, and from which fold or edge that is measured."""
        return place.x, "the fold"

    def sideways(self, *, right: bool) -> Toward:
        """Which way right and left run on the laid cloth."""
        return "right" if right else "left"

    def regions(self, layout: Layout) -> tuple[Region, ...]:
        """How many layers lie where, and which side of the cloth is up: double parts lie right sides together."""
        return (Region(0.0, layout.laid_width, 2, TWO_LAYERS),)

    def edges(self, layout: Layout, selvage: float) -> tuple[ClothEdge, ...]:
        """The edges of the cloth, with the selvages that are kept free beside them."""
        return (ClothEdge(layout.laid_width, (layout.laid_width - selvage,)),)


@dataclass(slots=True)
class Builder:
    """Collects the items of a plan with what they are."""

    items: list[Item] = field(default_factory=list)
    cuts: list[Cut] = field(default_factory=list)

    def add(self, piece: Piece, outline: Outline, turns: tuple[Turn, ...], left: float, right: float, *,
            opened: bool, layers: int, on_fold: bool = False) -> None:  # fmt: skip
        """One item between `left` and `right`."""
        self.items.append(Item(piece.name, outline, turns, left, right, on_fold))
        self.cuts.append(Cut(piece, opened, layers))

    def pair(self, piece: Piece, cloth: ClothFacts, left: float, right: float) -> None:
        """A piece cut as a pair through two layers, whole where it has a fold of its own; a single one through one."""
        turns = allowed(cloth, *(_PAIR[:2] if piece.on_fold else _PAIR))
        for _ in range(piece.cut // 2):
            self.add(piece, whole(piece), turns, left, right, opened=piece.on_fold, layers=2)
        if piece.cut % 2 and not piece.on_fold:
            self.add(piece, whole(piece), allowed(cloth, *_PAIR[:2]), left, right, opened=False, layers=1)

    def singles(
        self, piece: Piece, cloth: ClothFacts, left: float, right: float, base: int = 0, layers: int = 1
    ) -> None:
        """A piece cut from one layer, once for every time it is needed; of a pair one is the mirror of the other."""
        for number in range(piece.cut):
            mirrored = not piece.on_fold and number % 2 == 1
            turns = ((base, mirrored), (base + 180, mirrored))
            self.add(piece, whole(piece), turns if base else allowed(cloth, *turns), left, right, opened=piece.on_fold,
                     layers=layers if piece.on_fold else 1)  # fmt: skip


def allowed(cloth: ClothFacts, *turns: Turn) -> tuple[Turn, ...]:
    """The turns that the cloth allows: one-way cloth has every piece the same way up."""
    return tuple(turn for turn in turns if turn[0] == 0 or not cloth.one_way)


def is_pair(piece: Piece) -> bool:
    """Whether it is laid away from the fold: it has no fold of its own, or is cut twice on one."""
    return not piece.on_fold or piece.cut % 2 == 0


def _fits(item: Item) -> bool:
    xs = [p.x for p in item.outline]
    ys = [p.y for p in item.outline]
    sizes = {(ys if turned % 180 else xs) is xs for turned, _ in item.turns}
    room = item.right - item.left + WITHIN
    return (True in sizes and max(xs) - min(xs) <= room) or (False in sizes and max(ys) - min(ys) <= room)
