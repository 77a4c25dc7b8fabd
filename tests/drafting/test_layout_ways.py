"""Laying on cloth: what holds for every layout, the variants cut for it, buying, remnants, several garments."""

import math
import pathlib
from dataclasses import replace
from functools import cache
from itertools import pairwise
from typing import get_args

import pytest

from drafting import layout as laying
from drafting.cloth import CROSSWISE, ClothFacts, Lay
from drafting.contract.pieces import Edge, Piece
from drafting.geometry.path import Path
from drafting.geometry.point import Point
from drafting.geometry.segments import Line
from drafting.layout import (
    EVERY_WAY,
    WAYS,
    Remnant,
    at_table,
    candidates,
    goes_on,
    lay,
    lay_together,
    search,
    way_of,
    ways,
)
from drafting.layout.buying import SQUARING, length_to_buy, widths_side_by_side
from drafting.layout.ways import plans
from drafting.order import make, read_order, ways_to_save
from drafting.units import Tape
from drafting.ways_out.find import changed
from tests.drafting.bodies import BODIES, STYLES, draft, order, read
from tests.drafting.laid_cases import CASES, laid_case

CLOTH = ClothFacts(1500.0, None, 15.0, 0.4, 0.2, 0.0, 0.0, "good", False)
VARIANTS = (
    {"centre_back": "seam"},
    {"lower_sleeve": "joined"},
    {"lower_sleeve": "joined", "centre_back": "seam"},
    {"lower_sleeve": "joined", "flare": "bell"},
    {"lower_sleeve": "joined", "centre_back": "seam", "neck_height": 0, "body": "flared"},
    {"centre_back": "seam", "neck_opening": "centre_back", "sleeve_length": "elbow"},
)


@cache
def pieces_of(body: str, style: str) -> tuple[Piece, ...]:
    return draft(BODIES[body], STYLES[style]).draft.pieces


def block(name: str, width: float, height: float, cut: int = 1, on_fold: bool = True) -> Piece:
    """A plain rectangle on the fold."""
    line = (Point(0.0, 0.0), Point(width, 0.0), Point(width, height), Point(0.0, height))
    path = Path(tuple(Line(a, b) for a, b in pairwise(line)))
    return Piece(name, name, cut, on_fold, (Edge("edge", path, line, 0.0),), line, (), (), ())


# ---- ways ------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("body", ["small woman", "median woman", "man", "child of 6"])
@pytest.mark.parametrize("style", ["default", "scooped", "elbow, flared", "cap", "steep and wide"])
def test_never_longer_than_folded_in_half_and_never_under_its_bound(body, style):
    pieces = pieces_of(body, style)
    for width in (1150.0, 1400.0, 1600.0, 1800.0):
        cloth = replace(CLOTH, width=width)
        found = candidates(pieces, cloth)
        if max(piece.width for piece in pieces) <= cloth.usable_width / 2:
            total = sum(piece.height for piece in pieces)
            assert min(one.length for one in found) <= total + 1e-6
            folded = next(one for one in found if one.way == "half")
            if style in {"default", "elbow, flared", "steep and wide"}:  # the hem ends at the fold: nothing nests
                assert folded.length == pytest.approx(total, abs=1e-6)
                assert folded.bound == pytest.approx(total, abs=1e-6)
        for one in found:
            assert one.bound <= one.length + 1e-6
            assert 0.0 < one.use <= 1.0
        assert [round(one.length) for one in found[1:]] == sorted(round(one.length) for one in found[1:])


def test_two_folds_balance_several_garments():
    pieces = (block("a", 200, 700), block("b", 200, 500), block("c", 150, 400), block("d", 150, 300))
    found = candidates(pieces, replace(CLOTH, width=900.0), ("two_folds",))
    assert found[0].length == pytest.approx(1000.0)


def test_a_part_fold_leaves_a_strip_for_whole_pieces():
    wide, narrow = block("dress", 400, 1000), block("top", 140, 500)
    cloth = replace(CLOTH, width=1150.0)
    part = candidates((wide, narrow), cloth, ("part_fold",))[0]
    assert part.length == pytest.approx(1000.0)
    assert sorted(p.layers for p in part.places) == [1, 2]
    assert [p.opened for p in part.places if p.layers == 1] == [True]
    assert candidates((wide, narrow), cloth, ("half",))[0].length == pytest.approx(1500.0)


def test_the_cheapest_way_to_handle_wins_where_lengths_are_equal():
    alone = (block("only", 300, 800),)
    assert candidates(alone, CLOTH)[0].way == "half"


def test_crosswise_is_free_only_on_cloth_alike_both_ways():
    assert "crosswise" not in laying.allowed_ways(CLOTH)
    assert "crosswise" in laying.allowed_ways(replace(CLOTH, along=0.4))
    assert not plans((block("a", 300, 800),), replace(CLOTH, one_way=True), "crosswise")


def test_crosswise_is_drafted_and_checked_with_the_stretches_swapped():
    usual = draft(BODIES["median woman"], {}, {"stretch_across": 60, "stretch_along": 20})
    turned = draft(BODIES["median woman"], {}, {"stretch_across": 60, "stretch_along": 20, "lay": "crosswise"})
    assert turned.ready.cloth.across == usual.ready.cloth.along
    swapped = draft(BODIES["median woman"], {}, {"stretch_across": 20, "stretch_along": 60})
    assert [c.value for c in turned.checks if c.id != "fits_cloth"] == [
        c.value for c in swapped.checks if c.id != "fits_cloth"
    ]
    stiff = draft(BODIES["median woman"], {"neck_half_width": 10.5}, {"stretch_along": 5, "lay": "crosswise"})
    assert next(c for c in stiff.checks if c.id == "head_passes_neck").result == "stop"


def test_the_search_shows_its_progress_and_can_be_left():
    pieces = pieces_of("median woman", "elbow, flared")
    work, seen, best = search(pieces, replace(CLOTH, width=1800.0)), [], None
    while best is None:
        try:
            step = next(work)
            seen += [] if step is None else [step]
        except StopIteration as end:
            best = end.value
    assert len(seen) > len({step.way for step in seen}) >= 3
    assert all(a.done <= b.done < b.total for a, b in pairwise(seen))
    assert best == seen[-1].found == candidates(pieces, replace(CLOTH, width=1800.0))
    steps = search(pieces, CLOTH)
    assert next(step for step in steps if step is not None).found
    steps.close()


def test_the_same_order_gives_the_same_layout():
    pieces = pieces_of("child of 12", "cap")
    assert candidates(pieces, CLOTH) == candidates(pieces, CLOTH)


def test_a_length_that_is_known_is_kept_to():
    pieces = pieces_of("median woman", "default")
    total = sum(piece.height for piece in pieces)
    assert lay(pieces, replace(CLOTH, length=total)) is not None
    assert lay(pieces, replace(CLOTH, length=total - 1.0)) is None


# ---- variants of the garment
# -------------------------------------------------------------------------------------------


@pytest.mark.sampled(4)
@pytest.mark.parametrize("style", VARIANTS)
@pytest.mark.parametrize("body", list(BODIES))
def test_variants_keep_every_rule_of_the_geometry(body, style):
    for cloth in ({}, {"shrink_across": 3, "shrink_along": 6}):
        made = draft(BODIES[body], style, cloth)
        held = {check.id: check for check in made.checks}
        for rule in ("seams_equal", "edges_true", "outline_simple"):
            assert held[rule].result == "pass", rule
        assert [check.id for check in made.checks if check.result == "stop"] == []
        assert made.plan is not None
        for piece in made.draft.pieces:
            assert min(p.x for p in piece.cut_line) >= -1e-9
            assert min(p.y for p in piece.cut_line) == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize("body", list(BODIES))
def test_cutting_the_lower_sleeve_apart_changes_no_seam_of_the_sewn_sleeve(body):
    whole = draft(BODIES[body], {"flare": "slight"}).draft
    apart = draft(BODIES[body], {"flare": "slight", "lower_sleeve": "joined"}).draft
    edges = {(p.name, e.name): e.stitch.length() for p in apart.pieces for e in p.edges}
    before = {(p.name, e.name): e.stitch.length() for p in whole.pieces for e in p.edges}
    assert edges["front", "side"] + edges["lower_sleeve", "under"] == pytest.approx(before["front", "side"], abs=0.01)
    assert edges["front", "sleeve_joint"] == pytest.approx(edges["lower_sleeve", "joint"], abs=0.01)
    assert edges["lower_sleeve", "sleeve_end"] == pytest.approx(before["front", "sleeve_end"], abs=0.01)
    lower = apart.pieces[-1]
    assert (lower.cut, lower.on_fold) == (2, True)
    fold = lower.level("sleeve_end") - lower.level("joint")
    assert edges["front", "shoulder"] + fold == pytest.approx(before["front", "shoulder"], abs=0.01)


@pytest.mark.parametrize("flare", ["none", "bell"])
def test_the_joint_is_square_to_overarm_and_under_line(flare):
    made = draft(BODIES["median woman"], {"flare": flare, "lower_sleeve": "joined"}).draft
    for piece, joint, after in ((made.pieces[0], "sleeve_joint", "side"), (made.pieces[2], "joint", "under")):
        edges = {edge.name: edge.stitch for edge in piece.edges}
        into, out = edges[joint].segments[-1].tangent(1.0), edges[after].segments[0].tangent(0.0)
        assert abs(math.degrees(math.asin(into.dot(out)))) < 1.0  # both halves together within 2 degrees
    lower = made.pieces[2]
    assert abs(lower.edges[0].stitch.segments[0].tangent(0.0).y) < 1e-9


def test_the_cut_line_keeps_each_allowance_on_the_new_seams():
    made = draft(BODIES["median woman"], {"lower_sleeve": "joined", "centre_back": "seam"}).draft
    back, lower = made.pieces[1], made.pieces[2]
    centre = next(edge for edge in back.edges if edge.name == "centre_back")
    assert {round(p.x, 6) for p in centre.stitch.flatten(0.1)} == {centre.allowance}
    assert {round(p.x, 6) for p in centre.cut} == {0.0}
    joint = lower.edges[0]
    for point in joint.stitch.flatten(1.0)[1:-1]:
        assert min(point.distance(other) for other in joint.cut) >= joint.allowance - 0.1


def test_the_lower_sleeve_is_checked_with_the_stretch_that_goes_round_it():
    # Laid along the cloth it has the crosswise stretch round it: cloth that gives only lengthwise must be caught.
    style = {"lower_sleeve": "joined", "narrowest_girth": 20.0, "narrowest_at": 0.6}
    body = BODIES["median woman"]
    along = draft(body, {**style, "neck_height": 0}, {"stretch_across": 0, "stretch_along": 40})
    across = draft(body, {**style, "neck_height": 0}, {"stretch_across": 40, "stretch_along": 40})
    found = [next(c for c in made.checks if c.id == "hand_passes_sleeve").result for made in (along, across)]
    assert found == ["stop", "pass"]


def test_a_sleeve_too_short_to_cut_apart_stays_whole_and_says_so():
    made = draft(BODIES["median woman"], {"sleeve_length": "60 mm", "lower_sleeve": "joined"})
    assert [piece.name for piece in made.draft.pieces] == ["front", "back"]
    assert any(adjusted.what == "lower sleeve, joined" for adjusted in made.draft.adjusted)


def test_a_slanted_neck_and_a_divided_back_are_refused_together():
    found, problems = read_order(order(BODIES["median woman"], {"centre_back": "seam", "neck_slant": 8}))
    assert found is None
    assert [problem.field for problem in problems] == ["style.neck_slant"]


# ---- ways out
# ----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("width", ["115 cm", "140 cm"])
def test_every_way_out_makes_the_check_pass_and_is_laid(width):
    typed = order(BODIES["median woman"], {}, {"width": width})
    made = make(read(typed))
    check = next(c for c in made.checks if c.id == "fits_cloth")
    assert (check.result, made.layout) == ("warn", None)
    assert {"style.lower_sleeve", "style.sleeve_length", "cloth.width"} <= {w.changes[0][0] for w in check.ways_out}
    for way in check.ways_out:
        data = typed
        for key, value in way.changes:
            data = changed(data, key, value)
        after = make(read(data), with_ways_out=False)
        assert next(c for c in after.checks if c.id == "fits_cloth").result == "pass", way
        assert after.layout is not None
        assert f"It needs {math.ceil(after.layout.length / 10 - 1e-6)} cm of cloth." in way.says


def test_ways_to_save_need_less_cloth_and_are_sorted():
    made = make(read(order(BODIES["median woman"], {}, {"width": "160 cm"})), with_ways_out=False)
    assert made.layout is not None
    lengths = [way.layout.length for way in ways_to_save(made)]
    assert len(lengths) >= 2
    assert lengths == sorted(lengths)
    assert lengths[-1] <= made.layout.length - 50.0


def test_a_cloth_too_short_offers_what_makes_it_do():
    typed = order(BODIES["median woman"], {}, {"width": "160 cm", "length": "200 cm"})
    check = next(c for c in make(read(typed)).checks if c.id == "cloth_long_enough")
    assert check.result == "warn"
    assert check.value == pytest.approx(2381.12, abs=0.1)
    assert "style.centre_back" in {way.changes[0][0] for way in check.ways_out}


# ---- buying
# ------------------------------------------------------------------------------------------------------------


def test_worked_example_a_gown_in_one_piece_front_and_back():
    # Kinne and Cooley, Clothing and Health (1910s; author from memory): 2 x (55 + 3) = 116 inches of cloth.
    inch = 25.4
    pieces = (block("front", 17 * inch, 58 * inch), block("back", 17 * inch, 58 * inch))
    found = candidates(pieces, replace(CLOTH, width=36 * inch, selvage=0.0), ("half",))
    assert found[0].length / inch == pytest.approx(116.0)


@pytest.mark.parametrize(("unit", "step"), [("cm", 100.0), ("in", 114.3)])
def test_lengths_are_rounded_up_as_shops_sell(unit, step):
    pieces = pieces_of("median woman", "default")
    best = lay(pieces, CLOTH)
    bought = length_to_buy(best, CLOTH, unit, price=12.0)
    assert bought.buy / step == pytest.approx(round(bought.buy / step))
    assert 0.0 <= bought.buy - (bought.laid + bought.squaring + bought.wash) < step
    assert bought.cost == pytest.approx(12.0 * bought.buy / (1000.0 if unit == "cm" else 914.4))


def test_the_wash_is_reckoned_once():
    pieces = pieces_of("median woman", "default")
    best = lay(pieces, CLOTH)
    planned = length_to_buy(best, CLOTH, "cm")
    assert planned.laid + planned.squaring + planned.wash == pytest.approx((best.length + SQUARING) / 0.95)
    stated = replace(CLOTH, shrink_along=0.05)  # then the pieces themselves are cut longer
    assert length_to_buy(best, stated, "cm").wash == 0.0
    assert length_to_buy(best, CLOTH, "cm", wash=0.0).wash == 0.0


def test_common_widths_stand_side_by_side():
    pieces = pieces_of("median woman", "elbow, flared")
    rows = widths_side_by_side(pieces, replace(CLOTH, width=1450.0), "cm")
    assert [row.width for row in rows] == [900, 1150, 1400, 1450, 1500, 1600, 1800]
    assert rows[0].layout is None
    lengths = [row.laid for row in rows if row.layout is not None]
    assert all(b <= a + 25.0 for a, b in pairwise(lengths))


# ---- a piece in hand, several garments, the table
# ------------------------------------------------------------------------


def test_a_remnant_answers_yes_no_or_what_fits():
    pieces = pieces_of("child of 6", "default")
    assert goes_on(pieces, CLOTH, Remnant(1150.0, 1700.0)).answer == "yes"
    part = goes_on(pieces, CLOTH, Remnant(1150.0, 900.0))
    assert (part.answer, part.fits, part.left_out) == ("part", ("front",), ("back",))
    assert goes_on(pieces, CLOTH, Remnant(500.0, 500.0)).answer == "no"


@pytest.mark.parametrize("unit", ["cm", "in"])
def test_a_remnant_that_will_not_do_says_what_would(unit):
    """What would do was laid: it takes the whole garment, and one step less of it does not."""
    pieces, cloth = pieces_of("child of 6", "default"), replace(CLOTH, sold_in=unit)
    step = 10.0 if unit == "cm" else 25.4
    assert goes_on(pieces, cloth, Remnant(1150.0, 1700.0)).would_do is None
    short = goes_on(pieces, cloth, Remnant(1150.0, 900.0)).would_do
    assert not short.narrow
    assert short.width == 1150.0
    assert short.length == pytest.approx(round(short.length / step) * step)
    assert short.short == pytest.approx(short.length - 900.0)
    assert goes_on(pieces, cloth, Remnant(short.width, short.length)).answer == "yes"
    assert goes_on(pieces, cloth, Remnant(short.width, short.length - step)).answer == "part"
    narrow = goes_on(pieces, cloth, Remnant(450.0, 9000.0)).would_do
    assert narrow.narrow
    assert narrow.short == 0.0
    assert goes_on(pieces, cloth, Remnant(narrow.width, narrow.length)).answer == "yes"
    assert goes_on(pieces, cloth, Remnant(narrow.width, narrow.length - step)).answer != "yes"
    assert goes_on(pieces, cloth, Remnant(narrow.width - step, 9000.0)).answer != "yes"


def test_no_remnant_would_do_where_no_cloth_is_so_wide():
    assert goes_on((block("a", 3200, 600),), replace(CLOTH, one_way=True), Remnant(900.0, 900.0)).would_do is None
    assert goes_on((block("a", 900, 600),), replace(CLOTH, one_way=True), Remnant(800.0, 900.0)).would_do is not None


def test_beside_an_l_a_straight_piece_as_wide_is_told():
    pieces = (block("a", 300, 600), block("b", 150, 500))
    bent = goes_on(pieces, CLOTH, Remnant(700.0, 650.0, 400.0, 200.0))
    assert bent.answer == "part"
    straight = bent.would_do
    assert (straight.width, straight.narrow, straight.short) == (700.0, False, 0.0)
    assert goes_on(pieces, CLOTH, Remnant(straight.width, straight.length)).answer == "yes"


def test_an_l_shaped_remnant_takes_what_its_rectangles_do_not():
    pieces = (block("a", 300, 600), block("b", 150, 500))
    wide_then_narrow = Remnant(700.0, 650.0, 400.0, 550.0)
    found = goes_on(pieces, CLOTH, wide_then_narrow)
    assert found.answer == "yes"
    assert found.layout.way == "open"
    for width, length in ((700.0, 650.0), (400.0, 1200.0)):
        assert goes_on(pieces, CLOTH, Remnant(width, length)).answer != "yes"
    narrow_then_wide = goes_on(pieces, CLOTH, Remnant(400.0, 550.0, 700.0, 650.0))
    assert narrow_then_wide.answer == "yes"


def test_a_mother_and_a_child_on_one_length():
    mother = pieces_of("median woman", "cap")
    child = pieces_of("child of 6", "cap")
    found = lay_together([("Mother", mother), ("Child", child)], replace(CLOTH, width=1800.0))
    assert found.layout is not None
    assert len(found.layout.places) >= 4
    assert found.saving > 100.0
    assert found.saving == pytest.approx(sum(one.length for one in found.apart) - found.layout.length)


@pytest.mark.parametrize("style", VARIANTS)
@pytest.mark.parametrize("way", WAYS)
def test_the_work_at_the_table_is_told_for_every_way(style, way):
    made = draft(
        BODIES["child of 12"], style, {"width": "180 cm", "lay": "crosswise" if way == "crosswise" else "auto"}
    )
    tape = Tape("cm", "0.5")
    for one in candidates(made.draft.pieces, made.ready.cloth, (way,)):
        told = at_table(one, made.draft.pieces, tape)
        assert [step.order for step in told.layings] == list(range(1, len(one.places) + 1))
        assert all(step.down.mm >= 0 and step.across.mm >= -1e-6 for step in told.layings)
        assert len(told.folding) >= 2
        assert told.count.startswith(f"{sum(piece.cut for piece in made.draft.pieces)} pieces")


def test_every_way_has_a_file_and_can_be_asked_for():
    files = {path.stem for path in pathlib.Path(ways.__file__).parent.glob("*.py")} - {"__init__", "way"}
    listed = {type(way).__module__.rpartition(".")[2] for way in EVERY_WAY}
    assert listed == files
    assert {"auto", *WAYS} == set(get_args(Lay))
    assert [way.key for way in EVERY_WAY if way.turns_cloth] == [CROSSWISE]
    assert [way.key for way in EVERY_WAY if way.offered] == [CROSSWISE]


def test_a_pair_beside_the_fold_is_no_way_of_its_own():
    seam = {"centre_back": "seam"}
    found = draft(BODIES["median woman"], seam, {"width": "160 cm", "lay": "half"}).layout
    assert found is not None
    assert found.way == "half"
    assert {place.piece for place in found.places if place.layers == 2} == {"front", "back"}
    # An order that was kept under the old name is read as it was meant.
    older = draft(BODIES["median woman"], seam, {"width": "160 cm", "lay": "centre_back_seam"})
    assert older.layout == found
    assert older.order.cloth.lay == "half"


def test_the_cloth_lies_as_its_way_says():
    """Regions and edges fill the laid cloth, without a gap, and every fold lies where the way says one is."""
    for name in CASES:
        _, layout = laid_case(name)
        way = way_of(layout)
        regions = way.regions(layout)
        assert regions[0].left == 0.0
        assert regions[-1].right == layout.laid_width
        assert all(a.right == b.left for a, b in pairwise(regions))
        double = sum((one.right - one.left) * (one.layers - 1) for one in regions)
        assert layout.laid_width + double == pytest.approx(layout.cloth_width)
        assert way.doubled == all(one.layers == 2 for one in regions)
        assert way.fold_left == any(fold.at == 0.0 and not fold.across for fold in layout.folds)
        assert way.fold_right == any(fold.at == layout.laid_width and not fold.across for fold in layout.folds)
        assert way.flat <= (not layout.folds)
        selvages = [x for edge in way.edges(layout, 15.0) for x in edge.selvages]
        assert len(selvages) == 1 if way.key == "half" else len(selvages) == 2


@pytest.mark.parametrize("name", ["open, joined with a seam", "crosswise, joined with a seam"])
def test_of_a_pair_cut_from_one_layer_one_is_the_mirror_of_the_other(name: str):
    result, layout = laid_case(name)
    pairs = {piece.name for piece in result.draft.pieces if piece.cut == 2 and not piece.on_fold}
    assert pairs
    for pair in pairs:
        assert sorted(place.mirrored for place in layout.places if place.piece == pair) == [False, True]
