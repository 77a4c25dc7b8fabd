"""The choices of a garment put back as they were when its chalking began."""

from dataclasses import replace
from typing import get_args

from app.compared import differences, frozen_order
from app.other_garment import made_as
from app.state import GarmentRecord, Kind, PersonRecord, Tape
from app.typed import keep_length
from drafting.units import Unit


def put_back(garment: GarmentRecord, person: PersonRecord, order: str) -> tuple[GarmentRecord, PersonRecord]:
    """The garment and its person with every choice as it was when the chalking began.

    Only what differs is touched, and lengths stay the same lengths in the person's unit of now. Where it is another
    garment now, it is the one of the frozen order again, and what was chosen since is put aside.
    """
    garment = made_as(garment, str(frozen_order(order).get("garment", garment.garment)))
    unit: Unit = frozen_order(order)["person"]["unit"]
    by_garment = frozen_order(order)["person"].get("told", ())
    to = person.unit
    for each in differences(order, garment, person):
        text = each.was
        if text is not None and each.is_length:
            text = keep_length(text, unit, to)
        if each.folder == "measures":
            rest = tuple(name for name in person.told if name != each.key)
            told = (*rest, each.key) if each.key in by_garment else rest
            person = replace(person, measures=_with(person.measures, each.key, text), told=told)
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
