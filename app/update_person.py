"""What follows from what is done with people. See app.update."""

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from app import actions as act
from app.asks import Ask, GoTo, ReadDay
from app.flat import NO_LENGTHS, measures_of, read_garment
from app.in_unit import for_nobody, in_unit, unit_of
from app.measured import next_set
from app.names import copy_name
from app.state import Book, GarmentRecord, Gone, MeasureSet, Notice, PersonRecord, Place, State, Undo, undo_of
from app.text import words
from app.typed import keep_lengths
from drafting.units import Unit

Step = tuple[State, tuple[Ask, ...]]


def _put(state: State, person: PersonRecord) -> State:
    people = tuple(person if each.id == person.id else each for each in state.book.people)
    return replace(state, book=replace(state.book, people=people))


def _changing(change: Callable[[PersonRecord, Any], PersonRecord]) -> Callable[[State, Any], Step]:
    """A handler that changes the one person an action names."""

    def handle(state: State, action: Any) -> Step:
        person = state.book.person(action.person)
        return (state if person is None else _put(state, change(person, action))), ()

    return handle


def _measure(person: PersonRecord, action: act.TypeMeasure) -> PersonRecord:
    told = tuple(name for name in person.told if name != action.measure)  # now it is taken
    return replace(person, measures=person.measures | {action.measure: action.text}, told=told)


def add_person(state: State, action: act.AddPerson) -> Step:
    """Add a person, for the garment where one is named, and go to it."""
    book = state.book
    garment = book.garment(action.garment)
    person = PersonRecord(state.new_id("p"), unit=book.settings.unit)
    place = Place("person", garment.id) if garment else Place("person", person=person.id)
    garments = tuple(for_person(each, person, book) if each is garment else each for each in book.garments)
    book = replace(book, people=(*book.people, person), garments=garments, next=book.next + 1)
    return replace(state, book=book, place=place, focus=""), (() if place == state.place else (GoTo(place.route),))


def for_person(garment: GarmentRecord, person: PersonRecord, book: Book) -> GarmentRecord:
    """The garment of a book for another person, with the newest measures; its lengths stay what they were."""
    before, unit = book.person(garment.person), unit_of(garment, book)
    if garment.person != person.id:
        garment = replace(garment, person=person.id, measured="")
    garment = in_unit(garment, unit, person.unit)
    return garment if before is not None and before.unit == person.unit else _with_tape(garment, person.unit)


def _with_tape(garment: GarmentRecord, unit: Unit) -> GarmentRecord:
    """The garment with a tape and paper that go with the unit; left as they are where they already do."""
    if ("/" in garment.tape) == (unit == "in"):
        return garment
    return replace(garment, tape="1/8" if unit == "in" else "0.5", paper="Letter" if unit == "in" else "A4")


def _copy(state: State, action: act.CopyPerson) -> Step:
    book = state.book
    person = book.person(action.person)
    if person is None:
        return state, ()
    name = person.name.strip() or words("person.unnamed")
    name = copy_name(name, {each.name.strip() for each in book.people})
    copied = replace(person, id=state.new_id("p"), name=name)
    return replace(state, book=replace(book, people=(*book.people, copied), next=book.next + 1)), ()


def _delete(state: State, action: act.DeletePerson) -> Step:
    book = state.book
    person = book.person(action.person)
    if person is None:
        return state, ()
    people = tuple(each for each in book.people if each is not person)
    unit = book.settings.unit
    garments = tuple(in_unit(each, person.unit, unit) if each.person == person.id else each for each in book.garments)
    name = person.name.strip()
    says = words("person.deleted", name=name) if name else words("person.deleted.unnamed")
    gone = Gone(says, person=person, by=state.mark)
    here = state.place.person == person.id
    place = Place() if here else state.place
    book = replace(book, people=people, garments=garments, gone=gone)
    after = replace(state, book=book, place=place, notice=Notice(says, undo_of(gone)))
    return after, ((GoTo(place.route),) if here else ())


def _choose(state: State, action: act.ChoosePerson) -> Step:
    book = state.book
    garment, person = book.garment(action.garment), book.person(action.person)
    if garment is None or (action.person and person is None):
        return state, ()
    chosen = for_nobody(garment, book) if person is None else for_person(garment, person, book)
    garments = tuple(chosen if each is garment else each for each in book.garments)
    return replace(state, book=replace(book, garments=garments), focus=""), ()


def _unit(state: State, action: act.ChooseUnit) -> Step:
    book = state.book
    person = book.person(action.person)
    if person is None or person.unit == action.unit:
        return state, ()
    before = person.unit
    kept = replace(
        person, unit=action.unit, measures=keep_lengths(person.measures, before, action.unit),
        again=keep_lengths(person.again, before, action.unit),
        flat=keep_lengths(person.flat, before, action.unit, NO_LENGTHS),
        earlier=tuple(
            replace(
                each, measures=keep_lengths(each.measures, before, action.unit),
                again=keep_lengths(each.again, before, action.unit),
            )
            for each in person.earlier
        ),
    )  # fmt: skip
    people = tuple(kept if each is person else each for each in book.people)
    settings = replace(book.settings, unit=action.unit)
    garments = tuple(_read_in(each, action.unit, book, person) for each in book.garments)
    return replace(state, book=replace(book, people=people, garments=garments, settings=settings)), ()


def _read_in(garment: GarmentRecord, unit: Unit, book: Book, person: PersonRecord) -> GarmentRecord:
    """The garment once this person and the settings have another unit."""
    whose = book.person(garment.person)
    if whose is None:
        return in_unit(garment, book.settings.unit, unit)
    return _with_tape(in_unit(garment, person.unit, unit), unit) if whose is person else garment


def _today(state: State, action: act.TakeToday) -> Step:
    return state, (ReadDay(action.person),)


def _measure_again(state: State, action: act.MeasureAgain) -> Step:
    book = state.book
    person = book.person(action.person)
    if person is None:
        return state, ()
    return _with_new(state, person, person, words("set.begun")), ()


def _with_new(state: State, person: PersonRecord, new: PersonRecord, says: str) -> State:
    """The state with new measures of a person, begun today; those before are kept, and garments stay with them."""
    book = state.book
    before = MeasureSet(person.set, person.taken_on, person.age, person.measures, person.again, person.told)
    new = replace(new, set=next_set(person), taken_on=state.today, again={}, earlier=(*person.earlier, before))
    garments = tuple(
        replace(each, measured=before.id) if each.person == person.id and each.measured in ("", before.id) else each
        for each in book.garments
    )
    people = tuple(new if each is person else each for each in book.people)
    notice = Notice(says, Undo(person=person))
    return replace(state, book=replace(book, people=people, garments=garments), notice=notice)


def _take_flat(state: State, action: act.TakeFlat) -> Step:
    person = state.book.person(action.person)
    found = None if person is None else read_garment(person)[0]
    if person is None or found is None:
        return state, ()
    told = measures_of(found, person)
    before = (name for name in person.told if name not in told)  # told by a garment before, and not taken since
    new = replace(person, measures=person.measures | told, told=(*told, *before))
    place = replace(state.place, step=0)
    asks = () if place == state.place else (GoTo(place.route),)
    if not any(text.strip() for text in person.measures.values()):  # nobody was measured before
        people = tuple(replace(new, taken_on=state.today) if each is person else each for each in state.book.people)
        notice = Notice(words("flat.taken"), Undo(person=person))
        return replace(state, book=replace(state.book, people=people), notice=notice, place=place, focus=""), asks
    return replace(_with_new(state, person, new, words("flat.taken")), place=place, focus=""), asks


def _flat(person: PersonRecord, action: act.TypeFlat) -> PersonRecord:
    return replace(person, flat=person.flat | {action.field: action.text})


def _again(person: PersonRecord, action: act.TypeAgain) -> PersonRecord:
    return replace(person, again=person.again | {action.measure: action.text})


HANDLERS: dict[type[act.Action], Callable[[State, Any], Step]] = {
    act.AddPerson: add_person,
    act.CopyPerson: _copy,
    act.DeletePerson: _delete,
    act.ChoosePerson: _choose,
    act.ChooseUnit: _unit,
    act.TakeToday: _today,
    act.TypeName: _changing(lambda person, action: replace(person, name=action.text)),
    act.TypeAge: _changing(lambda person, action: replace(person, age=action.text)),
    act.TypeTakenOn: _changing(lambda person, action: replace(person, taken_on=action.text)),
    act.ChooseKind: _changing(lambda person, action: replace(person, kind=action.kind)),
    act.TypeMeasure: _changing(_measure),
    act.TypeAgain: _changing(_again),
    act.TypeNotes: _changing(lambda person, action: replace(person, notes=action.text)),
    act.MeasureAgain: _measure_again,
    act.TypeFlat: _changing(_flat),
    act.TakeFlat: _take_flat,
}
