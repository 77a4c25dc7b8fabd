"""The bracketed search for where a function crosses zero, against closed forms."""

import doctest
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drafting.geometry import solve
from drafting.geometry.solve import crossing_value, least_enough, most_whole, newton_crossing


@given(st.floats(-3, 3), st.sampled_from([1.0, -1.0]), st.sampled_from([1e-3, 1e-6, 1e-9]))
def test_a_known_crossing_is_found_within_the_accuracy(root, sign, accuracy):
    def curve(x: float) -> float:
        return sign * (math.exp(2 * x) - math.exp(2 * root))

    assert abs(crossing_value(curve, -4.0, 4.0, accuracy) - root) <= accuracy


@given(st.floats(0.1, 9.9))
def test_what_is_returned_is_on_the_side_of_the_high_end(limit):
    found = crossing_value(lambda x: x**3 - limit**3, 0.0, 10.0, 1e-4)
    assert limit - 1e-12 <= found <= limit + 1e-4


def test_a_step_that_never_is_zero_is_enclosed():
    assert crossing_value(lambda x: 1.0 if x >= 0.3 else -1.0, 0.0, 1.0, 1e-6) == pytest.approx(0.3, abs=1e-6)


def test_without_a_crossing_the_nearer_end_is_returned():
    assert crossing_value(lambda x: x + 1.0, 0.0, 5.0, 1e-6) == 0.0
    assert crossing_value(lambda x: x - 9.0, 0.0, 5.0, 1e-6) == 5.0


def test_it_needs_few_tries():
    tries = []

    def curve(x: float) -> float:
        tries.append(x)
        return x**5 - 7

    crossing_value(curve, 0.0, 100.0, 1e-9)
    assert len(tries) < 60


def test_the_example_in_the_words():
    assert doctest.testmod(solve).failed == 0


@given(st.floats(0.1, 9.9), st.sampled_from([1e-2, 1e-6, 1e-9]))
def test_the_least_that_is_enough_is_enough_and_hardly_more(limit, accuracy):
    found = least_enough(lambda x: x >= limit, 0.0, 10.0, accuracy)
    assert limit <= found <= limit + accuracy


@given(st.floats(0.1, 9.9))
def test_it_is_sought_downward_too(limit):
    found = least_enough(lambda x: x <= limit, 10.0, 0.0, 1e-6)
    assert limit - 1e-6 <= found <= limit


def test_the_enough_end_is_returned_where_nothing_less_is():
    assert least_enough(lambda x: False, 0.0, 3.0, 1e-6) == 3.0


@given(st.integers(-50, 50), st.integers(0, 200), st.integers(-60, 300))
def test_the_most_whole_number_is_enough_and_the_next_is_not(least: int, more: int, edge: int):
    asked: list[int] = []

    def enough(number: int) -> bool:
        asked.append(number)
        return number <= edge

    found = most_whole(enough, least, least + more)
    assert found == min(max(edge, least), least + more)
    assert least not in asked
    assert len(asked) <= math.ceil(math.log2(more + 1)) + 1


def test_newtons_steps_stay_in_their_bracket():
    """Steps that leave the bracket are bisections: a flat slope, a step the wrong way, a start at an end."""
    places: list[float] = []

    def rising(at: float) -> tuple[float, float]:
        places.append(at)
        return math.atan(at - 1.0), 1 / (1 + (at - 1.0) ** 2)

    for start in (-20.0, 3.5, 30.0):
        assert newton_crossing(rising, start, -20.0, 30.0, least_slope=1e-9, within=1e-12) == pytest.approx(1.0)
    assert all(-20.0 <= at <= 30.0 for at in places)
    assert newton_crossing(lambda at: (at - 0.3, 0.0), 0.0, 0.0, 1.0, least_slope=1e-9, within=1e-9) == pytest.approx(
        0.3, abs=2e-9
    )
    nearly = newton_crossing(lambda at: (at**3 - 2, 3 * at * at), 2.0, 0.0, 2.0, least_slope=1e-9, value_within=0.1)
    assert 0 < abs(nearly**3 - 2) < 0.1
