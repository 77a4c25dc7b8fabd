import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drafting.chalk.plan import plan
from drafting.cloth import ClothFacts
from drafting.drawing.board import least_bad
from drafting.drawing.piece import (
    INKS,
    Drawing,
    Label,
    Stroke,
    beside,
    cloth_drawing,
    crosses_box,
    key_drawing,
    label_box,
    piece_drawing,
    reach_at,
)
from drafting.layout import lay, whole_length
from drafting.units import CM, INCH, Tape

from .sample_piece import sample_back, sample_piece

INCHES = Tape("in", "1/8")
FRONT = sample_piece()
PLAN = plan((FRONT, sample_back()), INCHES)
CLOTH = ClothFacts(1500, None, 15, 0.4, 0.2, 0, 0.03, "good", True)


def strokes(drawing: Drawing, role: str) -> list[Stroke]:
    return [item for item in drawing.items if isinstance(item, Stroke) and item.role == role]


def words(drawing: Drawing) -> list[str]:
    return [item.text for item in drawing.items if isinstance(item, Label)]


def numbers(drawing: Drawing) -> list[Label]:
    return [item for item in drawing.items if isinstance(item, Label) and item.role == "mark"]


def test_the_cut_line_is_drawn_as_it_is():
    drawing = piece_drawing(FRONT, None, INCHES)
    assert [stroke.points for stroke in strokes(drawing, "cut")] == [FRONT.cut_line]
    assert [stroke.points for stroke in strokes(drawing, "stitch")] == [FRONT.stitch_line]


def test_weight_and_dash_tell_the_lines_apart_without_colour():
    assert not INKS["cut"].dash
    assert INKS["stitch"].dash
    assert INKS["fold"].weight > INKS["cut"].weight > INKS["stitch"].weight > INKS["level"].weight
    assert len({(ink.weight, ink.dash) for ink in (INKS["cut"], INKS["stitch"], INKS["proof"], INKS["trim"])}) == 4


def test_signs_carry_their_words():
    said = words(piece_drawing(FRONT, PLAN.pieces[0], INCHES, scale=7))
    for word in ("FRONT", "cut 1 on the fold", "FOLD: do not cut", "most stretch", "grain", "bust", "waist", "hip"):
        assert word in said


def test_the_bracket_points_at_the_fold():
    heads = [s for s in strokes(piece_drawing(FRONT, None, INCHES, scale=7), "grain") if s.filled and s.points[0].x < 7]
    assert len(heads) >= 2
    for head in heads:
        tip = head.points[0]
        assert all(point.x > tip.x for point in head.points[1:])


@pytest.mark.parametrize("scale", [5.0, 6.0, 7.0, 8.0, 9.0])
def test_numbers_sit_on_nothing(scale: float):
    drawing = piece_drawing(FRONT, PLAN.pieces[0], INCHES, scale=scale)
    labels = numbers(drawing)
    assert sorted(int(label.text) for label in labels) == list(range(1, len(PLAN.pieces[0].marks) + 1))
    boxes = [label_box(label, scale) for label in labels]
    for index, box in enumerate(boxes):
        for other in boxes[index + 1 :]:
            assert box[2] <= other[0] or other[2] <= box[0] or box[3] <= other[1] or other[3] <= box[1]
        line = FRONT.cut_line
        assert not any(crosses_box(a, b, box) for a, b in itertools.pairwise(line))


@pytest.mark.parametrize("scale", [5.0, 8.0])
def test_a_number_stands_near_its_own_mark(scale: float):
    drawing = piece_drawing(FRONT, PLAN.pieces[0], INCHES, scale=scale)
    at = {str(mark.order): mark.point for mark in PLAN.pieces[0].marks}
    for label in numbers(drawing):
        assert label.at.distance(at[label.text]) <= 18 * scale


def test_everything_lies_within_the_box():
    for back in (FRONT, sample_back()):
        drawing = piece_drawing(back, PLAN.pieces[0], INCHES, scale=7, show_proofs=True)
        right, bottom = drawing.left + drawing.width, drawing.top + drawing.height
        for item in drawing.items:
            points = item.points if isinstance(item, Stroke) else (item.at,)
            assert all(drawing.left <= p.x <= right and drawing.top <= p.y <= bottom for p in points)


def test_widths_are_named_half_and_whole():
    said = words(piece_drawing(FRONT, None, INCHES, scale=7))
    for y in (FRONT.level("waist"), FRONT.level("hip")):
        reach = reach_at(FRONT, y)
        assert reach is not None
        assert f"half {INCHES.reading(reach).pretty}" in said
        assert f"whole {INCHES.reading(2 * INCHES.reading(reach).mm).pretty}" in said
    assert "hip as cut" in said
    assert "hem as cut" in said


def test_slit_opening_and_trim_are_drawn_where_they_are_cut():
    back = sample_back()
    drawing = piece_drawing(back, None, INCHES, scale=7)
    opening = strokes(drawing, "guide")
    end = 120.0
    assert max(point.y for stroke in opening for point in stroke.points) == pytest.approx(end)
    assert [stroke.points for stroke in strokes(drawing, "trim")] == [back.trim]
    assert "slit up to here" in words(drawing)
    # No bracket says "do not cut" where the fold is cut.
    for label in drawing.items:
        if isinstance(label, Label) and label.text.startswith("FOLD"):
            assert label_box(label, 7)[1] > end


def test_proof_lengths_join_their_marks():
    marks = PLAN.pieces[0]
    drawing = piece_drawing(FRONT, marks, INCHES, scale=7, show_proofs=True)
    at = {mark.id: mark.point for mark in marks.marks}
    assert [s.points for s in strokes(drawing, "proof")] == [(at[p.start], at[p.end]) for p in marks.proofs]


def test_the_cloth_shows_fold_selvage_stretch_and_way():
    pieces = (FRONT, sample_back())
    layout = lay(pieces, CLOTH)
    assert layout is not None
    drawing = cloth_drawing(layout, pieces, CLOTH, "cm")
    said = words(drawing)
    assert {"FOLD", "selvages, both layers", "most stretch", "one way", "1  Front", "2  Back"} <= set(said)
    cuts = strokes(drawing, "cut")
    assert [min(point.x for point in cut.points) for cut in cuts] == [0.0, 0.0]
    assert min(point.y for point in cuts[1].points) == pytest.approx(max(point.y for point in cuts[0].points))
    assert max(point.x for cut in cuts for point in cut.points) <= CLOTH.width / 2 - CLOTH.selvage
    assert "239 cm of cloth" in said


def test_the_key_explains_every_sign():
    said = " ".join(words(key_drawing()))
    for word in ("cutting", "stitching", "fold", "grain", "most stretch", "notch", "clip", "level", "mark"):
        assert word in said


@given(st.floats(1, 10_000), st.sampled_from(["cm", "in"]))
def test_the_length_of_cloth_shown_is_never_too_short(length: float, unit: str):
    step = CM if unit == "cm" else INCH
    bought = whole_length(length, unit)  # type: ignore[arg-type]
    assert -1e-3 <= bought - length < step + 1e-3
    assert bought / step == pytest.approx(round(bought / step))


def test_beside_keeps_sizes_and_leaves_the_gap():
    one, two = piece_drawing(FRONT, None, INCHES), piece_drawing(sample_back(), None, INCHES)
    both = beside((one, two), 60.0, "Two")
    assert both.width == pytest.approx(one.width + 60 + two.width)
    assert both.height == max(one.height, two.height)
    first, second = strokes(both, "cut")
    gaps = [b.x - a.x for a, b in zip(first.points, second.points, strict=True)]
    assert max(gaps) - min(gaps) < 1e-9


def test_the_same_piece_gives_the_same_drawing():
    first = piece_drawing(FRONT, PLAN.pieces[0], INCHES, scale=7)
    assert first == piece_drawing(sample_piece(), PLAN.pieces[0], INCHES, scale=7)


def test_the_first_of_those_that_do_least_harm_is_taken_and_none_is_looked_at_after_one_without() -> None:
    seen: list[str] = []

    def harm(choice: str) -> int:
        seen.append(choice)
        return {"a": 3, "b": 1, "c": 1}.get(choice, 0)

    assert least_bad("abc", harm) == "b"
    assert least_bad("adbe", harm) == "d"
    assert "".join(seen) == "abcad"
    with pytest.raises(ValueError, match="nothing to choose from"):
        least_bad("", harm)
