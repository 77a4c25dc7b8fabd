"""The choices for `drop_shoulder`: what may be asked, its defaults and its limits."""

from dataclasses import dataclass
from typing import Final, Literal

from drafting import sources
from drafting.garments.drop_shoulder import rules
from drafting.parts.reading import Length, StyleReader
from drafting.parts.top_style import TopChoices, TopStyle, or_usual, read_top, rounded_up
from drafting.person.measures import Body
from drafting.problems import Problem
from drafting.units import Unit


class Style(TopStyle):
    """What a person chooses. A bare number is in the person's unit; a text carries its own; angles are degrees."""

    waist: Literal["straight", "shaped"] = "straight"
    extension: Length = "auto"
    cap_height: Length = "auto"


#: What somebody who begins chooses, in this order: what is seen from across a room. Our choice.
FIRST = ("length", "neck", "neck_finish", "sleeve_length", "sleeve_finish", "fit")
#: Allowances when none are given. Common practice, no source.
ALLOWANCES: Final = {
    "shoulder": 10.0,
    "armhole": 10.0,
    "side": 15.0,
    "hem": 25.0,
    "sleeve_end": 20.0,
    "neck": 10.0,
}
#: The words for the length of a sleeve, each with the share of the arm that it covers.
SLEEVES: Final = {"wrist": 1.0, "elbow": sources.ELBOW_LENGTH_SHARE, "short": rules.SHORT_SLEEVE_SHARE}


@dataclass(frozen=True, slots=True, kw_only=True)
class Choices(TopChoices):
    """A style read for one body: millimetres and radians. None means: to be worked out."""

    extension: float | None
    cap_height: float


def read_style(style: Style, unit: Unit, body: Body) -> tuple[Choices | None, tuple[Problem, ...]]:
    """Reads a style for one body: choices in mm and radians, or every problem with its field."""
    read = StyleReader(unit)
    grown = sources.scale(body.stature)
    found = read_top(read, style, body, ALLOWANCES, SLEEVES)
    if style.cap_height != "auto":
        found["given"] |= {"cap_height"}
    choices = Choices(
        **found,
        extension=read.maybe("extension", style.extension, 0.0, rounded_up(rules.EXTENSION_MOST * grown)),
        cap_height=or_usual(
            read, "cap_height", style.cap_height, 0.0, rounded_up(rules.CAP_MOST * grown), rules.CAP_HEIGHT * grown
        ),
    )
    refused = any(problem.severity == "refuse" for problem in read.problems)
    return (None if refused else choices), tuple(read.problems)
