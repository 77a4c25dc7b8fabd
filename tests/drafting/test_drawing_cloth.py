"""The cloth as it is drawn: every way of laying, by outlines, signs and words."""

import math
from itertools import combinations, pairwise

import pytest

from drafting.drawing.piece import INKS, Drawing, Label, Stroke, cloth_drawing, crosses_box, fold_drawing, label_box
from drafting.geometry.point import Point
from drafting.layout import Layout, across_folds, in_cutting_order, laid, lay_together, way_name
from drafting.order import Result
from tests.drafting.bodies import BODIES, draft
from tests.drafting.laid_cases import CASES, laid_case

SCALES = (8.0, 14.0)


def drawn(result: Result, layout: Layout, scale: float = 10.0) -> Drawing:
    return cloth_drawing(layout, result.draft.pieces, result.ready.cloth, scale=scale)


def strokes(drawing: Drawing, role: str) -> list[Stroke]:
    return [item for item in drawing.items if isinstance(item, Stroke) and item.role == role]


def labels(drawing: Drawing) -> list[Label]:
    return [item for item in drawing.items if isinstance(item, Label)]


def words(drawing: Drawing) -> str:
    return " / ".join(label.text for label in labels(drawing))


@pytest.mark.outside
@pytest.mark.parametrize("name", CASES)
def test_every_piece_is_drawn_as_it_is_laid(name: str):
    from shapely import Polygon

    result, layout = laid_case(name)
    by_name = {piece.name: piece for piece in result.draft.pieces}
    cuts = [Polygon([(p.x, p.y) for p in s.points]) for s in strokes(drawn(result, layout), "cut")]
    wanted = [Polygon([(p.x, p.y) for p in laid(by_name[place.piece], place)]) for place in layout.places]
    assert len(cuts) == len(wanted)
    for outline in wanted:
        assert min(outline.symmetric_difference(cut).area for cut in cuts) < 1e-6


@pytest.mark.outside
@pytest.mark.parametrize("name", [name for name, case in CASES.items() if case[3] not in {"open", "crosswise"}])
def test_hatching_covers_what_lies_double_and_no_piece(name: str):
    from shapely import MultiLineString, Polygon, box

    result, layout = laid_case(name)
    hatched = MultiLineString([[(p.x, p.y) for p in s.points] for s in strokes(drawn(result, layout), "hatch")])
    by_name = {piece.name: piece for piece in result.draft.pieces}
    for place in layout.places:
        inside = Polygon([(p.x, p.y) for p in laid(by_name[place.piece], place)]).buffer(-2.0)
        assert hatched.intersection(inside).length < 1e-6
    double = layout.folds[0].depth if layout.way == "part_fold" else layout.laid_width
    cloth = box(0, 0, double, layout.length)
    assert hatched.difference(cloth.buffer(1e-6)).length < 1e-6
    free = cloth
    for place in layout.places:
        free = free.difference(Polygon([(p.x, p.y) for p in laid(by_name[place.piece], place)]))
    every = hatched.length * 34.0  # lines 3.4 mm of paper apart at one to ten
    assert every == pytest.approx(free.area, rel=0.03)


@pytest.mark.parametrize("name", CASES)
@pytest.mark.parametrize("scale", SCALES)
def test_all_lies_in_the_box_and_no_words_meet(name: str, scale: float):
    result, layout = laid_case(name)
    drawing = drawn(result, layout, scale)
    right, bottom = drawing.left + drawing.width, drawing.top + drawing.height
    for item in drawing.items:
        points = item.points if isinstance(item, Stroke) else (Point(*label_box(item, scale)[:2]), item.at)
        assert all(drawing.left <= p.x <= right and drawing.top <= p.y <= bottom for p in points)
    boxes = [(label, label_box(label, scale)) for label in labels(drawing)]
    for (first, a), (second, b) in combinations(boxes, 2):
        apart = a[2] <= b[0] + 1e-6 or b[2] <= a[0] + 1e-6 or a[3] <= b[1] + 1e-6 or b[3] <= a[1] + 1e-6
        assert apart, (first.text, second.text)
    cuts = strokes(drawing, "cut")
    for label, box in boxes:
        if label.role == "cut":
            struck = [cut for cut in cuts for a, b in pairwise(cut.points) if crosses_box(a, b, box)]
            assert struck == [], label.text


@pytest.mark.parametrize("name", CASES)
def test_numbers_zeros_way_and_length_are_there(name: str):
    result, layout = laid_case(name)
    drawing = drawn(result, layout)
    said = words(drawing)
    assert way_name(layout.way) in said
    assert "of cloth" in said
    assert "cut end" in said
    assert sum(label.text == "0" for label in labels(drawing)) == len(layout.places)
    rings = [s for s in strokes(drawing, "mark") if s.closed and not s.filled]
    middles = {
        (round(sum(p.x for p in ring.points) / 24, 3), round(sum(p.y for p in ring.points) / 24, 3)) for ring in rings
    }
    assert middles == {(round(place.x, 3), round(place.y, 3)) for place in layout.places}
    for number, place in enumerate(in_cutting_order(layout, result.draft.pieces), start=1):
        label = next(piece.label for piece in result.draft.pieces if piece.name == place.piece)
        assert f"{number}  {label}" in said or f"{number} / " in said


@pytest.mark.parametrize("name", CASES)
def test_folds_and_layers_are_told_without_colour(name: str):
    result, layout = laid_case(name)
    drawing = drawn(result, layout)
    said = words(drawing)
    upright = {s.points[0].x for s in strokes(drawing, "fold") if s.points[0].x == s.points[1].x}
    assert upright == {fold.at for fold in layout.folds if not fold.across}
    across = {round(s.points[0].y, 6) for s in strokes(drawing, "fold") if s.points[0].y == s.points[1].y}
    assert across == {round(fold.at, 6) for fold in layout.folds if fold.across}
    assert ("FOLD" in said) == bool(layout.folds)
    assert ("one layer" in said) == any(place.layers == 1 for place in layout.places)
    assert ("wrong side up" in said) == (layout.way != "crosswise")
    assert ("hatched" in said) == bool(strokes(drawing, "hatch"))
    whole = [place for place in layout.places if place.opened and layout.way != "crosswise"]
    assert len(strokes(drawing, "centre")) == len(whole) or layout.way == "crosswise"
    assert INKS["centre"].dash
    assert INKS["fold"].weight > INKS["cut"].weight > INKS["hatch"].weight
    if result.ready.cloth.one_way:
        assert "one way" in said


def test_the_stretch_arrow_runs_where_the_stretch_is():
    result, layout = laid_case("half")
    shaft = next(s for s in strokes(drawn(result, layout), "stretch") if len(s.points) == 2)
    assert shaft.points[0].y == shaft.points[1].y
    turned = draft(BODIES["median woman"], {"neck_height": 0}, {"lay": "crosswise", "stretch_along": 30})
    drawing = cloth_drawing(turned.layouts[0], turned.draft.pieces, turned.ready.cloth)
    shaft = next(s for s in strokes(drawing, "stretch") if len(s.points) == 2)
    assert shaft.points[0].y == shaft.points[1].y, "the cloth stretches most across, however the pieces lie"
    long = draft(BODIES["median woman"], {"neck_height": 0}, {"stretch_across": 30, "stretch_along": 40})
    drawing = cloth_drawing(long.layouts[0], long.draft.pieces, long.ready.cloth)
    shaft = next(s for s in strokes(drawing, "stretch") if len(s.points) == 2)
    assert shaft.points[0].x == shaft.points[1].x


@pytest.mark.parametrize("name", ["crosswise", "crosswise, joined with a seam"])
def test_each_fold_across_has_its_picture(name: str):
    result, layout = laid_case(name)
    folds = across_folds(layout, result.draft.pieces)
    assert len(folds) == len(layout.folds)
    for fold in folds:
        drawing = fold_drawing(layout, result.draft.pieces, fold)
        (cut,) = strokes(drawing, "cut")
        sense = 1.0 if fold.end == "cut end" else -1.0
        assert all((p.y - fold.at) * sense >= -1e-6 for p in cut.points), "the half lies on the cloth, not beyond it"
        over = fold.at if fold.end == "cut end" else layout.length - fold.at
        assert max(abs(p.y - fold.at) for p in cut.points) <= over + 1e-6, "and through both layers"
        piece = next(piece for piece in result.draft.pieces if piece.name == fold.place.piece)
        whole = laid(piece, fold.place)
        for p in cut.points:
            assert min(math.hypot(p.x - q.x, p.y - q.y) for q in whole) < 1e-6
        assert f"{fold.end}, turned over" in words(drawing)


def test_several_garments_carry_their_names():
    mother = draft(BODIES["median woman"], {"sleeve_length": "60 mm"}, {}).draft.pieces
    made = draft(BODIES["child of 6"], {"sleeve_length": "60 mm"}, {"width": "180 cm"})
    found = lay_together([("Mother", mother), ("Child", made.draft.pieces)], made.ready.cloth)
    assert found.layout is not None
    drawing = cloth_drawing(found.layout, found.pieces, made.ready.cloth)
    assert "Mother:" in words(drawing)
    assert "Child:" in words(drawing)
    assert len(strokes(drawing, "cut")) == len(found.layout.places)


@pytest.mark.parametrize("name", CASES)
def test_a_sparing_drawing_names_pieces_and_folds_and_gives_the_cloth_the_room(name: str):
    result, layout = laid_case(name)
    full = drawn(result, layout)
    little = cloth_drawing(layout, result.draft.pieces, result.ready.cloth, scale=10.0, sparing=True)
    left_out = {label.text for label in labels(full)} - {label.text for label in labels(little)}
    for text in left_out:
        assert not text[0].isdigit() or text.endswith(("wide", "open", "of cloth")), text
        assert "FOLD" not in text
    assert len(left_out) >= 5
    assert words(full).count("FOLD") == words(little).count("FOLD")
    assert little.height < full.height
    assert little.width <= full.width
    assert strokes(full, "cut") == strokes(little, "cut")
