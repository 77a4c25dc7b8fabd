"""The fold-over line of a folded neck: where it lies, that front and back agree, and that every output shows it.

Turned at half the height and half a centimetre, so that the edge ends 1 cm above the side-neck level (set out by hand).
"""

import json
import math
from itertools import pairwise
from pathlib import Path as FilePath

import pytest

from app.chalking import read_chalking
from drafting.chalk.plan import plan
from drafting.contract.pieces import Guide, Piece
from drafting.drawing.piece import Label, Stroke, label_box, piece_drawing
from drafting.geometry.path import Path
from drafting.geometry.point import Point
from drafting.geometry.segments import Line
from drafting.record.documents import chalk_sheet_pdf, draft_json, pattern_pdf, pattern_svg
from drafting.units import Tape
from tests.drafting.bodies import BODIES, Data, draft, order, set_out
from tests.drafting.pdf_reading import open_pdf

WOMAN = BODIES["median woman"]
FOLDED: Data = {"neck_layers": "folded"}
CORE = FilePath(__file__).parents[2]


def guide(piece: Piece, name: str) -> Guide:
    return next(one for one in piece.guides if one.id == name)


def edge(piece: Piece, name: str) -> Path:
    return next(one.stitch for one in piece.edges if one.name == name)


def finished(piece: Piece, shrinkage: Data) -> tuple[Path, list[Point]]:
    """Top edge and fold-over line, finished, from the side-neck level."""
    across = 1 - shrinkage.get("shrink_across", 0) / 100
    along = 1 - shrinkage.get("shrink_along", 0) / 100
    level = piece.level("side_neck")
    top = edge(piece, "neck_top").scaled(across, along, Point(0.0, -level * along))
    line = [Point(p.x * across, (p.y - level) * along) for p in guide(piece, "fold_over").line]
    return top, line[:-1]  # the last point lies on the cut line


@pytest.mark.parametrize("lean", [0, 9, 15])
@pytest.mark.parametrize("height", [40, 90, 140, 230])
@pytest.mark.parametrize("shrinkage", [{}, {"shrink_across": 4, "shrink_along": 7}])
def test_folded_over_the_edge_ends_1_cm_above_the_side_neck(height: float, lean: float, shrinkage: Data) -> None:
    found = set_out(WOMAN, {**FOLDED, "neck_height": f"{height} mm", "neck_lean": lean}, shrinkage)
    for piece in found.pieces:
        top, line = finished(piece, shrinkage)
        assert line[0].x == pytest.approx(0.0, abs=1e-9)
        stands = -line[0].y
        assert stands - (height - stands) == pytest.approx(10.0, abs=1e-6)
        # Turned over, each place of the top edge comes to lie as far below the line as it was above.
        for place in line:
            assert top.nearest(place)[0] >= 0
            assert place.distance(top.nearest(place)[1]) == pytest.approx(height - stands, abs=0.02)


@pytest.mark.parametrize(
    ("asked", "body", "stands"),
    [
        ("39 mm", "median woman", None),  # so low an edge rolls over: it is scooped and nothing is folded
        ("40 mm", "median woman", 25.0),
        ("270 mm", "median woman", 140.0),
        ("290 mm", "median woman", (0.17 * 1628 + 10) / 2),  # limited to what folds over well
        ("380 mm", "tall woman", (280 + 10) / 2),
        ("80 mm", "child of 6", 45.0),
        ("90 mm", "child of 6", (0.07 * 1170 + 10) / 2),
    ],
)
def test_the_line_follows_the_height_that_is_drafted(asked: str, body: str, stands: float | None) -> None:
    found = set_out(BODIES[body], {**FOLDED, "neck_height": asked})
    figures = {figure.at: figure.value for figure in found.figures}
    if stands is None:
        assert all(piece.guides == () for piece in found.pieces)
        assert "fold_over" not in figures
        return
    assert figures["fold_over"] == pytest.approx(stands)
    for piece in found.pieces:
        assert piece.level("side_neck") - guide(piece, "fold_over").line[0].y == pytest.approx(stands)


@pytest.mark.parametrize("style", [{}, {"neck_lean": 12}, {"neck_height": "40 mm"}, {"centre_back": "seam"}])
def test_sides_change_1_cm_below_the_line_at_every_seam_across_it(style: Data) -> None:
    found = set_out(WOMAN, {**FOLDED, **style})
    front, back = found.pieces
    for piece in (front, back):
        seams = ["shoulder", "centre_back"] if piece is back and "centre_back" in style else ["shoulder"]
        notches = {(notch.seam, notch.id): notch for notch in piece.notches}
        for seam in seams:
            line, turn = notches[seam, "fold_over"], notches[seam, "turn"]
            assert abs(turn.at - line.at) == pytest.approx(10.0, abs=0.01)
            assert turn.inner.y > line.inner.y  # below, not above
            # Both lie square across their seam, on the cut line.
            for notch in (line, turn):
                allowance = next(one.allowance for one in piece.edges if one.name == seam)
                assert notch.outer.distance(notch.inner) == pytest.approx(allowance)
        side = guide(piece, "fold_over").marks[-1]
        assert side.outer.distance(notches["shoulder", "fold_over"].outer) < 1e-6
        assert guide(piece, "turn_side").marks[0].outer.distance(notches["shoulder", "turn"].outer) < 1e-6
    ours = {(n.seam, n.id): n.at for n in front.notches if n.seam == "shoulder"}
    theirs = {(n.seam, n.id): n.at for n in back.notches if n.seam == "shoulder"}
    assert ours == pytest.approx(theirs)


def test_front_and_back_carry_the_same_lines() -> None:
    front, back = set_out(WOMAN, FOLDED).pieces
    assert front.guides == back.guides
    assert [one.id for one in front.guides] == ["fold_over", "turn_side"]


@pytest.mark.parametrize(
    ("tape", "down", "turn"),
    [(Tape("cm", "0.5"), "7.5", "8.5"), (Tape("cm", "0.1"), "7.5", "8.5"), (Tape("in", "1/8"), "3", "3⅜")],
)
def test_its_marks_read_right(tape: Tape, down: str, turn: str) -> None:
    # 14 in all stands 7.5; the cut top lies 1 above the finished one: 14 - 7.5 + 1 = 7.5 down, 8.5 to the change.
    found = set_out(WOMAN, FOLDED)
    made = plan(found.pieces, tape)
    for marks in made.pieces:
        read = {mark.id: (mark.across.pretty, mark.down.pretty) for mark in marks.every}
        across = read["neck_corner"][0]
        assert read["fold_over"] == ("0" if tape.unit == "in" else "0.0", down)
        assert read["fold_over_side"] == (across, down)
        assert read["turn_side"] == (across, turn)
        orders = [mark.order for mark in marks.every]
        assert orders == list(range(1, len(orders) + 1))
    said = next(step for step in made.steps if step.title == "Neck and overarm")
    number = {mark.id: mark.order for mark in made.pieces[0].every}
    line = f"Chalk the fold-over line dashed: ({number['fold_over']}) straight to ({number['fold_over_side']})."
    assert line in said.says
    assert f"Up from ({number['turn_side']}) the seam is sewn with its allowances to the other side." in said.says
    assert {"fold_over", "fold_over_side", "turn_side"} <= set(said.marks)
    ticks = next(step.says for step in made.steps if step.title == "Notches")
    assert f"({number['fold_over_side']}) fold-over line at the side" in ticks
    carried = next(step.says for step in made.steps if step.piece == "back")
    assert "carry every notch, the fold-over line and the change of sides over" in carried


def test_a_leaning_line_is_drawn_through_as_many_marks_as_it_needs() -> None:
    tape = Tape("cm", "0.1")
    found = set_out(WOMAN, {**FOLDED, "neck_lean": 15})
    for within in (3.0, 0.5):
        marks = plan(found.pieces, tape, join_within=within).pieces[0]
        line = next(one for one in marks.guides if one.guide == "fold_over")
        points = [mark.point for mark in line.marks]
        joins = Path.of(Line(a, b) for a, b in pairwise(points))
        away = max(joins.nearest(point)[1].distance(point) for point in guide(found.pieces[0], "fold_over").line)
        assert away <= within + 1e-6
        assert len({mark.id for mark in marks.every}) == len(marks.every)
    assert line.marks[1].kind == "curve"


def test_the_stitching_line_has_the_marks_on_it() -> None:
    found = set_out(WOMAN, FOLDED)
    made = plan(found.pieces, Tape("cm", "0.1"), line="stitch")
    at = {mark.id: mark.point for mark in made.pieces[0].every}
    assert at["fold_over_side"].x == pytest.approx(at["neck_corner"].x)
    assert at["turn_side"].y - at["fold_over_side"].y == pytest.approx(10.0)


def test_every_output_shows_it_and_a_single_neck_shows_none() -> None:
    folded, single = draft(WOMAN, FOLDED), draft(WOMAN)
    for result, shown in ((folded, True), (single, False)):
        pages = {
            "sheet": " ".join(page.extract_text() for page in open_pdf(chalk_sheet_pdf(result, "A4")).pages),
            "pattern": " ".join(page.extract_text() for page in open_pdf(pattern_pdf(result, "A4")).pages),
            "svg": pattern_svg(result).decode(),
            "draft": draft_json(result).decode(),
        }
        for name, text in pages.items():
            for words in ("fold-over line", "change of sides"):
                assert (words in text) == shown, name
    written = json.loads(draft_json(folded))
    for piece in written["pieces"]:
        marks = {mark["id"]: mark for mark in piece["marks"]}
        line = next(one for one in piece["guides"] if one["id"] == "fold_over")
        assert line["marks"] == ["fold_over", "fold_over_side"]
        assert line["line"][0] == [marks["fold_over"]["x"], marks["fold_over"]["y"]]
        assert line["line"][-1] == [marks["fold_over_side"]["x"], marks["fold_over_side"]["y"]]
        assert marks["fold_over_side"]["joined"] == f"straight from {marks['fold_over']['order']}"
    assert json.loads(draft_json(single))["pieces"][0]["guides"] == []


def test_the_chalk_screen_draws_it_and_asks_for_its_marks() -> None:
    result = draft(WOMAN, FOLDED, tape={"unit": "cm", "step": "0.5"})
    found = read_chalking(draft_json(result).decode(), json.dumps(order(WOMAN, FOLDED, tape={"unit": "cm"})))
    assert found is not None
    front = found.pieces["front"]
    dashed = [item for item in front.drawing.items if isinstance(item, Stroke) and item.role == "guide"]
    assert len(dashed) == 2
    assert {"fold_over", "fold_over_side", "turn_side"} <= set(front.marks)
    asked = {item.key: item.pairs for item in found.items if item.kind == "mark"}
    assert asked["front.fold_over_side"] == (("across", asked["front.neck_corner"][0][1]), ("down", "7.5"))


def test_nothing_outside_the_garment_knows_its_lines_or_its_facing_by_name() -> None:
    garments = CORE / "drafting" / "garments"  # others may have such a line too
    for path in [*(CORE / "drafting").rglob("*.py"), *(CORE / "app").rglob("*.py")]:
        if garments in path.parents or path.name in {"sources.py", "text.py"}:
            continue
        shared = path.parent.name == "parts"  # a band has a fold-over line of its own
        code = path.read_text(encoding="utf-8")
        for name in ("fold_over", "fold-over line", "turn_side", 'opening_end"', "facing_", '"facing"'):
            spoken = name == "fold-over line"
            docstrings = code.count("such as a fold-over line") if spoken else 0
            assert code.count(name) == docstrings or (shared and spoken), f"{path.name}: {name}"


def test_the_head_passes_a_folded_neck_as_it_passes_a_single_one() -> None:
    folded, single = set_out(WOMAN, FOLDED), set_out(WOMAN)
    assert folded.facts == pytest.approx(single.facts, nan_ok=True)
    assert folded.girths == single.girths
    for ours, theirs in zip(folded.pieces, single.pieces, strict=True):
        assert ours.cut_line == theirs.cut_line
    assert math.isfinite(folded.facts["head_ring"])


@pytest.mark.parametrize("letters", [1.0, 1.5])
def test_no_word_of_the_fold_stands_across_the_line(letters: float) -> None:
    front = set_out(WOMAN, FOLDED).pieces[0]
    scale = 1.0
    drawing = piece_drawing(front, None, Tape("cm", "0.5"), scale=scale, letters=letters, show_marks=False)
    labels = [item for item in drawing.items if isinstance(item, Label)]
    name = next(label for label in labels if label.text == "fold-over line")
    at = guide(front, "fold_over").line[0].y
    assert label_box(name, scale)[3] <= at  # above its line
    for label in labels:
        if label.text.startswith("FOLD"):
            box = label_box(label, scale)
            assert not box[1] < at < box[3]
