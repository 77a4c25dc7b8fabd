"""What is done with backups: made whole, looked at, taken over, and offered in time. Nothing is changed before that."""

import asyncio
import json
from dataclasses import replace
from typing import Any

import flet as ft
import pytest
from flet.components.component import Renderer

from app import actions as act
from app import asks
from app.backup import Backup, read_backup, write_backup
from app.backup_words import told_first, told_of
from app.effects import Effects
from app.merging import Opened, entries_of
from app.page_picture import is_picture
from app.saved import FROZEN, GARMENT, FrozenDraft, text_of
from app.screens.backup import backup
from app.screens.erase import erase
from app.screens.scene import Kept, Scene
from app.state import Book, Notice, PersonRecord, Place, Settings, State
from app.storage import WORDS, MemoryStore, Record, SaveFailed
from app.text import words
from app.typed import order_of
from app.update import update
from app.update_backup import OFFERED_AFTER, changes_of
from drafting.order import read_order
from drafting.record.backup_file import MOST_BYTES
from drafting.record.order_code import code_text
from drafting.units import Unit, read_length
from tests.app.histories import Shared
from tests.app.records import loaded, texts
from tests.app.session import Tab, fill, run
from tests.app.test_backup import CHALKED, sample
from tests.app.test_paper import Paper
from tests.app.test_shown import DEMO, after, parts_of, said, screen
from tests.app.test_trade_words import every

assert CHALKED is not None


def begun(book: Book | None = None, frozen: dict[str, FrozenDraft] | None = None, **more: Any) -> State:
    """The app opened with a book."""
    state = after(State(), loaded(State(book or Book(), frozen=dict(frozen or {}))))
    return replace(state, **more)


def full() -> State:
    return begun(*sample())


def asked(state: State, action: act.Action) -> tuple[asks.Ask, ...]:
    return update(state, action)[1]


def of(state: State) -> Backup:
    read = read_backup(write_backup(state.book, state.frozen).text.encode())
    assert isinstance(read, Backup)
    return read


def work(state: State, ask: asks.Ask, store: MemoryStore | None = None) -> tuple[list[act.Action], Paper]:
    """What the effects send and hand over."""
    sent: list[act.Action] = []
    device = Paper()

    async def job() -> None:
        effects = Effects(store or MemoryStore(), device, lambda: state, sent.append)
        effects.do(ask)
        while effects._tasks:
            await asyncio.gather(*effects._tasks)

    asyncio.run(job())
    return sent, device


def kept(state: State) -> MemoryStore:
    """A store with every record of a state."""
    store = MemoryStore()
    for key, text in texts(state).items():
        asyncio.run(store.save(key, text, 0))
    return store


# ---- Making one -----------------------------------------------------------------------------------------------------


def test_a_backup_is_asked_for_once_and_its_making_is_told() -> None:
    state = after(full(), act.AskBackup())
    assert state.busy == words("backup.making")
    assert asked(full(), act.AskBackup(person="p1")) == (asks.MakeBackup("p1"),)
    assert asked(state, act.AskBackup()) == ()


def test_marks_that_were_not_looked_at_yet_are_read_from_the_store() -> None:
    state = full()
    store = kept(state)
    (saved,), device = work(replace(state, frozen={}), asks.MakeBackup(), store)
    assert isinstance(saved, act.BackupSaved)
    assert (saved.whole, saved.without) == (True, ())
    ((way, name, content),) = device.handed
    assert (way, name) == ("save", saved.name)
    assert read_backup(content) == replace(of(state), saved_on=saved.name[9:19])


@pytest.mark.parametrize(
    ("asked_for", "begins", "people"),
    [
        (asks.MakeBackup(), "foldmark-2", ["p1", "p2"]),
        (asks.MakeBackup(person="p2"), "foldmark-person-2", ["p2"]),
        (asks.MakeBackup(garment="g1"), "foldmark-garment-2", ["p1"]),
    ],
)
def test_the_name_of_a_backup_holds_nothing_of_anybody(
    asked_for: asks.MakeBackup, begins: str, people: list[str]
) -> None:
    (saved,), device = work(full(), asked_for)
    assert isinstance(saved, act.BackupSaved)
    assert saved.name.startswith(begins)
    assert len(saved.name) == len(begins) + len("026-11-27.json")
    read = read_backup(device.handed[0][2])
    assert isinstance(read, Backup)
    assert [each.id for each in read.book.people] == people
    assert saved.whole is (begins == "foldmark-2")


def test_marks_that_cannot_be_read_are_named_and_all_else_is_saved() -> None:
    state = replace(full(), frozen={})
    store = kept(full())
    asyncio.run(store.save(FROZEN + "g2", "{", 1))
    (saved,), _ = work(state, asks.MakeBackup(), store)
    assert isinstance(saved, act.BackupSaved)
    assert saved.without == ("g2",)
    told = after(state, saved).notice
    assert told is not None
    assert told.tone == "caution"
    assert "Ilse" in told.words or "garment" in told.words.lower() or "pullover" in told.words.lower()


def test_what_is_kept_here_and_cannot_be_read_is_told_of_a_backup_of_everything() -> None:
    state = replace(full(), left={"person.p9": "newer"})
    told = after(state, act.BackupSaved("foldmark-2026-11-27.json", True)).notice
    assert told is not None
    assert told.words == words("backup.saved.left", name="foldmark-2026-11-27.json")
    one = after(state, act.BackupSaved("foldmark-person-2026-11-27.json", False)).notice
    assert one is not None
    assert one.words == words("backup.saved", name="foldmark-person-2026-11-27.json")


def test_what_does_not_read_back_is_not_handed_over(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("app.effects.holds_all", lambda *_: False)
    (failed,), device = work(full(), asks.MakeBackup())
    assert failed == act.FileFailed(words("backup.unproven"))
    assert device.handed == []


def test_what_is_more_than_a_file_may_hold_is_not_handed_over(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("app.effects.MOST_BYTES", 100)
    (failed,), device = work(full(), asks.MakeBackup())
    assert failed == act.FileFailed(words("backup.too_much"))
    assert device.handed == []


def test_a_note_that_is_longer_than_a_file_may_hold_is_seen_when_it_is_saved() -> None:
    state = begun(Book((PersonRecord("p1", "x" * 20_001),)))
    (failed,), _ = work(state, asks.MakeBackup())
    assert failed == act.FileFailed(words("backup.unproven"))


# ---- Opening one ----------------------------------------------------------------------------------------------------


def test_a_file_is_read_and_compared_with_what_is_kept() -> None:
    content = write_backup(*sample()).text.encode()
    state = after(full(), act.FilePicked(content, len(content)))
    assert state.busy == words("backup.opening")
    assert asked(full(), act.FilePicked(content, len(content))) == (asks.ReadBackup(content),)
    (read,), _ = work(replace(full(), frozen={}), asks.ReadBackup(content), kept(full()))
    assert isinstance(read, act.BackupRead)
    assert read.frozen == {"g2": CHALKED}
    looked_at = after(replace(state, frozen={}), read)
    assert (looked_at.place, looked_at.busy) == (Place("backup"), "")
    assert looked_at.book == state.book
    assert looked_at.opened is not None
    assert {each.status for each in entries_of(looked_at, looked_at.opened)} == {"same"}


def test_a_file_that_is_too_large_or_was_not_handed_over_is_not_read() -> None:
    for picked, key in (
        (act.FilePicked(b"", MOST_BYTES + 1), "backup.huge"), (act.FilePicked(None, 10), "backup.no_bytes"),
        (act.FilePicked(b"", 0), "backup.no_bytes"),
    ):  # fmt: skip
        state = after(full(), picked)
        assert state.notice is not None
        assert state.notice.words == words(key)
        assert (state.book, state.busy) == (full().book, "")
        assert asked(full(), picked) == ()


def test_a_file_that_is_refused_changes_nothing() -> None:
    (read,), _ = work(full(), asks.ReadBackup(b"{}"))
    assert read == act.BackupRead(None, words("backup.foreign"))
    state = after(replace(full(), busy="x"), read)
    assert state.notice is not None
    assert (state.notice.words, state.busy, state.opened) == (words("backup.foreign"), "", None)
    assert state.book == full().book


def opened(here: State, there: State) -> State:
    return after(here, act.BackupRead(of(there)))


def test_everything_comes_back_where_everything_was_deleted() -> None:
    there = full()
    state = opened(begun(), there)
    state, wanted = update(state, act.TakeOver())
    assert asks.SaveNow() in wanted
    assert asks.GoTo("/") in wanted
    assert state.place == Place()
    assert state.opened is None
    assert replace(state.book, next=0) == replace(there.book, next=0)
    assert state.frozen == there.frozen
    assert state.book.next == 4, "the next id is one that no record has"
    assert state.new_id("g") not in {each.id for each in state.book.garments}


def test_what_was_chosen_is_taken_and_ids_are_those_of_this_device() -> None:
    there = full()
    older = replace(there.book.people[0], age="30")
    here = begun(replace(there.book, people=(older, there.book.people[1])), there.frozen, mark="abc")
    state = opened(here, there)
    assert after(state, act.TakeOver()).book.people == here.book.people
    kept_both = after(state, act.ChooseKept("people", "p1", "both"), act.TakeOver())
    assert [each.id for each in kept_both.book.people] == ["p1", "p2", f"p{here.book.next}-abc"]
    assert kept_both.book.next == here.book.next + 1
    taken = after(state, act.ChooseKept("people", "p1", "file"), act.TakeOver())
    assert taken.book.people == there.book.people


def test_a_draft_that_gives_way_is_removed() -> None:
    there = full()
    plain = begun(replace(there.book, garments=tuple(each.unchalked() for each in there.book.garments)))
    state = opened(there, plain)
    state, wanted = update(after(state, act.ChooseKept("garments", "g2", "file")), act.TakeOver())
    assert asks.RemoveFrozen("g2") in wanted
    assert state.frozen == {}


def test_only_the_drafts_that_were_taken_are_held() -> None:
    """What is kept of other garments was looked at to compare, and is not held beyond that."""
    there = full()
    state = after(replace(begun(there.book), frozen={}), act.BackupRead(of(there), "", {"g2": CHALKED}))
    assert after(state, act.TakeOver()).frozen == {}


def test_nothing_is_taken_where_nothing_is_saved_or_looked_at() -> None:
    state = replace(opened(begun(), full()), locked=True)
    assert after(state, act.TakeOver()).book == Book()
    assert after(full(), act.TakeOver(), act.ChooseKept("people", "p1", "file"), act.LeaveBackup()) == full()


def test_a_backup_that_is_left_is_put_away() -> None:
    state = opened(begun(), full())
    assert after(state, act.LeaveBackup()).opened is None
    assert after(state, act.LeaveBackup()).book == Book()
    assert after(state, act.Go(Place())).opened is None


def test_a_record_that_cannot_be_read_here_is_left_alone() -> None:
    state = replace(opened(begun(), full()), left={"person.p1": "newer"})
    state = after(state, act.TakeOver())
    assert [each.id for each in state.book.people] == ["p2"]


def test_an_order_is_taken_over_with_its_person() -> None:
    (read,), _ = work(begun(), asks.ReadBackup(DEMO.encode()))
    state = after(begun(mark="abc"), read, act.TakeOver())
    assert [(each.id, each.name) for each in state.book.people] == [("p1-abc", "Ilse")]
    assert [(each.id, each.person) for each in state.book.garments] == [("g2-abc", "p1-abc")]
    assert state.book.next == 3


# ---- When one is offered --------------------------------------------------------------------------------------------


def offered(state: State) -> bool:
    return words("backup.offer") in said(screen(replace(state, place=Place())))


def test_a_backup_is_offered_after_ten_changes_and_not_sooner() -> None:
    state = full()
    for number in range(OFFERED_AFTER):
        assert not offered(state)
        state = after(state, act.TypeMeasure("p1", f"measure_{number}", "9"))
    assert offered(state)
    assert state.book.settings.changes == 0, "it is not saved with each change"
    at_home = after(state, act.Go(Place("person", person="p1")), act.Go(Place()))
    assert at_home.book.settings.changes == OFFERED_AFTER
    assert offered(at_home)
    more = after(at_home, act.TypeName("p1", "Ilse 2"), act.Go(Place("person", person="p1")), act.Go(Place()))
    assert more.book.settings == at_home.book.settings, "it is not counted further, nor saved again"
    for there in (state, at_home):
        assert not offered(after(there, act.BackupSaved("x", True)))
        assert offered(after(there, act.BackupSaved("x", False)))


def test_what_is_typed_in_one_field_is_one_change_and_what_is_undone_is_none() -> None:
    typed = after(full(), act.TypeName("p1", "I"), act.TypeName("p1", "Il"), act.TypeName("p1", "Ils"))
    assert changes_of(typed) == 1
    other = after(typed, act.TypeName("p2", "O"), act.TypeAge("p2", "40"))
    assert changes_of(other) == 3
    undone = after(other, act.DeletePerson("p2"), act.UndoLast())
    assert changes_of(undone) == 3
    assert changes_of(after(full(), act.Go(Place("shape", "g1")), act.SetLight("dark"))) == 0


def test_what_is_taken_over_from_a_file_is_in_a_backup_already() -> None:
    assert changes_of(after(opened(begun(), full()), act.TakeOver())) == 0


# ---- What is said and shown -----------------------------------------------------------------------------------------


def test_what_a_backup_would_change_is_told_in_sentences() -> None:
    there = full()
    people = (replace(there.book.people[0], measures={"bust_girth": "99"}, taken_on="2026-11-01"),)
    less = replace(there.book, people=people, garments=there.book.garments[1:], settings=Settings())
    here = begun(less, there.frozen)
    state = replace(here, opened=Opened(replace(of(there), saved_on="2026-11-27", lost=("g3",), unknown=True)))
    assert state.opened is not None
    entries = entries_of(state, state.opened)
    assert told_first(state.opened.backup, entries) == (
        "This backup of 2026-11-27 holds 2 people and 3 garments.",
        "It adds 1 person and 1 garment.",
        "2 garments are the same here. They stay as they are.",
        "It does not hold the marks of Ferry pullover. They will be made anew.",
        "It holds something that this Foldmark does not know. That is left out.",
    )
    differ = [told_of(each, state.book, state.opened.backup) for each in entries if each.status == "differs"]
    assert [each.name for each in differ] == ["Ilse", "The settings of the app"]
    assert "the measures" in differ[0].says[0]
    assert differ[0].says[1] == "The measures here were taken later, on 2026-11-01."
    one = replace(people[0], measures=there.book.people[0].measures | {"bust_girth": "99"})
    state = begun(replace(here.book, people=(one,)))
    (entry, *_) = [each for each in entries_of(state, Opened(of(there))) if each.status == "differs"]
    says = told_of(entry, state.book, of(there)).says[0]
    assert says == "What differs: the day it was measured on and bust girth (99 here, 94 in the backup)."


def shown(state: State) -> tuple[list[str], list[ft.Control]]:
    pick = ft.PickFiles(ft.FilePicker(), with_data=True)
    scene = Scene(replace(state, place=Place("backup")), lambda _: None, 390, 664, False, Kept(), pick=pick)
    with Renderer().with_context():
        drawn = backup(scene)
        return said(drawn), every(drawn)


def test_the_screen_opens_a_file_within_the_tap() -> None:
    texts_shown, controls = shown(full())
    assert words("backup.says") in texts_shown
    (button,) = [each for each in controls if isinstance(each, ft.TextButton) and each.action is not None]
    assert isinstance(button.action, ft.PickFiles)
    assert button.action.with_data
    assert not [each for each in shown(replace(full(), busy="x"))[1] if getattr(each, "action", None) is not None]


def test_the_preview_offers_a_choice_for_each_record_that_differs() -> None:
    there = full()
    older = replace(there.book.people[0], age="3")
    here = begun(replace(there.book, people=(older, there.book.people[1])), there.frozen)
    texts_shown, _ = shown(opened(here, there))
    scene = Scene(replace(opened(here, there), place=Place("backup")), lambda _: None, 390, 664, False, Kept())
    with Renderer().with_context():
        (choice,) = [each for each in parts_of(backup(scene)) if "options" in each.kwargs]
    assert [each.value for each in choice.kwargs["options"]] == ["here", "file", "both"]
    assert (choice.kwargs["label"], choice.kwargs["chosen"]) == ("Ilse", "here")
    assert choice.kwargs["how"] == ("What differs: the age.",)
    assert words("backup.nothing") in texts_shown
    assert words("backup.nothing") not in shown(opened(begun(), there))[0]


def test_the_whole_way_round_through_the_store() -> None:
    """Saved from one device, everything deleted, taken over again: every record is as it was."""
    there = full()
    _, device = work(there, asks.MakeBackup(), kept(there))
    (read,), _ = work(begun(), asks.ReadBackup(device.handed[0][2]))
    state = after(begun(), read, act.TakeOver())
    was, now = texts(there), texts(state)
    assert {key: json.loads(text) for key, text in now.items() if key != "book"} == {
        key: json.loads(text) for key, text in was.items() if key != "book"
    }
    assert GARMENT + "g2" in now


# ---- Deleting everything --------------------------------------------------------------------------------------------


def test_everything_is_deleted_in_every_tab_and_nothing_is_saved_again() -> None:
    async def job() -> None:
        there, shared = full(), Shared()
        await fill(shared, texts(there))
        mine = await Tab(shared.seen_by("mine")).open()
        theirs = await Tab(shared.seen_by("theirs")).open()
        assert mine.state.book.people
        assert theirs.state.book.people
        mine.put(act.Go(Place("erase")))
        mine.put(act.TypeName(mine.state.book.people[0].id, "Typed a moment ago"))
        mine.put(act.EraseAll())
        assert mine.state.busy == words("erase.busy")
        await mine.quiet()
        await asyncio.sleep(60)
        assert await shared.keys() == ()
        assert (mine.state.book, mine.state.frozen, mine.state.place) == (Book(), {}, Place())
        assert mine.state.notice == Notice(words("erase.done"))
        assert (theirs.state.book.people, theirs.state.book.garments, theirs.state.clashes) == ((), (), ())
        await mine.effects.finish()
        assert await shared.keys() == (), "an empty book is not saved"
        mine.put(act.AddPerson())
        await asyncio.sleep(60)
        (person,) = mine.state.book.people
        assert f"person.{person.id}" in await shared.keys(), "and it goes on from there"

    run(job())


def test_what_could_not_be_deleted_is_said_and_stays() -> None:
    async def job() -> None:
        there, store = full(), MemoryStore()
        await fill(store, texts(there))
        tab = await Tab(store).open()
        key = there.book.people[0].id
        tab.put(act.TypeName(key, "Typed a moment ago"))
        store.closed = True
        tab.put(act.EraseAll())
        await asyncio.sleep(6.2)
        assert [each.id for each in tab.state.book.people] == [each.id for each in there.book.people]
        assert tab.state.busy == ""
        assert tab.state.notice == Notice(words("erase.failed", why=WORDS["closed"]), tone="stop")
        store.closed = False
        await asyncio.sleep(60)
        kept_now = await store.load(f"person.{key}")
        assert isinstance(kept_now, Record)
        assert "Typed a moment ago" in kept_now.text, "what waited to be saved is saved where it all stays"

    run(job())


class Halting(MemoryStore):
    """A store that deletes only the records whose keys begin so, and then says that something went wrong."""

    def __init__(self, *erases: str, times: int = 1) -> None:
        super().__init__()
        self.erases, self.times = erases, times

    async def erase(self) -> SaveFailed | None:
        self.times -= 1
        if self.times < 0:
            return await super().erase()
        for key in await self.keys():  # type: ignore[union-attr]
            if key.startswith(self.erases):
                await self.remove(key, self._last(key))
        return SaveFailed.because("silent")

    async def load(self, key: str) -> Record | SaveFailed | None:
        return SaveFailed.because("fault") if key == "person.new" else await super().load(key)


@pytest.mark.parametrize("times", [1, 2])
def test_where_only_the_answer_was_lost_nothing_is_shown_as_kept(times: int) -> None:
    async def job() -> None:
        store = Halting("", times=times)
        await fill(store, texts(full()))
        tab = await Tab(store).open()
        tab.put(act.EraseAll())
        await asyncio.sleep(60)
        assert await store.keys("p") == await store.keys("g") == await store.keys("f") == ()
        assert (tab.state.book.people, tab.state.book.garments, tab.state.frozen) == ((), (), {})
        assert tab.state.notice is not None
        lost = words("erase.failed", why=WORDS["silent"])
        assert tab.state.notice.words == (words("erase.done") if times == 1 else lost)

    run(job())


def test_what_was_deleted_before_it_failed_is_gone_here_too_and_the_rest_stays() -> None:
    async def job() -> None:
        there, store = full(), Halting("person.p1", "garment.g1", "book", "person.new")
        await fill(store, texts(there) | {"person.new": "{", "person.odd": "{"})
        tab = await Tab(store).open()
        assert set(tab.state.left) == {"person.new", "person.odd"}
        tab.put(act.TypeName("p2", "Typed a moment ago"))
        tab.put(act.EraseAll())
        await asyncio.sleep(60)
        assert [each.id for each in tab.state.book.people] == ["p2"]
        assert [each.id for each in tab.state.book.garments] == ["g3", "g2"]
        assert (tab.state.busy, tab.state.notice) == (
            "", Notice(words("erase.failed", why=WORDS["silent"]), tone="stop"),
        )  # fmt: skip
        kept_now = await store.load("person.p2")
        assert isinstance(kept_now, Record)
        assert "Typed a moment ago" in kept_now.text
        assert await store.keys("book") == ("book",), "the settings that are shown are kept again"
        assert set(tab.state.left) == {"person.odd"}
        tab.put(act.TypeName("p2", "Typed later"))
        await asyncio.sleep(60)
        assert tab.state.clashes == ()
        assert await store.keys("person") == ("person.odd", "person.p2")

    run(job())


def test_where_it_cannot_be_told_what_is_left_that_is_said() -> None:
    class Silent(MemoryStore):
        silent = False

        async def keys(self, start: str = "") -> tuple[str, ...] | SaveFailed:
            return SaveFailed.because("closed") if self.silent else await super().keys(start)

    async def job() -> None:
        store = Silent()
        await fill(store, texts(full()))
        tab = await Tab(store).open()
        store.silent = True
        tab.put(act.EraseAll())
        await asyncio.sleep(60)
        assert tab.state.notice == Notice(words("erase.failed", why=WORDS["closed"]), tone="stop")

    run(job())


def test_what_another_tab_saves_meanwhile_is_said_and_all_else_is_gone() -> None:
    class Busy(MemoryStore):
        async def erase(self) -> SaveFailed | None:
            failed = await super().erase()
            await self.save("person.p9-b", text_of(PersonRecord("p9-b", "Ann")), 0)
            return failed

    async def job() -> None:
        store = Busy()
        await fill(store, texts(full()))
        tab = await Tab(store).open()
        tab.put(act.EraseAll())
        await asyncio.sleep(60)
        assert tab.state.notice == Notice(words("erase.failed", why=words("erase.left")), tone="stop")
        assert (tab.state.book.people, tab.state.book.garments) == ((), ())
        assert await store.keys("person") == ("person.p9-b",)

    run(job())


def test_nothing_is_deleted_while_something_is_made_or_could_not_be_read() -> None:
    for held in (replace(full(), busy="x"), replace(full(), locked=True)):
        assert update(held, act.EraseAll()) == (held, ())
    assert update(full(), act.NotErased("Why.")) == (replace(full(), notice=Notice("Why.", tone="stop")), ())
    emptied, asked_for = update(full(), act.Erased())
    assert (emptied.book, asked_for) == (Book(), (asks.GoTo("/"),))


def test_what_goes_is_told_in_numbers_and_the_bright_button_keeps_it() -> None:
    state = replace(full(), place=Place("erase"))
    sent: list[act.Action] = []
    with Renderer().with_context():
        drawn = erase(Scene(state, sent.append, 390, 664, False, Kept()))
    count = len(state.book.garments)
    told = " ".join(said(drawn))
    assert f"{len(state.book.people)} people" in told
    assert ("1 garment" if count == 1 else f"{count} garments") in told
    bright = [each for each in every(drawn) if isinstance(each, ft.FilledButton)]
    assert len(bright) == 1
    bright[0].on_click(None)  # type: ignore[misc, arg-type, call-arg]
    assert sent == [act.Go(Place("backup"))]
    nobody = Scene(replace(begun(), place=Place("erase")), sent.append, 390, 664, False, Kept())
    with Renderer().with_context():
        assert words("erase.nothing") in said(erase(nobody))


def test_the_backup_screen_asks_how_much_room_is_left_and_says_it() -> None:
    state, asked_for = update(full(), act.Go(Place("backup")))
    assert asks.ReadRoom() in asked_for
    assert asks.ReadRoom() not in update(full(), act.Go(Place("erase")))[1]
    for route in ("/backup", "/erase"):
        assert (asks.ReadRoom() in update(State(), loaded(full(), route))[1]) == (route == "/backup")
    for (used, left), expected in {
        (2_140_000, 930_400_000): "What is kept here takes 2.1 MB. About 930.4 MB are free for it.",
        (999_400, None): "What is kept here takes 999 kB.",
        (0, 1_000_000_000): "What is kept here takes 0 kB. About 1.0 GB are free for it.",
    }.items():
        assert expected in shown(after(state, act.RoomCame(used, left)))[0]
    assert not [each for each in shown(after(state, act.RoomCame(None, None)))[0] if each.startswith("What is kept")]
    ((came,), _) = work(full(), asks.ReadRoom(), kept(full()))
    assert isinstance(came, act.RoomCame)
    assert came.used is not None
    assert came.used > 1000


def test_who_has_something_to_lose_is_told_to_save_a_backup_before_installing() -> None:
    at = act.Go(Place("backup"))
    assert words("backup.install") in shown(after(full(), at))[0]
    assert words("backup.install") not in shown(after(State(), loaded(State(), "/"), at))[0]


# ---- The code of a chalk sheet --------------------------------------------------------------------------------------

PNG = b"\x89PNG\r\n\x1a\nand so on"


def code_of(*, measures: bool) -> str:
    order, problems = read_order(json.loads(DEMO) | {"sheet_measures": measures})
    assert order is not None, problems
    return code_text(order)


def opened_picture(code: str | None, ask: asks.Ask | None = None) -> act.Action:
    """What comes of a picture in which the device reads this code, or of its camera."""
    sent: list[act.Action] = []

    async def job() -> None:
        effects = Effects(MemoryStore(), Paper(code=code), begun, sent.append)  # type: ignore[arg-type]
        effects.do(ask or asks.ReadBackup(PNG))
        while effects._tasks:
            await asyncio.gather(*effects._tasks)

    asyncio.run(job())
    (came,) = sent
    return came


@pytest.mark.parametrize("measures", [True, False])
def test_the_code_of_a_sheet_brings_its_garment_with_the_measures_only_where_it_holds_them(measures: bool) -> None:
    came = opened_picture(code_of(measures=measures))
    assert isinstance(came, act.BackupRead)
    assert came.backup is not None, came.words
    taken = after(begun(), came, act.TakeOver())
    (garment,) = taken.book.garments
    assert garment.title == json.loads(DEMO)["title"]
    assert garment.cloth["width"] == str(json.loads(DEMO)["cloth"]["width"])
    assert [each.measures["bust_girth"] for each in taken.book.people] == (["94"] if measures else [])
    assert garment.person == (taken.book.people[0].id if measures else "")
    assert taken.place == (Place() if measures else Place("person", garment.id))


def without_measures(book: Book) -> State:
    """A book that took over the code of a sheet without measures."""
    came = opened_picture(code_of(measures=False))
    assert isinstance(came, act.BackupRead)
    return after(begun(book), came, act.TakeOver())


def test_a_garment_without_measures_asks_for_whom_it_is() -> None:
    book, _ = sample()
    looked = after(begun(book), opened_picture(code_of(measures=False)))
    assert words("backup.order.nobody") in shown(looked)[0]
    state = without_measures(book)
    assert state.book.people == book.people, "nobody half made is left"
    assert len(state.book.garments) == len(book.garments) + 1
    assert state.garment is not None
    assert words("person.choose") in screen(state)
    assert words("garment.next.person") in screen(after(state, act.Go(Place())))
    chosen = after(state, act.ChoosePerson(state.garment.id, "p1"))
    assert chosen.person is not None
    assert (chosen.person.id, chosen.book.people) == ("p1", book.people)
    new = after(state, act.AddPerson(state.garment.id))
    assert new.garment is not None
    assert [each.id for each in new.book.people] == ["p1", "p2", new.garment.person]
    left = after(state, act.Go(Place()), act.DeleteGarment(state.garment.id))
    assert left.book.garments == book.garments
    assert after(left, act.UndoLast()).book.garments == state.book.garments


@pytest.mark.parametrize("key", ["name", "age", "taken_on", "measures"])
def test_whoever_an_order_tells_anything_of_comes_with_it(key: str) -> None:
    told = {"name": "Ilse", "age": 30, "taken_on": "2026-10-18", "measures": {"stature": 168}}
    typed = json.loads(DEMO) | {"person": {"kind": "woman", "unit": "cm", key: told[key]}}
    read = read_backup(json.dumps(typed).encode())
    assert isinstance(read, Backup)
    assert len(read.book.people) == 1
    nobody = read_backup(json.dumps(typed | {"person": {"kind": "child", "unit": "cm"}}).encode())
    assert isinstance(nobody, Backup)
    assert nobody.book.people == ()


@pytest.mark.parametrize("here", ["cm", "in"])
def test_a_garment_without_measures_keeps_its_lengths_whoever_it_is_for(here: Unit) -> None:
    """The code was made in centimetres; 160 of them stay as many where inches are used."""
    state = without_measures(Book(settings=Settings(here)))
    assert state.garment is not None
    key = state.garment.id
    for unit in ("cm", "in"):
        chosen = after(state, act.AddPerson(), act.ChooseUnit(f"p{state.book.next}", unit))
        chosen = after(chosen, act.ChoosePerson(key, chosen.book.people[0].id))
        made, _ = order_of(chosen.book.garments[0], chosen.book.people[0])
        assert made is not None
        assert read_length(made["cloth"]["width"], made["person"]["unit"]) == 1600
        assert ("/" in chosen.book.garments[0].tape) is (unit == "in")


@pytest.mark.parametrize(
    ("code", "said_of_it"),
    [
        (None, "picture.not_here"),
        ("", "picture.none"),
        ("https://example.org", "picture.other"),
        ("FOLDMARK-1:BROKEN!", "picture.damaged"),
    ],
)
def test_a_picture_that_brings_nothing_says_why(code: str | None, said_of_it: str) -> None:
    assert opened_picture(code) == act.BackupRead(None, words(said_of_it))


@pytest.mark.parametrize(
    ("code", "came"),
    [
        (None, act.BackupRead(None, words("camera.none"))),
        ("", act.CameraClosed()),
        ("https://example.org", act.BackupRead(None, words("picture.other"))),
    ],
)
def test_the_camera_tells_what_a_picture_would_and_can_be_closed(code: str | None, came: act.Action) -> None:
    assert opened_picture(code, asks.ReadCamera()) == came
    found = opened_picture(code_of(measures=True), asks.ReadCamera())
    assert isinstance(found, act.BackupRead)
    assert found.backup is not None
    looking, asked_for = update(full(), act.AskCamera())
    assert (looking.busy, asked_for) == (words("camera.busy"), (asks.ReadCamera(),))
    assert update(looking, act.AskCamera()) == (looking, ())
    assert after(looking, act.CameraClosed()).busy == ""


def test_a_picture_is_known_by_how_it_begins_and_no_text_is_one() -> None:
    for begins in (
        PNG,
        b"\xff\xd8\xff\xe0",
        b"GIF89a",
        b"BM1",
        b"RIFF\x00\x00\x00\x00WEBPVP8 ",
        b"\x00\x00\x00 ftypheic",
    ):
        assert is_picture(begins)
    for text in (b"", b"{", DEMO.encode(), b"\xef\xbb\xbf{}", code_of(measures=True).encode()):
        assert not is_picture(text)


def test_an_order_that_lacks_more_than_measures_is_refused_all_the_same() -> None:
    typed = json.loads(DEMO)
    del typed["person"]["measures"]
    assert isinstance(read_backup(json.dumps(typed).encode()), Backup)
    typed["cloth"]["width"] = "wide"
    refused = read_backup(json.dumps(typed).encode())
    assert not isinstance(refused, Backup)
    assert "cloth" in refused.words


def test_the_sheet_and_the_order_hold_the_measures_where_that_is_chosen() -> None:
    state = after(full(), act.SheetMeasures(full().book.garments[-1].id, on=True))
    garment = state.book.garments[-1]
    assert garment.sheet_measures
    assert not after(state, act.SheetMeasures(garment.id, on=False)).book.garments[-1].sheet_measures
    for each in (state, full()):
        _, device = work(each, asks.MakeFile(garment.id, "order.json"), kept(each))
        typed = json.loads(device.handed[0][2])
        assert typed.get("sheet_measures", False) is each.book.garments[-1].sheet_measures
    shown_now = screen(replace(state, place=Place("paper", garment.id)))
    assert words("paper.code") in shown_now


# ---- Installing -----------------------------------------------------------------------------------------------------


def test_it_is_installed_from_where_a_backup_comes_first() -> None:
    """The button stands under the word that an installed app may start empty, and only where the browser has a way."""
    state, asked_for = update(full(), act.Go(Place("backup")))
    assert asks.ReadInstall() in asked_for
    assert asks.ReadInstall() in update(State(), loaded(full(), "/backup"))[1]
    assert asks.ReadInstall() not in update(full(), act.Go(Place("erase")))[1]
    do, by_hand = words("backup.install.do"), words("backup.install.by_hand")
    for can, there in (("no", []), ("asks", [do]), ("by_hand", [by_hand])):
        told = shown(after(state, act.InstallCame(can)))[0]
        assert [each for each in told if each in (do, by_hand)] == there
        assert words("backup.install") in told
        assert all(told.index(words("backup.install")) < told.index(each) for each in there)
    assert asked(state, act.AskInstall()) == (asks.InstallHere(),)
    for ask, now, can in ((asks.ReadInstall(), "False", "asks"), (asks.InstallHere(), "True", "no")):
        sent, device = work(state, ask)
        assert sent == [act.InstallCame(can)]
        assert device.handed == [("install", now, b"")]
