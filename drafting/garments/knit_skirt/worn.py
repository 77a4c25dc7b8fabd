"""How `knit_skirt` is seen on the person from the front: drawn in to the waist, and hanging from the hip.

The cloth goes round the body like the trunk itself (drafting.contract.front_view).
"""

import math
from typing import Final

from drafting.contract.front_view import TRUNK, Worn, trunk_half, waist_level
from drafting.garments.knit_skirt.parts import Parts
from drafting.geometry.point import Point
from drafting.geometry.segments import flatten
from drafting.parts.flounce_worn import hanging_folds, hanging_hem

#: How near the straight joins keep to the curves, mm: a tenth of a pixel on a small screen (our choice).
NEAR: Final = 0.3
#: Places of the side between waist and hip. Our choice: enough for a round line.
PLACES: Final = 8
#: What holds the skirt draws it in down to this share of the way to the hip. Our choice.
DRAWN_IN: Final = 0.6
#: The arms hang this far below level, radians, from a shoulder that slopes like this. Our choice: clear of the hip.
ARM: Final = math.radians(60)
SLOPE: Final = math.tan(math.radians(20))
#: Seen half width of the cloth round the body, as a share of its flat quarter (CALC).
ROUND_BODY: Final = 2 * TRUNK


def worn(parts: Parts) -> Worn:
    """The skirt as it is worn: its waist edge at the waist, and a waistband above it."""
    body, made = parts.body, parts.outline
    waist = waist_level(body)
    high = 0.0 if parts.band is None else parts.casing
    levels = [made.depth * step / PLACES for step in range(PLACES + 1)]
    side = [Point(_seen(parts, level), waist + level) for level in levels]
    below = flatten(made.side.between(made.depth, made.hem.corner.y), NEAR)[1:]
    side += [Point(ROUND_BODY * place.x, waist + place.y) for place in below]
    hem = [Point(ROUND_BODY * place.x, waist + place.y) for place in flatten(made.hem.edge, NEAR)][1:]
    lines = []
    if parts.hem_flounce is not None:
        seam = [side[-1], *hem]
        hem = hanging_hem(parts.hem_flounce, side[-1].x, hem[-1].y)
        lines = [tuple(Point(-place.x, place.y) for place in seam), tuple(seam)]
        lines += hanging_folds(parts.hem_flounce, side[-1].x, seam[-1].y)
    top = max(trunk_half(body, waist - high), side[0].x)
    above = [Point(0.0, waist - high), Point(top, waist - high)] if high > 0 else [Point(0.0, waist)]
    right = [*above, *side, *hem]
    outline = [*right, *(Point(-place.x, place.y) for place in reversed(right[1:-1]))]
    at = waist if high > 0 else waist + parts.casing
    reach = side[0].x if high > 0 else _seen(parts, parts.casing)
    half = body.shoulder_width / 2
    shoulder = Point(half, max(0.0, half - body.neck_base_girth / 5) * SLOPE)
    return Worn(tuple(outline), ((Point(-reach, at), Point(reach, at)), *lines), shoulder, ARM)


def _seen(parts: Parts, level: float) -> float:
    """Half the seen width between waist and hip: the body's at the waist, and lower down that of the cloth."""
    made = parts.outline
    within = trunk_half(parts.body, waist_level(parts.body) + level)
    wide = max(within, ROUND_BODY * made.side.x(level))
    share = min(1.0, level / (DRAWN_IN * made.depth))
    return within + (wide - within) * share * share * (3 - 2 * share)
