"""The sleeve of `drop_shoulder`: cap, under seam and end, with a hem or a cuff.

Its own axes, finished: x across from the fold, y down along the arm from the top of the cap, millimetres.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass, replace

from drafting import sources
from drafting.cloth import ClothFacts, passing_factor
from drafting.contract.chalked_line import ChalkedLine
from drafting.garments.drop_shoulder import rules
from drafting.garments.drop_shoulder.style import Choices
from drafting.garments.drop_shoulder.upper import Armhole, Shoulder, cap_curve
from drafting.geometry.point import Point
from drafting.geometry.segments import Cubic
from drafting.geometry.solve import crossing_value
from drafting.parts.arm import arm_girth, end_room
from drafting.parts.band_size import CUFF_FULLNESS, CUFF_ROOM
from drafting.parts.top_bands import cuff_girth
from drafting.parts.widths import kept_open
from drafting.person.measures import Body
from drafting.person.passing import hand_needs
from drafting.problems import Adjustment

#: A wider end has another corner, whose reading may ask for a wider one: so often at most. Two or three are enough.
_WIDENED = 8


@dataclass(frozen=True, slots=True)
class Sleeve:
    """A sleeve, finished: its cap, its under seam, its length along the fold and half its end.

    `cuff` is the girth of the cuff, 0 without one; `share` is how far down the arm it ends.
    """

    cap: Cubic
    under: Cubic
    length: float
    end_half: float
    cuff: float
    share: float

    @property
    def end_girth(self) -> float:
        """Girth of the sleeve's end, before a cuff is sewn on, mm."""
        return 2 * self.end_half

    @property
    def narrowest(self) -> float:
        """The ring that the hand goes through, mm."""
        return self.cuff or self.end_girth

    def corner_beside_end(self, cloth: ClothFacts, allowance: float, turned: float) -> float:
        """How far across from the end of the seam the cut corner of the sleeve's end lies, mm of unwashed cloth.

        `allowance` is that of the seam, `turned` how much cloth is turned in below the end, 0 where something is sewn
        to it. What is turned in is a reflection of the sleeve above, which is wider than its end: the corner lies as
        far out as the cut edge does so far above.
        """
        seam = self.under.scaled(1 / (1 - cloth.shrink_across), 1 / (1 - cloth.shrink_along), Point(0.0, 0.0))
        level = seam.end.y - turned
        if seam.beside(0.0, allowance).y >= level:
            return seam.start.x - seam.end.x + allowance
        t = crossing_value(lambda t: seam.beside(t, allowance).y - level, 0.0, 1.0, 1e-6)
        return seam.beside(t, allowance).x - seam.end.x


def sleeve(
    body: Body,
    choices: Choices,
    cloth: ClothFacts,
    over: Shoulder,
    armhole: Armhole,
    chalked: ChalkedLine,
    allowance: float,
    adjusted: list[Adjustment],
) -> Sleeve:
    """The sleeve of an armhole. `allowance` is that of its sides."""
    turned = 0.0 if choices.sleeve_sewn else choices.sleeve_end
    grown, half, height = sources.scale(body.stature), armhole.cap_half, choices.cap_height
    share = min(choices.sleeve_ends / body.arm_length, 1.0)
    length = choices.sleeve_length - over.extension - choices.below_sleeve
    least = height + rules.UNDER_LEAST * grown
    if length < least - 1e-6:
        why = "the seam under the arm would be too short to sew"
        after = choices.sleeve_length + least - length
        adjusted.append(Adjustment("sleeve_length", "length of the sleeve", choices.sleeve_length, after, why))
        length = least
    cuff = 0.0
    if choices.cuff is not None:
        round_arm = arm_girth(body, share) + CUFF_ROOM[choices.fit]
        cuff = cuff_girth(choices, cloth, round_arm, hand_needs(body), chalked)
    end = choices.sleeve_end_girth or arm_girth(body, share) + end_room(share, grown)
    moved: Callable[[float, str], float] = _Teller(choices, adjusted)
    if cuff > 0:
        why = "a cuff takes up no more" if end > cuff else "the sleeve is no narrower than its cuff"
        end = moved(min(max(end, cuff), CUFF_FULLNESS * cuff), why)
    taper = rules.TAPER_MOST_CUFF if cuff > 0 else rules.TAPER_MOST
    narrowest = 2 * (half - math.tan(taper) * (length - height))
    if end < narrowest - 1e-6:
        end = moved(narrowest, "the sleeve would narrow too sharply")
    if end > 2 * half + 1e-6:
        end = moved(2 * half, "the sleeve is no wider than this under the arm")
    made = Sleeve(
        cap_curve(half, height), _under(half, height, end / 2, length, allowance), length, end / 2, cuff, share
    )
    if cuff > 0.0 or choices.sleeve_end_girth is not None:
        return made
    needed = hand_needs(body) / passing_factor(cloth.across) / 2
    for _ in range(_WIDENED):
        beside = made.corner_beside_end(cloth, allowance, turned)
        opened = min(kept_open(made.end_half, needed, chalked, cloth, beside), half)
        if opened <= made.end_half + 1e-6:
            break
        made = replace(made, under=_under(half, height, opened, length, allowance), end_half=opened)
    return made


@dataclass(frozen=True, slots=True)
class _Teller:
    """Says where an end of a sleeve that was asked for became another."""

    choices: Choices
    adjusted: list[Adjustment]

    def __call__(self, after: float, why: str) -> float:
        before = self.choices.sleeve_end_girth
        if before is not None and abs(before - after) > 1e-6:
            self.adjusted[:] = [note for note in self.adjusted if note.key != "sleeve_end_girth"]
            self.adjusted.append(Adjustment("sleeve_end_girth", "girth at the sleeve end", before, after, why))
        return after


def _under(half: float, height: float, end: float, length: float, allowance: float) -> Cubic:
    """The under seam: it leaves the cap square and meets the end square.

    A short one turns in the more slowly at its end the wider its allowance is, so that its cut edge keeps a radius of
    END_TURN_SPARE: the radius there is 3/2·handle²/taper (CALC).
    """
    long = length - height
    first, second = rules.UNDER_HANDLES
    turning = math.sqrt(2 / 3 * max(half - end, 0.0) * (allowance + rules.END_TURN_SPARE)) / long
    second = min(max(second, turning), rules.UNDER_HANDLE_MOST)
    return Cubic(
        Point(half, height),
        Point(half, height + first * long),
        Point(end, length - second * long),
        Point(end, length),
    )
