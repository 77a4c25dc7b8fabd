"""What the steps of a tape do to a width that must stay open."""

import doctest

from hypothesis import given
from hypothesis import strategies as st

from drafting.contract import chalked_line
from drafting.contract.chalked_line import ChalkedLine
from drafting.units import TAPES

widths = st.floats(40, 900)
allowances = st.floats(0, 40)
washes = st.floats(0, 0.2)


def readings(line: ChalkedLine, width: float, allowance: float, shrink: float) -> list[float]:
    """The finished widths of each chalked line, worked out from the reading alone."""
    outsides = {"cut": [allowance], "stitch": [0.0], "both": [allowance, 0.0]}[line.line]
    return [(line.tape.reading(width / (1 - shrink) + out).mm - out) * (1 - shrink) for out in outsides]


@given(st.sampled_from(TAPES), st.sampled_from(["cut", "stitch", "both"]), widths, allowances, washes)
def test_a_width_that_is_raised_stays_open_on_every_chalked_line(tape, line, width, allowance, shrink):
    chalked = ChalkedLine(tape, line)
    raised = chalked.open_enough(width, allowance, shrink)
    assert width <= raised < width + tape.size
    assert min(readings(chalked, raised, allowance, shrink)) >= width - 1e-4
    assert abs(chalked.chalked(raised, allowance, shrink) - min(readings(chalked, raised, allowance, shrink))) < 1e-9


@given(st.sampled_from(TAPES), widths, allowances, washes)
def test_the_least_such_width_on_one_line_reads_a_whole_step(tape, width, allowance, shrink):
    raised = ChalkedLine(tape, "cut").open_enough(width, allowance, shrink)
    on_cloth = raised / (1 - shrink) + allowance
    assert abs(on_cloth - tape.reading(on_cloth).mm) < 1e-4


def test_a_width_on_a_step_is_left_alone():
    assert ChalkedLine().open_enough(100.0, 15.0, 0.0) == 100.0


def test_the_examples_in_the_words():
    assert doctest.testmod(chalked_line).failed == 0
