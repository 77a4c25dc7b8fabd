"""The choices for `cut_in_one`: what may be asked, its defaults and its limits."""

import math
from dataclasses import dataclass, replace
from typing import Final, Literal

from pydantic import BaseModel, ConfigDict, Field

from drafting import sources
from drafting.cloth import Fit
from drafting.parts.band_size import (
    BAND_ALLOWANCE,
    CUFF_HEIGHT,
    CUFF_HEIGHTS,
    NECK_BAND_HEIGHT,
    NECK_BAND_HEIGHTS,
)
from drafting.parts.flounce import Flouncing
from drafting.parts.flounce_style import (
    DEPTH_LIMITS,
    HemFlounceKeys,
    SleeveFlounceKeys,
    held_at_hem,
    held_on_sleeve,
    read_hem_flounce,
    read_sleeve_flounce,
)
from drafting.parts.hood_style import HoodKeys, read_hood
from drafting.parts.pockets import PocketsChoice, read_pockets
from drafting.parts.pouch import PouchChoice, read_pouch
from drafting.parts.reading import Length, StyleReader, hem_length
from drafting.parts.rib import BandCloth, read_rib
from drafting.parts.side import sides_are_straight
from drafting.person.measures import Body
from drafting.problems import Adjustment, Problem
from drafting.units import CM, Unit, read_length, say_length


class Allowances(BaseModel):
    """Allowance outside each edge of the stitch line; null keeps the default."""

    model_config = ConfigDict(frozen=True, extra="forbid")
    shoulder: Length | None = None
    side: Length | None = None
    hem: Length | None = None
    sleeve_end: Length | None = None
    neck_top: Length | None = None
    centre_back: Length | None = None
    sleeve_joint: Length | None = None


class Style(SleeveFlounceKeys, HemFlounceKeys, HoodKeys):
    """What a person chooses. A bare number is in the person's unit; a text carries its own; angles are degrees."""

    model_config = ConfigDict(frozen=True, extra="forbid")
    fit: Literal["regular", "close", "loose"] = "regular"
    neck_height: Length | None = None
    neck_layers: Literal["single", "folded"] = "single"
    neck_half_width: Length = "auto"
    neck_lean: float = Field(default=0, allow_inf_nan=False)
    neck_slant: float = Field(default=0, allow_inf_nan=False)
    neck_slant_side: Literal["left", "right"] = "left"
    neck_opening: Literal["none", "centre_back"] = "none"
    neck_finish: Literal["turned", "band", "hood"] = "turned"
    pouch: PouchChoice = "none"
    pockets: PocketsChoice = "none"
    neck_band_height: Length = "auto"
    band_cloth: BandCloth = "own"
    band_stretch: float | None = Field(default=None, allow_inf_nan=False)
    shoulder_slope: float | None = Field(default=None, allow_inf_nan=False)
    shoulder_drop: Length | None = None
    overarm_angle: float | None = Field(default=None, allow_inf_nan=False)
    sleeve_length: Length = "wrist"
    sleeve_finish: Literal["hem", "cuff", "flounce"] = "hem"
    cuff_height: Length = "auto"
    narrowest_at: float | None = Field(default=None, allow_inf_nan=False)
    narrowest_girth: Length = "auto"
    flare: Length = "none"
    lower_sleeve: Literal["whole", "joined"] = "whole"
    centre_back: Literal["fold", "seam"] = "fold"
    underarm: Literal["regular", "deep"] = "regular"
    underarm_above_waist: Length | None = None
    waist: Literal["auto", "shaped", "straight"] = "auto"
    body: Literal["straight", "flared", "pegged"] = "straight"
    hem_girth: Length = "auto"
    hem_finish: Literal["turned", "flounce"] = "turned"
    length: Length = "knee"
    ease_bust: Length = "auto"
    ease_waist: Length = "auto"
    ease_hip: Length = "auto"
    slit: Length = "auto"
    allowances: Allowances = Allowances()


#: What somebody who begins chooses, in this order: what is seen from across a room. Our choice.
FIRST = ("length", "neck_height", "sleeve_length", "flare", "fit", "body")


@dataclass(frozen=True, slots=True)
class Choices:
    """A style read for one body: millimetres and radians. None means: to be worked out.

    `rib` is the stretch of the rib that the bands are cut of, None where they are cut of the same cloth.
    """

    fit: Fit
    neck_height: float
    neck_height_given: bool
    folded: bool
    neck_half_width: float | None
    lean: float
    slant: float
    slant_side: str
    opening: bool
    slope: float
    drop: float | None
    overarm: float
    sleeve_length: float
    narrowest_at: float | None
    narrowest_girth: float | None
    flare: float
    flare_girth: float | None
    deep: bool
    above_waist: float | None
    body: str
    hem_girth: float | None
    length: float
    ease_bust: float | None
    ease_waist: float | None
    ease_hip: float | None
    slit: float | None
    shoulder: float
    side: float
    hem: float
    sleeve_end: float
    neck_top: float
    centre_back: float
    sleeve_joint: float
    back_seam: bool = False
    joined: bool = False
    straight: bool = False
    allowances_given: frozenset[str] = frozenset()
    cuff: float | None = None
    cuff_given: bool = False
    neck_band: float | None = None
    neck_band_given: bool = False
    rib: float | None = None
    sleeve_flounce: Flouncing | None = None
    hem_flounce: Flouncing | None = None
    hooded: bool = False
    corded: bool = False
    hood_strip: bool = False
    hood_lined: bool = False
    pouch: bool = False
    pockets: PocketsChoice = "none"

    @property
    def below_sleeve(self) -> float:
        """How much of the length asked for the sleeve is no sleeve: its cuff or its flounce, mm."""
        return (self.cuff or 0.0) + (0.0 if self.sleeve_flounce is None else self.sleeve_flounce.depth)

    @property
    def below_hem(self) -> float:
        """How much of the length asked for is the flounce at its hem, mm."""
        return 0.0 if self.hem_flounce is None else self.hem_flounce.depth

    @property
    def whole(self) -> "Choices":
        """The choices with the whole length down to the hem of a flounce, as it was asked for."""
        return replace(self, length=self.length + self.below_hem)


#: Allowances when none are given. Common practice, no source.
ALLOWANCES: Final = {
    "shoulder": 10.0,
    "side": 15.0,
    "hem": 25.0,
    "sleeve_end": 20.0,
    "neck_top": 10.0,
    "centre_back": 15.0,
    "sleeve_joint": 10.0,
}
#: Without its cuff or its flounce a sleeve is at least this share of the arm. Our choice: a shorter one is a cap.
CUFF_SLEEVE_LEAST: Final = 0.45
LENGTH_WORDS = ("knee", "hip", "mid_thigh", "mid_calf", "ankle")
SLEEVE_WORDS = ("wrist", "elbow")
FLARE_WORDS = ("none", "slight", "bell", "wide")


def usual_overarm(*, straight: bool) -> float:
    """How far below level the overarm falls where nothing is chosen, degrees."""
    return sources.OVERARM_ANGLE_STRAIGHT if straight else sources.OVERARM_ANGLE


def read_style(style: Style, unit: Unit, body: Body) -> tuple[Choices | None, tuple[Problem, ...]]:
    """Reads a style for one body: choices in mm and radians, or every problem with its field."""
    read = StyleReader(unit)
    child = body.kind == "child"
    grown = sources.scale(body.stature)
    waist = body.back_neck_point_to_waist + sources.NAPE_ABOVE_SIDE_NECK

    bust_point = body.side_neck_point_to_bust_point
    estimated = body.estimated("side_neck_point_to_bust_point")
    if not estimated and bust_point > waist - sources.BUST_ABOVE_WAIST_LEAST:
        wrong = "the fullest point of the bust would lie at the waist or below it"
        fix = "measure it and the back neck point to the waist again"
        read.problems.append(Problem("style", "person.measures.side_neck_point_to_bust_point", "refuse", wrong, fix))
    if estimated and bust_point > sources.BUST_ESTIMATE_LOWEST * waist:
        wrong = "by the estimate the fullest point of the bust lies too near the waist"
        fix = "measure from the side-neck point to the bust point; until then it is taken at three quarters of the way"
        read.problems.append(Problem("style", "person.measures.side_neck_point_to_bust_point", "warn", wrong, fix))
    if style.shoulder_slope is not None and style.shoulder_drop is not None:
        read.refuse("shoulder_drop", "slope and drop are both given", "give one of them")
    if style.neck_layers == "folded" and style.neck_slant:
        read.refuse("neck_slant", "a slanted edge cannot be folded over", "choose a single neck, or no slant")
    if style.centre_back == "seam" and style.neck_slant:
        read.refuse(
            "neck_slant",
            "a slanted edge is trimmed on the opened-out back, which a centre back seam divides",
            "choose the fold at the centre back, or no slant",
        )
    if style.narrowest_at is not None and not (0.35 <= style.narrowest_at <= 0.7 or style.narrowest_at == 1):
        read.refuse("narrowest_at", f"{style.narrowest_at:g} is out of reach", "give 0.35 to 0.7, or 1 for the end")
    if style.narrowest_at == 1 and style.flare != "none":
        read.refuse("flare", "a sleeve that is narrowest at its end has no flare", "choose none, or narrowest_at 0.5")

    if style.underarm_above_waist is not None and style.underarm != "deep":
        wrong = "this counts only for the deep underarm"
        read.problems.append(
            Problem("style", "style.underarm_above_waist", "warn", wrong, "choose it, or leave this out")
        )

    length = _length(read, style, body, waist, grown)
    hem_flounce = None
    if style.hem_finish == "flounce":
        hem_flounce = read_hem_flounce(read, style, body, length, waist + sources.SHORTEST_BELOW_WAIST * grown)
        if style.slit not in ("auto", "none"):
            read.refuse("slit", "a flounce closes the sides", "choose a hem turned up, or no slit")
    hem = length - (0.0 if hem_flounce is None else hem_flounce.depth)
    if style.hem_girth != "auto" and hem < waist + body.waist_to_hip + 30.0:
        read.refuse("hem_girth", "a hem above the hip follows the body", "choose a longer length, or leave it to auto")
    sleeve = _sleeve_length(read, style, body)
    flare_angle, flare_girth = _flare(read, style)
    slope = (
        sources.SHOULDER_SLOPE
        if style.shoulder_slope is None
        else read.degrees("shoulder_slope", style.shoulder_slope, *map(math.degrees, sources.SHOULDER_SLOPE_LIMITS))
    )
    drop = read.maybe("shoulder_drop", style.shoulder_drop, 5.0, 120.0)
    if drop is not None:
        slope = _slope_of_drop(read, drop, body)
    cuff = _cuff(read, style, body, sleeve, grown)
    neck_band = _neck_band(read, style, body)
    sleeve_flounce = _sleeve_flounce(read, style, body, sleeve)
    usual = dict(ALLOWANCES)
    if cuff is not None or sleeve_flounce is not None:
        usual["sleeve_end"] = BAND_ALLOWANCE
    if hem_flounce is not None:
        usual["hem"] = BAND_ALLOWANCE
    allowances = {
        key: default
        if getattr(style.allowances, key) is None
        else read.length(f"allowances.{key}", getattr(style.allowances, key), 3.0, 60.0)
        for key, default in usual.items()
    }
    straight = sides_are_straight(style.waist, body.kind)
    angle = usual_overarm(straight=straight) if style.overarm_angle is None else style.overarm_angle
    default_height = sources.NECK_HEIGHT_CHILD if child else sources.NECK_HEIGHT
    height = read.maybe("neck_height", style.neck_height, 0.0, 400.0)
    choices = Choices(
        fit=style.fit,
        neck_height=default_height if height is None else height,
        neck_height_given=height is not None,
        folded=style.neck_layers == "folded",
        neck_half_width=read.maybe("neck_half_width", style.neck_half_width, 40.0, 250.0),
        lean=read.degrees("neck_lean", style.neck_lean, 0, 15),
        slant=read.degrees("neck_slant", style.neck_slant, 0, 12),
        slant_side=style.neck_slant_side,
        opening=style.neck_opening == "centre_back",
        slope=slope,
        drop=drop,
        overarm=read.degrees("overarm_angle", angle, 0, 30),
        sleeve_length=sleeve,
        narrowest_at=style.narrowest_at,
        narrowest_girth=read.maybe("narrowest_girth", style.narrowest_girth, 80.0, 1200.0),
        flare=flare_angle,
        flare_girth=flare_girth,
        deep=style.underarm == "deep",
        above_waist=read.maybe("underarm_above_waist", style.underarm_above_waist, 0.0, 300.0),
        body=style.body,
        hem_girth=read.maybe("hem_girth", style.hem_girth, 300.0, 4000.0),
        length=length,
        ease_bust=read.ease("ease_bust", style.ease_bust),
        ease_waist=read.ease("ease_waist", style.ease_waist),
        ease_hip=read.ease("ease_hip", style.ease_hip),
        slit=0.0 if style.slit == "none" or hem_flounce is not None else read.maybe("slit", style.slit, 10.0, 900.0),
        back_seam=style.centre_back == "seam",
        joined=style.lower_sleeve == "joined",
        straight=straight,
        allowances_given=frozenset(key for key in allowances if getattr(style.allowances, key) is not None),
        cuff=cuff,
        cuff_given=style.cuff_height != "auto",
        neck_band=neck_band,
        neck_band_given=style.neck_band_height != "auto",
        rib=read_rib(read, style.band_cloth, style.band_stretch),
        sleeve_flounce=sleeve_flounce,
        hem_flounce=hem_flounce,
        hooded=style.neck_finish == "hood",
        pouch=read_pouch(read, style.pouch, body, hem),
        pockets=read_pockets(read, style.pockets, body, hem, slit=read.known(style.slit), pouch=style.pouch != "none"),
        **read_hood(read, style, body, hooded=style.neck_finish == "hood"),
        **allowances,
    )
    refused = any(problem.severity == "refuse" for problem in read.problems)
    return (None if refused else choices), tuple(read.problems)


def _length(read: StyleReader, style: Style, body: Body, waist: float, grown: float) -> float:
    shortest = waist + sources.SHORTEST_BELOW_WAIST * grown
    wrong = "by these measures the hem would lie at the waist or above it"
    return hem_length(read, style.length, body, LENGTH_WORDS, shortest, wrong)


def _sleeve_length(read: StyleReader, style: Style, body: Body) -> float:
    if style.sleeve_length == "wrist":
        return body.arm_length
    if style.sleeve_length == "elbow":
        return body.arm_length * sources.ELBOW_LENGTH_SHARE
    return read.length("sleeve_length", style.sleeve_length, 5 * CM, body.arm_length + 4 * CM)


def _cuff(read: StyleReader, style: Style, body: Body, sleeve: float, grown: float) -> float | None:
    """The finished height of the cuff that was asked for, mm; None without one."""
    if style.sleeve_finish != "cuff":
        return None
    found = read.maybe("cuff_height", style.cuff_height, *CUFF_HEIGHTS)
    height = CUFF_HEIGHT * grown if found is None else found
    if style.flare != "none":
        read.refuse("flare", "a sleeve that ends in a cuff has no flare", "choose none, or a hem")
    if style.narrowest_at not in (None, 1):
        read.refuse("narrowest_at", "a sleeve that ends in a cuff is narrowest at its end", "leave this out")
    if sleeve - height < CUFF_SLEEVE_LEAST * body.arm_length:
        read.refuse("sleeve_length", "the sleeve is too short for a cuff", "choose a longer sleeve, or a hem")
    return height


def _sleeve_flounce(read: StyleReader, style: Style, body: Body, sleeve: float) -> Flouncing | None:
    """The flounce that was asked for at the end of the sleeve; None without one."""
    if style.sleeve_finish != "flounce":
        return None
    if style.flare != "none":
        read.refuse("flare", "a sleeve that ends in a flounce has no flare", "choose none, or a hem")
    if style.narrowest_at not in (None, 1):
        read.refuse("narrowest_at", "a sleeve that ends in a flounce is narrowest at its end", "leave this out")
    if sleeve - DEPTH_LIMITS["sleeve"][0] < CUFF_SLEEVE_LEAST * body.arm_length:
        read.refuse("sleeve_length", "the sleeve is too short for a flounce", "choose a longer sleeve, or a hem")
    return read_sleeve_flounce(read, style, body, sleeve)


def with_flounces(choices: Choices, body: Body, adjusted: list[Adjustment]) -> Choices:
    """The choices of a garment with flounces: what they hang from is shorter by them, and a sleeve narrowest there."""
    least = CUFF_SLEEVE_LEAST * body.arm_length
    waist = body.back_neck_point_to_waist + sources.NAPE_ABOVE_SIDE_NECK
    room = choices.length - waist - sources.SHORTEST_BELOW_WAIST * sources.scale(body.stature)
    sleeve = held_on_sleeve(choices.sleeve_flounce, body, choices.sleeve_length, adjusted, least)
    held = replace(choices, sleeve_flounce=sleeve, hem_flounce=held_at_hem(choices.hem_flounce, room, adjusted))
    if sleeve is not None:
        held = replace(held, sleeve_length=held.sleeve_length - sleeve.depth, narrowest_at=1.0)
    return replace(held, length=held.length - held.below_hem)


def _neck_band(read: StyleReader, style: Style, body: Body) -> float | None:
    """The finished height of the band that was asked for at a scooped neck, mm; else None. A hood is judged alike."""
    if style.neck_finish == "turned":
        return None
    sewn = style.neck_finish
    height = read_length(style.neck_height, read.unit) if style.neck_height is not None else None
    if not isinstance(height, float) or height >= sources.NECK_SCOOP_BELOW:
        least = say_length(sources.NECK_SCOOP_BELOW, read.unit)
        read.refuse("neck_finish", f"only a scooped neck takes a {sewn}", f"give a neck height under {least}")
    if style.neck_opening == "centre_back":
        read.refuse("neck_finish", f"a {sewn} closes the neck all round", "choose no opening, or an edge turned in")
    if sewn == "hood":
        return None
    found = read.maybe("neck_band_height", style.neck_band_height, *NECK_BAND_HEIGHTS)
    return NECK_BAND_HEIGHT if found is None else found


def _flare(read: StyleReader, style: Style) -> tuple[float, float | None]:
    if style.flare == "none":
        return 0.0, None
    if isinstance(style.flare, str) and style.flare in sources.FLARE_ANGLES:
        return sources.FLARE_ANGLES[style.flare], None
    return 0.0, read.length("flare", style.flare, 120.0, 2500.0)


def _slope_of_drop(read: StyleReader, drop: float, body: Body) -> float:
    run = body.shoulder_width / 2 - body.neck_base_girth * sources.NECK_BASE_SHARE
    slope = math.atan2(drop, run)
    low, high = sources.SHOULDER_SLOPE_LIMITS
    if not low <= slope <= high:
        least, most = (say_length(run * math.tan(angle), read.unit) for angle in (low, high))
        read.refuse("shoulder_drop", f"a shoulder that falls by {say_length(drop, read.unit)} is out of reach",
                    f"give {least} to {most}")  # fmt: skip
    return min(max(slope, low), high)
