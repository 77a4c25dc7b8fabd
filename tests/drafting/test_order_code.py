"""An order as the code on its chalk sheet: read back by another program, with the measures only where it is asked."""

import json
from io import BytesIO
from pathlib import Path
from typing import Any

import pypdfium2
import pytest
import zxingcpp
from hypothesis import given
from hypothesis import strategies as st
from pypdf import PdfReader

from drafting.order import Order, make, read_order
from drafting.record.documents import CODE_SAYS, CODE_SAYS_LESS, chalk_sheet_pdf
from drafting.record.order_code import LONGEST, MARK, code_text, from_base45, read_code, to_base45
from drafting.render import sheet_code
from drafting.render.pdf import PAPERS
from drafting.render.sheet_code import HEAD, MODULE, SIDE, squares_of
from tests.drafting.bodies import BODIES, order

#: RFC 9285, section 4.3 and 4.4: what the published examples encode and decode to.
RFC_9285 = {b"AB": "BB8", b"Hello!!": "%69 VD92EX0", b"base-45": "UJCLQE7W581", b"ietf!": "QED8WEX0"}


def typed(*, measures: bool = False, **more: Any) -> dict[str, Any]:
    return order(BODIES["median woman"], {"length": "knee"}, {}) | {"sheet_measures": measures} | more


def read(data: dict[str, Any]) -> Order:
    found, problems = read_order(data)
    assert found is not None, problems
    return found


def test_base_45_is_that_of_rfc_9285() -> None:
    for data, text in RFC_9285.items():
        assert (to_base45(data), from_base45(text)) == (text, data)


@pytest.mark.parametrize("text", ["GGW", ":::", "A", "AAAA", "ab", "::", "€€"])
def test_what_is_no_base_45_is_refused(text: str) -> None:
    """GGW is RFC 9285's own example of a value above two bytes."""
    with pytest.raises(ValueError, match="no base 45"):
        from_base45(text)


@given(st.binary())
def test_any_bytes_come_back(data: bytes) -> None:
    assert from_base45(to_base45(data)) == data


def test_the_order_comes_back_without_the_measures_or_with_them() -> None:
    whole = read(typed(measures=True, title="Ferry ½ Straße"))
    assert read(read_code(code_text(whole)) or {}) == whole
    named = {"name": "Ilse", "age": 40, "taken_on": "2026-10-18", "told": ["bust_girth"]}
    less = read_code(code_text(read(typed(person=typed()["person"] | named))))
    assert less is not None
    assert set(less["person"]) == {"kind", "unit"}
    assert not [key for key in whole.person.measures if key in json.dumps(less)]
    assert less["style"] == {"length": "knee"}
    assert less["cloth"] == whole.model_dump(mode="json", exclude_defaults=True)["cloth"]
    assert "sheet_measures" not in less


@pytest.mark.parametrize(
    ("name", "title", "kept"),
    [("Ilse", "Dress of ILSE", False), ("Ilse", "Dress", True), ("", "Dress", True), ("Ilse", "", False)],
)
def test_no_name_stands_in_the_code_unless_it_is_asked_for(name: str, title: str, kept: bool) -> None:
    for measures in (False, True):
        told = typed(measures=measures, title=title)
        told["person"] = told["person"] | {"name": name}
        found = read_code(code_text(read(told)))
        assert found is not None
        assert (name.casefold() in json.dumps(found).casefold()) is (measures or not name)
        assert ("title" in found) is (kept or (measures and bool(title)))


def test_whether_the_sheet_holds_the_measures_is_said_as_true_or_false() -> None:
    refused, problems = read_order(typed() | {"sheet_measures": "yes"})
    assert refused is None
    assert [each.field for each in problems] == ["sheet_measures"]


def test_a_plain_pullover_keeps_its_four_sheets() -> None:
    """As many as the change log tells, on both papers."""
    demo = json.loads((Path(__file__).resolve().parents[2] / "assets" / "demo" / "order.json").read_text("utf-8"))
    result = make(read(demo), with_ways_out=False)
    for paper in PAPERS:
        pdf = chalk_sheet_pdf(result, paper)
        assert len(PdfReader(BytesIO(pdf)).pages) == 4
        assert HEAD in " ".join(PdfReader(BytesIO(pdf)).pages[-1].extract_text().split())


@pytest.mark.parametrize("text", ["", "hello", MARK, f"{MARK}NOT", "FOLDMARK-2:6BFOXN", f"{MARK}{to_base45(b'x')}"])
def test_another_code_is_none_of_ours(text: str) -> None:
    assert read_code(text) is None


def test_a_code_that_swells_is_not_read_to_its_end() -> None:
    import zlib

    for count, known in ((LONGEST - 20, True), (LONGEST + 1, False)):
        long = json.dumps({"title": "x" * (count - len('{"title": ""}'))})
        assert (read_code(MARK + to_base45(zlib.compress(long.encode()))) is not None) is known


def seen(pdf: bytes) -> list[str]:
    """What another program reads on the pages of a sheet, as a camera sees it: 200 dots an inch."""
    document = pypdfium2.PdfDocument(pdf)
    pages = [page.render(scale=200 / 72).to_pil() for page in document]
    document.close()
    return [each.text for page in pages for each in zxingcpp.read_barcodes(page)]


@pytest.mark.parametrize("measures", [False, True])
def test_the_sheet_carries_a_code_that_another_program_reads(measures: bool) -> None:
    result = make(read(typed(measures=measures)), with_ways_out=False)
    pdf = chalk_sheet_pdf(result, "A4")
    (text,) = seen(pdf)
    assert text == code_text(result.order)
    found = read_code(text)
    assert found is not None
    assert ("measures" in found["person"]) is measures
    document = pypdfium2.PdfDocument(pdf)
    last = document[len(document) - 1].get_textpage().get_text_range()
    document.close()
    told = " ".join(last.split())
    for says in CODE_SAYS if measures else CODE_SAYS_LESS:
        assert says in told
    for says in CODE_SAYS_LESS[:1] if measures else CODE_SAYS[:1]:
        assert says not in told


def test_it_is_printed_while_it_has_room_and_left_out_beyond(monkeypatch: pytest.MonkeyPatch) -> None:
    sides = {count: len(squares_of(MARK + "A" * count)) for count in range(100, 1800, 20)}
    assert min(sides.values()) * MODULE < SIDE < max(sides.values()) * MODULE, "some would be too large"
    assert all(side % 4 == 1 for side in sides.values()), "17 + 4 times the version, with 8 of quiet zone"
    assert squares_of("A" * 9000) == ()
    result = make(read(typed()), with_ways_out=False)
    side = len(squares_of(code_text(result.order))) * MODULE
    for room, printed in ((side + 0.01, True), (side - 0.01, False)):
        monkeypatch.setattr(sheet_code, "SIDE", room)
        pdf = chalk_sheet_pdf(result, "A4")
        assert bool(seen(pdf)) is printed
        last = PdfReader(BytesIO(pdf)).pages[-1].extract_text()
        assert (HEAD in " ".join(last.split())) is printed


def test_the_quiet_zone_is_four_squares_wide() -> None:
    """ISO/IEC 18004 asks for four (from memory)."""
    rows = squares_of(MARK)
    assert not any(any(row) for row in (*rows[:4], *rows[-4:]))
    assert not any(any((*row[:4], *row[-4:])) for row in rows)
    assert rows[4][4]
