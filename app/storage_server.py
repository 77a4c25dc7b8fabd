"""Records of server mode, in the browser's localStorage through Flet."""

from __future__ import annotations

import hashlib
import secrets
from typing import Any, ClassVar, Protocol

from app.storage import Changed, Record, SaveFailed, at_home


class Preferences(Protocol):
    """What ServerStore needs of flet.SharedPreferences."""

    async def set(self, key: str, value: Any) -> bool: ...
    async def get(self, key: str) -> Any: ...
    async def remove(self, key: str) -> bool: ...
    async def get_keys(self, key_prefix: str) -> list[str]: ...


class ServerStore:
    """Records in the browser's localStorage through Flet's SharedPreferences, for server mode.

    Each record has two slots and a short pointer that names the good one. A save writes the other slot, reads it back,
    then turns the pointer and reads that back.

    Guarantees: the record before stays whole until the new one is written and the pointer turned; a browser that has no
    room says so, and nothing changes; each slot carries a checksum, and a broken one is never returned as if it were
    good; while this server process runs, tabs of one browser cannot overwrite each other unknowingly, and they are told
    of changes (`revisions` holds numbers only, never a text). Not guaranteed: the client answers a read from its own
    copy, so reading back proves the way to the browser, not the disk; after the server was started anew, a tab left
    open from before may still hold an older copy and notices only if another open tab has loaded the newer one. Room:
    about 4.9 million characters in all (measured in Chromium 156), of which each record needs twice its own length.
    """

    PREFIX = "foldmark."
    _browsers: ClassVar[dict[str, dict[str, int]]] = {}  # browser mark: key: newest revision seen by this process
    _tabs: ClassVar[dict[str, list[ServerStore]]] = {}

    def __init__(self, preferences: Preferences) -> None:
        """Use one session's SharedPreferences."""
        self._preferences = preferences
        self._mark = ""
        self._calls: list[Changed] = []

    async def load(self, key: str) -> Record | SaveFailed | None:
        """See Store."""
        try:
            newest = await self._revisions()
            slot, revision = await self._pointer(key)
            if revision < newest.get(key, 0):
                return SaveFailed.because("stale", f"this tab holds {revision}, another {newest[key]}")
            newest[key] = revision
            if not slot:
                return None
            return await self._slot(key, slot) or SaveFailed.because("unproven", f"slot {slot} of {revision}")
        except Exception as trouble:
            return self._failure(trouble)

    async def save(self, key: str, text: str, revision: int) -> int | SaveFailed:
        """See Store."""
        return await self._change(key, text, revision)

    async def remove(self, key: str, revision: int) -> SaveFailed | None:
        """See Store."""
        answer = await self._change(key, None, revision)
        return answer if isinstance(answer, SaveFailed) else None

    async def keys(self) -> tuple[str, ...] | SaveFailed:
        """See Store."""
        start = self.PREFIX + "pointer."
        try:
            names = [name[len(start) :] for name in await self._preferences.get_keys(start)]
            return tuple(sorted([name for name in names if (await self._pointer(name))[0]]))
        except Exception as trouble:
            return self._failure(trouble)

    def on_change(self, call: Changed) -> None:
        """See Store; works from the first load or save on, when the browser is known."""
        self._calls.append(at_home(call))

    def close(self) -> None:
        """Forget this tab; call when its session ends."""
        tabs = self._tabs.get(self._mark, [])
        tabs[:] = [tab for tab in tabs if tab is not self]

    async def _change(self, key: str, text: str | None, revision: int) -> int | SaveFailed:
        try:
            newest = await self._revisions()
            slot, last = await self._pointer(key)
            known = max(last, newest.get(key, 0))
            if not (revision == known if slot else revision in (0, known)) or known != last:
                return SaveFailed.because("stale", f"expected {revision}, found {known}")
            if text is None and not slot:
                return known
            new, other = known + 1, "b" if slot == "a" else "a"
            newest[key] = new  # claimed before the first await, so that another tab's save waits for none
            try:
                turned = await self._write(key, text, new, other)
            except Exception as trouble:
                newest[key] = known
                return self._failure(trouble)
            if turned is not None:
                newest[key] = known
                return turned
            for tab in self._tabs.get(self._mark, []):
                for call in tab._calls if tab is not self else ():
                    call(key, new)
            return new
        except Exception as trouble:
            return self._failure(trouble)

    async def _write(self, key: str, text: str | None, revision: int, slot: str) -> SaveFailed | None:
        pointer = f"{slot} {revision}"
        if text is None:
            pointer = f"- {revision}"
        else:
            await self._preferences.set(f"{self.PREFIX}{slot}.{key}", f"{revision} {checksum(text)}\n{text}")
            back = await self._slot(key, slot)
            if back != Record(text, revision):
                return SaveFailed.because("unproven", f"slot {slot} of {revision}")
        await self._preferences.set(f"{self.PREFIX}pointer.{key}", pointer)
        if await self._preferences.get(f"{self.PREFIX}pointer.{key}") != pointer:
            return SaveFailed.because("unproven", f"pointer of {revision}")
        if text is None:
            for left in "ab":
                await self._preferences.remove(f"{self.PREFIX}{left}.{key}")
        return None

    async def _pointer(self, key: str) -> tuple[str, int]:
        """Return the slot that holds the record, "" for none, and the last revision."""
        text = await self._preferences.get(f"{self.PREFIX}pointer.{key}")
        if not isinstance(text, str):
            return "", 0
        slot, _, revision = text.partition(" ")
        return ("" if slot == "-" else slot), int(revision)

    async def _slot(self, key: str, slot: str) -> Record | None:
        """Return what a slot holds, None where its checksum does not fit."""
        held = await self._preferences.get(f"{self.PREFIX}{slot}.{key}")
        head, _, text = held.partition("\n") if isinstance(held, str) else ("", "", "")
        revision, _, written = head.partition(" ")
        return Record(text, int(revision)) if written == checksum(text) and revision.isdecimal() else None

    async def _revisions(self) -> dict[str, int]:
        """Return the revisions this process has seen from this browser, which carries a random mark of its own."""
        if not self._mark:
            name = self.PREFIX + "browser"
            mark = await self._preferences.get(name)
            if not isinstance(mark, str):
                mark = secrets.token_hex(16)
                await self._preferences.set(name, mark)
            self._mark = mark
            self._tabs.setdefault(mark, []).append(self)
        return self._browsers.setdefault(self._mark, {})

    @staticmethod
    def _failure(trouble: Exception) -> SaveFailed:
        full = "quota" in str(trouble).lower()  # the message may quote the key, so it goes no further
        return SaveFailed.because("full" if full else "closed", type(trouble).__name__)


def checksum(text: str) -> str:
    """Return a short checksum of a text: tells a broken record from a whole one."""
    return hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()[:16]
