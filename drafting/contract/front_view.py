"""A garment on the person, seen from the front: the record that a garment hands over, and the plain figure under it.

Finished millimetres; x across from the centre front, positive to the right of the picture (the wearer's left), y down
from the level of the side-neck points, as on the cloth. A girth is seen from the front narrower than half of it: how
much, the two rules below say, the same for the body and for the cloth on it.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from drafting.geometry.point import Point, direction
from drafting.person.measures import Body
from drafting.sources import NAPE_ABOVE_SIDE_NECK, NECK_BASE_SHARE

ROUND: Final = 1 / math.pi
"""Seen width of a neck, an arm or a sleeve, as a share of its girth: that of a circle (CALC)."""
TRUNK: Final = 0.368
"""Seen width of the trunk and of the cloth round it, as a share of the girth: that of an ellipse 0.72 as deep as it is
wide (CALC); the 0.72 is common practice, no source."""

HEAD_WIDTH: Final = 0.27
"""Width of a head as a share of its girth: common practice, no source."""
HEAD_TO_STATURE: Final = ((3.0, 1 / 5), (10.0, 1 / 6), (17.0, 1 / 7))
"""Height of a child's head as a share of the stature at an age in years; between them evenly. Common practice, no
source."""
GROWN_HEAD: Final = 1 / 7.5
"""The same of a grown person: common practice, no source."""
HAND: Final = 0.10
"""Length of a hand as a share of the stature: common practice, no source."""
ARM_AT: Final = (0.25, 0.55)
"""Where along the arm the upper arm and the elbow are measured, as shares of its length: common practice, no source."""
KNEE_TO_THIGH: Final = 0.62
ANKLE_TO_THIGH: Final = 0.38
"""Girths of knee and ankle as shares of the thigh's: common practice, no source."""
FORK_BELOW_HIP: Final = 0.035
"""How far the legs part below the level of the hip, as a share of the stature: common practice, no source."""


@dataclass(frozen=True, slots=True)
class Worn:
    """A garment as it is seen from the front, its sleeves hanging away from the body.

    `outline` is closed and goes once round, both sides; `lines` are drawn inside it. `shoulder` is where the overarm
    begins on the right of the picture, `arm` how far the arm hangs below level there, radians.
    """

    outline: tuple[Point, ...]
    lines: tuple[tuple[Point, ...], ...]
    shoulder: Point
    arm: float


@dataclass(frozen=True, slots=True)
class Figure:
    """A plain body from the front: closed runs that are joined smoothly; `floor` and `crown` are levels, mm."""

    body: tuple[Point, ...]
    head: tuple[Point, ...]
    floor: float
    crown: float


def head_share(body: Body) -> float:
    """The height of this person's head as a share of the stature; a child's by its age."""
    return GROWN_HEAD if body.kind != "child" else child_head(float(body.age or HEAD_TO_STATURE[0][0]))


def child_head(age: float) -> float:
    """The height of a child's head at an age in years, as a share of the stature."""
    return _evenly(HEAD_TO_STATURE, age)


def _evenly(knots: Sequence[tuple[float, float]], at: float) -> float:
    """A value between knots, the end ones beyond them."""
    if at <= knots[0][0]:
        return knots[0][1]
    for (low, start), (high, end) in pairwise(knots):
        if at <= high:
            return start + (end - start) * (at - low) / (high - low)
    return knots[-1][1]


def waist_level(body: Body) -> float:
    """The level of the waist, as it lies on the cloth."""
    return body.back_neck_point_to_waist + NAPE_ABOVE_SIDE_NECK


def trunk_half(body: Body, level: float) -> float:
    """Half the seen width of the trunk at a level from the bust to the hip; above and below, that of the nearest."""
    waist = waist_level(body)
    bust = min(body.side_neck_point_to_bust_point, 0.75 * waist)
    knots = (
        (bust, body.bust_girth * TRUNK / 2),
        (waist, body.waist_girth * TRUNK / 2),
        (waist + body.waist_to_hip, body.hip_girth * TRUNK / 2),
    )
    return _evenly(knots, level)


def figure(body: Body, shoulder: Point, arm: float) -> Figure:
    """The figure of a person with the arms hanging `arm` radians below level from `shoulder`."""
    waist = waist_level(body)
    floor = waist + body.waist_height
    crown = floor - body.stature
    half = [*_neck_and_arm(body, shoulder, arm, crown), *_side_and_leg(body, shoulder, arm, floor)]
    other = [Point(-place.x, place.y) for place in reversed(half)]
    return Figure((*half, *other), _head(body, crown), floor, crown)


def _head(body: Body, crown: float) -> tuple[Point, ...]:
    high, wide = head_share(body) * body.stature, body.head_girth * HEAD_WIDTH / 2
    half = [(0.0, 0.0), (0.62, 0.06), (0.97, 0.27), (1.0, 0.48), (0.86, 0.72), (0.5, 0.93), (0.0, 1.0)]
    right = [Point(x * wide, crown + y * high) for x, y in half]
    return (*right, *(Point(-place.x, place.y) for place in reversed(right[1:-1])))


def _neck_and_arm(body: Body, shoulder: Point, arm: float, crown: float) -> list[Point]:
    """From the neck under the ear over the shoulder and down the arm to the tip of the hand."""
    along, below = direction(arm), direction(arm).left() * -1.0
    neck = body.neck_girth * ROUND / 2
    ear = crown + 0.6 * head_share(body) * body.stature
    places = [Point(neck, ear), Point(neck, (2 * ear) / 5 if ear < 0 else ear)]
    base = max(body.neck_base_girth * NECK_BASE_SHARE, neck)
    places += [Point(base, 0.0), Point(base, 0.0).between(shoulder, 0.55), shoulder]
    size, hand = body.arm_length, HAND * body.stature
    for share, inset in ((0.3, 0.0), (0.6, 0.015), (1.0, 0.04)):
        places.append(shoulder + along * (size * share) + below * (inset * body.upper_arm_girth))
    wrist = shoulder + along * size + below * (0.04 * body.upper_arm_girth)
    palm = body.hand_girth * 0.42
    places += [wrist + along * (0.5 * hand) - below * (0.1 * palm), wrist + along * hand + below * (0.35 * palm)]
    places += [wrist + along * (0.62 * hand) + below * (0.8 * palm)]
    return places


def _side_and_leg(body: Body, shoulder: Point, arm: float, floor: float) -> list[Point]:
    """From the wrist up the under side of the arm, down the trunk and the leg, and up to where the legs part."""
    along, below = direction(arm), direction(arm).left() * -1.0
    size, waist = body.arm_length, waist_level(body)
    girths = (
        (1.0, body.wrist_girth, 0.04),
        (ARM_AT[1], body.elbow_girth, 0.015),
        (ARM_AT[0], body.upper_arm_girth, 0.0),
    )
    places = [
        shoulder + along * (size * share) + below * (girth * ROUND + inset * body.upper_arm_girth)
        for share, girth, inset in girths
    ]
    bust = min(body.side_neck_point_to_bust_point, 0.75 * waist)
    armpit = min(body.scye_depth, 0.9 * bust)
    hip = waist + body.waist_to_hip
    places += [Point(min(0.97 * trunk_half(body, bust), shoulder.x), armpit)]
    places += [Point(trunk_half(body, level), level) for level in (bust, waist, waist + 0.5 * (hip - waist), hip)]
    fork = hip + FORK_BELOW_HIP * body.stature
    knee, ankle = floor - body.knee_height, floor - 0.05 * body.stature
    middle = 0.008 * body.stature
    outer = min(middle + body.thigh_girth * ROUND, 0.97 * trunk_half(body, hip))  # thighs press on each other
    thigh = outer - middle
    legs = middle + 0.55 * thigh
    places += [Point(outer, fork), Point(legs + 0.42 * thigh, fork + 0.4 * (knee - fork))]
    for level, share in ((knee, KNEE_TO_THIGH), (knee + 0.35 * (ankle - knee), 0.66), (ankle, ANKLE_TO_THIGH)):
        places.append(Point(legs + share * thigh / 2, level))
    foot = 0.03 * body.stature
    places += [Point(legs + 0.9 * foot, floor), Point(legs - 0.5 * foot, floor)]
    for level, share in ((ankle, ANKLE_TO_THIGH), (knee + 0.35 * (ankle - knee), 0.6), (knee, KNEE_TO_THIGH)):
        places.append(Point(legs - share * thigh / 2, level))
    return [*places, Point(middle * 0.3, fork)]
