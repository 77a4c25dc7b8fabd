"""`build/compare` notices what differs between two drafts, and nothing else."""

from __future__ import annotations

import io
import subprocess
import sys
import tarfile
from itertools import islice
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "build"))

import compare

DRAFT = {"width": 12.5, "says": ["The neck opens."], "places": [[1.0, 2.0], [3.0, 4.0]], "good": True, "none": None}


def kinds(other: object) -> list[str]:
    return [place for place, _ in compare.differences(DRAFT, other, "")]


@pytest.mark.parametrize("moved", [0.0, 0.9e-9, -0.9e-9])
def test_the_same_numbers_and_words_differ_nowhere(moved: float) -> None:
    assert kinds({**DRAFT, "width": 12.5 + moved}) == []


@pytest.mark.parametrize(
    ("key", "value"),
    [
        ("width", 12.5 + 1.1e-9),
        ("width", 12.5 - 1.1e-9),
        ("width", "12.5"),
        ("says", ["The neck opens"]),
        ("says", []),
        ("places", [[1.0, 2.0], [3.0, 4.00001]]),
        ("good", 1),
        ("none", 0),
        ("more", "a word"),
    ],
)
def test_every_difference_is_told_with_its_place(key: str, value: object) -> None:
    assert kinds({**DRAFT, key: value}) == [f"/{key}"]


def test_what_is_left_out_is_told() -> None:
    assert kinds({key: value for key, value in DRAFT.items() if key != "good"}) == ["/good"]


def test_drafts_are_paired_by_person_and_style() -> None:
    before = [["Ilse", "plain", 1], ["Ilse", "wide", 2], ["Otto", "plain", 3], ["Otto", "wide", 4]]
    after = [["Ilse", "plain", 1], ["Ilse", "new", 9], ["Ilse", "wide", 2], ["Otto", "plain", 3], ["Otto", "new", 9]]
    found = list(compare.paired(iter(before), iter(after)))
    assert found == [
        (["Ilse", "plain", 1], ["Ilse", "plain", 1]),
        (["Ilse", "wide", 2], ["Ilse", "wide", 2]),
        (None, ["Ilse", "new", 9]),
        (["Otto", "plain", 3], ["Otto", "plain", 3]),
        (["Otto", "wide", 4], None),
        (None, ["Otto", "new", 9]),
    ]


@pytest.mark.parametrize("wrap", [lambda name, *rest: {"id": name, "says": list(rest)}, lambda *record: list(record)])
def test_one_record_more_leaves_the_others_comparable(wrap) -> None:
    before = [wrap("head", 1.0), wrap("waist", 2.0)]
    after = [wrap("head", 1.0), wrap("new", 9.0), wrap("waist", 2.5)]
    found = dict(compare.differences(before, after, "/checks"))
    assert len(found) == 2
    assert all(place.startswith("/checks/") for place in found)
    assert any(place.startswith("/checks/waist") for place in found)
    assert "/checks/new" in found


def test_records_of_one_name_are_not_paired() -> None:
    before, after = [["a", 1.0], ["a", 2.0]], [["a", 1.0], ["a", 2.0], ["b", 3.0]]
    assert [place for place, _ in compare.differences(before, after, "/steps")] == ["/steps"]


def checkout(place: Path, drafts: str) -> Path:
    """A checkout whose only body is drafted by some lines of Python."""
    (place / "tests" / "drafting").mkdir(parents=True)
    (place / "tests" / "drafting" / "bodies.py").write_text(drafts)
    return place


#: Writes a draft and half of the next one, and then ends as it is told to.
HALF_A_DRAFT = """
import os, sys
sys.stdout.write('["Ilse", "plain", 1]\\n["Ilse", "wi')
sys.stdout.flush()
{end}
"""


@pytest.mark.parametrize(
    ("end", "code"), [("os.kill(os.getpid(), 9)", "-9"), ("sys.exit(3)", "3"), ("raise ValueError", "1")]
)
def test_a_process_that_dies_is_told_in_one_sentence(end: str, code: str, tmp_path: Path) -> None:
    place = checkout(tmp_path, HALF_A_DRAFT.format(end=end))
    drafts = compare.drafts_of(sys.executable, place, 1, 0, "abc")
    assert next(drafts) == ["Ilse", "plain", 1]
    with pytest.raises(SystemExit) as stopped:
        next(drafts)
    assert stopped.value.code == f"The drafts of abc ended after 1: their process ended with {code}."


def test_a_comparison_with_a_checkout_that_cannot_draft_ends_with_its_sentence(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(compare.environment, "ROOT", checkout(tmp_path, "raise SystemExit(3)"))
    monkeypatch.setattr(subprocess, "run", lambda *_, **__: packed(tmp_path))
    with pytest.raises(SystemExit) as stopped:
        compare.compare(sys.executable, "abc", 1, 0)
    assert stopped.value.code == "The drafts of this checkout ended after 0: their process ended with 3."


def packed(place: Path) -> subprocess.CompletedProcess[bytes]:
    """What git would give of a checkout."""
    whole = io.BytesIO()
    with tarfile.open(fileobj=whole, mode="w") as archive:
        archive.add(place / "tests", "tests")
    return subprocess.CompletedProcess([], 0, whole.getvalue())


def test_closing_the_drafts_ends_the_process_that_makes_them(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    begun: list[subprocess.Popen[str]] = []

    def popen(*args: Any, **options: Any) -> subprocess.Popen[str]:
        begun.append(real(*args, **options))
        return begun[-1]

    real = subprocess.Popen
    monkeypatch.setattr(subprocess, "Popen", popen)
    line = '["Ilse", "plain", 1]\\n'
    place = checkout(tmp_path, f"import sys, time\nsys.stdout.write('{line}')\nsys.stdout.flush()\ntime.sleep(600)\n")
    drafts = compare.drafts_of(sys.executable, place, 1, 0, "abc")
    assert list(islice(drafts, 1)) == [["Ilse", "plain", 1]]
    assert begun[0].poll() is None
    drafts.close()
    assert begun[0].poll() == -9


def test_those_that_an_ended_run_has_met_are_left_out(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    known = SimpleNamespace(BODIES={"Ilse": 1, "Odo": 2}, STYLES={"plain": {}}, bdims=lambda: [3, 4, 5],
                            draft=lambda person, chosen: person)  # fmt: skip
    monkeypatch.setitem(sys.modules, "bodies", known)
    monkeypatch.setattr(sys, "path", [*sys.path])
    monkeypatch.setattr(compare, "CUT_APART", {})
    monkeypatch.setattr(compare, "shown", lambda person: person)
    compare.draft_all(tmp_path, 2, 3)
    assert capsys.readouterr().out == '["bdims 2", "plain", 5]\n'
