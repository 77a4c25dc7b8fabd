"""`leggings`: the figures beside the reference, each limit on both sides, seat and inner leg, what holds them, words.

The reference woman and man have the medians of 350 women and 100 men of the 1988 US Army survey. Their figures were
worked out apart from the code, in a sketch of the rules; they are met within 0.3 cm, and where not the test says why.
"""

import math
from dataclasses import replace
from functools import cache
from itertools import pairwise
from typing import Any

import pytest

from drafting.contract.judging import Words
from drafting.contract.set_out import SetOut
from drafting.garments import garments
from drafting.garments.leggings.checks import gives_enough
from drafting.geometry.point import Point
from drafting.order import Result, make, read_order
from drafting.parts.checks import caution_opaque, caution_trailing_hem, crotch_level, foot_passes, leg_sits, thigh_room
from drafting.parts.legs.edges import seat_edge, smooth_down, tightest
from drafting.problems import Check
from tests.drafting import bodies
from tests.drafting.bodies import BODIES, Data, bdims, measured_for
from tests.drafting.sewn import Sewn

GARMENT = garments()["leggings"]
CM = Words("cm")
FINE: Data = {"unit": "cm", "step": "0.1"}
JERSEY: Data = {"stretch_across": 50, "stretch_along": 20}
# Thighs of 57.6 and 60.2 are what the knees of the reference, 32.4 and 33.9, come to: 0.625 of 0.9 of them.
WOMAN: Data = {
    "kind": "woman",
    "measures": {
        "stature": 162.9, "waist_girth": 71.9, "hip_girth": 96.7, "waist_to_hip": 21.9, "waist_height": 105.7,
        "knee_height": 46.0, "thigh_girth": 57.6,
    },
}  # fmt: skip
MAN: Data = {
    "kind": "man",
    "measures": {
        "stature": 176.3, "waist_girth": 84.6, "hip_girth": 99.5, "waist_to_hip": 23.9, "waist_height": 112.8,
        "knee_height": 50.7, "thigh_girth": 60.2,
    },
}  # fmt: skip
CHILD: Data = {"kind": "child", "age": 6, "measures": {"stature": 117, "waist_girth": 53, "hip_girth": 64}}


def draft(person: Data, style: Data | None = None, cloth: Data | None = None, **more: Any) -> Result:
    return bodies.draft(person, style, {**JERSEY, **(cloth or {})}, garment="leggings", **more)


def set_out(person: Data, style: Data | None = None, cloth: Data | None = None, **more: Any) -> SetOut:
    return bodies.set_out(person, style, {**JERSEY, **(cloth or {})}, garment="leggings", **more)


def proven(person: Data, style: Data | None = None, cloth: Data | None = None) -> dict[str, Check]:
    """The checks of a draft by their ids, with the ways out that were drafted."""
    order = bodies.read(bodies.order(person, style, {**JERSEY, **(cloth or {})}, garment="leggings"))
    return {check.id: check for check in make(order).checks}


def person_with(person: Data = WOMAN, **measures: float) -> Data:
    return {**person, "measures": {**person["measures"], **measures}}


@cache
def plain() -> SetOut:
    return set_out(WOMAN)


def with_facts(**facts: float) -> SetOut:
    return replace(plain(), facts={**plain().facts, **facts})


def with_body(**measures: float) -> SetOut:
    return replace(plain(), body=replace(plain().body, **measures))


def told(check: Check | None) -> Check:
    assert check is not None
    return check


def girth(found: SetOut, at: str) -> float:
    return next(one.girth for one in found.girths if one.at == at) / 10


def figure(found: SetOut, at: str) -> float:
    return next(one.value for one in found.figures if one.at == at) / 10


def offered(check: Check) -> set[tuple[tuple[str, Any], ...]]:
    return {way.changes for way in check.ways_out}


# ---- the reference ---------------------------------------------------------------------------------------------------

REFERENCE = {
    "woman": (WOMAN, {"hip": 87.0, "across": 77.0, "front": 2.5, "back": 5.8, "thigh": 51.8, "knee": 32.4, "hem": 22.8,
                      "seat": 66.4, "inner": 71.3, "front_x": 23.6, "front_y": 28.5, "back_x": 28.2, "back_y": 29.8}),
    "man": (MAN, {"hip": 89.5, "across": 80.3, "front": 2.8, "back": 6.6, "thigh": 54.2, "knee": 33.9, "hem": 25.1,
                  "seat": 67.3, "inner": 77.5}),
}  # fmt: skip


@pytest.mark.parametrize("who", REFERENCE)
def test_leggings_to_the_ankle_have_the_figures_of_the_reference(who: str) -> None:
    """The waist edge of the reference is measured straight across; along its curve it is 1 to 2 longer."""
    person, wanted = REFERENCE[who]
    found = set_out(person, tape=FINE)
    front, back = found.points["front_crotch"], found.points["back_crotch"]
    half = girth(found, "hip") / 2
    have = {
        "hip": girth(found, "hip"),
        "across": 2 * (found.points["back_waist"].x - found.points["front_waist"].x) / 10,
        "front": -front.x / 10 - 0.485 * half,
        "back": back.x / 10 - 0.515 * half,
        "thigh": girth(found, "thigh"),
        "knee": girth(found, "knee"),
        "hem": girth(found, "hem"),
        "seat": figure(found, "seat"),
        "inner": figure(found, "inner_leg"),
        "front_x": -front.x / 10,
        "front_y": front.y / 10,
        "back_x": back.x / 10,
        "back_y": back.y / 10,
    }
    for name, value in wanted.items():
        assert have[name] == pytest.approx(value, abs=0.3), name
    assert girth(found, "waist_seam") == pytest.approx(have["across"] + 1.4, abs=0.6)
    assert not found.adjusted


def test_the_halves_of_the_reference_woman_at_knee_and_ankle() -> None:
    """15.7 and 16.7 at the knee, 11.2 and 11.7 at the ankle."""
    found = set_out(WOMAN, tape=FINE)
    assert -found.points["front_hem"].x / 10 == pytest.approx(11.2, abs=0.1)
    assert found.points["back_hem"].x / 10 == pytest.approx(11.7, abs=0.1)
    leg = found.pieces[0]
    side = next(guide for guide in leg.guides if guide.id == "side_line").line[0].x
    knees = {notch.seam: abs(notch.inner.x - side) / 10 for notch in leg.notches if notch.id == "inner_leg"}
    assert knees["front_inner"] == pytest.approx(15.7, abs=0.1)
    assert knees["back_inner"] == pytest.approx(16.7, abs=0.15)


def test_the_centre_back_of_the_reference_woman_is_raised_for_sitting() -> None:
    """The sketch raises it by 4.9. Here it is 0.4 more, since the seat is drawn in so that it passes the hip itself."""
    assert figure(set_out(WOMAN), "raised") == pytest.approx(4.9, abs=0.5)


def test_how_many_people_meet_what_the_reference_counts() -> None:
    """Over every ninth of the 507 people, whose crotch is estimated; the reference counted others: 23 % at the least
    extension, 3 to 15 % with a lowered crotch, and back points 0.9 to 2.7 below the front's.
    """
    found = [set_out(person) for person in bdims()[::9]]
    least = sum(one.facts["thigh_finished"] < 10 * girth(one, "hip") * 0.5851 for one in found)
    assert 0.05 * len(found) <= least <= 0.45 * len(found)
    lowered = [one for one in found if any(moved.key == "crotch_level" for moved in one.adjusted)]
    assert 0.03 * len(found) <= len(lowered) <= 0.35 * len(found)
    for one in found:
        assert 5.0 <= one.points["back_crotch"].y - one.points["front_crotch"].y <= 32.0


# ---- sizes -----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("stretch", "smaller"), [(40, 0.08), (59, 0.118), (60, 0.12), (61, 0.12), (100, 0.12)])
def test_they_are_smaller_than_the_hip_by_a_fifth_of_the_stretch_and_at_most_by_12_percent(
    stretch: int, smaller: float
) -> None:
    found = set_out(WOMAN, {}, {"stretch_across": stretch})
    assert girth(found, "hip") == pytest.approx(96.7 * (1 - smaller), abs=0.01)
    assert girth(found, "knee") == pytest.approx(0.625 * 57.6 * (1 - smaller), abs=0.05)


@pytest.mark.parametrize(
    ("thigh", "share"), [(48.0, 0.085), (56.4, 0.085), (56.8, None), (60.0, None), (66.0, 0.155)]
)  # fmt: skip
def test_the_extensions_make_up_the_thigh_between_two_limits(thigh: float, share: float | None) -> None:
    found = set_out(person_with(thigh_girth=thigh))
    hip = 96.7 * 0.9
    expected = 0.9 * thigh if share is None else hip / 2 + share * hip
    assert girth(found, "thigh") == pytest.approx(expected, abs=0.01)
    whole = expected - hip / 2
    assert -found.points["front_crotch"].x / 10 == pytest.approx(0.485 * hip / 2 + 0.3 * whole, abs=0.01)


def test_the_waist_edge_is_the_largest_of_three() -> None:
    """The waist less half of what the hip is smaller by; the hip less 10 × scale of shaping; what passes the hip."""

    def across(found: SetOut) -> float:
        return 2 * (found.points["back_waist"].x - found.points["front_waist"].x) / 10

    assert across(set_out(person_with(waist_girth=85))) == pytest.approx(85 * 0.95, abs=0.01)
    assert across(set_out(WOMAN)) == pytest.approx(96.7 * 0.9 - 10 * 162.9 / 163, abs=0.01)
    stiff = across(set_out(person_with(waist_girth=60), {}, {"stretch_across": 10}, tape=FINE))
    assert 97.7 / 1.08 <= stiff <= 97.7 / 1.08 + 0.5


@pytest.mark.parametrize("unit", ["cm", "in"])
def test_the_waist_passes_the_hip_also_where_its_four_corners_are_read_too_near(unit: str) -> None:
    """Half a step off across, and half a step down a slant of up to a half: 0.75 of a step at each corner (CALC)."""
    tape = {"unit": unit, "step": "0.1" if unit == "cm" else "1/8"}
    step = 1.0 if unit == "cm" else 25.4 / 8
    found = set_out(person_with(waist_girth=60), {}, {"stretch_across": 10}, tape=tape)
    facts = found.facts
    assert found.chalked.tape.finest.size <= step
    short = 0.75 * 4 * found.chalked.tape.finest.size
    assert facts["waist_seam"] - facts["waist_seam_chalked"] == pytest.approx(short)
    assert facts["waist_seam_chalked"] * 1.08 >= facts["hip_needs"] - 0.01


def test_a_waist_wider_than_the_hip_lets_the_hip_out_and_says_so() -> None:
    for waist, let_out in ((91.5, False), (92.0, True), (105.0, True)):
        found = set_out(person_with(waist_girth=waist))
        moved = [one for one in found.adjusted if one.key == "hip"]
        assert bool(moved) == let_out, waist
        if let_out:
            assert moved[0].before == pytest.approx(870.3)
            assert moved[0].after == pytest.approx(9.5 * waist)
            assert girth(found, "hip") == pytest.approx(0.95 * waist)
    stiff = set_out(person_with(waist_girth=60), {}, {"stretch_across": 0})
    assert "the cloth gives little" in next(one.why for one in stiff.adjusted if one.key == "hip")


def test_the_full_hip_is_reached_five_above_the_crotch_at_the_lowest() -> None:
    """28.5 less 5 × scale is 23.5."""
    for measured, reached in ((21.9, 21.9), (23.4, 23.4), (26.0, 28.5 - 5 * 162.9 / 163)):
        leg = set_out(person_with(waist_to_hip=measured, crotch_depth=28.5)).pieces[0]
        assert (leg.level("hip") - leg.level("waist")) / 10 == pytest.approx(reached, abs=0.01)


# ---- seat and inner leg ----------------------------------------------------------------------------------------------


def angle(one: Point, other: Point) -> float:
    return math.degrees(math.atan2(abs(one.cross(other)), one.dot(other)))


@pytest.mark.parametrize("length", ["ankle", "mid_thigh"])
@pytest.mark.parametrize("body", ["median woman", "wide hips", "full bust", "man", "child of 6", "child of 12"])
def test_four_corners_of_90_degrees_meet_at_the_crotch_and_the_waist_is_square(body: str, length: str) -> None:
    leg = set_out(measured_for(BODIES[body], "leggings"), {"length": length}).pieces[0]
    edges = {edge.name: edge.stitch.segments for edge in leg.edges}
    for before, after in pairwise(("front_inner", "front_seat", "waist", "back_seat", "back_inner")):
        turn = angle(edges[before][-1].tangent(1.0), edges[after][0].tangent(0.0))
        assert turn == pytest.approx(90.0, abs=0.01), (before, after)


@pytest.mark.parametrize("body", ["median woman", "wide hips", "full bust", "man", "child of 6", "child of 12"])
def test_the_back_point_is_lowered_until_both_sides_of_the_inner_leg_are_equal(body: str) -> None:
    found = set_out(measured_for(BODIES[body], "leggings"))
    leg = found.pieces[0]
    front, back = (leg.edge(name).stitch.length() for name in ("front_inner", "back_inner"))
    assert front == pytest.approx(back, abs=0.02)
    assert found.points["back_crotch"].y > found.points["front_crotch"].y


def test_the_seat_passes_the_hip_and_runs_straight_above_its_curve() -> None:
    """The front begins to curve 0.34 of the crotch level above it, the back 0.38: 18.8 and 17.7 below the waist."""
    found = set_out(WOMAN, tape=FINE)
    leg = found.pieces[0]
    waist, side = leg.level("waist"), leg.guides[0].line[0].x
    for name, share, hip in (("front_seat", 0.34, 0.485), ("back_seat", 0.38, 0.515)):
        edge = leg.edge(name).stitch
        places = edge.flatten(0.002)
        level = [
            abs(a.between(b, (leg.level("hip") - a.y) / (b.y - a.y)).x - side)
            for a, b in pairwise(places)
            if a.y != b.y and min(a.y, b.y) <= leg.level("hip") <= max(a.y, b.y)
        ]
        assert level == [pytest.approx(hip * 870.3 / 2, abs=0.1)]
        straight = edge.segments[-1] if name == "front_seat" else edge.segments[0]
        begins = straight.start if name == "front_seat" else straight.end
        assert begins.y - waist == pytest.approx(284.85 * (1 - share), abs=0.1)


def test_sitting_is_solved_by_raising_and_then_by_lowering_the_crotch() -> None:
    """Raised by 3.5 to 5.5 × scale; (seat) × (1 + half of 20 %) is the crotch length and 3 × scale."""
    grown = 162.9 / 163
    for length, raised, lowered in ((66.0, 3.5, False), (70.0, None, False), (73.5, 5.5, True)):
        found = set_out(person_with(crotch_length=length, crotch_depth=28.5))
        moved = [one for one in found.adjusted if one.key == "crotch_level"]
        assert bool(moved) == lowered, length
        if raised is not None:
            assert figure(found, "raised") == pytest.approx(raised * grown, abs=0.03)
        else:
            assert 3.5 * grown < figure(found, "raised") < 5.5 * grown
        if length > 66:
            assert figure(found, "seat") * 1.1 == pytest.approx(length + 3 * grown, abs=0.1)
        if moved:
            assert moved[0].before == pytest.approx(285.0)
            assert found.points["front_crotch"].y == pytest.approx(moved[0].after)


def test_a_seat_that_cannot_be_made_long_enough_is_warned_of() -> None:
    found = proven(person_with(crotch_length=92.0, crotch_depth=28.5))
    assert found["sits"].result == "warn"
    assert any(key == "cloth.stretch_along" for way in offered(found["sits"]) for key, _ in way)


def test_a_seat_turns_no_more_tightly_than_its_allowance_takes() -> None:
    """A child's front runs out by hardly 1.5 cm, so its handles are made longer."""
    tight = seat_edge(Point(100, 5), Point(115, 170), 150, Point(130, 222), -0.3, 15, (0.62, 0.70), 1.0)
    round_ = seat_edge(Point(100, 5), Point(115, 170), 150, Point(130, 222), -0.3, 15, (0.62, 0.70), 12.0)
    assert tightest(tight.segments[-1]) < 10.0
    assert tightest(round_.segments[-1]) >= 12.0
    child = set_out(CHILD).pieces[0]
    for name in ("front_seat", "back_seat"):
        assert min(tightest(segment) for segment in child.edge(name).stitch.segments) >= 12.0 - 1e-6


@pytest.mark.parametrize("length", ["ankle", "mid_calf", "knee", "mid_thigh"])
@pytest.mark.parametrize("body", ["median woman", "wide hips", "man", "child of 6", "child of 12"])
def test_the_inner_leg_narrows_all_the_way_without_a_corner_and_ends_square_to_the_hem(body: str, length: str) -> None:
    leg = set_out(measured_for(BODIES[body], "leggings"), {"length": length}).pieces[0]
    stitch = leg.edge("back_inner").stitch
    across = [place.x for place in stitch.flatten(0.02)]
    assert across == sorted(across, reverse=True)
    assert abs(stitch.segments[-1].tangent(1.0).x) < 1e-9
    for before, after in pairwise(stitch.segments):
        assert angle(before.tangent(1.0), after.tangent(0.0)) < 0.01


def test_a_line_through_points_keeps_their_order() -> None:
    points = [Point(30, 0), Point(20, 10), Point(19, 15), Point(10, 40)]
    made = smooth_down(points, -1.5, 0.0)
    assert [made[0].start, *(segment.end for segment in made)] == points
    places = [segment.at(step / 20) for segment in made for step in range(21)]
    assert all(b.x <= a.x + 1e-9 for a, b in pairwise(places))
    out = smooth_down([Point(20, 0), Point(10, 10), Point(15, 20)], -1.0, 0.0)
    assert out[0].tangent(1.0).x == pytest.approx(0.0, abs=1e-9)  # it turns back, so it is upright there


# ---- the hem ---------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("length", "least"), [("ankle", True), ("mid_calf", False), ("knee", False)])
def test_a_hem_is_as_wide_as_the_leg_there_and_lets_the_foot_through(length: str, least: bool) -> None:
    """(31.0 + 1) / 1.4 = 22.8, and one fine step of the tape; the ankle alone would be 18.9."""
    found = set_out(WOMAN, {"length": length}, tape=FINE)
    needed = (0.19 * 162.9 + 1) / 1.4 + 0.1
    assert girth(found, "hem") == pytest.approx(needed, abs=0.01) if least else girth(found, "hem") > needed + 2
    if length == "knee":
        assert girth(found, "hem") == pytest.approx(32.4, abs=0.1)


@pytest.mark.parametrize("asked", ["25 cm", "32 cm", "45 cm"])
def test_a_hem_that_was_asked_for_is_met(asked: str) -> None:
    found = set_out(WOMAN, {"hem_girth": asked})
    assert girth(found, "hem") == pytest.approx(float(asked.split(maxsplit=1)[0]), abs=0.01)
    assert not found.adjusted


def test_a_hem_is_no_wider_than_the_thigh() -> None:
    for asked, limited in (("51 cm", False), ("53 cm", True)):
        found = set_out(WOMAN, {"hem_girth": asked})
        assert any(one.key == "hem_girth" for one in found.adjusted) == limited
        assert girth(found, "hem") <= girth(found, "thigh") + 1e-9


def test_a_hem_asked_too_narrow_stops_and_a_wider_one_is_offered() -> None:
    found = proven(WOMAN, {"hem_girth": "20 cm"})["foot_passes"]
    assert found.result == "stop"
    assert (("style.hem_girth", "auto"),) in offered(found)
    assert any(key == "style.hem_girth" and value != "auto" for way in offered(found) for key, value in way)


def test_the_shortest_has_an_inner_leg() -> None:
    """The crotch depth, 6 × scale that the crotch may be lowered, and 4 × scale."""
    least = 28.5 + 10 * 162.9 / 163
    for length, read in ((least + 0.1, True), (least - 0.1, False)):
        person = person_with(crotch_depth=28.5)
        order, problems = read_order(bodies.order(person, {"length": f"{length} cm"}, JERSEY, garment="leggings"))
        assert (order is not None) == read
        assert read or any("style.length" in problem.line() for problem in problems)


# ---- the checks, each limit on both sides ----------------------------------------------------------------------------


def test_the_foot_passes_with_one_centimetre_at_80_percent_of_the_stretch() -> None:
    needed = (plain().body.heel_girth + 10.0) / 1.4
    for ring, result in ((needed + 0.1, "pass"), (needed - 0.5, "stop")):
        found = told(foot_passes.judge(with_facts(leg_end_chalked=ring), CM))
        assert found.result == result
        assert found.value == pytest.approx(ring * 1.4)


def test_sitting_takes_six_percent_of_the_hip_and_three_more_along_the_seat() -> None:
    around = 1.06 * 967.0 / 1.25
    along = (plain().body.crotch_length + 30.0 * 162.9 / 163) / 1.1
    for facts, result in (
        ({"hip_finished": around + 0.1, "seat_seam": along + 0.1}, "pass"),
        ({"hip_finished": around - 1.0, "seat_seam": along + 0.1}, "warn"),
        ({"hip_finished": around + 0.1, "seat_seam": along - 4.4}, "pass"),  # half a centimetre is not felt
        ({"hip_finished": around + 0.1, "seat_seam": along - 4.7}, "warn"),
    ):
        assert told(leg_sits.judge(with_facts(**facts), CM)).result == result, facts


def test_the_thigh_has_its_room() -> None:
    for opens, result in ((576.0, "pass"), (575.8, "warn")):
        assert told(thigh_room.judge(with_facts(thigh_opens=opens, thigh_needs=576.0), CM)).result == result
    assert plain().facts["thigh_opens"] == pytest.approx(518.4 * 1.25)
    assert plain().facts["thigh_needs"] == pytest.approx(576.0)


@pytest.mark.parametrize(
    ("depth", "hip", "result"),
    [(23.8, 20.0, "pass"), (23.5, 20.0, "warn"), (32.5, 20.0, "pass"), (32.7, 20.0, "warn"), (28.5, 26.4, "pass"),
     (28.5, 26.6, "warn")],
)  # fmt: skip
def test_the_crotch_level_goes_with_stature_and_hip(depth: float, hip: float, result: str) -> None:
    """0.145 and 0.20 of 162.9 are 23.6 and 32.6; the hip lies 2 above the crotch at the least."""
    found = told(crotch_level.judge(with_body(crotch_depth=10 * depth, waist_to_hip=10 * hip), CM))
    assert found.result == result
    assert ("easure" in found.says) == (result == "warn")


@pytest.mark.parametrize(
    ("across", "along", "result", "limit"),
    [(40, 15, "pass", 40), (39, 15, "warn", 40), (40, 14, "warn", 15), (39, 14, "warn", 40)],
)
def test_they_want_40_percent_across_and_15_along(across: int, along: int, result: str, limit: float) -> None:
    found = told(gives_enough.judge(set_out(WOMAN, {}, {"stretch_across": across, "stretch_along": along}), CM))
    assert found.result == result
    assert found.limit == pytest.approx(limit)


def test_more_stretch_is_offered_each_way() -> None:
    for cloth, key in (
        ({"stretch_across": 35}, "cloth.stretch_across"),
        ({"stretch_along": 10}, "cloth.stretch_along"),
    ):
        found = proven(WOMAN, {}, cloth)["gives_enough"]
        assert any(each == key for way in offered(found) for each, _ in way), key


def test_cloth_that_sitting_stretches_by_a_tenth_is_to_be_looked_through() -> None:
    limit = 1.06 * 967.0 / 1.10
    assert caution_opaque.judge(with_facts(hip_finished=limit + 1.0), CM) is None
    assert told(caution_opaque.judge(with_facts(hip_finished=limit - 1.0), CM)).result == "caution"


def test_a_loose_hem_below_the_ankle_trails() -> None:
    ankle, heel = 0.045 * 1629.0, plain().body.heel_girth
    for above, hem, cautioned in (
        (ankle - 1, heel + 1, True),
        (ankle + 1, heel + 1, False),
        (ankle - 1, heel - 1, False),
    ):
        found = caution_trailing_hem.judge(with_facts(hem_above_floor=above, leg_end=hem), CM)
        assert (found is not None) == cautioned
    assert "trailing_hem" not in {check.id for check in draft(WOMAN).checks}


def test_a_child_has_no_cord_and_room_to_grow_is_spoken_of() -> None:
    found = draft(CHILD)
    assert "cord" in next(check.says for check in found.checks if check.id == "child_waist")
    assert found.draft.after_cut is not None
    assert any("room to grow" in line for line in found.draft.after_cut.before_cut)
    assert not any("nappy" in line for line in found.draft.after_cut.before_cut)
    small = {"kind": "child", "age": 2, "measures": {"stature": 86, "waist_girth": 48, "hip_girth": 50}}
    after = set_out(small).after_cut
    assert after is not None
    assert any("nappy" in line for line in after.before_cut)


# ---- seams and words -------------------------------------------------------------------------------------------------


def test_the_seat_is_sewn_left_to_right_in_one_seam_after_the_inner_legs() -> None:
    inner, seat, *_ = plain().seams
    assert [run.edge for side in inner.sides for run in side] == ["front_inner", "back_inner"]
    assert seat.one == seat.other
    assert [run.edge for run in seat.one] == ["back_seat", "front_seat"]
    assert plain().pieces[0].cut == 2


def test_a_seat_that_is_sewn_before_the_inner_legs_is_seen() -> None:
    assert list(Sewn(plain()).out_of_order()) == []
    inner, seat, *rest = plain().seams
    assert list(Sewn(replace(plain(), seams=(seat, inner, *rest))).out_of_order())


def test_one_tick_in_front_and_two_behind_and_the_knee_on_both_sides() -> None:
    leg = plain().pieces[0]
    found = sorted((notch.seam, notch.id) for notch in leg.notches)
    assert found == [
        ("back_inner", "inner_leg"), ("back_seat", "back_balance"), ("back_seat", "back_balance_second"),
        ("front_inner", "inner_leg"), ("front_seat", "front_balance"), ("waist", "side"),
    ]  # fmt: skip
    first, second = (notch.at for notch in leg.notches if notch.seam == "back_seat")
    assert abs(first - second) == pytest.approx(12.0)
    knee = next(notch for notch in leg.notches if notch.seam == "front_inner")
    assert knee.inner.y == pytest.approx(leg.level("knee"), abs=0.1)
    assert knee.label == "knee"
    short = next(n for n in set_out(WOMAN, {"length": "knee"}).pieces[0].notches if n.seam == "front_inner")
    assert short.label == "middle of the inner leg"


def test_the_side_line_runs_straight_down_and_the_back_lies_beyond_it() -> None:
    found = plain()
    leg = found.pieces[0]
    line = leg.guides[0].line
    assert line[0].x == pytest.approx(line[-1].x, abs=1e-6)
    back = next(anchor for anchor in leg.anchors if anchor.id == "crotch_back")
    front = next(anchor for anchor in leg.anchors if anchor.id == "crotch_front")
    assert front.point.x < line[0].x < back.point.x


def test_they_are_sewn_in_the_order_of_the_hand() -> None:
    def keys(style: Data, cloth: Data | None = None) -> list[str]:
        after = set_out(WOMAN, style, cloth).after_cut
        assert after is not None
        assert [step.key for step in after.order if step.tries_on] == ["try_on"]
        return [step.key for step in after.order]

    assert keys({}) == ["inner", "seat", "band", "waist", "elastic", "try_on", "hem"]
    assert keys({"waistband": "turned"}) == ["inner", "seat", "waist", "elastic", "try_on", "hem"]
    assert keys({}, {"stretch_across": 100}) == ["inner", "seat", "band", "waist", "try_on", "hem"]


def test_words_speak_of_leggings_and_of_what_was_estimated() -> None:
    after = set_out(WOMAN).after_cut
    assert after is not None
    said = " ".join([*(step.says for step in after.order), *(row.change for row in after.try_on), *after.before_cut])
    assert "skirt" not in said
    assert "Put the leggings on" in said
    assert "estimated" in after.before_cut[0]
    taped = set_out(person_with(crotch_depth=28.5, crotch_length=70)).after_cut
    assert taped is not None
    assert taped.before_cut == ()


def test_the_band_is_pinned_at_the_side_lines() -> None:
    found = set_out(WOMAN)
    leg, band = found.pieces
    at = next(notch.at for notch in leg.notches if notch.id == "side")
    upper = next(notch.at for notch in band.notches if notch.seam == "waistband_edge")
    assert at == pytest.approx(upper, abs=0.05)  # both from the centre front
    assert 2 * leg.edge("waist").stitch.length() == pytest.approx(10 * girth(found, "waist_seam"), abs=0.01)


def test_a_casing_is_turned_in_by_its_height_and_what_lies_beyond() -> None:
    found = draft(WOMAN, {"waistband": "turned", "waistband_height": "30 mm", "allowances": {"waist": "12 mm"}})
    waist = found.draft.pieces[0].edge("waist")
    assert waist.turned
    assert waist.allowance == pytest.approx(42.0)
    assert next(check for check in found.checks if check.id == "as_asked").result == "pass"
    field = GARMENT.field("allowances.waist")
    assert field is not None
    assert field.drafted is not None
    assert field.drafted(found.draft) == pytest.approx(12.0)


def test_what_makes_them_go_on_their_cloth_does_what_it_says() -> None:
    before = set_out(WOMAN)
    for change in (*GARMENT.to_fit, *GARMENT.to_save):
        keys = next(iter(change.changes(before)))
        after = set_out(WOMAN, {key.removeprefix("style."): value for key, value in keys})
        said = change.says(keys, CM)
        if said.startswith("Turn a casing in"):
            assert [piece.name for piece in after.pieces] == ["leg"]
        else:
            assert said == f"Make it {CM(after.choices.length)} long from the waist at the side to the hem."
            assert after.choices.length < before.choices.length


# ---- as they are worn ------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("style", [{}, {"length": "mid_thigh", "waistband": "turned"}], ids=["long", "short"])
@pytest.mark.parametrize("body", ["median woman", "wide hips", "full bust", "man", "child of 6"])
def test_both_legs_are_seen_apart_and_as_long_as_they_are(body: str, style: Data) -> None:
    found = set_out(measured_for(BODIES[body], "leggings"), style)
    assert found.worn is not None
    outline = found.worn.outline
    waist = found.body.back_neck_point_to_waist + 20.0
    assert max(place.y for place in outline) == pytest.approx(waist + found.choices.length, abs=3.0)
    assert {(round(-p.x, 3), round(p.y, 3)) for p in outline} == {(round(p.x, 3), round(p.y, 3)) for p in outline}
    inner = [p for p in outline if p.x > 0 and p.y > waist + found.points["front_crotch"].y]
    assert min(p.x for p in inner) > 0
    # Half round the girth, seen as a circle, to both sides of the middle of the leg; close legs do not touch.
    low = max(p.y for p in outline)
    hem = sorted(p.x for p in outline if p.x > 0 and abs(p.y - low) < 1e-6)
    assert hem[0] > 0.015 * found.body.stature
    middle = [p.y for p in outline if abs(p.x) < 1e-9]
    assert max(middle) == pytest.approx(waist + found.points["front_crotch"].y, abs=3.0)


@pytest.mark.parametrize(("length", "levels"), [("ankle", ["waist", "hip", "crotch", "knee", "hem"]),
                                                ("mid_thigh", ["waist", "hip", "crotch", "hem"])])  # fmt: skip
@pytest.mark.parametrize("garment", ["leggings", "knit_trousers"])
def test_a_leg_is_ruled_at_each_level_and_at_last_at_its_hem(garment: str, length: str, levels: list[str]) -> None:
    # The outline of a leg ends beside its waist: the hem was once told at the hip, and crotch and knee were left out.
    length = length if garment == "leggings" or length == "ankle" else "knee"
    made = bodies.draft(WOMAN, {"length": length}, JERSEY, garment=garment)
    assert made.plan is not None
    for piece in made.draft.pieces:
        steps = [step for step in made.plan.steps if step.piece == piece.name]
        ruled = [each for step in steps for each in step.apart if each.kind == "level"]
        if "crotch" in {level.key for level in piece.levels}:
            assert [each.says.partition(":")[0].lower() for each in ruled] == levels
            downs = [float(each.reads[0][1]) for each in ruled]
            assert downs == sorted(downs)
            assert 10 * downs[-1] == pytest.approx(max(point.y for point in piece.cut_line), abs=2.6)


def test_a_leg_that_is_stretched_at_the_crotch_is_judged_there_alone() -> None:
    """`thigh_room` says how far; for the wear of the cloth as a whole a narrow leg counts for nothing."""
    worn = {each.at: each.worn_stretched for each in plain().girths}
    assert not worn["thigh"]
    assert worn["hip"]
