"""A piece of cloth in hand, as it is typed."""

import pytest

from drafting.layout.in_hand import Remnant, read_remnant


@pytest.mark.parametrize(
    ("typed", "found"),
    [
        ({"width": "150", "length": "80"}, Remnant(1500.0, 800.0)),
        ({"width": "150", "length": "80", "further_width": " ", "further_length": ""}, Remnant(1500.0, 800.0)),
        ({"width": "1.5 m", "length": "32 in"}, Remnant(1500.0, 812.8)),
        ({"width": "150", "length": "80", "further_width": "60"}, Remnant(1500.0, 800.0)),
        ({"width": "150", "length": "80", "further_length": "60"}, Remnant(1500.0, 800.0)),
        (
            {"width": "150", "length": "80", "further_width": "60", "further_length": "40"},
            Remnant(1500.0, 800.0, 600.0, 400.0),
        ),
        ({"width": "150"}, None),
        ({"length": "80", "further_width": "60", "further_length": "40"}, None),
    ],
)
def test_a_step_with_only_one_of_its_sizes_is_left_out_and_half_a_piece_is_none(
    typed: dict[str, str], found: Remnant | None
) -> None:
    assert read_remnant(typed, "cm") == (found, ())


@pytest.mark.parametrize(
    ("text", "code"), [("wide", "length_unreadable"), ("0", "remnant_outside"), ("-3", "length_unreadable")]
)
def test_what_is_no_size_of_cloth_is_told_at_its_field(text: str, code: str) -> None:
    found, (problem,) = read_remnant({"width": "150", "length": text}, "cm")
    assert found is None
    assert (problem.field, problem.code) == ("length", code)
    assert problem.fix
