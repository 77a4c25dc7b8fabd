"""How each piece lies on the cloth while it is chalked: on which fold, through how many layers, which way round.

Without a layout a piece on the fold lies half on a lengthwise fold, and any other as a pair on folded cloth.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from drafting.contract.pieces import Piece, of_the_cloth
from drafting.layout import (
    USUAL,
    AcrossFold,
    Laying,
    Layout,
    Place,
    Toward,
    across_folds,
    at_table,
    in_cutting_order,
    way_of,
)
from drafting.units import Tape

#: "fold": half on a lengthwise fold. "across": half on a fold across. "whole": both halves, laid open. "half": a piece
#: with no fold of its own.
Kind = Literal["fold", "across", "whole", "half"]
_DOWN: dict[int, Toward] = {0: "from_cut_end", 180: "to_cut_end", 90: "to_left_edge", 270: "to_right_edge"}


@dataclass(frozen=True, slots=True)
class Spot:
    """One place of a piece: which way down and across run from its 0, and its fold if that lies across the cloth.

    `kind` is that of its piece, `laying` has the readings of its 0. `turned` says that its top points away from the cut
    end.
    """

    kind: Kind
    at: Place
    down: Toward
    across: Toward
    turned: bool
    mirrored: bool
    laying: Laying
    fold: AcrossFold | None = None


@dataclass(frozen=True, slots=True)
class Lying:
    """How one piece lies: its kind, the layers it is cut through, and every place it is chalked at.

    `base` is the line that "across" counts from. `plain` is the simplest of all: every piece on the one fold of cloth
    folded in half, the right way up. `upper` says that the cloth lies double where it is cut through one layer.
    """

    kind: Kind
    layers: int
    spots: tuple[Spot, ...]
    base: str
    plain: bool
    upper: bool = False

    @property
    def folded(self) -> bool:
        """Whether a fold is chalked on, which is never cut."""
        return self.kind in {"fold", "across"}


def lyings(pieces: Sequence[Piece], layout: Layout | None, tape: Tape) -> tuple[Lying, ...]:
    """How every piece lies, in the order of the pieces; one of another cloth lies as without a layout."""
    laid = of_the_cloth(pieces)
    if layout is None or {place.piece for place in layout.places} != {piece.name for piece in laid}:
        return tuple(_by_itself(piece) for piece in pieces)
    places = in_cutting_order(layout, pieces)
    layings = at_table(layout, pieces, tape).layings
    folds = across_folds(layout, pieces)
    plain = way_of(layout) is USUAL and all(not p.opened and p.turned == 0 for p in places)
    plain = plain and all(piece.on_fold and not piece.starts_off for piece in laid)
    found = []
    for piece in pieces:
        if piece.other_cloth:
            found.append(_by_itself(piece))
            continue
        own = [(place, laying) for place, laying in zip(places, layings, strict=True) if place.piece == piece.name]
        first = own[0][0]
        kind = _kind(piece, first)
        base = {"fold": "the fold", "across": "the fold", "whole": "the centre line", "half": piece.straight}[kind]
        spots = tuple(_spot(kind, place, laying, layout, folds) for place, laying in own)
        found.append(Lying(kind, first.layers, spots, base, plain, way_of(layout).doubled and first.layers == 1))
    return tuple(found)


def _by_itself(piece: Piece) -> Lying:
    """How a piece lies that no layout places."""
    if piece.on_fold:
        return Lying("fold", 2, (), "the fold", True)
    return Lying("half", 2 if piece.cut > 1 else 1, (), piece.straight, True, piece.cut == 1)


def _kind(piece: Piece, place: Place) -> Kind:
    if not piece.on_fold:
        return "half"
    if place.across_fold:
        return "across"
    return "whole" if place.whole else "fold"


def _spot(kind: Kind, place: Place, laying: Laying, layout: Layout, folds: Sequence[AcrossFold]) -> Spot:
    fold = next((one for one in folds if one.place == place), None) if kind == "across" else None
    quarter = place.turned % 360
    return Spot(kind, place, _DOWN[quarter], _across(kind, place, layout), quarter == 180, place.mirrored, laying, fold)


def _across(kind: Kind, place: Place, layout: Layout) -> Toward:
    if kind in {"fold", "across"}:
        return "from_fold"
    if kind == "whole":
        return "both_sides"
    quarter = place.turned % 360
    if quarter in {90, 270}:
        return "from_cut_end" if (quarter == 90) != place.mirrored else "to_cut_end"
    return way_of(layout).sideways(right=(quarter == 0) != place.mirrored)
