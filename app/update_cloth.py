"""What follows from what is done with the cloths that are kept by name. See app.update."""

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from app import actions as act
from app.asks import Ask
from app.state import ClothRecord, GarmentRecord, Notice, State, Undo
from app.text import words
from app.typed import keep_length, keep_lengths
from drafting.units import LengthProblem, Unit, read_length, say_length

Step = tuple[State, tuple[Ask, ...]]
NOT_KEPT = ("lay", "test_")
"""How keys of a garment's cloth begin that are no facts of the cloth: how it is laid, and how it was tested."""
SHRINKS = ("shrink_across", "shrink_along")


def facts_of(garment: GarmentRecord) -> dict[str, str]:
    """What is known of the cloth of a garment, whatever is made of it."""
    return {key: text for key, text in garment.cloth.items() if text.strip() and not key.startswith(NOT_KEPT)}


def _unit(state: State, garment: GarmentRecord) -> Unit:
    person = state.book.wearer(garment)
    return person.unit if person else state.book.settings.unit


def _with(state: State, garment: GarmentRecord) -> State:
    garments = tuple(garment if each.id == garment.id else each for each in state.book.garments)
    return replace(state, book=replace(state.book, garments=garments))


def _put(state: State, cloth: ClothRecord) -> State:
    cloths = tuple(cloth if each.id == cloth.id else each for each in state.book.cloths)
    return replace(state, book=replace(state.book, cloths=cloths))


def _keep(state: State, action: act.KeepCloth) -> Step:
    book = state.book
    garment = book.garment(action.garment)
    if garment is None:
        return state, ()
    known = book.cloth(garment.of_cloth)
    if known is not None:
        kept = replace(known, unit=_unit(state, garment), facts=facts_of(garment))
        return replace(_put(state, kept), notice=Notice(words("cloths.kept", name=_name(kept)))), ()
    cloth = ClothRecord(state.new_id("c"), unit=_unit(state, garment), facts=facts_of(garment))
    after = replace(state, book=replace(book, cloths=(*book.cloths, cloth), next=book.next + 1))
    return _with(after, replace(garment, of_cloth=cloth.id)), ()


def _name(cloth: ClothRecord) -> str:
    return cloth.name.strip() or words("cloths.unnamed")


def _use(state: State, action: act.UseCloth) -> Step:
    garment, cloth = state.book.garment(action.garment), state.book.cloth(action.cloth)
    if garment is None or cloth is None:
        return state, ()
    facts = keep_lengths(cloth.facts, cloth.unit, _unit(state, garment))
    if cloth.washed:  # it has shrunk already
        facts |= dict.fromkeys(SHRINKS, "0")
    rest = {key: text for key, text in garment.cloth.items() if key.startswith(NOT_KEPT) and key != "lay"}
    return _with(state, replace(garment, cloth=rest | facts, of_cloth=cloth.id)), ()


def _delete(state: State, action: act.DeleteCloth) -> Step:
    cloth = state.book.cloth(action.cloth)
    if cloth is None:
        return state, ()
    cloths = tuple(each for each in state.book.cloths if each is not cloth)
    notice = Notice(words("cloths.deleted", name=_name(cloth)), Undo(cloth=cloth))
    return replace(state, book=replace(state.book, cloths=cloths), notice=notice), ()


def cut_from(state: State, garment: GarmentRecord) -> State:
    """The state after a garment was cut: what its layout takes is taken off the cloth it was cut from."""
    cloth = state.book.cloth(garment.of_cloth)
    drafted = state.drafted
    if cloth is None:
        return state
    result = drafted.result if drafted is not None and drafted.garment == garment.id and drafted.laid else None
    left = read_length(cloth.facts.get("length", ""), cloth.unit) if cloth.facts.get("length", "").strip() else None
    if result is None or result.layout is None or left is None or isinstance(left, LengthProblem):
        return replace(state, notice=Notice(words("cloths.unknown", name=_name(cloth)), tone="caution"))
    rest = max(left - result.layout.length, 0.0)
    text = keep_length(say_length(rest, cloth.unit), cloth.unit, cloth.unit)
    says = words("cloths.cut", name=_name(cloth), left=say_length(rest, cloth.unit))
    after = _put(state, replace(cloth, facts=cloth.facts | {"length": text}))
    return replace(after, notice=Notice(says, Undo(garment=garment, cloth=cloth)))


def _state(state: State, action: act.SetState) -> Step:
    garment = state.book.garment(action.garment)
    if garment is None or garment.state == action.state:
        return state, ()
    after = _with(state, replace(garment, state=action.state))
    return (cut_from(after, garment) if not garment.state else after), ()


def _changing(change: Callable[[ClothRecord, Any], ClothRecord]) -> Callable[[State, Any], Step]:
    def handle(state: State, action: Any) -> Step:
        cloth = state.book.cloth(action.cloth)
        return (state if cloth is None else _put(state, change(cloth, action))), ()

    return handle


HANDLERS: dict[type[act.Action], Callable[[State, Any], Step]] = {
    act.KeepCloth: _keep,
    act.UseCloth: _use,
    act.DeleteCloth: _delete,
    act.TypeClothName: _changing(lambda cloth, action: replace(cloth, name=action.text)),
    act.SetWashed: _changing(lambda cloth, action: replace(cloth, washed=action.washed)),
    act.SetState: _state,
}
