"""The cloth: how wide, how far it stretches each way, how it washes, and what follows for the draft.

Typed percentages are numbers such as 40; inside they are fractions of the unstretched length (0.40).
"Across" is across the cloth, selvage to selvage; "along" is along the selvage.
"""

import math
from collections.abc import Callable
from dataclasses import dataclass
from itertools import pairwise
from typing import Annotated, Final, Literal

from pydantic import BaseModel, BeforeValidator, ConfigDict, StrictBool, StrictFloat, StrictInt, StrictStr

from drafting.problems import Problem
from drafting.units import CM, Amount, LengthProblem, Unit, read_amount, say_length

Recovery = Literal["good", "fair", "poor"]
#: What cloth is made of: loops that give, or threads that cross and do not.
ClothKind = Literal["knit", "woven"]
Fit = Literal["close", "regular", "loose"]
StretchClass = Literal["stable", "moderate", "stretchy", "super_stretchy", "rib"]
#: How the cloth is laid for cutting: the shortest way that keeps the garment as drafted, or one way by its name.
Lay = Literal["auto", "half", "open", "two_folds", "part_fold", "crosswise"]
#: The way that turns the cloth under the garment.
CROSSWISE: Final[Lay] = "crosswise"
Length = StrictFloat | StrictInt | StrictStr
Percent = StrictFloat | StrictInt

#: What must be to spare across, mm: cloth is never quite as wide as its label. Our choice.
SPARE = 10.0
WIDTH_LIMIT = (60 * CM, 300 * CM)  # our choice, because sold cloth is 90 to 180 cm wide and a remnant may be cut down
WIDTH_USUAL = (75 * CM, 240 * CM)  # our choice, because outside it a width in the other unit was probably typed
SELVAGE_LIMIT = (0.0, 10 * CM)  # our choice, because 1.5 cm a side is the usual loss (common practice, no source)
STRETCH_LIMIT = (0.0, 200.0)  # percent; our choice, because ribs above 100 % are sold and nothing beyond 200 % is
SHRINK_LIMIT = (0.0, 20.0)  # percent; our choice, because cloth that loses more has to be washed before drafting
WASH_FIRST = 10.0  # percent; common practice, no source
SPRINGS_BACK_WITHIN = 1.03  # 10 cm comes back to 10.3 cm or less: common practice, no source
WEARING_USE = 0.5  # share of the measured stretch used in wear: common practice, no source
PASSING_USE = 0.8  # share of the measured stretch used when putting on: common practice, no source

# (stretch across, close, regular, loose): ease as a fraction of the body girth. The middles of each class's bands
# are common practice, no source. Cloth of 10 % and less: our choice, because such cloth hardly gives at all and
# wants the ease of woven cloth. Straight lines between, so that 50 -> 51 % does not jump: our choice.
EASE_KNOTS: tuple[tuple[float, float, float, float], ...] = (
    (0.100, +0.060, +0.100, +0.16),
    (0.175, +0.015, +0.065, +0.12),  # stable, up to 25 %
    (0.375, -0.010, +0.045, +0.10),  # moderate, 25 to 50 %
    (0.625, -0.040, +0.020, +0.08),  # stretchy, 50 to 75 %
    (0.875, -0.075, -0.015, +0.05),  # super stretchy, 75 to 100 %
    (1.125, -0.115, -0.025, +0.05),  # rib, 100 % and over
)
_FIT_COLUMN: dict[Fit, int] = {"close": 1, "regular": 2, "loose": 3}


def _as_now_named(lay: object) -> object:
    """A way of laying under its name of now: a pair of backs beside a fold was once a way of its own."""
    return "half" if lay == "centre_back_seam" else lay


class Cloth(BaseModel):
    """The cloth as typed. Bare lengths stand in the person's unit; stretch and shrinkage are percentages.

    `kind` left out or null is what the garment takes first. A knit needs its stretch; woven cloth is drafted as if
    nothing of it stretched, whatever is written. `one_way` left out or null is one-way cloth until a person says
    otherwise (false).
    """

    model_config = ConfigDict(frozen=True, extra="forbid")

    kind: ClothKind | None = None
    width: Length
    length: Length | None = None
    selvage: Length = "1.5 cm"
    stretch_across: Percent | None = None
    stretch_along: Percent | None = None
    shrink_across: Percent = 0
    shrink_along: Percent = 0
    recovery: Recovery = "good"
    one_way: StrictBool | None = None
    lay: Annotated[Lay, BeforeValidator(_as_now_named)] = "auto"


@dataclass(frozen=True, slots=True)
class ClothFacts:
    """The cloth as the draft uses it: `width`, `length` (None when still to be bought) and `selvage` in mm.

    `selvage` is lost at each side. `across` and `along` are the measured stretch, `shrink_*` the loss in the
    wash, all as fractions. `one_way` cloth has every piece laid the same way up. Cloth laid
    crosswise is turned under the garment: what stretches along it goes round the body, and `across` and `along`,
    `shrink_across` and `shrink_along` then stand in the garment's directions, not as they were typed. Cloth that loses
    too much is washed before it is cut: then the marks hold nothing, `shrink_*` are 0 and `first_wash` is the share
    of its length that the wash takes. Shops sell it by the metre or, where `sold_in` is inches, by the yard. Of `kind`
    woven nothing stretches, and nothing has to come back.
    """

    width: float
    length: float | None
    selvage: float
    across: float
    along: float
    shrink_across: float
    shrink_along: float
    recovery: Recovery
    one_way: bool
    lay: Lay = "auto"
    first_wash: float | None = None
    sold_in: Unit = "cm"
    kind: ClothKind = "knit"

    @property
    def holds_shrinkage(self) -> bool:
        """Whether the marks hold what the wash takes, so that the cloth is cut unwashed."""
        return self.shrink_across > 0 or self.shrink_along > 0

    @property
    def turned(self) -> bool:
        """Whether it is turned under the garment, so that its lengthwise stretch goes round the body."""
        return self.lay == CROSSWISE

    @property
    def usable_width(self) -> float:
        """Width between the selvages, mm."""
        return self.width - 2 * self.selvage


def read_cloth(
    cloth: Cloth, unit: Unit, takes: tuple[ClothKind, ...] = ("knit",)
) -> tuple[ClothFacts | None, tuple[Problem, ...]]:
    """Read the typed cloth; every problem at once. The facts are None when any of them refuses.

    `takes` are the kinds of cloth that the garment is made of, the usual one first.
    """
    problems: list[Problem] = []
    kind = _kind(cloth, takes, problems.append)
    width = _width(cloth.width, unit, problems.append)
    length = None if cloth.length is None else _length(cloth.length, unit, problems.append)
    selvage = _selvage(cloth.selvage, unit, problems.append)
    across, along = (_stretch(cloth, name, kind, problems.append) for name in ("stretch_across", "stretch_along"))
    shrink_across = _percent(cloth.shrink_across, "shrink_across", SHRINK_LIMIT, problems.append)
    shrink_along = _percent(cloth.shrink_along, "shrink_along", SHRINK_LIMIT, problems.append)
    for name, shrink in (("shrink_across", shrink_across), ("shrink_along", shrink_along)):
        if shrink * 100 >= WASH_FIRST:
            problems.append(
                Problem(
                    "wash_first",
                    f"cloth.{name}",
                    "warn",
                    f"this cloth shrinks by {shrink * 100:.3g} % in the wash, too much to reckon with safely, so the "
                    "marks hold no shrinkage",
                    "wash and dry it first, then measure its width, stretch and shrinkage again",
                    (("percent", shrink * 100),),
                )
            )
    if any(problem.severity == "refuse" for problem in problems):
        return None, tuple(problems)
    first_wash = None
    if max(shrink_across, shrink_along) * 100 >= WASH_FIRST:
        first_wash, shrink_across, shrink_along = shrink_along, 0.0, 0.0
    if cloth.lay == CROSSWISE:
        across, along, shrink_across, shrink_along = along, across, shrink_along, shrink_across
    facts = ClothFacts(
        width, length, selvage, across, along, shrink_across, shrink_along,
        "good" if kind == "woven" else cloth.recovery, cloth.one_way is not False, cloth.lay, first_wash, unit, kind,
    )  # fmt: skip
    return facts, tuple(problems)


WASH_FIRST_WORDS = "Wash the cloth first, as it will be washed later, let it dry flat and press it."


def washing_words(cloth: ClothFacts) -> str:
    """Whether the cloth is washed before it is cut: the shrinkage is paid once, in the wash or in the marks."""
    if cloth.first_wash is not None:
        return (
            f"{WASH_FIRST_WORDS} Then measure its width, stretch and shrinkage again and make a new draft: the marks "
            "hold no shrinkage."
        )
    if not cloth.holds_shrinkage:
        return WASH_FIRST_WORDS
    across, along = cloth.shrink_across, cloth.shrink_along
    if cloth.turned:  # back to the directions of the cloth
        across, along = along, across
    held = [f"{100 * share:.3g} % {way}" for share, way in ((along, "along"), (across, "across")) if share > 0]
    return f"Do not wash the cloth before cutting: the marks hold its shrinkage, {' and '.join(held)}. Press it flat."


Report = Callable[[Problem], None]


#: What each kind of cloth is called, with what tells it.
KIND_WORDS: Final[dict[ClothKind, str]] = {"knit": "knitted cloth, which stretches", "woven": "woven cloth"}


def kind_meant(said: ClothKind | None, stretch: float, takes: tuple[ClothKind, ...]) -> ClothKind:
    """What kind of cloth it is: as it was said, else a knit where it stretches either way, else what the garment takes.

    `stretch` is the larger of both ways, in any unit; `takes` are the kinds a garment is made of, the usual one first.
    """
    return said or ("knit" if stretch > 0 else takes[0])


def _kind(cloth: Cloth, takes: tuple[ClothKind, ...], report: Report) -> ClothKind:
    """What kind of cloth it is; a problem where the garment does not take it."""
    found = kind_meant(cloth.kind, max(cloth.stretch_across or 0, cloth.stretch_along or 0), takes)
    if found in takes:
        return found
    wanted = " or ".join(KIND_WORDS[kind] for kind in takes)
    said = KIND_WORDS[found] if cloth.kind else "cloth that stretches, and so is knitted"
    wrong = f"this is {said}; the garment is drafted for {wanted}"
    report(Problem("cloth_kind", "cloth.kind", "refuse", wrong, f"take {wanted}, or choose another garment"))
    return found


def _stretch(cloth: Cloth, name: str, kind: ClothKind, report: Report) -> float:
    """The stretch one way, as a fraction; none of woven cloth, whatever was written of it."""
    typed: float | None = getattr(cloth, name)
    if kind == "woven":
        return 0.0
    if typed is None:
        label, fix = _PERCENT_WORDS[name]
        report(Problem("percent_missing", f"cloth.{name}", "refuse", f"{label} is missing", fix))
        return math.nan
    return _percent(typed, name, STRETCH_LIMIT, report)


def _amount(typed: str | float, name: str, unit: Unit, report: Report) -> Amount | None:
    amount = read_amount(typed, unit)
    if isinstance(amount, LengthProblem):
        report(Problem("length_unreadable", f"cloth.{name}", "refuse", amount.wrong, amount.fix))
        return None
    return amount


def _width(typed: str | float, unit: Unit, report: Report) -> float:
    amount = _amount(typed, "width", unit, report)
    if amount is None:
        return math.nan
    low, high = WIDTH_LIMIT
    usual_low, usual_high = WIDTH_USUAL
    values = (("value", amount.mm), ("low", low), ("high", high))
    meant = next((other for other in amount.in_other_units() if usual_low <= other.mm <= usual_high), None)
    if low <= amount.mm <= high:
        if not usual_low <= amount.mm <= usual_high:
            wrong = f"{amount.words} is {'narrower' if amount.mm < usual_low else 'wider'} than cloth is sold"
            fix = "measure the cloth again from edge to edge, or leave it if it is right"
            if meant is not None:
                wrong, fix = f"{wrong}. Did you mean {meant.words}?", f"write {meant.words}, or leave it if it is right"
            instead = "" if meant is None else meant.words
            report(Problem("cloth_width_unusual", "cloth.width", "warn", wrong, fix, values, instead))
    elif meant is not None:
        other_unit: Unit = "in" if amount.unit != "in" else "cm"
        wrong = f"{amount.words} is {say_length(amount.mm, other_unit, digits=0)}. Did you mean {meant.words}?"
        fix = f"write {meant.words}, or measure again"
        report(Problem("unit_slip", "cloth.width", "refuse", wrong, fix, values, meant.words))
    else:
        report(
            Problem(
                "cloth_width_outside",
                "cloth.width",
                "refuse",
                f"the cloth is {amount.words} wide, outside {say_length(low, unit)} to {say_length(high, unit)}",
                "measure the full width of the cloth opened out, from edge to edge",
                values,
            )
        )
    return amount.mm


def _length(typed: str | float, unit: Unit, report: Report) -> float:
    amount = _amount(typed, "length", unit, report)
    if amount is None:
        return math.nan
    if amount.mm <= 0:
        report(
            Problem(
                "cloth_length_outside",
                "cloth.length",
                "refuse",
                "the cloth has no length",
                "write the length you have, or leave it out to be told how much to buy",
                (("value", amount.mm),),
            )
        )
    return amount.mm


def _selvage(typed: str | float, unit: Unit, report: Report) -> float:
    amount = _amount(typed, "selvage", unit, report)
    if amount is None:
        return math.nan
    low, high = SELVAGE_LIMIT
    if not low <= amount.mm <= high:
        report(
            Problem(
                "selvage_outside",
                "cloth.selvage",
                "refuse",
                f"a selvage of {amount.words} is more than {say_length(high, unit)}",
                "write what is lost at one side of the cloth",
                (("value", amount.mm), ("low", low), ("high", high)),
            )
        )
    return amount.mm


_TEST_STRETCH = "test it: mark 10 cm or 4 in, pull, and write by how many percent it got longer"
_PERCENT_WORDS = {
    "stretch_across": ("the stretch across the cloth", _TEST_STRETCH),
    "stretch_along": ("the stretch along the cloth", _TEST_STRETCH),
    "shrink_across": ("the shrinkage across the cloth", "wash and dry a marked square, then measure it"),
    "shrink_along": ("the shrinkage along the cloth", "wash and dry a marked square, then measure it"),
}


def _percent(typed: float, name: str, limit: tuple[float, float], report: Report) -> float:
    """A typed percentage as a fraction; NaN when it is refused."""
    low, high = limit
    if low <= typed <= high:
        return typed / 100
    label, fix = _PERCENT_WORDS[name]
    found = f"{typed:g} %" if abs(typed) < 1e6 else "far too much"  # NaN and huge whole numbers are never written out
    if not abs(typed) < math.inf:
        found = "not a number"
    report(
        Problem("percent_outside", f"cloth.{name}", "refuse", f"{label} is {found}, outside {low:g} to {high:g} %", fix)
    )
    return math.nan


def stretch_percent(start: float, stretched: float) -> float | LengthProblem:
    """Stretch by the home test, in percent: mark `start`, pull until it resists, read `stretched` (same unit).

    (stretched - start) / start x 100: common practice, no source.

    >>> stretch_percent(10, 14), stretch_percent(4, 5)
    (40.0, 25.0)
    """
    if not (math.isfinite(start) and start > 0):
        return LengthProblem("the marked length is zero or less", "mark 10 cm or 4 in on the resting cloth")
    if not (math.isfinite(stretched) and stretched >= start):
        return LengthProblem("the pulled length is shorter than the marked one", "measure both again")
    return (stretched - start) / start * 100


def stretch_within(start: float, stretched: float, step: float) -> float:
    """How far off the percentage of the stretch test may be, in percent, on a tape read in steps of `step` (same unit).

    Both lengths are read to the nearest step, so each may be off by half a step. At worst the pulled length was half a
    step longer and the marked one half a step shorter.

    >>> round(stretch_within(4, 6, 0.125), 1), round(stretch_within(10, 15, 0.1), 1)
    (4.0, 1.3)
    """
    half = step / 2
    if start <= half:
        return math.inf
    return ((stretched + half) / (start - half) - stretched / start) * 100


def recovers(start: float, after: float, step: float) -> Recovery:
    """How well the cloth springs back when it is let go: "good" where 10 marked are 10.3 or less (same unit).

    Common practice, no source. Both lengths are read to the nearest `step` of the tape, so each may be off by half a
    step, and how much longer the cloth stayed by a whole one. Up to one step past the limit the tape cannot tell, and
    the answer is "fair"; beyond it the cloth has surely not come back, and it is "poor". 4 in may come back to 4.12 in:
    on a tape of eighths 4 is good, 4 1/8 fair, 4 1/4 poor.

    >>> recovers(4, 4, 0.125), recovers(4, 4.125, 0.125), recovers(4, 4.25, 0.125)
    ('good', 'fair', 'poor')
    """
    hair = 1e-9 * start
    if after <= start * SPRINGS_BACK_WITHIN + hair:
        return "good"
    return "fair" if after <= start * SPRINGS_BACK_WITHIN + step + hair else "poor"


def stretch_class(across: float) -> StretchClass:
    """The class by crosswise stretch (a fraction): to 25, to 50, to 75, under 100, 100 % and over.

    Common practice, no source; published charts differ by a few points.
    """
    if across <= 0.25:
        return "stable"
    if across <= 0.50:
        return "moderate"
    if across <= 0.75:
        return "stretchy"
    return "super_stretchy" if across < 1.00 else "rib"


def ease_share(across: float, fit: Fit) -> float:
    """Ease as a fraction of the body girth (0.045 = 4.5 %, negative = smaller than the body), see EASE_KNOTS."""
    column = _FIT_COLUMN[fit]
    if across <= EASE_KNOTS[0][0]:
        return EASE_KNOTS[0][column]
    for before, after in pairwise(EASE_KNOTS):
        if across <= after[0]:
            share = (across - before[0]) / (after[0] - before[0])
            return before[column] + share * (after[column] - before[column])
    return EASE_KNOTS[-1][column]


def wearing(stretch: float) -> float:
    """The stretch that may be used while wearing, as a fraction: half of what was measured."""
    return WEARING_USE * stretch


def passing_factor(stretch: float) -> float:
    """How many times its resting girth an opening may be pulled open when putting on: 1 + 0.8 x stretch."""
    return 1 + PASSING_USE * stretch


def opening_needed(girth: float, stretch: float, used: float = PASSING_USE) -> float:
    """Resting girth of the opening that lets `girth` (same unit) through, using the share `used` of the stretch."""
    return girth / (1 + used * stretch)


def before_shrinking(length: float, shrink: float) -> float:
    """Length to cut so that `length` is left after the wash; `shrink` is a fraction below 1. 100 -> 105.3 at 5 %."""
    return length / (1 - shrink)
