"""What the app knows, in one frozen record. What is kept on the device (`Book`) stands apart from what is not.

Everything a person types is kept as the text that was typed, readable or not; reading it is the core's work. Dicts in
these records are never changed in place: `dict | {...}` makes a new one.
"""

import json
from collections.abc import Mapping
from dataclasses import asdict, dataclass, field, fields, replace
from typing import Any, Literal, TypeVar, get_args

from drafting.cloth import ClothFacts
from drafting.contract.pieces import Piece
from drafting.layout import Answer, Layout, Purchase, Together
from drafting.order import Order, Result
from drafting.problems import Problem
from drafting.units import Unit
from drafting.ways_out.cloth import LaidWay

Kind = Literal["woman", "man", "child"]
Screen = Literal["home", "which", "person", "shape", "cloth", "proof", "lay", "chalk", "paper", "sew"]
Light = Literal["system", "light", "dark"]
Paper = Literal["A4", "Letter"]
Tape = Literal["1/8", "1/4", "0.5", "0.1"]
Line = Literal["cut", "stitch"]
FoldSide = Literal["left", "right"]
TopSide = Literal["far", "near"]
View = Literal["worn", "flat"]
Measuring = Literal["one", "list"]

SCREENS: tuple[Screen, ...] = get_args(Screen)
STEPS: tuple[Screen, ...] = SCREENS[2:]
"""The way through a garment, in its order. Which garment it is to be is asked before it begins."""

FORMAT = "foldmark-book"
VERSION = 1


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
        start = f"/garment/{self.garment}/{self.screen}" if self.garment else f"/person/{self.person}"
        return f"{start}/{self.step}" if self.step else start


def place_of(route: str) -> Place | None:
    """Read an address back into a place; None for an address that leads nowhere."""
    parts = [part for part in route.split("?", maxsplit=1)[0].split("/") if part]
    match parts:
        case []:
            return Place()
        case ["person", person, *rest] if len(rest) <= 1:
            place = Place("person", person=person)
        case ["garment", garment, screen, *rest] if screen in SCREENS[1:] and len(rest) <= 1:
            place = Place(next(known for known in SCREENS if known == screen), garment)
        case _:
            return None
    if not rest:
        return place
    return replace(place, step=int(rest[0])) if rest[0].isdecimal() and len(rest[0]) < 4 else None


@dataclass(frozen=True, slots=True)
class PersonRecord:
    """A person as typed. `measures` holds the text typed for each measure; bare numbers stand in `unit`."""

    id: str
    name: str = ""
    kind: Kind = "woman"
    age: str = ""
    unit: Unit = "cm"
    taken_on: str = ""
    measures: dict[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
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
    reads: str = ""
    kept: str = ""
    chalk_for: str = ""
    sewn: tuple[str, ...] = ()
    garment: str = "cut_in_one"
    aside: dict[str, dict[str, str]] = field(default_factory=dict)

    def unchalked(self) -> "GarmentRecord":
        """The same garment with nothing chalked and no draft frozen for it."""
        return replace(self, chalking=False, chalk_done=(), chalk_at="", reads="", kept="", chalk_for="")


@dataclass(frozen=True, slots=True)
class Settings:
    """What holds for the whole app: the unit new persons start with, light or dark, and how things are shown.

    `fold` says at which side the fold lies for who stands at the table, `top` whether the top is far away or near.
    `aloud` reads the marks aloud; `awake_told` when it was said that the browser lets the screen go dark.
    `view` is the garment on the person or its flat pieces; `measuring` one measure a screen or all as a list.
    """

    unit: Unit = "cm"
    light: Light = "system"
    fold: FoldSide = "left"
    top: TopSide = "far"
    aloud: bool = False
    awake_told: bool = False
    view: View = "worn"
    measuring: Measuring = "one"


@dataclass(frozen=True, slots=True)
class Gone:
    """What was deleted last, while it can be put back: where it stood, the record, and what was said of it."""

    says: str
    at: int
    garment: GarmentRecord | None = None
    person: PersonRecord | None = None


@dataclass(frozen=True, slots=True)
class Book:
    """All that is saved, but for the frozen drafts, which have records of their own. `next` numbers new records.

    `gone` lives as long as its undo is offered, `pictures` are the outlines of garments (app.pictured) by id.
    """

    people: tuple[PersonRecord, ...] = ()
    garments: tuple[GarmentRecord, ...] = ()
    settings: Settings = Settings()
    next: int = 1
    gone: Gone | None = None
    pictures: dict[str, str] = field(default_factory=dict)

    def person(self, key: str) -> PersonRecord | None:
        """The person with this id."""
        return next((each for each in self.people if each.id == key), None)

    def garment(self, key: str) -> GarmentRecord | None:
        """The garment with this id."""
        return next((each for each in self.garments if each.id == key), None)


@dataclass(frozen=True, slots=True)
class OtherTape:
    """A frozen draft as another tape reads it: its draft.json, packed (app.packed), or what stops it, in words."""

    draft: str = ""
    says: str = ""


@dataclass(frozen=True, slots=True)
class FrozenDraft:
    """A draft as it was when its chalking began: order.json and draft.json. Later software never changes it.

    `others` has what every other tape reads, by its smallest step; empty in drafts that were frozen before that.
    """

    order: str
    draft: str
    others: dict[str, OtherTape] = field(default_factory=dict)


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
    """What a tap on "undo" puts back: where it stood, and the draft frozen for it."""

    person: tuple[int, PersonRecord] | None = None
    garment: tuple[int, GarmentRecord] | None = None
    frozen: FrozenDraft | None = None


def undo_of(gone: Gone) -> Undo:
    """What puts back what was deleted; the draft frozen for it is still there."""
    return Undo(
        person=None if gone.person is None else (gone.at, gone.person),
        garment=None if gone.garment is None else (gone.at, gone.garment),
    )


@dataclass(frozen=True, slots=True)
class Notice:
    """One sentence at the foot of the screen, with or without an undo."""

    words: str
    undo: Undo | None = None
    tone: Literal["plain", "caution", "stop"] = "plain"


@dataclass(frozen=True, slots=True)
class Trouble:
    """An unexpected failure. `report` names files and lines, never what a person typed."""

    report: str


@dataclass(frozen=True, slots=True)
class State:
    """Everything the screens show. Only `book` and `frozen` are saved; `revisions` are those of the saved records.

    `unread` names the garments whose frozen draft is kept and could not be read. `place` is where the person is in this
    tab; what is kept of it is only where the next opening begins.
    """

    book: Book = Book()
    place: Place = Place()
    frozen: dict[str, FrozenDraft] = field(default_factory=dict)
    unread: frozenset[str] = frozenset()
    loaded: bool = False
    revisions: dict[str, int] = field(default_factory=dict)
    stale: bool = False
    drafted: Drafted | None = None
    laid: LaidOut | None = None
    focus: str = ""
    lit: str = ""
    full_view: bool = False
    busy: str = ""
    notice: Notice | None = None
    trouble: Trouble | None = None

    def without_frozen(self, garment: str) -> "State":
        """The same with no frozen draft of this garment."""
        frozen = {key: each for key, each in self.frozen.items() if key != garment}
        return replace(self, frozen=frozen, unread=self.unread - {garment})

    @property
    def garment(self) -> GarmentRecord | None:
        """The garment of this place."""
        return self.book.garment(self.place.garment)

    @property
    def person(self) -> PersonRecord | None:
        """The person of this place: of the garment in work, or the one looked at from home."""
        garment = self.garment
        return self.book.person(garment.person if garment else self.place.person)


def book_text(book: Book) -> str:
    """The book as the text that is saved."""
    return json.dumps({"format": FORMAT, "version": VERSION, **asdict(book)}, ensure_ascii=False)


def read_book(text: str) -> Book | None:
    """Read a saved book back; None where it is not one, or a newer app wrote it.

    Unknown keys of the same version are passed over, missing ones take their defaults: an app one step older or newer
    still finds every person.
    """
    try:
        found = json.loads(text)
        if not isinstance(found, dict) or found.get("format") != FORMAT or found.get("version") != VERSION:
            return None
        return Book(
            people=tuple(_record(PersonRecord, each) for each in found.get("people", ())),
            garments=tuple(_record(GarmentRecord, each) for each in found.get("garments", ())),
            settings=_record(Settings, found.get("settings", {})),
            next=int(found.get("next", 1)),
            gone=_gone(found.get("gone")),
            pictures={str(key): str(text) for key, text in found.get("pictures", {}).items()},
        )
    except (ValueError, TypeError, AttributeError, KeyError):
        return None


def place_text(place: Place) -> str:
    """Where a person is, as the text that is kept."""
    return json.dumps(asdict(place))


def read_place(text: str | None, book: str | None = None) -> Place:
    """Read it back; home where it is no place. Books kept it before it had a record of its own."""
    for kept, within in ((text, False), (book, True)):
        try:
            found = json.loads(kept) if kept is not None else None
            if found is not None:
                return _record(Place, found.get("place", {}) if within else found)
        except (ValueError, TypeError, AttributeError):
            continue
    return Place()


def _gone(found: dict[str, Any] | None) -> Gone | None:
    if found is None:
        return None
    garment, person = found.get("garment"), found.get("person")
    return Gone(
        str(found["says"]),
        int(found["at"]),
        None if garment is None else _record(GarmentRecord, garment),
        None if person is None else _record(PersonRecord, person),
    )


_CHOICES: dict[str, tuple[str, ...]] = {
    "screen": SCREENS, "kind": get_args(Kind), "unit": get_args(Unit), "tape": get_args(Tape), "line": get_args(Line),
    "paper": get_args(Paper), "light": get_args(Light), "fold": get_args(FoldSide), "top": get_args(TopSide),
    "view": get_args(View), "measuring": get_args(Measuring),
    "reads": ("", *get_args(Tape)),
}  # fmt: skip


def _texts(found: dict[str, Any]) -> dict[str, str]:
    return {str(key): str(text) for key, text in found.items()}


Saved = TypeVar("Saved", PersonRecord, GarmentRecord, Settings, Place)


def _record(kind: type[Saved], found: dict[str, Any]) -> Saved:
    """Make one record of saved data; raises where a value is not of its kind."""
    values: dict[str, Any] = {}
    for known in fields(kind):
        if known.name not in found:
            continue
        value = found[known.name]
        if known.name in _CHOICES:
            if value not in _CHOICES[known.name]:
                raise ValueError(known.name)
        elif known.name == "aside":
            value = {str(name): _texts(each) for name, each in value.items()}
        elif isinstance(value, dict):
            value = _texts(value)
        elif isinstance(value, list):
            value = tuple(str(each) for each in value)
        elif not isinstance(value, (str, int)):
            raise TypeError(known.name)
        values[known.name] = value
    return kind(**values)


def frozen_text(frozen: FrozenDraft) -> str:
    """A frozen draft as the text that is saved."""
    return json.dumps({"format": "foldmark-frozen", "version": VERSION, **asdict(frozen)}, ensure_ascii=False)


def read_frozen(text: str) -> FrozenDraft | None:
    """Read a saved frozen draft back; None where it is not one."""
    try:
        found = json.loads(text)
        if found["format"] != "foldmark-frozen" or found["version"] != VERSION:
            return None
        others = {
            step: OtherTape(str(one["draft"]), str(one["says"]))
            for step, one in found.get("others", {}).items()
            if step in get_args(Tape)
        }
        return FrozenDraft(str(found["order"]), str(found["draft"]), others)
    except (ValueError, TypeError, KeyError, AttributeError):
        return None
