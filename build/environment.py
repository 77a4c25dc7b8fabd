"""Makes the project's own Python environment in .venv from a lock, and only when the lock has changed.

Uses nothing but the standard library, so that it runs on a bare machine with Python 3.11 or newer.
"""

import hashlib
import json
import os
import shutil
import subprocess
import sys
from importlib.util import find_spec
from pathlib import Path
from typing import Literal, NoReturn

ROOT = Path(__file__).resolve().parent.parent
LOCKS = ROOT / "build" / "locks"
PLACE = ROOT / ".venv"
STAMP = PLACE / "foldmark.json"
PYTHON = PLACE / ("Scripts/python.exe" if os.name == "nt" else "bin/python")

Use = Literal["run", "test"]
# The test lock holds everything that the run lock holds (tests/test_project.py sees to it).
SERVED_BY: dict[Use, tuple[Use, ...]] = {"run": ("run", "test"), "test": ("test",)}


def fingerprint(use: Use) -> dict[str, str]:
    """What an environment for this use is made from: it is current while this is unchanged."""
    digest = hashlib.sha256((LOCKS / f"{use}.txt").read_bytes()).hexdigest()
    return {"use": use, "lock": digest, "python": sys.version, "place": str(PLACE)}


def is_current(use: Use) -> bool:
    """Whether .venv already serves this use."""
    try:
        made = json.loads(STAMP.read_text())
    except (OSError, ValueError):
        return False
    return PYTHON.exists() and any(made == fingerprint(serving) for serving in SERVED_BY[use])


def stop(line: str) -> NoReturn:
    """Ends with one plain line on standard error."""
    print(line, file=sys.stderr)
    raise SystemExit(1)


def need_venv() -> None:
    """Sees to it that Python can make environments; Debian keeps that part in a package of its own."""
    if find_spec("venv") and find_spec("ensurepip"):
        return
    package = "python3-venv" if Path(sys.executable).name == "python3" else f"python3.{sys.version_info.minor}-venv"
    if shutil.which("apt-get") is None:
        stop(
            "This Python lacks its own venv and ensurepip modules; install the package of your system that holds them."
        )
    if os.geteuid() != 0:
        stop(f"One system package is missing: sudo apt-get install {package}")
    print(f"Installing the system package {package}, which Python needs to make an environment.", flush=True)
    quiet = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    for command in (["apt-get", "update", "-qq"], ["apt-get", "install", "-y", "-qq", package]):
        if subprocess.run(command, env=quiet, stdout=subprocess.DEVNULL, check=False).returncode:
            stop(f"One system package is missing and could not be installed: apt-get install {package}")


def ensure(use: Use) -> Path:
    """Makes .venv for a use unless it is current; returns its Python."""
    if is_current(use):
        return PYTHON
    need_venv()
    print(
        f"Making the environment in .venv from build/locks/{use}.txt; this takes a minute the first time.", flush=True
    )
    shutil.rmtree(PLACE, ignore_errors=True)
    install = ["-m", "pip", "install", "--quiet", "--disable-pip-version-check", "--no-deps", "--only-binary=:all:"]
    for command in (
        [sys.executable, "-m", "venv", str(PLACE)],
        [str(PYTHON), *install, "--require-hashes", "-r", str(LOCKS / f"{use}.txt")],
        [str(PYTHON), "-m", "pip", "check", "--quiet", "--disable-pip-version-check"],
    ):
        if subprocess.run(command, check=False).returncode:
            stop("The environment could not be made; what went wrong stands above. Nothing else was changed.")
    STAMP.write_text(json.dumps(fingerprint(use), indent=1) + "\n")
    return PYTHON


def need_chromium() -> None:
    """Sees to it that a Chromium is there for the browser tests; Debian's is installed when we may."""
    if shutil.which("chromium") or shutil.which("chromium-browser"):
        return
    if shutil.which("apt-get") is None:
        stop("The browser tests need Chromium on the path, as chromium or chromium-browser.")
    if os.geteuid() != 0:
        stop("One system package is missing: sudo apt-get install chromium")
    print("Installing the system package chromium, which the browser tests drive.", flush=True)
    quiet = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    for command in (["apt-get", "update", "-qq"], ["apt-get", "install", "-y", "-qq", "chromium"]):
        if subprocess.run(command, env=quiet, stdout=subprocess.DEVNULL, check=False).returncode:
            stop("One system package is missing and could not be installed: apt-get install chromium")


def surroundings() -> dict[str, str]:
    """The variables for a program of ours, so that it finds this checkout's packages wherever it is called."""
    return {**os.environ, "PYTHONPATH": str(ROOT), "PYTHONDONTWRITEBYTECODE": "1", "PYTHONUTF8": "1"}
