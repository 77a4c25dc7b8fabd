"""What a style asks of a hood beside the hood itself: whether a cord runs through its face edge."""

from typing import Final, Literal

from drafting.contract.fields import Option
from drafting.parts.reading import StyleReader
from drafting.person.measures import Body
from drafting.problems import Problem
from drafting.units import CM

HoodCord = Literal["none", "cord"]
#: A child's hood has no cord up to these: EN 14682 (7 years or 134 cm) and US 16 CFR 1120 with ASTM F1816 (sizes 2T to
#: 12, taken as 12 years, which is our reading).
NO_CORD_TO_AGE: Final = 12
NO_CORD_TO_STATURE: Final = 134 * CM
HOOD_CORDS: Final = (Option("none", "None"), Option("cord", "Through the face edge"))


def cord_is_safe(body: Body) -> bool:
    """Whether a cord in the hood is no hazard by the age and the size of who wears it."""
    if body.kind != "child":
        return True
    return body.age is not None and body.age > NO_CORD_TO_AGE and body.stature > NO_CORD_TO_STATURE


def read_cord(read: StyleReader, asked: HoodCord, body: Body, *, hooded: bool) -> bool:
    """Whether the hood has a cord; refused where it could strangle a child."""
    if asked != "cord":
        return False
    if not hooded:
        wrong = "this counts only for a hood"
        read.problems.append(Problem("style", "style.hood_cord", "warn", wrong, "choose it, or leave this out"))
        return False
    if not cord_is_safe(body):
        wrong = (
            "a cord in a child's hood can catch and strangle, and is forbidden to 7 years or 134 cm (EN 14682) and in "
            "US sizes 2T to 12 (16 CFR 1120)"
        )
        read.refuse("hood_cord", wrong, "leave the cord out")
    return True
