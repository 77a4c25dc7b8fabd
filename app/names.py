"""What a garment is called: by its typed name, else by what it is and for whom, and no two of those alike."""

from collections.abc import Collection

from app.presets import garment_named, preset_of
from app.state import Book, GarmentRecord, PersonRecord
from app.text import words

_KNOWN: list[tuple[tuple[GarmentRecord, ...], tuple[PersonRecord, ...], dict[str, str]]] = []
"""The names of the last books asked for: every card of home asks for one of the same book."""


def garment_name(book: Book, garment: GarmentRecord) -> str:
    """The name of a garment of this book; a number tells apart those that would be called the same, oldest first."""
    names = next((each for made, who, each in _KNOWN if made is book.garments and who is book.people), None)
    if names is None:
        names = _names(book)
        _KNOWN[:] = [(book.garments, book.people, names), *_KNOWN[:1]]
    return names.get(garment.id) or garment.title.strip() or _plain(book, garment)


def _names(book: Book) -> dict[str, str]:
    taken = {each.title.strip() for each in book.garments}
    names: dict[str, str] = {}
    for each in reversed(book.garments):
        name = each.title.strip()
        if not name:
            name, number = _plain(book, each), 1
            while (told := name if number == 1 else words("garment.numbered", title=name, number=number)) in taken:
                number += 1
            name = told
            taken.add(name)
        names[each.id] = name
    return names


def copy_name(name: str, taken: Collection[str]) -> str:
    """The name of a copy, that nobody has yet; a copy of a copy is one more copy of the first."""
    tail = words("copy.named", name="")
    first, found, number = name.rpartition(tail)
    if not found or (number.strip() and not number.strip().isdecimal()):
        first = name
    copy, at = words("copy.named", name=first), 1
    while (told := copy if at == 1 else words("garment.numbered", title=copy, number=at)) in taken:
        at += 1
    return told


def _plain(book: Book, garment: GarmentRecord) -> str:
    preset = preset_of(garment.garment, garment.style)
    kind = preset.named if preset else garment_named(garment.garment).called
    person = book.person(garment.person)
    name = person.name.strip() if person is not None else ""
    return words("garment.named", kind=kind, name=name) if name else kind
