"""The command line takes a backup: one garment or all of it, each as an order is taken."""

import json
from pathlib import Path
from typing import Any

import pytest

from drafting import __main__ as command
from drafting.order import Order, make
from drafting.record.backup_file import FORMAT, MOST_BYTES, kept_orders, same_marks
from drafting.record.documents import documents, draft_json
from drafting.record.packed import packed
from drafting.record.papers import papers_of, papers_text
from tests.drafting.bodies import BODIES, Data, order

ALL = {"draft.json", "chalk-sheet.pdf", "pattern.pdf", "pattern.svg", "cloth.svg"}
SOUND: Data = order(BODIES["median woman"], {}, {"width": "180 cm"})
STOPS: Data = order(BODIES["median woman"], {"neck_half_width": "70 mm"}, {"stretch_across": 10})
REFUSED: Data = order(BODIES["median woman"] | {"measures": {"bust_girth": 3}}, {})
STOOD: Data = order(BODIES["median woman"], {"length": "100 cm"}, {"width": "180 cm"})
DRAFT = draft_json(make(Order.model_validate(SOUND), with_ways_out=False)).decode()


def backup(**more: Any) -> Data:
    """A backup of five garments: one of each kind that a command line meets."""
    garments: list[Data] = [
        {"id": "g1", "title": "Ferry pullover", "person": "p1", "chalking": False},
        {"id": "g2", "title": "", "person": "p1", "chalking": True},
        {"id": "g3", "title": "", "person": "", "chalking": False},
        {"id": "g4-k7x9q2", "title": "", "person": "", "chalking": False},
        {"id": "g5", "title": "", "person": "", "chalking": False},
    ]
    return {
        "format": FORMAT, "version": 1, "saved_on": "2026-11-27", "holds": "everything",
        "people": [{"id": "p1", "name": "Ilse"}], "garments": garments,
        "orders": {"g1": SOUND, "g2": REFUSED, "g3": None, "g4-k7x9q2": STOPS, "g5": REFUSED},
        "frozen": {"g2": {"order": json.dumps(SOUND), "draft": packed(DRAFT)}}, "pictures": {}, **more,
    }  # fmt: skip


def run(folder: Path, typed: Any, *more: str) -> int:
    source = folder / "backup.json"
    source.write_text(json.dumps(typed), encoding="utf-8")
    return command.main([str(source), "--out", str(folder / "out"), *more])


def written(folder: Path) -> dict[str, set[str]]:
    return {each.name: {one.name for one in each.iterdir()} for each in (folder / "out").iterdir() if each.is_dir()}


def test_every_garment_of_a_backup_has_a_folder_of_its_own(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(tmp_path, backup()) == 2
    assert written(tmp_path) == {"g1": ALL, "g2": ALL, "g4-k7x9q2": {"draft.json"}}
    said = capsys.readouterr()
    assert "garment g1: Ferry pullover, for Ilse" in said.out
    assert "garment g2, for Ilse" in said.out
    assert "garment g3: something that is needed was not known yet; " in said.err
    assert "person.measures.bust_girth: " in said.err, "the fifth alone is refused"
    assert said.err.count("person.measures.bust_girth: ") == 1
    assert same_marks(DRAFT, (tmp_path / "out" / "g2" / "draft.json").read_bytes())


@pytest.mark.parametrize(("garment", "code"), [("g1", 0), ("g2", 0), ("g3", 2), ("g4-k7x9q2", 3), ("g5", 2)])
def test_one_garment_is_drafted_alone(garment: str, code: int, tmp_path: Path) -> None:
    assert run(tmp_path, backup(), "--garment", garment) == code
    files = {each.name for each in (tmp_path / "out").iterdir()} if (tmp_path / "out").exists() else set()
    assert files == ({0: ALL, 3: {"draft.json"}}.get(code, set()))


def test_a_garment_that_is_not_there_is_told_with_those_that_are(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(tmp_path, backup(), "--garment", "g9") == 2
    assert capsys.readouterr().err == "garment: this backup has no garment g9; choose g1, g2, g3, g4-k7x9q2, g5\n"
    assert run(tmp_path, backup(garments=[])) == 2
    assert "no garment; choose another backup" in capsys.readouterr().err
    assert run(tmp_path, SOUND, "--garment", "g1") == 2
    assert "leave --garment out" in capsys.readouterr().err
    assert not (tmp_path / "out").exists()


def test_what_was_begun_with_other_marks_is_not_printed_anew(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """As after an update that moves a mark: papers of now beside marks of then would be cut by mistake."""
    other = json.loads(DRAFT)
    other["pieces"][0]["marks"][0]["x"] += 0.5
    frozen = {"g2": {"order": json.dumps(SOUND), "draft": packed(json.dumps(other))}}
    assert run(tmp_path, backup(frozen=frozen), "--garment", "g2") == 3
    assert [each.name for each in (tmp_path / "out").iterdir()] == ["draft.json"]
    assert json.loads((tmp_path / "out" / "draft.json").read_text("utf-8")) == other
    assert "chalking: it began with other marks" in capsys.readouterr().err


@pytest.mark.parametrize("order", [json.dumps(SOUND), json.dumps(REFUSED)])
def test_what_was_begun_with_other_marks_is_printed_from_what_was_kept(
    order: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """As after an update that moves a mark, or one that refuses the order: the papers are those of then."""
    then = make(Order.model_validate(STOOD), with_ways_out=False)
    kept = {"order": order, "draft": packed(draft_json(then).decode()), "papers": packed(papers_text(papers_of(then)))}
    assert run(tmp_path, backup(frozen={"g2": kept}), "--garment", "g2") == 0
    assert {each.name: each.read_bytes() for each in (tmp_path / "out").iterdir()} == documents(then)
    assert "its papers are made from the draft it began with" in capsys.readouterr().err


def test_kept_papers_of_other_marks_are_not_printed(tmp_path: Path) -> None:
    then = make(Order.model_validate(STOOD), with_ways_out=False)
    other = json.loads(DRAFT)
    other["pieces"][0]["marks"][0]["x"] += 0.5
    kept = {
        "order": json.dumps(SOUND),
        "draft": packed(json.dumps(other)),
        "papers": packed(papers_text(papers_of(then))),
    }
    assert run(tmp_path, backup(frozen={"g2": kept}), "--garment", "g2") == 3
    assert [each.name for each in (tmp_path / "out").iterdir()] == ["draft.json"]


def test_marks_are_the_same_where_every_place_and_reading_is() -> None:
    assert same_marks(DRAFT, DRAFT.encode())
    for key in ("x", "y", "across", "down", "id"):
        other = json.loads(DRAFT)
        mark = other["pieces"][-1]["marks"][-1]
        mark[key] = mark[key] + (0.01 if isinstance(mark[key], float) else "0")
        assert not same_marks(json.dumps(other), DRAFT.encode()), key
    for far, same in ((0.0009, True), (0.0011, False)):
        other = json.loads(DRAFT)
        other["pieces"][0]["marks"][1]["y"] += far
        assert same_marks(json.dumps(other), DRAFT.encode()) is same, "two Pythons may round the last digit otherwise"
    for change in (lambda marks: marks.pop(), lambda marks: marks.append(marks[0] | {"id": "one more"})):
        other = json.loads(DRAFT)
        change(other["pieces"][0]["marks"])
        assert not same_marks(json.dumps(other), DRAFT.encode())
        assert not same_marks(DRAFT, json.dumps(other).encode())
    for no_draft in ("", "{}", "[]", '{"pieces": 1}', '{"pieces": [{"name": "x", "marks": [3]}]}'):
        assert not same_marks(no_draft, DRAFT.encode())


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"version": 2}, "a newer version of Foldmark"),
        ({"version": "1"}, "no version"),
        ({"people": 3}, "cannot be read"),
        ({"garments": [3]}, "cannot be read"),
        ({"garments": [{}]}, "cannot be read"),
        ({"garments": [{"id": 7}]}, "cannot be read"),
        ({"garments": [{"id": "../../x"}]}, "cannot be read"),
        ({"garments": [{"id": ""}]}, "cannot be read"),
        ({"orders": []}, "cannot be read"),
        ({"orders": {"g1": 3}}, "cannot be read"),
        ({"frozen": {"g2": {"order": "{", "draft": packed(DRAFT)}}}, "cannot be read"),
        ({"frozen": {"g2": {"order": {}, "draft": packed(DRAFT)}}}, "cannot be read"),
        ({"frozen": {"g2": {"order": "null", "draft": packed(DRAFT)}}}, "cannot be read"),
        ({"frozen": {"g2": {"order": "{}", "draft": "x"}}}, "cannot be read"),
        ({"frozen": {"g2": {"order": "{}"}}}, "cannot be read"),
    ],
    ids=str,
)
def test_a_backup_that_is_not_sound_is_one_sentence(
    change: Data, said: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert run(tmp_path, backup(**change)) == 2
    (line,) = capsys.readouterr().err.splitlines()
    assert said in line
    assert line.count("; ") == 1
    assert not (tmp_path / "out").exists()


def test_a_backup_may_be_larger_than_an_order_but_not_without_end(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    source = tmp_path / "backup.json"
    whole = json.dumps(backup(garments=[])).encode()
    source.write_bytes(whole + b" " * (MOST_BYTES - len(whole)))
    assert command.main([str(source), "--out", str(tmp_path / "out")]) == 2
    assert "no garment" in capsys.readouterr().err
    source.write_bytes(whole + b" " * (MOST_BYTES - len(whole) + 1))
    assert command.main([str(source), "--out", str(tmp_path / "out")]) == 2
    assert "larger" in capsys.readouterr().err


def test_what_is_no_backup_is_told() -> None:
    assert kept_orders([])[1][0].field == "format"
    assert kept_orders({"format": "other"})[1][0].field == "format"


def test_the_schema_of_a_backup_is_printed(capsys: pytest.CaptureFixture[str]) -> None:
    assert command.main(["--schema", "backup"]) == 0
    assert json.loads(capsys.readouterr().out)["properties"]["format"] == {"const": FORMAT}
