"""What the lay screen shows, worked out by the core step by step: ways, savings, widths, a remnant, two garments."""

from collections.abc import Generator, Mapping
from dataclasses import dataclass, replace

from app.state import GarmentRecord, LaidOut, PersonRecord
from app.typed import NOTES, number, order_of
from drafting.layout import Remnant, comparing_widths, laying_together, length_to_buy, search, trying_on
from drafting.order import Order, Result, glance, read_order, saving
from drafting.pieces import Piece
from drafting.problems import Problem
from drafting.stepwise import Steps, Value
from drafting.units import LengthProblem, Unit, read_length

PRICE, WITH = "lay_price", "lay_with"
PIECE = ("lay_width", "lay_length", "lay_further_width", "lay_further_length")


@dataclass(frozen=True, slots=True)
class Question:
    """What the answer depends on beside the draft: the notes typed on the lay screen, and the order laid with it."""

    notes: Mapping[str, str]
    together: tuple[str, str, Order] | None = None


def question_of(
    garment: GarmentRecord, others: tuple[GarmentRecord, ...], people: Mapping[str, PersonRecord]
) -> Question:
    """What a garment's notes ask; another garment that cannot be drafted is left out."""
    notes = {key: text for key, text in garment.cloth.items() if key.startswith(NOTES) and text.strip()}
    other = next((each for each in others if each.id == notes.get(WITH) and each.id != garment.id), None)
    if other is None:
        return Question(notes)
    typed, _ = order_of(other, people.get(other.person))
    order = None if typed is None else read_order(typed)[0]
    if order is None:
        return Question(notes)
    return Question(notes, (garment.title.strip(), other.title.strip(), order))


def answering(
    garment: str, result: Result, question: Question, before: LaidOut | None = None
) -> Generator[LaidOut, None, LaidOut]:
    """The answer as it grows; what is not yet worked out is None. What `before` still says of the same is kept."""
    pieces, cloth, unit = result.draft.pieces, result.ready.cloth, result.order.person.unit
    price = number(question.notes.get(PRICE, ""))
    answer = LaidOut(garment, result, question)
    if result.layout is not None:
        answer = replace(answer, buy=length_to_buy(result.layout, cloth, unit, price=price))
    if before is not None and before.garment == garment and isinstance(before.question, Question):
        answer = _kept(answer, before, before.question, question)
    yield answer
    if not pieces:
        return replace(answer, ways=(), saves=(), widths=(), done=True)
    any_way = replace(cloth, lay="auto")
    if answer.ways is None:
        ways = yield from _growing(answer, search(pieces, any_way))
        answer = replace(answer, ways=ways)
        yield answer
    remnant, problems = _remnant(question.notes, unit)
    answer = replace(answer, problems=problems)
    if remnant is None:
        answer = replace(answer, in_hand=None)
    elif answer.in_hand is None:
        held = yield from _growing(answer, trying_on(pieces, any_way, remnant))
        answer = replace(answer, in_hand=held)
    if question.together is None:
        answer = replace(answer, together=None)
    elif answer.together is None:
        both = yield from _growing(answer, laying_together(_named(pieces, question.together), any_way))
        answer = replace(answer, together=both)
    yield answer
    if answer.saves is None:
        saves = yield from _growing(answer, saving(result))
        answer = replace(answer, saves=saves)
        yield answer
    if answer.widths is None:
        widths = yield from _growing(answer, comparing_widths(pieces, cloth, unit))
        answer = replace(answer, widths=widths)
    priced = tuple(
        each if each.layout is None else length_to_buy(each.layout, cloth, unit, price=price)
        for each in answer.widths or ()
    )
    return replace(answer, widths=priced, done=True)


def _kept(answer: LaidOut, before: LaidOut, asked: Question, question: Question) -> LaidOut:
    """The answer with what an earlier one says that is still true."""
    was, now = before.result, answer.result
    if was is now:
        answer = replace(answer, ways=before.ways, saves=before.saves, widths=before.widths)
    elif was.draft.pieces != now.draft.pieces or replace(was.ready.cloth, lay="auto") != replace(
        now.ready.cloth, lay="auto"
    ):
        return answer
    answer = replace(answer, ways=before.ways)
    if all(asked.notes.get(key) == question.notes.get(key) for key in PIECE):
        answer = replace(answer, in_hand=before.in_hand)
    if asked.together == question.together:
        answer = replace(answer, together=before.together)
    return answer


def _named(pieces: tuple[Piece, ...], together: tuple[str, str, Order]) -> tuple[tuple[str, tuple[Piece, ...]], ...]:
    mine, theirs, order = together
    names = (f"{mine} 1".strip(), f"{theirs} 2".strip()) if mine == theirs else (mine or "1", theirs or "2")
    return (names[0], pieces), (names[1], glance(order).draft.pieces)


def _growing(answer: LaidOut, work: Steps[Value]) -> Generator[LaidOut, None, Value]:
    while True:
        try:
            next(work)
        except StopIteration as end:
            value: Value = end.value
            return value
        yield answer


def _remnant(notes: Mapping[str, str], unit: Unit) -> tuple[Remnant | None, dict[str, Problem]]:
    """The piece in hand as typed; None while its width or length is not there or cannot be read."""
    sizes: dict[str, float] = {}
    problems: dict[str, Problem] = {}
    for key in PIECE:
        text = notes.get(key, "")
        if not text:
            continue
        read = read_length(text, unit)
        if isinstance(read, LengthProblem):
            problems[key] = Problem("length_unreadable", f"cloth.{key}", "refuse", read.wrong, read.fix)
        elif not 0 < read <= 100_000:
            wrong, fix = "no piece of cloth has this size", "measure it again"
            problems[key] = Problem("length_out_of_reach", f"cloth.{key}", "refuse", wrong, fix)
        else:
            sizes[key] = read
    if problems or PIECE[0] not in sizes or PIECE[1] not in sizes:
        return None, problems
    further = (sizes.get(PIECE[2], 0.0), sizes.get(PIECE[3], 0.0))
    if 0.0 in further:
        further = (0.0, 0.0)
    return Remnant(sizes[PIECE[0]], sizes[PIECE[1]], *further), problems
