"""How `cut_in_one` is seen on the person from the front: its finished front, as the body turns and fills it.

The cloth lies flat as half a girth; on a body it goes round. A neck stand is seen as wide as a circle of its girth, the
trunk as an ellipse (drafting.contract.front_view); a sleeve hangs from the arm. Where one rule ends and the next
begins, the places go over evenly, so the lengths that a person looks for stay true: the neck's height, the sleeve along
the arm, the hem's level, the width at the hem.
"""

import math
from collections.abc import Sequence
from itertools import pairwise

from drafting.contract.front_view import ROUND, TRUNK, Worn, trunk_half
from drafting.garments.cut_in_one.lay_out import Parts
from drafting.garments.cut_in_one.neck import Neck, fold_over
from drafting.garments.cut_in_one.sleeve import arm_girth_at
from drafting.geometry.path import Path
from drafting.geometry.point import Point, direction
from drafting.geometry.segments import Segment, flatten
from drafting.parts.flounce_worn import hanging_folds, hanging_hem, sleeve_half
from drafting.parts.neck import inner_edge
from drafting.parts.top_worn import hood_lying, pouch_line

#: How near the straight joins keep to the curves, mm: our choice, because it is a tenth of a pixel on a small screen.
NEAR = 0.3
#: The seen half width of a tube and of the trunk, as a share of its flat half and of its flat quarter (CALC).
TUBE, BODY = 2 * ROUND, 2 * TRUNK


def arm_of(overarm: float) -> float:
    """How far the arm hangs below level, radians, when the overarm lies `overarm` below it on the cloth.

    Our choice, because the sleeve and the underarm are seen best so: the room between overarm and side closes by the
    share by which a ring of cloth is seen narrower than it lies flat.
    """
    return overarm + (1 - TUBE) * (math.pi / 2 - overarm)


def worn(parts: Parts, front: Neck) -> Worn:
    """The front as it is worn."""
    arm = arm_of(parts.choices.overarm)
    right = [*_neck(parts, front), *_sleeve_and_side(parts, arm), *_hem(parts)]
    slanted = parts.slant_drop if not front.scooped else 0.0
    low = 1 if parts.choices.slant_side == "left" else -1  # the wearer's left is on the right of the picture
    sides = [_slanted(right, slanted * (side == low)) for side in (1, -1)]
    outline = [*sides[0], *(Point(-place.x, place.y) for place in reversed(sides[1]))]
    return Worn(tuple(_apart(outline)), _lines(parts, front), parts.overarm.start, arm)


def _apart(places: Sequence[Point]) -> list[Point]:
    """The places without repetitions, the first of a closed run not repeated at its end."""
    return [place for before, place in pairwise((places[-1], *places)) if before.distance(place) > 1e-6]


def _standing(parts: Parts, front: Neck) -> float:
    """How much of a neck stand is turned down, mm: 0 where it is not folded."""
    if front.scooped or not parts.choices.folded:
        return 0.0
    return front.height - fold_over(front, parts.choices.lean).stands


def _neck(parts: Parts, front: Neck) -> list[Point]:
    """From the centre front along the neck edge, down the stand, along the shoulder to the overarm.

    A stand is a ring down to the curve into the shoulder, where the cloth comes to lie flat.
    """
    edge = front.top.flatten(NEAR)
    over = parts.shoulder.softening
    on = [over[0].start if over else parts.shoulder.point, *(flatten(over, NEAR)[1:] if over else [])]
    if front.scooped and parts.hood is not None:
        on = [place for place in on if place.x > hood_lying(edge[-1])[-1].x]
        return [*edge[: len(edge) // 2 + 1], *hood_lying(edge[-1]), *on]
    if front.scooped and parts.neck_band is not None:
        return [*inner_edge(edge, parts.neck_band.height), edge[-1], *on]
    if front.scooped:
        return [*edge, *on]
    down = _standing(parts, front)
    straight, *curve = front.column
    ring = [_ringed(parts, place) for place in edge]
    places = [place + Point(0.0, down) for place in ring]
    if straight.start.y + down < straight.end.y:
        places.append(_ringed(parts, straight.end))
    bend = flatten(curve, NEAR)[1:] if curve else []
    for place, share in zip(bend, _shares(bend), strict=True):
        places.append(_ringed(parts, place).between(place, share))
    return [*places, *on]


def _ringed(parts: Parts, place: Point) -> Point:
    """A place of the neck stand on its ring, which is never narrower than the neck within."""
    least = parts.body.neck_girth * ROUND / 2
    return Point(max(place.x * TUBE, least * min(1.0, place.x / max(parts.body.neck_girth / 4, 1e-9))), place.y)


def _shares(places: Sequence[Point]) -> list[float]:
    """How far along a run each of its places lies, from 0 at the first to 1 at the last, eased at both ends."""
    along = [0.0]
    for before, place in pairwise(places):
        along.append(along[-1] + before.distance(place))
    whole = max(along[-1], 1e-9) if along else 1.0
    return [(share := each / whole) * share * (3 - 2 * share) for each in along[: len(places)]]


def _hanging(parts: Parts, place: Point, arm: float, ring: Point) -> Point:
    """Where a place of the sleeve is seen: as far along the arm, and as deep under it as a ring of the cloth hangs.

    `ring` is the place of the under line on the same ring. A ring lies on the arm, and what it is wider hangs below as
    a fold (CALC): seen depth = the arm's width + half of what the ring is wider than the arm.
    """
    start, along = parts.overarm.start, direction(arm)
    far, half = (ring - start).dot(parts.overarm.along), parts.overarm.depth(ring)
    girth = arm_girth_at(parts.body, min(max(far / parts.body.arm_length, 0.0), 1.0))
    seen = (girth * ROUND + max(0.0, half - girth / 2)) / max(half, 1e-9)
    return start + along * (place - start).dot(parts.overarm.along) - along.left() * (parts.overarm.depth(place) * seen)


def _cuff(parts: Parts, arm: float) -> list[Point]:
    """The cuff on the arm: its end from the top to the underside, and along the underside back to the sleeve."""
    assert parts.cuff is not None
    start, along, length = parts.overarm.start, direction(arm), parts.choices.sleeve_length
    deep = along.left() * (parts.cuff.length * ROUND)
    end = start + along * (length + parts.cuff.height)
    return [end, end - deep, start + along * length - deep]


def _flounce(parts: Parts, arm: float) -> list[Point]:
    """The flounce on the arm: its hem from the top to where it falls, and back to the sleeve."""
    flounce = parts.sleeve_flounce
    assert flounce is not None
    start, along, length = parts.overarm.start, direction(arm), parts.choices.sleeve_length
    girth = arm_girth_at(parts.body, min((length + flounce.depth) / parts.body.arm_length, 1.0))
    deep = girth * ROUND + max(0.0, sleeve_half(flounce) - girth / 2)
    end = start + along * (length + flounce.depth)
    return [end, end - along.left() * deep]


def _round_body(parts: Parts, place: Point) -> Point:
    """Where a place of the side is seen: the cloth goes round the body, and is as wide as the body at least."""
    level = min(place.y, parts.at.hip)
    least = trunk_half(parts.body, level) if parts.at.bust <= place.y <= parts.at.hip else 0.0
    return Point(max(place.x * BODY, least), place.y)


def _sleeve_and_side(parts: Parts, arm: float) -> list[Point]:
    """The sleeve's end, its under line, the underarm and the side down to the hem."""
    sleeve, under = parts.sleeve, parts.underarm
    end = flatten(sleeve.end, NEAR)
    begin = under.side_level if under is not None else parts.corner.y
    side = flatten(parts.side.between(begin, parts.hem.corner.y), NEAR)
    between: list[Segment] = [*under.curve] if under is not None else []
    if sleeve.cap or not between:  # no under line: the end itself goes over to the side
        turning, rings = [*end, *flatten(between, NEAR)[1:]] if between else end, end[-1]
        places = []
    else:
        assert under is not None
        turning, rings = flatten(between, NEAR), None
        places = [_hanging(parts, place, arm, end[-1]) for place in end]
        if parts.cuff is not None:
            places[: len(end) - 1] = _cuff(parts, arm)
        if parts.sleeve_flounce is not None:
            places[: len(end) - 1] = _flounce(parts, arm)
        places += [_hanging(parts, place, arm, place) for place in flatten(under.under, NEAR)[1:]]
    for place, share in zip(turning, _shares(turning), strict=True):
        places.append(_hanging(parts, place, arm, rings or place).between(_round_body(parts, place), share))
    return [*places, *(_round_body(parts, place) for place in side)]


def _hem(parts: Parts) -> list[Point]:
    """The hem from the side to the centre front; it keeps its shape across the width that is seen."""
    edge = Path(parts.hem.edge).flatten(NEAR)
    corner = _round_body(parts, edge[0])
    narrower = corner.x / max(edge[0].x, 1e-9)
    if parts.hem_flounce is not None:
        return [corner, *hanging_hem(parts.hem_flounce, corner.x, edge[-1].y)]
    return [Point(place.x * narrower, place.y) for place in edge]


def _slanted(right: Sequence[Point], drop: float) -> list[Point]:
    """A half whose neck edge runs `drop` mm lower at the side than on the other half; the middle takes half of it."""
    if drop <= 0:
        return list(right)
    top, corner = right[0].y, next(i for i, place in enumerate(right) if place.y > right[0].y + 1e-6) - 1
    kept = [place for place in right[corner + 1 :] if place.y > top + drop]
    return [Point(0.0, top + drop / 2), Point(right[corner].x, top + drop), *kept]


def _lines(parts: Parts, front: Neck) -> tuple[tuple[Point, ...], ...]:
    """The lines inside: the edge of a neck that is folded down, the seams of neck band and cuffs."""
    down = _standing(parts, front)
    if down <= 0:
        return _seams_of_bands(parts, front)
    stands = -fold_over(front, parts.choices.lean).stands
    wide = _ringed(parts, front.top.end).x
    low = stands + down
    return ((Point(-wide, low), Point(wide, low)), *_seams_of_bands(parts, front))


def _seams_of_bands(parts: Parts, front: Neck) -> tuple[tuple[Point, ...], ...]:
    found: list[tuple[Point, ...]] = []
    if parts.neck_band is not None or parts.hood is not None:
        edge = front.top.flatten(NEAR)
        found.append((*(Point(-place.x, place.y) for place in reversed(edge)), *edge[1:]))
    if parts.cuff is not None:
        arm = arm_of(parts.choices.overarm)
        start, along = parts.overarm.start, direction(arm)
        top = start + along * parts.choices.sleeve_length
        under = top - along.left() * (parts.cuff.length * ROUND)
        found += [(top, under), (Point(-top.x, top.y), Point(-under.x, under.y))]
    if parts.sleeve_flounce is not None:
        arm, last = arm_of(parts.choices.overarm), parts.sleeve.end[-1].end
        top = parts.overarm.start + direction(arm) * parts.choices.sleeve_length
        under = _hanging(parts, last, arm, last)
        found += [(top, under), (Point(-top.x, top.y), Point(-under.x, under.y))]
    if parts.pouch is not None:
        found.append(pouch_line(parts.pouch))
    found += parts.pockets.seen(BODY)
    if parts.hem_flounce is not None:
        corner = _round_body(parts, parts.hem.corner)
        found.append((Point(-corner.x, corner.y), Point(0.0, parts.at.hem), corner))
        found += hanging_folds(parts.hem_flounce, corner.x, parts.at.hem)
    return tuple(found)
