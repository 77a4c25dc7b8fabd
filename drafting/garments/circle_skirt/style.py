"""The choices for `circle_skirt`: what may be asked, its defaults and its limits."""

from dataclasses import dataclass
from typing import Final, Literal

from pydantic import BaseModel, ConfigDict, Field

from drafting.parts.reading import Length, StyleReader
from drafting.parts.rib import BandCloth, read_rib
from drafting.parts.skirt import read_length
from drafting.parts.waistband import read_band_height
from drafting.person.measures import Body
from drafting.problems import Problem
from drafting.units import Unit

#: How much of a circle the skirt is, and the fewest pieces it takes: a piece on the fold is half a circle at most.
CIRCLES: Final[dict[str, float]] = {"half": 0.5, "full": 1.0, "three_quarter": 0.75, "quarter": 0.25}
FEWEST: Final[dict[str, int]] = {"half": 1, "full": 2, "three_quarter": 2, "quarter": 1}
#: More pieces are not offered: our choice, because eight seams are as many as a skirt of this kind is sewn with.
MOST_PIECES: Final = 8
#: Allowances when none are given. Common practice, no source.
ALLOWANCES: Final = {"waist": 10.0, "side": 15.0, "hem": 15.0}


class Allowances(BaseModel):
    """Allowance outside each edge of the stitch line; null keeps the default."""

    model_config = ConfigDict(frozen=True, extra="forbid")
    waist: Length | None = None
    side: Length | None = None
    hem: Length | None = None


class Style(BaseModel):
    """What a person chooses. A bare number is in the person's unit; a text carries its own."""

    model_config = ConfigDict(frozen=True, extra="forbid")
    circle: Literal["half", "full", "three_quarter", "quarter"] = "half"
    length: Length = "knee"
    waistband: Literal["auto", "jersey", "casing"] = "auto"
    waistband_height: Length | None = None
    band_cloth: BandCloth = "own"
    band_stretch: float | None = Field(default=None, allow_inf_nan=False)
    panels: Literal["auto", "1", "2", "3", "4", "5", "6", "7", "8"] = "auto"
    allowances: Allowances = Allowances()


#: What somebody who begins chooses, in this order: what is seen from across a room. Our choice.
FIRST: Final = ("circle", "length", "waistband")


@dataclass(frozen=True, slots=True)
class Choices:
    """A style read for one body, in millimetres. None means: to be worked out.

    `circle` is the share of a whole circle; `length` runs from the waist seam to the hem, `band_height` is finished.
    `rib` is the stretch of the rib that the waistband is cut of, None where it is cut of the same cloth.
    """

    circle: float
    circle_word: str
    length: float
    waistband: Literal["auto", "jersey", "casing"]
    band_height: float
    panels: int | None
    waist: float
    side: float
    hem: float
    rib: float | None = None
    band_height_given: bool = False
    allowances_given: frozenset[str] = frozenset()


def read_style(style: Style, unit: Unit, body: Body) -> tuple[Choices | None, tuple[Problem, ...]]:
    """Reads a style for one body: choices in mm, or every problem with its field."""
    read = StyleReader(unit)
    height, given = read_band_height(read, style.waistband_height, body)
    panels = None if style.panels == "auto" else int(style.panels)
    fewest = FEWEST[style.circle]
    if panels is not None and panels < fewest:
        read.refuse("panels", "a piece on the fold is at most half a circle", f"give {fewest} to {MOST_PIECES}")
    allowances = {
        key: default
        if getattr(style.allowances, key) is None
        else read.length(f"allowances.{key}", getattr(style.allowances, key), 3.0, 60.0)
        for key, default in ALLOWANCES.items()
    }
    choices = Choices(
        circle=CIRCLES[style.circle],
        circle_word=style.circle,
        length=read_length(read, style.length, body),
        waistband=style.waistband,
        band_height=height,
        panels=panels,
        rib=read_rib(read, style.band_cloth, style.band_stretch),
        band_height_given=given,
        allowances_given=frozenset(key for key in allowances if getattr(style.allowances, key) is not None),
        **allowances,
    )
    refused = any(problem.severity == "refuse" for problem in read.problems)
    return (None if refused else choices), tuple(read.problems)
