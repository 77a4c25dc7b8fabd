"""What hands do, on a phone, from a server: tap twice, go back in the middle, type nonsense."""

import re

import browser as b
import journey as j
import pytest
from playwright.sync_api import BrowserContext, Page


def cards(page: Page) -> tuple[int, int]:
    """How many garments and how many people the home screen shows, each on a card of its own."""
    found = page.evaluate(
        "() => [...document.querySelectorAll('[flt-semantics-identifier]')]"
        ".map((one) => one.getAttribute('flt-semantics-identifier'))"
    )
    garments, people = (
        len({name for name in found if re.fullmatch(rf"{what}-[a-z]\d+(-[0-9a-f]{{8}})?", name)})
        for what in ("garment", "person")
    )
    return garments, people


def back_home(page: Page) -> None:
    """Back to the first screen, once whatever two taps may have begun is done."""
    page.wait_for_timeout(1000)
    j.at_home(page)


def test_two_taps_make_one(app: b.Server, phone: BrowserContext) -> None:
    page = b.open_app(phone, app.address)
    b.tap_twice(page, "new-garment")
    b.at(page, "screen-home").wait_for(state="detached", timeout=30_000)
    back_home(page)
    assert cards(page) == (1, 1), "two taps on new garment"
    b.tap_twice(page, "add-person")
    j.arrive(page, "person")
    back_home(page)
    assert cards(page) == (1, 2), "two taps on another person"
    b.tap_twice(page, "try-demo")
    j.arrive(page, "shape")
    back_home(page)
    assert cards(page) == (2, 3), "two taps on the demo"
    b.reload(page)
    b.wait_until(page, lambda: cards(page) != (0, 0), "what is kept is there again")
    b.still(page)
    assert cards(page) == (2, 3), "and no more are kept"


def to_the_demos_proof(page: Page) -> None:
    """From home to the proof of the demo."""
    b.tap(page, "try-demo")
    j.arrive(page, "shape")
    for screen in ("cloth", "proof"):
        j.onward(page)
        j.arrive(page, screen)


def test_five_taps_lead_from_the_first_opening_to_the_first_mark(app: b.Server, phone: BrowserContext) -> None:
    """With the demo, over the line of steps: its cloth is known. Two of the taps are for what is read before."""
    page = b.open_app(phone, app.address)
    for name, screen in (("try-demo", "shape"), ("progress-proof", "proof"), ("start-chalking", "chalk")):
        b.wait_until(page, lambda name=name: b.awake(page, name), f"{name} can be tapped", 60)  # type: ignore[misc]
        b.tap(page, name)
        j.arrive(page, screen)
    for place in (1, 2):
        assert b.text(page, "done") == "Next", "this is only read"
        b.tap(page, "done")
        b.wait_until(page, lambda place=place: getattr(j.look(page), "place", 0) == place + 1, "one thing on")  # type: ignore[misc]
    assert b.text(page, "done") == "Done"
    first = j.look(page)
    assert first is not None
    assert len(first.readings) == 2, "there is a mark to chalk, across and down"


@pytest.mark.long
def test_two_taps_tick_off_one_mark(app: b.Server, phone: BrowserContext) -> None:
    page = b.open_app(phone, app.address)
    to_the_demos_proof(page)
    b.tap_twice(page, "start-chalking")
    j.arrive(page, "chalk")
    b.at(page, "done").wait_for(state="attached", timeout=30_000)
    places = []
    for _ in range(4):
        now = j.look(page)
        assert now is not None
        places.append(now.place)
        b.tap_twice(page, "done")
        b.wait_until(page, lambda now=now: j.look(page) != now, f"{now.place} is ticked off")  # type: ignore[misc]
        page.wait_for_timeout(500)  # a second one that was ticked off would be seen by now
    assert places == [places[0], places[0] + 1, places[0] + 2, places[0] + 3]
    page.go_back()
    j.arrive(page, "proof")
    page.go_forward()
    j.arrive(page, "chalk")
    b.wait_until(
        page,
        lambda: (now := j.look(page)) is not None and now.place == places[-1] + 1,
        "nothing was ticked off meanwhile",
    )


@pytest.mark.long
def test_back_in_the_middle_and_absurd_input(app: b.Server, phone: BrowserContext) -> None:
    page = b.open_app(phone, app.address)
    b.tap(page, "try-demo")
    j.arrive(page, "shape")
    j.onward(page)
    j.arrive(page, "cloth")
    for absurd in ("-5", "½½", "9" * 60):
        b.type_into(page, "cloth-width", absurd)
        b.kept(page, lambda book, typed=absurd: book["garments"][0]["cloth"]["width"] == typed, absurd)  # type: ignore[misc]
        assert b.field_value(page, "cloth-width") == absurd, "nothing typed is ever lost"
        assert not b.at(page, "screen-trouble").count()
    b.type_into(page, "cloth-width", "170")
    b.kept(page, lambda book: book["garments"][0]["cloth"]["width"] == "170", "170")
    page.go_back()  # by the browser's own button
    j.arrive(page, "shape")
    page.go_forward()
    j.arrive(page, "cloth")
    assert b.field_value(page, "cloth-width") == "170"
    j.onward(page)
    j.arrive(page, "proof")
    b.wait_until(page, lambda: b.awake(page, "start-chalking"), "it can be chalked")


def keys(page: Page, names: str) -> None:
    """Tap keys of the keypad, one after the other."""
    for name in names.split():
        b.tap_once(page, f"key-{name}")
        page.wait_for_timeout(60)


def seen_above_the_keypad(page: Page, identifier: str) -> None:
    """A field lies whole between the title and the keypad."""
    b.still(page)
    field, pad = b.at(page, identifier).bounding_box(), b.at(page, "keypad").bounding_box()
    assert field is not None
    assert pad is not None
    assert 56 <= field["y"] < field["y"] + field["height"] <= pad["y"], identifier
    assert pad["y"] + pad["height"] <= page.viewport_size["height"] + 1  # type: ignore[index]


def test_a_measure_is_typed_on_the_keypad_and_judged_once_it_is_left(app: b.Server, phone: BrowserContext) -> None:
    page = b.open_app(phone, app.address)
    page.set_viewport_size({"width": 390, "height": 664})
    b.tap(page, "try-demo")
    j.arrive(page, "shape")
    j.onward(page)
    j.arrive(page, "cloth")
    b.tap(page, "cloth-width")
    seen_above_the_keypad(page, "cloth-width")
    keys(page, "back back back back back back back back 4 5")
    b.kept(page, lambda book: book["garments"][0]["cloth"]["width"] == "45", "the width from the keypad")
    page.wait_for_timeout(600)  # the draft has answered by now
    assert not b.at(page, "cloth-width-problem").count(), "nothing is judged while it is typed"
    keys(page, "next")
    b.at(page, "cloth-width-problem").wait_for(state="attached", timeout=15_000)
    assert b.at(page, "keypad").count(), "the next field has the keypad now"
    b.still(page)
    page.keyboard.press("Enter")
    b.wait_until(page, lambda: not b.at(page, "keypad").count(), "Enter puts the keypad away")
    b.tap(page, "cloth-width-instead")
    b.kept(page, lambda book: book["garments"][0]["cloth"]["width"] == "45 in", "what was meant is put in")
    b.wait_until(page, lambda: not b.at(page, "cloth-width-problem").count(), "and is right")
    page.set_viewport_size({"width": 844, "height": 390})
    b.still(page)
    b.tap(page, "tape-length")
    seen_above_the_keypad(page, "tape-length")
    keys(page, "next")
    b.wait_until(page, lambda: not b.at(page, "keypad").count(), "after the last field the keypad goes")
    assert b.at(page, "next").count()
