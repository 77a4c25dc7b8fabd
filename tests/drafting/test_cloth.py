"""The cloth: limits, the home test, ease, passing and shrinkage."""

import doctest
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import ValidationError

from drafting import cloth as cloth_module
from drafting.cloth import (
    EASE_KNOTS,
    KIND_WORDS,
    Cloth,
    ClothFacts,
    ClothKind,
    Fit,
    before_shrinking,
    ease_share,
    opening_needed,
    passing_factor,
    read_cloth,
    recovers,
    stretch_class,
    stretch_percent,
    stretch_within,
    washing_words,
    wearing,
)
from drafting.layout import Layout, length_to_buy
from drafting.problems import Problem
from drafting.units import LengthProblem, Unit

FITS: tuple[Fit, ...] = ("close", "regular", "loose")


def facts(unit: Unit = "cm", **typed: object) -> tuple[ClothFacts | None, tuple[Problem, ...]]:
    return read_cloth(Cloth.model_validate({"width": 150, "stretch_across": 40, "stretch_along": 20} | typed), unit)


def test_reads_a_cloth() -> None:
    found, problems = facts(selvage=1.5, length="2 1/2 yd", shrink_along=3, one_way=True, recovery="fair")
    assert problems == ()
    assert found == ClothFacts(1500.0, 2286.0, 15.0, 0.40, 0.20, 0.0, 0.03, "fair", True)
    assert found.usable_width == 1470.0


def test_bare_lengths_stand_in_the_persons_unit() -> None:
    found, problems = facts("in", width=60, selvage="1.5 cm")
    assert problems == ()
    assert found is not None
    assert (found.width, found.selvage) == (1524.0, 15.0)
    default, _ = facts("in", width=60)
    assert default is not None
    assert default.selvage == 15.0


@pytest.mark.parametrize(
    ("typed", "field"),
    [
        ({"width": 30}, "cloth.width"),
        ({"width": 301}, "cloth.width"),
        ({"width": "wide"}, "cloth.width"),
        ({"width": math.nan}, "cloth.width"),
        ({"length": 0}, "cloth.length"),
        ({"length": -1}, "cloth.length"),
        ({"selvage": 11}, "cloth.selvage"),
        ({"selvage": "-1 cm"}, "cloth.selvage"),
        ({"stretch_across": 201}, "cloth.stretch_across"),
        ({"stretch_across": -1}, "cloth.stretch_across"),
        ({"stretch_along": math.nan}, "cloth.stretch_along"),
        ({"stretch_along": math.inf}, "cloth.stretch_along"),
        ({"stretch_along": 10**400}, "cloth.stretch_along"),
        ({"shrink_across": 21}, "cloth.shrink_across"),
        ({"shrink_along": -0.1}, "cloth.shrink_along"),
    ],
)
def test_refuses_outside_the_limits(typed: dict[str, object], field: str) -> None:
    found, problems = facts(**typed)
    assert found is None
    assert [(problem.field, problem.severity) for problem in problems] == [(field, "refuse")]
    assert not {"nan", "inf", "invalid", "error"} & set(problems[0].line().lower().replace(",", "").split())


@pytest.mark.parametrize("typed", [{"width": 60}, {"width": 300}, {"stretch_across": 0}, {"stretch_across": 200}])
def test_the_limits_themselves_are_accepted(typed: dict[str, object]) -> None:
    found, problems = facts(**typed)
    assert found is not None
    assert all(problem.severity == "warn" for problem in problems)


def test_all_problems_come_at_once() -> None:
    _, problems = facts(width=20, stretch_across=300, shrink_along=50)
    assert [problem.field for problem in problems] == ["cloth.width", "cloth.stretch_across", "cloth.shrink_along"]


@pytest.mark.parametrize(
    ("unit", "width", "severity", "asks"),
    [
        ("cm", 45, "refuse", "45 cm is 17¾ in. Did you mean 45 in?"),
        ("cm", 1500, "refuse", "1500 cm is 590½ in. Did you mean 1500 mm?"),
        ("in", 150, "refuse", "150 in is 381 cm. Did you mean 150 cm?"),
        ("cm", 60, "warn", "60 cm is narrower than cloth is sold. Did you mean 60 in?"),
        ("in", 115, "warn", "115 in is wider than cloth is sold. Did you mean 115 cm?"),
    ],
)
def test_asks_about_the_other_unit(unit: Unit, width: float, severity: str, asks: str) -> None:
    _, problems = facts(unit, width=width)
    assert [(problem.severity, problem.wrong) for problem in problems] == [(severity, asks)]


def test_cloth_that_shrinks_much_is_washed_first() -> None:
    found, problems = facts(shrink_along=10)
    assert found is not None
    assert [(problem.code, problem.field, problem.severity) for problem in problems] == [
        ("wash_first", "cloth.shrink_along", "warn")
    ]
    assert facts(shrink_along=9.9)[1] == ()


@pytest.mark.parametrize(
    ("typed", "held", "says"),
    [
        ({}, (0.0, 0.0), "Wash the cloth first"),
        (
            {"shrink_along": 4, "shrink_across": 2},
            (0.02, 0.04),
            "the marks hold its shrinkage, 4 % along and 2 % across",
        ),
        ({"shrink_along": 9.9}, (0.0, 0.099), "the marks hold its shrinkage, 9.9 % along."),
        ({"shrink_across": 3}, (0.03, 0.0), "the marks hold its shrinkage, 3 % across."),
        ({"shrink_along": 10, "shrink_across": 2}, (0.0, 0.0), "the marks hold no shrinkage"),
        ({"shrink_across": 12}, (0.0, 0.0), "the marks hold no shrinkage"),
        (
            {"shrink_along": 4, "shrink_across": 2, "lay": "crosswise"},
            (0.04, 0.02),
            "the marks hold its shrinkage, 4 % along and 2 % across",
        ),
    ],
)
def test_washing_is_paid_once(typed: dict[str, object], held: tuple[float, float], says: str) -> None:
    """What the marks hold and what is told agree: either the wash comes before the cut, or it is in the marks."""
    found, _ = facts(**typed)
    assert found is not None
    assert (found.shrink_across, found.shrink_along) == pytest.approx(held)
    told = washing_words(found)
    assert says in told
    assert told.startswith("Do not wash the cloth before cutting") == (held != (0.0, 0.0))
    assert told.startswith("Wash the cloth first") == (held == (0.0, 0.0))


def test_cloth_that_is_washed_first_is_bought_longer() -> None:
    """CALC: a length that loses a tenth in the first wash is bought at 1 / 0.9 of it."""
    known = {share: cloth for share in (0, 4, 10) if (cloth := facts(shrink_along=share)[0]) is not None}
    assert [cloth.first_wash for cloth in known.values()] == [None, None, 0.1]
    layout = Layout("half", 1500.0, 1770.0, 1770.0, 0.7, ())
    bought = {share: length_to_buy(layout, cloth, "cm").wash for share, cloth in known.items()}
    assert bought[0] == pytest.approx(1800 / 0.95 - 1800)
    assert bought[4] == 0.0
    assert bought[10] == pytest.approx(200.0)


@pytest.mark.parametrize("typed", [{"color": "red"}, {"recovery": "bouncy"}, {"one_way": 1}, {"stretch_across": True}])
def test_unknown_keys_and_values_are_refused(typed: dict[str, object]) -> None:
    with pytest.raises(ValidationError):
        facts(**typed)


@pytest.mark.parametrize(("start", "stretched", "percent"), [(10, 14, 40), (4, 5, 25), (25, 40, 60)])
def test_home_stretch_test(start: float, stretched: float, percent: float) -> None:
    """Arithmetic: (stretched - start) / start x 100."""
    assert stretch_percent(start, stretched) == pytest.approx(percent, abs=1e-12)


@pytest.mark.parametrize(("start", "stretched"), [(0, 4), (-1, 4), (10, 9), (math.nan, 1), (10, math.inf)])
def test_home_stretch_test_says_what_is_amiss(start: float, stretched: float) -> None:
    assert isinstance(stretch_percent(start, stretched), LengthProblem)


@pytest.mark.parametrize(
    ("start", "step", "good", "fair", "poor"),
    [
        (4.0, 0.125, (3.875, 4.0), (4.125,), (4.25, 5.0)),  # limit 4.12, one step more 4.245
        (8.0, 0.125, (8.0, 8.125), (8.25, 8.36), (8.375,)),  # limit 8.24, one step more 8.365
        (4.0, 0.25, (4.0, 4.12), (4.25, 4.37), (4.371, 4.5)),  # one step more 4.37
        (10.0, 0.1, (10.0, 10.3), (10.31, 10.4), (10.41, 10.5)),
        (10.0, 0.5, (10.0, 10.3), (10.5, 10.8), (10.81, 11.0)),
    ],
)
def test_springing_back_reckons_with_the_step_of_the_tape(
    start: float, step: float, good: tuple[float, ...], fair: tuple[float, ...], poor: tuple[float, ...]
) -> None:
    """Common practice, no source: 10 comes back to 10.3 or less. What a tape cannot tell, one step, is "nearly"."""
    assert [recovers(start, each, step) for each in good] == ["good"] * len(good)
    assert [recovers(start, each, step) for each in fair] == ["fair"] * len(fair)
    assert [recovers(start, each, step) for each in poor] == ["poor"] * len(poor)


@given(
    st.floats(2, 40), st.floats(0, 1.5), st.sampled_from([0.1, 0.125, 0.25, 0.5]), st.floats(-1, 1), st.floats(-1, 1)
)
def test_the_true_stretch_lies_within_what_is_said(
    start: float, stretch: float, step: float, one: float, other: float
) -> None:
    """Both lengths read to the nearest step: the truth is never further off than said, and comes as far."""
    pulled = start * (1 + stretch)
    within = stretch_within(start, pulled, step)
    true = stretch_percent(start + one * step / 2, max(pulled + other * step / 2, start + one * step / 2))
    assert isinstance(true, float)
    assert abs(true - stretch * 100) <= within + 1e-6
    most = stretch_percent(start - step / 2, pulled + step / 2)
    assert isinstance(most, float)
    assert most - stretch * 100 == pytest.approx(within)


def test_a_length_as_short_as_half_a_step_tells_nothing() -> None:
    assert stretch_within(0.25, 1, 0.5) == math.inf
    assert math.isfinite(stretch_within(0.2501, 1, 0.5))


def test_classes_by_crosswise_stretch() -> None:
    """Common practice, no source."""
    edges = [0, 0.25, 0.26, 0.50, 0.51, 0.75, 0.76, 0.99, 1.0, 2.0]
    assert [stretch_class(edge) for edge in edges] == [
        *("stable",) * 2,
        *("moderate",) * 2,
        *("stretchy",) * 2,
        *("super_stretchy",) * 2,
        *("rib",) * 2,
    ]


# Common practice, no source: ease in percent of the girth, close, regular, loose, from the least to the most.
BANDS = {
    0.175: ((0, 3), (5, 8), (12, 12)),
    0.375: ((-2, 0), (3, 6), (10, 10)),
    0.625: ((-5, -3), (0, 4), (8, 8)),
    0.875: ((-10, -5), (-3, 0), (5, 5)),
    1.125: ((-15, -8), (-5, 0), (5, 5)),
}


def test_ease_in_the_middle_of_a_class_is_the_middle_of_its_band() -> None:
    for across, bands in BANDS.items():
        for fit, (least, most) in zip(FITS, bands, strict=True):
            assert ease_share(across, fit) * 100 == pytest.approx((least + most) / 2)


@pytest.mark.parametrize(("fit", "percent"), [("close", 6), ("regular", 10), ("loose", 16)])
def test_cloth_that_hardly_stretches_has_the_ease_of_woven_cloth(fit: Fit, percent: float) -> None:
    assert ease_share(0.0, fit) == ease_share(0.10, fit) == percent / 100


@pytest.mark.parametrize("fit", FITS)
@given(across=st.floats(0, 2), step=st.floats(0, 0.01))
def test_ease_falls_with_stretch_without_jumps(fit: Fit, across: float, step: float) -> None:
    before, after = ease_share(across, fit), ease_share(across + step, fit)
    assert before - 0.61 * step - 1e-12 <= after <= before + 1e-12
    assert EASE_KNOTS[-1][FITS.index(fit) + 1] <= after


def test_a_looser_fit_has_more_ease() -> None:
    for percent in range(0, 201):
        close, regular, loose = (ease_share(percent / 100, fit) for fit in FITS)
        assert close < regular < loose


@pytest.mark.parametrize(("stretch", "opening"), [(0.25, 43.7), (0.50, 36.4), (0.75, 31.2)])
def test_a_head_of_54_6_through_the_full_stretch(stretch: float, opening: float) -> None:
    """Arithmetic: 54.6 / (1 + stretch)."""
    assert opening_needed(54.6, stretch, used=1.0) == pytest.approx(opening, abs=0.05)


def test_how_much_of_the_stretch_is_used() -> None:
    """Common practice, no source: half in wear, 80 % when putting on."""
    assert wearing(0.4) == pytest.approx(0.2)
    assert passing_factor(0.4) == pytest.approx(1.32)
    assert opening_needed(55.6, 0.4) * passing_factor(0.4) == pytest.approx(55.6)


def test_cutting_for_shrinkage() -> None:
    """Arithmetic: 100 / (1 - 0.05)."""
    assert before_shrinking(100, 0.05) == pytest.approx(105.3, abs=0.05)
    assert before_shrinking(100, 0.0) == 100


def test_the_examples_in_the_words_of_the_module_hold() -> None:
    assert doctest.testmod(cloth_module).failed == 0


@pytest.mark.parametrize(("unit", "width", "meant"), [("cm", 45, "45 in"), ("in", 150, "150 cm"), ("cm", 60, "60 in"),
                                                      ("cm", 5000, ""), ("cm", 150, "")])  # fmt: skip
def test_what_was_likely_meant_is_read_without_that_problem(unit: Unit, width: float, meant: str) -> None:
    problems = facts(unit, width=width)[1]
    assert [each.instead for each in problems if each.field == "cloth.width"] == (
        [meant] if meant or width == 5000 else []
    )
    if meant:
        assert facts(unit, width=meant)[1] == ()


# ---- knit and woven ------------------------------------------------------------------------------------------------


def kind(takes: tuple[ClothKind, ...], **typed: object) -> tuple[ClothFacts | None, list[tuple[str, str]]]:
    found, problems = read_cloth(Cloth.model_validate({"width": 150} | typed), "cm", takes)
    return found, [(problem.code, problem.field) for problem in problems]


KNITTED = {"stretch_across": 40, "stretch_along": 20}


def test_a_knit_needs_its_stretch_and_woven_cloth_does_not() -> None:
    assert kind(("knit",))[1] == [
        ("percent_missing", "cloth.stretch_across"), ("percent_missing", "cloth.stretch_along")
    ]  # fmt: skip
    found, problems = kind(("woven",))
    assert problems == []
    assert found is not None
    assert (found.kind, found.across, found.along) == ("woven", 0.0, 0.0)
    knit, problems = kind(("knit",), **KNITTED)
    assert problems == []
    assert knit is not None
    assert (knit.kind, knit.across) == ("knit", 0.40)


def test_woven_cloth_is_read_as_if_nothing_stretched_and_all_came_back() -> None:
    found, problems = kind(("woven",), kind="woven", stretch_across=12, stretch_along=500, recovery="poor")
    assert problems == []
    assert found == kind(("woven",))[0]
    either, _ = kind(("knit", "woven"), kind="woven", **KNITTED)
    assert either is not None
    assert either.kind == "woven"


@pytest.mark.parametrize(
    ("takes", "typed", "said"),
    [
        (("knit",), {"kind": "woven"}, "this is woven cloth"),
        (("woven",), {"kind": "knit", **KNITTED}, "this is knitted cloth"),
        (("woven",), KNITTED, "so is knitted"),
        (("woven",), {"stretch_along": 1}, "so is knitted"),
    ],
)
def test_a_kind_that_the_garment_does_not_take_is_refused_at_its_field(
    takes: tuple[ClothKind, ...], typed: dict[str, object], said: str
) -> None:
    found, problems = read_cloth(Cloth.model_validate({"width": 150} | typed), "cm", takes)
    assert found is None
    told = next(problem for problem in problems if problem.code == "cloth_kind")
    assert (told.field, told.severity) == ("cloth.kind", "refuse")
    assert said in told.wrong
    assert "another garment" in told.fix
    assert KIND_WORDS[takes[0]] in told.fix


def test_cloth_of_which_no_stretch_was_said_is_what_the_garment_takes_first() -> None:
    for takes, expected in ((("woven", "knit"), "woven"), (("woven",), "woven")):
        found, _ = kind(takes, stretch_across=0)
        assert found is not None
        assert found.kind == expected
    knit, _ = kind(("woven", "knit"), **KNITTED)
    assert knit is not None
    assert knit.kind == "knit"
