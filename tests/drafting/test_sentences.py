"""Numbers and what they count stay on one line; all else may end it."""

import pytest

from drafting.sentences import NO_BREAK, unbroken


@pytest.mark.parametrize(
    ("written", "kept"),
    [
        ("12.5 cm long", "12.5_cm long"),
        ("a hem 17⅛ in above", "a hem 17⅛_in above"),
        ("stretches 40 % across", "stretches 40_% across"),
        ("falls by 10 degrees only", "falls by 10_degrees only"),
        ("at 1 year, at 12 years", "at 1_year, at 12_years"),
        ("9 of 54 steps done", "9 of_54_steps done"),
        ("about 52 ± 1.3 cm", "about 52 ±_1.3_cm"),
        ("3 inches, 4 metres, 5 centres", "3 inches, 4 metres, 5 centres"),
        ("the top of the sleeve (11) and 2 more", "the top of the sleeve (11) and 2 more"),
        ("", ""),
    ],
)
def test_no_line_ends_between_a_number_and_its_unit(written: str, kept: str) -> None:
    assert unbroken(written) == kept.replace("_", NO_BREAK)
    assert unbroken(unbroken(written)) == unbroken(written)
