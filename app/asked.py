"""Which measures a person is asked for: those of the garment in work, or the usual ones where there is none."""

from dataclasses import dataclass

from app.presets import garment_named
from app.state import GarmentRecord, PersonRecord
from drafting.person.measures import all_for, asked_for, required_for


@dataclass(frozen=True, slots=True)
class Asked:
    """The measures that are asked for in their order, those that may be given besides, and those that must be taken."""

    asked: tuple[str, ...]
    others: tuple[str, ...]
    required: tuple[str, ...]

    def page_of(self, measure: str) -> int:
        """The page on which a measure is asked; those that are not asked for have the last. A list is one page."""
        return self.asked.index(measure) + 1 if measure in self.asked else len(self.asked) + 1


def asked_of(person: PersonRecord, garment: GarmentRecord | None, focus: str = "") -> Asked:
    """What is asked of a person for a garment.

    A measure that was taken though the garment is not set out from it stands with the others, so that it can be
    mended; so does one that is just being typed, which `focus` names.
    """
    kind = person.kind
    if garment is None:
        asked, others, required = asked_for(kind), all_for(kind), required_for(kind)
    else:
        made = garment_named(garment.garment)
        asked, others, required = made.asked_of(kind), made.others_of(kind), made.required_of(kind)
    there = {name for name, text in person.measures.items() if text.strip()} | {focus}
    rest = tuple(name for name in all_for(kind) if name not in asked and (name in others or name in there))
    return Asked(asked, rest, required)
