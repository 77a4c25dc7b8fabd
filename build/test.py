"""Sets up and proves the project.

`build/test` alone proves everything; `build/test -k units` runs a part of the tests, `build/test --long` the proofs
that take too long for every day, among them all tests of the core inside Pyodide.

Without options: style (ruff), form (ruff format), types (mypy), the tests (pytest), and the drafting core inside
Pyodide against this Python, with one test of 48, which needs one core and runs beside the first four. Browsers come
last, two at once. Every part runs even when an earlier one fails; the command fails if any part does.
With options only pytest runs, and gets them. At the end stand each part's time, the tests that failed with what
stopped them, and the browser tests that needed another try. `build/test --planted [N]` plants N faults in a copy of the
checkout (all there are where N is left out) and says which of them the tests notice; `--planted --help` tells more.
"""

import subprocess
import sys
import tempfile
import time
from collections.abc import Sequence
from pathlib import Path
from xml.etree import ElementTree

import environment

# Named one by one: several tools would pass over a folder called build.
CODE = [name for name in ("drafting", "app", "build", "tests") if any((environment.ROOT / name).rglob("*.py"))]
TYPED = [name for name in CODE if name != "tests"]


# What drives real browsers, what takes longest first. What a busy machine held up past every patience is tried again,
# and said so.
BROWSER = [
    f"tests/app/test_{name}.py"
    for name in (
        "site",
        "backup_round",
        "engines",
        "journey",
        "reader",
        "tabs",
        "hands",
        "keyboard",
        "page_storage",
        "memory",
        "lay_screen",
        "chalk_screen",
        "trouble",
        "chalk_aloud",
        "first_sight",
        "rest",
        "run",
        "browser_log",
        "seen",
        "keyboard_job",
        "table_script",
        "print_page",
        "reading_order",
        "each_garment",
    )
]
BESIDE = "Pyodide"
"""The part that is begun at the start, and told about in its turn."""
BOTH_CORES = ["-n", "2", "--dist", "worksteal"]
FILE_BY_FILE = ["-n", "2", "--dist", "loadfile", "--no-loadscope-reorder"]
"""Two browsers at once, each with a file of its own, begun in the order of BROWSER."""
TRIES = 3
"""So often a browser test is tried at most."""
NAMED = 12
"""So many failures of a try are named at the end."""


def parts() -> list[tuple[str, list[str]]]:
    """Each part's name and its command after the Python."""
    return [
        ("style", ["-m", "ruff", "check", *CODE]),
        ("form", ["-m", "ruff", "format", "--check", *CODE]),
        ("types", ["-m", "mypy", *TYPED]),
        ("tests", ["-m", "pytest", *BOTH_CORES, *(f"--ignore={name}" for name in BROWSER)]),
        (BESIDE, ["build/pyodide_check.py"]),
        ("browser", ["-m", "pytest", *FILE_BY_FILE, *BROWSER]),
    ]


def run(command: Sequence[str]) -> int:
    """Runs a command in the checkout; returns its code."""
    return subprocess.run(command, cwd=environment.ROOT, env=environment.surroundings(), check=False).returncode


class Begun:
    """A command that runs beside others; what it says is kept until it is asked for."""

    def __init__(self, command: Sequence[str]) -> None:
        """Begin it in the checkout."""
        self.since = time.monotonic()
        self._said = tempfile.TemporaryFile()  # noqa: SIM115 # open until it is asked for
        self._process = subprocess.Popen(
            command,
            cwd=environment.ROOT,
            env=environment.surroundings(),
            stdout=self._said,
            stderr=subprocess.STDOUT,
        )

    def ended(self) -> int:
        """Wait for its end and print what it said; returns its code."""
        code = self._process.wait()
        self._said.seek(0)
        sys.stdout.write(self._said.read().decode("utf-8", "replace"))
        sys.stdout.flush()
        self._said.close()
        return code


def failures(report: Path) -> dict[str, str]:
    """The tests that failed by pytest's own report, each with the first line of what stopped it."""
    if not report.exists():
        return {}
    found = {}
    for case in ElementTree.parse(report).iter("testcase"):
        for fault in (*case.iterfind("failure"), *case.iterfind("error")):
            said = fault.get("message", "").strip().splitlines() or [""]
            found[f"{case.get('classname')}::{case.get('name')}"] = said[0][:300]
    return found


def tried(command: list[str], tries: int) -> tuple[int, list[dict[str, str]]]:
    """Runs pytest, then what failed again; returns the last code, and what failed at each try."""
    with tempfile.TemporaryDirectory() as folder:
        report = Path(folder) / "report.xml"
        reported = [*command, f"--junitxml={report}"]
        code, failed = run(reported), [failures(report)]
        while code == 1 and len(failed) < tries:
            print(f"== What failed is tried again; a test that fails {tries} times fails.", flush=True)
            report.unlink(missing_ok=True)
            code = run([*reported, "--last-failed"])
            failed.append(failures(report))
        return code, failed


def main(options: list[str]) -> int:
    """Runs the parts and says which failed."""
    if options[:1] == ["--planted"]:
        import planted

        return planted.main(options[1:])
    python = str(environment.ensure("test"))
    chosen = parts()
    if not options:
        environment.need_browsers()
    if options == ["--long"]:
        chosen = [
            ("tests", ["-m", "pytest", "-m", "long or left_out"]),
            (BESIDE, ["build/pyodide_check.py", "--whole"]),
        ]
    elif options:
        print("Only pytest runs, because it was given options; build/test alone proves everything.", flush=True)
        chosen = [("tests", ["-m", "pytest", *options])]
    failed, told = [], []
    beside = {name: Begun([python, *command]) for name, command in chosen if name == BESIDE}
    for name, command in chosen:
        print(f"\n== {name}", flush=True)
        start = beside[name].since if name in beside else time.monotonic()
        tests = command[:2] == ["-m", "pytest"]
        tries = TRIES if name == "browser" else 1
        missed: list[dict[str, str]] = []
        if name in beside:
            code = beside[name].ended()
        elif tests:
            code, missed = tried([python, *command], tries)
        else:
            code = run([python, *command])
        line = f"== {name}: {'passed' if code == 0 else f'FAILED ({code})'} in {time.monotonic() - start:.0f} s"
        print(line, flush=True)
        told.append(line)
        for count, each in enumerate(missed, start=1):
            told += [f"   try {count} of {tries}: {test} failed: {why}" for test, why in list(each.items())[:NAMED]]
            told += [f"   try {count} of {tries}: {len(each) - NAMED} more failed"] * (len(each) > NAMED)
        if code:
            failed.append(name)
    print("\n" + "\n".join(told))
    print(f"\nFailed: {', '.join(failed)}." if failed else "\nEverything that ran passed.")
    return 1 if failed else 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
