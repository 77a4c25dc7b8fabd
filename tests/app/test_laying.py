"""What the lay screen is told is what the core says, comes in parts, and is kept while it stays true."""

import json
from dataclasses import replace
from pathlib import Path

import pytest

from app.laying import answering, question_of
from app.state import GarmentRecord, LaidOut, PersonRecord
from app.typed import order_of, records_of
from drafting.layout import Remnant, candidates, goes_on, lay_together, length_to_buy, widths_side_by_side
from drafting.order import Result, glance, make, read_order, ways_to_save

DEMO = json.loads((Path(__file__).resolve().parents[2] / "assets" / "demo" / "order.json").read_text("utf-8"))


def answer(garment: GarmentRecord, person: PersonRecord, others=(), before=None) -> tuple[LaidOut, list[LaidOut]]:
    result = result_of(garment, person)
    return answer_to(garment, person, result, others, before)


def result_of(garment: GarmentRecord, person: PersonRecord) -> Result:
    typed, _ = order_of(garment, person)
    order, _ = read_order(typed)
    assert order is not None
    return make(order, with_ways_out=False)


def answer_to(garment, person, result, others=(), before=None):
    work = answering(garment.id, result, question_of(garment, (garment, *others), {person.id: person}), before)
    seen = []
    while True:
        try:
            step = next(work)
            if isinstance(step, LaidOut):
                seen.append(step)
        except StopIteration as end:
            return end.value, seen


@pytest.fixture
def demo() -> tuple[GarmentRecord, PersonRecord]:
    return records_of(DEMO, "g1", "p1")


def noted(garment: GarmentRecord, **notes: str) -> GarmentRecord:
    return replace(garment, cloth=garment.cloth | notes)


def test_it_says_what_the_core_says_and_grows_part_by_part(demo):
    garment, person = demo
    laid, seen = answer(noted(garment, lay_price="12,50"), person)
    made, cloth, unit = laid.result, laid.result.ready.cloth, laid.result.order.person.unit
    assert laid.done
    assert laid.ways == candidates(made.draft.pieces, replace(cloth, lay="auto"))
    assert laid.saves == ways_to_save(made)
    assert laid.widths == widths_side_by_side(made.draft.pieces, cloth, unit, price=12.5)
    assert laid.buy == length_to_buy(made.layout, cloth, unit, price=12.5)
    assert (laid.in_hand, laid.together) == (None, None)
    grown = [sum(part is not None for part in (each.ways, each.saves, each.widths)) for each in seen]
    assert grown == sorted(grown)
    assert {0, 1, 2} <= set(grown)


def test_notes_are_no_part_of_the_order(demo):
    garment, person = demo
    plain = order_of(garment, person)
    assert order_of(noted(garment, lay_price="3", lay_width="90", lay_with="g7"), person) == plain
    assert order_of(noted(garment, lay="open"), person)[0]["cloth"]["lay"] == "open"


def test_a_piece_in_hand_is_tried_and_a_slip_stands_at_its_field(demo):
    garment, person = demo
    for width, length in (("150", "400"), ("90", "90"), ("40", "30")):
        laid, _ = answer(noted(garment, lay_width=width, lay_length=length), person)
        cloth = replace(laid.result.ready.cloth, lay="auto")
        assert laid.in_hand == goes_on(laid.result.draft.pieces, cloth, Remnant(float(width) * 10, float(length) * 10))
    bent, _ = answer(
        noted(garment, lay_width="160", lay_length="90", lay_further_width="70", lay_further_length="120"), person
    )
    cloth = replace(bent.result.ready.cloth, lay="auto")
    assert bent.in_hand == goes_on(bent.result.draft.pieces, cloth, Remnant(1600.0, 900.0, 700.0, 1200.0))
    slip, _ = answer(noted(garment, lay_width="wide", lay_length="0"), person)
    assert slip.in_hand is None
    assert {each.field for each in slip.problems} == {"cloth.lay_width", "cloth.lay_length"}


def test_two_garments_are_laid_together_under_their_titles(demo):
    garment, person = demo
    other = replace(noted(garment, width="150"), id="g2", title=garment.title)
    laid, _ = answer(noted(garment, lay_with="g2"), person, (other,))
    second = glance(read_order(order_of(other, person)[0])[0]).draft.pieces
    names = (f"{garment.title} 1", f"{garment.title} 2")
    cloth = replace(laid.result.ready.cloth, lay="auto")
    assert laid.together == lay_together(((names[0], laid.result.draft.pieces), (names[1], second)), cloth)
    unknown = replace(other, cloth={})
    assert answer(noted(garment, lay_with="g2"), person, (unknown,))[0].together is None
    assert answer(noted(garment, lay_with="g9"), person, (other,))[0].together is None


def test_what_stays_true_is_not_worked_out_again(demo):
    garment, person = demo
    before, _ = answer(noted(garment, lay_width="150", lay_length="400"), person)
    priced = noted(garment, lay_width="150", lay_length="400", lay_price="10")
    after, seen = answer_to(priced, person, before.result, before=before)
    assert after.ways is before.ways
    assert after.saves is before.saves
    assert after.in_hand is before.in_hand
    assert len(seen) < 6
    assert after == answer_to(priced, person, before.result)[0]
    chosen = noted(priced, lay="open")
    result = result_of(chosen, person)
    again, _ = answer_to(chosen, person, result, before=after)
    assert again.ways is before.ways
    assert again == answer_to(chosen, person, result)[0]
    longer = replace(priced, style=priced.style | {"length": "ankle"})
    result = result_of(longer, person)
    assert answer_to(longer, person, result, before=after)[0] == answer_to(longer, person, result)[0]


def test_a_garment_laid_crosswise_is_compared_as_it_would_be_drafted_without(demo):
    garment, person = demo
    wide = noted(garment, width="180", stretch_across="60", stretch_along="30", lay_width="170", lay_length="400")
    plain, _ = answer(wide, person)
    across, _ = answer(noted(wide, lay="crosswise"), person)
    assert across.result.draft.pieces != plain.result.draft.pieces
    assert across.result.layout.way == "crosswise"
    assert across.ways == plain.ways
    assert across.in_hand == plain.in_hand
    assert "crosswise" not in {each.way for each in across.ways}


def test_what_is_no_price_costs_nothing(demo):
    garment, person = demo
    for text, cost in (("-3", None), ("dear", None), ("", None), ("0", 0.0)):
        assert answer(noted(garment, lay_price=text), person)[0].buy.cost == cost
