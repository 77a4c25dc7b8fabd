"""storage.js by itself, in a page without Python: revisions, removal, two pages, and what a broken browser answers."""

from __future__ import annotations

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
    other.wait_for_function(f"heard.length >= {sum('revision' in answer for answer in mine)}")


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
    for call in ("get('a')", "put('a', 'x', 0)", "remove('a', 0)", "list()"):
        assert ask(page, call)["failed"] == "closed"


def test_a_full_device_is_an_answer(page: Page) -> None:
    ask(page, "put('a', 'old', 0)")
    page.evaluate("""() => {
        IDBObjectStore.prototype.put = function () { throw new DOMException("no room", "QuotaExceededError"); };
    }""")
    assert ask(page, "put('a', 'new', 1)")["failed"] == "full"
    assert ask(page, "get('a')") == {"text": "old", "revision": 1}
