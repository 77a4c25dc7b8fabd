"""How a picture lies: with the cloth, and with the person who stands at it."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.turn import AS_DRAFTED, Turn, laid_turn, seen_turn
from drafting.geometry.point import Point
from drafting.layout.shapes import moved

places = st.tuples(st.floats(-500, 500), st.floats(-500, 500))
SIDES = [(right, near) for right in (False, True) for near in (False, True)]
LAID = [(turned, mirrored) for turned in (0, 90, 180, 270) for mirrored in (False, True)]
TURNS = [*(seen_turn(fold_right=right, top_near=near) for right, near in SIDES), *(laid_turn(*each) for each in LAID)]


@given(st.sampled_from(TURNS), places, places)
def test_no_turn_changes_a_distance_and_each_has_a_way_back(
    turn: Turn, a: tuple[float, float], b: tuple[float, float]
) -> None:
    assert math.dist(turn.at(*a), turn.at(*b)) == pytest.approx(math.dist(a, b))
    assert turn.back(*turn.at(*a)) == pytest.approx(a)


@pytest.mark.parametrize(("right", "near"), SIDES)
def test_the_fold_and_the_top_lie_where_they_were_asked_for(right: bool, near: bool) -> None:
    turn = seen_turn(fold_right=right, top_near=near)
    away_from_the_fold, down = turn.at(100, 0), turn.at(0, 100)
    assert away_from_the_fold == ((-100 if right else 100), 0)
    assert down == (0, (-100 if near else 100))
    assert (turn == AS_DRAFTED) is (not right and not near)


@given(st.sampled_from(LAID), places)
def test_a_piece_lies_as_the_layout_lays_it(laid: tuple[int, bool], place: tuple[float, float]) -> None:
    (there,) = moved((Point(*place),), *laid)
    assert laid_turn(*laid).at(*place) == pytest.approx((there.x, there.y))


@given(st.sampled_from(TURNS), st.sampled_from(TURNS), places)
def test_one_turn_after_the_other(first: Turn, second: Turn, place: tuple[float, float]) -> None:
    assert first.then(second).at(*place) == pytest.approx(second.at(*first.at(*place)))
