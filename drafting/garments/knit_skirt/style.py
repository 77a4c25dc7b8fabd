"""The choices for `knit_skirt`: what may be asked, its defaults and its limits."""

from dataclasses import dataclass
from typing import Final, Literal

from pydantic import BaseModel, ConfigDict, Field

from drafting.cloth import Fit
from drafting.parts.band_size import BAND_ALLOWANCE
from drafting.parts.flounce import Flouncing
from drafting.parts.flounce_style import HemFlounceKeys, read_hem_flounce
from drafting.parts.pockets import PocketsChoice, SidePockets, read_pockets
from drafting.parts.reading import Length, StyleReader
from drafting.parts.rib import BandCloth, read_rib
from drafting.parts.skirt import read_length, shortest
from drafting.parts.waistband import read_band_height
from drafting.person.measures import Body
from drafting.problems import Problem
from drafting.units import Unit

Silhouette = Literal["straight", "a_line", "pegged"]
#: How the waist is finished: "turned" is a casing that is turned in from the skirt itself.
WaistFinish = Literal["auto", "jersey", "casing", "turned"]
TURNED: Final = "turned"
#: Allowances when none are given, mm; that of the waist lies beyond the stitching of a casing that is turned in. Common
#: practice, no source.
ALLOWANCES: Final = {"waist": 10.0, "side": 15.0, "hem": 25.0}
ALLOWANCE_LIMITS: Final = (3.0, 60.0)
#: What a hem may be asked to be all round, and how high a slit, mm (our choice, as on other garments).
HEM_LIMITS: Final = (300.0, 4000.0)
SLIT_LIMITS: Final = (10.0, 900.0)


class Allowances(BaseModel):
    """Allowance outside each edge of the stitch line; null keeps the default."""

    model_config = ConfigDict(frozen=True, extra="forbid")
    waist: Length | None = None
    side: Length | None = None
    hem: Length | None = None


class Style(HemFlounceKeys):
    """What a person chooses. A bare number is in the person's unit; a text carries its own."""

    model_config = ConfigDict(frozen=True, extra="forbid")
    silhouette: Silhouette = "straight"
    length: Length = "knee"
    waistband: WaistFinish = "auto"
    fit: Fit = "regular"
    waistband_height: Length | None = None
    band_cloth: BandCloth = "own"
    band_stretch: float | None = Field(default=None, allow_inf_nan=False)
    slit: Length = "auto"
    pockets: SidePockets = "none"
    hem_girth: Length = "auto"
    hem_finish: Literal["turned", "flounce"] = "turned"
    allowances: Allowances = Allowances()


#: What somebody who begins chooses, in this order: what is seen from across a room. Our choice.
FIRST: Final = ("silhouette", "length", "waistband", "fit")


@dataclass(frozen=True, slots=True)
class Choices:
    """A style read for one body, in millimetres. None means: to be worked out.

    `length` runs from the waist edge at the fold to the hem; `hem_girth` is all round; `band_height` is the finished
    height of waistband or casing. `rib` is the stretch of the rib that the waistband is cut of, None where it is cut of
    the same cloth. `waist`, `side` and `hem` are allowances.
    """

    silhouette: Silhouette
    fit: Fit
    length: float
    waistband: WaistFinish
    band_height: float
    hem_girth: float | None
    slit: float | None
    waist: float
    side: float
    hem: float
    rib: float | None = None
    band_height_given: bool = False
    allowances_given: frozenset[str] = frozenset()
    hem_flounce: Flouncing | None = None
    pockets: PocketsChoice = "none"

    @property
    def body_length(self) -> float:
        """From the waist edge at the fold to the hem that is sewn or turned: the length without a flounce, mm."""
        return self.length - (0.0 if self.hem_flounce is None else self.hem_flounce.depth)


def read_style(style: Style, unit: Unit, body: Body) -> tuple[Choices | None, tuple[Problem, ...]]:
    """Reads a style for one body: choices in mm, or every problem with its field."""
    read = StyleReader(unit)
    height, height_given = read_band_height(read, style.waistband_height, body)
    given = frozenset(key for key in ALLOWANCES if getattr(style.allowances, key) is not None)
    allow = {
        key: read.length(f"allowances.{key}", getattr(style.allowances, key), *ALLOWANCE_LIMITS)
        if key in given
        else usual
        for key, usual in ALLOWANCES.items()
    }
    rib = read_rib(read, style.band_cloth, style.band_stretch)
    length, flounce = read_length(read, style.length, body), None
    if style.hem_finish == "flounce":
        flounce = read_hem_flounce(read, style, body, length, shortest(body))
        if style.slit not in ("auto", "none"):
            read.refuse("slit", "a flounce closes the sides", "choose a hem turned up, or no slit")
        if "hem" not in given:
            allow["hem"] = BAND_ALLOWANCE
    choices = Choices(
        silhouette=style.silhouette,
        fit=style.fit,
        length=length,
        waistband=style.waistband,
        band_height=height,
        hem_girth=read.maybe("hem_girth", style.hem_girth, *HEM_LIMITS),
        slit=0.0 if style.slit == "none" or flounce is not None else read.maybe("slit", style.slit, *SLIT_LIMITS),
        rib=None if style.waistband == TURNED else rib,
        band_height_given=height_given,
        allowances_given=given,
        hem_flounce=flounce,
        pockets=read_pockets(
            read,
            style.pockets,
            body,
            length - (0.0 if flounce is None else flounce.depth),
            waist=0.0,
            slit=read.known(style.slit),
            turned_in=height + allow["waist"] if style.waistband == TURNED else 0.0,
        ),
        **allow,
    )
    refused = any(problem.severity == "refuse" for problem in read.problems)
    return (None if refused else choices), tuple(read.problems)
