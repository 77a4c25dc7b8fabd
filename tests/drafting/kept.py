"""What somebody read and found good, kept as text beside the tests, and compared with what comes now."""

import os
import re
from collections.abc import Iterable
from itertools import zip_longest
from pathlib import Path

KEEP = bool(os.environ.get("KEEP_TREES"))
"""Whether what comes now is kept instead of compared."""
#: Numbers that differ by no more than this are alike: two machines need not round alike.
WITHIN = 0.11
NUMBER = re.compile(r"-?\d+(?:\.\d+)?")


def differing(kept: Iterable[str], now: Iterable[str], within: float = WITHIN) -> list[str]:
    """The lines that differ, as they were and as they are; of each only that it is there, where the other is not."""
    found = []
    for was, comes in zip_longest(kept, now, fillvalue="nothing"):
        if was != comes and not _alike(was, comes, within):
            found.append(f"- {was}\n+ {comes}")
    return found


def _alike(was: str, comes: str, within: float) -> bool:
    if NUMBER.sub("#", was) != NUMBER.sub("#", comes):
        return False
    pairs = zip(NUMBER.findall(was), NUMBER.findall(comes), strict=True)
    return all(abs(float(one) - float(other)) <= within for one, other in pairs)


def missing(wanted: Iterable[str], among: Iterable[str], within: float) -> list[str]:
    """The lines that are like none among others, wherever those stand."""
    by_words: dict[str, list[str]] = {}
    for line in among:
        by_words.setdefault(NUMBER.sub("#", line), []).append(line)
    return [
        line for line in wanted if not any(_alike(one, line, within) for one in by_words.get(NUMBER.sub("#", line), ()))
    ]


def told_as_kept(place: Path, lines: Iterable[str], within: float) -> None:
    """As `as_kept`, where of lines that are told several times only the first is kept.

    Which of two lines that differ by a hair are one, the last bits decide: so each line is looked for among all.
    """
    every = list(lines)
    if KEEP:
        place.parent.mkdir(exist_ok=True)
        place.write_text("\n".join([*dict.fromkeys(every), ""]), encoding="utf-8")
    assert place.exists(), f"nothing is kept in {place.name}: read it, and keep it as the head of the test says"
    kept = place.read_text(encoding="utf-8").splitlines()
    found = [f"- {line}" for line in missing(kept, every, within)] + [
        f"+ {line}" for line in missing(dict.fromkeys(every), kept, within)
    ]
    assert not found, f"{len(found)} lines are not those that were read:\n" + "\n".join(found[:20])


def as_kept(place: Path, lines: Iterable[str], within: float = WITHIN) -> None:
    """Fails where the lines are not those that are kept there; with KEEP_TREES set they are kept instead."""
    now = list(lines)
    if KEEP:
        place.parent.mkdir(exist_ok=True)
        place.write_text("\n".join([*now, ""]), encoding="utf-8")
    assert place.exists(), f"nothing is kept in {place.name}: read it, and keep it as the head of the test says"
    found = differing(place.read_text(encoding="utf-8").splitlines(), now, within)
    assert not found, f"{len(found)} lines are not those that were read:\n" + "\n".join(found[:20])
