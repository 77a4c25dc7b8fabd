"""Whatever measures, style and cloth are put together: plain problems, or a draft that keeps the rules.

Never an exception.
"""

import math
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from drafting import checks
from drafting.order import make, prepare, read_order
from drafting.person.measures import MEASURES
from drafting.record.documents import draft_json
from tests.drafting.bodies import BODIES, MEDIAN_WOMAN, Data

#: The median woman's lengths as shares of her stature: bodies grow from these, each measure by its own factor.
SHARES = {name: value / MEDIAN_WOMAN["stature"] for name, value in MEDIAN_WOMAN.items() if name != "stature"}


@st.composite
def likely(draw: st.DrawFn) -> Data:
    """A person whose measures lie about those of somebody so tall, each up to a third off."""
    stature = draw(st.floats(80, 205))
    kind = draw(st.sampled_from(["woman", "man", "child"]))
    girth = draw(st.floats(0.8, 1.5))
    measures = {"stature": round(stature, 1)}
    for name, share in SHARES.items():
        if kind == "child" and name == "upper_chest_girth":
            continue
        if kind == "child" or name == "bust_girth" or draw(st.booleans()):
            wide = (
                girth
                if name in {"bust_girth", "upper_chest_girth", "waist_girth", "hip_girth", "upper_arm_girth"}
                else 1
            )
            low, high = (limit / 10 for limit in MEASURES[name].limit)
            value = share * stature * wide * draw(st.floats(0.75, 1.33))
            measures[name] = round(min(max(value, low), high), 2)
    return {"kind": kind, "age": draw(st.integers(1, 17)) if kind == "child" else None, "measures": measures}


@st.composite
def anybody(draw: st.DrawFn) -> Data:
    """Any measures inside their limits, however little they go together."""
    kind = draw(st.sampled_from(["woman", "man", "child"]))
    measures = {}
    for name, measure in MEASURES.items():
        if measure.required(kind) or draw(st.booleans()):
            low, high = measure.limit
            measures[name] = round(draw(st.floats(low / 10, high / 10)), 2)
    return {"kind": kind, "age": draw(st.integers(1, 17)) if kind == "child" else None, "measures": measures}


def centimetres(low: float, high: float) -> st.SearchStrategy[float]:
    return st.floats(low, high).map(lambda value: round(value, 2))


STYLE: dict[str, st.SearchStrategy[Any]] = {
    "fit": st.sampled_from(["regular", "close", "loose"]),
    "neck_height": centimetres(0, 40),
    "neck_layers": st.sampled_from(["single", "folded"]),
    "neck_half_width": st.one_of(st.just("auto"), centimetres(4, 25)),
    "neck_lean": st.floats(0, 15),
    "neck_slant": st.floats(0, 12),
    "neck_slant_side": st.sampled_from(["left", "right"]),
    "neck_opening": st.sampled_from(["none", "centre_back"]),
    "shoulder_slope": st.floats(12, 28),
    "shoulder_drop": centimetres(2, 8),
    "overarm_angle": st.floats(0, 30),
    "sleeve_length": st.one_of(st.sampled_from(["wrist", "elbow"]), centimetres(5, 70)),
    "narrowest_at": st.one_of(st.floats(0.35, 0.7), st.just(1)),
    "narrowest_girth": st.one_of(st.just("auto"), centimetres(8, 60)),
    "flare": st.one_of(st.sampled_from(["none", "slight", "bell", "wide"]), centimetres(12, 250)),
    "underarm": st.sampled_from(["regular", "deep"]),
    "underarm_above_waist": centimetres(0, 30),
    "body": st.sampled_from(["straight", "flared", "pegged"]),
    "hem_girth": st.one_of(st.just("auto"), centimetres(40, 400)),
    "length": st.one_of(st.sampled_from(["knee", "hip", "mid_thigh", "mid_calf", "ankle"]), centimetres(40, 150)),
    "ease_bust": st.one_of(st.just("auto"), centimetres(-20, 60).map(str)),
    "ease_waist": st.one_of(st.just("auto"), centimetres(-20, 60).map(str)),
    "ease_hip": st.one_of(st.just("auto"), centimetres(-20, 60).map(str)),
    "slit": st.one_of(st.sampled_from(["auto", "none"]), centimetres(1, 90)),
    "allowances": st.fixed_dictionaries(
        {}, optional={name: centimetres(0.3, 6) for name in ("shoulder", "side", "hem", "sleeve_end", "neck_top")}
    ),
}


@st.composite
def styles(draw: st.DrawFn) -> Data:
    """At most six choices of our own, so that many orders are drafted and not refused."""
    keys = draw(st.lists(st.sampled_from(sorted(STYLE)), max_size=6, unique=True))
    return {key: draw(STYLE[key]) for key in keys}


cloths = st.fixed_dictionaries(
    {
        "width": centimetres(90, 240),
        "stretch_across": st.floats(0, 150),
        "stretch_along": st.floats(0, 120),
    },
    optional={
        "length": centimetres(100, 600),
        "selvage": centimetres(0, 5),
        "shrink_across": st.floats(0, 12),
        "shrink_along": st.floats(0, 12),
        "recovery": st.sampled_from(["good", "fair", "poor"]),
    },
)


#: Cloth that a garment pulled over the head is made of: the rules of a draft are tried on what is not stopped.
knits = st.fixed_dictionaries(
    {"width": centimetres(140, 240), "stretch_across": st.floats(50, 150), "stretch_along": st.floats(40, 120)},
    optional={"shrink_across": st.floats(0, 12), "shrink_along": st.floats(0, 12)},
)


@st.composite
def sound(draw: st.DrawFn) -> Data:
    """An order that is likely to be drafted: a known body, each girth a little off, and at most three choices."""
    person = BODIES[draw(st.sampled_from(sorted(BODIES)))]
    measures = {name: round(value * draw(st.floats(0.98, 1.02)), 2) for name, value in person["measures"].items()}
    keys = draw(st.lists(st.sampled_from(MILD), max_size=3, unique=True))
    style = {key: draw(STYLE[key]) for key in keys}
    return {"person": {"name": "", "unit": "cm", **person, "measures": measures}, "style": style, "cloth": draw(knits)}


#: Choices that seldom stop a draft by themselves.
MILD = (
    "allowances", "body", "fit", "neck_lean", "neck_opening", "neck_slant", "neck_slant_side", "overarm_angle",
    "shoulder_drop", "shoulder_slope", "sleeve_length", "underarm",
)  # fmt: skip


def orders(people: st.SearchStrategy[Data]) -> st.SearchStrategy[Data]:
    return st.builds(
        lambda person, style, cloth: {"person": {"name": "", "unit": "cm", **person}, "style": style, "cloth": cloth},
        people,
        styles(),
        cloths,
    )


known = st.sampled_from(sorted(BODIES)).map(lambda name: BODIES[name])


def in_plain_words(typed: Data) -> None:
    """Each refusal names its field and says what to do."""
    _, problems = read_order(typed)
    assert any(problem.severity == "refuse" for problem in problems)
    for problem in problems:
        assert problem.field
        assert problem.wrong
        assert problem.fix
        assert not any(word in problem.line().lower() for word in ("invalid", "error", "null", "!", "nan"))


@given(orders(st.one_of(known, likely(), anybody())))
@settings(max_examples=120)
def test_an_order_gives_problems_or_a_result_and_never_an_exception(typed: Data) -> None:
    order, _ = read_order(typed)
    if order is None:
        in_plain_words(typed)
        return
    result = make(order, with_ways_out=False)
    assert (result.plan is None) == (result.outcome == "stop")
    assert draft_json(result).startswith(b"{")
    for check in result.checks:
        assert check.value is None or math.isfinite(check.value)
    for girth in result.girths:
        assert 0 < girth.girth < 6000
        assert result.plan is None or abs(girth.after_rounding - girth.girth) < 60


def judged_by_the_rules(typed: Data) -> bool:
    """Keeps every rule, or is stopped; whether it got as far as the rules."""
    from tests.drafting import rules

    order, _ = read_order(typed)
    ready = prepare(order)[0] if order is not None else None
    if ready is None:
        return False
    draft = ready.set_out()
    judged = checks.judge(draft, "cm")
    stopped = any(check.result == "stop" for check in judged)
    if draft.refused:
        assert stopped
    if stopped:
        return False
    # What is stopped is never cut; all else keeps every rule.
    rules.all_rules(draft)
    rules.sound(judged)
    return True


@pytest.mark.outside
def test_whatever_is_drafted_keeps_the_rules() -> None:
    judged: list[bool] = []

    @given(sound())
    @settings(max_examples=100)
    def tried(typed: Data) -> None:
        judged.append(judged_by_the_rules(typed))

    tried()
    assert len(judged) >= 100
    assert sum(judged) >= 0.7 * len(judged), f"only {sum(judged)} of {len(judged)} orders reached the rules"


@pytest.mark.outside
@given(orders(st.one_of(known, likely())))
@settings(max_examples=150)
def test_orders_of_every_kind_are_refused_stopped_or_keep_the_rules(typed: Data) -> None:
    judged_by_the_rules(typed)


@pytest.mark.outside
@given(orders(anybody()))
@settings(max_examples=150)
def test_measures_that_do_not_go_together_are_stopped_or_keep_the_rules(typed: Data) -> None:
    judged_by_the_rules(typed)
