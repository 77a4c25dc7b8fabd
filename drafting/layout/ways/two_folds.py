"""Both selvages folded to the middle: pieces on two folds, pairs in either half. Both selvages are lost there."""

from collections.abc import Sequence

from drafting.cloth import ClothFacts
from drafting.contract.pieces import Piece
from drafting.layout import bounds
from drafting.layout.places import FoldLine, Layout, Place, Toward
from drafting.layout.placing import CLEARANCE, WITHIN
from drafting.layout.readings import fold_reading
from drafting.layout.shapes import half
from drafting.layout.ways.way import FLIPPED, SQUARE, UPRIGHT, Builder, ClothEdge, Plan, WayToLay, allowed, is_pair
from drafting.units import UNIT_NAMES, Tape

#: Every division of the pieces between the two folds is tried, so no more than this many pieces are. Our choice.
_MOST = 10


class _TwoFolds(WayToLay):
    """The cloth folded from both sides so that the selvages meet."""

    key = "two_folds"
    name = "Two folds to the middle"
    doubled = True
    fold_right = True

    def all_plans(self, pieces: Sequence[Piece], cloth: ClothFacts) -> list[Plan]:
        """The plan whose folds divide the pieces so that the longer side is shortest."""
        laid = cloth.width / 2
        folded = [p for piece in pieces if not is_pair(piece) for p in [piece] * piece.cut]
        sides = _divided(folded, laid - 2 * cloth.selvage)
        if sides is None:
            return []
        # The selvages meet where the wider side ends.
        meet = max(p.width for p in sides[0]) + cloth.selvage
        edges = ((0.0, meet - cloth.selvage), (meet + cloth.selvage, laid))
        built = Builder()
        for side, (left, right) in zip(sides, edges, strict=True):
            for piece in side:
                at_right = left > 0
                turns = allowed(cloth, *(((0, True), (180, False)) if at_right else (UPRIGHT, FLIPPED)))
                built.add(piece, half(piece), turns, left, right, opened=False, layers=2, on_fold=True)
        for piece in pieces:
            if is_pair(piece):
                built.pair(piece, cloth, *_room(piece, edges))
        stacked = max(bounds.along_fold(side) for side in sides)
        bound = max(stacked, bounds.longest([p.long for p in pieces]), bounds.by_area(pieces, cloth))
        folds = (FoldLine(0.0, meet), FoldLine(laid, laid - meet))
        return [Plan(self.key, tuple(built.items), tuple(built.cuts), bound, laid, folds)]

    def laying_out(self, layout: Layout, tape: Tape) -> tuple[str, ...]:
        """Squaring, and both folds with their depths."""
        left = fold_reading(layout.folds[0].depth, tape)
        right = tape.reading(layout.cloth_width / 2 - left.mm).pretty
        return SQUARE, (
            f"Fold the left side over by {left.pretty} and the right side by {right} {UNIT_NAMES[tape.unit]}, right "
            "sides together, so that the selvages meet. Both selvages lie in the middle: lay no piece over them."
        )

    def aside(self, place: Place, layout: Layout) -> tuple[float, str]:
        """From the fold on whose side it lies."""
        if place.x > layout.folds[0].depth:
            return layout.laid_width - place.x, "the right fold"
        return place.x, "the left fold"

    def sideways(self, *, right: bool) -> Toward:
        """A fold lies at either side."""
        return "to_right_fold" if right else "to_left_fold"

    def edges(self, layout: Layout, selvage: float) -> tuple[ClothEdge, ...]:
        """Both selvages lie where the two sides meet."""
        meet = layout.folds[0].depth
        return (ClothEdge(meet, (meet - selvage, meet + selvage), "selvages meet"),)


def _divided(folded: Sequence[Piece], room: float) -> tuple[list[Piece], list[Piece]] | None:
    """The pieces of the left fold and of the right one, the wider at the left; None where they do not go side by side.

    `room` is how wide both may be together, mm.
    """
    best: tuple[float, int] | None = None
    if not 2 <= len(folded) <= _MOST:
        return None
    for mask in range(1, 2 ** len(folded) - 1):
        sides = _sides(folded, mask)
        widths = [max(p.width for p in side) for side in sides]
        if widths[0] < widths[1] - WITHIN or sum(widths) > room + WITHIN:
            continue
        length = max(sum(p.long for p in side) for side in sides)
        if best is None or length < best[0] - 1e-6:
            best = (length, mask)
    return None if best is None else _sides(folded, best[1])


def _sides(folded: Sequence[Piece], mask: int) -> tuple[list[Piece], list[Piece]]:
    left = [piece for index, piece in enumerate(folded) if mask >> index & 1]
    right = [piece for index, piece in enumerate(folded) if not mask >> index & 1]
    return left, right


def _room(piece: Piece, edges: Sequence[tuple[float, float]]) -> tuple[float, float]:
    """Where a pair may lie: in the first side that is wide enough, clear of its fold; nowhere is 0 and -1."""
    wide = 2 * piece.width if piece.on_fold else piece.width
    return next(
        (
            (a + (CLEARANCE if a == 0 else 0), b - (CLEARANCE if a > 0 else 0))
            for a, b in edges
            if wide + CLEARANCE <= b - a
        ),
        (0.0, -1.0),
    )


WAY = _TwoFolds()
