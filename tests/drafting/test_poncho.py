"""The poncho against closed forms: each half is a sector of a circle, from which the neck is cut."""

import math

import pytest

from drafting.cloth import passing_factor
from drafting.contract.asked import FinishedOutline
from drafting.contract.set_out import SetOut
from drafting.garments import garments
from drafting.order import Result, make, prepare, read_order
from drafting.person.passing import head_needs
from tests.drafting.bodies import BODIES, KNIT, Data

GARMENT = garments()["poncho"]


def ordered(person: Data, style: Data, cloth: Data) -> Data:
    return {
        "garment": GARMENT.name,
        "person": {"name": "", "unit": "cm", **person},
        "style": style,
        "cloth": {**KNIT, "width": "280 cm", **cloth},
    }


def drafted(body: str = "median woman", style: Data | None = None, cloth: Data | None = None) -> SetOut:
    order, problems = read_order(ordered(BODIES[body], style or {}, cloth or {}))
    assert order is not None, problems
    ready, problems = prepare(order)
    assert ready is not None, problems
    return ready.set_out()


def made(body: str = "median woman", style: Data | None = None, cloth: Data | None = None) -> Result:
    order, problems = read_order(ordered(BODIES[body], style or {}, cloth or {}))
    assert order is not None, problems
    return make(order)


@pytest.mark.parametrize("body", ["median woman", "man", "child of 6"])
@pytest.mark.parametrize("slope", [15, 25, 40])
@pytest.mark.parametrize("cloth", [{}, {"shrink_across": 3, "shrink_along": 6}])
def test_each_half_is_a_sector_of_a_circle(body: str, slope: float, cloth: Data) -> None:
    draft = drafted(body, {"shoulder_slope": slope, "length": "60 cm" if body != "child of 6" else "45 cm"}, cloth)
    long = 600.0 if body != "child of 6" else 450.0
    # The seam runs through the side-neck point and is carried on to the fold (NECK_BASE_SHARE of the neck's girth out).
    side_neck = draft.choices.slope, draft.points["arc_centre"].y
    radius = long - side_neck[1]
    outline = FinishedOutline(draft.pieces, draft.cloth)
    for piece in ("front", "back"):
        zero = outline.zero(piece)
        hem, seam = outline.path(piece, "hem"), outline.path(piece, "shoulder")
        for point in hem.flatten(0.01):
            away = math.hypot(point.x, point.y - zero - side_neck[1])
            assert away == pytest.approx(radius, abs=0.05)
        assert hem.length() == pytest.approx(radius * (math.pi / 2 - math.radians(slope)), abs=0.05)
        assert hem.end.x == pytest.approx(0.0, abs=1e-9)
        assert hem.end.y - zero == pytest.approx(long, abs=1e-6)
        run = seam.end - seam.start
        assert math.degrees(math.atan2(run.y, run.x)) == pytest.approx(slope, abs=1e-9)
        # The hem meets the seam and the fold square.
        assert abs(seam.segments[-1].tangent(1.0).dot(hem.segments[0].tangent(0.0))) < 1e-6
        assert abs(hem.segments[-1].tangent(1.0).y) < 1e-6
        # Carried on inward, the seam meets the fold in the centre of the hem.
        meets = seam.start.y - seam.start.x * run.y / run.x
        assert meets - zero == pytest.approx(side_neck[1], abs=1e-6)
    girths = {girth.at: girth.girth for girth in draft.girths}
    assert girths["hem"] == pytest.approx(4 * radius * (math.pi / 2 - math.radians(slope)), abs=0.2)


def ring_of(draft: SetOut) -> float:
    """The neck edge all round, measured on the finished pieces."""
    outline = FinishedOutline(draft.pieces, draft.cloth)
    return 2 * sum(outline.path(piece.name, "neck_edge").length() for piece in draft.pieces)


@pytest.mark.parametrize("neck", ["round", "boat", "v"])
@pytest.mark.parametrize("stretch", [2, 8, 20, 60])
def test_the_neck_is_as_wide_as_the_head_needs_and_no_wider(neck: str, stretch: float) -> None:
    draft = drafted("man", {"neck": neck}, {"stretch_across": stretch})
    narrowest = ring_of(drafted("man", {"neck": neck}, {"stretch_across": 100}))
    opens, needs = ring_of(draft) * passing_factor(draft.cloth.across), head_needs(draft.body)
    assert opens >= needs - 0.05
    assert opens == pytest.approx(needs, abs=0.1) or ring_of(draft) == pytest.approx(narrowest, abs=0.1)
    assert draft.facts["head_ring"] == pytest.approx(ring_of(draft), abs=0.01)


def test_the_least_cloth_widens_a_round_neck_and_not_a_deep_one() -> None:
    widened = [ring_of(drafted("man", {"neck": neck}, {"stretch_across": 2})) for neck in ("round", "v")]
    narrowest = [ring_of(drafted("man", {"neck": neck}, {"stretch_across": 100})) for neck in ("round", "v")]
    assert widened[0] > narrowest[0] + 50
    assert widened[1] == pytest.approx(narrowest[1], abs=5)


def test_cloth_that_gives_too_little_stops_with_ways_out() -> None:
    result = made("child of 6", {"neck": "boat"}, {"stretch_across": 2})
    check = next(check for check in result.checks if check.id == "shoulder_run")
    assert check.result == "stop"
    assert check.ways_out
    assert not result.draft.pieces


def test_the_hands_are_free_or_it_is_said() -> None:
    free = made(style={"length": "hip"})
    assert next(check for check in free.checks if check.id == "hands_free").result == "pass"
    long = made(style={"length": "knee"})
    check = next(check for check in long.checks if check.id == "hands_free")
    assert check.result == "warn"
    reach = next(figure.value for figure in long.draft.figures if figure.at == "along_arm")
    assert check.value == pytest.approx(reach - long.draft.body.arm_length)
    assert check.ways_out, "a shorter one is offered"
    # The seam from the shoulder point on, found anew from its outline.
    half = long.draft.body.shoulder_width / 2
    seam = FinishedOutline(long.draft.pieces, long.draft.cloth).path("front", "shoulder")
    assert reach == pytest.approx((seam.end.x - half) / math.cos(long.draft.choices.slope), abs=1e-6)


def test_front_and_back_are_pinned_together_at_the_shoulder_point() -> None:
    draft = drafted()
    places = [next(n for n in piece.notches if n.id == "shoulder_point").inner for piece in draft.pieces]
    for place in places:
        assert place.x == pytest.approx(draft.body.shoulder_width / 2, abs=1e-6)
    assert draft.seams[0].sides[0][0].edge == draft.seams[0].sides[1][0].edge


def test_a_hem_takes_no_more_than_its_curve_does_and_says_so() -> None:
    draft = drafted(style={"allowances": {"hem": "40 mm"}})
    assert all(piece.edge("hem").allowance == pytest.approx(15.0) for piece in draft.pieces)
    told = next(one for one in draft.adjusted if one.key == "allowances.hem")
    assert (told.before, told.after) == (40.0, 15.0)
    assert not drafted().adjusted


def test_only_the_stature_of_a_grown_person_is_needed() -> None:
    order, _ = read_order(ordered({"kind": "woman", "measures": {"stature": 165}}, {}, {}))
    assert order is not None
    result = make(order, with_ways_out=False)
    assert result.layout is not None
    assert not {"bust_girth", "hip_girth", "waist_girth"} & set(GARMENT.asked_of("woman"))


def test_it_is_seen_as_long_and_as_wide_as_it_is() -> None:
    for length in ("waist", "knee"):
        draft = drafted(style={"length": length})
        worn = draft.worn
        assert worn is not None
        assert max(place.y for place in worn.outline) == pytest.approx(draft.choices.length, abs=1.0)
        reach = next(figure.value for figure in draft.figures if figure.at == "along_arm")
        widest = max(place.x for place in worn.outline)
        assert widest == pytest.approx(worn.shoulder.x + reach * math.cos(worn.arm), abs=1.0)


def test_the_hem_is_swung_from_the_place_where_seam_and_fold_would_meet() -> None:
    result = made()
    assert result.plan is not None
    for piece in result.draft.pieces:
        swing = piece.edge("hem").swing
        assert swing is not None
        assert (swing.centre.x, swing.centre.y) == pytest.approx((0.0, 0.0), abs=1e-9), "it is the 0 of the piece"
        assert swing.stitch == pytest.approx(result.draft.choices.length - result.draft.points["arc_centre"].y)
        assert swing.cut == pytest.approx(swing.stitch + 15.0)
    said = " ".join(step.says for step in result.plan.steps if step.piece == "front")
    assert "Hold the tape at 0 and swing 70.0" in said
    assert not any(mark.id.startswith("hem_curve") for mark in result.plan.pieces[0].marks)


def test_a_wide_neck_on_a_steep_seam_has_no_shoulder_level_above_it() -> None:
    steep = drafted("man", {"neck": "boat", "shoulder_slope": 40})
    assert [level.key for level in steep.pieces[0].levels] == ["hem"]
    plain = drafted()
    assert [level.key for level in plain.pieces[0].levels] == ["side_neck", "hem"]
    assert plain.pieces[0].levels[0].ruled, "the shoulder level is ruled across, and the hem is swung"


@pytest.mark.parametrize("neck", ["round", "boat", "v"])
def test_the_neck_is_said_to_be_as_deep_as_each_piece_is_cut_out(neck: str) -> None:
    """A neck lies deeper in front than behind: common practice, no source."""
    draft = drafted(style={"neck": neck})
    said = {figure.at: figure.value for figure in draft.figures}
    outline = FinishedOutline(draft.pieces, draft.cloth)
    front, back = (outline.path(name, "neck_edge") for name in ("front", "back"))
    assert front.start.x == back.start.x == 0.0
    deeper = (front.start.y - front.end.y) - (back.start.y - back.end.y)
    assert deeper > 0
    assert said["front_neck"] - said["back_neck"] == pytest.approx(deeper)
