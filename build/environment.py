"""Makes the project's own Python environment in .venv from a lock, and only when the lock has changed.

It is made beside the one that is there and takes its place once it is whole, so that a start without a network, or one
that is broken off, leaves what worked. Two starts at once wait for each other.

Uses nothing but the standard library, so that it runs on a bare machine with Python 3.11 or newer.
"""

import hashlib
import json
import os
import shutil
import subprocess
import sys
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from importlib.util import find_spec
from pathlib import Path
from typing import Literal, NoReturn

ROOT = Path(__file__).resolve().parent.parent
LOCKS = ROOT / "build" / "locks"
PLACE = ROOT / ".venv"
MAKING = ROOT / ".venv.making"
TURN = ROOT / ".venv.turn"
"""Is locked by the start that makes the environment."""
STAMP = "foldmark.json"
SCRIPTS = "Scripts" if os.name == "nt" else "bin"


def python_of(place: Path) -> Path:
    """The Python of an environment."""
    return place / SCRIPTS / ("python.exe" if os.name == "nt" else "python")


PYTHON = python_of(PLACE)

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
    """What an environment for this use is made from: it is current while this is unchanged.

    Another patch of the same Python runs it as well; another minor version does not. A link to the environment of
    another checkout serves where the lock is the same.
    """
    digest = hashlib.sha256((LOCKS / f"{use}.txt").read_bytes()).hexdigest()
    python = f"{sys.implementation.name} {sys.version_info.major}.{sys.version_info.minor}"
    return {"use": use, "lock": digest, "python": python, "place": str(PLACE.resolve())}


def is_current(use: Use, place: Path | None = None) -> bool:
    """Whether .venv, or what is to become it, already serves this use."""
    place = place or PLACE
    try:
        made = json.loads((place / STAMP).read_text())
    except (OSError, ValueError):
        return False
    return python_of(place).exists() and any(made == fingerprint(serving) for serving in SERVED_BY[use])


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
    need_venv()
    try:
        with turn():
            if not is_current(use):  # nor did the start that this one waited for make it
                if PLACE.is_symlink():
                    PLACE.unlink()  # what it leads to stays as it is
                if not is_current(use, MAKING):  # whole, of a start that was broken off
                    make(use)
                exchange()
    except OSError as trouble:
        stop(f"The environment could not be made in {ROOT}: {trouble.strerror}. Copy the project to a folder of yours.")
    return PYTHON


@contextmanager
def turn() -> Iterator[None]:
    """Waits until no other start makes the environment, and has others wait meanwhile."""
    with TURN.open("a") as held:
        if os.name != "nt":  # there, two starts at once are not kept apart
            import fcntl

            try:
                fcntl.flock(held, fcntl.LOCK_EX | fcntl.LOCK_NB)
            except BlockingIOError:
                print("Another start is making the environment; this one waits for it.", flush=True)
                fcntl.flock(held, fcntl.LOCK_EX)
        yield


def make(use: Use) -> None:
    """Makes the environment beside .venv; ends with one plain line where that fails."""
    print(
        f"Making the environment in .venv from build/locks/{use}.txt; this takes a minute the first time.", flush=True
    )
    shutil.rmtree(MAKING, ignore_errors=True)
    python = str(python_of(MAKING))
    install = ["-m", "pip", "install", "--quiet", "--disable-pip-version-check", "--no-deps", "--only-binary=:all:"]
    for command in (
        [sys.executable, "-m", "venv", str(MAKING)],
        [python, *install, "--require-hashes", "-r", str(LOCKS / f"{use}.txt")],
        [python, "-m", "pip", "check", "--quiet", "--disable-pip-version-check"],
    ):
        if subprocess.run(command, check=False).returncode:
            shutil.rmtree(MAKING, ignore_errors=True)
            stop("The environment could not be made; what went wrong stands above. What was there is as it was.")
    for script in (MAKING / SCRIPTS).iterdir():  # their first lines name the Python that runs them
        if script.is_file() and not script.is_symlink():
            script.write_bytes(script.read_bytes().replace(os.fsencode(MAKING), os.fsencode(PLACE)))
    (MAKING / STAMP).write_text(json.dumps(fingerprint(use), indent=1) + "\n")


def exchange() -> None:
    """Puts what was made in the place of what was there."""
    before = PLACE.with_name(".venv.before")
    shutil.rmtree(before, ignore_errors=True)
    if PLACE.exists():
        PLACE.rename(before)
    MAKING.rename(PLACE)
    shutil.rmtree(before, ignore_errors=True)


def need_browsers(packages: Iterable[str] = BROWSERS) -> None:
    """Sees to it that all browsers which the tests drive are there, or those of some packages."""
    missing = [package for package in packages if not any(map(shutil.which, BROWSERS[package]))]
    programs = ", ".join(BROWSERS[package][0] for package in missing)
    need_packages(missing, f"The browser tests need these programs on the path: {programs}.")


def surroundings() -> dict[str, str]:
    """The variables for a program of ours, so that it finds this checkout's packages wherever it is called."""
    return {**os.environ, "PYTHONPATH": str(ROOT), "PYTHONDONTWRITEBYTECODE": "1", "PYTHONUTF8": "1"}
