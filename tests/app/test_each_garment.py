"""In real Chromium, on a phone: each garment from its choice over measures, shape, cloth and proof to its last mark."""

import json
from pathlib import Path

import browser as b
import journey as j
import pytest
from playwright.sync_api import BrowserContext, Page

from drafting.garments import garments
from tests.drafting.bodies import measured_for

DEMO = json.loads((b.ROOT / "assets" / "demo" / "order.json").read_text("utf-8"))["person"]["measures"]
"""What was measured of the person of the demo, cm."""
WIDE = "200 cm"
"""So wide that every garment fits on it."""
GIVING = {"stretch-across": "60", "stretch-along": "50"}
"""The stretch of a knit that any garment for knits can be made of."""


def to_the_proof(page: Page, garment: str) -> None:
    """From the first screen, for the person of the demo, to the proof."""
    b.tap(page, "try-demo")
    j.arrive(page, "shape")
    b.kept(page, lambda book: book["people"], "the person")
    person = b.book(page)["people"][0]
    j.at_home(page)
    j.new_garment(page, garment)
    b.tap(page, f"person-{person['id']}")
    b.at(page, "name").wait_for(state="attached", timeout=30_000)
    b.still(page)
    needed = measured_for({"kind": person["kind"], "measures": DEMO}, garment)["measures"]
    j.measured(page, {name: f"{needed[name]:g}" for name in needed if name not in DEMO})
    b.still(page)
    b.tap(page, "progress-cloth")
    j.arrive(page, "cloth")
    b.type_into(page, "cloth-width", WIDE)
    for key, percent in GIVING.items():
        if b.at(page, f"cloth-{key}").count():  # woven cloth is not asked how far it stretches
            b.type_into(page, f"cloth-{key}", percent)
    b.still(page)
    j.onward(page)
    j.arrive(page, "proof")


@pytest.mark.long
@pytest.mark.parametrize("garment", garments())
def test_a_garment_is_chalked_from_its_choice_to_its_last_mark(
    garment: str, app: b.Server, phone: BrowserContext, tmp_path: Path
) -> None:
    page = b.open_app(phone, app.address)
    to_the_proof(page, garment)
    b.wait_until(page, lambda: b.awake(page, "start-chalking"), "it can be chalked", 120)
    b.tap(page, "start-chalking")
    b.at(page, "done").wait_for(state="attached", timeout=90_000)
    seen = j.chalk(page, most=400)
    assert j.look(page) is None, "the last is ticked off"
    b.tap(page, "progress-paper")
    j.arrive(page, "paper")
    j.every_reading_is_the_cores(seen, j.save(page, "order-json", tmp_path))
