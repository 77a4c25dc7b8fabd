"""How each piece lies on the cloth while it is chalked: on which fold, through how many layers, which way round.

Without a layout a piece on the fold lies half on a lengthwise fold, and any other as a pair on folded cloth.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from drafting.contract.pieces import Piece
from drafting.layout import AcrossFold, Laying, Layout, Place, across_folds, at_table, fold_reading, in_cutting_order
from drafting.units import UNIT_NAMES, Reading, Tape

#: "fold": half on a lengthwise fold. "across": half on a fold across. "whole": both halves, laid open. "half": a piece
#: with no fold of its own.
Kind = Literal["fold", "across", "whole", "half"]
_NUMBERS = ("second", "third", "fourth")


@dataclass(frozen=True, slots=True)
class Spot:
    """One place of a piece: where its 0 lies, which way down and across run from there, and its fold if it is across.

    `zero` completes "0 lies", `down` and `across` complete "down runs" and "across runs". `laying` has its readings.
    """

    at: Place
    zero: str
    down: str
    across: str
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
    """How every piece lies, in the order of the pieces."""
    if layout is None or {place.piece for place in layout.places} != {piece.name for piece in pieces}:
        return tuple(
            Lying("fold", 2, (), "the fold", True)
            if piece.on_fold
            else Lying("half", 2 if piece.cut > 1 else 1, (), piece.straight, True, piece.cut == 1)
            for piece in pieces
        )
    places = in_cutting_order(layout, pieces)
    layings = at_table(layout, pieces, tape).layings
    folds = across_folds(layout, pieces)
    plain = layout.fold == "half" and all(not p.opened and p.turned == 0 for p in places)
    plain = plain and all(piece.on_fold for piece in pieces)
    found = []
    for piece in pieces:
        own = [(place, laying) for place, laying in zip(places, layings, strict=True) if place.piece == piece.name]
        first = own[0][0]
        kind = _kind(piece, first)
        base = {"fold": "the fold", "across": "the fold", "whole": "the centre line", "half": piece.straight}[kind]
        spots = tuple(_spot(kind, place, laying, layout, folds) for place, laying in own)
        found.append(Lying(kind, first.layers, spots, base, plain, layout.doubled and first.layers == 1))
    return tuple(found)


def places_step(pieces: Sequence[Piece], lying: Sequence[Lying], tape: Tape) -> str:
    """Where every 0 is chalked before the first cut; nothing where it is one fold from the cut end down."""
    if not lying or not lying[0].spots or lying[0].plain:
        return ""
    listed = []
    for piece, lies in zip(pieces, lying, strict=True):
        for number, spot in enumerate(lies.spots, start=1):
            again = "" if len(lies.spots) == 1 else f", {('first', *_NUMBERS)[min(number, 4) - 1]}"
            where = f"its fold {_along(fold_reading(spot.fold.at, tape))}, its 0 lies {spot.zero}" if spot.fold else (
                f"its 0 lies {spot.zero}"
            )  # fmt: skip
            listed.append(f"{piece.label.lower() if ':' not in piece.label else piece.label}{again}: {where}")
    what = "every fold and every 0" if any(spot.fold for lies in lying for spot in lies.spots) else "every 0"
    unit = UNIT_NAMES[tape.unit]
    return f"Before the first cut chalk {what}, with the name of its piece, in {unit}: {'; '.join(listed)}."


def _kind(piece: Piece, place: Place) -> Kind:
    if not piece.on_fold:
        return "half"
    if place.across_fold:
        return "across"
    return "whole" if place.whole else "fold"


def _spot(kind: Kind, place: Place, laying: Laying, layout: Layout, folds: Sequence[AcrossFold]) -> Spot:
    begins = _along(laying.down) if laying.down.steps else "at the cut end"
    aside = f"{laying.across.pretty} from {laying.counted_from}"
    fold = next((one for one in folds if one.place == place), None) if kind == "across" else None
    if kind == "across":
        zero = f"on the fold, {aside}"
    elif kind == "fold":
        zero = f"on {laying.counted_from}, {begins}" if laying.down.steps else f"on {laying.counted_from} {begins}"
    else:
        zero = f"{aside}, {begins}" if laying.down.steps else f"{aside}, at the cut end"
    return Spot(
        place, zero, _down(place), _across(kind, place, layout), place.turned % 360 == 180, place.mirrored, laying, fold
    )


def _down(place: Place) -> str:
    return {
        0: "away from the cut end",
        180: "towards the cut end",
        90: "towards the left edge",
        270: "towards the right edge",
    }[place.turned % 360]


def _across(kind: Kind, place: Place, layout: Layout) -> str:
    if kind in {"fold", "across"}:
        return "away from the fold"
    if kind == "whole":
        return "to both sides of it"
    quarter = place.turned % 360
    if quarter in {90, 270}:
        return "away from the cut end" if (quarter == 90) != place.mirrored else "towards the cut end"
    right = (quarter == 0) != place.mirrored
    if layout.fold == "two_folds":
        return "towards the right fold" if right else "towards the left fold"
    if layout.fold in {"half", "centre_back_seam"}:
        return "towards the selvages" if right else "towards the fold"
    return "to the right" if right else "to the left"


def _along(reading: Reading) -> str:
    """How far down the cloth; past the end of the tape it is measured in parts."""
    number, left = reading.tape.from_zero(reading)
    says = f"{reading.pretty} from the cut end"
    if number == 1:
        return says
    every = reading.tape.zero_every.pretty
    first = f"{every} first" if number == 2 else f"{every} {('twice', 'three times')[min(number, 4) - 3]} first"
    return f"{says} (measure {first}, chalk a line there, then {left.pretty} more)"


def ordinal(number: int) -> str:
    """Second, third, fourth, for the places of a piece after its first."""
    return _NUMBERS[min(number - 2, len(_NUMBERS) - 1)]
