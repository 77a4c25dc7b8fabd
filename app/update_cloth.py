"""What follows from what is done with the cloths that are kept by name. See app.update."""

import json
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


def as_used(cloth: ClothRecord) -> dict[str, str]:
    """The facts of a kept cloth for a garment that is made of it now: what was washed has shrunk already."""
    return cloth.facts | (dict.fromkeys(SHRINKS, "0") if cloth.washed else {})


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
        facts = facts_of(garment)
        if known.washed:  # what it shrank by when it was washed is still known
            facts = {key: text for key, text in facts.items() if key not in SHRINKS}
            facts |= {key: known.facts[key] for key in SHRINKS if key in known.facts}
        kept = replace(known, unit=_unit(state, garment), facts=facts)
        return replace(_put(state, kept), notice=Notice(words("cloths.kept", name=_name(kept)))), ()
    cloth = ClothRecord(state.new_id("c"), unit=_unit(state, garment), facts=facts_of(garment))
    after = replace(state, book=replace(book, cloths=(*book.cloths, cloth), next=book.next + 1))
    return _with(after, replace(garment, of_cloth=cloth.id, taken="")), ()


def _name(cloth: ClothRecord) -> str:
    return cloth.name.strip() or words("cloths.unnamed")


def _use(state: State, action: act.UseCloth) -> Step:
    garment, cloth = state.book.garment(action.garment), state.book.cloth(action.cloth)
    if garment is None or cloth is None:
        return state, ()
    facts = keep_lengths(as_used(cloth), cloth.unit, _unit(state, garment))
    rest = {key: text for key, text in garment.cloth.items() if key.startswith(NOT_KEPT) and key != "lay"}
    taken = garment.taken if garment.of_cloth == cloth.id else ""
    return _with(state, replace(garment, cloth=rest | facts, of_cloth=cloth.id, taken=taken)), ()


def _wash(state: State, action: act.SetWashed) -> Step:
    """A cloth is washed or not, and so it is for the garments that are planned of it."""
    cloth = state.book.cloth(action.cloth)
    if cloth is None:
        return state, ()
    after = _put(state, replace(cloth, washed=action.washed))
    facts = as_used(replace(cloth, washed=action.washed))
    shrinks = {key: facts[key] for key in SHRINKS if key in facts}
    for garment in state.book.garments:
        if garment.of_cloth == cloth.id and garment.stage == "planned":
            rest = {key: text for key, text in garment.cloth.items() if key not in SHRINKS}
            after = _with(after, replace(garment, cloth=rest | shrinks))
    return after, ()


def _delete(state: State, action: act.DeleteCloth) -> Step:
    cloth = state.book.cloth(action.cloth)
    if cloth is None:
        return state, ()
    cloths = tuple(each for each in state.book.cloths if each is not cloth)
    notice = Notice(words("cloths.deleted", name=_name(cloth)), Undo(cloth=cloth))
    return replace(state, book=replace(state.book, cloths=cloths), notice=notice), ()


def _laid(state: State, garment: GarmentRecord) -> float | None:
    """How much of the cloth the garment takes, mm: what is being chalked where it is, else what is drafted now."""
    frozen, drafted = state.frozen.get(garment.id), state.drafted
    if garment.chalking:
        try:
            return None if frozen is None else float(json.loads(frozen.draft)["layout"]["length"])
        except (ValueError, TypeError, KeyError):  # it was chalked without a layout, or by what is damaged
            return None
    result = drafted.result if drafted is not None and drafted.garment == garment.id and drafted.laid else None
    return None if result is None or result.layout is None else result.layout.length


def _length_left(cloth: ClothRecord) -> float | None:
    """The length that is left of a cloth, mm; None where it is not known."""
    text = cloth.facts.get("length", "")
    found = read_length(text, cloth.unit) if text.strip() else None
    return None if isinstance(found, LengthProblem) else found


def _long(state: State, cloth: ClothRecord, length: float) -> State:
    """The state with this length of the cloth left, mm."""
    text = keep_length(say_length(length, cloth.unit), cloth.unit, cloth.unit)
    return _put(state, replace(cloth, facts=cloth.facts | {"length": text}))


def cut_from(state: State, garment: GarmentRecord) -> State:
    """The state after a garment was cut: what its layout takes is taken off the cloth it was cut from."""
    cloth, before = state.book.cloth(garment.of_cloth), replace(garment, state="")
    if cloth is None:
        return state
    laid, left = _laid(state, garment), _length_left(cloth)
    if laid is None or left is None:
        return replace(state, notice=Notice(words("cloths.unknown", name=_name(cloth)), tone="caution"))
    rest = max(left - laid, 0.0)
    says = words("cloths.cut", name=_name(cloth), left=say_length(rest, cloth.unit))
    after = _with(_long(state, cloth, rest), replace(garment, taken=say_length(left - rest, cloth.unit)))
    return replace(after, notice=Notice(says, Undo(garment=before, cloth=cloth)))


def _not_cut(state: State, garment: GarmentRecord) -> State:
    """The state after a garment was not cut after all: what was taken off its cloth is given back."""
    cloth, taken = state.book.cloth(garment.of_cloth), read_length(garment.taken, "cm") if garment.taken else None
    after = _with(state, replace(garment, state="", taken=""))
    left = None if cloth is None else _length_left(cloth)
    if cloth is None or left is None or taken is None or isinstance(taken, LengthProblem):
        return after
    return _long(after, cloth, left + taken)


def _state(state: State, action: act.SetState) -> Step:
    garment = state.book.garment(action.garment)
    if garment is None or garment.state == action.state:
        return state, ()
    if not action.state:
        return _not_cut(state, garment), ()
    now = replace(garment, state=action.state)
    after = _with(state, now)
    return (after if garment.state else cut_from(after, now)), ()


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
    act.SetWashed: _wash,
    act.SetState: _state,
}
