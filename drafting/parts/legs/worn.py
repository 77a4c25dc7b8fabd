"""How leggings and trousers are seen on the person from the front: round the trunk to the crotch, and round each leg.

The cloth goes round trunk and leg as they do themselves (drafting.contract.front_view).
"""

import math
from collections.abc import Callable
from typing import Final

from drafting.contract.front_view import ROUND, TRUNK, Worn, trunk_half, waist_level
from drafting.geometry.point import Point
from drafting.parts.legs.held import Held
from drafting.person.measures import Body

#: Places of the leg below the crotch, and between waist and hip. Our choice: enough for a round line.
PLACES: Final = 10
#: How near a leg comes to the middle at least, where thighs begin beside it, as shares of the stature, where the middle
#: of a leg stands as a share of the thigh, and how far out thighs reach as a share of the hip. As the figure has them.
BETWEEN: Final = 0.003
LEGS_PART: Final = 0.008
MIDDLE_AT: Final = 0.55
PRESSED: Final = 0.97
#: The arms hang this far below level, radians, from a shoulder that slopes like this. Our choice: clear of the hip.
ARM: Final = math.radians(60)
SLOPE: Final = math.tan(math.radians(20))


def legs_worn(body: Body, held: Held, hip: tuple[float, float], crotch: float, hem: float,
              round_leg: Callable[[float], float]) -> Worn:  # fmt: skip
    """The garment as it is worn: `hip` is the level of the hip and the girth of the cloth there.

    `crotch` and `hem` are levels below the waist, and `round_leg` gives the girth of one leg at a level below the
    crotch.
    """
    waist, (depth, girth) = waist_level(body), hip
    high = 0.0 if held.band is None else held.casing
    inside, middle = BETWEEN * body.stature, LEGS_PART * body.stature
    thigh = body.thigh_girth * ROUND
    # Thighs press on each other, and the cloth round them with them.
    pressed = min(1.0, (PRESSED * trunk_half(body, waist + depth) - middle) / thigh)
    centre = middle + MIDDLE_AT * pressed * thigh
    at_hip = max(girth * TRUNK / 2, trunk_half(body, waist + depth))

    def leg(level: float) -> tuple[float, float]:
        """Inner and outer side of a leg at a level."""
        half = pressed * round_leg(level) * ROUND / 2
        inner = max(inside, centre - half)
        return inner, inner + 2 * half

    def outer(level: float) -> float:
        if level <= depth:
            share = max(0.0, level) / depth
            share = share * share * (3 - 2 * share)
            within = trunk_half(body, waist + level)
            return within + max(0.0, at_hip - trunk_half(body, waist + depth)) * share
        if level <= crotch:
            return at_hip + (leg(crotch)[1] - at_hip) * (level - depth) / (crotch - depth)
        return leg(level)[1]

    upper = [crotch * step / PLACES for step in range(PLACES + 1)]
    lower = [crotch + (hem - crotch) * step / PLACES for step in range(1, PLACES + 1)]
    right = [Point(0.0, waist - high)]
    if high > 0:
        right.append(Point(max(trunk_half(body, waist - high), outer(0.0)), waist - high))
    right += [Point(outer(level), waist + level) for level in (*upper, *lower)]
    right += [Point(leg(level)[0], waist + level) for level in (*reversed(lower), crotch + 0.02 * (hem - crotch))]
    right.append(Point(0.0, waist + crotch))
    left = [Point(-place.x, place.y) for place in reversed(right[1:-1])]
    seam = 0.0 if high > 0 else held.casing
    reach = outer(seam)
    half = body.shoulder_width / 2
    shoulder = Point(half, max(0.0, half - body.neck_base_girth / 5) * SLOPE)
    line = (Point(-reach, waist + seam), Point(reach, waist + seam))
    return Worn((*right, *left), (line,), shoulder, ARM)
