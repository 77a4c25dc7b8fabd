"""Folded in half lengthwise: pieces on the fold one under the other, pairs beside them."""

from collections.abc import Sequence

from drafting.cloth import ClothFacts
from drafting.contract.pieces import Piece
from drafting.layout import bounds
from drafting.layout.places import FoldLine, Layout, Toward
from drafting.layout.placing import CLEARANCE
from drafting.layout.shapes import half
from drafting.layout.ways.way import FLIPPED, SQUARE, UPRIGHT, Builder, Plan, WayToLay, allowed, is_pair
from drafting.units import Tape


class _Half(WayToLay):
    """The cloth folded in half, selvage on selvage."""

    key = "half"
    name = "Folded in half"
    doubled = True
    right_says = "selvages, both layers"

    def all_plans(self, pieces: Sequence[Piece], cloth: ClothFacts) -> list[Plan]:
        """One plan."""
        edge = cloth.width / 2 - cloth.selvage
        built = Builder()
        on_fold: list[Piece] = []
        for piece in pieces:
            if is_pair(piece) and (not piece.on_fold or 2 * piece.width <= edge - CLEARANCE):
                built.pair(piece, cloth, CLEARANCE, edge)
                continue
            for _ in range(piece.cut):
                turns = allowed(cloth, UPRIGHT, FLIPPED)
                built.add(piece, half(piece), turns, 0.0, edge, opened=False, layers=2, on_fold=True)
                on_fold.append(piece)
        bound = max(bounds.along_fold(on_fold), bounds.longest([p.long for p in pieces]), bounds.by_area(pieces, cloth))
        fold = FoldLine(0.0, cloth.width / 2)
        return [Plan(self.key, tuple(built.items), tuple(built.cuts), bound, cloth.width / 2, (fold,))]

    def laying_out(self, layout: Layout, tape: Tape) -> tuple[str, ...]:
        """Squaring and one fold."""
        return (
            SQUARE,
            "Fold the cloth in half lengthwise, right sides together, selvage on selvage; the fold lies at your left.",
        )

    def sideways(self, *, right: bool) -> Toward:
        """The selvages lie at the right, the fold at the left."""
        return "to_selvages" if right else "to_fold"


WAY = _Half()
