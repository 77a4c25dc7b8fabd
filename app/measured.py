"""What was measured when: what changed since, whether a child is to be measured again, and where two tapes differ."""

from dataclasses import dataclass
from datetime import date

from app.state import MeasureSet, PersonRecord
from app.text import words
from drafting.person.measures import MEASURES
from drafting.units import LengthProblem, Unit, read_length, say_length

CHILD_DAYS = 90
"""Days after which a child's measures are old: common practice, no source; a child grows about 6 cm in a year."""
APART = 10.0
"""By how much two tapes may differ before it is said, mm: our choice, a seam is let out by less."""
STATURE = "stature"
"""The measure that shows how a child grows."""


@dataclass(frozen=True, slots=True)
class Growth:
    """How high a person was on which day, mm, the first day first."""

    days: tuple[date, ...]
    heights: tuple[float, ...]


def _day(text: str) -> date | None:
    try:
        return date.fromisoformat(text.strip())
    except ValueError:
        return None


def _length(text: str, unit: Unit) -> float | None:
    found = read_length(text, unit) if text.strip() else None
    return None if found is None or isinstance(found, LengthProblem) else found


def changes_since(person: PersonRecord) -> tuple[str, ...]:
    """What changed from the measures before to these, one line a measure: "Bust +2 cm"; the greatest change first."""
    if not person.earlier:
        return ()
    before = person.earlier[-1]
    found: list[tuple[float, str]] = []
    for name, text in person.measures.items():
        old, new = _length(before.measures.get(name, ""), person.unit), _length(text, person.unit)
        if name not in MEASURES or old is None or new is None or abs(new - old) < 0.5:
            continue
        label = MEASURES[name].label_for(person.kind)
        by = say_length(abs(new - old), person.unit)
        found.append((abs(new - old), words("set.more" if new > old else "set.less", measure=label, by=by)))
    return tuple(said for _, said in sorted(found, key=lambda each: -each[0]))


def before_words(person: PersonRecord, measure: str) -> str:
    """What the measure was the time before, where it was another; else empty."""
    if not person.earlier:
        return ""
    before = person.earlier[-1]
    old, new = (
        _length(before.measures.get(measure, ""), person.unit),
        _length(person.measures.get(measure, ""), person.unit),
    )
    if old is None or old == new:
        return ""
    return words("set.was", value=say_length(old, person.unit), day=before.taken_on.strip() or words("set.no_day"))


def due(person: PersonRecord, today: str) -> bool:
    """Whether a child is to be measured again."""
    now, taken = _day(today), _day(person.taken_on)
    if person.kind != "child" or now is None or taken is None:
        return False
    return (now - taken).days > CHILD_DAYS


def two_tapes(person: PersonRecord, measure: str) -> str:
    """What is said where the second tape reads more than APART off the first; else empty."""
    first = _length(person.measures.get(measure, ""), person.unit)
    second = _length(person.again.get(measure, ""), person.unit)
    if first is None or second is None or abs(first - second) <= APART + 1e-9:
        return ""
    return words("set.apart", by=say_length(abs(first - second), person.unit))


def grown(person: PersonRecord) -> Growth | None:
    """How a child grew, where its stature was taken on two days or more."""
    if person.kind != "child":
        return None
    taken: dict[date, float] = {}
    now = MeasureSet(person.set, person.taken_on, person.age, person.measures)
    for each in (*person.earlier, now):
        day, height = _day(each.taken_on), _length(each.measures.get(STATURE, ""), person.unit)
        if day is not None and height is not None:
            taken[day] = height
    if len(taken) < 2:
        return None
    days = tuple(sorted(taken))
    return Growth(days, tuple(taken[day] for day in days))


def next_set(person: PersonRecord) -> str:
    """An id for new measures of this person."""
    numbers = [int(each) for each in (person.set, *(one.id for one in person.earlier)) if each.isdecimal()]
    return str(max(numbers, default=0) + 1)
