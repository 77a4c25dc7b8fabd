"""The frozen draft as the chalk screen reads it: the 0 that a reading is taken from."""

import json

from app.chalking import Chalking, read_chalking
from drafting.documents import draft_json
from drafting.order import make
from tests.drafting.bodies import BODIES, Data, order, read


def shown(record: Data, typed: Data, key: str) -> tuple[tuple[str, str], ...]:
    chalking: Chalking | None = read_chalking(json.dumps(record), json.dumps(typed))
    assert chalking is not None
    return next(item.pairs for item in chalking.items if item.key == key)


def test_a_mark_past_the_tape_is_shown_from_the_second_0() -> None:
    cloth = {"width": "200 cm", "stretch_across": 40, "stretch_along": 20}
    typed = {**order(BODIES["tall woman"], {"length": "ankle"}, cloth), "tape": {"unit": "cm", "step": "0.5"}}
    result = make(read(typed), with_ways_out=False)
    assert result.plan is not None
    marks = {mark.id: mark for mark in result.plan.pieces[0].marks}
    hem, waist = marks["hem_corner"], marks["waist"]
    record = json.loads(draft_json(result))
    assert shown(record, typed, "front.hem_corner") == (
        ("across", hem.across.pretty),
        ("down_second", hem.reads.pretty),
    )
    assert shown(record, typed, "front.waist") == (("across", waist.across.pretty), ("down", waist.down.pretty))
    # A draft frozen before tapes had an end has one 0, and still shows its reading.
    for piece in record["pieces"]:
        for mark in piece["marks"]:
            del mark["zero"], mark["reads"]
    assert shown(record, {**typed, "title": "older"}, "front.hem_corner") == (
        ("across", hem.across.pretty),
        ("down", hem.down.pretty),
    )
