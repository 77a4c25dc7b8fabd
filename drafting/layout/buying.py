"""How much cloth to buy: the length for one width, every common width side by side, and what it costs."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from drafting.cloth import ClothFacts, before_shrinking
from drafting.contract.pieces import Piece
from drafting.layout.choice import search
from drafting.layout.cost import SOLD_BY, SQUARING, steps_bought, wash_share
from drafting.layout.places import Layout
from drafting.stepwise import Steps, finished
from drafting.units import CM, INCH, Unit, say_length

#: Cloth widths sold, mm: 90, 115, 140, 150, 160, 180 cm and 36, 45, 54, 58, 60, 63, 70 in. Common practice, no source.
WIDTHS: dict[Unit, tuple[float, ...]] = {
    "cm": (900.0, 1150.0, 1400.0, 1500.0, 1600.0, 1800.0),
    "in": tuple(inches * INCH for inches in (36, 45, 54, 58, 60, 63, 70)),
}
#: Widths of cloth that differ by less, mm, are one width. Our choice: half an eighth of an inch, which is said alike.
ALIKE = INCH / 16
PRICED_BY: dict[Unit, float] = {"cm": 1000.0, "in": 36 * INCH}


@dataclass(frozen=True, slots=True)
class Purchase:
    """What to buy of one width, mm. `buy` is `laid` + `squaring` + `wash`, rounded up as shops sell.

    `layout` is None, and all lengths 0, where the pieces do not go on cloth of this width. `cost` is in the currency of
    the price, None without one.
    """

    width: float
    layout: Layout | None
    laid: float = 0.0
    squaring: float = 0.0
    wash: float = 0.0
    buy: float = 0.0
    cost: float | None = None


def length_to_buy(
    layout: Layout, cloth: ClothFacts, unit: Unit, *, price: float | None = None, wash: float | None = None
) -> Purchase:
    """The length to ask for in the shop for one layout.

    `price` is for a metre, or a yard where inches are used. `wash` is the share that the first wash takes before
    cutting; left out it is 0 where the pieces hold the shrinkage, what was stated where the cloth has to be washed
    first, else WASH.
    """
    lost = wash_share(cloth) if wash is None else wash
    dry = layout.length + SQUARING
    total = before_shrinking(dry, lost)
    buy = steps_bought(layout.length, cloth, unit, lost) * SOLD_BY[unit]
    cost = None if price is None else price * buy / PRICED_BY[unit]
    return Purchase(layout.cloth_width, layout, layout.length, SQUARING, total - dry, buy, cost)


def say_bought(length: float, unit: Unit) -> str:
    """A length as shops say it: 2.7 m, or 2⅞ yd; `length` in mm, a whole number of what cloth is sold by."""
    steps = round(length / SOLD_BY[unit])
    if unit == "cm":
        return f"{steps / 10:.1f} m"
    whole, eighths = divmod(steps, 8)
    part = ("", "⅛", "¼", "⅜", "½", "⅝", "¾", "⅞")[eighths]
    return f"{whole or ''}{part} yd" if steps else "0 yd"


def whole_length(length: float, unit: Unit) -> float:
    """A length of cloth rounded up to a whole centimetre or inch, mm, so that it is never too short."""
    step = CM if unit == "cm" else INCH
    return math.ceil(length / step - 1e-6) * step


def say_laid(length: float, unit: Unit) -> str:
    """The length of cloth that laid pieces take: said alike in drawing, sheet, app and on the command line."""
    return say_length(whole_length(length, unit), unit)


def widths_side_by_side(
    pieces: Sequence[Piece], cloth: ClothFacts, unit: Unit, *, price: float | None = None, wash: float | None = None
) -> tuple[Purchase, ...]:
    """The purchase for the width in hand and for every common width, narrowest first."""
    return finished(comparing_widths(pieces, cloth, unit, price=price, wash=wash))


def comparing_widths(
    pieces: Sequence[Piece], cloth: ClothFacts, unit: Unit, *, price: float | None = None, wash: float | None = None
) -> Steps[tuple[Purchase, ...]]:
    """As `widths_side_by_side`, a step at a time."""
    found = []
    for width in _widths(cloth.width, unit):
        best = yield from search(pieces, replace(cloth, width=width, length=None), only="cheapest")
        found.append(length_to_buy(best[0], cloth, unit, price=price, wash=wash) if best else Purchase(width, None))
    return tuple(found)


def _widths(own: float, unit: Unit) -> list[float]:
    """The widths sold and the width in hand, narrowest first; one that is sold is not told twice."""
    sold = [width for width in WIDTHS[unit] if abs(width - own) >= ALIKE]
    return sorted((*sold, own))
