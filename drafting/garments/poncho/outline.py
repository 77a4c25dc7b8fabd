"""The finished outline of a `poncho`: a neck, a seam over shoulder and arm, and a hem in an arc.

Body axes, finished: x across from the fold, y down from the side-neck level, millimetres. The seam is carried on inward
to the fold: where both meet is the centre of the arc, so that the hem meets seam and fold square (CALC).
"""

import math
from dataclasses import dataclass

from drafting import sources
from drafting.cloth import ClothFacts, passing_factor
from drafting.contract.chalked_line import ChalkedLine
from drafting.garments.poncho.style import Choices
from drafting.geometry.path import Path
from drafting.geometry.point import Point, direction
from drafting.geometry.segments import Line, arc
from drafting.parts import neck as necks
from drafting.person.measures import Body
from drafting.person.passing import head_needs

#: A V is cut for a bust no lower than this share of the way down to the waist (our choice, as on other garments).
BUST_LOWEST = 0.75


@dataclass(frozen=True, slots=True)
class Parts:
    """A poncho for one body: what pieces, findings, sewing and picture are made from. `allowances` are mm by edge."""

    body: Body
    choices: Choices
    cloth: ClothFacts
    chalked: ChalkedLine
    base: necks.NeckBase
    neck: necks.Neckline
    allowances: dict[str, float]

    @property
    def centre(self) -> Point:
        """The centre of the hem's arc, on the fold above the neck."""
        return self.base.end(0.0)

    @property
    def radius(self) -> float:
        """The radius of the hem, mm."""
        return self.choices.length - self.centre.y

    @property
    def end(self) -> Point:
        """Where the seam meets the hem."""
        return self.centre + direction(self.choices.slope) * self.radius

    @property
    def shoulder(self) -> Path:
        """The seam from the neck over shoulder and arm to the hem."""
        return Path((Line(self.neck.end, self.end),))

    @property
    def hem(self) -> Path:
        """The hem from the seam to the fold."""
        return Path(tuple(arc(self.centre, self.radius, self.choices.slope, math.pi / 2)))

    @property
    def shoulder_point(self) -> Point:
        """Where the seam lies on the shoulder point."""
        return self.base.end(self.body.shoulder_width / 2)

    @property
    def past_wrist(self) -> float:
        """How far the seam reaches past the wrist, mm; below 0 where the hand is free."""
        return self.shoulder_point.distance(self.end) - self.body.arm_length


def neck_of(body: Body, choices: Choices, cloth: ClothFacts) -> tuple[necks.NeckBase, necks.Neckline]:
    """The smallest neck that the head passes, as wide as the shoulders allow."""
    bust = min(
        body.side_neck_point_to_bust_point,
        BUST_LOWEST * (body.back_neck_point_to_waist + sources.NAPE_ABOVE_SIDE_NECK),
    )
    side_neck = body.neck_base_girth * sources.NECK_BASE_SHARE
    base = necks.NeckBase(side_neck, choices.slope, sources.scale(body.stature), bust)
    ring = head_needs(body) / passing_factor(cloth.across)
    return base, necks.solved(choices.neck, base, ring, body.shoulder_width / 2 - 1.0)
