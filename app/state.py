"""What the app knows, in one frozen record. What is kept on the device (`Book`) stands apart from what is not.

Everything a person types is kept as the text that was typed, readable or not; reading it is the core's work. Dicts in
these records are never changed in place: `dict | {...}` makes a new one.
"""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from functools import lru_cache
from typing import TYPE_CHECKING, Any, Literal, TypeVar, get_args

from drafting.cloth import ClothFacts
from drafting.contract.pieces import Piece
from drafting.layout import Answer, Layout, Purchase, Together
from drafting.order import Order, Result
from drafting.problems import Problem
from drafting.units import Unit
from drafting.ways_out.cloth import LaidWay

if TYPE_CHECKING:
    from app.merging import Opened

Kind = Literal["woman", "man", "child"]
Screen = Literal[
    "home", "backup", "erase", "which", "person", "shape", "cloth", "proof", "lay", "chalk", "paper", "sew", "notes"
]
Light = Literal["system", "light", "dark"]
Paper = Literal["A4", "Letter"]
Installs = Literal["no", "asks", "by_hand"]
"""Whether the browser can be asked to install the page; "by_hand" where only its own menu can."""
Tape = Literal["1/8", "1/4", "0.5", "0.1"]
Reads = Literal["", "1/8", "1/4", "0.5", "0.1"]
SortedBy = Literal["newest", "person", "state"]
CARDS = 12
"""So many garments, and so many people, are shown at home before more are asked for."""
GarmentState = Literal["", "cut", "sewn"]
Stage = Literal["planned", "chalking", "cut", "sewn"]
Line = Literal["cut", "stitch"]
FoldSide = Literal["left", "right"]
TopSide = Literal["far", "near"]
View = Literal["worn", "flat"]
Measuring = Literal["one", "list"]

SCREENS: tuple[Screen, ...] = get_args(Screen)
STEPS: tuple[Screen, ...] = SCREENS[4:-1]
"""The way through a garment, in its order. Which garment it is to be is asked before, and notes stand beside it."""


FLAT = 900
"""The page of a person on which a garment that fits is measured flat; those before it are of the measures."""


@dataclass(frozen=True, slots=True)
class Place:
    """Where a person is: the screen, whose garment or person it shows, and the page within the screen."""

    screen: Screen = "home"
    garment: str = ""
    person: str = ""
    step: int = 0

    @property
    def route(self) -> str:
        """The address of this place, such as "/garment/g1/shape" or "/person/p1/2"."""
        if self.screen == "home":
            return "/"
        if self.screen in ("backup", "erase"):
            return f"/{self.screen}"
        start = f"/garment/{self.garment}/{self.screen}" if self.garment else f"/person/{self.person}"
        return f"{start}/{self.step}" if self.step else start


def place_of(route: str) -> Place | None:
    """Read an address back into a place; None for an address that leads nowhere."""
    parts = [part for part in route.split("?", maxsplit=1)[0].split("/") if part]
    match parts:
        case []:
            return Place()
        case ["backup" | "erase" as screen]:
            return Place(screen)
        case ["person", person, *rest] if len(rest) <= 1:
            place = Place("person", person=person)
        case ["garment", garment, screen, *rest] if screen in SCREENS[3:] and len(rest) <= 1:
            place = Place(next(known for known in SCREENS if known == screen), garment)
        case _:
            return None
    if not rest:
        return place
    return replace(place, step=int(rest[0])) if rest[0].isdecimal() and len(rest[0]) < 4 else None


@dataclass(frozen=True, slots=True)
class MeasureSet:
    """The measures of a person as they were taken on an earlier day.

    `again` holds what a second tape read, `told` names those that a garment told.
    """

    id: str
    taken_on: str = ""
    age: str = ""
    measures: dict[str, str] = field(default_factory=dict)
    again: dict[str, str] = field(default_factory=dict)
    told: tuple[str, ...] = ()


@dataclass(frozen=True)  # no slots, so that a large book is made at once (app.saved.record_of)
class PersonRecord:
    """A person as typed. `measures` holds the text typed for each measure; bare numbers stand in `unit`.

    `set` is the id of these measures, `again` what a second tape read, `told` names those that a garment told;
    `earlier` are those of other days, oldest first. `flat` is what was typed of a garment that lies flat.
    """

    id: str
    name: str = ""
    kind: Kind = "woman"
    age: str = ""
    unit: Unit = "cm"
    taken_on: str = ""
    measures: dict[str, str] = field(default_factory=dict)
    notes: str = ""
    set: str = "1"
    again: dict[str, str] = field(default_factory=dict)
    earlier: tuple[MeasureSet, ...] = ()
    told: tuple[str, ...] = ()
    flat: dict[str, str] = field(default_factory=dict)

    def measured(self, key: str) -> "PersonRecord":
        """The person with the measures of this id; with the newest where it is empty or gone."""
        found = next((each for each in self.earlier if each.id == key), None)
        if found is None:
            return self
        return replace(
            self, set=found.id, taken_on=found.taken_on, age=found.age, measures=found.measures, again=found.again,
            told=found.told,
        )  # fmt: skip

    def with_measures(self, other: "PersonRecord") -> "PersonRecord":
        """The person with what `other`, one of its own measures, says now."""
        if other.set == self.set:
            return other
        new = MeasureSet(other.set, other.taken_on, other.age, other.measures, other.again, other.told)
        return replace(
            self, kind=other.kind, earlier=tuple(new if each.id == new.id else each for each in self.earlier)
        )


@dataclass(frozen=True)  # no slots, so that a large book is made at once (app.saved.record_of)
class GarmentRecord:
    """A garment in work. `style` and `cloth` hold the text typed or chosen for each key of an order.

    `garment` is which one it is, by its name in the core; a record without one was kept before there were others.
    `aside` is what was chosen for other garments while it was to be one of them, by their names and by the dotted keys
    of an order (app.other_garment). Keys of `cloth` that begin with "test_" belong to the stretch
    test. `tape_length` is the text typed for how long the tape is, in the person's unit; empty for the usual one.
    `chalk_done` and `chalk_at` name items of the chalking (app.chalking), `chalking` says that a draft is frozen for
    it. `reads` is the step of the tape that it is read on now; empty for the one that it was frozen for. `kept` stands
    for changes that it was kept in spite of (app.changed). `chalk_for` is the person it was chalked for. `sewn` names
    the steps of sewing that are done (app.sewing).

    `measured` is which measures of the person it is made for; empty for the newest. `state` says how far it is beyond
    the chalk, `made_on` when it was begun. `cut_notes` is what was changed with the scissors. `of_cloth` is the
    kept cloth that it is made of; empty for one that is not kept. `taken` is what its cutting took off that cloth, with
    its unit; empty where nothing was taken off. `sheet_measures` has the code on its chalk sheet hold the measures too.
    """

    id: str
    title: str = ""
    person: str = ""
    style: dict[str, str] = field(default_factory=dict)
    cloth: dict[str, str] = field(default_factory=dict)
    tape: Tape = "0.5"
    tape_length: str = ""
    line: Line = "cut"
    paper: Paper = "A4"
    chalking: bool = False
    chalk_done: tuple[str, ...] = ()
    chalk_at: str = ""
    reads: Reads = ""
    kept: str = ""
    chalk_for: str = ""
    sewn: tuple[str, ...] = ()
    garment: str = "cut_in_one"
    aside: dict[str, dict[str, str]] = field(default_factory=dict)
    measured: str = ""
    state: GarmentState = ""
    made_on: str = ""
    notes: str = ""
    cut_notes: str = ""
    of_cloth: str = ""
    taken: str = ""
    sheet_measures: bool = False

    @property
    def stage(self) -> Stage:
        """How far the garment is."""
        return self.state or ("chalking" if self.chalking else "planned")

    def unchalked(self) -> "GarmentRecord":
        """The same garment with nothing chalked and no draft frozen for it."""
        return replace(self, chalking=False, chalk_done=(), chalk_at="", reads="", kept="", chalk_for="")


@dataclass(frozen=True, slots=True)
class ClothRecord:
    """A cloth that is kept by name. `facts` holds the text for each key of an order's cloth, in `unit`.

    Its length is what is left of it. A cloth that is `washed` has shrunk already.
    """

    id: str
    name: str = ""
    unit: Unit = "cm"
    facts: dict[str, str] = field(default_factory=dict)
    washed: bool = False


@dataclass(frozen=True, slots=True)
class Settings:
    """What holds for the whole app: the unit new persons start with, light or dark, and how things are shown.

    `fold` says at which side the fold lies for who stands at the table, `top` whether the top is far away or near.
    `aloud` reads the marks aloud; `awake_told` when it was said that the browser lets the screen go dark.
    `view` is the garment on the person or its flat pieces; `measuring` one measure a screen or all as a list.
    `changes` counts those that are in no backup yet, as far as they are counted (app.update_backup).
    """

    unit: Unit = "cm"
    light: Light = "system"
    fold: FoldSide = "left"
    top: TopSide = "far"
    aloud: bool = False
    awake_told: bool = False
    view: View = "worn"
    measuring: Measuring = "one"
    changes: int = 0


@dataclass(frozen=True, slots=True)
class Gone:
    """What was deleted last, while it can be put back: what was said of it, the record, a garment's picture.

    `by` is the mark of the tab that deleted it, so that two tabs which delete the same are told apart.
    """

    says: str
    garment: GarmentRecord | None = None
    person: PersonRecord | None = None
    picture: str = ""
    by: str = ""

    @property
    def id(self) -> str:
        """The id of what was deleted."""
        record = self.garment or self.person
        return "" if record is None else record.id


_INDEX: list[tuple[tuple[Any, ...], dict[str, Any]]] = []
"""The records of the last books asked for, by id."""


def _by_id(records: tuple[Any, ...]) -> dict[str, Any]:
    """The records of a book by their ids; asked for again, of the same records, it is there at once."""
    found = next((each for of, each in _INDEX if of is records), None)
    if found is None:
        found = {each.id: each for each in records}
        _INDEX[:] = [(records, found), *_INDEX[:5]]
    return found


_NUMBER = re.compile(r"[a-z](\d{1,9})(?!\d)")
Numbered = TypeVar("Numbered", PersonRecord, GarmentRecord, ClothRecord)


@lru_cache(maxsize=20_000)
def number_of(key: str) -> int:
    """The number in the id of a record, which grows from one record to the next; 0 where it has none."""
    found = _NUMBER.match(key)
    return int(found[1]) if found else 0


def in_order(records: Iterable[Numbered], *, newest: bool = False) -> tuple[Numbered, ...]:
    """The records as they stand in a book: the oldest first, or the newest."""
    known = tuple(records)
    ids = [each.id for each in known]
    order = sorted(zip(map(number_of, ids), ids, range(len(ids)), strict=True), reverse=newest)
    return tuple(known[at] for _, _, at in order)


@dataclass(frozen=True, slots=True)
class Book:
    """All that is saved (app.saved), but for the frozen drafts. People stand oldest first, garments newest first.

    `next` numbers the next new record. `gone` lives as long as its undo is offered, `pictures` are the outlines of
    garments (app.pictured) by id.
    """

    people: tuple[PersonRecord, ...] = ()
    garments: tuple[GarmentRecord, ...] = ()
    settings: Settings = Settings()
    next: int = 1
    gone: Gone | None = None
    pictures: dict[str, str] = field(default_factory=dict)
    cloths: tuple[ClothRecord, ...] = ()

    def cloth(self, key: str) -> ClothRecord | None:
        """The kept cloth with this id."""
        return _by_id(self.cloths).get(key)

    def person(self, key: str) -> PersonRecord | None:
        """The person with this id."""
        return _by_id(self.people).get(key)

    def garment(self, key: str) -> GarmentRecord | None:
        """The garment with this id."""
        return _by_id(self.garments).get(key)

    def wearer(self, garment: GarmentRecord) -> PersonRecord | None:
        """The person a garment is for, with the measures that it is made for."""
        person = self.person(garment.person)
        return None if person is None else person.measured(garment.measured)


@dataclass(frozen=True, slots=True)
class OtherTape:
    """A frozen draft as another tape reads it: its draft.json, packed, or what stops it, in words."""

    draft: str = ""
    says: str = ""


@dataclass(frozen=True, slots=True)
class FrozenDraft:
    """A draft as it was when its chalking began: order.json and draft.json. Later software never changes it.

    `others` has what every other tape reads, by its smallest step; empty in drafts that were frozen before that.
    `papers` is what the papers are made of, packed (drafting.record.papers); "" in drafts that were frozen before that.
    """

    order: str
    draft: str
    others: dict[str, OtherTape] = field(default_factory=dict)
    papers: str = ""


@dataclass(frozen=True, slots=True)
class Drafted:
    """What the core answered for one garment. `typed` is the order it was asked.

    It comes in three steps: a glance (the outline, with the quick checks where they are read), then `laid` on the cloth
    with the chalk plan, then `full` with the ways out.

    `sketch` is a draft on a cloth of our own choosing, to look at while the cloth is not known; nothing else rests on
    it.
    """

    garment: str
    typed: dict[str, Any]
    result: Result | None
    problems: tuple[Problem, ...]
    laid: bool = False
    full: bool = False
    sketch: Result | None = None


@dataclass(frozen=True, slots=True)
class LayQuestion:
    """What the lay screen asks beside the draft: the notes typed there, and the title and order laid with it."""

    notes: Mapping[str, str] = field(default_factory=dict)
    title: str = ""
    together: tuple[str, Order] | None = None


@dataclass(frozen=True, slots=True)
class LaidOut:
    """What laying came to for the lay screen, with what was asked. What is still being worked out is None.

    `pieces` and `cloth` are those of the garment with its way of laying left open: the ways, the piece in hand and the
    garment beside it are laid with them.
    """

    garment: str
    result: Result
    question: LayQuestion
    pieces: tuple[Piece, ...]
    cloth: ClothFacts
    ways: tuple[Layout, ...] | None = None
    buy: Purchase | None = None
    widths: tuple[Purchase, ...] | None = None
    saves: tuple[LaidWay, ...] | None = None
    in_hand: Answer | None = None
    together: Together | None = None
    problems: tuple[Problem, ...] = ()
    done: bool = False


@dataclass(frozen=True, slots=True)
class Undo:
    """What a tap on "undo" puts back, with the draft frozen for it."""

    person: PersonRecord | None = None
    garment: GarmentRecord | None = None
    frozen: FrozenDraft | None = None
    cloth: ClothRecord | None = None


def undo_of(gone: Gone) -> Undo:
    """What puts back what was deleted; the draft frozen for it is still there."""
    return Undo(person=gone.person, garment=gone.garment)


@dataclass(frozen=True, slots=True)
class Notice:
    """One sentence at the foot of the screen, with or without an undo."""

    words: str
    undo: Undo | None = None
    tone: Literal["plain", "caution", "stop"] = "plain"


@dataclass(frozen=True, slots=True)
class Clash:
    """A person or garment that was changed here and in another tab at once. `theirs` is None where it was deleted.

    `picture` is that of their garment.
    """

    key: str
    theirs: PersonRecord | GarmentRecord | ClothRecord | None = None
    picture: str = ""


@dataclass(frozen=True, slots=True)
class Trouble:
    """An unexpected failure. `report` names files and lines, never what a person typed."""

    report: str


@dataclass(frozen=True, slots=True)
class State:
    """Everything the screens show. Only `book` and `frozen` are saved, each record by itself (app.saved).

    `frozen` has the frozen drafts that were read so far; `unread` names the garments whose frozen draft is kept and
    could not be read. `left` has the keys of people and garments that are kept and could not be read, with the reason.
    `place` is where the person is in this tab; what is kept of it is only where the next opening begins. `mark` is this
    tab's own part of the ids that it gives, `today` the day when it was opened. `locked` says that what is kept could
    not be read, so that nothing is saved. `clashes` holds back what another tab changed at the same time, until a
    person has chosen. `looked_for`, `sorted_by` and `shown` say what home shows of a long book.

    `opened` is a backup that is looked at; `counted` is what was changed last, so that what is typed in one field
    counts once, `changes` how many changes the settings do not count yet.
    """

    book: Book = Book()
    place: Place = Place()
    frozen: dict[str, FrozenDraft] = field(default_factory=dict)
    unread: frozenset[str] = frozenset()
    left: dict[str, str] = field(default_factory=dict)
    opened: "Opened | None" = None
    counted: tuple[object, ...] = ()
    changes: int = 0
    loaded: bool = False
    mark: str = ""
    today: str = ""
    locked: bool = False
    clashes: tuple[Clash, ...] = ()
    looked_for: str = ""
    sorted_by: SortedBy = "newest"
    shown: int = CARDS
    drafted: Drafted | None = None
    laid: LaidOut | None = None
    focus: str = ""
    lit: str = ""
    flat_piece: int = 0
    full_view: bool = False
    room: tuple[int | None, int | None] | None = None
    installs: Installs = "no"
    busy: str = ""
    notice: Notice | None = None
    trouble: Trouble | None = None

    def without_frozen(self, garment: str) -> "State":
        """The same with no frozen draft of this garment."""
        frozen = {key: each for key, each in self.frozen.items() if key != garment}
        return replace(self, frozen=frozen, unread=self.unread - {garment})

    def new_id(self, kind: str, after: int = 0) -> str:
        """An id for a new record of a kind, "p", "g" or "c", that no other tab or device gives."""
        return f"{kind}{self.book.next + after}" + (f"-{self.mark}" if self.mark else "")

    @property
    def garment(self) -> GarmentRecord | None:
        """The garment of this place."""
        return self.book.garment(self.place.garment)

    @property
    def person(self) -> PersonRecord | None:
        """The person of this place: the wearer of the garment in work, or the one looked at from home."""
        garment = self.garment
        return self.book.wearer(garment) if garment else self.book.person(self.place.person)

    @property
    def newest(self) -> PersonRecord | None:
        """The person of this place with the newest measures, which are the ones that are typed."""
        garment = self.garment
        return self.book.person(garment.person if garment else self.place.person)
