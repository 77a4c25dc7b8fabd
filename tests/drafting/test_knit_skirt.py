"""`knit_skirt`: its figures beside the reference, each limit on both sides, what holds it, its slits and its words.

The reference woman and man have the medians of 350 women and 100 men of the 1988 US Army survey. Their figures were
worked out apart from the code, in a sketch of the rules; they are met within 0.3 cm, and where not the test says why.
"""

import math
from dataclasses import replace
from functools import cache
from itertools import pairwise
from typing import Any

import pytest

from drafting.cloth import ClothFacts
from drafting.contract.chalked_line import ChalkedLine
from drafting.contract.front_view import TRUNK, trunk_half, waist_level
from drafting.contract.judging import Words
from drafting.contract.set_out import SetOut
from drafting.garments import garments
from drafting.garments.knit_skirt.checks import gather, gathers_in, sits, stride, waist_passes_hip
from drafting.garments.knit_skirt.outline import chalked_quarter, waist_edge
from drafting.order import Result, make, read_order
from drafting.parts.skirt import shortest
from drafting.problems import Check
from drafting.units import Tape
from tests.drafting import bodies
from tests.drafting.bodies import BODIES, Data, bdims, measured_for

GARMENT = garments()["knit_skirt"]
CM = Words("cm")
FINE: Data = {"unit": "cm", "step": "0.1"}
WOMAN: Data = {
    "kind": "woman",
    "measures": {
        "stature": 162.9, "waist_girth": 71.9, "hip_girth": 96.7, "waist_to_hip": 21.9, "waist_height": 105.7,
        "knee_height": 46.0,
    },
}  # fmt: skip
MAN: Data = {
    "kind": "man",
    "measures": {
        "stature": 176.3, "waist_girth": 84.6, "hip_girth": 99.5, "waist_to_hip": 23.9, "waist_height": 112.8,
        "knee_height": 50.7,
    },
}  # fmt: skip
CHILD: Data = {"kind": "child", "age": 6, "measures": {"stature": 117, "waist_girth": 53, "hip_girth": 64}}


def draft(person: Data, style: Data | None = None, cloth: Data | None = None, **more: Any) -> Result:
    return bodies.draft(person, style, cloth, garment="knit_skirt", **more)


def set_out(person: Data, style: Data | None = None, cloth: Data | None = None, **more: Any) -> SetOut:
    return bodies.set_out(person, style, cloth, garment="knit_skirt", **more)


def proven(person: Data, style: Data | None = None, cloth: Data | None = None) -> dict[str, Check]:
    """The checks of a draft by their ids, with the ways out that were drafted."""
    order = bodies.read(bodies.order(person, style, cloth, garment="knit_skirt"))
    return {check.id: check for check in make(order).checks}


@cache
def plain() -> SetOut:
    return set_out(WOMAN)


def with_facts(**facts: float) -> SetOut:
    return replace(plain(), facts={**plain().facts, **facts})


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


@pytest.mark.parametrize(
    ("person", "edge", "waist", "hip", "length", "rises"),
    [(WOMAN, 79.7, 19.9, 24.9, 59.8, 1.0), (MAN, 86.7, 21.7, 25.6, 62.1, 0.8)],
    ids=["woman", "man"],
)
def test_a_straight_skirt_to_the_knee_has_the_figures_of_the_reference(
    person: Data, edge: float, waist: float, hip: float, length: float, rises: float
) -> None:
    found = set_out(person)
    assert girth(found, "waist_seam") == pytest.approx(edge, abs=0.3)
    assert found.points["waist_corner"].x / 10 == pytest.approx(waist, abs=0.3)
    assert found.points["hip_side"].x / 10 == pytest.approx(hip, abs=0.05)
    assert figure(found, "length") == pytest.approx(length, abs=0.3)
    assert figure(found, "waist_rises") == pytest.approx(rises, abs=0.05)
    assert not found.adjusted


@pytest.mark.parametrize(
    ("person", "silhouette", "hem"),
    [
        (WOMAN, "straight", 99.6), (WOMAN, "a_line", 120.8), (MAN, "straight", 102.5), (MAN, "a_line", 123.8),
        # Pegged, CALC: the hip less four times 0.07 of what lies below it (37.8 and 38.2).
        (WOMAN, "pegged", 99.6 - 4 * 0.07 * 37.8), (MAN, "pegged", 102.5 - 4 * 0.07 * 38.2),
    ],
)  # fmt: skip
def test_the_hems_of_the_reference(person: Data, silhouette: str, hem: float) -> None:
    assert girth(set_out(person, {"silhouette": silhouette}), "hem") == pytest.approx(hem, abs=0.3)


def test_the_slit_of_the_reference_woman_at_mid_calf() -> None:
    """By the rule a step needs 99.6 × 1.2 = 119.5 at 32.4 above the floor, 5.7 above the hem; 2 more are 7.7, found in
    steps of 0.5. The sketch has 6.7 for her (and 7.7 for the median of all), 1 less than the same rule gives here.
    """
    found = set_out(WOMAN, {"length": "mid_calf"})
    assert found.facts["slit"] / 10 == pytest.approx(7.7, abs=0.5)
    assert found.facts["hem_girth"] < found.facts["walking_girth"]


def test_how_many_people_meet_what_the_reference_counts() -> None:
    """Over every seventh of the 507 people; the reference counted others, so that only the drift is the same."""
    people = bdims()[::7]
    stiff, jersey = (
        [set_out(person, {}, {"stretch_across": stretch}, tape=FINE) for person in people] for stretch in (10, 40)
    )

    def by_hip(found: SetOut) -> bool:
        needs = found.facts["hip_needs"] / (1 + 0.8 * found.cloth.across)
        return needs <= found.facts["waist_seam"] <= needs + 20

    assert sum(map(by_hip, stiff)) > 0.85 * len(people)  # 97 % there
    assert not any(map(by_hip, jersey))  # 0 % there
    assert sum(found.facts["gathered"] > 1.35 for found in stiff) > 0.25 * len(people)  # 36 % there
    assert sum(found.facts["gathered"] > 1.35 for found in jersey) < 0.05 * len(people)  # 1 % there
    for style, least, most in (
        ({"silhouette": "a_line", "length": "mid_calf"}, 0.0, 0.0),
        ({"length": "mid_calf"}, 0.9, 1.0),
        ({"silhouette": "pegged", "length": "mid_calf"}, 0.97, 1.0),
    ):
        slit = sum(set_out(person, style).facts["slit_needed"] > 0 for person in people)
        assert least * len(people) <= slit <= most * len(people), style


# ---- waist edge and hip ----------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("fit", "ease"), [("close", 1.0), ("regular", 1.03), ("loose", 1.06)]
)  # fmt: skip
def test_the_hip_has_its_ease_by_fit(fit: str, ease: float) -> None:
    assert girth(set_out(WOMAN, {"fit": fit}), "hip") == pytest.approx(96.7 * ease, abs=0.01)


def person_with(**measures: float) -> Data:
    return {"kind": "woman", "measures": {**WOMAN["measures"], **measures}}


def test_the_waist_edge_is_the_largest_of_three() -> None:
    """The waist and 2 × scale; the hip and 1 through 80 % of the stretch; the hip less 4 × 5 of shaping."""
    grown = 162.9 / 163
    by_waist = set_out(person_with(waist_girth=85), {})
    assert girth(by_waist, "waist_seam") == pytest.approx(85 + 2 * grown, abs=0.01)
    by_shaping = set_out(WOMAN, {})
    assert girth(by_shaping, "waist_seam") == pytest.approx(96.7 * 1.03 - 20 * 21.9 / 22, abs=0.01)
    by_hip = set_out(WOMAN, {}, {"stretch_across": 15}, tape=FINE)
    needs = 97.7 / 1.12
    assert needs <= girth(by_hip, "waist_seam") <= needs + 0.5  # wider only by what the steps of the tape take
    assert not by_hip.adjusted


@pytest.mark.parametrize(("depth", "shaped"), [(11.0, 10.0), (22.0, 20.0), (25.3, 23.0), (28.0, 23.0)])
def test_a_side_shapes_by_its_depth_and_never_more_than_15_percent_over_it(depth: float, shaped: float) -> None:
    found = set_out(person_with(waist_to_hip=depth, waist_girth=60))
    assert girth(found, "waist_seam") == pytest.approx(96.7 * 1.03 - shaped, abs=0.02)


def test_a_waist_wider_than_the_hip_lets_the_hip_out_and_says_so() -> None:
    for waist, let_out in ((97.5, False), (98.5, True), (110, True)):
        found = set_out(person_with(waist_girth=waist))
        moved = [one for one in found.adjusted if one.key == "fit"]
        assert bool(moved) == let_out, waist
        if let_out:
            assert "wider than the hip" in moved[0].why
            assert moved[0].before == pytest.approx(967 * 1.03)
            assert moved[0].after == pytest.approx(10 * girth(found, "hip"), abs=0.01)
            assert girth(found, "waist_seam") == pytest.approx(girth(found, "hip"), abs=0.01)
            assert all(place.y == 0.0 for place in (found.points["waist_corner"],))  # it falls straight


def test_cloth_that_does_not_stretch_lets_the_hip_out_for_itself() -> None:
    found = set_out(WOMAN, {"fit": "close"}, {"stretch_across": 0})
    moved = next(one for one in found.adjusted if one.key == "fit")
    assert "cloth gives little" in moved.why
    assert girth(found, "hip") >= 97.7
    assert set_out(WOMAN, {"fit": "loose"}, {"stretch_across": 0}).adjusted == ()


@pytest.mark.parametrize("step", [("cm", "0.5"), ("cm", "0.1"), ("in", "1/4"), ("in", "1/8")])
@pytest.mark.parametrize("line", ["cut", "stitch", "both"])
@pytest.mark.parametrize("waistband", ["casing", "turned"])
def test_the_waist_goes_over_the_hip_as_it_is_chalked(step: tuple[str, str], line: str, waistband: str) -> None:
    tape = {"unit": step[0], "step": step[1], "line": line}
    for stretch in (0, 12, 25):
        for hip in (96.7, 97.1, 97.4):
            found = set_out(
                person_with(hip_girth=hip), {"waistband": waistband}, {"stretch_across": stretch}, tape=tape
            )
            opened = found.facts["waist_seam_chalked"] * (1 + 0.8 * stretch / 100)
            assert opened >= found.facts["hip_needs"] - 0.01
            assert told(waist_passes_hip.judge(found, CM)).result == "pass"


def test_a_slanting_quarter_is_reckoned_at_the_least_it_can_become() -> None:
    """Half a step off across, and half a step down, which the slope turns into so much across."""
    cloth: ClothFacts = plain().cloth
    chalked = ChalkedLine(Tape("cm", "0.5"), "cut")
    found = chalked_quarter(200.0, 0.25, plain().choices, cloth, chalked)
    assert found == pytest.approx(200.0 - 2.5 * 1.25)
    assert chalked_quarter(201.0, 0.0, plain().choices, cloth, chalked) == pytest.approx(200.0)  # 216 reads 215


def test_the_waist_edge_is_level_at_the_fold_square_at_the_side_and_as_long_as_it_must_be() -> None:
    for quarter, hip, depth in ((199.0, 249.0, 219.0), (160.0, 215.0, 250.0), (110.0, 150.0, 120.0)):
        edge = waist_edge(quarter, hip, depth)
        assert edge.length() == pytest.approx(quarter, abs=0.001)
        assert edge.segments[0].tangent(0.0).y == 0.0
        rises = -edge.end.y
        assert rises == pytest.approx(0.2 * (hip - edge.end.x), abs=0.01)
        slope = 1.2 * (hip - edge.end.x) / (depth + rises)
        along = edge.segments[-1].tangent(1.0)
        assert -along.y / along.x == pytest.approx(slope, abs=1e-3)
        heights = [place.y for place in edge.flatten(0.05)]
        assert heights == sorted(heights, reverse=True)


def test_a_side_that_hardly_comes_in_has_a_level_waist() -> None:
    assert waist_edge(248.1, 249.0, 219.0).end.y == 0.0
    assert waist_edge(247.9, 249.0, 219.0).end.y < 0.0


@pytest.mark.parametrize("silhouette", ["straight", "a_line", "pegged"])
@pytest.mark.parametrize("waistband", ["casing", "turned"])
@pytest.mark.parametrize("body", ["median woman", "wide hips", "full bust", "man", "child of 6", "child of 12"])
def test_the_side_runs_out_to_the_hip_and_on_without_a_dent(silhouette: str, waistband: str, body: str) -> None:
    found = set_out(measured_for(BODIES[body], "knit_skirt"), {"silhouette": silhouette, "waistband": waistband})
    panel = found.pieces[0]
    side = panel.edge("side").stitch.flatten(0.05)
    hip = panel.level("hip")
    above = [place.x for place in side if place.y <= hip]
    below = [place.x for place in side if place.y >= hip]
    assert above == sorted(above)
    assert below == sorted(below, reverse=silhouette == "pegged")
    assert max(place.x for place in side) <= panel.width


@pytest.mark.parametrize("waistband", ["casing", "turned"])
@pytest.mark.parametrize("waist", [80, 90, 94, 96])
def test_an_a_line_over_a_waist_that_hardly_comes_in_has_no_dent_above_the_hip(waist: int, waistband: str) -> None:
    """A cubic that leaves with 0 or 1.2 of its chord's slope and arrives with 3 of it just does not turn back."""
    found = set_out(person_with(waist_girth=waist), {"silhouette": "a_line", "waistband": waistband})
    side = found.pieces[0].edge("side").stitch.flatten(0.001)
    assert all(after.x >= before.x - 1e-9 for before, after in pairwise(side))
    slopes = [(b.x - a.x) / (b.y - a.y) for a, b in pairwise(side)]
    assert slopes[-1] == pytest.approx(0.14, abs=1e-6)
    assert max(abs(b - a) for a, b in pairwise(slopes)) < 0.02  # and no corner


def test_the_mark_of_the_hip_lies_on_its_level() -> None:
    for silhouette in ("straight", "a_line", "pegged"):
        panel = set_out(WOMAN, {"silhouette": silhouette}).pieces[0]
        hip = next(anchor for anchor in panel.anchors if anchor.id == "hip_side")
        assert hip.point.y == pytest.approx(panel.level("hip"), abs=1e-6)
        assert hip.point.x > 249.0 + 14.0


# ---- the hem ---------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("asked", [90.0, 99.6, 105.0, 120.0, 129.0])
def test_a_hem_that_was_asked_for_is_met(asked: float) -> None:
    found = set_out(WOMAN, {"hem_girth": f"{asked} cm"})
    assert girth(found, "hem") == pytest.approx(asked, abs=0.02)
    assert not found.adjusted


@pytest.mark.parametrize(
    ("asked", "reached", "why"),
    [
        # 0.2 a side: the fold's 37.8 below the hip run out by 7.5 at the most, and along the curved edge a little more.
        ("140 cm", 129.7, "part of a circle"),
        # 12° at the hem: the curve comes in by half of that, 0.106 a side.
        ("70 cm", 99.6 - 4 * 0.5 * math.tan(math.radians(12)) * 37.8, "bend in too sharply"),
    ],
)
def test_a_hem_beyond_what_the_side_may_run_is_limited_and_said(asked: str, reached: float, why: str) -> None:
    found = set_out(WOMAN, {"hem_girth": asked})
    moved = next(one for one in found.adjusted if one.key == "hem_girth")
    assert why in moved.why
    assert moved.after / 10 == pytest.approx(girth(found, "hem"), abs=0.01)
    assert girth(found, "hem") == pytest.approx(reached, abs=0.4)


def test_an_asked_hem_stands_above_the_cut() -> None:
    hems = {girth(set_out(WOMAN, {"silhouette": cut, "hem_girth": "110 cm"}), "hem") for cut in ("a_line", "pegged")}
    assert max(hems) - min(hems) < 0.01


@pytest.mark.parametrize("silhouette", ["a_line", "pegged"])
def test_a_slanting_hem_takes_no_more_than_15_mm_and_says_so_where_more_was_asked(silhouette: str) -> None:
    plain_hem = set_out(WOMAN, {"silhouette": silhouette})
    assert plain_hem.pieces[0].edge("hem").allowance == 15.0
    assert not plain_hem.adjusted
    asked = set_out(WOMAN, {"silhouette": silhouette, "allowances": {"hem": "40 mm"}})
    assert [one.key for one in asked.adjusted] == ["allowances.hem"]
    assert set_out(WOMAN, {"allowances": {"hem": "40 mm"}}).pieces[0].edge("hem").allowance == 40.0


@pytest.mark.parametrize(("silhouette", "within"), [("straight", 0.1), ("a_line", 1.0), ("pegged", 6.0)])
def test_below_the_hip_the_side_is_as_long_as_the_fold(silhouette: str, within: float) -> None:
    """Level and square at once: a pegged one may miss it by 0.5, to the ankle by 0.6."""
    for length in ("knee", "ankle"):
        found = set_out(WOMAN, {"silhouette": silhouette, "length": length})
        panel = found.pieces[0]
        side = panel.edge("side").stitch
        hip = next(notch.at for notch in panel.notches if notch.id == "hip")
        fold = panel.cut_line[-1].y - panel.edge("hem").allowance - panel.level("hip")
        assert side.length() - hip == pytest.approx(fold, abs=within)


def test_the_shortest_covers_the_seat() -> None:
    least = shortest(plain().body)
    assert least == pytest.approx(219.0 + 0.03 * 1629.0)
    for length, read in ((least + 1, True), (least - 1, False)):
        order, _ = read_order(bodies.order(WOMAN, {"length": f"{length} mm"}, garment="knit_skirt"))
        assert (order is not None) == read


def test_a_length_above_the_hip_is_refused_in_words() -> None:
    ready = bodies.order(WOMAN, {"length": "20 cm"}, garment="knit_skirt")
    _, problems = read_order(ready)
    assert any("style.length" in problem.line() for problem in problems)


# ---- the checks, each limit on both sides ----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("share", "result"), [(1.0, "pass"), (1.35, "pass"), (1.351, "warn"), (1.5, "warn"), (1.501, None)]
)
def test_the_waist_is_drawn_in_evenly_up_to_135_percent(share: float, result: str | None) -> None:
    found = gather.judge(with_facts(gathered=share), CM)
    assert (found.result if found else None) == result
    if found is not None:
        assert found.limit == pytest.approx(35.0)
        assert found.value == pytest.approx(100 * (share - 1))


@pytest.mark.parametrize(("share", "stopped"), [(1.35, False), (1.5, False), (1.501, True), (2.0, True)])
def test_more_than_150_percent_is_not_drawn_in(share: float, stopped: bool) -> None:
    found = gathers_in.judge(with_facts(gathered=share), CM)
    assert (found is not None) == stopped
    if found is not None:
        assert found.result == "stop"
        assert found.limit == pytest.approx(50.0)
        assert f"{100 * (share - 1):.0f} % longer" in found.says


def test_sitting_takes_six_percent_of_the_hip_at_half_the_stretch() -> None:
    needed = 1.06 * 967.0 / 1.2  # half of 40 %
    for hip, result in ((needed + 0.1, "pass"), (needed - 1.0, "warn")):
        found = told(sits.judge(with_facts(hip_finished=hip), CM))
        assert found.result == result
        assert found.limit == pytest.approx(1.06 * 967.0)
        assert found.value == pytest.approx(hip * 1.2)


def test_the_waist_passes_through_80_percent_of_the_stretch_round_it() -> None:
    needed = 977.0 / 1.32
    for ring, result in ((needed + 0.1, "pass"), (needed - 1.0, "stop")):
        found = told(waist_passes_hip.judge(with_facts(waist_seam_chalked=ring), CM))
        assert found.result == result
        assert found.limit == pytest.approx(977.0)


def test_a_step_needs_its_slit() -> None:
    for slit, result in ((80.0, "pass"), (78.0, "warn")):
        found = told(stride.judge(with_facts(hem_girth=900.0, walking_girth=1000.0, slit_needed=80.0, slit=slit), CM))
        assert found.result == result
    assert told(stride.judge(with_facts(slit_needed=0.0, slit=0.0), CM)).result == "pass"


@pytest.mark.parametrize(("stretch", "result"), [(10, "warn"), (12, "pass")])
def test_a_close_skirt_of_stiff_cloth_is_tight_to_sit_in_and_a_wider_one_is_offered(stretch: int, result: str) -> None:
    """Without ease 1.05 of the hip at 10 %, and 1.06 from 12 % on."""
    found = proven(WOMAN, {"fit": "close"}, {"stretch_across": stretch, "stretch_along": 10})["sits"]
    assert found.result == result
    if result == "warn":
        assert (("style.fit", "regular"),) in offered(found)
        assert proven(WOMAN, {"fit": "regular"}, {"stretch_across": stretch, "stretch_along": 10})["sits"].result == (
            "pass"
        )


def test_a_waist_that_is_seen_to_be_gathered_is_offered_cloth_that_gives_more() -> None:
    found = proven(WOMAN, {}, {"stretch_across": 8, "stretch_along": 8})["gather"]
    assert found.result == "warn"
    stretches = {value for way in offered(found) for key, value in way if key == "cloth.stretch_across"}
    assert stretches
    assert proven(WOMAN, {}, {"stretch_across": min(stretches), "stretch_along": 8})["gather"].result == "pass"


def test_a_waist_too_full_to_be_drawn_in_is_stopped_and_a_closer_fit_is_offered() -> None:
    wide = person_with(hip_girth=116)
    found = proven(wide, {"fit": "loose"})
    assert found["gathers_in"].result == "stop"
    assert "gather" not in found
    assert {(("style.fit", "regular"),), (("style.fit", "close"),)} & offered(found["gathers_in"])
    close = proven(wide, {"fit": "close"})
    assert "gathers_in" not in close
    assert close["gather"].result == "warn"


def test_a_hem_too_narrow_to_walk_in_is_offered_slits_an_a_line_and_a_wider_hem() -> None:
    found = proven(WOMAN, {"silhouette": "pegged", "length": "mid_calf", "slit": "none"})["stride"]
    assert found.result == "warn"
    assert (("style.slit", "auto"),) in offered(found)
    assert (("style.silhouette", "a_line"),) in offered(found)
    assert any(key == "style.hem_girth" for way in offered(found) for key, _ in way)


@pytest.mark.parametrize(
    ("style", "cautioned"),
    [({}, False), ({"silhouette": "a_line", "length": "mid_calf"}, True), ({"length": "mid_calf"}, True),
     ({"silhouette": "a_line", "length": "70 cm"}, False)],
)  # fmt: skip
def test_a_hem_near_the_floor_or_narrower_than_a_step_is_cautioned(style: Data, cautioned: bool) -> None:
    """Near is under 0.17 of the stature, 27.7; mid-calf lies 26.7 above the floor, 70 cm leave 35.7."""
    found = draft(WOMAN, style)
    assert any(check.id == "long_hem" for check in found.checks) == cautioned
    assert found.draft.facts["hem_above_floor"] == pytest.approx(1057.0 - found.draft.choices.length)


def test_what_makes_it_go_on_its_cloth_does_what_it_says() -> None:
    before = set_out(WOMAN, {"silhouette": "a_line"})
    done = set()
    for change in (*GARMENT.to_fit, *GARMENT.to_save, *(GARMENT.ways["cloth_long_enough"])):
        if hasattr(change, "key"):
            tried = [((change.key, value),) for value in change.values(before)]
            said = change.says(tried[0][0][1], CM)
        else:
            tried = list(change.changes(before))
            said = change.says(tried[0], CM)
        style = {"silhouette": "a_line", **{key.removeprefix("style."): value for key, value in tried[0]}}
        after = set_out(WOMAN, style)
        if said.startswith("Turn a casing in"):
            assert [piece.name for piece in after.pieces] == ["panel"]
        elif said == "Choose the close fit.":
            assert girth(after, "hip") == pytest.approx(96.7)
        elif said == "Cut it straight.":
            assert girth(after, "hem") == pytest.approx(girth(before, "hip"), abs=0.01)
        else:
            assert said == f"Make it {CM(after.choices.length)} long from the waist seam to the hem."
            assert after.choices.length < before.choices.length
        done.add(said)
    assert len(done) == 4


# ---- slits -----------------------------------------------------------------------------------------------------------


def test_a_slit_is_left_open_at_both_sides_and_marked() -> None:
    found = set_out(WOMAN, {"slit": "12 cm", "length": "mid_calf"})
    panel = found.pieces[0]
    assert panel.cut == 2
    assert panel.slit is not None
    assert (panel.slit.edge, panel.slit.high, panel.slit.notch) == ("side", 120.0, "slit")
    top = next(notch for notch in panel.notches if notch.id == "slit")
    assert panel.edge("side").stitch.end.y - top.inner.y == pytest.approx(120.0, abs=0.1)
    assert set_out(WOMAN, {"length": "mid_calf", "slit": "none"}).pieces[0].slit is None


def test_a_slit_ends_at_the_hip_and_its_notch_stands_alone_there() -> None:
    found = set_out(WOMAN, {"slit": "60 cm"})
    assert [one.key for one in found.adjusted] == ["slit"]
    panel = found.pieces[0]
    assert [notch.id for notch in panel.notches if notch.seam == "side"] == ["slit"]
    clear = set_out(WOMAN, {"slit": "35 cm"}).pieces[0]
    assert [notch.id for notch in clear.notches if notch.seam == "side"] == ["hip", "slit"]


# ---- what holds it ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("across", "alone"), [(20, False), (40, False), (60, True), (80, True)])
def test_a_band_holds_by_itself_where_it_goes_over_the_hip(across: int, alone: bool) -> None:
    """0.92 × 71.9 = 66.1, times 1.16 to 1.64, against 97.7: from 60 % on."""
    found = set_out(WOMAN, {}, {"stretch_across": across, "stretch_along": 20})
    assert (found.facts["band_is_jersey"] > 0) is alone
    assert girth(found, "waistband") == pytest.approx(0.92 * 71.9 if alone else girth(found, "waist_seam"), abs=0.01)
    assert found.facts["gathered"] == pytest.approx(girth(found, "waist_seam") / (0.92 * 71.9), abs=1e-3)
    assert any(one.at == "elastic" for one in found.figures) is not alone


def test_an_asked_band_that_does_not_pass_stops_and_elastic_or_a_rib_helps() -> None:
    found = proven(WOMAN, {"waistband": "jersey"}, {"stretch_across": 20})["band_passes_hip"]
    assert found.result == "stop"
    assert (("style.waistband", "casing"),) in offered(found)
    assert (("style.band_cloth", "rib"),) in offered(found)


def test_the_band_is_pinned_at_the_side_seams() -> None:
    found = set_out(WOMAN)
    panel, band = found.pieces
    upper = {notch.label: notch.at for notch in band.notches if notch.seam == "waistband_edge"}
    assert upper == {"side seam": pytest.approx(girth(found, "waistband") * 10 / 4)}
    assert [(notch.id, notch.at) for notch in panel.notches if notch.seam == "waist"] == [("middle", 0.0)]
    assert panel.edge("waist").stitch.length() == pytest.approx(girth(found, "waist_seam") * 10 / 4, abs=0.001)


@pytest.mark.parametrize(
    ("style", "height", "wide"),
    [({"waistband": "casing"}, 40.0, "3.5 cm"), ({"waistband": "casing", "waistband_height": "30 mm"}, 30.0, "2.5 cm"),
     ({"waistband": "turned"}, 40.0, "3.5 cm")],
)  # fmt: skip
def test_the_elastic_is_said_and_bought(style: Data, height: float, wide: str) -> None:
    """0.92 of the waist and 2 for its ends; 97.7 / 66.1 = 1.48, so 50 % of stretch or more."""
    found = set_out(WOMAN, style, tape=FINE)
    assert figure(found, "band_height") * 10 == pytest.approx(height)
    assert figure(found, "elastic") == pytest.approx(0.92 * 71.9 + 2.0, abs=0.01)
    after = found.after_cut
    assert after is not None
    bought = next(one for one in after.buy if one.what.startswith("elastic"))
    held = "casing" if style["waistband"] == "turned" else "waistband"
    assert bought.what == f"elastic {wide} wide that stretches by 50 % or more, for the {held}"
    assert bought.length == pytest.approx(0.92 * 719.0 + 20.0)
    assert "68.1 cm long" in next(step.says for step in after.order if step.key == "elastic")
    waist = next(step.says for step in after.order if step.key == "waist")
    assert ("half with the gap lies uppermost" in waist) is (held == "waistband")  # what is turned has no such half


def test_a_casing_that_is_turned_in_is_level_and_upright_and_has_no_band() -> None:
    found = set_out(WOMAN, {"waistband": "turned"}, tape=FINE)
    assert [piece.name for piece in found.pieces] == ["panel"]
    panel = found.pieces[0]
    waist, side = panel.edge("waist"), panel.edge("side").stitch
    assert waist.turned
    assert waist.allowance == 50.0  # a casing of 4, and 1 beyond its stitching
    assert {place.y for place in waist.stitch.flatten(0.1)} == {waist.stitch.start.y}
    upright = [place.x for place in side.flatten(0.05) if place.y <= side.start.y + 40.0]
    assert max(upright) - min(upright) < 1e-6
    assert figure(found, "band_height") == pytest.approx(4.0)
    assert not any(one.at == "waist_rises" for one in found.figures)
    # What the casing takes of the way to the hip does not shape: 5 on 22, of 21.9 less 4.
    assert girth(found, "waist_seam") == pytest.approx(96.7 * 1.03 - 20 * 17.9 / 22, abs=0.01)
    checks = {check.id for check in draft(WOMAN, {"waistband": "turned"}).checks}
    assert "band_passes_hip" not in checks
    assert "band_holds" in checks


@pytest.mark.parametrize(("height", "upright"), [("20 mm", 20.0), ("80 mm", 0.6 * 120.0)])
def test_a_high_casing_leaves_room_to_reach_the_hip(height: str, upright: float) -> None:
    """The side is upright over 0.6 of the way to the hip at the most: of 12 cm, 7.2."""
    child = {**CHILD, "measures": {**CHILD["measures"], "waist_to_hip": 12.0}}
    side = set_out(child, {"waistband": "turned", "waistband_height": height}).pieces[0].edge("side").stitch
    first = side.segments[0]
    assert first.end.y - first.start.y == pytest.approx(upright)
    assert first.end.x == pytest.approx(first.start.x)


@pytest.mark.parametrize("unit", ["cm", "in"])
def test_an_unsaid_casing_is_turned_in_by_a_whole_step_of_the_tape(unit: str) -> None:
    tape = {"unit": unit, "step": "0.1" if unit == "cm" else "1/8"}
    found = set_out(WOMAN, {"waistband": "turned"}, {"shrink_along": 5}, tape=tape)
    step = found.chalked.tape.finest.size
    steps = found.pieces[0].edge("waist").allowance / step
    assert steps == pytest.approx(round(steps), abs=1e-6)
    given = set_out(WOMAN, {"waistband": "turned", "waistband_height": "33.3 mm"}, tape=tape)
    assert given.pieces[0].edge("waist").allowance == pytest.approx(43.3)


def test_what_is_asked_of_a_casing_that_is_turned_in_is_measured_with_it() -> None:
    style = {"waistband": "turned", "waistband_height": "30 mm", "allowances": {"waist": "12 mm"}}
    found = draft(WOMAN, style)
    asked = {one.key: one.asked for one in found.draft.asked}
    assert asked["waistband_height"] == pytest.approx(42.0)
    assert asked["allowances.waist"] == pytest.approx(42.0)
    assert next(check for check in found.checks if check.id == "as_asked").result == "pass"


# ---- words -----------------------------------------------------------------------------------------------------------


def says(found: SetOut) -> dict[str, str]:
    assert found.after_cut is not None
    return {step.key: step.says for step in found.after_cut.order}


def test_it_is_sewn_in_the_order_of_the_hand() -> None:
    after = set_out(WOMAN).after_cut
    assert after is not None
    assert [step.key for step in after.order] == ["sides", "band", "waist", "elastic", "try_on", "hang", "hem"]
    assert [step.key for step in after.order if step.tries_on] == ["try_on"]
    turned = says(set_out(WOMAN, {"waistband": "turned"}))
    assert list(turned) == ["sides", "waist", "elastic", "try_on", "hang", "hem"]
    assert "Turn it in by 5 cm and sew it down all round, 4 cm below the fold" in turned["waist"]
    assert "casing lies at the waist" in turned["try_on"]
    alone = says(set_out(WOMAN, {}, {"stretch_across": 80}))
    assert "elastic" not in alone
    assert "stretch it evenly" in alone["waist"]


def test_the_side_is_sewn_down_to_its_slit() -> None:
    without, slit = (
        says(set_out(WOMAN, {"silhouette": "pegged", "length": length})) for length in ("knee", "mid_calf")
    )
    assert without["sides"].endswith("from the waist to the hem.")
    assert "to the top of the slit" in slit["sides"]
    assert slit["hem"].startswith("Turn the edges of both slits in by 1.5 cm")
    assert without["hem"].startswith("Turn the hem up once, by 1.5 cm.")


def seen(found: SetOut) -> set[str]:
    assert found.after_cut is not None
    return {row.seen for row in found.after_cut.try_on}


def test_the_try_on_looks_at_what_the_skirt_has() -> None:
    step = "The hem holds back a long step."
    assert step not in seen(set_out(WOMAN))
    assert step in seen(set_out(WOMAN, {"silhouette": "pegged"}))
    assert step in seen(set_out(WOMAN, {"slit": "10 cm"}))
    assert "The casing slides down." in seen(set_out(WOMAN, {"waistband": "turned"}))
    assert "The waistband slides down." in seen(set_out(WOMAN))


def test_a_child_has_no_cord_at_the_waist_and_room_to_grow_is_spoken_of() -> None:
    for style in ({}, {"waistband": "turned"}):
        found = draft(CHILD, style)
        caution = next(check for check in found.checks if check.id == "child_waist")
        assert "cord" in caution.says
        assert caution.rules == "EN 14682"
        assert found.draft.after_cut is not None
        assert any("room to grow" in line for line in found.draft.after_cut.before_cut)
    assert not any(check.id == "child_waist" for check in draft(WOMAN).checks)
    after = set_out(WOMAN).after_cut
    assert after is not None
    assert after.before_cut == ()


def test_the_seam_is_proven_as_far_as_the_hip_pulls_it() -> None:
    """CALC: 96.7 / 79.7 = 21 %; of a band that holds by itself 96.7 / 66.1 = 46 %."""
    for cloth, percent in (({}, 21), ({"stretch_across": 80}, 46)):
        after = set_out(WOMAN, {}, cloth).after_cut
        assert after is not None
        assert f"stretched over the hip by {percent} %" in after.stitch


# ---- as it is worn, and its fields -----------------------------------------------------------------------------------


@pytest.mark.parametrize("waistband", ["casing", "turned"])
@pytest.mark.parametrize("body", ["median woman", "wide hips", "full bust", "man", "child of 6"])
def test_the_worn_skirt_is_as_wide_as_the_waist_at_the_waist_and_never_inside_the_body(
    body: str, waistband: str
) -> None:
    found = set_out(measured_for(BODIES[body], "knit_skirt"), {"waistband": waistband})
    assert found.worn is not None
    level = waist_level(found.body)
    right = [place for place in found.worn.outline if place.x > 0]
    at_waist = min(right, key=lambda place: abs(place.y - level))
    assert at_waist.x == pytest.approx(trunk_half(found.body, level), abs=1.0)
    for place in right:
        if level <= place.y <= level + found.body.waist_to_hip:
            assert place.x >= trunk_half(found.body, place.y) - 0.5
    assert max(place.x for place in right) == pytest.approx(2 * TRUNK * max(
        girth(found, "hip") * 10 / 4, found.points["hem_corner"].x), abs=1.0)  # fmt: skip
    start, end = found.worn.lines[0]
    assert (start.x, start.y) == (-end.x, end.y)
    assert end.y == pytest.approx(level if waistband == "casing" else level + figure(found, "band_height") * 10)
    top = min(place.y for place in found.worn.outline)
    assert top == pytest.approx(level - figure(found, "band_height") * 10 if waistband == "casing" else level)


def test_every_cut_and_every_waist_is_a_case() -> None:
    for key in ("silhouette", "waistband", "fit"):
        field = GARMENT.field(key)
        assert field is not None
        used = {case.style.get(key, field.usual(None)) for case in GARMENT.cases.values()}  # type: ignore[arg-type]
        assert set(field.values) <= used | {"auto"}, key


def test_an_allowance_left_open_is_told_without_the_casing() -> None:
    field = GARMENT.field("allowances.waist")
    assert field is not None
    assert field.drafted is not None
    assert field.drafted(set_out(WOMAN, {"waistband": "turned"})) == 10.0
    assert field.drafted(set_out(WOMAN)) == 10.0


@pytest.mark.parametrize(("apart", "told"), [(19.0, False), (21.0, True)])
def test_the_notch_of_the_hip_gives_way_to_the_top_of_a_slit_less_than_two_centimetres_below_it(apart, told):
    style = {"length": "50 cm"}
    plain = set_out(WOMAN, style)
    side = plain.pieces[0].edge("side").stitch
    hip = next(notch for notch in plain.pieces[0].notches if notch.id == "hip")
    high = max(side.start.y, side.end.y) - hip.inner.y - apart
    found = set_out(WOMAN, {**style, "slit": f"{high:.3f} mm"})
    notches = {notch.id: notch for notch in found.pieces[0].notches}
    assert ("hip" in notches) is told
    assert notches["slit"].inner.y - hip.inner.y == pytest.approx(apart, abs=0.01)
