"""What follows from what happens: (state, action) -> (state, what to ask of the world). Pure, for every action."""

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from app import actions as act
from app import update_garment as garment
from app import update_person as person
from app.asks import Ask, Draft, GoTo, Load, LoadFrozen, RemoveFrozen, SaveBook, SaveFrozen, SavePlace, Speak
from app.at_the_table import at_table, said, table_asks
from app.names import garment_name
from app.pictured import with_picture
from app.state import Book, Notice, Place, State, Trouble, place_of, read_book, read_frozen, read_place, undo_of
from app.storage import PLACE
from app.text import words
from drafting.sentences import listed

Step = tuple[State, tuple[Ask, ...]]


def update(state: State, action: act.Action) -> Step:
    """The state after an action, and what is asked of the world.

    An action about a person or garment that is gone changes nothing. A change of the book is always followed by
    `SaveBook`, and by `Draft` where a draft is being looked at.
    """
    after, asks = _follow(state, action)
    return after, (*asks, *table_asks(state, after))


def _follow(state: State, action: act.Action) -> Step:
    after, asks = _HANDLERS[type(action)](state, action)
    if isinstance(action, act.Loaded):
        return after, asks  # what was just read is not saved again
    after = _of_its_garment(state, after)
    told = after.notice
    by_hand = not isinstance(action, _ANSWERS)
    if by_hand and told is not None and told is state.notice and told.tone != "stop" and after.place.screen == "chalk":
        after = replace(after, notice=None)  # nothing old lies over the readings
    after, over = _let_go(state, after)
    asks = (*asks, *over)
    if after.stale and after.book != state.book and after.notice is None:
        after = replace(after, notice=Notice(words("saved.not"), tone="stop"))  # nobody types on unknowingly
    if after.loaded and state.loaded:
        moved = after.place != state.place
        asks = (*asks, SaveBook()) if after.book != state.book and not after.stale else asks
        asks = (*asks, SavePlace()) if moved else asks
        if after.place.garment and (_about(after) != _about(state) or moved):
            screen = after.place.screen
            asks = (*asks, Draft(after.place.garment, screen in ("proof", "paper"), screen == "lay"))
    return after, asks


def _of_its_garment(before: State, after: State) -> State:
    """The state without the draft and the picture of what is another garment now."""

    def which(state: State, key: str) -> str:
        garment = state.book.garment(key)
        return "" if garment is None else garment.garment

    changed = {each.id for each in after.book.garments if which(before, each.id) not in ("", each.garment)}
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


def _let_go(before: State, after: State) -> Step:
    """What was deleted, and the draft frozen for it, is kept until its undo is no longer offered."""
    gone, told = after.book.gone, after.notice
    if gone is not None and (told is None or (told.tone != "stop" and told.undo != undo_of(gone))):
        after = replace(after, book=replace(after.book, gone=None))
    last = before.book.gone
    if last is None or last.garment is None or last == after.book.gone:
        return after, ()
    key = last.garment.id
    if after.book.garment(key) is not None or (key not in after.frozen and key not in after.unread):
        return after, ()
    return after.without_frozen(key), (RemoveFrozen(key),)


_ANSWERS = (act.Saved, act.DraftCame, act.LayCame, act.ChangedElsewhere, act.NotAwake)
"""What comes by itself: nobody has read on meanwhile."""


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
    return place.screen == "home" or book.person(place.person) is not None


def _at(state: State, place: Place) -> State:
    """The state at another place: what was lit there is put out, and what was only told there is gone."""
    notice = state.notice if state.notice and (state.notice.undo or state.notice.tone == "stop") else None
    state = with_picture(state) if place.screen == "home" else state
    return replace(state, place=place, focus="", lit="", notice=notice)


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
    book = Book() if action.book is None else read_book(action.book)
    if book is None:  # saved by a newer app, or damaged: never write over it
        notice = Notice(words("saved.unreadable"), tone="stop")
        return replace(state, loaded=True, stale=True, notice=notice, revisions=action.revisions), ()
    asked = place_of(action.route)
    last = read_place(action.place, action.book)
    places = (asked if asked is not None and asked != Place() else last, last, Place())
    place = next(each for each in places if _stands(book, each))
    read = {key: None if text is None else read_frozen(text) for key, text in action.frozen.items()}
    frozen = {key: each for key, each in read.items() if each is not None}
    garments = tuple(each.unchalked() if each.chalking and each.id not in read else each for each in book.garments)
    lost = [garment_name(book, each) for each in book.garments if each.chalking and each.id not in read]
    gone = book.gone
    if gone is not None and gone.garment is not None and gone.garment.id not in read:
        gone = replace(gone, garment=gone.garment.unchalked())
    book = replace(book, garments=garments, gone=gone)
    offered = None if gone is None else Notice(gone.says, undo_of(gone))
    if lost:
        offered = Notice(words("chalk.lost", names=listed(lost)), tone="caution")
    after = State(
        book=book, place=place, frozen=frozen, unread=frozenset(read) - frozenset(frozen), loaded=True,
        revisions=action.revisions, trouble=state.trouble, notice=offered,
    )  # fmt: skip
    asks: tuple[Ask, ...] = () if place.route == action.route else (GoTo(place.route),)
    if place.garment:
        asks = (*asks, Draft(place.garment, place.screen in ("proof", "paper")))
    return after, asks


def _read_frozen(state: State, action: act.ReadFrozen) -> Step:
    if action.garment not in state.unread or state.busy:
        return state, ()
    return replace(state, busy=words("busy.read")), (LoadFrozen(action.garment),)


def _frozen_read(state: State, action: act.FrozenRead) -> Step:
    garment, after = state.book.garment(action.garment), replace(state, busy="")
    if action.garment not in state.unread:
        return after, ()
    read = None if action.text is None else read_frozen(action.text)
    if read is not None:
        rest = state.unread - {action.garment}
        return replace(after, frozen=state.frozen | {action.garment: read}, unread=rest), ()
    if action.kept or garment is None:
        return replace(after, notice=Notice(words("chalk.unread.still"), tone="caution")), ()
    garments = tuple(each.unchalked() if each.id == garment.id else each for each in state.book.garments)
    says = words("chalk.lost", names=garment_name(state.book, garment))
    after = replace(after, book=replace(state.book, garments=garments), notice=Notice(says, tone="caution"))
    return after.without_frozen(garment.id), ()


def _load_failed(state: State, action: act.LoadFailed) -> Step:
    return replace(state, loaded=True, stale=True, notice=Notice(action.words, tone="stop")), ()


def _saved(state: State, action: act.Saved) -> Step:
    return replace(state, revisions=state.revisions | {action.key: action.revision}), ()


def _not_saved(state: State, action: act.NotSaved) -> Step:
    return replace(state, stale=state.stale or action.stale, notice=Notice(action.words, tone="stop")), ()


def _changed_elsewhere(state: State, action: act.ChangedElsewhere) -> Step:
    if action.key == PLACE or action.revision <= state.revisions.get(action.key, 0):
        return state, ()
    return replace(state, stale=True, notice=Notice(words("saved.elsewhere"), tone="stop")), ()


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
    return replace(state, book=replace(state.book, settings=settings), lit=""), ()


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


def _file_offered(state: State, action: act.FileOffered) -> Step:
    return replace(state, busy="", notice=Notice(words(f"paper.came.{action.came}", name=action.name))), ()


def _file_failed(state: State, action: act.FileFailed) -> Step:
    return replace(state, busy="", notice=Notice(action.words, tone="caution")), ()


def _undo(state: State, action: act.UndoLast) -> Step:
    undo = state.notice.undo if state.notice else None
    if undo is None:
        return state, ()
    book, frozen = state.book, state.frozen
    asks: tuple[Ask, ...] = ()
    if undo.person is not None:
        book = replace(book, people=_back(book.people, *undo.person))
    if undo.garment is not None:
        book = replace(book, garments=_back(book.garments, *undo.garment))
        if undo.frozen is not None:
            frozen = frozen | {undo.garment[1].id: undo.frozen}
            asks = (SaveFrozen(undo.garment[1].id),)
    return replace(state, book=book, frozen=frozen, notice=None), asks


def _back(records: tuple[Any, ...], index: int, record: Any) -> tuple[Any, ...]:
    """The records with one put back: over its own later self, or where it stood."""
    if any(each.id == record.id for each in records):
        return tuple(record if each.id == record.id else each for each in records)
    return (*records[:index], record, *records[index:])


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
    act.LoadFailed: _load_failed,
    act.ReadFrozen: _read_frozen,
    act.FrozenRead: _frozen_read,
    act.Saved: _saved,
    act.NotSaved: _not_saved,
    act.ChangedElsewhere: _changed_elsewhere,
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
    act.UndoLast: _undo,
    act.CloseNotice: _close_notice,
    act.Troubled: _troubled,
    act.LeaveTrouble: _leave_trouble,
    **person.HANDLERS,
    **garment.HANDLERS,
}

__all__ = ["Step", "start", "update"]
