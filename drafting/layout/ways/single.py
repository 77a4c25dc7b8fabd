"""Open, one layer: whole pieces head to tail."""

from collections.abc import Sequence

from drafting.cloth import ClothFacts
from drafting.contract.pieces import Piece
from drafting.layout import bounds
from drafting.layout.places import Layout, Place
from drafting.layout.ways.way import SQUARE, Builder, ClothEdge, Plan, Region, WayToLay
from drafting.units import Tape


class _Open(WayToLay):
    """The cloth laid open in one layer, right side down."""

    key = "open"
    name = "Open, one layer"
    flat = True
    fold_left = False

    def all_plans(self, pieces: Sequence[Piece], cloth: ClothFacts) -> list[Plan]:
        """One plan."""
        built = Builder()
        for piece in pieces:
            built.singles(piece, cloth, cloth.selvage, cloth.width - cloth.selvage)
        bound = max(bounds.longest([p.long for p in pieces]), bounds.by_area(pieces, cloth))
        return [Plan(self.key, tuple(built.items), tuple(built.cuts), bound, cloth.width)]

    def laying_out(self, layout: Layout, tape: Tape) -> tuple[str, ...]:
        """Squaring, and the cloth laid open."""
        return SQUARE, "Lay the cloth open in one layer, right side down."

    def aside(self, place: Place, layout: Layout) -> tuple[float, str]:
        """From the left edge of the cloth."""
        return place.x, "the left edge"

    def regions(self, layout: Layout) -> tuple[Region, ...]:
        """One layer all over."""
        return (Region(0.0, layout.laid_width, 1, "one layer, wrong side up"),)

    def edges(self, layout: Layout, selvage: float) -> tuple[ClothEdge, ...]:
        """Both edges of the cloth."""
        return ClothEdge(0.0, (selvage,)), ClothEdge(layout.laid_width, (layout.laid_width - selvage,))


WAY = _Open()
