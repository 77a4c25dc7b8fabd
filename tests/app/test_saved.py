"""What is kept comes back whole, whatever was typed; older versions are read; what is not ours is left alone."""

import gc
import json
from dataclasses import MISSING, fields, replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app import actions as act
from app import asks
from app.chalking import read_chalking
from app.saved import (
    _KINDS,
    FROZEN,
    GARMENT,
    PERSON,
    VERSION,
    KeptGarment,
    Migrated,
    ReadBook,
    Unreadable,
    all_kept,
    migrated,
    place_text,
    read,
    read_all,
    read_place,
    text_of,
    text_of_all,
)
from app.state import (
    SCREENS,
    Book,
    FrozenDraft,
    GarmentRecord,
    Gone,
    OtherTape,
    PersonRecord,
    Place,
    Settings,
    State,
    in_order,
)
from app.storage import Change, MemoryStore, Record, SaveFailed
from app.text import words
from app.update_garment import chalking_of, item_at
from tests.app.records import loaded, texts
from tests.app.session import Tab, fill, run
from tests.app.test_update_backup import screen, work

TEXT = st.text(max_size=30)
TEXTS = st.dictionaries(TEXT, TEXT, max_size=4)
ID = st.from_regex(r"[gp][0-9]{1,4}(-[0-9a-f]{8})?", fullmatch=True)
PEOPLE = st.builds(
    PersonRecord, id=ID, name=TEXT, kind=st.sampled_from(["woman", "man", "child"]), age=TEXT,
    unit=st.sampled_from(["cm", "in"]), taken_on=TEXT, measures=TEXTS,
)  # fmt: skip
GARMENTS = st.builds(
    GarmentRecord, id=ID, title=TEXT, person=TEXT, style=TEXTS, cloth=TEXTS,
    tape=st.sampled_from(["1/8", "1/4", "0.5", "0.1"]), tape_length=TEXT, line=st.sampled_from(["cut", "stitch"]),
    paper=st.sampled_from(["A4", "Letter"]), chalking=st.booleans(), reads=st.sampled_from(["", "1/8", "0.1"]),
    chalk_done=st.lists(TEXT, max_size=3).map(tuple), chalk_at=TEXT, sewn=st.lists(TEXT, max_size=3).map(tuple),
    garment=TEXT, aside=st.dictionaries(TEXT, TEXTS, max_size=2), kept=TEXT, chalk_for=TEXT,
)  # fmt: skip
PLACES = st.builds(Place, st.sampled_from(SCREENS), TEXT, TEXT, st.integers(0, 999))
SETTINGS = st.builds(
    Settings, st.sampled_from(["cm", "in"]), st.sampled_from(["system", "light", "dark"]),
    st.sampled_from(["left", "right"]), st.sampled_from(["far", "near"]), st.booleans(), st.booleans(),
    st.sampled_from(["worn", "flat"]), st.sampled_from(["one", "list"]),
)  # fmt: skip
OTHERS = st.dictionaries(st.sampled_from(["1/8", "0.1"]), st.builds(OtherTape, TEXT, TEXT), max_size=2)
FROZENS = st.builds(FrozenDraft, TEXT, st.text(st.characters(exclude_categories=["Cs"]), max_size=99), OTHERS)
GONES = st.builds(Gone, TEXT, GARMENTS, st.none(), TEXT) | st.builds(Gone, TEXT, st.none(), PEOPLE)
BOOKS = Path(__file__).parent / "books"


@given(st.one_of(PEOPLE, st.builds(KeptGarment, GARMENTS, TEXT), FROZENS, SETTINGS, GONES))
@settings(max_examples=400)
def test_every_record_comes_back_as_it_was(kept):
    name = {KeptGarment: "garment.", PersonRecord: "person.", Gone: "gone."}.get(type(kept), "")
    whose = kept.garment if isinstance(kept, KeptGarment) else kept
    key = name + whose.id if name else "frozen.g1" if isinstance(kept, FrozenDraft) else "book"
    text = text_of(kept)
    assert read(key, text) == kept
    assert json.loads(text)["version"] == 2
    if name:
        assert read(key + "x", text) == Unreadable("damaged"), "a record stands under its own id"


@given(PLACES)
def test_a_kept_place_comes_back_as_it_was(place):
    assert read_place(place_text(place)) == place


@pytest.mark.parametrize("text", [None, "", "7", "{", '{"screen": "cellar"}', '{"step": "1"}', "[]"])
def test_where_no_place_is_kept_one_begins_at_home(text):
    assert read_place(text) == Place()


@given(st.lists(PEOPLE, max_size=4, unique_by=lambda each: each.id),
       st.lists(GARMENTS, max_size=4, unique_by=lambda each: each.id), SETTINGS)  # fmt: skip
def test_a_book_comes_back_in_its_order(people, garments, chosen):
    book = Book(
        in_order(people), in_order(garments, newest=True), chosen, pictures={garments[0].id: "1,2"} if garments else {}
    )
    found = read_all(dict(reversed(texts(book).items())))
    assert replace(found.book, next=1) == book
    assert (found.frozen, found.left) == ({}, {})


GARMENT_TEXT = text_of(KeptGarment(GarmentRecord("g1", title="Shirt")))


def changed(text: str, *path: str, to: object) -> str:
    found = json.loads(text)
    at = found
    for part in path[:-1]:
        at = at[part]
    at[path[-1]] = to
    return json.dumps(found)


@pytest.mark.parametrize(("key", "text", "why"), [
    ("garment.g1", "", "damaged"), ("garment.g1", "null", "damaged"), ("garment.g1", "[]", "damaged"),
    ("garment.g1", "{", "damaged"), ("garment.g1", '{"format": "other", "version": 2}', "damaged"),
    ("garment.g1", "[" * 100_000, "damaged"),
    ("garment.g1", changed(GARMENT_TEXT, "version", to=3), "newer"),
    ("garment.g1", changed(GARMENT_TEXT, "version", to=1), "damaged"),
    ("garment.g1", changed(GARMENT_TEXT, "version", to=True), "damaged"),
    ("garment.g1", changed(GARMENT_TEXT, "garment", to=3), "damaged"),
    ("garment.g1", changed(GARMENT_TEXT, "garment", "title", to=None), "damaged"),
    ("garment.g1", changed(GARMENT_TEXT, "garment", "style", to={"length": 3}), "damaged"),
    ("garment.g1", changed(GARMENT_TEXT, "garment", "tape", to="1/3"), "damaged"),
    ("garment.g1", changed(GARMENT_TEXT, "garment", "chalking", to="yes"), "damaged"),
    ("garment.g1", changed(GARMENT_TEXT, "garment", "chalk_done", to="hem"), "damaged"),
    ("garment.g1", changed(GARMENT_TEXT, "garment", "aside", to={"one": 3}), "damaged"),
    ("person.g1", GARMENT_TEXT, "damaged"),
    ("book", changed(text_of(Settings()), "settings", "fold", to="middle"), "damaged"),
    ("frozen.g1", changed(text_of(FrozenDraft("{}", "{}")), "draft", to="not packed"), "damaged"),
])  # fmt: skip
def test_what_cannot_be_read_is_told_apart(key, text, why):
    assert read(key, text) == Unreadable(why)
    assert read_all({key: text}).left == {key: why}


def test_a_field_of_a_later_app_is_passed_over_and_an_empty_one_is_not_written():
    assert read("garment.g1", changed(GARMENT_TEXT, "garment", "from_later", to=1)) == KeptGarment(
        GarmentRecord("g1", title="Shirt")
    )
    assert set(json.loads(text_of(PersonRecord("p1")))["person"]) == {"id", "kind", "unit", "set"}


def test_a_default_that_is_not_empty_is_always_written():
    """So that another default of a later app changes no record of today's."""
    for record in (PersonRecord("p1"), GarmentRecord("g1"), Settings()):
        kept = KeptGarment(record) if isinstance(record, GarmentRecord) else record
        written = next(each for each in json.loads(text_of(kept)).values() if isinstance(each, dict))
        for field in fields(record):
            if field.default is not MISSING and field.default:
                assert written[field.name] == field.default


def test_two_of_the_same_objects_are_the_same_record():
    state = State(
        Book(people=(PersonRecord("p1"),), garments=(GarmentRecord("g1"),)), frozen={"g1": FrozenDraft("{}", "{}")}
    )
    first, second = dict(all_kept(state)), dict(all_kept(replace(state, lit="mark")))
    assert list(first) == ["frozen.g1", "person.p1", "garment.g1", "book"]
    assert all(one is other for key in first for one, other in zip(first[key], second[key], strict=True))
    assert {key: text_of_all(of) for key, of in first.items()} == texts(state)
    with pytest.raises(TypeError):
        text_of_all(("neither",))


# ---- Books of earlier versions --------------------------------------------------------------------------------------


def book_of(release: str) -> dict[str, str]:
    return dict(json.loads((BOOKS / f"{release}.json").read_text("utf-8")))


RELEASES = sorted(each.stem for each in BOOKS.glob("*.json"))


def opened(records: dict[str, str], route: str = "/") -> tuple[State, dict[str, str]]:
    """The app after it was opened with these records, and what the store holds then."""

    async def work() -> tuple[State, dict[str, str]]:
        store = MemoryStore()
        await fill(store, records)
        tab = await Tab(store).open(route)
        keys = await store.keys()
        assert isinstance(keys, tuple)
        kept = {key: each.text for key in keys if isinstance(each := await store.load(key), Record)}
        return tab.state, kept

    return run(work())


def test_the_first_and_the_last_book_in_one_record_are_kept_here():
    assert RELEASES == ["first_release", "last_of_one_book"]


@pytest.mark.parametrize("release", RELEASES)
def test_a_book_of_an_earlier_release_opens_with_all_that_was_in_it(release):
    records = book_of(release)
    old = json.loads(records["book"])
    state, kept = opened(records)
    book = state.book
    assert not state.locked
    assert state.left == {}
    assert [(each.name, each.measures) for each in book.people] == [
        (each["name"], each["measures"]) for each in old["people"]
    ]
    assert [(each.title, each.style, each.cloth, list(each.chalk_done)) for each in book.garments] == [
        (each["title"], each["style"], each["cloth"], each["chalk_done"]) for each in old["garments"]
    ]
    assert book.settings.light == "dark"
    by_name = {each.name: each.id for each in book.people}
    assert [each.person for each in book.garments] == [by_name["Jonte"], by_name["Jonte"], by_name["Ilse"]]
    chalked = book.garments[-1]
    assert chalked.chalking
    assert chalked.chalk_for in ("", by_name["Ilse"]), "the first release did not keep for whom"
    frozen = json.loads(records["frozen.g1"])
    assert state.frozen[chalked.id].order == frozen["order"]
    assert state.frozen[chalked.id].draft == frozen["draft"]
    assert state.place == Place("cloth", book.garments[0].id), "the place was moved along"
    assert "frozen.g1" not in kept, "it stands under its new name"
    again, same = opened(kept)
    assert (again.book, again.frozen) == (book, state.frozen)
    assert same == kept, "what is of today is written no more"


@pytest.mark.parametrize("version", range(2, VERSION + 1))
def test_records_of_every_version_since_they_stand_by_themselves_are_read_for_ever(version):
    """Every kind of record, as the app wrote it when that version was the newest; they are left as they are."""
    records = json.loads((BOOKS.parent / "records_kept" / f"version_{version}.json").read_text("utf-8"))
    assert {key.partition(".")[0] for key in records} == {"book", "place", *_KINDS}
    state, kept = opened(records)
    assert (state.locked, state.left, state.unread) == (False, {}, frozenset())
    assert kept == records, "nothing of it is written anew"
    book = state.book
    (person,), (cloth,), (copied, garment) = book.people, book.cloths, book.garments
    assert (person.name, person.notes, person.measures["bust_girth"], person.again["bust_girth"]) == (
        "Ilse", "in the morning", "96", "96.5",
    )  # fmt: skip
    assert [(each.id, each.measures["bust_girth"]) for each in person.earlier] == [(garment.measured, "94")]
    assert (cloth.name, cloth.washed, cloth.facts["length"], garment.of_cloth) == (
        "Blue jersey", True, "3 m", cloth.id,
    )  # fmt: skip
    assert (garment.title, garment.chalking, garment.chalk_at) == ("Ferry pullover", True, "front.neck_top")
    assert (copied.state, copied.cut_notes, copied.chalking) == ("sewn", "hem 2 cm shorter", True)
    assert book.settings.light == "dark"
    assert book.gone is not None
    assert book.gone.person is not None
    assert book.gone.person.name == "Jonte"
    assert state.place == Place("chalk", garment.id)
    for each, papers in ((garment, True), (copied, False)):
        assert bool(state.frozen[each.id].papers) is papers, "with what papers are made of, and as before that was kept"
        chalking = chalking_of(state, each)
        assert chalking is not None
        assert len(chalking.items) > 20
    assert item_at(garment, chalking_of(state, garment)) == "front.neck_top"


@pytest.mark.parametrize("release", RELEASES)
def test_a_move_that_is_cut_off_loses_nothing_and_is_done_again(release):
    """The store ends after every single change that it makes; each time the app is opened anew."""
    records = book_of(release)
    whole = opened(records)[0]

    class Ending(MemoryStore):
        left = 0

        async def save_all(self, changes):
            answers = {}
            for change in changes:
                answers[change.key] = await self._one(change)
            return answers

        async def save(self, key, text, revision):
            return await self._one(Change(key, text, revision))

        async def remove(self, key, revision):
            answer = await self._one(Change(key, None, revision))
            return answer if isinstance(answer, SaveFailed) else None

        async def _one(self, change):
            if self.left == 0:
                return SaveFailed.because("silent")
            self.left -= 1
            return self._change(change)

    async def work(cut: int) -> int:
        store = Ending()
        store.left = len(records)
        await fill(store, records)
        store.left = cut
        cut_off = await Tab(store).open()
        left = store.left
        store.left = 10_000
        tab = await Tab(store).open()
        assert tab.state.book == whole.book
        assert {each.order for each in tab.state.frozen.values()} == {each.order for each in whole.frozen.values()}
        if cut_off.state.locked:
            assert cut_off.state.book == Book()
        return left

    cuts = 0
    while run(work(cuts)) == 0:
        cuts += 1
    assert cuts >= len(records) + 4, "each of them was cut"


@pytest.mark.parametrize("release", RELEASES)
def test_a_move_in_which_one_record_finds_no_room_loses_nothing_and_is_done_again(release):
    """The old book is let go only when all that was in it stands under its new names."""
    records = book_of(release)
    whole = opened(records)[0]

    class Refusing(MemoryStore):
        refused, wrote = -1, 0

        def _change(self, change):
            self.wrote += 1
            return SaveFailed.because("full") if self.wrote == self.refused else super()._change(change)

    async def work(refused: int) -> int:
        store = Refusing()
        await fill(store, records)
        store.wrote, store.refused = 0, refused
        await Tab(store).open()
        wrote = store.wrote
        store.refused = -1
        tab = await Tab(store).open()
        assert tab.state.book == whole.book, f"the {refused}. of {wrote}"
        assert {each.order for each in tab.state.frozen.values()} == {each.order for each in whole.frozen.values()}
        return wrote

    many = run(work(-1))
    assert many >= len(records) + 4
    for refused in range(1, many + 1):
        run(work(refused))


@pytest.mark.parametrize("release", RELEASES)
def test_the_chalking_of_an_earlier_release_goes_on_at_its_mark_with_its_readings_and_its_cloth(release):
    state, _ = opened(book_of(release))
    garment = state.book.garments[-1]
    chalking = chalking_of(state, garment)
    assert chalking is not None
    assert item_at(garment, chalking) == json.loads(book_of(release)["book"])["garments"][-1]["chalk_at"]
    waist = chalking.items[chalking.index("front.waist")]
    assert waist.says == "waist at the side"
    draft = json.loads(state.frozen[garment.id].draft)
    (mark,) = [each for each in draft["pieces"][0]["marks"] if each["id"] == "waist"]
    assert waist.pairs == (("across", mark["across"]), ("down", mark["down"]))
    cloth = chalking.cloth
    assert cloth is not None
    frame = next(each for each in cloth.drawing.items if each.role == "frame")
    assert max(place.x for place in frame.points) == draft["layout"]["cloth_width"] / 2, "it lies folded in half"
    assert max(place.y for place in frame.points) == draft["layout"]["length"]
    (fold,) = [each for each in cloth.drawing.items if each.role == "fold"]
    assert {place.x for place in fold.points} == {0}
    assert {name.lower(): at for name, at in cloth.zeros.items()} == {
        place["piece"]: (place["x"], place["y"]) for place in draft["layout"]["places"]
    }


def test_a_layout_of_an_earlier_release_that_is_not_folded_in_half_is_no_chalking():
    frozen = json.loads(book_of("first_release")["frozen.g1"])
    draft = json.loads(frozen["draft"])
    draft["layout"]["fold"] = "open"
    assert read_chalking(json.dumps(draft), frozen["order"]) is None
    state, _ = opened(book_of("first_release"))
    garment = state.book.garments[-1]
    odd = replace(state.frozen[garment.id], draft=json.dumps(draft))
    told = screen(replace(state, frozen={garment.id: odd}, place=Place("chalk", garment.id)))
    assert words("chalk.unread") in told, "nobody is left waiting"
    assert words("chalk.again") in told
    assert words("chalk.unread.try") not in told
    unread = replace(state, frozen={}, unread=frozenset({garment.id}), place=Place("chalk", garment.id))
    assert words("chalk.unread.try") in screen(unread)
    waiting = screen(replace(state, frozen={}, place=Place("chalk", garment.id)))
    assert words("busy.read") in waiting


@pytest.mark.parametrize("name", ["chalk-sheet.pdf", "pattern.pdf", "pattern.svg", "cloth.svg"])
def test_no_paper_has_other_marks_than_those_that_are_chalked(name):
    """Today's code drafts the order of the first release with other marks; its own draft.json is still given."""
    state, _ = opened(book_of("first_release"))
    garment = state.book.garments[-1]
    sent, device = work(state, asks.MakeFile(garment.id, name))
    assert sent == [act.FileFailed(words("paper.otherwise"))]
    assert device.handed == []
    _, device = work(state, asks.MakeFile(garment.id, "draft.json"))
    assert device.handed[0][2] == state.frozen[garment.id].draft.encode()


def test_a_garment_whose_marks_cannot_be_read_keeps_its_name_when_the_book_is_moved():
    records = book_of("last_of_one_book")
    moved = migrated(records["book"], {"g1": None})
    assert isinstance(moved, Migrated)
    assert GARMENT + "g1" in moved.records
    assert not any(key.startswith(FROZEN) for key in moved.records)
    assert moved.moved == ()
    others = [key for key in moved.records if key.startswith((GARMENT, PERSON)) and key != GARMENT + "g1"]
    assert len(others) == 4
    assert all("-" in key for key in others), "ids that no other device gives"


def test_what_was_deleted_can_be_put_back_after_the_move():
    old = json.loads(book_of("last_of_one_book")["book"])
    garment = old["garments"].pop()
    old["gone"] = {"says": "Ferry pullover is deleted.", "at": 2, "garment": garment, "person": None}
    state, _ = opened({**book_of("last_of_one_book"), "book": json.dumps(old)})
    assert state.notice is not None
    assert state.notice.words == "Ferry pullover is deleted."
    assert state.book.gone is not None
    assert state.book.gone.id not in {each.id for each in state.book.garments}


@pytest.mark.parametrize(("text", "why"), [
    ('{"format": "foldmark-book", "version": 7}', "newer"), ("{", "damaged"), ('{"format": "else"}', "damaged"),
    (json.dumps(json.loads(book_of("first_release")["book"]) | {"people": [{"id": None}]}), "damaged"),
    (json.dumps(json.loads(book_of("first_release")["book"]) | {"garments": 3}), "damaged"),
])  # fmt: skip
def test_a_book_that_cannot_be_read_is_left_as_it_is(text, why):
    assert migrated(text, {}) == Unreadable(why)
    state, kept = opened({"book": text, "frozen.g1": "{}"})
    assert state.locked
    assert state.notice is not None
    assert ("newer Foldmark" in state.notice.words) == (why == "newer")
    assert kept == {"book": text, "frozen.g1": "{}"}


def test_what_is_of_today_is_not_moved():
    assert migrated(text_of(Settings()), {}) is None
    assert migrated(text_of(Settings(light="dark")), {"g1": "x"}) is None


def test_a_tab_tells_what_it_could_not_read_and_saves_the_rest():
    state, _ = opened({**texts(Book(people=(PersonRecord("p1", "Runa"),))), "garment.g2": "{"})
    assert state.left == {"garment.g2": "damaged"}
    assert [each.name for each in state.book.people] == ["Runa"]


def test_loaded_is_what_the_records_say():
    assert loaded(Book()).found.book == Book()
    assert isinstance(loaded(), act.Loaded)


@pytest.mark.parametrize("damaged", ["", "{", "[", "]", "1, 2", "null", "7", "{},", '"', "{} {}"])
@pytest.mark.parametrize("at", range(3))
def test_a_damaged_text_harms_no_other_that_is_read_in_the_same_go(damaged, at):
    people = [PersonRecord(f"p{number}", name="Ngozi") for number in range(3)]
    records = {f"person.{each.id}": text_of(each) for each in people}
    records[f"person.p{at}"] = damaged
    found = read_all(records)
    assert [each.id for each in found.book.people] == [f"p{number}" for number in range(3) if number != at]
    assert found.left == {f"person.p{at}": "damaged"}


@pytest.mark.parametrize("count", [0, 1, 99, 100, 101, 250])
def test_however_many_records_there_are_each_is_read_once(count):
    people = [PersonRecord(f"p{at}", f"Person {at}", measures={"stature": str(at)}) for at in range(1, count + 1)]
    records = {f"person.{each.id}": text_of(each) for each in people}
    assert read_all(records) == ReadBook(Book(tuple(people), next=count + 1), {}, {})
    for at in {1, min(100, count), min(101, count), count} - {0}:
        found = read_all(records | {f"person.p{at}": "{"})
        assert found.book.people == tuple(each for each in people if each.id != f"p{at}")
        assert found.left == {f"person.p{at}": "damaged"}


def test_records_of_the_same_form_share_nothing_that_is_theirs():
    """What is not given begins empty for each of them, and the second is judged by its own values."""
    first, second = (text_of(PersonRecord(f"p{at}", measures={"stature": "168"})) for at in (1, 2))
    one, two = read_all({"person.p1": first, "person.p2": second}).book.people
    assert one == PersonRecord("p1", measures={"stature": "168"})
    for name in ("measures", "again", "flat"):
        assert getattr(one, name) is not getattr(two, name)
    for wrong in (
        changed(second, "person", "kind", to="cat"),
        changed(second, "person", "measures", to={"stature": 168}),
        changed(second, "person", "measures", to=["stature"]),
        changed(second, "person", "kind", to=["woman"]),
    ):
        assert read_all({"person.p1": first, "person.p2": wrong}).left == {"person.p2": "damaged"}
    beside = changed(second, "person", "of_later", to="5")
    assert read("person.p2", beside) == two
    assert not hasattr(read("person.p2", beside), "of_later")
    assert read("book", changed(text_of(Settings()), "settings", "of_later", to="5")) == Settings()
    assert replace(one, name="Ann").name == "Ann"
    assert (one.told, one.earlier, one.unit, one.notes) == ((), (), "cm", "")


def test_two_damaged_texts_that_make_up_for_each_other_are_seen_all_the_same():
    kept = PersonRecord("p1", name="Ngozi")
    records = {"person.p1": text_of(kept), "person.p2": "1, 2", "person.p3": "[3", "cloth.c1": "4]"}
    found = read_all(records)
    assert found.book.people == (kept,)
    assert set(found.left) == {"person.p2", "person.p3", "cloth.c1"}


def test_reading_leaves_the_collector_as_it_was():
    for on in (True, False):
        (gc.enable if on else gc.disable)()
        try:
            read_all({"person.p1": "{"})
            assert gc.isenabled() is on
        finally:
            gc.enable()
