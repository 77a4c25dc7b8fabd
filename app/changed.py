"""What was changed after a garment's chalking began, and which chalked marks a new draft would move.

The frozen draft stays as it is. This only compares: the frozen order with the present one, as they were typed, and the
marks of the frozen draft with those of the present draft.
"""

import hashlib
import json
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from math import dist
from typing import Any

from app.compared import Difference, differences
from app.presets import garment_named
from app.state import Drafted, FrozenDraft, GarmentRecord, PersonRecord
from app.text import WORDS, words
from app.typed import PERCENTS, TAPES, number, order_of
from drafting.garments import Garment, garments
from drafting.order import Result
from drafting.person.measures import MEASURES, Kind
from drafting.sentences import lower_first
from drafting.units import Unit, read_length, say_length

UNREAD = "unread"
"""Stands for choices of which one cannot be read."""
MOVED = 0.5
"""From here on a mark moves, mm: half a chalk line (our choice)."""


@dataclass(frozen=True, slots=True)
class Moves:
    """Which of the chalked marks a new draft would put elsewhere.

    `count` of `every` marks that both have move, mark `number` of the piece `label` by the most, `far` mm. `others`:
    the new draft has marks that were not there, or lacks some. Marks of a piece that is traced from another one are
    not chalked, and not counted.
    """

    count: int
    every: int
    number: int
    label: str
    far: float
    others: bool


@dataclass(frozen=True, slots=True)
class Changed:
    """What is no longer as it was chalked: a whole sentence for each choice or measure, and what becomes of the marks.

    `moves` is None while it is not known, or where there would be no marks (`stopped`), or those of `another` garment.
    `print` stands for what the choices are now, so that somebody who keeps what is chalked is not told of the same
    again.
    """

    says: tuple[str, ...]
    moves: Moves | None
    stopped: bool
    print: str
    another: bool = False


def changed_of(
    garment: GarmentRecord, person: PersonRecord | None, frozen: FrozenDraft | None, drafted: Drafted | None
) -> Changed | None:
    """What was changed since it was frozen; None where nothing was, nothing moves by it, or it was kept already."""
    if frozen is None or not garment.chalking:
        return None
    try:
        found = differences(frozen.order, garment, person)
    except (ValueError, KeyError, TypeError, AttributeError):
        return None
    now = order_of(garment, person)[0]
    if now is None:  # somebody is typing, or left something that cannot be read
        return None if garment.kept == UNREAD else Changed((words("changed.unread"),), None, True, UNREAD)
    another = any(each.folder == "garment" for each in found)
    mark = _print(_flat(now) | ({"garment": garment.garment} if another else {}))
    of = garment_named(garment.garment)
    told = tuple(_told(each, now["person"]["kind"], of) for each in found)
    if not told or mark == garment.kept:
        return None
    known = drafted is not None and drafted.garment == garment.id and drafted.typed == now and drafted.laid
    if drafted is None or not known:
        return Changed(told, None, False, mark, another)
    result = drafted.result
    if result is None or result.plan is None:
        return Changed(told, None, True, mark, another)
    if another:
        return Changed(told, None, False, mark, another)
    moves = _moves(frozen.draft, result)
    return Changed(told, moves, False, mark)


def moved_words(changed: Changed, unit: Unit) -> str:
    """What becomes of the chalked marks, in whole sentences."""
    moves = changed.moves
    if changed.stopped:
        return words("changed.stopped")
    if changed.another:
        return words("changed.another")
    if moves is None:
        return words("changed.waiting")
    if not moves.count:
        return words("changed.others" if moves.others else "changed.still")
    far = say_length(moves.far, unit)
    piece = moves.label.lower()
    if moves.count == 1:
        says = words("changed.moves.1", all=moves.every, number=moves.number, piece=piece, far=far)
    else:
        says = words("changed.moves", count=moves.count, all=moves.every, number=moves.number, piece=piece, far=far)
    return f"{says} {words('changed.others.too')}" if moves.others else says


def _flat(order: Mapping[str, Any]) -> dict[str, Any]:
    """What a draft is made from, by one key each; names and days are no part of it."""
    person = order["person"]
    found: dict[str, Any] = {"person.kind": person["kind"], "person.age": person.get("age")}
    found |= {f"measures.{key}": (value, person["unit"]) for key, value in person.get("measures", {}).items()}
    for key, value in order.get("style", {}).items():
        each = {f"{key}.{name}": one for name, one in value.items()} if isinstance(value, Mapping) else {key: value}
        found |= {f"style.{name}": (one, person["unit"]) for name, one in each.items()}
    found |= {f"cloth.{key}": (value, person["unit"]) for key, value in order["cloth"].items()}
    tape = order.get("tape", {})
    found |= {f"tape.{key}": tape.get(key) for key in ("step", "line")}
    found["tape.length"] = (tape.get("length"), tape.get("unit", "cm"))
    return {
        key: value
        for key, value in found.items()
        if (value[0] if isinstance(value, tuple) else value) not in (None, "")
    }


def _print(flat: Mapping[str, Any]) -> str:
    return hashlib.sha256(json.dumps(flat, sort_keys=True).encode()).hexdigest()[:16]


def _told(each: Difference, kind: Kind, garment: Garment) -> str:
    """One difference in a whole sentence; a length is said in the person's unit."""
    what = _label(each, kind, garment)
    both = zip((each.was, each.now), each.units, strict=True)
    was, now = (None if text is None else _value(each, text, unit, garment) for text, unit in both)
    if (was is None and now is None) or "" in (was, now):
        return words("changed.other", what=what)
    if was is None:
        return words("changed.added", what=what, now=now)
    if now is None:
        return words("changed.gone", what=what, was=was)
    return words("changed.one", what=what, was=was, now=now)


def _label(each: Difference, kind: Kind, garment: Garment) -> str:
    if each.folder == "garment":
        return words("changed.garment")
    if each.folder == "measures":
        return MEASURES[each.key].label_for(kind) if each.key in MEASURES else each.key
    if each.folder == "tape" and each.key != "length":
        return words("cloth.tape" if each.key == "tape" else "changed.line")
    field = garment.field(each.key) if each.folder == "style" else None
    if field is not None:
        return field.words
    key = f"{each.folder}.{each.key}"
    for asked in (f"{key}.label", key):
        if asked in WORDS:
            return WORDS[asked]
    return words("changed.choice")


def _value(each: Difference, text: str, unit: Unit, garment: Garment) -> str:
    """How a text of a difference is said, its bare numbers in this unit; empty where it has no words of its own."""
    if each.folder == "garment":
        return lower_first(garments()[text].label) if text in garments() else ""
    field = garment.field(each.key) if each.folder == "style" else None
    if field is not None and text in field.values:
        return field.option(text).lower()
    for asked in (f"{each.folder}.{each.key}.{text}", f"{each.key}.{text}"):
        if asked in WORDS:
            return WORDS[asked]
    if each.folder == "tape" and each.key == "tape":
        return next((WORDS[f"tape.{name}"] for step, name in TAPES if step == text), "")
    if each.key in PERCENTS:
        return words("changed.percent", value=text)
    length = read_length(text, unit, signed=True) if each.is_length else None
    if isinstance(length, float):
        return say_length(length, each.units[1])
    return text if number(text) is not None else ""


@lru_cache(maxsize=2)
def _marks(draft: str) -> Mapping[tuple[str, str], tuple[float, float, int, str]]:
    """The frozen marks that are chalked, by piece and id: their place in mm, their number, and their piece's name."""
    read = json.loads(draft)
    chalked = {(step["piece"], mark) for step in read["chalk"] for mark in step["marks"]}
    found: dict[tuple[str, str], tuple[float, float, int, str]] = {}
    for piece in read["pieces"]:
        name, label = piece["name"], piece.get("label", piece["name"])
        for mark in piece["marks"]:
            if (name, mark["id"]) in chalked:
                found[name, mark["id"]] = (float(mark["x"]), float(mark["y"]), int(mark["order"]), label)
    return found


def _moves(draft: str, result: Result) -> Moves | None:
    assert result.plan is not None
    try:
        before = _marks(draft)
    except (ValueError, KeyError, TypeError):
        return None
    chalked = {(step.piece, mark) for step in result.plan.steps for mark in step.marks}
    after = {
        (piece.piece, mark.id): (mark.point.x, mark.point.y)
        for piece in result.plan.pieces
        for mark in piece.every
        if (piece.piece, mark.id) in chalked
    }
    both = [key for key in before if key in after]
    away = {key: dist(before[key][:2], after[key]) for key in both}
    moved = [key for key in both if away[key] >= MOVED]
    farthest = max(moved, key=lambda key: away[key], default=None)
    number, label, far = (0, "", 0.0) if farthest is None else (*before[farthest][2:], away[farthest])
    return Moves(len(moved), len(both), number, label, far, len(both) < max(len(before), len(after)))
