"""An outline that crosses itself: the choice that causes it is named, and the ways out that are offered pass.

Hardly any order crosses; these were found by a search at random over extreme choices on small and unlikely bodies.
"""

from dataclasses import replace
from importlib import import_module

import pytest
from shapely import LineString, Polygon
from shapely.ops import substring

from drafting.checks import outline_simple, ways_of
from drafting.contract.cutting import EdgesDoNotMeetError, FinishedEdge, cut_out
from drafting.contract.judging import Words
from drafting.contract.set_out import SetOut
from drafting.garments import garments
from drafting.geometry.path import Path
from drafting.geometry.point import Point
from drafting.geometry.polyline import own_crossing
from drafting.geometry.segments import Line
from drafting.order import make
from drafting.problems import Shaping, Try
from drafting.ways_out.find import changed
from tests.drafting import from_fields
from tests.drafting.bodies import BODIES, Data, order, read, set_out

whole = import_module("drafting.garments.cut_in_one.set_out")

#: A child as small as a child is drafted, with a figure like a pipe: what is asked has the shortest way to go.
SMALL: Data = {
    "kind": "child",
    "age": 4,
    "measures": {
        **{"stature": 88.3, "bust_girth": 45, "waist_girth": 40, "hip_girth": 45, "neck_girth": 20},
        **{"neck_base_girth": 23, "head_girth": 44, "shoulder_width": 22.1, "back_neck_point_to_waist": 20},
        **{"side_neck_point_to_bust_point": 15, "waist_to_hip": 11.8, "scye_depth": 10.4, "upper_arm_girth": 12.6},
        **{"elbow_girth": 13.1, "wrist_girth": 9, "hand_girth": 11, "arm_length": 28.7, "waist_height": 59.9},
        **{"knee_height": 24.6},
    },
}
SHORT_MAN: Data = {
    "kind": "man",
    "measures": {
        **{"stature": 125.6, "bust_girth": 75.6, "waist_girth": 48, "neck_girth": 22.7, "neck_base_girth": 27.1},
        **{"shoulder_width": 28.1, "back_neck_point_to_waist": 27.3, "side_neck_point_to_bust_point": 20.4},
        **{"scye_depth": 13.7, "wrist_girth": 10.4, "waist_height": 91.5},
    },
}
BROAD_MAN: Data = {
    "kind": "man",
    "measures": {
        **{"stature": 149, "bust_girth": 115.8, "upper_chest_girth": 110.5, "waist_girth": 86.7, "hip_girth": 76.3},
        **{"neck_girth": 32.3, "back_neck_point_to_waist": 26.3, "upper_arm_girth": 21.9, "hand_girth": 20.6},
        **{"waist_height": 84.5, "knee_height": 34.7},
    },
}
GIVING: Data = {"width": "240 cm", "stretch_across": 150, "stretch_along": 100}
SHAPED: Data = {"waist": "shaped", "underarm": "deep"}

#: Orders whose outline crosses, and the choice that causes it.
CROSSED: dict[str, tuple[Data, str]] = {
    "a wide bust over a narrow waist": (
        order(SMALL, {**SHAPED, "overarm_angle": 30, "ease_bust": "384 mm", "ease_waist": "-174 mm"}, GIVING),
        "ease_bust",
    ),
    "the hip is asked for too": (
        order(SHORT_MAN, {**SHAPED, "overarm_angle": 0, "ease_bust": "569 mm", "ease_waist": "-202 mm",
                          "ease_hip": "416 mm"}, GIVING),
        "ease_bust",
    ),
    "the hip is asked for most": (
        order(SMALL, {**SHAPED, "overarm_angle": 30, "ease_bust": "384 mm", "ease_waist": "-174 mm",
                      "ease_hip": "500 mm", "hem_girth": "1100 mm", "flare": "slight"}, GIVING),
        "ease_bust",
    ),
    "a broad man": (
        order(BROAD_MAN, {**SHAPED, "overarm_angle": 0, "ease_bust": "523 mm", "ease_waist": "-215 mm",
                          "ease_hip": "-75 mm"}, GIVING),
        "ease_bust",
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", CROSSED)
def test_the_cause_is_named_and_every_way_out_passes(name: str) -> None:
    typed, key = CROSSED[name]
    asked = read(typed)
    result = make(asked)
    check = next(check for check in result.checks if check.id == "outline_simple")
    assert check.result == "stop"
    assert result.plan is None
    assert f"({key})" in check.says
    assert "measures" not in check.says
    assert check.ways_out
    # The choice that is named is the cause: left to the draft, nothing crosses.
    assert any(changes[0] == f"style.{key}" for way in check.ways_out for changes in way.changes)
    stops = {c.id for c in result.checks if c.result == "stop"}
    plain = asked.model_dump(mode="json")
    for way in check.ways_out:
        data = plain
        for changed_key, value in way.changes:
            data = changed(data, changed_key, value)
        after = make(read(data), with_ways_out=False)
        again = next(c for c in after.checks if c.id == "outline_simple")
        assert again.result == "pass", way.says
        assert {c.id for c in after.checks if c.result == "stop"} <= stops, way.says


def test_the_two_between_which_the_side_hollows_most_come_first_and_of_them_the_one_farther_from_usual() -> None:
    def first(style: Data) -> list[str]:
        draft = set_out(BODIES["median woman"], {"waist": "shaped", **style}, {"stretch_across": 60})
        return [shaping.key for shaping in draft.shapings]

    eases = ("ease_bust", "ease_waist", "ease_hip")

    def asked(*amounts: int) -> Data:
        return {key: f"{amount} mm" for key, amount in zip(eases, amounts, strict=True)}

    assert first(asked(300, -20, 200)) == ["ease_bust", "ease_waist", "ease_hip"]
    assert first(asked(100, -120, 200)) == ["ease_waist", "ease_bust", "ease_hip"]
    assert first(asked(-60, 0, 500)) == ["ease_hip", "ease_waist", "ease_bust"]
    assert first(asked(-250, -120, 50)) == ["ease_waist", "ease_hip", "ease_bust"]


def test_what_was_not_chosen_is_not_named() -> None:
    assert set_out(BODIES["median woman"], {}, GIVING).shapings == ()


def test_the_sentences_are_in_the_unit_of_the_person() -> None:
    typed, _ = CROSSED["a wide bust over a narrow waist"]
    for unit, other in (("in", " cm"), ("cm", " in")):
        measures = {key: f"{value} cm" for key, value in typed["person"]["measures"].items()}
        person = {**typed["person"], "unit": unit, "measures": measures}
        step = {"in": "1/8", "cm": "0.5"}[unit]
        result = make(read({**typed, "person": person, "tape": {"unit": unit, "step": step}}))
        check = next(check for check in result.checks if check.id == "outline_simple")
        said = [way.says.split(" It brings")[0] for way in check.ways_out]
        assert any(unit in text.split() for text in said), said
        assert not any(other in text for text in said), said


# --- Which choice is named, by what crosses ---------------------------------------------------------------------------


def bow_tie(draft: SetOut, edge: str, down: float) -> SetOut:
    """The draft with a small loop in the cutting line of an edge of the front, `down` below the side-neck level."""
    piece = draft.pieces[0]
    at = next(e for e in piece.edges if e.name == edge)
    level = piece.level("side_neck") + down
    place = min(range(1, len(at.cut) - 1), key=lambda i: abs(at.cut[i].y - level))
    p = at.cut[place]
    loop = (p, p + Point(4, 4), p + Point(4, 0), p + Point(0, 4))
    cut = (*at.cut[:place], *loop, *at.cut[place + 1 :])
    index = piece.cut_line.index(p)
    line = (*piece.cut_line[:index], *loop, *piece.cut_line[index + 1 :])
    edges = tuple(replace(e, cut=cut) if e is at else e for e in piece.edges)
    return replace(draft, pieces=(replace(piece, edges=edges, cut_line=line), *draft.pieces[1:]))


@pytest.mark.parametrize(
    ("edge", "below_waist", "key"),
    [
        ("side", -80, "ease_bust"),
        ("side", 150, "ease_hip"),
        ("hem", 400, "hem_girth"),
        ("neck_top", -400, "neck_half_width"),
        ("shoulder", -330, "neck_half_width"),
        ("sleeve_end", -200, "flare"),
    ],
)
def test_the_choice_that_shapes_the_crossed_edge_is_named(edge: str, below_waist: float, key: str) -> None:
    style = {"ease_bust": "90 mm", "ease_hip": "120 mm", "hem_girth": "1300 mm", "neck_half_width": "118 mm",
             "flare": "slight", "length": "hip"}  # fmt: skip
    draft = set_out(BODIES["median woman"], {**style, "length": "knee"}, GIVING)
    waist = draft.pieces[0].level("waist") - draft.pieces[0].level("side_neck")
    check = outline_simple.judge(bow_tie(draft, edge, waist + below_waist), Words("cm"))
    assert check is not None
    assert check.result == "stop"
    keys = [shaping.key for shaping in draft.shapings if f"({shaping.key})" in check.says]
    if edge == "hem":
        assert keys == ["ease_hip"]  # it lies below the waist and farther from the usual than any other
    else:
        assert keys == [key]


def test_with_nothing_chosen_the_measures_are_named() -> None:
    draft = set_out(BODIES["median woman"], {}, GIVING)
    check = outline_simple.judge(bow_tie(draft, "side", 400), Words("cm"))
    assert check is not None
    assert "Look at the measures again" in check.says
    assert ways_of("outline_simple", draft) == ()


def test_edges_that_do_not_meet_name_their_choice(monkeypatch: pytest.MonkeyPatch) -> None:
    def apart(*given: object) -> object:
        raise EdgesDoNotMeetError("apart", ("side", "hem"))

    monkeypatch.setattr(whole, "pieces", apart)
    draft = set_out(BODIES["median woman"], {"hem_girth": "1300 mm", "neck_lean": 5}, GIVING)
    assert draft.refused == ("outline_simple",)
    check = outline_simple.judge(draft, Words("cm"))
    assert check is not None
    assert "(hem_girth)" in check.says
    assert [way.key for way in ways_of("outline_simple", draft)] == ["style.hem_girth"]


def test_a_choice_that_shapes_both_crossed_edges_comes_first() -> None:
    draft = set_out(BODIES["median woman"], {}, GIVING)
    one, both = (
        Shaping(key, f"It is {key}.", frozenset(edges), ((Try(key, "auto", "Leave it."),),))
        for key, edges in (("one", {"side"}), ("both", {"side", "hem"}))
    )
    crossed = replace(draft, pieces=(), refused=("outline_simple",), crossed=("side", "hem"), shapings=(one, both))
    check = outline_simple.judge(crossed, Words("cm"))
    assert check is not None
    assert check.says == "It is both."
    assert [way.key for way in ways_of("outline_simple", crossed)] == ["style.both", "style.one"]


def test_edges_that_cannot_be_cut_are_named() -> None:
    points = [Point(0, 0), Point(100, 0), Point(100, 0.0), Point(0, 0)]
    edges = [
        FinishedEdge("top", Path((Line(points[0], points[1]),)), 10.0),
        FinishedEdge("hem", Path((Line(points[1], points[0]),)), 10.0, turned=True),
    ]
    with pytest.raises(EdgesDoNotMeetError) as found:
        cut_out(edges, 0.0, 0.0)
    assert found.value.edges == ("top", "hem")


# --- Its parts --------------------------------------------------------------------------------------------------------


def test_where_a_line_crosses_itself() -> None:
    line = [Point(0, 0), Point(10, 0), Point(10, 10), Point(5, 10), Point(5, -5)]
    assert own_crossing(line) == (0, 3, Point(5, 0))
    assert own_crossing(line[:-1]) is None


def test_a_scoop_takes_the_allowance_that_both_its_edges_bear() -> None:
    """The front is the deeper one: judged by the back alone, its cutting line crossed at the fold."""
    style = {"neck_height": "17 mm", "neck_half_width": "64 mm", "shoulder_slope": 28, "overarm_angle": 0,
             "sleeve_length": "86 mm", "allowances": {"shoulder": "12 mm", "neck_top": "60 mm"}}  # fmt: skip
    draft = set_out(BODIES["child of 12"], style, {"stretch_across": 60, "stretch_along": 40})
    check = outline_simple.judge(draft, Words("cm"))
    assert check is not None
    assert check.result == "pass"
    front = draft.pieces[0].edges[0]
    sharpest = max(abs(s.curvature(step / 50)) for s in front.stitch.segments for step in range(51))
    assert front.allowance < 1 / sharpest


@pytest.mark.parametrize("garment", ["kaftan", "knit_skirt", "poncho", "leggings", "knit_trousers"])
def test_instead_of_an_allowance_that_was_given_the_least_in_use_is_tried(garment: str) -> None:
    """A seam of 6 mm is the narrowest that is sewn by hand or machine and not trimmed: common practice, no source."""
    made = garments()[garment]
    keys = [field.key for field in made.fields if field.key.startswith("allowances.")]
    assert keys
    allowances = {key.partition(".")[2]: "25 mm" for key in keys}
    found = set_out(BODIES["median woman"], {"allowances": allowances}, from_fields.GIVING, garment=garment)
    tried = [way for shaping in found.shapings for each in shaping.ways for way in each if shaping.key in keys]
    assert tried
    assert {(way.value, way.length) for way in tried} == {("6.00 mm", 6.0)}


@pytest.mark.parametrize("shoulder", ["6 mm", "8 mm", "12 mm", "15 mm", "20 mm"])
@pytest.mark.parametrize("slope", [12, 20, 28])
@pytest.mark.parametrize("garment", ["set_in", "drop_shoulder"])
def test_a_boat_neck_is_cut_with_any_allowance_of_the_shoulder(garment: str, slope: float, shoulder: str) -> None:
    # Neck and shoulder meet in a blunt point: where one allowance was wider, its cut line ran past that of the other.
    style = {"neck": "boat", "shoulder_slope": slope, "allowances": {"shoulder": shoulder}}
    found = set_out(BODIES["median woman"], style, from_fields.GIVING, garment=garment)
    check = outline_simple.judge(found, Words("cm"))
    assert check is not None
    assert check.result == "pass", check.says
    for piece in found.pieces[:2]:
        cut, sewn = (Polygon([(p.x, p.y) for p in line]) for line in (piece.cut_line, piece.stitch_line))
        assert cut.is_valid
        # Square to its seam the allowance is whole, but beside its ends, where it meets its neighbours'.
        edge = next(each for each in piece.edges if each.name == "shoulder")
        seam = LineString([(p.x, p.y) for p in edge.stitch.flatten(0.05)])
        middle = substring(seam, 0.4, 0.7, normalized=True)
        assert cut.buffer(0.05).covers(middle.buffer(edge.allowance, cap_style="flat"))
        assert sewn.difference(cut.buffer(0.05)).area < 1.0
