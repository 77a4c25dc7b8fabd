"""The Store interface: the same answers from every implementation that runs without a browser, and every failure."""

from __future__ import annotations

import asyncio
import re
from collections.abc import Callable, Coroutine
from typing import Any
from unittest.mock import MagicMock

import flet as ft
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app import actions as act
from app.main import main
from app.storage import Change, Found, MemoryStore, Record, Room, SaveFailed, Store
from app.storage_server import ServerStore
from tests.app.records import loaded


class Browser:
    """One browser's localStorage."""

    def __init__(self, room: int = 100_000) -> None:
        self.kept: dict[str, str] = {}
        self.room = room


class Tab:
    """A stand-in for flet.SharedPreferences in one tab, with its habits: it answers reads from a copy of its own that
    it took when the page was loaded, and keeps a text in that copy even where the browser refused it."""

    def __init__(self, browser: Browser) -> None:
        self.browser, self.copy = browser, dict(browser.kept)
        self.refuses = False
        self.loses = ""

    async def set(self, key: str, value: Any) -> bool:
        await asyncio.sleep(0)
        self.copy[key] = value
        rest = sum(len(text) for name, text in self.browser.kept.items() if name != key)
        if self.refuses or rest + len(value) > self.browser.room:
            raise RuntimeError(f"QuotaExceededError: setting the value of 'flutter.{key}' exceeded the quota")
        if self.loses and self.loses in key:
            self.copy[key] = value[:-1]
        self.browser.kept[key] = self.copy[key]
        return True

    async def get(self, key: str) -> Any:
        await asyncio.sleep(0)
        return self.copy.get(key)

    async def remove(self, key: str) -> bool:
        self.copy.pop(key, None)
        return self.browser.kept.pop(key, None) is not None

    async def get_keys(self, key_prefix: str) -> list[str]:
        return [key for key in self.copy if key.startswith(key_prefix)]


MAKERS: dict[str, Callable[[], Store]] = {"memory": MemoryStore, "server": lambda: ServerStore(Tab(Browser()))}


def run(work: Coroutine[Any, Any, Any]) -> Any:
    return asyncio.run(work)


@pytest.mark.parametrize("make", MAKERS.values(), ids=MAKERS)
def test_save_load_remove(make: Callable[[], Store]) -> None:
    async def work() -> None:
        store = make()
        assert await store.load("a") is None
        assert await store.save("a", "one ½\nline", 0) == 1
        assert await store.save("b", "", 0) == 1
        assert await store.save("a", "two", 1) == 2
        assert await store.load("a") == Record("two", 2)
        assert await store.keys() == ("a", "b")
        assert await store.remove("a", 2) is None
        assert await store.load("a") is None
        assert await store.keys() == ("b",)
        assert await store.save("a", "again", 0) == 4, "revisions go on past a removal"
        assert await store.remove("never there", 0) is None

    run(work())


@pytest.mark.parametrize("make", MAKERS.values(), ids=MAKERS)
def test_who_fell_behind_is_told(make: Callable[[], Store]) -> None:
    async def work() -> None:
        store = make()
        await store.save("a", "one", 0)
        await store.save("a", "two", 1)
        for late in (0, 1, 3):
            answer = await store.save("a", "late", late)
            assert isinstance(answer, SaveFailed)
            assert answer.reason == "stale"
        gone = await store.remove("a", 1)
        assert isinstance(gone, SaveFailed)
        assert gone.reason == "stale"
        assert await store.load("a") == Record("two", 2)

    run(work())


STEPS = st.lists(
    st.tuples(st.sampled_from("ab"), st.sampled_from(("save", "remove")), st.text(max_size=5), st.integers(0, 4)),
    max_size=25,
)


@given(STEPS)
@settings(max_examples=60, deadline=None)
def test_server_and_memory_give_the_same_answers(steps: list[tuple[str, str, str, int]]) -> None:
    async def work() -> None:
        stores: list[Store] = [make() for make in MAKERS.values()]
        for key, what, text, revision in steps:
            answers = []
            for store in stores:
                answer = await (store.save(key, text, revision) if what == "save" else store.remove(key, revision))
                answers.append(answer.reason if isinstance(answer, SaveFailed) else answer)
                answers.append(str(await store.load(key)) + str(await store.keys()))
            assert answers[:2] == answers[2:]

    run(work())


def test_full_browser_keeps_what_was_there() -> None:
    async def work() -> None:
        browser = Browser(room=400)
        store = ServerStore(Tab(browser))
        assert await store.save("a", "old", 0) == 1
        answer = await store.save("a", "x" * 1000, 1)
        assert isinstance(answer, SaveFailed)
        assert answer.reason == "full"
        assert "a" not in answer.detail.replace("RuntimeError", ""), "a report holds no key"
        assert await store.load("a") == Record("old", 1)
        assert await ServerStore(Tab(browser)).load("a") == Record("old", 1), "also after a reload"
        assert await store.save("a", "new", 1) == 2

    run(work())


@pytest.mark.parametrize("lost", ["foldmark.b.", "foldmark.pointer."])
def test_a_text_that_does_not_read_back_is_not_taken(lost: str) -> None:
    async def work() -> None:
        browser = Browser()
        tab = Tab(browser)
        store = ServerStore(tab)
        await store.save("a", "first", 0)
        assert await store.save("a", "old", 1) == 2
        assert await store.save("a", "older", 2) == 3  # now in slot a; the next goes to b
        tab.loses = lost
        answer = await store.save("a", "new", 3)
        assert isinstance(answer, SaveFailed)
        assert answer.reason == "unproven"
        if "pointer" not in lost:
            assert await ServerStore(Tab(browser)).load("a") == Record("older", 3)

    run(work())


class GoneError(BaseException):
    """The page is closed in the middle of what it did."""


class Cut(Tab):
    """A tab that is closed at one of its writes: before it, half-way, but for the last letter, or after it."""

    def __init__(self, browser: Browser, left: int, when: str) -> None:
        super().__init__(browser)
        self.left, self.when = left, when

    async def set(self, key: str, value: Any) -> bool:
        self.left -= 1
        if self.left == 0 and self.when == "before":
            raise GoneError
        if self.left == 0 and self.when in ("half", "nearly"):
            self.browser.kept[key] = value[: len(value) // 2] if self.when == "half" else value[:-1]
            raise GoneError
        done = await super().set(key, value)
        if self.left == 0:
            raise GoneError
        return done

    async def remove(self, key: str) -> bool:
        self.left -= 1
        if self.left == 0 and self.when != "after":
            raise GoneError
        done = await super().remove(key)
        if self.left == 0:
            raise GoneError
        return done


@pytest.mark.parametrize("when", ["before", "half", "nearly", "after"])
@pytest.mark.parametrize("left", range(1, 5))
@pytest.mark.parametrize("text", ["new and longer", None])
@pytest.mark.parametrize("saves", [1, 2, 11])
def test_a_save_that_is_cut_off_leaves_the_record_whole(
    monkeypatch: pytest.MonkeyPatch, saves: int, text: str | None, left: int, when: str
) -> None:
    """At every write of a change. What was confirmed stands, or what was to replace it; a broken pointer is said."""
    monkeypatch.setattr(ServerStore, "_browsers", {})
    monkeypatch.setattr(ServerStore, "_tabs", {})
    browser = Browser()

    async def before() -> None:
        store = ServerStore(Tab(browser))
        for number in range(saves):
            assert await store.save("a", f"text {number}", number) == number + 1
        ServerStore._browsers.clear()  # what follows is after the server was started anew, too
        ServerStore._tabs.clear()
        await (store := ServerStore(Cut(browser, left, when))).load("a")
        change = store.remove("a", saves) if text is None else store.save("a", text, saves)
        assert not isinstance(await change, SaveFailed)

    try:
        asyncio.run(before())
        cut = False
    except GoneError:
        cut = True
    assert cut or left > (2 if text else 3), "a change has so many writes"
    ServerStore._browsers.clear()
    ServerStore._tabs.clear()

    async def after() -> None:
        store = ServerStore(Tab(browser))
        found = await store.load("a")
        if isinstance(found, SaveFailed):
            assert (found.reason, left) == ("damaged", 2 if text else 1)
            assert when in ("half", "nearly")
            assert await store.keys() == ("a",), "it is there, and left alone"
            refused = await store.save("a", "over it", saves)
            assert isinstance(refused, SaveFailed)
            return
        was, new = Record(f"text {saves - 1}", saves), None if text is None else Record(text, saves + 1)
        assert found in (was, new)
        assert cut or found == new
        assert isinstance(await store.save("a", "next", found.revision if found else 0), int), "it can be saved again"

    asyncio.run(after())


def test_a_broken_slot_is_never_taken_for_good() -> None:
    async def work() -> None:
        browser = Browser()
        await ServerStore(Tab(browser)).save("a", "measures", 0)
        slot = next(key for key in browser.kept if key.endswith(".a") and "pointer" not in key)
        browser.kept[slot] = browser.kept[slot].replace("measures", "measurez")
        answer = await ServerStore(Tab(browser)).load("a")
        assert isinstance(answer, SaveFailed)
        assert answer.reason == "damaged"
        found = await ServerStore(Tab(browser)).load_all("")
        assert found == Found({}, ("a",))

    run(work())


def test_tabs_of_one_browser_hear_of_each_other_and_others_do_not() -> None:
    async def work() -> None:
        here, there = Browser(), Browser()
        heard: dict[str, list[tuple[str, int]]] = {"first": [], "second": [], "other": []}
        first = ServerStore(Tab(here))
        await first.keys()
        await first.load("a")
        second, other = ServerStore(Tab(here)), ServerStore(Tab(there))
        for name, store in (("first", first), ("second", second), ("other", other)):
            store.on_change(lambda key, revision, name=name: heard[name].append((key, revision)))
            await store.load("a")
        assert await first.save("a", "one", 0) == 1
        late = await second.save("a", "late", 0)
        assert isinstance(late, SaveFailed)
        assert late.reason == "stale"
        assert await second.load("a") == Record("one", 1), "its own copy is old: it is handed the newer one"
        assert await second.keys() == ("a",)
        assert await ServerStore(Tab(here)).load("a") == Record("one", 1)
        assert await other.save("a", "theirs", 0) == 1
        await asyncio.sleep(0)
        assert heard == {"first": [], "second": [("a", 1)], "other": []}
        assert await second.save("a", "mine", 1) == 2, "who was handed it goes on from there"
        assert await first.load("a") == Record("mine", 2)
        assert await ServerStore(Tab(here)).load("a") == Record("mine", 2), "it stands in the browser too"
        assert await first.remove("a", 2) is None
        assert await second.load("a") is None
        assert await second.keys() == ()
        await asyncio.sleep(0)
        assert heard["first"] == [("a", 2)]
        second.close()
        assert await first.save("a", "two", 0) == 4
        await asyncio.sleep(0)
        assert heard["second"] == [("a", 1), ("a", 3)]

    run(work())


def test_a_server_remembers_few_browsers_that_are_gone_and_every_open_one(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(ServerStore, "_browsers", {})
    monkeypatch.setattr(ServerStore, "_tabs", {})
    monkeypatch.setattr(ServerStore, "KEPT", 3)

    async def opened(browser: Browser) -> ServerStore:
        tab = ServerStore(Tab(browser))
        await tab.load("a")
        return tab

    async def work() -> None:
        stays = Browser()
        open_all_along = await opened(stays)
        first = Browser()
        one, two = await opened(first), await opened(first)
        old = Tab(first)  # asleep from here on, with the copy of now
        assert await one.save("a", "one", 0) == 1
        one.close()
        assert len(ServerStore._tabs) == 2, "its other tab is open"
        two.close()
        gone = [await opened(Browser()) for _ in range(2)]
        for tab in gone:
            tab.close()
        assert len(ServerStore._browsers) == 4
        late = await ServerStore(old).save("a", "late", 0)
        assert isinstance(late, SaveFailed), "a tab that comes back late is told while its browser is remembered"
        for _ in range(20):
            (await opened(Browser())).close()
        assert len(ServerStore._tabs) == 2, "the two that are open"
        assert len(ServerStore._browsers) == 3 + 2
        assert await open_all_along.save("a", "mine", 0) == 1
        ServerStore(Tab(first)).close()  # one that was never known
        assert len(ServerStore._browsers) == 3 + 2

    run(work())


def test_the_end_of_a_session_saves_what_waits_and_forgets_its_tab(monkeypatch: pytest.MonkeyPatch) -> None:
    """The page of a session is a stand-in, with a browser's storage behind it; the session is the app's own."""
    browser = Browser()
    monkeypatch.setattr(ServerStore, "_browsers", {})
    monkeypatch.setattr(ServerStore, "_tabs", {})
    monkeypatch.setattr(ft, "SharedPreferences", lambda: Tab(browser))

    async def work() -> None:
        page: Any = MagicMock()
        await main(page)
        desk = page.render_views.call_args.args[1]
        desk.send(loaded())
        desk.effects._loading.cancel()
        desk.send(act.AddPerson())
        await desk.effects._store.load("book")
        assert len(ServerStore._tabs) == 1
        await page.on_close()
        assert ServerStore._tabs == {}, "nothing of it stays in the server's memory"
        assert "foldmark.pointer.person.p1" in browser.kept, "what was to be saved is"

    run(work())


def test_two_tabs_at_the_same_moment() -> None:
    async def work() -> None:
        browser = Browser()
        first = ServerStore(Tab(browser))
        await first.load("a")
        second = ServerStore(Tab(browser))
        answers = await asyncio.gather(first.save("a", "one", 0), second.save("a", "two", 0))
        assert sorted(isinstance(answer, SaveFailed) for answer in answers) == [False, True]
        kept = await ServerStore(Tab(browser)).load("a")
        assert kept == Record("one" if answers[0] == 1 else "two", 1)

    run(work())


def test_memory_store_fails_on_demand() -> None:
    async def work() -> None:
        store = MemoryStore(room=10)
        assert await store.save("a", "12345", 0) == 1
        full = await store.save("b", "123456", 0)
        assert isinstance(full, SaveFailed)
        assert full.reason == "full"
        assert "no room" in full.words
        heard: list[tuple[str, int]] = []
        store.on_change(lambda key, revision: heard.append((key, revision)))
        assert await store.other_tab_saves("a", "1") == 2
        assert heard == [("a", 2)]
        store.closed = True
        for answer in (
            await store.load("a"),
            await store.save("a", "", 2),
            await store.keys(),
            await store.remove("a", 2),
        ):
            assert isinstance(answer, SaveFailed)
            assert answer.reason == "closed"

    run(work())


@pytest.mark.parametrize("make", MAKERS.values(), ids=MAKERS)
def test_many_records_are_read_and_changed_each_by_itself(make: Callable[[], Store]) -> None:
    async def work() -> None:
        store = make()
        for key in ("person.p1", "person.p2", "place"):
            await store.save(key, key.upper(), 0)
        assert await store.keys("person.") == ("person.p1", "person.p2")
        found = await store.load_all("person.")
        assert found == Found({key: Record(key.upper(), 1) for key in ("person.p1", "person.p2")})
        answers = await store.save_all([
            Change("person.p1", "one", 1), Change("person.p2", "late", 7), Change("person.p3", "new", 0),
            Change("place", None, 1), Change("never", None, 0),
        ])  # fmt: skip
        late = answers.pop("person.p2")
        assert isinstance(late, SaveFailed)
        assert late.reason == "stale"
        assert answers == {"person.p1": 2, "person.p3": 1, "place": 2, "never": 0}
        assert await store.keys() == ("person.p1", "person.p2", "person.p3")
        assert await store.load("person.p2") == Record("PERSON.P2", 1)

    run(work())


def test_the_room_that_is_left_grows_less_with_what_is_kept() -> None:
    async def work() -> None:
        store = ServerStore(Tab(Browser()))
        before = await store.room()
        await store.save("a", "x" * 1000, 0)
        after = await store.room()
        assert before is not None
        assert after is not None
        assert after.used - before.used == 2000, "each record has two slots"
        assert before.left is not None
        assert after.left == before.left - 2000
        browser = Browser()
        await ServerStore(Tab(browser)).save("frozen.g1", "x" * 500, 0)
        fresh, other = ServerStore(Tab(browser)), ServerStore(Tab(browser))
        assert (found := await fresh.room()) is not None
        assert found.used == 1000, "what nobody has looked at yet takes room, too"
        assert await other.remove("frozen.g1", 1) is None
        assert (found := await fresh.room()) is not None
        assert found.used == 0, "what another tab has deleted takes none"
        memory = MemoryStore(room=50)
        await memory.save("a", "x" * 20, 0)
        assert await memory.room() == Room(20, 30)
        assert await MemoryStore().room() == Room(0, None)

    run(work())


@pytest.mark.parametrize(("trouble", "reason"), [
    (RuntimeError("QuotaExceededError: no"), "full"), (TimeoutError("person.p1"), "silent"),
    (RuntimeError("refused person.p1"), "closed"), (ConnectionError(), "closed"), (KeyError("person.p1"), "fault"),
    (TypeError("a mistake of ours"), "fault"),
])  # fmt: skip
def test_what_fails_is_told_apart_and_says_nothing_of_the_person(trouble: Exception, reason: str) -> None:
    class Failing(Tab):
        async def set(self, key: str, value: Any) -> bool:
            if "browser" in key:
                return await super().set(key, value)
            raise trouble

    async def work() -> None:
        store = ServerStore(Failing(Browser()))
        answer = await store.save("person.p1", "Runa", 0)
        assert isinstance(answer, SaveFailed)
        assert (answer.reason, answer.detail) == (reason, type(trouble).__name__)
        assert ("private windows" in answer.words) == (reason == "closed"), "only a refusal is blamed on the browser"
        assert ("Foldmark made a mistake" in answer.words) == (reason == "fault")

    run(work())


def test_a_damaged_pointer_is_left_alone() -> None:
    async def work() -> None:
        browser = Browser()
        await ServerStore(Tab(browser)).save("a", "measures", 0)
        browser.kept["foldmark.pointer.a"] = "a one"
        store = ServerStore(Tab(browser))
        for answer in (await store.load("a"), await store.save("a", "new", 0), await store.remove("a", 0)):
            assert isinstance(answer, SaveFailed)
            assert answer.reason == "damaged"
        assert (await store.load_all("")) == Found({}, ("a",))

    run(work())


def test_many_are_asked_for_at_once_and_one_mark_is_given_to_the_browser() -> None:
    async def work() -> None:
        browser = Browser()
        first = ServerStore(Tab(browser))
        for number in range(120):
            await first.save(f"person.p{number}", "x", 0)
        found = await ServerStore(Tab(browser)).load_all("person.")
        assert isinstance(found, Found)
        assert len(found.records) == 120
        new = Browser()
        await ServerStore(Tab(new)).load_all("")
        assert len([key for key in new.kept if key == "foldmark.browser"]) == 1

    run(work())


@pytest.mark.parametrize("make", MAKERS.values(), ids=MAKERS)
def test_all_is_deleted_and_what_is_kept_afterwards_begins_anew(make: Callable[[], Store]) -> None:
    async def job() -> None:
        store = make()
        for key in ("book", "person.p1", "frozen.g1"):
            assert await store.save(key, f"{key} 1", 0) == 1
        assert await store.remove("frozen.g1", 1) is None
        assert await store.erase() is None
        assert await store.keys() == ()
        assert await store.load("book") is None
        stale = await store.save("book", "of a tab that fell behind", 1)
        assert isinstance(stale, SaveFailed)
        assert stale.reason == "stale"
        assert isinstance(await store.save("book", "new", 0), int)
        assert await store.keys() == ("book",)
        assert await store.erase() is None
        assert await store.keys() == ()

    run(job())


def test_nothing_of_any_tab_is_left_in_a_browser_also_not_what_was_cut_off_or_broken() -> None:
    async def job() -> None:
        browser = Browser()
        browser.kept["foldmark.browser"] = "erased"
        mine, theirs = ServerStore(Tab(browser)), ServerStore(Tab(browser))
        heard: list[tuple[str, int]] = []
        await mine.load("book")
        await theirs.load("book")
        theirs.on_change(lambda key, revision: heard.append((key, revision)))
        assert await theirs.save("person.p1", "Ngozi", 0) == 1, "this tab's own copy does not know it"
        assert await mine.save("person.p2", "Ilse", 0) == 1
        browser.kept |= {"foldmark.a.person.p3": "1 x\nHalf of Mira", "other": "another page's"}
        third = Tab(browser)
        browser.kept["foldmark.pointer.person.p4"] = third.copy["foldmark.pointer.person.p4"] = "broken"
        browser.kept["foldmark.b.person.p4"] = third.copy["foldmark.b.person.p4"] = "broken too"
        late = ServerStore(third)
        assert await late.erase() is None
        left = {key: text for key, text in browser.kept.items() if not re.fullmatch(r"- \d+", text)}
        assert left == {"foldmark.browser": "erased", "other": "another page's"}
        await asyncio.sleep(0)
        assert {key for key, _ in heard} >= {"person.p1", "person.p2"}
        assert all(revision > 1 for key, revision in heard if key == "person.p1")
        for tab in (mine, theirs, late, ServerStore(Tab(browser))):
            assert await tab.keys() == ()
            assert await tab.load("person.p1") is None

    run(job())


def test_no_garment_stays_without_what_it_is_chalked_from_where_deleting_is_cut_off() -> None:
    """Whichever record is the last that could be deleted."""

    async def job(last: str) -> tuple[str, ...]:
        browser = Browser()
        tab = Tab(browser)
        store = ServerStore(tab)
        for key in ("book", "frozen.g1", "garment.g1", "person.p1"):
            assert await store.save(key, "text", 0) == 1
        change = tab.set

        async def cut_off(key: str, value: Any) -> bool:
            if key.endswith(f"pointer.{last}"):
                raise RuntimeError("the page is gone")
            return await change(key, value)

        tab.set = cut_off  # type: ignore[method-assign]
        assert isinstance(await store.erase(), SaveFailed)
        left = await ServerStore(Tab(browser)).keys()
        assert isinstance(left, tuple)
        return left

    for last in ("book", "frozen.g1", "garment.g1", "person.p1"):
        left = run(job(last))
        assert last in left
        assert "garment.g1" not in left or "frozen.g1" in left


def test_what_could_not_be_deleted_is_said() -> None:
    async def job() -> None:
        browser = Browser()
        tab = Tab(browser)
        store = ServerStore(tab)
        assert await store.save("person.p1", "Ngozi", 0) == 1
        tab.refuses = True
        failed = await store.erase()
        assert isinstance(failed, SaveFailed)
        assert failed.reason == "full"
        tab.refuses = False
        assert await ServerStore(Tab(browser)).load("person.p1") == Record("Ngozi", 1), "what is left is whole"
        closed = MemoryStore()
        closed.closed = True
        assert isinstance(await closed.erase(), SaveFailed)

    run(job())
