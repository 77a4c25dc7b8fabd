"""The body's measures as data: what each is, how it is taken, what is possible, usual, and likely when missing.

Names follow ISO 8559-1:2017 where it has one; `iso` is its clause (published, read in an open registry of its
items). Numbers below are typed in centimetres as the sources print them and turned into millimetres once.

Sources of the numbers, named beside each:

* ADULT_SURVEY: the 1988 US Army anthropometric survey (public domain; 2,208 women, 1,774 men). Adult ranges are its
  p1 to p99, ratio bands its p0.5 to p99.5, regressions computed from it. Ratios hold only for the girths it measured.
* CHILD_SURVEY: the 1977 US child survey. SMALL_CHILD_SURVEY: the growth standards of 2006, for children under 4.
* "from memory" and "our choice, because ..." where nothing published stands behind a number.
"""

import math
from dataclasses import dataclass, field
from itertools import pairwise
from typing import Literal

from drafting.sentences import lower_first
from drafting.units import CM

Kind = Literal["woman", "man", "child"]
KINDS: tuple[Kind, ...] = ("woman", "man", "child")

ADULT_SURVEY = "1988 US Army anthropometric survey (public domain)"
CHILD_SURVEY = "1977 US child survey"
SMALL_CHILD_SURVEY = "World Health Organization, child growth standards, 2006, from memory"
CHILD_RANGE = "range of children from 4 to 16 years, common practice, no source"
LIMIT_SOURCE = "our choice, because nobody this garment is drafted for lies outside"

# Upper ends are widened by a quarter for the public: our choice, because the survey measured fit adults. The same for
# children, whose range ends at 16 years.
PUBLIC_UPWARD = 1.25
# How many times the least of one age the most of that age may be, girths and widths, then lengths: our choice, because
# the waists of children, 50 to 73 in the middle of 4 to 16 years, then lie well inside, and lengths differ less.
CHILD_GIRTHS_WITHIN, CHILD_LENGTHS_WITHIN = 1.6, 1.4
# How far a length of 17 years may lie above the range, which ends at 16: our choice, because boys still grow.
CHILD_LENGTHS_UPWARD = 1.1
# Children of 1 to 3 years lie below the range of 4 to 16: our choice, because a girth grows by under a quarter then.
SMALL_CHILD_DOWNWARD = 0.75
SMALL_CHILD_UNTIL = 4


# A head hardly follows the body, so it has one band for all adults and one for children from 4 years, and no ratio.
# Adults: ADULT_SURVEY's p1 of women to p99 of men, 51.3 to 60.6, with a little to spare (our choice); children:
# CHILD_RANGE. Neither is widened.
HEAD_BANDS = {"woman": (51.0, 62.0), "man": (51.0, 62.0), "child": (49.0, 58.0)}
# Bust girths, cm, within which the survey's ratios are believed: its p1 to p99 to the nearest cm or two.
RATIOS_HOLD = {"woman": (78.0, 108.0), "man": (84.0, 117.0)}


_Range = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Rule:
    """A missing measure reckoned from others: constant + sum(factor x measure), mm, with its standard deviation.

    A rule `only_from_taken` is used only when all its terms were measured, not estimated; one `until_age` only for a
    child below that age. What it gives is held `within` two shares of the stature, where those are given.
    """

    constant: float
    terms: tuple[tuple[str, float], ...]
    sd: float
    source: str
    only_from_taken: bool = False
    until_age: int | None = None
    within: tuple[float, float] | None = None


@dataclass(frozen=True, slots=True)
class Measure:
    """One body measure: words for it, its limit (mm; refuses) and, by kind, its usual range (mm; warns) and rules.

    `how` is two short lines. `rules` are tried in order; a kind without rules has no estimate and must be measured by
    whoever is set out from it. `stand_ins` are rougher rules, tried last, for a garment that is not set out from it.
    """

    name: str
    label: str
    iso: str
    how: tuple[str, str]
    limit: tuple[float, float]
    ranges: dict[Kind, tuple[float, float]]
    rules: dict[Kind, tuple[Rule, ...]]
    source: str
    flat_label: str = ""
    stand_ins: dict[Kind, tuple[Rule, ...]] = field(default_factory=dict)

    def label_for(self, kind: Kind) -> str:
        """The word the trade uses for this person ("Chest girth" for a man's or a child's bust girth)."""
        return self.flat_label if self.flat_label and kind != "woman" else self.label

    def said_for(self, kind: Kind) -> str:
        """The measure as it stands in a sentence: "the neck girth", "the length from side neck to waist in front"."""
        words = lower_first(self.label_for(kind)).replace(", front", " in front")
        return f"the length from {words}" if " to " in words else f"the {words}"

    def band(self, kind: Kind, age: int | None = None) -> tuple[float, float] | None:
        """The expected range in mm, widened for the public; outside it only a warning. None when none is known.

        A child's follows the age. It never reaches past the measure's own limit.
        """
        if kind not in self.ranges:
            return None
        low, high = self.ranges[kind]
        if self.name == "head_girth":
            low, high = HEAD_BANDS[kind][0] * CM, HEAD_BANDS[kind][1] * CM
        elif kind == "child" and age is not None:
            low, high = self._of_age(low, high, age)
        else:
            high *= PUBLIC_UPWARD
        if kind == "child" and age is not None and age < SMALL_CHILD_UNTIL:
            low *= SMALL_CHILD_DOWNWARD
        return max(low, self.limit[0]), min(high, self.limit[1])

    def _of_age(self, low: float, high: float, age: int) -> tuple[float, float]:
        """The part of children's range that belongs to an age: it moves through the range as the stature grows."""
        long = self.name in CHILD_LENGTHS
        within = CHILD_LENGTHS_WITHIN if long else CHILD_GIRTHS_WITHIN
        now, first, last = (child_stature(each) for each in (age, SMALL_CHILD_UNTIL, CHILD_STATURE[-1][0]))
        if now < first:
            return low, low * within * now / first
        grown = (now - first) / (last - first)
        most = high * (CHILD_LENGTHS_UPWARD if long else PUBLIC_UPWARD)
        return low + grown * max(high / within - low, 0.0), low * within + grown * (most - low * within)

    def required(self, kind: Kind) -> bool:
        """Whether nothing can stand in for this measure."""
        return not any(not rule.only_from_taken for rule in self.rules.get(kind, ()))


def _regression(a: float, b: float, h: float, sd: float) -> Rule:
    """Reckon a + b x bust + h x stature, cm, from the adult survey."""
    return Rule(a * CM, (("bust_girth", b), ("stature", h)), sd * CM, ADULT_SURVEY)


def _share(measure: str, factor: float, sd: float, source: str, constant: float = 0.0) -> Rule:
    """Reckon constant + factor x one other measure, cm."""
    return Rule(constant * CM, ((measure, factor),), sd * CM, source)


def _taken(measure: str, factor: float, sd: float) -> Rule:
    """The survey's middle ratio to a measure that was taken: closer than the regression on bust and stature."""
    return Rule(0.0, ((measure, factor),), sd * CM, f"median ratio, {ADULT_SURVEY}", only_from_taken=True)


# Adults: a, b, h, sd for women, then men.
_REGRESSIONS: dict[str, tuple[tuple[float, float, float, float], tuple[float, float, float, float]]] = {
    "hip_girth": ((6.97, 0.625, 0.203, 4.1), (3.54, 0.688, 0.151, 3.5)),
    "waist_girth": ((-4.59, 0.857, -0.004, 3.2), (-5.89, 0.950, -0.024, 3.5)),
    "neck_girth": ((11.30, 0.145, 0.043, 1.1), (13.72, 0.190, 0.031, 1.4)),
    "neck_base_girth": ((10.80, 0.138, 0.069, 1.2), (14.24, 0.179, 0.051, 1.5)),
    "head_girth": ((38.71, 0.052, 0.069, 1.3), (39.67, 0.077, 0.054, 1.4)),
    "shoulder_length": ((4.92, -0.001, 0.059, 1.0), (6.06, 0.006, 0.048, 1.1)),
    "back_width": ((6.77, 0.252, 0.034, 2.1), (4.84, 0.302, 0.030, 2.3)),
    "back_neck_point_to_waist": ((5.27, 0.015, 0.184, 2.2), (3.93, 0.024, 0.199, 1.9)),
    "side_neck_point_to_bust_point": ((-0.87, 0.212, 0.052, 1.7), (1.13, 0.164, 0.056, 1.3)),
    "scye_depth": ((0.20, 0.070, 0.074, 1.2), (2.08, 0.083, 0.063, 1.3)),
    "upper_arm_girth": ((2.83, 0.310, -0.011, 1.5), (3.59, 0.329, -0.015, 1.5)),
    "wrist_girth": ((3.69, 0.044, 0.045, 0.5), (3.78, 0.057, 0.045, 0.6)),
    "hand_girth": ((6.79, 0.033, 0.054, 0.7), (7.35, 0.048, 0.053, 0.8)),
    "arm_length": ((-4.41, -0.005, 0.365, 1.9), (-3.40, 0.004, 0.360, 1.9)),
    "upper_chest_girth": ((9.18, 0.738, 0.077, 2.3), (5.98, 0.900, 0.040, 1.7)),
    "under_bust_girth": ((4.62, 0.689, 0.061, 2.4), (3.25, 0.919, -0.010, 1.7)),
    "elbow_girth": ((2.84, 0.132, 0.055, 0.9), (3.37, 0.147, 0.055, 1.0)),
    "thigh_girth": ((2.53, 0.466, 0.081, 3.3), (-0.66, 0.545, 0.036, 3.1)),
    "waist_to_hip": ((-2.80, 0.019, 0.141, 2.2), (-0.14, 0.071, 0.097, 1.6)),
    "shoulder_width": ((13.70, 0.055, 0.126, 1.5), (16.44, 0.077, 0.106, 1.5)),  # caliper breadth + 3 for the tape
    "waist_height": ((-15.29, 0.031, 0.725, 2.2), (-15.04, 0.037, 0.707, 2.0)),
    "knee_height": ((-8.93, -0.009, 0.342, 1.5), (-10.86, -0.005, 0.352, 1.4)),
}

# A near neighbour that was taken says more than bust and stature. sd: (p99.5 - p0.5) / 5.15 of the ratio x the median.
_NEIGHBOURS: dict[str, tuple[Rule, Rule]] = {
    "neck_base_girth": (_taken("neck_girth", 1.10, 0.8), _taken("neck_girth", 1.08, 1.0)),
    "neck_girth": (_taken("neck_base_girth", 1 / 1.10, 0.7), _taken("neck_base_girth", 1 / 1.08, 0.9)),
    "hand_girth": (_taken("wrist_girth", 1.23, 0.7), _taken("wrist_girth", 1.23, 0.7)),
    "thigh_girth": (_taken("hip_girth", 0.60, 1.9), _taken("hip_girth", 0.61, 1.9)),
}

# Only for women, and only beside a taken upper chest: .68 + 1.089 x upper chest - .041 x stature.
_WOMANS_BUST = Rule(
    0.68 * CM, (("upper_chest_girth", 1.089), ("stature", -0.041)), 2.7 * CM, ADULT_SURVEY, only_from_taken=True
)

_FRONT_WOMAN = f"vertical medians 34.0 / 36.6, {ADULT_SURVEY}, + 6: our choice, because over the bust it is 4 to 8 more"
_FRONT_MAN = f"vertical medians 38.2 / 41.1, {ADULT_SURVEY}, + 2: our choice, because a chest is flatter than a bust"

_FROM_MEMORY = "share of stature, from memory; spread: our choice, because 5 % is usual"
# Children: lengths from stature; what is not asked is reckoned from girths and widths that were asked.
_CHILD: dict[str, Rule] = {
    "back_neck_point_to_waist": _share("stature", 0.226, 1.5, _FROM_MEMORY),
    "scye_depth": _share("stature", 0.118, 1.0, _FROM_MEMORY),
    "waist_height": _share("stature", 0.62, 3.0, _FROM_MEMORY),
    "knee_height": _share("stature", 0.27, 1.5, _FROM_MEMORY),
    "side_neck_point_to_bust_point": _share(
        "stature", 27.1 / 175.6, 1.5, f"men's medians, {ADULT_SURVEY}: our choice, because a child's chest is flat too"
    ),
    "side_neck_point_to_waist_front": _share(
        "back_neck_point_to_waist", 1.0, 1.5, "our choice, because the side neck lies about 2 cm above the nape", 2.0
    ),
    "waist_to_hip": _share(
        "stature",
        12 / 87,
        1.5,
        "our choice, because it joins the ends of the range: 10 cm at stature 97, 22 cm at 184",
        10 - 97 * 12 / 87,
    ),
    "neck_base_girth": _share(
        "neck_girth", 1.09, 0.8, f"median ratio of adults, {ADULT_SURVEY}: our choice, because children's are close"
    ),
    "upper_chest_girth": _share("bust_girth", 1.0, 1.5, "our choice, because a child's chest is level"),
    "under_bust_girth": _share("bust_girth", 0.95, 2.0, "our choice, because a child's ribs taper little"),
    "back_width": _share(
        "bust_girth", 0.39, 2.0, f"median ratio of women, {ADULT_SURVEY}: our choice, because children's are close"
    ),
    "elbow_girth": Rule(
        0.0,
        (("upper_arm_girth", 0.54), ("wrist_girth", 0.54)),
        1.0 * CM,
        f"1.08 x the mean of upper arm and wrist, medians of {ADULT_SURVEY}: our choice, because an arm tapers evenly",
    ),
    "shoulder_length": Rule(
        0.0,
        (("shoulder_width", 0.543), ("neck_base_girth", -0.217)),
        1.0 * CM,
        "(half width - neck base / 5) / cos 23 degrees, the slope after Taniyama et al. 1970: our choice, because it "
        "is what the draft itself has left for the shoulder",
    ),
    "thigh_girth": _share(
        "hip_girth", 0.60, 2.0, f"median ratio of women, {ADULT_SURVEY}: our choice, because children's are close"
    ),
}

# Legs and crotch, from memory, because nothing published stands behind them. A crotch depth is how far the waist lies
# above the seat of a chair, whose height is a share of the stature; it is held within what people have.
_REMEMBERED = "from memory; spread: our choice, because 5 % is usual"
_DEPTH_WITHIN: dict[Kind, _Range] = {"woman": (0.155, 0.20), "man": (0.145, 0.19), "child": (0.155, 0.20)}
_SEAT_HEIGHT: dict[Kind, float] = {"woman": 0.474, "man": 0.477, "child": 0.455}
_SEAT_HEIGHT_SMALL, _SMALL_UNTIL = 0.43, 7
_OF_THIGH = {"knee_girth": (0.625, 1.8), "calf_girth": (0.605, 1.8), "ankle_girth": (0.365, 1.1)}
_HEEL: dict[Kind, float] = {"woman": 0.19, "man": 0.194, "child": 0.19}


def _leg_rules(name: str, kind: Kind) -> tuple[Rule, ...]:
    """The rules of a measure of the leg or the crotch; none for any other."""
    if name == "crotch_depth":
        shares = [(_SEAT_HEIGHT_SMALL, _SMALL_UNTIL)] if kind == "child" else []
        return tuple(
            Rule(0.0, (("waist_height", 1.0), ("stature", -share)), 1.4 * CM, _REMEMBERED, until_age=until,
                 within=_DEPTH_WITHIN[kind])
            for share, until in (*shares, (_SEAT_HEIGHT[kind], None))
        )  # fmt: skip
    if name == "crotch_length":
        return (Rule(0.0, (("crotch_depth", 2.0), ("hip_girth", 0.135)), 2.0 * CM, _REMEMBERED),)
    if name in _OF_THIGH:
        factor, sd = _OF_THIGH[name]
        return (_share("thigh_girth", factor, sd, _REMEMBERED),)
    if name == "heel_girth":
        return (_share("stature", _HEEL[kind], 1.5, _REMEMBERED),)
    return ()


def _rules(name: str) -> dict[Kind, tuple[Rule, ...]]:
    rules: dict[Kind, tuple[Rule, ...]] = {kind: found for kind in KINDS if (found := _leg_rules(name, kind))}
    if name == "bust_girth":
        rules["woman"] = (_WOMANS_BUST,)
    if name == "side_neck_point_to_waist_front":
        rules["woman"] = (_share("back_neck_point_to_waist", 34.0 / 36.6, 1.5, _FRONT_WOMAN, 6.0),)
        rules["man"] = (_share("back_neck_point_to_waist", 38.2 / 41.1, 1.5, _FRONT_MAN, 2.0),)
    if name in _REGRESSIONS:
        woman, man = _REGRESSIONS[name]
        near = _NEIGHBOURS.get(name)
        rules["woman"] = (*(near[:1] if near else ()), _regression(*woman))
        rules["man"] = (*(near[1:] if near else ()), _regression(*man))
    if name in _CHILD:
        rules["child"] = (_CHILD[name],)
    return rules


# Where a garment is not set out from a measure that nothing gives, such as a skirt from the bust, something must still
# stand in for it: the figure is drawn from it, and other estimates rest on it. A girth near by that was taken gives it,
# else the stature alone. sd: (p99.5 - p0.5) / 5.15 of the ratio x the median, or (p99 - p1) / 4.65 of the measure.
_MIDDLE = f"ratio of the medians, {ADULT_SURVEY}"
_STANDS_IN_FOR_BUST: dict[Kind, tuple[Rule, ...]] = {
    "woman": (
        Rule(0.0, (("waist_girth", 90.1 / 71.9),), 4.1 * CM, _MIDDLE, only_from_taken=True),
        Rule(0.0, (("hip_girth", 90.1 / 96.7),), 4.6 * CM, _MIDDLE, only_from_taken=True),
        Rule(0.0, (("stature", 90.1 / 162.9),), 6.2 * CM, _MIDDLE),
    ),
    "man": (
        Rule(0.0, (("waist_girth", 99.9 / 84.6),), 4.1 * CM, _MIDDLE, only_from_taken=True),
        Rule(0.0, (("hip_girth", 99.9 / 99.5),), 4.2 * CM, _MIDDLE, only_from_taken=True),
        Rule(0.0, (("stature", 99.9 / 176.3),), 6.8 * CM, _MIDDLE),
    ),
}
_ENDS = "our choice, because it joins the ends of the range; spread: our choice, 8 % of the middle"
_CHILD_STATURES = 97.0, 184.0


def _stand_ins(name: str, child: tuple[float, float] | None) -> dict[Kind, tuple[Rule, ...]]:
    """The rules that stand in for a measure without any; a child's joins the ends of its range by the stature."""
    found = dict(_STANDS_IN_FOR_BUST) if name == "bust_girth" else {}
    if child is not None and name != "stature" and name not in _CHILD:
        low, high = _CHILD_STATURES
        factor = (child[1] - child[0]) / (high - low)
        found["child"] = (_share("stature", factor, 0.04 * sum(child), _ENDS, child[0] - factor * low),)
    return found


# name, label, clause, how, limit, child, woman, man: cm. Ranges: see the head of the file.
_Row = tuple[str, str, str, tuple[str, str], _Range, _Range | None, _Range, _Range]
_ROWS: tuple[_Row, ...] = (
    ("stature", "Stature", "5.1.1",
     ("Stand barefoot with the back to a wall.", "Lay a book level on the head. Measure from the floor up to it."),
     (75, 215), (97, 184), (148.6, 178.2), (160.9, 190.9)),
    ("head_girth", "Head girth", "",
     ("Take the tape round the largest part of the head.", "Pass above the ears and over the forehead."),
     (44, 66), (49, 58), (51.3, 58.5), (53.4, 60.6)),
    ("neck_girth", "Neck girth", "5.3.2",
     ("Take the tape round the middle of the neck.", "Keep it level, close but not tight."),
     (20, 55), (24, 37), (28.4, 35.6), (33.7, 42.8)),
    ("neck_base_girth", "Neck base girth", "",
     ("Stand the tape on its edge round the foot of the neck.",
      "It touches nape, side-neck points and the hollow of the throat."),
     (23, 60), (27, 40), (31.2, 38.7), (36.4, 46.0)),
    ("shoulder_width", "Shoulder width", "5.4.2",
     ("Measure from one shoulder point to the other.", "Let the tape lie over the back."),
     (20, 60), (24, 44), (34.9, 43.1), (38.7, 46.8)),  # adults: caliper range + 3 for the tape
    ("shoulder_length", "Shoulder length", "",
     ("Start at the side-neck point.", "Measure along the shoulder to the shoulder point."),
     (5, 20), (7.5, 14), (12.0, 17.0), (12.4, 17.7)),
    ("back_width", "Back width", "",
     ("Let both arms hang.", "Measure across the back from arm crease to arm crease."),
     (18, 55), (20, 38), (29.5, 41.8), (33.3, 47.7)),
    ("bust_girth", "Bust girth", "5.3.4",
     ("Take the tape under the armpits and over the fullest part.", "Keep it level all round, and breathe easily."),
     (45, 170), (53, 95), (78.5, 107.4), (84.7, 116.4)),
    ("upper_chest_girth", "Upper chest girth", "",
     ("Take the tape high under the arms.", "Keep it level, above the fullest part of the bust."),
     (45, 160), None, (77.7, 102.9), (88.6, 117.9)),
    ("under_bust_girth", "Under-bust girth", "5.3.6",
     ("Take the tape directly under the breast.", "Keep it level all round."),
     (45, 150), None, (67.3, 91.5), (79, 109)),
    ("waist_girth", "Waist girth", "5.3.10",
     ("Tie a cord between the lowest rib and the hip bone.", "Measure round along the cord, without pulling in."),
     (40, 170), (46, 87), (60.9, 90.5), (69.9, 103.3)),
    ("hip_girth", "Hip girth", "5.3.13",
     ("Stand with the feet together.", "Take the tape level over the fullest part of the seat."),
     (45, 180), (56, 105), (84.3, 112.6), (84.8, 113.4)),
    ("scye_depth", "Scye depth", "",
     ("Hold a ruler level under the arm, across the back.", "Measure from the nape straight down to it."),
     (9, 32), (12, 21), (15.3, 22.1), (17.9, 25.1)),
    ("back_neck_point_to_waist", "Nape to waist", "5.4.5",
     ("Bend the head to find the bone at the nape.", "Measure from it down the spine to the waist cord."),
     (18, 55), (22, 42), (31.5, 42.9), (36.1, 46.8)),
    ("side_neck_point_to_bust_point", "Side neck to bust point", "",
     ("Start at the side-neck point.", "Measure down to the fullest point of the bust."),
     (15, 45), None, (22.0, 32.5), (23.3, 32)),
    # Adults: vertical p5 to p95 + 0 (man) or + 4 (woman) below, + 4 or + 8 above for the way over the bust: our choice.
    ("side_neck_point_to_waist_front", "Side neck to waist, front", "",
     ("Start at the side-neck point.", "Measure over the bust and down to the waist cord."),
     (20, 62), (24, 46), (34.4, 45.9), (34.9, 45.6)),
    ("waist_to_hip", "Waist to hip", "",
     ("Measure at the side, from the waist cord down.", "Stop level with the fullest part of the seat."),
     (6, 34), (10, 22), (14.3, 28.0), (18.9, 28.8)),
    ("arm_length", "Arm length", "5.7.8",
     ("Bend the arm a little.", "Measure from the shoulder point over the elbow to the wrist bone."),
     (25, 80), (36, 63), (48.0, 62.1), (53.4, 67.2)),
    ("upper_arm_girth", "Upper arm girth", "5.3.16",
     ("Let the arm hang loose.", "Take the tape round its fullest part."),
     (12, 60), (15, 32), (24.1, 35.3), (27.5, 40.4)),
    ("elbow_girth", "Elbow girth", "",
     ("Hold the arm straight.", "Take the tape round the elbow."),
     (13, 45), (15, 27), (21.0, 27.3), (24.4, 31.4)),
    ("wrist_girth", "Wrist girth", "5.3.19",
     ("Find the bone at the outside of the wrist.", "Take the tape round over it."),
     (9, 26), (11, 17), (13.6, 16.8), (15.6, 19.4)),
    ("hand_girth", "Hand girth", "",
     ("Tuck the thumb into the palm.", "Take the tape round over the knuckles."),
     (11, 30), (13, 21), (16.7, 20.7), (19.2, 23.7)),
    ("waist_height", "Waist height", "",
     ("Stand barefoot.", "Measure at the side from the waist cord to the floor."),
     (40, 140), (55, 112), (94.1, 118.2), (100.9, 125.1)),
    ("knee_height", "Knee height", "",
     ("Stand barefoot with the leg straight.", "Measure from the middle of the kneecap to the floor."),
     (18, 65), (25, 55), (39.9, 52.4), (44.4, 56.9)),
    ("thigh_girth", "Thigh girth", "5.3.20",
     ("Stand with the feet a little apart.", "Take the tape level, just below the fold of the seat."),
     (22, 100), (28, 60), (48.2, 69.4), (48.7, 71.4)),
    ("crotch_depth", "Crotch depth", "",
     ("Sit upright on a flat chair.", "Measure at the side from the waist cord down to the seat of the chair."),
     (11, 45), (15, 32), (23.5, 34.5), (24.0, 35.0)),
    ("crotch_length", "Crotch length", "",
     ("Begin at the waist cord in front.", "Lead the tape between the legs up to the cord behind."),
     (30, 125), (38, 76), (57.0, 84.0), (58.0, 86.0)),
    ("knee_girth", "Knee girth", "",
     ("Stand with the leg straight.", "Take the tape round the middle of the kneecap."),
     (14, 75), (18, 40), (30.0, 43.0), (32.0, 44.5)),
    ("calf_girth", "Calf girth", "",
     ("Stand on both feet.", "Take the tape round the fullest part of the calf."),
     (13, 75), (17, 39), (29.5, 42.5), (31.5, 44.5)),
    ("ankle_girth", "Ankle girth", "",
     ("Stand on both feet.", "Take the tape round the leg just above the ankle bones."),
     (9, 45), (11, 24), (17.5, 25.5), (19.0, 27.0)),
    ("heel_girth", "Heel girth", "",
     ("Lift the heel off the floor a little.", "Take the tape round the point of the heel and over the instep."),
     (14, 50), (18, 36), (27.5, 35.0), (30.5, 38.5)),
)  # fmt: skip


def _mm(span: _Range) -> _Range:
    return span[0] * CM, span[1] * CM


def _measure(row: _Row) -> Measure:
    name, label, iso, how, limit, child, woman, man = row
    ranges: dict[Kind, _Range] = {"woman": _mm(woman), "man": _mm(man)}
    if child is not None:
        ranges["child"] = _mm(child)
    flat = "Chest girth" if name == "bust_girth" else "Side neck to chest level" if "bust_point" in name else ""
    remembered = any(_leg_rules(name, kind) for kind in KINDS)
    source = (
        f"usual range from memory; limit: {LIMIT_SOURCE}"
        if remembered
        else f"adults p1 to p99, {ADULT_SURVEY}; {CHILD_RANGE}; limit: {LIMIT_SOURCE}"
    )
    stand_ins = _stand_ins(name, child)
    return Measure(name, label, iso, how, _mm(limit), ranges, _rules(name), source, flat, stand_ins)


#: Every measure by its name, in the order in which a person would take them.
MEASURES: dict[str, Measure] = {row[0]: _measure(row) for row in _ROWS}

#: (measure, against, women low and high, men low and high): ratios p0.5 and p99.5 of ADULT_SURVEY; outside warns.
RATIO_BANDS: tuple[tuple[str, str, _Range, _Range], ...] = (
    ("neck_base_girth", "bust_girth", (0.329, 0.439), (0.357, 0.469)),
    ("neck_girth", "bust_girth", (0.302, 0.395), (0.333, 0.431)),
    ("neck_base_girth", "neck_girth", (1.04, 1.17), (1.02, 1.15)),
    ("waist_girth", "bust_girth", (0.71, 0.90), (0.76, 0.94)),
    ("hip_girth", "bust_girth", (0.94, 1.22), (0.89, 1.10)),
    ("hip_girth", "waist_girth", (1.13, 1.53), (1.03, 1.31)),
    ("shoulder_length", "stature", (0.073, 0.106), (0.069, 0.100)),
    ("back_width", "bust_girth", (0.33, 0.45), (0.35, 0.47)),
    ("back_neck_point_to_waist", "stature", (0.192, 0.265), (0.208, 0.262)),
    ("side_neck_point_to_bust_point", "bust_girth", (0.25, 0.355), (0.24, 0.315)),
    ("scye_depth", "stature", (0.094, 0.136), (0.100, 0.144)),
    ("upper_arm_girth", "bust_girth", (0.28, 0.365), (0.30, 0.38)),
    ("wrist_girth", "upper_arm_girth", (0.43, 0.63), (0.44, 0.62)),
    ("hand_girth", "wrist_girth", (1.12, 1.35), (1.13, 1.33)),
    ("arm_length", "stature", (0.305, 0.367), (0.316, 0.372)),
    ("waist_height", "stature", (0.611, 0.684), (0.612, 0.673)),
    ("knee_height", "stature", (0.258, 0.305), (0.266, 0.311)),
    ("thigh_girth", "hip_girth", (0.55, 0.65), (0.55, 0.65)),
)

#: What of a child is a length.
CHILD_LENGTHS = frozenset(
    ("stature", "shoulder_length", "scye_depth", "back_neck_point_to_waist", "side_neck_point_to_waist_front",
     "waist_to_hip", "arm_length", "waist_height", "knee_height", "crotch_depth", "crotch_length")
)  # fmt: skip

#: Middle stature by age, girls and boys, mm: p50 of CHILD_SURVEY from 4 years, of SMALL_CHILD_SURVEY before.
CHILD_STATURE: tuple[tuple[int, float, float], ...] = (
    (1, 740, 757),
    (2, 857, 871),
    (3, 951, 961),
    (4, 1050, 1060),
    (6, 1170, 1180),
    (8, 1290, 1310),
    (10, 1410, 1410),
    (12, 1530, 1520),
    (14, 1600, 1630),
    (16, 1630, 1750),
)


def child_stature(age: int) -> float:
    """The middle stature of children of an age, girls and boys, mm; past the last age that of the last.

    Our choice, because girls have then done growing and boys nearly.
    """
    first, last = CHILD_STATURE[0][0], CHILD_STATURE[-1][0]
    held = min(max(age, first), last)
    (young, *before), (old, *after) = next(pair for pair in pairwise(CHILD_STATURE) if held <= pair[1][0])
    share = (held - young) / (old - young)
    return math.fsum(before) / 2 * (1 - share) + math.fsum(after) / 2 * share
