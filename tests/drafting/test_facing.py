"""A neck opening is a faced slit: its facing is a piece of its own, chalked, laid, counted, drawn and written down."""

import json
import re
from dataclasses import replace
from functools import cache
from itertools import combinations

import pytest

from drafting.chalk.plan import plan
from drafting.cloth import passing_factor
from drafting.contract.pieces import Piece
from drafting.drawing.piece import Stroke, piece_drawing
from drafting.layout import candidates, laid, way_of
from drafting.order import Result
from drafting.person.passing import head_needs
from drafting.record.documents import chalk_sheet_pdf, draft_json, pattern_pdf, pattern_svg
from drafting.units import Tape
from tests.drafting.bodies import BODIES, KNIT, Data, draft, set_out
from tests.drafting.pdf_reading import open_pdf

WOMAN = BODIES["median woman"]
OPEN: Data = {"neck_opening": "centre_back"}
TAPES: tuple[Data, ...] = ({"unit": "cm", "step": "0.5"}, {"unit": "cm", "step": "0.1"}, {"unit": "in", "step": "1/4"})


def faced(found: Result) -> Piece:
    return found.draft.pieces[-1]


@cache
def opened(body: str, tape: int, height: str) -> Result:
    style = {**OPEN, **({"neck_height": 0} if height == "scooped" else {})}
    return draft(BODIES[body], style, tape=TAPES[tape])


@pytest.mark.parametrize("height", ["standing", "scooped"])
@pytest.mark.parametrize("tape", range(len(TAPES)))
@pytest.mark.parametrize("body", ["median woman", "child of 6"])
def test_it_is_6_wide_and_3_longer_than_the_slit_up_to_the_next_step(body: str, tape: int, height: str) -> None:
    result = opened(body, tape, height)
    facing, back = faced(result), result.draft.pieces[1]
    step = result.ready.tape.size
    slit = back.guides[-1].line[-1].y - back.cut_line[0].y  # from the cut edge of the neck
    assert 0 <= facing.width - 60 < step - 1e-6
    assert 0 <= facing.height - (slit + 30) < step - 1e-6
    corners = {(round(point.x, 6), round(point.y, 6)) for point in facing.cut_line}
    assert corners == {(round(x, 6), round(y, 6)) for x in (0.0, facing.width) for y in (0.0, facing.height)}
    line = facing.guides[0].line
    assert [point.x for point in line] == pytest.approx([facing.width / 2] * 2)
    assert line[0].y == 0
    assert line[1].y == pytest.approx(slit)
    assert (facing.cut, facing.on_fold) == (1, False)
    assert all(edge.allowance == 0 for edge in facing.edges)


@pytest.mark.parametrize("tape", range(len(TAPES)))
@pytest.mark.parametrize("stretch", [5, 20, 40])
@pytest.mark.parametrize("body", ["median woman", "man", "child of 6"])
def test_the_end_of_the_opening_is_read_where_it_lies_so_the_head_passes(body: str, stretch: int, tape: int) -> None:
    result = draft(BODIES[body], OPEN, {"stretch_across": stretch}, tape=TAPES[tape])
    back, used = result.draft.pieces[1], result.ready.tape
    end = back.guides[-1].line[-1].y
    assert used.reading(end).mm == pytest.approx(end, abs=1e-6)
    facts = result.draft.facts
    assert facts["head_ring"] * passing_factor(stretch / 100) >= head_needs(result.draft.body) - 0.05
    assert facts["opening"] == pytest.approx(end - back.stitch_line[0].y)


def test_its_marks_read_right_in_centimetres() -> None:
    result = opened("median woman", 0, "standing")
    assert result.plan is not None
    marks = result.plan.pieces[-1]
    slit = result.draft.pieces[1].guides[0].marks[0].outer.y / 10
    read = {mark.id: (mark.across.text, mark.down.text) for mark in marks.every}
    assert read == {
        "facing_top": ("0.0", "0.0"),
        "facing_foot": ("0.0", f"{slit + 3:.1f}"),
        "facing_top_corner": ("6.0", "0.0"),
        "facing_foot_corner": ("6.0", f"{slit + 3:.1f}"),
        "line_top": ("3.0", "0.0"),
        "line_end": ("3.0", f"{slit:.1f}"),
    }
    told = {step.title: step.says for step in result.plan.steps if step.piece == "facing"}
    assert "Do not cut it yet" in told["Marked line"]
    assert "Snip" not in told["Cut"]
    assert "through the upper layer only" in told["Cut"]
    assert told["Count"].startswith("3 pieces in all: 1 front on the fold, 1 back on the fold, 1 neck facing.")


def test_the_back_has_the_line_and_nobody_cuts_it_at_the_table() -> None:
    result = opened("median woman", 0, "standing")
    assert result.plan is not None
    front, back = result.plan.pieces[:2]
    assert not front.guides
    last = back.every[-1]
    assert last.id == "opening_end"
    assert last.order == len(front.every) + 1
    said = {step.title: step.says for step in result.plan.steps if step.piece == "back"}
    number = next(mark.order for mark in back.marks if mark.id == "neck_top")
    assert f"from ({number}) straight down to ({last.order}). Do not cut it yet" in said["Opening at the neck"]
    assert "Never cut the fold." in said["Cut"]
    assert "opening" not in said["Cut"]


@pytest.mark.parametrize("folded", ["single", "folded"])
def test_a_centre_back_seam_is_left_open_and_needs_no_facing(folded: str) -> None:
    found = set_out(WOMAN, {**OPEN, "centre_back": "seam", "neck_layers": folded})
    assert [piece.name for piece in found.pieces] == ["front", "back"]
    back = found.pieces[1]
    notch = next(one for one in back.notches if one.id == "opening")
    assert notch.seam == "centre_back"
    assert notch.outer.x == pytest.approx(0.0, abs=1e-9)
    assert notch.inner.x == pytest.approx(next(e.allowance for e in back.edges if e.name == "centre_back"))
    assert notch.inner.y == pytest.approx(found.facts["opening"] + back.stitch_line[0].y)
    made = plan(found.pieces, found.chalked.tape)
    said = next(step.says for step in made.steps if step.title == "Opening at the neck")
    assert said.endswith(f"Above ({made.pieces[1].every[-1].order}) the seam stays open.")
    # Both backs take it over.
    assert [p.name for p in set_out(WOMAN, {"centre_back": "seam"}).pieces] == ["front", "back"]


@pytest.mark.outside
@pytest.mark.parametrize(("width", "sleeve"), [("150 cm", "wrist"), ("180 cm", "elbow")])
def test_it_lies_on_the_cloth_in_every_way_along_the_grain(width: str, sleeve: str) -> None:
    from shapely import Polygon

    found = set_out(
        WOMAN, {**OPEN, "sleeve_length": sleeve}, {"width": width, "stretch_across": 40, "stretch_along": 40}
    )
    by_name = {piece.name: piece for piece in found.pieces}
    for layout in candidates(found.pieces, found.cloth):
        mine = [place for place in layout.places if place.piece == "facing"]
        assert len(mine) == 1
        assert mine[0].layers == 1
        if layout.way != "crosswise":  # where every piece lies across
            assert mine[0].turned % 180 == 0
        shapes = [Polygon([(p.x, p.y) for p in laid(by_name[place.piece], place)]) for place in layout.places]
        for first, second in combinations(shapes, 2):
            assert first.intersection(second).area < 1.0
        assert max(shape.bounds[3] for shape in shapes) <= layout.length + 1e-3


def test_a_folded_cloth_does_not_grow_for_it() -> None:
    closed, result = draft(WOMAN), opened("median woman", 1, "standing")
    half = next(one for one in result.layouts if one.way == "half")
    assert half.length == pytest.approx(next(one.length for one in closed.layouts if one.way == "half"), abs=1.0)
    table = json.loads(draft_json(result))["at_table"]
    says = next(one["says"] for one in table["layings"] if one["piece"] == "facing")
    assert ("through the upper layer only" in says) == (result.layout is not None and way_of(result.layout).doubled)
    assert table["count"] == "3 pieces in all: 1 front, 1 back, 1 neck facing."


def test_every_output_holds_it() -> None:
    result = opened("median woman", 0, "standing")
    texts = [
        " ".join(page.extract_text() for page in open_pdf(data).pages)
        for data in (chalk_sheet_pdf(result, "A4"), pattern_pdf(result, "A4"))
    ]
    for text in (*texts, pattern_svg(result).decode()):
        assert "neck facing" in text.lower()
        assert "opening" in text
        assert "marked" in text
    written = json.loads(draft_json(result))
    assert [piece["name"] for piece in written["pieces"]] == ["front", "back", "facing"]
    back, facing = written["pieces"][1:]
    assert back["guides"][0]["marks"] == ["opening_end"]
    assert back["guides"][0]["line"][0] == [0, 0]
    assert facing["guides"][0]["marks"] == ["line_top", "line_end"]
    assert "opening" not in " ".join(e["name"] for e in back["seams"])


def test_an_opening_that_no_head_needs_is_long_enough_to_be_faced() -> None:
    found = set_out(WOMAN, {**OPEN, "neck_height": 0, "neck_half_width": "120 mm"}, {"stretch_across": 80})
    closed = set_out(WOMAN, {"neck_height": 0, "neck_half_width": "120 mm"}, {"stretch_across": 80})
    assert closed.facts["head_ring"] * passing_factor(0.8) > head_needs(closed.body)
    assert 30.0 - 1e-6 <= found.facts["opening"] < 30.0 + found.chalked.tape.size


def test_a_closed_neck_has_no_facing() -> None:
    assert [piece.name for piece in set_out(WOMAN).pieces] == ["front", "back"]


def test_a_joined_sleeve_keeps_its_place_before_the_facing() -> None:
    names = [piece.name for piece in set_out(WOMAN, {**OPEN, "lower_sleeve": "joined"}).pieces]
    assert names == ["front", "back", "lower_sleeve", "facing"]


def test_on_folded_cloth_it_is_said_to_lie_in_the_upper_layer() -> None:
    result = opened("median woman", 0, "standing")
    assert result.layout is not None
    assert way_of(result.layout).doubled
    sheet = " ".join(page.extract_text() for page in open_pdf(chalk_sheet_pdf(result, "A4")).pages)
    assert "It lies in the upper layer only. Its length runs" in sheet
    place = next(one for one in result.layout.places if one.piece == "facing")
    assert place.layers == 1


def test_its_place_is_told_before_the_first_cut() -> None:
    result = opened("median woman", 0, "standing")
    assert result.plan is not None
    places = next(step.says for step in result.plan.steps if step.title == "Places")
    assert "neck facing: its 0 lies" in places
    begins = next(step.says for step in result.plan.steps if step.title == "Begin the neck facing")
    assert "in the upper layer only" in begins
    assert "along the grain" in begins


def test_what_differs_on_the_back_is_drawn_with_its_number() -> None:
    result = opened("median woman", 0, "standing")
    assert result.plan is not None
    number = str(result.plan.pieces[1].every[-1].order)
    pages = [page.extract_text() for page in open_pdf(chalk_sheet_pdf(result, "A4")).pages]
    page = next(text for text in pages if "Back: what differs" in text)
    assert page.split().count(number) == 2  # in the drawing and in the table


def test_the_opening_is_drawn_inside_the_back_and_a_piece_without_allowances_has_one_line() -> None:
    result = opened("median woman", 0, "standing")
    tape = result.ready.tape
    front, back, facing = result.draft.pieces
    drawn = piece_drawing(back, None, tape, scale=6)
    dashed = [item for item in drawn.items if isinstance(item, Stroke) and item.role == "guide"]
    assert all(0 < point.x < 20 for stroke in dashed for point in stroke.points)
    no_top = replace(front, edges=(replace(front.edges[0], allowance=0.0), *front.edges[1:]))
    for piece, shown in ((facing, 0), (front, 1), (no_top, 1)):
        items = piece_drawing(piece, None, tape, scale=6).items
        assert sum(isinstance(item, Stroke) and item.role == "stitch" for item in items) == shown


@pytest.mark.parametrize(("scale", "beside"), [(1.0, False), (8.0, True)])
def test_at_true_size_the_opening_lies_where_it_is_chalked(scale: float, beside: bool) -> None:
    back = set_out(WOMAN, {"neck_opening": "centre_back"}, KNIT).pieces[1]
    drawn = piece_drawing(back, None, Tape("cm", "0.5"), scale=scale, letters=1.5)
    lines = [item for item in drawn.items if isinstance(item, Stroke) and item.role == "guide"]
    xs = {round(point.x, 6) for line in lines for point in line.points if len(line.points) == 2}
    assert xs
    assert all((x > 1.0) == beside for x in xs), xs
    assert beside or xs == {0.0}


def test_the_level_at_its_foot_is_called_without_its_place() -> None:
    result = opened("median woman", 1, "standing")
    assert result.plan is not None
    levels = next(
        step for step in result.plan.steps if step.piece == "facing" and step.stage and "square to" in step.says
    )
    assert re.search(r": foot [0-9.]+ \(\d+\)\. Rule this level across, square to", levels.says)
    assert levels.apart[0].says.startswith("Foot: rule it across")
