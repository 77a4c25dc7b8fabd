"""A piece of cloth in hand: does the garment go on it, and if not, which of its pieces do."""

import itertools
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from drafting.cloth import WIDTH_LIMIT, ClothFacts
from drafting.contract.pieces import Piece, of_the_cloth
from drafting.geometry.point import Point
from drafting.geometry.solve import most_whole
from drafting.layout.buying import whole_length
from drafting.layout.choice import fits_across, search, shortest
from drafting.layout.cost import ranked
from drafting.layout.places import Layout
from drafting.layout.shapes import Outline, cloth_area
from drafting.layout.ways import EVERY_WAY
from drafting.problems import Problem
from drafting.stepwise import Steps, finished
from drafting.units import LengthProblem, Unit, read_length

#: What is missing from an L is closed off this far beyond its end, mm: farther than any cloth reaches.
_FAR = 1e5


@dataclass(frozen=True, slots=True)
class Remnant:
    """A piece of cloth in hand, mm: one rectangle, or two that make an L.

    `further_width` and `further_length` are the second rectangle of an L. It lies below the first, against the same
    left edge. Both are 0 where there is none.
    """

    width: float
    length: float
    further_width: float = 0.0
    further_length: float = 0.0


def read_remnant(typed: Mapping[str, str], unit: Unit) -> tuple[Remnant | None, tuple[Problem, ...]]:
    """Reads a piece of cloth as typed, by the names of Remnant; a text without a unit is in `unit`.

    None while its width or length is missing or any text cannot be read; the field of each problem is the name.
    A step with only one of its two sizes is left out.
    """
    sizes: dict[str, float] = {}
    problems: list[Problem] = []
    for name, text in typed.items():
        if not text.strip():
            continue
        read = read_length(text, unit)
        if isinstance(read, LengthProblem):
            problems.append(Problem("length_unreadable", name, "refuse", read.wrong, read.fix))
        elif read <= 0:
            wrong, fix = "a piece of cloth is larger than that", "measure it again, or leave it empty"
            problems.append(Problem("remnant_outside", name, "refuse", wrong, fix, (("value", read),)))
        else:
            sizes[name] = read
    if problems or "width" not in sizes or "length" not in sizes:
        return None, tuple(problems)
    if "further_width" not in sizes or "further_length" not in sizes:
        sizes = {name: sizes[name] for name in ("width", "length")}
    return Remnant(**sizes), ()


@dataclass(frozen=True, slots=True)
class WouldDo:
    """A straight piece of cloth on which the whole garment was laid, mm, in whole centimetres or inches.

    Where the one in hand is too `narrow`, however long it were, this is the narrowest that is wide enough; else it is
    as wide, and `short` says by how much a straight one in hand is too short.
    """

    width: float
    length: float
    narrow: bool = False
    short: float = 0.0


@dataclass(frozen=True, slots=True)
class Answer:
    """Whether a garment goes on a piece of cloth: all of it, none of it, or the pieces named in `fits`.

    `would_do` is a piece on which all of it goes, where the one in hand takes only a part or nothing.
    """

    answer: Literal["yes", "no", "part"]
    layout: Layout | None
    fits: tuple[str, ...]
    left_out: tuple[str, ...]
    would_do: WouldDo | None = None


def goes_on(pieces: Sequence[Piece], cloth: ClothFacts, remnant: Remnant) -> Answer:
    """Tries all pieces on a remnant in every way, then every selection of them, the most cloth first."""
    return finished(trying_on(pieces, cloth, remnant))


def trying_on(pieces: Sequence[Piece], cloth: ClothFacts, remnant: Remnant) -> Steps[Answer]:
    """As `goes_on`, a step at a time."""
    pieces = of_the_cloth(pieces)
    names = tuple(piece.name for piece in pieces)
    layout = yield from _best(pieces, cloth, remnant)
    if layout is not None:
        return Answer("yes", layout, names, ())
    would_do = yield from _would_do(pieces, cloth, remnant)
    chosen = [s for size in range(1, len(pieces)) for s in itertools.combinations(pieces, size)]
    for some in sorted(chosen, key=lambda s: -sum(cloth_area(piece) for piece in s)):
        layout = yield from _best(some, cloth, remnant)
        if layout is not None:
            fits = tuple(piece.name for piece in some)
            return Answer("part", layout, fits, tuple(name for name in names if name not in fits), would_do)
    return Answer("no", None, (), names, would_do)


def _would_do(pieces: Sequence[Piece], cloth: ClothFacts, remnant: Remnant) -> Steps[WouldDo | None]:
    """As long as is needed at the width in hand; where that is too narrow, the narrowest that will do and its length.

    None where no piece of cloth will do, as where the way of laying that was chosen asks for another cloth.
    """
    unit, in_hand = cloth.sold_in, max(remnant.width, remnant.further_width)
    width = in_hand
    narrow = not fits_across(pieces, replace(cloth, width=width))
    if narrow:
        step = whole_length(1.0, unit)
        too_narrow, enough = int(width // step), int(WIDTH_LIMIT[1] // step)
        if too_narrow >= enough or not fits_across(pieces, replace(cloth, width=enough * step)):
            return None
        widest = most_whole(
            lambda steps: not fits_across(pieces, replace(cloth, width=steps * step)), too_narrow, enough - 1
        )
        width = (widest + 1) * step
    laid = yield from shortest(pieces, replace(cloth, width=width))
    if laid is None:
        return None
    length = whole_length(laid.length, unit)
    straight = not narrow and remnant.further_length == 0
    return WouldDo(width, length, narrow, length - remnant.length if straight else 0.0)


def _best(pieces: Sequence[Piece], cloth: ClothFacts, remnant: Remnant) -> Steps[Layout | None]:
    found: list[Layout] = []
    for width, length in _rectangles(remnant):
        found.extend((yield from search(pieces, replace(cloth, width=width, length=length), only="cheapest")))
    flat = [way.key for way in EVERY_WAY if way.flat and cloth.lay in {"auto", way.key}]
    if remnant.further_length > 0 and flat:
        wide = max(remnant.width, remnant.further_width)
        whole = replace(cloth, width=wide, length=remnant.length + remnant.further_length)
        found.extend((yield from search(pieces, whole, flat, (_step(remnant),), only="cheapest")))
    return ranked(found, cloth)[0] if found else None


def _rectangles(remnant: Remnant) -> list[tuple[float, float]]:
    """The rectangles in a remnant that no larger one in it holds."""
    found = [(remnant.width, remnant.length)]
    if remnant.further_length > 0 and remnant.further_width > 0:
        found.append((remnant.further_width, remnant.further_length))
        found.append((min(remnant.width, remnant.further_width), remnant.length + remnant.further_length))
    return [r for r in found if not any(o != r and o[0] >= r[0] and o[1] >= r[1] for o in found)]


def _step(remnant: Remnant) -> Outline:
    """What is missing from the rectangle round an L."""
    narrow, wide = sorted((remnant.width, remnant.further_width))
    top, low = (remnant.length, _FAR) if remnant.width > remnant.further_width else (-_FAR, remnant.length)
    return (Point(narrow, top), Point(wide + 1.0, top), Point(wide + 1.0, low), Point(narrow, low))
