import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, MultiLineString, Polygon, box
from shapely import Point as ShapelyPoint

from drafting.contract.pieces import Piece
from drafting.drawing.piece import Drawing, Label, Stroke, clipped, cloth_drawing, label_box
from drafting.geometry.point import Point
from drafting.layout import Layout, in_cutting_order, laid
from drafting.render.pdf import runs_within
from tests.drafting.laid_cases import CASES, laid_case

pytestmark = pytest.mark.outside

BOX = (-10.0, -20.0, 15.0, 25.0)
places = st.builds(Point, st.floats(-50, 50), st.floats(-50, 50))


@given(places, places)
def test_clipping_agrees_with_shapely(a: Point, b: Point):
    inside = LineString([(a.x, a.y), (b.x, b.y)]).intersection(box(*BOX)).length
    found = clipped(a, b, BOX)
    length = 0.0 if found is None else (found[1] - found[0]) * a.distance(b)
    assert length == pytest.approx(inside, abs=1e-6)


@given(st.lists(places, min_size=2, max_size=12), st.booleans())
def test_lines_cut_at_a_sheet_keep_their_length_and_place(points: list[Point], closed: bool):
    stroke = Stroke(tuple(points), "cut", closed)
    ring = [*points, points[0]] if closed else points
    wanted = sum(
        LineString([(a.x, a.y), (b.x, b.y)]).intersection(box(*BOX)).length for a, b in itertools.pairwise(ring)
    )
    found = 0.0
    for run, begun in runs_within(stroke, BOX):
        found += sum(a.distance(b) for a, b in itertools.pairwise(run))
        # `begun` is how far along the whole line the run begins, so that dashes go on where the sheet before ended.
        there = LineString([(p.x, p.y) for p in ring]).interpolate(begun)
        assert there.distance(ShapelyPoint(run[0].x, run[0].y)) < 1e-6
        assert all(BOX[0] - 1e-9 <= p.x <= BOX[2] + 1e-9 and BOX[1] - 1e-9 <= p.y <= BOX[3] + 1e-9 for p in run)
    assert found == pytest.approx(wanted, abs=1e-5)


def names_stand_on_their_pieces(drawing: Drawing, layout: Layout, pieces: tuple[Piece, ...]) -> int:
    """Asserts that each name lies within the outline of its own piece or has a line to it; how many have a line."""
    by_name = {piece.name: piece for piece in pieces}
    ordered = in_cutting_order(layout, pieces)
    outlines = [Polygon([(p.x, p.y) for p in laid(by_name[place.piece], place)]) for place in ordered]
    labels = [item for item in drawing.items if isinstance(item, Label)]
    lines = [LineString([(p.x, p.y) for p in item.points]) for item in drawing.items
             if isinstance(item, Stroke) and item.role == "dimension"]  # fmt: skip
    leads = MultiLineString(lines)
    led, seen = 0, 0
    for number, outline in enumerate(outlines, start=1):
        begins = [label for label in labels if label.role == "cut" and label.text.split()[0] == str(number)]
        assert len(begins) == 1, number
        area = box(*label_box(begins[0], drawing.scale))
        if outline.contains(area):
            continue
        near = [line for line in leads.geoms if line.distance(outline) < 5 * drawing.scale]
        assert any(line.distance(area) < 5 * drawing.scale for line in near), (number, begins[0].text)
        led += 1
    for label in labels:
        if label.role == "cut":
            seen += 1
            holds = [outline for outline in outlines if outline.contains(box(*label_box(label, drawing.scale)))]
            assert len(holds) == 1 or led, label.text
        elif label.text == "0":  # beside its ring, which lies outside a scooped neck
            at = box(*label_box(label, drawing.scale))
            rings = [box(place.x, place.y, place.x, place.y).buffer(1.2 * drawing.scale) for place in ordered]
            led_there = [line for line in lines if line.distance(at) < 3 * drawing.scale]
            assert any(at.distance(ring) < 3 * drawing.scale for ring in rings) or any(
                line.distance(ring) < 3 * drawing.scale for line in led_there for ring in rings
            )
    assert seen >= len(outlines)
    return led


@pytest.mark.parametrize("scale", [10.0, 17.0, 25.0])
@pytest.mark.parametrize("name", CASES)
def test_every_name_stands_on_its_own_piece(name: str, scale: float):
    result, layout = laid_case(name)
    drawing = cloth_drawing(layout, result.draft.pieces, result.ready.cloth, scale=scale)
    assert names_stand_on_their_pieces(drawing, layout, result.draft.pieces) == 0


def test_a_name_that_does_not_go_into_its_piece_has_a_line_to_it():
    result, layout = laid_case("half, joined")
    drawing = cloth_drawing(layout, result.draft.pieces, result.ready.cloth, scale=150.0)
    assert names_stand_on_their_pieces(drawing, layout, result.draft.pieces) > 0
