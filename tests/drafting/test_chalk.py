"""The chalk plan: joins against shapely, the fewest curve points, readings from one origin, and the words."""

import math
import re
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

import pytest

from drafting.chalk.curve_points import Run, _farthest, curve_points
from drafting.chalk.joins import RULED_FROM, legs
from drafting.chalk.marks import ChalkLine, Leg
from drafting.chalk.plan import STRAIGHT_WITHIN, ChalkPlan, Mark, PieceMarks, plan
from drafting.chalk.words.joining import joined
from drafting.contract.pieces import Part, Piece, Slit, Stage
from drafting.geometry.point import Point
from drafting.geometry.polyline import distance_to_line, nearest_on
from drafting.geometry.segments import arc, flatten
from drafting.units import TAPES, Tape
from tests.drafting.chalk_piece import backed, dress, opening_down_the_fold, varied
from tests.drafting.laid_cases import CASES, laid_case
from tests.drafting.sample_piece import sample_piece

EIGHTH = Tape("in", "1/8")
HALF = Tape("cm", "0.5")


def first(piece: Piece, tape: Tape = EIGHTH, within: float = 3.0, line: ChalkLine = "cut") -> PieceMarks:
    return plan((piece,), tape, join_within=within, line=line).pieces[0]


def said(found: ChalkPlan, title: str, piece: str = "") -> str:
    return " ".join(step.says for step in found.steps if step.title == title and piece in ("", step.piece))


def away(line: Sequence[Point], marks: Sequence[Mark]) -> float:
    """Greatest distance between a line and the straight joins of marks, both ways, by shapely."""
    import numpy as np
    import shapely

    drawn = shapely.LineString([(p.x, p.y) for p in line])
    joins = shapely.LineString([(mark.point.x, mark.point.y) for mark in marks])
    there = shapely.distance(shapely.points(shapely.get_coordinates(drawn)), joins)
    back = shapely.distance(shapely.points(shapely.get_coordinates(joins.segmentize(3.0))), drawn)
    return float(np.max([there.max(), back.max()]))


# ---- joins -------------------------------------------------------------------------------------------------------


@pytest.mark.outside
@pytest.mark.parametrize("within", [3.0, 1.0, 0.4])
def test_straight_joins_keep_within_the_setting(within: float) -> None:
    for piece in [*varied(), sample_piece()]:
        assert away(piece.cut_line, first(piece, within=within).marks) <= within + 1e-6


@pytest.mark.outside
def test_straight_joins_keep_to_the_stitch_line() -> None:
    for piece in [*varied(), sample_piece()]:
        assert away(piece.stitch_line, first(piece, line="stitch").marks) <= 3.0 + 1e-6


@pytest.mark.outside
def test_no_curve_point_can_be_spared() -> None:
    for within in (3.0, 1.0):
        for piece in varied():
            marks = first(piece, within=within).marks
            for index, mark in enumerate(marks):
                if mark.kind == "curve":
                    assert away(piece.cut_line, [*marks[:index], *marks[index + 1 :]]) > within


@pytest.mark.parametrize("radius", [20.0, 60.0, 95.0, 300.0])
@pytest.mark.parametrize("within", [3.0, 1.0, 0.3])
@pytest.mark.parametrize("turn", [0.5, 1.2, math.pi / 2, 2.4])
def test_an_arc_gets_the_fewest_points_there_can_be(radius: float, within: float, turn: float) -> None:
    """A chord over the angle c strays r·(1 − cos c/2) from its circle (CALC), so the fewest chords are known."""
    run = Run.of(flatten(arc(Point(0, 0), radius, 0.2, 0.2 + turn), 0.01))
    chords = turn / (2 * math.acos(1 - within / radius))
    found = curve_points(run, within)
    assert math.ceil(chords - 0.02) <= len(found) + 1 <= math.ceil(chords + 0.02)
    stations = (0.0, *found, run.length)
    strays = [run.strays(a, b) for a, b in pairwise(stations)]
    assert max(strays) <= within
    assert max(strays) - min(strays) <= 0.25 * within


def test_a_straight_run_gets_no_points_and_a_finer_setting_more() -> None:
    assert curve_points(Run.of([Point(0, 0), Point(200, 300), Point(400, 600)]), 0.1) == ()
    counts = [len(first(dress(), within=within).marks) for within in (6.0, 3.0, 1.0, 0.3)]
    assert counts == sorted(counts)
    assert counts[0] < counts[1] < counts[2] < counts[3]
    assert 17 <= counts[1] <= 29  # as the set-out counts them


@pytest.mark.outside
def test_joins_say_straight_where_the_line_is() -> None:
    from shapely import LineString
    from shapely.ops import substring

    for piece in varied():
        marks = first(piece).marks
        line = LineString([(p.x, p.y) for p in piece.cut_line])
        spots = [line.project(LineString([(m.point.x, m.point.y)] * 2).centroid) for m in marks]
        assert marks[0].joins == "straight"
        for before, mark, start, end in zip(marks, marks[1:], spots, spots[1:], strict=False):
            chord = LineString([(before.point.x, before.point.y), (mark.point.x, mark.point.y)])
            stray = max(chord.distance(LineString([c, c]).centroid) for c in substring(line, start, end).coords)
            assert abs(stray - STRAIGHT_WITHIN) < 1e-6 or (mark.joins == "straight") == (stray < STRAIGHT_WITHIN)


# ---- marks -------------------------------------------------------------------------------------------------------


def test_every_anchor_is_a_mark_once_round() -> None:
    for piece in varied():
        marks = [mark for mark in first(piece).marks if mark.kind != "curve"]
        assert [(m.id, m.label, m.kind, m.point) for m in marks] == [
            (a.id, a.label, a.kind, a.point) for a in piece.anchors
        ]


def test_numbers_follow_the_stages_of_the_work() -> None:
    for piece in [*varied(), sample_piece()]:
        marks = first(piece).marks
        assert sorted(mark.order for mark in marks) == list(range(1, len(marks) + 1))
        assert len({mark.id for mark in marks}) == len(marks)
        known = [stage.key for stage in piece.stages]
        stages = [known.index(mark.stage) for mark in sorted(marks, key=lambda mark: mark.order)]
        assert stages == sorted(stages)


def test_the_order_of_chalking_is_that_of_the_set_out() -> None:
    names = [mark.id for mark in sorted(first(sample_piece()).marks, key=lambda mark: mark.order)]
    assert names[:13] == [
        "neck_top_fold", "hem_fold", "neck_top", "waist", "hip", "hem_side", "column_foot", "column_end",
        "shoulder_point", "sleeve_end_top", "sleeve_end_middle", "sleeve_end_under", "narrowest",
    ]  # fmt: skip
    parts = [re.sub(r"_\d$", "", name) for name in names[13:]]
    assert list(dict.fromkeys(parts)) == ["lead_in", "underarm_curve", "side_curve"]
    reads = {mark.id: (mark.across.pretty, mark.down.pretty) for mark in first(sample_piece()).marks}
    assert reads["sleeve_end_top"] == ("28¾", "15")
    assert reads["sleeve_end_middle"] == ("26¾", "19⅝")
    assert reads["waist"] == ("8", "21⅛")


@pytest.mark.parametrize("tape", TAPES, ids=lambda tape: f"{tape.unit} {tape.step}")
def test_readings_are_each_from_the_origin_and_never_add_up(tape: Tape) -> None:
    for piece in varied():
        for mark in first(piece, tape).marks:
            assert mark.across == tape.reading(mark.point.x)
            assert mark.down == tape.reading(mark.point.y)
            assert max(abs(mark.chalked.x - mark.point.x), abs(mark.chalked.y - mark.point.y)) <= tape.size / 2 + 1e-4
            assert "8/8" not in mark.across.text + mark.down.text
            assert "4/4" not in mark.across.text + mark.down.text


def test_a_hair_under_three_inches_reads_three() -> None:
    piece = dress(across=2.999 / 4.5)
    neck = next(mark for mark in first(piece).marks if mark.id == "neck_top")
    assert neck.point.x == pytest.approx(2.999 * 25.4)
    assert neck.across.text == "3"


def test_the_stitch_line_keeps_corners_levels_and_the_origin() -> None:
    piece = dress()
    marks = {mark.id: mark for mark in first(piece, line="stitch").marks}
    cut = {mark.id: mark for mark in first(piece).marks}
    assert marks["neck_fold"].point == Point(0.0, 10.0)
    assert marks["hem_fold"].point.y == pytest.approx(cut["hem_fold"].point.y - 25.0)
    for name, edge in (("neck_top", 1), ("sleeve_end_top", 2), ("sleeve_end_under", 3), ("hem_corner", 4)):
        assert marks[name].point.distance(piece.edges[edge].stitch.start) < 1e-6
    for level in ("waist", "hip"):
        assert marks[level].point.y == pytest.approx(cut[level].point.y, abs=1e-6)
        assert 10.0 < cut[level].point.x - marks[level].point.x < 20.0
    assert marks["shoulder_point"].point.distance(cut["shoulder_point"].point) == pytest.approx(10.0, abs=0.1)


def test_the_same_pieces_give_the_same_plan() -> None:
    assert repr(plan(tuple(varied()), HALF)) == repr(plan(tuple(varied()), HALF))


def test_a_setting_of_nothing_is_a_slip_of_the_program() -> None:
    with pytest.raises(ValueError, match="join_within"):
        plan((dress(),), EIGHTH, join_within=0.0)
    with pytest.raises(ValueError, match="anchors"):
        plan((replace(dress(), anchors=()),), EIGHTH)


# ---- front and back ----------------------------------------------------------------------------------------------


def test_an_equal_back_is_chalked_round_the_front() -> None:
    found = plan((dress(), backed(dress())), EIGHTH)
    front, back = found.pieces
    assert (front.same_as, back.same_as, back.piece) == (None, "front", "back")
    assert back.marks == front.marks
    assert back.proofs == front.proofs
    titles = [step.title for step in found.steps if step.piece == "back"]
    assert titles == ["Lay the front on the next length", "Nothing differs", "Cut", "Count"]
    lay = said(found, "Lay the front on the next length")
    assert "fold to fold" in lay
    assert "grain to grain" in lay
    assert "carry every notch over" in lay


def test_only_what_differs_is_marked_on_the_back() -> None:
    front = dress()
    anchors = tuple(
        replace(a, point=a.point + Point(0.0, 12.7)) if a.id in ("hem_corner", "hem_fold") else a for a in front.anchors
    )
    line = tuple(p + Point(0.0, 12.7) if p.y > front.height - 0.01 else p for p in front.cut_line)
    anchors = tuple(replace(a, at=a.at + {"hem_corner": 12.7, "hem_fold": 12.7}.get(a.id, 0.0)) for a in anchors)
    found = plan((front, backed(front, anchors=anchors, cut_line=line)), EIGHTH)
    assert found.pieces[1].same_as is None
    step = next(step for step in found.steps if step.title == "Mark what differs")
    assert step.marks == ("hem_fold", "hem_corner")
    assert "down 47⅜" in step.says


def test_a_wholly_different_second_piece_gets_its_own_steps() -> None:
    found = plan((dress(), backed(dress(across=1.2, down=1.1))), EIGHTH)
    assert [step.title for step in found.steps if step.piece == "back"][:2] == ["Prepare", "Levels"]


# ---- words -------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("tape", TAPES, ids=lambda tape: f"{tape.unit} {tape.step}")
@pytest.mark.parametrize("line", ["cut", "stitch"])
def test_steps_are_numbered_and_name_the_unit_once(tape: Tape, line: ChalkLine) -> None:
    slanted = (Point(-114.0, 0.0), Point(114.0, 22.0))
    back = backed(
        dress(),
        guides=(opening_down_the_fold(120.0),),
        slit=Slit("side", 180.0),
        trim=slanted,
        trim_side="left",
        trim_words="neck",
    )
    found = plan((dress(), back), tape, line=line)
    assert [step.order for step in found.steps] == list(range(1, len(found.steps) + 1))
    unit = "inches" if tape.unit == "in" else "centimetres"
    for step in found.steps:
        assert step.says.count(unit) <= 1
        assert "!" not in step.says
        if re.search(r"across \d|down \d", step.says):
            assert step.says.count(unit) == 1
    ids = {marks.piece: {mark.id for mark in marks.every} for marks in found.pieces}
    assert all(set(step.marks) <= ids[step.piece] for step in found.steps)


def test_the_work_goes_in_the_order_of_the_set_out() -> None:
    found = plan((dress(), backed(dress())), EIGHTH)
    assert [step.title for step in found.steps] == [
        "Prepare", "Levels", "Widths", "Neck and overarm", "Sleeve", "Underarm", "Side", "Proof lengths",
        "If something moved", "Join the marks", "Notches", "Clips, after sewing", "Cut",
        "Lay the front on the next length", "Nothing differs", "Cut",
        "Count",
    ]  # fmt: skip
    assert "follow one rib" in said(found, "Prepare")
    assert "shoulder level 5⅞, bust 16⅜, waist 21⅛, hip 29¾, hem 46⅞" in said(found, "Levels")
    assert "neck top across 4½, down 0" in said(found, "Widths")
    assert said(found, "Count").startswith("2 pieces in all: 1 front on the fold, 1 back on the fold.")


def test_every_mark_is_told_in_some_step() -> None:
    for piece in varied():
        found = plan((piece,), EIGHTH)
        told = {name for step in found.steps for name in step.marks}
        assert told == {mark.id for mark in found.pieces[0].marks}
        for mark in found.pieces[0].marks:
            if mark.kind != "fold":
                assert f"({mark.order}) {mark.label[0].lower()}{mark.label[1:]} across {mark.across.pretty}" in said(
                    found, {"neck": "Neck and overarm"}.get(mark.stage, mark.stage.capitalize())
                )


@pytest.mark.outside
def test_the_straightedge_is_promised_only_where_it_holds() -> None:
    from shapely import LineString
    from shapely import Point as Place

    promised = []
    for drop in (0.0, 0.1, 0.4, -0.4):
        for tape in TAPES:
            found = plan((dress(drop=drop),), tape)
            says = said(found, "Neck and overarm")
            marks = {mark.order: mark for mark in found.pieces[0].marks}
            match = re.search(
                r"from the curve \((\d+)\) to the sleeve end \((\d+)\) must pass the shoulder point \((\d+)\)", says
            )
            promised.append(match is not None)
            if match:
                curve, end, shoulder = (marks[int(number)].chalked for number in match.groups())
                edge = LineString([(curve.x, curve.y), (end.x, end.y)])
                assert edge.distance(Place(shoulder.x, shoulder.y)) <= 3.0
    assert any(promised)
    assert not any(promised[-8:])


def test_opening_and_slit_say_where_they_stop() -> None:
    front = dress()
    found = plan((front, backed(front, guides=(opening_down_the_fold(152.4),), slit=Slit("side", 203.2))), EIGHTH)
    last = found.pieces[1].every[-1]
    assert (last.order, last.down.pretty) == (len(found.pieces[0].marks) + 1, "6")
    assert said(found, "Neck and overarm", "back") == (
        f"On the back only, in inches: ({last.order}) end of the opening across 0, down 6. "
        f"Chalk it from (1) down to ({last.order})."
    )
    # What is chalked as an opening is sewn on first: nobody cuts the fold at the table.
    assert "Never cut the fold" in said(found, "Cut", "back")
    assert "Never cut the fold" in said(found, "Cut", "front")
    slit = said(found, "Slit", "back")
    assert "stays open for 8 above the finished hem" in slit
    # The skirt of this piece falls straight, so the end lies 8 in above the finished hem (25 mm hem, 15 mm side).
    down, across = front.height - 25.0 - 203.2, front.anchors[9].point.x - 15.0
    assert f'"sew to here" on the stitching line: across {EIGHTH.reading(across).pretty}' in slit
    assert f"down {EIGHTH.reading(down).pretty}" in slit


def test_a_slit_on_both_is_carried_over() -> None:
    front = replace(dress(), slit=Slit("side", 200.0))
    found = plan((front, backed(front)), EIGHTH)
    assert said(found, "Slit", "front")
    assert not said(found, "Slit", "back")
    assert "the slit mark" in said(found, "Lay the front on the next length")


@pytest.mark.parametrize(("side", "on_front", "on_back"), [("left", "right", "left"), ("right", "left", "right")])
def test_a_slanted_neck_is_mirrored_on_the_back(side: str, on_front: str, on_back: str) -> None:
    front = replace(dress(), trim=(Point(-114.3, 0.0), Point(114.3, 25.4)), trim_side=side, trim_words="neck")
    found = plan((front, backed(front)), EIGHTH)
    for piece, seen in (("front", on_front), ("back", on_back)):
        says = said(found, "Trim the neck", piece)
        assert f"the wearer's {side}, on your {seen}" in says
        assert f"4½ to your {seen} of the fold line, 1 down from 0" in says
        assert "level with 0" in says


def test_a_notch_on_a_mark_has_no_reading_of_its_own() -> None:
    """Both notches of this piece lie on marks; moved by more than the tolerance of the joins one gets its place."""
    found = plan((dress(),), EIGHTH)
    marks = {mark.id: mark.order for mark in found.pieces[0].marks}
    shoulder, waist = f"({marks['shoulder_point']}) shoulder point", f"({marks['waist']}) waist"
    assert said(found, "Notches") == f"Chalk a short tick across the edge at {shoulder} and {waist}."
    for away, placed in ((2.9, False), (3.1, True)):
        front = dress()
        lower = replace(front.notches[1], outer=front.notches[1].outer + Point(0.0, away))
        says = said(plan((replace(front, notches=(front.notches[0], lower)),), EIGHTH), "Notches")
        assert ("waist across" in says) == placed, says
        assert (f"({marks['waist']}) waist" in says) == (not placed)


def test_clips_are_one_sentence_between_two_marks() -> None:
    """Each clip lies on the outline between the two marks that are named for it, and nothing has a reading."""
    front = dress()
    line = list(front.cut_line)
    along = Run.of(line)
    spots = [along.at(at) for at in (210.0, 225.0, 240.0, 1240.0, 1255.0)]
    clipped = replace(front, clips=tuple((spot, spot) for spot in spots))
    found = plan((clipped,), EIGHTH)
    says = said(found, "Clips, after sewing")
    pairs = re.findall(r"between \((\d+)\) and \((\d+)\)", says)
    assert len(pairs) == 2
    assert says.count(". ") == 2, "when, where, how"
    assert "across" not in says
    assert "only where it pulls" in says
    assert "every ⅝ in, and stop ⅛ in before the stitching" in says
    assert "every 1.5 cm, and stop 2.5 mm before the stitching" in said(plan((clipped,), HALF), "Clips, after sewing")
    places = {mark.order: nearest_on(line, along.along, mark.point)[0] for mark in found.pieces[0].marks}
    for (before, after), (low, high) in zip(pairs, ((210.0, 240.0), (1240.0, 1255.0)), strict=True):
        assert places[int(before)] <= low < high <= places[int(after)]
        between = [at for at in places.values() if places[int(before)] < at < places[int(after)]]
        assert all(low < at < high for at in between), "the nearest marks are named"


@pytest.mark.parametrize("line", ["cut", "stitch"])
def test_every_leg_is_named_and_none_runs_past_a_mark(line: ChalkLine) -> None:
    """Once round, each two marks that follow one another are joined by one leg.

    What is ruled is straight, or strays from there by no more than the 3 mm that a join may (set-out); a curve has a
    mark between its ends, without which no hand knows which way it bends.
    """
    for piece in [*varied(), sample_piece()]:
        found = plan((piece,), EIGHTH, line=line)
        marks = found.pieces[0].marks
        says = said(found, "Join the marks")
        drawn: list[tuple[int, int, str]] = []
        for kind, listed in (
            ("straight", re.search(r"Rule straight: ([^.]*)\.", says)),
            ("curve", re.search(r"Draw each of these as one smooth curve: ([^.]*)\.", says)),
        ):
            for leg in listed[1].split("; ") if listed else []:
                numbers = [int(number) for number in re.findall(r"\((\d+)\)", leg)]
                assert kind == "straight" or len(numbers) > 2
                drawn.extend((a, b, kind) for a, b in pairwise(numbers))
        wanted = [(a.order, b.order) for a, b in pairwise(marks)]
        assert sorted((a, b) for a, b, _ in drawn) == sorted(wanted)
        true = {(a.order, b.order): (a, b) for a, b in pairwise(marks)}
        outline = piece.cut_line if line == "cut" else piece.stitch_line
        for pair in drawn:
            a, b = true[pair[:2]]
            straight = pair[2] == "straight"
            assert straight or b.joins == "curve" or a.point.distance(b.point) < RULED_FROM
            ends = [min(range(len(outline)), key=lambda k: outline[k].distance(mark.point)) for mark in (a, b)]
            between = outline[ends[0] + 1 : ends[1]]
            assert not straight or all(distance_to_line(at, a.point, b.point) <= 3.05 for at in between)
        told = joined(marks)
        assert told[marks[0].id] == ""
        assert all(re.fullmatch(r"(straight|curve|on the curve) from \d+.*", told[mark.id]) for mark in marks[1:])


def test_a_ruled_line_ends_at_the_curve_point_that_ends_it() -> None:
    """The table says where each line comes from: straight from the curve point, and not from the corner before it."""
    marks = first(sample_piece()).marks
    number = {mark.id: mark.order for mark in marks}
    told = joined(marks)
    assert told["neck_top"] == f"straight from {number['neck_top_fold']}"
    assert told["hem_fold"] == f"straight from {number['hem_side']}"
    assert told["sleeve_end_under"] == (f"curve from {number['sleeve_end_top']} through {number['sleeve_end_middle']}")
    assert told["sleeve_end_middle"] == (
        f"on the curve from {number['sleeve_end_top']} to {number['sleeve_end_under']}"
    )
    assert joined(marks, closed=True)[marks[0].id] == f"straight from {marks[-1].order}"
    assert legs(marks, closed=True)[-1] == Leg(marks[-1].id, (), marks[0].id, "straight")


# ---- what stands first, and what to do when something moved --------------------------------------------------------


def test_warnings_stand_first_then_cautions_then_the_work() -> None:
    found = plan(
        (dress(), backed(dress())), EIGHTH, heed=["The hem can trip. This would help: Flare the skirt."],
        care=["Count the pins.", "Test the iron."], washing="Do not wash it.",
    )  # fmt: skip
    assert [(step.title, step.says, step.heed) for step in found.steps[:2]] == [
        ("Before you begin", "The hem can trip. This would help: Flare the skirt.", True),
        ("Take care", "Count the pins. Test the iron.", True),
    ]
    assert found.work == found.steps[2:]
    assert not any(step.heed for step in found.work)
    assert found.work[0].says.startswith("Do not wash it. Square the end")
    assert [step.order for step in found.steps] == list(range(1, len(found.steps) + 1))
    titles = [step.title for step in found.steps]
    assert titles.index("Proof lengths") < titles.index("Cut")
    assert titles[-1] == "Count"
    assert sum("wash" in step.says.lower() for step in found.steps) == 1


def test_what_to_do_when_something_moved_is_told_once() -> None:
    found = plan((dress(), backed(dress(across=1.2, down=1.1))), EIGHTH)
    assert [step.title for step in found.steps].count("If something moved") == 1
    assert len(found.mending) == 2
    assert "find 0 again" in found.mending[0]
    assert "rub it out" in found.mending[1]
    assert said(found, "If something moved") == " ".join(found.mending)


# ---- a tape has an end -------------------------------------------------------------------------------------------


@pytest.mark.parametrize("tape", [*TAPES, Tape("cm", "0.5", 1200.0), Tape("in", "1/8", 48 * 25.4)])
def test_no_reading_is_longer_than_the_tape(tape: Tape) -> None:
    long = dress(down=1.6)
    found = plan((long,), tape)
    marks = found.pieces[0].marks
    assert max(mark.down.mm for mark in marks) > tape.reach
    every = tape.zero_every.mm
    for mark in marks:
        assert mark.reads.mm <= tape.reach + 1e-9
        assert mark.reads.mm + (mark.zero - 1) * every == pytest.approx(mark.down.mm)
        assert (mark.zero == 1) == (mark.down.mm <= tape.reach)
    assert [zero.mm for zero in found.pieces[0].zeros] == [pytest.approx(every)]
    says = said(found, "Second 0")
    assert f"chalk a second 0 on the fold, {tape.zero_every.pretty} down from 0" in says
    hem = next(mark for mark in marks if mark.id == "hem_fold")
    assert f"hem {hem.reads.pretty} from the second 0 ({hem.order})" in said(found, "Levels")
    corner = next(mark for mark in marks if mark.id == "hem_corner")
    assert f"down {corner.reads.pretty} from the second 0" in said(found, "Widths")
    titles = [step.title for step in found.steps]
    assert titles.index("Second 0") < titles.index("Levels")


def test_a_tape_that_reaches_has_one_zero() -> None:
    for tape in TAPES:
        found = plan((dress(),), tape)
        assert found.pieces[0].zeros == ()
        assert all(mark.zero == 1 and mark.reads == mark.down for mark in found.pieces[0].marks)
        assert not any("second 0" in step.says for step in found.steps)
    long = plan((dress(down=1.6),), Tape("cm", "0.5", 2500.0))
    assert long.pieces[0].zeros == ()


def test_a_notch_that_only_the_back_has_is_marked_there() -> None:
    front = dress()
    extra = replace(front.notches[0], id="zip_end", label="End of the opening", outer=Point(254.0, 300.0))
    found = plan((front, backed(front, notches=(*front.notches, extra))), EIGHTH)
    assert said(found, "Notches", "back").endswith("end of the opening across 10, down 11¾.")


# ---- what the garment hands over ---------------------------------------------------------------------------------


def test_stages_and_parts_come_from_the_piece() -> None:
    """A piece that names its own stages and parts is chalked by those words: the plan knows none of its own."""
    piece = dress()
    stages = (Stage("rule", "Ruled first"), Stage("swing", "Swung edges"))
    anchors = tuple(
        replace(anchor, stage="rule" if anchor.kind in ("fold", "level") else "swing") for anchor in piece.anchors
    )
    parts = (Part("neck_fold", "swung", "swung edge", "swing"),)
    found = plan((replace(piece, stages=stages, anchors=anchors, parts=parts),), EIGHTH)
    titles = [step.title for step in found.steps]
    assert titles[1:3] == ["Ruled first", "Swung edges"]
    curve = [mark for mark in found.pieces[0].marks if mark.kind == "curve"]
    assert [mark.label for mark in curve] == [f"swung edge {number}" for number in range(1, len(curve) + 1)]
    assert [mark.id for mark in curve] == [f"swung_{number}" for number in range(1, len(curve) + 1)]
    assert found.pieces[0].stages == stages


def test_every_garment_names_the_stages_of_all_it_hands_over() -> None:
    for name in CASES:
        draft = laid_case(name)[0].draft
        assert [stage.key for stage in draft.stages][:2] == ["levels", "widths"]
        for piece in draft.pieces:
            keys = {stage.key for stage in piece.stages}
            assert {anchor.stage for anchor in piece.anchors} <= keys
            assert {part.stage for part in piece.parts} <= keys
            assert {part.begins for part in piece.parts} <= {anchor.id for anchor in piece.anchors}
            assert set(piece.stages) <= set(draft.stages)


def test_where_the_tolerance_is_finer_than_the_search_the_points_stay_apart() -> None:
    corner = Run.of([Point(0.0, 0.0), Point(1.0, 0.0), Point(1.0, 5.0)])
    for begin in (0.99, 0.995, 0.999):
        end = _farthest(corner, begin, 1e-12)
        assert begin < end <= begin + 0.05
    assert _farthest(corner, 1.0, 1e-12) == pytest.approx(6.0, abs=0.02)
