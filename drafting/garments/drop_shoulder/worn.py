"""How `drop_shoulder` is seen on the person from the front: its finished front and its sleeve, which hangs on the arm.

The shoulder lies on the body as far as the shoulder point; what reaches past it hangs with the sleeve. The trunk is
seen as an ellipse of its girth, the sleeve as a tube on the arm (drafting.contract.front_view).
"""

import math
from itertools import pairwise
from typing import Final

from drafting.contract.front_view import ROUND, TRUNK, Worn, trunk_half
from drafting.garments.drop_shoulder.lay_out import hem_edge
from drafting.garments.drop_shoulder.parts import Parts
from drafting.geometry.path import Path
from drafting.geometry.point import Point, direction
from drafting.geometry.segments import flatten
from drafting.parts.arm import arm_girth
from drafting.parts.band import Band
from drafting.parts.neck import inner_edge

#: How near the straight joins keep to the curves, mm: a tenth of a pixel on a small screen (our choice).
NEAR: Final = 0.3
#: How far the arm hangs below level, radians. Our choice: the sleeve and the underarm are seen best so.
ARM: Final = math.radians(48)
#: How much of a roll collar is seen to stand, turned over and leaning, as a share of its height (our choice).
ROLL_STANDS: Final = 0.4
#: Seen half width of the trunk as a share of its flat quarter (CALC).
BODY: Final = 2 * TRUNK


def worn(parts: Parts) -> Worn:
    """The front as it is worn."""
    point = _shoulder_point(parts)
    side = [_round_body(parts, place) for place in _side(parts)]
    under = _under(parts, point)
    side = [place for place in side if place.y > under[-1].y]
    right = [*_neck(parts), point, *_end(parts, point), *under, *side, *_hem(parts)]
    outline = [*right, *(Point(-place.x, place.y) for place in reversed(right))]
    apart = [place for before, place in pairwise((outline[-1], *outline)) if before.distance(place) > 1e-6]
    return Worn(tuple(apart), _lines(parts, point, under[-1]), point, ARM)


def _shoulder_point(parts: Parts) -> Point:
    half = parts.body.shoulder_width / 2
    return Point(half, (half - parts.base.side_neck) * math.tan(parts.choices.slope))


def _neck(parts: Parts) -> list[Point]:
    """The edge from the centre front to the shoulder, with its band; a roll collar stands up round the neck."""
    edge, band = parts.neck.front.flatten(NEAR), parts.bands.neck
    if band is None:
        return edge
    if parts.choices.finish == "roll":
        half, top = band.length * ROUND / 2, parts.neck.end.y - ROLL_STANDS * band.height
        return [Point(0.0, top), Point(half, top), parts.neck.end]
    inside = inner_edge(edge, band.height)
    return [*inside, parts.neck.end]


def _cuff(parts: Parts) -> float:
    return parts.choices.cuff or 0.0


def _hanging(parts: Parts, point: Point, place: Point) -> Point:
    """Where a place of the under seam is seen: a ring lies on the arm, and what it is wider hangs below as a fold."""
    along, far = direction(ARM), parts.over.extension + place.y
    girth = arm_girth(parts.body, min(far / parts.body.arm_length, 1.0))
    seen = girth * ROUND + max(0.0, place.x - girth / 2)
    return point + along * far - along.left() * seen


def _end(parts: Parts, point: Point) -> list[Point]:
    """The end of the sleeve, top and underside, with its cuff."""
    length = parts.sleeve.length
    if parts.bands.cuff is None:
        return [point + direction(ARM) * (parts.over.extension + length)]
    far = length + _cuff(parts)
    half = parts.sleeve.cuff / 2
    return [
        point + direction(ARM) * (parts.over.extension + far),
        _hanging(parts, point, Point(half, far)),
        _hanging(parts, point, Point(half, length)),
    ]


def _under(parts: Parts, point: Point) -> list[Point]:
    """The under seam from the sleeve's end up to where the side begins; it goes over into the side evenly."""
    run = flatten((parts.sleeve.under.reversed(),), NEAR)
    target = _round_body(parts, parts.armhole.underarm)
    whole = len(run) - 1
    found = []
    for number, place in enumerate(run):
        share = number / whole
        turning = max(0.0, (share - 0.6) / 0.4)
        turning = turning * turning * (3 - 2 * turning)
        found.append(_hanging(parts, point, place).between(target, turning))
    return found


def _side(parts: Parts) -> list[Point]:
    return flatten(parts.side.between(parts.armhole.underarm.y, parts.hem.corner.y), NEAR)


def _round_body(parts: Parts, place: Point) -> Point:
    """Where a place of the side is seen: the cloth goes round the body, and is as wide as the body at least."""
    at = parts.at
    level = min(place.y, at.hip)
    least = trunk_half(parts.body, level) if at.bust <= place.y <= at.hip else 0.0
    return Point(max(place.x * BODY, least), place.y)


def _hem(parts: Parts) -> list[Point]:
    """The hem from the side to the centre front, and its band below it, which draws it in."""
    edge = Path(hem_edge(parts, front=True)).flatten(NEAR)
    corner = _round_body(parts, edge[0])
    narrower = corner.x / max(edge[0].x, 1e-9)
    found = [Point(place.x * narrower, place.y) for place in edge]
    band = parts.bands.hem
    if band is None:
        return found
    half = corner.x * band.ratio
    return [found[0], Point(half, found[0].y + 0.3 * band.height), Point(half, edge[-1].y + band.height),
            Point(0.0, edge[-1].y + band.height)]  # fmt: skip


def _lines(parts: Parts, point: Point, underarm: Point) -> tuple[tuple[Point, ...], ...]:
    """The lines inside: the seams of neck band, sleeves, cuffs and hem band."""
    along = direction(ARM)
    begin = point + along * parts.over.extension
    middle = begin.between(underarm, 0.5) + (underarm - begin).unit().left() * -parts.armhole.bow
    armhole = (begin, middle, underarm)
    found: list[tuple[Point, ...]] = [armhole]
    if parts.bands.cuff is not None:
        far, half = parts.sleeve.length, parts.sleeve.cuff / 2
        found.append((point + along * (parts.over.extension + far), _hanging(parts, point, Point(half, far))))
    both = [line for one in found for line in (one, tuple(Point(-place.x, place.y) for place in one))]
    both += [_neck_line(parts)] if parts.bands.neck is not None else []
    both += [_hem_line(parts, parts.bands.hem)] if parts.bands.hem is not None else []
    return tuple(both)


def _neck_line(parts: Parts) -> tuple[Point, ...]:
    """The seam of the neck band, or the edge of a roll collar that is turned over."""
    if parts.choices.finish == "roll":
        band = parts.bands.neck
        assert band is not None
        half, low = band.length * ROUND / 2, parts.neck.end.y
        return (Point(-half, low), Point(0.0, low + 0.1 * band.height), Point(half, low))
    edge = parts.neck.front.flatten(NEAR)
    return (*(Point(-place.x, place.y) for place in reversed(edge)), *edge[1:])


def _hem_line(parts: Parts, band: Band) -> tuple[Point, ...]:
    corner = _round_body(parts, parts.hem.corner)
    return (Point(-corner.x, corner.y), Point(0.0, parts.at.hem), corner)
