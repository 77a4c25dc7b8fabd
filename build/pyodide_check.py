"""Proves that the drafting core gives the same drafts in the browser's Python as here, and passes its tests there.

Pyodide comes with flet-web, Node with Playwright, the wheels by hash into .cache/wheels; no browser is needed.
First every order (the demo order and tests/orders/*.json) is drafted in both Pythons: every word must be the same
and every number within TOLERANCE. Then pytest runs tests/drafting inside Pyodide, without the test files that
import a library or a process which Pyodide has not (tests/conftest.py says which): one test of SAMPLE, the same ones
every time, or with --whole all of them.
"""

import json
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import flet_web
from playwright._impl._driver import compute_driver_executable

import environment
import wheels

ROOT = Path(__file__).resolve().parent.parent
BUILD = ROOT / "build"
TOLERANCE = 1e-6  # mm, as the design asks
CACHE, HERE, THERE = ".cache/drafts", "here.json", "there.json"
PACKAGES = "/packages"  # inside Pyodide
FOR_THE_SCREEN = {"flet", "msgpack", "repath", "six"}  # locked for the site; the core does without
NOT_DRAFTED, TESTS_FAILED = 1, 2
SAMPLE = 48
"""All of them take many minutes of one core, and a difference between the Pythons shows in many tests at once."""


def in_pyodide(code: str) -> int:
    """Runs Python code inside Pyodide with the project at /project; the value of its last line is the exit code."""
    node = compute_driver_executable()[0]
    found = [wheel for name in ("web", "web-test") for wheel in wheels.cached(name)]
    plan = {
        "pyodide": str(Path(flet_web.get_package_web_dir()) / "pyodide"),
        "wheels": [str(wheel) for wheel in found if wheel.name.split("-")[0] not in FOR_THE_SCREEN],
        "packages": PACKAGES,
        "root": str(ROOT),
        "code": f"import sys\nsys.path[:0] = {['/project', '/project/build', PACKAGES]!r}\n{code}",
    }
    with tempfile.TemporaryDirectory() as folder:
        plan_file = Path(folder) / "plan.json"
        plan_file.write_text(json.dumps(plan), encoding="utf-8")
        command = [node, str(BUILD / "pyodide_check.mjs"), str(plan_file)]
        return subprocess.run(command, check=False).returncode


def differences(here: Any, there: Any, at: str = "") -> Iterator[tuple[str, float]]:
    """Every place where two drafts differ: its path, and by how much (infinite when not a number)."""
    numbers = (int, float)
    if isinstance(here, bool) or isinstance(there, bool):
        if here is not there:
            yield at, float("inf")
    elif isinstance(here, numbers) and isinstance(there, numbers):
        if here != there:
            yield at, abs(here - there)
    elif isinstance(here, dict) and isinstance(there, dict) and here.keys() == there.keys():
        for key in here:
            yield from differences(here[key], there[key], f"{at}.{key}")
    elif isinstance(here, list) and isinstance(there, list) and len(here) == len(there):
        for place, (first, second) in enumerate(zip(here, there, strict=True)):
            yield from differences(first, second, f"{at}[{place}]")
    elif here != there:
        yield at, float("inf")


def numbers_in(whole: Any) -> int:
    """How many numbers a draft holds."""
    if isinstance(whole, dict):
        return sum(numbers_in(part) for part in whole.values())
    if isinstance(whole, list):
        return sum(numbers_in(part) for part in whole)
    return int(isinstance(whole, (int, float)) and not isinstance(whole, bool))


def draft_here(orders: list[str]) -> bool:
    """Drafts the orders in this Python into CACHE."""
    command = [sys.executable, "build/draft_all.py", f"{CACHE}/{HERE}", *orders]
    return subprocess.run(command, cwd=ROOT, env=environment.surroundings(), check=False).returncode == 0


def go_there(orders: list[str], one_of: int) -> int:
    """Drafts the orders and runs one test of so many in one start of Pyodide.

    What fails is said by its exit code (a sum).
    """
    options = ["tests/drafting", "-c", "pyproject.toml", "-p", "no:cacheprovider", "-q", f"--one-of={one_of}"]
    options += ["-m", "not long"] * (one_of == 1)
    return in_pyodide(f"""
import os, sys, time, traceback
os.chdir("/project")
failed = 0
try:
    import draft_all
    draft_all.main("{CACHE}/{THERE}", *{orders!r})
except BaseException:
    traceback.print_exc()
    failed += {NOT_DRAFTED}
import pytest
start = time.monotonic()
failed += {TESTS_FAILED} * bool(pytest.main({options!r}))
print(f"The tests took {{time.monotonic() - start:.0f}} s inside Pyodide.")
failed
""")


def compare() -> bool:
    """Compares what both Pythons wrote, and prints the largest difference and every place too far apart."""
    first, second = (json.loads((ROOT / CACHE / name).read_text(encoding="utf-8")) for name in (HERE, THERE))
    found = sorted(differences(first["drafts"], second["drafts"]), key=lambda pair: -pair[1])
    print(
        f"{len(first['drafts'])} orders, {numbers_in(first['drafts'])} numbers: "
        f"Python {first['python']} on {first['platform']} against {second['python']} on {second['platform']}; "
        f"largest difference {found[0][1] if found else 0.0:.3g} mm (at most {TOLERANCE:g})."
    )
    too_far = [pair for pair in found if not pair[1] <= TOLERANCE]
    for at, far in too_far[:20]:
        print(f"  {at}: {'not the same' if far == float('inf') else f'{far:.3g} apart'}")
    return not too_far


def main(options: list[str]) -> int:
    """Both proofs; the tests run even when the drafts differ."""
    if options not in ([], ["--whole"]):
        print("build/pyodide_check.py knows one option: --whole.", file=sys.stderr)
        return 2
    paths = [ROOT / "assets" / "demo" / "order.json", *sorted((ROOT / "tests" / "orders").glob("*.json"))]
    orders = [path.relative_to(ROOT).as_posix() for path in paths]
    cache = ROOT / CACHE
    cache.mkdir(parents=True, exist_ok=True)
    for name in (HERE, THERE):
        (cache / name).unlink(missing_ok=True)
    here = draft_here(orders)
    there = go_there(orders, 1 if options else SAMPLE)
    same = here and (cache / THERE).exists() and compare()
    print("Drafts here and inside Pyodide:", "the same." if same else "NOT the same, or not drafted.")
    print("Tests inside Pyodide:", "passed." if there in (0, NOT_DRAFTED) else "FAILED, or not run.")
    return 0 if same and there == 0 else 1


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
