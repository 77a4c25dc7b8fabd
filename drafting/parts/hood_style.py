"""What a style asks of a hood beside the hood itself: its pieces, its lining, a cord through its face edge."""

from collections.abc import Callable
from typing import Final, Literal, TypedDict

from pydantic import BaseModel, ConfigDict

from drafting.contract.fields import Chosen, Field, Option
from drafting.parts.reading import StyleReader
from drafting.person.measures import Body
from drafting.problems import Problem
from drafting.units import CM

HoodCord = Literal["none", "cord"]
#: A child's hood has no cord up to these: EN 14682 (7 years or 134 cm) and US 16 CFR 1120 with ASTM F1816 (sizes 2T to
#: 12, taken as 12 years, which is our reading).
NO_CORD_TO_AGE: Final = 12
NO_CORD_TO_STATURE: Final = 134 * CM


class HoodKeys(BaseModel):
    """The keys of a hood."""

    model_config = ConfigDict(frozen=True, extra="forbid")
    hood_panels: Literal["two", "three"] = "two"
    hood_lining: Literal["none", "lined"] = "none"
    hood_cord: HoodCord = "none"


class HoodRead(TypedDict):
    """What a style asks of its hood: a cord, a strip between its halves, a lining."""

    corded: bool
    hood_strip: bool
    hood_lined: bool


def cord_is_safe(body: Body) -> bool:
    """Whether a cord in the hood is no hazard by the age and the size of who wears it."""
    if body.kind != "child":
        return True
    return body.age is not None and body.age > NO_CORD_TO_AGE and body.stature > NO_CORD_TO_STATURE


def hood_fields(shown: Callable[[Chosen], bool]) -> tuple[Field, Field, Field]:
    """What is asked of a hood, where there is one."""
    return (
        Field(
            "hood_panels", "choice", "Hood is made of",
            (Option("two", "Two halves"), Option("three", "Two halves and a strip")), lambda chosen: "two", shown=shown,
        ),
        Field(
            "hood_lining", "choice", "Lining of the hood",
            (Option("none", "None"), Option("lined", "Of a second cloth")), lambda chosen: "none", shown=shown,
        ),
        Field(
            "hood_cord", "choice", "Cord in the hood",
            (Option("none", "None"), Option("cord", "Through the face edge")), lambda chosen: "none", shown=shown,
        ),
    )  # fmt: skip


def read_hood(read: StyleReader, style: HoodKeys, body: Body, *, hooded: bool) -> HoodRead:
    """What is asked of the hood; what counts only for one is told where there is none."""
    for key, usual in (("hood_panels", "two"), ("hood_lining", "none")):
        if not hooded and getattr(style, key) != usual:
            _no_hood(read, key)
    return {
        "corded": _read_cord(read, style.hood_cord, body, hooded=hooded),
        "hood_strip": hooded and style.hood_panels == "three",
        "hood_lined": hooded and style.hood_lining == "lined",
    }


def _no_hood(read: StyleReader, key: str) -> None:
    wrong = "this counts only for a hood"
    read.problems.append(Problem("style", f"style.{key}", "warn", wrong, "choose it, or leave this out"))


def _read_cord(read: StyleReader, asked: HoodCord, body: Body, *, hooded: bool) -> bool:
    """Whether the hood has a cord; refused where it could strangle a child."""
    if asked != "cord":
        return False
    if not hooded:
        _no_hood(read, "hood_cord")
        return False
    if not cord_is_safe(body):
        wrong = (
            "a cord in a child's hood can catch and strangle, and is forbidden to 7 years or 134 cm (EN 14682) and in "
            "US sizes 2T to 12 (16 CFR 1120)"
        )
        read.refuse("hood_cord", wrong, "leave the cord out")
    return True
