"""Crosswise: pieces a quarter turned, each on a fold across the cloth, facing one another and nesting."""

from collections.abc import Sequence

from drafting.cloth import CROSSWISE, ClothFacts
from drafting.contract.pieces import Piece
from drafting.layout import bounds
from drafting.layout.places import Layout, Place
from drafting.layout.ways.way import SQUARE, Builder, ClothEdge, Plan, Region, WayToLay
from drafting.units import Tape


class _Crosswise(WayToLay):
    """The cloth laid open, and folded across for one piece after another."""

    key = CROSSWISE
    name = "Crosswise, a fold at each end"
    turns_cloth = True
    offered = (
        "Lay the pieces crosswise, each on a fold across the cloth.",
        "Ribs or stripes then run round the body, and so does the lengthwise stretch. Everything was proven with that.",
    )
    offered_woven = (
        "Lay the pieces crosswise, each on a fold across the cloth.",
        "Stripes along the cloth then run round the body, and the firmer threads with them.",
    )
    turned_says = "Pieces lie across the cloth."
    fold_left = False

    def all_plans(self, pieces: Sequence[Piece], cloth: ClothFacts) -> list[Plan]:
        """One plan; none on one-way cloth, because its nap or print would run sideways."""
        if cloth.one_way:
            return []
        built = Builder()
        for piece in pieces:
            built.singles(piece, cloth, cloth.selvage, cloth.width - cloth.selvage, base=90, layers=2)
        widths = [2 * piece.width if piece.on_fold else piece.width for piece in pieces]
        bound = max(bounds.longest(widths), bounds.by_area(pieces, cloth))
        return [Plan(self.key, tuple(built.items), tuple(built.cuts), bound, cloth.width, (), across=True)]

    def laying_out(self, layout: Layout, tape: Tape) -> tuple[str, ...]:
        """Squaring, and the cloth laid open; each fold is told with its piece."""
        return SQUARE, "Lay the cloth open, right side up. Chalk every fold across it before the first cut."

    def aside(self, place: Place, layout: Layout) -> tuple[float, str]:
        """From the left edge of the cloth."""
        return place.x, "the left edge"

    def regions(self, layout: Layout) -> tuple[Region, ...]:
        """One layer until the first fold is made."""
        return (Region(0.0, layout.laid_width, 1, "laid open, right side up"),)

    def edges(self, layout: Layout, selvage: float) -> tuple[ClothEdge, ...]:
        """Both edges of the cloth."""
        return ClothEdge(0.0, (selvage,)), ClothEdge(layout.laid_width, (layout.laid_width - selvage,))


WAY = _Crosswise()
