"""The texts that are kept: a record a person, a garment, a frozen draft; how they are read, older ones and broken ones.

A record's key names its kind and its id, as "garment.g3-5f0c91aa". Its text is JSON with a format and a version. What
holds for all records of this version:
- an empty field is left out, and a field that is not there is empty; a default that is not empty is always written, so
  that a later default changes no record;
- a key that is not known is passed over;
- a newer version is left alone and said; an older one is read by its migration below, one version at a time.
"""

import gc
import hashlib
import json
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping
from dataclasses import MISSING, dataclass, fields, replace
from functools import lru_cache
from itertools import islice
from typing import Any, Literal, TypeVar, get_args

from app.state import (
    Book,
    ClothRecord,
    FrozenDraft,
    GarmentRecord,
    Gone,
    MeasureSet,
    OtherTape,
    PersonRecord,
    Place,
    Settings,
    State,
    Tape,
    in_order,
    number_of,
)
from app.storage import PLACE
from drafting.record.packed import packed, unpacked

BOOK = "book"
PERSON, GARMENT, CLOTH, FROZEN, GONE = "person.", "garment.", "cloth.", "frozen.", "gone."
KINDS = (PERSON, GARMENT, CLOTH, GONE)
"""The kinds of records that are read at every start. A frozen draft is read when its garment is looked at."""
SHARED = frozenset({BOOK, PLACE})
"""Records that belong to nobody alone: a later one replaces an earlier one, and that is no conflict."""
VERSION = 2

Why = Literal["newer", "damaged"]


@dataclass(frozen=True, slots=True)
class Unreadable:
    """A record that is left alone: written by a newer app, or damaged."""

    why: Why


@dataclass(frozen=True, slots=True)
class KeptGarment:
    """A garment with the small picture of it, as they are kept in one record."""

    garment: GarmentRecord
    picture: str = ""


Kept = PersonRecord | KeptGarment | ClothRecord | FrozenDraft | Settings | Gone


# ---- Fields ---------------------------------------------------------------------------------------------------------

Saved = TypeVar("Saved", PersonRecord, MeasureSet, GarmentRecord, ClothRecord, Settings, Place)
Reader = Callable[[Any], Any]
"""Makes a field's value of what JSON holds; raises ValueError, TypeError or AttributeError where it is none."""


def _text(value: Any) -> str:
    if not isinstance(value, str):
        raise TypeError("text")
    return value


_ONLY_TEXT = frozenset({str})


def _texts(value: Any) -> dict[str, str]:
    if type(value) is not dict or not _ONLY_TEXT.issuperset(map(type, value.values())):
        raise TypeError("texts")
    return value  # a key of JSON is a text


def _list(value: Any) -> tuple[str, ...]:
    if not isinstance(value, list):
        raise TypeError("list")
    return tuple(_text(each) for each in value)


def _aside(value: Any) -> dict[str, dict[str, str]]:
    return {_text(name): _texts(each) for name, each in value.items()}


def _plain(kind: type[Any]) -> Reader:
    def plain(value: Any) -> Any:
        if type(value) is not kind:
            raise TypeError(kind.__name__)
        return value

    return plain


def _no_choice(value: Any) -> Any:
    raise TypeError("no text, and so none of a few")


def _sets(value: Any) -> tuple[MeasureSet, ...]:
    if not isinstance(value, list):
        raise TypeError("list")
    return tuple(record_of(MeasureSet, each) for each in value)


_READERS: dict[Any, Reader] = {
    str: _text, bool: _plain(bool), int: _plain(int), dict[str, str]: _texts, tuple[str, ...]: _list,
    dict[str, dict[str, str]]: _aside, tuple[MeasureSet, ...]: _sets,
}  # fmt: skip
_SAVED: tuple[Any, ...] = (PersonRecord, MeasureSet, GarmentRecord, ClothRecord, Settings, Place)
_PLANS: dict[type[Any], dict[str, Reader]] = {
    kind: {each.name: _READERS.get(each.type, _no_choice) for each in fields(kind)} for kind in _SAVED
}
_CHOICES: dict[type[Any], dict[str, frozenset[str]]] = {
    kind: {each.name: frozenset(get_args(each.type)) for each in fields(kind) if each.type not in _READERS}
    for kind in _SAVED
}
"""The fields that are one of a few texts."""
_ALWAYS: dict[type[Any], frozenset[str]] = {
    kind: frozenset(each.name for each in fields(kind) if each.default is not MISSING and each.default)
    for kind in _SAVED
}
"""The fields whose default is not empty."""


_MANY = (PersonRecord, GarmentRecord)
"""The records that a book has many of."""


@dataclass(frozen=True, slots=True)
class _Shape:
    """What is to be done for records that have the same fields with the same types of values.

    `texts` are the fields that are a dict, and are to hold texts alone; `chosen` those that are one of a few texts;
    `read` those that need a reader. `dicts` are not given, and begin as a new dict. `known` is None where all that is
    given belongs to the record.
    """

    texts: tuple[str, ...]
    chosen: tuple[tuple[str, frozenset[str]], ...]
    read: tuple[tuple[str, Reader], ...]
    dicts: tuple[str, ...]
    known: tuple[str, ...] | None


@lru_cache(maxsize=200)
def _shape(kind: type[Any], names: tuple[str, ...], types: tuple[type[Any], ...]) -> _Shape:
    """A large book has thousands of records of a few shapes, so each is looked at once."""
    plan, choices = _PLANS[kind], _CHOICES[kind]
    known = {name: of for name, of in zip(names, types, strict=True) if name in plan}
    plain = {name for name, of in known.items() if of is str and plan[name] is _text}
    texts = tuple(name for name, of in known.items() if of is dict and plan[name] is _texts)
    chosen = tuple((name, choices[name]) for name, of in known.items() if of is str and name in choices)
    done = {*plain, *texts, *(name for name, _ in chosen)}
    return _Shape(
        texts,
        chosen,
        tuple((name, plan[name]) for name in known if name not in done),
        tuple(each.name for each in fields(kind) if each.name not in known and each.default_factory is not MISSING),
        None if len(known) == len(names) else tuple(known),
    )


def record_of(kind: type[Saved], found: Mapping[str, Any]) -> Saved:
    """Make one record of what was saved of it; raises ValueError, TypeError or AttributeError where it is none."""
    of: Any = kind
    shape = _shape(of, tuple(found), tuple(map(type, found.values())))
    given = found if shape.known is None else {name: found[name] for name in shape.known}
    for name in shape.texts:
        if not _ONLY_TEXT.issuperset(map(type, given[name].values())):
            raise TypeError("texts")
    for name, known in shape.chosen:
        if given[name] not in known:
            raise ValueError("not one of them")
    read = {name: reader(given[name]) for name, reader in shape.read} if shape.read else {}
    if kind not in _MANY:
        return kind(**{**given, **read})
    if "id" not in given:
        raise TypeError("id")
    held = {**given, **read}
    for name in shape.dicts:
        held[name] = {}
    record: Saved = object.__new__(kind)  # a frozen record sets its fields one by one, which takes far longer
    object.__setattr__(record, "__dict__", held)  # what is not in it stands in its class, as a default
    return record


def fields_of(record: Any) -> dict[str, Any]:
    """What is saved of a record: its fields but for empty ones."""
    always = _ALWAYS[type(record)]
    found = {name: getattr(record, name) for name in _PLANS[type(record)]}
    if isinstance(record, PersonRecord) and record.earlier:
        found["earlier"] = [fields_of(each) for each in record.earlier]
    return {name: value for name, value in found.items() if value or name in always}


# ---- Texts ----------------------------------------------------------------------------------------------------------


def _written(kind: str, found: Mapping[str, Any]) -> str:
    return json.dumps({"format": f"foldmark-{kind}", "version": VERSION, **found}, ensure_ascii=False)


def text_of(kept: Kept) -> str:
    """What is kept, as the text of its record."""
    match kept:
        case PersonRecord():
            return _written("person", {"person": fields_of(kept)})
        case KeptGarment(garment, picture):
            return _written("garment", {"garment": fields_of(garment), **({"picture": picture} if picture else {})})
        case ClothRecord():
            return _written("cloth", {"cloth": fields_of(kept)})
        case FrozenDraft(order, draft, others, papers):
            seen = {step: {"draft": other.draft, "says": other.says} for step, other in others.items()}
            more = {"papers": papers} if papers else {}
            return _written("frozen", {"order": order, "draft": packed(draft), "others": seen, **more})
        case Settings():
            return _written("book", {"settings": fields_of(kept)})
        case Gone(says, garment, person, picture, by):
            found: dict[str, Any] = {"says": says}
            found |= {name: text for name, text in (("picture", picture), ("by", by)) if text}
            if garment is not None:
                found["garment"] = fields_of(garment)
            if person is not None:
                found["person"] = fields_of(person)
            return _written("gone", found)


def place_text(place: Place) -> str:
    """Where a person is, as the text that is kept."""
    return json.dumps(fields_of(place))


def read_place(text: str | None) -> Place:
    """Read it back; home where it is no place."""
    try:
        return Place() if text is None else record_of(Place, json.loads(text))
    except (ValueError, TypeError, AttributeError):
        return Place()


def _head(found: dict[str, Any]) -> Settings:
    return record_of(Settings, found.get("settings", {}))


def _person(found: dict[str, Any]) -> PersonRecord:
    return record_of(PersonRecord, found["person"])


def _cloth(found: dict[str, Any]) -> ClothRecord:
    return record_of(ClothRecord, found["cloth"])


def _garment(found: dict[str, Any]) -> KeptGarment:
    return KeptGarment(record_of(GarmentRecord, found["garment"]), _text(found.get("picture", "")))


def _frozen(found: dict[str, Any]) -> FrozenDraft:
    draft = unpacked(_text(found["draft"]))
    if draft is None:
        raise ValueError("draft")
    return FrozenDraft(_text(found["order"]), draft, _others(found), _text(found.get("papers", "")))


def _others(found: dict[str, Any]) -> dict[str, OtherTape]:
    return {
        step: OtherTape(_text(one["draft"]), _text(one["says"]))
        for step, one in found.get("others", {}).items()
        if step in get_args(Tape)
    }


def _gone(found: dict[str, Any]) -> Gone:
    garment, person = found.get("garment"), found.get("person")
    return Gone(
        _text(found["says"]),
        None if garment is None else record_of(GarmentRecord, garment),
        None if person is None else record_of(PersonRecord, person),
        _text(found.get("picture", "")),
        _text(found.get("by", "")),
    )


def _frozen_1(found: dict[str, Any]) -> FrozenDraft:
    return FrozenDraft(_text(found["order"]), _text(found["draft"]), _others(found))


_KINDS: dict[str, dict[int, Callable[[dict[str, Any]], Kept]]] = {
    "book": {2: _head},
    "person": {2: _person},
    "garment": {2: _garment},
    "cloth": {2: _cloth},
    "frozen": {1: _frozen_1, 2: _frozen},
    "gone": {2: _gone},
}
"""How each kind of record is read, by the version that wrote it. Version 1 kept people and garments in one book."""
_IN_ONE_GO = 100
"""So many records: with more, what they held takes longer to put aside than is won."""
_FORMATS = {kind: f"foldmark-{kind}" for kind in _KINDS}


def read(key: str, text: str) -> Kept | Unreadable:
    """Read a record back, of any version so far."""
    try:
        return _read(key, json.loads(text))
    except (ValueError, RecursionError):
        return Unreadable("damaged")


def _each(records: Mapping[str, str]) -> Iterator[tuple[str, Kept | Unreadable]]:
    """Every record, read back. Several texts are looked through in one go, which takes a third of the time."""
    left = iter(records.items())
    while some := list(islice(left, _IN_ONE_GO)):
        found = _all_found([text for _, text in some])
        for at, (key, text) in enumerate(some):
            yield key, read(key, text) if found is None else _read(key, found[at])


def _all_found(texts: Collection[str]) -> list[Any] | None:
    """What the texts hold; None where it cannot be told apart in one go."""
    try:
        found = json.loads(f"[{','.join(texts)}]")
    except (ValueError, RecursionError):
        return None
    return found if len(found) == len(texts) else None


def _read(key: str, found: Any) -> Kept | Unreadable:
    kind, _, name = key.partition(".")
    try:
        if not isinstance(found, dict) or found.get("format") != _FORMATS[kind]:
            return Unreadable("damaged")
        version = found.get("version")
        reader = _KINDS[kind].get(version) if type(version) is int else None
        if reader is None:
            return Unreadable("newer" if type(version) is int and version > VERSION else "damaged")
        kept = reader(found)
    except (ValueError, TypeError, AttributeError, KeyError, RecursionError):
        return Unreadable("damaged")
    stands = kept.garment.id if type(kept) is KeptGarment else getattr(kept, "id", name)
    return kept if stands == name else Unreadable("damaged")  # a record stands under its own id


# ---- All that is kept ------------------------------------------------------------------------------------------------


def all_kept(state: State) -> Iterator[tuple[str, tuple[object, ...]]]:
    """Everything that is to be kept, by key and in the order in which it is written, as the objects it is made of.

    Two with the same objects have the same text. A frozen draft comes before the garment that is chalked from it, and
    what was deleted before it goes from where it stood.
    """
    book = state.book
    if book.gone is not None:
        yield GONE + book.gone.id, (book.gone,)
    for key, frozen in state.frozen.items():
        yield FROZEN + key, (frozen,)
    for person in book.people:
        yield PERSON + person.id, (person,)
    for cloth in book.cloths:
        yield CLOTH + cloth.id, (cloth,)
    for garment in book.garments:
        yield GARMENT + garment.id, (garment, book.pictures.get(garment.id, ""))
    yield BOOK, (book.settings,)


def text_of_all(of: tuple[object, ...]) -> str:
    """The text of what all_kept names by its objects."""
    match of:
        case (GarmentRecord() as garment, str(picture)):
            return text_of(KeptGarment(garment, picture))
        case (PersonRecord() | ClothRecord() | FrozenDraft() | Settings() | Gone() as kept,):
            return text_of(kept)
    raise TypeError(type(of[0]).__name__)


@dataclass(frozen=True, slots=True)
class ReadBook:
    """A book as it was read, with its frozen drafts, and what is left alone, by key."""

    book: Book
    frozen: dict[str, FrozenDraft]
    left: dict[str, Why]


def read_all(records: Mapping[str, str], unread: Iterable[str] = ()) -> ReadBook:
    """Read every record; `unread` are the keys of those that the store could not read."""
    collects = gc.isenabled()
    gc.disable()  # records have no circles, and a large book is looked through again and again for them
    try:
        return _read_all(records, unread)
    finally:
        if collects:
            gc.freeze()
            gc.unfreeze()  # both together: what was read counts as old at once, and is not looked through as new
            gc.enable()


def _read_all(records: Mapping[str, str], unread: Iterable[str]) -> ReadBook:
    people: list[PersonRecord] = []
    garments: list[GarmentRecord] = []
    cloths: list[ClothRecord] = []
    pictures: dict[str, str] = {}
    frozen: dict[str, FrozenDraft] = {}
    settings, deleted = Settings(), list[Gone]()
    left: dict[str, Why] = dict.fromkeys(unread, "damaged")
    for key, kept in _each(records):
        match kept:
            case PersonRecord() as person:
                people.append(person)
            case KeptGarment(garment, picture):
                garments.append(garment)
                if picture:
                    pictures[garment.id] = picture
            case ClothRecord() as cloth:
                cloths.append(cloth)
            case FrozenDraft() as draft:
                frozen[key.removeprefix(FROZEN)] = draft
            case Settings() as found:
                settings = found
            case Gone() as aside:
                deleted.append(aside)
            case Unreadable(why):
                left[key] = why
    ids = [*(each.id for each in people), *(each.id for each in garments), *(each.id for each in cloths)]
    deleted = [each for each in deleted if each.id not in ids]  # not what was put back meanwhile, or never went
    gone = deleted[-1] if deleted else None  # the others are offered when the app is opened again
    if gone is not None and gone.garment is not None and gone.picture:
        pictures[gone.id] = gone.picture
    ids += [*(each.id for each in deleted), *(key.partition(".")[2] for key in left)]
    book = Book(
        people=in_order(people),
        garments=in_order(garments, newest=True),
        settings=settings,
        next=max(map(number_of, ids), default=0) + 1,
        gone=gone,
        pictures=pictures,
        cloths=in_order(cloths),
    )
    return ReadBook(book, frozen, left)


# ---- Version 1: one record for everything ---------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Migrated:
    """A book of version 1 in records of today, by key, and the frozen drafts that stand under another key now."""

    records: dict[str, str]
    moved: tuple[str, ...] = ()


def migrated(text: str, frozen: Mapping[str, str | None], place: str | None = None) -> Migrated | Unreadable | None:
    """A book of version 1 as records of today; None where it is of today.

    `place` is where a tab was last, which the first books kept themselves. `frozen` are the texts of all frozen drafts
    by the old id of their garment, None for one that could not be read: such a garment keeps its id. The others get ids
    that no other device gives, the same ones each time this is done with this text: done halfway, it can be done again.
    """
    try:
        found = json.loads(text)
        if not isinstance(found, dict) or found.get("format") != "foldmark-book":
            return Unreadable("damaged")
        if found.get("version") != 1:
            known = type(found.get("version")) is int
            return None if found.get("version") == VERSION else Unreadable("newer" if known else "damaged")
        people = [record_of(PersonRecord, each) for each in found.get("people", ())]
        garments = [record_of(GarmentRecord, each) for each in found.get("garments", ())]
        settings = record_of(Settings, found.get("settings", {}))
        gone = _gone(found["gone"]) if found.get("gone") else None
        pictures = _texts(found.get("pictures", {}))
        last = read_place(json.dumps(found.get("place", {})) if place is None else place)
    except (ValueError, TypeError, AttributeError, KeyError, RecursionError):
        return Unreadable("damaged")
    mark = hashlib.sha256(text.encode("utf-8", "surrogatepass")).hexdigest()[:8]
    count = len(people) + len(garments) + 2
    ids: dict[str, str] = {}
    for kind, records in (("p", people), ("g", [*reversed(garments)])):
        for each in records:
            stays = each.id in frozen and frozen[each.id] is None
            ids[each.id] = each.id if stays else f"{kind}{len(ids) + 1}-{mark}"
    for left in (gone.garment, gone.person) if gone is not None else ():
        if left is not None:
            stays = left.id in frozen and frozen[left.id] is None
            ids.setdefault(left.id, left.id if stays else f"{left.id[:1] or 'g'}{count}-{mark}")

    def garment(each: GarmentRecord) -> GarmentRecord:
        who, chalked = ids.get(each.person, each.person), ids.get(each.chalk_for, each.chalk_for)
        return replace(each, id=ids[each.id], person=who, chalk_for=chalked)

    kept: dict[str, str] = {}
    for key, draft in frozen.items():
        if draft is not None and ids.get(key, key) != key:
            kept[FROZEN + ids[key]] = draft
    for person in people:
        kept[PERSON + ids[person.id]] = text_of(replace(person, id=ids[person.id]))
    for each in garments:
        kept[GARMENT + ids[each.id]] = text_of(KeptGarment(garment(each), pictures.get(each.id, "")))
    if gone is not None:
        aside = replace(
            gone,
            garment=None if gone.garment is None else garment(gone.garment),
            person=None if gone.person is None else replace(gone.person, id=ids[gone.person.id]),
            picture=pictures.get(gone.id, ""),
        )
        kept[GONE + aside.id] = text_of(aside)
    kept[PLACE] = place_text(
        replace(last, garment=ids.get(last.garment, last.garment), person=ids.get(last.person, last.person))
    )
    kept[BOOK] = text_of(settings)  # the last: from here on the book is of today
    moved = tuple(key for key, draft in frozen.items() if draft is not None and ids.get(key, key) != key)
    return Migrated(kept, moved)
