"""What the effects do with the store and the clock: nothing is lost, nothing is left behind."""

import asyncio
import gc
import warnings
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from app import actions as act
from app import asks
from app.actions import Action, LoadFailed
from app.effects import Effects
from app.saved import GARMENT, KeptGarment, place_text, read, read_place
from app.state import Book, FrozenDraft, PersonRecord, Place, State
from app.storage import WORDS, MemoryStore, Reason, Record, SaveFailed
from app.text import words
from app.typed import order_of, order_text
from tests.app.records import texts
from tests.app.session import Tab, fill
from tests.app.session import run as session_run

DEMO = (Path(__file__).resolve().parents[2] / "assets" / "demo" / "order.json").read_text("utf-8")


def run(store: MemoryStore, now: Callable[[], State], *asked: asks.Ask, finish: bool = False) -> list[Action]:
    """All that the effects send when these things are asked for in one breath."""
    sent: list[Action] = []

    async def job() -> None:
        effects = Effects(store, None, now, sent.append)  # type: ignore[arg-type]
        for each in asked:
            effects.do(each)
        if finish:
            await asyncio.sleep(0)
            await effects.finish()
        else:
            while effects._tasks:
                await asyncio.gather(*effects._tasks, return_exceptions=True)

    asyncio.run(job())
    return sent


def kept(store: MemoryStore, key: str) -> Record | SaveFailed | None:
    return asyncio.run(store.load(key))


def test_what_is_put_aside_before_it_began_leaves_no_coroutine_behind() -> None:
    """A person types faster than a loop turns: each letter puts the saving of the one before aside."""
    with warnings.catch_warnings(record=True) as told:
        warnings.simplefilter("always")
        run(MemoryStore(), State, *[asks.SaveBook(), asks.Draft("g1"), asks.SavePlace()] * 5)
        gc.collect()
    assert [str(each.message) for each in told] == []


def test_the_place_is_kept_once_and_is_nobodys_alone() -> None:
    store, here = MemoryStore(), replace(State(), place=Place("lay", "g1"))
    asyncio.run(store.save("place", place_text(Place("cloth", "g2")), 0))
    assert run(store, lambda: here, *[asks.SavePlace()] * 3) == [], "nothing is told of it"
    found = kept(store, "place")
    assert isinstance(found, Record)
    assert (read_place(found.text), found.revision) == (Place("lay", "g1"), 2)


@pytest.mark.parametrize("closed", [False, True])
def test_the_end_of_a_session_keeps_the_place_where_the_store_lets_it(closed: bool) -> None:
    store = MemoryStore()
    store.closed = closed
    run(store, lambda: replace(State(), place=Place("lay", "g1")), asks.SavePlace(), finish=True)
    store.closed = False
    found = kept(store, "place")
    assert (found is None) is closed


def test_loading_brings_the_place_along() -> None:
    store = MemoryStore()
    asyncio.run(store.save("place", place_text(Place("lay", "g1")), 0))
    (loaded,) = run(store, State, asks.Load("/"))
    assert loaded.place == Place("lay", "g1")  # type: ignore[attr-defined]


class Stale(MemoryStore):
    """A browser whose page is older than what a tab saved that is closed now."""

    def __init__(self, reason: Reason) -> None:
        super().__init__()
        self.reason = reason

    async def load(self, key: str) -> Record | SaveFailed | None:
        return SaveFailed.because(self.reason)


@pytest.mark.parametrize(("reason", "said"), [("stale", words("saved.reload")), ("damaged", WORDS["damaged"])])
def test_a_page_that_is_too_old_is_to_be_loaded_again(reason: Reason, said: str) -> None:
    assert run(Stale(reason), State, asks.Load("/")) == [LoadFailed(said)]


def test_an_undo_is_let_go_only_after_what_it_put_back_is_saved() -> None:
    async def job() -> None:
        person = PersonRecord("p1", name="Ngozi")
        store = MemoryStore()
        await fill(store, texts(Book(people=(person,))))
        tab = await Tab(store).open()
        tab.put(act.DeletePerson("p1"))
        await tab.quiet()
        await asyncio.sleep(10)
        assert {key for key in await store.keys() if "p1" in key} == {"gone.p1"}
        store.room_in_all = store._used() + 5
        tab.put(act.UndoLast())
        await tab.quiet()
        await asyncio.sleep(10)
        assert {key for key in await store.keys() if "p1" in key} == {"gone.p1"}, "there is no room for it yet"
        store.room_in_all = None
        tab.put(act.SetLight("dark"))
        await tab.quiet()
        await asyncio.sleep(10)
        assert {key for key in await store.keys() if "p1" in key} == {"person.p1"}

    session_run(job())


def test_a_garment_is_not_kept_as_chalked_where_there_is_no_room_for_its_frozen_draft() -> None:
    async def job() -> None:
        store = MemoryStore()
        tab = await Tab(store).open()
        for action in (act.AddDemo(DEMO), act.SetLight("dark")):
            tab.put(action)
        await tab.quiet()
        await asyncio.sleep(10)
        garment = tab.state.garment
        assert garment is not None
        typed = order_of(garment, tab.state.person)[0]
        assert typed is not None
        store.room_in_all = store._used() + 1000
        tab.put(act.Go(Place("proof", garment.id)))
        tab.put(act.Froze(garment.id, FrozenDraft(order_text(typed), "x" * 200_000 + str(list(range(2000))))))
        await tab.quiet()
        await asyncio.sleep(10)
        assert tab.state.notice is not None
        assert tab.state.notice.tone == "stop"
        key = GARMENT + garment.id
        found = read(key, (await store.load(key)).text)  # type: ignore[union-attr]
        assert isinstance(found, KeptGarment)
        assert not found.garment.chalking
        store.room_in_all = None
        tab.put(act.SetLight("light"))
        await tab.quiet()
        await asyncio.sleep(10)
        again = await Tab(store).open()
        assert again.state.garment is not None
        assert again.state.garment.chalking
        assert set(again.state.frozen) == {garment.id}

    session_run(job())
