"""Makes the project's own Python environment in .venv from a lock, and only when the lock has changed.

Uses nothing but the standard library, so that it runs on a bare machine with Python 3.11 or newer.
"""

import hashlib
import json
import os
import shutil
import subprocess
import sys
from collections.abc import Iterable
from importlib.util import find_spec
from pathlib import Path
from typing import Literal, NoReturn

ROOT = Path(__file__).resolve().parent.parent
LOCKS = ROOT / "build" / "locks"
PLACE = ROOT / ".venv"
STAMP = PLACE / "foldmark.json"
PYTHON = PLACE / ("Scripts/python.exe" if os.name == "nt" else "bin/python")

# Debian's packages, and the programs of each; one of them is enough.
BROWSERS = {
    "chromium": ("chromium", "chromium-browser"),
    "webkit2gtk-driver": ("WebKitWebDriver",),
    "xvfb": ("Xvfb",),
    "firefox-esr": ("firefox-esr", "firefox"),
}

Use = Literal["run", "test"]
# The test lock holds everything that the run lock holds (tests/test_project.py sees to it).
SERVED_BY: dict[Use, tuple[Use, ...]] = {"run": ("run", "test"), "test": ("test",)}


def fingerprint(use: Use) -> dict[str, str]:
    """What an environment for this use is made from: it is current while this is unchanged."""
    digest = hashlib.sha256((LOCKS / f"{use}.txt").read_bytes()).hexdigest()
    return {"use": use, "lock": digest, "python": sys.version, "place": str(PLACE.resolve())}


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
    need_packages([package], "This Python lacks its own venv and ensurepip modules; install what holds them.")


def need_packages(missing: list[str], elsewhere: str) -> None:
    """Installs system packages where we may; else ends with a line that says how, `elsewhere` where there is no apt."""
    if not missing:
        return
    if shutil.which("apt-get") is None:
        stop(elsewhere)
    names = " ".join(missing)
    if os.geteuid() != 0:
        stop(f"System packages are missing: sudo apt-get install {names}")
    print(f"Installing system packages that are missing: {names}.", flush=True)
    quiet = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    for command in (["apt-get", "update", "-qq"], ["apt-get", "install", "-y", "-qq", *missing]):
        if subprocess.run(command, env=quiet, stdout=subprocess.DEVNULL, check=False).returncode:
            stop(f"System packages are missing and could not be installed: apt-get install {names}")


def ensure(use: Use) -> Path:
    """Makes .venv for a use unless it is current; returns its Python."""
    if is_current(use):
        return PYTHON
    if PLACE.is_symlink():
        stop(
            "The .venv here is a link, and what it leads to was made from another lock. Remove the link, and try again."
        )
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


def need_browsers(packages: Iterable[str] = BROWSERS) -> None:
    """Sees to it that all browsers which the tests drive are there, or those of some packages."""
    missing = [package for package in packages if not any(map(shutil.which, BROWSERS[package]))]
    programs = ", ".join(BROWSERS[package][0] for package in missing)
    need_packages(missing, f"The browser tests need these programs on the path: {programs}.")


def surroundings() -> dict[str, str]:
    """The variables for a program of ours, so that it finds this checkout's packages wherever it is called."""
    return {**os.environ, "PYTHONPATH": str(ROOT), "PYTHONDONTWRITEBYTECODE": "1", "PYTHONUTF8": "1"}
