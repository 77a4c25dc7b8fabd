"""A body told by a garment that fits, laid flat and measured with a tape.

What is sewn goes round its wearer with ease: by the stretch of its cloth for the body, as `drafting.cloth` has it, and
as room for the arm. Here the same functions and numbers are turned round. What comes of it are measures like any
others, each marked as told by the garment; what it does not show stays to be estimated or taken.

A garment says how large a body may be rather than how large it is: it may be wider than its ease asks for, since a
seam without darts shapes little, and since it must pass what it is put on over. `at_most` says where that can be. The
fit is an eye's judgement, so each girth is as uncertain as half the way to the nearest other fit, beside what a tape on
cloth is off (`within`).
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Literal

from pydantic import BaseModel, ConfigDict, StrictFloat, StrictInt, StrictStr

from drafting import sources
from drafting.cloth import STRETCH_LIMIT, Fit, ease_share, passing_factor
from drafting.person.measures import all_for
from drafting.person.table import MEASURES, Kind
from drafting.problems import Problem
from drafting.units import CM, LengthProblem, Unit, read_amount, say_length

__all__ = ["FlatGarment", "FromGarment", "Left", "Told", "read_flat"]

#: A half width is read to this, mm: half a step of 5 mm at either seam. Our choice, because cloth gives under a tape.
READ_WITHIN = 2.5
#: A waist counts as shaped where it lies this much inside the narrower of chest and hip, half widths, mm. Our choice,
#: because less is a seam that was sewn a little off.
SHAPED_FROM = 10.0
#: The hip counts as let out for the bust where it is no wider than the bust needs to pass, but for this much, mm, all
#: round: twice what the reading is off.
LET_OUT_WITHIN = 4 * READ_WITHIN
#: What can be, mm, of what is no measure of a body: half the hem, side neck to hem, shoulder to sleeve end. Our choice,
#: because no garment of the kinds that are drafted here lies outside.
LIMITS = {
    "half_hem": (15 * CM, 150 * CM),
    "side_neck_to_hem": (20 * CM, 170 * CM),
    "along_sleeve": (3 * CM, 90 * CM),
}

Length = StrictFloat | StrictInt | StrictStr

_FITS: tuple[Fit, ...] = ("close", "regular", "loose")
#: The field that each measure is told by, and what it is called there.
_FIELDS = {
    "half_chest": "the half width at the chest",
    "half_waist": "the half width at the waist",
    "half_hip": "the half width at the hip",
    "half_hem": "the half width at the hem",
    "side_neck_to_hem": "the length from the side neck to the hem",
    "along_sleeve": "the length of the sleeve",
    "half_upper_arm": "the half width of the sleeve at the upper arm",
    "half_wrist": "the half width of the sleeve at the wrist",
}
_NOT_SHOWN = "A garment that lies flat does not show it."
_NOT_GIVEN = "It was not measured on the garment."


class FlatGarment(BaseModel):
    """A garment that fits, as typed. Bare numbers stand in `unit`, a string carries its own.

    Half widths go from fold to fold of the closed garment, which lies flat and unstretched: the chest just under the
    arms, the upper arm square to the sleeve from where it meets the side. `side_neck_to_hem` goes from the side neck
    down to the hem, `along_sleeve` from the point of the shoulder, where the arm begins, to the end of the sleeve,
    `ends_at` says where on the arm that is. `stretch_across` is the stretch of its cloth round the body, in percent, by
    the same test as for new cloth, and `fit` how it sits on its wearer, whose stature is asked for because room grows
    with it.
    """

    model_config = ConfigDict(frozen=True, extra="forbid")

    kind: Kind
    unit: Unit
    stature: Length
    stretch_across: StrictFloat | StrictInt
    fit: Fit = "regular"
    half_chest: Length
    half_waist: Length | None = None
    half_hip: Length | None = None
    half_hem: Length | None = None
    side_neck_to_hem: Length | None = None
    along_sleeve: Length | None = None
    half_upper_arm: Length | None = None
    half_wrist: Length | None = None
    ends_at: Literal["wrist", "above"] = "wrist"


@dataclass(frozen=True, slots=True)
class Told:
    """A measure of the body that a garment tells, mm: `field` names what it was told by.

    `within` is how far off it may be either way. Where it is `at_most`, the body may be smaller than that besides, and
    a garment drafted from it has the room that the old one has.
    """

    measure: str
    value: float
    within: float
    at_most: bool
    field: str


@dataclass(frozen=True, slots=True)
class Left:
    """A measure that the garment does not tell: it is estimated unless it is taken. `why` is a whole sentence.

    `field` names what was measured for it all the same; empty where nothing was.
    """

    measure: str
    why: str
    field: str = ""


@dataclass(frozen=True, slots=True)
class FromGarment:
    """What a garment tells of its wearer: `told` and `left` name every measure but the stature, in the table's order.

    `side_neck_to_hem`, `hem_girth` and `along_sleeve` are the garment's own, mm, for a draft that is to look like it.
    """

    stature: float
    told: tuple[Told, ...]
    left: tuple[Left, ...]
    side_neck_to_hem: float | None = None
    hem_girth: float | None = None
    along_sleeve: float | None = None

    @property
    def measures(self) -> dict[str, str]:
        """The measures as a person's are typed, to a tenth of a millimetre, each with its unit."""
        return {
            "stature": f"{self.stature:.1f} mm",
            **{one.measure: f"{one.value:.1f} mm" for one in self.told},
        }


def read_flat(flat: FlatGarment) -> tuple[FromGarment | None, tuple[Problem, ...]]:
    """Reads a garment measured flat, all problems at once; None where any of them refuses.

    Problems stand at "garment.<field>".
    """
    problems: list[Problem] = []
    stretch = _stretch(flat.stretch_across, problems)
    mm = {name: _read(name, getattr(flat, name), flat.unit, problems) for name in ("stature", *_FIELDS)}
    stature = mm.pop("stature")
    if stature is not None:
        _within_limit("stature", stature, MEASURES["stature"].limit, flat.unit, problems)
    for name, limit in LIMITS.items():
        if (value := mm[name]) is not None:
            _within_limit(name, value, limit, flat.unit, problems)
    if problems or stature is None:
        return None, tuple(problems)
    given = {name: value for name, value in mm.items() if value is not None}
    worn = _Worn(given, stretch, flat.fit, sources.scale(stature))
    told = {one.measure: one for one in worn.told(to_wrist=flat.ends_at == "wrist")}
    for one in told.values():
        _possible(one, worn, flat, problems)
    if problems:
        return None, tuple(problems)
    names = [name for name in all_for(flat.kind) if name != "stature"]
    return (
        FromGarment(
            stature,
            tuple(told[name] for name in names if name in told),
            tuple(worn.left(name) for name in names if name not in told),
            given.get("side_neck_to_hem"),
            2 * given["half_hem"] if "half_hem" in given else None,
            given.get("along_sleeve"),
        ),
        (),
    )


@dataclass(frozen=True, slots=True)
class _Worn:
    """The garment on its wearer: its half widths and lengths, mm, the stretch of its cloth as a fraction, its fit."""

    given: dict[str, float]
    across: float
    fit: Fit
    grown: float

    @property
    def straight(self) -> bool:
        """Whether its sides run past the waist without following it."""
        beside = min(self.given["half_chest"], self.given.get("half_hip", math.inf))
        return self.given.get("half_waist", math.inf) > beside - SHAPED_FROM

    @property
    def flared(self) -> bool:
        """Whether its sleeve does not narrow to the wrist."""
        return self.given.get("half_wrist", 0.0) >= self.given.get("half_upper_arm", math.inf)

    def told(self, *, to_wrist: bool) -> list[Told]:
        """Every measure that it tells: of the arm none that is more than an arm can be."""
        given = self.given
        bust = self._less_ease("bust_girth", "half_chest", at_most=False)
        found = [bust]
        if "half_waist" in given and not self.straight:
            found.append(self._less_ease("waist_girth", "half_waist", at_most=True))
        if "half_hip" in given:
            passing = (bust.value + sources.PASSING_EASE * self.grown) / passing_factor(self.across)
            let_out = 2 * given["half_hip"] <= passing + LET_OUT_WITHIN
            found.append(self._less_ease("hip_girth", "half_hip", at_most=self.straight or let_out))
        if "half_upper_arm" in given:
            found.append(self._less_room("upper_arm_girth", "half_upper_arm", sources.ARM_ROOM))
        if to_wrist and "half_wrist" in given and not self.flared:
            found.append(self._less_room("wrist_girth", "half_wrist", sources.SLEEVE_ROOM))
        if to_wrist and "along_sleeve" in given:
            found.append(
                Told("arm_length", given["along_sleeve"], 2 * READ_WITHIN, at_most=False, field="along_sleeve")
            )
        return [one for one in found if one.field not in _SLEEVE or one.value <= MEASURES[one.measure].limit[1]]

    def halved(self, told: Told) -> float:
        """What a girth would come to if its half width were half of what it is."""
        half = replace(self, given={**self.given, told.field: self.given[told.field] / 2})
        return next((one.value for one in half.told(to_wrist=True) if one.measure == told.measure), math.nan)

    def left(self, measure: str) -> Left:
        """A measure that it does not tell, and why."""
        field, why = _IN_VAIN.get(measure, ("", ""))
        if field in self.given:
            return Left(measure, why, field)
        return Left(measure, _NOT_GIVEN if measure in _BY_GARMENT else _NOT_SHOWN)

    def _less_ease(self, measure: str, field: str, *, at_most: bool) -> Told:
        """A girth of the body with the ease of this stretch and fit taken off: that of `ease_share`, turned round."""
        eased = {fit: 1 + ease_share(self.across, fit) for fit in _FITS}
        girth, share = 2 * self.given[field], eased[self.fit]
        nearest = min(abs(girth / other - girth / share) for fit, other in eased.items() if fit != self.fit)
        return Told(measure, girth / share, 2 * READ_WITHIN / share + nearest / 2, at_most, field)

    def _less_room(self, measure: str, field: str, room: Mapping[str, float]) -> Told:
        """A girth of the arm with the room taken off that it has in the closest fit.

        No more is taken off in a looser one: a sleeve of its own has less room than one cut in one with the body, and
        an arm must never be told smaller than it is.
        """
        value = 2 * self.given[field] - room["close"] * self.grown
        apart = (room["regular"] - room["close"]) * self.grown
        return Told(measure, value, 2 * READ_WITHIN + apart / 2, at_most=True, field=field)


#: What is measured across the sleeve.
_SLEEVE = frozenset({"half_upper_arm", "half_wrist"})
#: Why a measure is not told although something was measured for it.
_IN_VAIN = {
    "waist_girth": ("half_waist", "The sides of the garment run straight past the waist."),
    "wrist_girth": ("half_wrist", "The sleeve ends above the wrist, or it is wide there."),
    "upper_arm_girth": ("half_upper_arm", "The sleeve is so wide that it tells nothing of the arm."),
    "arm_length": ("along_sleeve", "The sleeve ends above the wrist."),
}
_BY_GARMENT = frozenset({"bust_girth", "waist_girth", "hip_girth", "upper_arm_girth", "wrist_girth", "arm_length"})


def _refusal(code: str, name: str, wrong: str, fix: str, values: tuple[tuple[str, float | str], ...] = (),
             instead: str = "") -> Problem:  # fmt: skip
    return Problem(code, f"garment.{name}", "refuse", wrong, fix, values, instead)


def _read(name: str, typed: str | float | None, unit: Unit, problems: list[Problem]) -> float | None:
    if typed is None:
        return None
    amount = read_amount(typed, unit)
    if isinstance(amount, LengthProblem):
        problems.append(_refusal("length_unreadable", name, amount.wrong, amount.fix))
        return None
    if amount.mm <= 0:
        fix = "measure it again" if name in ("stature", "half_chest") else "measure it again, or leave it out"
        problems.append(_refusal("length_zero", name, "this has no length", fix))
        return None
    return amount.mm


def _stretch(typed: float, problems: list[Problem]) -> float:
    low, high = STRETCH_LIMIT
    if low <= typed <= high:
        return typed / 100
    found = f"{typed:g} %" if abs(typed) < 1e6 else "far too much" if abs(typed) < math.inf else "not a number"
    wrong = f"the stretch of its cloth is {found}, outside {low:g} to {high:g} %"
    fix = "test it on the garment: mark 10 cm or 4 in, pull, and write by how many percent it got longer"
    problems.append(_refusal("percent_outside", "stretch_across", wrong, fix))
    return math.nan


def _within_limit(
    name: str, value: float, limit: tuple[float, float], unit: Unit, problems: list[Problem]
) -> None:  # fmt: skip
    low, high = limit
    if low - 0.01 <= value <= high + 0.01:
        return
    what = _FIELDS.get(name, "a stature")
    wrong = f"{say_length(value, unit)} is outside what {what} can be ({_span(low, high, unit)})"
    values = (("value", value), ("low", low), ("high", high))
    problems.append(_refusal("measure_outside_limit", name, wrong, "look at the number and its unit again", values))


def _possible(told: Told, worn: "_Worn", flat: FlatGarment, problems: list[Problem]) -> None:
    """Refuses what no body can be; where the whole girth was measured instead of the half, that is asked."""
    low, high = MEASURES[told.measure].limit
    if low - 0.01 <= told.value <= high + 0.01:
        return
    said, unit, typed = MEASURES[told.measure].said_for(flat.kind), flat.unit, worn.given[told.field]
    values = (("value", told.value), ("low", low), ("high", high))
    if told.field == "along_sleeve":
        wrong = f"{say_length(typed, unit)} is outside what {said} can be ({_span(low, high, unit)})"
        fix = "measure again from the point of the shoulder to the wrist, or say that the sleeve ends above the wrist"
        problems.append(_refusal("measure_outside_limit", told.field, wrong, fix, values))
        return
    if told.value > high and low <= worn.halved(told) <= high:
        half = say_length(typed / 2, unit)
        wrong = f"{say_length(typed, unit)} is too much for half a girth. Was it measured all round?"
        fix = f"write {half}, or measure again from fold to fold"
        problems.append(_refusal("whole_girth", told.field, wrong, fix, values, half))
        return
    arm = told.field in _SLEEVE
    ease = "the room for the arm" if arm else f"the ease of a {flat.fit} fit"
    wrong = (
        f"with {ease} taken off this comes to {say_length(told.value, unit)}, outside what {said} "
        f"can be ({_span(low, high, unit)})"
    )
    fix = "measure again from fold to fold"
    if not arm:
        fix += ", or choose a closer fit" if told.value < low else ", or choose a looser fit"
    problems.append(_refusal("measure_outside_limit", told.field, wrong, fix, values))


def _span(low: float, high: float, unit: Unit) -> str:
    return f"{say_length(low, unit).removesuffix(f' {unit}')} to {say_length(high, unit)}"
