"""Several garments on one length of cloth: laid together against cut apart."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from drafting.cloth import ClothFacts
from drafting.contract.pieces import Piece
from drafting.layout.choice import search
from drafting.layout.places import Layout
from drafting.stepwise import Steps, finished


@dataclass(frozen=True, slots=True)
class Together:
    """Garments on one length. `layout` names each piece "garment: piece"; `apart` is the best layout of each alone.

    `saving` is how much less cloth they need together, mm, never below 0; `layout` is None where they do not go
    together.
    """

    layout: Layout | None
    pieces: tuple[Piece, ...]
    apart: tuple[Layout | None, ...]
    saving: float


def lay_together(garments: Sequence[tuple[str, Sequence[Piece]]], cloth: ClothFacts) -> Together:
    """Lays the pieces of several garments, each with its name, on one length of the same cloth."""
    return finished(laying_together(garments, cloth))


def laying_together(garments: Sequence[tuple[str, Sequence[Piece]]], cloth: ClothFacts) -> Steps[Together]:
    """As `lay_together`, a step at a time."""
    named = tuple(
        replace(piece, name=f"{name}: {piece.name}", label=f"{name}: {piece.label}")
        for name, pieces in garments
        for piece in pieces
    )
    alone: list[Layout | None] = []
    for _, pieces in garments:
        found = yield from search(pieces, cloth, only="cheapest")
        alone.append(found[0] if found else None)
    apart = tuple(alone)
    found = yield from search(named, cloth, only="cheapest")
    layout = found[0] if found else None
    saving = 0.0
    if layout is not None and all(apart):
        saving = max(0.0, sum(one.length for one in apart if one is not None) - layout.length)
    return Together(layout, named, apart, saving)
