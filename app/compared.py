"""What differs between the frozen order of a garment and its choices of now: the one comparison of them.

They are compared as lengths and words, so that another unit or another way of writing the same is no difference.
"""

import json
from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Any

from app.state import GarmentRecord, PersonRecord
from app.typed import NOT_LENGTHS, NOTES, number, order_of, records_of, text_of
from drafting.units import LengthProblem, Unit, read_length

SAME = 0.05
"""Lengths that differ by less are the same, mm: below what anybody types."""
FOLDERS = ("measures", "person", "style", "cloth", "tape")


@dataclass(frozen=True, slots=True)
class Difference:
    """One choice that differs: `folder` is one of FOLDERS, `was` and `now` the texts; None where there is nothing.

    Bare numbers of `was` stand in the first of the `units`, that of the frozen order, those of `now` in the other, the
    person's.
    """

    folder: str
    key: str
    was: str | None
    now: str | None
    units: tuple[Unit, Unit] = ("cm", "cm")

    @property
    def is_length(self) -> bool:
        """Whether the texts are lengths, where they are no words."""
        return (
            self.key == "length" if self.folder == "tape" else self.folder != "person" and self.key not in NOT_LENGTHS
        )


def differences(order: str, garment: GarmentRecord, person: PersonRecord | None) -> tuple[Difference, ...]:
    """The choices of a frozen order that differ from the present ones, in the order of an order.

    Names, titles and dates are left out, since no mark depends on them.
    """
    frozen = frozen_order(order)
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
def frozen_order(text: str) -> dict[str, Any]:
    """The frozen order, read."""
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
        each = Difference(folder, key, before or None, after or None, units)
        if each.is_length:
            same = _same(before, after, units)
        else:
            same = before == after or (
                key in NOT_LENGTHS and number(before) is not None and number(before) == number(after)
            )
        if not same:
            found.append(each)
    return found


def _same(was: str, now: str, units: tuple[Unit, Unit]) -> bool:
    if was == now and (units[0] == units[1] or not was):
        return True
    lengths = read_length(was, units[0], signed=True), read_length(now, units[1], signed=True)
    if isinstance(lengths[0], LengthProblem) or isinstance(lengths[1], LengthProblem):
        return was == now
    return abs(lengths[0] - lengths[1]) < SAME
