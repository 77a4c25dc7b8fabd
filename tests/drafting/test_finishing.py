"""What finishes the edges: walking and slits, an opening at the back, a slanted neck, allowances that curves limit."""

import math
from dataclasses import replace

import pytest

from drafting.contract.judging import Words
from drafting.contract.set_out import SetOut
from drafting.garments.cut_in_one.checks import waist_ease
from drafting.parts.walking import walking_girth
from drafting.person.measures import Body
from tests.drafting.bodies import BODIES, KNIT, Data, set_out

WOMAN = BODIES["median woman"]


def body(kind: str, stature: float) -> Body:
    measures = {**BODIES["child of 6"]["measures"], "stature": stature}
    person = {"kind": kind, "measures": {"stature": stature, "bust_girth": 0.55 * stature}}
    if kind == "child":
        person = {"kind": kind, "age": 6, "measures": {**measures, "stature": stature}}
    found = set_out(person)
    return found.body


def moved(found: SetOut, key: str) -> tuple[float, float] | None:
    return next(((a.before, a.after) for a in found.adjusted if a.key == key), None)


def allowance(found: SetOut, edge: str) -> float:
    return next(e.allowance for e in found.pieces[0].edges if e.name == edge)


# --- Walking ---------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("share", "girth"),
    [(0.374, 90), (0.281, 99), (0.163, 129), (0.045, 142)],
)
def test_a_grown_womans_walking_hem(share: float, girth: float) -> None:
    # Mid-thigh, knee, mid-calf and ankle at 163 cm, reckoned by hand from a step of 0.41 of the stature.
    woman = body("woman", 163)
    assert walking_girth(woman, share * 1630) / 10 == pytest.approx(girth, abs=1.6)
    assert walking_girth(woman, 0.53 * 1630 + 0.1) == 0
    assert walking_girth(woman, 0.53 * 1630 - 0.1) > 400


def test_a_childs_step_is_longer_for_its_stature() -> None:
    # From memory: a child steps 0.48 of its stature, and its hips stand at 0.49 of it.
    child = body("child", 117)
    share = 0.281
    expected = (2 * 0.48 * (0.49 - share) / 0.49 + 0.221) * 1170
    assert walking_girth(child, share * 1170) == pytest.approx(expected, abs=0.5)
    assert walking_girth(child, 0.49 * 1170 + 0.1) == 0
    assert walking_girth(child, 0.49 * 1170 - 0.1) > 300


@pytest.mark.parametrize("stretch", [20, 60])
def test_a_slit_ends_two_centimetres_above_the_level_that_is_wide_enough(stretch: int) -> None:
    cloth = {**KNIT, "stretch_across": stretch}
    found = set_out(WOMAN, {"length": "ankle", "fit": "close"}, cloth)
    slit = found.facts["slit"]
    assert slit == found.facts["slit_needed"] > 100
    # The straight side has one width, so the level is where a step needs just that; half the stretch helps (handbook).
    hem, waist = found.facts["hem_girth"], found.body.waist_height
    bottom = found.choices.length - (found.body.back_neck_point_to_waist + 20)  # below the waist
    wide_enough = [
        height
        for height in range(0, 900)
        if walking_girth(found.body, waist - bottom + height) <= hem * (1 + stretch / 200)
    ]
    assert slit == pytest.approx(wide_enough[0] + 20, abs=6)


def test_a_slit_ends_at_the_hip() -> None:
    found = set_out(WOMAN, {"length": "ankle", "slit": "900 mm"}, KNIT)
    below_hip = found.choices.length - (found.body.back_neck_point_to_waist + 20 + found.body.waist_to_hip)
    told = moved(found, "slit")
    assert told is not None
    assert told[0] == 900
    assert told[1] == pytest.approx(below_hip, abs=1.0)


# --- An opening at the back ------------------------------------------------------------------------------------------


@pytest.mark.parametrize("stretch", [5, 10, 20])
def test_an_opening_of_a_scooped_neck_is_just_long_enough(stretch: int) -> None:
    style = {"neck_height": 0, "neck_opening": "centre_back", "neck_half_width": "65 mm"}
    person = {"kind": "woman", "measures": {**WOMAN["measures"], "head_girth": 60}}
    cloth = {**KNIT, "stretch_across": stretch}
    found = set_out(person, style, cloth, tape={"unit": "cm", "step": "0.1"})
    opened = found.facts["opening"]
    assert opened > 20
    # Both edges of the slit lengthen the ring (CALC); 1 cm more than the head, through 0.8 of the stretch.
    assert found.facts["head_ring"] == pytest.approx(found.facts["neck_ring"] + 2 * opened)
    needed = (600 + 10) / (1 + 0.8 * stretch / 100)
    # Its end is a whole reading of the tape, so the ring has up to a millimetre on either edge more.
    assert needed - 1e-6 <= found.facts["head_ring"] < needed + 2.1


# --- A slanted neck --------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("lean", [0, 8])
def test_a_slanted_edge_slants_by_the_angle_that_was_asked_for(lean: int) -> None:
    found = set_out(WOMAN, {"neck_slant": 6, "neck_lean": lean, "neck_height": "120 mm"}, KNIT)
    _, high_in, low_in, _ = found.pieces[0].trim
    assert moved(found, "neck_slant") is None
    angle = math.degrees(math.atan2(low_in.y - high_in.y, abs(low_in.x - high_in.x)))
    assert angle == pytest.approx(6, abs=0.1)


@pytest.mark.parametrize("lean", [0, 12])
def test_the_low_side_of_a_slant_keeps_a_straight_end(lean: int) -> None:
    found = set_out(WOMAN, {"neck_slant": 12, "neck_height": "50 mm", "neck_lean": lean}, KNIT)
    told = moved(found, "neck_slant")
    assert told is not None
    assert told[0] == pytest.approx(12)
    _, high_in, low_in, _ = found.pieces[0].trim
    assert told[1] == pytest.approx(
        math.degrees(math.atan2(low_in.y - high_in.y, abs(low_in.x - high_in.x))), abs=0.005
    )


# --- Allowances that curves limit ------------------------------------------------------------------------------------


def test_allowances_that_fit_are_left_alone() -> None:
    style: Data = {"allowances": {"shoulder": "8 mm", "side": "12 mm", "hem": "30 mm", "sleeve_end": "18 mm"}}
    found = set_out(WOMAN, style, KNIT)
    assert {name: allowance(found, name) for name in ("shoulder", "side", "hem", "sleeve_end")} == {
        "shoulder": 8.0,
        "side": 12.0,
        "hem": 30.0,
        "sleeve_end": 18.0,
    }
    assert not [a for a in found.adjusted if a.key.startswith("allowances.")]


def test_the_side_takes_no_more_than_the_underarm_curve_less_two_centimetres() -> None:
    child = BODIES["child of 6"]
    found = set_out(child, {"allowances": {"side": "60 mm"}}, KNIT)
    told = moved(found, "allowances.side")
    assert told is not None
    assert told[1] == pytest.approx(found.facts["underarm_radius"] - 20, abs=0.2)
    assert allowance(found, "side") == pytest.approx(told[1])
    for more, limited in ((-0.5, False), (0.5, True)):
        near = set_out(child, {"allowances": {"side": f"{told[1] + more:.2f} mm"}}, KNIT)
        assert (moved(near, "allowances.side") is not None) == limited


def test_the_side_takes_no_more_than_its_hollow_less_one_centimetre() -> None:
    person = {"kind": "woman", "measures": {"stature": 164, "bust_girth": 92, "waist_girth": 66, "hip_girth": 104}}
    style = {"fit": "close", "ease_waist": "0 cm", "allowances": {"side": "60 mm"}}
    found = set_out(person, style, KNIT)
    told = moved(found, "allowances.side")
    assert told is not None
    side = next(e.stitch for e in found.pieces[0].edges if e.name == "side")
    waist = found.pieces[0].level("waist")
    tightest, at = math.inf, 0.0
    while at + 1 < side.length():  # the radius of the stitch line from the turn of its tangent over a millimetre
        (here, begins), (_, ends) = side.at_length(at), side.at_length(at + 1)
        turn = abs(math.atan2(begins.cross(ends), begins.dot(ends)))
        if abs(here.y - waist) < 100:
            tightest = min(tightest, 1 / max(turn, 1e-9))
        at += 1
    assert told[1] == pytest.approx(tightest - 10, abs=1.0)


def test_a_hem_of_the_sleeve_keeps_off_the_bend_by_what_the_side_takes() -> None:
    ends = {}
    for side in (10, 20):
        style = {"flare": "bell", "allowances": {"side": f"{side} mm", "sleeve_end": "60 mm"}, "narrowest_at": 0.7}
        found = set_out(BODIES["child of 6"], style, KNIT)
        told = [a.after for a in found.adjusted if a.key == "allowances.sleeve_end"]
        ends[side] = told[0]
    assert ends[10] - ends[20] == pytest.approx(10, abs=0.5)


def test_the_shoulder_takes_no_more_than_the_curve_out_of_the_neck_less_one_centimetre() -> None:
    found = set_out(WOMAN, {"allowances": {"shoulder": "60 mm"}}, KNIT)
    told = moved(found, "allowances.shoulder")
    assert told is not None
    more = set_out(WOMAN, {"allowances": {"shoulder": f"{told[1] + 0.5:.1f} mm"}}, KNIT)
    less = set_out(WOMAN, {"allowances": {"shoulder": f"{told[1] - 0.5:.1f} mm"}}, KNIT)
    assert moved(more, "allowances.shoulder") is not None
    assert moved(less, "allowances.shoulder") is None
    # The cut edge of the curve keeps a radius of 1 cm: what shears follow.
    assert found.facts["column_radius"] - told[1] == pytest.approx(10, abs=0.5)


# --- What is told of the finished garment ----------------------------------------------------------------------------


@pytest.mark.parametrize(
    "style", [{}, {"length": "hip", "sleeve_length": "30 cm"}, {"length": "ankle", "body": "flared"}]
)
def test_the_finished_lengths_are_those_of_the_outline(style: Data) -> None:
    found = set_out(WOMAN, {**style, "overarm_angle": 0}, KNIT)
    told = {figure.at: figure.value for figure in found.figures}
    front = found.pieces[0]
    hem = next(e for e in front.edges if e.name == "hem").stitch.flatten(0.05)
    lowest = max(point.y for point in hem)
    assert told["length"] == pytest.approx(lowest - front.level("side_neck"), abs=0.05)
    # A level sleeve ends as far across as the shoulder point and its length.
    end = next(e for e in front.edges if e.name == "sleeve_end").stitch.flatten(0.05)
    reach = max(point.x for point in end) - found.points["shoulder_point"].x
    assert told["sleeve"] == pytest.approx(reach, abs=1.0)


@pytest.mark.parametrize(("left", "result"), [(4.9, None), (5.0, "pass"), (150.0, "pass"), (150.1, "warn")])
def test_ease_left_in_a_waist_is_told_from_half_a_centimetre_on(left: float, result: str | None) -> None:
    made = set_out(WOMAN, {}, KNIT)
    found = waist_ease.judge(replace(made, facts={**made.facts, "waist_ease_left": left}), Words("cm"))
    assert (None if found is None else found.result) == result
