"""The choices for `poncho`: what may be asked, its defaults and its limits."""

import math
from dataclasses import dataclass
from typing import Final

from pydantic import BaseModel, ConfigDict, Field

from drafting import sources
from drafting.parts.neck import NeckKind
from drafting.parts.reading import Length, StyleReader, side_neck_to
from drafting.person.measures import Body
from drafting.problems import Problem
from drafting.units import Unit

#: What somebody who begins chooses. Our choice.
FIRST: Final = ("length", "neck")
LENGTH_WORDS: Final = ("waist", "hip", "mid_thigh", "knee")
#: How far the seam over shoulder and arm falls below level, radians: ours, the least and the most. Our choice: a level
#: one throws folds at the neck, and a steeper one than the most holds the arms to the body.
SLOPE, SLOPE_LIMITS = math.radians(25.0), (math.radians(15.0), math.radians(40.0))
#: Allowances when none are given, mm. Common practice, no source.
ALLOWANCES: Final = {"shoulder": 10.0, "hem": 15.0, "neck": 10.0}
#: The least and the most that an allowance may be, mm (our choice, as on other garments).
ALLOWANCE_LIMITS: Final = (3.0, 60.0)


class Allowances(BaseModel):
    """Allowance outside each edge of the stitch line; null keeps the default."""

    model_config = ConfigDict(frozen=True, extra="forbid")
    shoulder: Length | None = None
    hem: Length | None = None
    neck: Length | None = None


class Style(BaseModel):
    """What a person chooses. A bare number is in the person's unit; a text carries its own; angles are degrees."""

    model_config = ConfigDict(frozen=True, extra="forbid")
    length: Length = "hip"
    neck: NeckKind = "round"
    shoulder_slope: float | None = Field(default=None, allow_inf_nan=False)
    allowances: Allowances = Allowances()


@dataclass(frozen=True, slots=True)
class Choices:
    """A style read for one body: millimetres and radians."""

    length: float
    neck: NeckKind
    slope: float
    shoulder: float
    hem: float
    neck_allowance: float
    allowances_given: frozenset[str] = frozenset()


def read_style(style: Style, unit: Unit, body: Body) -> tuple[Choices | None, tuple[Problem, ...]]:
    """Reads a style for one body: choices in mm and radians, or every problem with its field."""
    read = StyleReader(unit)
    given = frozenset(key for key in ALLOWANCES if getattr(style.allowances, key) is not None)
    allow = {
        key: read.length(f"allowances.{key}", getattr(style.allowances, key), *ALLOWANCE_LIMITS)
        if key in given
        else usual
        for key, usual in ALLOWANCES.items()
    }
    slope = style.shoulder_slope
    choices = Choices(
        length=_length(read, style, body),
        neck=style.neck,
        slope=SLOPE if slope is None else read.degrees("shoulder_slope", slope, *map(math.degrees, SLOPE_LIMITS)),
        shoulder=allow["shoulder"],
        hem=allow["hem"],
        neck_allowance=allow["neck"],
        allowances_given=given,
    )
    refused = any(problem.severity == "refuse" for problem in read.problems)
    return (None if refused else choices), tuple(read.problems)


def length_to(body: Body, word: str) -> float:
    """How far a hem lies below the side-neck level, mm."""
    if word == "waist":
        return body.back_neck_point_to_waist + sources.NAPE_ABOVE_SIDE_NECK
    return side_neck_to(body, word)


def _length(read: StyleReader, style: Style, body: Body) -> float:
    if isinstance(style.length, str) and style.length in LENGTH_WORDS:
        return length_to(body, style.length)
    shortest = length_to(body, "waist") - 0.05 * body.stature
    return read.length("length", style.length, shortest, length_to(body, "knee") + 0.03 * body.stature)
