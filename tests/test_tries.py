"""build/test tries a browser test again and says so: shown on a small test that fails as often as it is told to."""

import subprocess
import sys
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path
from types import ModuleType

import pytest

ROOT = Path(__file__).resolve().parent.parent
FLAKY = """
from pathlib import Path

def test_it() -> None:
    count = Path(__file__).with_name("count")
    before = int(count.read_text()) if count.exists() else 0
    count.write_text(str(before + 1))
    assert before >= {fails}, "not yet"

def test_that_passes() -> None:
    passed = Path(__file__).with_name("passed")
    assert not passed.exists(), "what passed is not run again"
    passed.touch()
"""


@pytest.fixture(scope="module")
def command() -> ModuleType:
    """build/test.py; its own folder is where it finds the environment."""
    spec = spec_from_file_location("build_test", ROOT / "build" / "test.py")
    assert spec is not None
    assert spec.loader is not None
    module = module_from_spec(spec)
    sys.path.insert(0, str(ROOT / "build"))
    try:
        spec.loader.exec_module(module)
    finally:
        sys.path.remove(str(ROOT / "build"))
    return module


@pytest.mark.parametrize(("fails", "code", "tries"), [(1, 0, 2), (3, 1, 3)])
def test_what_failed_is_tried_again_and_named(
    command: ModuleType, monkeypatch: pytest.MonkeyPatch, tmp_path: Path, fails: int, code: int, tries: int
) -> None:
    monkeypatch.setenv("PYTEST_DISABLE_PLUGIN_AUTOLOAD", "1")
    (tmp_path / "test_flaky.py").write_text(FLAKY.format(fails=fails))
    (tmp_path / "pytest.ini").write_text("[pytest]\n")
    pytest_there = [sys.executable, "-m", "pytest", "-q", str(tmp_path), "--rootdir", str(tmp_path)]
    ended, missed = command.tried([*pytest_there, "-c", str(tmp_path / "pytest.ini")], command.TRIES)
    assert ended == code
    assert len(missed) == tries
    assert [dict.fromkeys(each, "AssertionError: not yet") == each and bool(each) for each in missed] == [
        count < fails for count in range(tries)
    ]
    assert all(name.endswith("test_flaky::test_it") for each in missed for name in each)


def test_a_sample_of_tests_is_the_same_ones_every_time(tmp_path: Path) -> None:
    (tmp_path / "conftest.py").write_text((ROOT / "tests" / "conftest.py").read_text("utf-8"), "utf-8")
    many = "import pytest\n\n@pytest.mark.parametrize('n', range(90))\ndef test_it(n):\n    pass\n"
    (tmp_path / "test_many.py").write_text(many, "utf-8")

    def passed(*options: str) -> set[str]:
        told = subprocess.run(
            [sys.executable, "-m", "pytest", "-rA", "-q", "-p", "no:cacheprovider", *options],
            cwd=tmp_path, check=True, capture_output=True, text=True,
        ).stdout  # fmt: skip
        return {line for line in told.splitlines() if line.startswith("PASSED")}

    every, some = passed(), passed("--one-of=3")
    assert len(every) == 90
    assert 20 <= len(some) <= 40
    assert passed("--one-of=3") == some < every


def test_the_long_form_runs_all_of_the_core_inside_pyodide(
    command: ModuleType, monkeypatch: pytest.MonkeyPatch
) -> None:
    ran: list[list[str]] = []

    class Begun:
        since = 0.0

        def __init__(self, begun: list[str]) -> None:
            ran.append(begun)

        def ended(self) -> int:
            return 0

    def tried(begun: list[str], tries: int) -> tuple[int, list[dict[str, str]]]:
        ran.append(begun)
        return 0, []

    monkeypatch.setattr(command.environment, "ensure", lambda part: "python")
    monkeypatch.setattr(command, "tried", tried)
    monkeypatch.setattr(command, "Begun", Begun)
    assert command.main(["--long"]) == 0
    assert sorted(ran) == [
        ["python", "-m", "pytest", "-m", "long or left_out"],
        ["python", "build/pyodide_check.py", "--whole"],
    ]


def test_whatever_drives_a_browser_runs_with_the_browsers(command: ModuleType) -> None:
    """Beside other tests, its running loop of events would let no test after it run one of its own."""
    files = sorted((ROOT / "tests" / "app").glob("test_*.py"))
    driving = [f"tests/app/{each.name}" for each in files if "playwright.sync_api" in each.read_text("utf-8")]
    assert len(driving) > 10
    assert [each for each in driving if each not in command.BROWSER] == []
