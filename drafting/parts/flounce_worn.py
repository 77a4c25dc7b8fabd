"""How a flounce is seen on the person from the front. All of it is our choice.

Of what it is fuller than its edge a part hangs out at either side; the rest lies in folds before and behind.
"""

from typing import Final

from drafting.contract.front_view import TRUNK
from drafting.geometry.point import Point
from drafting.parts.flounce import Flounce

#: What of its fullness is seen to hang out; at a hem it bows by this share of its half width, with so many folds on
#: either half, between these shares of its depth.
HANGS_OUT: Final = 0.3
BOWS: Final = 0.05
FOLDS: Final = 2
FOLD_REACH: Final = (0.15, 0.94)
#: Places of the hem on either half, as shares of its half width.
PLACES: Final = (1.0, 0.75, 0.5, 0.25, 0.0)


def half_of_hem(flounce: Flounce, seam: float) -> float:
    """Half the seen width of its hem, below an edge whose half is seen so wide (`seam`), mm."""
    return seam + HANGS_OUT * (flounce.sweep - flounce.seam) * TRUNK / 2


def hanging_hem(flounce: Flounce, seam: float, level: float) -> list[Point]:
    """Its hem from the side to the centre front, below an edge so wide on either half, at this level in front, mm."""
    half, low = half_of_hem(flounce, seam), level + flounce.depth
    return [Point(half * share, low - BOWS * half * share * share) for share in PLACES]


def hanging_folds(flounce: Flounce, seam: float, level: float) -> list[tuple[Point, ...]]:
    """Its folds on both halves."""
    found: list[tuple[Point, ...]] = []
    half, (begins, ends) = half_of_hem(flounce, seam), FOLD_REACH
    for number in range(1, FOLDS + 1):
        share = number / (FOLDS + 1)
        top = Point(seam * share, level + begins * flounce.depth)
        foot = Point(half * share, level + ends * flounce.depth)
        found += [(top, foot), (Point(-top.x, top.y), Point(-foot.x, foot.y))]
    return found


def sleeve_half(flounce: Flounce) -> float:
    """Half the girth with which its hem is seen to hang from the arm, mm."""
    return flounce.ring / 2 + HANGS_OUT * (flounce.sweep - flounce.seam) / 2
