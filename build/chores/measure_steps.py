"""Times the steps of a whole draft and says which is the longest: so long a screen cannot answer.

For the demo order and the first cases of every garment, without ways out and with them, each with the share of the
whole that the first step takes, which sets the garment out, and the longest of all others. The steps are the same on
every machine; each one's time is the least of several rounds, since what else a machine does makes a step longer and
never shorter.
"""

import gc
import json
import sys
import time
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from drafting.order import Order

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))
ROUNDS = 5
#: So many cases of each garment.
CASES = 3


def steps_of(order: "Order", *, with_ways_out: bool) -> list[float]:
    """Milliseconds of each step of a draft."""
    from drafting.order import making

    work = making(order, with_ways_out=with_ways_out)
    found: list[float] = []
    gc.collect()
    gc.disable()
    try:
        while True:
            since = time.perf_counter()
            try:
                next(work)
            except StopIteration:
                return found
            finally:
                found.append((time.perf_counter() - since) * 1000)
    finally:
        gc.enable()


def least(order: "Order", *, with_ways_out: bool) -> list[float]:
    """The least that each step took in several rounds."""
    rounds = [steps_of(order, with_ways_out=with_ways_out) for _ in range(ROUNDS)]
    return [min(taken) for taken in zip(*rounds, strict=True)]


def main() -> int:
    """Prints the table."""
    from drafting.garments import garments
    from drafting.order import read_order

    demo = json.loads((ROOT / "assets" / "demo" / "order.json").read_text("utf-8"))
    orders = {"the demo": demo}
    for name, garment in garments().items():
        for case, given in list(garment.cases.items())[:CASES]:
            cloth = demo["cloth"] | dict(given.cloth)
            orders[f"{name}, {case}"] = demo | {"garment": name, "style": dict(given.style), "cloth": cloth}
    print(f"Python {sys.version.split()[0]}, the least of {ROUNDS} rounds")
    print(f"{'':62}{'steps':>6}{'ms':>8}{'setting out':>13}{'longest other':>15}")
    for name, typed in orders.items():
        order, problems = read_order(typed)
        if order is None:
            raise SystemExit("\n".join(problem.line() for problem in problems))
        for with_ways_out in (False, True):
            steps = least(order, with_ways_out=with_ways_out)
            whole, setting_out, other = sum(steps), steps[0], max(steps[1:])
            what = f"{name}, {'with' if with_ways_out else 'without'} ways out"
            print(f"{what:62}{len(steps):6}{whole:8.1f}{setting_out / whole:13.1%}{other / whole:15.1%}")
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
