"""The head of the chalk sheet, and what to know before cutting: cloth, washing, allowances, warnings, cautions."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from drafting.cloth import washing_words
from drafting.layout import say_laid, way_name
from drafting.render.pdf import MARGIN
from drafting.render.pdf_flow import BODY, SMALL
from drafting.sentences import NO_BREAK, listed, lower_first
from drafting.units import UNIT_NAMES, say_length

if TYPE_CHECKING:
    from collections.abc import Sequence

    from drafting.contract.pieces import Piece
    from drafting.render.pdf import Paper
    from drafting.render.pdf_flow import Flow
    from drafting.render.sheet_data import ChalkSheet
    from drafting.units import Unit

_TITLE = 20.0
_BOX = 66.0  # the box for name and dates, mm
_HEAD_HIGH = 19.5
_CAUTION = 8.5
_KNOW = 9.5
_MANY_ALIKE = 7  # so many seams of one allowance are told together (our choice)


def head(flow: Flow, sheet: ChalkSheet) -> None:
    """Title at the left, a box for name and dates at the right."""
    page, wide = flow.paper, flow.wide
    title, size = page.fitted(sheet.title, wide - _BOX - 6, _TITLE, smallest=13.0, strong=True, about="Title")
    page.words(MARGIN, MARGIN + 7.5, title, size, strong=True)
    line = "cutting line" if sheet.plan.line == "cut" else "stitching line"
    kind = f"Chalk sheet. Readings in {UNIT_NAMES[sheet.plan.tape.unit]}, {line}, {_shown(sheet.pieces)}."
    text, size = page.fitted(kind, wide - _BOX - 6, BODY, smallest=7.5)
    page.words(MARGIN, MARGIN + 14, text, size)
    left, x = page.sheet_width - MARGIN - _BOX, page.sheet_width - MARGIN - _BOX + 22
    page.pen(0.3)
    page.rect(left, MARGIN, _BOX, 17)
    rows = (("Name", sheet.person), ("Measured on", sheet.taken_on or ""), ("Chalked on", ""))
    for index, (name, value) in enumerate(rows):
        y = MARGIN + 4.4 + index * 5.5
        page.words(left + 2, y, name, SMALL)
        if value:
            text, size = page.fitted(value, _BOX - 24, 11.0, smallest=8.0, strong=True, about=name)
            page.words(x, y, text, size, strong=True)
        else:
            page.rule(x, y + 0.6, _BOX - 24)
    flow.y = MARGIN + _HEAD_HIGH


def _shown(pieces: Sequence[Piece]) -> str:
    """How much of its pieces the sheet shows: of those on a fold, or about a centre line, one half."""
    halved = {piece.on_fold for piece in pieces}
    if halved == {True}:
        return "half of each piece"
    return "each piece whole" if halved == {False} else "half of symmetrical pieces"


def know_first(flow: Flow, sheet: ChalkSheet) -> None:
    """Everything that is to be known before a cut, between two rules."""
    _rule(flow.paper, flow.y, flow.wide)
    flow.y += 1.2
    flow.paragraph(cloth_words(sheet), size=10.5, strong=True)
    flow.paragraph(washing_words(sheet.cloth), size=_KNOW)
    flow.paragraph(allowance_words(sheet.pieces, sheet.plan.line, sheet.plan.tape.unit), size=_KNOW, strong=True)
    for check in sheet.checks:
        if check.result == "warn":
            flow.paragraph(check.says, size=_KNOW, strong=True)
            flow.bullets([way.says for way in check.ways_out])
    if any(check.ways_out for check in sheet.checks if check.result == "warn"):
        flow.paragraph(
            "Each change behind a dash needs a new sheet. The marks on this one are right as they are.", size=_KNOW
        )
    for says in sheet.after_cut.before_cut if sheet.after_cut else ():
        flow.paragraph(says, size=_KNOW)
    cautions = [*sheet.cautions, *(check.with_rules() for check in sheet.checks if check.result == "caution")]
    if cautions:
        flow.paragraph(" ".join(dict.fromkeys(cautions)), size=_CAUTION)
    _rule(flow.paper, flow.y, flow.wide)
    flow.y += 2.0


def _rule(page: Paper, y: float, wide: float) -> None:
    page.rule(MARGIN, y, wide, 0.4)


def cloth_words(sheet: ChalkSheet) -> str:
    """How much cloth and how it is laid, or that the pieces do not go on it."""
    open_width = say_length(sheet.cloth.width, sheet.unit)
    if sheet.layout is None:
        return f"Cloth {open_width} wide: the pieces do not fit on it in any way it may be laid."
    long = say_laid(sheet.layout.length, sheet.unit)
    return f"Cloth: {long} of {open_width} wide, {lower_first(way_name(sheet.layout.way))}."


def allowance_words(pieces: Sequence[Piece], line: str, unit: Unit) -> str:
    """The allowances, seams before what is turned in; an edge that is not the same on all pieces names them."""
    seams = _amounts(pieces, unit, turned=False)
    hems = _amounts(pieces, unit, turned=True)
    says = []
    if seams:
        says.append(f"Seams: {_told(seams)}.")
    if hems:
        says.append(f"Turned in: {', '.join(f'{edge} {amount}' for edge, amount in hems)}.")
    where = (
        "The allowances lie inside the cutting line."
        if line == "cut"
        else "You chalk the stitching line: add the allowances outside it before you cut."
    )
    return f"{where} {' '.join(says)}"


def _told(amounts: Sequence[tuple[str, str]]) -> str:
    """Each with its allowance; of many alike only those that differ, since every edge bears its own on the drawing."""
    most, count = Counter(amount for _, amount in amounts).most_common(1)[0]
    if count < _MANY_ALIKE:
        return ", ".join(f"{edge} {amount}" for edge, amount in amounts)
    others = [f"{edge} {amount}" for edge, amount in amounts if amount != most]
    return f"{most} everywhere, but {listed(others)}" if others else f"{most} everywhere"


def _amounts(pieces: Sequence[Piece], unit: Unit, *, turned: bool) -> list[tuple[str, str]]:
    found: dict[str, dict[str, list[str]]] = {}
    for piece in pieces:
        for edge in piece.edges:
            if edge.allowance > 0 and edge.turned == turned:
                names = found.setdefault(edge.label, {}).setdefault(
                    say_length(edge.allowance, unit).replace(" ", NO_BREAK), []
                )
                if piece.label not in names:
                    names.append(lower_first(piece.label))
    return [
        (words if len(amounts) == 1 else f"{words} of the {' and '.join(names)}", amount)
        for words, amounts in found.items()
        for amount, names in amounts.items()
    ]
