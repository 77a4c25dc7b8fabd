"""From what was typed to an order for the core, and from the core's problems back to the fields.

Empty fields are left out, so that their defaults hold. Lengths go on as they were typed: reading
them is the core's work.
"""

import json
from collections.abc import Collection, Mapping
from typing import Any

from app.presets import garment_named
from app.state import GarmentRecord, PersonRecord, Tape
from drafting.cloth import KIND_WORDS, ClothKind, kind_meant
from drafting.problems import Problem
from drafting.units import LengthProblem, Unit, read_length

PERCENTS = frozenset({"stretch_across", "stretch_along", "shrink_across", "shrink_along"})
NOT_LENGTHS = PERCENTS | {"kind", "lay", "lay_price", "lay_with"}
"""Keys of a cloth whose texts are no lengths, so that a unit never belongs behind them."""
NEEDED_CLOTH = ("width", "stretch_across", "stretch_along")
"""What must be known of a cloth before anything can be drafted; of woven cloth no stretch."""
STRETCHES = ("stretch_across", "stretch_along", "recovery")
"""What is asked only of cloth that stretches."""
GROUPED = "."
"""What stands between a group of the style and a key of it."""
TAPES: tuple[tuple[Tape, str], ...] = (("0.5", "cm5"), ("0.1", "cm1"), ("1/8", "in8"), ("1/4", "in4"))
"""Each tape by its smallest step, with the key of its name."""
NOTES = "lay_"
"""How keys of a cloth begin that are asked on the lay screen and are no part of an order."""


def number(text: str) -> float | None:
    """A plain number with a point or a comma, a sign of per cent or degree after it allowed; None when it is none."""
    plain = text.strip().rstrip("%°").strip().replace(",", ".").replace("−", "-")
    try:
        value = float(plain)
    except ValueError:
        return None
    return value if abs(value) < 1e9 else None


def plain(value: float) -> str:
    """A number as a person writes it: no needless zeros."""
    return f"{round(value, 2):g}"


def keep_length(text: str, before: Unit, after: Unit) -> str:
    """The text, with its old unit written behind it where the change of unit would give it another length."""
    old, new = read_length(text, before), read_length(text, after)
    if isinstance(old, LengthProblem) or isinstance(new, LengthProblem) or old == new:
        return text
    return f"{text.strip()} {before}"


def keep_lengths(
    texts: Mapping[str, str], before: Unit, after: Unit, not_lengths: Collection[str] = NOT_LENGTHS
) -> dict[str, str]:
    """All the texts that are lengths, kept as `keep_length` does; plain numbers stay as they are."""
    return {
        key: text if key in not_lengths or key.startswith("test_") else keep_length(text, before, after)
        for key, text in texts.items()
    }


def kind_of(garment: GarmentRecord) -> ClothKind:
    """What kind of cloth a garment is planned of: as was chosen, else what the garment is made of, or a knit."""
    said = next((kind for kind in KIND_WORDS if kind == garment.cloth.get("kind")), None)
    stretch = max((number(garment.cloth.get(key, "")) or 0.0) for key in STRETCHES[:2])
    return kind_meant(said, stretch, garment_named(garment.garment).cloths)


def needed_cloth(garment: GarmentRecord) -> tuple[str, ...]:
    """What must be known of the cloth of a garment before it can be drafted."""
    return tuple(key for key in NEEDED_CLOTH if kind_of(garment) == "knit" or key not in STRETCHES)


def cloth_is_known(garment: GarmentRecord) -> bool:
    """Whether all of that is written down."""
    return all(garment.cloth.get(key, "").strip() for key in needed_cloth(garment))


def order_of(garment: GarmentRecord, person: PersonRecord | None) -> tuple[dict[str, Any] | None, tuple[Problem, ...]]:
    """The order as plain data, and what cannot be read as a number. None while something needed is not there."""
    problems: list[Problem] = []
    if person is None:
        problems.append(Problem("person_missing", "person", "refuse", "nobody is chosen", "choose who it is for"))
        return None, tuple(problems)
    order = {
        "format": "foldmark-order",
        "version": 1,
        "title": garment.title.strip(),
        "person": person_of(person, problems),
        "garment": garment.garment,
        "style": _style(garment, problems),
        "cloth": _cloth(garment, problems),
        "tape": _tape(garment, person.unit),
    }
    return (None if problems else order), tuple(problems)


def _tape(garment: GarmentRecord, unit: Unit) -> dict[str, Any]:
    """The tape's part of an order. Its length is typed in the person's unit; the order takes it for the tape's own."""
    tape_unit: Unit = "in" if "/" in garment.tape else "cm"
    typed = garment.tape_length.strip()
    length = {"length": keep_length(typed, unit, tape_unit)} if typed else {}
    return {"unit": tape_unit, "step": garment.tape, "line": garment.line, **length}


def person_of(person: PersonRecord, problems: list[Problem]) -> dict[str, Any]:
    """The person's part of an order."""
    age: int | None = None
    if person.age.strip():
        read = number(person.age)
        if read is None or read != int(read):
            fix = "write the years as a whole number, such as 7"
            problems.append(Problem("age_unreadable", "person.age", "refuse", "the age cannot be read", fix))
        else:
            age = int(read)
    measures = {key: text for key, text in person.measures.items() if text.strip()}
    told = [name for name in person.told if name in measures]
    return {
        "name": person.name.strip(),
        "kind": person.kind,
        "age": age,
        "unit": person.unit,
        "taken_on": person.taken_on.strip() or None,
        "measures": measures,
    } | ({"told": told} if told else {})


def _style(garment: GarmentRecord, problems: list[Problem]) -> dict[str, Any]:
    style: dict[str, Any] = {}
    numbers = garment_named(garment.garment).numbers
    for key, text in garment.style.items():
        if not text.strip():
            continue
        value: Any = text.strip()
        if key in numbers:
            value = number(text)
            if value is None:
                wrong, fix = "this is not a number", "write a number such as 20, or leave it empty"
                problems.append(Problem("number_unreadable", f"style.{key}", "refuse", wrong, fix))
                continue
        group, _, name = key.rpartition(GROUPED)
        if group:
            style.setdefault(group, {})[name] = value
        else:
            style[key] = value
    return style


def _cloth(garment: GarmentRecord, problems: list[Problem]) -> dict[str, Any]:
    cloth: dict[str, Any] = {}
    woven = kind_of(garment) == "woven"
    for key in needed_cloth(garment):
        if not garment.cloth.get(key, "").strip():
            wrong, fix = _NEEDED[key]
            problems.append(Problem("cloth_missing", f"cloth.{key}", "refuse", wrong, fix))
    for key, text in garment.cloth.items():
        if not text.strip() or key.startswith(("test_", NOTES)) or (woven and key in STRETCHES):
            continue
        if key in PERCENTS:
            value = number(text)
            if value is None:
                wrong, fix = "this is not a number", "write a number such as 40, or test the cloth"
                problems.append(Problem("number_unreadable", f"cloth.{key}", "refuse", wrong, fix))
                continue
            cloth[key] = value
        elif key == "one_way":
            cloth[key] = text == "yes"  # not yet answered is left out
        else:
            cloth[key] = text.strip()
    return cloth


_NEEDED = {
    "width": ("the width of the cloth is missing", "measure it opened out, from edge to edge"),
    "stretch_across": ("the stretch across the cloth is missing", "test it, or write the percentage"),
    "stretch_along": ("the stretch along the cloth is missing", "test it, or write the percentage"),
}


def records_of(order: Mapping[str, Any], garment: str, person: str) -> tuple[GarmentRecord, PersonRecord]:
    """The records that give back this order; used for the demo and for the changes of a way out."""
    who, cloth, tape = order["person"], order["cloth"], order.get("tape", {})
    style: dict[str, str] = {}
    for key, value in order.get("style", {}).items():
        if isinstance(value, Mapping):
            style.update({key + GROUPED + name: text_of(each) for name, each in value.items() if each is not None})
        elif value is not None:
            style[key] = text_of(value)
    return (
        GarmentRecord(
            garment,
            str(order.get("title", "")),
            person,
            style,
            {key: text_of(value) for key, value in cloth.items() if value is not None},
            tape.get("step", "0.5"),
            keep_length(text_of(tape.get("length") or ""), tape.get("unit", "cm"), who["unit"]),
            "stitch" if tape.get("line") == "stitch" else "cut",
            "Letter" if tape.get("unit") == "in" else "A4",
            garment=str(order.get("garment", GarmentRecord("").garment)),
        ),
        PersonRecord(
            person,
            who.get("name", ""),
            who["kind"],
            "" if who.get("age") is None else str(who["age"]),
            who["unit"],
            who.get("taken_on") or "",
            {key: text_of(value) for key, value in who.get("measures", {}).items()},
            told=tuple(who.get("told", ())),
        ),
    )


def text_of(value: float | str | bool) -> str:
    """A value of an order as the text of its field."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    return value if isinstance(value, str) else plain(value)


def order_text(order: Mapping[str, Any]) -> str:
    """order.json, the same bytes for the same order."""
    return json.dumps(order, ensure_ascii=False, indent=1) + "\n"


def at_field(problems: tuple[Problem, ...], field: str) -> Problem | None:
    """The problem to show at a field: what refuses before what warns."""
    found = [problem for problem in problems if problem.field == field]
    return next((problem for problem in found if problem.severity == "refuse"), found[0] if found else None)


def sentence(problem: Problem) -> str:
    """A problem as one or two plain sentences."""

    def ended(words: str) -> str:
        words = words[:1].upper() + words[1:]
        return words if words.endswith((".", "?")) else f"{words}."

    return f"{ended(problem.wrong)} {ended(problem.fix)}"
