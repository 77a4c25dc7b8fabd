"""Orders: what is read, what is refused and in which words, and what a result holds."""

import json
from pathlib import Path

import pytest

import drafting
from drafting.order import make, prepare, read_order
from drafting.record.documents import documents, draft_json, schema
from tests.drafting.bodies import BODIES, Data, order, read

DEMO = Path(__file__).resolve().parents[2] / "assets" / "demo" / "order.json"


def demo() -> Data:
    found: Data = json.loads(DEMO.read_text(encoding="utf-8"))
    return found


@pytest.mark.parametrize(
    ("unit", "length", "mm"),
    [("cm", None, 1500.0), ("in", None, 1524.0), ("cm", 120, 1200.0), ("in", 120, 3048.0), ("cm", "60 in", 1524.0),
     ("in", "2 m", 2000.0), ("cm", 500, 5000.0)],
)  # fmt: skip
def test_a_tape_is_as_long_as_is_said(unit: str, length: object, mm: float) -> None:
    """A bare number stands in the tape's own unit; left out it is 150 cm or 60 in (common practice, no source)."""
    typed = demo()
    typed["tape"] = {"unit": unit, "step": "0.5" if unit == "cm" else "1/8", "length": length}
    ready, _ = prepare(read(typed))
    assert ready is not None
    assert ready.tape.reach == pytest.approx(mm)


def test_the_demo_passes_every_check() -> None:
    result = drafting.make(read(demo()))
    assert result.outcome == "pass"
    assert result.layout is not None
    assert result.plan is not None


@pytest.mark.parametrize(
    ("path", "value", "field"),
    [
        (("person", "measures", "bust_girth"), 20, "person.measures.bust_girth"),
        (("person", "measures", "bust_girth"), "98 in", "person.measures.bust_girth"),
        (("person", "measures", "bust_girth"), "soft", "person.measures.bust_girth"),
        (("person", "measures", "bost_girth"), 94, "person.measures.bost_girth"),
        (("person", "kind"), "cat", "person.kind"),
        (("person", "unit"), "ell", "person.unit"),
        (("person", "colour"), "red", "person.colour"),
        (("style", "length"), "moon", "style.length"),
        (("style", "sleeve_length"), 300, "style.sleeve_length"),
        (("style", "overarm_angle"), 45, "style.overarm_angle"),
        (("style", "fit"), "tight", "style.fit"),
        (("style", "sleeve"), "long", "style.sleeve"),
        (("style", "allowances"), {"waist": 1}, "style.allowances.waist"),
        (("cloth", "width"), 0, "cloth.width"),
        (("cloth", "stretch_across"), 900, "cloth.stretch_across"),
        (("tape", "step"), "0.25", "tape.step"),
        (("tape", "unit"), "in", "tape.step"),
        (("tape", "length"), 119.9, "tape.length"),
        (("tape", "length"), "47 7/8 in", "tape.length"),
        (("tape", "length"), 500.1, "tape.length"),
        (("tape", "length"), "200 1/8 in", "tape.length"),
        (("tape", "length"), "long", "tape.length"),
        (("tape", "length"), True, "tape.length"),
        (("garment",), "cape", "garment"),
        (("version",), 9, "version"),
        (("mystery",), 1, "mystery"),
    ],
)
def test_what_is_wrong_is_said_at_its_field(path: tuple[str, ...], value: object, field: str) -> None:
    typed = demo()
    place = typed
    for key in path[:-1]:
        place = place[key]
    place[path[-1]] = value
    found, problems = read_order(typed)
    assert found is None
    refusing = [problem for problem in problems if problem.severity == "refuse"]
    assert field in {problem.field for problem in refusing}
    for problem in refusing:
        assert problem.wrong
        assert problem.fix
        assert not any(word in problem.line().lower() for word in ("invalid", "error", "null", "pydantic", "!"))


@pytest.mark.parametrize(
    ("tape", "wrong", "least", "most", "usual"),
    [
        ({"unit": "cm", "step": "0.5"}, (1, 501, "1 m", "6 m"), "120 cm", "500 cm", "150 cm"),
        ({"unit": "in", "step": "1/8"}, (1, 201, "3 ft", "6 yd"), "48 in", "200 in", "60 in"),
        ({"unit": "cm", "step": "0.5"}, ("47 in", "20 ft"), "48 in", "200 in", "59 in"),
        ({"unit": "in", "step": "1/8"}, ("1 m", "600 cm"), "120 cm", "500 cm", "152.4 cm"),
    ],
)
def test_a_tapes_limits_are_told_in_the_unit_written_and_can_be_typed(
    tape: dict[str, str], wrong: tuple[object, ...], least: str, most: str, usual: str
) -> None:
    for length in wrong:
        found, problems = read_order(demo() | {"tape": tape | {"length": length}})
        assert found is None
        assert [problem.fix for problem in problems if problem.field == "tape.length"] == [
            f"give its length, from {least} to {most}, or leave it out for {usual}"
        ]
    for length in (least, most):
        assert read_order(demo() | {"tape": tape | {"length": length}})[0] is not None


@pytest.mark.parametrize("missing", ["person", "cloth"])
def test_a_missing_part_is_asked_for(missing: str) -> None:
    typed = demo()
    del typed[missing]
    found, problems = read_order(typed)
    assert found is None
    assert [problem.field for problem in problems] == [missing]


@pytest.mark.parametrize("typed", [None, 3, "order", [], [{}], {}])
def test_what_is_no_order_is_refused_in_words(typed: object) -> None:
    found, problems = read_order(typed)
    assert found is None
    assert problems


def test_inches_are_recognised_where_centimetres_were_meant() -> None:
    typed = demo()
    typed["person"]["measures"]["bust_girth"] = "98 in"
    _, problems = read_order(typed)
    line = next(problem.line() for problem in problems if problem.field.endswith("bust_girth"))
    assert "Did you mean 98 cm?" in line


def test_all_problems_are_told_at_once() -> None:
    typed = demo()
    typed["person"]["measures"] |= {"bust_girth": 5, "waist_girth": "wide"}
    typed["cloth"]["width"] = 1
    _, problems = read_order(typed)
    assert {"person.measures.bust_girth", "person.measures.waist_girth", "cloth.width"} <= {p.field for p in problems}


def test_make_refuses_what_read_order_refuses() -> None:
    from drafting.order import Order

    typed = demo()
    typed["person"]["measures"]["bust_girth"] = 5
    with pytest.raises(ValueError, match="bust_girth"):
        make(Order.model_validate(typed))


def test_a_stop_withholds_marks_and_paper() -> None:
    style = {"neck_half_width": "70 mm"}
    result = make(read(order(BODIES["median woman"], style, {"stretch_across": 10})), with_ways_out=False)
    assert result.outcome == "stop"
    assert result.plan is None
    assert list(documents(result)) == ["draft.json"]
    record = json.loads(draft_json(result))
    assert record["result"] == "stop"
    assert record["chalk"] == []
    assert all(piece["marks"] == [] and piece["proofs"] == [] for piece in record["pieces"])


def test_only_estimates_that_the_garment_uses_are_told() -> None:
    result = make(read(demo()), with_ways_out=False)
    told = {estimate.measure for estimate in result.estimates}
    assert told <= set(result.ready.garment.uses)
    assert "thigh_girth" not in told
    assert "hand_girth" in told
    assert all(estimate.sd > 0 for estimate in result.estimates)


def test_both_lines_give_two_plans_and_a_second_sheet() -> None:
    typed = demo()
    typed["tape"]["line"] = "both"
    result = make(read(typed), with_ways_out=False)
    assert result.plan is not None
    assert result.stitch_plan is not None
    assert (result.plan.line, result.stitch_plan.line) == ("cut", "stitch")
    assert "chalk-sheet-stitching-line.pdf" in documents(result)


@pytest.mark.parametrize("which", ["order", "draft"])
def test_the_schema_names_every_part_of_the_record(which: str) -> None:
    found = schema("order" if which == "order" else "draft")
    record = demo() if which == "order" else json.loads(draft_json(make(read(demo()), with_ways_out=False)))
    assert set(record) <= set(found["properties"])
    assert found["additionalProperties"] is False
