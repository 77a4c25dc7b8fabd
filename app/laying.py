"""What the lay screen shows, worked out by the core step by step: ways, savings, widths, a remnant, two garments."""

from collections.abc import Mapping
from dataclasses import replace

from app.state import GarmentRecord, LaidOut, LayQuestion, PersonRecord
from app.typed import NOTES, number, order_of
from drafting.contract.pieces import Piece
from drafting.layout import comparing_widths, laying_together, length_to_buy, read_remnant, search, trying_on
from drafting.order import Result, any_way, glance, read_order, saving
from drafting.stepwise import Steps

PRICE, WITH = f"{NOTES}price", f"{NOTES}with"
PIECE = ("width", "length", "further_width", "further_length")
"""The sizes of a piece in hand, as the core names them; their keys begin with NOTES."""


def price_of(text: str) -> float | None:
    """A price as typed; None for an empty text and for one that is no price."""
    read = number(text) if text.strip() else None
    return read if read is not None and read >= 0 else None


def question_of(
    garment: GarmentRecord, others: tuple[GarmentRecord, ...], people: Mapping[str, PersonRecord]
) -> LayQuestion:
    """What a garment's notes ask; another garment that cannot be drafted is left out."""
    notes = {key: text for key, text in garment.cloth.items() if key.startswith(NOTES) and text.strip()}
    question = LayQuestion(notes, garment.title.strip())
    other = next((each for each in others if each.id == notes.get(WITH) and each.id != garment.id), None)
    who = None if other is None else people.get(other.person)
    typed = None if other is None else order_of(other, None if who is None else who.measured(other.measured))[0]
    order = None if typed is None else read_order(typed)[0]
    if other is None or order is None:
        return question
    return replace(question, together=(other.title.strip(), order))


def answering(garment: str, result: Result, question: LayQuestion, before: LaidOut | None = None) -> Steps[LaidOut]:
    """The answer, given out as a LaidOut whenever a part of it is there. What `before` says of the same is kept."""
    cloth, unit = result.ready.cloth, result.order.person.unit
    price = price_of(question.notes.get(PRICE, ""))
    answer = LaidOut(garment, result, question, *any_way(result))
    if result.layout is not None:
        answer = replace(answer, buy=length_to_buy(result.layout, cloth, unit, price=price))
    if not answer.pieces:
        return replace(answer, ways=(), saves=(), widths=(), done=True)
    if before is not None and before.garment == garment:
        answer = _kept(answer, before)
    yield answer
    if answer.ways is None:
        answer = replace(answer, ways=(yield from search(answer.pieces, answer.cloth)))
        yield answer
    typed = {name: question.notes.get(NOTES + name, "") for name in PIECE}
    remnant, problems = read_remnant(typed, unit)
    answer = replace(answer, problems=tuple(replace(each, field=f"cloth.{NOTES}{each.field}") for each in problems))
    if remnant is not None and answer.in_hand is None:
        answer = replace(answer, in_hand=(yield from trying_on(answer.pieces, answer.cloth, remnant)))
    if question.together is not None and answer.together is None:
        answer = replace(answer, together=(yield from laying_together(_named(answer), answer.cloth)))
    yield answer
    if answer.saves is None:
        answer = replace(answer, saves=(yield from saving(result)))
        yield answer
    if answer.widths is None:
        answer = replace(answer, widths=(yield from comparing_widths(result.draft.pieces, cloth, unit)))
    priced = tuple(
        each if each.layout is None else length_to_buy(each.layout, cloth, unit, price=price)
        for each in answer.widths or ()
    )
    return replace(answer, widths=priced, done=True)


def _kept(answer: LaidOut, before: LaidOut) -> LaidOut:
    """The answer with what an earlier one says that is still true."""
    if before.result is answer.result:
        answer = replace(answer, saves=before.saves, widths=before.widths)
    if (before.pieces, before.cloth) != (answer.pieces, answer.cloth):
        return answer
    answer = replace(answer, ways=before.ways)
    asked, asks = before.question, answer.question
    if all(asked.notes.get(NOTES + name) == asks.notes.get(NOTES + name) for name in PIECE):
        answer = replace(answer, in_hand=before.in_hand)
    if (asked.title, asked.together) == (asks.title, asks.together):
        answer = replace(answer, together=before.together)
    return answer


def _named(answer: LaidOut) -> tuple[tuple[str, tuple[Piece, ...]], ...]:
    """Both garments under their titles, told apart by a number where they have the same."""
    assert answer.question.together is not None
    mine, (theirs, order) = answer.question.title, answer.question.together
    names = (f"{mine} 1".strip(), f"{theirs} 2".strip()) if mine == theirs else (mine or "1", theirs or "2")
    return (names[0], answer.pieces), (names[1], glance(order).draft.pieces)
