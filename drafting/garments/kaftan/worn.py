"""How `kaftan` is seen on the person from the front: the sleeve hangs on the arm, the body falls straight."""

import math
from collections.abc import Sequence
from itertools import pairwise
from typing import Final

from drafting.contract.front_view import ROUND, TRUNK, Worn, trunk_half
from drafting.garments.kaftan.outline import Parts
from drafting.geometry.path import Path
from drafting.geometry.point import Point, direction
from drafting.geometry.segments import flatten
from drafting.parts.arm import arm_girth

#: How near the straight joins keep to the curves, mm: a tenth of a pixel on a small screen (our choice).
NEAR: Final = 0.3
#: How far the arm hangs below level, radians. Our choice: the sleeve and the underarm are seen best so.
ARM: Final = math.radians(40)
#: Seen half width of the trunk as a share of its flat quarter (CALC).
BODY: Final = 2 * TRUNK
#: The slit is seen so wide at the neck edge, as a share of its length (our choice).
GAPES: Final = 0.12


def worn(parts: Parts) -> Worn:
    """The front as it is worn."""
    shoulder = Point(parts.sleeve.start.x, parts.sleeve.start.y)
    neck = parts.neck.front.flatten(NEAR)
    side = flatten(parts.side.between(parts.side_from, parts.hem.corner.y), NEAR)
    right = [*neck, shoulder, *_sleeve(parts, shoulder), *(_round(parts, place) for place in side), *_hem(parts)]
    outline = [*right, *(Point(-place.x, place.y) for place in reversed(right))]
    apart = [place for before, place in pairwise((outline[-1], *outline)) if before.distance(place) > 1e-6]
    return Worn(tuple(apart), _lines(parts, shoulder), shoulder, ARM)


def _hanging(parts: Parts, shoulder: Point, place: Point) -> Point:
    """Where a place of the under line is seen: a ring lies on the arm, and what it is wider hangs below as a fold."""
    far, half = max(0.0, parts.sleeve.far(place)), parts.sleeve.depth(place)
    girth = arm_girth(parts.body, min(far / parts.body.arm_length, 1.0))
    along = direction(ARM)
    return shoulder + along * far - along.left() * (girth * ROUND + max(0.0, half - girth / 2))


def _round(parts: Parts, place: Point) -> Point:
    """Where a place of the side is seen: the cloth goes round the body, and is as wide as the body at least."""
    at = parts.at
    level = min(place.y, at.hip)
    least = trunk_half(parts.body, level) if at.bust <= place.y <= at.hip else 0.0
    return Point(max(place.x * BODY, least), place.y)


def _shares(places: Sequence[Point]) -> list[float]:
    """How far along a run each of its places lies, from 0 at the first to 1 at the last, eased at both ends."""
    along = [0.0]
    for before, place in pairwise(places):
        along.append(along[-1] + before.distance(place))
    return [(share := each / along[-1]) * share * (3 - 2 * share) for each in along]


def _sleeve(parts: Parts, shoulder: Point) -> list[Point]:
    """The sleeve's end, its under line, and the underarm, which goes over into the side evenly."""
    sleeve = parts.sleeve
    end = shoulder + direction(ARM) * sleeve.length
    under = parts.under(sleeve.length)
    curve = [under.between(parts.underarm.curve[0].start, share / 4) for share in range(3)]
    turning = [under.between(parts.underarm.curve[0].start, 0.75), *flatten(parts.underarm.curve, NEAR)]
    found = [end, *(_hanging(parts, shoulder, place) for place in curve)]
    for place, share in zip(turning, _shares(turning), strict=True):
        found.append(_hanging(parts, shoulder, place).between(_round(parts, place), share))
    return found


def _hem(parts: Parts) -> list[Point]:
    edge = Path(parts.hem.edge).flatten(NEAR)
    narrower = _round(parts, edge[0]).x / edge[0].x
    return [Point(place.x * narrower, place.y) for place in edge[1:]]


def _lines(parts: Parts, shoulder: Point) -> tuple[tuple[Point, ...], ...]:
    """The lines inside: the slit, which gapes a little, and the joints of the sleeves."""
    top, end = parts.neck.front.start, Point(0.0, parts.opened.end)
    wide = GAPES * parts.opened.slit / 2
    found: list[tuple[Point, ...]] = [(Point(-wide, top.y), end, Point(wide, top.y))]
    if parts.joint is not None:
        joint = (
            shoulder + direction(ARM) * parts.joint,
            _hanging(parts, shoulder, parts.under(parts.joint)),
        )
        found += [joint, tuple(Point(-place.x, place.y) for place in joint)]
    found += parts.pockets.seen(BODY)
    return tuple(found)
