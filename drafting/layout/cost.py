"""What a way of laying costs: the cloth that is bought for it, and the work of hands.

The shortest way is not the best at a table: a hand that folds once and chalks two outlines makes fewer slips than one
that chalks eight, left and right, on a single layer.
"""

import math
from collections.abc import Iterable

from drafting.cloth import ClothFacts, before_shrinking
from drafting.layout.places import Layout
from drafting.layout.ways import WAYS
from drafting.units import INCH, Unit

#: Cut off to square both ends, mm. Our choice: shops cut by hand, and a knit's end is seldom square to its ribs.
SQUARING = 30.0
#: Planned for the first wash when nothing is known of the cloth. Common practice, no source.
WASH = 0.05
#: Cloth is sold by the tenth of a metre or the eighth of a yard. Common practice, no source.
SOLD_BY: dict[Unit, float] = {"cm": 100.0, "in": 36 * INCH / 8}
#: What one outline to chalk or one folding weighs, in the steps that cloth is sold by: 10 cm or ⅛ yd. Our choice.
HAND = 1


def wash_share(cloth: ClothFacts) -> float:
    """The share that the first wash takes before cutting.

    0 where the pieces hold the shrinkage, what was stated where the cloth has to be washed first, else WASH.
    """
    if cloth.holds_shrinkage:
        return 0.0
    return cloth.first_wash if cloth.first_wash is not None else WASH


def steps_bought(length: float, cloth: ClothFacts, unit: Unit, wash: float | None = None) -> int:
    """How many tenths of a metre, or eighths of a yard, are bought for a laid length of mm."""
    total = before_shrinking(length + SQUARING, wash_share(cloth) if wash is None else wash)
    return math.ceil(total / SOLD_BY[unit] - 1e-9)


def longest_for(steps: int, cloth: ClothFacts) -> float:
    """The longest laid length, mm, for which no more than so many steps are bought; below 0 where there is none."""
    return steps * SOLD_BY[cloth.sold_in] * (1 - wash_share(cloth)) - SQUARING


def hands(layout: Layout) -> int:
    """Outlines to chalk and foldings to make, together."""
    return layout.chalked + layout.foldings


def cost(layout: Layout, cloth: ClothFacts) -> int:
    """The cloth bought and the work of hands, in the steps that cloth is sold by."""
    return steps_bought(layout.length, cloth, cloth.sold_in) + HAND * hands(layout)


def rank(layout: Layout, cloth: ClothFacts) -> tuple[int, int, int, int]:
    """What is compared to take a way: its cost; of alike the least work, then the shortest (a millimetre is alike)."""
    return cost(layout, cloth), hands(layout), round(layout.length), WAYS.index(layout.way)


def ranked(layouts: Iterable[Layout], cloth: ClothFacts) -> tuple[Layout, ...]:
    """The cheapest first, which is the way taken, then the others by their length. Every tie is settled."""
    by_length = sorted(layouts, key=lambda one: (round(one.length), rank(one, cloth)))
    if not by_length:
        return ()
    taken = min(by_length, key=lambda one: rank(one, cloth))
    return taken, *(one for one in by_length if one is not taken)
