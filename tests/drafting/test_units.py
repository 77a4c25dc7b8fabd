"""Lengths: what is typed, what a tape reads."""

import doctest
import math
import re
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from drafting import units
from drafting.units import INCH, TAPES, Amount, LengthProblem, Tape, read_amount, read_length, say_length, say_sold

EIGHTH, QUARTER, HALF_CM, MILLIMETRE = TAPES
LENGTHS = st.floats(min_value=0, max_value=5000, allow_nan=False)


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("26.5", 265.0),
        ("26,5", 265.0),
        ("26,5 cm", 265.0),
        ("26.5cm", 265.0),
        ("265 mm", 265.0),
        ("  265   mm ", 265.0),
        ("265\u00a0mm", 265.0),
        ("0.265 m", 265.0),
        (".5 cm", 5.0),
        ("26.5 CM", 265.0),
        ("26.5 centimetres", 265.0),
        ("10 1/2", 105.0),
        ("10½", 105.0),
        ("10 1/2 in", 266.7),
        ("10½ in", 266.7),
        ("10 ½ in", 266.7),
        ("10½in.", 266.7),
        ("10-1/2 in", 266.7),
        ("10 1⁄2 in", 266.7),
        ("10.5 in", 266.7),
        ("10.5inches", 266.7),
        ('10 1/2"', 266.7),
        ("10 1/2″", 266.7),
        ("10 1/2”", 266.7),
        ("10 1/2''", 266.7),
        ("⅞ in", 22.225),
        ("7/8 in", 22.225),
        ("31 1/4 in", 793.75),
        ("5' 4\"", 1625.6),
        ("5′4″", 1625.6),
        ("5’ 4”", 1625.6),
        ("5' 4½\"", 1638.3),
        ("5' 4", 1625.6),
        ("5 ft 4 in", 1625.6),
        ("5 feet 4 inches", 1625.6),
        ("5ft4in", 1625.6),
        ("6 ft", 1828.8),
        ("2½ yd", 2286.0),
        ("1 m 62", 1620.0),
        ("1 m 62 cm", 1620.0),
        ("1 m 5 cm", 1050.0),
        ("1.62 m", 1620.0),
        ("٢٦ cm", 260.0),
        ("0", 0.0),
        ("+3 cm", 30.0),
    ],
)
def test_reads_what_a_person_writes(text: str, mm: float) -> None:
    assert read_length(text, "cm") == mm


def test_a_bare_number_stands_in_the_persons_unit() -> None:
    assert read_length("10 1/2", "in") == read_length(10.5, "in") == read_length("10½", "in") == 266.7
    assert read_length("10 1/2", "cm") == read_length(10.5, "cm") == 105.0
    assert read_length(98, "cm") == 980.0
    assert read_length(31.3, "cm") == read_length("31.3", "cm") == 313.0


@pytest.mark.parametrize(
    "text",
    [
        "",
        "   ",
        "abc",
        "cm",
        "10 1/0",
        "1/0",
        "1/2/3",
        "10 9/8",
        "10.5 1/2",
        "1.2.3",
        "1,2,3",
        "1..2",
        "-5",
        "−5 cm",
        "--5",
        "nan",
        "inf",
        "1e3",
        "0x10",
        "12 kg",
        "5 4 in",
        "5' 14\"",
        "5' 4' 3\"",
        "5.5' 4\"",
        "4\" 5'",
        "1 m 5",
        "1 m 162",
        "1,620 mm",
        "200 m",
        "9" * 9999,
        "9" * 40,
        "½½",
        "<script>",
        "😀",
        math.nan,
        math.inf,
        -math.inf,
        -3,
        -0.5,
        pytest.param(10**9999, id="ten thousand digits"),
        1e300,
        True,
        False,
    ],
)
@pytest.mark.parametrize("unit", ["cm", "in"])
def test_refuses_nonsense_in_plain_words(text: str | float, unit: units.Unit) -> None:
    problem = read_length(text, unit)
    assert isinstance(problem, LengthProblem)
    for words in (problem.wrong, problem.fix):
        assert 0 < len(words) < 160
        assert not words.endswith((".", "!"))
        assert words.isprintable()
        assert not any(word in words.lower().split() for word in ("invalid", "error", "null", "none"))


def test_below_zero_is_read_only_where_it_makes_sense() -> None:
    assert read_length("-2 cm", "cm", signed=True) == -20.0
    assert read_length("−1/2 in", "cm", signed=True) == -12.7
    assert read_length(-2, "cm", signed=True) == -20.0


@given(st.text(max_size=80))
@example("1\u2044")
@example("⅟")
@example("1²")
@example("\ud800")
def test_any_text_is_a_length_or_a_problem(text: str) -> None:
    found = read_length(text, "cm")
    assert isinstance(found, LengthProblem) or 0 <= found <= 100_000


@given(st.integers(0, 99), st.integers(0, 40), st.integers(1, 16))
def test_fractions_agree_with_exact_arithmetic(whole: int, top: int, bottom: int) -> None:
    if top >= bottom:
        assert isinstance(read_length(f"{whole} {top}/{bottom} in", "cm"), LengthProblem)
    else:
        exact = (whole + Fraction(top, bottom)) * Fraction(254, 10)
        assert read_length(f"{whole} {top}/{bottom} in", "cm") == float(exact)


def test_the_same_number_in_other_units() -> None:
    amount = read_amount("98 in", "cm")
    assert isinstance(amount, Amount)
    assert amount.words == "98 in"
    assert [other.words for other in amount.in_other_units()] == ["98 cm", "98 mm", "98 m"]
    quarter = read_amount("31 1/4", "in")
    assert isinstance(quarter, Amount)
    assert quarter.words == "31¼ in"
    feet = read_amount("5' 4\"", "in")
    assert isinstance(feet, Amount)
    assert feet.in_other_units() == ()


@pytest.mark.parametrize(("cm", "reads"), [(22.9, "9"), (41.3, "16 1/4"), (33.3, "13 1/8"), (10.0, "3 7/8")])
def test_tape_readings_worked_by_hand(cm: float, reads: str) -> None:
    """Arithmetic: each number of centimetres over 2.54, to the nearest eighth."""
    assert EIGHTH.reading(cm * 10).text == reads


def test_readings_are_written_as_a_tape_is_read() -> None:
    assert [EIGHTH.reading(INCH * x / 8).text for x in (0, 1, 2, 4, 8, 65)] == ["0", "1/8", "1/4", "1/2", "1", "8 1/8"]
    assert [EIGHTH.reading(INCH * x / 8).pretty for x in (0, 1, 2, 4, 8, 65)] == ["0", "⅛", "¼", "½", "1", "8⅛"]
    assert QUARTER.reading(2.999 * INCH).text == EIGHTH.reading(2.999 * INCH).text == "3"
    assert HALF_CM.reading(264).text == HALF_CM.reading(264).pretty == "26.5"
    assert HALF_CM.reading(261).text == "26.0"
    assert MILLIMETRE.reading(264.4).text == "26.4"
    assert MILLIMETRE.reading(299.96).text == "30.0"
    assert EIGHTH.reading(-INCH / 8).text == "-1/8"


def test_a_tie_goes_up_even_when_arithmetic_ends_a_hair_lower() -> None:
    assert HALF_CM.reading(2.5).steps == HALF_CM.reading(math.nextafter(2.5, 0)).steps == 1


@pytest.mark.parametrize("tape", TAPES)
@given(mm=LENGTHS)
def test_a_reading_is_the_nearest_step_and_carries(tape: Tape, mm: float) -> None:
    reading = tape.reading(mm)
    assert abs(reading.mm - mm) <= tape.size / 2 + 1e-5
    assert not reading.text.endswith(("8/8", "4/4", "0/8", "4/8", "2/8", "6/8", "2/4", "0/4"))
    assert ".10" not in reading.text
    assert read_length(reading.text, tape.unit) == reading.mm
    assert read_length(reading.pretty, tape.unit) == reading.mm


@given(mm=st.floats(-5000, -1))
def test_a_reading_below_zero_reads_back(mm: float) -> None:
    for tape in TAPES:
        reading = tape.reading(mm)
        assert read_length(reading.text, tape.unit, signed=True) == reading.mm


def test_a_tape_has_only_its_own_steps() -> None:
    with pytest.raises(ValueError, match="no step"):
        Tape("cm", "1/8")
    assert [tape.size for tape in TAPES] == [3.175, 6.35, 5.0, 1.0]


def test_lengths_in_a_sentence() -> None:
    assert say_length(561, "cm") == "56.1 cm"
    assert say_length(560, "cm") == "56 cm"
    assert say_length(560.4, "cm") == "56 cm"
    assert say_length(559.96, "cm") == "56 cm"
    assert say_length(2489.2, "cm", digits=0) == "249 cm"
    assert say_length(1000, "cm", digits=0) == "100 cm"
    assert say_length(12.3, "cm", digits=2) == "1.23 cm"
    assert say_length(561, "in") == "22⅛ in"
    assert say_length(-20, "cm") == "-2 cm"
    assert say_length(-0.01, "cm") == "0 cm"


@given(mm=LENGTHS)
def test_a_sentence_says_the_length(mm: float) -> None:
    for unit, within in (("cm", 0.5), ("in", INCH / 16)):
        said = read_length(say_length(mm, unit), "cm")
        assert isinstance(said, float)
        assert abs(said - mm) <= within + 1e-4


def test_the_examples_in_the_words_of_the_module_hold() -> None:
    assert doctest.testmod(units).failed == 0


def test_an_inch_is_turned_into_millimetres_in_one_place_only() -> None:
    root = Path(units.__file__).parent
    number = re.compile(r"(?<![\d.])25\.4(?!\d)")
    homes = [path.name for path in sorted(root.rglob("*.py")) if number.search(path.read_text(encoding="utf-8"))]
    assert homes == ["units.py"]


@pytest.mark.parametrize(
    ("mm", "unit", "says"),
    [(279.0, "cm", "28 cm"), (280.0, "cm", "28 cm"), (9.625 * INCH, "in", "10 in"), (9.5 * INCH, "in", "9½ in")],
)
def test_what_is_bought_by_length_is_no_shorter_than_what_is_cut_of_it(mm: float, unit: units.Unit, says: str) -> None:
    assert say_sold(mm, unit) == says
