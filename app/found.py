"""What home shows of a long book: what is looked for, in the order that was chosen."""

from app.names import garment_name
from app.state import Book, GarmentRecord, PersonRecord, SortedBy, State

STAGES = ("chalking", "planned", "cut", "sewn")
"""The order of the stages: what waits at the table comes first."""


def garments_found(state: State) -> tuple[GarmentRecord, ...]:
    """The garments that are looked for by their names, their person or their notes, in the chosen order."""
    book, wanted = state.book, state.looked_for.strip().casefold()
    found = tuple(each for each in book.garments if wanted in _said(book, each)) if wanted else book.garments
    return (
        found
        if state.sorted_by == "newest"
        else tuple(sorted(found, key=lambda each: _order(book, each, state.sorted_by)))
    )


def people_found(state: State) -> tuple[PersonRecord, ...]:
    """The people that are looked for by their names or notes."""
    wanted = state.looked_for.strip().casefold()
    if not wanted:
        return state.book.people
    return tuple(each for each in state.book.people if wanted in f"{each.name} {each.notes}".casefold())


def _said(book: Book, garment: GarmentRecord) -> str:
    person = book.person(garment.person)
    name = "" if person is None else person.name
    return f"{garment_name(book, garment)} {name} {garment.notes} {garment.cut_notes}".casefold()


def _order(book: Book, garment: GarmentRecord, by: SortedBy) -> tuple[str, int]:
    if by == "person":
        person = book.person(garment.person)
        return ("~" if person is None or not person.name.strip() else person.name.strip().casefold()), 0
    return "", STAGES.index(garment.stage) if by == "state" else 0
