"""Times the core on the demo order and prints a small table: `build/bench [ORDER.json]`.

Milliseconds differ from machine to machine, so each line also says how many times as long it takes as a fixed
loop of plain Python on the same machine. That ratio is what to compare between two versions.
"""

import argparse
import json
import subprocess
import sys
import time
import tracemalloc
from collections.abc import Callable
from functools import partial
from pathlib import Path
from statistics import median
from typing import TYPE_CHECKING

import environment

if TYPE_CHECKING:
    from drafting.order import Result

CHORES = environment.ROOT / "build" / "chores"
"""Here lie the scripts that measure one thing each."""
DEMO = environment.ROOT / "assets" / "demo" / "order.json"
ROUNDS = 7
#: Style and cloth of the demo order where ways out take longest.
HARD = (
    ({"centre_back": "seam", "length": "knee"}, {"width": 150}),
    ({"length": "knee"}, {"width": 140}),
    ({"length": "knee", "sleeve_length": "elbow"}, {"width": 115}),
    ({"length": "knee", "lower_sleeve": "joined"}, {"width": 150, "length": 100}),
    ({"length": "knee", "sleeve_length": "elbow"}, {"width": 180, "length": 150}),
)
LOOPS = 200_000


def calibration() -> float:
    """The fixed loop: float arithmetic and a list, as geometry is made of."""
    total, kept = 0.0, []
    for step in range(LOOPS):
        total += (step * 0.5 + 1.0) / (step + 1.0)
        if step % 100 == 0:
            kept.append(total)
    return total + len(kept)


def timed(what: Callable[[], object], rounds: int = ROUNDS) -> float:
    """Median milliseconds of several rounds."""
    taken = []
    for _ in range(rounds):
        start = time.perf_counter()
        what()
        taken.append((time.perf_counter() - start) * 1000)
    return median(taken)


def importing() -> object:
    """Loads the core in a fresh Python."""
    return subprocess.run([sys.executable, "-c", "import drafting.order"], check=True)


def bare() -> object:
    """Starts a fresh Python and does nothing."""
    return subprocess.run([sys.executable, "-c", "pass"], check=True)


def papers_apart(result: "Result") -> dict[str, Callable[[], object]]:
    """Each paper's own writer; none but the draft when a check has stopped the rest."""
    from drafting.record import documents as write

    found: dict[str, Callable[[], object]] = {"draft.json": lambda: write.draft_json(result)}
    if result.plan is not None:
        found["chalk-sheet.pdf"] = lambda: write.chalk_sheet_pdf(result, "A4")
        found["pattern.pdf"] = lambda: write.pattern_pdf(result, "A4")
        found["pattern.svg"] = lambda: write.pattern_svg(result)
        found["cloth.svg"] = lambda: write.cloth_svg(result)
    return found


def with_ways_out() -> tuple[float, float]:
    """The most that ways out take beside the plain draft: in counted work, and in time, of the hardest orders known.

    Found by a search over bodies, styles and cloths: garments that hardly go, or do not go, on their cloth.
    """
    from drafting.order import make, order_work, read_order

    demo = json.loads(DEMO.read_text(encoding="utf-8"))
    most_work = most_time = 0.0
    for style, cloth in HARD:
        order, _ = read_order(demo | {"style": demo["style"] | style, "cloth": demo["cloth"] | cloth})
        if order is None:
            raise SystemExit("an order of this bench is refused")
        plain, whole = order_work(order, with_ways_out=False), order_work(order)
        most_work = max(most_work, whole / plain)
        quick = timed(partial(make, order, with_ways_out=False), 3)
        slow = timed(partial(make, order), 3)
        most_time = max(most_time, slow / quick)
    return most_work, most_time


def measure(order_file: Path) -> None:
    """Prints the table for one order."""
    import drafting
    from drafting.order import TIMES, read_order
    from drafting.record.documents import documents

    typed = json.loads(order_file.read_text(encoding="utf-8"))
    order, problems = read_order(typed)
    if order is None:
        raise SystemExit("\n".join(problem.line() for problem in problems))
    loop = timed(calibration)
    result = drafting.make(order)
    papers = documents(result)
    lines = [
        ("the fixed loop", loop),
        ("import drafting.order", timed(importing) - timed(bare)),
        ("read the order", timed(lambda: read_order(typed))),
        ("draft it", timed(lambda: drafting.make(order))),
        *((f"write {name}", timed(write, 3)) for name, write in papers_apart(result).items()),
    ]
    tracemalloc.start()
    documents(drafting.make(order))
    peak = tracemalloc.get_traced_memory()[1] / 1e6
    tracemalloc.stop()
    counted, taken_by = with_ways_out()
    print(f"{order_file.name}, Python {sys.version.split()[0]}, median of {ROUNDS} rounds")
    print(f"{'':28}{'ms':>9}{'loops':>9}")
    for name, taken in lines:
        print(f"{name:28}{taken:9.1f}{taken / loop:9.2f}")
    print(f"{'most work with ways out':28}{counted:9.1f} times the plain draft, of at most {TIMES}")
    print(f"{'that in time':28}{taken_by:9.1f} times")
    print(f"{'memory at its peak':28}{peak:9.1f} MB")
    for name, paper in sorted(papers.items()):
        print(f"{'size of ' + name:28}{len(paper) / 1000:9.1f} kB")


def main() -> int:
    """Measures inside the project's own environment, going there first when called from outside."""
    reader = argparse.ArgumentParser(prog="build/bench", description="Time the core.")
    reader.add_argument("order", nargs="?", type=Path, default=DEMO)
    reader.add_argument("--site", action="store_true", help="bytes and start times of the site beside an empty one")
    reader.add_argument("--app", action="store_true", help="how soon the drawing follows a tap and a key")
    reader.add_argument("--layout", action="store_true", help="laying the pieces, here and in the browser's Python")
    reader.add_argument("--steps", action="store_true", help="the longest step of a draft in which no screen answers")
    reader.add_argument("--book", action="store_true", help="a book of 7,000 records, here and in the browser's Python")
    reader.add_argument("--inside", action="store_true", help=argparse.SUPPRESS)
    chosen = reader.parse_args()
    if chosen.layout or chosen.book:
        python = str(environment.ensure("test"))
        name = "measure_layout" if chosen.layout else "measure_book"
        inside = f"from chores import {name}; {name}.main()"
        there = f"import pyodide_check; raise SystemExit(pyodide_check.in_pyodide({inside!r}))"
        for command in ([python, str(CHORES / f"{name}.py")], [python, "-c", there]):
            code = subprocess.run(command, cwd=environment.ROOT / "build", env=environment.surroundings(), check=False)
            if code.returncode:
                return code.returncode
        return 0
    if chosen.steps:
        command = [str(environment.ensure("run")), str(CHORES / "measure_steps.py")]
        return subprocess.run(command, env=environment.surroundings(), check=False).returncode
    if chosen.site or chosen.app:
        environment.need_browsers(["chromium"])
        script = "measure_site.py" if chosen.site else "measure_app.py"
        command = [str(environment.ensure("test")), str(CHORES / script)]
        return subprocess.run(command, env=environment.surroundings(), check=False).returncode
    if chosen.inside:
        measure(chosen.order)
        return 0
    command = [str(environment.ensure("run")), str(Path(__file__)), "--inside", str(chosen.order.resolve())]
    return subprocess.run(command, env=environment.surroundings(), check=False).returncode


if __name__ == "__main__":
    raise SystemExit(main())
