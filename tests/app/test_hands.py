"""What hands do, on a phone, from a server: tap twice, go back in the middle, type nonsense."""

import re

import browser as b
import journey as j
from playwright.sync_api import BrowserContext, Page


def cards(page: Page, what: str) -> int:
    """How many cards of one kind the home screen shows: "garment" or "person"."""
    page.wait_for_timeout(1200)
    found = page.evaluate(
        "(start) => [...document.querySelectorAll(`[flt-semantics-identifier^='${start}-']`)]"
        ".map((one) => one.getAttribute('flt-semantics-identifier'))",
        what,
    )
    return len({name for name in found if re.fullmatch(rf"{what}-[a-z]\d+", name)})


def at_home(page: Page, address: str) -> None:
    """Open the first screen again, in the same tab."""
    page.wait_for_timeout(1000)
    page.goto(address)
    b.switch_on(page)


def test_two_taps_make_one(app: b.Server, phone: BrowserContext) -> None:
    page = b.open_app(phone, app.address)
    b.at(page, "try-demo").wait_for(state="attached", timeout=30_000)
    b.tap_twice(page, "new-garment")
    j.arrive(page, "person")
    at_home(page, app.address)
    assert (cards(page, "garment"), cards(page, "person")) == (1, 1), "two taps on new garment"
    b.tap_twice(page, "add-person")
    j.arrive(page, "person")
    at_home(page, app.address)
    assert (cards(page, "garment"), cards(page, "person")) == (1, 2), "two taps on another person"
    b.tap_twice(page, "try-demo")
    j.arrive(page, "shape")
    at_home(page, app.address)
    assert (cards(page, "garment"), cards(page, "person")) == (2, 3), "two taps on the demo"


def to_the_demos_proof(page: Page) -> None:
    """From home to the proof of the demo."""
    b.at(page, "try-demo").wait_for(state="attached", timeout=30_000)
    b.tap(page, "try-demo")
    j.arrive(page, "shape")
    for screen in ("cloth", "proof"):
        j.onward(page)
        j.arrive(page, screen)


def test_two_taps_tick_off_one_mark(app: b.Server, phone: BrowserContext) -> None:
    page = b.open_app(phone, app.address)
    to_the_demos_proof(page)
    b.wait_until(page, lambda: b.awake(page, "start-chalking"), "chalking can start")
    b.tap_twice(page, "start-chalking")
    j.arrive(page, "chalk")
    page.wait_for_timeout(1000)
    places = []
    for _ in range(4):
        now = j.look(page)
        assert now is not None
        places.append(now.place)
        b.tap_twice(page, "done")
        page.wait_for_timeout(1500)
    assert places == [1, 2, 3, 4]
    page.go_back()
    j.arrive(page, "proof")
    page.go_forward()
    j.arrive(page, "chalk")
    b.wait_until(page, lambda: (now := j.look(page)) is not None and now.place == 5, "nothing was ticked off meanwhile")


def test_back_in_the_middle_and_absurd_input(app: b.Server, phone: BrowserContext) -> None:
    page = b.open_app(phone, app.address)
    b.at(page, "try-demo").wait_for(state="attached", timeout=30_000)
    b.tap(page, "try-demo")
    j.arrive(page, "shape")
    j.onward(page)
    j.arrive(page, "cloth")
    for absurd in ("-5", "abc", "1e9", "½½", "9" * 60):
        b.type_into(page, "cloth-width", absurd)
        page.wait_for_timeout(400)
        assert b.field_value(page, "cloth-width") == absurd, "nothing typed is ever lost"
        assert not b.at(page, "screen-trouble").count()
    b.type_into(page, "cloth-width", "170")
    page.wait_for_timeout(500)
    page.go_back()  # by the browser's own button
    j.arrive(page, "shape")
    page.go_forward()
    j.arrive(page, "cloth")
    assert b.field_value(page, "cloth-width") == "170"
    j.onward(page)
    j.arrive(page, "proof")
    b.wait_until(page, lambda: b.awake(page, "start-chalking"), "it can be chalked")
