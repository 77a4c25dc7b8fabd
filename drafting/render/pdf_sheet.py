"""The chalk sheet: one page to pin above the table, and the order of work behind it.

The first sheet is read standing: what to do first, the piece with its numbered marks, the table of readings, the
proof lengths. The second is for the cloth: how it is folded and where every piece lies. Everything else follows, what
is wrong before what is well.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from drafting.chalk_lying import Lying, lyings, ordinal
from drafting.drawing import LEVEL_NAMES, Drawing, key_drawing, piece_drawing, whole_length
from drafting.layout import way_name
from drafting.pieces import counted
from drafting.render.pdf import MARGIN, PAPERS, POINTS_A_MM, Paper, PaperName
from drafting.render.pdf_cloth import cloth_page
from drafting.render.pdf_flow import BODY, HEAD, SMALL, Flow
from drafting.sentences import lower_first, upper_first
from drafting.units import UNIT_NAMES, Reading, Unit, say_length

if TYPE_CHECKING:
    from drafting.chalk_marks import ChalkPlan, Mark, PieceMarks
    from drafting.cloth import ClothFacts
    from drafting.layout import Layout
    from drafting.measures import Estimate
    from drafting.pieces import FinishedFigure, FinishedGirth, Piece
    from drafting.problems import Adjustment, Check
    from drafting.render.fonts import Fonts
    from drafting.units import Tape

_TITLE, _READING, _NAME = 20.0, 13.5, 11.0
#: Rows this high, mm, take larger readings.
_ROOMY, _LARGE = 6.2, 15.0
_GAP = 4.0
_FEWEST_NOTES = 2  # lines to write on that are worth a heading
_SMALL_PICTURE = 95.0  # height of the picture of a further piece, mm
_ASIDE = 60.0  # the column at the right of the order of work, mm
#: Rows of the table of readings, mm: as high as there is room for, never lower than the letters need.
_ROW_HIGH, _ROW_LOW = 7.4, 4.9


@dataclass(frozen=True, slots=True)
class ChalkSheet:
    """All that the chalk sheet tells. Lengths in mm; `unit` is the one a person reads sentences in.

    `taken_on` is the date of the measures as typed, or None: then a line is left to write it on.
    """

    title: str
    person: str
    taken_on: str | None
    unit: Unit
    pieces: tuple[Piece, ...]
    plan: ChalkPlan
    cloth: ClothFacts
    layout: Layout | None = None
    checks: tuple[Check, ...] = ()
    adjusted: tuple[Adjustment, ...] = ()
    finished: tuple[FinishedGirth, ...] = ()
    figures: tuple[FinishedFigure, ...] = ()
    estimates: tuple[Estimate, ...] = ()
    cautions: tuple[str, ...] = ()
    layouts: tuple[Layout, ...] = ()

    @property
    def lying(self) -> tuple[Lying, ...]:
        """How each piece lies, in the order of the pieces."""
        return lyings(self.pieces, self.layout, self.plan.tape)


def chalk_sheet(sheet: ChalkSheet, *, paper: PaperName = "A4", fonts: Fonts | None = None) -> bytes:
    """The chalk sheet as a PDF, A4 or Letter upright, black ink only. The same sheet gives the same bytes."""
    page = Paper(PAPERS[paper], f"{sheet.title}: chalk sheet", fonts)
    left_over = _first_page(page, sheet)
    if sheet.layout is not None:
        cloth_page(
            page, sheet.layout, sheet.layouts, sheet.pieces, sheet.cloth, sheet.plan.tape, sheet.unit,
            lambda number: _foot(page, number),
        )  # fmt: skip
    _next_pages(page, sheet, left_over)
    return page.finish()


# ---- the sheet to pin up -----------------------------------------------------------------------------------------


def _first_page(page: Paper, sheet: ChalkSheet) -> list[_Row]:
    """Draw it; the rows for which the table had no room."""
    page.add_page()
    wide = page.sheet_width - 2 * MARGIN
    floor = page.sheet_height - MARGIN - 4
    _header(page, sheet, wide)
    y = _first_things(page, sheet, MARGIN + 21, wide)
    piece, marked = sheet.pieces[0], sheet.plan.pieces[0]
    table_wide = 0.41 * wide
    draw_wide = wide - table_wide - _GAP
    proofs_high = 9.5 + 6.2 * len(marked.proofs)
    room = (draw_wide, floor - y - proofs_high - 3)
    drawing = fitted_drawing(piece, marked, sheet.plan.tape, *room, whole=sheet.lying[0].kind == "whole")
    page.draw(drawing, MARGIN + (draw_wide - drawing.paper_width) / 2, y + 1)
    below = _proofs(page, marked, MARGIN, y + drawing.paper_height + 4, draw_wide)
    _notes(page, MARGIN, below + 6, draw_wide, floor)
    left_over = _readings(page, sheet, MARGIN + draw_wide + _GAP, y, wide=table_wide, floor=floor)
    _foot(page, 1, sheet.lying[0].base)
    return left_over


def _header(page: Paper, sheet: ChalkSheet, wide: float) -> None:
    """Title at the left, a box for name and dates at the right."""
    box = 66.0
    title, size = page.fitted(sheet.title, wide - box - 6, _TITLE, smallest=13.0, strong=True, about="Title")
    page.words(MARGIN, MARGIN + 7.5, title, size, strong=True)
    line = "cutting line" if sheet.plan.line == "cut" else "stitching line"
    kind = f"Chalk sheet. Readings in {UNIT_NAMES[sheet.plan.tape.unit]}, {line}, half of each piece."
    text, size = page.fitted(kind, wide - box - 6, BODY, smallest=7.5)
    page.words(MARGIN, MARGIN + 14, text, size)
    left, x = page.sheet_width - MARGIN - box, page.sheet_width - MARGIN - box + 22
    page.pen(0.3)
    page.rect(left, MARGIN, box, 17)
    rows = (("Name", sheet.person), ("Measured on", sheet.taken_on or ""), ("Chalked on", ""))
    for index, (name, value) in enumerate(rows):
        y = MARGIN + 4.4 + index * 5.5
        page.words(left + 2, y, name, SMALL)
        if value:
            text, size = page.fitted(value, box - 24, 11.0, smallest=8.0, strong=True, about=name)
            page.words(x, y, text, size, strong=True)
        else:
            page.rule(x, y + 0.6, box - 24)


def _first_things(page: Paper, sheet: ChalkSheet, y: float, wide: float) -> float:
    """What to do before the first mark, and the cloth it takes. Returns where the rest of the sheet begins."""
    page.rule(MARGIN, y - 1.5, wide, 0.4)
    lines = [(_cloth_words(sheet), True)]
    if sheet.plan.work:
        lines.append((f"First: {sheet.plan.work[0].says}", False))
    y += 3.6
    for text, strong in lines:
        for part in page.wrapped(text, wide, 10.5, strong=strong):
            page.words(MARGIN, y, part, 10.5, strong=strong)
            y += 4.7
        y += 0.6
    page.rule(MARGIN, y - 2.2, wide, 0.4)
    return y + 1.0


def _cloth_words(sheet: ChalkSheet) -> str:
    open_width = say_length(sheet.cloth.width, sheet.unit)
    if sheet.layout is None:
        return (
            f"Cloth {open_width} wide: the pieces do not fit on it in any way it may be laid. "
            "The ways out stand below the order of work."
        )
    long = say_length(whole_length(sheet.layout.length, sheet.unit), sheet.unit)
    return f"Cloth: {long} of {open_width} wide, {lower_first(way_name(sheet.layout.fold))}. See the next sheet."


def fitted_drawing(
    piece: Piece, marked: PieceMarks, tape: Tape, wide: float, tall: float, *, whole: bool = False
) -> Drawing:
    """The piece as large as it goes into `wide` × `tall` mm of paper, its words and numbers included."""
    scale = max(piece.width / wide, piece.height / tall)
    drawing = piece_drawing(piece, marked, tape, scale=scale, whole=whole)
    for _ in range(6):  # words keep their size on paper, so the scale that fits is found by a few tries
        over = max(drawing.paper_width / wide, drawing.paper_height / tall)
        if over <= 1.0:
            break
        scale *= over + 0.004
        drawing = piece_drawing(piece, marked, tape, scale=scale, whole=whole)
    return drawing


def _small_picture(sheet: ChalkSheet, piece: Piece, marked: PieceMarks, wide: float, whole: bool) -> Drawing:
    """The piece with nothing on it but the marks given and what is cut into it."""
    scale = max(piece.width / (0.85 * wide), piece.height / _SMALL_PICTURE)
    tape = sheet.plan.tape
    return piece_drawing(
        piece, marked, tape, scale=scale, letters=0.9, show_signs=False, half_and_full=False, whole=whole
    )


@dataclass(frozen=True, slots=True)
class _Row:
    """A row of the table of readings; levels have no number and reach all the way across."""

    number: str
    name: str
    across: Reading | None
    down: Reading


def _rows(marks: Sequence[Mark]) -> list[_Row]:
    ordered = sorted(marks, key=lambda mark: mark.order)
    return [
        _Row(str(mark.order), f"{upper_first(mark.label)}{_from_which(mark.zero)}", mark.across, mark.reads)
        for mark in ordered
    ]


def _from_which(zero: int) -> str:
    """What is added to a name whose reading down does not count from the first 0."""
    return "" if zero == 1 else f", from the {ordinal(zero)} 0"


def _level_rows(sheet: ChalkSheet, piece: Piece) -> list[_Row]:
    """The levels to be ruled across before anything else is marked (the hem is a mark of its own)."""
    tape, found = sheet.plan.tape, []
    for name, down in sorted(piece.levels.items(), key=lambda level: level[1]):
        if name != "hem":
            zero, reads = tape.from_zero(tape.reading(down))
            found.append(_Row("", f"{_level_name(name)}{_from_which(zero)}", None, reads))
    return found


def _level_name(name: str) -> str:
    words = upper_first(LEVEL_NAMES.get(name, name))
    return words if words.endswith("level") else f"{words} level"


def _readings(page: Paper, sheet: ChalkSheet, x: float, y: float, *, wide: float, floor: float) -> list[_Row]:
    """The table of readings of the first piece in the order of chalking; the rows that did not fit."""
    rows = [*_level_rows(sheet, sheet.pieces[0]), *_rows(sheet.plan.pieces[0].marks)]
    room = floor - y - 6.0
    row = min(_ROW_HIGH, max(_ROW_LOW, room / max(len(rows), 1)))
    fits = int(room / row + 1e-6)
    table_of_marks(page, rows[:fits], x, y, wide=wide, row=row)
    if fits < len(rows):
        page.words(x + wide, floor + 3.6, "more marks on the next sheet", SMALL, anchor="end")
    return rows[fits:]


def table_of_marks(page: Paper, rows: Sequence[_Row], x: float, y: float, *, wide: float, row: float) -> float:
    """Number, name, across, down. Returns the y below it."""
    size = _LARGE if row >= _ROOMY else _READING
    across, down = x + wide - 24.0, x + wide - 6.6
    page.words(x, y + 4, "No.", SMALL)
    page.words(x + 9, y + 4, "Mark", SMALL)
    page.words(across + 5.0, y + 4, "across", SMALL, anchor="end")
    page.words(down + 6.6, y + 4, "down", SMALL, anchor="end")
    page.rule(x, y + 5.6, wide, 0.4)
    base = y + 5.6
    for entry in rows:
        line = base + row * 0.5 + size / POINTS_A_MM * 0.36
        page.words(x + 6.8, line, entry.number, size, strong=True, anchor="end")
        name, small = page.fitted(entry.name, across - x - 16.5, _NAME, smallest=8.0)
        page.words(x + 9, line - 0.1, name, small)
        if entry.across is None:
            page.words(across + 5.0, line - 0.1, "rule across", SMALL, anchor="end")
        else:
            reading(page, across, line, entry.across, size)
        reading(page, down, line, entry.down, size)
        base += row
        page.rule(x, base, wide, 0.12)
    return base


def reading(page: Paper, x: float, y: float, what: Reading, size: float = _READING) -> None:
    """A tape reading with its whole number ending at x, so that wholes and parts stand under each other."""
    text = what.pretty
    whole = text.rstrip("⅛¼⅜½⅝¾⅞").split(".")[0]
    page.words(x, y, whole, size, strong=True, anchor="end")
    page.words(x + 0.2, y, text[len(whole) :], size, strong=True)


def _proofs(page: Paper, marked: PieceMarks, x: float, y: float, wide: float) -> float:
    """Proof lengths, straight from mark to mark. Returns the y below them."""
    if not marked.proofs:
        return y
    order = {mark.id: mark for mark in marked.marks}
    page.words(x, y + 3.6, "Proof lengths", HEAD, strong=True)
    page.words(x + wide, y + 3.6, "straight, mark to mark, before cutting", SMALL, anchor="end")
    page.rule(x, y + 5.4, wide, 0.4)
    base = y + 5.4
    for proof in marked.proofs:
        start, end = order[proof.start], order[proof.end]
        line = base + 4.7
        page.words(x + 17, line, f"{start.order} → {end.order}", _READING, strong=True, anchor="end")
        name, size = page.fitted(
            upper_first(f"{start.label} to {lower_first(end.label)}"), wide - 39, 9.5, smallest=6.5
        )
        page.words(x + 20, line - 0.2, name, size)
        reading(page, x + wide - 8, line, proof.reads)
        base += 6.2
        page.rule(x, base, wide, 0.12)
    return base


def _notes(page: Paper, x: float, y: float, wide: float, floor: float) -> None:
    """Lines to write on where the sheet has room left."""
    lines = int((floor - y - 6) / 8)
    if lines < _FEWEST_NOTES:
        return
    page.words(x, y + 3.6, "Notes", HEAD, strong=True)
    for line in range(1, lines + 1):
        page.rule(x, y + 4 + 8 * line, wide, 0.12)


def _foot(page: Paper, number: int, base: str = "the fold") -> None:
    page.words(MARGIN, page.sheet_height - MARGIN, f"sheet {number}", SMALL)
    if number == 1:
        origin = f"One origin for every mark: {base} at the top of the piece."
        page.words(MARGIN + 16, page.sheet_height - MARGIN, origin, SMALL)


# ---- the sheets behind it ----------------------------------------------------------------------------------------


def _next_pages(page: Paper, sheet: ChalkSheet, left_over: Sequence[_Row]) -> None:
    flow = Flow(page, lambda number: _foot(page, number))
    flow.begin(aside=_ASIDE)
    _aside(page, sheet, flow)
    _work(flow, sheet)
    flow.widen()
    if left_over:
        flow.heading("Marks, continued")
        _long_table(flow, left_over, MARGIN, 0.6 * flow.wide)
    _differences(flow, sheet)
    _checks(flow, sheet)
    _girths(flow, sheet)
    _lists(flow, sheet)
    flow.end()


def _aside(page: Paper, sheet: ChalkSheet, flow: Flow) -> None:
    """The right column of the order of work: pieces to cut, the key of signs."""
    x, wide, y = flow.aside_left, _ASIDE, MARGIN
    page.words(x, y + 4, "Pieces to cut", HEAD, strong=True)
    y += 10
    for piece, lies in zip(sheet.pieces, sheet.lying, strict=True):
        count = f"{counted(piece)}{' on the fold' if lies.folded else ''}"
        text, size = page.fitted(count, wide, 11.0, smallest=7.0, strong=True)
        page.words(x, y, text, size, strong=True)
        y += 5.4
    y += 3
    key = key_drawing()
    foot = page.sheet_height - MARGIN - key.paper_height - 13
    page.words(x, foot + 4, "Key of signs", HEAD, strong=True)
    page.draw(key, x, foot + 7)
    if sheet.layout is None:
        page.words(x, y + 4, "The cloth", HEAD, strong=True)
        y += 7
        for part in page.wrapped("The pieces do not fit on this cloth in any way it may be laid.", wide, BODY):
            page.words(x, y + 3, part, BODY)
            y += 4.6


def _work(flow: Flow, sheet: ChalkSheet) -> None:
    flow.heading("Order of work")
    several = len({step.piece for step in sheet.plan.steps}) > 1
    labels = {piece.name: piece.label for piece in sheet.pieces}
    now = ""
    for step in sheet.plan.steps:
        if several and step.piece != now:
            now = step.piece
            flow.subheading(labels.get(now, now))
        flow.numbered(step.order, step.title, step.says)


def _long_table(flow: Flow, rows: Sequence[_Row], x: float, wide: float) -> None:
    """A table of marks that goes on over as many sheets as it takes."""
    row = _ROW_LOW + 0.6
    while rows:
        fits = max(flow.rows_left(row, 8.0), 1)
        flow.y = table_of_marks(flow.paper, rows[:fits], x, flow.y, wide=wide, row=row) + 4
        rows = rows[fits:]
        if rows:
            flow.need(flow.floor)


def _differences(flow: Flow, sheet: ChalkSheet) -> None:
    """Each further piece that is not the first again: drawn small, with a table of the marks that lie elsewhere."""
    model = sheet.pieces[0]
    first = {mark.id: (mark.across, mark.down) for mark in sheet.plan.pieces[0].marks}
    for piece, marked, lies in zip(sheet.pieces[1:], sheet.plan.pieces[1:], sheet.lying[1:], strict=True):
        own = 2 * sum(mark.id in first for mark in marked.marks) < len(marked.marks)  # a piece unlike the first
        others = tuple(mark for mark in marked.marks if own or first.get(mark.id) != (mark.across, mark.down))
        rows = _rows(others)
        if not rows and (piece.opening, piece.slit, piece.trim) == (model.opening, model.slit, model.trim):
            continue
        flow.need(_SMALL_PICTURE + 24)
        flow.heading(piece.label if own else f"{piece.label}: what differs from the {lower_first(model.label)}")
        drawing = _small_picture(
            sheet, piece, replace(marked, marks=others, proofs=()), 0.5 * flow.wide, lies.kind == "whole"
        )
        flow.paper.draw(drawing, MARGIN, flow.y + 2)
        below = flow.y + drawing.paper_height + 5
        x, wide = MARGIN + 0.55 * flow.wide, 0.45 * flow.wide
        _long_table(flow, rows, x, wide)
        flow.y = max(below, flow.y)


def _checks(flow: Flow, sheet: ChalkSheet) -> None:
    wrong = [check for check in sheet.checks if check.result in ("stop", "warn")]
    if wrong:
        flow.heading("Look at these before you cut")
        for check in sorted(wrong, key=lambda check: check.result != "stop"):
            flow.paragraph(check.says, strong=True)
            for way in check.ways_out:
                flow.bullet(way.says)
    if sheet.adjusted:
        flow.heading("What was adjusted, and why")
        for change in sheet.adjusted:
            before, after = (_value(value, change.unit, sheet.unit) for value in (change.before, change.after))
            flow.bullet(f"{upper_first(_said(change.what))}: from {before} to {after}, {change.why}")
    passed = [check for check in sheet.checks if check.result in ("pass", "shown")]
    if passed:
        flow.heading("Checked and found good")
        rows = [
            (check.says, _value(check.value, check.unit, sheet.unit), _value(check.limit, check.unit, sheet.unit))
            for check in passed
        ]
        flow.table(("", "found", "limit"), rows, (0.7, 0.15, 0.15))


def _girths(flow: Flow, sheet: ChalkSheet) -> None:
    if not sheet.finished:
        return
    flow.heading("Finished girths, whole, and what reading the tape makes of them")
    rows = []
    for girth in sheet.finished:
        body = say_length(girth.body, sheet.unit) if girth.body else "\u2013"
        ease = _signed(girth.ease, sheet.unit) if girth.body else "\u2013"
        chalked = say_length(girth.after_rounding, sheet.unit) if girth.after_rounding else "\u2013"
        rows.append((girth.label, say_length(girth.girth, sheet.unit), body, ease, chalked))
    flow.table(("", "finished", "body", "ease", "as chalked"), rows, (0.36, 0.16, 0.16, 0.16, 0.16))
    if sheet.figures:
        said = (f"{figure.label} {say_length(figure.value, sheet.unit)}" for figure in sheet.figures)
        flow.paragraph(f"{upper_first('; '.join(said))}.")


def _lists(flow: Flow, sheet: ChalkSheet) -> None:
    if sheet.estimates:
        flow.heading("Estimated, not measured")
        for estimate in sheet.estimates:
            value, spread = say_length(estimate.value, sheet.unit), say_length(estimate.sd, sheet.unit)
            flow.bullet(f"{upper_first(_said(estimate.measure))} {value} (estimated, ± {spread}). Better measured.")
    cautions = [*sheet.cautions, *(check.says for check in sheet.checks if check.result == "caution")]
    if cautions:
        flow.heading("Take care")
        for caution in dict.fromkeys(cautions):
            flow.bullet(caution)
    if flow.paper.shortened:
        flow.heading("In full")
        for about, text in flow.paper.shortened:
            flow.paragraph(f"{about}: {text}", size=SMALL)


def _value(value: float | None, kind: str, unit: Unit) -> str:
    if value is None:
        return ""
    if kind == "mm":
        return say_length(value, unit)
    number = f"{round(value, 1) + 0.0:.1f}".removesuffix(".0")
    return f"{number}{'°' if kind == 'deg' else ' %' if kind == '%' else ''}"


def _signed(mm: float, unit: Unit) -> str:
    words = say_length(abs(mm), unit)
    return f"−{words}" if mm < 0 else f"+{words}"


def _said(name: str) -> str:
    return name.replace("_", " ")
