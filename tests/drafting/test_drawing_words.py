"""The words on the drawing of a piece: none lies on a line or another, and each allowance stands beside its edge."""

from dataclasses import replace
from functools import cache
from itertools import combinations, pairwise

import pytest

from drafting.chalk.plan import plan
from drafting.drawing.items import overlap
from drafting.drawing.piece import Drawing, Label, Stroke, crosses_box, cut_words, label_box, piece_drawing
from drafting.garments import garments
from drafting.geometry.point import Point
from drafting.geometry.polyline import distance_to_polyline
from drafting.order import Result, make, read_order
from drafting.render.pdf_cloth import fitted_cloth
from drafting.render.sheet_marks import fitted_drawing
from drafting.units import Tape, Unit, say_length
from tests.drafting import from_fields
from tests.drafting.bodies import BODIES, Data, draft, measured_for, order, set_out
from tests.drafting.test_every_garment_made import SOME, made

pytestmark = pytest.mark.outside

CASES: dict[str, tuple[str, Data]] = {
    "tunic": ("median woman", {}),
    "scooped": ("child of 6", {"neck_height": 0, "length": "hip"}),
    "cap": ("median woman", {"sleeve_length": "60 mm", "body": "pegged"}),
    "bell": ("tall woman", {"length": "ankle", "flare": "bell"}),
    "seam and slit": ("median woman", {"centre_back": "seam", "slit": "20 cm", "length": "knee"}),
    "joined": ("man", {"lower_sleeve": "joined", "length": "hip"}),
    "opening": ("child of 6", {"length": "hip", "neck_opening": "centre_back"}),
}
UNITS: tuple[Unit, ...] = ("cm", "in")


@cache
def drafted(case: str) -> Result:
    body, style = CASES[case]
    return draft(BODIES[body], style, {"width": "200 cm"})


def drawings(case: str, unit: Unit, tall: float) -> list[tuple[int, Drawing]]:
    result = drafted(case)
    planned = plan(result.draft.pieces, result.ready.tape, layout=result.layout)
    return [
        (k, fitted_drawing(piece, marked, result.ready.tape, 102.0, tall, whole=k == 0 and unit == "in", unit=unit))
        for k, (piece, marked) in enumerate(zip(result.draft.pieces, planned.pieces, strict=True))
    ]


def on_each_other(drawing: Drawing) -> list[tuple[str, str]]:
    """Words that lie on others, and words that a line runs through with its role; a hair is passed over."""
    boxes = [(item.text, label_box(item, drawing.scale)) for item in drawing.items if isinstance(item, Label)]
    found = [(a, b) for (a, one), (b, two) in combinations(boxes, 2) if overlap(one, two)]
    strokes = [s for s in drawing.items if isinstance(s, Stroke) and s.role != "piece_fill"]
    little = 0.15 * drawing.scale
    for text, box in boxes:
        inner = (box[0] + little, box[1] + little, box[2] - little, box[3] - little)
        for stroke in strokes:
            points = [*stroke.points, stroke.points[0]] if stroke.closed else stroke.points
            if any(crosses_box(a, b, inner) for a, b in pairwise(points)):
                found.append((text, stroke.role))
    return found


@pytest.mark.sampled(4)
@pytest.mark.parametrize("case", CASES)
@pytest.mark.parametrize(("unit", "tall"), [("cm", 150.0), ("in", 105.0)])
def test_no_words_lie_on_each_other_or_on_a_line(case: str, unit: Unit, tall: float):
    for _, drawing in drawings(case, unit, tall):
        assert on_each_other(drawing) == []


@pytest.mark.sampled(4)
@pytest.mark.parametrize(("garment", "case"), SOME)
def test_no_words_of_any_garment_lie_on_each_other_or_on_a_line(garment: str, case: str):
    result = made(garment, case)
    assert result.plan is not None
    for piece, marked in zip(result.draft.pieces, result.plan.pieces, strict=True):
        whole = piece.name in (result.layout.laid_whole if result.layout else ())
        drawing = fitted_drawing(piece, marked, result.ready.tape, 102.0, 150.0, whole=whole, unit="cm")
        assert on_each_other(drawing) == [], piece.name


@pytest.mark.parametrize("garment", garments())
def test_no_words_round_the_cloth_lie_on_each_other(garment: str):
    """A child's garment on wide cloth: so short a length has hardly room for the words beside it."""
    child, laid = measured_for(BODIES["child of 6"], garment), 0
    for name, case in list(garments()[garment].cases.items())[:5]:
        cloth = {**from_fields.GIVING, **case.cloth, "width": "240 cm"}
        found, _ = read_order(order(child, dict(case.style), cloth, garment=garment))
        result = None if found is None else make(found, with_ways_out=False)
        if result is None or result.layout is None:
            continue
        drawing = fitted_cloth(result.layout, result.draft.pieces, result.ready.cloth, "cm", 112.0, 130.0)
        boxes = [(one.text, label_box(one, drawing.scale)) for one in drawing.items if isinstance(one, Label)]
        assert [(a, b) for (a, x), (b, y) in combinations(boxes, 2) if overlap(x, y)] == [], name
        laid += 1
    assert laid > 1


@pytest.mark.sampled(4)
@pytest.mark.parametrize("case", CASES)
@pytest.mark.parametrize("unit", UNITS)
def test_each_allowance_stands_beside_its_own_edge(case: str, unit: Unit):
    for index, drawing in drawings(case, unit, 150.0):
        piece = drafted(case).draft.pieces[index]
        said = [item for item in drawing.items if isinstance(item, Label) and item.role == "allowance"]
        edges = [edge for edge in piece.edges if edge.allowance > 0]
        assert len(said) == len(edges)
        assert edges or piece.name not in {"front", "back"}
        for label, edge in zip(said, edges, strict=True):
            assert label.text == say_length(edge.allowance, unit)
            lines = {e.name: min(distance_to_polyline(label.at, run) for run in (e.cut, e.stitch.flatten(0.5)))
                     for e in piece.edges}  # fmt: skip
            assert min(lines, key=lambda name: lines[name]) == edge.name
            assert lines[edge.name] < 12.0 * drawing.scale


def test_allowances_are_left_out_where_no_unit_is_given():
    result = drafted("tunic")
    drawing = piece_drawing(result.draft.pieces[0], None, result.ready.tape, scale=8)
    assert not any(isinstance(item, Label) and item.role == "allowance" for item in drawing.items)


def test_the_slit_of_a_back_with_a_centre_seam_is_drawn_at_its_side():
    result = drafted("seam and slit")
    for piece in result.draft.pieces[:2]:
        drawing = piece_drawing(piece, None, result.ready.tape, scale=8)
        label = next(item for item in drawing.items if isinstance(item, Label) and item.text == "slit up to here")
        side = next(edge for edge in piece.edges if edge.name == "side")
        top = next(notch for notch in piece.notches if notch.id == "slit")
        assert distance_to_polyline(top.outer, side.cut) < 0.1
        assert label.at.x > top.outer.x
        hem = max(point.y for point in side.stitch.flatten(0.5))
        assert hem - top.inner.y == pytest.approx(piece.slit.high, abs=1.0)
        ticks = [s for s in drawing.items if isinstance(s, Stroke) and s.role == "notch"]
        assert any(
            s.points[0].distance(top.outer) < 40 and s.points[1].distance(top.outer) < 20
            and (s.points[1] - s.points[0]).unit().distance((top.outer - top.inner).unit()) < 0.1
            for s in ticks
        )  # fmt: skip


def test_a_name_finds_a_free_place_beside_a_piece_too_narrow_for_it():
    """The cap's body is narrow; its name keeps off every line all the same, and is not lost."""
    result = drafted("cap")
    drawing = piece_drawing(result.draft.pieces[0], None, result.ready.tape, scale=22)
    name = next(item for item in drawing.items if isinstance(item, Label) and item.text == "FRONT")
    box = label_box(name, 22)
    walls = [s for s in drawing.items if isinstance(s, Stroke) and s.role in {"cut", "stitch", "level"}]
    assert not any(crosses_box(a, b, box) for s in walls for a, b in pairwise(s.points))
    assert isinstance(name.at, Point)


#: Garments with bands of rib, the pieces that are bands, and the lowest and highest that may be asked for of each.
BANDED: dict[str, tuple[str, dict[str, tuple[str, str, str]]]] = {
    "drop_shoulder": (
        "rib bands",
        {
            "neck_band": ("band_height", "15 mm", "40 mm"),
            "cuff": ("cuff_height", "30 mm", "120 mm"),
            "hem_band": ("hem_band_height", "20 mm", "120 mm"),
        },
    ),
    "cut_in_one": (
        "bands of rib",
        {"neck_band": ("neck_band_height", "15 mm", "40 mm"), "cuff": ("cuff_height", "30 mm", "120 mm")},
    ),
    "circle_skirt": ("band of rib", {"waistband": ("waistband_height", "20 mm", "80 mm")}),
}


@pytest.mark.parametrize("which", [0, 1, 2])
@pytest.mark.parametrize("garment", BANDED)
def test_the_name_of_a_band_stands_on_it_in_true_size_however_low_it_is(garment: str, which: int):
    """On paper what stands beside a piece may lie on no sheet; so the name, and of what it is cut, stand on it."""
    case, bands = BANDED[garment]
    heights = {key: (low, high)[which - 1] for key, low, high in bands.values()} if which else {}
    style = {**garments()[garment].cases[case].style, **heights}
    draft = set_out(BODIES["median woman"], style, garment=garment)
    for piece in (one for one in draft.pieces if one.name in bands):
        drawing = piece_drawing(piece, None, Tape("cm", "0.5"), letters=1.5, show_marks=False)
        said = [item for item in drawing.items if isinstance(item, Label) and item.role == "cut"]
        assert any(piece.label.upper() in item.text for item in said), piece.name
        assert any(cut_words(piece) in item.text for item in said), piece.name
        for item in said:
            left, top, right, bottom = label_box(item, drawing.scale)
            assert 0 <= left < right <= piece.width, (piece.name, item.text)
            assert 0 <= top < bottom <= piece.height, (piece.name, item.text)


@pytest.mark.parametrize(("garment", "case"), SOME)
def test_both_sides_of_a_line_are_named_where_they_differ(garment: str, case: str):
    """Each word stands once, close to the line, and on the side where the marks lie that are called after it."""
    result = made(garment, case)
    assert result.plan is not None
    for piece, marked in zip(result.draft.pieces, result.plan.pieces, strict=True):
        drawing = fitted_drawing(piece, marked, result.ready.tape, 102.0, 150.0, whole=False, unit="cm")
        boxes = [(item.text, label_box(item, drawing.scale)) for item in drawing.items if isinstance(item, Label)]
        for guide, nearer in (
            (guide, nearer) for guide in piece.guides if any(guide.beside) for nearer in (True, False)
        ):
            word, line = guide.beside[0 if nearer else 1], guide.line[0].x
            (box,) = (box for text, box in boxes if text == word)
            assert 0 < (line - box[2] if nearer else box[0] - line) < 4 * drawing.scale, f"{piece.name}: {word}"
            called = [mark.point.x for mark in marked.marks if word in mark.label.split()]
            assert called, f"no mark is called after {word}"
            assert all((x < line) is nearer for x in called), f"{piece.name}: {word}"


@pytest.mark.parametrize("garment", ["leggings", "set_in"])
def test_a_sleeve_and_a_leg_name_both_their_sides(garment: str):
    named = [
        guide.beside
        for piece in made(garment, next(iter(garments()[garment].cases))).draft.pieces
        for guide in piece.guides
    ]
    assert sorted(map(sorted, named)).count(["back", "front"]) == 1


#: Pieces whose names, grain or numbers had no room where they are usually written, as large as on their sheets.
CROWDED: tuple[tuple[str, str, Data, str, str, float, bool], ...] = (
    ("cut_in_one", "child of 12", {"sleeve_finish": "flounce", "sleeve_flounce_fullness": "full", "length": "hip",
     "neck_height": 0}, "90 cm", "sleeve_flounce", 40.0, True),
    ("set_in", "median woman", {"sleeve_finish": "flounce", "sleeve_flounce_fullness": "full"}, "150 cm",
     "sleeve_flounce", 50.0, True),
    ("cut_in_one", "full bust", {"sleeve_finish": "flounce", "overarm_angle": 10}, "140 cm", "front", 115.0, False),
    ("kaftan", "man", {"length": "hip", "sleeve_length": "elbow", "sleeve_shape": "straight"}, "150 cm", "back", 85.0,
     False),
    ("knit_trousers", "median woman", {"pockets": "in_seam"}, "150 cm", "front_pocket_bag", 62.0, False),
    ("drop_shoulder", "median woman", {"length": "knee", "sleeve_length": "short"}, "150 cm", "sleeve", 52.0, True),
    ("drop_shoulder", "man", {"neck_finish": "hood", "pouch": "front", "hem_finish": "band"}, "150 cm", "front", 105.0,
     False),
    ("leggings", "man", {"waistband": "casing", "waistband_height": "20 mm"}, "150 cm", "waistband", 60.0, False),
    ("leggings", "man", {"waistband": "casing", "waistband_height": "20 mm"}, "150 cm", "waistband", 60.0, True),
    ("leggings", "median woman", {"waistband": "jersey"}, "150 cm", "waistband", 60.0, False),
    ("circle_skirt", "median woman", {"waistband_height": "20 mm"}, "150 cm", "waistband", 60.0, True),
)  # fmt: skip


@pytest.mark.parametrize(("garment", "body", "style", "width", "piece", "tall", "whole"), CROWDED)
def test_words_of_crowded_pieces_lie_on_nothing_and_the_grain_on_its_piece(
    garment: str, body: str, style: Data, width: str, piece: str, tall: float, whole: bool
) -> None:
    result = draft(measured_for(BODIES[body], garment), style, {"width": width}, garment=garment)
    planned = plan(result.draft.pieces, result.ready.tape, layout=result.layout)
    index = next(k for k, one in enumerate(result.draft.pieces) if one.name == piece)
    own, marked = result.draft.pieces[index], planned.pieces[index]
    drawing = fitted_drawing(own, marked, result.ready.tape, 102.0, tall, whole=whole, unit="cm")
    assert on_each_other(drawing) == []
    foot = max(point.y for point in own.cut_line)
    arrows = [one for one in drawing.items if isinstance(one, Stroke) and one.role == "grain" and len(one.points) == 2]
    assert arrows
    assert all(max(point.y for point in one.points) <= foot for one in arrows)


@pytest.mark.parametrize(("scale", "on_it"), [(1.0, True), (4.0, False)])
def test_a_strip_too_low_for_its_name_has_it_below_only_where_it_is_drawn_smaller(scale: float, on_it: bool) -> None:
    """A waistband cut 15 mm high: in true size what stands beside it may lie on no sheet."""
    draft = set_out(measured_for(BODIES["median woman"], "circle_skirt"), {}, garment="circle_skirt")
    band = next(piece for piece in draft.pieces if piece.name == "waistband")
    low = replace(
        band, cut_line=tuple(Point(at.x, at.y * 15 / band.height) for at in band.cut_line), guides=(), notches=()
    )
    drawing = piece_drawing(low, None, Tape("cm", "0.5"), scale=scale, show_stitch=False, show_marks=False)
    (name,) = [item for item in drawing.items if isinstance(item, Label) and "WAISTBAND" in item.text]
    assert (name.at.y < max(at.y for at in low.cut_line)) is on_it
