"""What follows from what is done with garments: shape, cloth, chalk and paper. See app.update."""

import json
from collections.abc import Callable
from dataclasses import replace
from typing import Any

from app import actions as act
from app.asks import Ask, Freeze, GoTo, MakeFile, ReadDemo, RemoveFrozen, SaveNow
from app.chalking import Chalking, frozen_step, read_on_tape
from app.in_unit import for_nobody
from app.names import copy_name, garment_name
from app.other_garment import made_as, several
from app.presets import garment_named, of_a_new_one
from app.pulled import read_test
from app.put_back import put_back
from app.state import FrozenDraft, GarmentRecord, Gone, Notice, Place, Screen, State, Tape, Undo, undo_of
from app.text import words
from app.typed import order_of, order_text, plain, records_of, text_of
from app.update_person import add_person, for_person
from drafting.garments import garments
from drafting.units import Unit

Step = tuple[State, tuple[Ask, ...]]
END = "end"
"""The place in the chalking behind its last item."""


def _put(state: State, garment: GarmentRecord) -> State:
    garments = tuple(garment if each.id == garment.id else each for each in state.book.garments)
    return replace(state, book=replace(state.book, garments=garments))


def _changing(change: Callable[[GarmentRecord, Any], GarmentRecord]) -> Callable[[State, Any], Step]:
    """A handler that changes the one garment an action names."""

    def handle(state: State, action: Any) -> Step:
        garment = state.book.garment(action.garment)
        return (state if garment is None else _put(state, change(garment, action))), ()

    return handle


def _with(texts: dict[str, str], key: str, text: str | None) -> dict[str, str]:
    return texts | {key: text} if text is not None else {each: texts[each] for each in texts if each != key}


def _go(state: State, place: Place) -> Step:
    if place == state.place:
        return state, ()
    return replace(state, place=place, focus="", lit=""), (GoTo(place.route),)


def _add(state: State, action: act.AddGarment) -> Step:
    book = state.book
    inches = book.settings.unit == "in"
    which = of_a_new_one([each.garment for each in book.garments])
    garment = GarmentRecord(
        state.new_id("g"),
        garment=which,
        person=action.person if book.person(action.person) else "",
        tape="1/8" if inches else "0.5",
        paper="Letter" if inches else "A4",
        made_on=state.today,
    )
    after = replace(state, book=replace(book, garments=(garment, *book.garments), next=book.next + 1))
    if not book.people:
        after, _ = add_person(after, act.AddPerson(garment.id))
        after = replace(after, place=state.place)
    first: Screen = "which" if several() else "shape" if garment.person else "person"
    return _go(after, Place(first, garment.id))


def _which(garment: GarmentRecord, action: act.ChooseGarment) -> GarmentRecord:
    return made_as(garment, action.which) if action.which in garments() else garment


def _try_demo(state: State, action: act.TryDemo) -> Step:
    return state, (ReadDemo(),)


def _add_demo(state: State, action: act.AddDemo) -> Step:
    book = state.book
    garment, person = records_of(json.loads(action.order), state.new_id("g"), state.new_id("p", 1))
    known = next((each for each in book.people if replace(each, id=person.id) == person), None)
    if known is not None:  # the demo was tried before: no second person for it
        garment = replace(garment, person=known.id)
    people = book.people if known is not None else (*book.people, person)
    book = replace(book, people=people, garments=(garment, *book.garments), next=book.next + 2)
    return _go(replace(state, book=book), Place("shape", garment.id))


def _begun_anew(state: State, garment: GarmentRecord) -> GarmentRecord:
    """The garment as one that is only planned."""
    new = replace(garment.unchalked(), id=state.new_id("g"), made_on=state.today)
    return replace(new, sewn=(), state="", notes="", cut_notes="", taken="")


def _same_for(state: State, action: act.SameForAnother) -> Step:
    """The same garment for somebody else: nothing comes along that is the first wearer's own."""
    book = state.book
    garment = book.garment(action.garment)
    if garment is None:
        return state, ()
    new = replace(for_nobody(_begun_anew(state, garment), book), title="", sheet_measures=False)
    after = replace(state, book=replace(book, garments=(new, *book.garments), next=book.next + 1))
    return _go(after, Place("person", new.id))


def _copy(state: State, action: act.CopyGarment) -> Step:
    book = state.book
    garment = book.garment(action.garment)
    if garment is None:
        return state, ()
    title = copy_name(garment_name(book, garment), {garment_name(book, each) for each in book.garments})
    copied = _begun_anew(state, replace(garment, title=title))
    garments = (copied, *book.garments)
    seen = book.pictures.get(garment.id)
    pictures = book.pictures if seen is None else book.pictures | {copied.id: seen}
    return replace(state, book=replace(book, garments=garments, next=book.next + 1, pictures=pictures)), ()


def _delete(state: State, action: act.DeleteGarment) -> Step:
    book = state.book
    garment = book.garment(action.garment)
    if garment is None:
        return state, ()
    says = words("garment.deleted", title=garment_name(book, garment))
    gone = Gone(says, garment=garment, picture=book.pictures.get(garment.id, ""), by=state.mark)
    here = state.place.garment == garment.id
    garments = tuple(each for each in book.garments if each is not garment)
    after = replace(state, book=replace(book, garments=garments, gone=gone), notice=Notice(says, undo_of(gone)))
    return (replace(after, place=Place()), (GoTo("/"),)) if here else (after, ())


def _style(garment: GarmentRecord, action: act.SetStyle) -> GarmentRecord:
    return replace(garment, style=_with(garment.style, action.key, action.text))


def _preset(garment: GarmentRecord, action: act.UsePreset) -> GarmentRecord:
    presets = garment_named(garment.garment).presets
    begins = next((preset.style for preset in presets if preset.key == action.preset), {})
    return replace(garment, style={**garment.style, **begins})


def _cloth(state: State, action: act.SetCloth) -> Step:
    garment = state.book.garment(action.garment)
    if garment is None:
        return state, ()
    cloth = _with(garment.cloth, action.key, action.text)
    if action.key.startswith("test_"):
        person = state.book.person(garment.person)
        cloth |= _tested(cloth, action.key, person.unit if person else state.book.settings.unit, garment.tape)
    return _put(state, replace(garment, cloth=cloth)), ()


def _tested(cloth: dict[str, str], key: str, unit: Unit, step: Tape) -> dict[str, str]:
    """What the stretch test says so far: the percentage, and whether the cloth springs back."""
    way = "along" if "along" in key else "across"
    tested = read_test(cloth, way, unit, step)
    found: dict[str, str] = {}
    if tested.percent is not None and not key.endswith("_after"):
        found[f"stretch_{way}"] = plain(round(tested.percent))
    if tested.recovery is not None and way == "across" and not key.endswith("_pulled"):
        found["recovery"] = tested.recovery
    return found


def _tape(state: State, action: act.SetTape) -> Step:
    """Another tape: what the stretch test said of the recovery is judged again, unless a person chose otherwise."""
    garment = state.book.garment(action.garment)
    if garment is None:
        return state, ()
    person = state.book.person(garment.person)
    unit = person.unit if person else state.book.settings.unit
    before, after = (read_test(garment.cloth, "across", unit, step).recovery for step in (garment.tape, action.tape))
    cloth = garment.cloth
    if after is not None and cloth.get("recovery") == before:
        cloth = cloth | {"recovery": after}
    return _put(state, replace(garment, tape=action.tape, cloth=cloth)), ()


def _way_out(state: State, action: act.TakeWayOut) -> Step:
    garment = state.book.garment(action.garment)
    if garment is None:
        return state, ()
    person = state.book.person(garment.person)
    style, cloth = garment.style, garment.cloth
    for key, value in action.changes:
        text = None if value is None else _in_words(value, person.unit if person else "cm")
        folder, _, name = key.partition(".")
        if folder == "style":
            style = _with(style, name, text)
        elif folder == "cloth":
            cloth = _with(cloth, name, text)
        else:
            raise ValueError(f"a way out sets {key}")
    undo = Undo(garment=garment)
    says = words("proof.changed.says", says=action.says) if action.says else words("proof.changed")
    notice = Notice(says, undo)
    return replace(_put(state, replace(garment, style=style, cloth=cloth)), notice=notice), ()


def _in_words(value: float | str, unit: Unit) -> str:
    """The value as its field shows it: millimetres are said in centimetres to a person who uses them."""
    text = text_of(value)
    if unit == "cm" and text.endswith(" mm"):
        return f"{float(text.removesuffix(' mm')) / 10:.6g} cm"
    return text


def _start(state: State, action: act.StartChalking) -> Step:
    garment = state.book.garment(action.garment)
    if garment is None:
        return state, ()
    if garment.chalking:
        return _go(state, Place("chalk", garment.id))
    if state.busy:
        return state, ()
    return replace(state, busy=words("busy.freeze")), (Freeze(garment.id),)


def _froze(state: State, action: act.Froze) -> Step:
    garment = state.book.garment(action.garment)
    if garment is None or garment.chalking:
        return replace(state, busy=""), ()
    if state.place.garment != garment.id:
        return replace(state, busy=""), ()  # whoever went away meanwhile has not begun
    typed = order_of(garment, state.book.wearer(garment))[0]
    if typed is None or order_text(typed) != action.frozen.order:
        return replace(state, busy="", notice=Notice(words("chalk.moved"), tone="caution")), ()
    after = _put(state, replace(garment.unchalked(), chalking=True, chalk_for=garment.person))
    after = replace(after, frozen=state.frozen | {garment.id: action.frozen}, busy="")
    after, asks = _go(after, Place("chalk", garment.id))
    return after, (SaveNow(), *asks)


def _read_on(state: State, action: act.ReadOn) -> Step:
    garment = state.book.garment(action.garment)
    frozen = state.frozen.get(action.garment)
    if garment is None or frozen is None or not garment.chalking:
        return state, ()
    step = "" if action.tape == frozen_step(frozen.order) else action.tape
    other = frozen.others.get(step)
    if step and other is None:
        return state, ()
    if other is not None and not other.draft:
        says = words("chalk.reads.not", says=other.says)
        return replace(state, notice=Notice(says, tone="caution")), ()
    return _put(state, replace(garment, reads=step, chalk_at=_same_item(garment, frozen, step))), ()


def _same_item(garment: GarmentRecord, frozen: FrozenDraft, step: str) -> str:
    """Where the chalking goes on as another tape reads it: at the same item, or the next that it has too.

    On a coarse tape two marks may read alike, and a sentence about them is then not said.
    """
    before, now = read_on_tape(frozen, garment.reads), read_on_tape(frozen, step)
    if before is None or now is None or garment.chalk_at in ("", END):
        return garment.chalk_at
    known = {item.key for item in now.items}
    ahead = (item.key for item in before.items[before.index(garment.chalk_at) :])
    return next((key for key in ahead if key in known), END)


def _again(state: State, action: act.DraftAgain) -> Step:
    garment = state.book.garment(action.garment)
    if garment is None or not garment.chalking:
        return state, ()
    frozen = state.frozen.get(garment.id)
    undo = Undo(garment=garment, frozen=frozen)
    # What is chalked anew is cut and sewn anew, so the ticks of the sewing go with those of the chalk.
    after = _put(state, replace(garment.unchalked(), sewn=()))
    after = replace(
        after.without_frozen(garment.id), notice=Notice(words("chalk.left"), None if frozen is None else undo)
    )
    after, asks = _go(after, Place("proof", garment.id))
    return after, (RemoveFrozen(garment.id), *asks)


def _put_back(state: State, action: act.PutBack) -> Step:
    book = state.book
    garment, frozen = book.garment(action.garment), state.frozen.get(action.garment)
    person = None if garment is None else book.person(garment.chalk_for or garment.person)
    if garment is None or not garment.chalking or frozen is None or person is None:
        return state, ()  # the one it was chalked for is gone, and nobody else gets those measures
    mine = garment if person.id == garment.person else for_person(garment, person, book)
    back, who = put_back(mine, person.measured(mine.measured), frozen.order)
    undo = Undo(garment=garment, person=person)
    people = tuple(person.with_measures(who) if each is person else each for each in book.people)
    after = replace(_put(state, back), notice=Notice(words("changed.put_back.done"), undo))
    return replace(after, book=replace(after.book, people=people)), ()


def chalking_of(state: State, garment: GarmentRecord) -> Chalking | None:
    """The frozen draft of a garment, read; None where there is none."""
    frozen = state.frozen.get(garment.id)
    return None if frozen is None or not garment.chalking else read_on_tape(frozen, garment.reads)


def item_at(garment: GarmentRecord, chalking: Chalking) -> str:
    """The key of the item being chalked, or END."""
    if garment.chalk_at == END:
        return END
    return chalking.items[chalking.index(garment.chalk_at)].key


def _done(state: State, action: act.MarkDone) -> Step:
    garment = state.book.garment(action.garment)
    chalking = chalking_of(state, garment) if garment else None
    if garment is None or chalking is None or action.item != item_at(garment, chalking) or action.item == END:
        return state, ()
    done = garment.chalk_done if action.item in garment.chalk_done else (*garment.chalk_done, action.item)
    at = chalking.index(action.item) + 1
    key = chalking.items[at].key if at < len(chalking.items) else END
    return replace(_put(state, replace(garment, chalk_done=done, chalk_at=key)), lit=""), ()


def _back(state: State, action: act.ChalkBack) -> Step:
    return _beside(state, action.garment, action.item, -1)


def _on(state: State, action: act.ChalkOn) -> Step:
    return _beside(state, action.garment, action.item, 1)


def _beside(state: State, key: str, item: str, by: int) -> Step:
    """Go on or back by one from the item shown, and look at no other."""
    garment = state.book.garment(key)
    chalking = chalking_of(state, garment) if garment else None
    if garment is None or chalking is None or item != item_at(garment, chalking):
        return state, ()
    keys = [*(each.key for each in chalking.items), END]
    at = min(max(keys.index(item) + by, 0), len(keys) - 1)
    return replace(_put(state, replace(garment, chalk_at=keys[at])), lit=""), ()


def _at(state: State, action: act.ChalkAt) -> Step:
    garment = state.book.garment(action.garment)
    chalking = chalking_of(state, garment) if garment else None
    if garment is None or chalking is None or all(item.key != action.item for item in chalking.items):
        return state, ()
    after = replace(_put(state, replace(garment, chalk_at=action.item)), lit="")
    if action.item != item_at(garment, chalking):
        undo = Undo(garment=garment)
        after = replace(after, notice=Notice(words("chalk.went", at=chalking.index(action.item) + 1), undo))
    return _go(after, Place("chalk", garment.id))


def _ask_file(state: State, action: act.AskFile) -> Step:
    if state.busy or state.book.garment(action.garment) is None:
        return state, ()
    return replace(state, busy=words("busy.file", name=action.name)), (
        MakeFile(action.garment, action.name, action.way),
    )


def _sewn(garment: GarmentRecord, action: act.StepSewn) -> GarmentRecord:
    return garment if action.step in garment.sewn else replace(garment, sewn=(*garment.sewn, action.step))


def _not_sewn(garment: GarmentRecord, action: act.StepNotSewn) -> GarmentRecord:
    return replace(garment, sewn=tuple(each for each in garment.sewn if each != action.step))


HANDLERS: dict[type[act.Action], Callable[[State, Any], Step]] = {
    act.AddGarment: _add,
    act.ChooseGarment: _changing(_which),
    act.TryDemo: _try_demo,
    act.AddDemo: _add_demo,
    act.CopyGarment: _copy,
    act.DeleteGarment: _delete,
    act.TypeTitle: _changing(lambda garment, action: replace(garment, title=action.text)),
    act.SetStyle: _changing(_style),
    act.UsePreset: _changing(_preset),
    act.SetCloth: _cloth,
    act.SetTape: _tape,
    act.TypeTapeLength: _changing(lambda garment, action: replace(garment, tape_length=action.text)),
    act.SetLine: _changing(lambda garment, action: replace(garment, line=action.line)),
    act.TakeWayOut: _way_out,
    act.StartChalking: _start,
    act.Froze: _froze,
    act.ReadOn: _read_on,
    act.KeepChalked: _changing(lambda garment, action: replace(garment, kept=action.print)),
    act.DraftAgain: _again,
    act.PutBack: _put_back,
    act.MarkDone: _done,
    act.ChalkBack: _back,
    act.ChalkOn: _on,
    act.ChalkAt: _at,
    act.SameForAnother: _same_for,
    act.UseMeasures: _changing(lambda garment, action: replace(garment, measured=action.measures)),
    act.TypeGarmentNotes: _changing(lambda garment, action: replace(garment, notes=action.text)),
    act.TypeCutNotes: _changing(lambda garment, action: replace(garment, cut_notes=action.text)),
    act.SetPaper: _changing(lambda garment, action: replace(garment, paper=action.paper)),
    act.SheetMeasures: _changing(lambda garment, action: replace(garment, sheet_measures=action.on)),
    act.AskFile: _ask_file,
    act.StepSewn: _changing(_sewn),
    act.StepNotSewn: _changing(_not_sewn),
}
