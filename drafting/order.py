"""An order in, a result out: the core's front door.

`read_order` turns plain data into an Order or into problems with their fields; `make` drafts it. Both are pure.
"""

import json
from dataclasses import dataclass, replace
from functools import partial
from typing import Any, Literal

from pydantic import BaseModel, ConfigDict, Field, StrictBool, StrictFloat, StrictInt, StrictStr, ValidationError

from drafting import checks
from drafting.chalk.plan import ChalkLine, ChalkPlan, PieceMarks, areas, marking, planning
from drafting.chalk.rounding import after_rounding, rings
from drafting.checks import cloth_long_enough
from drafting.cloth import Cloth, ClothFacts, read_cloth, washing_words
from drafting.contract import judging
from drafting.contract.chalked_line import ChalkedLine
from drafting.contract.girths import FinishedGirth
from drafting.contract.pieces import Piece
from drafting.contract.set_out import SetOut
from drafting.garments import Garment, garments
from drafting.layout import Layout, going_within, search, shortest
from drafting.person.measures import MEASURES, Body, Estimate, Person, feeding, read_person
from drafting.problems import Check, Problem, WayOut
from drafting.stepwise import Steps, finished
from drafting.units import TAPE_LENGTHS, USUAL_TAPE, LengthProblem, Tape, Unit, read_amount, say_length
from drafting.ways_out import cloth as ways_out_cloth
from drafting.ways_out import find as ways_out
from drafting.work import DRAFT, PLAN, Work

FORMAT: Literal["foldmark-order"] = "foldmark-order"
VERSION: Literal[1] = 1
TITLE_LIMIT = 2000
#: A draft with its ways out is at most so many times the work of the plain draft. Our choice, for patience.
TIMES = 20


class TapeChoice(BaseModel):
    """The tape in hand, which line is chalked, and how near straight joins between marks keep to it (mm).

    `length` is how long the tape is; a bare number stands in the tape's own unit, left out it is 150 cm or 60 in.
    """

    model_config = ConfigDict(frozen=True, extra="forbid")
    unit: Literal["in", "cm"] = "cm"
    step: Literal["1/8", "1/4", "0.5", "0.1"] = "0.5"
    length: StrictFloat | StrictInt | StrictStr | None = None
    line: Literal["cut", "stitch", "both"] = "cut"
    join_within: float = Field(default=3.0, ge=0.5, le=10.0, allow_inf_nan=False)


class Order(BaseModel):
    """One garment for one person on one cloth, as typed. See README for every key."""

    model_config = ConfigDict(frozen=True, extra="forbid")
    format: Literal["foldmark-order"] = FORMAT
    version: Literal[1] = VERSION
    title: str = Field(default="", max_length=TITLE_LIMIT)
    person: Person
    garment: str = "cut_in_one"
    style: dict[str, Any] = Field(default_factory=dict)
    cloth: Cloth
    tape: TapeChoice = TapeChoice()
    sheet_measures: StrictBool = False


@dataclass(frozen=True, slots=True)
class Ready:
    """An order whose every field has been read: what setting-out needs."""

    garment: Garment
    body: Body
    choices: Any
    cloth: ClothFacts
    tape: Tape
    chalked: ChalkedLine

    def set_out(self) -> SetOut:
        """The garment set out for this body on this cloth, for what will be chalked."""
        return self.garment.set_out(self.body, self.choices, self.cloth, self.chalked)


@dataclass(frozen=True, slots=True)
class Result:
    """A draft with all that follows from it. `plan` and `layout` are None when withheld or when nothing fits.

    `warnings` are problems that did not refuse the order; `stitch_plan` is there when both lines were asked for.
    `layouts` is the best of every way to lay the cloth: the one taken, then by length; `layout` is the first of them.
    """

    order: Order
    ready: Ready
    draft: SetOut
    checks: tuple[Check, ...]
    warnings: tuple[Problem, ...]
    girths: tuple[FinishedGirth, ...]
    layout: Layout | None
    plan: ChalkPlan | None
    stitch_plan: ChalkPlan | None = None
    layouts: tuple[Layout, ...] = ()

    @property
    def estimates(self) -> tuple[Estimate, ...]:
        """The measures this garment is set out from that were not taken."""
        rests_on = self.ready.garment.rests_on(self.order.style)
        return tuple(estimate for estimate in self.ready.body.estimates if estimate.measure in rests_on)

    @property
    def told(self) -> tuple[str, ...]:
        """The measures this garment rests on that a garment told, in the table's order."""
        person = self.order.person
        rests_on = feeding(self.ready.garment.rests_on(self.order.style), person.kind)
        return tuple(name for name in MEASURES if name in person.told and name in rests_on)

    @property
    def outcome(self) -> Literal["pass", "warn", "stop"]:
        """The worst result among the checks."""
        results = {check.result for check in self.checks}
        return "stop" if "stop" in results else "warn" if "warn" in results else "pass"


def read_order(typed: Any) -> tuple[Order | None, tuple[Problem, ...]]:
    """Reads plain data (from JSON) into an order. Refusing problems give None; warnings come beside an order.

    Every field is read, so all problems of one kind are told at once.
    """
    if not isinstance(typed, dict):
        return None, (Problem("order", "order", "refuse", "this is not an order", "give one object in braces"),)
    try:
        order = Order.model_validate(typed)
    except ValidationError as error:
        return None, _problems(error, "")
    ready, problems = prepare(order)
    return (None if ready is None else order), problems


def prepare(order: Order) -> tuple[Ready | None, tuple[Problem, ...]]:
    """Reads every field of an order for its garment: measures, cloth, tape, then style, which needs the body."""
    problems: list[Problem] = []
    garment = garments().get(order.garment)
    if garment is None:
        known = ", ".join(garments())
        problems.append(_refusal("garment", f'"{order.garment[:40]}" is not a garment here', f"choose {known}"))
    if (order.tape.unit == "in") != (order.tape.step in {"1/8", "1/4"}):
        steps = "1/8 or 1/4" if order.tape.unit == "in" else "0.5 or 0.1"
        wrong = f"a tape in {order.tape.unit} has no steps of {order.tape.step}"
        problems.append(_refusal("tape.step", wrong, f"choose {steps}"))
    tape_length = _tape_length(order.tape, problems)
    body, found = read_person(order.person, None if garment is None else garment.required_of(order.person.kind))
    problems.extend(found)
    cloth, found = read_cloth(order.cloth, order.person.unit, ("knit",) if garment is None else garment.cloths)
    problems.extend(found)
    choices = None
    if garment is not None:
        try:
            style = garment.style.model_validate(order.style)
        except ValidationError as error:
            problems.extend(_problems(error, "style"))
        else:
            if body is not None:
                choices, found = garment.read_style(style, order.person.unit, body)
                problems.extend(found)
    refused = any(problem.severity == "refuse" for problem in problems)
    if refused or garment is None or body is None or cloth is None or choices is None:
        return None, tuple(problems)
    tape = Tape(order.tape.unit, order.tape.step, tape_length)
    return Ready(garment, body, choices, cloth, tape, ChalkedLine(tape, order.tape.line)), tuple(problems)


def _tape_length(tape: TapeChoice, problems: list[Problem]) -> float:
    """The tape's length, mm; 0 for the usual one of its unit."""
    if tape.length is None:
        return 0.0
    amount = read_amount(tape.length, tape.unit)
    if isinstance(amount, LengthProblem):
        problems.append(_refusal("tape.length", amount.wrong, amount.fix))
        return 0.0
    unit: Unit = "in" if amount.unit in {"in", "ft", "yd"} else "cm"  # answered in the unit that was written
    low, high = TAPE_LENGTHS[unit]
    if not low - 0.01 <= amount.mm <= high + 0.01:
        least, most, usual = (say_length(mm, unit) for mm in (low, high, USUAL_TAPE[tape.unit]))
        wrong = f"a tape of {amount.words} is {'shorter' if amount.mm < low else 'longer'} than can be reckoned with"
        fix = f"give its length, from {least} to {most}, or leave it out for {usual}"
        problems.append(_refusal("tape.length", wrong, fix))
        return 0.0
    return amount.mm


def glance(order: Order, *, judged: bool = True) -> Result:
    """The outline of an order and its quick checks, while somebody still chooses: no layout, no chalk plan.

    Without `judged` only what stops the outline from being drawn is checked, which is quicker. Raises ValueError for an
    order that `read_order` refuses.
    """
    ready, warnings = _ready(order)
    ready = replace(ready, cloth=replace(ready.cloth, length=None))  # whether it is long enough is a matter of laying
    draft = ready.set_out()
    found = checks.judge(draft, order.person.unit) if judged or not draft.pieces else ()
    return Result(order, ready, draft, found, warnings, draft.girths, None, None)


def make(order: Order, *, with_ways_out: bool = True) -> Result:
    """Drafts an order: sets out, checks, lays on the cloth and plans the chalking.

    `with_ways_out=False` leaves the ways out of checks empty, which is much quicker. Raises ValueError for an order
    that `read_order` refuses.
    """
    return finished(making(order, with_ways_out=with_ways_out))


def order_work(order: Order, *, with_ways_out: bool = True) -> int:
    """How much work `make` does, in units of drafting.work: the same on every machine."""
    work = Work()
    finished(making(order, with_ways_out=with_ways_out, work=work))
    return work.done


def making(order: Order, *, with_ways_out: bool = True, work: Work | None = None) -> Steps[Result]:
    """As `make`, a step at a time, so that a screen can answer in between; the result is the generator's value.

    Setting out is the first step and a single one: `glance` has to draw all of it before any pause anyway. Every check,
    every way of laying, every run of marks and every try of a way out is a step of its own, and long searches pause.
    `work` counts what is done. With ways out it is at most TIMES what the plain draft takes.
    """
    ready, warnings = _ready(order)
    work = work or Work()
    draft = ready.set_out()
    work.add(DRAFT)
    yield None
    layouts: tuple[Layout, ...] = ()
    if draft.pieces:
        layouts = yield from search(draft.pieces, ready.cloth, work=work)
    layout = layouts[0] if layouts else None
    long_enough: Check | None = None
    words = judging.Words(order.person.unit)
    if cloth_long_enough.to_judge(draft):
        found = layout or (yield from shortest(draft.pieces, ready.cloth, work))
        long_enough = cloth_long_enough.verdict(draft, words, found)
    judged = yield from checks.judging(draft, order.person.unit, {cloth_long_enough.ID: long_enough})
    stopped = any(check.result == "stop" for check in judged)
    if not stopped:
        work.add(PLAN)
    if with_ways_out:
        # A draft that is begun is ended, and so are the marks of one that is judged as it will be chalked.
        work.most = TIMES * work.done - DRAFT - (0 if stopped else PLAN)
        judged = yield from _with_ways_out(order, draft, judged, work)
    girths = draft.girths
    chalk = stitch = None
    if not stopped:
        marks = yield from _marks(draft, order)
        yield None
        as_chalked = _judged_as_chalked(draft, order, marks)
        if with_ways_out:
            as_chalked = yield from _with_ways_out(order, draft, (*judged, *as_chalked), work, as_chalked)
        judged = (*judged, *as_chalked)
        plans = []
        for line, own in marks.items():
            plans.append((yield from _chalk_plan(draft, ready, order, line, layout, judged, own)))
            yield None
        chalk, stitch = plans[0], plans[1] if len(plans) > 1 else None
        # Where both lines are chalked it is sewn on the stitching line.
        girths = after_rounding(girths, draft.pieces, stitch or chalk, ready.cloth)
        judged = (*judged, rounding_effect(girths, order))
    return Result(order, ready, draft, judged, warnings, girths, layout, chalk, stitch, layouts)


def _marks(draft: SetOut, order: Order) -> Steps[dict[ChalkLine, tuple[PieceMarks, ...]]]:
    """The marks on each line that is chalked, the cutting line first."""
    lines: tuple[ChalkLine, ...] = ("cut", "stitch") if order.tape.line == "both" else (order.tape.line,)
    tape, within = draft.chalked.tape, order.tape.join_within
    found: dict[ChalkLine, tuple[PieceMarks, ...]] = {}
    for line in lines:
        found[line] = yield from marking(draft.pieces, tape, join_within=within, line=line)
    return found


def _judged_as_chalked(
    draft: SetOut, order: Order, marks: dict[ChalkLine, tuple[PieceMarks, ...]]
) -> tuple[Check, ...]:
    found = tuple(one for line, own in marks.items() for one in areas(draft.pieces, own, line))
    sewn = list(marks.values())[-1]  # where both lines are chalked it is sewn on the stitching line
    as_chalked = checks.AsChalked(found, rings(draft.girths, draft.pieces, sewn, draft.cloth))
    return checks.judge_chalked(draft.garment, as_chalked, order.person.unit)


def _chalk_plan(
    draft: SetOut, ready: Ready, order: Order, line: ChalkLine, layout: Layout | None, judged: tuple[Check, ...],
    marks: tuple[PieceMarks, ...],
) -> Steps[ChalkPlan]:  # fmt: skip
    return planning(
        draft.pieces, ready.tape, join_within=order.tape.join_within, line=line, layout=layout,
        washing=washing_words(ready.cloth),
        heed=[check.with_ways_out() for check in judged if check.result == "warn"],
        care=[check.says for check in judged if check.result == "caution"],
        marks=marks,
    )  # fmt: skip


def _ready(order: Order) -> tuple[Ready, tuple[Problem, ...]]:
    ready, warnings = prepare(order)
    if ready is None:
        raise ValueError("; ".join(problem.line() for problem in warnings))
    return ready, warnings


def _with_ways_out(
    order: Order, draft: SetOut, judged: tuple[Check, ...], work: Work, as_chalked: tuple[Check, ...] = ()
) -> Steps[tuple[Check, ...]]:
    """The checks with their ways out; given `as_chalked`, only these, and every try is then judged as chalked too.

    `work` holds what was done so far, and how much may be done in all.
    """
    typed = order.model_dump(mode="json")
    words = judging.Words(order.person.unit)
    long_enough = next((check for check in judged if check.id == cloth_long_enough.ID), None)
    if long_enough is not None and long_enough.value is not None:
        draft = replace(draft, cloth_needed=long_enough.value)

    def drafted(data: dict[str, Any]) -> Steps[tuple[SetOut, tuple[Check, ...]] | None]:
        return _drafted(data, work)

    def judge(data: dict[str, Any], *, laid: bool) -> Steps[tuple[Check, ...] | None]:
        made = yield from drafted(data)
        if made is None:
            return None
        draft, found = made
        if as_chalked and not any(check.result == "stop" for check in found):
            other = Order.model_validate(data)
            work.add(PLAN)
            marks = yield from _marks(draft, other)
            found = (*found, *_judged_as_chalked(draft, other, marks))
        # Laid only where the cloth's length is asked about, or was enough before: a short cloth is no news.
        if laid and cloth_long_enough.to_judge(draft):
            within = yield from going_within(draft.pieces, draft.cloth, work)
            if within is None:
                return None
            check = cloth_long_enough.verdict(draft, words, within)
            found = found if check is None else (*found, check)
        return found

    found: list[Check] = []
    for check in as_chalked or judged:
        ways: tuple[WayOut, ...] = ()
        if check.id == "fits_cloth" and check.result != "pass":
            laid = yield from ways_out_cloth.to_fit(typed, draft, judged, drafted, words, work)
            ways = tuple(way.way_out(words) for way in laid)
        elif check.result in {"warn", "stop"}:
            asks = long_enough is not None and (check is long_enough or long_enough.result == "pass")
            ways = yield from ways_out.find(typed, draft, check, judged, partial(judge, laid=asks), words, work)
        found.append(replace(check, ways_out=ways))
    return tuple(found)


def _drafted(data: dict[str, Any], work: Work | None = None) -> Steps[tuple[SetOut, tuple[Check, ...]] | None]:
    """Plain data of an order set out and checked, neither laid nor with ways out; None where it is refused."""
    order = Order.model_validate(data)
    ready, _ = prepare(order)
    if work is not None:
        work.add(DRAFT)
    if ready is None:
        return None
    draft = ready.set_out()
    yield None
    return draft, (yield from checks.judging(draft, order.person.unit, {cloth_long_enough.ID: None}))


def any_way(result: Result) -> tuple[tuple[Piece, ...], ClothFacts]:
    """The pieces and the cloth with the way of laying left open, to compare all ways.

    Cloth that is turned under the garment has its stretch turned round, so the garment is drafted anew without.
    """
    cloth = replace(result.ready.cloth, lay="auto")
    if not result.ready.cloth.turned:
        return result.draft.pieces, cloth
    order = result.order
    other = glance(order.model_copy(update={"cloth": order.cloth.model_copy(update={"lay": "auto"})}))
    return other.draft.pieces, replace(other.ready.cloth, length=cloth.length)


def ways_to_save(result: Result) -> tuple[ways_out_cloth.LaidWay, ...]:
    """Changes of the garment that save cloth, each drafted, checked and laid; none while it does not fit its cloth."""
    return finished(saving(result))


def saving(result: Result) -> Steps[tuple[ways_out_cloth.LaidWay, ...]]:
    """As `ways_to_save`, a step at a time."""
    if result.layout is None:
        return ()
    words = judging.Words(result.order.person.unit)
    typed = result.order.model_dump(mode="json")
    return (yield from ways_out_cloth.to_save(typed, result.draft, result.layout, result.checks, _drafted, words))


def rounding_effect(girths: tuple[FinishedGirth, ...], order: Order) -> Check:
    """What the steps of the tape do to the girth that they change most."""
    worst = max(girths, key=lambda girth: abs(girth.after_rounding - girth.girth))
    change = worst.after_rounding - worst.girth
    unit = order.person.unit
    if abs(change) < 0.5:
        says = "The steps of the tape change no girth enough to be seen."
    else:
        more = "larger" if change > 0 else "smaller"
        amount = judging.Words(unit)(abs(change))
        says = f"The steps of the tape make the {worst.label} {amount} {more}. No girth changes by more."
    return Check("rounding_effect", "shown", says, change, None)


def _refusal(field: str, wrong: str, fix: str) -> Problem:
    return Problem("order", field, "refuse", wrong, fix)


def _problems(error: ValidationError, folder: str) -> tuple[Problem, ...]:
    """Plain sentences for what the data's form gets wrong; one for each field."""
    found: dict[str, Problem] = {}
    for detail in error.errors():
        path = [
            str(part)
            for part in detail["loc"]
            if str(part) not in {"float", "int", "str", "function-before[_clean(), str]"}
        ]
        field = ".".join(([folder] if folder else []) + path) or "order"
        kind, given = detail["type"], json.dumps(detail.get("input"), default=str, ensure_ascii=False)[:60]
        if kind == "extra_forbidden":
            wrong, fix = "this key is not known", "correct its spelling or take it out"
        elif kind == "missing":
            wrong, fix = "this is missing", "give it"
        elif kind == "literal_error":
            wrong, fix = f"{given} cannot be chosen here", f"choose {detail['ctx']['expected']}"
        elif kind.startswith(("greater", "less", "finite")):
            wrong, fix = f"{given} is out of reach", _bounds(detail)
        elif kind == "string_too_long":
            wrong, fix = "this text is too long to print", f"keep it under {detail['ctx']['max_length']} characters"
        else:
            wrong, fix = f"{given} is not of the kind that belongs here", "see the keys of an order in the README"
        found.setdefault(field, _refusal(field, wrong, fix))
    return tuple(found.values())


def _bounds(detail: Any) -> str:
    limits = detail.get("ctx", {})
    words = {"ge": "at least", "gt": "more than", "le": "at most", "lt": "less than"}
    return "give " + (" and ".join(f"{words[k]} {v:g}" for k, v in limits.items() if k in words) or "a number")
