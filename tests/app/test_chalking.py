"""The frozen draft as the chalk screen reads it: the 0 that a reading is taken from."""

import json
import re
from dataclasses import asdict
from itertools import pairwise
from pathlib import Path

import pytest

from app import saved
from app.chalking import Chalking, _on_the_cloth, read_chalking
from app.lit import NOTHING
from app.saved import Migrated, migrated
from app.state import FrozenDraft, GarmentRecord
from app.text import words
from app.turn import laid_turn
from app.update import start, update
from app.update_garment import chalking_of, item_at
from drafting.drawing.piece import Stroke
from drafting.garments import garments
from drafting.geometry.point import Point
from drafting.geometry.polyline import lengths_along, nearest_on
from drafting.layout import across_folds, in_cutting_order, laid
from drafting.order import Result, make, read_order
from drafting.record.documents import draft_json
from tests.app.records import loaded
from tests.drafting.bodies import BODIES, Data, order, read


def shown(record: Data, typed: Data, key: str) -> tuple[tuple[str, str], ...]:
    chalking: Chalking | None = read_chalking(json.dumps(record), json.dumps(typed))
    assert chalking is not None
    return next(item.pairs for item in chalking.items if item.key == key)


def cm(text: str) -> float:
    """A reading in centimetres as millimetres."""
    return float(text) * 10


def test_a_mark_past_the_tape_is_shown_from_the_second_0() -> None:
    cloth = {"width": "200 cm", "stretch_across": 40, "stretch_along": 20}
    typed = {**order(BODIES["tall woman"], {"length": "ankle"}, cloth), "tape": {"unit": "cm", "step": "0.5"}}
    result = make(read(typed), with_ways_out=False)
    assert result.plan is not None
    marks = {mark.id: mark for mark in result.plan.pieces[0].marks}
    hem, waist = marks["hem_corner"], marks["waist"]
    record = json.loads(draft_json(result))
    assert shown(record, typed, "front.hem_corner") == (
        ("across", hem.across.pretty),
        ("down_second", hem.reads.pretty),
    )
    chalking = read_chalking(json.dumps(record), json.dumps(typed))
    assert chalking is not None
    zeros = chalking.pieces["front"].zeros
    assert {each for each in marks if marks[each].zero == 2} == zeros.keys()
    for name, zero in zeros.items():  # the second 0 and what is read from it come to the place of the mark
        assert zero + cm(marks[name].reads.text) == pytest.approx(cm(marks[name].down.text))
    told = next(item for item in chalking.items if item.key == "apart.front.zero.2")
    assert told.lit.spots == ((0.0, chalking.pieces["front"].noughts[1]),)
    assert cm(told.pairs[0][1]) == chalking.pieces["front"].noughts[1]
    third = json.loads(json.dumps(record))  # a tape so short that there is a third 0
    third["pieces"][0]["zeros"] = ["80.0", "160.0"]
    next(mark for mark in third["pieces"][0]["marks"] if mark["id"] == "hem_corner")["zero"] = 3
    longest = read_chalking(json.dumps(third), json.dumps(typed))
    assert longest is not None
    assert longest.pieces["front"].zeros["hem_corner"] == 1600
    assert shown(record, typed, "front.waist") == (("across", waist.across.pretty), ("down", waist.down.pretty))
    # A draft frozen before tapes had an end has one 0, and still shows its reading.
    for piece in record["pieces"]:
        for mark in piece["marks"]:
            del mark["zero"], mark["reads"]
    assert shown(record, {**typed, "title": "older"}, "front.hem_corner") == (
        ("across", hem.across.pretty),
        ("down", hem.down.pretty),
    )


FROZEN = Path(__file__).parent / "frozen" / "open_ankle_dress.json"


def test_a_record_frozen_by_an_earlier_app_is_read_and_goes_on_where_it_was() -> None:
    """An ankle dress laid open, frozen before tapes had an end; `items` is what that app then showed, by its keys."""
    kept = json.loads(FROZEN.read_text("utf-8"))
    frozen = saved.read("frozen.g1", kept["record"])
    assert isinstance(frozen, FrozenDraft)
    chalking = read_chalking(frozen.draft, frozen.order)
    assert chalking is not None
    assert len(kept["items"]) > 30
    now = {item.key: [item.kind, [list(pair) for pair in item.pairs]] for item in chalking.items}
    assert {key: now.get(key) for key, *_ in kept["items"]} == {key: rest for key, *rest in kept["items"]}
    # What that app passed over in silence is told now, and shifts no key.
    told = [item.key for item in chalking.items if item.key not in {key for key, *_ in kept["items"]}]
    assert told == ["begin.front", "besides.front.sleeve_end_top"]
    garment = GarmentRecord("g1", chalking=True, chalk_done=("step.0", "front.waist"), chalk_at="step.30")
    book = json.dumps({"format": "foldmark-book", "version": 1, "garments": [asdict(garment)]})
    moved = migrated(book, {"g1": kept["record"]})
    assert isinstance(moved, Migrated)
    (new,) = [key.removeprefix("garment.") for key in moved.records if key.startswith("garment.")]
    records = {key: text for key, text in moved.records.items() if key != "place"}
    state = update(start("/")[0], loaded(records, f"/garment/{new}/chalk"))[0]
    assert state.garment is not None
    assert state.garment.chalking
    read_back = chalking_of(state, state.garment)
    assert read_back is not None
    at = read_back.items[read_back.index(item_at(state.garment, read_back))]
    assert (at.title, at.piece) == ("Notches", "front")


@pytest.mark.parametrize("lay", ["open", "auto"])
def test_nothing_that_the_plan_says_besides_readings_is_lost(lay: str) -> None:
    """Every sentence of the plan is on the screen but those of readings, which the marks themselves say."""
    cloth = {"width": "200 cm", "stretch_across": 40, "stretch_along": 20, "lay": lay}
    typed = order(BODIES["median woman"], {"length": "hip"}, cloth)
    result = make(read(typed), with_ways_out=False)
    assert result.plan is not None
    assert result.layout is not None
    chalking = read_chalking(draft_json(result).decode(), json.dumps({"tape": {"unit": "cm"}}))
    assert chalking is not None
    said = [item.says for item in chalking.items if item.kind in {"words", "apart"}]
    shown = " ".join(said)
    lost = []
    for step in result.plan.steps:
        if step.rest is None:
            sentences = [each.strip(" .") for each in step.says.split(". ")]
            new = [each for each in sentences if each not in shown]
            lost += [each for each in new if not each.startswith(("In centimetres: (", "On the back these lie"))]
        elif step.rest:
            assert step.rest in said
        # Every number of a mark and every reading that the step says is on the screen, by itself.
        alone = [i for i in chalking.items if i.piece == step.piece or f".place.{step.piece}." in i.key]
        told = " ".join(
            f"({item.number}) {item.says} {' '.join(reading for _, reading in item.pairs)}" for item in alone
        )
        numbers = re.findall(r"\(\d+\)|\d+\.\d|\d+", step.says)
        lost += [f"{step.title}: {each}" for each in numbers if each not in told]
    assert lost == []
    front = result.plan.pieces[0]
    assert front.look is not None
    keys = [item.key for item in chalking.items]
    at = keys.index("look.front")
    look = chalking.items[at]
    assert (look.kind, look.says, look.ends) == ("words", front.look.says, (front.look.mark,))
    assert shown.count(front.look.says) == 1, "said once, where its mark is lit"
    assert [item.kind for item in chalking.items[at - len(front.proofs) : at]] == ["proof"] * len(front.proofs)
    if lay == "open":
        assert "Chalk one half first, then its mirror" in shown


def made(laying: str, style: Data, **cloth: object) -> tuple[Result, Chalking]:
    facts: Data = {"width": "200 cm", "stretch_across": 40, "stretch_along": 20, "lay": laying, **cloth}
    typed = {**order(BODIES["median woman"], {"length": "hip", **style}, facts), "tape": {"unit": "cm", "step": "0.5"}}
    result = make(read(typed), with_ways_out=False)
    chalking = read_chalking(draft_json(result).decode(), json.dumps({"tape": {"unit": "cm"}}))
    assert chalking is not None
    return result, chalking


CASES: list[tuple[str, Data]] = [
    ("half", {}),
    ("open", {}),
    ("crosswise", {}),
    ("half", {"neck_layers": "folded", "slit": "10 cm", "neck_opening": "centre_back"}),
    ("half", {"neck_slant": 10}),
]


@pytest.mark.parametrize(("laying", "style"), CASES, ids=["half", "open", "crosswise", "lines", "slanted"])
def test_every_thing_that_is_told_apart_is_lit_and_has_at_most_two_readings(laying: str, style: Data) -> None:
    result, chalking = made(laying, style)
    assert result.layout is not None
    apart = [item for item in chalking.items if item.kind == "apart"]
    keys = [item.key for item in chalking.items]
    assert len(set(keys)) == len(keys)
    kinds = {item.key.split(".")[2] for item in apart}
    assert {"level", "join", "notch", "clips"} <= kinds
    assert result.plan is not None
    assert ("place" in kinds) is any(step.title == "Places" for step in result.plan.steps)
    assert "place" in kinds or laying == "half"
    assert ("fold" in kinds) is (laying == "crosswise")
    assert {"guide", "slit"} <= kinds or "neck_layers" not in style
    assert ("trim" in kinds) is ("neck_slant" in style)
    assert ("other_half" in kinds) is (laying == "open")
    for item in apart:
        assert len(item.pairs) <= 2
        assert item.lit != NOTHING
        assert item.says.endswith(".")
        if item.pairs:
            assert len(item.says) <= 76, "two lines on a phone"
        marks = chalking.pieces[item.piece].marks
        assert set(item.lit.marks) <= marks.keys()
        for label, reading in item.pairs:
            assert words(f"chalk.{label}")
            assert re.fullmatch(r"\d+\.\d", reading)


def test_what_is_lit_lies_where_the_draft_has_it() -> None:
    result, chalking = made("open", {})
    front, marks = chalking.pieces["front"], chalking.pieces["front"].marks
    line = [Point(x, y) for x, y in front.outline]
    along = lengths_along(line)
    items = {item.key: item for item in chalking.items}
    waist = items["apart.front.level.waist"]
    ((start, end),) = waist.lit.lines
    assert waist.pairs == (("down", "53.5"),)
    assert start[1] == end[1] == pytest.approx(result.draft.pieces[0].level("waist"))
    assert -start[0] == end[0] > 100, "to both sides of a piece that lies whole"
    assert Point(*end).distance(nearest_on(line, along, Point(*end))[1]) < 0.5
    joins = [item for item in items.values() if ".join." in item.key and item.piece == "front"]
    assert joins[0].lit.marks[0] == next(iter(marks))
    for before, after in pairwise(joins):
        assert before.lit.marks[-1] == after.lit.marks[0], "once round, with no gap"
    for item in joins:
        (lit,) = item.lit.lines
        ends = Point(*lit[0]), Point(*lit[-1])
        assert ends[0].distance(Point(*marks[item.lit.marks[0]])) < 0.5
        assert ends[1].distance(Point(*marks[item.lit.marks[-1]])) < 0.5
        for point in lit:
            assert Point(*point).distance(nearest_on(line, along, Point(*point))[1]) < 1.2
        if "curve" in item.says:
            for name in item.lit.marks:
                assert min(Point(*marks[name]).distance(Point(*point)) for point in lit) < 30
    (mirror,) = items["apart.front.other_half"].lit.lines
    assert max(x for x, _ in mirror) <= 0.0 > min(x for x, _ in mirror)
    assert front.drawing.left < -500, "both halves are drawn"
    (filled,) = [each for each in front.drawing.items if isinstance(each, Stroke) and each.filled]
    assert min(point.x for point in filled.points) == -max(point.x for point in filled.points)
    tick = items["apart.front.notch.side.underarm"]
    assert tick.lit.ways
    assert len(tick.pairs) == 2
    ((x, y),) = tick.lit.spots
    assert [float(reading) * 10 for _, reading in tick.pairs] == pytest.approx([x, y], abs=2.6)


@pytest.mark.parametrize("laying", ["open", "crosswise"])
def test_every_0_is_lit_on_the_cloth_where_the_layout_lays_it(laying: str) -> None:
    result, chalking = made(laying, {"length": "mid_thigh"} if laying == "crosswise" else {})
    layout = result.layout
    assert layout is not None
    assert chalking.cloth is not None
    assert sorted(chalking.cloth.zeros.values()) == sorted((round(p.x, 9), round(p.y, 9)) for p in layout.places)
    told = [item for item in chalking.items if ".place." in item.key]
    assert len(told) == len(layout.places)
    for item in told:
        assert item.picture == "cloth"
        ((x, y),) = item.lit.spots
        assert (x, y) in chalking.cloth.zeros.values()
        for label, reading in item.pairs:
            far = {
                "from_cut_end": y, "from_right_fold": layout.laid_width - x,
            }.get(label, x)  # fmt: skip
            assert float(reading) * 10 == pytest.approx(far, abs=0.6)
    drawing = chalking.cloth.drawing
    filled = [item for item in drawing.items if isinstance(item, Stroke) and item.role == "piece_fill"]
    assert len(filled) == len(layout.places), "each piece is filled as one, the halves of an opened one too"
    for place, stroke in zip(layout.places, filled, strict=True):
        piece = next(each for each in result.draft.pieces if each.name == place.piece)
        half = len(piece.cut_line)
        assert len(stroke.points) == (2 * half if place.opened and piece.on_fold else half)
        across = [(p.x, p.y) for p in stroke.points]
        edges = [(p.x, p.y) for p in laid(piece, place)]
        for low, high in ((min, min), (max, max)):  # and it lies where the layout lays it
            assert low(x for x, _ in across) == pytest.approx(low(x for x, _ in edges), abs=0.01)
            assert high(y for _, y in across) == pytest.approx(high(y for _, y in edges), abs=0.01)
    assert drawing.left < 0 < layout.laid_width < drawing.left + drawing.width
    for name, piece in chalking.pieces.items():
        place = next(p for p in in_cutting_order(layout, result.draft.pieces) if p.piece == name)
        if not place.across_fold:
            assert piece.turn == laid_turn(place.turned, place.mirrored)
        for fold in across_folds(layout, result.draft.pieces):
            if fold.place == place:  # its half lies on the end that is turned over
                assert piece.turn.x == ((0, 1) if fold.end == "cut end" else (0, -1))
        # Lying on the cloth, the piece points the way that its drawing says.
        assert piece.turn.y == laid_turn(place.turned, mirrored=False).y


def test_a_draft_frozen_before_things_were_told_apart_says_its_steps_as_it_did() -> None:
    result, chalking = made("half", {})
    record = json.loads(draft_json(result))
    for step in record["chalk"]:
        del step["apart"], step["rest"]
    for piece in record["pieces"]:
        del piece["lies"]
    older = read_chalking(json.dumps(record), json.dumps({"tape": {"unit": "cm"}}))
    assert older is not None
    assert [item.kind for item in older.items if item.kind == "apart"] == []
    assert any("Rule straight: (1) to (3)" in item.says for item in older.items)
    kept = {item.key for item in older.items if item.kind in {"mark", "proof"}}
    assert kept == {item.key for item in chalking.items if item.kind in {"mark", "proof"}}


def test_a_chalked_stitching_line_tells_the_allowances_one_by_one() -> None:
    cloth = {"width": "200 cm", "stretch_across": 40, "stretch_along": 20, "lay": "half"}
    typed = {**order(BODIES["median woman"], {"length": "hip"}, cloth), "tape": {"unit": "cm", "step": "0.1"}}
    typed["tape"]["line"] = "stitch"
    result = make(read(typed), with_ways_out=False)
    chalking = read_chalking(draft_json(result).decode(), json.dumps({"tape": {"unit": "cm"}}))
    assert chalking is not None
    told = [item for item in chalking.items if ".allowance." in item.key and item.piece == "front"]
    edges = [edge for edge in result.draft.pieces[0].edges if edge.allowance > 0]
    assert [float(item.pairs[0][1]) * 10 for item in told] == pytest.approx([edge.allowance for edge in edges], abs=0.6)
    keys = [item.title for item in chalking.items if item.piece == "front"]
    assert keys.count("Cut") == len(edges) + 1
    at = chalking.index(told[-1].key)
    assert chalking.items[at + 1].says.startswith("Pin, then cut"), "the cut comes after the last of them"


def test_a_place_is_measured_from_the_fold_or_edge_that_it_counts_from() -> None:
    layout, place = {"laid_width": 1000.0}, {"x": 900.0, "y": 300.0, "turned": 0, "mirrored": False}
    piece = {"cut_line": [[0.0, 0.0], [50.0, 0.0]]}
    for counts, base in (("from_right_fold", 1000.0), ("from_left_fold", 0.0), ("from_left_edge", 0.0)):
        told = {"kind": "place", "reads": [{"counts": counts}, {"counts": "from_cut_end"}]}
        lit = _on_the_cloth(layout, place, piece, told)
        assert lit.lines == (((900.0, 0.0), (900.0, 300.0)), ((base, 300.0), (900.0, 300.0)))
        assert lit.spots == ((900.0, 300.0),)
    assert _on_the_cloth(layout, place, piece, {"kind": "fold", "reads": []}).lines == (
        ((0.0, 300.0), (1000.0, 300.0)),
    )
    off = {"cut_line": [[0.0, 120.0], [50.0, 120.0]]}  # its 0 lies off it, so it is begun at its top
    told = {"kind": "place", "reads": [{"counts": "from_left_edge"}, {"counts": "from_cut_end"}]}
    assert _on_the_cloth(layout, place, off, told).spots == ((900.0, 420.0),)


@pytest.mark.parametrize("side", ["left", "right"])
def test_a_slanted_neck_is_trimmed_on_the_side_that_is_seen_with_the_right_side_towards_one(side: str) -> None:
    result, chalking = made("half", {"neck_slant": 10, "neck_slant_side": side})
    front = next(piece for piece in result.draft.pieces if piece.name == "front")
    assert front.trim_side == side
    told = [item for item in chalking.items if ".trim." in item.key and item.piece == "front"]
    assert len(told) == len(front.trim)
    lowest = max((item.lit.spots[0] for item in told), key=lambda spot: spot[1])
    assert (lowest[0] > 0) is (side == "left"), "the wearer's left is on the right of who looks at the front"
    for item in told:
        assert item.picture == "opened"
        ((x, _),) = item.lit.spots
        assert item.pairs[0][0] == ("to_right" if x >= 0 else "to_left")


def test_a_tape_is_swung_before_the_corners_and_its_0_has_room() -> None:
    person = {"kind": "woman", "measures": {"stature": 163, "waist_girth": 72, "hip_girth": 97}}
    typed = order(person, {}, garment="circle_skirt")
    result = make(read(typed), with_ways_out=False)
    text = draft_json(result).decode()
    chalking = read_chalking(text, json.dumps({"tape": {"unit": "cm"}}))
    assert chalking is not None
    swings = [item for item in chalking.items if ".swing." in item.key]
    assert [item.pairs[0][0] for item in swings] == ["swing", "swing"]
    first = chalking.index(swings[0].key)
    corner = next(k for k, item in enumerate(chalking.items) if item.kind == "mark" and item.key.endswith("_side"))
    assert first < corner, "the tape is swung before the corners are measured"
    panel = chalking.pieces["panel"]
    assert panel.drawing.top < 0.0 < panel.outline[0][1]  # room for the 0, which lies above the outline
    file = json.loads(text)
    joins = [mark["joined"] for mark in file["pieces"][0]["marks"]]
    assert sum(text.startswith("swung by") for text in joins) == 2


@pytest.mark.parametrize("name", garments())
def test_a_place_on_the_cloth_is_lit_where_its_reading_says(name: str) -> None:
    """Also that of another piece than the one with which the places are told."""
    body = {"stature": 168, "waist_girth": 77, "hip_girth": 101, "bust_girth": 94, "head_girth": 56}
    stretches = {"stretch_across": 50, "stretch_along": 40} if "knit" in garments()[name].cloths else {}
    found, problems = read_order({
        "person": {"kind": "woman", "unit": "cm", "measures": body}, "garment": name,
        "cloth": {"width": 150 if stretches else 180, **stretches},
        "tape": {"unit": "cm", "step": "0.1"},
    })  # fmt: skip
    assert found is not None, problems
    chalking = read_chalking(draft_json(make(found, with_ways_out=False)).decode(), '{"tape": {"unit": "cm"}}')
    assert chalking is not None
    places = [each for each in chalking.items if each.picture == "cloth" and each.lit.spots]
    assert len(places) == 3 or name != "circle_skirt", "two panels and the waistband"
    for each in places:
        ((_, down),) = each.lit.spots
        told = dict(each.pairs).get("from_cut_end")
        assert told is None or down == pytest.approx(10 * float(told), abs=0.6), each.says
