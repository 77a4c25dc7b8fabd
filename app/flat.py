"""A garment that fits, measured flat in place of a body: what was typed of it, and the measures that it tells."""

from app.state import PersonRecord
from app.typed import number
from drafting.person.flat_fields import FLAT_CHOICES, FLAT_FIELDS
from drafting.person.from_garment import FlatGarment, FromGarment, read_flat
from drafting.problems import Problem
from drafting.units import CM, INCH, Unit

NO_LENGTHS = frozenset([each.name for each in FLAT_FIELDS if each.percent] + [each.name for each in FLAT_CHOICES])
"""The fields that hold no lengths."""
STATURE = "stature"
"""What is asked of the wearer, too: taken from the measures where it is there and not typed again."""


def typed_flat(person: PersonRecord, name: str) -> str:
    """What stands in a field: where nothing was typed the wearer's known stature, or the first option of a choice."""
    first = next((each.options[0][0] for each in FLAT_CHOICES if each.name == name), "")
    known = person.measures.get(name, "") if name == STATURE else ""
    return person.flat.get(name, known) or first


def missing_of(person: PersonRecord) -> tuple[str, ...]:
    """The labels of what must be known and was not typed yet."""
    return tuple(each.label for each in FLAT_FIELDS if each.needed and not typed_flat(person, each.name).strip())


def read_garment(person: PersonRecord) -> tuple[FromGarment | None, tuple[Problem, ...]]:
    """What the garment tells of a person, None while something is missing or wrong; and every problem."""
    if missing_of(person):
        return None, _stretch(person)
    given: dict[str, str | float] = {}
    for each in FLAT_FIELDS:
        text = typed_flat(person, each.name).strip()
        if not each.percent and text:
            given[each.name] = text
        elif each.percent:
            value = number(text)
            if value is None:
                return None, _stretch(person)
            given[each.name] = value
    chosen = {each.name: typed_flat(person, each.name) for each in FLAT_CHOICES}
    return read_flat(FlatGarment.model_validate({"kind": person.kind, "unit": person.unit, **given, **chosen}))


def _stretch(person: PersonRecord) -> tuple[Problem, ...]:
    """What is wrong with a percentage that is no number."""
    wrong = "this is not a number", "write a number such as 30"
    percent = [each.name for each in FLAT_FIELDS if each.percent]
    typed = {name: typed_flat(person, name) for name in percent}
    return tuple(
        Problem("number_unreadable", f"garment.{name}", "refuse", *wrong)
        for name, text in typed.items()
        if text.strip() and number(text) is None
    )


def measures_of(found: FromGarment, person: PersonRecord) -> dict[str, str]:
    """The measures that it tells, as they are typed in the person's unit; the stature only where it was not taken."""
    told = {one.measure: _written(one.value, person.unit) for one in found.told}
    taken = person.measures.get(STATURE, "").strip()
    return told if taken else {STATURE: typed_flat(person, STATURE).strip(), **told}


def _written(value: float, unit: Unit) -> str:
    """A length in a unit, to less than a tenth of what a tape on cloth is off."""
    return f"{value / INCH:.2f}" if unit == "in" else f"{value / CM:.1f}"
