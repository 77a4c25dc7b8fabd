"""A piece of cloth in hand, as it is typed."""

import pytest

from drafting.layout.in_hand import Remnant, _step, read_remnant


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


@pytest.mark.parametrize(("width", "further"), [(1500.0, 600.0), (1000.0, 950.0), (600.0, 1500.0), (950.0, 1000.0)])
def test_what_an_l_lacks_lies_beside_its_narrower_rectangle(width: float, further: float) -> None:
    """The first rectangle is 800 mm long, the second lies below it: what is missing begins or ends at 800."""
    lacking = _step(Remnant(width, 800.0, further, 400.0))
    assert min(point.x for point in lacking) == min(width, further)
    assert max(point.x for point in lacking) > max(width, further)
    if width > further:
        assert min(point.y for point in lacking) == 800.0
        assert max(point.y for point in lacking) > 1200.0
    else:
        assert max(point.y for point in lacking) == 800.0
        assert min(point.y for point in lacking) < 0.0
