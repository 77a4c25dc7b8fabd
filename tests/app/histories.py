"""Random histories of a book: changes, faults of the store, tabs that open, close, are killed, and what must hold.

A history is told by its seed alone, so that one that fails is played again by it. What a person types is a word that
is typed only once; so it can be followed. A word is confirmed when the store has answered that its record is saved. A
confirmed word is never lost: in the end it stands in the book, or it was replaced or deleted by somebody who saw it.
"""

import asyncio
import json
import random
import re
from collections.abc import Awaitable, Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

from app import actions as act
from app.backup import Backup, read_backup
from app.saved import FROZEN, GARMENT, GONE, PERSON, all_kept, text_of_all
from app.state import FrozenDraft, GarmentRecord, PersonRecord, Place, State
from app.storage import Change, Changed, Found, MemoryStore, Record, Room, SaveFailed, Store
from app.storage_server import ServerStore
from app.text import words
from app.typed import order_of, order_text
from app.update_garment import chalking_of, item_at
from drafting.order import make, read_order
from drafting.record.documents import draft_json
from drafting.record.order_code import code_text
from tests.app.records import loaded
from tests.app.session import Tab, run
from tests.app.test_storage import Browser
from tests.app.test_storage import Tab as Client

DEMO = (Path(__file__).resolve().parents[2] / "assets" / "demo" / "order.json").read_text("utf-8")
WORD = re.compile(r"w\d+w")
Typed = tuple[str, str]
"""The id of a person or garment, and a word that was typed there."""
STEPS = 28
"""Things that happen in one history."""


def frozen_demo() -> FrozenDraft:
    """What the demo's garment is chalked from."""
    from app.update import start, update

    state = start("/")[0]
    for action in (loaded(), act.AddDemo(DEMO)):
        state = update(state, action)[0]
    assert state.garment is not None
    typed = order_of(state.garment, state.person)[0]
    order, _ = read_order(typed or {})
    assert order is not None
    return FrozenDraft(order_text(typed or {}), draft_json(make(order, with_ways_out=False)).decode())


class Killed(BaseException):
    """The page is gone in the middle of what it did."""


class Flaky:
    """One tab's way to the store: late, refused, cut off, told late of what others did. Draws from `chance`."""

    def __init__(
        self,
        store: Store,
        chance: random.Random,
        confirmed: Callable[[Change], None],
        written: Callable[[Change, int], None],
    ) -> None:
        self._store, self._chance, self._confirmed, self._written = store, chance, confirmed, written
        self.calm = False
        self.die: Callable[[], None] = lambda: None
        self.erasing: Callable[[Awaitable[SaveFailed | None]], Awaitable[SaveFailed | None]] = lambda work: work

    async def _before(self, *, writes: bool) -> SaveFailed | None:
        if self.calm:
            return None
        drawn = self._chance.random()
        if drawn < 0.35:
            await asyncio.sleep(self._chance.uniform(0, 3))
        elif drawn < 0.41:
            return SaveFailed.because(self._chance.choice(("closed", "silent", "fault")))
        elif drawn < 0.43 and writes:
            self.die()
            await asyncio.sleep(0)
        return None

    async def _after(self) -> bool:
        """Whether the answer is lost, though it was done."""
        if self.calm:
            return False
        drawn = self._chance.random()
        if drawn < 0.03:
            self.die()
            await asyncio.sleep(0)
        return drawn < 0.07

    async def load(self, key: str) -> Record | SaveFailed | None:
        return await self._before(writes=False) or await self._store.load(key)

    async def load_all(self, start: str) -> Found | SaveFailed:
        found = await self._before(writes=False) or await self._store.load_all(start)
        if isinstance(found, Found) and not self.calm and self._chance.random() < 0.05 and found.records:
            bad = self._chance.choice(sorted(found.records))  # once it cannot be read
            return Found({k: each for k, each in found.records.items() if k != bad}, (*found.unread, bad))
        return found

    async def save(self, key: str, text: str, revision: int) -> int | SaveFailed:
        return (await self.save_all([Change(key, text, revision)]))[key]

    async def remove(self, key: str, revision: int) -> SaveFailed | None:
        answer = (await self.save_all([Change(key, None, revision)]))[key]
        return answer if isinstance(answer, SaveFailed) else None

    async def save_all(self, changes: Sequence[Change]) -> dict[str, int | SaveFailed]:
        if (failed := await self._before(writes=True)) is not None:
            return {each.key: failed for each in changes}
        answers = await self._store.save_all(changes)
        for each in changes:
            if isinstance(revision := answers[each.key], int):
                self._written(each, revision)
        if await self._after():
            return {each.key: SaveFailed.because("silent") for each in changes}
        for each in changes:
            if isinstance(answers[each.key], int):
                self._confirmed(each)
        return answers

    async def keys(self, start: str = "") -> tuple[str, ...] | SaveFailed:
        return await self._before(writes=False) or await self._store.keys(start)

    async def room(self) -> Room | None:
        return await self._store.room()

    async def erase(self) -> SaveFailed | None:
        if (failed := await self._before(writes=True)) is not None:
            return failed
        failed = await self.erasing(self._store.erase())
        return SaveFailed.because("silent") if await self._after() else failed

    def on_change(self, call: Changed) -> None:
        def later(key: str, revision: int) -> None:
            wait = 0.0 if self.calm else self._chance.uniform(0, 4)
            asyncio.get_running_loop().call_later(wait, call, key, revision)

        self._store.on_change(later)


class Shared(MemoryStore):
    """One browser's records for several tabs: whoever saves, the others are told."""

    def __init__(self) -> None:
        super().__init__()
        self.heard: list[tuple[object, Changed]] = []

    def seen_by(self, tab: object) -> Store:
        """The store as one tab has it."""
        shared = self

        class Seen(MemoryStore):
            def __init__(self) -> None:
                self.closed = False

            def __getattribute__(self, name: str) -> Any:
                if name in ("on_change", "save_all", "save", "remove", "erase"):
                    return object.__getattribute__(self, name)
                return getattr(shared, name)

            def on_change(self, call: Changed) -> None:
                shared.heard.append((tab, call))

            async def save_all(self, changes: Sequence[Change]) -> dict[str, int | SaveFailed]:
                answers = await shared.save_all(changes)
                for key, revision in answers.items():
                    if isinstance(revision, int):
                        for other, call in shared.heard:
                            if other is not tab:
                                call(key, revision)
                return answers

            async def erase(self) -> SaveFailed | None:
                keys = await shared.keys()
                failed = await shared.erase()
                for key in keys if failed is None and not isinstance(keys, SaveFailed) else ():
                    for other, call in shared.heard:
                        if other is not tab:
                            call(key, shared._last(key))
                return failed

        return Seen()


@dataclass
class Known:
    """What is known of the words that were typed."""

    confirmed: set[Typed] = field(default_factory=set)
    over: set[Typed] = field(default_factory=set)
    """Replaced, or deleted, by somebody who saw them."""


def words_kept(records: Mapping[str, str]) -> set[Typed]:
    """The words that stand in records."""
    return {(key.partition(".")[2], word) for key, text in records.items() for word in WORD.findall(text)}


class History:
    """One history on one kind of store."""

    def __init__(self, seed: int, kind: str, frozen: FrozenDraft) -> None:
        self.chance = random.Random(f"{kind} {seed}")
        self.kind, self.frozen = kind, frozen
        self.shared, self.browser = Shared(), Browser(room=10_000_000)
        self.tabs: list[tuple[Tab, Flaky]] = []
        self.known = Known()
        self.count = 0
        self.log: list[str] = []
        self.was_full = False
        self.newer: dict[str, str] = {}
        self.written: dict[tuple[str, int], set[str | None]] = {}
        self.shown: set[tuple[str, str, int, str]] = set()
        self.erased: set[str] = set()
        self.browser.kept["foldmark.browser"] = "known"
        ServerStore._browsers.clear()
        ServerStore._tabs.clear()

    def word(self) -> str:
        self.count += 1
        return f"w{self.count}w"

    def words_of(self, records: Iterable[PersonRecord | GarmentRecord | None]) -> set[Typed]:
        return {(each.id, word) for each in records if each is not None for word in WORD.findall(repr(each))}

    def _confirm(self, change: Change) -> None:
        words = set(WORD.findall(change.text)) if change.text is not None else set[str]()
        said = "removed" if change.text is None else sorted(words)
        self.log.append(f"    saved {change.key} after {change.revision}: {said}")
        if change.key.startswith((PERSON, GARMENT)):
            self.known.confirmed |= {(change.key.partition(".")[2], word) for word in words}

    def _write(self, change: Change, revision: int) -> None:
        """The store holds it, whether its answer comes or not."""
        self.written.setdefault((change.key, revision), set()).add(change.text)

    def _shown_as_saved(self, tab: Tab, revisions: Mapping[str, int]) -> None:
        """A tab says that all it shows is saved: of each record the store has held that text, at that revision."""
        for key, of in all_kept(tab.state):
            if key.startswith((PERSON, GARMENT)):
                self.shown.add((tab.effects._mark[:3], key, revisions.get(key, 0), text_of_all(of)))

    async def _standing(self) -> dict[str, str]:
        """What is kept of people and garments, by key."""
        store: Store = self.shared if self.kind == "memory" else ServerStore(Client(self.browser))
        found = await store.load_all("")
        assert isinstance(found, Found)
        return {key: each.text for key, each in found.records.items() if key.startswith((PERSON, GARMENT, GONE))}

    async def _frozen_kept(self) -> set[str]:
        store: Store = self.shared if self.kind == "memory" else ServerStore(Client(self.browser))
        found = await store.load_all(FROZEN)
        return set(found.records) if isinstance(found, Found) else set()

    async def _erasing(self, work: Awaitable[SaveFailed | None]) -> SaveFailed | None:
        """Everything is deleted, or some of it; what was kept and is gone then was let go on purpose."""
        before, known = await self._standing(), set(self.known.confirmed)
        frozen = await self._frozen_kept()
        failed = await work
        self.erased |= frozen - await self._frozen_kept()
        after = await self._standing()
        self.log.append(f"    erased {len(before)} records, {len(after)} stand: {failed}")
        self.known.over |= (words_kept(before) | (self.known.confirmed - known)) - words_kept(after)
        self.newer = {key: text for key, text in self.newer.items() if key in after}
        return failed

    async def open(self) -> None:
        place = object()
        store: Store = self.shared.seen_by(place) if self.kind == "memory" else ServerStore(Client(self.browser))
        flaky = Flaky(store, self.chance, self._confirm, self._write)
        tab = Tab(flaky)
        tab.effects.on_kept = lambda revisions: self._shown_as_saved(tab, revisions)
        tab.effects._mark = f"{self.chance.getrandbits(32):08x}"

        def die() -> None:
            self.log.append(f"{tab.effects._mark[:3]} is killed")
            if self.was_full and tab.state.book.gone is not None:
                gone = tab.state.book.gone
                self.known.over |= self.words_of([gone.garment, gone.person])  # there was no room to keep the undo
            if any(each is tab for each, _ in self.tabs):
                self.tabs = [each for each in self.tabs if each[0] is not tab]
                if isinstance(store, ServerStore):
                    store.close()
                self.shared.heard = [each for each in self.shared.heard if each[0] is not place]
                tab.effects._send = tab.put = lambda action: None  # type: ignore[method-assign]
                for task in list(tab.effects._tasks):
                    task.cancel()

        put = tab.put

        def told(action: act.Action) -> None:
            if not isinstance(action, act.SetLight):
                self.log.append(f"{tab.effects._mark[:3]}   {action}"[:110])
            gone = tab.state.book.gone
            put(action)
            if gone is not None and tab.state.book.gone != gone:  # its undo is no longer offered
                self.known.over |= self.words_of([gone.garment, gone.person]) - self.seen(tab.state)

        tab.put = told  # type: ignore[method-assign]
        tab.effects._send = told
        flaky.die, flaky.erasing = die, self._erasing
        self.tabs.append((tab, flaky))
        self.log.append(f"{tab.effects._mark[:3]} opens")
        await tab.open()

    # ---- What a person does -----------------------------------------------------------------------------------------

    def seen(self, state: State) -> set[Typed]:
        """The words that stand in a tab, or can be put back there."""
        book, gone = state.book, state.book.gone
        return self.words_of([*book.people, *book.garments, *((gone.garment, gone.person) if gone is not None else ())])

    def do(self, tab: Tab, action: act.Action) -> None:
        """Do it; a word that was seen and is no longer there was let go on purpose."""
        before = self.seen(tab.state)
        tab.put(action)
        after = self.seen(tab.state)
        self.known.over |= before - after
        if isinstance(action, act.UndoLast):
            self.known.over -= after - before

    def step(self) -> None:  # noqa: PLR0912 - one branch for each thing that a person does
        tab = self.chance.choice(self.tabs)[0]
        state, chance = tab.state, self.chance
        if not state.loaded:
            return
        if state.locked:
            tab.put(act.LoadAgain())
            return
        people, garments = state.book.people, state.book.garments
        drawn = chance.random()
        if state.clashes and drawn < 0.3:
            clash = chance.choice(state.clashes)
            self.do(tab, chance.choice((act.KeepBoth, act.TakeTheirs))(clash.key))
        elif drawn < 0.12 or not people:
            self.do(tab, act.AddPerson())
        elif drawn < 0.35:
            self.do(tab, act.TypeName(chance.choice(people).id, self.word()))
        elif drawn < 0.42:
            self.do(tab, act.AddGarment(chance.choice(people).id))
        elif drawn < 0.47:
            self.do(tab, act.AddDemo(DEMO))
        elif drawn < 0.70 and garments:
            self.do(tab, act.TypeTitle(chance.choice(garments).id, self.word()))
        elif drawn < 0.76 and garments:
            self._chalk(tab, chance.choice(garments))
        elif drawn < 0.80 and garments:
            self.do(tab, act.CopyGarment(chance.choice(garments).id))
        elif drawn < 0.84 and garments:
            self.do(tab, act.DeleteGarment(chance.choice(garments).id))
        elif drawn < 0.87:
            self.do(tab, act.DeletePerson(chance.choice(people).id))
        elif drawn < 0.91:
            self.do(tab, act.UndoLast())
        elif drawn < 0.94:
            self.do(tab, act.CloseNotice())
        elif drawn < 0.955:
            self.do(tab, act.EraseAll())
        elif drawn < 0.965:
            self._open_sheet(tab, chance.random() < 0.5)
        elif drawn < 0.98:
            self.do(tab, act.SetLight(chance.choice(("light", "dark", "system"))))
        else:
            self.do(tab, act.Go(Place()))

    def _open_sheet(self, tab: Tab, measures: bool) -> None:
        """A chalk sheet's code is opened and taken over, with a person or with nobody."""
        order, _ = read_order(json.loads(DEMO) | {"sheet_measures": measures})
        assert order is not None
        backup = read_backup(code_text(order).encode())
        assert isinstance(backup, Backup)
        self.do(tab, act.BackupRead(backup))
        self.do(tab, act.TakeOver())
        garment, people = tab.state.garment, tab.state.book.people
        assert (garment is None) is (measures or tab.state.locked)
        if garment is not None and people and self.chance.random() < 0.5:
            self.do(tab, act.ChoosePerson(garment.id, self.chance.choice(people).id))

    def _chalk(self, tab: Tab, garment: GarmentRecord) -> None:
        person = tab.state.book.person(garment.person)
        typed = order_of(garment, person)[0]
        if not garment.chalking and typed is not None:
            self.do(tab, act.Go(Place("proof", garment.id)))
            self.do(tab, act.Froze(garment.id, replace(self.frozen, order=order_text(typed))))
        elif (chalking := chalking_of(tab.state, garment)) is not None:
            self.do(tab, act.MarkDone(garment.id, item_at(garment, chalking)))
        elif garment.chalking:
            self.do(tab, act.Go(Place("chalk", garment.id)))

    # ---- What happens around it -------------------------------------------------------------------------------------

    def _room(self) -> None:
        """There is no more room, or there is again."""
        self.was_full = True
        if self.kind == "memory":
            full = self.shared.room_in_all is None
            self.shared.room_in_all = self.shared._used() + 50 if full else None
        else:
            full = self.browser.room > 5_000_000
            used = sum(len(text) for text in self.browser.kept.values())
            self.browser.room = used + 50 if full else 10_000_000

    async def _newer(self) -> None:
        """A newer app writes a record of its own."""
        key = f"{GARMENT}g{9000 + len(self.newer)}-newer"
        text = json.dumps({"format": "foldmark-garment", "version": 3, "garment": {"id": key.partition(".")[2]}})
        store: Store = self.shared if self.kind == "memory" else ServerStore(Client(self.browser))
        if isinstance(await store.save(key, text, 0), int):
            self.newer[key] = text

    async def play(self) -> None:
        await self.open()
        for _ in range(STEPS):
            drawn = self.chance.random()
            if not self.tabs or (drawn < 0.06 and len(self.tabs) < 3):
                await self.open()
            elif drawn < 0.09:
                self.chance.choice(self.tabs)[1].die()
            elif drawn < 0.11:
                await self.chance.choice(self.tabs)[0].effects.finish()
            elif drawn < 0.13:
                self._room()
            elif drawn < 0.14:
                await self._newer()
            else:
                self.step()
            if self.chance.random() < 0.5:
                await asyncio.sleep(self.chance.choice((0.01, 0.2, 0.5, 2, 10, 3600)))
        await self._end()

    async def _end(self) -> None:
        """All faults are over. What waits is saved; then the book is opened anew and looked at."""
        self.shared.room_in_all, self.browser.room = None, 10_000_000
        for _, flaky in self.tabs:
            flaky.calm = True
        for _ in range(6):
            for tab, _ in self.tabs:
                await tab.quiet()
                await asyncio.sleep(10)
                if tab.state.locked or set(tab.state.left) - set(self.newer):
                    tab.put(act.LoadAgain())
                for clash in tab.state.clashes:
                    self.do(tab, act.KeepBoth(clash.key))
                light = "dark" if tab.state.book.settings.light != "dark" else "light"
                self.do(tab, act.SetLight(light))  # any change tries again what could not be saved
        for tab, flaky in list(self.tabs):
            await tab.quiet()
            older = bool(set(tab.state.left) - set(self.newer))
            if tab.state.locked and self.kind == "server":
                assert tab.state.notice is not None
                assert tab.state.notice.words == words("saved.reload")
                older = True
            if older:  # its copy is older than what a closed tab saved: load the page again
                flaky.die()
        await self._look()

    async def _look(self) -> None:
        store: Store = self.shared if self.kind == "memory" else ServerStore(Client(self.browser))
        fresh = await Tab(store).open()
        assert not fresh.state.locked
        kept = await store.load_all("")
        assert isinstance(kept, Found)
        assert set(fresh.state.left) == set(self.newer), "what a newer app wrote is left alone, and nothing else"
        for key, text in self.newer.items():
            assert kept.records[key].text == text
        untrue = [  # judged now, because another tab may read a record before its own tab has its answer
            f"{mark} {key} at {revision}"
            for mark, key, revision, text in sorted(self.shown)
            if text not in self.written.get((key, revision), set())
        ]
        assert not untrue, f"shown as saved, and never was: {untrue}"
        lost = self.known.confirmed - self.known.over - words_kept(await self._standing())
        assert not lost, f"confirmed and lost: {sorted(lost)}"
        for tab, _ in self.tabs:
            state = tab.state
            assert not state.clashes
            for mine, kept_now in (
                (state.book.people, fresh.state.book.people),
                (state.book.garments, fresh.state.book.garments),
            ):
                assert mine == kept_now, (
                    tab.effects._mark,
                    set(map(repr, mine)) ^ set(map(repr, kept_now)),
                    tab.state.notice,
                )
            mine = {key: text_of_all(of) for key, of in all_kept(state) if key.startswith((PERSON, GARMENT, FROZEN))}
            theirs = {key: kept.records[key].text for key in mine}
            assert mine == theirs, "what a tab shows at rest is what is kept"
        for garment in fresh.state.book.garments:
            key = (
                FROZEN + garment.id
            )  # erased between its own saving and that of its garment, it is let go when it is read
            assert not garment.chalking or key in kept.records or key in self.erased, "what is chalked from is kept"
        ids = [each.id for each in (*fresh.state.book.people, *fresh.state.book.garments)]
        assert len(ids) == len(set(ids))


def play(seed: int, kind: str, frozen: FrozenDraft) -> None:
    """Play one history to its end; AssertionError where something that must hold does not."""
    history = History(seed, kind, frozen)
    try:
        run(history.play())
    except AssertionError as failure:
        failure.add_note("\n".join([*history.log, f"play({seed}, {kind!r}, frozen_demo()) plays it again"]))
        raise


__all__ = ["History", "PersonRecord", "frozen_demo", "play"]
