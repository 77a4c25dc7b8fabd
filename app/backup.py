"""A backup: all that the book and the frozen drafts hold, or what belongs to one person or one garment, as one text.

The text is JSON with a line for each record. It is written and read by what the records say of themselves (app.plain),
so that a new field is in it without a word here; assets/backup.schema.json describes it. Reading believes nothing: what
is not sound throughout is refused in words, and nothing is changed.
"""

import json
import re
from collections.abc import Mapping
from dataclasses import asdict, dataclass, fields, replace
from functools import cache
from typing import Any, Literal, get_args, get_origin

from app.chalking import read_chalking
from app.compared import differences
from app.in_unit import with_units
from app.pictured import picture_of
from app.plain import Reader, UnfitError, kinds_of, schema_of
from app.sewing import read_sewing
from app.state import Book, FrozenDraft, GarmentRecord, PersonRecord, Settings
from app.text import words
from app.typed import order_of, records_of
from drafting.garments import garments
from drafting.order import Order, read_order
from drafting.record.backup_file import FORMAT, ID, MOST_BYTES, VERSION, judged
from drafting.record.order_code import MARK, read_code
from drafting.record.order_text import read_text
from drafting.record.packed import LONGEST as LONGEST_DRAFT
from drafting.record.packed import packed, unpacked
from drafting.stepwise import Steps, finished

Holds = Literal["everything", "person", "garment", "order"]

DAY = re.compile(r"\d{4}-\d{2}-\d{2}|")
OF_DEVICE = ("changes", "awake_told")
"""Settings that are told of one device alone, and stand in no backup."""
REFERS: dict[str, dict[str, str]] = {"garments": {"person": "people", "chalk_for": "people", "of_cloth": "cloths"}}
"""Which fields of a record name a record of another list."""
MOST_DRAFTS = 400_000_000
"""Letters of all frozen drafts of a file together, unpacked: our choice, because 5,000 take 320 million."""


@dataclass(frozen=True, slots=True)
class Backup:
    """A backup that was read: its records as a book, the frozen drafts by garment, and the day it was saved on.

    `lost` names the garments that were being chalked and whose frozen draft is not in the file; `unknown` says that the
    file holds something that no record here has a place for.
    """

    holds: Holds
    book: Book
    frozen: Mapping[str, FrozenDraft]
    saved_on: str = ""
    lost: tuple[str, ...] = ()
    unknown: bool = False


@dataclass(frozen=True, slots=True)
class Refused:
    """Why a file is not taken over, in words."""

    words: str


def shared(settings: Settings) -> Settings:
    """The settings without what is told of one device alone."""
    plain: dict[str, Any] = {each.name: each.default for each in fields(settings) if each.name in OF_DEVICE}
    return replace(settings, **plain)


@cache
def lists() -> dict[str, type]:
    """The lists of records that a book holds, each with the kind of its records."""
    found = {}
    for name, kind in kinds_of(Book).items():
        inner = get_args(kind)
        if get_origin(kind) is tuple and inner and "id" in kinds_of(inner[0]):
            found[name] = inner[0]
    return found


def part_of(book: Book, *, person: str = "", garment: str = "") -> Book:
    """What of a book belongs to one person, with her garments, or to one garment, with its person; else all of it."""
    if garment:
        kept = [
            each if book.person(each.person) else with_units(each, book.settings.unit)  # no settings come with it
            for each in book.garments
            if each.id == garment
        ]
        people = tuple(each for each in book.people if any(each.id == one.person for one in kept))
    elif person:
        kept = [each for each in book.garments if each.person == person]
        people = tuple(each for each in book.people if each.id == person)
    else:
        return book
    cloths = tuple(each for each in book.cloths if any(each.id == one.of_cloth for one in kept))
    return replace(book, people=people, garments=tuple(kept), cloths=cloths)


def whole(book: Book) -> Book:
    """The book without what names a record that is not in it, as a garment whose person was deleted."""
    known = {name: {each.id for each in getattr(book, name)} for name in lists()}
    changed: dict[str, Any] = {}
    for name, refers in REFERS.items():
        changed[name] = tuple(
            replace(each, **{key: "" for key, other in refers.items() if getattr(each, key) not in known[other]})
            for each in getattr(book, name)
        )
    return replace(book, **changed)


@dataclass(frozen=True, slots=True)
class Written:
    """A backup as text, and the garments being chalked whose frozen draft cannot be read and so is not in it."""

    text: str
    without: tuple[str, ...] = ()


def write_backup(
    book: Book, frozen: Mapping[str, FrozenDraft], *, person: str = "", garment: str = "", saved_on: str = ""
) -> Written:
    """The backup of a book, or of what belongs to one person or one garment."""
    return finished(writing(book, frozen, person=person, garment=garment, saved_on=saved_on))


def writing(
    book: Book, frozen: Mapping[str, FrozenDraft], *, person: str = "", garment: str = "", saved_on: str = ""
) -> Steps[Written]:
    """As `write_backup`, a record at a time."""
    part = part_of(book, person=person, garment=garment)
    holds: Holds = "garment" if garment else "person" if person else "everything"
    head: dict[str, Any] = {"format": FORMAT, "version": VERSION, "saved_on": saved_on, "holds": holds}
    if holds == "everything":
        head["settings"] = asdict(shared(part.settings))
    blocks = [f'"{key}": {_line(value)}' for key, value in head.items()]
    for name in lists():
        lines = []
        for record in getattr(part, name):
            lines.append(_line(asdict(record)))
            yield None
        blocks.append(_block(name, "[]", lines))
    orders, drafts, pictures, without = [], [], [], []
    for each in part.garments:
        orders.append(f"{_line(each.id)}: {_line(order_of(each, part.wearer(each))[0])}")
        draft = frozen.get(each.id)
        if each.chalking and draft is not None and _can_be_shown(draft, each, part):
            drafts.append(f"{_line(each.id)}: {_line(asdict(draft) | {'draft': packed(draft.draft)})}")
        elif each.chalking:
            without.append(each.id)
        if each.id in part.pictures:
            pictures.append(f"{_line(each.id)}: {_line(part.pictures[each.id])}")
        yield None
    blocks += [_block("orders", "{}", orders), _block("frozen", "{}", drafts), _block("pictures", "{}", pictures)]
    return Written("{\n" + ",\n".join(blocks) + "\n}\n", tuple(without))


def _line(value: Any) -> str:
    return json.dumps(value, ensure_ascii=False)


def _block(name: str, braces: str, lines: list[str]) -> str:
    inside = "\n" + ",\n".join(lines) + "\n" if lines else ""
    return f'"{name}": {braces[0]}{inside}{braces[1]}'


def holds_all(read: "Backup", book: Book, written: Written, person: str = "", garment: str = "") -> bool:
    """Whether what was read back is all that was to be written."""
    wanted = whole(part_of(book, person=person, garment=garment))
    return set(read.lost) == set(written.without) and all(
        getattr(read.book, name) == getattr(wanted, name) for name in lists()
    )


# ---- Reading --------------------------------------------------------------------------------------------------------


def read_backup(content: bytes) -> Backup | Refused:
    """What the bytes of a file hold, a backup or an order; or why it is not taken over."""
    return finished(reading(content))


def reading(content: bytes) -> Steps[Backup | Refused]:
    """As `read_backup`, a record at a time."""
    if len(content) > MOST_BYTES:
        return Refused(words("backup.huge"))
    if content.startswith(MARK.encode()):
        order = read_code(content.decode("utf-8", "replace"))
        return Refused(words("picture.damaged")) if order is None else _order(order)
    typed, problems = read_text(content, MOST_BYTES)
    yield None
    if problems:
        return Refused(words("backup.unreadable", wrong=problems[0].wrong))
    if isinstance(typed, dict) and typed.get("format") == "foldmark-order":
        return _order(typed)
    try:
        match judged(typed):
            case "sound":
                return (yield from _sound(typed))
            case "foreign":
                return Refused(words("backup.foreign"))
            case "newer":
                raise NewerError
            case "damaged":
                raise UnfitError(("version",))
    except UnfitError as unfit:
        return Refused(words("backup.damaged", at=_place(unfit.at)))
    except NewerError:
        return Refused(words("backup.newer"))


class NewerError(Exception):
    """A record that only a newer app knows."""


def _place(at: tuple[str | int, ...]) -> str:
    """Where something stands, as words that fit on a line whatever the file calls its keys."""
    told = ", ".join("".join(one for one in str(each) if one.isprintable())[:30] for each in at[:6])
    return told or "its first line"


def _sound(typed: dict[str, Any]) -> Steps[Backup]:
    reader = Reader()
    known = {"format", "version", "saved_on", "holds", "settings", "orders", "frozen", "pictures", *lists()}
    unknown = bool(typed.keys() - known)
    holds = typed.get("holds")
    if holds not in ("everything", "person", "garment"):
        raise UnfitError(("holds",))
    saved_on = reader.text(typed.get("saved_on", ""), ("saved_on",))
    if not DAY.fullmatch(saved_on):
        raise UnfitError(("saved_on",))
    settings = reader.record(Settings, typed.get("settings", {}), ("settings",))
    found: dict[str, Any] = {}
    for name, kind in lists().items():
        records = typed.get(name, [] if name not in ("people", "garments") else None)
        if not isinstance(records, list):
            raise UnfitError((name,))
        seen: set[str] = set()
        kept = []
        for place, each in enumerate(records, 1):
            record: Any = reader.record(kind, each, (name, place))
            if not ID.fullmatch(record.id) or record.id in seen:
                raise UnfitError((name, place, "id"))
            seen.add(record.id)
            kept.append(record)
            yield None
        found[name] = tuple(kept)
    book = whole(Book(**found, settings=settings))
    drafts, pictures = typed.get("frozen", {}), typed.get("pictures", {})
    for name, value in (("frozen", drafts), ("pictures", pictures), ("orders", typed.get("orders", {}))):
        if not isinstance(value, dict):
            raise UnfitError((name,))
    frozen: dict[str, FrozenDraft] = {}
    room = MOST_DRAFTS
    lost: list[str] = []
    kept_pictures: dict[str, str] = {}
    for garment in book.garments:
        if garment.garment not in garments():
            raise NewerError(garment.garment)
        if garment.chalking and garment.id not in drafts:
            lost.append(garment.id)
        elif garment.chalking:
            frozen[garment.id] = _frozen_of(garment, book, drafts[garment.id], reader)
            room -= len(frozen[garment.id].draft)
            if room < 0:
                raise UnfitError(("frozen", garment.id))
        if garment.id in pictures:
            kept_pictures[garment.id] = _picture(pictures[garment.id], ("pictures", garment.id), reader)
        yield None
    book = replace(book, pictures=kept_pictures)
    return Backup(holds, book, frozen, saved_on, tuple(lost), unknown or bool(reader.unknown))


def _picture(value: Any, at: tuple[str, ...], reader: Reader) -> str:
    text = reader.text(value, at)
    if text and not all(abs(place) < 1e6 for spot in picture_of(text) or ((float("inf"),),) for place in spot):
        raise UnfitError(at)
    return text


def _frozen_of(garment: GarmentRecord, book: Book, value: Any, reader: Reader) -> FrozenDraft:
    """A frozen draft of a backup; raises UnfitError where the screens could not read it."""
    at = ("frozen", garment.id)
    if not isinstance(value, dict) or not isinstance(value.get("draft"), str):
        raise UnfitError(at)
    draft = unpacked(value["draft"])
    if draft is None:
        raise UnfitError((*at, "draft"))
    deep = Reader(LONGEST_DRAFT)
    frozen = deep.record(FrozenDraft, value | {"draft": draft}, at)
    reader.unknown += deep.unknown
    if not _can_be_shown(frozen, garment, book):
        raise UnfitError(at)
    return frozen


def _can_be_shown(frozen: FrozenDraft, garment: GarmentRecord, book: Book) -> bool:
    """Whether every reader of a frozen draft reads this one. What else it may hold, they would meet first."""
    texts = [frozen.draft, *(unpacked(each.draft) for each in frozen.others.values() if each.draft)]
    try:
        for text in texts:
            if text is None or read_text(text.encode())[1] or read_chalking(text, frozen.order) is None:
                return False
        if read_text(frozen.order.encode())[1]:
            return False
        read_sewing(frozen.draft, frozen.order)
        differences(frozen.order, garment, book.wearer(garment))
    except Exception:  # the file may hold anything, and a screen that meets it later has no way out
        return False
    return True


LATER = ("measure_missing", "age_missing")
"""What an order out of a code leaves out, for whoever opens it to fill in."""


def _order(typed: dict[str, Any]) -> Backup | Refused:
    """An order, as a book of one garment and its person; ids are given when it is taken over.

    An order that tells nothing of a person but kind and unit, as the code of a sheet may, comes with nobody.
    """
    if typed.get("version") != 1:
        return Refused(words("backup.newer"))
    order, problems = read_order(typed)
    if order is None:
        wrong = next((each for each in problems if each.severity == "refuse" and each.code not in LATER), None)
        if wrong is not None:
            return Refused(words("backup.order_refused", field=_place((wrong.field,)), wrong=wrong.wrong))
        order = Order.model_validate(typed)  # all that is missing is what is asked of a person on the screens
    garment, person = records_of(order.model_dump(mode="json"), "order", "order")
    if person == PersonRecord(person.id, kind=person.kind, unit=person.unit):
        nobody = replace(garment, person="")
        return Backup("order", Book((), (nobody,), Settings(unit=person.unit)), {})
    return Backup("order", Book((person,), (garment,)), {})


# ---- The schema -----------------------------------------------------------------------------------------------------


def backup_schema() -> dict[str, Any]:
    """The JSON Schema of a backup, by the records of now; assets/backup.schema.json has it for other programs."""
    ids = {"id": f"^{ID.pattern}$"}
    by_garment = {"type": "object", "propertyNames": {"pattern": f"^{ID.pattern}$"}}
    frozen = schema_of(FrozenDraft)
    frozen["properties"]["draft"] = {
        "type": "string",
        "description": "draft.json, compressed by zlib and written in base64",
        "contentEncoding": "base64",
    }
    frozen["properties"]["order"] = {"type": "string", "description": "order.json", "maxLength": LONGEST_DRAFT}
    frozen["properties"]["others"]["additionalProperties"]["properties"]["draft"]["maxLength"] = LONGEST_DRAFT
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "A backup of Foldmark",
        "type": "object",
        "required": ["format", "version", "holds", "people", "garments"],
        "properties": {
            "format": {"const": FORMAT},
            "version": {"const": VERSION},
            "saved_on": {"type": "string", "pattern": r"^(\d{4}-\d{2}-\d{2})?$"},
            "holds": {"enum": ["everything", "person", "garment"]},
            "settings": schema_of(Settings),
            **{name: {"type": "array", "items": schema_of(kind, **ids)} for name, kind in lists().items()},
            "orders": by_garment
            | {
                "description": "each garment's order.json; null while something needed is not known",
                "additionalProperties": {"type": ["object", "null"]},
            },
            "frozen": by_garment | {"description": "the drafts that are being chalked", "additionalProperties": frozen},
            "pictures": by_garment
            | {"description": "outlines for the first page, mm", "additionalProperties": {"type": "string"}},
        },
    }


if __name__ == "__main__":
    print(json.dumps(backup_schema(), ensure_ascii=False, indent=1))
