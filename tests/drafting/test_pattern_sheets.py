"""How many sheets the pattern takes, and that every cut line lies on them: measured on the PDF itself."""

import json
import re
from dataclasses import replace
from functools import cache
from io import BytesIO
from pathlib import Path

import pytest
from pypdf import PdfReader

from drafting.contract.pieces import Piece, Slit
from drafting.drawing.piece import Label, label_box, piece_drawing
from drafting.drawing.shared import differing, onto, together
from drafting.geometry.point import Point
from drafting.geometry.polyline import distance_to_polyline
from drafting.order import Result, make, read_order
from drafting.record.documents import pattern_pdf
from drafting.render.pdf import MARGIN, PAPERS
from drafting.render.pdf_pattern import LEAD, OVERLAP, Tiling, pattern, tiling
from drafting.units import Tape
from tests.drafting.bodies import BODIES, draft
from tests.drafting.pdf_reading import MM, lines_of, open_pdf, rectangles, words_of
from tests.drafting.sample_piece import sample_piece

pytestmark = pytest.mark.outside

ORDERS = Path(__file__).parents[1] / "orders"
CM = Tape("cm", "0.5")


@cache
def ordered(name: str) -> Result:
    order, _ = read_order(json.loads((ORDERS / f"{name}.json").read_text(encoding="utf-8")))
    assert order is not None
    return make(order, with_ways_out=False)


def printed(reader: PdfReader, paper: str, label: str) -> list[list[tuple[float, float]]]:
    """Every cut line on the sheets of a piece, mm, put together by the row and sheet that each sheet says."""
    across, down = PAPERS[paper][0] - 2 * MARGIN - OVERLAP, PAPERS[paper][1] - 2 * MARGIN - OVERLAP  # type: ignore[index]
    found = []
    for page in reader.pages[1:]:
        name = re.search(rf"{label} – row (\d+), sheet (\d+)", page.extract_text())
        if name is None:
            continue
        x, y = (int(name[2]) - 1) * across - LEAD - MARGIN, (int(name[1]) - 1) * down - LEAD - MARGIN
        found += [
            [(a + x, b + y) for a, b in line.points]
            for line in lines_of(page)
            if abs(line.width - 0.6) < 0.01 and not line.dash and not line.filled
        ]
    return found


@pytest.mark.parametrize(
    ("name", "paper"), [("lantern_dress", "Letter"), ("harbour_tunic", "A4"), ("kite_pullover", "Letter")]
)
def test_front_and_back_share_their_sheets_and_no_cut_line_is_lost(name: str, paper: str):
    from shapely import LineString, MultiLineString

    result = ordered(name)
    pieces = result.draft.pieces
    reader = open_pdf(pattern_pdf(result, paper))  # type: ignore[arg-type]
    apart = sum(tile.needed for piece in pieces for tile in tiling(piece, CM, PAPERS[paper]).tiles)  # type: ignore[index]
    assert len(reader.pages) - 1 <= 0.6 * apart
    for side in (100.0, 101.6):
        assert any(abs(w - side) <= 0.1 and abs(h - side) <= 0.1 for w, h in rectangles(reader.pages[0]))
    front, back = pieces[:2]
    outlines = [front.cut_line, onto(front, back).cut_line]
    top = min(point.y for line in outlines for point in line)
    runs = printed(reader, paper, "Front and back")
    ink = MultiLineString([LineString([(x, y + top) for x, y in run]) for run in runs]).buffer(0.15)
    for line in outlines:
        assert LineString([(point.x, point.y) for point in line]).difference(ink).length == 0


def test_both_necklines_are_drawn_and_named_each_after_its_piece():
    result = ordered("harbour_tunic")
    front, back = result.draft.pieces[:2]
    text = words_of(pattern_pdf(result, "A4"))
    assert "front neck edge" in text
    assert "back neck edge" in text
    assert "each is named after its piece" in text
    drawing = piece_drawing(front, None, CM, others=(back,), show_marks=False)
    at = {item.text: item.at for item in drawing.items if isinstance(item, Label)}
    own = {"front neck edge": front.cut_line, "back neck edge": onto(front, back).cut_line}
    for words, line in own.items():
        other = next(lines for name, lines in own.items() if name != words)
        assert distance_to_polyline(at[words], line) < distance_to_polyline(at[words], other)
    # The fold reaches up to the higher of the two necks.
    fold = [item for item in drawing.items if not isinstance(item, Label) and item.role == "fold"]
    assert min(p.y for item in fold for p in item.points) == pytest.approx(onto(front, back).cut_line[0].y)
    assert "FRONT AND BACK" in at
    assert "cut 1 of each on the fold" in at


def test_pieces_of_another_shape_keep_their_own_sheets():
    joined = draft(BODIES["median woman"], {"lower_sleeve": "joined"}).draft.pieces
    assert [[piece.name for piece in group] for group in together(joined)] == [["front", "back"], ["lower_sleeve"]]
    seam = draft(BODIES["median woman"], {"centre_back": "seam"}, {"width": "160 cm"}).draft.pieces
    assert [[piece.name for piece in group] for group in together(seam)] == [["front"], ["back"]]
    front = sample_piece()
    wider = replace(front, name="back", cut_line=tuple(
        replace(p, x=p.x * (1.1 if p.y > front.height / 2 else 1.0)) for p in front.cut_line
    ))  # fmt: skip
    assert len(together((front, wider))) == 2
    assert len(together((front, replace(front, name="back", slit=Slit("side", 100.0))))) == 2
    assert len(together((front, replace(front, name="back")), frozenset({"back"}))) == 2
    assert len(together((front, replace(front, name="back")))) == 1
    assert differing(front.cut_line, front.cut_line) == ()


def wide_piece() -> Piece:
    """A piece so wide that sheets inside it hold no line."""
    front = sample_piece()
    grow = 1100 / front.width

    def larger(point: Point) -> Point:
        return Point(point.x * grow, point.y * 1.2)

    edges = tuple(
        replace(
            edge, stitch=type(edge.stitch).of(type(s)(larger(s.start), larger(s.end)) for s in edge.stitch.segments)
        )
        for edge in front.edges
    )
    return replace(
        front, edges=edges, cut_line=tuple(map(larger, front.cut_line)), notches=(), clips=(), anchors=(),
        levels=tuple(replace(level, down=1.2 * level.down) for level in front.levels),
    )  # fmt: skip


def test_sheets_blank_inside_a_piece_are_left_out_and_shown_so_on_the_map():
    from shapely import Polygon, box

    piece = wide_piece()
    tiles = tiling(piece, CM, PAPERS["A4"])
    blank = [tile for tile in tiles.tiles if tile.blank]
    assert blank
    assert not any(tile.needed for tile in blank)
    reader = open_pdf(pattern((piece,), CM))
    needed = [tile for tile in tiles.tiles if tile.needed]
    assert len(reader.pages) == 1 + len(needed)
    assert reader.pages[0].extract_text().count("left out") == len(blank) + 1  # each place, and the sentence about them
    names = {(int(m[1]), int(m[2])) for page in reader.pages[1:]
             for m in [re.search(r"Front – row (\d+), sheet (\d+)", page.extract_text())] if m}  # fmt: skip
    assert names == {(tile.row, tile.sheet) for tile in needed}
    text = words_of(pattern((piece,), CM))
    assert "Left out, being blank:" in text
    assert connected(tiles)
    shape = Polygon([(point.x, point.y) for point in piece.cut_line])
    inner = {tile: box(*tile.box).buffer(-OVERLAP) for tile in tiles.tiles if not tile.needed}
    assert all(shape.contains(inner[tile]) == tile.blank for tile in inner)
    assert all(tile.blank or not shape.intersects(inner[tile]) for tile in inner)
    for tile in blank:
        assert not any(
            tile.box[0] + OVERLAP < p.x < tile.box[2] - OVERLAP and tile.box[1] + OVERLAP < p.y < tile.box[3] - OVERLAP
            for p in (*piece.cut_line, *piece.stitch_line)
        )


def connected(tiles: Tiling) -> bool:
    """Whether every printed sheet is reached from the first one over sides that both sheets print."""
    needed = {(tile.row, tile.sheet) for tile in tiles.tiles if tile.needed}
    reached, todo = set(), [min(needed)]
    while todo:
        row, sheet = todo.pop()
        if (row, sheet) in needed and (row, sheet) not in reached:
            reached.add((row, sheet))
            todo += [(row + 1, sheet), (row - 1, sheet), (row, sheet + 1), (row, sheet - 1)]
    return reached == needed


@pytest.mark.parametrize("name", ["lantern_dress", "harbour_tunic", "kite_pullover"])
def test_every_sheet_joins_another(name: str):
    for group in together(ordered(name).draft.pieces):
        for paper in PAPERS.values():
            assert connected(tiling(group[0], CM, paper, others=group[1:]))


def test_the_true_size_is_that_of_the_paper():
    reader = open_pdf(pattern_pdf(ordered("harbour_tunic"), "A4"))
    assert float(reader.pages[1].mediabox.width) * MM == pytest.approx(210.0, abs=0.01)


def test_a_piece_that_begins_higher_is_laid_hem_on_hem():
    """A back whose neck stands 20 mm higher has its 0 there; on the front's sheets its hem comes to lie on the hem."""
    front = sample_piece()
    line = (Point(0, 0), *(Point(p.x, p.y + 20) for p in front.cut_line[1:]))
    higher = replace(front, name="back", label="Back", cut_line=line)
    moved = onto(front, higher)
    assert moved.cut_line[0] == Point(0, -20)
    assert moved.cut_line[-1].distance(front.cut_line[-1]) < 1e-9
    assert moved.notches[0].outer.y == pytest.approx(higher.notches[0].outer.y - 20)
    tiles = tiling(front, CM, PAPERS["A4"], others=(higher,))
    assert tiles.tiles[0].box[1] == pytest.approx(-20 - LEAD)


def test_the_words_of_a_centre_line_stand_on_the_sheet_and_not_beside_it():
    """At true size the first sheet begins a hair left of the line: words beside it would be cut off."""
    result = draft(BODIES["median woman"], {}, {"width": "150 cm"}, garment="knit_skirt")
    tiles = tiling(result.draft.pieces[0], CM, PAPERS["A4"], whole=True)
    centre = [one for one in tiles.drawing.items if isinstance(one, Label) and one.role == "centre"]
    assert [one.text for one in centre] == ["CENTRE LINE: mirror this half"]
    left = min(tile.box[0] for tile in tiles.tiles)
    assert all(label_box(one, 1.0)[0] > left for one in centre)


def test_maps_alone_fill_both_columns_of_their_page():
    style = {"neck_finish": "hood", "sleeve_finish": "cuff", "hem_finish": "band", "pouch": "front"}
    result = draft(BODIES["man"], style, {"width": "150 cm"}, garment="drop_shoulder")
    texts = [page.extract_text() for page in PdfReader(BytesIO(pattern_pdf(result, "Letter"))).pages]
    maps = [text.count("map of the sheets") for text in texts]
    assert sum(maps) == len(together(result.draft.pieces, frozenset())) > 6
    assert maps[1] >= 3
    assert not any(maps[3:]), "three pages hold them all"
