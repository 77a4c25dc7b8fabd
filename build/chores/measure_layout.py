"""Times the laying of pieces on cloth, every way tried, here and in the browser's Python (Pyodide under Node).

Beside the milliseconds stands how many times as long it takes as the fixed loop of build/bench in the same Python.
"""

import json
import sys
import time
from dataclasses import replace
from pathlib import Path
from statistics import median
from typing import TYPE_CHECKING

ROOT = Path(__file__).resolve().parents[2]
sys.path[:0] = [str(ROOT), str(ROOT / "build")]

from bench import calibration  # noqa: E402 - it lies beside this folder

if TYPE_CHECKING:
    from drafting.contract.pieces import Piece

ROUNDS = 3
APART = {"lower_sleeve": "joined", "centre_back": "seam"}


def main() -> int:
    """Prints the table."""
    from drafting.layout import candidates, search
    from drafting.order import glance, read_order

    typed = json.loads((ROOT / "assets" / "demo" / "order.json").read_text("utf-8"))

    def pieces(name: str, **style: str) -> "tuple[Piece, ...]":
        order, _ = read_order(typed | {"style": typed["style"] | style})
        assert order is not None
        return tuple(replace(piece, name=f"{name} {piece.name}") for piece in glance(order).draft.pieces)

    order, _ = read_order(typed)
    assert order is not None
    cloth = replace(glance(order).ready.cloth, width=1600.0)
    apart = pieces("one", **APART)
    cases = {
        "two pieces": pieces("one"),
        "three pieces, five to cut": apart,
        "six pieces, two garments": (*apart, *pieces("two", **APART, length="knee")),
    }
    taken = []
    for _ in range(ROUNDS):
        start = time.perf_counter()
        calibration()
        taken.append(time.perf_counter() - start)
    fixed = median(taken)
    print(
        f"Python {sys.version.split()[0]} on {sys.platform}; every way on {cloth.width / 10:g} cm, median of {ROUNDS}"
    )
    print(f"{'':28}{'ms':>9}{'loops':>9}{'longest step, ms':>19}")
    for name, laid in cases.items():
        taken, longest = [], 0.0
        for _ in range(ROUNDS):
            start = time.perf_counter()
            candidates(laid, cloth)
            taken.append(time.perf_counter() - start)
        last = time.perf_counter()
        for _ in search(laid, cloth):
            now = time.perf_counter()
            longest, last = max(longest, now - last), now
        middle = median(taken)
        print(f"{name:28}{1000 * middle:9.0f}{middle / fixed:9.1f}{1000 * longest:19.0f}", flush=True)
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
