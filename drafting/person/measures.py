"""A person's measures: read as typed, tested against limits and bands, completed with marked estimates.

`table.py` holds the numbers and where each comes from. A limit refuses; a band only asks to measure again, because
people differ, and at most MOST_WARNINGS times. A number that is right in the other unit is asked about ("98 in is
249 cm. Did you mean 98 cm?").
"""

import difflib
import math
import re
import unicodedata
from collections.abc import Collection
from dataclasses import dataclass, fields
from datetime import date
from typing import Annotated

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, StrictFloat, StrictInt, StrictStr

from drafting.person.table import (
    KINDS,
    MEASURES,
    RATIO_BANDS,
    RATIOS_HOLD,
    Kind,
    Measure,
    Rule,
    child_stature,
)
from drafting.problems import Problem, Severity
from drafting.units import CM, Amount, LengthProblem, Unit, read_amount, say_length

__all__ = [
    "KINDS",
    "MEASURES",
    "Body",
    "Estimate",
    "Kind",
    "Measure",
    "Person",
    "all_for",
    "asked_for",
    "feeding",
    "read_person",
    "required_for",
]

NAME_LIMIT = 2000  # characters; our choice, because any real name is shorter and a sheet must still hold it
CHILD_AGES = (1, 17)
ADULT_AGES = (13, 120)

# An adult bust of 20 to 66 "cm" means that inches were typed: our choice, because the survey's p1 is 78.5 cm. A very
# short adult is believed when bust / stature is .44 or more, the least that p1 of bust over p99 of stature gives.
BUST_IN_INCHES = 660.0
BUST_TO_STATURE_LEAST = 0.44
# The same for stature: below 85 cm a grown person's inches were typed, unless the bust is as small. Our choice.
STATURE_IN_INCHES = 850.0
BUST_TO_STATURE_MOST = 0.8
# A child's stature this share away from the middle of the age: our choice, because 15 % is about three deviations.
CHILD_STATURE_WITHIN = 0.15

# So many measures at most are asked to be taken again, those farthest outside their band: our choice, because a person
# who is told of nine measures that all nine are odd measures none of them again.
MOST_WARNINGS = 2

# What the screen asks, in the order a person would measure; the rest can be estimated.
_ASKED_ADULT = (
    "stature",
    "head_girth",
    "neck_girth",
    "shoulder_width",
    "bust_girth",
    "waist_girth",
    "hip_girth",
    "back_neck_point_to_waist",
    "waist_to_hip",
    "arm_length",
    "upper_arm_girth",
    "wrist_girth",
    "hand_girth",
)
_CHILD_MAY_SKIP = ("back_neck_point_to_waist", "waist_to_hip")  # lengths of a child are estimated from stature

# Reversing and embedding marks that would turn round the words printed after a name.
_TURNING = frozenset("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")


def _clean(text: object) -> object:
    """A name without control characters; line ends and tabs become spaces."""
    if not isinstance(text, str):
        return text
    spaced = re.sub(r"[\t\n\v\f\r\u2028\u2029]+", " ", text)
    return "".join(c for c in spaced if unicodedata.category(c) not in ("Cc", "Cs") and c not in _TURNING).strip()


class Person(BaseModel):
    """A person as typed. Bare numbers stand in `unit`, a string carries its own; `taken_on` is an ISO date.

    `told` names those measures that a garment told, which fits and was measured flat.
    """

    model_config = ConfigDict(frozen=True, extra="forbid")

    name: Annotated[StrictStr, BeforeValidator(_clean), Field(max_length=NAME_LIMIT)] = ""
    kind: Kind
    age: StrictInt | None = None
    unit: Unit
    taken_on: StrictStr | None = None
    measures: dict[StrictStr, StrictFloat | StrictInt | StrictStr] = Field(default_factory=dict)
    told: tuple[StrictStr, ...] = ()


@dataclass(frozen=True, slots=True)
class Estimate:
    """A measure that was not taken: the value put in its place and its standard deviation, mm, and its source."""

    measure: str
    value: float
    sd: float
    source: str = ""


@dataclass(frozen=True, slots=True)
class Body:
    """Every measure of one person in mm; those not taken are listed in `estimates`, in the table's order."""

    kind: Kind
    age: int | None
    stature: float
    head_girth: float
    neck_girth: float
    neck_base_girth: float
    shoulder_width: float
    shoulder_length: float
    back_width: float
    bust_girth: float
    upper_chest_girth: float
    under_bust_girth: float
    waist_girth: float
    hip_girth: float
    scye_depth: float
    back_neck_point_to_waist: float
    side_neck_point_to_bust_point: float
    side_neck_point_to_waist_front: float
    waist_to_hip: float
    arm_length: float
    upper_arm_girth: float
    elbow_girth: float
    wrist_girth: float
    hand_girth: float
    waist_height: float
    knee_height: float
    thigh_girth: float
    crotch_depth: float
    crotch_length: float
    knee_girth: float
    calf_girth: float
    ankle_girth: float
    heel_girth: float
    estimates: tuple[Estimate, ...] = ()

    def estimated(self, measure: str) -> bool:
        """Whether this measure was estimated, not taken."""
        return any(estimate.measure == measure for estimate in self.estimates)


assert tuple(field.name for field in fields(Body))[2:-1] == tuple(MEASURES), "Body and the table have parted"


def all_for(kind: Kind) -> tuple[str, ...]:
    """Every measure that may be given for this kind of person, in the order of taking them."""
    return tuple(name for name in MEASURES if kind != "child" or name not in ("upper_chest_girth", "under_bust_girth"))


def asked_for(kind: Kind) -> tuple[str, ...]:
    """The short list to ask on the screen, in the order a person would measure; others may be added."""
    return tuple(name for name in _ASKED_ADULT if kind != "child" or name not in _CHILD_MAY_SKIP)


def required_for(kind: Kind) -> tuple[str, ...]:
    """The measures without an estimate (an upper chest girth may stand in for a woman's bust girth)."""
    return tuple(name for name, measure in MEASURES.items() if measure.required(kind))


def feeding(uses: Collection[str], kind: Kind) -> frozenset[str]:
    """These measures, and every one that their estimates are reckoned from, directly or not."""
    found: set[str] = set()
    waiting = [name for name in uses if name in all_for(kind)]
    while waiting:
        name = waiting.pop()
        if name not in found:
            found.add(name)
            rules = MEASURES[name].rules.get(kind, ())
            waiting += [term for rule in rules for term, _ in rule.terms if term in all_for(kind)]
    return frozenset(found)


def read_person(person: Person, required: Collection[str] | None = None) -> tuple[Body | None, tuple[Problem, ...]]:
    """Read and test a person's measures, all problems at once. The body is None when any problem refuses.

    `required` names the measures that must be taken, `required_for(kind)` where it is left out; the stature always
    must. Everything else missing is estimated and listed in `Body.estimates`. Problems stand at "person.age",
    "person.taken_on", "person.told" or "person.measures.<name>".
    """
    problems = _about_person(person)
    amounts = _read_amounts(person, problems)
    taken = {name: amount.mm for name, amount in amounts.items()}
    slipped = {name for name in amounts if _outside_limit(name, amounts, person, problems)}
    sound = {name: amount for name, amount in amounts.items() if name not in slipped}
    odd = _odd_for_age(sound, person)
    like = person.model_copy(update={"age": None}) if odd else person  # what goes with the stature is not odd as well
    doubts = [*_outside_bands(sound, like), *_outside_ratios(sound, person), *odd]
    problems.extend(_measure_again(doubts, person))
    _missing(person, {"stature", *(required_for(person.kind) if required is None else required)}, problems)
    if any(problem.severity == "refuse" for problem in problems):
        return None, tuple(problems)
    values, estimates = _complete(person.kind, taken, person.age)
    return Body(person.kind, person.age, **values, estimates=estimates), tuple(problems)


def _field(name: str) -> str:
    safe = "".join(character for character in name if character.isprintable())
    return f"person.measures.{safe[:60]}"


def _problem(
    code: str, measure: str, severity: Severity, says: tuple[str, str],
    values: tuple[tuple[str, float | str], ...] = (), instead: str = "",
) -> Problem:  # fmt: skip
    return Problem(code, _field(measure), severity, says[0], says[1], values, instead)


def _about_person(person: Person) -> list[Problem]:
    problems = []
    low, high = CHILD_AGES if person.kind == "child" else ADULT_AGES
    if person.age is None:
        if person.kind == "child":
            fix = f"write the child's age in years, {low} to {high}"
            problems.append(Problem("age_missing", "person.age", "refuse", "a child needs an age", fix))
    elif not low <= person.age <= high:
        whose, other = ("a child", "woman or man") if person.kind == "child" else ("a grown person", "child")
        wrong = f"the age of {whose} is {low} to {high} years here"
        problems.append(
            Problem("age_outside", "person.age", "refuse", wrong, f"look at the age again, or choose {other}")
        )
    if person.taken_on is not None and not _is_date(person.taken_on):
        fix = "write year, month and day, such as 2026-11-02, or leave it out"
        problems.append(Problem("date_unreadable", "person.taken_on", "refuse", "this is not a date", fix))
    for name in person.told:
        if name not in person.measures:
            safe = "".join(character for character in name if character.isprintable())[:60]
            wrong = f'"{safe}" is not among the measures'
            fix = "name only measures that are given, or leave it out"
            problems.append(Problem("told_unknown", "person.told", "refuse", wrong, fix))
    return problems


def _is_date(text: str) -> bool:
    if re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", text) is None:
        return False
    try:
        date.fromisoformat(text)
    except ValueError:
        return False
    return True


def _read_amounts(person: Person, problems: list[Problem]) -> dict[str, Amount]:
    """The readable measures, in the table's order; unknown names and unreadable lengths become problems."""
    for name in person.measures:
        if name not in MEASURES:
            near = difflib.get_close_matches(name[:60].lower().replace(" ", "_"), MEASURES, n=1, cutoff=0.5)
            fix = f"did you mean {near[0]}?" if near else f"the names are {', '.join(MEASURES)}"
            problems.append(_problem("measure_unknown", name, "refuse", ("there is no measure of this name", fix)))
    amounts = {}
    for name in MEASURES:
        if name in person.measures:
            amount = read_amount(person.measures[name], person.unit)
            if isinstance(amount, LengthProblem):
                problems.append(_problem("measure_unreadable", name, "refuse", (amount.wrong, amount.fix)))
            else:
                amounts[name] = amount
    return amounts


def _inside(mm: float, span: tuple[float, float]) -> bool:
    """Inside, within a hundredth of a millimetre: 98 cm typed as inches and back is still 98 cm."""
    return span[0] - 0.01 <= mm <= span[1] + 0.01


def _meant(amount: Amount, span: tuple[float, float]) -> Amount | None:
    """The same number in the unit that brings it inside `span`, if one does."""
    return next((other for other in amount.in_other_units() if _inside(other.mm, span)), None)


def _said_in_other(amount: Amount, meant: Amount) -> str:
    """The typed length in the unit that was likely meant, so that the slip shows: "249 cm"."""
    if meant.unit == "in":
        return say_length(amount.mm, "in")
    if meant.unit == "m":
        return f"{amount.mm / 1000:.2g} m"
    if meant.unit == "mm" and amount.unit == "cm":
        return f"{amount.mm / 1000:.3g} m"
    return say_length(amount.mm, "cm", digits=0 if amount.mm >= 1000 else 1)


def _ask_unit(name: str, amount: Amount, meant: Amount) -> Problem:
    wrong = f"{amount.words} is {_said_in_other(amount, meant)}. Did you mean {meant.words}?"
    values = (("value", amount.mm), ("meant", meant.mm))
    return _problem("unit_slip", name, "refuse", (wrong, f"write {meant.words}, or measure again"), values, meant.words)


def _outside_limit(name: str, amounts: dict[str, Amount], person: Person, problems: list[Problem]) -> bool:
    """Report a measure beyond its limit, or an adult's within it that only the other unit explains."""
    measure, amount = MEASURES[name], amounts[name]
    low, high = measure.limit
    meant = _meant(amount, measure.limit)
    inside = _inside(amount.mm, measure.limit)
    if inside and (meant is None or person.kind == "child" or not _absurd(name, amounts)):
        return False
    if meant is not None:
        problems.append(_ask_unit(name, amount, meant))
        return True
    wrong = f"{amount.words} is outside what {measure.said_for(person.kind)} can be ({_span(low, high, person.unit)})"
    fix = f"measure again: {' '.join(measure.how).rstrip('.')}"
    values = (("value", amount.mm), ("low", low), ("high", high))
    problems.append(_problem("measure_outside_limit", name, "refuse", (wrong, fix), values))
    return True


def _absurd(name: str, amounts: dict[str, Amount]) -> bool:
    """Whether a grown person's bust or stature, though inside its limit, was surely typed in the wrong unit."""
    bust, stature = amounts.get("bust_girth"), amounts.get("stature")
    if name == "bust_girth" and bust is not None and bust.mm <= BUST_IN_INCHES:
        return stature is None or bust.mm < BUST_TO_STATURE_LEAST * stature.mm
    if name == "stature" and stature is not None and stature.mm < STATURE_IN_INCHES:
        return bust is None or bust.mm > BUST_TO_STATURE_MOST * stature.mm
    return False


def _span(low: float, high: float, unit: Unit) -> str:
    return f"{say_length(low, unit).removesuffix(f' {unit}')} to {say_length(high, unit)}"


@dataclass(frozen=True, slots=True)
class _Doubt:
    """A measure outside the band it was expected in, mm; `beside` says what the band rests on, if on anything."""

    code: str
    measure: str
    amount: Amount
    band: tuple[float, float]
    beside: str = ""

    @property
    def away(self) -> float:
        """How far outside, in widths of the band: bands of girths and of short lengths can be compared."""
        low, high = self.band
        return max(low - self.amount.mm, self.amount.mm - high) / (high - low)


def _measure_again(doubts: list[_Doubt], person: Person) -> list[Problem]:
    """The measures to take again: of each measure its worst doubt, and of those the few that are farthest outside."""
    worst: dict[str, _Doubt] = {}
    for doubt in doubts:
        if doubt.measure not in worst or doubt.away > worst[doubt.measure].away:
            worst[doubt.measure] = doubt
    chosen = sorted(worst.values(), key=lambda doubt: -doubt.away)[:MOST_WARNINGS]
    return [_doubted(doubt, person) for doubt in worst.values() if doubt in chosen]


def _doubted(doubt: _Doubt, person: Person) -> Problem:
    said, (low, high) = MEASURES[doubt.measure].said_for(person.kind), doubt.band
    wrong = (
        f"measure {said} again: it reads {doubt.amount.words}, but {_span(low, high, person.unit)} was expected"
        f"{doubt.beside}"
    )
    meant = _meant(doubt.amount, doubt.band)
    fix = "leave it if the tape says the same"
    if meant is not None:
        wrong, fix = f"{wrong}. Did you mean {meant.words}?", f"write {meant.words}, or {fix}"
    values = (("value", doubt.amount.mm), ("low", low), ("high", high))
    instead = "" if meant is None else meant.words
    return _problem(doubt.code, doubt.measure, "warn", (wrong, fix), values, instead)


def _outside_bands(amounts: dict[str, Amount], person: Person) -> list[_Doubt]:
    found = []
    for name, amount in amounts.items():
        band = MEASURES[name].band(person.kind, person.age)
        if name == "stature" and person.kind == "child":
            continue  # judged by the age alone, and closer (_odd_for_age)
        if band is not None and not _inside(amount.mm, band):
            found.append(_Doubt("measure_outside_band", name, amount, band, _at_age(person)))
    return found


def _outside_ratios(amounts: dict[str, Amount], person: Person) -> list[_Doubt]:
    """Adults: a measure out of proportion to another that was taken shows a slipped tape.

    Only of people whose bust or chest girth was taken and lies within what the survey measured.
    """
    bust = amounts.get("bust_girth")
    if person.kind == "child" or bust is None:
        return []
    low, high = RATIOS_HOLD[person.kind]
    if not _inside(bust.mm, (low * CM, high * CM)):
        return []
    found = []
    for name, against, woman, man in RATIO_BANDS:
        if name in amounts and against in amounts:
            amount, base = amounts[name], amounts[against]
            least, most = woman if person.kind == "woman" else man
            band = least * base.mm, most * base.mm
            if not _inside(amount.mm, band):
                beside = f" with {MEASURES[against].said_for(person.kind)} of {base.words}"
                found.append(_Doubt("ratio_outside_band", name, amount, band, beside))
    return found


def _odd_for_age(amounts: dict[str, Amount], person: Person) -> list[_Doubt]:
    """Children: a stature far from the middle of the age, mean of girls and boys."""
    if person.kind != "child" or person.age is None or "stature" not in amounts:
        return []
    middle = child_stature(person.age)
    band = middle * (1 - CHILD_STATURE_WITHIN), middle * (1 + CHILD_STATURE_WITHIN)
    if _inside(amounts["stature"].mm, band):
        return []
    return [_Doubt("stature_outside_for_age", "stature", amounts["stature"], band, _at_age(person))]


def _at_age(person: Person) -> str:
    """What a child's band rests on, in words; empty for the grown."""
    if person.kind != "child" or person.age is None:
        return ""
    return f" at {person.age} {'year' if person.age == 1 else 'years'}"


def _missing(person: Person, required: Collection[str], problems: list[Problem]) -> None:
    for name in MEASURES:
        if name in person.measures or name not in required:
            continue
        if name == "bust_girth" and person.kind == "woman" and "upper_chest_girth" in person.measures:
            continue
        measure = MEASURES[name]
        wrong = f"{measure.said_for(person.kind)} is missing"
        fix = f"measure it: {' '.join(measure.how).rstrip('.')}"
        problems.append(_problem("measure_missing", name, "refuse", (wrong, fix)))


def _complete(kind: Kind, taken: dict[str, float], age: int | None) -> tuple[dict[str, float], tuple[Estimate, ...]]:
    """Every measure in mm, taken or estimated. An estimate stays inside the measure's limit."""
    values = dict(taken)
    guesses: dict[str, Estimate] = {}
    waiting = [name for name in MEASURES if name not in taken]
    while waiting:
        left = []
        for name in waiting:
            rule = _rule(MEASURES[name].rules.get(kind, ()), values, taken, age)
            if rule is None:
                left.append(name)
                continue
            guesses[name] = _estimate(MEASURES[name], rule, values, guesses)
            values[name] = guesses[name].value
        if len(left) == len(waiting):  # nothing but what stands in gives the next
            name, rule = _stand_in(kind, left, values, taken)
            guesses[name] = _estimate(MEASURES[name], rule, values, guesses)
            values[name] = guesses[name].value
            left.remove(name)
        waiting = left
    return {name: values[name] for name in MEASURES}, tuple(guesses[name] for name in MEASURES if name in guesses)


def _stand_in(kind: Kind, left: list[str], values: dict[str, float], taken: dict[str, float]) -> tuple[str, Rule]:
    """The first of these measures that something can stand in for, with its rule."""
    for name in left:
        rule = _rule(MEASURES[name].stand_ins.get(kind, ()), values, taken)
        if rule is not None:
            return name, rule
    raise AssertionError(f"no rule gives {left}")


def _rule(
    rules: tuple[Rule, ...], values: dict[str, float], taken: dict[str, float], age: int | None = None
) -> Rule | None:
    for rule in rules:
        if rule.until_age is not None and (age is None or age >= rule.until_age):
            continue
        known = taken if rule.only_from_taken else values
        if all(name in known for name, _ in rule.terms):
            return rule
    return None


def _estimate(measure: Measure, rule: Rule, values: dict[str, float], guesses: dict[str, Estimate]) -> Estimate:
    """The rule's value; the spread of estimates it rests on is added to its own."""
    value = rule.constant + math.fsum(factor * values[name] for name, factor in rule.terms)
    spread = [factor * guesses[name].sd for name, factor in rule.terms if name in guesses]
    low, high = measure.limit
    if rule.within is not None:
        least, most = (share * values["stature"] for share in rule.within)
        value = min(max(value, least), most)
    return Estimate(measure.name, min(max(value, low), high), math.hypot(rule.sd, *spread), rule.source)
