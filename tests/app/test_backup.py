"""A backup gives back all that it was made of; what is no backup, or a damaged one, is refused in words.

JSON Schema is judged by the library `jsonschema`, which knows nothing of ours.
"""

import json
from dataclasses import asdict, fields, replace
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.backup import (
    REFERS,
    Backup,
    Refused,
    backup_schema,
    lists,
    part_of,
    read_backup,
    shared,
    write_backup,
)
from app.plain import HIGHEST, LONGEST, MOST, Reader, UnfitError, kinds_of
from app.saved import read
from app.state import Book, FrozenDraft, GarmentRecord, OtherTape, PersonRecord, Settings, in_order
from app.typed import records_of
from drafting.garments import garments
from drafting.record.backup_file import MOST_BYTES, VERSION
from drafting.record.packed import packed
from tests.app.test_shown import DEMO

HERE = Path(__file__).resolve().parent
SCHEMA = HERE.parents[1] / "assets" / "backup.schema.json"
FROZEN = json.loads((HERE / "frozen" / "open_ankle_dress.json").read_text("utf-8"))

TEXT = st.text(st.characters(exclude_categories=["Cs"]), max_size=20)
IDS = st.from_regex(r"[A-Za-z0-9_-]{1,40}", fullmatch=True)


CHALKED = read("frozen.g1", FROZEN["record"])
assert isinstance(CHALKED, FrozenDraft)
assert CHALKED is not None
"""A draft that an earlier app froze."""


def of_a(kind: type, **given: st.SearchStrategy[Any]) -> st.SearchStrategy[Any]:
    """Records of a kind, by what it says of its fields, so that a new field is tried without a word here."""
    kinds = kinds_of(kind)
    return st.builds(kind, **{each.name: given.get(each.name, st.from_type(kinds[each.name])) for each in fields(kind)})


def a_book(data: st.DataObject) -> tuple[Book, dict[str, FrozenDraft]]:
    """A book as it may be, with a frozen draft of each garment that is being chalked."""
    kept: dict[str, Any] = {}
    for name, kind in lists().items():
        drawn = of_a(kind, id=IDS, **({"garment": st.sampled_from(list(garments()))} if name == "garments" else {}))
        drawn_now = data.draw(st.lists(drawn, max_size=3, unique_by=lambda each: each.id))
        kept[name] = in_order(drawn_now, newest=name == "garments")
    for name, refers in REFERS.items():
        whose = {key: st.sampled_from(["", *(each.id for each in kept[other])]) for key, other in refers.items()}
        named = [replace(each, **{key: data.draw(who) for key, who in whose.items()}) for each in kept[name]]
        kept[name] = tuple(named)
    pictures = {each.id: "1,2 3,-4" for each in kept["garments"] if data.draw(st.booleans())}
    frozen = {
        each.id: replace(CHALKED, others={"0.1": OtherTape(packed(CHALKED.draft)), "1/8": OtherTape(says="No.")})
        for each in kept["garments"]
        if each.chalking
    }
    return Book(**kept, settings=shared(data.draw(of_a(Settings))), pictures=pictures), frozen


@settings(max_examples=40, deadline=None)
@given(st.data())
def test_a_backup_gives_back_all_that_it_was_made_of(data: st.DataObject) -> None:
    book, frozen = a_book(data)
    written = write_backup(book, frozen, saved_on="2026-11-27")
    read = read_backup(written.text.encode())
    assert read == Backup("everything", book, frozen, "2026-11-27")
    assert written.without == ()
    jsonschema.Draft202012Validator(backup_schema()).validate(json.loads(written.text))


def sample() -> tuple[Book, dict[str, FrozenDraft]]:
    """Two people, the first with two garments, one of which is being chalked, and a garment that is nobody's."""
    garment, person = records_of(json.loads(DEMO), "g1", "p1")
    other = replace(garment, id="g2", title="", chalking=True, chalk_done=("front.a",), chalk_at="front.b")
    book = Book(
        (person, PersonRecord("p2", "Otto", "man")), (replace(garment, id="g3", person=""), other, garment),
        Settings("in", "dark"), pictures={"g1": "1,2 3,4"},
    )  # fmt: skip
    return book, {"g2": CHALKED}


def test_a_backup_of_one_has_what_belongs_to_it_and_no_settings() -> None:
    book, frozen = sample()
    hers = read_backup(write_backup(book, frozen, person="p1").text.encode())
    assert isinstance(hers, Backup)
    assert hers == Backup("person", replace(part_of(book, person="p1"), settings=Settings()), frozen)
    assert [each.id for each in hers.book.garments] == ["g2", "g1"]
    its = read_backup(write_backup(book, frozen, garment="g1").text.encode())
    assert isinstance(its, Backup)
    assert [each.id for each in (*its.book.people, *its.book.garments)] == ["p1", "g1"]
    assert its.frozen == {}
    assert its.book.pictures == {"g1": "1,2 3,4"}
    assert "settings" not in json.loads(write_backup(book, frozen, garment="g1").text)


def test_each_garment_stands_there_as_the_order_that_a_program_drafts() -> None:
    book, frozen = sample()
    orders = json.loads(write_backup(book, frozen).text)["orders"]
    assert orders["g1"]["person"]["measures"]["bust_girth"] == "94"
    assert orders["g3"] is None, "nobody was chosen for it"


def test_a_record_stands_on_a_line_of_its_own() -> None:
    lines = write_backup(*sample()).text.splitlines()
    assert sum(line.startswith('{"id": "p') for line in lines) == 2
    assert sum(line.startswith('{"id": "g') for line in lines) == 3


def test_a_garment_whose_frozen_draft_cannot_be_read_is_named() -> None:
    book, _ = sample()
    written = write_backup(book, {"g2": FrozenDraft("{}", "{}")})
    assert written.without == ("g2",)
    read = read_backup(written.text.encode())
    assert isinstance(read, Backup)
    assert read.lost == ("g2",)
    assert read.book.garments[1].chalk_done == ("front.a",), "what was ticked stays in the record"


def test_an_order_becomes_a_garment_and_a_person() -> None:
    read = read_backup(DEMO.encode())
    assert isinstance(read, Backup)
    assert read.holds == "order"
    assert (read.book.people[0].name, read.book.people[0].measures["bust_girth"]) == ("Ilse", "94")
    assert read.book.garments[0].title == "Ferry pullover"


# ---- What is refused ------------------------------------------------------------------------------------------------


def changed(*way: Any, to: Any) -> bytes:
    """The sample's backup with one value of it changed; `to` is what it becomes."""
    typed = json.loads(write_backup(*sample()).text)
    at = typed
    for key in way[:-1]:
        at = at[key]
    at[way[-1]] = to
    return json.dumps(typed).encode()


NESTED: Any = "x"
for _ in range(40):
    NESTED = [NESTED]


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"", "not JSON"),
        (b"{", "not JSON"),
        (b"\x89PNG\r\n\x1a\n\x00", "UTF-8"),
        ("{}".encode("utf-16"), "UTF-16"),
        (b"[]", "no backup"),
        (b"7", "no backup"),
        (b'{"format": "other", "version": 1}', "no backup"),
        (b"[" * 100_000, "deeply"),
        (changed("people", 0, "measures", to=NESTED), "deeply"),
        (changed("people", 0, "age", to=10**40), "digits"),
        (changed("version", to=2), "newer"),
        (changed("version", to=0), "version"),
        (changed("version", to=True), "version"),
        (changed("version", to="1"), "version"),
        (changed("holds", to="nothing"), "holds"),
        (changed("saved_on", to="yesterday"), "saved_on"),
        (changed("people", to={}), "people"),
        (changed("people", to=None), "people"),
        (changed("garments", to="g1"), "garments"),
        (changed("people", 0, to=[]), "people, 1"),
        (changed("people", 1, "id", to="p1"), "people, 2, id"),
        (changed("people", 0, "id", to="../x"), "people, 1, id"),
        (changed("people", 0, "id", to=""), "people, 1, id"),
        (changed("people", 0, "id", to="a" * 41), "people, 1, id"),
        (changed("people", 0, "kind", to="cat"), "people, 1, kind"),
        (changed("people", 0, "name", to=7), "people, 1, name"),
        (changed("people", 0, "name", to="x" * (LONGEST + 1)), "people, 1, name"),
        (changed("people", 0, "measures", "bust_girth", to=94), "people, 1, measures, bust_girth"),
        (changed("people", 0, "measures", to=["94"]), "people, 1, measures"),
        (changed("garments", 1, "chalking", to=1), "garments, 2, chalking"),
        (changed("garments", 1, "chalk_done", to="all"), "garments, 2, chalk_done"),
        (changed("garments", 1, "chalk_done", to=["a"] * (MOST + 1)), "garments, 2, chalk_done"),
        (changed("garments", 0, "aside", to={"poncho": {"a": 1}}), "garments, 1, aside, poncho, a"),
        (changed("garments", 0, "garment", to="cloak_of_later"), "newer"),
        (changed("settings", "light", to="bright"), "settings, light"),
        (changed("settings", to=[]), "settings"),
        (changed("frozen", to=[]), "frozen"),
        (changed("pictures", to=[]), "pictures"),
        (changed("orders", to=[]), "orders"),
        (changed("pictures", "g1", to="1,2 3"), "pictures, g1"),
        (changed("pictures", "g1", to="nan,2"), "pictures, g1"),
        (changed("frozen", "g2", to="x"), "frozen, g2"),
        (changed("frozen", "g2", "draft", to="x"), "frozen, g2, draft"),
        (changed("frozen", "g2", "draft", to=packed("{}")), "frozen, g2"),
        (changed("frozen", "g2", "draft", to=packed("[" * 50_000)), "frozen, g2"),
        (changed("frozen", "g2", "order", to="{}"), "frozen, g2"),
        (changed("frozen", "g2", "order", to={}), "frozen, g2, order"),
        (changed("frozen", "g2", "others", to={"1/8": {"draft": "no", "says": ""}}), "frozen, g2"),
        (changed("frozen", "g2", "others", to=[]), "frozen, g2, others"),
        (write_backup(*sample()).text.replace('"kind": "woman"', '"kind": NaN').encode(), "NaN"),
        (write_backup(*sample()).text.replace('"p2"', '"p2", "id": "p3"', 1).encode(), "twice"),
        (write_backup(*sample()).text.replace("Otto", "\\ud800").encode(), "half of a character"),
        (DEMO.replace("168", "12").encode(), "stature"),
        (DEMO.replace('"version": 1', '"version": 2').encode(), "newer"),
        (DEMO.replace('"cut_in_one"', '"cloak_of_later"').encode(), "garment"),
    ],
    ids=lambda each: each if isinstance(each, str) else "",
)
def test_what_is_not_sound_is_refused_in_words(content: bytes, said: str) -> None:
    read = read_backup(content)
    assert isinstance(read, Refused)
    assert said in read.words
    assert read.words.endswith((".", "changed."))
    assert "Nothing was changed." in read.words
    assert len(read.words) < 300


def test_a_file_that_is_too_large_is_refused_unread(monkeypatch: pytest.MonkeyPatch) -> None:
    def never(*_: object) -> None:
        raise AssertionError

    whole = write_backup(*sample()).text.encode()
    assert isinstance(read_backup(whole + b" " * (MOST_BYTES - len(whole))), Backup)
    monkeypatch.setattr("app.backup.read_text", never)
    refused = read_backup(whole + b" " * (MOST_BYTES - len(whole) + 1))
    assert isinstance(refused, Refused)
    assert "larger" in refused.words
    assert MOST_BYTES < 50_000_000


def test_frozen_drafts_that_would_fill_the_memory_are_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    assert CHALKED is not None
    monkeypatch.setattr("app.backup.MOST_DRAFTS", len(CHALKED.draft))
    assert isinstance(read_backup(write_backup(*sample()).text.encode()), Backup)
    monkeypatch.setattr("app.backup.MOST_DRAFTS", len(CHALKED.draft) - 1)
    assert isinstance(read_backup(write_backup(*sample()).text.encode()), Refused)


def test_what_later_software_adds_to_a_record_is_left_out_and_told() -> None:
    for content in (
        changed("people", 0, "eyes", to="green"),
        changed("sayings", to=[]),
        changed("settings", "x", to=1),
    ):
        read = read_backup(content)
        assert isinstance(read, Backup)
        assert read.unknown
        assert (read.book, read.frozen) == sample()
    known = read_backup(write_backup(*sample()).text.encode())
    assert isinstance(known, Backup)
    assert not known.unknown


def test_whom_a_garment_is_for_is_looked_for_in_the_file_alone() -> None:
    read = read_backup(changed("garments", 0, "person", to="p9"))
    assert isinstance(read, Backup)
    assert read.book.garments[0].person == ""


def test_a_record_that_an_earlier_app_wrote_takes_the_defaults() -> None:
    for kind, name in ((PersonRecord, "people"), (GarmentRecord, "garments")):
        for each in fields(kind):
            typed = json.loads(write_backup(*sample()).text)
            typed[name] = [{key: value for key, value in one.items() if key != each.name} for one in typed[name]]
            read = read_backup(json.dumps(typed).encode())
            assert isinstance(read, Refused if each.name == "id" else Backup), each.name
    bare = read_backup(
        b'{"format": "foldmark-backup", "version": 1, "holds": "everything", "people": [], "garments": []}'
    )
    assert bare == Backup("everything", Book(), {})


def test_a_backup_of_the_first_version_is_read_for_ever() -> None:
    read = read_backup((HERE / "backups" / "version_1.json").read_bytes())
    assert isinstance(read, Backup)
    book, frozen = sample()
    assert [asdict(each)["measures"] for each in read.book.people] == [each.measures for each in book.people]
    assert [each.style for each in read.book.garments] == [each.style for each in book.garments]
    assert read.book.garments[1].chalk_done == ("front.a",)
    assert read.frozen["g2"].draft == frozen["g2"].draft
    assert read.saved_on == "2026-11-27"
    assert VERSION == 1, "a new version keeps a backup of the one before it beside this one"


@settings(max_examples=150, deadline=None)
@given(st.data())
def test_whatever_is_changed_in_a_backup_it_is_refused_or_sound(data: st.DataObject) -> None:
    """One value anywhere becomes something else; what is taken all the same can be written and read again."""
    typed = json.loads(write_backup(*sample()).text)
    at: Any = typed
    while True:
        keys = list(at) if isinstance(at, dict) else list(range(len(at)))
        key = data.draw(st.sampled_from(keys))
        if isinstance(at[key], (dict, list)) and at[key] and data.draw(st.booleans()):
            at = at[key]
            continue
        odd = st.none() | st.booleans() | st.integers(-(2**70), 2**70) | st.floats() | TEXT | st.just([]) | st.just({})
        at[key] = data.draw(odd | st.lists(odd, max_size=2) | st.dictionaries(TEXT, odd, max_size=2))
        break
    read = read_backup(json.dumps(typed).encode())
    if isinstance(read, Refused):
        assert read.words
        return
    again = read_backup(write_backup(read.book, read.frozen, saved_on=read.saved_on).text.encode())
    assert isinstance(again, Backup)
    assert (again.book.people, again.book.garments, again.frozen) == (read.book.people, read.book.garments, read.frozen)


# ---- The schema -----------------------------------------------------------------------------------------------------


def test_the_kept_schema_is_that_of_the_records() -> None:
    assert json.loads(SCHEMA.read_text("utf-8")) == backup_schema(), "python -m app.backup writes it anew"
    jsonschema.Draft202012Validator.check_schema(backup_schema())


@pytest.mark.parametrize(
    "content",
    [
        changed("version", to=2), changed("holds", to=""), changed("people", to={}),
        changed("people", 0, "kind", to="cat"),
        changed("people", 0, "id", to="../x"), changed("people", 0, "measures", "bust_girth", to=94),
        changed("garments", 1, "chalking", to=1), changed("garments", 1, "chalk_done", to="all"),
        changed("settings", "light", to="bright"), changed("frozen", "g2", "order", to={}),
        changed("people", 0, "name", to="x" * (LONGEST + 1)), changed("orders", "g1", to=7),
    ],
    ids=lambda each: each[-20:].decode(),
)  # fmt: skip
def test_the_schema_refuses_what_is_refused_here(content: bytes) -> None:
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.Draft202012Validator(backup_schema()).validate(json.loads(content))


# ---- Records as plain data ------------------------------------------------------------------------------------------


def test_a_reader_keeps_to_its_limits() -> None:
    from dataclasses import dataclass

    @dataclass(frozen=True)
    class Counted:
        count: int
        said: str = ""

    assert Reader(3).record(Counted, {"count": HIGHEST, "said": "abc"}) == Counted(HIGHEST, "abc")
    for wrong in (
        {"count": HIGHEST + 1},
        {"count": -HIGHEST - 1},
        {"count": 1, "said": "abcd"},
        {"count": True},
        {},
        3,
    ):
        with pytest.raises(UnfitError):
            Reader(3).record(Counted, wrong)
