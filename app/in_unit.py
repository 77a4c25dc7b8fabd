"""The lengths of a garment, kept the same where bare numbers come to stand in another unit.

They stand in the unit of its person. While it has none, they stand in that of the settings of its book.
"""

from dataclasses import replace

from app.other_garment import LAY, STYLE
from app.presets import garment_named
from app.state import Book, GarmentRecord
from app.typed import keep_length, keep_lengths
from drafting.units import Unit


def in_unit(garment: GarmentRecord, before: Unit, after: Unit) -> GarmentRecord:
    """The garment with its lengths as they are read in another unit."""
    if before == after:
        return garment
    aside = {
        name: keep_lengths(each, before, after, {LAY, *(STYLE + key for key in garment_named(name).numbers)})
        for name, each in garment.aside.items()
    }
    return replace(
        garment,
        style=keep_lengths(garment.style, before, after, garment_named(garment.garment).numbers),
        cloth=keep_lengths(garment.cloth, before, after),
        tape_length=keep_length(garment.tape_length, before, after),
        aside=aside,
    )


def with_units(garment: GarmentRecord, unit: Unit) -> GarmentRecord:
    """The garment with the unit behind every length that another unit would make another."""
    return in_unit(garment, unit, "in" if unit == "cm" else "cm")


def unit_of(garment: GarmentRecord, book: Book) -> Unit:
    """The unit that bare numbers of a garment stand in."""
    person = book.person(garment.person)
    return book.settings.unit if person is None else person.unit


def for_nobody(garment: GarmentRecord, book: Book) -> GarmentRecord:
    """The garment of a book with nobody chosen, its lengths as they were."""
    kept = in_unit(garment, unit_of(garment, book), book.settings.unit)
    return replace(kept, person="", measured="")
