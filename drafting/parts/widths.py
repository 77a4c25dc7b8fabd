"""How wide the body is at bust, waist and hip: finished quarters, and how much one side seam may shape.

Body axes, finished: x across from the fold, y down from the side-neck level, millimetres.
"""

import math
from dataclasses import dataclass
from typing import Protocol

from drafting import sources
from drafting.cloth import ClothFacts, Fit, ease_share, passing_factor
from drafting.contract.chalked_line import ChalkedLine
from drafting.contract.girths import Passes
from drafting.person.measures import Body
from drafting.problems import Adjustment


class BodyChoices(Protocol):
    """What the choices of a garment say about its body, mm; None means: to be worked out."""

    @property
    def fit(self) -> Fit:
        """How closely it fits."""

    @property
    def straight(self) -> bool:
        """Whether one straight line runs from bust to hip."""

    @property
    def body(self) -> str:
        """Below the hip: straight, flared or pegged."""

    @property
    def length(self) -> float:
        """From the side-neck level to the hem, mm."""

    @property
    def hem_girth(self) -> float | None:
        """Girth of the hem, mm."""

    @property
    def ease_bust(self) -> float | None:
        """Ease at the bust, all round, mm."""

    @property
    def ease_waist(self) -> float | None:
        """Ease at the waist, all round, mm."""

    @property
    def ease_hip(self) -> float | None:
        """Ease at the hip, all round, mm."""


@dataclass(frozen=True, slots=True)
class Levels:
    """Distances down the fold from the side-neck level, finished."""

    bust: float
    waist: float
    armpit: float
    hip: float
    hem: float

    @property
    def low(self) -> float:
        """The lowest level of the body that the garment reaches and fits: the hip, or the hem above it."""
        return min(self.hip, self.hem)

    @property
    def reaches_hip(self) -> bool:
        """Whether the hem lies below the hip."""
        return self.hem > self.hip


@dataclass(frozen=True, slots=True)
class Widths:
    """Finished quarters at bust, waist and the lowest fitted level; `knot` is the level where the side starts to shape.

    `straight` says that one straight line runs from the bust to the lowest level, with no waist of its own. `comes_in`
    is by how much a shaped side comes in for each mm down where it meets the knot, straight from above it.
    """

    bust: float
    waist: float
    low: float
    knot: float
    straight: bool
    comes_in: float = 0.0


def levels(body: Body, choices: BodyChoices, adjusted: list[Adjustment]) -> Levels:
    """The body levels as they lie on the cloth (distances on the cloth, not heights on the body).

    An estimated bust level is kept at 0.75 of the way down to the waist, and said so.
    """
    waist = body.back_neck_point_to_waist + sources.NAPE_ABOVE_SIDE_NECK
    bust = body.side_neck_point_to_bust_point
    lowest = sources.BUST_ESTIMATE_LOWEST * waist
    if body.estimated("side_neck_point_to_bust_point") and bust > lowest:
        why = "a full bust makes the estimate too long; measure from the side-neck point to the bust point"
        adjusted.append(Adjustment("bust_level", "bust level below the side-neck level", bust, lowest, why))
        bust = lowest
    return Levels(bust, waist, body.scye_depth, waist + body.waist_to_hip, choices.length)


def passing_girth(body: Body, cloth: ClothFacts, largest: float) -> float:
    """Finished girth of a ring through which `largest` passes with the usual spare, mm."""
    return (largest + sources.PASSING_EASE * sources.scale(body.stature)) / passing_factor(cloth.across)


def through_waist(body: Body) -> float:
    """The largest girth that goes through a waist put on over the head, mm."""
    return max(body.bust_girth, body.upper_chest_girth)


def through_hem(body: Body, choices: BodyChoices) -> float:
    """The largest girth that goes through the hem: bust, and hips where the hem lies below their level, mm."""
    below_hip = choices.length > body.back_neck_point_to_waist + sources.NAPE_ABOVE_SIDE_NECK + body.waist_to_hip
    return max(body.bust_girth, body.hip_girth) if below_hip else body.bust_girth


def through_hem_passes(body: Body, through: float, stretch: float) -> Passes:
    """What goes through a hem, where `through` is the largest girth of the body that does, mm."""
    what = "bust" if through <= body.bust_girth else "hip"
    return Passes(what, through + sources.PASSING_EASE * sources.scale(body.stature), stretch)


def kept_open(width: float, needed: float, chalked: ChalkedLine, cloth: ClothFacts, allowance: float) -> float:
    """A quarter, not under `width`, that is at least `needed` as it will be chalked, mm.

    It is left alone where its nearest reading is wide enough.
    """
    if chalked.chalked(max(width, needed), allowance, cloth.shrink_across) >= needed - 1e-6:
        return max(width, needed)
    return max(width, chalked.open_enough(needed, allowance, cloth.shrink_across))


def widths(
    body: Body,
    choices: BodyChoices,
    cloth: ClothFacts,
    at: Levels,
    chalked: ChalkedLine,
    allowance: float,
    adjusted: list[Adjustment],
    upper: tuple[float, float] | None = None,
) -> Widths:
    """Finished quarters. The waist is let out for what must pass it, and for what one side seam may shape.

    Ease that shaping leaves in the waist is a finished figure; only what must pass is told as moved. `upper` is the
    quarter at the bust and the level of the underarm of a garment whose armhole decides them.
    """
    bust = _with_ease(body.bust_girth, choices.ease_bust, cloth, choices) / 4
    waist = _with_ease(body.waist_girth, choices.ease_waist, cloth, choices) / 4
    low = _low(body, choices, cloth, at, chalked, allowance)
    knot = min(at.bust, at.waist - sources.BUST_ABOVE_WAIST * sources.scale(body.stature))
    passing = passing_girth(body, cloth, through_waist(body)) / 4
    if upper is not None:
        bust, knot = upper[0], upper[1] if choices.straight else max(knot, upper[1])
    if choices.straight:
        return _straight(choices, at, bust, waist, low, knot, passing, chalked, cloth, allowance, adjusted)
    if choices.ease_waist is not None:
        return Widths(bust, waist, _fitted(low, waist, at, adjusted), knot, False)
    shaping = sources.SHAPED_TO_HIP[choices.fit] * (at.low - at.waist) / sources.SHAPED_TO_HIP_DEPTH
    least = max(low.wide - shaping, bust - sources.SHAPED_TO_BUST * (at.waist - knot))
    waist = max(waist, least)
    open_waist = kept_open(waist, passing, chalked, cloth, allowance)
    if open_waist > waist + 1e-6:
        adjusted.append(
            Adjustment(
                "ease_waist",
                "waist, all round",
                4 * waist,
                4 * open_waist,
                "bust and shoulders must pass through it",
            )
        )
        waist = open_waist
    waist = _for_low_bust(at, bust, waist, knot, adjusted)
    bust = _for_wide_hip(at, bust, waist, knot, adjusted)
    return Widths(bust, waist, _fitted(low, waist, at, adjusted), knot, False)


def _with_ease(girth: float, ease: float | None, cloth: ClothFacts, choices: BodyChoices) -> float:
    return girth + (girth * ease_share(cloth.across, choices.fit) if ease is None else ease)


@dataclass(frozen=True, slots=True)
class _Low:
    """The quarter at the lowest fitted level: as the body and the ease have it, and widened for what must pass."""

    plain: float
    wide: float


def _fitted(low: _Low, beside: float, at: Levels, adjusted: list[Adjustment]) -> float:
    """The lowest quarter of a shaped side: a hem above the hip is never less than the waist `beside` it."""
    return _told(low, 0.0 if at.reaches_hip else beside, at, adjusted)


def _told(low: _Low, least: float, at: Levels, adjusted: list[Adjustment]) -> float:
    """The lowest quarter, at least `least`; said to be moved where what must pass decides it."""
    without = max(low.plain, least)
    if low.wide > without + 1e-6:
        key, what = ("ease_hip", "hip, all round") if at.reaches_hip else ("hem_girth", "hem, all round")
        why = "the body must pass through it when it is put on"
        adjusted.append(Adjustment(key, what, 4 * without, 4 * low.wide, why))
    return max(low.wide, least)


def _low(
    body: Body, choices: BodyChoices, cloth: ClothFacts, at: Levels, chalked: ChalkedLine, allowance: float
) -> _Low:  # fmt: skip
    """The quarter at the hip, or at a hem above it: girth and ease of that place, straight from waist to hip."""
    hip = _with_ease(body.hip_girth, choices.ease_hip, cloth, choices)
    waist = _with_ease(body.waist_girth, choices.ease_waist, cloth, choices)
    share = (at.low - at.waist) / (at.hip - at.waist)
    low = (waist + (hip - waist) * share) / 4
    passing = passing_girth(body, cloth, through_hem(body, choices)) / 4
    if choices.ease_hip is not None and at.reaches_hip:
        return _Low(low, low)
    return _Low(low, kept_open(low, passing, chalked, cloth, allowance))


def _straight(
    choices: BodyChoices, at: Levels, bust: float, waist: float, lowest: _Low, knot: float, passing: float,
    chalked: ChalkedLine, cloth: ClothFacts, allowance: float, adjusted: list[Adjustment],
) -> Widths:  # fmt: skip
    """One straight line from the bust to the lowest level: upright, or slanting out to a wider hip by at most 6°."""
    depth = at.low - knot
    asked_bust = bust
    most = math.tan(sources.STRAIGHT_SIDE_SLANT)
    if lowest.wide - bust > most * depth:
        bust = lowest.wide - most * depth
        why = "one straight line runs from the bust to the hip, and more slant would hang in a point"
        adjusted.append(Adjustment("ease_bust", "bust, all round", 4 * asked_bust, 4 * bust, why))
    low = _told(lowest, asked_bust, at, adjusted)
    if choices.ease_hip is not None and at.reaches_hip and low > lowest.plain + 1e-6:
        why = "a straight side does not come in below the bust"
        adjusted.append(Adjustment("ease_hip", "hip, all round", 4 * lowest.plain, 4 * low, why))
    line = bust + (low - bust) * (at.waist - knot) / depth
    wanted, why = waist, "the waist must go into it"
    must = kept_open(line, passing, chalked, cloth, allowance)
    if choices.ease_waist is None and must > max(line, wanted):
        wanted, why = must, "bust and shoulders must pass through the waist"
    if wanted > line + 1e-6:
        out = wanted - line
        moved = [("ease_bust", "bust", bust)]
        moved += [("ease_waist", "waist", line)] if choices.ease_waist is None else []  # else it is what was asked
        moved += [("ease_hip", "hip", low)] if at.reaches_hip else []
        adjusted.extend(
            Adjustment(key, f"{what}, all round", 4 * quarter, 4 * (quarter + out), why) for key, what, quarter in moved
        )
        bust, low, line = bust + out, low + out, wanted
    elif choices.ease_waist is not None and waist < line - 1e-6:
        why = "a straight side does not come in to the waist"
        adjusted.append(Adjustment("ease_waist", "waist, all round", 4 * waist, 4 * line, why))
    return Widths(bust, line, low, knot, True)


def _for_wide_hip(at: Levels, bust: float, waist: float, knot: float, adjusted: list[Adjustment]) -> float:
    """The bust, let out where a waist that a wide hip widens lies further out than the side may run.

    Our choice: the side runs out from the bust no steeper than it may come in, and a waist wider than the bust does
    not turn the side into one straight line. So the bust never moves by more than the hip does.
    """
    least = waist - sources.SHAPED_TO_BUST * (at.waist - knot)
    if bust >= least - 1e-6:
        return bust
    why = "the hip is so wide that the side would run out too steeply below the bust"
    adjusted.append(Adjustment("ease_bust", "bust, all round", 4 * bust, 4 * least, why))
    return least


def _for_low_bust(at: Levels, bust: float, waist: float, knot: float, adjusted: list[Adjustment]) -> float:
    """The waist, let out where the bust lies so near it that the seam would cut into the bust.

    The seam is let out above the waist by a bounded amount, and beyond that the waist itself. (3 − 2s)·s² is how far
    the seam has come in at share s of the way (CALC).
    """
    down = min(1.0, (at.bust - knot) / (at.waist - knot))
    come_in = (3 - 2 * down) * down * down
    if come_in <= 0:
        return waist
    least = bust - sources.BUST_LET_OUT_MOST * (1 - come_in) / come_in
    if waist >= least - 1e-6:
        return waist
    adjusted.append(
        Adjustment(
            "ease_waist", "waist, all round", 4 * waist, 4 * least, "the bust lies too near the waist to take more in"
        )
    )
    return least
