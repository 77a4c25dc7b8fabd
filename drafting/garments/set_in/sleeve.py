"""The sleeve of `set_in` below its cap: how it narrows to its end, with a hem or a cuff, and has room at the elbow.

Sleeve axes, finished: x across from the grain line, y down from the top of the cap, millimetres.
"""

from dataclasses import dataclass

from drafting import sources
from drafting.cloth import ClothFacts, passing_factor
from drafting.contract.chalked_line import ChalkedLine
from drafting.garments.set_in import rules
from drafting.garments.set_in.cap import Cap
from drafting.geometry.path import Path
from drafting.geometry.point import Point
from drafting.geometry.segments import Line, quadratic
from drafting.parts.arm import arm_girth
from drafting.parts.band_size import CUFF_FULLNESS, CUFF_ROOM
from drafting.parts.top_bands import cuff_girth
from drafting.parts.top_style import TopChoices
from drafting.person.measures import Body
from drafting.person.passing import hand_needs
from drafting.problems import Adjustment


@dataclass(frozen=True, slots=True)
class Sleeve:
    """A sleeve, finished: its cap, its length along the grain line and its girth at the end before a cuff is sewn on.

    `cuff` is the girth of the cuff, 0 without one; `share` is how far down the arm it ends.
    """

    cap: Cap
    length: float
    end_girth: float
    cuff: float
    share: float

    @property
    def come_in(self) -> float:
        """By how much each under seam comes in from the corner of the cap to the end, mm."""
        return (self.cap.width - self.end_girth) / 2

    @property
    def under_long(self) -> float:
        """How far down the under seam reaches, mm."""
        return self.length - self.cap.height

    def under(self, *, front: bool) -> Path:
        """The under seam of a half, reckoned outward: straight from the cap, and square to the end at the last."""
        cap = self.cap
        width, turn = cap.front if front else cap.back, end_turn(self.under_long)
        end = Point(width - self.come_in, self.length)
        corner, bend = Point(width, cap.height), Point(end.x, self.length - turn / 2)
        begins = bend - (bend - corner).unit() * (turn / 2)
        return Path((Line(corner, begins), quadratic(begins, bend, end)))

    def width(self, down: float) -> float:
        """The whole sleeve so far below the top of its cap, from there to where the under seam turns, mm."""
        return self.cap.width - 2 * self.cap.taper * (down - self.cap.height)


def end_turn(under: float) -> float:
    """Over how much of an under seam so long it turns square to the end, mm."""
    return min(rules.END_TURN, rules.END_TURN_SHARE * under)


def elbow_level(body: Body) -> float:
    """How far below the top of the cap the elbow lies, mm."""
    return body.arm_length / 2 + rules.ELBOW_BELOW_HALF


@dataclass(frozen=True, slots=True)
class Plan:
    """What a sleeve is to be, before its cap is known. `long` is how far down a sleeve to the wrist reaches, mm.

    `least` is the shortest under seam that can be sewn; `end` is what was asked for at its end, None where that is left
    to us; `cuff` the girth of the cuff, 0 without one; `passing` the least end that the hand passes.
    """

    body: Body
    choices: TopChoices
    width: float
    length: float
    least: float
    long: float
    share: float
    end: float | None
    cuff: float
    passing: float

    def taper(self, height: float) -> float:
        """How far each under seam comes in for each mm down, below a cap so high."""
        under = max(self.length - height, self.least)
        reach = under - end_turn(under) / 2
        if self.end is not None:
            return (self.width - min(self.end, self.width)) / 2 / reach
        least = self.passing
        if self.cuff > 0:
            least = max(least, self.cuff)
        found = min(self._usual(height), (self.width - least) / 2 / reach)
        if self.cuff > 0:
            found = max(found, (self.width - CUFF_FULLNESS * self.cuff) / 2 / reach, 0.0)
        return max(min(found, self._elbow(height)), 0.0)

    def _usual(self, height: float) -> float:
        """The slope of a sleeve that reaches the wrist with its usual room; a shorter one is cut off from it."""
        under = max(self.long - height, self.least)
        room = rules.END_ROOM[self.choices.fit] * sources.scale(self.body.stature)
        return (self.width - self.body.wrist_girth - room) / 2 / (under - end_turn(under) / 2)

    def _elbow(self, height: float) -> float:
        """The steepest slope that leaves the elbow its room, where the sleeve covers it."""
        level = elbow_level(self.body)
        if self.length <= level:
            return 1.0
        needed = self.body.elbow_girth + rules.ELBOW_ROOM[self.choices.fit]
        return (self.width - needed) / 2 / (level - height)


def plan(body: Body, choices: TopChoices, cloth: ClothFacts, inset: float, width: float, chalked: ChalkedLine) -> Plan:
    """A sleeve so wide under the arm; `inset` is that of its `Upper`."""
    share = min(choices.sleeve_ends / body.arm_length, 1.0)
    length = choices.sleeve_length + inset - choices.below_sleeve
    least = rules.UNDER_LEAST * sources.scale(body.stature)
    cuff = 0.0
    if choices.cuff is not None:
        round_arm = arm_girth(body, share) + CUFF_ROOM[choices.fit]
        cuff = cuff_girth(choices, cloth, round_arm, hand_needs(body), chalked)
    # Both marks of the end may be read half a step too near.
    passing = hand_needs(body) / passing_factor(cloth.across) + chalked.tape.finest.size
    return Plan(
        body, choices, width, length, least, body.arm_length + inset, share, choices.sleeve_end_girth, cuff, passing
    )


def sleeve(asked: Plan, cap: Cap, adjusted: list[Adjustment]) -> Sleeve:
    """The sleeve below its cap; what was asked for its length and its end and is not met is told."""
    under, choices = max(asked.length - cap.height, asked.least), asked.choices
    length = cap.height + under
    if length > asked.length + 1e-6:
        why = "the seam under the arm would be too short to sew"
        after = choices.sleeve_length + length - asked.length
        adjusted.append(Adjustment("sleeve_length", "length of the sleeve", choices.sleeve_length, after, why))
    end = cap.width - 2 * cap.taper * (under - end_turn(under) / 2)
    if asked.end is not None and abs(asked.end - end) > 0.05:
        why = "the sleeve is no wider than this under the arm"
        adjusted.append(Adjustment("sleeve_end_girth", "girth at the sleeve end", asked.end, end, why))
    return Sleeve(cap, length, end, asked.cuff, asked.share)
