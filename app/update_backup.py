"""What follows from what is done with backups, and when one is offered. See app.update."""

from collections.abc import Callable
from dataclasses import fields, replace
from typing import Any

from app import actions as act
from app.asks import Ask, EraseAll, GoTo, InstallHere, MakeBackup, ReadBackup, ReadCamera, RemoveFrozen, SaveNow
from app.backup import lists
from app.merging import Opened, entries_of, merge
from app.names import garment_name
from app.state import Notice, Place, State, number_of
from app.text import words
from drafting.record.backup_file import MOST_BYTES
from drafting.sentences import listed

Step = tuple[State, tuple[Ask, ...]]
OFFERED_AFTER = 10
"""So many changes in no backup, and one is offered. It is not counted further."""
_TYPED = frozenset({"text", "value", "item"})
"""What may differ between two actions that change the same thing."""


def counted(before: State, after: State, action: act.Action) -> State:
    """The state with one more change counted, where another thing was changed than the last time.

    What is undone is one less. The count is kept where home is come to: with each change it would be saved with each.
    """
    here, was = after.book, before.book
    if any(getattr(here, name) != getattr(was, name) for name in lists()) and not isinstance(action, act.TakeOver):
        known: Any = action  # every action is a dataclass
        what = type(action).__name__, *(getattr(action, each.name) for each in fields(known) if each.name not in _TYPED)
        if isinstance(action, act.UndoLast):
            after = replace(after, counted=(), changes=after.changes - 1)
        elif what != before.counted:
            after = replace(after, counted=what, changes=after.changes + 1)
    if after.changes and after.place.screen == "home" and before.place.screen != "home":
        changes = min(max(changes_of(after), 0), OFFERED_AFTER)
        settings = replace(here.settings, changes=changes)
        after = replace(after, book=replace(here, settings=settings), changes=0)
    return after


def changes_of(state: State) -> int:
    """How many changes are in no backup yet, as far as they are counted."""
    return state.book.settings.changes + state.changes


def _ask(state: State, action: act.AskBackup) -> Step:
    if state.busy:
        return state, ()
    return replace(state, busy=words("backup.making")), (MakeBackup(action.person, action.garment),)


def _saved(state: State, action: act.BackupSaved) -> Step:
    says = words("backup.saved", name=action.name)
    if action.without:
        names = [garment_name(state.book, each) for each in state.book.garments if each.id in action.without]
        says = words("backup.saved.without", name=action.name, names=listed(names or [words("backup.garment")]))
    elif action.whole and state.left:
        says = words("backup.saved.left", name=action.name)
    book = state.book
    if action.whole:
        book = replace(book, settings=replace(book.settings, changes=0))
    notice = Notice(says, tone="caution" if action.without or (action.whole and state.left) else "plain")
    changes = 0 if action.whole else state.changes
    return replace(state, book=book, busy="", notice=notice, counted=(), changes=changes), ()


def _picked(state: State, action: act.FilePicked) -> Step:
    if state.busy:
        return state, ()
    if action.size > MOST_BYTES:
        return replace(state, opened=None, notice=Notice(words("backup.huge"), tone="caution")), ()
    if not action.content:
        return replace(state, opened=None, notice=Notice(words("backup.no_bytes"), tone="caution")), ()
    return replace(state, opened=None, notice=None, busy=words("backup.opening")), (ReadBackup(action.content),)


def _camera(state: State, action: act.AskCamera) -> Step:
    if state.busy:
        return state, ()
    return replace(state, opened=None, notice=None, busy=words("camera.busy")), (ReadCamera(),)


def _closed(state: State, action: act.CameraClosed) -> Step:
    return replace(state, busy=""), ()


def _read(state: State, action: act.BackupRead) -> Step:
    if action.backup is None:
        return replace(state, busy="", notice=Notice(action.words, tone="caution")), ()
    place = Place("backup")
    opened = Opened(action.backup, dict(action.frozen), action.unread)
    after = replace(state, busy="", place=place, opened=opened, focus="", lit="")
    return after, (() if place == state.place else (GoTo(place.route),))


def _choose(state: State, action: act.ChooseKept) -> Step:
    if state.opened is None:
        return state, ()
    choices = {**state.opened.choices, (action.kind, action.key): action.choice}
    return replace(state, opened=replace(state.opened, choices=choices)), ()


def _leave(state: State, action: act.LeaveBackup) -> Step:
    return replace(state, opened=None), ()


def _take(state: State, action: act.TakeOver) -> Step:
    opened, book = state.opened, state.book
    if opened is None or state.locked:
        return state, ()
    given = 0

    def fresh(kind: str) -> str:
        nonlocal given
        given += 1
        return state.new_id(kind[0], given - 1)

    entries = entries_of(state, opened)
    merged = merge(book, opened.frozen | state.frozen, opened.backup, entries, opened.choices, fresh)
    frozen = {key: each for key, each in merged.frozen.items() if key in state.frozen or key in merged.written}
    ids = [each.id for name in lists() for each in getattr(merged.book, name)]
    nobodys = opened.backup.holds == "order" and not opened.backup.book.people
    place = Place("person", merged.book.garments[0].id) if nobodys else Place()
    after_all = max([book.next + given, *(number_of(each) + 1 for each in ids)])
    after = replace(
        state, book=replace(merged.book, next=after_all), frozen=frozen, unread=state.unread - set(merged.written),
        opened=None, place=place, focus="", notice=Notice(words("backup.taken")), drafted=None, laid=None,
    )  # fmt: skip
    return after, (SaveNow(), *(RemoveFrozen(key) for key in merged.removed), GoTo(place.route))


def _erase(state: State, action: act.EraseAll) -> Step:
    if state.busy or state.locked:
        return state, ()
    return replace(state, busy=words("erase.busy")), (EraseAll(),)


def _erased(state: State, action: act.Erased) -> Step:
    said = Notice(words("erase.done"))
    return State(loaded=True, mark=state.mark, today=state.today, trouble=state.trouble, notice=said), (GoTo("/"),)


def _not_erased(state: State, action: act.NotErased) -> Step:
    return replace(state, busy="", notice=Notice(action.words, tone="stop")), ()


def _room(state: State, action: act.RoomCame) -> Step:
    return replace(state, room=(action.used, action.left)), ()


def _installs(state: State, action: act.InstallCame) -> Step:
    return replace(state, installs=action.can), ()


def _install(state: State, action: act.AskInstall) -> Step:
    return state, (InstallHere(),)


HANDLERS: dict[type[act.Action], Callable[[State, Any], Step]] = {
    act.AskBackup: _ask,
    act.BackupSaved: _saved,
    act.FilePicked: _picked,
    act.BackupRead: _read,
    act.AskCamera: _camera,
    act.CameraClosed: _closed,
    act.ChooseKept: _choose,
    act.LeaveBackup: _leave,
    act.TakeOver: _take,
    act.EraseAll: _erase,
    act.Erased: _erased,
    act.NotErased: _not_erased,
    act.RoomCame: _room,
    act.InstallCame: _installs,
    act.AskInstall: _install,
}
