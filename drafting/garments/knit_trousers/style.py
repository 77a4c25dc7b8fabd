"""The choices for `knit_trousers`: what may be asked, its defaults and its limits."""

from dataclasses import dataclass
from typing import Final, Literal

from pydantic import BaseModel, ConfigDict, Field

from drafting import sources
from drafting.parts.legs.sizes import trousers_crotch
from drafting.parts.legs.style import TROUSERS_LENGTHS, TURNED, LegAllowances, LegChoices, Waist, read_leg
from drafting.parts.pockets import PocketsChoice, SidePockets, read_pockets
from drafting.parts.reading import Length, StyleReader
from drafting.parts.rib import BandCloth
from drafting.person.measures import Body
from drafting.problems import Problem
from drafting.units import Unit

Silhouette = Literal["straight", "wide"]
#: Allowances when none are given, mm. Common practice, no source.
ALLOWANCES: Final = {"waist": 10.0, "seams": 10.0, "hem": 25.0}


class Style(BaseModel):
    """What a person chooses. A bare number is in the person's unit; a text carries its own."""

    model_config = ConfigDict(frozen=True, extra="forbid")
    silhouette: Silhouette = "straight"
    length: Length = "floor"
    waistband: Waist = "auto"
    waistband_height: Length | None = None
    band_cloth: BandCloth = "own"
    band_stretch: float | None = Field(default=None, allow_inf_nan=False)
    pockets: SidePockets = "none"
    hem_girth: Length = "auto"
    allowances: LegAllowances = LegAllowances()


#: What somebody who begins chooses, in this order: what is seen from across a room. Our choice.
FIRST: Final = ("silhouette", "length", "waistband")


@dataclass(frozen=True, slots=True, kw_only=True)
class Choices(LegChoices):
    """A style read for one body, in millimetres; None means: to be worked out."""

    silhouette: Silhouette
    pockets: PocketsChoice = "none"


def lowest_of_bags(body: Body) -> float:
    """How far below the waist a pocket bag may reach."""
    return trousers_crotch(body) + sources.BAG_BELOW_CROTCH


def read_style(style: Style, unit: Unit, body: Body) -> tuple[Choices | None, tuple[Problem, ...]]:
    """Reads a style for one body: choices in mm, or every problem with its field."""
    found, problems = read_leg(style, unit, body, ALLOWANCES, TROUSERS_LENGTHS)
    if found is None:
        return None, problems
    read = StyleReader(unit)
    turned_in = found["band_height"] + found["waist"] if style.waistband == TURNED else 0.0
    pockets = read_pockets(
        read, style.pockets, body, found["length"], waist=0.0, turned_in=turned_in, low=lowest_of_bags(body)
    )
    problems = (*problems, *read.problems)
    if read.problems:
        return None, problems
    return Choices(**found, silhouette=style.silhouette, pockets=pockets), problems
