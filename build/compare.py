"""Compares what is drafted with what another commit drafts: `build/compare COMMIT [--every N] [--after N]`.

For a change that must move nothing. The eight bodies and the 507 people of the open data set are drafted in every test
style by both, and numbers must agree within 1e-9 (mm, or as they are) and words to the letter. What is compared is what
people get (draft.json, unrounded outlines, marks, girths and checks), not how the code keeps it, so records may change
their shape. `--every N` takes every Nth person only, `--after N` leaves out the first N, bodies and people together,
so that a run that was ended can be gone on with. It ends with 1 where anything differs.
"""

import argparse
import io
import json
import math
import subprocess
import sys
import tarfile
import tempfile
from collections import Counter
from collections.abc import Callable, Generator, Iterable, Iterator
from contextlib import ExitStack, closing
from importlib import import_module
from importlib.util import find_spec
from itertools import groupby, zip_longest
from operator import itemgetter
from pathlib import Path
from typing import Any

import environment

WITHIN = 1e-9
#: Differences of one kind that are shown in full.
SHOWN = 3
#: Styles beside those of the tests, by garment choices that cut further pieces or seams.
CUT_APART = {
    "lower sleeve": {"lower_sleeve": "joined", "flare": "slight"},
    "centre back": {"centre_back": "seam", "neck_opening": "centre_back", "neck_layers": "folded", "slit": "20 cm"},
    "both": {"lower_sleeve": "joined", "centre_back": "seam", "waist": "shaped"},
}


def main() -> None:
    """Reads the command line; in the checkout that drafts it is called with `--drafts-of`."""
    parser = argparse.ArgumentParser(prog="build/compare", description=__doc__.splitlines()[0])
    parser.add_argument("commit", help="what to compare with, as git names it")
    parser.add_argument("--every", type=int, default=1, metavar="N", help="every Nth person only")
    parser.add_argument("--after", type=int, default=0, metavar="N", help="leave out the first N bodies and people")
    parser.add_argument("--drafts-of", type=Path, help=argparse.SUPPRESS)
    wanted = parser.parse_args()
    if wanted.drafts_of is not None:
        draft_all(wanted.drafts_of, wanted.every, wanted.after)
    else:
        raise SystemExit(compare(str(environment.ensure("test")), wanted.commit, wanted.every, wanted.after))


def draft_all(root: Path, every: int, met: int) -> None:
    """Writes each draft of the code in `root` to standard output, one a line, without the first `met` people."""
    sys.path[:0] = [str(root), str(root / "tests" / "drafting")]
    bodies = import_module("bodies")  # of this checkout or of the other one
    people = [(name, person) for name, person in bodies.BODIES.items()]
    people += [(f"bdims {number}", person) for number, person in enumerate(bodies.bdims())][::every]
    for name, person in people[met:]:
        for style, chosen in {**bodies.STYLES, **CUT_APART}.items():
            result = bodies.draft(person, chosen)
            print(json.dumps([name, style, shown(result)]), flush=True)


def shown(result: Any) -> dict[str, Any]:
    """What a person gets of a result, and the unrounded numbers behind it."""
    draft = result.draft
    return {
        "file": written()(result).model_dump(mode="json"),
        "facts": dict(draft.facts),
        "points": {name: pair(point) for name, point in draft.points.items()},
        "girths": [[one.at, one.label, one.girth, one.body, one.after_rounding] for one in result.girths],
        "checks": [[one.id, one.result, one.says, one.value, one.limit] for one in result.checks],
        "pieces": [outline(piece) for piece in draft.pieces],
    }


def written() -> Callable[[Any], Any]:
    """What writes draft.json in the checkout that drafts; older ones keep it at the top of drafting/."""
    place = "drafting.record.draft_file" if find_spec("drafting.record") else "drafting.draft_file"
    return import_module(place).draft_file  # type: ignore[no-any-return]


def outline(piece: Any) -> dict[str, Any]:
    """A piece as its lines and places, unrounded."""
    return {
        "name": piece.name,
        "stitch": [pair(point) for point in piece.stitch_line],
        "cut": [pair(point) for point in piece.cut_line],
        "anchors": [[one.id, one.label, one.kind, one.at, pair(one.point)] for one in piece.anchors],
        "notches": [[one.seam, one.id, one.label, one.at, pair(one.inner), pair(one.outer)] for one in piece.notches],
        "clips": [[pair(a), pair(b)] for a, b in piece.clips],
    }


def pair(point: Any) -> tuple[float, float]:
    """A point as two numbers."""
    return point.x, point.y


def compare(python: str, commit: str, every: int, met: int) -> int:
    """Drafts with both, side by side, all but the first `met` people, and says what differs; 0 where nothing does."""
    with ExitStack() as held:
        folder = held.enter_context(tempfile.TemporaryDirectory())
        packed = subprocess.run(["git", "archive", commit], cwd=environment.ROOT, capture_output=True, check=True)
        with tarfile.open(fileobj=io.BytesIO(packed.stdout)) as archive:
            archive.extractall(folder)  # our own archive; the first Pythons 3.11 know no filter
        before, after = (
            held.enter_context(closing(drafts_of(python, root, every, met, named)))
            for root, named in ((Path(folder), commit), (environment.ROOT, "this checkout"))
        )
        drafts, differing, new, kinds = 0, 0, set[str](), Counter[str]()
        for one, other in paired(before, after):
            if one is None:
                new.add(other[1])  # a style that only this checkout knows
                continue
            drafts += 1
            found = list(differences(one, other, ""))
            differing += bool(found)
            for place, words in found:
                kinds[place] += 1
                if kinds[place] <= SHOWN:
                    print(f"{'; '.join((one or other)[:2])}: {place}: {words}")
    print(f"{drafts} drafts were compared with {commit}; {differing} differ.")
    for place, count in kinds.most_common():
        print(f"  {count} times at {place}")
    for style in sorted(new):
        print(f"  new here, and compared with nothing: {style}")
    return 1 if differing or not drafts else 0


def paired(before: Iterator[list[Any]], after: Iterator[list[Any]]) -> Iterator[tuple[Any, Any]]:
    """The drafts of one person in one style, side by side; None beside what only one checkout has."""
    for ours, theirs in zip_longest(groupby(after, key=itemgetter(0)), groupby(before, key=itemgetter(0))):
        made, known = ({style: [name, style, shown] for name, style, shown in (group or ("", ()))[1]}
                       for group in (ours, theirs))  # fmt: skip
        for style in dict.fromkeys((*known, *made)):
            yield known.get(style), made.get(style)


def drafts_of(python: str, root: Path, every: int, met: int, named: str) -> Generator[list[Any], None, None]:
    """The drafts of a checkout, one by one, as its own code makes them; closing it ends the process that makes them."""
    command = [python, __file__, "-", "--drafts-of", str(root), "--every", str(every), "--after", str(met)]
    surroundings = {**environment.surroundings(), "PYTHONPATH": str(root)}
    count, left_early = 0, True
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True, env=surroundings, cwd=root) as drafting:
        assert drafting.stdout is not None
        try:
            for line in drafting.stdout:
                if line.endswith("\n"):  # a process that is killed leaves its last line half written
                    yield json.loads(line)
                    count += 1
            left_early = False
        finally:
            if left_early:
                drafting.kill()
    if drafting.returncode:
        raise SystemExit(f"The drafts of {named} ended after {count}: their process ended with {drafting.returncode}.")


def differences(one: Any, other: Any, place: str) -> Iterable[tuple[str, str]]:
    """Where two drafts differ: the place without its counting, and what stands there."""
    if isinstance(one, dict) and isinstance(other, dict):
        for key in dict.fromkeys((*one, *other)):
            yield from differences(one.get(key), other.get(key), f"{place}/{key}")
    elif isinstance(one, list) and isinstance(other, list) and len(one) == len(other):
        for first, second in zip(one, other, strict=True):
            yield from differences(first, second, place)
    elif (ours := by_name(one)) and (theirs := by_name(other)):
        yield from differences(ours, theirs, place)
    elif is_number(one) and is_number(other):
        if not math.isclose(one, other, rel_tol=0.0, abs_tol=WITHIN):
            yield place, f"{one!r} is now {other!r}"
    elif type(one) is not type(other) or one != other:
        yield place, f"{one!r:.300} is now {other!r:.300}"


def by_name(value: Any) -> dict[str, Any]:
    """A list of records by their names, so that one more or less leaves the others comparable; empty for all else."""
    if not isinstance(value, list):
        return {}
    first = [
        one.get("id") if isinstance(one, dict) else one[0] if isinstance(one, list) and one else None for one in value
    ]
    names = [name for name in first if isinstance(name, str)]
    return dict(zip(names, value, strict=True)) if len(set(names)) == len(value) else {}


def is_number(value: Any) -> bool:
    """Whether a value is a number and no truth value."""
    return isinstance(value, (int, float)) and not isinstance(value, bool)


if __name__ == "__main__":
    main()
