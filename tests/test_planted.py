"""Faults planted by `build/test --planted`: which there are, that they are tried in a copy, and that a few are noticed.

The share that is wanted of all faults takes hours to measure; here a few are tried with the quickest tests.
"""

import json
import subprocess
import sys
from pathlib import Path

import pytest

import planted
from planted import Copy, Fault, faults_of, runs_for, sample, summary

ROOT = Path(__file__).resolve().parents[1]

SOURCE = '''"""A docstring that says left and right."""

from typing import Literal

Side = Literal["left", "right"]
LIMIT: float = 12.5
HAIR = 1e-6
ORDER = 7


def judged(value: float, limit: float, marks: list[int]) -> bool:
    """Whether the value lies above the limit."""
    if not marks or len(marks) < 3:
        return value - 2.0 > max(limit, -value)
    where = "start" if value.real == 0 else "of the seam above the waist, and so on"
    return where == "start" and value * limit >= LIMIT
'''


def found(kind: str) -> set[tuple[str, str]]:
    return {(one.before, one.after) for one in faults_of("drafting/x.py", SOURCE) if one.kind == kind}


def test_every_kind_of_fault_is_found_where_it_can_be() -> None:
    assert found("sign") == {("value - 2.0", "(value) + (2.0)"), ("-value", "value")}
    assert {("len(marks) < 3", "(len(marks)) <= (3)"), ("len(marks) < 3", "(len(marks)) > (3)")} <= found("comparison")
    assert ("value - 2.0 > max(limit, -value)", "(value - 2.0) < (max(limit, -value))") in found("comparison")
    assert ("value - 2.0 > max(limit, -value)", "(value - 2.0) > (max(limit, -value)) * 1.1") in found("limit")
    assert found("min and max") == {("max", "min")}
    assert found("direction") == {('"start"', '"end"')}
    assert found("constant") == {("12.5", "14.374999999999998"), ("3", "4"), ("2.0", "2.3"), ("0", "1")}
    assert {("not marks", "marks"), ("value * limit", "(value)"), ("value - 2.0", "(value)")} <= found("dropped term")
    assert ("not marks or len(marks) < 3", "((len(marks) < 3))") in found("dropped term")
    assert found("word") == {("above", "below")}


def test_every_fault_is_code_and_changes_one_place() -> None:
    for fault in faults_of("drafting/x.py", SOURCE):
        after = fault.planted(SOURCE)
        assert after != SOURCE
        compile(after, "x.py", "exec")
        same = len(SOURCE) - len(fault.before)
        assert len(after) - len(fault.after) == same
        assert SOURCE.splitlines()[fault.line - 1].strip() == fault.code


def test_types_docstrings_hairs_and_the_order_of_checks_are_left_alone() -> None:
    lines = {fault.line for fault in faults_of("drafting/x.py", SOURCE)}
    assert lines.isdisjoint({1, 3, 5, 7, 8, 11, 12})


def test_faults_are_found_in_every_part_and_a_sample_is_the_same_for_the_same_seed() -> None:
    every = planted.all_faults(ROOT)
    assert len(every) > 3000
    for field in planted.FIELDS:
        assert any(fault.path.startswith(field) for fault in every), field
    assert sample(every, 20, 1) == sample(every, 20, 1) != sample(every, 20, 2)
    assert sample(every, None, 1) == every


def test_what_nobody_could_notice_is_kept_with_its_reason_and_still_there() -> None:
    kept = json.loads(planted.EQUIVALENT.read_text(encoding="utf-8"))
    for one in kept:
        assert len(one["why"]) > 20, one
        source = (ROOT / one["path"]).read_text(encoding="utf-8")
        known = {fault.known for fault in faults_of(one["path"], source)}
        assert (one["path"], one["code"], one["before"], one["after"]) in known, f"no such fault any more: {one}"
    assert len(planted.equivalent()) == len(kept), "one is kept twice"


def test_a_hair_beside_a_limit_is_no_fault() -> None:
    assert not faults_of("drafting/x.py", "enough = width + 1e-6\n")
    assert faults_of("drafting/x.py", "enough = width + 1e-2\n")


def test_the_tests_of_a_module_are_those_that_touch_it() -> None:
    runs = runs_for("drafting/chalk/curve_points.py", ROOT)
    assert runs[0] == [*planted.KEPT, "-k", "cut_in_one"]
    assert "tests/drafting/test_chalk.py" in runs[1]
    assert runs[2] == [*planted.KEPT, "-k", "not cut_in_one"]
    assert runs[-4:-2] == [[name, "-k", "cut_in_one"] for name in planted.EVERY_GARMENT]
    assert runs[-2:] == [[name, "-k", "not cut_in_one"] for name in planted.EVERY_GARMENT]
    deciding = runs_for("drafting/chalk/deciding.py", ROOT)
    assert "tests/drafting/test_chalk.py" in deciding[1], "it is called after the package"
    assert not any("test_pdf" in name for name in deciding[1])
    neck = runs_for("drafting/garments/cut_in_one/neck.py", ROOT)
    assert [planted.EVERY_GARMENT[0], "-k", "cut_in_one"] == neck[2]
    assert {"tests/drafting/test_necks.py", "tests/drafting/test_cut_in_one.py"} <= set(neck[1])
    assert not any("cut_in_one" in name for name in neck[3])
    named = runs_for("drafting/checks/fits_cloth.py", ROOT)
    assert "tests/drafting/test_checks.py" in named[1], "it is called after the package"
    assert "tests/drafting/test_layout_choice.py" in named[3], "it only names the check"
    for run in (*runs, *neck, *named):
        assert all((ROOT / name).exists() for name in run if name.endswith(".py"))


def changed_files() -> str:
    return subprocess.run(["git", "status", "--porcelain"], cwd=ROOT, capture_output=True, check=True, text=True).stdout


#: A few faults, each by its module, its kind and what it changes, with the quickest test that must notice it.
FEW = (
    ("drafting/contract/chalked_line.py", "min and max", "max", "tests/drafting/test_chalked_line.py"),
    ("drafting/checks/seams_equal.py", "comparison", "worst > sources.EQUAL_WITHIN", "tests/drafting/test_joint.py"),
    ("drafting/parts/walking.py", "dropped term", "", "tests/drafting/test_finishing.py"),
    ("drafting/chalk/curve_points.py", "comparison", "away > worst", "tests/drafting/test_chalk.py"),
)


def one_of(path: str, kind: str, before: str) -> Fault:
    every = faults_of(path, (ROOT / path).read_text(encoding="utf-8"))
    return next(fault for fault in every if fault.kind == kind and before in fault.before)


@pytest.mark.outside
def test_a_few_faults_are_noticed_in_a_copy_and_the_checkout_is_left_as_it_was(tmp_path: Path) -> None:
    before = changed_files()
    copy = Copy(ROOT, tmp_path)
    assert not (tmp_path / ".venv").exists()
    for path, kind, changes, test in FEW:
        fault, source = one_of(path, kind, changes), (ROOT / path).read_text(encoding="utf-8")
        outcome = copy.judge(fault, sys.executable, [[test]], 240)
        assert outcome == "noticed", f"{test} {outcome}: {fault}"
        assert (tmp_path / path).read_text(encoding="utf-8") == source, "the copy is mended again"
        assert (ROOT / path).read_text(encoding="utf-8") == source
    assert changed_files() == before


@pytest.mark.outside
def test_a_fault_that_no_test_notices_survives_and_one_that_hangs_ends_with_the_time(tmp_path: Path) -> None:
    (tmp_path / "sound").mkdir()
    for name, text in {
        "drafting/x.py": SOURCE,
        "tests/test_x.py": "from drafting.x import LIMIT\n\ndef test_limit():\n    assert LIMIT == 12.5\n",
        "tests/test_slow.py": "import time\n\ndef test_slow():\n    time.sleep(60)\n",
    }.items():
        place = tmp_path / "sound" / name
        place.parent.mkdir(parents=True, exist_ok=True)
        place.write_text(text, encoding="utf-8")
    subprocess.run(["git", "init", "-q"], cwd=tmp_path / "sound", check=True)
    faults = faults_of("drafting/x.py", SOURCE)
    seen = next(fault for fault in faults if fault.before == "12.5")
    unseen = next(fault for fault in faults if fault.kind == "min and max")

    def chosen(path: str, root: Path) -> list[list[str]]:
        assert path == "drafting/x.py"
        assert root != tmp_path / "sound", "the tests are those of the copy"
        assert (root / path).exists()
        return [["tests/test_x.py"]]

    told: list[str] = []
    results = planted.plant([seen, unseen], sys.executable, root=tmp_path / "sound", tests=chosen, say=told.append)
    assert results == {seen: "noticed", unseen: "survived"}
    assert [line.split()[0] for line in told] == ["noticed", "survived"]
    said, enough = summary(results)
    assert not enough
    assert "1 of 2 planted faults were noticed: 50%" in said
    assert f"survived: {unseen}" in said
    slow = planted.plant(
        [unseen], sys.executable, root=tmp_path / "sound", tests=lambda path, root: [["tests/test_slow.py"]],
        patience=3, say=told.append,
    )  # fmt: skip
    assert slow == {unseen: "time is up"}
    assert summary(slow)[1] is False, "what was not tried to its end is not noticed"
