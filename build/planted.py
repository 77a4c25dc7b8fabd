"""Plants faults in the code, one at a time, and sees whether the tests notice: `build/test --planted [N]`.

A fault is a small change of one place, made over the syntax tree: a sign, a comparison, a limit, a constant, min for
max, left for right, a term left out, a word for its opposite. Each is planted in a copy of this checkout, never in the
checkout itself, and the tests that touch its module run there until the first of them fails or the time is up. At the
end stand the share that was noticed and every fault that no test noticed. Faults that change nothing anybody could
notice are kept in `build/planted_equivalent.json`, each with its reason, and are not planted.
"""

import argparse
import ast
import io
import json
import os
import random
import shutil
import subprocess
import sys
import tempfile
import time
import tokenize
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import ThreadPoolExecutor, as_completed
from dataclasses import dataclass
from pathlib import Path
from queue import SimpleQueue
from typing import Literal

import environment
import test

#: Where faults are planted.
FIELDS = (
    "drafting/garments",
    "drafting/parts",
    "drafting/checks",
    "drafting/chalk",
    "drafting/layout",
    "drafting/contract",
)
#: Smaller constants are hairs above a float's last bits, and any other hair would do.
HAIR = 1e-3
#: Faults that change nothing anybody could notice, with the reason of each.
EQUIVALENT = Path(__file__).with_name("planted_equivalent.json")
#: A fault is given up after so many seconds of testing. Our choice: its tests take a minute or two on an idle machine.
PATIENCE = 240
#: The share of the planted faults that is to be noticed.
WANTED = 0.85

Kind = Literal["sign", "comparison", "limit", "min and max", "direction", "constant", "dropped term", "word"]

_COMPARISONS = {ast.Lt: "<", ast.LtE: "<=", ast.Gt: ">", ast.GtE: ">=", ast.Eq: "==", ast.NotEq: "!="}
_OTHERWISE = {"<": ("<=", ">"), "<=": ("<", ">"), ">": (">=", "<"), ">=": (">", "<"), "==": ("!=",), "!=": ("==",)}
_OPPOSITE = {
    **{"left": "right", "start": "end", "first": "last", "across": "down", "above": "below", "width": "height"},
    **{"x": "y", "top": "bottom", "before": "after", "one": "other", "inner": "outer", "front": "back"},
}
OPPOSITE = {**_OPPOSITE, **{other: one for one, other in _OPPOSITE.items()}}
#: Words that are exchanged in what a person reads.
_SAID = ("left", "right", "across", "down", "above", "below", "before", "after", "first", "longer", "shorter", "larger",
         "smaller", "more", "less", "inside", "outside", "wider", "narrower", "front", "back")  # fmt: skip
_SAID_OPPOSITE = {**OPPOSITE, "longer": "shorter", "shorter": "longer", "larger": "smaller", "smaller": "larger",
                  "more": "less", "less": "more", "inside": "outside", "outside": "inside", "wider": "narrower",
                  "narrower": "wider"}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Fault:
    """One change of a file: what stands from `start` to `end`, counted in characters, becomes `after`."""

    path: str
    line: int
    start: int
    end: int
    kind: Kind
    before: str
    after: str
    code: str

    def planted(self, source: str) -> str:
        """The source with the fault in it."""
        assert source[self.start : self.end] == self.before
        return source[: self.start] + self.after + source[self.end :]

    def __str__(self) -> str:
        """The fault on one line."""
        before, after = (" ".join(text.split()) for text in (self.before, self.after))
        return f"{self.path}:{self.line}: {self.kind}: {before} → {after}"

    @property
    def known(self) -> tuple[str, str, str, str]:
        """By what it is known again when lines move."""
        return self.path, self.code, self.before, self.after


# --- The faults of a file ---------------------------------------------------------------------------------------------


def faults_of(path: str, source: str) -> list[Fault]:
    """Every fault that can be planted in a file, in the order of its text."""
    return sorted(_Finder(path, source).found(), key=lambda fault: (fault.start, fault.end, fault.after))


class _Finder:
    """Looks through one file. What is said of types, imports, docstrings and names of the module is left alone."""

    def __init__(self, path: str, source: str) -> None:
        self.path, self.source = path, source
        self.lines = source.splitlines(keepends=True)
        self._begins = [0]
        for line in self.lines:
            self._begins.append(self._begins[-1] + len(line))

    def found(self) -> Iterator[Fault]:
        """Each fault once."""
        tree = ast.parse(self.source)
        seen: set[tuple[int, int, str]] = set()
        for fault in (*self._in(tree), *self._words(tree)):
            if (fault.start, fault.end, fault.after) not in seen:
                seen.add((fault.start, fault.end, fault.after))
                if fault.kind == "word" or _is_code(fault.after):
                    yield fault

    def _in(self, node: ast.AST) -> Iterator[Fault]:
        for child in _decided(node):
            yield from self._at(child)
            yield from self._in(child)

    def _at(self, node: ast.AST) -> Iterator[Fault]:
        if isinstance(node, ast.BinOp):
            yield from self._sum(node)
        elif isinstance(node, ast.UnaryOp) and isinstance(node.op, (ast.USub, ast.Not)):
            yield self._fault(
                "sign" if isinstance(node.op, ast.USub) else "dropped term", node, self._text(node.operand)
            )
        elif isinstance(node, ast.Compare) and len(node.ops) == 1:
            yield from self._comparison(node)
        elif isinstance(node, ast.BoolOp):
            for left_out in node.values:
                rest = [self._text(value) for value in node.values if value is not left_out]
                joined = f" {'and' if isinstance(node.op, ast.And) else 'or'} ".join(f"({text})" for text in rest)
                yield self._fault("dropped term", node, f"({joined})")
        elif isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in {"min", "max"}:
            yield self._fault("min and max", node.func, "max" if node.func.id == "min" else "min")
        elif isinstance(node, ast.Attribute) and node.attr in OPPOSITE and isinstance(node.ctx, ast.Load):
            end = self._end(node)
            yield self._change("direction", node.lineno, end - len(node.attr), end, OPPOSITE[node.attr])
        elif isinstance(node, ast.Constant):
            yield from self._constant(node)

    def _sum(self, node: ast.BinOp) -> Iterator[Fault]:
        left, right = self._text(node.left), self._text(node.right)
        other = {ast.Add: "-", ast.Sub: "+", ast.Mult: "/", ast.Div: "*"}.get(type(node.op))
        if any(_is_hair(side) for side in (node.left, node.right)):
            return
        if other is None or any(
            isinstance(side, (ast.JoinedStr, ast.List, ast.Tuple)) for side in (node.left, node.right)
        ):
            return
        if isinstance(node.op, (ast.Add, ast.Sub)):
            yield self._fault("sign", node, f"({left}) {other} ({right})")
            yield self._fault("dropped term", node, f"({left})")
        else:
            yield self._fault("dropped term", node, f"({left})")

    def _comparison(self, node: ast.Compare) -> Iterator[Fault]:
        sign, limit = _COMPARISONS.get(type(node.ops[0])), node.comparators[0]
        left, right = self._text(node.left), self._text(limit)
        counted = any(_is_count(side) for side in (node.left, limit))
        for other in _OTHERWISE.get(sign or "", ()):
            # Of lengths and angles "at most" and "less than" are one: no two are alike to the last bit.
            if counted or other[0] != (sign or "")[0]:
                yield self._fault("comparison", node, f"({left}) {other} ({right})")
        if sign in {"<", "<=", ">", ">="} and not isinstance(limit, ast.Constant):
            yield self._fault("limit", node, f"({left}) {sign} ({right}) * 1.1")

    def _constant(self, node: ast.Constant) -> Iterator[Fault]:
        value = node.value
        if isinstance(value, bool):
            yield self._fault("constant", node, str(not value))
        elif isinstance(value, int):
            yield self._fault("constant", node, str(value + 1))
        elif isinstance(value, float) and abs(value) >= HAIR:
            yield self._fault("constant", node, repr(value * 1.15))
        elif value == 0.0 and isinstance(value, float):
            yield self._fault("constant", node, "1.0")
        elif isinstance(value, str) and value in OPPOSITE and len(value) > 1 and self._text(node)[:1] in "\"'":
            yield self._fault("direction", node, json.dumps(OPPOSITE[value]))

    def _words(self, tree: ast.AST) -> Iterator[Fault]:
        """Sentences in which a word becomes its opposite; docstrings are none."""
        docs = {
            node.value.lineno
            for node in ast.walk(tree)
            if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)
        }
        for token in tokenize.generate_tokens(io.StringIO(self.source).readline):
            if token.type != tokenize.STRING or token.start[0] in docs or " " not in token.string:
                continue
            begin = self._begins[token.start[0] - 1] + token.start[1]
            for word in _SAID:
                at = token.string.find(f" {word} ")
                if at >= 0:
                    start = begin + at + 1
                    line = self.source.count("\n", 0, start) + 1
                    yield self._change("word", line, start, start + len(word), _SAID_OPPOSITE[word])

    # --- places ---

    def _place(self, line: int, column: int) -> int:
        """A place of the syntax tree, which counts bytes, in characters of the source."""
        text = self.lines[line - 1].encode()[:column].decode()
        return self._begins[line - 1] + len(text)

    def _start(self, node: ast.expr) -> int:
        return self._place(node.lineno, node.col_offset)

    def _end(self, node: ast.expr) -> int:
        assert node.end_lineno is not None
        assert node.end_col_offset is not None
        return self._place(node.end_lineno, node.end_col_offset)

    def _text(self, node: ast.expr) -> str:
        return self.source[self._start(node) : self._end(node)]

    def _fault(self, kind: Kind, node: ast.expr, after: str) -> Fault:
        return self._change(kind, node.lineno, self._start(node), self._end(node), after)

    def _change(self, kind: Kind, line: int, start: int, end: int, after: str) -> Fault:
        code = self.lines[line - 1].strip()
        return Fault(self.path, line, start, end, kind, self.source[start:end], after, code)


def _decided(node: ast.AST) -> Iterator[ast.AST]:
    """The parts of a node that decide something: no types, no imports, no docstrings, nothing inside a text."""
    if isinstance(node, ast.Subscript) and getattr(node.value, "id", "") in {"Literal", "tuple", "list", "dict"}:
        return
    for name, value in ast.iter_fields(node):
        if name in {"annotation", "returns", "decorator_list"}:
            continue
        for child in value if isinstance(value, list) else [value]:
            if isinstance(child, ast.AST) and not _decides_nothing(child):
                yield child


def _decides_nothing(node: ast.AST) -> bool:
    if isinstance(node, ast.Assign):
        # What is exported, and the number that sorts the checks.
        return any(isinstance(at, ast.Name) and at.id in {"__all__", "ORDER"} for at in node.targets)
    if isinstance(node, ast.keyword):
        return node.arg in {"strict", "frozen", "slots"}
    if isinstance(node, ast.Expr):
        return isinstance(node.value, ast.Constant)
    return isinstance(node, (ast.Import, ast.ImportFrom, ast.JoinedStr, ast.Assert, ast.Raise))


def _is_hair(node: ast.expr) -> bool:
    """Whether a side of a sum is a number so small that it changes nothing but a float's last bits."""
    return isinstance(node, ast.Constant) and isinstance(node.value, float) and 0.0 < node.value < HAIR


def _is_count(node: ast.expr) -> bool:
    """Whether a side of a comparison is a whole number."""
    if isinstance(node, ast.Constant):
        return type(node.value) is int and node.value != 0
    return isinstance(node, ast.Call) and getattr(node.func, "id", "") == "len"


def _is_code(text: str) -> bool:
    try:
        ast.parse(f"({text})", mode="eval")
    except SyntaxError:
        return False
    return True


def equivalent() -> dict[tuple[str, str, str, str], str]:
    """The faults that nobody could notice, each with its reason."""
    kept = json.loads(EQUIVALENT.read_text(encoding="utf-8"))
    return {(one["path"], one["code"], one["before"], one["after"]): one["why"] for one in kept}


def all_faults(root: Path, fields: Sequence[str] = FIELDS) -> list[Fault]:
    """Every fault that can be planted, but the equivalent ones, in the order of files and of their text."""
    files = sorted(path for field in fields for path in _python_files(root / field))
    left_out = equivalent()
    return [
        fault
        for path in files
        for fault in faults_of(path.relative_to(root).as_posix(), path.read_text(encoding="utf-8"))
        if fault.known not in left_out
    ]


def _python_files(place: Path) -> list[Path]:
    return [place] if place.suffix == ".py" else list(place.rglob("*.py"))


def sample(faults: Sequence[Fault], count: int | None, seed: int) -> list[Fault]:
    """So many of the faults, the same for the same seed; every folder has its share."""
    if count is None or count >= len(faults):
        return list(faults)
    chosen = random.Random(seed).sample(range(len(faults)), count)
    return [faults[index] for index in sorted(chosen)]


# --- The tests that touch a module ------------------------------------------------------------------------------------


Run = list[str]


def runs_for(path: str, root: Path) -> list[Run]:
    """What to give pytest, run after run, for a module: the tests that touch it, and those of every garment.

    A test touches the modules that it imports, those of a package that it imports, and the garments and modules that
    it names, as it names a check by its id. One that is called after the module or its garment comes first, then one
    that is called after the module's package, and among them one that touches little else. Of the tests of every
    garment those of one garment come before the others. Before all others comes what is kept of one garment: it is
    quick, and shows every change of what is drafted or told.
    """
    garment = path.split("/")[2] if path.startswith("drafting/garments/") else ""
    module = path.removesuffix(".py").removesuffix("/__init__").replace("/", ".")
    package, _, stem = module.rpartition(".")
    near: list[tuple[int, int, str]] = []
    for file in (file for folder in TESTS for file in sorted((root / folder).glob("test_*.py"))):
        imported, name = _imported(file), file.relative_to(root).as_posix()
        direct = any(one == module or one.startswith(f"{module}.") for one in imported)
        about = folder_of(name) == TESTS[0] and any(one == package or one.startswith(f"{package}.") for one in imported)
        text = file.stem + file.read_text(encoding="utf-8")
        about = about or bool(garment and garment in text) or ("_" in stem and stem in text)
        if (stem in file.stem or direct or about) and name not in {*SLOW, *KEPT, *EVERY_GARMENT, *test.BROWSER}:
            called = stem in file.stem or bool(garment and garment in file.stem)
            akin = not garment and file.stem.startswith(f"test_{package.rpartition('.')[2]}")
            near.append((0 if called else 1 if akin else 2 if direct else 3, len(imported), name))
    named, others = ([name for rank, _, name in sorted(near) if (rank < 2) == first] for first in (True, False))
    first, rest = ([[name, "-k", which] for name in EVERY_GARMENT] for which in (garment or FIRST, f"not {FIRST}"))
    kept, kept_of_others = ([*KEPT, "-k", which] for which in (garment or FIRST, f"not {FIRST}"))
    if garment:
        runs = [kept, named, first[0], others, first[1]]
    else:
        runs = [kept, named, kept_of_others, others, *first, *rest]
    return [run for run in runs if run]


def folder_of(name: str) -> str:
    """The folder of a file."""
    return name.rpartition("/")[0]


#: Where tests stand; those of the app only where they name the module.
TESTS = ("tests/drafting", "tests/app")
#: Tests of every garment, which touch all that is planted.
EVERY_GARMENT = ("tests/drafting/test_every_garment.py", "tests/drafting/test_every_garment_made.py")
#: Tests that compare what every garment offers and tells with what was read and kept.
KEPT = ("tests/drafting/test_told.py", "tests/drafting/test_offered.py")
#: The garment whose tests are tried before those of the others, where a module belongs to none.
FIRST = "cut_in_one"
#: Tests of many people or of many layouts: they take longer than a fault is worth.
SLOW = {"tests/drafting/test_bdims.py", "tests/drafting/test_layout_outside.py"}


def _imported(file: Path) -> set[str]:
    """The modules of the project that a test names in its imports."""
    found: set[str] = set()
    for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom) and node.module and node.module.startswith("drafting"):
            found |= {node.module, *(f"{node.module}.{alias.name}" for alias in node.names)}
        elif isinstance(node, ast.Call) and getattr(node.func, "id", "") == "import_module" and node.args:
            text = node.args[0]
            parts = text.values if isinstance(text, ast.JoinedStr) else [text]
            start = parts[0].value if isinstance(parts[0], ast.Constant) else ""
            found |= {str(start).rstrip(".")} if str(start).startswith("drafting") else set()
    return found


# --- Planting ---------------------------------------------------------------------------------------------------------


class Copy:
    """A copy of the checkout in which faults are planted one after the other."""

    def __init__(self, root: Path, place: Path) -> None:
        """Copy every file that is or may be kept, but no more."""
        self.place, self._clock = place, int(time.time())
        listed = subprocess.run(
            ["git", "ls-files", "-z", "--cached", "--others", "--exclude-standard"],
            cwd=root, capture_output=True, check=True, text=True,
        ).stdout  # fmt: skip
        for name in filter(None, listed.split("\0")):
            source, target = root / name, place / name
            if source.is_file():
                target.parent.mkdir(parents=True, exist_ok=True)
                shutil.copy2(source, target)

    def write(self, path: str, source: str) -> None:
        """Write a file as if later than all before, so that nothing compiled of it is used again."""
        self._clock += 2
        target = self.place / path
        target.write_text(source, encoding="utf-8")
        os.utime(target, (self._clock, self._clock))

    def judge(self, fault: Fault, python: str, runs: Sequence[Run], patience: float) -> str:
        """What the tests make of a fault: "noticed", "survived", or "time is up"."""
        source = (self.place / fault.path).read_text(encoding="utf-8")
        wrong = fault.planted(source)
        ast.parse(wrong)  # what is no Python any more would be noticed by anything
        self.write(fault.path, wrong)
        try:
            end = time.monotonic() + patience
            for tests in runs:
                outcome = self._run(python, tests, end - time.monotonic())
                if outcome != "survived":
                    return outcome
            return "survived"
        finally:
            self.write(fault.path, source)

    def _run(self, python: str, tests: Run, patience: float) -> str:
        command = [python, "-m", "pytest", "-x", "-q", "--no-header", "-p", "no:cacheprovider", *tests]
        around = {**environment.surroundings(), "PYTHONPATH": str(self.place)}
        around.pop("PYTHONDONTWRITEBYTECODE", None)
        process = subprocess.Popen(
            command, cwd=self.place, env=around, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
            start_new_session=True,
        )  # fmt: skip
        try:
            code = process.wait(timeout=max(1.0, patience))
        except subprocess.TimeoutExpired:
            return "time is up"
        finally:
            _end(process)
        if code not in (0, 1, 2, 5):
            raise RuntimeError(f"pytest ended with {code}: {' '.join(command)}")
        return "survived" if code in (0, 5) else "noticed"  # 5: it has no such test


def _end(process: subprocess.Popen[bytes]) -> None:
    """Ends a process of ours, and what it started, where it still runs."""
    if process.poll() is None:
        if hasattr(os, "killpg"):
            os.killpg(process.pid, 9)
        else:
            process.kill()
        process.wait()


Say = Callable[[str], None]


def plant(
    faults: Sequence[Fault],
    python: str,
    *,
    root: Path = environment.ROOT,
    at_once: int = 1,
    patience: float = PATIENCE,
    tests: Callable[[str, Path], Sequence[Run]] = runs_for,
    say: Say = print,
) -> dict[Fault, str]:
    """Plants each fault in a copy of the checkout and says what came of it."""
    found: dict[Fault, str] = {}
    with tempfile.TemporaryDirectory(prefix="planted-") as folder:
        copies: SimpleQueue[Copy] = SimpleQueue()
        for number in range(at_once):
            copies.put(Copy(root, Path(folder) / str(number)))

        def one(fault: Fault) -> tuple[Fault, str]:
            copy = copies.get()
            try:
                return fault, copy.judge(fault, python, tests(fault.path, copy.place), patience)
            finally:
                copies.put(copy)

        with ThreadPoolExecutor(at_once) as workers:
            waiting = [workers.submit(one, fault) for fault in faults]
            try:
                for done in as_completed(waiting):
                    fault, outcome = done.result()
                    found[fault] = outcome
                    say(f"{outcome:>10}  {fault}")
            finally:
                workers.shutdown(wait=False, cancel_futures=True)
    return {fault: found[fault] for fault in faults}


def summary(found: dict[Fault, str]) -> tuple[str, bool]:
    """The share that was noticed by folder and in all, every survivor, and whether enough were noticed."""
    lines: list[str] = []
    folders = Counter(fault.path.rpartition("/")[0] for fault in found)
    for folder, count in sorted(folders.items()):
        noticed = sum(what == "noticed" for fault, what in found.items() if fault.path.rpartition("/")[0] == folder)
        lines.append(f"{noticed:5} of {count:5} noticed in {folder}")
    left = [f"  {what}: {fault}" for fault, what in found.items() if what != "noticed"]
    if left:
        lines += ["", "Not noticed:", *left]
    noticed = sum(what == "noticed" for what in found.values())
    share = noticed / len(found) if found else 1.0
    lines += ["", f"{noticed} of {len(found)} planted faults were noticed: {share:.0%}; {WANTED:.0%} is wanted."]
    return "\n".join(lines), share >= WANTED


def main(options: Sequence[str]) -> int:
    """Reads the command line; 0 where enough faults were noticed."""
    parser = argparse.ArgumentParser(prog="build/test --planted", description=__doc__.splitlines()[0])
    parser.add_argument("count", nargs="?", type=int, help="so many faults, chosen at random; all where left out")
    parser.add_argument("--seed", type=int, default=0, help="another choice for another number")
    parser.add_argument("--in", dest="fields", action="append", metavar="PATH", help="only in this folder or file")
    parser.add_argument("--at-once", type=int, default=os.cpu_count() or 1, help="so many copies side by side")
    parser.add_argument("--patience", type=float, default=PATIENCE, help="seconds of testing for one fault")
    parser.add_argument("--list", action="store_true", help="only say which faults would be planted")
    wanted = parser.parse_args(options)
    chosen = sample(all_faults(environment.ROOT, wanted.fields or FIELDS), wanted.count, wanted.seed)
    if wanted.list:
        print("\n".join(map(str, chosen)))
        return 0
    python = str(environment.ensure("test"))
    found = plant(
        chosen, python, at_once=max(1, wanted.at_once), patience=wanted.patience,
        say=lambda line: print(line, flush=True),
    )  # fmt: skip
    said, enough = summary(found)
    print(f"\n{said}")
    return 0 if enough else 1


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
