"""Edges that are swung with the tape, on a piece of no garment: a quarter of a ring whose 0 lies off it."""

import math
from dataclasses import replace
from functools import cache
from typing import Any

import pytest

from drafting.chalk.marks import Swung
from drafting.chalk.plan import areas, marked, marks_on, plan
from drafting.chalk.swung import line_of
from drafting.chalk.words.joining import joined, stage_joins
from drafting.cloth import ClothFacts
from drafting.contract.cutting import FinishedEdge, anchors, cut_out
from drafting.contract.pieces import Piece, Stage
from drafting.drawing.piece import piece_drawing
from drafting.geometry.path import Path
from drafting.geometry.point import Point
from drafting.geometry.polyline import area
from drafting.geometry.segments import Cubic, Line
from drafting.layout import at_table, begins_at, lay
from drafting.units import Tape

CLOTH = ClothFacts(1500.0, None, 15.0, 0.4, 0.2, 0.0, 0.0, "good", False)
TAPE, FINE = Tape("cm", "0.5"), Tape("cm", "0.1")
STAGES = (Stage("fold", "On the fold"), Stage("corners", "Corners"))
INNER, OUTER, ALLOWANCE = 203.0, 702.0, 12.0
LABELS = ("inner arc at the fold", "inner arc at the side", "outer arc at the side", "outer arc at the fold")


def arc(radius: float, start: float, end: float) -> Cubic:
    handle = 4 / 3 * math.tan((end - start) / 4) * radius

    def at(angle: float) -> Point:
        return Point(radius * math.sin(angle), radius * math.cos(angle))

    def ahead(angle: float) -> Point:
        return Point(math.cos(angle), -math.sin(angle))

    return Cubic(at(start), at(start) + ahead(start) * handle, at(end) - ahead(end) * handle, at(end))


@cache
def ring(angle: float = 45.0, across: float = 0.0, along: float = 0.0, *, fine: bool = False, cut: int = 1) -> Piece:
    """Part of a ring on the fold, up to an angle from it in degrees."""
    turn, centre = math.radians(angle), Point(0.0, 0.0)
    end = Point(math.sin(turn), math.cos(turn))
    edges = (
        FinishedEdge("inner", Path((arc(INNER, 0.0, turn),)), ALLOWANCE, swung_from=centre),
        FinishedEdge("side", Path((Line(end * INNER, end * OUTER),)), ALLOWANCE),
        FinishedEdge("outer", Path((arc(OUTER, turn, 0.0),)), ALLOWANCE, turned=True, swung_from=centre),
    )
    made = cut_out(edges, across, along, origin=centre)
    names = ("inner_fold", "inner_side", "outer_side", "outer_fold")
    places = (made.line[0], *made.corners, made.line[-1])
    wanted: Any = [
        (name, label, "corner" if "side" in name else "fold", "corners" if "side" in name else "fold", place)
        for name, label, place in zip(names, LABELS, places, strict=True)
    ]
    return Piece(
        "ring", "Ring", cut, True, made.edges, made.line, (), anchors(made.line, wanted), (), stages=STAGES, fine=fine
    )


def radii(piece: Piece) -> dict[str, tuple[float, float]]:
    return {edge.name: (edge.swing.cut, edge.swing.stitch) for edge in piece.edges if edge.swing is not None}


def test_the_cut_line_of_an_arc_is_an_arc_one_allowance_outside() -> None:
    piece = ring()
    assert radii(piece) == {
        "inner": pytest.approx((INNER - ALLOWANCE, INNER)),
        "outer": pytest.approx((OUTER + ALLOWANCE, OUTER)),
    }
    for name, (cut, _) in radii(piece).items():
        assert all(abs(math.hypot(p.x, p.y) - cut) < 0.05 for p in piece.edge(name).cut), name


def test_corners_lie_on_the_arcs_and_one_allowance_outside_the_side() -> None:
    """Carried on straight, the inner corner would lie 0.4 mm outside its circle."""
    places = {anchor.id: anchor.point for anchor in ring().anchors}
    for name, radius in (("inner_side", INNER - ALLOWANCE), ("outer_side", OUTER + ALLOWANCE)):
        there = places[name]
        assert math.hypot(there.x, there.y) == pytest.approx(radius, abs=0.03)
        assert (there.x - there.y) * math.sqrt(0.5) == pytest.approx(ALLOWANCE, abs=0.01)


def test_cloth_that_shrinks_alike_keeps_the_arc_and_other_cloth_does_not() -> None:
    grown = 1 / 0.96
    assert radii(ring(45.0, 0.04, 0.04))["inner"] == pytest.approx((INNER * grown - ALLOWANCE, INNER * grown))
    assert radii(ring(45.0, 0.02, 0.05)) == {}


def test_the_0_is_the_centre_as_long_as_nothing_lies_above_it() -> None:
    piece = ring()
    assert piece.starts_off
    assert piece.cut_line[0] == Point(0.0, pytest.approx(INNER - ALLOWANCE))
    assert piece.top == pytest.approx(min(anchor.point.y for anchor in piece.anchors))
    assert piece.long == pytest.approx(OUTER + ALLOWANCE - piece.top)
    half = ring(90.0)
    assert not half.starts_off
    assert half.top == pytest.approx(0.0)
    swing = half.edge("inner").swing
    assert swing is not None
    assert swing.centre.y == pytest.approx(ALLOWANCE)


@pytest.mark.parametrize("line", ["cut", "stitch"])
def test_no_points_are_chalked_on_an_arc(line: Any) -> None:
    piece = ring()
    (found,) = marked((piece,), TAPE, line=line)
    assert [mark.id for mark in found.marks] == ["inner_fold", "inner_side", "outer_side", "outer_fold"]
    assert [mark.joins for mark in found.marks] == ["straight", "swing", "straight", "swing"]
    swung = [mark.swung for mark in found.marks if mark.swung is not None]
    index = 0 if line == "cut" else 1
    assert [one.radius for one in swung] == pytest.approx([radii(piece)[name][index] for name in ("inner", "outer")])
    assert all(one.at_zero for one in swung)


def test_the_area_and_the_length_as_chalked_follow_the_arc() -> None:
    piece = ring()
    found = marked((piece,), TAPE)
    (one,) = areas((piece,), found, "cut")
    assert one.drafted == pytest.approx(area(piece.cut_line))
    run = line_of(found[0].marks)
    exact = area([place.exact for place in run])
    assert exact == pytest.approx(one.drafted, rel=1e-4)
    read = round((OUTER + ALLOWANCE) / 5) * 5  # the outer radius as a tape of half centimetres reads it
    outer = run[[place.id for place in run].index("outer_side") :]
    assert all(math.hypot(place.chalked.x, place.chalked.y) == pytest.approx(read) for place in outer)
    straight = area([mark.chalked for mark in found[0].marks])
    assert one.chalked > 1.05 * straight  # joined straight, much of the ring would be missing


def test_it_is_said_with_the_reading_from_the_mark_that_is_chalked_first() -> None:
    made = plan((ring(),), FINE)
    said = {step.title: step.says for step in made.steps}
    assert said["On the fold"] == (
        "Down the fold, in centimetres from 0: (1) inner arc at the fold 19.1, (2) outer arc at the fold 71.4."
    )
    assert said["Corners"].startswith(
        "Hold the tape at 0 and swing 19.1, from (1) to (3). Hold the tape at 0 and swing 71.4, from (2) to (4). "
        "In centimetres: (3) inner arc at the side across "
    )
    assert said["Join the marks"] == (
        "Rule straight: (3) to (4). The lines from (1) to (3) and (4) to (2) are swung already."
    )
    assert said["Prepare"].endswith("In centimetres: the cutting line begins 19.1 down the fold.")
    marks = made.pieces[0].marks
    assert joined(marks)["inner_side"] == "swung by 19.1 from 1"
    assert joined(marks)["outer_fold"] == "swung by 71.4 from 4"
    assert stage_joins(marks)["corners"] == (
        "Hold the tape at 0 and swing 19.1, from 1 to 3. Hold the tape at 0 and swing 71.4, from 2 to 4. Rule 3–4."
    )


def test_each_swing_is_told_apart_with_the_way_of_the_tape() -> None:
    made = plan((ring(),), FINE)
    told = [one for step in made.steps for one in step.apart if one.kind == "swing"]
    assert [one.reads for one in told] == [(("swing", "19.1"),), (("swing", "71.4"),)]
    for one, radius in zip(told, (INNER - ALLOWANCE, OUTER + ALLOWANCE), strict=True):
        assert one.line[0] == Point(0.0, 0.0)
        assert one.line[1].x == pytest.approx(0.0, abs=0.1)  # from the fold outward
        assert all(math.hypot(p.x, p.y) == pytest.approx(radius, abs=0.3) for p in one.line[1:])
    assert not any(one.id.startswith("join.inner_fold") for step in made.steps for one in step.apart)


def test_a_tape_held_below_0_is_said_so() -> None:
    said = {step.title: step.says for step in plan((ring(90.0),), FINE).steps}
    assert "Hold the tape 1.2 straight below 0 and swing 19.1, from (1) to (3)." in said["Corners"]


def test_what_the_tape_does_not_reach_is_swung_with_a_string() -> None:
    short = Tape("cm", "0.1", 600.0)
    said = {step.title: step.says for step in plan((ring(),), short).steps}
    assert "Hold the tape at 0 and swing 19.1" in said["Corners"]
    assert "Hold a string that does not stretch at 0 and swing 71.4" in said["Corners"]


def test_proof_lengths_begin_with_the_straights_of_the_arcs() -> None:
    made = plan((ring(),), FINE).pieces[0]
    lengths = {(proof.start, proof.end): proof.length for proof in made.proofs}
    for ends, radius in ((("inner_fold", "inner_side"), 191.0), (("outer_side", "outer_fold"), 714.0)):
        angle = math.radians(45.0) + math.asin(ALLOWANCE / radius)
        assert lengths[ends] == pytest.approx(2 * radius * math.sin(angle / 2), abs=1.5)
    assert len(made.proofs) <= 5


@pytest.mark.parametrize("angle", [8.0, 15.0, 22.5, 30.0, 60.0, 75.0, 90.0])
def test_no_straight_of_an_arc_is_left_out(angle: float) -> None:
    """However near an axis it lies, and however well other lengths show every slip."""
    made = plan((ring(angle),), FINE).pieces[0]
    ends = {(proof.start, proof.end) for proof in made.proofs}
    assert {("inner_fold", "inner_side"), ("outer_side", "outer_fold")} <= ends


def test_they_come_before_lengths_that_show_a_slip_better() -> None:
    """With four more marks on the side there are lengths enough that show every slip and are no straight of an arc."""
    piece = ring(8.0)
    inner, outer = (next(one.point for one in piece.anchors if one.id == f"{name}_side") for name in ("inner", "outer"))
    wanted: Any = [(one.id, one.label, one.kind, one.stage, one.point) for one in piece.anchors]
    wanted += [
        (f"side_{k}", f"side {k}", "level", "corners", inner.between(outer, k / 5)) for k in range(1, 5)
    ]  # fmt: skip
    made = plan((replace(piece, anchors=anchors(piece.cut_line, wanted)),), FINE).pieces[0]
    ends = {(proof.start, proof.end) for proof in made.proofs}
    assert {("inner_fold", "inner_side"), ("outer_side", "outer_fold")} <= ends
    assert len(ends) == 5


def test_a_fine_piece_is_read_in_the_finest_steps_and_so_on_another_tape() -> None:
    coarse, fine = plan((ring(),), TAPE), plan((ring(fine=True),), TAPE)
    assert {mark.down.tape.step for mark in coarse.pieces[0].marks} == {"0.5"}
    assert {mark.down.tape.step for mark in fine.pieces[0].marks} == {"0.1"}
    assert {proof.reads.tape.step for proof in fine.pieces[0].proofs} == {"0.1"}
    (inches,) = marks_on(fine, Tape("in", "1/4"))
    swung = next(mark.swung for mark in inches.marks if mark.swung is not None)
    assert swung.reads.text == "7 1/2"  # 19.1 cm
    assert swung.reads.tape.step == "1/8"


def test_it_is_laid_by_what_it_takes_and_begun_at_its_top() -> None:
    piece = ring(cut=3)
    layout = lay((piece,), CLOTH)
    assert layout is not None
    assert layout.length < 3 * piece.long + 1.0
    told = at_table(layout, (piece,), FINE)
    assert [one.begins for one in told.layings] == ["top at its fold"] * 3
    for one, place in zip(told.layings, sorted(layout.places, key=lambda place: place.y), strict=True):
        at = begins_at(piece, place)
        assert one.down.mm == pytest.approx(at.y, abs=0.51)
        assert 0.0 <= at.y <= layout.length
        assert f"its top at its fold lies on the fold and {one.down.pretty} from the cut end" in one.says
    assert layout.places[0].y < 0.0  # its 0 would lie before the cut end
    said = {step.title: step.says for step in plan((piece,), FINE, layout=layout).steps}
    assert "Its 0 lies 19.1 farther up the line of the fold, off the piece" in said["Begin the ring"]
    assert "its top at its fold lies on the fold" in said["The third ring"]
    assert "ring, third: its top at its fold lies" in said["Places"]


def test_the_drawing_shows_where_the_tape_is_held() -> None:
    made = plan((ring(),), FINE)
    drawn = piece_drawing(ring(), made.pieces[0], FINE, scale=5.0)
    words = {item.text for item in drawn.items if hasattr(item, "text")}
    assert "0, hold the tape here" in words
    without = piece_drawing(ring(), None, FINE, scale=5.0)
    assert "0, hold the tape here" not in {item.text for item in without.items if hasattr(item, "text")}
    assert without.height < drawn.height  # the paper pattern needs no room for it


@pytest.mark.parametrize(("over", "beyond"), [(-1, False), (0, False), (1, True)])
@pytest.mark.parametrize("tape", [TAPE, FINE, Tape("in", "1/8")])
def test_the_tape_reaches_to_its_end_and_no_step_farther(tape: Tape, over: int, beyond: bool) -> None:
    radius = tape.reach + over * tape.size
    swung = Swung(Point(0.0, 0.0), radius, tape.reading(radius), tape.reading(0.0))
    assert swung.beyond_tape == beyond
