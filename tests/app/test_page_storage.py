"""storage.js by itself, in a page without Python: revisions, removal, two pages, and what a broken browser answers."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

import browser as b
import pytest
from playwright.sync_api import BrowserContext, Page


@pytest.fixture
def page(static: b.Server, phone: BrowserContext) -> Iterator[Page]:
    return bare(static, phone)


def bare(static: b.Server, context: BrowserContext) -> Page:
    page = context.new_page()
    page.goto(static.address + "version.json")
    page.evaluate("import('/storage.js').then((module) => { globalThis.store = module; })")
    return page


def ask(page: Page, call: str) -> Any:
    return page.evaluate(f"store.{call}")


def test_save_load_remove(page: Page) -> None:
    assert ask(page, "get('a')") == {"text": None, "revision": 0}
    assert ask(page, "put('a', 'one ½', 0)") == {"revision": 1}
    assert ask(page, "put('b', '', 0)") == {"revision": 1}
    assert ask(page, "put('a', 'two', 1)") == {"revision": 2}
    assert ask(page, "get('a')") == {"text": "two", "revision": 2}
    assert ask(page, "list()") == {"keys": ["a", "b"]}
    assert ask(page, "remove('a', 2)") == {"revision": 3}
    assert ask(page, "get('a')") == {"text": None, "revision": 3}
    assert ask(page, "list()") == {"keys": ["b"]}
    assert ask(page, "put('a', 'again', 0)") == {"revision": 4}, "revisions go on past a removal"


@pytest.mark.parametrize("call", [*(f"put('a', 'late', {revision})" for revision in (0, 1, 3)), "remove('a', 1)"])
def test_who_fell_behind_is_told(page: Page, call: str) -> None:
    ask(page, "put('a', 'one', 0)")
    ask(page, "put('a', 'two', 1)")
    assert ask(page, call)["failed"] == "stale"
    assert ask(page, "get('a')") == {"text": "two", "revision": 2}


def test_two_pages_at_the_same_moment(page: Page, static: b.Server, phone: BrowserContext) -> None:
    other = bare(static, phone)
    other.evaluate("globalThis.heard = []; store.watch((key, revision) => heard.push([key, revision]))")
    rounds = (
        "(async () => {{ const said = []; for (let n = 0; n < 30; n++) {{ const now = await store.get('a'); "
        "said.push(await store.put('a', '{name}' + n, now.revision)); }} return said; }})()"
    )
    page.evaluate(f"globalThis.mine = {rounds.format(name='first')}; 0")
    theirs = other.evaluate(rounds.format(name="second"))
    mine = page.evaluate("mine")
    won = sorted(answer["revision"] for answer in [*mine, *theirs] if "revision" in answer)
    assert won == list(range(1, len(won) + 1)), "each revision was given out once"
    assert all(answer.get("failed") == "stale" for answer in [*mine, *theirs] if "revision" not in answer)
    assert ask(page, "get('a')")["revision"] == len(won)
    b.wait_true(other, f"heard.length >= {sum('revision' in answer for answer in mine)}")


def test_a_text_that_does_not_read_back_leaves_the_old_one(page: Page) -> None:
    ask(page, "put('a', 'old', 0)")
    page.evaluate("""() => {
        const put = IDBObjectStore.prototype.put;
        IDBObjectStore.prototype.put = function (record) {
            return put.call(this, this.name === "proving" ? { ...record, text: record.text.slice(1) } : record);
        };
    }""")
    assert ask(page, "put('a', 'new', 1)")["failed"] == "unproven"
    assert ask(page, "get('a')") == {"text": "old", "revision": 1}


@pytest.mark.parametrize(("lost", "call", "found"), [
    (1, "get('a')", {"text": "kept", "revision": 1}), (3, "list()", {"keys": ["a"]}),
])  # fmt: skip
def test_a_request_that_got_lost_is_made_again(page: Page, lost: int, call: str, found: object) -> None:
    """As where the browser forgot about it while another page was closing."""
    ask(page, "put('a', 'kept', 0)")
    page.evaluate(
        """(lost) => {
        const get = IDBObjectStore.prototype.get, all = IDBObjectStore.prototype.getAll;
        const sometimes = (real) => function (...given) { return lost-- > 0 ? {} : real.apply(this, given); };
        IDBObjectStore.prototype.get = sometimes(get);
        IDBObjectStore.prototype.getAll = sometimes(all);
        const now = globalThis.setTimeout;
        globalThis.setTimeout = (does, wait) => now(does, wait / 20);
    }""",
        lost,
    )
    assert ask(page, call) == found
    assert ask(page, "put('a', 'new', 1)") == {"revision": 2}


def test_a_browser_without_storage_is_an_answer(page: Page) -> None:
    page.evaluate("""() => {
        IDBFactory.prototype.open = () => { throw new DOMException("not here", "SecurityError"); };
    }""")
    for call in ("get('a')", "put('a', 'x', 0)", "remove('a', 0)", "list()", "all('')"):
        assert ask(page, call)["failed"] == "closed"


def test_a_mistake_of_our_own_is_not_blamed_on_the_browser(page: Page) -> None:
    page.evaluate("""() => { IDBObjectStore.prototype.get = function () { throw new TypeError("ours"); }; }""")
    assert ask(page, "get('a')")["failed"] == "fault"


def test_a_browser_that_never_answers_is_said_to_be_silent(page: Page) -> None:
    page.evaluate("""() => {
        IDBObjectStore.prototype.get = () => ({});
        const now = globalThis.setTimeout;
        globalThis.setTimeout = (does, wait) => now(does, wait / 200);
    }""")
    assert ask(page, "get('a')")["failed"] == "silent"


def test_many_records_are_read_and_changed_each_by_itself(page: Page) -> None:
    for key in ("person.p1", "person.p2", "place"):
        ask(page, f"put('{key}', '{key.upper()}', 0)")
    assert ask(page, "list('person.')") == {"keys": ["person.p1", "person.p2"]}
    assert json.loads(ask(page, "all('person.')")["records"]) == [
        ["person.p1", "PERSON.P1", 1], ["person.p2", "PERSON.P2", 1],
    ]  # fmt: skip
    asked = [["person.p1", "one", 1], ["person.p2", "late", 7], ["person.p3", "\ud800", 0], ["place", None, 1],
             ["never", None, 0]]  # fmt: skip
    answers = json.loads(page.evaluate("(asked) => store.change(asked)", json.dumps(asked))["answers"])
    assert answers.pop("person.p2")["failed"] == "stale"
    assert {key: each["revision"] for key, each in answers.items()} == {
        "person.p1": 2, "person.p3": 1, "place": 2, "never": 0,
    }  # fmt: skip
    assert ask(page, "list()") == {"keys": ["person.p1", "person.p2", "person.p3"]}
    assert ask(page, "get('person.p2')") == {"text": "PERSON.P2", "revision": 1}


@pytest.mark.parametrize("cut", range(1, 8))
def test_a_change_that_is_cut_off_leaves_each_record_whole(
    page: Page, static: b.Server, phone: BrowserContext, cut: int
) -> None:
    """As where the page is closed in the middle: the cut-th request to the browser is the last."""
    ask(page, "put('a', 'old a', 0)")
    ask(page, "put('b', 'old b', 0)")
    page.evaluate(
        """(cut) => {
        for (const name of ["get", "put", "delete"]) {
            const real = IDBObjectStore.prototype[name];
            IDBObjectStore.prototype[name] = function (...given) {
                if (cut-- <= 0) { this.transaction.abort(); throw new DOMException("gone", "AbortError"); }
                return real.apply(this, given);
            };
        }
    }""",
        cut,
    )
    asked = json.dumps([["a", "new a", 1], ["b", "new b", 1]])
    page.evaluate("(asked) => store.change(asked)", asked)
    other = bare(static, phone)
    found = [ask(other, f"get('{key}')") for key in "ab"]
    assert found in (
        [{"text": "old a", "revision": 1}, {"text": "old b", "revision": 1}],
        [{"text": "new a", "revision": 2}, {"text": "new b", "revision": 2}],
    )
    assert json.loads(ask(other, "all('')")["records"]) != []
    again = json.dumps([["a", "newest", found[0]["revision"]]])
    assert "revision" in other.evaluate("(asked) => store.change(asked)", again)["answers"]


@pytest.mark.parametrize("requests", range(1, 7))
def test_a_page_that_is_left_lets_go_at_once_and_goes_on_when_it_is_shown_again(
    page: Page, static: b.Server, phone: BrowserContext, requests: int
) -> None:
    """It is left at each of the six requests to the browser that a change of one record takes."""
    ask(page, "put('a', 'old', 0)")
    page.evaluate(
        """(requests) => {
        const leave = () => { if (--requests === 0) dispatchEvent(new Event("pagehide")); };
        for (const name of ["get", "put", "delete"]) {
            const real = IDBObjectStore.prototype[name];
            IDBObjectStore.prototype[name] = function (...given) {
                try { return real.apply(this, given); } finally { leave(); }
            };
        }
        globalThis.answered = null;
        store.put("a", "new", 1).then((found) => (globalThis.answered = found));
    }""",
        requests,
    )
    other = bare(static, phone)
    assert ask(other, "get('a')") == {"text": "old", "revision": 1}
    assert ask(other, "put('b', 'of another page', 0)") == {"revision": 1}
    assert page.evaluate("answered") is None
    page.evaluate("dispatchEvent(new Event('pageshow'))")
    b.wait_true(page, "answered !== null")
    assert page.evaluate("answered") == {"revision": 2}
    assert ask(other, "get('a')") == {"text": "new", "revision": 2}


def test_a_clock_that_jumps_ahead_takes_nothing_that_was_confirmed(page: Page) -> None:
    ask(page, "put('a', 'old', 0)")
    page.evaluate("() => { const now = Date.now; Date.now = () => now() + 1e9; }")
    answer = ask(page, "put('a', 'new', 1)")
    page.evaluate("() => { const now = Date.now; Date.now = () => now() - 2e9; }")
    assert answer == {"revision": 2}
    assert ask(page, "put('a', 'newer', 2)") == {"revision": 3}
    assert ask(page, "get('a')") == {"text": "newer", "revision": 3}


def test_a_clock_that_jumps_in_the_middle_of_a_save_is_no_save(
    page: Page, static: b.Server, phone: BrowserContext
) -> None:
    """Another page, whose clock is far ahead, clears up what is not proven yet: then nothing is said to be saved."""
    ask(page, "put('a', 'old', 0)")
    page.evaluate("""() => {
        let puts = 0;
        const real = IDBObjectStore.prototype.get;
        IDBObjectStore.prototype.get = function (...given) {
            try { return real.apply(this, given); } finally {
                if (this.name === "proving" && !puts++) dispatchEvent(new Event("pagehide"));
            }
        };
        globalThis.answered = null;
        store.put("a", "new", 1).then((found) => (globalThis.answered = found));
    }""")
    other = bare(static, phone)
    other.evaluate("() => { const now = Date.now; Date.now = () => now() + 1e9; }")
    assert ask(other, "put('b', 'of a page that is ahead', 0)") == {"revision": 1}
    other.wait_for_timeout(500)  # nobody waits for the clearing up
    assert page.evaluate("answered") is None
    page.evaluate("dispatchEvent(new Event('pageshow'))")
    b.wait_true(page, "answered !== null")
    assert page.evaluate("answered")["failed"] == "unproven"
    assert ask(other, "get('a')") == {"text": "old", "revision": 1}
    assert ask(page, "put('a', 'new', 1)") == {"revision": 2}, "tried again, it is done"


def test_the_browser_is_asked_to_keep_the_storage(static: b.Server, phone: BrowserContext) -> None:
    phone.add_init_script("""
        globalThis.persisting = 0;
        const real = navigator.storage.persist;
        navigator.storage.persist = function () { persisting += 1; return real.call(this); };
    """)
    page = b.open_app(phone, static.address)
    b.offline_ready(page)
    b.wait_true(page, "persisting === 1")


def test_the_browser_says_how_much_room_there_is(page: Page) -> None:
    found = ask(page, "room()")
    assert found["quota"] > found["used"] >= 0


def test_a_full_device_is_an_answer(page: Page) -> None:
    ask(page, "put('a', 'old', 0)")
    page.evaluate("""() => {
        IDBObjectStore.prototype.put = function () { throw new DOMException("no room", "QuotaExceededError"); };
    }""")
    assert ask(page, "put('a', 'new', 1)")["failed"] == "full"
    assert ask(page, "get('a')") == {"text": "old", "revision": 1}


def test_all_is_deleted_and_the_other_page_hears_of_it(page: Page, static: b.Server, phone: BrowserContext) -> None:
    other = bare(static, phone)
    other.evaluate("globalThis.heard = []; store.watch((key, revision) => heard.push([key, revision]))")
    ask(page, "put('a', 'old', 0)")
    ask(page, "put('a', 'new', 1)")
    ask(page, "put('b', 'gone', 0)")
    ask(page, "remove('b', 1)")
    half = "store.put({key: 'c', owner: 'x', text: 'half', at: Date.now()})"
    page.evaluate(f"""() => new Promise((done) => {{
        const asked = indexedDB.open("foldmark /");
        asked.onsuccess = () => {{
            const transaction = asked.result.transaction("proving", "readwrite");
            const store = transaction.objectStore("proving");
            {half};
            transaction.oncomplete = done;
        }};
    }})""")
    assert ask(page, "erase()") == {"gone": 1}
    assert ask(page, "list()") == {"keys": []}
    assert page.evaluate("""() => new Promise((done) => {
        const asked = indexedDB.open("foldmark /");
        asked.onsuccess = () => {
            const transaction = asked.result.transaction(["records", "proving"]);
            const found = ["records", "proving"].map((name) => transaction.objectStore(name).count());
            transaction.oncomplete = () => done(found.map((each) => each.result));
        };
    })""") == [0, 0]
    assert ask(page, "put('a', 'of a page that fell behind', 2)")["failed"] == "stale"
    b.wait_true(other, "heard.some(([key, revision]) => key === 'a' && revision === 3)")
    assert not [key for key, _ in other.evaluate("heard.slice(-1)") if key == "b"]


def test_a_reader_is_not_held_up_by_what_another_page_proves(
    page: Page, static: b.Server, phone: BrowserContext
) -> None:
    ask(page, "put('a', 'one', 0)")
    other = bare(static, phone)
    other.evaluate("""() => new Promise((begun) => {
        globalThis.holding = true;
        const asked = indexedDB.open("foldmark /");
        asked.onsuccess = () => {
            const store = asked.result.transaction("proving", "readwrite").objectStore("proving");
            const again = () => (store.count().onsuccess = () => globalThis.holding && again());
            store.count().onsuccess = () => { again(); begun(); };
        };
    })""")
    assert ask(page, "get('a')") == {"text": "one", "revision": 1}
    assert ask(page, "list()") == {"keys": ["a"]}
    assert "one" in ask(page, "all('')")["records"]
    assert other.evaluate("holding"), "the other still holds what it proves"
    other.evaluate("globalThis.holding = false; 0")
    assert ask(page, "put('a', 'two', 1)") == {"revision": 2}


def test_a_proof_that_was_left_is_cleared_up_after_the_next_change(page: Page) -> None:
    left = """(store) => store.put({key: 'x', owner: 'gone', text: 'half', at: Date.now() - 2 * 3600 * 1000})"""
    count = """(store) => store.count()"""

    def proving(mode: str, work: str) -> Any:
        return page.evaluate(f"""() => new Promise((done) => {{
            const asked = indexedDB.open("foldmark /");
            asked.onsuccess = () => {{
                const transaction = asked.result.transaction("proving", "{mode}");
                const found = ({work})(transaction.objectStore("proving"));
                transaction.oncomplete = () => {{ asked.result.close(); done(found.result); }};
            }};
        }})""")

    ask(page, "get('a')")
    proving("readwrite", left)
    assert proving("readonly", count) == 1
    ask(page, "get('a')")
    assert proving("readonly", count) == 1
    ask(page, "put('a', 'one', 0)")
    b.wait_until(page, lambda: proving("readonly", count) == 0, "it is cleared up")
