"""Reads what a style asks for, one field after the other, and keeps the problems; and the landmarks a hem may reach."""

import math
from collections.abc import Collection

from drafting import sources
from drafting.person.measures import Body
from drafting.problems import Problem
from drafting.units import LengthProblem, Unit, read_length, say_length

Length = float | str


def side_neck_to(body: Body, landmark: str) -> float:
    """Distance on the cloth from the side-neck level down to a hem landmark, mm."""
    waist = body.back_neck_point_to_waist + sources.NAPE_ABOVE_SIDE_NECK
    hip = waist + body.waist_to_hip
    knee = waist + body.waist_height - body.knee_height
    ankle = waist + body.waist_height - sources.ANKLE_SHARE * body.stature
    return {
        "hip": hip + sources.HIP_LENGTH_SHARE * body.stature,
        "mid_thigh": knee - sources.MID_THIGH_SHARE * (knee - hip),
        "knee": knee + sources.KNEE_LENGTH_SHARE * body.stature,
        "mid_calf": (knee + ankle) / 2,
        "ankle": ankle,
    }[landmark]


class StyleReader:
    """Reads one style field after the other and keeps the problems."""

    def __init__(self, unit: Unit) -> None:
        self.unit = unit
        self.problems: list[Problem] = []

    def refuse(self, key: str, wrong: str, fix: str) -> None:
        """Keeps a problem at a key of the style that refuses it."""
        self.problems.append(Problem("style", f"style.{key}", "refuse", wrong, fix))

    def length(self, key: str, given: Length, low: float, high: float) -> float:
        """A length in mm within limits; on a problem the nearer limit, the problem being kept."""
        found = read_length(given, self.unit)
        if isinstance(found, LengthProblem):
            self.refuse(key, found.wrong, found.fix)
            return low
        if not low - 1e-6 <= found <= high + 1e-6:
            least, most = say_length(low, self.unit), say_length(high, self.unit)
            which = "short" if found < low else "long"
            self.refuse(key, f"{say_length(found, self.unit)} is too {which}", f"give {least} to {most}")
        return min(max(found, low), high)

    def maybe(self, key: str, given: Length | None, low: float, high: float, word: str = "auto") -> float | None:
        """As `length`, but None for null and for the word that leaves it to us."""
        if given is None or given == word:
            return None
        return self.length(key, given, low, high)

    def known(self, given: Length) -> float:
        """A length in mm where one is given that can be read, and else 0; no problem is kept."""
        found = read_length(given, self.unit)
        return 0.0 if isinstance(found, LengthProblem) else found

    def ease(self, key: str, given: Length) -> float | None:
        """Ease round the whole body in mm, −300 to 600; a minus sign before it makes the garment smaller."""
        if given == "auto":
            return None
        found = read_length(given, self.unit, signed=True)
        if isinstance(found, LengthProblem):
            self.refuse(key, found.wrong, found.fix)
            return None
        if not -300.0 <= found <= 600.0:
            most = say_length(600.0, self.unit)
            self.refuse(key, f"{given} of ease is out of reach", f"give at most {most}, or a smaller minus")
        return found

    def degrees(self, key: str, given: float, low: float, high: float) -> float:
        """An angle in radians within limits given in degrees."""
        if not low - 1e-9 <= given <= high + 1e-9:
            self.refuse(key, f"{given:g} degrees is out of reach", f"give {low:g} to {high:g} degrees")
        return math.radians(min(max(given, low), high))


def hem_length(
    read: StyleReader, given: Length, body: Body, landmarks: Collection[str], shortest: float, wrong: str
) -> float:
    """How far below the side-neck level the hem lies, mm: at a landmark, or at a length of one's own.

    It lies at `shortest` at least; a landmark above that is refused in the words of `wrong`.
    """
    if isinstance(given, str) and given in landmarks:
        found = side_neck_to(body, given)
        if found < shortest - 1e-6:
            read.refuse("length", wrong, "measure waist height and knee height again, or give the length itself")
        return max(found, shortest)
    return read.length("length", given, shortest, side_neck_to(body, "ankle") + 0.03 * body.stature)
