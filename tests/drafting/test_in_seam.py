"""Pockets in the side seams: how long the opening is and where it begins, the bag, and the notches of both.

Their rules are those they were written from: the opening is half the hand and 5.5 cm × the scale and 0.1, at most × 1,
and begins 5 cm × scale below the waist; the bag is 15 cm × scale wide and reaches 10 cm × scale below it, but never
past 6 cm below the crotch, and never within 4 cm of the hem. Of the median woman, the median man and a child of 8 the
openings are 14.8, 16.2 and 12.6 cm.
"""

from dataclasses import replace

import pytest
import shapely

from drafting.contract.pieces import Piece
from drafting.contract.seams import LetIn
from drafting.contract.set_out import SetOut
from drafting.garments import garments
from drafting.geometry.path import Path
from drafting.geometry.point import Point
from drafting.geometry.segments import Line
from drafting.order import prepare, read_order
from drafting.parts.in_seam import CLEAR, has_room, in_seam_of, lowest, opening_of
from drafting.sources import BAG_BELOW_LEAST, scale
from tests.drafting import bodies, rules
from tests.drafting.bodies import BODIES, Data, bdims, measured_for
from tests.drafting.test_set_in import PEOPLE, WITHIN

#: Each with a length that has room for it, and its front.
GARMENTS = {"cut_in_one": "knee", "drop_shoulder": "mid_calf", "kaftan": "mid_calf", "knit_skirt": "knee",
            "knit_trousers": "ankle", "set_in": "knee"}  # fmt: skip
#: What hangs from the waist begins there.
FROM_WAIST = ("knit_skirt", "knit_trousers")
#: Levels of crotches as shares of the stature below the waist level: waist height less 0.474 of it, of men 0.477 (from
#: memory).
CROTCH = {"woman": 0.474, "man": 0.477, "child": 0.455}


def set_out(garment: str, who: Data, more: Data | None = None, cloth: Data | None = None) -> SetOut:
    style = {"pockets": "in_seam", "length": GARMENTS[garment], **(more or {})}
    return bodies.set_out(measured_for(who, garment), style, cloth, garment=garment)


def bag_of(found: SetOut) -> Piece:
    """The bag, or that of the front where the back has its own."""
    return next(piece for piece in found.pieces if piece.name.endswith("pocket_bag"))


def host_of(found: SetOut) -> Piece:
    return found.pieces[0]


def side_of(piece: Piece) -> Path:
    """The side of a host or of a bag from its top down, whichever way its edge runs."""
    side = piece.edge("bag_side" if piece.name.endswith("pocket_bag") else "side").stitch
    return side if side.start.y < side.end.y else side.reversed()


def down(piece: Piece, notch: str) -> float:
    """How far down its side from the top a notch lies."""
    place = next(n.inner for n in piece.notches if n.id == notch and n.seam in ("side", "bag_side"))
    return side_of(piece).nearest(place)[0]


def openings(piece: Piece) -> tuple[float, float]:
    """How far down its side the opening begins and ends."""
    return down(piece, "pocket_begins"), down(piece, "pocket_ends")


@pytest.mark.parametrize("garment", GARMENTS)
@pytest.mark.parametrize(("name", "long"), [("woman", 148.0), ("man", 162.0), ("child", 126.0)])
def test_the_openings_of_the_reference_are_found(garment: str, name: str, long: float) -> None:
    if garment in FROM_WAIST and name == "man":
        pytest.skip("the same as of a woman")
    found = set_out(garment, PEOPLE[name])
    for piece in (host_of(found), bag_of(found)):
        begin, end = openings(piece)
        assert end - begin == pytest.approx(long, abs=WITHIN)
        grown = min(1.0, scale(found.body.stature) + 0.1)
        assert end - begin == pytest.approx(found.body.hand_girth / 2 + 55.0 * grown, abs=0.01)
    assert found.facts["pocket_opening"] == pytest.approx(end - begin, abs=0.01)


@pytest.mark.parametrize("garment", GARMENTS)
@pytest.mark.parametrize("body", ["median woman", "full bust", "child of 6", "man"])
def test_it_begins_below_the_waist_and_the_bag_hangs_from_there(garment: str, body: str) -> None:
    found = set_out(garment, BODIES[body])
    host, bag, grown = host_of(found), bag_of(found), scale(found.body.stature)
    begin, end = openings(host)
    side = side_of(host)
    waist = host.zero if garment in FROM_WAIST else host.level("waist")
    hip = down(host, "hip")
    begins = side.at_length(begin)[0].y - waist
    # Five centimetres below the waist, but for an end that would lie beside the notch of the hip.
    assert begins == pytest.approx(50.0 * grown, abs=0.1 if abs(end - hip) > CLEAR + 0.1 else CLEAR + 1.0)
    assert min(abs(begin - hip), abs(end - hip)) >= CLEAR - 0.1
    across = bag.edge("bag_outer").stitch.start.x - max(p.x for p in _ends(bag))
    assert across == pytest.approx(150.0 * grown, abs=0.01)
    own_begin, own_end = openings(bag)
    assert own_begin == pytest.approx(15.0 * grown, abs=0.01)
    assert side_of(bag).length() - own_end == pytest.approx(100.0 * grown, abs=0.01)


def _ends(bag: Piece) -> tuple[Point, Point]:
    side = bag.edge("bag_side").stitch
    return side.start, side.end


@pytest.mark.parametrize("garment", ["kaftan", "knit_skirt", "knit_trousers"])
def test_no_bag_reaches_farther_than_six_centimetres_below_the_crotch(garment: str) -> None:
    for person in bdims()[::60]:
        found = set_out(garment, person)
        host, body = host_of(found), found.body
        foot = side_of(host).at_length(openings(host)[1] + 100.0 * scale(body.stature))[0].y
        waist = host.zero if garment in FROM_WAIST else host.level("waist")
        crotch = body.waist_height - CROTCH[body.kind] * body.stature
        assert foot - waist <= crotch + 60.0


@pytest.mark.parametrize("garment", GARMENTS)
@pytest.mark.parametrize("body", ["median woman", "child of 6"])
def test_bags_lie_on_the_sides_in_cloth_that_shrinks(garment: str, body: str) -> None:
    found = set_out(garment, BODIES[body], cloth={"shrink_across": 3, "shrink_along": 6})
    hosts = ("panel",) if garment == "knit_skirt" else ("front", "back")
    own = garment == "knit_trousers"
    assert found.let_in == tuple(
        LetIn(f"{host}_pocket_bag" if own else "pocket_bag", "bag_side", host, "side", "pocket_begins", "pocket_ends")
        for host in hosts
    )
    rules.what_is_let_in_lies_on_its_seam(found)
    assert [piece.cut for piece in found.pieces if piece.name.endswith("pocket_bag")] == ([2, 2] if own else [4])


def test_a_short_garment_takes_from_the_bag_below_the_opening() -> None:
    body = set_out("set_in", PEOPLE["woman"]).body
    grown, opening = scale(body.stature), opening_of(body)
    side = Path((Line(Point(240.0, 400.0), Point(240.0, 1400.0)),))

    def below(low: float) -> float:
        bag = in_seam_of(body, 400.0, low, side, 15.0, 900.0)
        return bag.side.end.y - (400.0 + 50.0 * grown + opening)

    end = 400.0 + 50.0 * grown + opening
    assert below(1300.0) == pytest.approx(100.0 * grown)
    assert below(end + 70.0) == pytest.approx(70.0)
    # Four centimetres above the hem, two above a slit.
    assert lowest(1000.0, 0.0) == 960.0
    assert lowest(1000.0, 300.0) == 680.0
    assert lowest(1000.0, 10.0) == 960.0


def test_there_is_room_down_to_the_least_of_a_bag_and_not_a_millimetre_less() -> None:
    body = set_out("set_in", PEOPLE["woman"]).body
    needed = (50.0 + BAG_BELOW_LEAST) * scale(body.stature) + opening_of(body)
    assert has_room(body, 400.0, 400.0 + needed + 0.5)
    assert not has_room(body, 400.0, 400.0 + needed - 0.5)


def test_an_end_beside_the_hip_moves_away_the_shorter_way() -> None:
    body = set_out("set_in", PEOPLE["woman"]).body
    grown, opening = scale(body.stature), opening_of(body)
    side = Path((Line(Point(240.0, 400.0), Point(240.0, 1400.0)),))
    end = 400.0 + 50.0 * grown + opening
    for hip, expected in ((end + 5.0, -10.0), (end - 5.0, 10.0), (end + 20.0, 0.0), (end - 20.0, 0.0)):
        bag = in_seam_of(body, 400.0, 1300.0, side, 15.0, hip)
        assert bag.marks[1][2].y - end == pytest.approx(expected, abs=0.01)


@pytest.mark.parametrize(("garment", "style", "wrong"), [
    ("set_in", {"length": "hip"}, "too short"),
    ("drop_shoulder", {"length": "cropped"}, "too short"),
    ("kaftan", {"length": "hip"}, "too short"),
    ("knit_skirt", {"length": "42 cm", "slit": "25 cm"}, "slits"),
])  # fmt: skip
def test_where_there_is_no_room_it_is_refused(garment: str, style: Data, wrong: str) -> None:
    person = measured_for(PEOPLE["woman"], garment)
    found, problems = read_order(bodies.order(person, {"pockets": "in_seam", **style}, garment=garment))
    if found is not None:
        problems = prepare(found)[1]
    refused = [problem for problem in problems if problem.severity == "refuse"]
    assert [problem.field for problem in refused] == ["style.pockets"]
    assert wrong in refused[0].wrong


def changed(found: SetOut, **changes: object) -> SetOut:
    """The draft with another bag."""
    bag = bag_of(found)
    pieces = tuple(replace(bag, **changes) if piece is bag else piece for piece in found.pieces)  # type: ignore[arg-type]
    return replace(found, pieces=pieces)


def test_a_wrong_bag_is_seen() -> None:
    found = set_out("knit_skirt", PEOPLE["woman"])
    bag = bag_of(found)
    see = rules.what_is_let_in_lies_on_its_seam
    see(found)
    with pytest.raises(AssertionError, match="4 edges take a pocket_bag, and 2 are cut"):
        see(changed(found, cut=2))
    lower = tuple(
        replace(n, inner=n.inner + Point(0.0, 3.0)) if n.id == "pocket_ends" else n for n in bag.notches
    )  # fmt: skip
    with pytest.raises(AssertionError, match="has its notches elsewhere"):
        see(changed(found, notches=lower))
    edges = tuple(replace(e, allowance=10.0) if e.name == "bag_side" else e for e in bag.edges)
    with pytest.raises(AssertionError, match="has another allowance"):
        see(changed(found, edges=edges))
    straight = tuple(
        replace(e, stitch=Path((Line(e.stitch.start, e.stitch.end),))) if e.name == "bag_side" else e
        for e in bag.edges
    )  # fmt: skip
    with pytest.raises(AssertionError, match="beside it"):
        see(changed(found, edges=straight))
    with pytest.raises(AssertionError, match="lies in no seam"):
        see(replace(found, seams=tuple(seam for seam in found.seams if seam.one[0].edge != "side")))
    with pytest.raises(AssertionError, match="bag_side of the pocket_bag hangs loose"):
        rules.nothing_is_left_over(replace(found, let_in=()))
    slit = set_out("knit_skirt", PEOPLE["woman"], {"slit": "10 cm", "length": "mid_calf"})
    see(slit)
    host = host_of(slit)
    assert host.slit is not None
    tall = replace(host, slit=replace(host.slit, high=900.0))
    with pytest.raises(AssertionError, match="below the top of the slit"):
        see(replace(slit, pieces=(tall, *slit.pieces[1:])))


def test_the_bag_is_whole_and_square_where_it_leaves_the_side() -> None:
    found = set_out("knit_skirt", PEOPLE["woman"])
    bag = bag_of(found)
    outline = shapely.Polygon([(p.x, p.y) for p in bag.stitch_line])
    assert outline.is_valid
    side = bag.edge("bag_side").stitch
    for edge, place, along in (("bag_top", 0, side.segments[-1].tangent(1.0)),
                               ("bag_foot", -1, side.segments[0].tangent(0.0))):  # fmt: skip
        away = bag.edge(edge).stitch.segments[place].tangent(0.0)
        assert abs(away.dot(along)) < 1e-6


@pytest.mark.parametrize("garment", GARMENTS)
def test_bags_are_sewn_on_before_the_sides_and_closed_before_the_hem(garment: str) -> None:
    found = set_out(garment, PEOPLE["woman"])
    assert found.after_cut is not None
    order = [step.key for step in found.after_cut.order]
    sides = next(order.index(key) for key in ("sides", "side", "underarm") if key in order)
    assert order[sides - 1 : sides + 2 : 2] == ["pockets", "bags"]
    assert "Leave it open between the notches" in found.after_cut.order[sides].says
    last = [index for index, key in enumerate(order) if key in ("hem", "hems")]
    assert all(index > sides + 1 for index in last)
    assert last
    tape = [one for one in found.after_cut.buy if "pocket openings" in one.what]
    assert [one.length for one in tape] == [pytest.approx(2 * (found.facts["pocket_opening"] + 40.0), abs=0.1)]
    plain = set_out(garment, PEOPLE["woman"], {"pockets": "none"})
    assert plain.after_cut is not None
    assert [key for key in order if key not in ("pockets", "bags")] == [step.key for step in plain.after_cut.order]
    assert plain.let_in == ()


# ---- front and back with sides of their own --------------------------------------------------------------------------


def pair_of(found: SetOut) -> tuple[Piece, Piece]:
    front, back = (piece for piece in found.pieces if piece.name.endswith("pocket_bag"))
    return front, back


@pytest.mark.parametrize("body", ["small woman", "wide hips", "man", "child of 6"])
@pytest.mark.parametrize("style", [{"silhouette": "wide"}, {"waistband": "turned", "waistband_height": "80 mm"}])
def test_each_leg_has_a_bag_for_its_front_and_one_for_its_back(body: str, style: Data) -> None:
    """By shapely: each lies on its own side, and round from side to side both are equally long, as they are sewn."""
    found = set_out("knit_trousers", BODIES[body], style)
    bags, hosts = pair_of(found), found.pieces[:2]
    shapes, rounds = [], []
    for bag, host in zip(bags, hosts, strict=True):
        begin, end = openings(host)
        own_begin, own_end = openings(bag)
        assert own_end - own_begin == pytest.approx(end - begin, abs=0.01)
        edge, its = (shapely.LineString([(p.x, p.y) for p in side_of(piece).flatten(0.005)]) for piece in (bag, host))
        top = side_of(host).at_length(begin - own_begin)[0]
        laid = shapely.affinity.translate(edge, top.x - edge.coords[0][0], top.y - edge.coords[0][1])
        assert max(its.distance(shapely.Point(place)) for place in laid.coords) < 0.05
        assert shapely.Polygon([(p.x, p.y) for p in bag.stitch_line]).is_valid
        rounds.append(sum(bag.edge(name).stitch.length() for name in ("bag_top", "bag_outer", "bag_foot")))
        shapes.append(edge.length)
    assert rounds[0] == pytest.approx(rounds[1], abs=0.05)
    assert shapes[0] == pytest.approx(shapes[1], abs=0.05)
    front, back = (openings(host) for host in hosts)
    assert front == pytest.approx(back, abs=0.05)
    names = {bag.name for bag in bags}
    sewn = [seam for seam in found.seams if {run.piece for run in (*seam.one, *seam.other)} & names]
    assert [({run.piece for run in seam.one}, {run.piece for run in seam.other}) for seam in sewn] == [
        ({"front_pocket_bag"}, {"back_pocket_bag"})
    ]


@pytest.mark.parametrize("style", [{}, {"waistband": "turned", "waistband_height": "80 mm"}])
def test_a_bag_in_trousers_ends_where_the_crotch_lets_it(style: Data) -> None:
    """10 × scale below its opening, or 6 below the crotch where that is higher: under a high casing of a child."""
    child = measured_for(BODIES["child of 6"], "knit_trousers")
    found = set_out("knit_trousers", {**child, "measures": {**child["measures"], "crotch_depth": 20.0}}, style)
    host, bag, grown = host_of(found), bag_of(found), scale(found.body.stature)
    begin, end = openings(host)
    foot = side_of(host).at_length(begin - openings(bag)[0] + side_of(bag).length())[0].y
    free = side_of(host).at_length(end + 100.0 * grown)[0].y
    most = host.level("crotch") + 60.0
    assert foot == pytest.approx(min(free, most), abs=0.1)
    assert (free > most) == bool(style)


def test_the_bags_of_front_and_back_are_not_the_same_where_their_sides_are_not() -> None:
    """Below the crotch the back of a wide leg is wider, so its side leans otherwise, and the width makes up for it."""
    found = set_out("knit_trousers", BODIES["wide hips"], {"silhouette": "wide", "waistband": "turned",
                                                           "waistband_height": "80 mm"})  # fmt: skip
    front, back = pair_of(found)
    widths = [bag.edge("bag_outer").stitch.start.x - max(p.x for p in _ends(bag)) for bag in (front, back)]
    assert 2.0 < widths[1] - widths[0] < 15.0
    assert widths[0] == pytest.approx(150.0 * scale(found.body.stature), abs=0.01)
    assert [figure.value for figure in found.figures if figure.at == "bag_width"] == [pytest.approx(widths[0])]


@pytest.mark.parametrize(
    ("garment", "height"), [("knit_skirt", 80.0), ("knit_trousers", 80.0), ("knit_trousers", 30.0)]
)
def test_a_casing_that_is_turned_in_is_not_sewn_over_the_pockets(garment: str, height: float) -> None:
    """The bag begins below the casing and what lies beyond its stitching; a low casing moves nothing."""
    style = {"waistband": "turned", "waistband_height": f"{height} mm"}
    found = set_out(garment, BODIES["median woman"], style)
    host, bag = host_of(found), bag_of(found)
    side, begin = side_of(host), openings(host)[0]
    grown = scale(found.body.stature)
    turned_in = height + 10.0
    begins = side.at_length(begin)[0].y - host.zero
    assert begins == pytest.approx(max(50.0 * grown, turned_in + 15.0), abs=0.2)
    top = side.at_length(begin - openings(bag)[0])[0].y - host.zero
    assert top >= (turned_in if height == 80.0 else begins - 15.0 * grown) - 0.1
    if height == 80.0:
        assert top == pytest.approx(max(turned_in, begins - 15.0 * grown), abs=0.4)


def test_below_a_casing_an_opening_moves_down_where_it_would_move_up_into_it() -> None:
    body = set_out("set_in", PEOPLE["woman"]).body
    opening = opening_of(body)
    side = Path((Line(Point(240.0, 400.0), Point(240.0, 1400.0)),))
    end = 400.0 + 105.0 + opening
    for hip, expected in ((end + 5.0, 20.0), (end - 5.0, 10.0), (end + 20.0, 0.0)):
        bag = in_seam_of(body, 400.0, 1300.0, side, 15.0, hip, 90.0)
        assert bag.marks[1][2].y - end == pytest.approx(expected, abs=0.01)


@pytest.mark.parametrize(("more", "wrong"), [
    ({"waistband": "turned", "waistband_height": "80 mm"}, "the casing leaves no room"),
    ({}, "the crotch lies too high"),
])  # fmt: skip
def test_legs_with_no_room_above_the_crotch_are_refused(more: Data, wrong: str) -> None:
    """50 × scale or the casing, 10 and 15; the opening; 60 × scale: down to 60 below the crotch, 20 × scale lower."""
    woman = measured_for(PEOPLE["woman"], "knit_trousers")
    plain = set_out("knit_trousers", PEOPLE["woman"])
    body = plain.body
    grown, begins = scale(body.stature), 105.0 if more else 50.0 * scale(body.stature)
    least = begins + opening_of(body) + 60.0 * grown - 60.0 - 20.0 * grown  # the crotch depth
    for off, refused in ((1.0, False), (-1.0, True)):
        measures = {**woman["measures"], "crotch_depth": round((least + off) / 10, 3), "waist_to_hip": 12.0}
        typed = bodies.order({**woman, "measures": measures}, {"pockets": "in_seam", **more}, garment="knit_trousers")
        found, problems = read_order(typed)
        if found is not None:
            problems = prepare(found)[1]
        said = [one for one in problems if one.severity == "refuse"]
        assert bool(said) == refused, (off, said)
        if refused:
            assert [one.field for one in said] == ["style.pockets"]
            assert wrong in said[0].wrong


def test_what_is_said_of_sewing_names_both_bags() -> None:
    found = set_out("knit_trousers", PEOPLE["woman"])
    assert found.after_cut is not None
    says = {step.key: step.says for step in found.after_cut.order}
    assert (
        "Lay a front pocket bag on the side of each front and a back pocket bag on that of each back" in says["pockets"]
    )
    other = set_out("knit_skirt", PEOPLE["woman"])
    assert other.after_cut is not None
    assert "Lay a bag on each side of front and back" in {s.key: s.says for s in other.after_cut.order}["pockets"]
    assert [piece.label for piece in pair_of(found)] == ["Front pocket bag", "Back pocket bag"]


@pytest.mark.parametrize("garment", FROM_WAIST)
def test_an_estimated_hand_is_told_where_an_opening_rests_on_it(garment: str) -> None:
    """Half of it is in the opening; without pockets neither a skirt nor trousers know a hand."""
    person = measured_for(BODIES["median woman"], garment)
    without = {name: value for name, value in person["measures"].items() if name != "hand_girth"}
    for style, told in (({"pockets": "in_seam"}, True), ({}, False)):
        found = bodies.draft({**person, "measures": without, "told": ["wrist_girth"]}, style, garment=garment)
        assert ("hand_girth" in {one.measure for one in found.estimates}) == told
        assert found.told == ("wrist_girth",) * told, "the hand is reckoned from the wrist"


@pytest.mark.parametrize("garment", GARMENTS)
def test_where_the_hand_finds_no_room_pockets_may_be_left_out(garment: str) -> None:
    """A pouch is a way out only of a garment that may have one."""
    (check,) = (one for one in garments()[garment].checks if one.ID == "hand_in_pocket")
    pouch = ["style.pouch"] if garments()[garment].field("pouch") else []
    assert [way.key for way in check.WAYS] == [*pouch, "style.pockets"]
