"""A start on the site wakes the Python of an earlier start, and is a plain one where that cannot be trusted."""

import browser as b
import pytest
from journey import arrive, at_home, new_garment
from playwright.sync_api import BrowserContext, Page

NAME = "Radomira"
"""Somebody who is typed in, and must not be found in what is kept of the program."""

HOLDS = """async (text) => {
    const [name] = (await caches.keys()).filter((name) => name.startsWith("foldmark-memory"));
    const cache = await caches.open(name);
    const bytes = new Uint8Array(await (await cache.match((await cache.keys())[0])).arrayBuffer());
    return new TextDecoder("latin1").decode(bytes).includes(text);
}"""
CHANGE = """async (how) => {
    const [name] = (await caches.keys()).filter((name) => name.startsWith("foldmark-memory"));
    const cache = await caches.open(name);
    const [key] = await cache.keys();
    const kept = await cache.match(key);
    const bytes = new Uint8Array(await kept.arrayBuffer());
    let target = key.url, content = bytes;
    if (how === "a byte") bytes[bytes.length >> 1] ^= 1;
    if (how === "other files") {
        await cache.delete(key);
        target = new URL("other", key.url).href;
    }
    if (how === "not ended") [target, content] = [new URL("trying", key.url).href, new Uint8Array()];
    const headers = Object.fromEntries(kept.headers);
    await cache.put(target, new Response(content, { headers }));
}"""
PROBLEMS = ("a byte", "other files", "not ended")


def times(page: Page) -> dict[str, float]:
    found: dict[str, float] = page.evaluate("startTimes")
    return found


def test_the_second_start_wakes_what_the_first_one_kept(static: b.Server, phone: BrowserContext) -> None:
    page = b.open_app(phone, static.address)
    assert "imported" in times(page)
    assert "woken" not in times(page)
    stands = b.memory_kept(page)
    assert page.evaluate(HOLDS, "Foldmark"), "the program is in it"
    b.tap(page, "try-demo")
    arrive(page, "shape")
    demo = b.newest(page)
    at_home(page)
    new_garment(page)
    b.tap(page, "add-person")
    b.at(page, "name").wait_for(state="attached", timeout=30_000)
    b.still(page)
    b.type_into(page, "name", NAME)
    b.kept(page, lambda found: any(each["name"] == NAME for each in found["people"]), "she is kept")
    assert not page.evaluate(HOLDS, NAME), "and nobody"
    b.reload(page, "screen-person")
    assert "woken" in times(page)
    assert "imported" not in times(page)
    b.wait_until(page, lambda: page.evaluate(b.MEMORIES) == [stands], "the same is kept, and this start has ended")
    at_home(page)
    b.tap(page, f"garment-{demo}")
    arrive(page, "shape")
    b.at(page, "outline").wait_for(state="attached", timeout=60_000)
    assert not page.evaluate(HOLDS, NAME), "nor now"


@pytest.mark.parametrize(
    "problem", [PROBLEMS[0], *(pytest.param(problem, marks=pytest.mark.long) for problem in PROBLEMS[1:])]
)
def test_what_cannot_be_trusted_is_not_woken_and_a_new_one_is_kept(
    problem: str, static: b.Server, known_phone: BrowserContext
) -> None:
    page = b.open_app(known_phone, static.address)
    assert "woken" in times(page)
    stands = b.memory_kept(page)
    page.evaluate(CHANGE, problem)
    b.reload(page)
    assert "imported" in times(page)
    b.wait_until(page, lambda: page.evaluate(b.MEMORIES) == [stands], "a new one is kept", 60)
    b.reload(page)
    assert "woken" in times(page)
