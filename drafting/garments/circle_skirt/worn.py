"""How `circle_skirt` is seen on the person from the front.

Of a ring of cloth that is wider than the body the rest falls in folds before and behind it, so the skirt is seen
narrower than it lies flat: our choice, because a full circle stands out by about as much at the knee.
"""

import math
from typing import Final

from drafting.contract.front_view import TRUNK, Worn, trunk_half, waist_level
from drafting.garments.circle_skirt.lay_out import Parts
from drafting.geometry.point import Point

#: What of the radius that the ring has over the body is seen at either side. Our choice, see above.
STANDS_OUT: Final = 0.5
#: How far the hem is seen lower in front than at the sides, as a share of its half width. Our choice: the hem is level,
#: and seen from a little above.
HEM_BOWS: Final = 0.06
#: Levels at which the side is looked at, and places of the hem on either half. Our choice.
LEVELS: Final = 12
#: Folds that are drawn on either half, by the share of a circle. Our choice.
FOLDS: Final = {0.25: 0, 0.5: 1, 0.75: 2, 1.0: 3}
#: The arms hang this far below level, radians, from a shoulder that slopes like this. Our choice: clear of the hip.
ARM: Final = math.radians(60)
SLOPE: Final = math.tan(math.radians(20))


def worn(parts: Parts) -> Worn:
    """The skirt as it is worn, its waist seam at the waist and its band above."""
    body, ring, band = parts.body, parts.ring, parts.waistband.band
    waist = waist_level(body)
    top = waist - band.height
    hem = waist + ring.length
    right = [Point(0.0, top), Point(max(trunk_half(body, top), _half(parts, 0.0)), top)]
    right += [Point(_half(parts, k / LEVELS), waist + ring.length * k / LEVELS) for k in range(LEVELS + 1)]
    wide = right[-1].x
    for k in range(1, LEVELS + 1):
        share = 1 - k / LEVELS
        right.append(Point(wide * share, hem + HEM_BOWS * wide * (1 - share * share)))
    outline = [*right, *(Point(-place.x, place.y) for place in reversed(right[1:-1]))]
    seam = _half(parts, 0.0)
    lines = [(Point(-seam, waist), Point(seam, waist))]
    folds = FOLDS[ring.circle]
    for k in range(1, folds + 1):
        share = k / (folds + 1)
        ends = Point(seam * share, waist + 0.25 * ring.length), Point(wide * share, hem - 0.02 * ring.length)
        lines += [ends, (Point(-ends[0].x, ends[0].y), Point(-ends[1].x, ends[1].y))]
    half = body.shoulder_width / 2
    shoulder = Point(half, max(0.0, half - body.neck_base_girth / 5) * SLOPE)
    return Worn(tuple(outline), tuple(lines), shoulder, ARM)


def _half(parts: Parts, share: float) -> float:
    """Half the seen width at a share of the length from the waist seam down, mm."""
    body, down = parts.body, share * parts.ring.length
    level = waist_level(body) + min(down, body.waist_to_hip)
    within = trunk_half(body, level)
    over = max(0.0, parts.ring.at(down) / (2 * math.pi) - within / (math.pi * TRUNK))
    if share == 0.0 and over > 0:
        over = 0.0  # the band draws the waist in
    return within + STANDS_OUT * over
