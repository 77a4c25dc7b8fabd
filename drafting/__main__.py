"""The command line: `python -m drafting ORDER.json --out FOLDER`, or a backup in place of the order.

Of a backup every garment is drafted into a folder of its own, or one that is named. What is said below of an order
holds for each garment; the exit is 2 where one of them came to that, else 3 where one did.

Exit 0: drafted, all files written. 2: the order is malformed or outside a limit, or the set cannot be written: nothing
written. 3: a check stops, only draft.json written. 130: interrupted, nothing written. Problems go to standard error,
one a line: `field: what is wrong; what to do`. Files of an earlier draft never stay beside a new outcome.
"""

import argparse
import io
import json
import os
import sys
from collections.abc import Callable, Sequence
from contextlib import suppress
from pathlib import Path
from typing import Any, Literal

_INTERRUPTED = "interrupted: nothing was written; start it again"

try:
    from drafting.layout import heed, length_to_buy, offers, say_bought, say_laid, way_name, widths_side_by_side
    from drafting.order import Order, Result, making, read_order, ways_to_save
    from drafting.problems import Problem
    from drafting.record import backup_file
    from drafting.record.backup_file import KeptOrder, kept_orders, same_marks
    from drafting.record.documents import Paper, documents, printed, schema
    from drafting.record.order_text import MOST_BYTES, read_text
    from drafting.record.out_folder import EARLIER, NotWrittenError, OutFolder, reason
    from drafting.record.papers import Papers, kept_papers
    from drafting.render.assets import ASSETS
    from drafting.sentences import lower_first
    from drafting.units import say_length
    from drafting.ways_out.find import Trying
except KeyboardInterrupt:  # loading takes a moment, in which a person may change their mind
    print(_INTERRUPTED, file=sys.stderr)
    sys.exit(130)

BACKUP_SCHEMA = ASSETS / "backup.schema.json"
#: So many problems are printed, then how many more there are. Our choice: a terminal shows about as many lines.
MOST_PROBLEMS = 20
#: Longer lines are cut, because a key may be as long as the file.
_LONGEST_LINE = 400


def main(arguments: list[str] | None = None) -> int:
    """Runs the command line and returns its exit code."""
    parser = argparse.ArgumentParser(
        prog="python -m drafting", description="Drafts an order into chalk sheet and pattern."
    )
    parser.add_argument("order", type=Path, nargs="?", help="order.json, or a backup of the app")
    parser.add_argument("--out", type=Path, help="folder for the files (made when missing)")
    parser.add_argument("--garment", metavar="ID", help="draft this garment of a backup alone, into --out itself")
    parser.add_argument("--paper", choices=("A4", "Letter"), help="default: A4 for a tape in cm, Letter for inches")
    parser.add_argument("--schema", choices=("order", "draft", "backup"), help="print a JSON Schema and stop")
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="backslashreplace")  # a terminal may lack a letter of a name
    try:
        chosen = parser.parse_args(arguments)
        if not chosen.schema and (chosen.order is None or chosen.out is None):
            parser.error("an order and --out are needed")
        if chosen.schema:
            code = _print_schema(chosen.schema)
        else:
            code = _draft(chosen.order, OutFolder(chosen.out), chosen.paper, chosen.garment)
        if sys.stdout is not None:
            sys.stdout.flush()
    except KeyboardInterrupt:
        _say(_INTERRUPTED)
        code = 130
    except BrokenPipeError:
        _say("standard output: it was closed before everything was said, so nothing was written; keep it open")
        _let_go()
        code = 2
    return code


def _print_schema(which: Literal["order", "draft", "backup"]) -> int:
    # That of a backup is made from the records of the app, and kept.
    found = json.loads(BACKUP_SCHEMA.read_text(encoding="utf-8")) if which == "backup" else schema(which)
    print(json.dumps(found, indent=1, ensure_ascii=False))
    return 0


def _draft(source: Path, folder: OutFolder, paper: Paper | None, garment: str | None) -> int:
    try:
        with source.open("rb") as file:
            content = file.read(backup_file.MOST_BYTES + 1)
    except (OSError, ValueError) as error:
        why = reason(error) if isinstance(error, OSError) else "its name holds a NUL"
        return _refused(
            [Problem("order", "order", "refuse", f"the file cannot be read ({why})", "check its name")], folder
        )
    backup = backup_file.FORMAT.encode() in content[:200]
    typed, problems = read_text(content, backup_file.MOST_BYTES if backup else MOST_BYTES)
    if problems:
        return _refused(problems, folder)
    if isinstance(typed, dict) and typed.get("format") == backup_file.FORMAT:
        return _draft_backup(typed, folder, paper, garment)
    if garment is not None:
        wrong, fix = "this file is an order and holds no garments to choose from", "leave --garment out"
        return _refused([Problem("garment", "garment", "refuse", wrong, fix)], folder)
    return _draft_order(typed, folder, paper)


def _draft_backup(typed: Any, folder: OutFolder, paper: Paper | None, garment: str | None) -> int:
    kept, problems = kept_orders(typed)
    if problems:
        return _refused(problems, folder)
    chosen = [each for each in kept if garment in {None, each.garment}]
    if not chosen:
        wrong = "this backup has no garment" if garment is None else f"this backup has no garment {garment}"
        fix = f"choose {', '.join(each.garment for each in kept[:MOST_PROBLEMS])}" if kept else "choose another backup"
        return _refused([Problem("garment", "garment", "refuse", wrong, fix)], folder)
    codes = []
    for each in chosen:
        _tell_line(f"garment {each.called}")
        codes.append(_draft_kept(each, folder if garment is not None else OutFolder(folder.path / each.garment), paper))
    return next((code for code in (2, 3) if code in codes), 0)


def _draft_kept(kept: KeptOrder, folder: OutFolder, paper: Paper | None) -> int:
    if kept.order is None:
        wrong, fix = (
            "something that is needed was not known yet",
            "open the backup in the app and write what is missing",
        )
        return _refused([Problem("garment", f"garment {kept.garment}", "refuse", wrong, fix)], folder)
    return _draft_order(kept.order, folder, paper, kept)


def _draft_order(typed: Any, folder: OutFolder, paper: Paper | None, kept: KeptOrder | None = None) -> int:
    """Drafts an order into the folder. Of one that is being chalked, `kept` holds the draft its marks are from."""
    frozen = None if kept is None else kept.frozen
    papers = None if kept is None or frozen is None else kept_papers(kept.papers, frozen)
    order, problems = read_order(typed)
    if order is None and papers is None:
        return _refused(problems, folder)
    try:
        if order is not None:
            _say_problems(problems)
            result = _made(order)
            files = _files(result, paper)
            if frozen is None or same_marks(frozen, files["draft.json"]):
                return _write(files, folder, 3 if result.outcome == "stop" else 0, lambda: _tell_all(result))
        own = {"draft.json": (frozen or "").encode()}
        if papers is None:
            _say("chalking: it began with other marks than are made now; only its own draft.json is written")
            return _write(own, folder, 3)
        _say("chalking: it began with other marks than are made now; its papers are made from the draft it began with")
        return _write(own | _files(papers, paper), folder, 0)
    except NotWrittenError as error:
        return _refused([Problem("out", "out", "refuse", error.wrong, error.fix)], folder)
    except BrokenPipeError:
        folder.put_away()
        raise


def _write(files: dict[str, bytes], folder: OutFolder, code: int, tell: Callable[[], None] = lambda: None) -> int:
    """Writes a set of files, tells of it before the earlier set is gone, and returns the code."""
    if folder.write(files, tell):
        _say(f"earlier: the files of the draft before are in {EARLIER}")
    return code


def _tell_line(line: str) -> None:
    print("".join(letter if letter.isprintable() else " " for letter in line)[:_LONGEST_LINE])


def _made(order: Order) -> Result:
    """Drafts the order; on a terminal one line that changes shows that ways out are being looked for."""
    shown = sys.stderr is not None and sys.stderr.isatty()
    work, tried = making(order), 0
    try:
        while True:
            step = next(work)
            if shown and isinstance(step, Trying):
                tried += 1
                print(f"\rlooking for ways out: {step.check}, {tried} tried\x1b[K", end="", file=sys.stderr, flush=True)
    except StopIteration as end:
        result: Result = end.value
        return result
    finally:
        if tried:
            print("\r\x1b[K", end="", file=sys.stderr, flush=True)


def _files(made: Result | Papers, paper: Paper | None) -> dict[str, bytes]:
    try:
        return printed(made, paper) if isinstance(made, Papers) else documents(made, paper)
    except OSError as error:  # the letters of a PDF may need room on the disk for a moment
        raise NotWrittenError(f"the set cannot be made ({reason(error)})", "mend that and start again") from error


def _refused(problems: Sequence[Problem], folder: OutFolder) -> int:
    _say_problems(problems)
    if folder.put_away():
        _say(f"earlier: the files of the draft before are in {EARLIER}")
    return 2


def _say_problems(problems: Sequence[Problem]) -> None:
    for problem in problems[:MOST_PROBLEMS]:
        _say(problem.line())
    if len(problems) > MOST_PROBLEMS:
        _say(f"order: there are {len(problems) - MOST_PROBLEMS:,} more problems; mend these first")


def _say(line: str) -> None:
    """One line on standard error, whatever a key of the order holds; a closed one is not complained about."""
    shown = "".join(letter if letter.isprintable() else " " for letter in line)
    if len(shown) > _LONGEST_LINE:
        shown = shown[: _LONGEST_LINE // 2] + " … " + shown[-_LONGEST_LINE // 2 :]
    with suppress(BrokenPipeError):
        print(shown, file=sys.stderr, flush=True)


def _let_go() -> None:
    """Nothing is left to be written to a closed pipe when the interpreter ends."""
    nowhere = os.open(os.devnull, os.O_WRONLY)
    for stream in (sys.stdout, sys.stderr):
        with suppress(OSError, ValueError, AttributeError):
            stream.flush()
    for stream in (sys.stdout, sys.stderr):
        with suppress(OSError, ValueError, AttributeError):
            os.dup2(nowhere, stream.fileno())


def _tell_all(result: Result) -> None:
    _tell(result)
    if sys.stdout is not None:
        sys.stdout.flush()


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
            print(f"{check.result}: {check.with_rules()}")
    if result.layout is not None:
        unit = result.order.person.unit
        long, wide = say_laid(result.layout.length, unit), say_length(result.layout.cloth_width, unit)
        print(f"cloth: {long} of cloth {wide} wide, {lower_first(way_name(result.layout.way))}")
        if words := heed(result.layout):
            print(f"heed: {lower_first(words)}")
        for offer in offers(result.layouts, result.ready.cloth):
            print(f"to buy less: {lower_first(way_name(offer.layout.way))}: {offer.says} {offer.heed}".rstrip())
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
