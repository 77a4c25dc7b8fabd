"""How a top is seen on the person from the front: its finished front and its sleeve, which hangs on the arm.

The shoulder lies on the body as far as the shoulder point; what reaches past it hangs with the sleeve. The trunk is
seen as an ellipse of its girth, the sleeve as a tube on the arm (drafting.contract.front_view).
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from drafting.contract.front_view import ROUND, TRUNK, Worn, trunk_half
from drafting.geometry.path import Path
from drafting.geometry.point import Point, direction
from drafting.geometry.segments import Segment, flatten
from drafting.parts.arm import arm_girth
from drafting.parts.band import Band
from drafting.parts.flounce_worn import hanging_folds, hanging_hem, sleeve_half
from drafting.parts.neck import inner_edge
from drafting.parts.pouch import Pouch
from drafting.parts.top import TopParts

#: How near the straight joins keep to the curves, mm: a tenth of a pixel on a small screen (our choice).
NEAR: Final = 0.3
#: How far the arm hangs below level, radians. Our choice: the sleeve and the underarm are seen best so.
ARM: Final = math.radians(48)
#: How much of a roll collar is seen to stand, turned over and leaning, as a share of its height (our choice).
ROLL_STANDS: Final = 0.4
#: Where a hood that lies on the back is seen beside the neck: across as shares of the neck's half width, up as shares
#: of it too (our choice).
HOOD_AT: Final = ((0.72, 0.1), (0.86, 0.42), (1.12, 0.5), (1.4, 0.3), (1.5, -0.05))
#: Seen half width of the trunk as a share of its flat quarter (CALC).
BODY: Final = 2 * TRUNK


@dataclass(frozen=True, slots=True)
class Hanging:
    """What of a top hangs on the arm: how far the shoulder reaches past the shoulder point, and the sleeve from there.

    `under` is the under seam from the sleeve's end up to the underarm: across from the middle of the sleeve, down from
    the top of its cap. `bow` is how far the armhole scoops, `cuff` the girth of the cuff, mm.
    """

    extension: float
    length: float
    under: tuple[Point, ...]
    bow: float
    cuff: float


def worn(parts: TopParts, arm: Hanging, underarm: Point, hem_edge: Sequence[Segment]) -> Worn:
    """The front as it is worn; the hem runs from the side to the fold."""
    return _Seen(parts, arm, underarm, tuple(hem_edge)).worn()


@dataclass(frozen=True, slots=True)
class _Seen:
    """A top and what of it hangs on the arm."""

    parts: TopParts
    arm: Hanging
    underarm: Point
    hem_edge: tuple[Segment, ...]

    def worn(self) -> Worn:
        parts = self.parts
        point = _shoulder_point(parts)
        side = [_round_body(parts, place) for place in _side(self)]
        under = _under(self, point)
        side = [place for place in side if place.y > under[-1].y]
        right = [*_neck(parts), point, *_end(self, point), *under, *side, *_hem(self)]
        outline = [*right, *(Point(-place.x, place.y) for place in reversed(right))]
        apart = [place for before, place in pairwise((outline[-1], *outline)) if before.distance(place) > 1e-6]
        return Worn(tuple(apart), _lines(self, point, under[-1]), point, ARM)


def _shoulder_point(parts: TopParts) -> Point:
    half = parts.body.shoulder_width / 2
    return Point(half, (half - parts.base.side_neck) * math.tan(parts.choices.slope))


def _neck(parts: TopParts) -> list[Point]:
    """The edge from the centre front to the shoulder, with its band; a roll collar stands up round the neck."""
    edge, band = parts.neck.front.flatten(NEAR), parts.bands.neck
    if parts.hood is not None:
        return [*edge[: len(edge) // 2 + 1], *hood_lying(parts.neck.end)]
    if band is None:
        return edge
    if parts.choices.finish == "roll":
        half, top = band.length * ROUND / 2, parts.neck.end.y - ROLL_STANDS * band.height
        return [Point(0.0, top), Point(half, top), parts.neck.end]
    inside = inner_edge(edge, band.height)
    return [*inside, parts.neck.end]


def hood_lying(end: Point) -> list[Point]:
    """A hood that lies on the back, beside the neck, from its face edge round to the shoulder; `end` is the neck's."""
    places = [Point(end.x * across, end.y - end.x * up) for across, up in HOOD_AT]
    return [*places, Point(HOOD_AT[-1][0] * end.x, end.y + (HOOD_AT[-1][0] - 1) * end.x * math.tan(math.radians(20)))]


def _cuff(parts: TopParts) -> float:
    return parts.choices.cuff or 0.0


def _hanging(seen: _Seen, point: Point, place: Point) -> Point:
    """Where a place of the under seam is seen: a ring lies on the arm, and what it is wider hangs below as a fold."""
    parts = seen.parts
    along, far = direction(ARM), seen.arm.extension + place.y
    girth = arm_girth(parts.body, min(far / parts.body.arm_length, 1.0))
    below = girth * ROUND + max(0.0, place.x - girth / 2)
    return point + along * far - along.left() * below


def _end(seen: _Seen, point: Point) -> list[Point]:
    """The end of the sleeve, top and underside, with its cuff."""
    parts = seen.parts
    length = seen.arm.length
    flounce = parts.sleeve_flounce
    if flounce is not None:
        far, half = length + flounce.depth, sleeve_half(flounce)
        return [
            point + direction(ARM) * (seen.arm.extension + far),
            _hanging(seen, point, Point(half, far)),
            _hanging(seen, point, Point(flounce.ring / 2, length)),
        ]
    if parts.bands.cuff is None:
        return [point + direction(ARM) * (seen.arm.extension + length)]
    far = length + _cuff(parts)
    half = seen.arm.cuff / 2
    return [
        point + direction(ARM) * (seen.arm.extension + far),
        _hanging(seen, point, Point(half, far)),
        _hanging(seen, point, Point(half, length)),
    ]


def _under(seen: _Seen, point: Point) -> list[Point]:
    """The under seam from the sleeve's end up to where the side begins; it goes over into the side evenly."""
    parts = seen.parts
    run = seen.arm.under
    target = _round_body(parts, seen.underarm)
    whole = len(run) - 1
    found = []
    for number, place in enumerate(run):
        share = number / whole
        turning = max(0.0, (share - 0.6) / 0.4)
        turning = turning * turning * (3 - 2 * turning)
        found.append(_hanging(seen, point, place).between(target, turning))
    return found


def _side(seen: _Seen) -> list[Point]:
    parts = seen.parts
    return flatten(parts.side.between(seen.underarm.y, parts.hem.corner.y), NEAR)


def _round_body(parts: TopParts, place: Point) -> Point:
    """Where a place of the side is seen: the cloth goes round the body, and is as wide as the body at least."""
    at = parts.at
    level = min(place.y, at.hip)
    least = trunk_half(parts.body, level) if at.bust <= place.y <= at.hip else 0.0
    return Point(max(place.x * BODY, least), place.y)


def _hem(seen: _Seen) -> list[Point]:
    """The hem from the side to the centre front, and its band below it, which draws it in."""
    parts = seen.parts
    edge = Path(seen.hem_edge).flatten(NEAR)
    corner = _round_body(parts, edge[0])
    narrower = corner.x / max(edge[0].x, 1e-9)
    found = [Point(place.x * narrower, place.y) for place in edge]
    band, flounce = parts.bands.hem, parts.hem_flounce
    if flounce is not None:
        return [found[0], *hanging_hem(flounce, corner.x, edge[-1].y)]
    if band is None:
        return found
    half = corner.x * band.ratio
    return [found[0], Point(half, found[0].y + 0.3 * band.height), Point(half, edge[-1].y + band.height),
            Point(0.0, edge[-1].y + band.height)]  # fmt: skip


def _lines(seen: _Seen, point: Point, underarm: Point) -> tuple[tuple[Point, ...], ...]:
    """The lines inside: the seams of neck band, sleeves, cuffs and hem band."""
    parts = seen.parts
    along = direction(ARM)
    begin = point + along * seen.arm.extension
    middle = begin.between(underarm, 0.5) + (underarm - begin).unit().left() * -seen.arm.bow
    armhole = (begin, middle, underarm)
    found: list[tuple[Point, ...]] = [armhole]
    if parts.sleeve_flounce is not None:
        end = Point(parts.sleeve_flounce.ring / 2, seen.arm.length)
        found.append((point + along * (seen.arm.extension + end.y), _hanging(seen, point, end)))
    if parts.bands.cuff is not None:
        far, half = seen.arm.length, seen.arm.cuff / 2
        found.append((point + along * (seen.arm.extension + far), _hanging(seen, point, Point(half, far))))
    both = [line for one in found for line in (one, tuple(Point(-place.x, place.y) for place in one))]
    both += [_neck_line(parts)] if parts.bands.neck is not None or parts.hood is not None else []
    both += [_hem_line(parts, parts.bands.hem)] if parts.bands.hem is not None else []
    both += [pouch_line(parts.pouch)] if parts.pouch is not None else []
    both += parts.pockets.seen(BODY)
    both += _hem_flounce_lines(seen) if parts.hem_flounce is not None else []
    return tuple(both)


def pouch_line(pouch: Pouch) -> tuple[Point, ...]:
    """A pouch round the body, both halves."""
    half = [Point(BODY * place.x, place.y) for place in pouch.corners]
    return (*half, *(Point(-place.x, place.y) for place in reversed(half)))


def _hem_flounce_lines(seen: _Seen) -> list[tuple[Point, ...]]:
    """The seam of a flounce at the hem, and its folds."""
    parts = seen.parts
    assert parts.hem_flounce is not None
    corner = _round_body(parts, parts.hem.corner)
    seam = (Point(-corner.x, corner.y), Point(0.0, parts.at.hem), corner)
    return [seam, *hanging_folds(parts.hem_flounce, corner.x, parts.at.hem)]


def _neck_line(parts: TopParts) -> tuple[Point, ...]:
    """The seam of the neck band, or the edge of a roll collar that is turned over."""
    if parts.choices.finish == "roll":
        band = parts.bands.neck
        assert band is not None
        half, low = band.length * ROUND / 2, parts.neck.end.y
        return (Point(-half, low), Point(0.0, low + 0.1 * band.height), Point(half, low))
    edge = parts.neck.front.flatten(NEAR)
    return (*(Point(-place.x, place.y) for place in reversed(edge)), *edge[1:])


def _hem_line(parts: TopParts, band: Band) -> tuple[Point, ...]:
    corner = _round_body(parts, parts.hem.corner)
    return (Point(-corner.x, corner.y), Point(0.0, parts.at.hem), corner)
