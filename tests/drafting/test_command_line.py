"""The command line: exit codes, what is written, and what is said on standard error."""

import json
from pathlib import Path

import pypdf
import pytest

from drafting.__main__ import main
from tests.drafting.bodies import BODIES, Data, order

DEMO = Path(__file__).resolve().parents[2] / "assets" / "demo" / "order.json"
ALL = {"draft.json", "chalk-sheet.pdf", "pattern.pdf", "pattern.svg", "cloth.svg"}


def run(folder: Path, typed: Data) -> tuple[int, set[str]]:
    source = folder / "order.json"
    source.write_text(json.dumps(typed, ensure_ascii=False), encoding="utf-8")
    out = folder / "out"
    code = main([str(source), "--out", str(out)])
    return code, {path.name for path in out.iterdir()} if out.exists() else set()


def demo() -> Data:
    found: Data = json.loads(DEMO.read_text(encoding="utf-8"))
    return found


def test_a_sound_order_writes_everything(tmp_path: Path) -> None:
    code, files = run(tmp_path, demo())
    assert (code, files) == (0, ALL)
    assert len(pypdf.PdfReader(tmp_path / "out" / "chalk-sheet.pdf").pages) >= 2


def test_no_cloth_drawing_where_nothing_fits(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    typed = demo()
    typed["cloth"]["width"] = 140
    code, files = run(tmp_path, typed)
    assert (code, files) == (0, ALL - {"cloth.svg"})
    line = next(line for line in capsys.readouterr().err.splitlines() if line.startswith("fits_cloth: "))
    says, ways = line.split("; ", 1)
    assert says.count(":") == 1
    assert len(ways.split("; or ")) > 1
    assert all(way[0].islower() for way in ways.split("; or ")), "ways out are joined as one sentence"


def test_a_refused_order_writes_nothing(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    typed = demo()
    typed["person"]["measures"]["bust_girth"] = 3
    code, files = run(tmp_path, typed)
    assert (code, files) == (2, set())
    lines = capsys.readouterr().err.strip().splitlines()
    assert any(line.startswith("person.measures.bust_girth: ") and "; " in line for line in lines)


@pytest.mark.parametrize("text", ["", "{", "[1, 2", "\x00", "[" * 5000])
def test_what_is_no_json_is_refused_in_words(text: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    source = tmp_path / "order.json"
    source.write_text(text, encoding="utf-8")
    assert main([str(source), "--out", str(tmp_path / "out")]) == 2
    assert capsys.readouterr().err.startswith("order: ")
    assert not (tmp_path / "out").exists()


def test_a_missing_file_is_named(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main([str(tmp_path / "nowhere.json"), "--out", str(tmp_path / "out")]) == 2
    assert "cannot be read" in capsys.readouterr().err


def test_a_stop_writes_the_draft_alone(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    typed = order(BODIES["median woman"], {"neck_half_width": "70 mm"}, {"stretch_across": 10})
    code, files = run(tmp_path, typed)
    assert (code, files) == (3, {"draft.json"})
    err = capsys.readouterr().err
    assert "head_passes_neck: " in err
    assert "result" in json.loads((tmp_path / "out" / "draft.json").read_text(encoding="utf-8"))


@pytest.mark.parametrize(
    ("body", "style", "age", "said"),
    [
        ("child of 6", {}, 6, ["EN 14682", "nightwear"]),
        ("child of 6", {}, 2, ["Under 3 years"]),
        ("median woman", {"flare": "wide"}, None, ["ISO/TR 9240"]),
        ("median woman", {"body": "flared"}, None, ["ISO/TR 9240"]),
        ("median woman", {"length": "ankle"}, None, ["can trip"]),
        ("median woman", {}, None, ["rotary blade", "ISO 3758"]),
    ],
)
def test_each_hazard_is_said_in_sheet_and_command_line(
    body: str, style: Data, age: int | None, said: list[str], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    person = {**BODIES[body], **({} if age is None else {"age": age})}
    code, _ = run(tmp_path, order(person, style, {"width": "180 cm", "stretch_across": 60, "stretch_along": 40}))
    assert code == 0
    told = capsys.readouterr().out
    sheet = " ".join(page.extract_text() for page in pypdf.PdfReader(tmp_path / "out" / "chalk-sheet.pdf").pages)
    flat = " ".join(sheet.split())
    for words in said:
        assert words in told
        assert words in flat


@pytest.mark.sampled(4)
@pytest.mark.parametrize(
    "name",
    ["<script>alert(1)</script>", "Zoë 🧵✂️", "נעמה فاطمة", "x" * 500, "& < > \" '", "tab\tnew\nline", ""],
)
def test_odd_names_are_carried_safely(name: str, tmp_path: Path) -> None:
    from xml.etree import ElementTree

    typed = demo()
    typed["person"]["name"] = name
    typed["title"] = name
    code, files = run(tmp_path, typed)
    assert (code, files) == (0, ALL)
    svg = (tmp_path / "out" / "pattern.svg").read_text(encoding="utf-8")
    root = ElementTree.fromstring(svg)
    assert not [element for element in root.iter() if element.tag.endswith("script")]
    sheet = pypdf.PdfReader(tmp_path / "out" / "chalk-sheet.pdf", strict=True)
    text = "".join("".join(page.extract_text() for page in sheet.pages).split())
    if len(name) == 500:
        assert text.count("x") >= 500, "what is shortened on the first page stands in full on the last"


def test_the_schemas_are_printed(capsys: pytest.CaptureFixture[str]) -> None:
    for which in ("order", "draft"):
        assert main(["--schema", which]) == 0
        assert json.loads(capsys.readouterr().out)["type"] == "object"
