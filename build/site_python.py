"""The Python side of the site: wheels, our own packages and the standard library, compiled by the site's own Python.

Reproducible: archives are sorted and dated alike, so a file that did not change is not sent again on an update.
"""

from __future__ import annotations

import hashlib
import json
import os
import re
import shutil
import subprocess
import tempfile
import zipfile
from pathlib import Path
from typing import TYPE_CHECKING, Any

import wheels

if TYPE_CHECKING:
    from web_site import Site

VERSION = "3.14"
SITE_PACKAGES = f"/lib/python{VERSION}/site-packages"
FROM_FLET = re.compile(r"\bft\.([A-Za-z]\w*)")
LIBRARIES = "libraries"
"""The folder of the compiled modules."""
OWN, PACKAGES = "site.zip", "packages.zip"
"""The archives of our own packages and of all others: an update of ours sends the first alone."""

NEVER_IMPORTED = (
    "flet/testing",
    "flet/auth",
    "flet/fastapi",
    "flet/pytest_plugin.py",
    "pydantic/v1",
    "pydantic/mypy.py",
    "fontTools/mtiLib",
    "fontTools/ufoLib",
    "fontTools/voltLib",
    "fontTools/qu2cu",
    "fontTools/merge",
    "fontTools/t1Lib",
    "fontTools/ttx.py",
    "segno/cli.py",
    "segno/helpers.py",
    "fontTools/afmLib.py",
    "fontTools/fontBuilder.py",
)
"""Parts of the wheels the app never loads. varLib, feaLib, otlLib, svgLib and designspaceLib stay: fpdf2 loads them."""

STANDARD_LIBRARY_UNUSED = (
    "idlelib",
    "tkinter",
    "turtledemo",
    "lib2to3",
    "ensurepip",
    "pydoc_data",
    "test",
    "_pyrepl",
    "curses",
    "multiprocessing",
    "xmlrpc",
    "wsgiref",
    *(f"{name}.py" for name in (
        "pdb", "pydoc", "doctest", "mailbox", "imaplib", "poplib", "smtplib", "ftplib", "pickletools", "turtle",
        "cProfile", "profile", "pstats", "trace", "webbrowser", "wave", "tabnanny", "symtable", "sched", "shelve",
        "plistlib", "modulefinder", "zipapp", "filecmp", "fileinput", "netrc", "rlcompleter", "cmd", "pty",
        "http/server", "logging/handlers", "asyncio/windows_events", "asyncio/windows_utils", "asyncio/proactor_events",
        "_pyio", "_pydatetime", *(f"encodings/cp{page}" for page in (
            "037", "273", "424", "500", "720", "737", "775", "850", "852", "855", "856", "857", "858", "860", "861",
            "862", "863", "864", "865", "866", "869", "874", "875", "1006", "1026", "1125", "1140",
        )),
    )),
)  # fmt: skip

NOT_FOR_RUNNING = (
    "*.pyi",
    "py.typed",
    "*.dist-info/RECORD",
    "*.dist-info/INSTALLER",
    "*.dist-info/licenses/*",
    "*.dist-info/sboms",
    "*.data/data",
)


class CannotBuild(RuntimeError):  # noqa: N818 - read as a sentence
    """The site cannot be made; the text says why and what to do."""


def add_python(site: Site) -> None:
    """Write site.zip, the compiled standard library, Pyodide's lean lock and the worker that starts them."""
    pyodide = site.out / "pyodide"
    with tempfile.TemporaryDirectory(prefix="site-") as folder:
        tree, own, standard = (Path(folder) / name for name in ("wheels", "own", "standard"))
        unpack_wheels(site, tree)
        for package in site.packages:
            shutil.copytree(site.root / package, own / package, ignore=shutil.ignore_patterns("__pycache__", "*.pyi"))
        with zipfile.ZipFile(pyodide / "python_stdlib.zip") as archive:
            archive.extractall(standard)
        remove(standard, STANDARD_LIBRARY_UNUSED)
        compile_trees(pyodide, {tree: 2, standard: 2, own: 0}, site.cache / "compiled")
        libraries = take_libraries(tree, site.out / LIBRARIES)
        write_zip(site.out / OWN, own)
        write_zip(site.out / PACKAGES, tree)
        write_zip(pyodide / "python_stdlib.zip", standard)
    lock = json.loads((pyodide / "pyodide-lock.json").read_text("utf-8"))
    lock["packages"] = {}
    (pyodide / "pyodide-lock.json").write_text(json.dumps(lock), "utf-8")
    worker = (site.root / "assets" / "web" / "python-worker.js").read_text("utf-8")
    settings: dict[str, Any] = {
        "version": VERSION,
        "archives": [OWN, PACKAGES],
        "sizes": {name: (site.out / name).stat().st_size for name in (OWN, PACKAGES, "pyodide/python_stdlib.zip")},
        "folder": SITE_PACKAGES,
        "libraries": libraries,
        "early": [*site.early, site.app],
        "controls": controls_of(site),
        "app": site.app,
        "files": [path.relative_to(site.root / "assets").as_posix() for path in files_of(site)],
    }
    settings["stands"] = hash_of(worker, settings, [site.out / OWN, site.out / PACKAGES, *sorted(pyodide.iterdir())])
    (site.out / "python-worker.js").write_text(fill(worker, "SETTINGS", json.dumps(settings)), "utf-8")


def controls_of(site: Site) -> list[str]:
    """The names that our packages take from Flet, which imports each of them when it is first asked for."""
    sources = (path for package in site.packages for path in (site.root / package).rglob("*.py"))
    return sorted({name for path in sources for name in FROM_FLET.findall(path.read_text("utf-8"))})


def files_of(site: Site) -> list[Path]:
    """The files that Python reads while it runs, all of them of assets/."""
    assets = site.root / "assets"
    return sorted([*(assets / "fonts").glob("*.ttf"), *(assets / "demo").glob("*.json")])


def take_libraries(tree: Path, out: Path) -> dict[str, str]:
    """Move the compiled modules out of a tree, and return each one's file by the module's name.

    The engine loads them by themselves before Python starts, which no archive allows.
    """
    out.mkdir()
    found = {}
    for path in sorted(tree.rglob("*.so")):
        inner = path.relative_to(tree)
        found[".".join([*inner.parent.parts, inner.name.split(".")[0]])] = f"{LIBRARIES}/{inner.name}"
        path.rename(out / inner.name)
    return found


def hash_of(worker: str, settings: dict[str, Any], files: list[Path]) -> str:
    """Return what tells a Python of these files from every other, so that none is woken with another's memory."""
    whole = hashlib.sha256((worker + json.dumps(settings, sort_keys=True)).encode())
    for path in files:
        whole.update(_hash(path))
    return whole.hexdigest()


PYTHON = (OWN, PACKAGES, "python-worker.js", "pyodide/python_stdlib.zip", "pyodide/pyodide-lock.json")
"""All that `add_python` writes, beside the folder LIBRARIES."""


def take_python(site: Site, made: Path) -> None:
    """Take over what `add_python` wrote for another site of the same sources."""
    for name in PYTHON:
        shutil.copyfile(made / name, site.out / name)
    shutil.copytree(made / LIBRARIES, site.out / LIBRARIES)


def fill(text: str, name: str, value: str) -> str:
    """Put a value in the place a script marks with /*NAME*/null, which must stand there exactly once."""
    mark = f"/*{name}*/null"
    if text.count(mark) != 1:
        raise CannotBuild(f"The script should hold the mark {mark} once.")
    return text.replace(mark, value)


def unpack_wheels(site: Site, tree: Path) -> None:
    """Unpack every wheel of the lock, without what is only for developers."""
    for wheel in wheels_of_the_lock():
        with zipfile.ZipFile(wheel) as archive:
            archive.extractall(tree)
    for pattern in NOT_FOR_RUNNING:
        for path in list(tree.rglob(pattern) if "/" not in pattern else tree.glob(pattern)):
            shutil.rmtree(path) if path.is_dir() else path.unlink()
    remove(tree, NEVER_IMPORTED)
    for path in tree.glob("*.dist-info/METADATA"):
        head, _, _ = path.read_text("utf-8").partition("\n\n")  # what follows is a page for people
        path.write_text(head + "\n", "utf-8")


def wheels_of_the_lock() -> list[Path]:
    """The browser's wheels, their hashes demanded by pip."""
    try:
        return wheels.cached("web")
    except (subprocess.CalledProcessError, OSError) as trouble:
        raise CannotBuild(f"The browser's packages could not be fetched: {trouble}") from trouble


def remove(tree: Path, names: tuple[str, ...]) -> None:
    """Delete files and folders of a tree that may or may not be there."""
    for name in names:
        path = tree / name
        shutil.rmtree(path) if path.is_dir() else path.unlink(missing_ok=True)


def node() -> str:
    """Return the Node that comes with Playwright's driver."""
    try:
        from playwright._impl._driver import compute_driver_executable
    except ImportError as missing:
        raise CannotBuild("The site is compiled with the Node of the playwright package: install that.") from missing
    return str(compute_driver_executable()[0])


def compile_trees(pyodide: Path, trees: dict[Path, int], kept: Path) -> None:
    """Compile each tree in place with the site's own Pyodide, at an optimisation level; sources are removed.

    Our own packages are compiled at level 0, so that assertions hold as they do from a checkout. What was compiled
    before is kept in the folder `kept` and not compiled again. It depends on source, name, level and Pyodide.
    """
    engine = b"".join(_hash(pyodide / name) for name in ("pyodide.asm.wasm", "python_stdlib.zip"))
    engine += _hash(Path(__file__).with_name("compile_pyc.mjs"))
    kept.mkdir(parents=True, exist_ok=True)
    anew: dict[Path, Path] = {}
    for tree, level in trees.items():
        for source in tree.rglob("*.py"):
            named = f"{level} {source.relative_to(tree).as_posix()}".encode()
            stored = kept / hashlib.sha256(engine + _hash(source) + named).hexdigest()
            if stored.exists():
                shutil.copyfile(stored, source.with_suffix(".pyc"))
                source.unlink()
            else:
                anew[source] = stored
    if anew:
        _compile(pyodide, trees)
    own = next(tree for tree, level in trees.items() if level == 0)
    if left := sorted(str(path.relative_to(own)) for path in own.rglob("*.py")):
        raise CannotBuild(f"These files do not compile for the browser: {', '.join(left)}")
    for source, stored in anew.items():
        if (compiled := source.with_suffix(".pyc")).exists():
            beside = stored.with_name(f"{stored.name}.{os.getpid()}")  # whole or not at all, whoever builds beside
            shutil.copyfile(compiled, beside)
            beside.replace(stored)


def _compile(pyodide: Path, trees: dict[Path, int]) -> None:
    script = Path(__file__).with_name("compile_pyc.mjs")
    given = [f"{level}:{tree}" for tree, level in trees.items()]
    done = subprocess.run([node(), str(script), str(pyodide), *given], capture_output=True, text=True, check=False)
    if done.returncode:
        raise CannotBuild(f"Compiling for the browser stopped:\n{(done.stderr or done.stdout).strip()[-1500:]}")


def _hash(path: Path) -> bytes:
    return hashlib.sha256(path.read_bytes()).digest()


def write_zip(target: Path, tree: Path) -> None:
    """Pack a tree into one archive that is the same for the same files, whenever and wherever it is made.

    Nothing in it is compressed by itself: the copies for the way (site_offline) compress it as a whole, to two thirds
    of what its files would take one by one, and Python reads it sooner.
    """
    files = {str(path.relative_to(tree)): path for path in tree.rglob("*") if path.is_file()}
    with zipfile.ZipFile(target, "w", zipfile.ZIP_STORED) as archive:
        for name in sorted(files):
            archive.writestr(zipfile.ZipInfo(name, (2020, 1, 1, 0, 0, 0)), files[name].read_bytes())
