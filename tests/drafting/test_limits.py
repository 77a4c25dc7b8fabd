"""Each limit on both sides: drafts whose figures are set by hand a hair inside and a millimetre outside.

The limits are written out here from the set-out's rules, never taken from the code: passing takes 80 % of the stretch,
a head needs 1 cm, a hand 2 cm; a step needs its slit.
"""

import re
from dataclasses import replace

import pytest

from drafting import sources
from drafting.checks import judge
from drafting.contract.judging import Words, length_of
from drafting.contract.set_out import SetOut
from drafting.garments.cut_in_one.checks import hand_passes_sleeve as hand
from drafting.garments.cut_in_one.checks import head_passes_neck as head
from drafting.garments.cut_in_one.checks import sleeve_gap as gap
from drafting.garments.cut_in_one.checks import underarm_radius as radius
from drafting.parts.checks import hem_passes as hem
from drafting.parts.checks import stride
from drafting.parts.checks import waist_passes as waist
from drafting.parts.top import BodyAsked
from drafting.parts.widths import through_hem
from drafting.problems import Check
from drafting.units import Unit
from tests.drafting.bodies import BODIES, draft, order

CM = Words("cm")


@pytest.fixture(scope="module")
def made() -> SetOut:
    return draft(BODIES["median woman"], {}, {"width": "180 cm", "stretch_across": 50, "stretch_along": 25}).draft


def told(check: Check | None) -> Check:
    assert check is not None
    return check


def with_facts(found: SetOut, **facts: float) -> SetOut:
    return replace(found, facts={**found.facts, **facts})


def test_the_neck_opens_a_centimetre_wider_than_the_head(made: SetOut) -> None:
    needed = (made.body.head_girth + 10.0) / 1.4  # 80 % of 50 %
    for ring, result in ((needed + 0.2, "pass"), (needed - 1.0, "stop")):
        found = told(head.judge(with_facts(made, head_ring=ring), CM))
        assert found.result == result
        assert found.limit == pytest.approx(made.body.head_girth + 10.0)
        assert found.value == pytest.approx(ring * 1.4)
    assert "too narrow" in found.says
    assert CM(1.4) in found.says


def test_a_hand_needs_two_centimetres(made: SetOut) -> None:
    needed = (made.body.hand_girth + 20.0) / 1.2  # 80 % of 25 %
    for ring, result in ((needed + 0.2, "pass"), (needed - 1.0, "stop")):
        found = told(hand.judge(with_facts(made, sleeve_passing=ring, stretch_round_sleeve=0.25), CM))
        assert found.result == result
        assert found.limit == pytest.approx(made.body.hand_girth + 20.0)
    assert "too narrow for the hand" in found.says


@pytest.mark.parametrize("short", [0.4, 0.6, 5.0, 50.0])
def test_a_slit_that_is_too_short_warns(short: float, made: SetOut) -> None:
    facts = {"hem_girth": 800.0, "walking_girth": 900.0, "slit_needed": 300.0}
    found = told(stride.judge(with_facts(made, **facts, slit=300.0 - short), CM))
    assert found.result == ("pass" if short < 0.5 else "warn")
    assert ("too narrow for a step" in found.says) == (found.result == "warn")
    assert CM(100.0) in found.says or found.result == "pass"


def test_no_slit_is_asked_for_where_none_is_needed(made: SetOut) -> None:
    found = told(stride.judge(with_facts(made, slit_needed=0.0, slit=0.0), CM))
    assert found.result == "pass"
    assert "wide enough" in found.says


@pytest.mark.parametrize("which", ["hem", "waist"])
def test_hem_and_waist_pass_what_goes_through_them(which: str, made: SetOut) -> None:
    module, fact = (hem, "hem_chalked") if which == "hem" else (waist, "waist_chalked")
    limit = told(module.judge(made, CM)).limit
    assert limit is not None
    body = max(made.body.bust_girth, made.body.upper_chest_girth) if which == "waist" else made.facts["through_hem"]
    assert limit > body
    for girth, result in ((limit / 1.4 + 0.2, "pass"), (limit / 1.4 - 1.0, "stop")):
        found = told(module.judge(with_facts(made, **{fact: girth}), CM))
        assert found.result == result
    assert "too narrow" in found.says


def test_two_centimetres_lie_between_sleeve_and_body(made: SetOut) -> None:
    for between, result in ((20.0, "pass"), (19.0, "stop"), (5.0, "stop"), (-3.0, "stop")):
        assert told(gap.judge(with_facts(made, cap=0.0, gap=between), CM)).result == result


def test_both_allowances_lie_between_sleeve_and_body(made: SetOut) -> None:
    """A wider side allowance narrows the gap on the sleeve and on the body, so by more than once its growth."""
    style = {"flare": "wide", "overarm_angle": 20}
    gaps = []
    for side in ("10 mm", "20 mm"):
        cloth = {"width": "180 cm", "stretch_across": 50, "stretch_along": 25}
        found = draft(BODIES["median woman"], {**style, "allowances": {"side": side}}, cloth).draft
        gaps.append(found.facts["gap"])
    assert gaps[0] - gaps[1] > 15.0


@pytest.mark.parametrize(("value", "result"), [(650.0, "stop"), (0.0, "stop")])
def test_a_way_out_of_a_narrow_neck_is_wide_enough(value: float, result: str, made: SetOut) -> None:
    tight = with_facts(made, head_ring=value / 2)
    assert told(head.judge(tight, CM)).result == result
    half = next(
        way for way in head.WAYS if way.key == "style.neck_half_width" and "worked out" not in way.says(0.0, CM)
    )
    first, second = (length_of(one) for one in half.values(tight))
    assert 4 * first * 1.4 >= made.body.head_girth + 10.0
    step = 5.0  # of the tape
    assert 4 * (first - step) * 1.4 < made.body.head_girth + 10.0, "the neck is four quarters, no more than is needed"
    assert 4 * (second - step - 0.1) * 1.4 < made.body.head_girth + 10.0 <= 4 * second * 1.4


@pytest.mark.parametrize("slope", [0.0, 6.0])
def test_a_slanted_edge_falls_to_the_side_that_was_asked_for(slope: float) -> None:
    style = {"neck_slant": 8, "neck_slant_side": "left", "neck_lean": slope}
    found = draft(BODIES["median woman"], style, {"width": "180 cm", "stretch_across": 80, "stretch_along": 40}).draft
    piece = found.pieces[0]
    assert piece.trim_side == "left"
    high, high_in, low_in, low = piece.trim
    assert high.x < high_in.x < low_in.x < low.x
    assert low.y > high.y, "down is positive, and the last point is on the low side"
    sewn = next(edge for edge in piece.edges if edge.name == "neck_top").stitch.end.x
    assert max(abs(high_in.x), abs(low_in.x)) < sewn < abs(high.x), "the ends run square beyond the stitching"
    fall, lies = low.y - high.y, high_in.y - high.y
    assert fall > 0
    assert (lies < -0.1) == (slope > 0), "the ends run square to a side that leans"
    assert (abs(low.x) < abs(high.x) - 0.1) == (slope > 0), "lower down a leaning neck stand is wider or narrower"


def test_the_effect_of_rounding_says_larger_and_smaller() -> None:
    from drafting.order import make, read_order, rounding_effect

    typed, _ = read_order(
        order(BODIES["median woman"], {}, {"width": "180 cm", "stretch_across": 60, "stretch_along": 40})
    )
    assert typed is not None
    girth = make(typed, with_ways_out=False).girths[0]
    for change, word in ((6.0, "larger"), (-6.0, "smaller")):
        moved = replace(girth, after_rounding=girth.girth + change)
        says = rounding_effect((moved,), typed).says
        assert f"0.6 cm {word}" in says
    assert (
        "no girth enough to be seen" in rounding_effect((replace(girth, after_rounding=girth.girth + 0.4),), typed).says
    )


def test_a_draft_that_passes_is_judged_whole(made: SetOut) -> None:
    assert {"head_passes_neck", "hand_passes_sleeve", "stride", "sleeve_gap"} <= {
        check.id for check in judge(made, "cm")
    }


@pytest.mark.parametrize(("unit", "step", "slack"), [("cm", "0.5", "0.5"), ("in", "1/8", "¼")])
def test_a_proof_length_may_be_off_by_half_a_centimetre(unit: str, step: str, slack: str) -> None:
    cloth = {"width": "180 cm", "stretch_across": 50, "stretch_along": 40}
    result = draft(BODIES["median woman"], {}, cloth, tape={"unit": unit, "step": step})
    assert result.plan is not None
    says = next(step.says for step in result.plan.steps if step.title == "Proof lengths")
    assert f"off by more than {slack} means" in says


@pytest.mark.outside
def test_a_clip_runs_from_the_cutting_line_to_the_stitching_line(made: SetOut) -> None:
    from tests.drafting import rules

    for piece in made.pieces:
        assert piece.clips
        rules.anchors_and_levels(piece)


@pytest.mark.parametrize(
    ("unit", "limit", "value", "reads"),
    [
        ("in", 82.0, 81.5, "3⅜ in"),
        ("in", 82.0, 79.0, "3¼ in"),
        ("cm", 80.04, 79.96, "8.1 cm"),
        ("cm", 80.0, 79.0, "8 cm"),
    ],
)
def test_what_is_needed_never_reads_like_what_is_there(unit: Unit, limit: float, value: float, reads: str) -> None:
    assert Words(unit).needed(limit, value) == reads


def test_a_curve_a_hair_too_tight_is_told_apart_from_what_is_better(made: SetOut) -> None:
    limit = 0.05 * made.body.stature  # set-out.md, "Underarm": warned under 5 % of the stature
    near = replace(made, facts=made.facts | {"underarm_radius": limit - 0.4})
    tight = told(radius.judge(near, Words("in")))
    assert tight.result == "warn"
    found = re.search(r"\((.+) in radius; (.+) in is better\)", tight.says)
    assert found is not None
    assert found[1] != found[2]


@pytest.mark.parametrize(("over", "result"), [(-0.4, "stop"), (0.4, "warn")])
def test_an_underarm_curve_can_be_sewn_where_it_is_20_mm_rounder_than_its_allowance(
    made: SetOut, over: float, result: str
) -> None:
    limit = made.facts["side_allowance"] + 20.0  # set-out.md, "Underarm"
    near = replace(made, facts=made.facts | {"underarm_radius": limit + over})
    assert told(radius.judge(near, Words("cm"))).result == result


@pytest.mark.parametrize(("over", "hips"), [(-1.0, False), (1.0, True), (30.0, True)])
def test_hips_go_through_a_hem_that_lies_below_them(made: SetOut, over: float, hips: bool) -> None:
    wide = replace(made.body, hip_girth=1100.0, bust_girth=900.0)
    hip = wide.back_neck_point_to_waist + sources.NAPE_ABOVE_SIDE_NECK + wide.waist_to_hip
    choices = BodyAsked(False, "straight", hip + over, None, None, None, None)
    assert through_hem(wide, choices) == (1100.0 if hips else 900.0)
