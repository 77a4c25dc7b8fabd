"""The marks over a drawing: their numbers, what is lit, every 0; and the part of a drawing that is shown closer."""

import json
import math
from itertools import combinations, pairwise
from pathlib import Path

import flet.canvas as cv
import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.canvas import Fit, fit
from app.chalk_canvas import (
    BALL,
    CLOSER,
    LEAST_SHOWN,
    LIT_PX,
    NUMBER_PX,
    RING,
    ROUND,
    mark_shapes,
    nearest,
    window_for,
)  # fmt: skip
from app.chalking import Chalking, read_chalking
from app.lit import NOTHING, Lit
from app.theme import CLOTH, PAPER
from app.turn import Turn, laid_turn, seen_turn
from drafting.drawing.items import Box, crosses_box, overlap, text_width
from drafting.drawing.piece import Drawing
from drafting.geometry.point import Point
from drafting.order import make, read_order
from drafting.record.documents import draft_json

VIEWS = [seen_turn(fold_right=right, top_near=near) for right in (False, True) for near in (False, True)]
places = st.tuples(st.floats(-500, 500), st.floats(-500, 500))
ROOMS = [(390.0, 200.0), (390.0, 120.0), (272.0, 300.0), (640.0, 760.0)]


@pytest.fixture(scope="module")
def chalking() -> Chalking:
    text = (Path(__file__).parents[2] / "assets" / "demo" / "order.json").read_text("utf-8")
    order, problems = read_order(json.loads(text))
    assert order is not None, problems
    read = read_chalking(draft_json(make(order, with_ways_out=False)).decode(), text)
    assert read is not None
    return read


def words_of(drawn: list[cv.Shape]) -> dict[str, tuple[Box, cv.Text]]:
    """Every word that is drawn, with the box it fills on the canvas."""
    found = {}
    for shape in drawn:
        if isinstance(shape, cv.Text):
            assert shape.style is not None
            assert shape.value is not None
            size = float(shape.style.size or 0)
            wide, high = text_width(shape.value, size, strong=True) / 2, size * 0.4
            found[shape.value] = (shape.x - wide, shape.y - high, shape.x + wide, shape.y + high), shape
    return found


def lit_lines(drawn: list[cv.Shape], colour: str) -> list[tuple[Point, Point]]:
    """The straight parts of what is drawn in a colour."""
    found = []
    for shape in drawn:
        if isinstance(shape, cv.Path) and shape.paint.color == colour:
            steps = [e for e in shape.elements if isinstance(e, cv.Path.MoveTo | cv.Path.LineTo)]
            found += [(Point(a.x, a.y), Point(b.x, b.y)) for a, b in pairwise(steps) if isinstance(b, cv.Path.LineTo)]
    return found


def ovals(drawn: list[cv.Shape], *, accent: str, lit: bool) -> list[Box]:
    found = []
    for shape in drawn:
        if isinstance(shape, cv.Path) and (shape.paint.color == accent) is lit:
            found += [(e.x, e.y, e.x + e.width, e.y + e.height) for e in shape.elements if isinstance(e, cv.Path.Oval)]
    return found


@pytest.mark.parametrize("look", [PAPER, CLOTH], ids=["paper", "cloth"])
def test_marks_show_which_are_done_and_which_is_lit(look) -> None:  # type: ignore[no-untyped-def]
    marks = {"a": (0.0, 0.0), "b": (100.0, 0.0), "c": (100.0, 200.0)}
    result = mark_shapes(marks, look, Fit(1, 10, 10), lit=Lit(("c",), ways=True), done=("a",))
    colours = [shape.paint.color for shape in result if isinstance(shape, cv.Path)]
    assert colours.count(look.accent) == 3
    assert look.faded in colours
    assert lit_lines(result, look.accent) == [(Point(10, 210), Point(110, 210)), (Point(10, 10), Point(10, 210))]
    second = mark_shapes(marks, look, Fit(1, 10, 10), lit=Lit(("c",), ways=True, zero=80))
    assert lit_lines(second, look.accent) == [
        (Point(10, 210), Point(110, 210)), (Point(10, 90), Point(10, 210)), (Point(3, 90), Point(17, 90))
    ]  # fmt: skip
    assert mark_shapes({}, look, Fit(1, 0, 0), lit=Lit(("gone",), ways=True)) == []


def test_a_proof_length_lights_both_its_ends_and_the_straight_line_between_them(chalking: Chalking) -> None:
    proofs = [item for item in chalking.items if item.kind == "proof"]
    assert proofs
    for item in proofs:
        marks = chalking.pieces[item.piece].marks
        fitted = Fit(0.3, 10, 10)
        drawn = mark_shapes(marks, CLOTH, fitted, lit=item.lit)
        start, end = (Point(*fitted.px(*marks[name])) for name in item.ends)
        ((a, b),) = lit_lines(drawn, CLOTH.accent)
        assert (a.distance(start), b.distance(end)) == pytest.approx((0, 0), abs=0.01)
        balls = [
            Point((left + right) / 2, (top + foot) / 2)
            for left, top, right, foot in ovals(drawn, accent=CLOTH.accent, lit=True)
        ]
        assert len(balls) == 4, "a ball and a ring at each end"
        for at in (start, end):
            assert sum(ball.distance(at) < 0.01 for ball in balls) == 2


@pytest.mark.parametrize("room", ROOMS)
@pytest.mark.parametrize("turn", VIEWS)
def test_every_lit_mark_has_its_number_and_nothing_lies_on_it_in_every_view(
    chalking: Chalking, room: tuple[float, float], turn: Turn
) -> None:
    for item in chalking.items:
        if item.kind not in {"mark", "proof"}:
            continue
        piece = chalking.pieces[item.piece]
        for zoom in (1.0, 4.0):
            window = window_for(piece.drawing, piece.marks, item.lit, *room, turn)
            fitted = fit(piece.drawing, *room, turn=turn, window=window)
            drawn = mark_shapes(
                piece.marks, CLOTH, fitted, lit=item.lit, numbers=piece.numbers, zeros={"0": (0.0, 0.0)}, room=room,
                zoom=zoom,
            )  # fmt: skip
            said = words_of(drawn)
            for name in item.ends:
                x, y = fitted.px(*piece.marks[name])
                assert 0 <= x <= room[0], "what is lit is on the screen"
                assert 0 <= y <= room[1]
                box, text = said[str(piece.numbers[name])]
                assert text.style is not None
                assert float(text.style.size or 0) * zoom == pytest.approx(LIT_PX, abs=0.05)
                assert text.rotate in (None, 0), "letters are never turned"
                assert box[0] >= -1
                assert box[2] <= room[0] + 1
            for _, text in said.values():
                assert text.style is not None
                assert float(text.style.size or 0) * zoom >= NUMBER_PX - 0.05
            for (one, _), (other, _) in combinations(said.values(), 2):
                assert not overlap(one, other)
            balls = [fitted.px(*piece.marks[name]) for name in item.ends]
            for left, top, right, foot in ovals(drawn, accent=CLOTH.accent, lit=False):
                middle, half = ((left + right) / 2, (top + foot) / 2), (right - left) / 2
                assert all(math.dist(middle, ball) >= (RING if len(balls) < 3 else BALL) / zoom for ball in balls), half
            for box, _ in said.values():
                for a, b in lit_lines(drawn, CLOTH.accent):
                    assert not crosses_box(a, b, box), "no word lies on what is lit"


def test_a_number_waits_for_a_pinch_where_there_is_no_room(chalking: Chalking) -> None:
    piece = chalking.pieces["front"]
    fitted = fit(piece.drawing, 390, 120)
    shown = [
        len(words_of(mark_shapes(piece.marks, CLOTH, fitted, numbers=piece.numbers, zoom=zoom))) for zoom in (1, 3, 10)
    ]
    assert shown[0] < len(piece.marks)
    assert shown[0] < shown[1] <= shown[2] == len(piece.marks)
    assert words_of(mark_shapes(piece.marks, CLOTH, fitted)) == {}


def test_words_keep_off_what_stands_over_the_drawing() -> None:
    marks = {"a": (50.0, 50.0)}
    free = words_of(mark_shapes(marks, CLOTH, Fit(1, 0, 0), numbers={"a": 1}))["1"][0]
    kept = words_of(mark_shapes(marks, CLOTH, Fit(1, 0, 0), numbers={"a": 1}, kept=[free]))["1"][0]
    assert not overlap(free, kept)


@pytest.mark.parametrize("turn", VIEWS)
def test_a_tap_on_a_mark_finds_it_in_every_view(chalking: Chalking, turn: Turn) -> None:
    for piece in chalking.pieces.values():
        fitted = fit(piece.drawing, 390, 664, turn=turn)
        for place in piece.marks.values():
            found = nearest(piece.marks, fitted, *fitted.px(*place))
            assert found is not None
            assert piece.marks[found] == place


@given(st.dictionaries(st.text(min_size=1, max_size=3), places, min_size=1, max_size=12), places)
def test_a_tap_finds_the_nearest_mark(marks: dict[str, tuple[float, float]], tap: tuple[float, float]) -> None:
    found = nearest(marks, Fit(1, 0, 0), *tap, within=50)
    least = min(math.dist(place, tap) for place in marks.values())
    if found is None:
        assert least > 50
    else:
        assert math.dist(marks[found], tap) == pytest.approx(least)


BOARD = Drawing((), 1000, 2000)


def test_what_is_lit_is_shown_closer_where_that_is_worth_it() -> None:
    marks = {"near": (100.0, 150.0), "far": (900.0, 1900.0)}
    assert window_for(BOARD, marks, NOTHING, 390, 200) is None
    assert window_for(BOARD, marks, Lit(("far",), ways=True), 390, 200) is None, "its ways need the whole"
    window = window_for(BOARD, marks, Lit(("near",), ways=True), 390, 200)
    assert window is not None
    left, top, right, foot = window
    assert (left, top) == (0, 0)
    assert right >= 100 + ROUND * 1000 - 1e-9
    assert foot == pytest.approx(LEAST_SHOWN * 2000)
    close, whole = fit(BOARD, 390, 200, window=window).scale, fit(BOARD, 390, 200).scale
    assert close >= CLOSER * whole
    alone = window_for(BOARD, marks, Lit(("far",)), 390, 200)
    assert alone is not None
    assert alone[2:] == (1000, 2000), "it ends where the drawing ends"


@given(st.floats(0, 1000), st.floats(0, 2000), st.booleans(), st.sampled_from([*VIEWS, laid_turn(90, mirrored=False)]))
def test_a_closer_picture_holds_all_that_is_lit(x: float, y: float, ways: bool, turn: Turn) -> None:
    lit = Lit(spots=((x, y),), ways=ways)
    window = window_for(BOARD, {}, lit, 390, 200, turn)
    fitted = fit(BOARD, 390, 200, turn=turn, window=window)
    for place in [(x, y), *((0.0, y), (0.0, 0.0)) * ways]:
        px, py = fitted.px(*place)
        assert -1e-6 <= px <= 390 + 1e-6
        assert -1e-6 <= py <= 200 + 1e-6
    if window is not None:
        assert fitted.scale >= CLOSER * fit(BOARD, 390, 200, turn=turn).scale - 1e-9
