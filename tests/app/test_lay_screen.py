"""The lay screen in a real browser: ways side by side, one tap takes one, what to buy, a remnant, two garments."""

import json
from pathlib import Path

import browser as b
import journey as j
import pytest
from playwright.sync_api import BrowserContext, Page

from drafting.layout import Remnant, candidates, goes_on, lay_together, length_to_buy, say_bought, say_laid, way_name
from drafting.order import Result, make, read_order, ways_to_save
from drafting.units import say_length

ROOT = Path(__file__).resolve().parents[2]
LONG = 60_000


def demo(**cloth: str) -> Result:
    """What the core makes of the demo order, with other keys of its cloth."""
    typed = json.loads((ROOT / "assets" / "demo" / "order.json").read_text("utf-8"))
    order, problems = read_order(typed | {"cloth": typed["cloth"] | cloth})
    assert order is not None, problems
    return make(order)


def to_lay(page: Page, start: str) -> None:
    """From home, or from a garment's card, to the lay screen."""
    b.tap(page, start)
    b.at(page, "screen-shape").wait_for(state="attached", timeout=LONG)
    b.still(page)
    b.tap(page, "progress-lay")
    b.at(page, "screen-lay").wait_for(state="attached", timeout=LONG)


def all_is_answered(page: Page) -> None:
    """Wait for the last answers, widths and savings: each that comes moves what stands below it from a finger."""
    for last in ("lay-widths", "save-0"):
        b.at(page, last).wait_for(state="attached", timeout=2 * LONG)
    b.still(page)


def opened(page: Page, fold: str, inside: str) -> None:
    """Open a fold. One that is late to open is not touched again, since a second touch would close it."""
    expanded = (
        f'[flt-semantics-identifier="{fold}"] [aria-expanded], [flt-semantics-identifier="{fold}"][aria-expanded]'
    )
    for _ in range(3):
        b.tap(page, fold)
        page.wait_for_timeout(1000)
        if page.locator(expanded).first.get_attribute("aria-expanded") == "true" or b.at(page, inside).count():
            b.at(page, inside).wait_for(state="attached", timeout=LONG)
            b.still(page)
            return
        b.still(page)
    raise AssertionError(f"{fold} does not open")


def says(page: Page, words: str) -> None:
    """These words come onto the screen, or into what is read out for one of its choices."""
    named = page.locator(f'[aria-label*="{words}"]')
    page.get_by_text(words).or_(named).first.wait_for(state="attached", timeout=LONG)


def test_ways_are_compared_taken_by_one_tap_and_all_agrees_with_the_core(app: b.Server, phone: BrowserContext) -> None:
    page = b.open_app(phone, app.address)
    to_lay(page, "try-demo")
    made = demo()
    pieces, cloth = made.draft.pieces, made.ready.cloth
    ways = candidates(pieces, cloth)
    assert len(ways) > 1
    for way in ways:
        b.at(page, f"lay-{way.way}").wait_for(state="attached", timeout=LONG)
        says(page, f"{say_laid(way.length, 'cm')} of cloth")
    assert made.layout is not None
    bought = length_to_buy(made.layout, cloth, "cm")
    says(page, f"{say_bought(bought.buy, 'cm')} of cloth {say_length(bought.width, 'cm')} wide")
    other = ways[-1].way
    all_is_answered(page)
    b.tap(page, f"lay-{other}")
    b.wait_until(
        page,
        lambda: way_name(other) in (b.at(page, "lay-cloth").get_attribute("aria-label") or ""),
        f"the drawing shows {way_name(other)}",
    )
    assert demo(lay=other).layout.way == other  # type: ignore[union-attr]
    b.at(page, "lay-widths").wait_for(state="attached", timeout=2 * LONG)
    b.still(page)
    b.tap(page, f"lay-{ways[0].way}")
    b.wait_until(
        page,
        lambda: way_name(ways[0].way) in (b.at(page, "lay-cloth").get_attribute("aria-label") or ""),
        "the drawing is back at the way taken by itself",
    )
    saves = ways_to_save(made)
    all_is_answered(page)
    b.tap(page, "save-0")
    says(page, f"{say_laid(saves[0].layout.length, 'cm')} of cloth")


@pytest.mark.long
def test_a_piece_in_hand_and_two_garments_on_one_length(app: b.Server, phone: BrowserContext) -> None:
    page = b.open_app(phone, app.address)
    to_lay(page, "try-demo")
    made = demo()
    pieces, cloth = made.draft.pieces, made.ready.cloth
    all_is_answered(page)
    opened(page, "lay-hand", "cloth-lay-width")
    b.type_into(page, "cloth-lay-width", "165")
    b.type_into(page, "cloth-lay-length", "90")
    answer = goes_on(pieces, cloth, Remnant(1650.0, 900.0))
    assert answer.answer == "part"
    says(page, f"From this piece you can cut the {', '.join(answer.fits)}, but not the {', '.join(answer.left_out)}.")
    assert answer.would_do is not None
    says(page, f"At this width a length of {say_length(answer.would_do.length, 'cm')} would do.")
    b.type_into(page, "cloth-lay-length", "wide")
    says(page, "cannot be read as a length")
    b.type_into(page, "cloth-lay-length", "200")
    says(page, "Yes, the whole garment can be cut from it")
    # The same garment once more, and both from one length.
    b.tap(page, "progress-person")
    b.at(page, "screen-person").wait_for(state="attached", timeout=LONG)
    j.at_home(page)
    to_lay(page, "try-demo")
    all_is_answered(page)
    first = b.book(page)["garments"][-1]["id"]
    opened(page, "lay-both", f"lay-with-{first}")
    b.tap(page, f"lay-with-{first}")
    both = lay_together((("1", pieces), ("2", pieces)), cloth)
    assert both.layout is not None
    says(page, f"Together they take {say_laid(both.layout.length, 'cm')}, one by one")
