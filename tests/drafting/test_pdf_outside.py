"""The paper, read back with a PDF reader and measured."""

import math
import re
from dataclasses import replace
from pathlib import Path

import pytest

from drafting.chalk.plan import plan
from drafting.cloth import ClothFacts, washing_words
from drafting.contract.girths import FinishedGirth
from drafting.contract.pieces import Piece
from drafting.layout import lay
from drafting.person.measures import Estimate
from drafting.problems import Adjustment, Check, WayOut
from drafting.render.pdf import MARGIN, PAPERS
from drafting.render.pdf_pattern import LEAD, pattern, tiling
from drafting.render.pdf_sheet import ChalkSheet, chalk_sheet
from drafting.units import Tape

from .pdf_reading import MM, lines_of, open_pdf, rectangles, words_of, words_over_the_margin
from .sample_piece import sample_back, sample_piece

pytestmark = pytest.mark.outside

INCHES, CENTIMETRES = Tape("in", "1/8"), Tape("cm", "0.5")
PIECES = (sample_piece(), sample_back())
CLOTH = ClothFacts(1500, None, 15, 0.4, 0.2, 0, 0.03, "good", True)
CAUTION = "Wide sleeves and loose hems: keep from cookers, candles, open fires and turning machines."


def sheet(**changes: object) -> ChalkSheet:
    pieces: tuple[Piece, ...] = changes.get("pieces", PIECES)  # type: ignore[assignment]
    made = ChalkSheet(
        title="Market day dress",
        person="Ngozi",
        taken_on="2026-11-02",
        unit="cm",
        pieces=pieces,
        plan=plan(pieces, INCHES),
        cloth=CLOTH,
        layout=lay(pieces, CLOTH),
        checks=(
            Check("head_passes_neck", "pass", "The neck lets the head through.", 561, 555),
            Check(
                "stride",
                "warn",
                "The hem is narrow.",
                1066,
                1126,
                "mm",
                (WayOut("Open a slit.", ()),),
            ),
        ),
        adjusted=(Adjustment("ease_waist", "waist", 750, 800, "so that the bust passes"),),
        finished=(FinishedGirth("bust", "Bust", 1012, 980, 1014),),
        estimates=(Estimate("elbow_girth", 247, 20),),
        cautions=(CAUTION,),
    )
    return replace(made, **changes)  # type: ignore[arg-type]


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_squares_are_100_mm_and_4_in(paper: str):
    data = pattern(PIECES, INCHES, paper=paper)  # type: ignore[arg-type]
    sizes = rectangles(open_pdf(data).pages[0])
    for side in (100.0, 101.6):
        assert any(abs(w - side) <= 0.1 and abs(h - side) <= 0.1 and abs(w - h) <= 0.01 for w, h in sizes)


@pytest.mark.parametrize(("tape", "size"), [(CENTIMETRES, "A4"), (INCHES, "Letter")])
def test_the_paper_follows_the_tape(tape: Tape, size: str):
    for page in open_pdf(pattern(PIECES, tape)).pages:
        box = (float(page.mediabox.width) * MM, float(page.mediabox.height) * MM)
        assert box == pytest.approx(PAPERS[size], abs=0.01)  # type: ignore[index]


# Steps from sheet to sheet with margin 10 and overlap 10: A4 180 x 267 (handbook section 7, calculated).
@pytest.mark.parametrize(("paper", "across", "down"), [("A4", 180.0, 267.0), ("Letter", 185.9, 249.4)])
def test_sheets_put_together_are_the_cut_line(paper: str, across: float, down: float):
    from shapely import LineString, MultiLineString, unary_union

    reader = open_pdf(pattern(PIECES, INCHES, paper=paper))  # type: ignore[arg-type]
    parts: dict[str, list[LineString]] = {piece.label: [] for piece in PIECES}
    for page in reader.pages[1:]:
        name = re.search(r"(Front|Back) – row (\d+), sheet (\d+)", page.extract_text())
        assert name is not None
        shift = ((int(name[3]) - 1) * across - LEAD - MARGIN, (int(name[2]) - 1) * down - LEAD - MARGIN)
        wide, tall = (float(side) * MM for side in (page.mediabox.width, page.mediabox.height))
        for line in lines_of(page):
            if abs(line.width - 0.6) < 0.01 and not line.dash and not line.filled:
                assert all(
                    MARGIN - 0.01 <= x <= wide - MARGIN + 0.01 and MARGIN - 0.01 <= y <= tall - MARGIN + 0.01
                    for x, y in line.points
                )
                parts[name[1]].append(LineString([(x + shift[0], y + shift[1]) for x, y in line.points]))
    for piece in PIECES:
        wanted = LineString([(point.x, point.y) for point in piece.cut_line]).segmentize(1.0)
        found = unary_union(MultiLineString(parts[piece.label]).segmentize(1.0))
        assert found.hausdorff_distance(wanted) <= 0.1
        # And nothing is missing between the points: all of the line lies under what was printed.
        assert wanted.difference(found.buffer(0.1)).length == 0


def test_stitch_is_dashed_and_fold_is_the_heaviest():
    lines = [line for page in open_pdf(pattern(PIECES, INCHES)).pages[1:] for line in lines_of(page)]
    assert any(abs(line.width - 0.3) < 0.01 and len(line.dash) == 2 for line in lines)
    assert max(line.width for line in lines) == pytest.approx(1.1, abs=0.01)


def test_register_crosses_of_neighbours_are_one_place_of_the_pattern():
    tiles = tiling(PIECES[0], INCHES, PAPERS["A4"])
    reader = open_pdf(pattern(PIECES[:1], INCHES, paper="A4"))
    crosses = {}
    for tile, page in zip([tile for tile in tiles.tiles if tile.needed], reader.pages[1:], strict=True):
        level = [line for line in lines_of(page) if abs(line.width - 0.2) < 0.01 and len(line.points) == 2]
        middles = {
            (round((a[0] + b[0]) / 2 - MARGIN + tile.box[0], 1), round((a[1] + b[1]) / 2 - MARGIN + tile.box[1], 1))
            for line in level
            for a, b in [line.points]
            if abs(a[1] - b[1]) < 0.01
        }
        crosses[tile.row, tile.sheet] = middles
        assert len(middles) == 8
    for (row, number), middles in crosses.items():
        for other in ((row, number + 1), (row + 1, number)):
            if other in crosses:
                shared = [m for m in middles if any(math.dist(m, o) < 0.2 for o in crosses[other])]
                assert len(shared) == 3


def test_only_sheets_that_hold_some_of_the_piece_are_printed():
    from shapely import Polygon, box

    tiles = tiling(PIECES[0], INCHES, PAPERS["A4"])
    shape = Polygon([(point.x, point.y) for point in PIECES[0].cut_line])
    printed = [box(*tile.box) for tile in tiles.tiles if tile.needed]
    assert len(printed) < len(tiles.tiles)
    left = shape
    for sheet_box in printed:
        assert shape.intersects(sheet_box)
        left = left.difference(sheet_box)
    assert left.area == pytest.approx(0, abs=1e-6)


def test_a_piece_of_600_by_1200_takes_4_by_5_sheets():
    points = tuple(replace(point, x=point.x * 600 / PIECES[0].width, y=point.y * 1200 / PIECES[0].height)
                   for point in PIECES[0].cut_line)  # fmt: skip
    tiles = tiling(replace(PIECES[0], cut_line=points), CENTIMETRES, PAPERS["A4"])
    assert (tiles.sheets, tiles.rows) == (4, 5)  # handbook section 7, calculated


def test_sheets_say_in_words_what_they_join():
    text = words_of(pattern(PIECES, INCHES, paper="A4"))
    assert "Front – row 2, sheet 3" in text
    assert "row 2, sheet 4 on the right" in text
    assert "Print at 100 %" in text
    assert "Front: cut 1 on the fold" in text


def test_printers_are_told_not_to_scale():
    for data in (pattern(PIECES, INCHES), chalk_sheet(sheet())):
        assert open_pdf(data).root_object["/ViewerPreferences"]["/PrintScaling"] == "/None"


def test_a_page_side_is_at_most_14400_points():
    from drafting.units import INCH

    with pytest.raises(ValueError, match="14400 points"):
        pattern(PIECES, INCHES, paper=(1000.0, 14_401 / 72 * INCH))
    reader = open_pdf(pattern(PIECES, INCHES, paper=(900.0, 14_400 / 72 * INCH)))
    assert max(float(page.mediabox.height) for page in reader.pages) <= 14_400.001


def test_the_same_input_gives_the_same_bytes():
    assert pattern(PIECES, INCHES) == pattern(PIECES, INCHES)
    assert chalk_sheet(sheet()) == chalk_sheet(sheet())


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_the_first_sheet_holds_every_mark_and_proof(paper: str):
    made = sheet()
    text = " ".join(open_pdf(chalk_sheet(made, paper=paper)).pages[0].extract_text().split())  # type: ignore[arg-type]
    for mark in made.plan.pieces[0].marks:
        assert mark.label.lower() in text.lower()
        for reading in (mark.across, mark.down):
            assert reading.pretty in text.replace(" ", "") or reading.pretty in text
    for proof in made.plan.pieces[0].proofs:
        assert proof.reads.pretty in text.replace(" ", "")
    assert "Market day dress" in text
    assert "Ngozi" in text
    assert "2026-11-02" in text
    assert washing_words(CLOTH) in text
    assert "239 cm of 150 cm wide" in text


def test_the_next_sheets_say_the_rest():
    made = sheet()
    text = words_of(chalk_sheet(made))
    for step in made.plan.steps:
        assert " ".join(step.on_paper.split()) in text
    for words in (
        "1 front on the fold", "1 back on the fold", "The hem is narrow.", "Open a slit.",
        "Waist: from 75 cm to 80 cm, so that the bust passes", "The neck lets the head through.", "101.2 cm", "+3.2 cm",
        "101.4 cm", "Elbow girth 24.7 cm (estimated, ± 2 cm)", CAUTION, "Back: what differs from the front",
        "clip: snip once sewn",
    ):  # fmt: skip
        assert words in text
    places = [
        text.index(words) for words in ("The hem is narrow", CAUTION, "101.2 cm", "Waist: from 75", "The neck lets")
    ]
    assert places == sorted(places)


def test_what_does_not_fit_the_cloth_is_said_on_the_first_sheet():
    text = " ".join(open_pdf(chalk_sheet(sheet(layout=None))).pages[0].extract_text().split())
    assert "do not fit" in text


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("odd", ["", "W" * 500, "Adaeze of the long market road " * 16])
def test_no_line_of_words_runs_over_the_margin(paper: str, odd: str):
    with words_over_the_margin() as over:
        chalk_sheet(sheet(title=odd or "Dress", person=odd, taken_on=odd or None), paper=paper)  # type: ignore[arg-type]
    assert over == []


def test_a_long_name_is_shortened_and_printed_in_full_at_the_end():
    name = "".join(chr(ord("a") + index * 7 % 26) for index in range(500))
    for data in (chalk_sheet(sheet(person=name, title=name)), pattern(PIECES, INCHES, title=name, person=name)):
        pages = [page.extract_text() for page in open_pdf(data).pages]
        assert "…" in pages[0]
        assert any(name in "".join(page.split()) for page in pages)


@pytest.mark.parametrize("name", ["<script>alert(1)</script>", "a\x00b\x1b\ud83d\ufffe", "(\\) Tj ET", "{nb}"])
def test_odd_names_are_only_words(name: str):
    for data in (chalk_sheet(sheet(person=name, title=name)), pattern(PIECES, INCHES, title=name, person=name)):
        reader = open_pdf(data)
        assert isinstance(reader.root_object["/OpenAction"], list)  # where to open it: a place, nothing to be run
        assert b"/JavaScript" not in data
        assert b"/JS" not in data
        shown = "".join(c for c in name if c.isprintable() and c.isascii())
        assert shown.replace(" ", "") in "".join(reader.pages[0].extract_text().split())


@pytest.mark.parametrize("odd", ["نجوزي", "🧵👗", "名前"])
def test_a_character_the_letters_lack_shows_as_a_box(odd: str):
    def boxes(name: str) -> int:
        page = open_pdf(chalk_sheet(sheet(person=name))).pages[0]
        return sum(1.5 < w < 3.5 and 2 < h < 4 for w, h in rectangles(page))

    assert boxes(f"Adé {odd}") - boxes("Adé ") == len(odd)


def test_a_table_too_long_for_a_sheet_goes_on_behind_it():
    made = sheet(plan=plan(PIECES, INCHES, join_within=0.05))
    assert len(made.plan.pieces[0].marks) > 40
    pages = [" ".join(page.extract_text().split()) for page in open_pdf(chalk_sheet(made)).pages]
    begun = next(number for number, page in enumerate(pages) if "more marks on the next sheet" in page)
    assert "Marks, continued" in pages[begun + 1]
    both = " ".join(pages[begun:]).lower()
    for mark in made.plan.pieces[0].marks:
        assert "".join(f"{mark.order}{mark.label}{mark.across.pretty}".split()).lower() in "".join(both.split())


def test_letters_may_be_given_as_bytes():
    from drafting.render.fonts import Fonts, default_fonts

    files = default_fonts()
    assert isinstance(files.regular, Path)
    assert isinstance(files.strong, Path)
    given = Fonts(files.regular.read_bytes(), files.strong.read_bytes())
    assert pattern(PIECES[:1], INCHES, fonts=given) == pattern(PIECES[:1], INCHES)
