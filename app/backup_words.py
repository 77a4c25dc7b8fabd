"""What a backup would change, in sentences."""

from collections import Counter
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass

from app.backup import Backup
from app.merging import SETTINGS, Entry
from app.names import garment_name
from app.state import Book, ClothRecord, GarmentRecord, PersonRecord
from app.text import WORDS, words
from drafting.person.table import MEASURES
from drafting.sentences import listed, lower_first, upper_first

MOST_MEASURES = 4
"""So many measures that differ are named with their numbers; of more, only that they differ."""
_ONE_WORD = {
    "chalking": "chalked", "chalk_done": "chalked", "chalk_at": "chalked", "chalk_for": "chalked", "kept": "chalked",
    "reads": "tape", "tape_length": "tape",
}  # fmt: skip
"""Fields that are told as another one is."""


@dataclass(frozen=True, slots=True)
class Told:
    """A record that differs: what it is called, and sentences on how it differs."""

    name: str
    says: tuple[str, ...]


def told_first(backup: Backup, entries: Iterable[Entry]) -> tuple[str, ...]:
    """What a backup holds and what of it is new or the same, one sentence each."""
    entries = tuple(each for each in entries if each.kind != SETTINGS)
    says = [_holds(backup, entries)]
    new = _counted(each for each in entries if each.status == "new")
    if backup.holds != "order" and entries:
        says.append(words("backup.adds", what=new) if new else words("backup.adds.nothing"))
    same = [each for each in entries if each.status == "same"]
    if same and backup.holds != "order":
        says.append(words("backup.same.1" if len(same) == 1 else "backup.same", what=upper_first(_counted(same))))
    names = [called(each, backup.book) for each in entries if each.status == "draft"]
    if names:
        says.append(words("backup.drafts", names=listed(names)))
    kept = [called(each, backup.book) for each in entries if each.status == "left"]
    if kept:
        says.append(words("backup.left", names=listed(kept)))
    if backup.lost:
        lost = [garment_name(backup.book, each) for each in backup.book.garments if each.id in backup.lost]
        says.append(words("backup.lost", names=listed(lost)))
    if backup.unknown:
        says.append(words("backup.unknown"))
    return tuple(says)


def _holds(backup: Backup, entries: tuple[Entry, ...]) -> str:
    if backup.holds == "order" and not backup.book.people:
        return words("backup.order.nobody")
    if backup.holds == "order":
        name = backup.book.people[0].name.strip()
        return words("backup.order", name=name) if name else words("backup.order.unnamed")
    what = _counted(entries)
    if not what:
        return words("backup.holds.nothing")
    day = backup.saved_on
    return words("backup.holds.on", day=day, what=what) if day else words("backup.holds", what=what)


def _counted(entries: Iterable[Entry]) -> str:
    return counted(Counter(each.kind for each in entries))


def counted(counts: Mapping[str, int]) -> str:
    """So many people, garments and cloths, by the names of their lists; "" for none."""
    told = []
    for kind, count in counts.items():
        if count:
            told.append(words(f"backup.count.{kind}.1" if count == 1 else f"backup.count.{kind}", count=count))
    return listed(told) if told else ""


def called(entry: Entry, book: Book) -> str:
    """What a record of a book is called."""
    if entry.kind == SETTINGS:
        return words("backup.settings")
    if entry.kind == "garments":
        garment = book.garment(entry.key)
        return words("backup.garment") if garment is None else garment_name(book, garment)
    if entry.kind == "cloths":
        cloth = book.cloth(entry.key)
        return (cloth.name.strip() if cloth is not None else "") or words("backup.cloth")
    person = book.person(entry.key)
    return (person.name.strip() if person is not None else "") or words("person.unnamed")


def told_of(entry: Entry, book: Book, backup: Backup) -> Told:
    """How a record differs, for who chooses what is to be kept."""
    says: list[str] = []
    if entry.kind != SETTINGS:
        what = list(dict.fromkeys(each for name in entry.differing for each in _differing(name, entry, book, backup)))
        says.append(words("backup.differs", what=listed(what)))
    if entry.later:
        person = (book if entry.later == "here" else backup.book).person(entry.key)
        says.append(words(f"backup.later.{entry.later}", day=person.taken_on if person else ""))
    garment = book.garment(entry.key) if entry.kind == "garments" else None
    if garment is not None and garment.chalking:
        says.append(words("backup.chalked"))
    return Told(called(entry, book), tuple(says))


def _differing(name: str, entry: Entry, book: Book, backup: Backup) -> list[str]:
    """What differs in a field, as words in a sentence."""
    if name == "measures" and entry.kind == "people":
        mine, theirs = book.person(entry.key), backup.book.person(entry.key)
        if mine is not None and theirs is not None:
            told = _measures(mine, theirs)
            if told:
                return told
    if name in ("name", "title"):
        here, there = (_plain_name(name, entry, each) for each in (book, backup.book))
        return [words("backup.differs.measure", label=words(f"backup.field.{name}"), here=here, file=there)]
    word = _ONE_WORD.get(name, name)
    return [words(f"backup.field.{word}") if f"backup.field.{word}" in WORDS else words("backup.field.other")]


def _plain_name(name: str, entry: Entry, book: Book) -> str:
    known: dict[str, Callable[[str], PersonRecord | GarmentRecord | ClothRecord | None]] = {
        "people": book.person, "garments": book.garment, "cloths": book.cloth,
    }  # fmt: skip
    record = known[entry.kind](entry.key)
    text = "" if record is None else str(getattr(record, name)).strip()
    return f"“{text}”" if text else words("backup.differs.none")


def _measures(mine: PersonRecord, theirs: PersonRecord) -> list[str]:
    """The measures that differ with both texts; empty where they are too many, or differ in nothing that is read."""
    keys = dict.fromkeys((*mine.measures, *theirs.measures))
    differ = [key for key in keys if mine.measures.get(key, "") != theirs.measures.get(key, "")]
    if not 0 < len(differ) <= MOST_MEASURES:
        return []

    def shown(person: PersonRecord, key: str) -> str:
        return person.measures.get(key, "").strip() or words("backup.differs.none")

    labels = {each.name: lower_first(each.label) for each in MEASURES.values()}
    return [
        words("backup.differs.measure", label=labels.get(key, key), here=shown(mine, key), file=shown(theirs, key))
        for key in differ
    ]
