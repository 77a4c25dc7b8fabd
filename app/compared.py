"""What differs between the frozen order of a garment and its choices of now: the one comparison of them.

They are compared as lengths and words, so that another unit or another way of writing the same is no difference.
"""

import json
from collections.abc import Collection, Mapping
from dataclasses import dataclass, field, replace
from functools import lru_cache
from typing import Any

from app.presets import garment_named
from app.state import GarmentRecord, PersonRecord
from app.typed import NOT_LENGTHS, NOTES, number, order_of, records_of, text_of
from drafting.person.measures import feeding
from drafting.units import LengthProblem, Unit, read_length

SAME = 0.05
"""Lengths that differ by less are the same, mm: below what anybody types."""
FOLDERS = ("garment", "measures", "person", "style", "cloth", "tape")


@dataclass(frozen=True, slots=True)
class Difference:
    """One choice that differs: `folder` is one of FOLDERS, `was` and `now` the texts; None where there is nothing.

    Bare numbers of `was` stand in the first of the `units`, that of the frozen order, those of `now` in the other, the
    person's. `is_length` says that the texts are lengths, where they are no words.
    """

    folder: str
    key: str
    was: str | None
    now: str | None
    units: tuple[Unit, Unit] = ("cm", "cm")
    is_length: bool = field(default=False, compare=False)


def differences(order: str, garment: GarmentRecord, person: PersonRecord | None) -> tuple[Difference, ...]:
    """The choices of a frozen order that differ from the present ones, in the order of an order.

    Names, titles and dates are left out, since no mark depends on them, and so are the measures that the garment is
    not set out from. Where it is another garment now, the two styles are not compared.
    """
    frozen = frozen_order(order)
    was_garment, was_person = records_of(frozen, garment.id, garment.person)
    now = person or PersonRecord(garment.person)
    units = was_person.unit, now.unit
    tape_was, tape_now = _tape(was_garment), _tape(garment)
    made, another = garment_named(was_garment.garment), was_garment.garment != garment.garment
    felt = feeding(made.rests_on(was_garment.style), was_person.kind)
    taken, takes = ({key: each.measures[key] for key in each.measures if key in felt} for each in (was_person, now))
    # The way of laying was put aside with the style.
    had, has = (
        {key: each[key] for key in each if not (another and key == "lay")}
        for each in (was_garment.cloth, _ordered(garment, person))
    )
    found = [
        *([Difference("garment", "garment", was_garment.garment, garment.garment, units)] if another else []),
        *_texts("measures", taken, takes, units),
        *_texts("person", _kind(was_person), _kind(now), units, {"kind", "age"}),
        *([] if another else _texts("style", was_garment.style, garment.style, units, made.numbers)),
        *_texts("cloth", had, has, units, NOT_LENGTHS),
        *_texts("tape", tape_was, tape_now, units, {"tape", "line"}),
    ]
    return tuple(found)


def _kind(person: PersonRecord) -> dict[str, str]:
    return {"kind": person.kind, "age": person.age}


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


def _texts(
    folder: str, was: Mapping[str, str], now: Mapping[str, str], units: tuple[Unit, Unit],
    not_lengths: Collection[str] = (),
) -> list[Difference]:  # fmt: skip
    found: list[Difference] = []
    for key in dict.fromkeys((*was, *now)):
        before, after = was.get(key, "").strip(), now.get(key, "").strip()
        each = Difference(folder, key, before or None, after or None, units, key not in not_lengths)
        if each.is_length:
            same = _same(before, after, units)
        else:
            same = before == after or (
                folder != "person" and number(before) is not None and number(before) == number(after)
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
