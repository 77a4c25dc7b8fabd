"""Width, shoulder and armhole of `drop_shoulder`: what is solved before anything else.

Body axes, finished: x across from the fold, y down from the side-neck level, millimetres.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass
from functools import partial

from drafting import sources
from drafting.cloth import ClothFacts, ease_share
from drafting.contract.chalked_line import ChalkedLine
from drafting.garments.drop_shoulder import rules
from drafting.garments.drop_shoulder.style import Choices
from drafting.geometry.path import Path
from drafting.geometry.point import Point, direction
from drafting.geometry.segments import Cubic, Line
from drafting.geometry.solve import crossing_value, least_enough
from drafting.parts.side import body_slope
from drafting.parts.top import BodyAsked
from drafting.parts.widths import Levels, Widths, widths
from drafting.person.measures import Body
from drafting.problems import Adjustment

#: Widths and levels are solved to this, mm: far below what a tape shows.
ACCURACY = 1e-3
#: The last of an armhole is straight by this, mm.
STRAIGHT_END = 1.0
#: So often the side and the depth of the armhole are solved after each other. Our choice: they settle in three.
ROUNDS = 12


@dataclass(frozen=True, slots=True)
class Shoulder:
    """The shoulder's end, how far it lies past the shoulder point along the shoulder, and the quarter asked for."""

    end: Point
    extension: float
    asked: float


@dataclass(frozen=True, slots=True)
class Armhole:
    """The armhole from the shoulder's end to the underarm, its cap, and the widths of the side below it."""

    curve: Path
    length: float
    cap_half: float
    wide: Widths

    @property
    def underarm(self) -> Point:
        """Where the armhole meets the side."""
        return self.curve.end

    @property
    def bow(self) -> float:
        """How far the armhole scoops inside the end of the shoulder, mm."""
        return self.curve.start.x - min(point.x for point in self.curve.flatten(0.01))

    @property
    def radius(self) -> float:
        """Its smallest radius, mm."""
        return 1 / max(abs(self.curve.segments[0].curvature(step / 60)) for step in range(61))


def bust_ease(choices: Choices, cloth: ClothFacts) -> float:
    """Ease at the bust as a share of it: one fit looser than asked; of a loose one looser by as much again."""
    regular, loose = ease_share(cloth.across, "regular"), ease_share(cloth.across, "loose")
    return {"close": regular, "regular": loose, "loose": 2 * loose - regular}[choices.fit]


def shoulder(body: Body, choices: Choices, cloth: ClothFacts) -> Shoulder:
    """The quarter that bust and waist ask for, and the shoulder's end that goes with it."""
    eased = bust_ease(choices, cloth)
    bust = body.bust_girth * (1 + eased) if choices.ease_bust is None else body.bust_girth + choices.ease_bust
    quarter = bust / 4
    if choices.ease_waist is None:
        quarter = max(quarter, body.waist_girth * (1 + min(eased, ease_share(cloth.across, "regular"))) / 4)
    half, grown = body.shoulder_width / 2, sources.scale(body.stature)
    extension = choices.extension
    if extension is None:
        fits = (quarter - rules.SIDE_OUTSIDE_SHOULDER - half) / math.cos(choices.slope)
        extension = min(max(fits, rules.EXTENSION_LEAST * grown), rules.EXTENSION_MOST * grown)
    across = half + extension * math.cos(choices.slope)
    fall = (across - body.neck_base_girth * sources.NECK_BASE_SHARE) * math.tan(choices.slope)
    return Shoulder(Point(across, fall), extension, quarter)


def armhole_curve(end: Point, underarm: Point, shoulder_slope: float, side_slope: float) -> Path:
    """The armhole: it leaves the shoulder square and meets the side square; `side_slope` is dx/dy of the side.

    Its last millimetre is straight, so that its cut edge is carried on square to the side.
    """
    chord = end.distance(underarm)
    down = direction(shoulder_slope + math.pi / 2)
    outward = Point(1.0, -side_slope).unit()
    reach = max(rules.ARMHOLE_UNDERARM * chord, rules.ARMHOLE_UNDERARM_LEAST)
    first, last = end + down * (rules.ARMHOLE_SHOULDER * chord), underarm - outward * STRAIGHT_END
    return Path((Cubic(end, first, underarm - outward * reach, last), Line(last, underarm)))


def cap_curve(half: float, height: float) -> Cubic:
    """The cap of a sleeve from the fold to the underarm, level at both ends."""
    first, second = rules.CAP_HANDLES
    return Cubic(Point(0.0, 0.0), Point(first * half, 0.0), Point(second * half, height), Point(half, height))


def cap_half_width(armhole: float, height: float) -> float:
    """The half width at which a cap is as long as its armhole, mm. The cap is longer the wider it is (CALC)."""
    return crossing_value(
        lambda half: cap_curve(half, height).length() - armhole, rules.CAP_NARROWEST, armhole, ACCURACY
    )


def armhole(
    body: Body,
    choices: Choices,
    asked: BodyAsked,
    cloth: ClothFacts,
    at: Levels,
    over: Shoulder,
    chalked: ChalkedLine,
    allowance: float,
    adjusted: list[Adjustment],
) -> Armhole:
    """The armhole, as deep as the arm needs, square to a side that runs to the hip."""
    grown = sources.scale(body.stature)
    lowest = at.waist - rules.UNDERARM_ABOVE_WAIST * grown
    usual = min(body.scye_depth + rules.UNDERARM_BELOW_ARMPIT * grown, lowest)
    room = (body.upper_arm_girth + rules.ARM_ROOM[choices.fit] * grown) / 2
    quarter = max(over.asked, over.end.x + rules.SIDE_OUTSIDE_SHOULDER)
    level = usual

    def made(at_level: float, *, wide: Widths) -> Armhole:
        slope = body_slope(wide, at)
        curve = armhole_curve(over.end, Point(wide.bust, at_level), choices.slope, slope)
        return Armhole(curve, curve.length(), cap_half_width(curve.length(), choices.cap_height), wide)

    for _ in range(ROUNDS):
        notes: list[Adjustment] = []
        wide = widths(body, asked, cloth, at, chalked, allowance, notes, upper=(quarter, level))
        before, level = level, usual
        if made(usual, wide=wide).cap_half < room:
            level = lowest
            if made(lowest, wide=wide).cap_half >= room:
                level = _deep_enough(partial(made, wide=wide), room, usual, lowest)
        if abs(level - before) < ACCURACY:
            break
    if choices.ease_bust is not None and quarter > over.asked + 1e-6:
        why = "the side must lie outside the end of the shoulder"
        notes.insert(0, Adjustment("ease_bust", "bust, all round", 4 * over.asked, 4 * quarter, why))
    if level - usual > rules.LOWERED_TOLD_FROM:
        what, why = "underarm below the side-neck level", "the sleeve needs this much room for the arm"
        notes.append(Adjustment("underarm", what, usual, level, why))
    adjusted.extend(notes)
    return made(before, wide=wide)


def _deep_enough(made: Callable[[float], Armhole], room: float, usual: float, lowest: float) -> float:
    """The highest level of the underarm at which half the cap is as wide as `room`, mm."""
    return least_enough(lambda level: made(level).cap_half >= room, usual, lowest, ACCURACY)
