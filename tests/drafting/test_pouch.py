"""The front pouch: its shares of the quarter and of the hand, where it lies, its opening, and the line on the front.

The shares are those of the rules it was written from: half its foot 0.66 and half its top 0.40 of the quarter at the
bust, its height 1.15 of the hand, its opening at least half the hand and 4.5 cm.
"""

from dataclasses import replace

import pytest

from drafting.contract.judging import Words
from drafting.contract.seams import SetOn
from drafting.contract.set_out import SetOut
from drafting.geometry.point import Point
from drafting.order import prepare, read_order
from drafting.parts.checks import hand_in_pocket
from drafting.parts.pouch import ABOVE_HEM, ALLOWANCE, pouch_of
from drafting.sources import NAPE_ABOVE_SIDE_NECK, scale
from tests.drafting import bodies, rules
from tests.drafting.bodies import BODIES, Data, measured_for
from tests.drafting.test_set_in import PEOPLE

TOPS = ("cut_in_one", "drop_shoulder", "set_in")
POUCH: Data = {"pouch": "front", "length": "hip"}


def set_out(garment: str, who: Data, more: Data | None = None, cloth: Data | None = None) -> SetOut:
    return bodies.set_out(who, {**POUCH, **(more or {})}, cloth, garment=garment)


def corners(found: SetOut) -> list[Point]:
    """The corners of the line on the front, finished, from the side-neck level."""
    front = next(piece for piece in found.pieces if piece.name == "front")
    line = next(guide.line for guide in front.guides if guide.id == "pouch_line")
    across, down = 1 - found.cloth.shrink_across, 1 - found.cloth.shrink_along
    return [Point(place.x * across, (place.y - front.zero) * down) for place in line]


@pytest.mark.parametrize("name", PEOPLE)
def test_it_has_its_shares_of_the_quarter_and_of_the_hand(name: str) -> None:
    found = set_out("set_in", PEOPLE[name])
    quarter = next(girth.girth for girth in found.girths if girth.at == "bust") / 4
    hand = found.body.hand_girth
    top, narrow, ends, wide, foot = corners(found)
    assert (top.x, foot.x) == (pytest.approx(0.0, abs=1e-6), pytest.approx(0.0, abs=1e-6))
    assert wide.x == pytest.approx(0.66 * quarter, abs=0.5)
    assert ends.x == pytest.approx(wide.x)
    assert narrow.x == pytest.approx(0.40 * quarter, abs=0.5)
    assert foot.y - top.y == pytest.approx(1.15 * hand, abs=0.01)
    assert wide.y == pytest.approx(foot.y)
    assert narrow.distance(ends) >= hand / 2 + 45.0 - 0.01
    assert ends.y < foot.y - ALLOWANCE + 1e-6


@pytest.mark.parametrize("garment", TOPS)
def test_it_lies_above_the_hem_and_in_a_long_garment_at_the_waist(garment: str) -> None:
    who = PEOPLE["woman"]
    for length, at_hem in (("56 cm", True), ("ankle", False)):
        found = set_out(garment, who, {"length": length})
        levels = {level.key: level.down for piece in found.pieces[:1] for level in piece.levels}
        front = found.pieces[0]
        top, foot = corners(found)[0], corners(found)[4]
        hem = levels["hem"] - front.zero
        waist = levels["waist"] - front.zero
        usual = hem - ABOVE_HEM * scale(found.body.stature)
        assert foot.y == pytest.approx(min(usual, waist + 0.8 * (foot.y - top.y)), abs=0.05)
        assert (foot.y < usual - 1.0) is not at_hem


def test_an_opening_too_short_for_a_large_hand_reaches_farther_down() -> None:
    body = set_out("set_in", PEOPLE["woman"]).body
    usual = pouch_of(body, 235.0, 400.0, 700.0)
    assert usual.corners[2].y - usual.corners[0].y == pytest.approx(0.7 * usual.height)
    small = pouch_of(replace(body, hand_girth=120.0), 100.0, 400.0, 700.0)
    assert small.opening == pytest.approx(120.0 / 2 + 45.0, abs=0.01)
    assert small.corners[2].y - small.corners[0].y > 0.7 * small.height
    # It never runs past the foot.
    tiny = pouch_of(replace(body, hand_girth=60.0), 50.0, 400.0, 700.0)
    assert tiny.corners[2].y == pytest.approx(tiny.corners[3].y - ALLOWANCE)


def test_the_hand_is_judged_on_both_sides_of_its_limit() -> None:
    found = set_out("set_in", PEOPLE["man"])
    limit = found.body.hand_girth / 2 + 35.0
    for value, result in ((limit, "pass"), (limit - 0.1, "warn")):
        found.facts["pouch_opening"] = value
        check = hand_in_pocket.judge(found, Words("cm"))
        assert check is not None
        assert (check.result, check.limit) == (result, pytest.approx(limit))
    assert hand_in_pocket.judge(bodies.set_out(PEOPLE["man"], {}, garment="set_in"), Words("cm")) is None


@pytest.mark.parametrize("garment", ["drop_shoulder", "set_in"])
def test_a_cropped_top_has_no_room_for_it(garment: str) -> None:
    found, problems = read_order(bodies.order(PEOPLE["woman"], {**POUCH, "length": "cropped"}, garment=garment))
    if found is not None:
        problems = prepare(found)[1]
    assert [problem.field for problem in problems if problem.severity == "refuse"] == ["style.pouch"]


@pytest.mark.parametrize("garment", TOPS)
@pytest.mark.parametrize("body", ["child of 6", "full bust", "man"])
def test_it_lies_on_its_line_on_the_front_and_nowhere_else(garment: str, body: str) -> None:
    found = set_out(garment, measured_for(BODIES[body], garment), cloth={"shrink_across": 3, "shrink_along": 6})
    assert found.set_on == (SetOn("pouch", "front", "pouch_line"),)
    rules.what_is_set_on_lies_on_its_host(found)
    back = next(piece for piece in found.pieces if piece.name == "back")
    assert not [guide for guide in back.guides if guide.id == "pouch_line"]
    pouch = next(piece for piece in found.pieces if piece.name == "pouch")
    assert (pouch.cut, pouch.on_fold) == (1, True)
    assert all(edge.turned and edge.allowance == ALLOWANCE for edge in pouch.edges)


def test_a_pouch_beside_its_line_is_seen() -> None:
    found = set_out("set_in", PEOPLE["woman"])
    pouch = next(piece for piece in found.pieces if piece.name == "pouch")
    others = tuple(piece for piece in found.pieces if piece.name != "pouch")
    slipped = replace(found, pieces=(*others, replace(pouch, zero=pouch.zero + 1.0)))
    with pytest.raises(AssertionError, match="does not lie on its line"):
        rules.what_is_set_on_lies_on_its_host(slipped)
    loose = replace(found, set_on=())
    with pytest.raises(AssertionError, match="hangs on nothing"):
        rules.nothing_is_left_over(loose)


@pytest.mark.parametrize("garment", TOPS)
def test_it_is_sewn_on_while_the_front_lies_flat(garment: str) -> None:
    found = set_out(garment, PEOPLE["woman"])
    assert found.after_cut is not None
    order = [step.key for step in found.after_cut.order]
    assert order[0] == "pouch"
    assert "Turn the slanted openings in by 1 cm" in found.after_cut.order[0].says
    plain = bodies.set_out(PEOPLE["woman"], {"length": "hip"}, garment=garment)
    assert plain.set_on == ()
    assert plain.after_cut is not None
    assert "pouch" not in [step.key for step in plain.after_cut.order]


@pytest.mark.parametrize("name", ["child of 6", "tall woman"])
@pytest.mark.parametrize(("more", "refused"), [(-0.5, True), (0.5, False)])
def test_a_garment_that_ends_too_high_for_a_pouch_is_refused(name: str, more: float, refused: bool) -> None:
    """Below the waist lie 0.4 of its height, which is 1.15 of the hand, and 4 cm × scale more as far as the hem."""
    body = bodies.set_out(BODIES[name], garment="drop_shoulder").body
    waist = body.back_neck_point_to_waist + NAPE_ABOVE_SIDE_NECK
    least = waist + 0.4 * 1.15 * body.hand_girth + 40.0 * body.stature / 1630
    _, problems = read_order(
        bodies.order(BODIES[name], {"pouch": "front", "length": f"{least + more:.2f} mm"}, garment="drop_shoulder")
    )
    assert ["too short for a pouch" in problem.line() for problem in problems] == [True] * refused
