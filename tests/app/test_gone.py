"""What was deleted comes back whole for as long as its undo is offered, and only then goes for good."""

import asyncio
from collections.abc import Sequence
from dataclasses import replace

import pytest

from app import actions as act
from app import asks
from app.saved import read, text_of
from app.state import Gone, Notice, Place, State
from app.storage import Change, MemoryStore, Record, SaveFailed
from app.text import words
from app.update import update
from app.update_garment import chalking_of
from tests.app.records import loaded, texts
from tests.app.session import Tab, fill, run
from tests.app.test_shown import after, being_chalked, demo


@pytest.fixture(scope="module")
def chalked() -> State:
    """The demo with one step done, seen from home."""
    state = being_chalked()
    assert state.garment is not None
    chalking = chalking_of(state, state.garment)
    assert chalking is not None
    return after(state, act.MarkDone("g1", chalking.items[0].key), act.StepSewn("g1", "cut"), act.Go(Place()))


def again(state: State) -> State:
    """The state after the page was loaded anew."""
    return after(State(), loaded(state))


@pytest.mark.parametrize("reloaded", [False, True])
def test_an_undo_brings_back_the_draft_and_every_tick(chalked: State, reloaded: bool) -> None:
    deleted, asking = update(chalked, act.DeleteGarment("g1"))
    assert deleted.book.garments == ()
    assert not [each for each in asking if isinstance(each, asks.RemoveFrozen)]
    assert deleted.notice is not None
    assert deleted.notice.words == "Ferry pullover is deleted."
    if reloaded:
        deleted = again(deleted)
        assert deleted.notice is not None
        assert deleted.notice.words == "Ferry pullover is deleted."
    back = after(deleted, act.UndoLast())
    assert back.book == chalked.book
    assert back.frozen == chalked.frozen
    assert back.notice is None
    assert update(back, act.CloseNotice())[1] == (), "what is back is not let go"


def test_a_person_comes_back_after_the_page_was_loaded_anew(chalked: State) -> None:
    deleted = again(after(chalked, act.DeletePerson("p2")))
    assert deleted.book.people == ()
    assert after(deleted, act.UndoLast()).book == chalked.book


def test_it_stays_through_other_screens_until_it_is_put_aside(chalked: State) -> None:
    deleted = after(chalked, act.DeleteGarment("g1"), act.AddPerson(), act.TypeName("p3", "Ada"), act.Go(Place()))
    assert deleted.notice is not None
    assert deleted.book.gone is not None
    over, asking = update(deleted, act.CloseNotice())
    assert over.frozen == {}
    assert over.book.gone is None
    assert [each for each in asking if isinstance(each, asks.RemoveFrozen)] == [asks.RemoveFrozen("g1")]
    assert asks.SaveBook() in asking
    assert again(over).notice is None


def test_another_deletion_ends_it_and_is_offered_itself(chalked: State) -> None:
    deleted = after(chalked, act.DeleteGarment("g1"))
    over, asking = update(deleted, act.DeletePerson("p2"))
    assert asks.RemoveFrozen("g1") in asking
    assert over.book.gone is not None
    assert (over.book.gone.garment, over.book.gone.person) == (None, chalked.book.people[0])
    assert after(over, act.UndoLast()).book.people == chalked.book.people


def test_trouble_with_saving_does_not_end_it(chalked: State) -> None:
    deleted = after(chalked, act.DeleteGarment("g1"))
    for action in (act.NotSaved("No room."), act.RecordCame("book", deleted.book.settings)):
        state, asking = update(deleted, action)
        assert state.frozen == chalked.frozen
        assert state.book.gone == deleted.book.gone
        assert not [each for each in asking if isinstance(each, asks.RemoveFrozen)]


def test_a_garment_whose_frozen_draft_was_lost_comes_back_unchalked(chalked: State) -> None:
    deleted = after(chalked, act.DeleteGarment("g1"))
    opened = after(State(), loaded(deleted, without_frozen=True), act.UndoLast())
    looking, asking = update(opened, act.Go(Place("chalk", "g1")))
    assert asks.LoadFrozen("g1") in asking
    told = after(looking, act.FrozenRead("g1", None, kept=False))
    assert [each.chalking for each in told.book.garments] == [False]


def left_after(chalked: State, *actions: act.Action, room: int | None = None) -> tuple[str, ...]:
    """The records that are left when these things were done in a tab that was opened with the chalked garment."""

    async def work() -> tuple[str, ...]:
        store = MemoryStore()
        await fill(store, texts(chalked))
        tab = await Tab(store).open()
        store.room_in_all = room
        for action in actions:
            tab.put(action)
        await tab.quiet()
        found = await store.keys()
        assert isinstance(found, tuple)
        return found

    return run(work())


def test_a_frozen_draft_goes_only_when_its_garment_was_let_go_for_good(chalked: State) -> None:
    assert left_after(chalked, act.DeleteGarment("g1")) == ("book", "frozen.g1", "gone.g1", "person.p2")
    assert left_after(chalked, act.DeleteGarment("g1"), act.CloseNotice()) == ("book", "person.p2")
    kept = tuple(sorted(key for key in texts(chalked) if key != "gone.g1"))
    assert left_after(chalked, act.DeleteGarment("g1"), act.UndoLast()) == kept
    full = left_after(chalked, act.DeleteGarment("g1"), act.CloseNotice(), room=0)
    assert full == ("book", "person.p2"), "deleting makes room where there is none"


def test_a_garment_that_cannot_be_saved_unchalked_keeps_its_draft(chalked: State) -> None:
    class Refusing(MemoryStore):
        async def save_all(self, changes: Sequence[Change]) -> dict[str, int | SaveFailed]:
            if any(each.key == "garment.g1" for each in changes):
                return {each.key: SaveFailed.because("closed") for each in changes}
            return await super().save_all(changes)

    async def work() -> None:
        store = Refusing()
        await fill(store, texts(chalked))
        tab = await Tab(store).open()
        tab.put(act.DraftAgain("g1"))
        await tab.quiet()
        assert tab.state.notice is not None
        assert tab.state.notice.tone == "stop"
        assert isinstance(await store.load("frozen.g1"), Record)

    run(work())


def test_a_plain_notice_ends_it_too(chalked: State) -> None:
    deleted = after(chalked, act.DeleteGarment("g1"))
    assert deleted.book.gone is not None
    told = replace(deleted, notice=Notice(words("saved.not")))
    assert update(told, act.SetLight("dark"))[0].book.gone is None


class Hiccup(MemoryStore):
    """A store that lets a record be read only after so many times."""

    def __init__(self, times: int) -> None:
        super().__init__()
        self.times = times

    async def load(self, key: str) -> Record | SaveFailed | None:
        if key.startswith("frozen.") and self.times > 0:
            self.times -= 1
            return SaveFailed.because("closed")
        return await super().load(key)


@pytest.mark.parametrize("times", [0, 1, 2])
def test_a_frozen_draft_that_is_read_late_is_chalked_from_as_if_nothing_had_been(chalked: State, times: int) -> None:
    """Its record is not touched meanwhile, and no paper is drafted anew in its place."""
    records = texts(chalked)

    async def work() -> State:
        store = Hiccup(times)
        await fill(store, records)
        tab = await Tab(store).open("/garment/g1/chalk")
        for left in range(times, 0, -1):
            assert tab.state.unread == {"g1"}
            assert tab.state.book.garments[0].chalking
            await tab.effects._make_file(asks.MakeFile("g1", "order.json"))
            assert tab.state.notice is not None
            assert "not made, because the marks cannot be read" in tab.state.notice.words
            tab.put(act.ReadFrozen("g1"))
            await tab.quiet()
            assert (tab.state.unread == frozenset()) == (left == 1)
        found = await store.load("frozen.g1")
        assert isinstance(found, Record)
        assert (found.text, found.revision) == (records["frozen.g1"], 1)
        return tab.state

    state = run(work())
    assert state.frozen == chalked.frozen
    assert state.book.garments == chalked.book.garments


def test_what_is_chalked_and_changed_here_keeps_its_draft_when_another_tab_deletes_everything(chalked: State) -> None:
    """Kept by a person, it is saved with the draft that its marks are from, although that was deleted there."""

    async def work() -> None:
        store = MemoryStore()
        await fill(store, texts(chalked))
        here, there = await Tab(store).open("/garment/g1/chalk"), await Tab(store).open()
        there.put(act.EraseAll())
        here.put(act.TypeTitle("g1", "Changed here"))
        await asyncio.sleep(60)
        await here.quiet()
        assert [each.key for each in here.state.clashes] == ["garment.g1"]
        assert here.state.frozen == chalked.frozen
        here.put(act.KeepBoth("garment.g1"))
        await here.quiet()
        assert isinstance(await store.load("garment.g1"), Record)
        kept = await store.load("frozen.g1")
        assert isinstance(kept, Record)
        assert read("frozen.g1", kept.text) == chalked.frozen["g1"]

    run(work())


class Unsure(MemoryStore):
    """A store that does not say whether a person is there."""

    unsure = False

    async def load(self, key: str) -> Record | SaveFailed | None:
        if self.unsure and key.startswith("person."):
            return SaveFailed.because("closed")
        return await super().load(key)


def test_what_another_tab_put_aside_is_not_written_over_where_nobody_knows_whether_the_person_is_there() -> None:
    state = demo()
    person = state.book.people[0]

    async def work() -> None:
        store = Unsure()
        await fill(store, texts(state))
        tab = await Tab(store).open()
        key = f"gone.{person.id}"
        theirs = text_of(Gone("Theirs is deleted.", person=replace(person, name="Theirs, the newer")))
        assert await store.save(key, theirs, 0) == 1
        revision = (await store.load(f"person.{person.id}")).revision  # type: ignore[union-attr]
        await store.remove(f"person.{person.id}", revision)
        store.unsure = True
        tab.put(act.DeletePerson(person.id))
        await tab.quiet()
        kept = await store.load(key)
        assert isinstance(kept, Record)
        assert kept.text == theirs

    run(work())


@pytest.mark.parametrize("known", [True, False])
@pytest.mark.parametrize("changed", [True, False])
def test_what_is_put_aside_gives_way_only_where_another_tab_changed_the_record_since(
    *, changed: bool, known: bool
) -> None:
    """An older one that was undone is written over; one that holds more than this tab ever knew stays."""
    state = demo()
    person = state.book.people[0]
    theirs = replace(person, name="Theirs, the newer")

    async def work() -> None:
        store = MemoryStore()
        await fill(store, texts(state))
        put_aside = text_of(Gone("Theirs is deleted.", person=theirs))
        if known:  # it was there when this tab was opened
            assert await store.save(f"gone.{person.id}", put_aside, 0) == 1
        tab = await Tab(store).open()
        if not known:
            assert await store.save(f"gone.{person.id}", put_aside, 0) == 1
        if changed:
            assert await store.save(f"person.{person.id}", text_of(theirs), 1) == 2
        tab.put(act.DeletePerson(person.id))
        await tab.quiet()
        kept = await store.load(f"gone.{person.id}")
        assert isinstance(kept, Record)
        assert (kept.text == put_aside) is changed

    run(work())


class NoRoomForTheUndo(MemoryStore):
    """While `full`, what is put aside finds no room."""

    full = True

    async def save_all(self, changes: Sequence[Change]) -> dict[str, int | SaveFailed]:
        refused = {
            each.key: SaveFailed.because("full")
            for each in changes
            if self.full and each.key.startswith("gone.") and each.text is not None
        }
        return await super().save_all([each for each in changes if each.key not in refused]) | refused


@pytest.mark.parametrize("put_back", [True, False])
def test_who_took_a_record_away_knows_it_best_unless_it_was_put_back_since(*, put_back: bool) -> None:
    """The put-aside finds room late, and another tab that knew less has put its own aside meanwhile."""
    state = demo()
    person = state.book.people[0]
    older = text_of(Gone("Theirs is deleted.", person=replace(person, name="Theirs, the older")))

    async def work() -> None:
        store = NoRoomForTheUndo()
        await fill(store, texts(state))
        tab = await Tab(store).open()
        tab.put(act.DeletePerson(person.id))
        await tab.quiet()
        assert await store.load(f"person.{person.id}") is None
        store.full = False
        assert await store.save(f"gone.{person.id}", older, 0) == 1
        if put_back:  # and deleted there once more
            tab.effects._elsewhere(f"person.{person.id}", 4)
            await tab.quiet()
        tab.put(act.SetLight("dark"))  # any change tries again what could not be saved
        await tab.quiet()
        kept = await store.load(f"gone.{person.id}")
        assert isinstance(kept, Record)
        assert (kept.text == older) is put_back

    run(work())
