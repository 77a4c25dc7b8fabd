"""The only input and output of the app: saving, drafting, files, addresses. Everything comes back as an action.

One session has one `Effects`. Nothing here uses a thread, so that it runs alike in the browser: long work is cut into
steps with a pause between them in which the screen can answer.
"""

import asyncio
import json
import sys
import time
import traceback
from collections.abc import Callable, Coroutine
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any, Protocol

from app import actions as act
from app import asks
from app.laying import answering, question_of
from app.packed import packed
from app.page_table import Heard
from app.presets import SKETCH_CLOTH
from app.state import (
    Drafted,
    FrozenDraft,
    GarmentRecord,
    LaidOut,
    OtherTape,
    Paper,
    State,
    book_text,
    frozen_text,
    place_text,
)
from app.storage import PLACE, Record, SaveFailed, Store
from app.text import words
from app.typed import order_of, order_text
from drafting.order import Result, glance, making, read_order
from drafting.other_tape import read_on
from drafting.record import documents
from drafting.stepwise import Steps, Value
from drafting.units import TAPES, TapeStep

ASSETS = Path(__file__).resolve().parents[1] / "assets"
BOOK = "book"
FROZEN = "frozen."
SAVE_AFTER = 0.3
"""Seconds of quiet before the book is saved: our choice, because a person types a letter every 0.1 to 0.3 seconds."""
LAY_AFTER = 0.25
"""Seconds of quiet before the pieces are laid and their marks planned. The outline follows every key before that."""
STEP = 0.02
"""Seconds of long work between two pauses in which the screen can answer: our choice, about one frame."""
BREATH = 0.03
"""Seconds in which the screen is shown before long work begins."""

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
        self._saving: asyncio.Task[None] | None = None
        self._placing: asyncio.Task[None] | None = None
        self._drafting: asyncio.Task[None] | None = None
        self._lock = asyncio.Lock()
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
                self._begin(self._load(asked.route))
            case asks.LoadFrozen():
                self._begin(self._load_frozen(asked.garment))
            case asks.SaveFrozen():
                self._begin(self._save_frozen(asked.garment))
            case asks.RemoveFrozen():
                self._begin(self._remove_frozen(asked.garment))
            case asks.Freeze():
                self._begin(self._freeze(asked.garment))
            case asks.GoTo():
                self._begin(self._device.go(asked.route))
            case asks.MakeFile():
                self._begin(self._file(asked))
            case asks.Speak():
                self._begin(self._speak(asked.text))
            case asks.StayAwake():
                self._begin(self._stay_awake(asked.on))
            case asks.ReadDemo():
                self._begin(self._demo())
            case asks.ReadDay():
                self._send(act.TypeTakenOn(asked.person, date.today().isoformat()))
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

    def _elsewhere(self, key: str, revision: int) -> None:
        self._send(act.ChangedElsewhere(key, revision))

    async def _load(self, route: str) -> None:
        found = await self._store.load(BOOK)
        keys = await self._store.keys()
        if isinstance(found, SaveFailed) or isinstance(keys, SaveFailed):
            failed = found if isinstance(found, SaveFailed) else keys
            if isinstance(failed, SaveFailed):
                self._send(act.LoadFailed(failed.words, failed.detail))
            return
        frozen: dict[str, str | None] = {}
        revisions = {BOOK: found.revision} if found else {}
        for key in keys:
            if key.startswith(FROZEN):
                record = await self._store.load(key)
                if record is not None:  # what is there and cannot be read is another thing than what is not there
                    frozen[key.removeprefix(FROZEN)] = record.text if isinstance(record, Record) else None
                if isinstance(record, Record):
                    revisions[key] = record.revision
        place = await self._store.load(PLACE) if PLACE in keys else None
        last = place.text if isinstance(place, Record) else None
        self._send(act.Loaded(found.text if found else None, frozen, revisions, route, last))

    async def _load_frozen(self, garment: str) -> None:
        record = await self._store.load(FROZEN + garment)
        text = record.text if isinstance(record, Record) else None
        self._send(act.FrozenRead(garment, text, kept=record is not None))

    async def _save_book(self, wait: float) -> None:
        await asyncio.sleep(wait)
        # From here on the saving is not put aside any more: half a save would lose the count of revisions.
        self._saving = None
        async with self._lock:
            await self._save(BOOK, book_text(self._now().book))

    async def _save_place(self, wait: float) -> None:
        await asyncio.sleep(wait)
        self._placing = None
        async with self._lock:
            last = await self._store.load(PLACE)
            revision = last.revision if isinstance(last, Record) else 0
            # Where it fails, the next opening begins elsewhere; that is not worth a word.
            await self._store.save(PLACE, place_text(self._now().place), revision)

    async def _save_frozen(self, garment: str) -> None:
        frozen = self._now().frozen.get(garment)
        if frozen is not None:
            async with self._lock:
                await self._save(FROZEN + garment, frozen_text(frozen))

    async def _remove_frozen(self, garment: str) -> None:
        key = FROZEN + garment
        async with self._lock:
            if garment in self._now().frozen or self._now().stale:
                return  # put back meanwhile
            if not await self._save(BOOK, book_text(self._now().book)):
                return  # a book that still holds the garment stays whole
            found = await self._store.load(key)
            if isinstance(found, Record):
                await self._store.remove(key, found.revision)

    async def _save(self, key: str, text: str) -> bool:
        """Save a record and tell what came of it; whether it was saved."""
        if self._now().stale:
            return False
        revision = self._now().revisions.get(key, 0)
        if key != BOOK:
            found = await self._store.load(key)
            revision = found.revision if isinstance(found, Record) else 0
        answer = await self._store.save(key, text, revision)
        if isinstance(answer, SaveFailed):
            self._send(act.NotSaved(answer.words, answer.reason == "stale"))
            return False
        self._send(act.Saved(key, answer))
        return True

    # ---- Drafts -----------------------------------------------------------------------------------------------------

    async def _draft(self, asked: asks.Draft) -> None:
        # The glance comes before the first pause, so that a choice and its outline reach the screen as one change.
        state = self._now()
        garment = state.book.garment(asked.garment)
        if garment is None:
            return
        typed, problems = order_of(garment, state.book.person(garment.person))
        if typed is None:
            sketch = None
            if all(problem.code == "cloth_missing" for problem in problems):
                lent = replace(garment, cloth=SKETCH_CLOTH | {k: v for k, v in garment.cloth.items() if v.strip()})
                lent_order = order_of(lent, state.book.person(garment.person))[0]
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
        typed = None if garment is None else order_of(garment, state.book.person(garment.person))[0]
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
        self._send(act.Froze(key, FrozenDraft(order_text(typed), documents.draft_json(result).decode(), others)))

    # ---- Files and the rest -----------------------------------------------------------------------------------------

    async def _file(self, asked: asks.MakeFile) -> None:
        await asyncio.sleep(BREATH)
        content = await self._content(asked)
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

    async def _content(self, asked: asks.MakeFile) -> bytes | None:
        state = self._now()
        garment = state.book.garment(asked.garment)
        if garment is None:
            return None
        frozen = state.frozen.get(garment.id) if garment.chalking else None
        if frozen is not None and asked.name == "draft.json":
            return frozen.draft.encode()
        if garment.chalking and frozen is None:
            return None  # what is being chalked is never drafted anew for its papers
        typed = json.loads(frozen.order) if frozen else order_of(garment, state.book.person(garment.person))[0]
        if typed is None:
            return None
        if asked.name == "order.json":
            return order_text(typed).encode()
        order, _ = read_order(typed)
        if order is None:
            return None
        result = await _stepwise(making(order))
        return _files(result, garment.paper).get(asked.name, lambda: None)()

    async def _demo(self) -> None:
        self._send(act.AddDemo((ASSETS / "demo" / "order.json").read_text("utf-8")))


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


def _files(result: Result, paper: Paper) -> dict[str, Callable[[], bytes | None]]:
    """How each file is made. Those that print marks are withheld with the chalk plan."""
    made: dict[str, Callable[[], bytes | None]] = {"draft.json": lambda: documents.draft_json(result)}
    if result.plan is not None:
        made["chalk-sheet.pdf"] = lambda: documents.chalk_sheet_pdf(result, paper)
        made["pattern.pdf"] = lambda: documents.pattern_pdf(result, paper)
        made["pattern.svg"] = lambda: documents.pattern_svg(result)
        made["cloth.svg"] = lambda: documents.cloth_svg(result)
    return made


def report_of(failure: BaseException, doing: str = "") -> str:
    """What failed and where, without the message: a message may quote what a person typed."""
    lines = ["Foldmark", f"Python {sys.version.split()[0]} on {sys.platform}", type(failure).__name__]
    if doing:
        lines.append(f"while: {doing}")
    for frame in traceback.extract_tb(failure.__traceback__):
        name = "/".join(Path(frame.filename).parts[-2:])
        lines.append(f"{name}:{frame.lineno} {frame.name}")
    return "\n".join(lines)
