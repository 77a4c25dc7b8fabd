"""Where measures and garments are kept: one interface, one implementation for each way the app runs.

`MemoryStore` here is for tests; app.storage_page has the static site's, app.storage_server the one of server mode.

A record is a key with a text and a revision. Revisions start at 1 and grow with every change. Who saves says which
revision they last saw; where another tab has saved since, nothing is overwritten and the answer says so. A save that
could not be done is an answer too (`SaveFailed`), never silent and never an exception; the record before is then as it
was. Saves of one tab are made one after the other: a second one started before the first has answered is refused.

"Saved" is said only after a save has answered with a revision. What each mode promises from then on stands with its
store: the site's record has been written through to the device as far as the browser says so; server mode's has reached
the browser, which writes it out in its own time.

All texts stay on the device of the person who typed them: in the browser's own storage, in every mode.
"""

from __future__ import annotations

import asyncio
import contextvars
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import Literal, Protocol

PLACE = "place"
"""The key of the record of where a tab was last. It is nobody's alone, so that a change of it is no conflict."""

Reason = Literal["full", "stale", "unproven", "closed", "silent", "damaged", "fault"]

WORDS: dict[Reason, str] = {
    "full": "This device has no room left for it. What was saved before is kept. Delete something you no longer need, "
    "then try again.",
    "stale": "It was changed in another tab or window. Nothing was overwritten.",
    "unproven": "It did not read back as written, so what was saved before is kept. Try again.",
    "closed": "The browser does not let the page save just now; private windows often do not. Nothing was changed. "
    "Keep this page open and try again.",
    "silent": "The browser has not answered. Nothing was changed. Keep this page open and try again.",
    "damaged": "It is kept, but it cannot be read as it stands. It is left as it is.",
    "fault": "Foldmark made a mistake while saving. What was saved before is kept. Keep this page open and try again.",
}


@dataclass(frozen=True, slots=True)
class Record:
    """A saved text and its revision."""

    text: str
    revision: int


@dataclass(frozen=True, slots=True)
class Change:
    """A record to be saved, or to be removed where `text` is None. `revision` is the one last seen, 0 for none."""

    key: str
    text: str | None
    revision: int


@dataclass(frozen=True, slots=True)
class Found:
    """The records that were found, by key, and the keys of those that are there and could not be read."""

    records: dict[str, Record] = field(default_factory=dict)
    unread: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Room:
    """How many bytes the records take, and about how many are left; None where the browser does not say."""

    used: int
    left: int | None


@dataclass(frozen=True, slots=True)
class SaveFailed:
    """Why a save, a removal or a reading was not done: plain words for the user, and the reason for the program.

    full: no room. stale: another tab was first. unproven: the written text did not read back. closed: the browser
    refuses. silent: it does not answer. damaged: the record is there and broken. fault: a mistake of our own. `detail`
    is for a report, it holds nothing of the person.
    """

    words: str
    reason: Reason
    detail: str = ""

    @staticmethod
    def because(reason: Reason, detail: str = "") -> SaveFailed:
        """Return the failure with the words that belong to its reason."""
        return SaveFailed(WORDS[reason], reason, detail)


Changed = Callable[[str, int], None]


class Store(Protocol):
    """Saved records. Every method may be awaited from any handler; none raises for what a browser may do.

    load: the record, None where there is none, SaveFailed where it cannot be read.
    load_all: every record whose key starts with `start`; SaveFailed where not even the keys can be read.
    save: the new revision; `revision` is the one last seen, 0 for a key believed unused.
    remove: None when done; removing what is not there is done at once.
    save_all: what save or remove would answer for each change, in one go; each change is done or not by itself, so that
    one that another tab was first with does not hold up the others.
    keys: the keys that have a record and start with `start`, sorted.
    room: how much is taken and left.
    erase: every record, also one that cannot be read or that another tab has saved since, and what was left of a save
    that was cut off; None when nothing is left. Where it fails, some may be gone, but no frozen draft before its
    garment. Other tabs are told of each.
    on_change: call back with key and revision when another tab of the same browser changed a record.
    """

    async def load(self, key: str) -> Record | SaveFailed | None: ...
    async def load_all(self, start: str) -> Found | SaveFailed: ...
    async def save(self, key: str, text: str, revision: int) -> int | SaveFailed: ...
    async def remove(self, key: str, revision: int) -> SaveFailed | None: ...
    async def save_all(self, changes: Sequence[Change]) -> dict[str, int | SaveFailed]: ...
    async def keys(self, start: str = "") -> tuple[str, ...] | SaveFailed: ...
    async def room(self) -> Room | None: ...
    async def erase(self) -> SaveFailed | None: ...
    def on_change(self, call: Changed) -> None: ...


class MemoryStore:
    """Records in memory, for tests. `room` is how many characters fit in all; `closed` refuses everything.

    Guarantees: the same revisions and answers as the others, for as long as the object lives.
    """

    def __init__(self, room: int | None = None) -> None:
        """Start empty."""
        self.room_in_all = room
        self.closed = False
        self._records: dict[str, Record | int] = {}
        self._watching: list[Changed] = []

    async def load(self, key: str) -> Record | SaveFailed | None:
        """See Store."""
        if self.closed:
            return SaveFailed.because("closed")
        found = self._records.get(key)
        return found if isinstance(found, Record) else None

    async def load_all(self, start: str) -> Found | SaveFailed:
        """See Store."""
        keys = await self.keys(start)
        if isinstance(keys, SaveFailed):
            return keys
        found = {key: await self.load(key) for key in keys}
        records = {key: each for key, each in found.items() if isinstance(each, Record)}
        return Found(records, tuple(key for key, each in found.items() if isinstance(each, SaveFailed)))

    async def save(self, key: str, text: str, revision: int) -> int | SaveFailed:
        """See Store."""
        return self._change(Change(key, text, revision))

    async def remove(self, key: str, revision: int) -> SaveFailed | None:
        """See Store."""
        answer = self._change(Change(key, None, revision))
        return answer if isinstance(answer, SaveFailed) else None

    async def save_all(self, changes: Sequence[Change]) -> dict[str, int | SaveFailed]:
        """See Store."""
        return {change.key: self._change(change) for change in changes}

    async def keys(self, start: str = "") -> tuple[str, ...] | SaveFailed:
        """See Store."""
        if self.closed:
            return SaveFailed.because("closed")
        live = (key for key, record in self._records.items() if isinstance(record, Record))
        return tuple(sorted(key for key in live if key.startswith(start)))

    async def room(self) -> Room | None:
        """See Store; a character counts as a byte."""
        used = self._used()
        return Room(used, None if self.room_in_all is None else self.room_in_all - used)

    async def erase(self) -> SaveFailed | None:
        """See Store."""
        if self.closed:
            return SaveFailed.because("closed")
        live = [key for key, record in self._records.items() if isinstance(record, Record)]
        self._records |= {key: self._last(key) + 1 for key in live}
        for key in live:
            for call in self._watching:
                call(key, self._last(key))
        return None

    def on_change(self, call: Changed) -> None:
        """See Store; here `other_tab_saves` is the other tab."""
        self._watching.append(call)

    async def other_tab_saves(self, key: str, text: str) -> int:
        """Change a record as another tab would: always with the newest revision, then tell who watches."""
        new = await self.save(key, text, self._last(key))
        assert isinstance(new, int)
        for call in self._watching:
            call(key, new)
        return new

    def _used(self, but: str = "") -> int:
        live = ((key, each) for key, each in self._records.items() if isinstance(each, Record) and key != but)
        return sum(len(record.text) for _, record in live)

    def _change(self, change: Change) -> int | SaveFailed:
        if (stopped := self._stopped(change.key, change.revision)) is not None:
            return stopped
        last = self._last(change.key)
        if change.text is None:
            if not isinstance(self._records.get(change.key), Record):
                return last
            self._records[change.key] = last + 1
            return last + 1
        if self.room_in_all is not None and self._used(change.key) + len(change.text) > self.room_in_all:
            return SaveFailed.because("full")
        self._records[change.key] = Record(change.text, last + 1)
        return last + 1

    def _last(self, key: str) -> int:
        found = self._records.get(key, 0)
        return found.revision if isinstance(found, Record) else found

    def _stopped(self, key: str, revision: int) -> SaveFailed | None:
        if self.closed:
            return SaveFailed.because("closed")
        found, last = self._records.get(key), self._last(key)
        fits = revision == last if isinstance(found, Record) else revision in (0, last)
        return None if fits else SaveFailed.because("stale", f"expected {revision}, found {last}")


def at_home(call: Changed) -> Changed:
    """Return a call that runs soon in the session that made it, whoever calls: Flet finds its page by the context."""
    loop, context = asyncio.get_running_loop(), contextvars.copy_context()

    def soon(key: str, revision: int) -> None:
        loop.call_soon(call, key, revision, context=context)

    return soon
