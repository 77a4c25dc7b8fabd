"""What tops of stretch cloth are asked for alike: necks, bands, lengths, ease and allowances, read for one body.

A garment's own style and choices begin from these and add what it alone has. What says nothing else is our choice.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any, Final, Literal, TypeVar

from pydantic import BaseModel, ConfigDict, Field

from drafting import sources
from drafting.cloth import Fit
from drafting.parts.band_size import (
    BAND_ALLOWANCE,
    CUFF_HEIGHT,
    CUFF_HEIGHTS,
    HEM_BAND_HEIGHT,
    NECK_BAND_HEIGHT,
    NECK_BAND_HEIGHTS,
    ROLL_HEIGHT,
    ROLL_HEIGHTS,
)
from drafting.parts.flounce import Flouncing
from drafting.parts.flounce_style import (
    HemFlounceKeys,
    SleeveFlounceKeys,
    held_at_hem,
    held_on_sleeve,
    read_hem_flounce,
    read_sleeve_flounce,
)
from drafting.parts.hood_style import HoodKeys, read_hood
from drafting.parts.neck import V_LEAST, V_MOST, NeckKind
from drafting.parts.pockets import PocketsChoice, read_pockets
from drafting.parts.pouch import PouchChoice, read_pouch
from drafting.parts.reading import Length, StyleReader, hem_length
from drafting.parts.rib import BandCloth, read_rib
from drafting.parts.side import sides_are_straight
from drafting.person.measures import Body
from drafting.problems import Adjustment, Problem
from drafting.units import CM

Finish = Literal["band", "roll", "turned", "hood"]
#: Finishes of the neck that are bands.
BANDED: Final = ("band", "roll")
#: A cropped one ends this × scale below the shortest.
CROPPED_BELOW_SHORTEST: Final = 10.0
#: Limits of what may be asked are told in whole half centimetres.
LIMIT_STEP: Final = 5.0


def rounded_up(limit: float) -> float:
    """A limit of what may be asked, mm, in whole steps that a person reads: 5.994 cm is 6."""
    return math.ceil(limit / LIMIT_STEP - 1e-6) * LIMIT_STEP


class Allowances(BaseModel):
    """Allowance outside each edge of the stitch line; null keeps the default."""

    model_config = ConfigDict(frozen=True, extra="forbid")
    shoulder: Length | None = None
    armhole: Length | None = None
    side: Length | None = None
    hem: Length | None = None
    sleeve_end: Length | None = None
    neck: Length | None = None


class TopStyle(SleeveFlounceKeys, HemFlounceKeys, HoodKeys):
    """What a person chooses. A bare number is in the person's unit; a text carries its own; angles are degrees."""

    model_config = ConfigDict(frozen=True, extra="forbid")
    fit: Literal["regular", "close", "loose"] = "regular"
    length: Length = "hip"
    neck: NeckKind = "round"
    neck_finish: Literal["auto", "band", "roll", "turned", "hood"] = "auto"
    pouch: PouchChoice = "none"
    pockets: PocketsChoice = "none"
    neck_depth: Length = "auto"
    band_height: Length = "auto"
    band_cloth: BandCloth = "own"
    band_stretch: float | None = Field(default=None, allow_inf_nan=False)
    shoulder_slope: float | None = Field(default=None, allow_inf_nan=False)
    sleeve_length: Length = "wrist"
    sleeve_finish: Literal["hem", "cuff", "flounce"] = "hem"
    sleeve_end_girth: Length = "auto"
    cuff_height: Length = "auto"
    waist: Literal["auto", "shaped", "straight"] = "auto"
    body: Literal["straight", "flared", "pegged"] = "straight"
    hem_finish: Literal["turned", "band", "flounce"] = "turned"
    hem_girth: Length = "auto"
    hem_band_height: Length = "auto"
    slit: Length = "auto"
    ease_bust: Length = "auto"
    ease_waist: Length = "auto"
    ease_hip: Length = "auto"
    allowances: Allowances = Allowances()


LENGTH_WORDS = ("hip", "cropped", "mid_thigh", "knee", "mid_calf", "ankle")


@dataclass(frozen=True, slots=True, kw_only=True)
class TopChoices:
    """A style of a top read for one body: millimetres and radians. None means: to be worked out."""

    fit: Fit
    length: float
    neck: NeckKind
    finish: Finish
    neck_depth: float | None
    band_height: float
    rib: float | None
    slope: float
    sleeve_length: float
    cuff: float | None
    sleeve_end_girth: float | None
    straight: bool
    body: str
    hem_band: float | None
    hem_girth: float | None
    slit: float | None
    ease_bust: float | None
    ease_waist: float | None
    ease_hip: float | None
    shoulder: float
    armhole: float
    side: float
    hem: float
    sleeve_end: float
    neck_allowance: float
    given: frozenset[str] = frozenset()
    allowances_given: frozenset[str] = frozenset()
    sleeve_flounce: Flouncing | None = None
    hem_flounce: Flouncing | None = None
    corded: bool = False
    hood_strip: bool = False
    hood_lined: bool = False
    pouch: bool = False
    pockets: PocketsChoice = "none"

    @property
    def banded(self) -> bool:
        """Whether a band or a collar is sewn to the neck."""
        return self.finish in BANDED

    @property
    def below_sleeve(self) -> float:
        """How much of the length asked for the sleeve is no sleeve: its cuff or its flounce, mm."""
        return (self.cuff or 0.0) + (0.0 if self.sleeve_flounce is None else self.sleeve_flounce.depth)

    @property
    def sleeve_ends(self) -> float:
        """How far from the shoulder point the sleeve ends on the arm, its cuff counted but no flounce, mm."""
        return self.sleeve_length - (0.0 if self.sleeve_flounce is None else self.sleeve_flounce.depth)

    @property
    def below_hem(self) -> float:
        """How much of the length asked for is below the body: its hem band or its flounce, mm."""
        return (self.hem_band or 0.0) + (0.0 if self.hem_flounce is None else self.hem_flounce.depth)

    @property
    def hem_sewn(self) -> bool:
        """Whether something is sewn to the hem, so that it is neither turned nor slit."""
        return self.hem_band is not None or self.hem_flounce is not None

    @property
    def sleeve_sewn(self) -> bool:
        """Whether something is sewn to the end of the sleeve, so that it is not turned."""
        return self.cuff is not None or self.sleeve_flounce is not None


def usual_finish(neck: str) -> Finish:
    """How the edge of a neck is finished where nothing is chosen: a boat comes to a point, so it takes no band."""
    return "turned" if neck == "boat" else "band"


#: The choices of one garment, which are given back as that garment's.
AnyTop = TypeVar("AnyTop", bound=TopChoices)
#: The heights that are drafted as the tape reads them, unless they were given.
_HEIGHTS: Final = ("band_height", "cuff_height", "hem_band_height")


def read_top(
    read: StyleReader, style: TopStyle, body: Body, usual: Mapping[str, float], sleeves: Mapping[str, float]
) -> dict[str, Any]:
    """The fields of `TopChoices` as a style has them; problems are kept by `read`.

    `usual` are the allowances where none are given, mm; `sleeves` the words for the length of a sleeve, each with the
    share of the arm that it covers.
    """
    grown = sources.scale(body.stature)
    finish = usual_finish(style.neck) if style.neck_finish == "auto" else style.neck_finish
    if style.neck == "boat" and finish != "turned":
        read.refuse("neck_finish", "a boat neck ends in a point, where nothing can be sewn on", "choose turned")
    if style.neck == "v" and finish == "roll":
        read.refuse("neck_finish", "a roll collar needs a round neck", "choose a band, or a round neck")
    if style.neck == "v" and finish == "hood":
        read.refuse("neck_finish", "a hood needs a round neck", "choose a band, or a round neck")
    rib = read_rib(read, style.band_cloth, style.band_stretch)
    length = _length(read, style, body, grown)
    hem_band = None
    if style.hem_finish == "band":
        hem_band = or_usual(read, "hem_band_height", style.hem_band_height, 20.0, 120.0, HEM_BAND_HEIGHT * grown)
        if length - hem_band < _shortest(body, grown):
            read.refuse("length", "with its hem band it would end above the waist", "choose a longer one, or no band")
        if style.slit not in ("auto", "none"):
            read.refuse("slit", "a hem band closes the sides", "choose a turned hem, or no slit")
    hem_flounce = None
    if style.hem_finish == "flounce":
        hem_flounce = read_hem_flounce(read, style, body, length, _shortest(body, grown))
        if style.slit not in ("auto", "none"):
            read.refuse("slit", "a flounce closes the sides", "choose a turned hem, or no slit")
    cuff = None
    if style.sleeve_finish == "cuff":
        cuff = or_usual(read, "cuff_height", style.cuff_height, *CUFF_HEIGHTS, CUFF_HEIGHT * grown)
    sleeve = _sleeve_length(read, style, body, sleeves)
    sleeve_flounce = read_sleeve_flounce(read, style, body, sleeve) if style.sleeve_finish == "flounce" else None
    hip = body.back_neck_point_to_waist + sources.NAPE_ABOVE_SIDE_NECK + body.waist_to_hip
    below = (hem_band or 0.0) + (0.0 if hem_flounce is None else hem_flounce.depth)
    if style.hem_girth != "auto" and length - below < hip + 30.0:
        read.refuse("hem_girth", "a hem above the hip follows the body", "choose a longer length, or leave it to auto")
    if style.neck_depth != "auto" and style.neck != "v":
        wrong = "this counts only for a V neck"
        read.problems.append(Problem("style", "style.neck_depth", "warn", wrong, "choose it, or leave this out"))
    usual_height = {"band": NECK_BAND_HEIGHT, "roll": ROLL_HEIGHT}.get(finish, 0.0)
    heights = ROLL_HEIGHTS if finish == "roll" else NECK_BAND_HEIGHTS
    usual_height = max(heights[0], usual_height * min(1.0, grown)) if finish == "roll" else usual_height
    allowances = dict(usual)
    if cuff is not None or sleeve_flounce is not None:
        allowances["sleeve_end"] = BAND_ALLOWANCE
    if hem_band is not None or hem_flounce is not None:
        allowances["hem"] = BAND_ALLOWANCE
    given = frozenset(key for key in allowances if getattr(style.allowances, key) is not None)
    for key in sorted(given):
        allowances[key] = read.length(f"allowances.{key}", getattr(style.allowances, key), 3.0, 60.0)
    slope = style.shoulder_slope
    return {
        "given": frozenset(key for key in _HEIGHTS if getattr(style, key) != "auto"),
        "fit": style.fit,
        "length": length,
        "neck": style.neck,
        "finish": finish,
        "neck_depth": read.maybe("neck_depth", style.neck_depth, V_LEAST * grown, rounded_up(V_MOST * grown))
        if style.neck == "v"
        else None,
        "band_height": or_usual(read, "band_height", style.band_height, *heights, usual_height)
        if finish in BANDED
        else 0.0,
        "rib": rib,
        "slope": sources.SHOULDER_SLOPE
        if slope is None
        else read.degrees("shoulder_slope", slope, *map(math.degrees, sources.SHOULDER_SLOPE_LIMITS)),
        "sleeve_length": sleeve,
        "cuff": cuff,
        "sleeve_end_girth": read.maybe("sleeve_end_girth", style.sleeve_end_girth, 80.0, 900.0),
        "straight": sides_are_straight(style.waist, body.kind),
        "body": style.body,
        "hem_band": hem_band,
        "hem_girth": read.maybe("hem_girth", style.hem_girth, 300.0, 4000.0),
        "slit": 0.0
        if style.slit == "none" or hem_band is not None or hem_flounce is not None
        else read.maybe("slit", style.slit, 10.0, 900.0),
        "ease_bust": read.ease("ease_bust", style.ease_bust),
        "ease_waist": read.ease("ease_waist", style.ease_waist),
        "ease_hip": read.ease("ease_hip", style.ease_hip),
        "shoulder": allowances["shoulder"],
        "armhole": allowances["armhole"],
        "side": allowances["side"],
        "hem": allowances["hem"],
        "sleeve_end": allowances["sleeve_end"],
        "neck_allowance": allowances["neck"],
        "allowances_given": given,
        "sleeve_flounce": sleeve_flounce,
        "hem_flounce": hem_flounce,
        **read_hood(read, style, body, hooded=finish == "hood"),
        "pouch": read_pouch(read, style.pouch, body, length - below),
        "pockets": read_pockets(
            read, style.pockets, body, length - below, slit=read.known(style.slit), pouch=style.pouch != "none"
        ),
    }


def with_flounces_held(choices: AnyTop, body: Body, adjusted: list[Adjustment]) -> AnyTop:
    """The choices with flounces no deeper than sleeve and body take; what is not met is told."""
    room = choices.length - _shortest(body, sources.scale(body.stature))
    return replace(
        choices,
        sleeve_flounce=held_on_sleeve(choices.sleeve_flounce, body, choices.sleeve_length, adjusted),
        hem_flounce=held_at_hem(choices.hem_flounce, room, adjusted),
    )


def or_usual(read: StyleReader, key: str, given: Length, low: float, high: float, usual: float) -> float:
    """A length within limits, mm, or what is usual where it is left out."""
    found = read.maybe(key, given, low, high)
    return usual if found is None else found


def _shortest(body: Body, grown: float) -> float:
    waist = body.back_neck_point_to_waist + sources.NAPE_ABOVE_SIDE_NECK
    return waist + sources.SHORTEST_BELOW_WAIST * grown


def _length(read: StyleReader, style: TopStyle, body: Body, grown: float) -> float:
    shortest = _shortest(body, grown)
    if style.length == "cropped":
        return shortest + CROPPED_BELOW_SHORTEST * grown
    wrong = "by these measures the hem would lie at the waist or above it"
    return hem_length(read, style.length, body, LENGTH_WORDS, shortest, wrong)


def _sleeve_length(read: StyleReader, style: TopStyle, body: Body, shares: Mapping[str, float]) -> float:
    if isinstance(style.sleeve_length, str) and style.sleeve_length in shares:
        return body.arm_length * shares[style.sleeve_length]
    return read.length("sleeve_length", style.sleeve_length, 8 * CM, body.arm_length + 4 * CM)
