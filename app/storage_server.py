"""Records of server mode, in the browser's localStorage through Flet."""

from __future__ import annotations

import asyncio
import hashlib
import secrets
from collections.abc import Sequence
from typing import Any, ClassVar, Protocol

from app.storage import Change, Changed, Found, Record, Room, SaveFailed, at_home


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
    good; while this server process runs, tabs of one browser cannot overwrite each other unknowingly, and each is told
    of the others' changes and reads them, since its session is handed what the other has saved. Not guaranteed: the
    client answers a read from its own copy, so reading back proves the way to the browser, not the disk; after the
    server was started anew, a tab left open from before may still hold an older copy and notices only if another open
    tab has loaded the newer one; the first two tabs of a new browser, opened at the same moment, know nothing of each
    other. Of browsers without an open tab the KEPT last ones are remembered: a tab of an older one that sleeps longer
    than its session is like one left open from before the server was started. Room: about 4.9 million characters in all
    (measured in Chromium 156), of which each record needs twice its own length.
    """

    PREFIX = "foldmark."
    ROOM: ClassVar[int] = 4_900_000
    KEPT: ClassVar[int] = 100  # our choice, because a household has fewer; a private window is a new browser each time
    AT_ONCE: ClassVar[int] = 50  # records asked for before their answers are waited for
    _browsers: ClassVar[dict[str, dict[str, int]]] = {}  # browser mark: key: newest revision seen by this process
    _tabs: ClassVar[dict[str, list[ServerStore]]] = {}

    def __init__(self, preferences: Preferences) -> None:
        """Use one session's SharedPreferences."""
        self._preferences = preferences
        self._mark = ""
        self._calls: list[Changed] = []
        self._ahead: dict[str, tuple[str, int, str]] = {}  # what another tab saved: slot, revision, text
        self._untrue: dict[str, tuple[str, int]] = {}  # where a save failed: the pointer as it was
        self._lengths: dict[str, int] = {}

    async def load(self, key: str) -> Record | SaveFailed | None:
        """See Store."""
        try:
            newest = await self._revisions()
            await self._made_true(key)
            slot, revision = await self._pointer(key)
            if slot == BROKEN:
                return SaveFailed.because("damaged", "pointer")
            if revision < newest.get(key, 0):
                await self._hand_over(key)
                slot, revision = await self._pointer(key)
            if revision < newest.get(key, 0):
                return SaveFailed.because("stale", f"this tab holds {revision}, another {newest[key]}")
            newest[key] = revision
            if not slot:
                return None
            found = await self._slot(key, slot)
            self._lengths[key] = len(found.text) if found else 0
            if found is not None and found.revision != revision:  # a pointer that was cut off; the slot is whole
                await self._preferences.set(f"{self.PREFIX}pointer.{key}", f"{slot} {found.revision}")
                newest[key] = found.revision
            return found or SaveFailed.because("damaged", f"slot {slot} of {revision}")
        except Exception as trouble:
            return _failure(trouble)

    async def load_all(self, start: str) -> Found | SaveFailed:
        """See Store."""
        try:
            await self._revisions()  # once, before many ask at the same time
        except Exception as trouble:
            return _failure(trouble)
        keys = await self.keys(start)
        if isinstance(keys, SaveFailed):
            return keys
        records: dict[str, Record] = {}
        unread: list[str] = []
        for at in range(0, len(keys), self.AT_ONCE):
            asked = keys[at : at + self.AT_ONCE]
            for key, each in zip(asked, await asyncio.gather(*[self.load(key) for key in asked]), strict=True):
                if isinstance(each, Record):
                    records[key] = each
                elif each is not None:
                    unread.append(key)
        return Found(records, tuple(unread))

    async def save(self, key: str, text: str, revision: int) -> int | SaveFailed:
        """See Store."""
        return await self._change(key, text, revision)

    async def remove(self, key: str, revision: int) -> SaveFailed | None:
        """See Store."""
        answer = await self._change(key, None, revision)
        return answer if isinstance(answer, SaveFailed) else None

    async def save_all(self, changes: Sequence[Change]) -> dict[str, int | SaveFailed]:
        """See Store; one after the other."""
        return {each.key: await self._change(each.key, each.text, each.revision) for each in changes}

    async def keys(self, start: str = "") -> tuple[str, ...] | SaveFailed:
        """See Store."""
        before = self.PREFIX + "pointer."
        try:
            names = {name[len(before) :] for name in await self._preferences.get_keys(before + start)}
            newest = await self._revisions()
            names |= {key for key in (*newest, *self._ahead) if key.startswith(start)}
            return tuple(sorted([name for name in names if await self._stands(name, newest.get(name, 0))]))
        except Exception as trouble:
            return _failure(trouble)

    async def room(self) -> Room | None:
        """See Store; counted from what was read and written, so what was not read yet is read first."""
        keys = await self.keys()
        if isinstance(keys, SaveFailed):
            return None
        for key in keys:
            if key not in self._lengths:
                await self.load(key)
        used = 2 * sum(self._lengths.get(key, 0) for key in keys)
        return Room(used, max(self.ROOM - used, 0))

    async def erase(self) -> SaveFailed | None:
        """See Store; what stays is the random mark of the browser, and of each record a number that it had."""
        try:
            newest = await self._revisions()
            named = await self._preferences.get_keys(self.PREFIX)
            parted = [name.removeprefix(self.PREFIX).partition(".") for name in named]
            # From the last key to the first: no garment stays without the frozen draft that it is chalked from.
            for key in sorted({key for _, dot, key in parted if dot} | {*newest, *self._ahead}, reverse=True):
                slot, last = await self._pointer(key)
                new = max(last, newest.get(key, 0)) + 1
                try:
                    await self._preferences.set(f"{self.PREFIX}pointer.{key}", f"- {new}")
                except Exception:
                    self._untrue[key] = (slot, last)
                    raise
                newest[key] = new
                for each in "ab":
                    await self._preferences.remove(f"{self.PREFIX}{each}.{key}")
                self._ahead.pop(key, None)
                self._untrue.pop(key, None)
                self._lengths.pop(key, None)
                self._tell(key, "", new, "")
            left = await self._preferences.get_keys(self.PREFIX)
            slots = [name for name in left if name.startswith((f"{self.PREFIX}a.", f"{self.PREFIX}b."))]
            return SaveFailed.because("unproven", f"{len(slots)} left") if slots else None
        except Exception as trouble:
            return _failure(trouble)

    def _tell(self, key: str, slot: str, revision: int, text: str) -> None:
        """Hand what was saved to the other tabs of this browser."""
        for tab in self._tabs.get(self._mark, []):
            if tab is not self:
                tab._ahead[key] = (slot, revision, text)
                for call in tab._calls:
                    call(key, revision)

    def on_change(self, call: Changed) -> None:
        """See Store; works from the first load or save on, when the browser is known."""
        self._calls.append(at_home(call))

    def close(self) -> None:
        """Forget this tab; call when its session ends. Of browsers that have no other, only the KEPT last are kept.

        They are not all forgotten at once: a tab that slept longer than its session may come back with an old copy,
        and is told so as long as the revisions of its browser are known.
        """
        tabs = self._tabs.get(self._mark, [])
        tabs[:] = [tab for tab in tabs if tab is not self]
        if tabs or self._mark not in self._browsers:
            return
        self._tabs.pop(self._mark, None)
        self._browsers[self._mark] = self._browsers.pop(self._mark)  # the last one that was left
        left = [mark for mark in self._browsers if mark not in self._tabs]
        for mark in left[: -self.KEPT]:
            del self._browsers[mark]

    async def _change(self, key: str, text: str | None, revision: int) -> int | SaveFailed:
        try:
            newest = await self._revisions()
            await self._made_true(key)
            slot, last = await self._pointer(key)
            if slot == BROKEN:
                return SaveFailed.because("damaged", "pointer")
            known = max(last, newest.get(key, 0))
            if not (revision == known if slot else revision in (0, known)) or known != last:
                return SaveFailed.because("stale", f"expected {revision}, found {known}")
            if text is None and not slot:
                return known
            new, other = known + 1, "b" if slot == "a" else "a"
            newest[key] = new  # claimed before the first await, so that another tab's save waits for none
            failed: SaveFailed | None = SaveFailed.because("silent")
            try:
                failed = await self._write(key, text, new, other)
            except Exception as trouble:
                failed = _failure(trouble)
            finally:
                if failed is not None:
                    newest[key], self._untrue[key] = known, (slot, last)
            if failed is not None:
                await self._made_true(key)
                return failed
            self._ahead.pop(key, None)
            self._lengths[key] = len(text or "")
            self._tell(key, "" if text is None else other, new, text or "")
            return new
        except Exception as trouble:
            return _failure(trouble)

    async def _made_true(self, key: str) -> None:
        """Where a save failed, have the pointer as it was: the client's copy may hold what the browser never took.

        Raises what Flet raises where that fails too; then nothing is said of the record until it is done.
        """
        if key not in self._untrue:
            return
        slot, last = self._untrue[key]
        if (await self._revisions()).get(key, 0) == last:  # no other tab has saved it since
            name = f"{self.PREFIX}pointer.{key}"
            await (self._preferences.set(name, f"{slot or '-'} {last}") if last else self._preferences.remove(name))
        self._untrue.pop(key, None)

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

    async def _hand_over(self, key: str) -> None:
        """Take a record from another tab that saved it before this tab was known and after its page was loaded."""
        for tab in list(self._tabs.get(self._mark, [])):
            slot, revision = ("", 0) if tab is self else await tab._pointer(key)
            if revision == (await self._revisions()).get(key, 0) > 0 and slot != BROKEN:
                held = await tab._slot(key, slot) if slot else None
                if held is not None or not slot:
                    self._ahead[key] = (slot, revision, held.text if held else "")
                    return

    async def _stands(self, key: str, newest: int) -> bool:
        """Whether there is a record of this key, as far as this tab and the others know."""
        slot, revision = await self._pointer(key)
        if revision < newest:
            await self._hand_over(key)
            slot, revision = await self._pointer(key)
        return bool(slot) or revision < newest

    async def _pointer(self, key: str) -> tuple[str, int]:
        """Return the slot that holds the record, "" for none, and the last revision; BROKEN where it cannot be read."""
        text = await self._preferences.get(f"{self.PREFIX}pointer.{key}")
        slot, _, written = text.partition(" ") if isinstance(text, str) else ("-", "", "0")
        if not written.isdecimal():
            return BROKEN, 0
        revision = int(written)
        ahead = self._ahead.get(key)
        if ahead is not None and ahead[1] >= revision:
            return ahead[:2]
        self._ahead.pop(key, None)
        return ("" if slot == "-" else slot), revision

    async def _slot(self, key: str, slot: str) -> Record | None:
        """Return what a slot holds, None where its checksum does not fit."""
        ahead = self._ahead.get(key)
        if ahead is not None and ahead[0] == slot:
            return Record(ahead[2], ahead[1])
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


BROKEN = "?"
"""In place of the slot where a pointer is none."""
REFUSED = (RuntimeError, ConnectionError)
"""What Flet raises where the browser did not do it."""


def _failure(trouble: Exception) -> SaveFailed:
    """Why; the message may quote the key, so it goes no further."""
    name = type(trouble).__name__
    if "quota" in str(trouble).lower():
        return SaveFailed.because("full", name)
    if isinstance(trouble, TimeoutError):
        return SaveFailed.because("silent", name)
    return SaveFailed.because("closed" if isinstance(trouble, REFUSED) else "fault", name)


def checksum(text: str) -> str:
    """Return a short checksum of a text: tells a broken record from a whole one."""
    return hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()[:16]
