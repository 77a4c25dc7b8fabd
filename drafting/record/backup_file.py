"""The text of a backup as plain data: whether a file is one, of which version, and the orders that it holds.

The app writes it and reads all of it (app.backup). What a program needs to draft from it stands here: each garment's
order as it was when the backup was made, and the one that its chalking was begun with.
"""

import json
import math
import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Literal

from drafting.problems import Problem
from drafting.record.order_text import read_text
from drafting.record.packed import unpacked

FORMAT = "foldmark-backup"
VERSION = 1
#: Bytes of the largest backup that is read. Our choice: 2,000 people and 5,000 garments take a third of it.
MOST_BYTES = 40_000_000
SAME = 0.001
"""How far two places may lie apart and be the same, mm: two Pythons may round the last digit otherwise."""

#: An id stands in addresses, in the keys of a store and in the names of folders, so it is made of plain letters.
ID = re.compile(r"[A-Za-z0-9_-]{1,40}")

Judged = Literal["sound", "foreign", "newer", "damaged"]


@dataclass(frozen=True, slots=True)
class KeptOrder:
    """A garment of a backup: its id, what it is called, its person's name, and its order as plain data.

    `order` is None where something that is needed was not known yet. Where its chalking had begun, it is the order that
    the marks were made from, `frozen` is the draft.json they are read from, and `papers` is the text of what its papers
    are made of, "" where that was not kept.
    """

    garment: str
    title: str
    person: str
    order: Mapping[str, Any] | None
    frozen: str | None = None
    papers: str = ""

    @property
    def called(self) -> str:
        """Its id, with what it is called and whose it is, where that is known."""
        told = f", for {self.person}" if self.person else ""
        return f"{self.garment}: {self.title}{told}" if self.title else f"{self.garment}{told}"


def judged(typed: Any) -> Judged:
    """What plain data is: a backup of this version, a newer one, one with a version that cannot be, or none."""
    if not isinstance(typed, dict) or typed.get("format") != FORMAT:
        return "foreign"
    version = typed.get("version")
    if not isinstance(version, int) or isinstance(version, bool) or version < 1:
        return "damaged"
    return "newer" if version > VERSION else "sound"


def kept_orders(typed: Any) -> tuple[tuple[KeptOrder, ...], tuple[Problem, ...]]:
    """The orders of a backup in its order, or what is wrong with it."""
    match judged(typed):
        case "foreign":
            return (), (_problem("format", "this is no backup of Foldmark", "check its name"),)
        case "newer":
            return (), (_problem("version", "a newer version of Foldmark wrote this backup", "update Foldmark first"),)
        case "damaged":
            return (), (_problem("version", "this is no version of a backup", "take another copy of it"),)
    try:
        people = {str(each["id"]): str(each.get("name", "")) for each in typed["people"]}
        found = tuple(_kept(typed, each, people) for each in typed["garments"])
    except (AttributeError, KeyError, TypeError, ValueError):
        return (), (_problem("garments", "people and garments cannot be read", "take another copy of it"),)
    return found, ()


def _kept(typed: Mapping[str, Any], garment: Mapping[str, Any], people: Mapping[str, str]) -> KeptOrder:
    key = garment["id"]
    if not ID.fullmatch(key):
        raise ValueError(key)
    order = typed["orders"].get(key)
    kept = typed["frozen"].get(key) if garment.get("chalking") is True else None
    frozen, papers = None, ""
    if kept is not None:
        papers = unpacked(kept.get("papers", "")) or ""
        frozen = unpacked(kept["draft"])
        order = _plain(kept["order"])
        if frozen is None or order is None:
            raise ValueError(key)
    if order is not None and not isinstance(order, dict):
        raise TypeError(key)
    title, name = str(garment.get("title", "")).strip(), people.get(str(garment.get("person", "")), "").strip()
    return KeptOrder(key, title, name, order, frozen, papers)


def _plain(text: str) -> Any:
    found, problems = read_text(text.encode())
    if problems:
        raise ValueError("order")
    return found


Marks = Mapping[tuple[str, str], tuple[str, str, float, float]]
"""Marks by their piece and id: what the tape reads across and down, and x and y, mm."""


def same_marks(frozen: str, now: bytes | Marks) -> bool:
    """Whether a draft.json has the same marks as another, or as those given: same readings, places within SAME."""
    try:
        one = _marks(json.loads(frozen))
        other = _marks(json.loads(now)) if isinstance(now, bytes) else now
        return one.keys() == other.keys() and all(
            told[:2] == other[mark][:2] and math.dist(told[2:], other[mark][2:]) <= SAME for mark, told in one.items()
        )
    except (AttributeError, KeyError, TypeError, ValueError, RecursionError):
        return False


def _marks(draft: Mapping[str, Any]) -> Marks:
    return {
        (piece["name"], mark["id"]): (mark["across"], mark["down"], mark["x"], mark["y"])
        for piece in draft["pieces"]
        for mark in piece["marks"]
    }


def _problem(field: str, wrong: str, fix: str) -> Problem:
    return Problem("backup", field, "refuse", wrong, fix)
