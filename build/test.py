"""Sets up and proves the project.

`build/test` alone proves everything; `build/test -k units` runs a part of the tests, `build/test --long` the proofs
that take too long for every day.

Without options: style (ruff), form (ruff format), types (mypy), the tests (pytest), and the drafting core inside
Pyodide against this Python. Every part runs even when an earlier one fails; the command fails if any part does.
With options only pytest runs, and gets them.
"""

import subprocess
import sys
import time

import environment

# Named one by one: several tools would pass over a folder called build.
CODE = [name for name in ("drafting", "app", "build", "tests") if any((environment.ROOT / name).rglob("*.py"))]
TYPED = [name for name in CODE if name != "tests"]


# What drives real browsers. A start that a busy machine held up past every patience is tried once more, and said so.
BROWSER = [
    f"tests/app/test_{name}.py"
    for name in (
        "journey",
        "hands",
        "keyboard",
        "keyboard_job",
        "reading_order",
        "seen",
        "reader",
        "tabs",
        "trouble",
        "run",
        "lay_screen",
        "site",
        "page_storage",
        "print_page",
        "chalk_screen",
        "chalk_aloud",
        "table_script",
        "engines",
    )
]
BOTH_CORES = ["-n", "2", "--dist", "worksteal"]


def parts() -> list[tuple[str, list[str]]]:
    """Each part's name and its command after the Python."""
    return [
        ("style", ["-m", "ruff", "check", *CODE]),
        ("form", ["-m", "ruff", "format", "--check", *CODE]),
        ("types", ["-m", "mypy", *TYPED]),
        ("Pyodide", ["build/pyodide_check.py"]),
        ("browser", ["-m", "pytest", *BROWSER]),
        ("tests", ["-m", "pytest", *BOTH_CORES, *(f"--ignore={name}" for name in BROWSER)]),
    ]


def main(options: list[str]) -> int:
    """Runs the parts and says which failed."""
    python = str(environment.ensure("test"))
    chosen = parts()
    if not options:
        environment.need_browsers()
    if options == ["--long"]:
        options = ["-m", "long"]
    if options:
        print("Only pytest runs, because it was given options; build/test alone proves everything.", flush=True)
        chosen = [("tests", ["-m", "pytest", *options])]
    failed = []
    for name, command in chosen:
        print(f"\n== {name}", flush=True)
        start = time.monotonic()
        code = subprocess.run(
            [python, *command], cwd=environment.ROOT, env=environment.surroundings(), check=False
        ).returncode
        if code == 1 and name == "browser":
            print("== browser: what failed is tried once more; a test that fails twice fails", flush=True)
            again = [python, "-m", "pytest", "--last-failed", *BROWSER]
            code = subprocess.run(again, cwd=environment.ROOT, env=environment.surroundings(), check=False).returncode
        print(
            f"== {name}: {'passed' if code == 0 else f'FAILED ({code})'} in {time.monotonic() - start:.0f} s",
            flush=True,
        )
        if code:
            failed.append(name)
    print(f"\nFailed: {', '.join(failed)}." if failed else "\nEverything that ran passed.")
    return 1 if failed else 0


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
