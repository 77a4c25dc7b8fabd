from typing import Any

import flet as ft
import flet.canvas as cv
import pytest
from hypothesis import given
from hypothesis import strategies as st

from app import parts
from app.parts.body_outline import TAPES, child_place, outlines, smooth
from app.parts.drawing_view import MOST, Pinch, corner
from app.parts.fractions_tape import EIGHTHS, shown_fraction, with_fraction
from app.parts.reading import SIZES, need, readings
from app.parts.signs import RESULTS, SIGNS, path_of
from app.theme import CLOTH, PAPER, READING, TOUCH
from drafting.drawing import text_width
from drafting.measures import MEASURES
from drafting.units import INCH, LengthProblem, read_length

TYPED = ["", "10", "10 ", "10 3/8", "10⅜", "10 ⅜", "10.5", "10-1/2", "3/8", "⅜", "10 ½ in", "10 in", "10 3/", "10½in"]


@pytest.mark.parametrize("typed", TYPED)
@pytest.mark.parametrize("sign", EIGHTHS)
def test_a_tapped_fraction_takes_the_place_of_the_one_that_stood_there(typed: str, sign: str) -> None:
    text = with_fraction(typed, sign)
    whole = 10 if typed.startswith("10") else 0
    if shown_fraction(typed) == sign:
        assert shown_fraction(text) == ""
        expected = whole * INCH
    else:
        expected = (whole + (EIGHTHS.index(sign) + 1) / 8) * INCH
    if text:
        read = read_length(text, "in")
        assert not isinstance(read, LengthProblem), text
        assert read == pytest.approx(expected)
    else:
        assert expected == 0


@given(st.integers(1, 99), st.sampled_from(EIGHTHS), st.sampled_from(EIGHTHS))
def test_changing_ones_mind_about_a_fraction_leaves_only_the_last(whole: int, first: str, last: str) -> None:
    text = with_fraction(with_fraction(str(whole), first), last)
    assert text == (str(whole) if first == last else f"{whole} {last}")


@given(st.text(max_size=12), st.sampled_from(EIGHTHS))
def test_nothing_typed_that_is_no_number_is_thrown_away(typed: str, sign: str) -> None:
    if not any(character.isdigit() or character in EIGHTHS for character in typed):
        letters = [c for c in typed if c.isalpha()]
        assert [c for c in with_fraction(typed, sign) if c.isalpha()] == letters


def test_every_measure_has_its_place_on_the_body() -> None:
    assert set(TAPES) == set(MEASURES)
    for name, tape in TAPES.items():
        assert (tape.round is None) != (not tape.line), name
        assert name.endswith("girth") == (tape.round is not None), name


@pytest.mark.parametrize("child", [False, True])
@pytest.mark.parametrize("view", ["front", "back", "side"])
def test_outlines_stand_between_crown_and_sole(view, child: bool) -> None:  # type: ignore[no-untyped-def]
    heights = [y for outline in outlines(view, child) for _, y in outline.places]
    assert min(heights) == pytest.approx(0, abs=0.2)
    assert max(heights) == pytest.approx(100, abs=0.2)


@pytest.mark.parametrize("child", [False, True])
def test_the_front_is_the_same_on_both_sides(child: bool) -> None:
    for outline in outlines("front", child):
        places = {(round(x, 6), round(y, 6)) for x, y in outline.places}
        assert places == {(round(-x, 6) + 0.0, y) for x, y in places}


@pytest.mark.parametrize("name", [n for n, t in TAPES.items() if t.round is not None])
def test_a_loop_goes_round_what_it_measures(name: str) -> None:
    shapely = pytest.importorskip("shapely")
    tape = TAPES[name]
    assert tape.round is not None
    (x, y), half, _ = tape.round
    inside = shapely.union_all(
        [shapely.make_valid(shapely.Polygon(outline.places)) for outline in outlines(tape.view, False)]
    )
    assert inside.contains(shapely.Point(x, y))
    level = shapely.LineString([(x - half * 0.8, y), (x + half * 0.8, y)])
    assert inside.intersection(level).length > 0.9 * level.length


@given(st.floats(0, 100), st.floats(0, 100))
def test_a_child_keeps_the_order_of_heights(one: float, other: float) -> None:
    low, high = sorted((one, other))
    assert child_place((0, low))[1] <= child_place((0, high))[1]
    assert child_place((0, 13.5))[1] > 13.5  # a child's head is the larger part of it


def test_a_smooth_line_passes_through_its_places() -> None:
    places = [(0.0, 0.0), (3.0, 1.0), (4.0, 5.0), (-1.0, 6.0)]
    assert [end for _, _, end in smooth(places)] == [*places[1:], places[0]]
    assert [end for _, _, end in smooth(places, closed=False)] == places[1:]


@pytest.mark.parametrize(
    "drawn", [*SIGNS.values(), *(part for outline, _, line in RESULTS.values() for part in (outline, line))]
)
def test_signs_stay_on_their_grid(drawn: str) -> None:
    steps = path_of(drawn)
    assert steps
    for step in steps:
        if isinstance(step, cv.Path.MoveTo | cv.Path.LineTo):
            assert 0 <= step.x <= 24
            assert 0 <= step.y <= 24


def test_results_are_told_by_shape() -> None:
    assert set(RESULTS) == {"pass", "shown", "caution", "warn", "stop"}
    assert len({outline for outline, _, _ in RESULTS.values()}) == len(RESULTS)
    with pytest.raises(ValueError, match="no sign"):
        parts.check_card(PAPER, identifier="x", result="fine", result_words="", says="")


def sizes(control: Any) -> list[float]:
    """How large the readings in a row or column of them are."""
    rows = [each.content if isinstance(each, ft.Container) else each for each in control.controls]
    return [row.content.controls[1].controls[0].style.size for row in rows]


@pytest.mark.parametrize(
    ("room", "values", "beside"),
    [
        (608, ("28.0", "82.5"), True),
        (358, ("0.0", "0.0"), True),
        (358, ("0.0", "132.5"), True),
        (358, ("28.0", "82.5"), True),
        (358, ("28.0", "132.5"), True),
        (358, ("10⅞", "32⅝"), True),
        (288, ("28.0", "82.5"), True),
        (200, ("28.0", "132.5"), False),
    ],
)
def test_both_readings_are_seen_at_once_as_large_as_they_go(room: float, values: tuple[str, str], beside: bool) -> None:
    pairs = [("Across", values[0]), ("Down from the second 0", values[1])]
    unit = "in" if "⅞" in values[0] else "cm"
    shown = readings(CLOTH, identifier="readings", pairs=pairs, unit=unit, room=room)
    assert isinstance(shown, ft.Row) is beside
    one, other = sizes(shown)
    assert one == other
    if not beside:
        assert one == READING
        return
    assert isinstance(shown, ft.Row)
    wide = [each.expand for each in shown.controls]
    for value, share in zip(values, wide, strict=True):
        has = (room - shown.spacing) * share / sum(wide)
        assert text_width(value, one, True) + text_width(unit, 20) < has, "number and unit stay in their share"
    assert sum(need(pairs, unit, one)) + shown.spacing <= room
    larger = [size for size in SIZES if size > one]
    assert all(sum(need(pairs, unit, size)) + shown.spacing > room for size in larger)
    assert one == READING if room > 600 else 36 <= one < READING


def test_a_high_page_sets_readings_under_each_other_rather_than_smaller() -> None:
    pairs = [("Across", "28.0"), ("Down", "82.5")]
    for room, row in ((358, False), (500, True)):
        shown = readings(CLOTH, identifier="readings", pairs=pairs, unit="cm", room=room, high=True)
        assert isinstance(shown, ft.Row) is row
        assert sizes(shown) == [READING, READING]
    lying = readings(CLOTH, identifier="readings", pairs=pairs, unit="cm", room=500, largest=50)
    assert isinstance(lying, ft.Row)
    assert sizes(lying) == [50, 50]


def test_a_pinch_is_told_by_its_gestures_and_never_leaves_its_limits() -> None:
    pinch = Pinch()
    pinch.begin()
    pinch.to(2.0)
    pinch.to(3.0)  # each counts from where the gesture began
    assert pinch.now == 3.0
    pinch.begin()
    pinch.to(2.0)
    assert pinch.now == 6.0
    pinch.to(99.0)
    assert pinch.now == MOST
    pinch.begin()
    pinch.to(0.01)
    assert pinch.now == 1.0
    pinch.to(0.5)
    pinch.begin()
    pinch.to(1.5)
    pinch.fit()
    pinch.to(1.2)
    assert pinch.now == pytest.approx(1.2)


@pytest.mark.parametrize(("lit", "below"), [([], True), ([(50.0, 190.0)], True), ([(370.0, 180.0)], False)])
def test_the_button_that_fits_never_covers_what_is_lit(lit: list[tuple[float, float]], below: bool) -> None:
    box = corner(390, 200, lit)
    assert (box[1] > 100) is below
    assert (box[2] - box[0], box[3] - box[1]) == (TOUCH, TOUCH)
    assert all(not (box[0] <= x <= box[2] and box[1] <= y <= box[3]) for x, y in lit)
