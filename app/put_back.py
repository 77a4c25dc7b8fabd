"""The choices of a garment put back as they were when its chalking began.

They are compared as lengths and words, so that another unit or another way of writing the same is left alone.
"""

import json
from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Any, get_args

from app.state import GarmentRecord, Kind, PersonRecord, Tape
from app.typed import NOT_LENGTHS, NOTES, keep_lengths, number, order_of, records_of, text_of
from drafting.units import LengthProblem, Unit, read_length

SAME = 0.05
"""Lengths that differ by less are the same, mm: below what anybody types."""
FOLDERS = ("measures", "person", "style", "cloth", "tape")


@dataclass(frozen=True, slots=True)
class Difference:
    """One choice that differs: `folder` is one of FOLDERS, `was` and `now` the texts; None where there is nothing.

    Bare numbers of `was` stand in the unit of the frozen order, those of `now` in the person's.
    """

    folder: str
    key: str
    was: str | None
    now: str | None


def differences(order: str, garment: GarmentRecord, person: PersonRecord | None) -> tuple[Difference, ...]:
    """The choices of a frozen order that differ from the present ones, in the order of an order.

    Names, titles and dates are left out, since no mark depends on them.
    """
    frozen = _order(order)
    was_garment, was_person = records_of(frozen, garment.id, garment.person)
    now = person or PersonRecord(garment.person)
    units = was_person.unit, now.unit
    tape_was, tape_now = _tape(was_garment), _tape(garment)
    found = [
        *_texts("measures", was_person.measures, now.measures, units),
        *_texts("person", {"kind": was_person.kind, "age": was_person.age}, {"kind": now.kind, "age": now.age}, units),
        *_texts("style", was_garment.style, garment.style, units),
        *_texts("cloth", was_garment.cloth, _ordered(garment, person), units),
        *_texts("tape", tape_was, tape_now, units),
    ]
    return tuple(found)


@lru_cache(maxsize=4)
def _order(text: str) -> dict[str, Any]:
    read: dict[str, Any] = json.loads(text)
    return read


def _tape(garment: GarmentRecord) -> dict[str, str]:
    return {"tape": garment.tape, "length": garment.tape_length, "line": garment.line}


def _ordered(garment: GarmentRecord, person: PersonRecord | None) -> dict[str, str]:
    """The texts of the cloth that belong to an order: no notes of the stretch test or of the lay screen."""
    empty = PersonRecord("") if person is None else person
    ordered = order_of(replace(garment, style={}), empty)[0]
    if ordered is None:  # something cannot be read: whatever is typed there is another than was chalked
        return {key: text for key, text in garment.cloth.items() if not key.startswith(("test_", NOTES))}
    return {key: text_of(value) for key, value in ordered["cloth"].items()}


def _texts(folder: str, was: Mapping[str, str], now: Mapping[str, str], units: tuple[Unit, Unit]) -> list[Difference]:
    found: list[Difference] = []
    for key in dict.fromkeys((*was, *now)):
        before, after = was.get(key, "").strip(), now.get(key, "").strip()
        if key in NOT_LENGTHS:
            same = before == after or (number(before) is not None and number(before) == number(after))
        elif folder == "person" or (folder == "tape" and key != "length"):
            same = before == after
        else:
            same = _same(before, after, units)
        if not same:
            found.append(Difference(folder, key, before or None, after or None))
    return found


def _same(was: str, now: str, units: tuple[Unit, Unit]) -> bool:
    if was == now and (units[0] == units[1] or not was):
        return True
    lengths = read_length(was, units[0], signed=True), read_length(now, units[1], signed=True)
    if isinstance(lengths[0], LengthProblem) or isinstance(lengths[1], LengthProblem):
        return was == now
    return abs(lengths[0] - lengths[1]) < SAME


def put_back(garment: GarmentRecord, person: PersonRecord, order: str) -> tuple[GarmentRecord, PersonRecord]:
    """The garment and its person with every choice as it was when the chalking began.

    Only what differs is touched, and lengths stay the same lengths in the person's unit of now.
    """
    unit: Unit = _order(order)["person"]["unit"]
    to = person.unit
    for each in differences(order, garment, person):
        text = each.was
        if text is not None and (each.folder in ("measures", "style", "cloth") or each.key == "length"):
            text = keep_lengths({each.key: text}, unit, to)[each.key]
        if each.folder == "measures":
            person = replace(person, measures=_with(person.measures, each.key, text))
        elif each.folder == "person":
            kind = next((known for known in get_args(Kind) if known == text), person.kind)
            person = replace(person, kind=kind) if each.key == "kind" else replace(person, age=text or "")
        elif each.folder == "style":
            garment = replace(garment, style=_with(garment.style, each.key, text))
        elif each.folder == "cloth":
            garment = replace(garment, cloth=_with(garment.cloth, each.key, text))
        elif each.key == "length":
            garment = replace(garment, tape_length=text or "")
        elif each.key == "line":
            garment = replace(garment, line="stitch" if text == "stitch" else "cut")
        elif each.key == "tape":
            garment = replace(garment, tape=_tape_of(text))
    return garment, person


def _tape_of(text: str | None) -> Tape:
    return next((each for each in get_args(Tape) if each == text), "0.5")


def _with(texts: dict[str, str], key: str, text: str | None) -> dict[str, str]:
    return texts | {key: text} if text is not None else {each: texts[each] for each in texts if each != key}
