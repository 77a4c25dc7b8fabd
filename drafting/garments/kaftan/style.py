"""The choices for `kaftan`: what may be asked, its defaults and its limits."""

import math
from dataclasses import dataclass
from typing import Final, Literal

from pydantic import BaseModel, ConfigDict, Field

from drafting import sources
from drafting.parts.pockets import PocketsChoice, read_pockets
from drafting.parts.reading import Length, StyleReader, hem_length, side_neck_to
from drafting.person.measures import Body
from drafting.problems import Problem
from drafting.units import Unit

#: What somebody who begins chooses. Our choice.
FIRST: Final = ("length", "sleeve_length", "sleeve_shape")
LENGTH_WORDS: Final = ("hip", "mid_thigh", "knee", "mid_calf", "ankle")
#: Allowances when none are given, mm. Common practice, no source.
ALLOWANCES: Final = {
    "shoulder": 15.0,
    "side": 15.0,
    "hem": 30.0,
    "sleeve_end": 30.0,
    "neck": 10.0,
    "sleeve_joint": 15.0,
}
#: The least and the most that an allowance may be, mm (our choice, as on other garments).
ALLOWANCE_LIMITS: Final = (3.0, 60.0)
#: Ease at the bust that may be asked for, mm. Our choice: less binds, more hangs in folds.
EASE_LIMITS: Final = (60.0, 600.0)
#: A neck slit that may be asked for, and a girth of the sleeve end, mm. Our choice.
SLIT_LIMITS: Final = (30.0, 400.0)
END_LIMITS: Final = (120.0, 900.0)


class Allowances(BaseModel):
    """Allowance outside each edge of the stitch line; null keeps the default."""

    model_config = ConfigDict(frozen=True, extra="forbid")
    shoulder: Length | None = None
    side: Length | None = None
    hem: Length | None = None
    sleeve_end: Length | None = None
    neck: Length | None = None
    sleeve_joint: Length | None = None


class Style(BaseModel):
    """What a person chooses. A bare number is in the person's unit; a text carries its own; angles are degrees."""

    model_config = ConfigDict(frozen=True, extra="forbid")
    length: Length = "mid_calf"
    sleeve_length: Length = "wrist"
    sleeve_shape: Literal["tapered", "straight"] = "tapered"
    sleeve_end_girth: Length = "auto"
    lower_sleeve: Literal["whole", "joined"] = "whole"
    neck_slit: Length = "auto"
    ease_bust: Length = "auto"
    overarm_angle: float | None = Field(default=None, allow_inf_nan=False)
    slit: Length = "auto"
    pockets: PocketsChoice = "none"
    allowances: Allowances = Allowances()


@dataclass(frozen=True, slots=True)
class Choices:
    """A style read for one body: millimetres and radians; None leaves a length to the draft."""

    length: float
    sleeve_length: float
    tapered: bool
    sleeve_end_girth: float | None
    joined: bool
    neck_slit: float | None
    ease_bust: float | None
    overarm: float
    slit: float | None
    allowances: dict[str, float]
    allowances_given: frozenset[str] = frozenset()
    pockets: PocketsChoice = "none"


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
    angle = style.overarm_angle
    length = _length(read, style, body)
    choices = Choices(
        length=length,
        sleeve_length=_sleeve(read, style, body),
        tapered=style.sleeve_shape == "tapered",
        sleeve_end_girth=read.maybe("sleeve_end_girth", style.sleeve_end_girth, *END_LIMITS),
        joined=style.lower_sleeve == "joined",
        neck_slit=read.maybe("neck_slit", style.neck_slit, *SLIT_LIMITS),
        ease_bust=read.maybe("ease_bust", style.ease_bust, *EASE_LIMITS),
        overarm=sources.KAFTAN_OVERARM
        if angle is None
        else read.degrees("overarm_angle", angle, 0.0, math.degrees(sources.KAFTAN_OVERARM_MOST)),
        slit=0.0 if style.slit == "none" else read.maybe("slit", style.slit, 10.0, 900.0),
        allowances=allow,
        allowances_given=given,
        pockets=read_pockets(read, style.pockets, body, length, slit=read.known(style.slit)),
    )
    refused = any(problem.severity == "refuse" for problem in read.problems)
    return (None if refused else choices), tuple(read.problems)


def shortest(body: Body) -> float:
    """The least length from the side-neck level to the hem, mm: it covers the hip."""
    return side_neck_to(body, "hip")


def _length(read: StyleReader, style: Style, body: Body) -> float:
    least = shortest(body)
    wrong = "by these measures the hem would lie at the hip or above it"
    return hem_length(read, style.length, body, LENGTH_WORDS, least, wrong)


def _sleeve(read: StyleReader, style: Style, body: Body) -> float:
    """The sleeve from the shoulder point along the overarm, mm."""
    if style.sleeve_length == "wrist":
        return body.arm_length
    if style.sleeve_length == "elbow":
        return sources.ELBOW_LENGTH_SHARE * body.arm_length
    return read.length("sleeve_length", style.sleeve_length, 0.3 * body.arm_length, 1.15 * body.arm_length)
