"""Papers are made from a record alone: read back it gives the same bytes, and no garment is asked for them."""

import json
from collections.abc import Callable
from dataclasses import fields, is_dataclass
from pathlib import Path
from typing import Any

import pytest
from pydantic import TypeAdapter

from drafting.garments import garments
from drafting.order import glance, make, read_order
from drafting.record import documents, papers
from drafting.record.packed import unpacked
from drafting.record.papers import FARTHEST, VERSION, Papers, kept_papers, papers_of, papers_text, read_papers
from tests.drafting.bodies import BODIES, Data, order
from tests.drafting.pdf_reading import words_of
from tests.drafting.test_every_garment_made import CASES, SOME, made

KEPT = Path(__file__).parent / "papers"
SOUND: Data = order(BODIES["median woman"], {}, {"width": "180 cm"}, title="Weir jacket")


def sound() -> Papers:
    found, _ = read_order(SOUND)
    assert found is not None
    return papers_of(make(found, with_ways_out=False))


@pytest.mark.sampled(6)
@pytest.mark.parametrize(("garment", "case"), CASES)
def test_what_papers_are_made_of_is_read_back_as_it_was(garment: str, case: str) -> None:
    result = made(garment, case)
    told = papers_of(result)
    read = kept_papers(papers_text(told), documents.draft_json(result).decode())
    assert read == told
    assert read.layout == result.layout
    for each in fields(Papers):
        assert repr(getattr(read, each.name)) == repr(getattr(told, each.name)), "of the same kinds throughout"


@pytest.mark.sampled(4)
@pytest.mark.parametrize(("garment", "case"), SOME)
def test_papers_of_the_record_are_those_of_the_draft(garment: str, case: str, monkeypatch: pytest.MonkeyPatch) -> None:
    result = made(garment, case)
    of_draft = documents.documents(result)
    text = papers_text(papers_of(result))

    def asked(*_: object, **__: object) -> Any:
        raise AssertionError("a garment was asked")

    for name in ("garments", "papers_of", "code_text", "title_of"):
        monkeypatch.setattr(papers, name, asked)
    for each in garments().values():
        monkeypatch.setattr(type(each), "__getattribute__", asked)
    read = read_papers(text)
    assert read is not None
    assert documents.printed(read) == {name: made for name, made in of_draft.items() if name != "draft.json"}


def test_the_text_is_short_and_holds_no_changes_to_the_order() -> None:
    text = papers_text(sound())
    assert json.loads(text)["version"] == VERSION
    assert len(text) < 200_000
    assert not any(way["changes"] for check in json.loads(text)["papers"]["checks"] for way in check["ways_out"])


def test_a_code_holds_the_measures_only_where_the_sheet_may() -> None:
    told = sound()
    assert told.code != told.code_with_measures
    assert not told.sheet_measures
    found, _ = read_order(SOUND | {"sheet_measures": True})
    assert found is not None
    other = papers_of(make(found, with_ways_out=False))
    assert other.sheet_measures
    assert (other.code, other.code_with_measures) == (told.code, told.code_with_measures)


def test_there_are_none_where_the_plan_is_withheld() -> None:
    found, _ = read_order(SOUND)
    assert found is not None
    with pytest.raises(ValueError, match="no chalk plan"):
        papers_of(glance(found))


def _moved(found: Data, by: float) -> None:
    found["papers"]["pieces"][0]["cut_line"][1]["x"] = by


def _laid(found: Data, by: float) -> None:
    found["papers"]["layouts"][0]["places"][0]["y"] = by


@pytest.mark.parametrize("change", [_moved, _laid])
@pytest.mark.parametrize(("far", "there"), [
    (FARTHEST, True), (-FARTHEST, True), (FARTHEST + 1, False), (-FARTHEST - 1, False),
    (float("nan"), False), (float("inf"), False),
])  # fmt: skip
def test_what_lies_farther_than_any_cloth_is_not_read(
    change: Callable[[Data, float], None], far: float, *, there: bool
) -> None:
    found = json.loads(papers_text(sound()))
    change(found, far)
    assert (read_papers(json.dumps(found)) is not None) is there


@pytest.mark.parametrize("change", [
    lambda found: found.update(version=VERSION + 1),
    lambda found: found.update(version=0),
    lambda found: found.pop("version"),
    lambda found: found.update(papers=[]),
    lambda found: found["papers"].pop("plan"),
    lambda found: found["papers"].update(plan=None),
    lambda found: found["papers"].update(pieces={}),
    lambda found: found["papers"].update(unit="ell"),
    lambda found: found["papers"]["plan"]["tape"].update(step="1/8"),
    lambda found: found["papers"]["pieces"][0]["edges"][0]["stitch"]["segments"][0].pop("end"),
])  # fmt: skip
def test_what_is_no_text_of_ours_is_not_read(change: Callable[[Data], Any]) -> None:
    found = json.loads(papers_text(sound()))
    change(found)
    assert read_papers(json.dumps(found)) is None
    for other in ("", "{", "[]", "3", "null", "[" * 100_000):
        assert read_papers(other) is None


def test_a_field_of_later_is_passed_over() -> None:
    found = json.loads(papers_text(sound()))
    found["papers"]["of_later"] = 1
    found["papers"]["pieces"][0]["of_later"] = 1
    assert read_papers(json.dumps(found)) == sound()


def test_papers_of_other_marks_than_the_draft_are_not_taken() -> None:
    found, _ = read_order(SOUND)
    assert found is not None
    draft = documents.draft_json(make(found, with_ways_out=False)).decode()
    text = papers_text(sound())
    assert kept_papers(text, draft) is not None
    assert kept_papers("", draft) is None
    assert kept_papers(text, "{}") is None
    for far, same in ((0.0009, True), (0.0011, False)):
        other = json.loads(draft)
        other["pieces"][0]["marks"][1]["x"] += far
        assert (kept_papers(text, json.dumps(other)) is not None) is same
    other = json.loads(draft)
    other["pieces"][0]["marks"][1]["across"] = "1.0"
    assert kept_papers(text, json.dumps(other)) is None


@pytest.mark.parametrize("version", range(1, VERSION + 1))
def test_papers_of_every_version_are_still_printed(version: int) -> None:
    """What an earlier version kept is printed with the marks of then: every reading of its draft is on the sheet."""
    draft = (KEPT / f"draft_{version}.json").read_text("utf-8")
    read = kept_papers((KEPT / f"version_{version}.json").read_text("utf-8"), draft)
    assert read is not None
    files = documents.printed(read)
    assert set(files) >= {"chalk-sheet.pdf", "pattern.pdf", "pattern.svg", "cloth.svg"}
    told = words_of(files["chalk-sheet.pdf"]).split()
    for piece in json.loads(draft)["pieces"]:
        for mark in piece["marks"]:
            assert {mark["across"], mark["down"]} <= set(told), mark["id"]


def texts_of(version: int) -> list[tuple[str, str]]:
    """The papers that were kept by a version, each with its draft.json."""
    first = ((KEPT / f"version_{version}.json").read_text("utf-8"), (KEPT / f"draft_{version}.json").read_text("utf-8"))
    more = json.loads((KEPT / f"more_{version}.json").read_text("utf-8"))
    return [first, *((unpacked(each["papers"]) or "", unpacked(each["draft"]) or "") for each in more.values())]


def lost(held: Any, again: Any, at: str = "") -> list[str]:
    """The places of what was held and is not the same again."""
    if isinstance(held, dict) and isinstance(again, dict):
        return [each for key in held for each in lost(held[key], again.get(key, "not there"), f"{at}.{key}")]
    if isinstance(held, list) and isinstance(again, list) and len(held) == len(again):
        return [each for one, other in zip(held, again, strict=True) for each in lost(one, other, at)]
    return [] if held == again else [at]


@pytest.mark.parametrize("version", range(1, VERSION + 1))
def test_nothing_that_a_version_kept_is_passed_over(version: int) -> None:
    """A field that is called otherwise now would be read as its default, and its paper would lack it unsaid."""
    for text, draft in texts_of(version):
        read = kept_papers(text, draft)
        assert read is not None
        assert lost(json.loads(text)["papers"], json.loads(papers_text(read))["papers"]) == []
        assert set(documents.printed(read)) >= {"chalk-sheet.pdf", "pattern.pdf", "pattern.svg"}


def records_in(value: Any) -> set[str]:
    """The names of all records that a value is made of."""
    if is_dataclass(value) and not isinstance(value, type):
        inner = {name for each in fields(value) for name in records_in(getattr(value, each.name))}
        return {type(value).__name__, *inner}
    if isinstance(value, dict):
        return {name for each in value.values() for name in records_in(each)}
    return (
        {name for each in value for name in records_in(each)} if isinstance(value, (tuple, list, frozenset)) else set()
    )


def test_every_kind_of_record_stands_in_what_is_kept_of_this_version() -> None:
    known = set(TypeAdapter(Papers).json_schema(mode="serialization")["$defs"])
    kept = {name for text, _ in texts_of(VERSION) for name in records_in(read_papers(text))}
    assert known - kept == set(), "papers that hold one belong into the texts that are kept"


def test_every_garment_has_papers() -> None:
    assert {garment for garment, _ in CASES} == set(garments())
