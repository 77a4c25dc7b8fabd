"""What is true of every garment: each keeps every rule, in each of its cases, for every test body and many people.

Nothing here knows a garment. What only one garment has is tested in files of its own.
"""

from itertools import cycle
from typing import Any

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from drafting import checks
from drafting.garments import garments
from drafting.order import prepare, read_order
from tests.drafting import from_fields, garment_rules, rules
from tests.drafting.bodies import BODIES, Data, bdims, measured_for, order

GARMENTS = tuple(garments())
CASES = tuple((garment, case) for garment in GARMENTS for case in garments()[garment].cases)
#: The line and the tape that a draft is made for, in turn.
TAPES: tuple[Data, ...] = (
    {"unit": "cm", "step": "0.5"},
    {"unit": "in", "step": "1/8", "line": "stitch"},
    {"unit": "cm", "step": "0.1", "line": "both"},
    {"unit": "in", "step": "1/4"},
)


def keeps_every_rule(garment: str, person: Data, style: Data, cloth: Data, **more: Any) -> str:
    """What became of an order: refused in words, stopped by the ids of checks, or drafted, and then by every rule."""
    typed = order(measured_for(person, garment), style, cloth, garment=garment, **more)
    found, problems = read_order(typed)
    if found is None:
        assert all(problem.line() for problem in problems)
        return "refused"
    ready = prepare(found)[0]
    assert ready is not None
    draft = ready.set_out()
    judged = checks.judge(draft, "cm")
    stopped = " ".join(check.id for check in judged if check.result == "stop")
    if draft.refused:
        assert stopped, f"{draft.refused} refuses the draft, and no check says so"
        return stopped
    if stopped:
        return stopped  # never cut, so that it need not keep the rules
    try:
        rules.all_rules(draft)
        rules.sound(judged)
    except AssertionError as missed:
        raise AssertionError(f"{missed}\n{typed}") from missed
    return "drafted"


@pytest.mark.parametrize("rule", garment_rules.RULES, ids=lambda rule: rule.__name__)
@pytest.mark.parametrize("garment", GARMENTS)
def test_a_garment_is_whole(garment: str, rule: Any) -> None:
    rule(garments()[garment])


@pytest.mark.sampled(8)
@pytest.mark.parametrize(("garment", "case"), CASES)
def test_every_rule_holds_for_every_test_body(garment: str, case: str) -> None:
    chosen = garments()[garment].cases[case]
    found = [keeps_every_rule(garment, body, dict(chosen.style), dict(chosen.cloth)) for body in BODIES.values()]
    assert found.count("drafted") > len(found) / 2, found


@pytest.mark.sampled(4)
@pytest.mark.parametrize(("garment", "case"), CASES)
def test_every_rule_holds_in_cloth_that_shrinks_and_on_every_tape(garment: str, case: str) -> None:
    chosen = garments()[garment].cases[case]
    number = CASES.index((garment, case))
    shrinking = {**from_fields.GIVING, "shrink_across": 8, "shrink_along": 3, **chosen.cloth}
    people = list(BODIES.values())
    found = [
        keeps_every_rule(garment, people[(number + k) % 8], dict(chosen.style), shrinking, tape=TAPES[(number + k) % 4])
        for k in (0, 3, 4)  # a body of which a garment's measures were not taken is refused
    ]
    assert "drafted" in found, found


@pytest.mark.parametrize("garment", GARMENTS)
def test_whatever_a_field_offers_is_drafted_and_keeps_the_rules(garment: str) -> None:
    people = cycle(BODIES.items())
    for name, style in from_fields.each_choice(garments()[garment]):
        for _ in range(3):  # an option may be nothing for a child, or for one body
            body, person = next(people)
            if keeps_every_rule(garment, person, style, from_fields.GIVING) == "drafted":
                break
            shown = ({**case.style, **style} for case in garments()[garment].cases.values())
            if any(keeps_every_rule(garment, person, more, from_fields.GIVING) == "drafted" for more in shown):
                break  # it may be shown only where another choice is made
        else:
            pytest.fail(f"{name} is drafted neither for the {body} nor for two others")


@pytest.mark.parametrize("garment", GARMENTS)
def test_every_rule_holds_for_one_of_27_of_507_people_in_cloth_that_gives(garment: str) -> None:
    """Each in the next of the garment's cases. All people in all cases are tried with the long tests."""
    cases = list(garments()[garment].cases.values())
    found = []
    for index, person in enumerate(bdims()[::27]):
        case = cases[index % len(cases)]
        found.append(keeps_every_rule(garment, person, dict(case.style), {**from_fields.GIVING, **case.cloth}))
    assert found.count("drafted") >= 0.9 * len(found), found


@pytest.mark.long
@pytest.mark.parametrize(("garment", "case"), CASES)
def test_every_rule_holds_for_everybody_in_every_case(garment: str, case: str) -> None:
    chosen = garments()[garment].cases[case]
    cloth = {**from_fields.GIVING, **chosen.cloth}
    found = [keeps_every_rule(garment, person, dict(chosen.style), cloth) for person in bdims()]
    assert found.count("drafted") >= 0.9 * len(found)


def bodies() -> st.SearchStrategy[Data]:
    """A known body with each measure a little off."""

    @st.composite
    def near(draw: st.DrawFn) -> Data:
        person = BODIES[draw(st.sampled_from(sorted(BODIES)))]
        measures = {name: round(value * draw(st.floats(0.97, 1.03)), 2) for name, value in person["measures"].items()}
        return {**person, "measures": measures}

    return near()


cloths = st.fixed_dictionaries(
    {"width": st.floats(110, 240), "stretch_across": st.floats(30, 150), "stretch_along": st.floats(20, 120)},
    optional={"shrink_across": st.floats(0, 9), "shrink_along": st.floats(0, 9), "one_way": st.booleans()},
)


@pytest.mark.parametrize("garment", GARMENTS)
def test_whatever_is_chosen_from_the_fields_is_refused_stopped_or_keeps_the_rules(garment: str) -> None:
    tried: list[str] = []

    @given(bodies(), from_fields.styles(garment), cloths, st.sampled_from(TAPES))
    @settings(max_examples=30, phases=[Phase.generate])  # a long search for the smallest one would be no news
    def draft(person: Data, style: Data, cloth: Data, tape: Data) -> None:
        tried.append(keeps_every_rule(garment, person, style, cloth, tape=tape))

    draft()
    assert tried.count("drafted") >= 0.4 * len(tried), f"only {tried.count('drafted')} of {len(tried)} were drafted"
