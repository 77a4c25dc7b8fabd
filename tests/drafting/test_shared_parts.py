"""What several garments say and judge alike, each rule at both sides of its limit, worked out here by hand.

Sewing practice, the bend that shears follow, and the age for small parts: common practice, no source.
"""

from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import pytest

from drafting.cloth import ClothFacts
from drafting.contract.judging import Words
from drafting.contract.set_out import SetOut
from drafting.garments.circle_skirt.sewing import pulled_at_waist
from drafting.order import make
from drafting.parts.checks import cut_radius, shoulder_run
from drafting.parts.judged import MORE_ALONG, NECK_BEND, head_passes
from drafting.parts.legs.edges import steepest
from drafting.parts.reading import StyleReader
from drafting.parts.sewing import Say, bought, needle, small_child
from drafting.parts.skirt import waist_to
from drafting.parts.ways import lengths_for_cloth
from tests.drafting import bodies
from tests.drafting.bodies import BODIES, Data, set_out

CM = Words("cm")


@pytest.fixture(scope="module")
def made() -> SetOut:
    return set_out(BODIES["median woman"], {}, {"width": "150 cm", "stretch_across": 50, "stretch_along": 20})


def on(draft: SetOut, **cloth: float) -> SetOut:
    return replace(draft, cloth=replace(draft.cloth, **cloth))


def test_a_neck_that_is_short_by_less_than_a_tape_shows_passes(made: SetOut) -> None:
    needed = made.body.head_girth + 10.0  # a head and 1 cm, at 80 % of 50 %
    for short, result in ((-0.02, "pass"), (0.02, "pass"), (0.2, "stop")):
        assert head_passes("head_passes_neck", made, (needed - short) / 1.4, CM).result == result, short


def test_more_stretch_along_goes_on_from_the_stretch_along(made: SetOut) -> None:
    assert MORE_ALONG.key == "cloth.stretch_along"
    values = list(MORE_ALONG.values(on(made, across=0.5, along=0.2)))
    assert values[0] == 25
    assert values[-1] == 100


def test_a_neck_bends_half_as_wide_as_the_long_curve_that_shears_follow() -> None:
    assert pytest.approx(7.5) == NECK_BEND


@pytest.mark.parametrize(("radius", "result"), [(15.2, "pass"), (14.8, "warn")])
def test_shears_follow_an_armhole_of_fifteen_millimetres(radius: float, result: str) -> None:
    found = bodies.set_out(BODIES["median woman"], {}, garment="drop_shoulder")
    facts = {"neck_radius": 100.0, "neck_allowance": 0.0, "armhole_radius": radius + 7.0, "armhole_allowance": 7.0}
    told = cut_radius.judge(replace(found, facts={**found.facts, **facts}), CM)
    assert told is not None
    assert told.result == result
    assert told.limit == pytest.approx(15.0)


def test_what_the_cloth_lacks_is_taken_off_front_and_back_alike(made: SetOut) -> None:
    """Front and back lie one after the other, so each loses half, and 2 mm so that it is surely enough."""
    short = replace(on(made, length=1000.0), cloth_needed=1100.0)
    first = lengths_for_cloth(short)[0]
    assert float(str(first).removesuffix(" mm")) == pytest.approx(short.choices.length - 50.0 - 2.0, abs=0.01)
    assert lengths_for_cloth(on(made, length=None)) == []


@pytest.mark.parametrize(("age", "small"), [(2, True), (3, False), (6, False)])
def test_nothing_small_may_come_off_under_three_years(age: int, small: bool) -> None:
    child: Data = {**BODIES["child of 6"], "age": age}
    assert small_child(set_out(child, {}).body) is small


def test_a_grown_person_is_no_small_child(made: SetOut) -> None:
    assert not small_child(made.body)


@pytest.mark.parametrize(
    ("across", "kind"), [(0.0, "ballpoint"), (0.49, "ballpoint"), (0.5, "stretch"), (0.8, "stretch")]
)
def test_the_needle_told_is_the_needle_bought(made: SetOut, across: float, kind: str) -> None:
    cloth: ClothFacts = replace(made.cloth, across=across)
    assert needle(cloth).startswith(f"Take a {kind} needle")
    assert bought(cloth, Say("cm"))[1].what.startswith(f"{kind} needle")


def test_the_reels_asked_for_are_the_reels_bought(made: SetOut) -> None:
    assert "two reels" in bought(made.cloth, Say("cm"), reels="two reels")[0].what


@pytest.mark.parametrize(
    ("seam", "band", "share"), [(800.0, 1000.0, 0.25), (1000.0, 800.0, 0.25), (1100.0, 1200.0, 0.0)]
)
def test_the_hip_pulls_the_shorter_of_waist_seam_and_band(seam: float, band: float, share: float) -> None:
    parts: Any = SimpleNamespace(
        body=SimpleNamespace(hip_girth=1000.0),
        ring=SimpleNamespace(seam=seam),
        waistband=SimpleNamespace(band=SimpleNamespace(length=band)),
    )
    assert pulled_at_waist(parts) == pytest.approx(share)


@pytest.mark.parametrize("panels", ["1", "3"])
def test_an_odd_number_of_panels_has_a_seam_at_the_centre_back(panels: str) -> None:
    """The band's one seam lies on it, as a seam of a waistband belongs behind; its fold lies opposite."""
    style = {"circle": "half", "panels": panels, "length": "mid_thigh"}
    after = bodies.set_out(BODIES["median woman"], style, {"width": "240 cm"}, garment="circle_skirt").after_cut
    assert after is not None
    pinned = next(step.says for step in after.order if step.says.startswith("Pin the waistband"))
    assert "its seam to the centre back seam" in pinned
    assert "its fold to the middle of the front" in pinned


@pytest.mark.parametrize("above", [60, 90])
def test_the_underarm_that_is_told_is_the_one_asked_for(above: int) -> None:
    found = set_out(BODIES["median woman"], {"underarm": "deep", "underarm_above_waist": f"{above} mm"})
    told = {figure.at: figure.value for figure in found.figures}
    assert told["underarm"] == pytest.approx(above)


def test_hem_landmarks_of_a_skirt_lie_where_the_body_has_them() -> None:
    """The ankle-bone lies at 4.5 % of the stature, from memory; mid-calf is half way from there to the knee."""
    body = bodies.set_out(BODIES["median woman"], {}, garment="circle_skirt").body
    assert waist_to(body, "ankle") == pytest.approx(1055.0 - 0.045 * 1628.0)
    assert waist_to(body, "knee") == pytest.approx(1055.0 - 458.0)
    assert waist_to(body, "mid_calf") == pytest.approx(1055.0 - (458.0 + 0.045 * 1628.0) / 2)


def test_wider_cloth_stands_last_among_what_makes_a_garment_go_on_its_cloth() -> None:
    """It alone leaves the garment as it is; common practice, no source, is to use the cloth that is there first."""
    result = make(bodies.read(bodies.order(BODIES["tall woman"], {}, {"width": "140 cm"})))
    offered = next(check for check in result.checks if check.id == "fits_cloth").ways_out
    widths = [any(key == "cloth.width" for key, _ in way.changes) for way in offered]
    assert len(widths) > 1
    assert widths.index(True) == len(widths) - 1


@pytest.mark.parametrize(
    ("given", "found", "wrong"),
    [("9.8 mm", 10.0, "short"), ("10.4 mm", 10.4, ""), ("10.6 mm", 10.5, "long")],
)
def test_a_length_is_refused_on_the_side_of_its_limits_where_it_lies(given: str, found: float, wrong: str) -> None:
    reader = StyleReader("cm")
    assert reader.length("hem", given, 10.0, 10.5) == pytest.approx(found)
    assert [f"too {wrong}" in problem.line() for problem in reader.problems] == [True] * bool(wrong)


@pytest.mark.parametrize(
    ("slope", "chord", "held"),
    [(-0.2, 40.0, 0.0), (0.4, 40.0, 0.4), (121.0, 40.0, 120.0), (0.2, -40.0, 0.0), (-0.4, -40.0, -0.4)],
)
def test_the_slope_of_a_seat_is_held_between_level_and_three_times_its_chord(
    slope: float, chord: float, held: float
) -> None:
    assert steepest(slope, chord) == pytest.approx(held)


@pytest.mark.parametrize(("left", "says"), [(49.0, "The neck is wide: 4.9 cm of shoulder is left beside it."),
                                            (51.0, "5.1 cm of shoulder is left beside the neck.")])  # fmt: skip
def test_a_neck_that_leaves_less_than_five_centimetres_of_shoulder_is_called_wide(left: float, says: str) -> None:
    """Five centimetres by our choice, for a woman of 163 cm; less than can be sewn is a matter of the stop."""
    draft: Any = SimpleNamespace(
        facts={"shoulder_run": left, "shoulder_run_least": 20.0}, body=SimpleNamespace(stature=1630.0)
    )
    found = shoulder_run.judge(draft, CM)
    assert found is not None
    assert (found.result, found.says) == ("pass", says)
