"""What a style of leggings or trousers says, and how it is read: length, waist, hem, allowances. Millimetres."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Final, Literal, Protocol

from pydantic import BaseModel, ConfigDict

from drafting import sources
from drafting.parts.legs.sizes import ankle_level, knee_level
from drafting.parts.reading import Length, StyleReader
from drafting.parts.rib import BandCloth, read_rib
from drafting.parts.skirt import waist_to
from drafting.parts.waistband import read_band_height
from drafting.person.measures import Body
from drafting.problems import Problem
from drafting.units import Unit

#: How the waist is finished: "turned" is a casing that is turned in from the legs themselves.
Waist = Literal["auto", "jersey", "casing", "turned"]
TURNED: Final = "turned"
LEGGINGS_LENGTHS: Final = ("mid_thigh", "knee", "mid_calf", "ankle")
TROUSERS_LENGTHS: Final = ("knee", "mid_calf", "ankle", "floor")
ALLOWANCE_LIMITS: Final = (3.0, 60.0)
#: What one hem may be asked to be round, mm (our choice).
HEM_LIMITS: Final = (120.0, 1200.0)
#: A leg reaches at least this far below the crotch × scale, mm. Our choice: there is an inner leg to sew.
LEG_LEAST: Final = 40.0


class LegAllowances(BaseModel):
    """Allowance outside each edge of the stitch line; null keeps the default."""

    model_config = ConfigDict(frozen=True, extra="forbid")
    waist: Length | None = None
    seams: Length | None = None
    hem: Length | None = None


class LegStyle(Protocol):
    """What the styles of leggings and trousers say alike."""

    @property
    def length(self) -> Length:
        """A landmark or a length from the waist at the side."""

    @property
    def waistband(self) -> Waist:
        """How the waist is finished."""

    @property
    def waistband_height(self) -> Length | None:
        """Height of band or casing."""

    @property
    def band_cloth(self) -> BandCloth:
        """What the band is cut of."""

    @property
    def band_stretch(self) -> float | None:
        """Stretch of a rib, %."""

    @property
    def hem_girth(self) -> Length:
        """Girth of one hem."""

    @property
    def allowances(self) -> LegAllowances:
        """The allowances."""


@dataclass(frozen=True, slots=True)
class LegChoices:
    """What was chosen, mm; None means: to be worked out.

    `length` runs from the waist at the side to the hem, `hem_girth` round one leg. `rib` is the stretch of the rib that
    the waistband is cut of, None where it is cut of the same cloth. `waist`, `seams` and `hem` are allowances.
    """

    length: float
    waistband: Waist
    band_height: float
    hem_girth: float | None
    waist: float
    seams: float
    hem: float
    rib: float | None = None
    band_height_given: bool = False
    allowances_given: frozenset[str] = frozenset()


def shortest(body: Body) -> float:
    """The least length from the waist to the hem, also where the crotch is lowered for sitting."""
    grown = sources.scale(body.stature)
    return body.crotch_depth + (sources.CROTCH_LOWERED_MOST + LEG_LEAST) * grown


def reaches(body: Body, landmark: str) -> float:
    """How far below the waist a landmark lies."""
    if landmark == "floor":
        return body.waist_height - sources.ABOVE_FLOOR
    if landmark == "knee":
        return knee_level(body, body.crotch_depth)
    return waist_to(body, landmark)


def longest(body: Body) -> float:
    """The most that may be asked for from the waist to the hem."""
    return max(body.waist_height - sources.ABOVE_FLOOR / 2, ankle_level(body) + 1.0)


def read_leg(
    style: LegStyle, unit: Unit, body: Body, usual: Mapping[str, float], landmarks: tuple[str, ...]
) -> tuple[dict[str, Any] | None, tuple[Problem, ...]]:
    """The choices that leggings and trousers have alike, by name, or every problem with its field."""
    read = StyleReader(unit)
    height, height_given = read_band_height(read, style.waistband_height, body)
    given = frozenset(key for key in usual if getattr(style.allowances, key) is not None)
    allow = {
        key: read.length(f"allowances.{key}", getattr(style.allowances, key), *ALLOWANCE_LIMITS)
        if key in given
        else common
        for key, common in usual.items()
    }
    rib = read_rib(read, style.band_cloth, style.band_stretch)
    least = shortest(body) if landmarks == LEGGINGS_LENGTHS else max(shortest(body), reaches(body, "knee"))
    if isinstance(style.length, str) and style.length in landmarks:
        length = reaches(body, style.length)
        if length < least - 1e-6:
            wrong = "by these measures the hem would lie too near the crotch"
            read.refuse("length", wrong, "measure waist height, knee height and crotch depth again, or give the length")
    else:
        length = read.length("length", style.length, least, longest(body))
    found = {
        "length": max(length, least),
        "waistband": style.waistband,
        "band_height": height,
        "hem_girth": read.maybe("hem_girth", style.hem_girth, *HEM_LIMITS),
        "rib": None if style.waistband == TURNED else rib,
        "band_height_given": height_given,
        "allowances_given": given,
        **allow,
    }
    refused = any(problem.severity == "refuse" for problem in read.problems)
    return (None if refused else found), tuple(read.problems)
