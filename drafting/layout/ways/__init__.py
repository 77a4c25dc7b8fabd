"""The ways to lay the cloth, one a file, in the order in which they are tried and a tie is decided.

A new way is a file with a `WAY` and a line here; an order may name it once it stands in `drafting.cloth.Lay`.
"""

from collections.abc import Sequence

from drafting.cloth import ClothFacts
from drafting.contract.pieces import Piece
from drafting.layout.places import Layout
from drafting.layout.ways import crosswise, half, part_fold, single, two_folds
from drafting.layout.ways.way import ClothEdge, Cut, Plan, Region, WayToLay

__all__ = [
    "EVERY_WAY",
    "USUAL",
    "WAYS",
    "ClothEdge",
    "Cut",
    "Plan",
    "Region",
    "WayToLay",
    "plans",
    "way_name",
    "way_of",
]

EVERY_WAY: tuple[WayToLay, ...] = (half.WAY, single.WAY, two_folds.WAY, part_fold.WAY, crosswise.WAY)
#: The keys of all ways.
WAYS: tuple[str, ...] = tuple(way.key for way in EVERY_WAY)
#: How cloth is laid where nothing speaks against it; widths are told for it.
USUAL: WayToLay = half.WAY

_BY_KEY = {way.key: way for way in EVERY_WAY}


def way_of(layout: Layout) -> WayToLay:
    """The way in which a layout is laid."""
    return _BY_KEY[layout.way]


def way_name(key: str) -> str:
    """A way of laying in plain words."""
    return _BY_KEY[key].name


def plans(pieces: Sequence[Piece], cloth: ClothFacts, key: str) -> list[Plan]:
    """The plans of one way for some pieces; none where the pieces cannot lie so."""
    return _BY_KEY[key].plans(pieces, cloth)
