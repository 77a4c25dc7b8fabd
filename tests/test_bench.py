"""`build/bench` starts what it names."""

import sys
from pathlib import Path

import pytest

import bench
import environment


@pytest.mark.parametrize(
    ("option", "scripts"),
    [
        ("--layout", ["measure_layout.py", "pyodide"]),
        ("--book", ["measure_book.py", "pyodide"]),
        ("--steps", ["measure_steps.py"]),
        ("--site", ["measure_site.py"]),
        ("--app", ["measure_app.py"]),
    ],
)
def test_each_option_runs_its_own_measuring_script(
    option: str, scripts: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    started: list[list[str]] = []

    class Ended:
        returncode = 0

    def run(command: list[str], **_: object) -> Ended:
        started.append(command)
        return Ended()

    monkeypatch.setattr(environment, "ensure", lambda _: Path("python"))
    monkeypatch.setattr(environment, "need_browsers", lambda _: None)
    monkeypatch.setattr(bench.subprocess, "run", run)
    monkeypatch.setattr(sys, "argv", ["bench", option])
    assert bench.main() == 0
    assert [Path(command[1]).name if command[1] != "-c" else "pyodide" for command in started] == scripts
    for command in started:
        if command[1] == "-c":
            name = scripts[0].removesuffix(".py")
            assert f"from chores import {name}; {name}.main()" in command[2]
        else:
            assert Path(command[1]).is_file()
