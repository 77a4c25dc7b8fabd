"""The ways to lay the cloth, each as a plan: what is placed where, and what no placing can beat.

All coordinates are those of the cloth as it lies on the table: x from the left fold, or from the left edge where the
cloth lies open; y from the cut end. Selvages are kept free. One-way cloth has every piece the same way up.
"""

import itertools
from collections.abc import Sequence
from dataclasses import dataclass

from drafting.cloth import ClothFacts
from drafting.contract.pieces import Piece
from drafting.layout import bounds
from drafting.layout.places import FoldLine
from drafting.layout.placing import CLEARANCE, WITHIN, Item, Turn
from drafting.layout.shapes import Outline, half, whole


@dataclass(frozen=True, slots=True)
class Cut:
    """What one placed item is: which piece, whether it lies whole, and through how many layers it is cut."""

    piece: Piece
    opened: bool
    layers: int


@dataclass(frozen=True, slots=True)
class Plan:
    """One way to lay, ready to be placed. `cuts` goes with `items`; `across` is cloth folded across itself."""

    way: str
    items: tuple[Item, ...]
    cuts: tuple[Cut, ...]
    bound: float
    laid_width: float
    folds: tuple[FoldLine, ...] = ()
    across: bool = False

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


def plans(pieces: Sequence[Piece], cloth: ClothFacts, way: str) -> list[Plan]:
    """The plans of one way for some pieces; none where the pieces cannot lie so."""
    maker = {
        "half": _folded,
        "centre_back_seam": _folded,
        "open": _open,
        "two_folds": _two_folds,
        "part_fold": _part_fold,
        "crosswise": _crosswise,
    }[way]
    return [plan for plan in maker(pieces, cloth) if plan.way == way and all(_fits(item) for item in plan.items)]


def _fits(item: Item) -> bool:
    xs = [p.x for p in item.outline]
    ys = [p.y for p in item.outline]
    sizes = {(ys if turned % 180 else xs) is xs for turned, _ in item.turns}
    room = item.right - item.left + WITHIN
    return (True in sizes and max(xs) - min(xs) <= room) or (False in sizes and max(ys) - min(ys) <= room)


def _turns(cloth: ClothFacts, *turns: Turn) -> tuple[Turn, ...]:
    return tuple(turn for turn in turns if turn[0] == 0 or not cloth.one_way)


_UP = (0, False)
_FLIPPED = (180, True)  # on the left fold a half turn only flips a piece top to bottom
_PAIR = ((0, False), (180, False), (0, True), (180, True))


@dataclass(slots=True)
class _Builder:
    """Collects items with what they are."""

    items: list[Item]
    cuts: list[Cut]

    def add(self, piece: Piece, outline: Outline, turns: tuple[Turn, ...], left: float, right: float, *,
            opened: bool, layers: int, on_fold: bool = False) -> None:  # fmt: skip
        self.items.append(Item(piece.name, outline, turns, left, right, on_fold))
        self.cuts.append(Cut(piece, opened, layers))

    def pair(self, piece: Piece, cloth: ClothFacts, left: float, right: float) -> None:
        """A piece cut as a pair through two layers, whole where it has a fold of its own; a single one through one."""
        turns = _turns(cloth, *(_PAIR[:2] if piece.on_fold else _PAIR))
        for _ in range(piece.cut // 2):
            self.add(piece, whole(piece), turns, left, right, opened=piece.on_fold, layers=2)
        if piece.cut % 2 and not piece.on_fold:
            self.add(piece, whole(piece), _turns(cloth, *_PAIR[:2]), left, right, opened=False, layers=1)

    def singles(
        self, piece: Piece, cloth: ClothFacts, left: float, right: float, base: int = 0, layers: int = 1
    ) -> None:
        """A piece cut from one layer, once for every time it is needed; of a pair one is the mirror of the other."""
        for number in range(piece.cut):
            mirrored = not piece.on_fold and number % 2 == 1
            turns = ((base, mirrored), (base + 180, mirrored))
            self.add(piece, whole(piece), turns if base else _turns(cloth, *turns), left, right, opened=piece.on_fold,
                     layers=layers if piece.on_fold else 1)  # fmt: skip


def _is_pair(piece: Piece) -> bool:
    """Laid away from the fold: whatever has no fold of its own, and what is cut twice on one."""
    return not piece.on_fold or piece.cut % 2 == 0


def folded_way(pieces: Sequence[Piece]) -> str:
    """What the cloth folded in half is called for these pieces: with a pair that has no fold of its own, or without."""
    return "centre_back_seam" if any(not piece.on_fold and piece.cut > 1 for piece in pieces) else "half"


def _folded(pieces: Sequence[Piece], cloth: ClothFacts) -> list[Plan]:
    """Folded in half lengthwise: pieces on the fold one under the other, pairs beside them."""
    edge = cloth.width / 2 - cloth.selvage
    built = _Builder([], [])
    on_fold: list[Piece] = []
    for piece in pieces:
        if _is_pair(piece) and (not piece.on_fold or 2 * piece.width <= edge - CLEARANCE):
            built.pair(piece, cloth, CLEARANCE, edge)
            continue
        for _ in range(piece.cut):
            built.add(piece, half(piece), _turns(cloth, _UP, _FLIPPED), 0.0, edge, opened=False, layers=2, on_fold=True)
            on_fold.append(piece)
    name = folded_way(pieces)
    bound = max(bounds.along_fold(on_fold), bounds.longest([p.height for p in pieces]), bounds.by_area(pieces, cloth))
    fold = FoldLine(0.0, cloth.width / 2)
    return [Plan(name, tuple(built.items), tuple(built.cuts), bound, cloth.width / 2, (fold,))]


def _open(pieces: Sequence[Piece], cloth: ClothFacts) -> list[Plan]:
    """Open, one layer: whole pieces head to tail."""
    built = _Builder([], [])
    for piece in pieces:
        built.singles(piece, cloth, cloth.selvage, cloth.width - cloth.selvage)
    bound = max(bounds.longest([p.height for p in pieces]), bounds.by_area(pieces, cloth))
    return [Plan("open", tuple(built.items), tuple(built.cuts), bound, cloth.width)]


def _crosswise(pieces: Sequence[Piece], cloth: ClothFacts) -> list[Plan]:
    """Pieces a quarter turned, each on a fold across the cloth, facing one another and nesting.

    None on one-way cloth: its nap or print would run sideways.
    """
    if cloth.one_way:
        return []
    built = _Builder([], [])
    for piece in pieces:
        built.singles(piece, cloth, cloth.selvage, cloth.width - cloth.selvage, base=90, layers=2)
    widths = [2 * piece.width if piece.on_fold else piece.width for piece in pieces]
    bound = max(bounds.longest(widths), bounds.by_area(pieces, cloth))
    return [Plan("crosswise", tuple(built.items), tuple(built.cuts), bound, cloth.width, (), True)]


def _two_folds(pieces: Sequence[Piece], cloth: ClothFacts) -> list[Plan]:
    """Both selvages folded to the middle: pieces on two folds, pairs in either half. Both selvages are lost there."""
    laid = cloth.width / 2
    rooms = laid - 2 * cloth.selvage
    folded = [p for piece in pieces if not _is_pair(piece) for p in [piece] * piece.cut]
    pairs = [piece for piece in pieces if _is_pair(piece)]
    best: tuple[float, int] | None = None
    if len(folded) < 2 or len(folded) > 10:
        return []
    for mask in range(1, 2 ** len(folded) - 1):
        sides = _sides(folded, mask)
        widths = [max(p.width for p in side) for side in sides]
        if widths[0] < widths[1] - WITHIN or sum(widths) > rooms + WITHIN:
            continue
        length = max(sum(p.height for p in side) for side in sides)
        if best is None or length < best[0] - 1e-6:
            best = (length, mask)
    if best is None:
        return []
    sides = _sides(folded, best[1])
    # The selvages meet where the wider side ends.
    meet = max(p.width for p in sides[0]) + cloth.selvage
    edges = ((0.0, meet - cloth.selvage), (meet + cloth.selvage, laid))
    built = _Builder([], [])
    for side, (left, right) in zip(sides, edges, strict=True):
        for piece in side:
            at_right = left > 0
            turns = _turns(cloth, *(((0, True), (180, False)) if at_right else (_UP, _FLIPPED)))
            built.add(piece, half(piece), turns, left, right, opened=False, layers=2, on_fold=True)
    for piece in pairs:
        wide = 2 * piece.width if piece.on_fold else piece.width
        left, right = next(
            (
                (a + (CLEARANCE if a == 0 else 0), b - (CLEARANCE if a > 0 else 0))
                for a, b in edges
                if wide + CLEARANCE <= b - a
            ),
            (0.0, -1.0),
        )
        built.pair(piece, cloth, left, right)
    stacked = max(bounds.along_fold(side) for side in sides)
    bound = max(stacked, bounds.longest([p.height for p in pieces]), bounds.by_area(pieces, cloth))
    folds = (FoldLine(0.0, meet), FoldLine(laid, laid - meet))
    return [Plan("two_folds", tuple(built.items), tuple(built.cuts), bound, laid, folds)]


def _sides(folded: Sequence[Piece], mask: int) -> tuple[list[Piece], list[Piece]]:
    left = [piece for index, piece in enumerate(folded) if mask >> index & 1]
    right = [piece for index, piece in enumerate(folded) if not mask >> index & 1]
    return left, right


def _part_fold(pieces: Sequence[Piece], cloth: ClothFacts) -> list[Plan]:
    """One side folded over only as far as its pieces need; the rest lies single and takes whole pieces.

    One plan for every choice of what lies on the fold, the widest first.
    """
    found: list[Plan] = []
    foldable = sorted({p.width for p in pieces if not _is_pair(p)}, reverse=True)
    for most in foldable:
        on_fold = [p for p in pieces if not _is_pair(p) and p.width <= most]
        rest = [p for p in pieces if p not in on_fold]
        depth = most + cloth.selvage
        laid = cloth.width - depth
        if laid < depth - WITHIN:
            continue
        strip = (depth + CLEARANCE, laid - cloth.selvage)
        built = _Builder([], [])
        for piece in on_fold:
            for _ in range(piece.cut):
                built.add(
                    piece, half(piece), _turns(cloth, _UP, _FLIPPED), 0.0, most, opened=False, layers=2, on_fold=True
                )
        for piece in rest:
            built.singles(piece, cloth, *strip)
        stack = list(itertools.chain.from_iterable([p] * p.cut for p in on_fold))
        bound = max(bounds.along_fold(stack), bounds.longest([p.height for p in pieces]), bounds.by_area(pieces, cloth))
        found.append(Plan("part_fold", tuple(built.items), tuple(built.cuts), bound, laid, (FoldLine(0.0, depth),)))
    return found
