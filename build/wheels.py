"""Fetches the wheels that run inside Pyodide: CPython 3.14 with the ABI of the Pyodide that flet-web ships."""

import hashlib
import shutil
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
CACHE = ROOT / ".cache" / "wheels"
LOCKS = ROOT / "build" / "locks"
PLATFORM = (
    "--only-binary=:all:",
    "--no-deps",  # what a package asks for would be judged for this machine, not for the browser
    "--platform=pyemscripten_2026_0_wasm32",
    "--python-version=3.14",
    "--implementation=cp",
    "--abi=cp314",
)


def download(listed: Path, target: Path, *, only: str | None = None) -> None:
    """Downloads what a list names, or one pin alone, into a folder; a lock's hashes are demanded."""
    what = [only] if only else ["--require-hashes", "-r", str(listed)]
    command = [sys.executable, "-m", "pip", "download", "-qq", "--disable-pip-version-check", *PLATFORM]
    subprocess.run([*command, "-d", str(target), *what], check=True)


def cached(name: str) -> list[Path]:
    """The wheels of one lock ("web" or "web-test"), downloaded when the lock is new. Sorted by name."""
    lock = LOCKS / f"{name}.txt"
    folder = CACHE / f"{name}-{hashlib.sha256(lock.read_bytes()).hexdigest()[:12]}"
    if not folder.is_dir():
        half = folder.with_suffix(".part")
        shutil.rmtree(half, ignore_errors=True)
        half.mkdir(parents=True)
        download(lock, half)
        half.rename(folder)
    return sorted(folder.glob("*.whl"))
