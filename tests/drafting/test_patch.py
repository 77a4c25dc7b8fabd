"""Patch pockets: their size by the hand and the quarter, where they lie, and the line on the front.

Their rules are those they were written from: half the hand and 6.5 cm × scale wide, at most 0.62 of the quarter at the
bust and never less than half the hand and 3 cm; 1.15 times as deep; at least 4 cm × scale above the hem, 3 cm from the
side and 2 cm from the centre.
"""

from dataclasses import replace

import pytest

from drafting.contract.judging import Words
from drafting.contract.seams import SetOn
from drafting.contract.set_out import SetOut
from drafting.geometry.point import Point
from drafting.order import prepare, read_order
from drafting.parts.checks import hand_in_pocket
from drafting.parts.patch import Patch, patch_of
from drafting.sources import scale
from tests.drafting import bodies, rules
from tests.drafting.bodies import BODIES, Data, measured_for
from tests.drafting.test_set_in import PEOPLE

GARMENTS = ("cut_in_one", "drop_shoulder", "kaftan", "set_in")
PATCH: Data = {"pockets": "patch", "length": "hip"}


def set_out(garment: str, who: Data, more: Data | None = None, cloth: Data | None = None) -> SetOut:
    return bodies.set_out(measured_for(who, garment), {**PATCH, **(more or {})}, cloth, garment=garment)


def corners(found: SetOut) -> list[Point]:
    """The corners of the line on the front, finished, from the side-neck level."""
    front = next(piece for piece in found.pieces if piece.name == "front")
    line = next(guide.line for guide in front.guides if guide.id == "patch_line")
    across, down = 1 - found.cloth.shrink_across, 1 - found.cloth.shrink_along
    return [Point(place.x * across, (place.y - front.zero) * down) for place in line]


@pytest.mark.parametrize("garment", GARMENTS)
@pytest.mark.parametrize("name", PEOPLE)
def test_it_is_as_wide_as_hand_and_quarter_say_and_so_much_deeper(garment: str, name: str) -> None:
    found = set_out(garment, PEOPLE[name])
    half, grown = found.body.hand_girth / 2, scale(found.body.stature)
    inner_top, inner_foot, outer_foot, outer_top = corners(found)
    wide, deep = outer_top.x - inner_top.x, inner_foot.y - inner_top.y
    assert (inner_foot.x, outer_foot.x) == (pytest.approx(inner_top.x), pytest.approx(outer_top.x))
    assert (outer_top.y, outer_foot.y) == (pytest.approx(inner_top.y), pytest.approx(inner_foot.y))
    assert half + 30.0 - 1e-6 <= wide <= half + 65.0 * grown + 1e-6
    front = found.pieces[0]
    hem = (front.level("hem") - front.zero) * (1 - found.cloth.shrink_along)
    waist = (front.level("waist") - front.zero) * (1 - found.cloth.shrink_along)
    assert inner_foot.y <= hem - 40.0 * grown + 0.5
    assert inner_top.y >= waist + 10.0 * grown - 0.5
    if inner_top.y > waist + 10.0 * grown + 0.5:
        assert deep == pytest.approx(1.15 * wide, abs=0.01)
    else:
        assert 0.8 * wide <= deep <= 1.15 * wide
    assert inner_top.x >= 20.0 - 1e-6
    stitch = front.edge("side").stitch
    side = [stitch.at_length(float(at))[0] for at in range(int(stitch.length()))]
    levels = (inner_top.y / (1 - found.cloth.shrink_along) + front.zero,
              inner_foot.y / (1 - found.cloth.shrink_along) + front.zero)  # fmt: skip
    beside = min(place.x for place in side if levels[0] <= place.y <= levels[1])
    assert beside - outer_top.x >= 30.0 - 1e-6 or wide == pytest.approx(half + 30.0)


def test_reference_figures_of_a_loose_quarter() -> None:
    """Where the quarter leaves room: half the hand and 6.5 cm; where it does not, 0.62 of it; never under 3 cm more."""
    body = set_out("set_in", PEOPLE["woman"]).body
    half, grown = body.hand_girth / 2, scale(body.stature)
    loose = patch_of(body, 400.0, 400.0, 1000.0, lambda level: 420.0)
    assert loose.width == pytest.approx(half + 65.0 * grown)
    assert loose.depth == pytest.approx(1.15 * loose.width)
    assert loose.top == pytest.approx(400.0 + 50.0 * grown)
    assert loose.inner - 20.0 == pytest.approx(420.0 - 30.0 - loose.outer)
    close = patch_of(body, 230.0, 400.0, 1000.0, lambda level: 240.0)
    assert close.width == pytest.approx(0.62 * 230.0)
    tight = patch_of(body, 190.0, 400.0, 1000.0, lambda level: 240.0)
    assert tight.width == pytest.approx(half + 30.0)
    waisted = patch_of(body, 230.0, 400.0, 1000.0, lambda level: 185.0)
    assert waisted.width == pytest.approx(185.0 - 30.0 - 20.0)
    assert waisted.inner == pytest.approx(20.0)


def test_a_short_garment_moves_it_up_first_and_then_makes_it_less_deep() -> None:
    body = set_out("set_in", PEOPLE["woman"]).body
    grown = scale(body.stature)

    def pocket(hem: float) -> Patch:
        return patch_of(body, 400.0, 400.0, hem, lambda level: 420.0)

    usual = pocket(1000.0)
    moved = pocket(400.0 + 30.0 * grown + usual.depth + 40.0 * grown)
    assert moved.top == pytest.approx(400.0 + 30.0 * grown)
    assert moved.depth == pytest.approx(usual.depth)
    short = pocket(400.0 + 10.0 * grown + usual.depth - 15.0 + 40.0 * grown)
    assert short.top == pytest.approx(400.0 + 10.0 * grown)
    assert short.depth == pytest.approx(usual.depth - 15.0)


def test_the_hand_is_judged_on_both_sides_of_its_limit() -> None:
    found = set_out("set_in", PEOPLE["man"])
    limit = found.body.hand_girth / 2 + 35.0
    for value, result in ((limit, "pass"), (limit - 0.1, "warn")):
        found.facts["pocket_opening"] = value
        check = hand_in_pocket.judge(found, Words("cm"))
        assert check is not None
        assert (check.result, check.limit) == (result, pytest.approx(limit))
    # Of two kinds of pocket the smaller opening is judged.
    found.facts["pouch_opening"] = limit - 5.0
    check = hand_in_pocket.judge(found, Words("cm"))
    assert check is not None
    assert check.value == pytest.approx(limit - 5.0)
    assert "the pouch" in check.says


def test_what_is_judged_is_the_opening_of_the_piece() -> None:
    found = set_out("kaftan", PEOPLE["woman"])
    pocket = next(piece for piece in found.pieces if piece.name == "patch_pocket")
    assert found.facts["pocket_opening"] == pytest.approx(pocket.edge("patch_top").stitch.length())


@pytest.mark.parametrize(("garment", "style", "field"), [
    ("drop_shoulder", {"pockets": "patch", "length": "cropped"}, "style.pockets"),
    ("set_in", {"pockets": "patch", "pouch": "front"}, "style.pockets"),
    ("cut_in_one", {"pockets": "patch", "pouch": "front"}, "style.pockets"),
])  # fmt: skip
def test_where_there_is_no_room_it_is_refused(garment: str, style: Data, field: str) -> None:
    found, problems = read_order(bodies.order(PEOPLE["woman"], style, garment=garment))
    if found is not None:
        problems = prepare(found)[1]
    assert [problem.field for problem in problems if problem.severity == "refuse"] == [field]


@pytest.mark.parametrize("garment", GARMENTS)
@pytest.mark.parametrize("body", ["child of 6", "full bust", "man"])
def test_it_lies_on_its_line_on_either_half_of_the_front(garment: str, body: str) -> None:
    found = set_out(garment, BODIES[body], cloth={"shrink_across": 3, "shrink_along": 6})
    assert found.set_on == (SetOn("patch_pocket", "front", "patch_line"),)
    rules.what_is_set_on_lies_on_its_host(found)
    back = next(piece for piece in found.pieces if piece.name == "back")
    assert not [guide for guide in back.guides if guide.id == "patch_line"]
    pocket = next(piece for piece in found.pieces if piece.name == "patch_pocket")
    assert (pocket.cut, pocket.on_fold) == (2, False)
    assert all(edge.turned for edge in pocket.edges)
    assert [edge.allowance for edge in pocket.edges] == [25.0, 10.0, 10.0, 10.0]


def test_a_pocket_that_is_cut_once_or_larger_than_its_line_is_seen() -> None:
    found = set_out("set_in", PEOPLE["woman"])
    pocket = next(piece for piece in found.pieces if piece.name == "patch_pocket")
    others = tuple(piece for piece in found.pieces if piece.name != "patch_pocket")
    once = replace(found, pieces=(*others, replace(pocket, cut=1)))
    with pytest.raises(AssertionError, match="is cut 1 times"):
        rules.what_is_set_on_lies_on_its_host(once)
    wider = set_out("set_in", PEOPLE["man"])
    other = next(piece for piece in wider.pieces if piece.name == "patch_pocket")
    with pytest.raises(AssertionError, match="does not lie on its line"):
        rules.what_is_set_on_lies_on_its_host(replace(found, pieces=(*others, replace(other, zero=pocket.zero))))


@pytest.mark.parametrize("garment", GARMENTS)
def test_they_are_sewn_on_before_the_sides_and_seen_on_the_person(garment: str) -> None:
    found = set_out(garment, PEOPLE["woman"])
    plain = bodies.set_out(measured_for(PEOPLE["woman"], garment), {"length": "hip"}, garment=garment)
    assert found.after_cut is not None
    assert plain.after_cut is not None
    order, before = ([step.key for step in each.after_cut.order if each.after_cut] for each in (found, plain))
    assert order.index("pockets") < min(order.index(key) for key in ("side", "sides", "underarm") if key in order)
    assert [key for key in order if key != "pockets"] == before
    assert found.worn is not None
    assert plain.worn is not None
    new = [line for line in found.worn.lines if line not in plain.worn.lines]
    assert len(new) == 2
    assert {place.x > 0 for place in new[0]} == {True}
    assert [(-place.x, place.y) for place in new[0]] == [(place.x, place.y) for place in new[1]]
