"""What follows from what happens: (state, action) -> (state, what to ask of the world). Pure, for every action."""

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from app import actions as act
from app import update_backup as backup
from app import update_cloth as cloth
from app import update_garment as garment
from app import update_person as person
from app.asks import (
    Ask,
    Draft,
    GoTo,
    Load,
    LoadFrozen,
    ReadInstall,
    ReadRoom,
    RemoveFrozen,
    SaveBook,
    SaveNow,
    SavePlace,
    Speak,
)
from app.at_the_table import at_table, said, table_asks
from app.names import garment_name
from app.pictured import with_picture
from app.saved import BOOK, CLOTH, FROZEN, GARMENT, PERSON, KeptGarment, Unreadable
from app.state import (
    CARDS,
    Book,
    Clash,
    ClothRecord,
    FrozenDraft,
    GarmentRecord,
    Notice,
    PersonRecord,
    Place,
    Settings,
    State,
    Trouble,
    in_order,
    number_of,
    place_of,
    undo_of,
)
from app.text import words
from drafting.sentences import listed

Step = tuple[State, tuple[Ask, ...]]
PAPERS = 3
"""So many garments are named whose papers are to be saved while there is no room."""


def update(state: State, action: act.Action) -> Step:
    """The state after an action, and what is asked of the world.

    An action about a person or garment that is gone changes nothing. A change of the book is always followed by
    `SaveBook`, and by `Draft` where a draft is being looked at.
    """
    after, asks = _follow(state, action)
    return after, (*asks, *table_asks(state, after))


def _follow(state: State, action: act.Action) -> Step:
    after, asks = _HANDLERS[type(action)](state, action)
    if isinstance(action, (act.Loaded, act.Erased)):
        return after, asks  # what was just read is not saved again, and what was deleted leaves nothing behind
    after, settled = _of_the_deleted(_of_its_garment(state, after))
    asks = (*asks, *settled)
    told = after.notice
    by_hand = not isinstance(action, _ANSWERS)
    if by_hand and told is not None and told is state.notice and told.tone != "stop" and after.place.screen == "chalk":
        after = replace(after, notice=None)  # nothing old lies over the readings
    if isinstance(action, _GOING_ON) and told is not None and told is state.notice and _new_measures(after):
        after = replace(after, notice=None)  # it lies over the next field, and its undo would take what is typed there
    if by_hand and state.loaded:
        after = backup.counted(state, after, action)
    after, over = _let_go(state, after)
    asks = (*asks, *over)
    if after.locked and after.book != state.book and after.notice is None:
        after = replace(after, notice=Notice(words("saved.not"), tone="stop"))  # nobody types on unknowingly
    if after.loaded and state.loaded:
        moved = after.place != state.place
        asks = (*asks, SaveBook()) if after.book != state.book and not after.locked else asks
        asks = (*asks, SavePlace()) if moved else asks
        asks = (*asks, ReadRoom(), ReadInstall()) if moved and after.place.screen == "backup" else asks
        wanted = _to_read(after)
        asks = (*asks, LoadFrozen(wanted)) if wanted and wanted != _to_read(state) else asks
        if after.place.garment and (_about(after) != _about(state) or moved):
            screen = after.place.screen
            asks = (*asks, Draft(after.place.garment, screen in ("proof", "paper"), screen == "lay"))
    return after, asks


def _of_its_garment(before: State, after: State) -> State:
    """The state without the draft and the picture of what is another garment now."""
    if after.book.garments is before.book.garments:
        return after
    which = {each.id: each.garment for each in before.book.garments}
    changed = {each.id for each in after.book.garments if which.get(each.id, each.garment) != each.garment}
    if not changed:
        return after
    pictures = {key: text for key, text in after.book.pictures.items() if key not in changed}
    drafted, laid = after.drafted, after.laid
    return replace(
        after,
        book=replace(after.book, pictures=pictures),
        drafted=None if drafted is not None and drafted.garment in changed else drafted,
        laid=None if laid is not None and laid.garment in changed else laid,
    )


def _to_read(state: State) -> str:
    """The garment at hand whose frozen draft is still to be read; "" for none."""
    garment = state.garment
    if garment is None or not garment.chalking or garment.id in state.unread or garment.id in state.frozen:
        return ""
    return garment.id


def _let_go(before: State, after: State) -> Step:
    """What was deleted, and the draft frozen for it, is kept until its undo is no longer offered."""
    gone, told = after.book.gone, after.notice
    if gone is not None and told is None and before.notice is not None and before.notice.tone == "stop":
        after = replace(after, notice=Notice(gone.says, undo_of(gone)))  # the trouble had lain over it
        return after, ()
    if gone is not None and (told is None or (told.tone != "stop" and told.undo != undo_of(gone))):
        after = replace(after, book=replace(after.book, gone=None))
    last = before.book.gone
    if last is None or last.garment is None or last == after.book.gone:
        return after, ()
    key = last.garment.id
    if after.book.garment(key) is not None or not last.garment.chalking:
        return after, ()
    return after.without_frozen(key), (RemoveFrozen(key),)


_ANSWERS = (act.DraftCame, act.LayCame, act.RecordCame, act.FrozenRead, act.NotAwake)
"""What comes by itself: nobody has read on meanwhile."""


_GOING_ON = (
    act.Go, act.TypeMeasure, act.TypeAgain, act.TypeFlat, act.TypeName, act.TypeAge, act.TypeTakenOn, act.TypeNotes,
    act.ChooseKind, act.ChooseUnit,
)  # fmt: skip
"""What one does once the new measures are begun."""


def _new_measures(state: State) -> bool:
    """Whether what was told is that new measures begin."""
    undo = None if state.notice is None else state.notice.undo
    return undo is not None and undo.person is not None and undo.garment is None and state.book.gone is None


def _about(state: State) -> tuple[object, object]:
    """What a draft depends on."""
    return state.garment, state.person


def start(route: str) -> Step:
    """The first state, and the asking for what is saved."""
    return State(), (Load(route),)


def _stands(book: Book, place: Place) -> bool:
    """Whether a place still leads somewhere."""
    if place.garment:
        return book.garment(place.garment) is not None
    return place.screen in ("home", "backup", "erase") or book.person(place.person) is not None


def _at(state: State, place: Place) -> State:
    """The state at another place: what was lit there is put out, and what was only told there is gone."""
    notice = state.notice if state.notice and (state.notice.undo or state.notice.tone == "stop") else None
    state = with_picture(state) if place.screen == "home" else state
    opened = state.opened if place.screen == "backup" else None
    return replace(state, place=place, focus="", lit="", notice=notice, opened=opened)


def _go(state: State, action: act.Go) -> Step:
    place = action.place if _stands(state.book, action.place) else Place()
    if place == state.place:
        return state, ()
    return _at(state, place), (GoTo(place.route),)


def _routed(state: State, action: act.Routed) -> Step:
    place = place_of(action.route)
    if not state.loaded or place == state.place:
        return state, ()
    if place is None or not _stands(state.book, place):
        home = Place()
        return _at(state, home), (GoTo(home.route),)
    return _at(state, place), ()


def _loaded(state: State, action: act.Loaded) -> Step:
    found, book = action.found, action.found.book
    if BOOK in found.left:  # never write over it
        return _load_failed(state, act.LoadFailed(words(f"saved.{found.left[BOOK]}")))
    asked = place_of(action.route)
    places = (asked if asked is not None and asked != Place() else action.place, action.place, Place())
    place = next(each for each in places if _stands(book, each))
    unread = frozenset(key.removeprefix(FROZEN) for key in found.left if key.startswith(FROZEN))
    after = State(
        book=book, place=place, frozen=found.frozen, unread=unread, loaded=True, trouble=state.trouble,
        left={key: why for key, why in found.left.items() if not key.startswith(FROZEN)},
        notice=None if book.gone is None else Notice(book.gone.says, undo_of(book.gone)),
        mark=action.mark, today=action.today,
    )  # fmt: skip
    asks: tuple[Ask, ...] = () if place.route == action.route else (GoTo(place.route),)
    if wanted := _to_read(after):
        asks = (*asks, LoadFrozen(wanted))
    if place.screen == "backup":
        asks = (*asks, ReadRoom(), ReadInstall())
    if place.garment:
        asks = (*asks, Draft(place.garment, place.screen in ("proof", "paper")))
    return after, asks


def _load_again(state: State, action: act.LoadAgain) -> Step:
    offers = state.notice is not None and state.notice.undo is not None
    return replace(state, notice=state.notice if offers else None), (Load(state.place.route),)


def _read_frozen(state: State, action: act.ReadFrozen) -> Step:
    if action.garment not in state.unread or state.busy:
        return state, ()
    return replace(state, busy=words("busy.read")), (LoadFrozen(action.garment),)


def _frozen_read(state: State, action: act.FrozenRead) -> Step:
    garment = state.book.garment(action.garment)
    asked_for = action.garment in state.unread
    after = replace(state, busy="") if asked_for else state
    if garment is None or not garment.chalking or garment.id in state.frozen:
        return after, ()
    if action.frozen is not None:
        rest = state.unread - {garment.id}
        return replace(after, frozen=state.frozen | {garment.id: action.frozen}, unread=rest), ()
    if action.kept:
        told = Notice(words("chalk.unread.still"), tone="caution") if asked_for else after.notice
        return replace(after, unread=state.unread | {garment.id}, notice=told), ()
    garments = tuple(each.unchalked() if each.id == garment.id else each for each in state.book.garments)
    says = words("chalk.lost", names=garment_name(state.book, garment))
    after = replace(after, book=replace(state.book, garments=garments), notice=Notice(says, tone="caution"))
    return after.without_frozen(garment.id), ()


def _load_failed(state: State, action: act.LoadFailed) -> Step:
    if state.loaded and not state.locked:  # it was tried once more; what is here is still good
        return replace(state, notice=Notice(action.words, tone="caution")), ()
    return replace(state, loaded=True, locked=True, notice=Notice(action.words, tone="stop")), ()


def _not_saved(state: State, action: act.NotSaved) -> Step:
    says = action.words
    chalking = [garment_name(state.book, each) for each in state.book.garments if each.chalking]
    if action.full and chalking:
        says = words("saved.full.papers", says=says, names=listed(chalking[:PAPERS]))
    return replace(state, notice=Notice(says, tone="stop")), ()


def _without(state: State, key: str) -> State:
    """The state without the record of this key."""
    book, frozen = state.book, state.frozen
    name = key.partition(".")[2]
    if key.startswith(PERSON):
        book = replace(book, people=tuple(each for each in book.people if each.id != name))
    elif key.startswith(GARMENT):
        garments = tuple(each for each in book.garments if each.id != name)
        pictures = {each: text for each, text in book.pictures.items() if each != name}
        book = replace(book, garments=garments, pictures=pictures)
    elif key.startswith(CLOTH):
        book = replace(book, cloths=tuple(each for each in book.cloths if each.id != name))
    elif key.startswith(FROZEN):
        return state.without_frozen(name)
    left = {each: why for each, why in state.left.items() if each != key}
    return replace(state, book=book, frozen=frozen, left=left)


def _with_record(state: State, kept: PersonRecord | GarmentRecord | ClothRecord, picture: str = "") -> State:
    """The state with a record in its place, new or in place of an older one; later ones come after it."""
    book = replace(state.book, next=max(state.book.next, number_of(kept.id) + 1))
    if isinstance(kept, PersonRecord):
        people = in_order([*(each for each in book.people if each.id != kept.id), kept])
        return replace(state, book=replace(book, people=people))
    if isinstance(kept, ClothRecord):
        cloths = in_order([*(each for each in book.cloths if each.id != kept.id), kept])
        return replace(state, book=replace(book, cloths=cloths))
    garments = in_order([*(each for each in book.garments if each.id != kept.id), kept], newest=True)
    pictures = book.pictures | {kept.id: picture} if picture else book.pictures
    return replace(state, book=replace(book, garments=garments, pictures=pictures))


def _record_came(state: State, action: act.RecordCame) -> Step:
    key, kept = action.key, action.kept
    state, _ = _settled(state, key)  # what was held back of it is gone with what is here
    after = _without(state, key)
    match kept:
        case PersonRecord() | ClothRecord():
            after = _with_record(after, kept)
        case KeptGarment():
            after = _with_record(after, kept.garment, kept.picture)
            if not kept.garment.chalking:
                after = after.without_frozen(kept.garment.id)
        case FrozenDraft():
            name = key.removeprefix(FROZEN)
            after = replace(after, frozen=after.frozen | {name: kept}) if name in state.frozen else state
        case Settings():
            after = replace(state, book=replace(state.book, settings=kept))
        case Unreadable(why):
            after = replace(after, left=after.left | {key: why})
        case None if key == BOOK:
            return state, ()
    after = _stays(after)
    if not _stands(after.book, after.place):
        left = _at(after, Place())
        told = left.notice or Notice(words("saved.gone"))  # what offers an undo goes on doing so
        return replace(left, notice=told), (GoTo("/"),)
    shown = {PERSON + after.person.id if after.person else "", GARMENT + after.place.garment}
    if key in shown and after.notice is None and _about(after) != _about(state):
        after = replace(after, notice=Notice(words("saved.elsewhere")))
    return after, ()


def _clashed(state: State, action: act.Clashed) -> Step:
    theirs = action.theirs
    clash = Clash(action.key, theirs if isinstance(theirs, PersonRecord | ClothRecord) else None)
    if isinstance(theirs, KeptGarment):
        clash = Clash(action.key, theirs.garment, theirs.picture)
    others = tuple(each for each in state.clashes if each.key != action.key)
    return replace(state, clashes=(*others, clash)), ()


def _settled(state: State, key: str) -> tuple[State, Clash | None]:
    clash = next((each for each in state.clashes if each.key == key), None)
    return replace(state, clashes=tuple(each for each in state.clashes if each.key != key)), clash


def _of_the_deleted(state: State) -> Step:
    """Where what was changed in two tabs was deleted here, what the other tab saved stays."""
    asks: tuple[Ask, ...] = ()
    for clash in state.clashes:
        key = clash.key.partition(".")[2]
        if not any(find(key) for find in (state.book.garment, state.book.person, state.book.cloth)):
            state, more = _take_theirs(state, act.TakeTheirs(clash.key))
            state = _stays(state)
            asks = (*asks, *more)
    return state, asks


def _stays(state: State) -> State:
    """Where what was deleted here stands in the book again, no undo is offered for it."""
    gone = state.book.gone
    back = None if gone is None else gone.garment or gone.person
    if back is None or (state.book.garment(back.id) is None and state.book.person(back.id) is None):
        return state
    return replace(state, book=replace(state.book, gone=None), notice=Notice(words("saved.stays"), tone="caution"))


def _take_theirs(state: State, action: act.TakeTheirs) -> Step:
    after, clash = _settled(state, action.key)
    if clash is None:
        return state, ()
    after = _without(after, clash.key)
    if clash.key.startswith(GARMENT):
        after = after.without_frozen(clash.key.removeprefix(GARMENT))
    if clash.theirs is not None:
        after = _with_record(after, clash.theirs, clash.picture)
    if not _stands(after.book, after.place):
        return _at(after, Place()), (SaveNow(), GoTo("/"))
    return after, (SaveNow(),)


def _keep_both(state: State, action: act.KeepBoth) -> Step:
    after, clash = _settled(state, action.key)
    name = action.key.partition(".")[2]
    mine = state.book.garment(name) or state.book.person(name) or state.book.cloth(name)
    if clash is None or mine is None:
        return state, ()
    if clash.theirs is None:  # deleted in the other tab: what is here is simply kept
        if isinstance(mine, GarmentRecord) and mine.chalking and name not in after.frozen:
            after = _with_record(after, mine.unchalked(), "")  # its marks were not even looked at here
        return after, (SaveNow(),)
    after = _with_record(after, clash.theirs, clash.picture)
    if isinstance(mine, PersonRecord):
        copied = replace(mine, id=state.new_id("p"), name=_other_name(mine.name))
        after = _with_record(after, copied, "")
        place = replace(state.place, person=copied.id) if state.place.person == name else state.place
    elif isinstance(mine, ClothRecord):
        after = _with_record(after, replace(mine, id=state.new_id("c"), name=_other_name(mine.name)))
        place = state.place
    else:
        copy = replace(mine, id=state.new_id("g"), title=_other_name(garment_name(state.book, mine)))
        after = _with_record(after, copy, state.book.pictures.get(name, ""))
        frozen = after.frozen.get(name)
        after = after.without_frozen(name)
        if frozen is not None:
            after = replace(after, frozen=after.frozen | {copy.id: frozen})
        else:  # its marks were not even looked at here
            after = _with_record(after, copy.unchalked(), "")
        place = replace(state.place, garment=copy.id) if state.place.garment == name else state.place
    after = replace(after, book=replace(after.book, next=state.book.next + 1), place=place)
    return after, (SaveNow(), *((GoTo(place.route),) if place != state.place else ()))


def _other_name(name: str) -> str:
    return words("saved.mine", name=name.strip()) if name.strip() else ""


def _draft_came(state: State, action: act.DraftCame) -> Step:
    if action.drafted.garment != state.place.garment:
        return state, ()
    return replace(state, drafted=action.drafted), ()


def _lay_came(state: State, action: act.LayCame) -> Step:
    if action.laid.garment != state.place.garment:
        return state, ()
    return replace(state, laid=action.laid), ()


def _light_mark(state: State, action: act.LightMark) -> Step:
    return replace(state, lit=action.mark), ()


def _focus(state: State, action: act.FocusMeasure) -> Step:
    return replace(state, focus=action.measure), ()


def _set_view(state: State, action: act.SetView) -> Step:
    settings = replace(state.book.settings, view=action.view)
    return replace(state, book=replace(state.book, settings=settings), lit="", flat_piece=action.piece), ()


def _set_measuring(state: State, action: act.SetMeasuring) -> Step:
    settings = replace(state.book.settings, measuring=action.measuring)
    place = replace(state.place, step=action.step)
    after = replace(state, book=replace(state.book, settings=settings), place=place)
    return after, (() if place == state.place else (GoTo(place.route),))


def _set_aloud(state: State, action: act.SetAloud) -> Step:
    return _settings(state, aloud=action.on), ()


def _settings(state: State, **changes: Any) -> State:
    return replace(state, book=replace(state.book, settings=replace(state.book.settings, **changes)))


def _say_again(state: State, action: act.SayAgain) -> Step:
    text = said(state) if state.book.settings.aloud else ""
    return state, (Speak(text),) if text else ()


def _not_spoken(state: State, action: act.NotSpoken) -> Step:
    if not state.book.settings.aloud:
        return state, ()
    return replace(_settings(state, aloud=False), notice=Notice(words(f"aloud.{action.why}"))), ()


def _not_awake(state: State, action: act.NotAwake) -> Step:
    if state.book.settings.awake_told or state.notice is not None or not at_table(state):
        return state, ()
    return replace(_settings(state, awake_told=True), notice=Notice(words("awake.refused"))), ()


def _set_light(state: State, action: act.SetLight) -> Step:
    settings = replace(state.book.settings, light=action.light)
    return replace(state, book=replace(state.book, settings=settings)), ()


def _see_from(state: State, action: act.SeeFrom) -> Step:
    settings = replace(state.book.settings, fold=action.fold, top=action.top)
    return replace(state, book=replace(state.book, settings=settings)), ()


def _look_for(state: State, action: act.LookFor) -> Step:
    return replace(state, looked_for=action.text, shown=CARDS), ()


def _sort_by(state: State, action: act.SortBy) -> Step:
    return replace(state, sorted_by=action.order), ()


def _show_more(state: State, action: act.ShowMore) -> Step:
    return replace(state, shown=state.shown + 2 * CARDS), ()


def _file_offered(state: State, action: act.FileOffered) -> Step:
    return replace(state, busy="", notice=Notice(words(f"paper.came.{action.came}", name=action.name))), ()


def _file_failed(state: State, action: act.FileFailed) -> Step:
    return replace(state, busy="", notice=Notice(action.words, tone="caution")), ()


def _undo(state: State, action: act.UndoLast) -> Step:
    undo = state.notice.undo if state.notice else None
    if undo is None:
        return state, ()
    after, asks = replace(state, notice=None), tuple[Ask, ...]()
    if undo.person is not None:
        after = _with_record(after, undo.person, "")
    if undo.cloth is not None:
        after = _with_record(after, undo.cloth)
    if undo.garment is not None:
        after = _with_record(after, undo.garment, "")
        if undo.frozen is not None:
            after = replace(after, frozen=state.frozen | {undo.garment.id: undo.frozen})
            asks = (SaveNow(),)
    return after, asks


def _close_notice(state: State, action: act.CloseNotice) -> Step:
    return replace(state, notice=None), ()


def _troubled(state: State, action: act.Troubled) -> Step:
    return replace(state, trouble=Trouble(action.report), busy=""), ()


def _leave_trouble(state: State, action: act.LeaveTrouble) -> Step:
    return replace(state, trouble=None, place=Place(), drafted=None, focus="", lit=""), (GoTo("/"),)


_HANDLERS: dict[type[act.Action], Callable[[State, Any], Step]] = {
    act.Go: _go,
    act.Routed: _routed,
    act.Loaded: _loaded,
    act.LoadAgain: _load_again,
    act.LoadFailed: _load_failed,
    act.ReadFrozen: _read_frozen,
    act.FrozenRead: _frozen_read,
    act.NotSaved: _not_saved,
    act.RecordCame: _record_came,
    act.Clashed: _clashed,
    act.TakeTheirs: _take_theirs,
    act.KeepBoth: _keep_both,
    act.DraftCame: _draft_came,
    act.LayCame: _lay_came,
    act.LightMark: _light_mark,
    act.FocusMeasure: _focus,
    act.SetLight: _set_light,
    act.SeeFrom: _see_from,
    act.SetView: _set_view,
    act.SetMeasuring: _set_measuring,
    act.SetAloud: _set_aloud,
    act.SayAgain: _say_again,
    act.NotSpoken: _not_spoken,
    act.NotAwake: _not_awake,
    act.FileOffered: _file_offered,
    act.FileFailed: _file_failed,
    act.LookFor: _look_for,
    act.SortBy: _sort_by,
    act.ShowMore: _show_more,
    act.UndoLast: _undo,
    act.CloseNotice: _close_notice,
    act.Troubled: _troubled,
    act.LeaveTrouble: _leave_trouble,
    **backup.HANDLERS,
    **person.HANDLERS,
    **garment.HANDLERS,
    **cloth.HANDLERS,
}

__all__ = ["Step", "start", "update"]
