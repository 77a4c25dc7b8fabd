"""The command line: `python -m drafting ORDER.json --out FOLDER`.

Exit 0: drafted, all files written. 2: the order is malformed or outside a limit, nothing written. 3: a check stops,
only draft.json written. Problems go to standard error, one a line: `field: what is wrong; what to do`.
"""

import argparse
import json
import sys
from pathlib import Path

from drafting.documents import documents, schema
from drafting.layout import length_to_buy, say_bought, way_name, widths_side_by_side
from drafting.order import Result, make, read_order, ways_to_save
from drafting.sentences import lower_first
from drafting.units import say_length


def main(arguments: list[str] | None = None) -> int:
    """Runs the command line and returns its exit code."""
    parser = argparse.ArgumentParser(
        prog="python -m drafting", description="Drafts an order into chalk sheet and pattern."
    )
    parser.add_argument("order", type=Path, nargs="?", help="order.json")
    parser.add_argument("--out", type=Path, help="folder for the files (made when missing)")
    parser.add_argument("--paper", choices=("A4", "Letter"), help="default: A4 for a tape in cm, Letter for inches")
    parser.add_argument("--schema", choices=("order", "draft"), help="print a JSON Schema and stop")
    chosen = parser.parse_args(arguments)
    if chosen.schema:
        print(json.dumps(schema(chosen.schema), indent=1, ensure_ascii=False))
        return 0
    if chosen.order is None or chosen.out is None:
        parser.error("an order and --out are needed")
    try:
        typed = json.loads(chosen.order.read_text(encoding="utf-8"))
    except (OSError, UnicodeDecodeError) as error:
        print(f"order: the file cannot be read ({type(error).__name__}); check its name", file=sys.stderr)
        return 2
    except (json.JSONDecodeError, RecursionError) as error:
        where = f" at line {error.lineno}" if isinstance(error, json.JSONDecodeError) else ""
        print(f"order: this is not JSON{where}; check commas, quotes and braces", file=sys.stderr)
        return 2
    order, problems = read_order(typed)
    for problem in problems:
        print(problem.line(), file=sys.stderr)
    if order is None:
        return 2
    result = make(order)
    chosen.out.mkdir(parents=True, exist_ok=True)
    for name, content in documents(result, chosen.paper).items():
        (chosen.out / name).write_bytes(content)
    _tell(result)
    return 3 if result.outcome == "stop" else 0


def _tell(result: Result) -> None:
    """Checks that need attention, cautions and adjustments, for the terminal."""
    for check in result.checks:
        if check.result in {"stop", "warn"}:
            ways = "; or ".join(lower_first(way.says.rstrip(".")) for way in check.ways_out)
            print(f"{check.id}: {check.says.rstrip('.')}; {ways or 'see the checks'}", file=sys.stderr)
    for moved in result.draft.adjusted:
        before, after = (_amount(value, moved.unit, result) for value in (moved.before, moved.after))
        print(f"adjusted: {moved.what} from {before} to {after}; {moved.why}")
    for check in result.checks:
        if check.result in {"caution", "shown"}:
            print(f"{check.result}: {check.says}")
    if result.layout is not None:
        unit = result.order.person.unit
        long, wide = say_length(result.layout.length, unit), say_length(result.layout.cloth_width, unit)
        print(f"cloth: {long} of cloth {wide} wide, {lower_first(way_name(result.layout.fold))}")
        bought = length_to_buy(result.layout, result.ready.cloth, unit)
        extra = "squaring the ends and the first wash" if bought.wash > 0 else "squaring the ends"
        print(f"to buy: {say_bought(bought.buy, unit)}, with {extra} reckoned in")
        each = widths_side_by_side(result.draft.pieces, result.ready.cloth, unit)
        goes = [f"{say_length(one.width, unit)} {say_bought(one.buy, unit)}" for one in each if one.layout is not None]
        print(
            f"by width: {', '.join(goes)}; it does not go on narrower cloth"
            if len(goes) < len(each)
            else f"by width: {', '.join(goes)}"
        )
        saving = next(iter(ways_to_save(result)), None)
        if saving is not None:
            less = say_length(result.layout.length - saving.layout.length, unit)
            print(f"to save {less}: {saving.says} {saving.looks}")
    print(f"result: {result.outcome}")


def _amount(value: float, unit: str, result: Result) -> str:
    if unit == "mm":
        return say_length(value, result.order.person.unit)
    return f"{value:.0f} degrees" if unit == "deg" else f"{value:g}"


if __name__ == "__main__":
    sys.exit(main())
