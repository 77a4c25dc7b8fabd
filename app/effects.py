"""The only input and output of the app: saving, drafting, files, addresses. Everything comes back as an action.

One session has one `Effects`. Nothing here uses a thread, so that it runs alike in the browser: long work is cut into
steps with a pause between them in which the screen can answer.
"""

import asyncio
import json
import secrets
import sys
import time
import traceback
from collections.abc import Callable, Collection, Coroutine, Iterable, Mapping, Sequence
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any, Final, Literal, Protocol

from app import actions as act
from app import asks
from app.backup import Backup, holds_all, part_of, reading, writing
from app.laying import answering, question_of
from app.page_picture import is_picture
from app.page_table import Heard
from app.presets import sketch_cloth
from app.saved import (
    BOOK,
    FROZEN,
    GARMENT,
    GONE,
    KINDS,
    PERSON,
    SHARED,
    Kept,
    KeptGarment,
    Migrated,
    ReadBook,
    Unreadable,
    all_kept,
    migrated,
    place_text,
    read,
    read_all,
    read_place,
    text_of_all,
)
from app.state import (
    Book,
    Drafted,
    FrozenDraft,
    GarmentRecord,
    Gone,
    Installs,
    LaidOut,
    OtherTape,
    Paper,
    Place,
    State,
    place_of,
)
from app.storage import PLACE, Change, Found, Record, SaveFailed, Store
from app.text import words
from app.typed import order_of, order_text
from drafting.order import Result, glance, making, read_order
from drafting.other_tape import read_on
from drafting.record import documents
from drafting.record.backup_file import MOST_BYTES, same_marks
from drafting.record.order_code import MARK
from drafting.record.packed import packed, unpacked
from drafting.record.papers import Papers, kept_papers, papers_of, papers_text
from drafting.render.assets import ASSETS
from drafting.stepwise import Steps, Value
from drafting.units import TAPES, TapeStep

AT_ONCE = 200
"""Records that are saved in one go, so that the screen can answer in between."""
NOT_OURS = -1
"""In place of the revision of a record that only the tab that wrote it removes."""
MIGRATIONS = 3
"""How often an older book is made new where another tab does the same."""
READINGS = 3
"""How often what is kept is read anew where something was changed while it was read."""
LOAD_AGAIN = (0.5, 2.0)
"""Seconds before each further try to read the book where the browser refused: our choice."""
READ_AGAIN = (0.0, 1.0, 5.0, 30.0)
"""Seconds before each try to read what another tab has saved: our choice, a busy device is quiet by then."""
CARDS = 6
"""Garments in chalking whose marks are read at the start, for the first cards of home."""
SAVE_AFTER = 0.3
"""Seconds of quiet before the book is saved: our choice, because a person types a letter every 0.1 to 0.3 seconds."""
LAY_AFTER = 0.25
"""Seconds of quiet before the pieces are laid and their marks planned. The outline follows every key before that."""
STEP = 0.02
"""Seconds of long work between two pauses in which the screen can answer: our choice, about one frame."""
BREATH = 0.03
"""Seconds in which the screen is shown before long work begins."""

OTHERWISE: Final[Literal["otherwise"]] = "otherwise"
"""In place of a paper whose marks would be others than those that are being chalked."""
_SAVED: dict[act.Way, act.Came] = {"save": "saved", "print": "saved_to_print", "share": "saved_to_share"}


class Device(Protocol):
    """What the effects need of the screen's host."""

    async def go(self, route: str) -> None:
        """Show this address, adding to the browser's history."""
        ...

    async def offer(self, name: str, content: bytes) -> None:
        """Hand a file to the person."""
        ...

    async def print_file(self, name: str, content: bytes) -> bool:
        """Show a file for printing; False where the browser does not."""
        ...

    async def share(self, name: str, content: bytes) -> bool | None:
        """Let the person give a file to another app; None where they gave it to none, False where it cannot be."""
        ...

    async def installs(self, *, now: bool) -> Installs:
        """Whether the page can be installed on the device; with `now` the person is asked first."""
        ...

    async def read_camera(self) -> str | None:
        """What the code before the camera says, "" where it was closed; None where there is none that may be used."""
        ...

    async def read_picture(self, content: bytes) -> str | None:
        """What a code in a picture says, "" where none is found; None where no picture can be read here."""
        ...

    async def speak(self, text: str) -> Heard:
        """Read a text aloud, or stop reading where it is empty."""
        ...

    async def stay_awake(self, on: bool) -> bool:
        """Keep the screen awake or let it sleep; False where the browser refuses."""
        ...


class Effects:
    """Does what `app.update` asks, for one session."""

    def __init__(
        self, store: Store, device: Device, now: Callable[[], State], send: Callable[[act.Action], None]
    ) -> None:
        self._store, self._device, self._now, self._send = store, device, now, send
        self._tasks: set[asyncio.Task[None]] = set()
        self._loading: asyncio.Task[None] | None = None
        self._saving: asyncio.Task[None] | None = None
        self._placing: asyncio.Task[None] | None = None
        self._drafting: asyncio.Task[None] | None = None
        self._lock = asyncio.Lock()
        self._mark = secrets.token_hex(4)
        self._kept: dict[
            str, tuple[object, ...]
        ] = {}  # what is known to be saved, by key, as the objects it is made of
        self._revisions: dict[str, int] = {}
        self._removed: dict[str, int] = {}
        """The records that this tab itself took away, by key, and the revision of that: nobody knew more of them."""
        self.on_kept: Callable[[Mapping[str, int]], None] | None = None
        """Told the revisions of what is saved, whenever all that is shown has been saved."""
        self._tried: dict[str, str | None] = {}  # what was to be saved where the store has not said that it was
        store.on_change(self._elsewhere)

    def do(self, asked: asks.Ask) -> None:
        """Begin one of the things asked for; answers come later, as actions."""
        match asked:
            case asks.SaveBook():
                self._saving = self._newest(self._saving, self._save_book(SAVE_AFTER))
            case asks.SavePlace():
                self._placing = self._newest(self._placing, self._save_place(SAVE_AFTER))
            case asks.Draft():
                self._drafting = self._newest(self._drafting, self._draft(asked))
            case asks.Load():
                self._loading = self._newest(self._loading, self._load(asked.route))
            case asks.LoadFrozen():
                self._begin(self._load_frozen(asked.garment))
            case asks.SaveNow():
                self._begin(self._save_book(0.0))
            case asks.EraseAll():
                self._begin(self._erase_all())
            case asks.ReadRoom():
                self._begin(self._read_room())
            case asks.RemoveFrozen():
                self._begin(self._remove_frozen(asked.garment))
            case asks.Freeze():
                self._begin(self._freeze(asked.garment))
            case asks.ReadDay():
                self._send(act.TypeTakenOn(asked.person, date.today().isoformat()))
            case _:
                self._begin(self._by_the_device(asked))

    def _by_the_device(self, asked: asks.Ask) -> Coroutine[Any, Any, None]:
        """What the screen's host does, and files."""
        match asked:
            case asks.GoTo():
                return self._device.go(asked.route)
            case asks.MakeFile():
                return self._make_file(asked)
            case asks.MakeBackup():
                return self._make_backup(asked)
            case asks.ReadBackup() | asks.ReadCamera():
                return self._open(asked)
            case asks.ReadInstall() | asks.InstallHere():
                return self._install(now=isinstance(asked, asks.InstallHere))
            case asks.Speak():
                return self._speak(asked.text)
            case asks.StayAwake():
                return self._stay_awake(asked.on)
            case asks.ReadDemo():
                return self._demo()
            case _:
                raise TypeError(type(asked).__name__)

    async def finish(self) -> None:
        """Save what is waiting to be saved, then leave; for the end of a session."""
        if self._saving is not None and not self._saving.done():
            self._saving.cancel()
            await self._save_book(0.0)
        if self._placing is not None and not self._placing.done():
            self._placing.cancel()
            await self._save_place(0.0)

    def _begin(self, work: Coroutine[Any, Any, None]) -> asyncio.Task[None]:
        async def watched() -> None:
            try:
                await work
            except asyncio.CancelledError:
                raise
            except Exception as failure:
                self._send(act.Troubled(report_of(failure)))

        task = asyncio.create_task(watched())
        self._tasks.add(task)
        task.add_done_callback(self._tasks.discard)
        task.add_done_callback(lambda _: work.close())  # what was put aside before it began is never awaited
        return task

    def _newest(self, before: asyncio.Task[None] | None, work: Coroutine[Any, Any, None]) -> asyncio.Task[None]:
        if before is not None:
            before.cancel()
        return self._begin(work)

    # ---- At the table -----------------------------------------------------------------------------------------------

    async def _speak(self, text: str) -> None:
        heard = await self._device.speak(text)
        if text and heard != "spoken":
            self._send(act.NotSpoken(heard))

    async def _stay_awake(self, on: bool) -> None:
        if not await self._device.stay_awake(on) and on:
            self._send(act.NotAwake())

    # ---- Saved records ----------------------------------------------------------------------------------------------

    async def _load(self, route: str) -> None:
        """Read what is kept. What was changed here is saved before, and nothing is read over what could not be."""
        async with self._lock:
            for _ in range(READINGS):
                await self._save_changes()
                found = await self._read_book()
                for wait in LOAD_AGAIN:
                    if not isinstance(found, SaveFailed) or found.reason != "closed":
                        break
                    await asyncio.sleep(wait)  # a browser that is just starting may need a moment
                    found = await self._read_book()
                if isinstance(found, SaveFailed):
                    # A tab that is closed has saved what this page does not hold: only a new page can read it.
                    self._send(act.LoadFailed(words("saved.reload") if found.reason == "stale" else found.words))
                    return
                records, unread = found
                place = read_place(records[PLACE].text if PLACE in records else None)
                asked = place_of(route)
                book = read_all({key: record.text for key, record in records.items() if key != PLACE}, unread)
                await self._read_marks(book, records, (place if asked is None or asked == Place() else asked).garment)
                if not self._unsaved():
                    break
            else:
                return
            self._revisions = {key: record.revision for key, record in records.items()}
            self._kept, self._tried = {}, {}
            self._send(act.Loaded(book, route, place, self._mark, date.today().isoformat()))
            self._kept = {key: of for key, of in all_kept(self._now()) if key in records}
            self._tell_kept()

    def _tell_kept(self) -> None:
        if self.on_kept is not None and not self._unsaved():
            self.on_kept(self._revisions)

    def _unsaved(self) -> list[str]:
        """The keys of what was changed here since it was saved last."""
        state = self._now()
        if state.locked or not state.loaded:
            return []
        wanted = dict(all_kept(state))
        gone = [key for key in self._kept if key not in wanted and not key.startswith(FROZEN)]
        return gone + [key for key, of in wanted.items() if key != BOOK and not _same(self._kept.get(key), of)]

    async def _read_marks(self, book: ReadBook, records: dict[str, Record], place: str) -> None:
        """Read the frozen drafts that are wanted at once into a book that was read."""
        for garment in _looked_at(book.book, place):
            key = FROZEN + garment.id
            record = await self._store.load(key)
            if record is None:
                continue  # it is asked for again when the garment is looked at
            frozen = read(key, record.text) if isinstance(record, Record) else Unreadable("damaged")
            if isinstance(frozen, FrozenDraft):
                book.frozen[garment.id] = frozen
            elif isinstance(frozen, Unreadable):  # what is there is another thing than what is not there
                book.left[key] = frozen.why
            if isinstance(record, Record):
                records[key] = record

    async def _read_book(self) -> tuple[dict[str, Record], tuple[str, ...]] | SaveFailed:
        """All records that are read at a start, with the keys of those that could not be; older ones made new first."""
        found: dict[str, Record] = {}
        unread: list[str] = []
        for _ in range(MIGRATIONS):
            head = await self._store.load(BOOK)
            if isinstance(head, SaveFailed):
                return head
            if head is None:
                break
            made_new = await self._made_new(head)
            if made_new is None:
                found[BOOK] = head
                break
            if isinstance(made_new, SaveFailed) and made_new.reason != "stale":
                return made_new  # stale: another tab does the same just now
        else:
            return SaveFailed.because("silent", "older book")
        for kind in KINDS:
            records = await self._store.load_all(kind)
            if isinstance(records, SaveFailed):
                return records
            found |= records.records
            unread += records.unread
        place = await self._store.load(PLACE)
        if isinstance(place, Record):
            found[PLACE] = place
        return found, tuple(unread)

    async def _made_new(self, head: Record) -> bool | SaveFailed | None:
        """Keep a book of an older version in records of today; None where it is of today.

        The old book stays as it is until every new record is saved, and then becomes the new one's head.
        """
        if not isinstance(migrated(head.text, {}), Migrated):
            found = read(BOOK, head.text)
            return SaveFailed(words(f"saved.{found.why}"), "damaged") if isinstance(found, Unreadable) else None
        frozen = await self._store.load_all(FROZEN)
        place = await self._store.load(PLACE)
        left = [await self._store.load_all(kind) for kind in KINDS]
        if isinstance(frozen, SaveFailed):
            return frozen
        texts: dict[str, str | None] = {key.removeprefix(FROZEN): each.text for key, each in frozen.records.items()}
        texts |= {key.removeprefix(FROZEN): None for key in frozen.unread}
        new = migrated(head.text, texts, place.text if isinstance(place, Record) else None)
        if not isinstance(new, Migrated):
            return None
        last = {BOOK: head} | frozen.records | ({PLACE: place} if isinstance(place, Record) else {})
        for some in left:
            last |= some.records if isinstance(some, Found) else {}
        revisions = {key: record.revision for key, record in last.items()}
        begun = [key for some in left if isinstance(some, Found) for key in some.records if key not in new.records]
        changes = [Change(key, text, revisions.get(key, 0)) for key, text in new.records.items() if key != BOOK]
        answers = await self._store.save_all([*changes, *(Change(key, None, revisions[key]) for key in begun)])
        failed = next((each for each in answers.values() if isinstance(each, SaveFailed)), None)
        if failed is None:
            saved = await self._store.save(BOOK, new.records[BOOK], head.revision)
            failed = saved if isinstance(saved, SaveFailed) else None
        if failed is not None:
            return failed
        for key in new.moved:
            await self._store.remove(FROZEN + key, revisions[FROZEN + key])
        return True

    async def _load_frozen(self, garment: str) -> None:
        key = FROZEN + garment
        async with self._lock:
            record = await self._store.load(key)
            frozen = read(key, record.text) if isinstance(record, Record) else None
            if isinstance(record, Record):
                self._revisions[key] = record.revision
            if isinstance(frozen, FrozenDraft):
                self._kept[key] = (frozen,)
            self._send(
                act.FrozenRead(garment, frozen if isinstance(frozen, FrozenDraft) else None, kept=record is not None)
            )

    async def _save_book(self, wait: float) -> None:
        await asyncio.sleep(wait)
        # From here on the saving is not put aside any more: half a save would lose the count of revisions.
        self._saving = None
        async with self._lock:
            await self._save_changes()
            self._tell_kept()

    async def _save_place(self, wait: float) -> None:
        await asyncio.sleep(wait)
        self._placing = None
        async with self._lock:
            # Where it fails, the next opening begins elsewhere; that is not worth a word.
            await self._save_shared([Change(PLACE, place_text(self._now().place), 0)])
            self._tell_kept()

    async def _save_changes(self) -> frozenset[str]:
        """Save every record that was changed since it was saved last; the keys of those that could not be.

        A frozen draft is saved before the garment that is chalked from it, and what was deleted before it goes.
        """
        state = self._now()
        if state.locked or not state.loaded:
            return frozenset()
        wanted = dict(all_kept(state))
        held = self._held()
        changed = [key for key, of in wanted.items() if key not in held and not _same(self._kept.get(key), of)]
        gone = [key for key in self._kept if key not in wanted and key not in held and not key.startswith(FROZEN)]
        first = [key for key in changed if key.startswith((GONE, FROZEN))]
        failed = await self._save(first, wanted)
        undoable = {key.removeprefix(GONE) for key, each in failed.items() if each.reason != "full"}
        gone = [key for key in gone if key.partition(".")[2] not in undoable]
        unfrozen = {GARMENT + key.removeprefix(FROZEN) for key in failed if key.startswith(FROZEN)}
        waits = self._held() | unfrozen | set(first)  # two tabs may just have been found to have frozen one garment
        failed |= await self._save([key for key in changed if key not in waits], wanted)
        unsaved = {GONE + key.partition(".")[2] for key in (*failed, *self._held())}  # it is not put back yet
        failed |= await self._save([key for key in gone if key not in self._held() | unsaved], {})
        if failed:
            worst = next((each for each in failed.values() if each.reason == "full"), next(iter(failed.values())))
            self._send(act.NotSaved(worst.words, worst.reason == "full"))
        return frozenset(failed) | unfrozen

    def _held(self) -> set[str]:
        """The keys of what is not saved until a person has chosen."""
        held = {clash.key for clash in self._now().clashes}
        return held | {FROZEN + key.removeprefix(GARMENT) for key in held}

    async def _save(self, keys: Sequence[str], wanted: Mapping[str, tuple[object, ...]]) -> dict[str, SaveFailed]:
        """Save or remove these records; those that could not be, without those that another tab was first with."""
        changes = [
            Change(key, text_of_all(wanted[key]) if key in wanted else None, self._revision_for(key, wanted))
            for key in keys
        ]
        answers = await self._save_shared([each for each in changes if each.key in SHARED])
        for at in range(0, len(changes), AT_ONCE):
            some = [each for each in changes[at : at + AT_ONCE] if each.key not in SHARED]
            answers |= await self._store.save_all(some) if some else {}
        failed: dict[str, SaveFailed] = {}
        for change in changes:
            answer: int | SaveFailed | None = answers[change.key]
            if isinstance(answer, SaveFailed) and answer.reason == "stale":
                answer = await self._overtaken(change)
            if isinstance(answer, SaveFailed):
                failed[change.key] = answer
                self._tried[change.key], self._kept[change.key] = change.text, ()  # it may be done all the same
                continue
            self._tried.pop(change.key, None)
            if change.text is None and isinstance(removed := answers[change.key], int):
                self._removed[change.key] = removed
            if answer and change.key in wanted:
                self._revisions[change.key], self._kept[change.key] = answer, wanted[change.key]
            elif answer is not None:
                self._kept.pop(change.key, None)
                self._revisions.pop(change.key, None)
        return failed

    def _revision_for(self, key: str, wanted: Mapping[str, tuple[object, ...]]) -> int:
        """The revision that a change is made over; what another tab put aside is looked at before it is replaced."""
        before = self._kept.get(key) or ()
        ours = key in self._tried or any(isinstance(each, Gone) and each.by == self._mark for each in before)
        return 0 if key.startswith(GONE) and key in wanted and not ours else self._revisions.get(key, 0)

    async def _save_shared(self, changes: Sequence[Change]) -> dict[str, int | SaveFailed]:
        """Save records that are nobody's alone, over whatever another tab has saved."""
        answers: dict[str, int | SaveFailed] = {}
        for change in changes:
            last = await self._store.load(change.key)
            revision = last.revision if isinstance(last, Record) else 0
            if change.text is not None:
                answers[change.key] = await self._store.save(change.key, change.text, revision)
            else:
                answers[change.key] = await self._store.remove(change.key, revision) or 0
        return answers

    async def _overtaken(self, change: Change) -> int | SaveFailed | None:
        """Another tab was first. Its revision where both say the same; None where a person will choose."""
        theirs = await self._store.load(change.key)
        if isinstance(theirs, SaveFailed):
            return theirs
        text = None if theirs is None else theirs.text
        if text == change.text:
            return 0 if theirs is None else theirs.revision
        if theirs is not None and change.key.startswith(GONE) and change.text is not None:
            name = change.key.removeprefix(GONE)
            known = False
            for of in (PERSON + name, GARMENT + name):
                still = await self._store.load(of)
                if isinstance(still, SaveFailed):
                    return still  # what is not known is not written over
                known = known or (
                    of in self._removed if still is None else still.revision == self._revisions.get(of, 0)
                )
            if not known:
                return NOT_OURS  # deleted or changed there since, and what the other has put aside is the newer
        own = change.key in self._tried and text == self._tried[change.key]
        if change.key.startswith(GONE) and change.text is None and not own:
            return 0  # another tab has put it aside since, and lets it go itself
        if own or change.key.startswith(GONE):  # it was this tab, and the answer was lost
            again = replace(change, revision=0 if theirs is None else theirs.revision)
            return (await self._store.save_all([again]))[change.key]
        kept = None if theirs is None else read(change.key, theirs.text)
        if isinstance(kept, Unreadable):
            return SaveFailed(words(f"saved.{kept.why}"), "damaged")
        self._revisions[change.key] = 0 if theirs is None else theirs.revision
        if change.text is None:
            self._take(change.key, kept)  # deleted here, and worked on there: it stays
        elif change.key.startswith(FROZEN):
            await self._clash_of_drafts(GARMENT + change.key.removeprefix(FROZEN))
        else:
            self._clash(change.key, kept)
        return None

    def _clash(self, key: str, theirs: Kept | None) -> None:
        """Hold back what is here; what the other tab saved is not saved once more where it is chosen."""
        self._send(act.Clashed(key, theirs))
        self._kept[key] = _objects(theirs)

    async def _clash_of_drafts(self, key: str) -> None:
        """Two tabs froze a draft of one garment: the garment as it is in the other."""
        theirs = await self._store.load(key)
        kept = read(key, theirs.text) if isinstance(theirs, Record) else None
        self._revisions[key] = theirs.revision if isinstance(theirs, Record) else 0
        self._clash(key, None if isinstance(kept, Unreadable) else kept)

    def _elsewhere(self, key: str, revision: int) -> None:
        if revision > self._removed.get(key, revision):
            del self._removed[key]  # it was put back there
        if revision > self._revisions.get(key, 0) and key != PLACE and not key.startswith(GONE):
            self._begin(self._fetch(key))

    def _is_kept_here(self, key: str) -> bool:
        """Whether a record was changed here and is not saved yet, or waits until a person has chosen."""
        state = self._now()
        of = dict(all_kept(state)).get(key)
        return any(each.key == key for each in state.clashes) or (of is not None and not _same(self._kept.get(key), of))

    async def _fetch(self, key: str) -> None:
        """Read what another tab has saved, unless it was changed here too: then its saving here will tell."""
        for wait in READ_AGAIN:
            await asyncio.sleep(wait)
            async with self._lock:
                state = self._now()
                held = any(each.key == key for each in state.clashes)
                mine = not _same(self._kept.get(key), dict(all_kept(state)).get(key))
                if state.locked or not state.loaded or (mine and not held):
                    return
                record = await self._store.load(key)
                if isinstance(record, SaveFailed):
                    continue
                self._revisions[key] = 0 if record is None else record.revision
                if key.startswith(FROZEN) and self._is_kept_here(GARMENT + key.removeprefix(FROZEN)):
                    if record is None:
                        self._kept.pop(key, None)  # saved again with its garment, if a person keeps that
                    return
                kept = None if record is None else read(key, record.text)
                if held and not isinstance(kept, Unreadable):
                    self._clash(key, kept)
                else:
                    self._take(key, kept)
                return

    def _take(self, key: str, kept: Kept | Unreadable | None) -> None:
        """Have a record of the store in place of what is here."""
        self._send(act.RecordCame(key, kept))
        of = dict(all_kept(self._now())).get(key)
        if of is None:
            self._kept.pop(key, None)
        else:
            self._kept[key] = of

    async def _remove_frozen(self, garment: str) -> None:
        key = FROZEN + garment
        async with self._lock:
            if garment in self._now().frozen or self._now().locked:
                return  # put back meanwhile
            failed = await self._save_changes()
            stands = self._now().book.garment(garment)
            if GARMENT + garment in failed or (stands is not None and stands.chalking):
                return  # what still is to be chalked from it keeps it
            found = await self._store.load(key)
            if isinstance(found, Record) and await self._store.remove(key, found.revision) is None:
                self._kept.pop(key, None)
                self._revisions.pop(key, None)

    async def _erase_all(self) -> None:
        """Delete every record; what was to be saved is put aside first, and then it is looked whether none is left."""
        await asyncio.sleep(BREATH)
        for waiting in (self._saving, self._placing, self._drafting):
            if waiting is not None:
                waiting.cancel()
        async with self._lock:
            failed = await self._store.erase()
            left = await self._keys_left()
            if failed is not None and left == ():
                failed = await self._store.erase()  # it was done, and the answer was lost; or something lies there yet
            failed = left if failed is None and isinstance(left, SaveFailed) else failed
            if failed is not None or left:
                if not isinstance(left, SaveFailed):
                    self._let_go(left)
                why = words("erase.left") if failed is None else failed.words
                self._send(act.NotErased(words("erase.failed", why=why)))
                self.do(asks.SaveBook())  # what was put aside is not lost where it all stays
                return
            self._revisions, self._tried, self._removed = {}, {}, {}
            self._send(act.Erased())
            self._kept = dict(all_kept(self._now()))  # an empty book is not saved before something is in it
            self._tell_kept()

    async def _keys_left(self) -> tuple[str, ...] | SaveFailed:
        """The keys of what is kept, asked for again where the store does not answer."""
        for wait in READ_AGAIN[:-1]:
            await asyncio.sleep(wait)
            left = await self._store.keys()
            if not isinstance(left, SaveFailed):
                break
        return left

    def _let_go(self, left: Collection[str]) -> None:
        """What is no longer among these keys is gone here too, as if another tab had deleted it."""
        known = {key for key, revision in self._revisions.items() if revision} | set(self._now().left)
        for key in sorted(known - set(left)):
            self._revisions.pop(key, None)
            if key in SHARED or key.startswith(GONE):
                self._kept.pop(key, None)  # it is saved anew
            else:
                self._take(key, None)

    async def _read_room(self) -> None:
        async with self._lock:
            room = await self._store.room()
        self._send(act.RoomCame(None, None) if room is None else act.RoomCame(room.used, room.left))

    async def _install(self, *, now: bool) -> None:
        self._send(act.InstallCame(await self._device.installs(now=now)))

    # ---- Drafts -----------------------------------------------------------------------------------------------------

    async def _draft(self, asked: asks.Draft) -> None:
        # The glance comes before the first pause, so that a choice and its outline reach the screen as one change.
        state = self._now()
        garment = state.book.garment(asked.garment)
        if garment is None:
            return
        typed, problems = order_of(garment, state.book.wearer(garment))
        if typed is None:
            sketch = None
            if all(problem.code == "cloth_missing" for problem in problems):
                known = {key: text for key, text in garment.cloth.items() if text.strip()}
                lent = replace(garment, cloth=sketch_cloth(garment.garment) | known)
                lent_order = order_of(lent, state.book.wearer(garment))[0]
                order, found = (None, ()) if lent_order is None else read_order(lent_order)
                problems = (*(each for each in found if not each.field.startswith("cloth.")), *problems)
                sketch = None if order is None else glance(order, judged=False)
            self._send(act.DraftCame(Drafted(garment.id, {}, None, problems, sketch=sketch)))
            return
        last = state.drafted
        if last is not None and (last.garment, last.typed) != (garment.id, typed):
            last = None  # an answer to something else
        if last is not None and last.result is None:
            return
        if last is not None and last.laid and (last.full or not asked.full) and not asked.lay:
            return
        order, problems = read_order(typed)
        if order is None:
            self._send(act.DraftCame(Drafted(garment.id, typed, None, problems)))
            return
        seen = None if last is None else last.result
        if not asked.lay and (seen is None or (asked.full and not seen.checks)):
            # The lay screen keeps what it shows until the new is laid; only who asks for all reads checks.
            self._send(act.DraftCame(Drafted(garment.id, typed, glance(order, judged=asked.full), problems)))
        await asyncio.sleep(LAY_AFTER)
        result = last.result if last is not None and last.laid else None
        if result is None:
            result = await _stepwise(making(order, with_ways_out=False))
            self._send(act.DraftCame(Drafted(garment.id, typed, result, problems, laid=True)))
        if asked.lay:
            await self._lay(garment, result)
        if asked.full:
            whole = await _stepwise(making(order))
            self._send(act.DraftCame(Drafted(garment.id, typed, whole, problems, laid=True, full=True)))

    async def _lay(self, garment: GarmentRecord, result: Result) -> None:
        state = self._now()
        question = question_of(garment, state.book.garments, {person.id: person for person in state.book.people})

        def tell(step: object) -> None:
            if isinstance(step, LaidOut):
                self._send(act.LayCame(step))

        self._send(act.LayCame(await _stepwise(answering(garment.id, result, question, state.laid), tell)))

    async def _freeze(self, key: str) -> None:
        await asyncio.sleep(BREATH)
        state = self._now()
        garment = state.book.garment(key)
        typed = None if garment is None else order_of(garment, state.book.wearer(garment))[0]
        order = None if typed is None else read_order(typed)[0]
        result = None if order is None else await _stepwise(making(order))
        if typed is None or result is None or result.plan is None:
            self._send(act.FileFailed(words("chalk.cannot")))
            return
        others: dict[str, OtherTape] = {}
        for tape in TAPES:
            if tape.step != result.ready.tape.step:
                await asyncio.sleep(0)
                others[tape.step] = _on_other_tape(result, tape.step)
        await asyncio.sleep(0)
        papers = packed(papers_text(papers_of(result)))
        draft = documents.draft_json(result).decode()
        self._send(act.Froze(key, FrozenDraft(order_text(typed), draft, others, papers)))

    # ---- Files and the rest -----------------------------------------------------------------------------------------

    async def _make_file(self, asked: asks.MakeFile) -> None:
        await asyncio.sleep(BREATH)
        content = await self._content(asked)
        if isinstance(content, str):
            self._send(act.FileFailed(words("paper.otherwise")))
            return
        if content is None:
            unread = asked.garment in self._now().unread
            self._send(act.FileFailed(words("paper.unread" if unread else "paper.cannot")))
            return
        await asyncio.sleep(0)
        try:
            came = await self._hand_over(asked, content)
        except asyncio.CancelledError:
            raise
        except Exception:  # the device's own refusal, such as a blocked download
            self._send(act.FileFailed(words("paper.refused")))
            return
        self._send(act.FileOffered(asked.name, came))

    async def _open(self, asked: asks.ReadBackup | asks.ReadCamera) -> None:
        """Read what a file, a picture or the camera brings, and tell what it holds."""
        await asyncio.sleep(BREATH)
        if isinstance(asked, asks.ReadCamera):
            text = await self._device.read_camera()
            if text == "":
                self._send(act.CameraClosed())
                return
            held = words("camera.none") if text is None else _code_of(text)
        elif is_picture(asked.content):
            text = await self._device.read_picture(asked.content)
            held = words("picture.not_here") if text is None else _code_of(text)
        else:
            held = asked.content
        if isinstance(held, str):
            self._send(act.BackupRead(None, held))
            return
        read = await _stepwise(reading(held))
        if isinstance(read, Backup):
            here = [key for key in read.frozen if self._now().book.garment(key) is not None]
            self._send(act.BackupRead(read, "", *await self._frozen_of(here)))
        else:
            self._send(act.BackupRead(None, read.words))

    async def _hand_over(self, asked: asks.MakeFile, content: bytes) -> act.Came:
        """Print or share it where the browser does, and save it where it does not."""
        if asked.way == "print" and await self._device.print_file(asked.name, content):
            return "printing"
        if asked.way == "share":
            shared = await self._device.share(asked.name, content)
            if shared is not False:
                return "kept" if shared is None else "shared"
        await self._device.offer(asked.name, content)
        return _SAVED[asked.way]

    async def _content(self, asked: asks.MakeFile) -> bytes | Literal["otherwise"] | None:
        state = self._now()
        garment = state.book.garment(asked.garment)
        if garment is None:
            return None
        frozen = state.frozen.get(garment.id) if garment.chalking else None
        if frozen is not None and asked.name == "draft.json":
            return frozen.draft.encode()
        if garment.chalking and frozen is None:
            return None  # what is being chalked is never drafted anew for its papers
        typed = json.loads(frozen.order) if frozen else order_of(garment, state.book.wearer(garment))[0]
        if typed is None:
            return None
        typed = typed | ({"sheet_measures": True} if garment.sheet_measures else {})
        if asked.name == "order.json":
            return order_text(typed).encode()
        kept = None if frozen is None else kept_papers(unpacked(frozen.papers) or "", frozen.draft)
        if kept is not None:
            return _papers(replace(kept, sheet_measures=garment.sheet_measures), garment.paper, asked.name)
        return await self._drafted_anew(typed, frozen, garment.paper, asked.name)

    async def _drafted_anew(
        self, typed: dict[str, Any], frozen: FrozenDraft | None, size: Paper, name: str
    ) -> bytes | Literal["otherwise"] | None:
        order, _ = read_order(typed)
        if order is None:
            return None
        result = await _stepwise(making(order))
        draft = documents.draft_json(result)
        if frozen is not None and not same_marks(frozen.draft, draft):
            return OTHERWISE  # an earlier version drafted it; nobody is given a sheet with other marks than the chalked
        if name == "draft.json":
            return draft
        return None if result.plan is None else _papers(papers_of(result), size, name)

    # ---- Backup -----------------------------------------------------------------------------------------------------

    async def _frozen_of(self, garments: Iterable[str]) -> tuple[dict[str, FrozenDraft], frozenset[str]]:
        """The frozen drafts that are kept for these garments, and for which one is kept that cannot be read."""
        found: dict[str, FrozenDraft] = {}
        unread: set[str] = set()
        for garment in garments:
            if garment in self._now().frozen:
                found[garment] = self._now().frozen[garment]
                continue
            key = FROZEN + garment
            async with self._lock:
                record = await self._store.load(key)
                frozen = read(key, record.text) if isinstance(record, Record) else None
                if isinstance(record, Record):
                    self._revisions[key] = record.revision
                if isinstance(frozen, FrozenDraft):
                    found[garment], self._kept[key] = frozen, (frozen,)
                elif record is not None:
                    unread.add(garment)
            await asyncio.sleep(0)
        return found, frozenset(unread)

    async def _make_backup(self, asked: asks.MakeBackup) -> None:
        await asyncio.sleep(BREATH)
        state, day = self._now(), date.today().isoformat()
        whole = not asked.person and not asked.garment
        part = part_of(state.book, person=asked.person, garment=asked.garment)
        frozen = (await self._frozen_of([each.id for each in part.garments if each.chalking]))[0]
        written = await _stepwise(writing(state.book, frozen, person=asked.person, garment=asked.garment, saved_on=day))
        content = written.text.encode()
        if len(content) > MOST_BYTES:
            self._send(act.FileFailed(words("backup.too_much")))
            return
        read = await _stepwise(reading(content))
        if not isinstance(read, Backup) or not holds_all(read, state.book, written, asked.person, asked.garment):
            self._send(act.FileFailed(words("backup.unproven")))  # what cannot be opened again is no backup
            return
        what = "" if whole else "-garment" if asked.garment else "-person"
        name = f"foldmark{what}-{day}.json"
        try:
            await self._device.offer(name, content)
        except asyncio.CancelledError:
            raise
        except Exception:  # the device's own refusal, such as a blocked download
            self._send(act.FileFailed(words("paper.refused")))
            return
        self._send(act.BackupSaved(name, whole, written.without))

    async def _demo(self) -> None:
        self._send(act.AddDemo((ASSETS / "demo" / "order.json").read_text("utf-8")))


def _code_of(text: str) -> bytes | str:
    """The bytes of a code of ours, or in words what is wrong with it."""
    return text.encode() if text.startswith(MARK) else words("picture.other" if text else "picture.none")


def _same(before: tuple[object, ...] | None, now: tuple[object, ...] | None) -> bool:
    """Whether two are made of the same objects; also where neither is there."""
    if before is None or now is None:
        return before is now
    return len(before) == len(now) and all(one is other for one, other in zip(before, now, strict=True))


def _objects(kept: Kept | None) -> tuple[object, ...]:
    """What all_kept would name a record by."""
    if isinstance(kept, KeptGarment):
        return kept.garment, kept.picture
    return () if kept is None else (kept,)


def _looked_at(book: Book, place: str) -> list[GarmentRecord]:
    """The garments whose marks are wanted at once: that of the place, and the first in chalking."""
    chalking = [each for each in book.garments if each.chalking]
    return [each for each in chalking if each.id == place] + [each for each in chalking[:CARDS] if each.id != place]


async def _stepwise(work: Steps[Value], tell: Callable[[object], None] = lambda step: None) -> Value:
    """The value of long work, done in steps with pauses; whoever waits may be cancelled in each of them.

    `tell` is told what each step gives out.
    """
    since = time.monotonic()
    while True:
        try:
            tell(next(work))
        except StopIteration as end:
            value: Value = end.value
            return value
        if time.monotonic() - since > STEP:
            await asyncio.sleep(0)
            since = time.monotonic()


def _on_other_tape(result: Result, step: TapeStep) -> OtherTape:
    """What is kept of a draft as another tape reads it."""
    read = read_on(result, step)
    if isinstance(read, Result):
        return OtherTape(packed(documents.draft_json(read).decode()))
    return OtherTape(says=" ".join(check.says for check in read))


def _papers(papers: Papers, size: Paper, name: str) -> bytes | None:
    """One of the papers by its name; None for one that there is not."""
    match name:
        case "chalk-sheet.pdf":
            return documents.chalk_sheet_pdf(papers, size)
        case "pattern.pdf":
            return documents.pattern_pdf(papers, size)
        case "pattern.svg":
            return documents.pattern_svg(papers)
        case "cloth.svg":
            return documents.cloth_svg(papers)
    return None


def report_of(failure: BaseException, doing: str = "") -> str:
    """What failed and where, without the message: a message may quote what a person typed."""
    lines = ["Foldmark", f"Python {sys.version.split()[0]} on {sys.platform}", type(failure).__name__]
    if doing:
        lines.append(f"while: {doing}")
    for frame in traceback.extract_tb(failure.__traceback__):
        name = "/".join(Path(frame.filename).parts[-2:])
        lines.append(f"{name}:{frame.lineno} {frame.name}")
    return "\n".join(lines)
