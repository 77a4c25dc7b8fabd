"""The page "At the cloth", the record of the layouts in draft.json, and what the command line says about the cloth."""

import json
import re
from dataclasses import replace
from io import BytesIO
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pypdf import PdfReader

from drafting.__main__ import main
from drafting.chalk.plan import plan
from drafting.chalk.words.places import along_cloth
from drafting.drawing.piece import Label, Stroke, cloth_drawing
from drafting.garments import garments
from drafting.layout import (
    WAYS,
    at_table,
    candidates,
    in_cutting_order,
    laid,
    length_to_buy,
    say_bought,
    say_laid,
    way_name,
)
from drafting.layout.at_table import finest
from drafting.order import Result, make
from drafting.record.documents import chalk_sheet_pdf, draft_json, pattern_pdf, pattern_svg
from drafting.render.pdf import Paper
from drafting.render.pdf_cloth import _Words
from drafting.units import INCH, Tape, read_length
from tests.drafting.bodies import BODIES, Data, draft, order, read
from tests.drafting.laid_cases import CASES, laid_case
from tests.drafting.pdf_reading import words_over_the_margin

pytestmark = pytest.mark.outside


def with_way(name: str) -> Result:
    result, layout = laid_case(name)
    others = candidates(result.draft.pieces, result.ready.cloth)
    made = plan(result.draft.pieces, result.ready.tape, layout=layout)
    return replace(result, layout=layout, layouts=others, plan=made)


def pages(data: bytes) -> list[str]:
    return [" ".join(page.extract_text().split()) for page in PdfReader(BytesIO(data), strict=True).pages]


@pytest.mark.sampled(4)
@pytest.mark.parametrize("name", CASES)
def test_the_sheet_says_way_readings_count_and_what_to_buy(name: str):
    result = with_way(name)
    layout, unit = result.layout, result.order.person.unit
    assert layout is not None
    text = pages(chalk_sheet_pdf(result, "A4"))
    assert way_name(layout.way).lower() in text[0].lower()
    assert "folded in half" not in text[0].lower() or layout.way == "half"
    begin = next(number for number, page in enumerate(text) if page.startswith("At the cloth"))
    cloth = " ".join(text[begin : begin + 2])
    told = at_table(layout, result.draft.pieces, result.ready.tape)
    for step in told.folding:
        assert step in cloth
    for laying in told.layings:
        assert not laying.across.steps or f"{laying.across.pretty} from {laying.counted_from}" in cloth
        assert not laying.down.steps or f"{laying.down.pretty} from the cut end" in cloth
    assert told.count.partition(":")[0] in cloth
    bought = length_to_buy(layout, result.ready.cloth, unit)
    assert say_bought(bought.buy, unit) in cloth
    for other in result.layouts:
        if other.way != layout.way:
            assert f"{way_name(other.way)}: {say_laid(other.length, unit)}" in cloth
    assert cloth.count("FOLD") >= len(layout.folds)
    assert ("Each fold across" in cloth) == any(fold.across for fold in layout.folds)
    pictured = [int(number) for number in re.findall(r"Fold (\d+): \w+ end over", cloth)]
    assert bool(pictured) == ("Each fold across" in cloth)
    assert pictured == sorted(pictured)


_READ = r"([0-9.½¼¾⅛⅜⅝⅞]+)"
#: Every sentence that tells where a fold is made, with its reading.
_FOLDS_TOLD = (
    rf"with the fold straight across the cloth {_READ} (?:centimetres|inches) from the cut end",
    rf"the fold lies {_READ} from the cut end",
    rf"its fold {_READ} from the cut end",
    rf"Fold the left side over by {_READ}",
)


def folds_told(text: str, unit: str) -> list[float]:
    found = [read_length(reading, unit) for told in _FOLDS_TOLD for reading in re.findall(told, text)]
    assert all(isinstance(mm, float) for mm in found)
    return found


@pytest.mark.sampled(5)
@pytest.mark.parametrize("tape", [("cm", "0.5"), ("cm", "0.1"), ("in", "1/8"), ("in", "1/4")])
@pytest.mark.parametrize(
    "name", [name for name, case in CASES.items() if case[3] in {"two_folds", "part_fold", "crosswise"}]
)
def test_a_fold_has_one_reading_wherever_it_is_told(name: str, tape: tuple[str, str]):
    result, layout = laid_case(name)
    tape_in_hand = Tape(*tape)
    made = plan(result.draft.pieces, tape_in_hand, layout=layout)
    result = replace(
        result, ready=replace(result.ready, tape=tape_in_hand), layout=layout, layouts=(layout,), plan=made
    )
    # The finest step at or next above, so that the fold is never too shallow: here by counting steps up.
    finest_step = 1.0 if tape[0] == "cm" else INCH / 8
    places = {
        fold.at if fold.across else fold.depth for fold in layout.folds[: 1 if layout.way == "two_folds" else None]
    }
    expected = {next(k for k in range(9999) if k * finest_step >= mm - 1e-3) * finest_step for mm in places}
    record = json.loads(draft_json(result))
    told = {
        "at the table": " ".join(at_table(layout, result.draft.pieces, tape_in_hand).folding),
        "draft.json": " ".join(record["at_table"]["folding"]),
        "steps": " ".join(step.says for step in made.steps),
        "steps in draft.json": " ".join(step["says"] for step in record["chalk"]),
        "sheet": " ".join(pages(chalk_sheet_pdf(result, "A4"))),
    }
    assert expected
    for where, text in told.items():
        found = folds_told(text, tape[0])
        assert found, where
        assert {round(mm, 4) for mm in found} == {round(mm, 4) for mm in expected}, where
    # The drawing shows the fold in its place and says no reading of its own.
    drawn = cloth_drawing(layout, result.draft.pieces, result.ready.cloth, tape[0]).items
    said = [item.text for item in drawn if isinstance(item, Label)]
    assert not any("from the cut end" in text or "Fold the" in text for text in said)
    at = {fold.at for fold in layout.folds if fold.across}
    strokes = [item for item in drawn if isinstance(item, Stroke) and item.role == "fold"]
    level = {stroke.points[0].y for stroke in strokes if stroke.points[0].y == stroke.points[-1].y}
    assert at <= level


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_an_open_layout_has_no_fold_on_its_sheet(paper):
    result = with_way("open")
    for number, text in enumerate(pages(chalk_sheet_pdf(result, paper))):
        spoken = text.replace("fold: do not cut", "")  # the key of signs
        for words in ("on the fold", "at the fold", "FOLD", "Never cut the fold"):
            assert words not in spoken, (number + 1, words)


def test_a_piece_unlike_the_first_has_all_its_marks_and_no_comparison():
    result = with_way("half, joined")
    text = pages(chalk_sheet_pdf(result, "A4"))
    assert "Lower sleeve: what differs" not in " ".join(text)
    lower = next(marks for marks in result.plan.pieces if marks.piece == "lower_sleeve")
    table = next(page for page in text if page.startswith("Lower sleeve"))
    for mark in lower.marks:
        assert f"{mark.label[:1].upper()}{mark.label[1:]}" in table


def test_the_pattern_of_pieces_laid_open_speaks_of_no_fold():
    result = with_way("open")
    text = " ".join(pages(pattern_pdf(result, "A4")))
    assert "FOLD" not in text
    assert "on the fold" not in text
    assert "turn it over along that line" in text
    assert "FOLD" not in pattern_svg(result).decode()
    folded = with_way("half")
    assert "FOLD" in " ".join(pages(pattern_pdf(folded, "A4")))
    assert "FOLD" in pattern_svg(folded).decode()


@pytest.mark.parametrize("name", CASES)
@pytest.mark.parametrize("tape", [Tape("cm", "0.5"), Tape("in", "1/8")])
def test_readings_rebuild_every_place_within_a_step_of_the_tape(name: str, tape: Tape):
    result, layout = laid_case(name)
    told = at_table(layout, result.draft.pieces, tape)
    for laying, place in zip(told.layings, in_cutting_order(layout, result.draft.pieces), strict=True):
        assert laying.piece == place.piece
        from_left = laying.across.mm
        if laying.counted_from == "the right fold":
            from_left = layout.laid_width - from_left
        step = finest(tape).size  # a fold across is never too shallow: up to a whole step; all else within half a step
        assert abs(from_left - place.x) <= step / 2 + 1e-6
        folded = layout.way == "crosswise" and place.layers == 2
        assert -1e-6 <= laying.down.mm - place.y < step if folded else abs(laying.down.mm - place.y) <= step / 2 + 1e-6


def test_the_record_holds_every_way_sorted_and_bounded():
    made = make(read(order(BODIES["median woman"], {"lower_sleeve": "joined"}, {"width": "150 cm"})))
    record = json.loads(draft_json(made))
    lengths = [round(one["length"]) for one in record["layouts"][1:]]
    assert lengths == sorted(lengths)
    assert len(lengths) >= 1
    assert min(one["cost"] for one in record["layouts"]) == record["layout"]["cost"]
    for one in record["layouts"]:
        assert one["fold"] in WAYS
        assert one["bound"] <= one["length"] + 1e-6
        for place in one["places"]:
            assert place["layers"] in {1, 2}
            assert isinstance(place["opened"], bool)
        assert one["laid_width"] <= one["cloth_width"]
    assert record["layout"] == record["layouts"][0]
    assert record["at_table"]["title"] == way_name(record["layout"]["fold"])
    assert len(record["at_table"]["layings"]) == len(record["layout"]["places"])
    bought = record["buy"]
    assert (bought["width"], bought["laid"]) == (record["layout"]["cloth_width"], record["layout"]["length"])
    assert 0 <= bought["buy"] - (bought["laid"] + bought["squaring"] + bought["wash"]) < 100.0


def test_what_does_not_go_on_its_cloth_has_no_place_and_nothing_to_buy():
    record = json.loads(draft_json(draft(BODIES["median woman"], {}, {"width": "90 cm"})))
    assert record["layouts"] == []
    assert (record["layout"], record["at_table"], record["buy"]) == (None, None, None)


@pytest.mark.parametrize(
    ("garment", "style", "width", "label"),
    [
        ("circle_skirt", {"panels": "3", "length": "mid_calf"}, "90 cm", "skirt panel"),
        ("kaftan", {"pockets": "in_seam"}, "60 cm", "pocket bag"),
    ],
)
def test_every_copy_of_a_piece_is_cut_on_cloth_on_which_the_pieces_do_not_go(
    garment: str, style: Data, width: str, label: str
):
    """As many are cut as the last step counts: one at a time on the fold, two at a time through both layers."""
    result = draft(BODIES["median woman"], style, {"width": width}, garment=garment)
    assert result.layout is None
    assert result.plan is not None
    piece = next(one for one in result.draft.pieces if one.label.lower() == label)
    titles = [step.title.lower() for step in result.plan.steps if step.piece == piece.name]
    again = [title for title in titles if title.endswith(f" {label}") and title.startswith("the ")]
    assert (1 + len(again)) * (1 if piece.on_fold else 2) == piece.cut > 2
    assert f"{piece.cut} {label}s" in result.plan.steps[-1].says


def test_only_the_first_piece_of_one_fold_begins_at_its_top():
    """The waistband lies below two panels on the same fold: its 0 is not at the cut end."""
    style, cloth = {"waistband": "casing", "length": "mid_calf"}, {"width": "90 cm", "one_way": True}
    result = draft(BODIES["median woman"], style, cloth, garment="knit_skirt")
    assert result.plan is not None
    first, later = (step.on_paper for step in result.plan.steps if step.title == "Prepare")
    assert first.startswith("Chalk 0 at the top of the fold.")
    assert later.startswith("Chalk its 0 on the fold, at its place above.")


def test_places_that_stand_above_are_not_looked_for_below():
    result = draft(BODIES["median woman"], {}, {"width": "150 cm"}, garment="poncho")
    pages = PdfReader(BytesIO(chalk_sheet_pdf(result, "A4"))).pages
    text = " ".join(" ".join(page.extract_text().split()) for page in pages)
    says = text.index("Before the first cut chalk each of the places above")
    assert text.index("Where the pieces lie") < says
    assert "below, with the name" not in text


@pytest.mark.parametrize(
    ("length", "unit", "says"),
    [(2700.0, "cm", "2.7 m"), (1000.0, "cm", "1.0 m"), (36 * INCH * 2.875, "in", "2⅞ yd"), (9 * INCH, "in", "¼ yd")],
)
def test_lengths_are_said_as_shops_say_them(length, unit, says):
    assert say_bought(length, unit) == says


def test_the_command_line_says_way_purchase_and_saving(tmp_path, capsys):
    typed = order(BODIES["median woman"], {}, {"width": "160 cm"})
    path = tmp_path / "order.json"
    path.write_text(json.dumps(typed), encoding="utf-8")
    assert main([str(path), "--out", str(tmp_path / "out")]) in {0, 3}
    said = capsys.readouterr().out
    assert "cloth: 239 cm of cloth 160 cm wide, folded in half" in said
    assert "to buy: 2.6 m" in said
    assert "by width: 150 cm 2.6 m, 160 cm 2.6 m, 180 cm 2.4 m; it does not go on narrower cloth" in said
    assert "to save " in said


@pytest.mark.sampled(5)
@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("name", CASES)
def test_no_word_about_the_cloth_leaves_the_sheet(name: str, paper):
    with words_over_the_margin() as over:
        chalk_sheet_pdf(with_way(name), paper)
    assert over == []


@pytest.mark.parametrize("unit", ["cm", "in"])
def test_a_tape_too_short_for_a_dress_is_read_from_a_second_0_everywhere(unit: str):
    """Plan, sheet and record say the same reading of the hem, and none is longer than the tape."""
    tape = {"unit": unit, "step": "0.5" if unit == "cm" else "1/8"}
    cloth = {"width": "200 cm", "stretch_across": 40, "stretch_along": 20}
    typed = {**order(BODIES["tall woman"], {"length": "ankle"}, cloth), "tape": tape}
    result = make(read(typed))
    assert result.plan is not None
    front = result.plan.pieces[0]
    hem = next(mark for mark in front.marks if mark.id == "hem_corner")
    assert hem.down.mm > result.ready.tape.reach
    assert hem.zero == 2
    record = json.loads(draft_json(result))
    found = next(mark for mark in record["pieces"][0]["marks"] if mark["id"] == "hem_corner")
    assert (found["zero"], found["reads"], found["down"]) == (2, hem.reads.text, hem.down.text)
    assert record["pieces"][0]["zeros"] == [front.zeros[0].text]
    assert record["mending"] == list(result.plan.mending)
    text = " ".join(pages(chalk_sheet_pdf(result, "A4")))
    assert "from the second 0" in text
    says = " ".join(step.says for step in result.plan.steps if step.piece == "front")
    assert f"down {hem.reads.pretty} from the second 0" in says
    assert not any(f"down {mark.down.pretty}" in says for mark in front.marks if mark.zero == 2)


def test_a_place_past_the_tape_is_measured_in_two_goes():
    at = along_cloth(Tape("cm", "0.1").reading(1500.0)), along_cloth(Tape("cm", "0.1").reading(1501.0))
    assert at == (
        "150.0 from the cut end",
        "150.1 from the cut end (measure 100.0 first, chalk a line there, then 50.1 more)",
    )
    assert along_cloth(Tape("in", "1/8").reading(101 * INCH)) == (
        "101 from the cut end (measure 40 twice first, chalk a line there, then 21 more)"
    )


def test_warnings_cautions_and_washing_stand_first_and_every_place_says_the_same():
    """What the order makes of it: the plan's first steps, the record, and the sheet's first page."""
    typed = order(BODIES["median woman"], {"overarm_angle": 30}, {"shrink_along": 4, "shrink_across": 2})
    result = make(read(typed))
    assert result.plan is not None
    warned = [check for check in result.checks if check.result == "warn"]
    assert warned
    steps = result.plan.steps
    assert [step.says for step in steps[: len(warned)]] == [check.with_ways_out() for check in warned]
    assert "This would help: " in steps[0].says
    care = " ".join(check.says for check in result.checks if check.result == "caution")
    assert (steps[len(warned)].title, steps[len(warned)].says) == ("Take care", care)
    assert not re.search(r"EN \d|CFR|ISO", care), "which rules ask for it stands on paper"
    assert "See ISO 3758, EU 1007/2011 and US 16 CFR 1610." in pages(chalk_sheet_pdf(result, "A4"))[0].replace(
        "\n", " "
    )
    work = steps[len(warned) + 1]
    assert work.says.startswith("Do not wash the cloth before cutting: the marks hold its shrinkage, 4 % along and 2 %")
    record = json.loads(draft_json(result))
    assert [step["heed"] for step in record["chalk"]] == [step.heed for step in steps]
    assert [step.heed for step in steps] == [True] * (len(warned) + 1) + [False] * len(result.plan.work)
    assert "Do not wash the cloth before cutting" in pages(chalk_sheet_pdf(result, "A4"))[0]
    washed = make(read(order(BODIES["median woman"], {}, {"shrink_along": 12})), with_ways_out=False).plan
    assert washed is not None
    assert "the marks hold no shrinkage" in washed.work[0].says
    plain = make(read(order(BODIES["median woman"])), with_ways_out=False).plan
    assert plain is not None
    assert plain.work[0].says.startswith("Wash the cloth first")


def test_a_heading_stays_with_what_it_heads_and_words_fill_the_column_they_stand_in(monkeypatch):
    written: list[tuple[float, str]] = []
    words = Paper.words

    def watched(self: Paper, x: float, y: float, text: str, size: float, **how: Any) -> float:
        long = words(self, x, y, text, size, **how)
        written.append((x, text))
        return long

    monkeypatch.setattr(Paper, "words", watched)
    paper = Paper((210.0, 297.0), "columns")
    paper.add_page()
    # A narrow column that has room for the heading and a line, then a wide one.
    column = _Words(paper, [(15.0, 15.0, 60.0, 40.0), (85.0, 15.0, 110.0, 200.0)])
    column.paragraph("Lay the cloth flat.")
    says = "If the cloth has slipped, lay it straight and find 0 again. Then measure two marks that lie far apart."
    column.heading("If something moved", column.height(says))
    column.paragraph(says)
    assert [x for x, text in written] == [15.0, *[85.0] * (len(written) - 1)]
    widest = max(paper.width_of(text, 9.5) for x, text in written[2:])
    assert 60.0 < widest <= 110.0
    assert " ".join(text for x, text in written[2:]) == says
    paper.finish()


@pytest.mark.parametrize("name", ["half", "half, joined", "seam, joined"])
def test_a_notch_at_a_mark_is_told_with_that_marks_number(name: str):
    result, layout = laid_case(name)
    made = plan(result.draft.pieces, result.ready.tape, layout=layout)
    marks = {own.piece: {mark.id: mark.order for mark in own.every} for own in made.pieces}
    told = [
        (step.piece, one) for step in made.steps for one in step.apart if one.kind == "notch" and one.marks
    ]  # fmt: skip
    assert told
    for piece, one in told:
        assert f"({marks[piece][one.marks[0]]})" in one.says


@given(st.data())
def test_the_pieces_are_cut_from_the_cut_end_on(data: st.DataObject) -> None:
    """In the order in which their outlines begin, as they lie, whichever way each of them is turned."""
    result, layout = laid_case("half, joined")
    by_name = {piece.name: piece for piece in result.draft.pieces}
    lying = st.tuples(st.sampled_from([0, 90, 180, 270]), st.booleans(), st.integers(0, 3000))
    moved = [
        replace(place, turned=turned, mirrored=mirrored, y=float(y))
        for place, (turned, mirrored, y) in ((place, data.draw(lying)) for place in layout.places)
    ]
    ordered = in_cutting_order(replace(layout, places=tuple(moved)), result.draft.pieces)
    tops = [min(point.y for point in laid(by_name[place.piece], place)) for place in ordered]
    assert tops == pytest.approx(sorted(tops), abs=0.01)
    assert len(ordered) == len(moved)


def test_the_other_ways_stay_together_and_the_price_of_each_stands_above_its_rule():
    """A top whose list of ways found no room below the shopping: it goes to the next sheet as a whole."""
    style, person = garments()["drop_shoulder"].cases["round, turned"].style, BODIES["full bust"]
    result = make(read(order(person, dict(style), {}, garment="drop_shoulder")), with_ways_out=False)
    others = [way_name(layout.way) for layout in result.layouts if layout is not result.layout]
    assert len(others) > 1
    pages = [page.extract_text() for page in PdfReader(BytesIO(chalk_sheet_pdf(result, "A4"))).pages]
    (listed,) = [text.partition("Other ways to lay it")[2] for text in pages if "Other ways to lay it" in text]
    assert all(f"{name}: " in " ".join(listed.split()) for name in others)
    paper = Paper((210.0, 297.0), "ways")
    paper.add_page()
    column = _Words(paper, [(15.0, 15.0, 60.0, 200.0)])
    note = "8 outlines instead of 3. Only for cloth without nap or shade."
    for more in ("", note):
        begun = column.y
        column.sum_row("Open, one layer: 128 cm", "30 cm less", note=more)
        assert column.y - begun == pytest.approx(column.sum_height("Open, one layer: 128 cm", "30 cm less", note=more))
    plain, noted = (column.sum_height("Open: 1", "2", note=more) for more in ("", note))
    assert noted - plain == pytest.approx(2 * 9.5 / 72 * 25.4 * 1.3)
    paper.finish()
