"""What a person does at the table: how the cloth is folded, where each piece begins, in what order they are cut.

Readings are those of the tape in hand, from the cut end (squared first) and from the fold or the left edge.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from drafting.contract.pieces import Piece, counted, of_the_cloth
from drafting.layout.laying_words import BEGINS, CUT, HALF, TOP, How
from drafting.layout.offers import ONLY_PLAIN
from drafting.layout.places import Layout, Place
from drafting.layout.readings import finest, fold_reading
from drafting.layout.shapes import begins_at
from drafting.layout.ways import way_of
from drafting.layout.ways.way import SQUARE, SQUARE_WOVEN
from drafting.sentences import lower_first
from drafting.units import UNIT_NAMES, Reading, Tape


@dataclass(frozen=True, slots=True)
class Laying:
    """One piece set down: its place in the cutting order, where it begins, and the words for it.

    It begins at its 0, or at its top at the fold where the 0 lies off the piece; `begins` says which. `across` counts
    from the fold or edge named in `counted_from`, `down` from the squared cut end.
    """

    order: int
    piece: str
    across: Reading
    down: Reading
    counted_from: str
    says: str
    begins: str = "0"


@dataclass(frozen=True, slots=True)
class AtTable:
    """The whole of the work at the cloth: how it is laid out, the folds across it, each piece, the count.

    `laying_out` holds from the first piece on; each of `across` is done when its piece is chalked.
    """

    title: str
    laying_out: tuple[str, ...]
    across: tuple[str, ...]
    layings: tuple[Laying, ...]
    count: str

    @property
    def folding(self) -> tuple[str, ...]:
        """Every step of laying out and folding, in its order."""
        return self.laying_out + self.across


@dataclass(frozen=True, slots=True)
class AcrossFold:
    """A fold across the cloth for one piece: `at` mm from the cut end; `end` is the end of the cloth turned over."""

    place: Place
    at: float
    end: Literal["cut end", "other end"]


def in_cutting_order(layout: Layout, pieces: Sequence[Piece]) -> tuple[Place, ...]:
    """The places from the cut end on, which is the order in which the pieces are cut."""
    by_name = {piece.name: piece for piece in pieces}
    return tuple(sorted(layout.places, key=lambda p: (round(_top(by_name[p.piece], p), 3), p.x)))


def across_folds(layout: Layout, pieces: Sequence[Piece]) -> tuple[AcrossFold, ...]:
    """The folds across the cloth in the order in which they are made, that of chalking; most ways have none.

    At the piece that lies farthest from the cut end the other end is turned over.
    """
    folded = [place for place in in_cutting_order(layout, pieces) if place.across_fold]
    last = len(folded) - 1
    folds = [AcrossFold(p, p.y, "other end" if 0 < k == last else "cut end") for k, p in enumerate(folded)]
    order = [piece.name for piece in pieces]
    return tuple(sorted(folds, key=lambda fold: order.index(fold.place.piece)))


def at_table(layout: Layout, pieces: Sequence[Piece], tape: Tape) -> AtTable:
    """Folding steps, the places of the pieces in cutting order (from the cut end on), and how many there are.

    Readings are in the finest steps of the tape, whatever the marks are chalked in.
    """
    tape = finest(tape)
    by_name = {piece.name: piece for piece in pieces}
    ordered = in_cutting_order(layout, pieces)
    layings = tuple(
        _laying(number, place, by_name[place.piece], layout, tape) for number, place in enumerate(ordered, start=1)
    )
    way = way_of(layout)
    laying_out, across = way.laying_out(layout, tape), _across_steps(layout, pieces, by_name, tape)
    if not any(piece.stretches for piece in pieces):
        laying_out = tuple(SQUARE_WOVEN if said == SQUARE else said for said in laying_out)
    if layout.turns:
        laying_out = (*laying_out, f"{way.turned_says} {ONLY_PLAIN}")
    return AtTable(way.name, laying_out, across, layings, _count(pieces))


def _top(piece: Piece, place: Place) -> float:
    """How far from the cut end a placed piece begins, mm."""
    turned = place.turned % 360
    if turned == 0:
        return place.y + piece.top
    if turned == 180:
        return place.y - piece.height
    left = place.opened and piece.on_fold
    if left:
        return place.y - piece.width
    down = (turned == 90) != place.mirrored
    return place.y if down else place.y - piece.width


def _laying(number: int, place: Place, piece: Piece, layout: Layout, tape: Tape) -> Laying:
    at = begins_at(piece, place)
    across, counted = way_of(layout).aside(replace(place, x=at.x, y=at.y), layout)
    reading, down = tape.reading(across), fold_reading(place.y, tape) if place.across_fold else tape.reading(at.y)
    begins = begun_at(piece, whole=place.whole)
    said = [CUT[how_it_lies(piece, place, layout)].format(piece=lower_first(piece.label)), TOP[place.turned % 360]]
    if place.whole and place.layers == 1 and piece.on_fold:
        said.append(HALF)
    where = BEGINS[bool(reading.steps), bool(down.steps)]
    said.append(where.format(
        unit=UNIT_NAMES[tape.unit], begins=begins, across=reading.pretty, counted=counted, down=down.pretty
    ))  # fmt: skip
    return Laying(number, place.piece, reading, down, counted, " ".join(said), begins)


def how_it_lies(piece: Piece, place: Place, layout: Layout) -> How:
    """In which way a placed piece lies on the cloth."""
    if place.across_fold:
        return "across"
    if piece.on_fold and not place.opened:
        return "fold"
    if place.layers == 2:
        return "whole_both" if piece.on_fold else "pair"
    if piece.on_fold:
        return "whole_one"
    if way_of(layout).doubled:
        return "upper"
    return "mirrored" if place.mirrored else "one"


def begun_at(piece: Piece, *, whole: bool) -> str:
    """What the place is called at which a piece is begun; `whole` where it lies whole."""
    if not piece.starts_off:
        return "0"
    return "top at its centre line" if whole else "top at its fold"


def _across_steps(layout: Layout, pieces: Sequence[Piece], by_name: dict[str, Piece], tape: Tape) -> tuple[str, ...]:
    """Each fold across the cloth in its turn."""
    steps: list[str] = []
    unit = UNIT_NAMES[tape.unit]
    made: AcrossFold | None = None
    for fold in across_folds(layout, pieces):
        if made is not None and fold.end == made.end and fold_reading(fold.at, tape) == fold_reading(made.at, tape):
            steps.append(f"On the same fold chalk and cut the {lower_first(by_name[fold.place.piece].label)}.")
            continue
        begin = "Fold" if made is None else "Open the cloth out and fold it again: fold"
        made = fold
        steps.append(
            f"{begin} the {fold.end} over, right sides together, with the fold straight across the cloth "
            f"{fold_reading(fold.at, tape).pretty} {unit} from the cut end; chalk and cut the "
            f"{lower_first(by_name[fold.place.piece].label)} on it."
        )
    if steps and any(place.layers == 1 for place in layout.places):
        steps.append("Open the cloth out for what is cut from one layer.")
    return tuple(steps)


def _count(pieces: Sequence[Piece]) -> str:
    laid = of_the_cloth(pieces)
    total = sum(piece.cut for piece in laid)
    each = ", ".join(counted(piece) for piece in laid)
    return f"{total} {'piece' if total == 1 else 'pieces'} in all: {each}."
