"""The choices for `set_in`: what may be asked, its defaults and its limits."""

from typing import Final

from drafting.garments.set_in import rules
from drafting.parts.reading import StyleReader
from drafting.parts.top_style import TopChoices, TopStyle, read_top
from drafting.person.measures import Body
from drafting.problems import Problem
from drafting.units import Unit

#: What a person chooses is what every top is asked.
Style = TopStyle
#: What somebody who begins chooses, in this order: what is seen from across a room. Our choice.
FIRST = ("length", "neck", "neck_finish", "sleeve_length", "sleeve_finish", "fit")
#: Allowances when none are given. Common practice, no source.
ALLOWANCES: Final = {
    "shoulder": 10.0,
    "armhole": 10.0,
    "side": 10.0,
    "hem": 25.0,
    "sleeve_end": 20.0,
    "neck": 10.0,
}
#: The words for the length of a sleeve, each with the share of the arm that it covers.
SLEEVES: Final = {"wrist": 1.0, "elbow": rules.ELBOW_SHARE, "short": rules.SHORT_SHARE}


def read_style(style: Style, unit: Unit, body: Body) -> tuple[TopChoices | None, tuple[Problem, ...]]:
    """Reads a style for one body: choices in mm and radians, or every problem with its field."""
    read = StyleReader(unit)
    choices = TopChoices(**read_top(read, style, body, ALLOWANCES, SLEEVES))
    refused = any(problem.severity == "refuse" for problem in read.problems)
    return (None if refused else choices), tuple(read.problems)
