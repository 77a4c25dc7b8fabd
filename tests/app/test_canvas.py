import json
import math
from itertools import pairwise
from pathlib import Path

import flet.canvas as cv
import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.canvas import (
    LEAST_LETTER,
    NEAR,
    WORD_MM,
    Fit,
    drawing_scale,
    fit,
    outline_shapes,
    shapes,
    thinned,
    upright,
    worded,
)
from app.theme import CLOTH, PAPER, STRONG, see_through
from app.turn import AS_DRAFTED, Turn, laid_turn, seen_turn
from drafting.drawing.piece import INKS, Drawing, Label, Stroke, piece_drawing
from drafting.geometry.point import Point
from drafting.order import Result, make, read_order

VIEWS = [seen_turn(fold_right=right, top_near=near) for right in (False, True) for near in (False, True)]
VIEWS += [laid_turn(turned, mirrored) for turned in (90, 180, 270) for mirrored in (False, True)]
places = st.tuples(st.floats(-500, 500), st.floats(-500, 500))


@pytest.fixture(scope="module")
def made() -> Result:
    demo = Path(__file__).parents[2] / "assets" / "demo" / "order.json"
    order, problems = read_order(json.loads(demo.read_text("utf-8")))
    assert order is not None, problems
    return make(order)


def drawn(made: Result, width: float = 390, height: float = 500) -> tuple[Drawing, Fit]:
    piece = made.draft.pieces[0]
    scale = drawing_scale(piece.width, piece.height, width, height)
    assert made.plan is not None
    drawing = piece_drawing(piece, made.plan.pieces[0], made.plan.tape, scale=scale)
    return drawing, fit(drawing, width, height)


def away(point: tuple[float, float], a: tuple[float, float], b: tuple[float, float]) -> float:
    dx, dy = b[0] - a[0], b[1] - a[1]
    square = dx * dx + dy * dy
    share = 0.0 if not square else min(max(((point[0] - a[0]) * dx + (point[1] - a[1]) * dy) / square, 0), 1)
    return math.dist(point, (a[0] + share * dx, a[1] + share * dy))


@given(st.lists(places, min_size=2, max_size=40), st.floats(0.01, 20))
def test_thinning_keeps_ends_order_and_nearness(points: list[tuple[float, float]], near: float) -> None:
    kept = thinned(points, near)
    assert kept[0] == points[0]
    assert kept[-1] == points[-1]
    rest = iter(points)
    assert all(point in rest for point in kept)  # in their order
    for point in points:
        assert min(away(point, a, b) for a, b in pairwise(kept)) <= near + 1e-9


def test_thinning_against_shapely() -> None:
    shapely = pytest.importorskip("shapely")
    wave = [(x / 4, 30 * math.sin(x / 40)) for x in range(800)]
    ours, theirs = thinned(wave, NEAR), shapely.LineString(wave).simplify(NEAR, preserve_topology=False)
    assert len(ours) == len(theirs.coords)
    assert len(ours) < len(wave) / 8


@given(places, st.floats(1, 2000), st.floats(1, 2000), st.floats(100, 1500), st.floats(100, 1500))
def test_a_fitted_drawing_lies_inside_its_box_and_in_its_middle(
    corner: tuple[float, float], wide: float, high: float, width: float, height: float
) -> None:
    drawing = Drawing((), wide, high, left=corner[0], top=corner[1])
    fitted = fit(drawing, width, height, margin=10)
    left, top = fitted.px(corner[0], corner[1])
    right, foot = fitted.px(corner[0] + wide, corner[1] + high)
    assert left >= 10 - 1e-6
    assert top >= 10 - 1e-6
    assert left + right == pytest.approx(width, abs=1e-6)
    assert top + foot == pytest.approx(height, abs=1e-6)
    assert min(left, top) == pytest.approx(10, abs=1e-6)
    assert fitted.mm(*fitted.px(3, 4)) == pytest.approx((3, 4), abs=1e-6)


def test_a_whole_piece_is_few_shapes_and_every_word_is_there(made: Result) -> None:
    drawing, fitted = drawn(made)
    result = shapes(drawing, CLOTH, fitted)
    assert len(result) < 600
    drawn_lines = [shape for shape in result if isinstance(shape, cv.Path | cv.Points)]
    roles = {(item.role, item.filled) for item in drawing.items if isinstance(item, Stroke)}
    assert len(drawn_lines) == len(roles)
    texts = [shape.value for shape in result if isinstance(shape, cv.Text)]
    assert texts == [item.text for item in drawing.items if isinstance(item, Label)]
    assert any("FOLD" in str(text) for text in texts)
    assert any(str(text).startswith("half ") for text in texts)
    assert any(str(text).startswith("whole ") for text in texts)


def test_the_cut_line_is_drawn_where_the_draft_has_it(made: Result) -> None:
    drawing, fitted = drawn(made)
    cut = [i for i in drawing.items if isinstance(i, Stroke) and i.role == "cut" and not i.filled]
    line = max(cut, key=lambda stroke: len(stroke.points))
    alone = Drawing((line,), drawing.width, drawing.height, drawing.scale, drawing.left, drawing.top)
    (shape,) = shapes(alone, PAPER, fitted)
    assert isinstance(shape, cv.Points)
    steps = list(zip(shape.points[::2], shape.points[1::2], strict=True))
    assert len(steps) < len(line.points)
    assert all(end == begin for (_, end), (begin, _) in pairwise(steps))
    for point in line.points:
        at = fitted.px(point.x, point.y)
        assert min(away(at, a, b) for a, b in steps) <= NEAR + 0.01


def test_a_filled_piece_ends_under_the_line_round_it(made: Result) -> None:
    drawing, fitted = drawn(made)
    filled = [i for i in drawing.items if isinstance(i, Stroke) and i.role == "piece_fill"]
    alone = Drawing((filled[0],), drawing.width, drawing.height, drawing.scale, drawing.left, drawing.top)
    (path,) = shapes(alone, PAPER, fitted)
    assert isinstance(path, cv.Path)
    steps = [(e.x, e.y) for e in path.elements if isinstance(e, cv.Path.MoveTo | cv.Path.LineTo)]
    half_a_line = INKS["cut"].weight * fitted.scale * drawing.scale / 2
    for point in filled[0].points:
        at = fitted.px(point.x, point.y)
        assert min(away(at, a, b) for a, b in pairwise(steps)) <= half_a_line + 0.01


def test_roles_differ_by_weight_or_dash_not_only_by_colour(made: Result) -> None:
    drawing, fitted = drawn(made)
    for look in (PAPER, CLOTH):
        paints = {}
        for role in ("cut", "stitch", "fold", "level"):
            (path,) = shapes(Drawing((Stroke((Point(0, 0), Point(9, 9)), role),), 9, 9, drawing.scale), look, fitted)
            assert isinstance(path, cv.Path | cv.Points)
            paints[role] = (round(float(path.paint.stroke_width), 2), bool(path.paint.stroke_dash_pattern))
        assert len(set(paints.values())) == len(paints)
        assert paints["stitch"][1]
        assert paints["fold"][0] > paints["cut"][0] > paints["level"][0]


def test_weights_and_letters_follow_the_paper_scale() -> None:
    items = (Stroke((Point(0, 0), Point(100, 0)), "cut"), Label(Point(50, 50), "waist", 2.7, strong=True))
    path, text = shapes(Drawing(items, 100, 100, scale=10), PAPER, Fit(0.5, 0, 0))
    assert isinstance(path, cv.Points)
    assert isinstance(text, cv.Text)
    assert path.paint.stroke_width == pytest.approx(INKS["cut"].weight * 10 * 0.5)
    assert text.style is not None
    assert text.style.size == pytest.approx(2.7 * 10 * 0.5)
    assert text.style.font_family == STRONG
    assert (text.x, text.y) == (25, 25)


@given(st.floats(100, 2000), st.floats(100, 2000), st.floats(200, 1200), st.floats(200, 1200), st.floats(11, 20))
def test_asking_for_a_scale_gives_words_of_that_size(
    wide: float, high: float, width: float, height: float, words: float
) -> None:
    scale = drawing_scale(wide, high, width, height, words)
    label = Label(Point(0, 0), "waist", WORD_MM)
    drawing = Drawing((label,), wide, high, scale)
    (text,) = shapes(drawing, PAPER, fit(drawing, width, height, margin=0))
    assert isinstance(text, cv.Text)
    assert text.style is not None
    assert text.style.size == pytest.approx(words, abs=0.01)


def test_no_word_is_too_small_to_be_read() -> None:
    (text,) = shapes(Drawing((Label(Point(0, 0), "waist", 2.7),), 100, 100, scale=1), PAPER, Fit(0.5, 0, 0))
    assert isinstance(text, cv.Text)
    assert text.style is not None
    assert text.style.size == LEAST_LETTER >= 11


@given(st.sampled_from(VIEWS), st.floats(-math.pi, math.pi))
def test_no_word_stands_on_its_head_in_a_turned_picture(turn: Turn, angle: float) -> None:
    if turn == AS_DRAFTED:
        assert upright(angle, turn) == (angle, 1), "what was drafted to be read from one side stays so"
        return
    turned, way = upright(angle, turn)
    assert math.cos(turned) >= -1e-6
    # It is the line of writing that the picture turns, run from its other end where it would be on its head.
    x, y = turn.at(math.cos(angle), math.sin(angle))
    assert (way * math.cos(turned), way * math.sin(turned)) == pytest.approx((x, y), abs=1e-9)


def test_a_turned_drawing_is_whole_in_its_box(made: Result) -> None:
    drawing, straight = drawn(made)
    for turn in VIEWS:
        fitted = fit(drawing, 390, 500, turn=turn)
        for x in (drawing.left, drawing.left + drawing.width):
            for y in (drawing.top, drawing.top + drawing.height):
                px, py = fitted.px(x, y)
                assert -1e-6 <= px - 8 <= 390 - 16 + 1e-6
                assert -1e-6 <= py - 8 <= 500 - 16 + 1e-6
    assert fit(drawing, 390, 500, turn=seen_turn(fold_right=True, top_near=True)).scale == straight.scale


def test_a_thumbnail_is_an_outline_only() -> None:
    outline = [(0.0, 0.0), (100.0, 0.0), (100.0, 300.0), (0.0, 300.0)]
    folded = outline_shapes(outline, PAPER, 72, 72, on_fold=True)
    whole = outline_shapes(outline, PAPER, 72, 72, on_fold=False)
    assert len(folded) == len(whole) + 1
    assert outline_shapes([], PAPER, 72, 72, on_fold=True) == []
    for shape in folded:
        assert isinstance(shape, cv.Path)
        for step in shape.elements:
            if isinstance(step, cv.Path.MoveTo | cv.Path.LineTo):
                assert 0 <= step.x <= 72
                assert 0 <= step.y <= 72


def test_a_colour_can_be_thin() -> None:
    assert see_through(PAPER.ink, 0.1).startswith("#1A")


@pytest.mark.parametrize("words", [11.0, 16.0])
@pytest.mark.parametrize(("width", "height"), [(390.0, 200.0), (120.0, 600.0), (800.0, 800.0)])
def test_words_come_out_as_high_as_asked_whatever_stands_round_the_drawing(
    width: float, height: float, words: float
) -> None:
    wide, high, round_it = 500.0, 900.0, (9.0, 14.0)

    def make(scale: float) -> Drawing:
        return Drawing((), wide + round_it[0] * scale, high + round_it[1] * scale, scale)

    drawing = worded(make, wide, high, width, height, words)
    assert WORD_MM * drawing.scale * fit(drawing, width, height).scale == pytest.approx(words, rel=0.03)


def test_what_is_drawn_keeps_its_share_of_a_small_box() -> None:
    drawing = worded(lambda scale: Drawing((), 500, 500 + 80 * scale, scale), 500, 500, 300, 150, 12)
    assert 500 * fit(drawing, 300, 150).scale > 20
