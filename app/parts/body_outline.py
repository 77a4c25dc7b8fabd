"""Our own outline of a body, front, back and side, grown and child, and where each measure's tape lies on it.

Lengths are parts of the stature: 0 at the crown, 100 at the sole; across from the middle of the body, right positive.
The outline is drawn by eye to common proportions (a grown body seven and a half heads high, a child five to seven by
its age), plain and the same for all of a kind, because it shows where a tape goes and not what anyone looks like. Our
choice.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final, Literal

from drafting.contract.front_view import child_head
from drafting.person.measures import Kind

Place = tuple[float, float]
View = Literal["front", "back", "side"]

# The right half of a body from the front, once round: neck, shoulder, arm, side, leg, up the inside.
_NECK_TO_HAND: Final[tuple[Place, ...]] = (
    (2.55, 11.2), (2.65, 13.6), (3.3, 15.3), (6.6, 16.5), (9.6, 17.5), (11.3, 19.6), (12.1, 23.5), (13.2, 29.0),
    (14.5, 34.6), (15.6, 38.6), (16.6, 43.4), (17.2, 46.9), (18.2, 49.2), (18.9, 52.3), (18.6, 55.0), (17.6, 56.1),
    (16.8, 54.6), (16.4, 52.0), (15.8, 52.6), (15.3, 51.2), (15.5, 48.9), (15.2, 46.7), (13.9, 42.6), (12.7, 38.6),
    (11.6, 35.0), (10.3, 30.6), (9.05, 25.6),
)  # fmt: skip
_ARMPIT_TO_FORK: Final[tuple[Place, ...]] = (
    (9.05, 25.6), (8.75, 29.0), (8.1, 33.4), (7.75, 38.0), (8.3, 42.4), (9.2, 47.2), (9.55, 51.6), (9.1, 58.0),
    (8.0, 65.6), (7.1, 71.6), (6.95, 75.0), (7.2, 79.6), (6.4, 86.6), (5.25, 93.2), (5.3, 95.6), (6.5, 98.0),
    (6.6, 99.4), (4.6, 99.9), (2.7, 99.5), (2.45, 96.4), (2.5, 93.4), (2.1, 87.0), (1.75, 80.0), (2.1, 74.6),
    (1.9, 70.8), (1.2, 63.0), (0.35, 53.4),
)  # fmt: skip
_HEAD: Final[tuple[Place, ...]] = (
    (0.0, 0.0), (2.6, 0.7), (4.3, 2.9), (4.55, 6.0), (4.0, 9.4), (2.4, 12.4), (0.0, 13.5),
)  # fmt: skip
# From the side, facing right, once round from the nape: back, seat, leg, foot, belly, chest, throat, face, skull.
_SIDE: Final[tuple[Place, ...]] = (
    (-3.0, 13.6), (-4.1, 16.4), (-5.6, 20.4), (-6.1, 25.0), (-5.4, 31.0), (-4.2, 37.2), (-4.9, 42.4), (-6.6, 47.4),
    (-6.5, 51.4), (-5.0, 56.4), (-4.4, 64.0), (-3.3, 71.6), (-3.9, 77.4), (-3.5, 84.4), (-2.3, 92.6), (-2.9, 97.0),
    (-2.6, 99.6), (1.0, 99.9), (6.8, 99.7), (7.2, 98.5), (4.6, 96.9), (1.5, 94.0), (1.0, 87.4), (1.2, 80.0),
    (2.2, 73.0), (3.0, 68.4), (4.2, 60.0), (4.7, 52.4), (4.9, 46.8), (4.5, 41.6), (4.3, 37.0), (5.0, 31.6),
    (5.6, 27.2), (4.9, 22.2), (2.9, 17.4), (2.0, 15.4), (2.3, 13.4), (4.3, 13.3), (4.9, 11.4), (5.0, 9.5),
    (5.75, 8.4), (5.0, 6.4), (4.7, 3.4), (2.6, 0.6), (-0.6, 0.1), (-3.5, 1.7), (-4.7, 5.0), (-4.2, 8.6),
    (-3.0, 11.0),
)  # fmt: skip
# What a chest is without a bust, from the side.
_FLAT_CHEST: Final[dict[Place, Place]] = {(5.0, 31.6): (4.55, 31.6), (5.6, 27.2): (4.7, 27.2), (4.9, 22.2): (4.5, 22.2)}
# The arm over the side view, a little bent, once round.
_SIDE_ARM: Final[tuple[Place, ...]] = (
    (-1.0, 17.8), (-2.7, 19.8), (-3.0, 24.4), (-2.6, 30.0), (-2.3, 34.8), (-1.6, 38.0), (-0.1, 42.4), (1.4, 46.6),
    (1.4, 50.6), (2.2, 54.0), (3.4, 55.4), (4.4, 53.6), (4.6, 50.4), (3.6, 46.6), (2.7, 42.0), (1.7, 37.4),
    (1.5, 33.4), (1.6, 28.0), (1.6, 22.4), (0.9, 19.0),
)  # fmt: skip

# Heights that keep their place in the body, grown and child; between them heights run evenly. How high a child's head
# is depends on its age: the first heights below it move with it.
_GROWN_AT: Final = (0.0, 13.5, 17.5, 25.6, 38.0, 48.0, 53.4, 72.0, 100.0)
_BELOW_HEAD: Final = (3.8, 12.2)
_CHILD_AT: Final = (42.0, 51.4, 57.0, 74.4, 100.0)
#: How much wider a child is at those heights than a woman, and a man.
_CHILD_WIDER: Final = (1.26, 1.26, 1.02, 1.06, 1.2, 1.06, 1.08, 1.12, 1.1)
_MAN_WIDER: Final = (1.0, 1.1, 1.08, 1.1, 1.13, 0.97, 0.97, 1.0, 1.04)

#: The arms keep one measure of their own, so that they stay straight; they begin between these places across.
_CHILD_ARMS: Final = 1.06
_MAN_ARMS: Final = 1.09
_ARM_FROM: Final = (9.3, 11.0)
#: A child's age where none is known, years: our choice, because most who are measured go to school.
_USUAL_AGE: Final = 7.0

Placing = Callable[[Place], Place]
"""Where a place of the drawn outline lies on another body."""


def placing(kind: Kind, age: float | None = None) -> Placing:
    """Where places lie on a body of this kind, a child's by its age in years."""
    if kind == "woman":
        return lambda place: place
    if kind == "man":
        return lambda place: _placed(place, _GROWN_AT, _MAN_WIDER, _MAN_ARMS)
    head = 100 * child_head(_USUAL_AGE if age is None else age)
    at = (0.0, head, *(head + each for each in _BELOW_HEAD), *_CHILD_AT)
    return lambda place: _placed(place, at, _CHILD_WIDER, _CHILD_ARMS)


def _placed(place: Place, at: Sequence[float], wider: Sequence[float], arms: float) -> Place:
    x, y = place
    clamped = min(max(y, 0.0), 100.0)
    for (low, high), (start, end), (wide, more) in zip(pairwise(_GROWN_AT), pairwise(at), pairwise(wider), strict=True):
        if clamped <= high:
            share = (clamped - low) / (high - low)
            body = wide + (more - wide) * share
            arm = min(max((abs(x) - _ARM_FROM[0]) / (_ARM_FROM[1] - _ARM_FROM[0]), 0.0), 1.0)
            return x * (body + (arms - body) * arm), start + (end - start) * share + (y - clamped)
    return x, y


@dataclass(frozen=True, slots=True)
class Outline:
    """A closed run of places that are joined smoothly."""

    places: tuple[Place, ...]


def outlines(view: View, kind: Kind, age: float | None = None) -> tuple[Outline, ...]:
    """The outlines of one view, back to front. Only a woman's has a bust."""
    if view == "side":
        side = _SIDE if kind == "woman" else tuple(_FLAT_CHEST.get(at, at) for at in _SIDE)
        runs: tuple[Sequence[Place], ...] = (side, _SIDE_ARM)
    else:
        half = [*_NECK_TO_HAND, *_ARMPIT_TO_FORK[1:]]
        other = [(-x, y) for x, y in reversed(half)]
        head = [*_HEAD, *((-x, y) for x, y in reversed(_HEAD[1:-1]))]
        runs = ([*half, *other], head)
    place = placing(kind, age)
    return tuple(Outline(tuple(place(at) for at in run)) for run in runs)


def smooth(places: Sequence[Place], closed: bool = True) -> list[tuple[Place, Place, Place]]:
    """Cubic pieces (two controls and an end) through all places, from the first: Catmull and Rom 1974, uniform."""
    count = len(places)
    pieces: list[tuple[Place, Place, Place]] = []
    for index in range(count if closed else count - 1):
        if closed:
            before, start, end, after = (places[(index + step) % count] for step in (-1, 0, 1, 2))
        else:
            before, after = places[max(index - 1, 0)], places[min(index + 2, count - 1)]
            start, end = places[index], places[index + 1]
        one = (start[0] + (end[0] - before[0]) / 6, start[1] + (end[1] - before[1]) / 6)
        two = (end[0] - (after[0] - start[0]) / 6, end[1] - (after[1] - start[1]) / 6)
        pieces.append((one, two, end))
    return pieces


@dataclass(frozen=True, slots=True)
class Tape:
    """Where the tape lies: round the body (`round`: middle, half width, lean) or along a line (`line`).

    `beside` marks a height measured beside the body. `full` shows the whole body instead of what lies round the tape.
    """

    view: View
    round: tuple[Place, float, float] | None = None
    line: tuple[Place, ...] = ()
    full: bool = False
    beside: bool = False


#: The place of every measure of drafting.person.measures.
TAPES: Final[dict[str, Tape]] = {
    "stature": Tape("front", line=((21.5, 0.0), (21.5, 100.0)), full=True, beside=True),
    "waist_height": Tape("front", line=((21.5, 38.0), (21.5, 100.0)), full=True, beside=True),
    "knee_height": Tape("front", line=((13.0, 72.8), (13.0, 100.0)), full=True, beside=True),
    "head_girth": Tape("front", round=((0.0, 4.6), 4.6, 0.0)),
    "neck_girth": Tape("front", round=((0.0, 13.9), 2.75, 0.0)),
    "neck_base_girth": Tape("front", round=((0.0, 15.6), 3.6, 0.0)),
    "shoulder_width": Tape("back", line=((-9.7, 17.5), (-4.0, 16.6), (0.0, 16.3), (4.0, 16.6), (9.7, 17.5))),
    "shoulder_length": Tape("front", line=((3.3, 15.3), (6.6, 16.5), (9.6, 17.5))),
    "back_width": Tape("back", line=((-8.9, 22.6), (0.0, 22.2), (8.9, 22.6))),
    "bust_girth": Tape("front", round=((0.0, 27.4), 8.95, 0.0)),
    "upper_chest_girth": Tape("front", round=((0.0, 24.2), 9.2, 0.0)),
    "under_bust_girth": Tape("front", round=((0.0, 30.8), 8.5, 0.0)),
    "waist_girth": Tape("front", round=((0.0, 38.0), 7.75, 0.0)),
    "hip_girth": Tape("front", round=((0.0, 49.4), 9.45, 0.0)),
    "scye_depth": Tape("back", line=((0.0, 15.2), (0.0, 25.5))),
    "back_neck_point_to_waist": Tape("back", line=((0.0, 15.2), (0.0, 38.0))),
    "side_neck_point_to_bust_point": Tape("front", line=((3.2, 15.2), (4.0, 20.0), (4.4, 27.4))),
    "side_neck_point_to_waist_front": Tape("front", line=((3.2, 15.2), (4.0, 20.0), (4.5, 27.4), (4.2, 38.0))),
    "waist_to_hip": Tape("front", line=((7.75, 38.0), (8.3, 42.4), (9.3, 47.4), (9.5, 49.4))),
    "arm_length": Tape(
        "side", line=((-0.6, 18.4), (-1.9, 24.0), (-2.0, 30.0), (-1.7, 35.2), (-0.2, 40.6), (1.5, 46.6))
    ),
    "upper_arm_girth": Tape("front", round=((11.5, 28.8), 1.7, -0.22)),
    "elbow_girth": Tape("front", round=((13.35, 36.3), 1.45, -0.27)),
    "wrist_girth": Tape("front", round=((16.2, 46.9), 1.05, -0.27)),
    "hand_girth": Tape("front", round=((17.15, 50.4), 1.6, -0.2)),
    "thigh_girth": Tape("front", round=((5.05, 56.2), 4.3, 0.0)),
    "crotch_depth": Tape("front", line=((7.75, 38.0), (8.3, 42.4), (9.3, 47.4), (9.55, 51.6), (9.4, 54.2))),
    "crotch_length": Tape(
        "side",
        line=(
            (4.3, 38.0),
            (4.8, 44.0),
            (4.7, 50.6),
            (2.6, 54.6),
            (-1.6, 55.0),
            (-5.2, 53.2),
            (-6.5, 48.0),
            (-4.9, 42.4),
            (-4.25, 38.0),
        ),
    ),
    "knee_girth": Tape("front", round=((4.5, 72.6), 2.55, 0.0)),
    "calf_girth": Tape("front", round=((4.55, 79.4), 2.75, 0.0)),
    "ankle_girth": Tape("front", round=((3.85, 93.2), 1.45, 0.0)),
    "heel_girth": Tape("side", round=((-0.5, 96.6), 2.9, -0.72)),
}

_ROUND_ABOUT: Final = 8.0
_LEAST_SHOWN: Final = 28.0
_BESIDE: Final = 3.0
HALF_WIDE: Final = 24.0
"""From the middle of the body past its arms and the tape beside it."""


def shown(tape: Tape | None, place: Placing) -> tuple[float, float]:
    """From where to where down the body the figure is shown, so that the tape's place is large and still recognised."""
    if tape is None or tape.full:
        return -2.5, 102.5
    runs = [place((tape.round[0][0], tape.round[0][1]))] if tape.round else [place(at) for at in tape.line]
    top, foot = min(y for _, y in runs) - _ROUND_ABOUT, max(y for _, y in runs) + _ROUND_ABOUT
    more = max(_LEAST_SHOWN - (foot - top), 0.0) / 2
    top, foot = top - more, foot + more
    lower = max(-3.0 - top, 0.0)
    return top + lower, foot + lower


def framed(tape: Tape | None, place: Placing, width: float, height: float) -> tuple[float, float, float]:
    """Left, top and how many px a hundredth of the body is, so that a picture of this size has the whole tape in it.

    On a broad page the figure is so large that an arm would lie beside the picture, so what is shown moves to it; on a
    narrow and high one it becomes smaller. Where the tape is seen anyway, the body stands in the middle.
    """
    top, foot = shown(tape, place)
    scale = height / (foot - top)
    places = tape.line if tape is not None else ()
    if tape is not None and tape.round is not None:
        (x, y), half, _ = tape.round
        places = (x - half, y), (x + half, y)
    across = [place(at)[0] for at in places] or [0.0]
    first, last = min(across) - _BESIDE, max(across) + _BESIDE
    if tape is None or tape.full:
        last = max(last, -first, HALF_WIDE)
        first = -last
    scale = min(scale, width / (last - first))
    seen, long = width / scale, height / scale
    centre = max(last - seen / 2, 0.0) + min(first + seen / 2, 0.0)
    return centre - seen / 2, max((top + foot - long) / 2, -3.0), scale
