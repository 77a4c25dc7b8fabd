"""What an order file may hold, and the folder of a set: one sentence and exit 2, never a half set, never a traceback.

Exit codes and what is put away: the table of exits in the README.
"""

import errno
import json
import os
import signal
import subprocess
import sys
import time
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from drafting.__main__ import MOST_PROBLEMS, main
from drafting.order import Order, Result, make
from drafting.record import out_folder
from drafting.record.documents import Paper, documents
from drafting.record.order_text import DEEPEST, MOST_DIGITS, read_text
from tests.drafting.bodies import BODIES, Data, order

ROOT = Path(__file__).resolve().parents[2]
DEMO = ROOT / "assets" / "demo" / "order.json"
ALL = {"draft.json", "chalk-sheet.pdf", "pattern.pdf", "pattern.svg", "cloth.svg"}
TEXT = DEMO.read_text(encoding="utf-8")
STOPS: Data = order(BODIES["median woman"], {"neck_half_width": "70 mm"}, {"stretch_across": 10})
_MADE: dict[str, Result] = {}
_PRINTED: dict[str, dict[str, bytes]] = {}
BAD = '{"person": 3}'


@pytest.fixture(autouse=True)
def quick(monkeypatch: pytest.MonkeyPatch) -> None:
    """One and the same order is drafted and printed once for all tests; what it costs by width is not looked for."""
    monkeypatch.setattr("drafting.__main__._made", made_once)
    monkeypatch.setattr("drafting.__main__.documents", printed_once)
    monkeypatch.setattr("drafting.__main__.ways_to_save", lambda _: ())
    monkeypatch.setattr("drafting.__main__.widths_side_by_side", lambda *_: ())


def made_once(typed: Order) -> Result:
    key = typed.model_dump_json()
    if key not in _MADE:
        _MADE[key] = make(typed)
    return _MADE[key]


def printed_once(result: Result, paper: Paper | None) -> dict[str, bytes]:
    with TemporaryDirectory():  # as the real one, it needs a folder for a moment
        pass
    key = result.order.model_dump_json()
    if key not in _PRINTED:
        _PRINTED[key] = documents(result, paper)
    return _PRINTED[key]


def draft(folder: Path, content: str | bytes, out: Path | None = None) -> int:
    source = folder / "order.json"
    source.write_bytes(content.encode() if isinstance(content, str) else content)
    return main([str(source), "--out", str(out or folder / "out")])


def held(folder: Path) -> dict[str, bytes]:
    """Every file below a folder with its bytes, hidden ones too."""
    return {str(path.relative_to(folder)): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def one_line(capsys: pytest.CaptureFixture[str], field: str) -> str:
    lines = capsys.readouterr().err.splitlines()
    assert len(lines) == 1, lines
    assert lines[0].startswith(f"{field}: ")
    assert lines[0].count("; ") >= 1
    assert "Traceback" not in lines[0]
    return lines[0]


@pytest.mark.parametrize(
    ("content", "field", "said"),
    [
        ('{"person": {}, "title": "a", "person": {}}', "person", "twice"),
        (TEXT.replace('"width":', '"width": 90, "width":'), "cloth.width", "twice"),
        (TEXT.replace('"width":', '"width": NaN, "x":'), "cloth.width", "NaN"),
        (TEXT.replace('"width":', '"width": -Infinity, "x":'), "cloth.width", "-Infinity"),
        (TEXT.replace('"width":', '"width": 1e999, "x":'), "cloth.width", "out of reach"),
        (TEXT.replace('"width":', f'"width": {"7" * 5000}, "x":'), "cloth.width", "5,000 digits"),
        (TEXT.replace('"width":', f'"width": -{"7" * 400}, "x":'), "cloth.width", "400 digits"),
        ("[" * 100_000, "order", "deeply"),
        ("[" * 900 + "]" * 900, "order", "deeply"),
        ('{"person": ' * 300 + "1" + "}" * 300, "order", "deeply"),
        ('{"title": "\\ud800"}', "title", "half of a character"),
        ('{"person": {"\\udfff": 3}}', "person", "half of a character"),
        (TEXT.encode("utf-16"), "order", "UTF-16"),
        (TEXT.encode("utf-16-le"), "order", "UTF-16"),
        (TEXT.encode("utf-16-be"), "order", "UTF-16"),
        (TEXT.encode("utf-32"), "order", "UTF-32"),
        (
            TEXT.replace("Ilse", "Zoë").replace('"title": "', '"title": "é').encode("latin-1", "replace"),
            "order",
            "Latin-1",
        ),
        (b"\x00", "order", "not JSON"),
        (b"{\n\n,}", "order", "line 3"),
        (b" " * 20_000_001, "order", "larger"),
    ],
)
def test_what_no_order_can_hold_is_one_sentence(
    content: str | bytes, field: str, said: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert draft(tmp_path, content) == 2
    assert said in one_line(capsys, field)
    assert not (tmp_path / "out").exists()


def test_a_byte_order_mark_is_read_over(tmp_path: Path) -> None:
    assert draft(tmp_path, b"\xef\xbb\xbf" + TEXT.encode()) == 0
    assert read_text(b"\xef\xbb\xbf" + TEXT.encode()) == (json.loads(TEXT), ())


def test_the_line_of_a_strange_letter_is_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert draft(tmp_path, b'{\n"title":\n"Zo\xeb"}') == 2
    assert "line 3" in one_line(capsys, "order")


def test_numbers_and_depth_up_to_the_limit_are_read() -> None:
    digits, deep = "9" * MOST_DIGITS, DEEPEST
    assert read_text(digits.encode()) == (int(digits), ())
    assert read_text(f"-{digits}".encode()) == (-int(digits), ())
    assert read_text(f"{digits}9".encode())[0] is None
    assert read_text(b"[" * deep + b"]" * deep)[1] == ()
    assert read_text(b"[" * (deep + 1) + b"]" * (deep + 1))[0] is None


def test_a_nul_in_a_name_harms_nothing(tmp_path: Path) -> None:
    typed = json.loads(TEXT)
    typed["title"] = typed["person"]["name"] = "a\x00b"
    assert draft(tmp_path, json.dumps(typed)) == 0
    assert set(held(tmp_path / "out")) == ALL


def test_a_nul_in_a_path_is_one_sentence(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["a\x00b", "--out", str(tmp_path)]) == 2
    one_line(capsys, "order")
    assert main([str(DEMO), "--out", str(tmp_path / "a\x00b")]) == 2
    assert any(line.startswith("out: ") and "; " in line for line in capsys.readouterr().err.splitlines())


@pytest.mark.parametrize("length", [10**400, -(10**400), "9" * 5000, "9" * 5000 + " cm", "1e999 cm", 1e308])
@pytest.mark.parametrize("key", ["cloth", "measure", "tape"])
def test_numbers_past_all_reach_are_refused_from_python_too(length: object, key: str) -> None:
    from drafting.order import read_order

    typed = json.loads(TEXT)
    place = {"cloth": typed["cloth"], "measure": typed["person"]["measures"], "tape": typed["tape"]}[key]
    place[{"cloth": "width", "measure": "bust_girth", "tape": "length"}[key]] = length
    made, problems = read_order(typed)
    assert made is None
    assert problems


@pytest.mark.parametrize("kind", ["unknown keys", "keys given twice"])
def test_of_very_many_problems_twenty_are_said_and_the_rest_counted(
    kind: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    names = [
        f'"k{n if kind == "unknown keys" else n // 2}": 1'
        for n in range(200_000 if kind == "unknown keys" else 400_000)
    ]
    begun = time.perf_counter()
    assert draft(tmp_path, "{" + ",".join([*names, '"person": {}']) + "}") == 2
    assert time.perf_counter() - begun < 60
    lines = capsys.readouterr().err.splitlines()
    assert len(lines) == MOST_PROBLEMS + 1 == 21
    counted = int(lines[-1].split("there are ")[1].split(" more")[0].replace(",", ""))
    assert counted in ({200_000 - 20} if kind == "keys given twice" else range(199_980, 200_000))


def test_twenty_problems_need_no_count(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    for many, lines in ((20, 20), (21, 21)):
        draft(tmp_path, "{" + ",".join(f'"k{n}": 1, "k{n}": 2' for n in range(many)) + "}")
        told = capsys.readouterr().err.splitlines()
        assert len(told) == lines
        assert ("more problem" in told[-1]) == (many > 20)


def test_a_key_cannot_break_the_line_it_is_named_in(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert draft(tmp_path, TEXT.replace('"width":', '"a\\nb\\u001b[31m": 1, "width":')) == 2
    lines = capsys.readouterr().err.splitlines()
    assert len(lines) == 1
    assert lines[0].isprintable()


@pytest.mark.parametrize(("content", "code"), [(json.dumps(STOPS), 3), (BAD, 2), ("{", 2), (b"\xff\xfe{\x00", 2)])
def test_no_sheet_of_an_earlier_draft_stays_beside_a_new_outcome(
    content: str | bytes, code: int, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert draft(tmp_path, TEXT) == 0
    before = held(tmp_path / "out")
    (tmp_path / "out" / "notes.txt").write_text("mine")
    assert draft(tmp_path, content) == code
    after = held(tmp_path / "out")
    assert {name: after[f"earlier/{name}"] for name in before} == before
    assert after.pop("notes.txt") == b"mine"
    assert {name for name in after if "/" not in name} == ({"draft.json"} if code == 3 else set())
    assert "earlier" in capsys.readouterr().err


def test_a_new_set_puts_the_earlier_one_away_and_nothing_is_ever_lost(tmp_path: Path) -> None:
    sets = []
    for title in ("one", "two", "three"):
        assert draft(tmp_path, TEXT.replace('"title": "', f'"title": "{title} ')) == 0
        found = held(tmp_path / "out")
        sets.append({name: found[name] for name in ALL})
    found = held(tmp_path / "out")
    assert set(found) == {f"{place}{name}" for place in ("", "earlier/", "earlier/2/") for name in ALL}
    for place, which in (("", 2), ("earlier/", 1), ("earlier/2/", 0)):
        assert {name: found[place + name] for name in ALL} == sets[which]


def test_the_same_set_again_changes_nothing(tmp_path: Path) -> None:
    assert draft(tmp_path, TEXT) == draft(tmp_path, TEXT) == 0
    assert set(held(tmp_path / "out")) == ALL


def test_a_cloth_drawing_goes_when_the_new_set_has_none(tmp_path: Path) -> None:
    assert draft(tmp_path, TEXT) == 0
    typed = json.loads(TEXT)
    typed["cloth"]["width"] = 140
    assert draft(tmp_path, json.dumps(typed)) == 0
    assert {name for name in held(tmp_path / "out") if "/" not in name} == ALL - {"cloth.svg"}
    assert (tmp_path / "out" / "earlier" / "cloth.svg").exists()


@pytest.mark.parametrize("name", sorted(ALL))
def test_a_file_of_our_name_that_is_not_ours_is_left_alone(
    name: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = tmp_path / "out"
    out.mkdir()
    (out / name).write_bytes(b'%PDF- <?xml "format"')
    assert draft(tmp_path, BAD) == 2
    capsys.readouterr()
    assert draft(tmp_path, TEXT) == 2
    assert name in capsys.readouterr().err.splitlines()[-1]
    assert held(out) == {name: b'%PDF- <?xml "format"'}


def test_out_may_be_no_file_and_no_link_that_leads_nowhere(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "file").write_text("mine")
    (tmp_path / "link").symlink_to(tmp_path / "nowhere")
    for name in ("file", "link", "file/below", "link/below"):
        assert draft(tmp_path, TEXT, tmp_path / name) == 2
        assert [line for line in capsys.readouterr().err.splitlines() if line.startswith("out: ")]
    assert set(held(tmp_path)) == {"file", "order.json"}
    assert not (tmp_path / "nowhere").exists()


@pytest.mark.parametrize("call", ["mkdtemp", "mkdir", "write_bytes", "rename"])
@pytest.mark.parametrize("number", [errno.ENOSPC, errno.EACCES, errno.EROFS, errno.EIO])
def test_a_set_that_cannot_be_written_leaves_nothing_half_written(
    call: str, number: int, tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(*_: object, **__: object) -> None:
        raise OSError(number, os.strerror(number))

    source = tmp_path / "order.json"
    source.write_text(TEXT, encoding="utf-8")
    monkeypatch.setattr(out_folder.tempfile if call == "mkdtemp" else Path, call, fail)
    assert main([str(source), "--out", str(tmp_path / "out" / "below")]) == 2
    lines = [line for line in capsys.readouterr().err.splitlines() if line.startswith("out: ")]
    assert len(lines) == 1
    assert os.strerror(number).lower() in lines[0].lower()
    assert set(held(tmp_path)) == {"order.json"}
    assert not (tmp_path / "out").exists()


@pytest.mark.parametrize("at", range(1, 11))
@pytest.mark.parametrize("failure", [OSError(errno.EIO, "Input/output error"), KeyboardInterrupt()])
def test_an_exchange_that_fails_half_way_is_taken_back(
    at: int, failure: BaseException, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The tenth rename is the last: five files go to `earlier`, five come in."""
    assert draft(tmp_path, TEXT) == 0
    before = held(tmp_path / "out")
    rename, count = Path.rename, 0

    def now_and_then(self: Path, target: Path) -> Path:
        nonlocal count
        count += 1
        if count == at:
            raise failure
        return rename(self, target)

    with monkeypatch.context() as patched:
        patched.setattr(Path, "rename", now_and_then)
        patched.setattr(out_folder.OutFolder, "put_away", lambda _: False)
        code = draft(tmp_path, TEXT.replace('"title": "', '"title": "another '))
    assert code == (2 if isinstance(failure, OSError) else 130)
    assert held(tmp_path / "out") == before
    assert not (tmp_path / "out" / "earlier").exists()


def test_an_interruption_writes_nothing(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    def interrupted(*_: object) -> None:
        raise KeyboardInterrupt

    for name in ("_made", "documents", "read_order", "_tell"):
        with monkeypatch.context() as patched:
            patched.setattr(f"drafting.__main__.{name}", interrupted)
            assert draft(tmp_path, TEXT) == 130
        one_line(capsys, "interrupted")
        assert set(held(tmp_path)) == {"order.json"}
        assert not (tmp_path / "out").exists()


def start(source: Path, out: Path, stdout: int) -> "subprocess.Popen[bytes]":
    """The command line as a process of its own that can be interrupted.

    A shell that runs the tests in the background makes all they start ignore an interruption, so it is heeded again.
    """
    heeded = "import runpy, signal; signal.signal(signal.SIGINT, signal.default_int_handler)"
    run = f"{heeded}; runpy.run_module('drafting', run_name='__main__', alter_sys=True)"
    command = [sys.executable, "-c", run, str(source), "--out", str(out)]
    return subprocess.Popen(command, cwd=ROOT, stdout=stdout, stderr=subprocess.PIPE)


def test_a_closed_pipe_is_one_sentence_and_writes_nothing(tmp_path: Path) -> None:
    reading, writing = os.pipe()
    os.close(reading)
    process = start(DEMO, tmp_path / "out", writing)
    os.close(writing)
    told = process.communicate(timeout=120)[1].decode().splitlines()
    assert process.returncode == 2
    assert len(told) == 1
    assert told[0].startswith("standard output: ")
    assert not (tmp_path / "out").exists()


def interrupted(process: "subprocess.Popen[bytes]") -> list[str]:
    """What a process tells that waits for its order and is interrupted.

    A signal between two steps of Python and the system's own read wakes nobody, so it is sent again where nothing ends.
    """
    for _ in range(6):
        time.sleep(0.3)
        process.send_signal(signal.SIGINT)
        try:
            return process.communicate(timeout=20)[1].decode().splitlines()
        except subprocess.TimeoutExpired:
            continue
    process.kill()
    process.communicate()
    raise AssertionError("the command line goes on after it was interrupted")


@pytest.mark.skipif(os.name == "nt", reason="there is no such signal")
def test_control_c_ends_with_130(tmp_path: Path) -> None:
    source = tmp_path / "order.json"
    os.mkfifo(source)
    process = start(source, tmp_path / "out", subprocess.PIPE)
    with source.open("wb"):  # opens as soon as the command line reads
        told = interrupted(process)
    assert process.returncode == 130
    assert len(told) == 1
    assert told[0].startswith("interrupted: ")
    assert not (tmp_path / "out").exists()


def test_control_c_while_it_loads_ends_with_130(tmp_path: Path) -> None:
    stopped = """
import runpy, sys
class Finder:
    def find_spec(self, name, *_):
        if name == "drafting.layout":
            raise KeyboardInterrupt
sys.meta_path.insert(0, Finder())
sys.argv = ["drafting", "order.json", "--out", "out"]
runpy.run_module("drafting", run_name="__main__")
"""
    found = subprocess.run([sys.executable, "-c", stopped], cwd=ROOT, capture_output=True, check=False)
    assert found.returncode == 130
    assert found.stderr.decode().splitlines() == ["interrupted: nothing was written; start it again"]


def test_letters_that_a_terminal_lacks_are_no_failure(tmp_path: Path) -> None:
    source = tmp_path / "order.json"
    source.write_text(TEXT.replace('"width":', '"ж…": 1, "width":'), encoding="utf-8")
    command = [sys.executable, "-m", "drafting", str(source), "--out", str(tmp_path / "out")]
    found = subprocess.run(
        command,
        cwd=ROOT,
        capture_output=True,
        check=False,
        env={**os.environ, "PYTHONUTF8": "0", "PYTHONIOENCODING": "ascii"},
    )
    assert found.returncode == 2
    assert found.stderr.startswith(b"cloth.\\u0436")
