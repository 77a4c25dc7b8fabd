"""The flounce of sleeve ends and hems: how deep, how full and how tight it may be, what it opens to, how it is sewn.

Limits stand beside what the rules of the trade give: a radius of 3 cm finished and 1.5 cm cut, a depth of 0.6 of the
sleeve that is left above, as far as the elbow.
"""

from dataclasses import replace
from typing import Any

import pytest

from drafting import checks
from drafting.chalk.plan import plan
from drafting.contract.judging import Words
from drafting.contract.seams import EdgeRun, Seam, off
from drafting.contract.set_out import SetOut
from drafting.order import Result, prepare, read_order
from drafting.parts.checks import flounce_turns
from drafting.parts.flounce import CLEAR, Flounce, Flouncing, can_be_cut, chalked_short, flounce_of
from drafting.parts.flounce_sewing import flounce_sewn
from drafting.parts.flounce_style import deepest_on_sleeve
from drafting.parts.sewing import Say
from tests.drafting import bodies
from tests.drafting.bodies import BODIES, Data

TOPS = ("cut_in_one", "drop_shoulder", "set_in")
HEMS = (*TOPS, "knit_skirt")
SLEEVED: Data = {"sleeve_finish": "flounce"}
HEMMED: Data = {"hem_finish": "flounce"}


def set_out(garment: str, style: Data, cloth: Data | None = None, body: str = "median woman") -> SetOut:
    return bodies.set_out(BODIES[body], style, cloth, garment=garment)


def draft(garment: str, style: Data, cloth: Data | None = None, body: str = "median woman") -> Result:
    return bodies.draft(BODIES[body], style, cloth, garment=garment)


def refused(garment: str, style: Data) -> set[str]:
    """The fields at which a style is refused."""
    found, problems = read_order(bodies.order(BODIES["median woman"], style, garment=garment))
    if found is not None:
        problems = prepare(found)[1]
    return {problem.field for problem in problems if problem.severity == "refuse"}


def figure(found: SetOut | Result, at: str) -> float:
    return next(one.value for one in (found.draft if isinstance(found, Result) else found).figures if one.at == at)


def girth(found: SetOut, at: str) -> float:
    return next(one.girth for one in found.girths if one.at == at)


def a_flounce(**more: Any) -> Flounce:
    usual = {
        "role": "sleeve", "ring": 260.0, "seam": 260.0, "depth": 150.0, "fullness": 0.5, "parts": 1, "garment": 2,
        "allowance": 10.0,
    }  # fmt: skip
    return Flounce(**{**usual, **more})


@pytest.mark.parametrize("garment", TOPS)
def test_a_sleeve_is_shorter_by_its_flounce_and_as_long_as_asked_with_it(garment: str) -> None:
    plain = set_out(garment, {"sleeve_length": "50 cm"})
    found = set_out(garment, {"sleeve_length": "50 cm", **SLEEVED, "sleeve_flounce_depth": "12 cm"})
    asked = {one.key: one for one in found.asked}
    assert figure(found, "sleeve_flounce_depth") == pytest.approx(120.0)
    assert asked["sleeve_length"].asked == pytest.approx(500.0)
    assert asked["sleeve_flounce_depth"].asked == pytest.approx(120.0)
    assert girth(found, "sleeve_flounce") == pytest.approx(girth(found, "sleeve_end"), abs=0.01)
    assert girth(found, "sleeve_flounce_hem") > girth(found, "sleeve_flounce") + 370.0  # π·12 cm
    assert girth(found, "sleeve_end") > girth(plain, "sleeve_end")  # the arm is thicker there
    assert {piece.name: piece.cut for piece in found.pieces}["sleeve_flounce"] == 2


@pytest.mark.parametrize("garment", HEMS)
def test_a_hem_is_shorter_by_its_flounce_and_as_long_as_asked_with_it(garment: str) -> None:
    style: Data = {"length": "knee", **HEMMED, "hem_flounce_depth": "20 cm"}
    plain, found = set_out(garment, {"length": "knee"}), set_out(garment, style)
    assert figure(found, "length") == pytest.approx(figure(plain, "length"))
    level = next(one for one in found.pieces[0].levels if one.ends).down
    before = next(one for one in plain.pieces[0].levels if one.ends).down
    assert before - level == pytest.approx(200.0, abs=1.0)
    assert found.facts["hem_above_floor"] == pytest.approx(plain.facts["hem_above_floor"])
    assert found.facts["slit"] == 0.0
    assert not found.pieces[0].edge("hem").turned
    assert plain.pieces[0].edge("hem").turned
    assert girth(found, "hem_flounce_hem") == pytest.approx(girth(found, "hem_flounce") + 3.14159 * 200, abs=1.0)


@pytest.mark.parametrize(("full", "parts"), [
    ("quarter", 1), ("half", 1), ("three_quarter", 2), ("full", 2), ("one_and_half", 3), ("double", 4),
])  # fmt: skip
def test_a_part_is_half_a_circle_at_most(full: str, parts: int) -> None:
    found = set_out("drop_shoulder", {**HEMMED, "hem_flounce_fullness": full}, {"width": "240 cm"})
    piece = next(piece for piece in found.pieces if piece.name == "hem_flounce")
    assert piece.cut == parts


def test_a_flounce_too_wide_for_the_cloth_is_cut_in_more_parts() -> None:
    style: Data = {**HEMMED, "hem_girth": "200 cm", "length": "ankle"}
    wide, narrow = (set_out("drop_shoulder", style, {"width": wide}) for wide in ("240 cm", "140 cm"))
    cut = [next(piece.cut for piece in found.pieces if piece.name == "hem_flounce") for found in (wide, narrow)]
    assert cut == [1, 2]
    half = next(piece for piece in narrow.pieces if piece.name == "hem_flounce")
    assert 2 * half.width <= narrow.cloth.usable_width


@pytest.mark.parametrize(("change", "passes"), [
    ({"seam": 30.0 * 3.14159266}, True),
    ({"seam": 29.9 * 3.14159265}, False),
    ({"allowance": 67.7}, True),  # r is 82.76
    ({"allowance": 67.8}, False),
])  # fmt: skip
def test_the_radius_is_judged_finished_and_as_it_is_cut(change: Data, passes: bool) -> None:
    """3 cm finished, and cut as much as shears follow, 1.5 cm."""
    cloth = set_out("drop_shoulder", {}).cloth
    assert can_be_cut(a_flounce(**change), cloth) is passes


def test_on_cloth_that_shrinks_the_smaller_of_both_radii_is_cut() -> None:
    plain = set_out("drop_shoulder", {}).cloth
    shrunk = replace(plain, shrink_across=0.05, shrink_along=0.1)
    made = a_flounce()
    assert made.cut_radius(plain) == pytest.approx(made.radius - 10.0)
    assert made.cut_radius(shrunk) == pytest.approx(made.radius / 0.95 - 10.0)


def test_a_tight_flounce_is_stopped_and_told_what_helps() -> None:
    found = draft("set_in", {**SLEEVED, "sleeve_flounce_fullness": "double"})
    check = next(one for one in found.checks if one.id == "flounce_turns")
    assert (check.result, found.draft.refused) == ("stop", ("flounce_turns",))
    assert check.value == pytest.approx(found.draft.facts["flounce_radius"])
    assert check.value < 30.0
    full: Data = {**SLEEVED, "sleeve_flounce_fullness": "full"}
    assert draft("set_in", full, body="child of 6").draft.refused == ("flounce_turns",)
    gathered = draft("set_in", {**full, "sleeve_flounce_seam": "gathered"}, body="child of 6")
    assert gathered.draft.refused == ()


def test_the_allowance_that_leaves_too_small_a_cut_radius_is_named() -> None:
    found = set_out("set_in", {**SLEEVED, "allowances": {"sleeve_end": "5.9 cm"}})
    check = flounce_turns.judge(found, Words("cm"))
    assert check is not None
    assert check.result == "stop"
    assert "cut with a radius of" in check.says
    assert flounce_turns.judge(set_out("set_in", {}), Words("cm")) is None


def test_ways_out_belong_to_the_flounce_that_there_is() -> None:
    sleeve = set_out("set_in", {**SLEEVED, "sleeve_flounce_fullness": "full"})
    offered = {way.key: list(way.values(sleeve)) for way in flounce_turns.WAYS}
    assert offered["style.sleeve_flounce_fullness"] == ["three_quarter", "half", "quarter"]
    assert offered["style.sleeve_flounce_seam"] == ["gathered"]
    assert offered["style.hem_flounce_seam"] == offered["style.hem_flounce_fullness"] == []
    assert offered["style.allowances.hem"] == []
    gathered = set_out("set_in", {**SLEEVED, "sleeve_flounce_seam": "gathered"})
    assert list(flounce_turns.WAYS[0].values(gathered)) == []


@pytest.mark.parametrize("garment", TOPS)
def test_a_flounce_deeper_than_the_sleeve_takes_is_held_and_told(garment: str) -> None:
    """0.6 of what is left of the sleeve above it, as far as the elbow, half the arm and 2 cm."""
    elbow = 0.6 * (546 / 2 + 20)
    style = {**SLEEVED, "sleeve_length": "wrist"}
    deep, fits = (set_out(garment, {**style, "sleeve_flounce_depth": f"{elbow + more:.2f} mm"}) for more in (0.5, -0.5))
    told = [one for one in deep.adjusted if one.key == "sleeve_flounce_depth"]
    assert [(round(one.before, 1), round(one.after, 1)) for one in told] == [(round(elbow + 0.5, 1), round(elbow, 1))]
    assert figure(deep, "sleeve_flounce_depth") == pytest.approx(elbow)
    assert not [one for one in fits.adjusted if one.key == "sleeve_flounce_depth"]


def test_of_a_short_sleeve_as_much_is_left_as_its_flounce_asks_for() -> None:
    body = set_out("set_in", {}).body
    deepest = deepest_on_sleeve(body, 240.0)
    assert deepest == pytest.approx(0.6 * (240.0 - deepest))


@pytest.mark.parametrize("garment", ["drop_shoulder", "set_in"])
def test_a_cropped_top_has_no_room_for_a_flounce_at_its_hem(garment: str) -> None:
    assert refused(garment, {**HEMMED, "length": "cropped"}) == {"style.length"}
    assert refused(garment, {**HEMMED, "length": "hip"}) == set()


def test_a_hem_flounce_is_held_to_what_the_length_leaves() -> None:
    found = set_out("set_in", {**HEMMED, "length": "hip", "hem_flounce_depth": "50 cm"})
    told = next(one for one in found.adjusted if one.key == "hem_flounce_depth")
    assert told.before == pytest.approx(500.0)
    assert told.after == pytest.approx(figure(found, "hem_flounce_depth"))
    assert told.after < 300.0


@pytest.mark.parametrize(
    ("garment", "style"),
    [
        *((garment, {**SLEEVED, "sleeve_flounce_depth": "29 cm"}) for garment in TOPS),
        *((garment, {**HEMMED, "hem_flounce_depth": "59 cm"}) for garment in HEMS),
    ],
)
def test_a_depth_that_was_held_is_no_fault_of_the_draft(garment: str, style: Data) -> None:
    found = draft(garment, style)
    (key,) = (key for key in style if key.endswith("depth"))
    (told,) = (one for one in found.draft.adjusted if one.key == key)
    (asked,) = (one.asked for one in found.draft.asked if one.key == key)
    assert asked == told.before > told.after
    assert [check.result for check in found.checks if check.id == "as_asked"] == ["pass"]


def test_a_flounce_opens_to_what_passes_it_by_the_stiffer_way_of_the_cloth() -> None:
    """Its edge is eased in where an arc as long as the sleeve end would not let the hand through, and only there."""
    stiff: Data = {"stretch_across": 40, "stretch_along": 2}
    style: Data = {**SLEEVED, "sleeve_length": "wrist", "sleeve_flounce_depth": "3 cm", "fit": "close"}
    for stretch, eased in ((stiff, True), ({"stretch_across": 60, "stretch_along": 60}, False)):
        found = set_out("set_in", style, stretch)
        over = girth(found, "sleeve_flounce") - girth(found, "sleeve_end")
        assert (over > 1.0) is eased
        one = next(each for each in found.girths if each.at == "sleeve_flounce")
        assert one.passes is not None
        assert one.passes.stretch == pytest.approx(found.cloth.along)
        assert one.passes.opened(one.girth) >= one.passes.needs - 0.05
        seam = next(seam for seam in found.seams if seam.one[0].edge == "sleeve_flounce_edge")
        assert seam.ease == pytest.approx(over, abs=1e-6)


@pytest.mark.parametrize("step", ["0.1", "0.5"])
def test_as_it_is_chalked_its_edge_is_no_shorter_than_reckoned(step: str) -> None:
    for body in ("child of 6", "median woman", "man"):
        for full in ("half", "full"):
            style: Data = {**SLEEVED, "sleeve_flounce_fullness": full, "sleeve_flounce_seam": "gathered"}
            found = bodies.draft(BODIES[body], style, garment="set_in", tape={"unit": "cm", "step": step})
            chalked = {one.at: one.after_rounding for one in found.girths}["sleeve_flounce"]
            told = {one.at: one.girth for one in found.girths}["sleeve_flounce"]
            made = a_flounce(fullness=0.5 if full == "half" else 1.0, parts=1 if full == "half" else 2)
            short = chalked_short(made, found.ready.tape, found.draft.cloth)
            assert told - (chalked or told) <= short + 0.05


def test_it_is_swung_from_one_centre_and_each_arc_is_proved_by_its_straight() -> None:
    found = draft("set_in", SLEEVED)
    number = [piece.name for piece in found.draft.pieces].index("sleeve_flounce")
    planned = plan(found.draft.pieces, found.ready.tape, layout=found.layout).pieces[number]
    swung = [mark for mark in planned.marks if mark.swung is not None]
    assert len(swung) == 2
    made = figure(found, "sleeve_flounce_radius")
    radii = sorted(mark.swung.radius for mark in swung if mark.swung is not None)
    assert radii == pytest.approx([made - 10.0, made + figure(found, "sleeve_flounce_depth") + 10.0], abs=0.01)
    chords = {frozenset((one.start, one.end)) for one in planned.proofs}
    assert frozenset(("sleeve_flounce_fold", "sleeve_flounce_corner")) in chords
    assert frozenset(("sleeve_flounce_hem_corner", "sleeve_flounce_hem_fold")) in chords


def test_quarters_are_marked_on_both_sides_and_nothing_within_half_a_centimetre_of_an_end() -> None:
    found = set_out("set_in", SLEEVED)
    sleeve = next(piece for piece in found.pieces if piece.name == "sleeve")
    edge = sleeve.edge("sleeve_end").stitch.length()
    marks = sorted(notch.at / edge for notch in sleeve.notches if notch.seam == "sleeve_end")
    assert marks == pytest.approx([0.25, 0.5, 0.75])
    ring = next(piece for piece in found.pieces if piece.name == "sleeve_flounce")
    inner = ring.edge("sleeve_flounce_edge").stitch.length()
    assert sorted(notch.at / inner for notch in ring.notches) == pytest.approx([0.0, 0.5])
    hem = set_out("drop_shoulder", {**HEMMED, "hem_flounce_fullness": "one_and_half"})
    shares = {
        piece.name: [notch.at / piece.edge("hem").stitch.length() for notch in piece.notches if notch.seam == "hem"]
        for piece in hem.pieces if piece.name in ("front", "back")
    }  # fmt: skip
    # Sixths of the ring, from the centre back, where a seam is, to the centre front: at 1/6 and at 2/6.
    assert shares["back"] == pytest.approx([1 - 4 / 6])
    assert shares["front"] == pytest.approx([4 / 3 - 1])
    assert CLEAR == 5.0


def test_a_slip_of_one_notch_on_either_side_of_its_seam_is_seen() -> None:
    found = set_out("set_in", SLEEVED)
    pieces = {piece.name: piece for piece in found.pieces}
    seam = next(seam for seam in found.seams if seam.one[0].edge == "sleeve_flounce_edge")
    assert off(seam, pieces) < 0.05
    for name in ("sleeve_flounce", "sleeve"):
        piece = pieces[name]
        slipped = tuple(
            replace(notch, at=notch.at + 3.0) if notch.id == "flounce_quarter" else notch for notch in piece.notches
        )
        assert off(seam, {**pieces, name: replace(piece, notches=slipped)}) == pytest.approx(3.0, abs=0.1)


def test_notches_of_one_name_pair_by_place_in_whichever_order_they_stand() -> None:
    """Of a seam that runs over one edge forwards and back each notch of the other side has its own there."""
    found = set_out("drop_shoulder", SLEEVED)
    pieces = {piece.name: piece for piece in found.pieces}
    seam = next(seam for seam in found.seams if seam.one[0].edge == "sleeve_flounce_edge")
    turned = Seam(seam.other, seam.one, -seam.ease, washed=True)
    assert off(seam, pieces) == pytest.approx(off(turned, pieces))
    assert seam.other == (EdgeRun("sleeve", "sleeve_end"), EdgeRun("sleeve", "sleeve_end", backwards=True))


@pytest.mark.parametrize("garment", HEMS)
def test_it_is_clipped_sewn_on_hung_and_hemmed_in_that_order(garment: str) -> None:
    found = set_out(garment, HEMMED)
    assert found.after_cut is not None
    keys = [step.key for step in found.after_cut.order]
    assert keys.index("hem_flounce") < keys.index("hang")
    assert keys[-1] != "hem"
    says = {step.key: step.says for step in found.after_cut.order}
    assert "clip it up to there every 1.5 cm" in says["hem_flounce"]
    assert "centre back" in says["hem_flounce"]
    assert "turn it up once, by 1 cm" in says["hang"]
    assert any("flounce stands off" in row.seen for row in found.after_cut.try_on)


@pytest.mark.parametrize(("longer", "says"), [(1.0, ""), (20.0, "ease"), (27.0, "gather")])
def test_what_is_longer_than_its_edge_is_eased_and_from_a_tenth_on_gathered(longer: float, says: str) -> None:
    step = flounce_sewn(a_flounce(seam=260.0 + longer), Say("cm"))
    assert ("ease" in step.says, "gather" in step.says) == (says == "ease", says == "gather")


def test_the_middle_of_a_part_lies_at_the_centre_front_whatever_their_number() -> None:
    for parts in range(1, 6):
        made = a_flounce(role="hem", parts=parts)
        assert made.begins_in_seam is (parts % 2 == 1)
        at_front = [seam for share, seam in made.shares if abs(share - 0.5) < 1e-9]
        assert at_front == [False]
        assert a_flounce(parts=parts).begins_in_seam


@pytest.mark.parametrize("garment", TOPS)
def test_what_stands_in_the_way_of_a_flounce_is_refused_in_words(garment: str) -> None:
    for style, key in (
        ({**HEMMED, "slit": "10 cm"}, "style.slit"),
        ({**SLEEVED, "sleeve_flounce_depth": "2 cm"}, "style.sleeve_flounce_depth"),
        ({**SLEEVED, "sleeve_flounce_depth": "31 cm"}, "style.sleeve_flounce_depth"),
        ({**HEMMED, "hem_flounce_depth": "61 cm", "length": "ankle"}, "style.hem_flounce_depth"),
    ):
        assert refused(garment, style) == {key}


def test_a_flounce_that_nobody_asked_for_leaves_no_trace() -> None:
    for garment in HEMS:
        found = set_out(garment, {})
        assert not [key for key in found.facts if "flounce" in key]
        assert not [one for one in found.pieces if "flounce" in one.name]
        assert "flounce_turns" not in {one.id for one in checks.judge(found, "cm")}


def test_the_radius_grows_by_what_is_gathered() -> None:
    cloth = set_out("drop_shoulder", {}).cloth
    tape = set_out("drop_shoulder", {}).chalked
    plain, gathered = (
        flounce_of("sleeve", Flouncing(100.0, 0.5, gathered=g), 240.0, 0.0, 2, 10.0, cloth, tape) for g in (False, True)
    )
    assert gathered.radius == pytest.approx(1.3 * plain.radius)
