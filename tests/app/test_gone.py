"""What was deleted comes back whole for as long as its undo is offered, and only then goes for good."""

import asyncio
from dataclasses import replace

import pytest

from app import actions as act
from app import asks
from app.effects import Effects
from app.state import Notice, Place, State, book_text, frozen_text
from app.storage import MemoryStore, Record, SaveFailed
from app.text import words
from app.update import update
from app.update_garment import chalking_of
from tests.app.test_shown import after, being_chalked


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
    frozen = {key: frozen_text(one) for key, one in state.frozen.items()}
    return after(State(), act.Loaded(book_text(state.book), frozen, {}, "/"))


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
    for action in (act.NotSaved("No room.", stale=False), act.ChangedElsewhere("book", 9)):
        state, asking = update(deleted, action)
        assert state.frozen == chalked.frozen
        assert state.book.gone == deleted.book.gone
        assert not [each for each in asking if isinstance(each, asks.RemoveFrozen)]


def test_a_garment_whose_frozen_draft_was_lost_comes_back_unchalked(chalked: State) -> None:
    deleted = after(chalked, act.DeleteGarment("g1"))
    loaded = after(State(), act.Loaded(book_text(deleted.book), {}, {}, "/"), act.UndoLast())
    assert [each.chalking for each in loaded.book.garments] == [False]


def removing(state: State, store: MemoryStore) -> tuple[str, ...]:
    """The records that are left after the frozen draft was let go."""

    async def run() -> tuple[str, ...]:
        await store.save("frozen.g1", "a draft", 0)
        effects = Effects(store, None, lambda: state, lambda action: None)  # type: ignore[arg-type]
        effects.do(asks.RemoveFrozen("g1"))
        await asyncio.gather(*effects._tasks)
        found = await store.keys()
        assert isinstance(found, tuple)
        return found

    return asyncio.run(run())


def test_a_frozen_draft_goes_only_after_the_book_was_saved_without_its_garment(chalked: State) -> None:
    over = after(chalked, act.DeleteGarment("g1"), act.CloseNotice())
    store = MemoryStore()
    assert removing(over, store) == ("book",)
    assert removing(over, MemoryStore(room=20)) == ("frozen.g1",), "a book that cannot be saved keeps its draft"
    assert removing(replace(over, stale=True), MemoryStore()) == ("frozen.g1",)
    assert removing(after(chalked, act.DeleteGarment("g1")), MemoryStore()) == ("frozen.g1",)


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
    text = frozen_text(chalked.frozen["g1"])

    async def run() -> State:
        store = Hiccup(times)
        await store.save("book", book_text(chalked.book), 0)
        await store.save("frozen.g1", text, 0)
        state = State()

        def send(action: act.Action) -> None:
            nonlocal state
            state, asking = update(state, action)
            for each in asking:
                if isinstance(each, (asks.LoadFrozen, asks.SaveFrozen, asks.RemoveFrozen)):
                    effects.do(each)

        effects = Effects(store, None, lambda: state, send)  # type: ignore[arg-type]
        effects.do(asks.Load("/garment/g1/chalk"))
        await asyncio.gather(*effects._tasks)
        for left in range(times, 0, -1):
            assert state.unread == {"g1"}
            assert state.book.garments[0].chalking
            await effects._file(asks.MakeFile("g1", "order.json"))
            assert state.notice is not None
            assert "not made, because the marks cannot be read" in state.notice.words
            send(act.ReadFrozen("g1"))
            await asyncio.gather(*effects._tasks)
            assert (state.unread == frozenset()) == (left == 1)
        found = await store.load("frozen.g1")
        assert isinstance(found, Record)
        assert (found.text, found.revision) == (text, 1)
        return state

    state = asyncio.run(run())
    assert state.frozen == chalked.frozen
    assert state.book.garments == chalked.book.garments
