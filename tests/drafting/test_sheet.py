"""The chalk sheet as it is pinned up: its order, what it says once, its size, read back with a PDF reader."""

import json
import re
from functools import cache
from itertools import pairwise
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from drafting.chalk.marks import ChalkPlan
from drafting.chalk.words.joining import stage_joins
from drafting.layout import at_table
from drafting.order import Result, make
from drafting.record.documents import chalk_sheet_pdf, draft_json
from drafting.render.pdf import MARGIN, Paper
from drafting.render.pdf_flow import Flow
from drafting.render.sheet_after import after_cut
from drafting.render.sheet_know import _told
from drafting.render.sheet_marks import key_of_signs
from drafting.units import say_length, say_sold
from tests.drafting.bodies import BODIES, Data, order, read
from tests.drafting.laid_cases import CASES, laid_case
from tests.drafting.pdf_reading import open_pdf
from tests.drafting.test_at_the_cloth import with_way

pytestmark = pytest.mark.outside

PLAIN: Data = {"length": "hip"}
TAPES = ("cm", "in")


@cache
def made(body: str = "median woman", tape: str = "cm", width: str = "160 cm", **style: Any) -> Result:
    typed = order(BODIES[body], {**PLAIN, **style}, {"width": width})
    typed["tape"] = {"unit": tape, "step": "0.5" if tape == "cm" else "1/8"}
    return make(read(typed))


def pages(result: Result, paper: str = "A4") -> list[str]:
    found = open_pdf(chalk_sheet_pdf(result, paper)).pages  # type: ignore[arg-type]
    return [" ".join(page.extract_text().split()) for page in found]


def tight(text: str) -> str:
    return re.sub(r"\s+", "", text).lower()


def plan_of(result: Result) -> ChalkPlan:
    assert result.plan is not None
    return result.plan


@pytest.mark.parametrize("tape", TAPES)
def test_a_plain_pullover_takes_four_pages_in_the_order_of_work(tape: str):
    result = made(tape=tape)
    text = pages(result, "A4" if tape == "cm" else "Letter")
    assert len(text) == 4
    first, cloth, after, later = text
    order_of_first = (
        "Cloth: ", "Wash the cloth first", "The allowances lie inside", "FRONT", "No. Mark across down", "Levels",
        "Widths", "Neck and overarm", "Proof lengths", "Notches:",
    )  # fmt: skip
    places = [first.index(words) for words in order_of_first]
    assert places == sorted(places)
    assert cloth.startswith("At the cloth")
    for words in ("Fold", "Where the pieces lie", "Chalk and cut in this order", "If something moved", "Buy"):
        assert words in cloth
    assert after.startswith("After the cut")
    assert after.index("Sew in this order") < after.index("Try it on")
    places = [later.index(words) for words in ("Finished girths", "Checked and found good")]
    assert places == sorted(places)


@pytest.mark.parametrize(("past_the_middle", "sheets"), [(-1.0, 1), (1.0, 2)])
def test_a_part_begins_on_the_open_sheet_only_while_more_than_half_of_it_is_free(past_the_middle: float, sheets: int):
    paper = Paper((210.0, 297.0), "a part")
    paper.add_page()
    flow = Flow(paper)
    down = (MARGIN + flow.floor) / 2 + past_the_middle
    flow.carry_on(down)
    flow.part()
    assert (paper.page, flow.y) == (sheets, down if sheets == 1 else MARGIN)
    flow.end()
    flow.part()
    assert paper.page == sheets + 1, "no sheet was open"
    assert len(open_pdf(paper.finish()).pages) == sheets + 1


def test_lines_to_write_on_stand_on_sheets_of_marks_that_have_room_and_on_no_other():
    typed = order(BODIES["median woman"], {}, {"width": "150 cm"})
    typed["garment"] = "drop_shoulder"
    text = pages(make(read(typed), with_ways_out=False))
    (at_cloth,) = (at for at, page in enumerate(text) if page.startswith("At the cloth"))
    assert ["Notes" in page for page in text] == [0 < at < at_cloth for at in range(len(text))]
    assert "another device" in text[-1]


def test_what_follows_the_cut_stands_below_the_shopping_where_that_needed_a_sheet_more():
    """A hooded top with set-in sleeves has four pieces, which fill the sheet at the cloth."""
    typed = order(BODIES["man"], {"neck_finish": "hood"}, {"width": "150 cm"})
    typed["garment"] = "set_in"
    text = pages(make(read(typed), with_ways_out=False))
    (at_cloth,) = (at for at, page in enumerate(text) if page.startswith("At the cloth"))
    assert "Buy" not in text[at_cloth].split("If something moved")[1]
    assert text[at_cloth + 1].startswith("Buy")
    assert "After the cut" in text[at_cloth + 1]
    numbers = [re.findall(r"sheet (\d+) of (\d+)$", page) for page in text]
    count = str(len(text))
    assert numbers == [[(str(at), count)] for at in range(1, len(text) + 1)], "every sheet has its number, once"
    assert [page.count("Garment with set-in sleeves") for page in text] == [1] * len(text)


@pytest.mark.parametrize(("spare", "sheet"), [(0.5, 2), (-0.5, 1)])
def test_the_code_stands_on_the_latest_sheet_that_has_room_for_it(spare: float, sheet: int):
    """The last sheet is full. The second has room but for a hair, or by a hair; the first has much."""
    paper, high = Paper((210.0, 297.0), "a code"), 40.0
    flow = Flow(paper)
    rooms = {1: 100.0, 2: high + spare, 3: high - 0.5}
    for room in rooms.values():
        flow.turn()
        flow.y = flow.floor - room
    flow.where_free(high)
    assert paper.page == sheet
    assert flow.floor - flow.y == pytest.approx(rooms[sheet])
    paper.words(MARGIN, flow.y, "the code", 9.0)
    flow.y = flow.floor
    flow.end()
    text = [page.extract_text() for page in open_pdf(paper.finish()).pages]
    assert [bool(words.strip()) for words in text] == [number == sheet for number in rooms]


@pytest.mark.parametrize(
    ("garment", "style", "shown"),
    [
        ("cut_in_one", {}, "half of each piece"),
        ("set_in", {}, "half of symmetrical pieces"),
        ("leggings", {"waistband": "turned"}, "each piece whole"),
    ],
)
def test_the_head_says_how_much_of_its_pieces_the_sheet_shows(garment: str, style: Data, shown: str):
    typed = order(BODIES["child of 6"], style, {}, tape={"unit": "cm", "step": "0.5"})
    typed["garment"] = garment
    first = pages(make(read(typed), with_ways_out=False))[0]
    assert f"Chalk sheet. Readings in centimetres, cutting line, {shown}." in first


def test_what_has_room_nowhere_begins_a_sheet_and_what_has_room_stays():
    paper = Paper((210.0, 297.0), "a code")
    flow = Flow(paper)
    flow.turn()
    flow.y = flow.floor - 39.5
    flow.where_free(40.0)
    assert (paper.page, flow.y) == (2, MARGIN)
    flow.y = flow.floor - 40.0
    flow.where_free(40.0)
    assert (paper.page, flow.y) == (2, flow.floor - 40.0)
    assert len(open_pdf(paper.finish()).pages) == 2


def test_a_code_for_which_the_last_sheet_has_no_room_takes_no_sheet_of_its_own():
    """A poncho's facts fill its last sheet; beside what differs at the back there is room, and notes below it."""
    typed = order(BODIES["wide hips"], {}, {"width": "280 cm", "one_way": False})
    typed["garment"] = "poncho"
    text = pages(make(read(typed), with_ways_out=False))
    (at,) = (at for at, page in enumerate(text) if "To go on with this on another device" in page)
    assert at < len(text) - 1
    assert "Notes" in text[at]
    assert text[at].index("another device") < text[at].index("Notes")


@pytest.mark.parametrize("clip", ["", "Clip the curve after sewing, to 2 mm before the stitching line."])
def test_a_heading_of_what_follows_the_cut_stays_with_what_it_heads(clip: str):
    """However far down the sheet it comes: the try-on with three rows, the order of sewing with its first step."""
    told = made().draft.after_cut
    assert told is not None
    clips = (SimpleNamespace(says=clip, piece="front"),) if clip else ()
    sheet: Any = SimpleNamespace(after_cut=told, pieces=made().draft.pieces, said=lambda belongs: clips)
    heads = {
        "Try it on": [row.seen for row in told.try_on[:3]],
        "Sew in this order": [clip or told.order[0].says[:60]],
    }
    found = set()
    for down in range(60, 280, 5):
        paper = Paper((210.0, 297.0), "after the cut")
        flow = Flow(paper)
        paper.add_page()
        flow.carry_on(float(down))
        flow.part = lambda: None  # type: ignore[method-assign] # it begins anywhere
        after_cut(flow, sheet)
        text = [tight(page.extract_text()) for page in open_pdf(paper.finish()).pages]
        for heading, kept in heads.items():
            (at,) = (at for at, page in enumerate(text) if tight(heading) in page)
            below = text[at].partition(tight(heading))[2]
            assert all(tight(words) in below for words in kept), (down, heading)
            found.add((heading, at))
    assert found == {(heading, at) for heading in heads for at in (0, 1)}, "each stands on both sheets"


@pytest.mark.sampled(4)
@pytest.mark.parametrize("name", CASES)
def test_no_reading_of_a_mark_is_printed_twice(name: str):
    result = with_way(name)
    plan = plan_of(result)
    text = " ".join(pages(result))
    model = {mark.id: (mark.across, mark.down) for mark in plan.pieces[0].marks}
    rows = 0
    for index, marked in enumerate(plan.pieces):
        for mark in marked.marks:
            if index > 0 and model.get(mark.id) == (mark.across, mark.down):
                continue
            rows += 1
            from_which = "" if mark.zero == 1 else ", from the second 0"
            row = f"{mark.order}{mark.label}{from_which}{mark.across.pretty}{mark.reads.pretty}"
            alike = sum(
                f"{m.order}{m.label}{m.across.pretty}{m.reads.pretty}"
                == f"{mark.order}{mark.label}{mark.across.pretty}{mark.reads.pretty}"
                for k, other in enumerate(plan.pieces)
                for m in other.marks
                if k == 0 or model.get(m.id) != (m.across, m.down)
            )
            assert tight(text).count(tight(row)) == alike, row
    assert rows >= len(plan.pieces[0].marks)
    # In words only notches and slits have readings of their own, and those are not marks.
    pairs = {
        (mark.across.pretty, mark.down.pretty)
        for marked in plan.pieces
        for mark in marked.marks
        if mark.kind != "curve"
    }
    spoken = re.findall(r"across ([\d.⅛¼⅜½⅝¾⅞]+), down ([\d.⅛¼⅜½⅝¾⅞]+[\d⅛¼⅜½⅝¾⅞])", text)
    assert not pairs & set(spoken)
    ends = {mark.id: mark.order for mark in plan.pieces[0].marks}
    for proof in plan.pieces[0].proofs:
        assert f"{ends[proof.start]}→{ends[proof.end]}" in tight(text)


@pytest.mark.parametrize("name", ["half", "seam", "crosswise", "two folds", "half, joined"])
def test_folding_is_said_once_and_the_count_ends_the_cutting(name: str):
    result = with_way(name)
    text = " ".join(pages(result))
    assert result.layout is not None
    for step in at_table(result.layout, result.draft.pieces, result.ready.tape).folding:
        assert text.count(step) == 1
    cutting = text[text.index("Chalk and cut in this order") : text.index("If something moved")]
    count = cutting.index("Count. ")
    assert "pieces in all" in cutting[count:]
    assert all(place.start() < count for place in re.finditer(r"Cut\. ", cutting))
    numbered = re.findall(r"(?<![\d.])(\d+) (?=[A-Z][\w ]+\. [A-Z\d])", cutting)
    assert numbered == [str(number) for number in range(1, len(numbered) + 1)]
    assert f"{numbered[-1]} Count." in cutting
    for says in plan_of(result).mending:
        assert text.count(says) == 1


def test_a_back_with_a_table_of_its_own_is_begun_marked_and_cut_in_that_order():
    result = with_way("seam")
    text = pages(result)
    own = next(k for k, page in enumerate(text) if page.startswith("Back") and "No. Mark across down" in page)
    cloth = next(page for page in text if page.startswith("At the cloth"))
    steps = ("Begin the front. ", "Mark the front by its table on sheet 1.", "cut the front", "Begin the back. ",
             f"Mark the back by its table on sheet {own + 1}.", "cut the back", "Count. ")  # fmt: skip
    places = [cloth.index(words) for words in steps]
    assert places == sorted(places)
    assert "what differs" not in " ".join(text)


def test_all_there_is_to_know_stands_before_any_cut():
    result = make(read(order(BODIES["median woman"], {"overarm_angle": 30}, {"width": "180 cm", "shrink_along": 4})))
    text = " ".join(pages(result))
    cut = text.index("Pin, then cut") if "Pin, then cut" in text else text.index("Cut the front")
    table = text.index("No. Mark across down")
    warned = [check for check in result.checks if check.result == "warn"]
    assert warned
    assert any(check.ways_out for check in warned)
    for says in (
        "Do not wash the cloth before cutting",
        *(check.says for check in result.checks if check.result in {"warn", "caution"}),
        *(way.says for check in warned for way in check.ways_out),
    ):
        assert text.count(says) == 1, says
        assert text.index(says) < table < cut
    assert text.index("The allowances lie inside the cutting line. Seams: shoulder 1 cm, side 1.5 cm.") < table


def test_a_piece_without_proof_lengths_is_not_said_to_be_proven():
    typed = json.loads((Path(__file__).parents[1] / "orders" / "kite_pullover.json").read_text(encoding="utf-8"))
    result = make(read(typed), with_ways_out=False)
    facing = plan_of(result).pieces[-1]
    assert facing.piece not in {"front", "back"}
    text = " ".join(pages(result))
    assert not facing.proofs
    assert re.search(r"Mark the neck facing by its table on sheet \d+\. Join it\.", text)
    assert re.search(r"Mark the front by its table on sheet \d+\. Prove it, then join it\.", text)


def test_the_allowances_stand_in_bold(monkeypatch: pytest.MonkeyPatch):
    strong: list[str] = []
    words = Paper.words

    def watched(self: Paper, x: float, y: float, text: str, size: float, **how: Any) -> float:
        if how.get("strong"):
            strong.append(text)
        return words(self, x, y, text, size, **how)

    monkeypatch.setattr(Paper, "words", watched)
    result = made()
    chalk_sheet_pdf(result, "A4")
    said = " ".join(strong)
    for piece in result.draft.pieces:
        for edge in piece.edges:
            assert f"{edge.label} {say_length(edge.allowance, 'cm')}" in said
    assert "Turned in: neck edge 1 cm, sleeve end 2 cm, hem 2.5 cm." in said


def test_a_seam_of_two_pieces_has_its_allowance_said_once_and_in_the_unit_of_the_tape():
    text = pages(made(tape="in", lower_sleeve="joined"))[0]
    assert "Seams: shoulder ⅜ in, sleeve joint ⅜ in, side ⅝ in, under seam ⅝ in. Turned in:" in text
    assert " cm" not in text[text.index("The allowances") : text.index("Turned in:") + 80]


def test_many_seams_alike_are_told_together_and_those_that_differ_by_name():
    """Twenty edges one by one were a paragraph in which the one that differs is not found."""
    style = {"neck_finish": "hood", "sleeve_finish": "cuff", "hem_finish": "band"}
    typed = order(BODIES["median woman"], style, {"width": "180 cm"}, garment="drop_shoulder")
    text = pages(make(read(typed), with_ways_out=False))[0]
    assert "Seams: 1 cm everywhere, but side 1.5 cm and under seam 1.5 cm. Turned in: face edge of the hood" in text


@pytest.mark.sampled(4)
@pytest.mark.parametrize("case", [*CASES, "plain", "nothing fits"])
def test_nothing_is_smaller_than_seven_points(case: str, monkeypatch: pytest.MonkeyPatch):
    small: list[tuple[str, float]] = []
    words = Paper.words

    def watched(self: Paper, x: float, y: float, text: str, size: float, **how: Any) -> float:
        if size < 7.0 - 1e-6:
            small.append((text, size))
        return words(self, x, y, text, size, **how)

    monkeypatch.setattr(Paper, "words", watched)
    widths = {"plain": "160 cm", "nothing fits": "120 cm"}
    chalk_sheet_pdf(made(width=widths[case]) if case in widths else with_way(case), "Letter")
    assert small == []


@pytest.mark.parametrize("width", ["160 cm", "120 cm"])
def test_what_to_buy_besides_the_cloth_is_one_list_even_where_nothing_fits(width: str):
    result = made(width=width)
    assert (result.layout is None) == (width == "120 cm")
    cloth = next(page for page in pages(result) if page.startswith("At the cloth"))
    assert result.draft.after_cut is not None
    bought = cloth[cloth.index("Buy ") :]
    for one in result.draft.after_cut.buy:
        assert one.what[1:] in bought
        assert one.length is None or say_sold(one.length, "cm") in bought


def test_what_follows_the_cut_is_what_the_garment_says():
    result = made()
    told = result.draft.after_cut
    assert told is not None
    text = pages(result)[2]
    for says in (
        told.needle,
        told.thread,
        told.stitch,
        *(step.says for step in told.order),
        *(part for row in told.try_on for part in row.seen.split()),
    ):
        assert says in text
    assert text.index("Clip as soon as the seam is sewn") < text.index(told.order[0].says)
    places = [text.index(step.says) for step in told.order]
    assert places == sorted(places)


def test_the_lines_of_a_stage_are_all_the_legs_once():
    marked = plan_of(laid_case("seam")[0]).pieces[0]
    said = stage_joins(marked.marks)
    legs = re.findall(r"\d+(?:–\d+)+", " ".join(said.values()))
    numbers = {mark.order: mark for mark in marked.marks}
    pairs = [(int(a), int(b)) for leg in legs for a, b in pairwise(leg.split("–"))]
    order_of = [mark.order for mark in marked.marks]
    assert sorted(pairs) == sorted(pairwise(order_of))
    stages = [stage.key for stage in marked.stages]
    for stage, words in said.items():
        last = max(max(map(int, leg.split("–"))) for leg in re.findall(r"\d+(?:–\d+)+", words))
        assert numbers[last].stage == stage
        for number in map(int, re.findall(r"\d+", words)):
            assert stages.index(numbers[number].stage) <= stages.index(stage)
    assert "Curve 7–8–9." in said["neck"]
    assert "Rule 3–7" in said["neck"]
    only = stage_joins(marked.marks, touching={"column_curve"})
    assert only == {"neck": "Curve 7–8–9."}


def full_bust_in_long_skirts(tape: str) -> Result:
    """A dress that brings many warnings, and marks past the end of the tape."""
    body = {"kind": "woman", "measures": {"stature": 164, "bust_girth": 88, "waist_girth": 72, "hip_girth": 112}}
    style = {"length": "ankle", "flare": "bell", "body": "flared"}
    typed = order(body, style, {"width": "150 cm", "stretch_across": 20, "stretch_along": 15})
    typed["tape"] = {"unit": tape, "step": "0.5" if tape == "cm" else "1/8"}
    return make(read(typed))


@pytest.mark.parametrize("tape", TAPES)
def test_no_name_of_a_mark_is_cut_short_and_they_follow_each_other_down(tape: str):
    result = full_bust_in_long_skirts(tape)
    text = pages(result)
    marks = next(page for page in text if "No. Mark across down" in page)
    assert "…" not in marks
    assert "from the second 0" in marks
    names = ("Shoulder level", "Bust level", "Waist level", "Hip level", "Hem at the fold", "Widths", "Neck corner")
    assert [marks.index(name) for name in names] == sorted(marks.index(name) for name in names)


def test_a_sheet_that_the_marks_leave_free_takes_the_key_and_lines_to_write_on():
    text = pages(full_bust_in_long_skirts("cm"))
    assert "FRONT" not in text[0]  # so many warnings that drawing and table do not go below them
    assert "Key of signs" in text[0]
    assert "Notes" in text[0]
    assert sum("Key of signs" in page for page in text) == 1
    assert "FRONT" in pages(made())[0]


@pytest.mark.parametrize("left", [24.0, 30.0, 60.0])
def test_the_key_stands_on_the_sheet_of_its_heading(left: float):
    paper = Paper((210.0, 297.0), "a key")
    flow = Flow(paper)
    flow.turn()
    flow.y = flow.floor - left  # room for a heading, and not always for the key
    key_of_signs(flow)
    text = [page.extract_text() for page in open_pdf(paper.finish()).pages]
    assert ["Key of signs" in page for page in text] == ["cutting line" in page for page in text]
    assert "Key of signs" in text[-1]
    assert len(text) == (1 if left == 60.0 else 2)


def test_a_high_and_narrow_piece_is_drawn_large_enough_to_read(monkeypatch: pytest.MonkeyPatch):
    drawn: list[tuple[float, float]] = []
    draw = Paper.draw

    def watched(self: Paper, drawing: Any, x: float, y: float) -> None:
        drawn.append((drawing.paper_width, drawing.paper_height))
        draw(self, drawing, x, y)

    monkeypatch.setattr(Paper, "draw", watched)
    narrow = made(length="ankle", lower_sleeve="joined")
    chalk_sheet_pdf(narrow, "Letter")
    assert max(tall for _, tall in drawn[:2]) >= 100.0


def test_short_entries_of_a_list_share_a_line_and_none_leaves_the_margin(monkeypatch: pytest.MonkeyPatch):
    written: list[tuple[float, float, str]] = []
    words = Paper.words

    def watched(self: Paper, x: float, y: float, text: str, size: float, **how: Any) -> float:
        long = words(self, x, y, text, size, **how)
        assert x + long <= self.sheet_width - MARGIN + 0.1
        written.append((x, round(y, 3), text))
        return long

    monkeypatch.setattr(Paper, "words", watched)
    paper = Paper((210.0, 297.0), "a list")
    flow = Flow(paper)
    flow.turn()
    long = "Cut the lower sleeve apart, and divide the back by a seam at its centre. A seam goes round the sleeve. " * 2
    flow.bullets(["Choose a closer fit.", "Let the sleeve lie level.", long.strip(), "Choose straight sides."])
    flow.paragraph("What follows.")
    said = [entry for entry in written if entry[2] != "–"]
    assert sum(entry[2] == "–" for entry in written) == 4
    assert said[0][1] == said[1][1]
    assert said[0][0] + paper.width_of(said[0][2], 10.0) + 3 < said[1][0]
    lines = sorted({entry[1] for entry in said})
    assert len(lines) >= 5  # two short ones, the long one on at least two, the last, and the paragraph
    assert all(b - a > 3.5 for a, b in pairwise(lines))
    paper.finish()


def test_what_a_garment_told_is_marked_on_the_sheet_and_moves_no_mark():
    plain = made()
    typed = json.loads(plain.order.model_dump_json())
    typed["person"]["measures"] |= {"thigh_girth": 58}
    typed["person"]["told"] = ["thigh_girth", "hip_girth", "bust_girth"]
    told = make(read(typed))
    assert told.told == ("bust_girth", "hip_girth"), "those that the garment rests on, in the table's order"
    assert draft_json(told) == draft_json(plain)
    says = "Told by a garment that fits, not measured on the body: bust girth, hip girth."
    assert says in " ".join(pages(told))
    assert says[:30] not in " ".join(pages(plain))


def test_a_piece_that_is_chalked_round_another_names_every_mark_that_its_lines_run_through() -> None:
    """A number on the sheet of what differs is one that stands on that sheet: the model counts its marks otherwise."""
    result = make(read(order(BODIES["median woman"], {}, {"width": "150 cm"}, garment="set_in")), with_ways_out=False)
    page = next(text for text in pages(result) if "Back: what differs" in text)
    back = page.partition("Back: what differs")[2].partition("Sleeve")[0]
    curves = re.findall(r"Curve ([\d–]+)\.", back)
    assert curves
    marks = {str(mark.order): mark for mark in plan_of(result).pieces[1].marks}
    model = {mark.id: (mark.across, mark.down) for mark in plan_of(result).pieces[0].marks}
    alike = 0
    for number in {number for curve in curves for number in curve.split("–")}:
        mark = marks[number]
        there = model.get(mark.id) == (mark.across, mark.down)
        read_as = "there already" if there else f"{mark.across.pretty} {mark.reads.pretty}"
        assert f"{number} {mark.label[0].upper()}{mark.label[1:]} {read_as}" in back
        alike += there
    assert alike == back.count("there already") > 0


@pytest.mark.parametrize(
    ("garment", "body", "tape", "style", "anew"),
    [
        ("poncho", "full bust", {"unit": "in", "step": "1/8"}, {"length": "waist", "neck": "boat"}, True),
        ("set_in", "child of 6", {"unit": "cm", "step": "0.1"}, {"length": "mid_thigh"}, False),
    ],
)
def test_a_piece_that_is_begun_anew_has_its_whole_table(
    garment: str, body: str, tape: Data, style: Data, anew: bool
) -> None:
    """The step at the cloth and the table tell the same way to chalk the back, whatever the tape makes of its marks."""
    cloth = {"width": "140 cm", "one_way": True}
    result = make(read(order(BODIES[body], style, cloth, garment=garment, tape=tape)), with_ways_out=False)
    text = " ".join(pages(result))
    assert anew == any("Begin the back" in step.title for step in plan_of(result).steps)
    assert ("Back: what differs from the front" in text) != anew
    assert ("Chalk what is different on the back" in text) != anew
    if anew:
        every = plan_of(result).pieces[1].marks
        table = text.partition("sheet 1")[2].partition("Proof lengths")[0]
        assert all(f"{mark.order} {mark.label[0].upper()}{mark.label[1:]}" in table for mark in every)
        assert "there already" not in text


def test_checks_that_were_passed_fill_their_lines_and_none_is_lost() -> None:
    page = Paper((210.0, 297.0), "list")
    flow = Flow(page)
    flow.turn()
    texts = ["short one", "w" * 110, "short two", "short three"]
    begun = flow.y
    flow.bullets(texts, size=9.0, packed=True)
    one = flow.y - begun
    assert flow._packed(texts, 9.0) == ["short one", "short two", "short three", "w" * 110]
    flow.bullets(texts, size=9.0)
    assert flow.y - begun - one > one + 3.0
    page.finish()


def test_every_sheet_after_the_first_bears_the_title_at_its_foot():
    typed = order(BODIES["median woman"], PLAIN, {"width": "160 cm"})
    text = pages(make(read({**typed, "title": "Quiet pullover"}), with_ways_out=False))
    assert [page.count("Quiet pullover") for page in text] == [1] * len(text)


@pytest.mark.parametrize(
    ("pockets", "base"), [("in_seam", "the line beside the piece"), ("patch", "the straight edge")]
)
def test_the_table_of_a_pocket_says_where_its_0_lies(pockets: str, base: str):
    style = {"pockets": pockets, "length": "mid_thigh"}
    result = make(read(order(BODIES["median woman"], style, {"width": "160 cm"}, garment="drop_shoulder")))
    text = " ".join(pages(result))
    assert f"Corners 0 lies at the top of {base}." in text


def test_no_name_of_a_proof_length_is_cut_short_and_two_lines_stay_within_their_row(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    rows: list[tuple[float, str]] = []
    before = Paper.words

    def watched(self: Paper, x: float, y: float, text: str, size: float, **how: Any) -> float:
        if size == 7.0:
            rows.append((y, text))
        return before(self, x, y, text, size, **how)

    monkeypatch.setattr(Paper, "words", watched)
    tape = {"unit": "in", "step": "1/4"}
    style = {"length": "hip", "sleeve_length": "elbow", "sleeve_shape": "straight"}
    found = make(read(order(BODIES["man"], style, {"width": "150 cm"}, garment="kaftan", tape=tape)))
    text = " ".join(pages(found, "Letter"))
    assert "Underarm curve at the sleeve to underarm curve at the side" in text
    assert "…" not in text
    twice = [(a, b) for a, b in pairwise(rows) if 0 < b[0] - a[0] < 3.0]
    assert twice
    assert all(b[0] - a[0] == pytest.approx(2.45) for a, b in twice)  # both in a row of 4.9 mm or more


def test_what_is_estimated_is_said_in_the_number_of_it() -> None:
    one = make(read(order(BODIES["median woman"], {}, {}, garment="set_in")), with_ways_out=False)
    assert len([text for text in pages(one) if "It is better to measure it." in text]) == 1
    assert any("It is better to measure them." in text for text in pages(made(body="man")))


def test_seven_seams_of_one_allowance_are_told_together_and_six_one_by_one() -> None:
    alike = [(f"seam {number}", "1 cm") for number in range(7)]
    assert _told(alike) == "1 cm everywhere"
    assert _told([*alike, ("side", "1.5 cm")]) == "1 cm everywhere, but side 1.5 cm"
    six = [*alike[:6], ("side", "1.5 cm")]
    assert _told(six) == ", ".join(f"{edge} {amount}" for edge, amount in six)
