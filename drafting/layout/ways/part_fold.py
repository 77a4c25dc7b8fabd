"""One side folded over only as far as its pieces need; the rest lies single and takes whole pieces."""

import itertools
from collections.abc import Sequence

from drafting.cloth import ClothFacts
from drafting.contract.pieces import Piece
from drafting.layout import bounds
from drafting.layout.places import FoldLine, Layout
from drafting.layout.placing import CLEARANCE, WITHIN
from drafting.layout.readings import fold_reading
from drafting.layout.shapes import half
from drafting.layout.ways.way import (
    FLIPPED,
    SQUARE,
    TWO_LAYERS,
    UPRIGHT,
    Builder,
    ClothEdge,
    Plan,
    Region,
    WayToLay,
    allowed,
    is_pair,
)
from drafting.units import UNIT_NAMES, Tape


class _PartFold(WayToLay):
    """The cloth folded over at the left, single at the right."""

    key = "part_fold"
    name = "Folded part-way"

    def all_plans(self, pieces: Sequence[Piece], cloth: ClothFacts) -> list[Plan]:
        """One plan for every choice of what lies on the fold, the widest first.

        One with a single strip must pay for its trouble.
        """
        found: list[Plan] = []
        for most in sorted({p.width for p in pieces if not is_pair(p)}, reverse=True):
            on_fold = [p for p in pieces if not is_pair(p) and p.width <= most]
            rest = [p for p in pieces if p not in on_fold]
            depth = most + cloth.selvage
            laid = cloth.width - depth
            if laid < depth - WITHIN:
                continue
            built = Builder()
            for piece in on_fold:
                for _ in range(piece.cut):
                    turns = allowed(cloth, UPRIGHT, FLIPPED)
                    built.add(piece, half(piece), turns, 0.0, most, opened=False, layers=2, on_fold=True)
            for piece in rest:
                built.singles(piece, cloth, depth + CLEARANCE, laid - cloth.selvage)
            stack = list(itertools.chain.from_iterable([p] * p.cut for p in on_fold))
            bound = max(
                bounds.along_fold(stack), bounds.longest([p.long for p in pieces]), bounds.by_area(pieces, cloth)
            )
            single = any(cut.layers == 1 for cut in built.cuts)
            folds = (FoldLine(0.0, depth),)
            found.append(
                Plan(self.key, tuple(built.items), tuple(built.cuts), bound, laid, folds, must_pay=single)
            )  # fmt: skip
        return found

    def laying_out(self, layout: Layout, tape: Tape) -> tuple[str, ...]:
        """Squaring, and the fold with its depth."""
        depth = fold_reading(layout.folds[0].depth, tape).pretty
        every = "12 in" if tape.unit == "in" else "30 cm"
        return SQUARE, (
            f"Fold the left side over by {depth} {UNIT_NAMES[tape.unit]}, right sides together. The rest lies in one "
            f"layer, right side up. Measure that depth again every {every}, since such a fold moves easily."
        )

    def regions(self, layout: Layout) -> tuple[Region, ...]:
        """Double as far as the fold is deep, then single."""
        deep, wide = layout.folds[0].depth, layout.laid_width
        return Region(0.0, deep, 2, TWO_LAYERS), Region(deep, wide, 1, "one layer, right side up")

    def edges(self, layout: Layout, selvage: float) -> tuple[ClothEdge, ...]:
        """One edge of the cloth lies on it, the other at the right."""
        deep, wide = layout.folds[0].depth, layout.laid_width
        return ClothEdge(deep, (deep - selvage,), "selvage"), ClothEdge(wide, (wide - selvage,))


WAY = _PartFold()
