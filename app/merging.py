"""What a backup would change in the book, and the book after it was taken over. Pure.

Records are known by their kind and id. What is new is added, what is the same is left alone, and what differs is left
as it is here unless a person chooses what the file has, or both.
"""

from collections.abc import Callable, Collection, Iterator, Mapping
from dataclasses import dataclass, field, fields, replace
from typing import Any, Literal

from app.backup import OF_DEVICE, REFERS, Backup, lists, shared
from app.in_unit import in_unit, with_units
from app.names import copy_name
from app.state import Book, FrozenDraft, GarmentRecord, PersonRecord, State, in_order
from app.text import words

Status = Literal["new", "same", "differs", "draft", "left"]
Choice = Literal["here", "file", "both"]
Fresh = Callable[[str], str]
"""A new id for a record of a list, such as "people"."""

SETTINGS = "settings"
FROZEN = "frozen"
"""Stands among the fields that differ where the drafts frozen for a garment do."""
ANOTHER = frozenset({"name", "person", "garment"})
"""Where two records differ in one of these, they are rather two than one, so both are kept unless one is chosen."""


@dataclass(frozen=True, slots=True)
class Entry:
    """A record of a backup beside the book: in which list it stands, and how it compares.

    draft: the record is the same, and its frozen draft, which is missing here, comes with it. left: it is kept here and
    cannot be read, so nothing is written over it. `differing` names the
    fields that differ, `later` says on which side the measures were taken later, where that is known. `usual` is what
    is done with it unless a person chooses otherwise.
    """

    kind: str
    key: str
    status: Status
    differing: tuple[str, ...] = ()
    later: Literal["", "here", "file"] = ""
    usual: Choice = "here"

    @property
    def which(self) -> tuple[str, str]:
        """What a choice is kept under."""
        return self.kind, self.key


@dataclass(frozen=True, slots=True)
class Opened:
    """A backup that is looked at before it is taken over, and what was chosen for its records that differ.

    `frozen` are the frozen drafts that are kept here for garments of the backup, `unread` those that cannot be read.
    """

    backup: Backup
    frozen: dict[str, FrozenDraft] = field(default_factory=dict)
    unread: frozenset[str] = frozenset()
    choices: Mapping[tuple[str, str], Choice] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Merged:
    """The book after a backup was taken over, with its frozen drafts: which were written, and which are gone."""

    book: Book
    frozen: dict[str, FrozenDraft]
    written: tuple[str, ...] = ()
    removed: tuple[str, ...] = ()
    added: int = 0
    changed: int = 0


def compare(
    book: Book, frozen: Mapping[str, FrozenDraft], backup: Backup, unread: frozenset[str] = frozenset(),
    left: Collection[str] = (),
) -> tuple[Entry, ...]:  # fmt: skip
    """How every record of a backup compares with the book, in the order of the file, settings last.

    `frozen` are the frozen drafts that are kept here for the garments of the backup, `unread` names those garments
    whose frozen draft is kept and cannot be read, `left` the ids of records that cannot be read.
    """
    return tuple(_compared(book, frozen, backup, unread, left))


def _compared(
    book: Book, frozen: Mapping[str, FrozenDraft], backup: Backup, unread: frozenset[str], left: Collection[str]
) -> Iterator[Entry]:
    for kind in lists():
        known = {each.id: each for each in getattr(book, kind)}
        for theirs in getattr(backup.book, kind):
            if backup.holds == "order":
                same = _known(book, kind, theirs)
                yield Entry(kind, theirs.id, "same" if same else "new", usual="here" if same else "file")
                continue
            mine = known.get(theirs.id)
            if mine is None and theirs.id in left:
                yield Entry(kind, theirs.id, "left")
                continue
            if mine is None:
                yield Entry(kind, theirs.id, "new", usual="file")
                continue
            # Without its frozen draft, it is not known how far it was chalked.
            as_here = _as_chalked(theirs, mine) if theirs.id in backup.lost else theirs
            if kind == "garments" and not (mine.person or as_here.person):
                as_said = with_units(as_here, backup.book.settings.unit)
                differing = _differing(with_units(mine, book.settings.unit), as_said)
            else:
                differing = _differing(mine, as_here)
            draft = backup.frozen.get(theirs.id) if kind == "garments" else None
            if draft is not None and draft != frozen.get(theirs.id):
                if not differing and theirs.id not in frozen and theirs.id not in unread:
                    yield Entry(kind, theirs.id, "draft", usual="file")
                    continue
                differing = (*differing, FROZEN)
            if not differing:
                yield Entry(kind, theirs.id, "same")
                continue
            others = ANOTHER & set(differing)
            both = any(getattr(mine, name) and getattr(theirs, name) for name in others)
            yield Entry(kind, theirs.id, "differs", differing, _later(mine, theirs), usual="both" if both else "here")
    if backup.holds == "everything" and shared(backup.book.settings) != shared(book.settings):
        differing = _differing(shared(book.settings), shared(backup.book.settings))
        empty = not any(getattr(book, kind) for kind in lists())
        yield Entry(SETTINGS, SETTINGS, "differs", differing, usual="file" if empty else "here")


def _known(book: Book, kind: str, record: Any) -> Any:
    """The person of the book who is the same in everything but the id, for an order that has none; None for others."""
    people = book.people if kind == "people" else ()
    return next((each for each in people if replace(each, id=record.id) == record), None)


def _differing(mine: Any, theirs: Any) -> tuple[str, ...]:
    return tuple(each.name for each in fields(mine) if getattr(mine, each.name) != getattr(theirs, each.name))


def _as_chalked(garment: GarmentRecord, like: GarmentRecord) -> GarmentRecord:
    """The garment with the chalking of another, whatever fields belong to it."""
    kept = {each: getattr(like, each) for each in _differing(like, like.unchalked())}
    return replace(garment.unchalked(), **kept)


def _later(mine: Any, theirs: Any) -> Literal["", "here", "file"]:
    """Where a person was measured later; dates are written from the year down, so they compare as they are."""
    if (
        not isinstance(mine, PersonRecord)
        or mine.taken_on == theirs.taken_on
        or not (mine.taken_on and theirs.taken_on)
    ):
        return ""
    return "here" if mine.taken_on > theirs.taken_on else "file"


def entries_of(state: State, opened: Opened) -> tuple[Entry, ...]:
    """How every record of the backup that is looked at compares with what is here now."""
    left = {key.partition(".")[2] for key in state.left}
    return compare(state.book, opened.frozen | state.frozen, opened.backup, opened.unread | state.unread, left)


def choice_of(entry: Entry, choices: Mapping[tuple[str, str], Choice]) -> Choice:
    """What is done with an entry: what was chosen, where there is anything to choose."""
    return choices.get(entry.which, entry.usual) if entry.status == "differs" else entry.usual


def merge(
    book: Book, frozen: Mapping[str, FrozenDraft], backup: Backup, entries: tuple[Entry, ...],
    choices: Mapping[tuple[str, str], Choice], fresh: Fresh,
) -> Merged:  # fmt: skip
    """The book with what was chosen of a backup. Everything that is not named by a choice stays as it is."""
    chosen = {each.which: choice_of(each, choices) for each in entries}
    status = {each.which: each.status for each in entries}
    ids = _ids(book, backup, chosen, status, fresh)
    settings = book.settings
    if chosen.get((SETTINGS, SETTINGS)) == "file":
        kept = {name: getattr(settings, name) for name in OF_DEVICE}
        settings = replace(backup.book.settings, **kept)
    lists_now: dict[str, Any] = {}
    drafts = dict(frozen)
    pictures = dict(book.pictures)
    written: list[str] = []
    removed: list[str] = []
    added = changed = 0
    for kind in lists():
        now = {each.id: each for each in getattr(book, kind)}
        for theirs in getattr(backup.book, kind):
            which = kind, theirs.id
            if chosen[which] == "here":
                continue
            new = ids[which]
            record = replace(theirs, id=new, **_referring(kind, theirs, ids))
            if kind == "garments" and not record.person:
                record = in_unit(record, backup.book.settings.unit, settings.unit)
            if theirs.id in backup.lost:
                mine = now.get(new)
                record = record.unchalked() if mine is None else _as_chalked(record, mine)
            if chosen[which] == "both":
                record = _named_apart(record, now.values())
            added, changed = (added, changed + 1) if new in now else (added + 1, changed)
            now[new] = record
            if kind != "garments":
                continue
            if theirs.id in backup.frozen:
                drafts[new] = backup.frozen[theirs.id]
                written.append(new)
            elif not record.chalking and drafts.pop(new, None) is not None:
                removed.append(new)
            if theirs.id in backup.book.pictures:
                pictures[new] = backup.book.pictures[theirs.id]
        lists_now[kind] = in_order(now.values(), newest=kind == "garments")
    if settings is not book.settings:
        changed += 1
    book = replace(book, **lists_now, settings=settings, pictures=pictures)
    return Merged(book, drafts, tuple(written), tuple(removed), added, changed)


def _ids(
    book: Book, backup: Backup, chosen: Mapping[tuple[str, str], Choice], status: Mapping[tuple[str, str], Status],
    fresh: Fresh,
) -> dict[tuple[str, str], str]:  # fmt: skip
    """The id of every record of the backup in the book: its own, or a new one where both are kept or it has none."""
    ids: dict[tuple[str, str], str] = {}
    for kind in lists():
        for each in getattr(backup.book, kind):
            which = kind, each.id
            if chosen[which] == "both" and status[which] == "differs":
                ids[which] = fresh(kind)
            elif backup.holds == "order":
                known = _known(book, kind, each)
                ids[which] = fresh(kind) if known is None else known.id
            else:
                ids[which] = each.id
    return ids


def _referring(kind: str, record: Any, ids: Mapping[tuple[str, str], str]) -> dict[str, str]:
    """The fields that name other records, as those are called in the book."""
    found = {}
    for name, other in REFERS.get(kind, {}).items():
        was = getattr(record, name)
        found[name] = ids.get((other, was), "")
    return found


def _named_apart(record: Any, others: Any) -> Any:
    """The record under a name that nobody has yet, so that the two are told apart."""
    name = "title" if isinstance(record, GarmentRecord) else "name"
    now = getattr(record, name).strip()
    if not now and isinstance(record, PersonRecord):
        now = words("person.unnamed")
    taken = {getattr(each, name).strip() for each in others}
    return replace(record, **{name: copy_name(now, taken)}) if now in taken and now else record
