"""Where measures and garments are kept: one interface, one implementation for each way the app runs.

`MemoryStore` here is for tests; app.storage_page has the static site's, app.storage_server the one of server mode.

A record is a key with a text and a revision. Revisions start at 1 and grow with every change. Who saves says which
revision they last saw; where another tab has saved since, nothing is overwritten and the answer says so. A save that
could not be done is an answer too (`SaveFailed`), never silent and never an exception; the record before is then as it
was. Saves of one tab are made one after the other: a second one started before the first has answered is refused.

All texts stay on the device of the person who typed them: in the browser's own storage, in every mode.
"""

from __future__ import annotations

import asyncio
import contextvars
from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal, Protocol

PLACE = "place"
"""The key of the record of where a tab was last. It is nobody's alone, so that a change of it is no conflict."""

Reason = Literal["full", "stale", "unproven", "closed"]

WORDS: dict[Reason, str] = {
    "full": "This device has no room left for it. What was saved before is kept. Delete something you no longer need, "
    "then try again.",
    "stale": "It was changed in another tab or window. Nothing was overwritten. Load this page again to go on from "
    "there.",
    "unproven": "It did not read back as written, so what was saved before is kept. Try again.",
    "closed": "The browser does not let the page save just now; private windows often do not. Nothing was changed. "
    "Keep this page open and try again.",
}


@dataclass(frozen=True, slots=True)
class Record:
    """A saved text and its revision."""

    text: str
    revision: int


@dataclass(frozen=True, slots=True)
class SaveFailed:
    """Why a save, a removal or a reading was not done: plain words for the user, and the reason for the program.

    full: no room. stale: another tab was first. unproven: the written text did not read back. closed: the browser
    refuses. `detail` is for a report, it holds nothing of the person.
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
    save: the new revision; `revision` is the one last seen, 0 for a key believed unused.
    remove: None when done; removing what is not there is done at once.
    keys: the keys that have a record, sorted.
    on_change: call back with key and revision when another tab of the same browser changed a record.
    """

    async def load(self, key: str) -> Record | SaveFailed | None: ...
    async def save(self, key: str, text: str, revision: int) -> int | SaveFailed: ...
    async def remove(self, key: str, revision: int) -> SaveFailed | None: ...
    async def keys(self) -> tuple[str, ...] | SaveFailed: ...
    def on_change(self, call: Changed) -> None: ...


class MemoryStore:
    """Records in memory, for tests. `room` is how many characters fit in all; `closed` refuses everything.

    Guarantees: the same revisions and answers as the others, for as long as the object lives.
    """

    def __init__(self, room: int | None = None) -> None:
        """Start empty."""
        self.room = room
        self.closed = False
        self._records: dict[str, Record | int] = {}
        self._watching: list[Changed] = []

    async def load(self, key: str) -> Record | SaveFailed | None:
        """See Store."""
        if self.closed:
            return SaveFailed.because("closed")
        found = self._records.get(key)
        return found if isinstance(found, Record) else None

    async def save(self, key: str, text: str, revision: int) -> int | SaveFailed:
        """See Store."""
        if (stopped := self._stopped(key, revision)) is not None:
            return stopped
        others = sum(
            len(record.text) for other, record in self._records.items() if other != key and isinstance(record, Record)
        )
        if self.room is not None and others + len(text) > self.room:
            return SaveFailed.because("full")
        new = self._last(key) + 1
        self._records[key] = Record(text, new)
        return new

    async def remove(self, key: str, revision: int) -> SaveFailed | None:
        """See Store."""
        if (stopped := self._stopped(key, revision)) is not None:
            return stopped
        if isinstance(self._records.get(key), Record):
            self._records[key] = self._last(key) + 1
        return None

    async def keys(self) -> tuple[str, ...] | SaveFailed:
        """See Store."""
        if self.closed:
            return SaveFailed.because("closed")
        return tuple(sorted(key for key, record in self._records.items() if isinstance(record, Record)))

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
