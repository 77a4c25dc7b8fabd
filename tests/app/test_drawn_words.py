"""The words in the drawings of Shape, Proof and Lay, as large as on a page: all can be read, none lies on another."""

import math
from collections.abc import Iterator
from itertools import combinations

import flet.canvas as cv
import pytest
from flet.components.component import Component
from test_shown import demo, order_of, part, read_order

from app import actions as act
from app.canvas import fit, shapes
from app.laying import answering
from app.state import Drafted, LaidOut, LayQuestion, Place, State
from app.theme import CLOTH, STRONG
from app.update import update
from drafting.drawing.items import Box, overlap
from drafting.drawing.piece import text_width
from drafting.order import make

LEAST = 11.0
"""No letter is smaller, px."""
PAGES = ((390, 664), (360, 640), (844, 390), (768, 1024), (1280, 800))
ORDERS: dict[str, tuple[act.Action, ...]] = {
    "demo": (),
    "dress": (act.SetStyle("g1", "length", "ankle"), act.SetStyle("g1", "flare", "bell")),
    "open": (act.SetCloth("g1", "lay", "open"),),
    "apart": (act.SetStyle("g1", "lower_sleeve", "joined"), act.SetStyle("g1", "centre_back", "seam")),
}


def made(*actions: act.Action) -> State:
    """The demo, changed, drafted in full and laid."""
    state = demo(*actions)
    typed, _ = order_of(state.garment, state.person)
    order, problems = read_order(typed)
    assert order is not None, problems
    result = make(order, with_ways_out=False)
    assert result.layout is not None
    answers = (each for each in answering("g1", result, LayQuestion()) if isinstance(each, LaidOut))
    laid = next(each for each in answers if each.ways is not None)
    state = update(state, act.SetView("flat"))[0]
    state = update(state, act.DraftCame(Drafted("g1", typed or {}, result, (), laid=True)))[0]
    return update(state, act.LayCame(laid))[0]


def written(view: Component) -> Iterator[tuple[str, float, Box]]:
    """Every word of a drawing: what it says, its size, and the box it fills; px."""
    shown, drawing = view.kwargs, view.args[1]
    fitted = fit(drawing, shown["width"] or shown["likely"], shown["height"])
    for shape in shapes(drawing, CLOTH, fitted):
        if not isinstance(shape, cv.Text):
            continue
        size = float(shape.style.size)
        wide = text_width(shape.value, size, shape.style.font_family == STRONG) * 0.95
        middle, angle = -shape.alignment.x * wide / 2, float(shape.rotate or 0)
        ends = [(middle + side * wide / 2, up * size * 0.4) for side in (-1, 1) for up in (-1, 1)]
        turned = [
            (x * math.cos(angle) - y * math.sin(angle), x * math.sin(angle) + y * math.cos(angle)) for x, y in ends
        ]
        xs, ys = [shape.x + x for x, _ in turned], [shape.y + y for _, y in turned]
        yield shape.value, size, (min(xs), min(ys), max(xs), max(ys))


@pytest.mark.parametrize("name", ORDERS)
def test_no_word_of_a_drawing_is_too_small_or_lies_on_another(name: str) -> None:
    state = made(*ORDERS[name])
    faults = []
    for screen, drawing in (("shape", "outline"), ("proof", "cloth-layout"), ("lay", "lay-cloth")):
        there = update(state, act.Go(Place(screen, "g1")))[0]  # type: ignore[arg-type]
        for width, height in PAGES:
            words = list(written(part(there, drawing, width, height)))
            assert words, f"{screen} at {width} by {height}"
            where = f"{screen} at {width} by {height}:"
            faults += [f"{where} {text!r} is {size:.1f} px" for text, size, _ in words if size < LEAST]
            faults += [
                f"{where} {one!r} lies on {other!r}"
                for (one, _, a), (other, _, b) in combinations(words, 2)
                if overlap(a, b)
            ]
            page_wide = width if width < 560 else 1e9
            faults += [f"{where} {text!r} is cut off" for text, _, box in words if box[0] < 0 or box[2] > page_wide]
    assert not faults, "\n".join(faults)
