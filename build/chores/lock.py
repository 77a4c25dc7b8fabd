"""Makes the lock files in build/locks/ anew from the short lists beside them. Run it only to take newer versions.

    .venv/bin/python build/chores/lock.py

`run.txt` and `test.txt` come from pip-compile (in an environment thrown away afterwards) with the hashes of every
file of every version. `web.txt` and `web-test.txt` hold the one wheel that Pyodide takes, by its hash. No lock names
a place to fetch from: that is the business of the machine that installs.
"""

import hashlib
import subprocess
import sys
import tempfile
import venv
from pathlib import Path

BUILD = Path(__file__).resolve().parents[1]
sys.path.insert(0, str(BUILD))

from wheels import download  # noqa: E402 - it lies beside this folder

LOCKS = BUILD / "locks"
PIP_TOOLS = "pip-tools==7.6.2"
QUIET = (
    "--quiet",
    "--generate-hashes",
    "--allow-unsafe",
    "--strip-extras",
    "--no-header",
    "--no-emit-index-url",
    "--no-emit-find-links",
    "--no-emit-trusted-host",
    "--no-emit-options",
)


def compile_locks() -> None:
    """Resolves run.in and test.in for this Python."""
    with tempfile.TemporaryDirectory() as folder:
        venv.create(folder, with_pip=True)
        python = str(Path(folder) / "bin" / "python")
        subprocess.run([python, "-m", "pip", "install", "--quiet", PIP_TOOLS], check=True)
        for name in ("run", "test"):
            command = [python, "-m", "piptools", "compile", *QUIET, "--output-file", f"{name}.txt", f"{name}.in"]
            subprocess.run(command, check=True, cwd=LOCKS)


def lock_wheels(name: str) -> None:
    """Downloads the wheels of one list for Pyodide and writes their hashes."""
    pins = [line for line in (LOCKS / f"{name}.in").read_text().splitlines() if line and not line.startswith("#")]
    lines = []
    with tempfile.TemporaryDirectory() as folder:
        for pin in pins:
            target = Path(folder) / pin
            download(LOCKS / f"{name}.in", target, only=pin)
            (wheel,) = target.glob("*.whl")
            lines.append(f"{pin} \\\n    --hash=sha256:{hashlib.sha256(wheel.read_bytes()).hexdigest()}\n")
    (LOCKS / f"{name}.txt").write_text("".join(sorted(lines)))


if __name__ == "__main__":
    if sys.argv[1:] != ["--web-only"]:
        compile_locks()
    for listed in ("web", "web-test"):
        lock_wheels(listed)
