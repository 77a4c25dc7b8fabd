"""What the ways out of every check try, in which order and in which words: a list for each garment, kept as text.

Each way out is proven by drafting it again (`test_every_garment_made`); which values are worth trying, and in which
order, is our choice. So they are kept as they were looked at: where one changes, look at what this test says is tried
otherwise, and keep it with `KEEP_TREES=1 build/test tests/drafting/test_ways_tried.py`.
"""

import os
from functools import cache
from pathlib import Path

import pytest

from drafting import checks
from drafting.contract.judging import Words
from drafting.contract.set_out import SetOut
from drafting.garments import garments
from drafting.order import prepare, read_order
from tests.drafting.bodies import BODIES, order

KEPT = Path(__file__).parent / "ways_tried"
#: Cloth that takes up little, so that the values that begin at it are many.
CLOTH = {"width": "150 cm", "stretch_across": 25, "stretch_along": 15}


@cache
def drafted(garment: str, body: str) -> SetOut:
    """The usual draft of a garment, with the measures of a body of the tests."""
    kinds = garments()[garment].cloths
    cloth = CLOTH if "knit" in kinds else {"width": "150 cm", "kind": "woven"}
    read, problems = read_order(order(BODIES[body], {}, cloth, garment=garment))
    assert read is not None, [problem.line() for problem in problems]
    ready = prepare(read)[0]
    assert ready is not None
    return ready.set_out()


def tried(garment: str, body: str) -> str:
    """A line for each way out of each check: the key it sets, the values, and its words for the first."""
    draft, words = drafted(garment, body), Words("cm")
    lines = []
    for module in checks.rules(garment):
        for way in checks.ways_of(module.ID, draft):
            values = list(way.values(draft))
            if values:
                also = "".join(f", {key} = {value}" for key, value in way.also)
                told = ", ".join(str(value) for value in values)
                unsaid = " (where left open)" * way.unsaid
                lines.append(f"{module.ID}: {way.key} = {told}{also}{unsaid}: {way.says(values[0], words)}")
    return "\n".join([*lines, ""])


@pytest.mark.parametrize("garment", sorted(garments()))
def test_what_the_ways_out_try_is_what_was_looked_at(garment: str) -> None:
    now = tried(garment, "child of 6")
    place = KEPT / f"{garment}.txt"
    if os.environ.get("KEEP_TREES"):
        place.write_text(now, encoding="utf-8")
    assert place.exists(), "read what it tries, and keep it as the head of this file says"
    assert now.splitlines() == place.read_text(encoding="utf-8").splitlines()
    assert len(now.splitlines()) > 3
