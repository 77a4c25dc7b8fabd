"""The marks of a piece: its drawing beside one table grouped by the stages of chalking, then the proof lengths."""

from __future__ import annotations

from collections.abc import Container, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from drafting.chalk.deciding import chalked_round
from drafting.chalk.joins import legs
from drafting.chalk.words.joining import stage_joins
from drafting.chalk.words.said import ordinal
from drafting.drawing.piece import Drawing, key_drawing, piece_drawing
from drafting.render.pdf import MARGIN, POINTS_A_MM, Paper
from drafting.render.pdf_flow import HEAD, SMALL, Flow
from drafting.sentences import NO_BREAK, lower_first, upper_first
from drafting.units import Reading

if TYPE_CHECKING:
    from drafting.chalk.lying import Lying
    from drafting.chalk.marks import Mark, PieceMarks, Step
    from drafting.contract.pieces import Piece
    from drafting.render.sheet_data import ChalkSheet
    from drafting.units import Tape, Unit

_READING, _NAME = 13.5, 11.0
#: Rows this high, mm, take larger readings.
_ROOMY, _LARGE = 6.2, 15.0
#: Rows of the table of marks, mm: as high as there is room for, never lower than the letters need.
_ROW_HIGH, _ROW_LOW = 7.4, 4.9
#: The head of a stage: its letters in points, line to line and the room round it in mm.
_STAGE, _STAGE_NOTE, _STAGE_LINE, _STAGE_ROOM = 9.5, 8.5, 3.7, 2.2
_TABLE_HEAD, _PROOF_ROW, _PROOF_HEAD = 5.6, 6.0, 8.0
#: How wide the two numbers of a proof length may be, mm.
_PAIR = 17.0
_NOTE, _NOTE_LINE = 8.5, 3.9
_NAME_LEAST, _NAME_TWICE = 8.0, 7.0  # the least size of a name on one line, and its size on two
_TWICE_LINE, _TWICE_HALF = 2.45, 0.65  # of a name on two lines: from one to the next, and half a letter, mm
_GAP, _TABLE_SHARE = 4.0, 0.44
_ACROSS, _THERE = "rule across", "there already"
#: The least height worth drawing the first piece at; a further one takes a height that grows with its rows, mm.
_SMALLEST, _FURTHER, _FURTHER_ROW = 70.0, 40.0, 5.0
_NARROWEST, _TALLEST = 45.0, 120.0  # a high and narrow piece is drawn this wide, or this high, at the least
_SLIM = 15.0  # a further piece that is high and narrow is drawn about this wide, mm
_WITH_KEY = 95.0  # the drawing gives way to the key of signs down to this height, mm
_KEY_COLUMN = 53.0  # of the key of signs below the drawing, mm
_FEWEST_NOTES, _MOST_NOTES = 2, 6  # lines to write on that are worth a heading, and that are enough


@dataclass(frozen=True, slots=True)
class _Row:
    """A row of the table; a level has no number and reaches all the way across. `depth` counts from the first 0, mm.

    What is there already has no reading at all.
    """

    number: str
    name: str
    across: Reading | None
    down: Reading | None
    depth: float


@dataclass(frozen=True, slots=True)
class _Stage:
    """The rows of a stage of chalking under its title; `note` says what is ruled and joined."""

    title: str
    note: str
    rows: tuple[_Row, ...]


@dataclass(frozen=True, slots=True)
class _Block:
    """All that stands together for one piece."""

    piece: Piece
    marked: PieceMarks
    lying: Lying
    stages: tuple[_Stage, ...]
    notes: tuple[Step, ...]
    whole: bool = True

    @property
    def rows(self) -> int:
        return sum(len(stage.rows) for stage in self.stages)


def marks(flow: Flow, sheet: ChalkSheet) -> dict[str, str]:
    """The first piece, then every further one that is not the first again.

    Returns by the name of each piece the step that sends to its sheet.
    """
    found: dict[str, str] = {}
    for index in range(len(sheet.pieces)):
        block = _block(sheet, index)
        if block is not None:
            number = _side_by_side(flow, sheet, block, first=index == 0)
            name = f"the {lower_first(block.piece.label)}"
            joins = "Prove it, then join it." if block.marked.proofs else "Join it."
            found[block.piece.name] = (
                f"Mark {name} by its table on sheet {number}. {joins}"
                if block.whole
                else f"Chalk what is different on {name}, as sheet {number} says."
            )
    _owed_key(flow)
    return found


def _owed_key(flow: Flow) -> None:
    """The key of signs, where it is still owed, in the room that is left on a sheet."""
    if not flow.key_drawn and flow.floor - flow.y > key_drawing(columns=3, stretches=flow.stretches).paper_height + 14:
        key_of_signs(flow)


def key_of_signs(flow: Flow) -> None:
    """The key, in three columns."""
    key = key_drawing(columns=3, stretches=flow.stretches)
    flow.need(key.paper_height + 14)
    flow.heading("Key of signs")
    flow.paper.draw(key, MARGIN, flow.y + 1)
    flow.y += key.paper_height + 3
    flow.key_drawn = True


def lines_to_write_on(flow: Flow, sheet: int) -> None:
    """Lines to write on where a sheet of marks, which is closed, has room left."""
    flow.back_to(sheet)
    lines = min(int((flow.floor - flow.y - 9) / 8), _MOST_NOTES)
    if lines < _FEWEST_NOTES:
        return
    flow.paper.words(MARGIN, flow.y + 4, "Notes", HEAD, strong=True)
    for line in range(1, lines + 1):
        flow.paper.rule(MARGIN, flow.y + 4 + 8 * line, flow.wide, 0.12)


# ---- what belongs to a piece -------------------------------------------------------------------------------------


def _block(sheet: ChalkSheet, index: int) -> _Block | None:
    """What is to be shown of a piece: all of it, what differs from the first, or nothing."""
    piece, marked, lies = sheet.pieces[index], sheet.plan.pieces[index], sheet.lying[index]
    said = sheet.said("marks", piece.name)
    notes = tuple(step for step in said if not step.stage)
    model = {mark.id: (mark.across, mark.down) for mark in sheet.plan.pieces[0].every}
    others = {mark.id for mark in marked.every if index == 0 or model.get(mark.id) != (mark.across, mark.down)}
    if index == 0 or not chalked_round(sheet.plan.pieces[0], marked):
        return _Block(piece, marked, lies, _stages(sheet, index, said), notes)
    if not others and not notes and piece.trim == sheet.pieces[0].trim:
        return None
    guides = tuple(one for one in marked.guides if all(mark.id in others for mark in one.marks))
    named = others | _joined_to(marked, others, closed=not piece.on_fold)
    shown = replace(marked, marks=tuple(mark for mark in marked.marks if mark.id in named), proofs=(), guides=guides)
    return _Block(piece, shown, lies, _stages(sheet, index, said, others, named), notes, whole=False)


def _joined_to(marked: PieceMarks, others: set[str], *, closed: bool) -> set[str]:
    """The marks that a line through one of the others names as well: where it begins, runs through and ends."""
    ways = [{leg.start, *leg.through, leg.end} for leg in legs(marked.marks, closed=closed)]
    return {name for way in ways if way & others for name in way}


def _stages(
    sheet: ChalkSheet, index: int, said: Sequence[Step], only: set[str] | None = None, named: Container[str] = ()
) -> tuple[_Stage, ...]:
    """The table of a piece; of one that is chalked round another, what lies elsewhere (`only`) and what is `named`."""
    piece, marked, base = sheet.pieces[index], sheet.plan.pieces[index], sheet.lying[index].base
    joins = stage_joins(marked.marks, closed=not piece.on_fold, touching=only)
    found: list[_Stage] = []
    owed: list[str] = []
    for number, stage in enumerate(marked.stages):
        here = [mark for mark in marked.every if mark.stage == stage.key]
        rows = [_row(mark, there=only is not None and mark.id not in only)
                for mark in here if only is None or mark.id in only or mark.id in named]  # fmt: skip
        rows.sort(key=lambda row: int(row.number))
        notes = [*owed, *(step.on_paper for step in said if step.stage == stage.key)]
        if number == 0 and only is None:
            off = f"0 lies off the piece, {marked.marks[0].down.pretty} up the line of {base} from its top."
            notes.insert(0, off if piece.starts_off else f"0 lies at the top of {base}.")
        if number == 0 and only is None:
            rows = sorted([*rows, *_level_rows(sheet, piece)], key=lambda row: row.depth)
        if stage.key in joins:
            notes.append(joins[stage.key])
        # Where 0 lies is told with the first marks, though they belong to a later stage.
        owed = [] if rows or found else notes
        if rows:
            found.append(_Stage(stage.title, " ".join(notes), tuple(rows)))
    return tuple(found)


def _row(mark: Mark, *, there: bool) -> _Row:
    """The row of a mark; one that is `there` already, from the piece that was chalked round, is not read again."""
    if there:
        return _Row(str(mark.order), upper_first(mark.label), None, None, mark.down.mm)
    name = f"{upper_first(mark.label)}{_from_which(mark.zero)}"
    return _Row(str(mark.order), name, mark.across, mark.reads, mark.down.mm)


def _level_rows(sheet: ChalkSheet, piece: Piece) -> list[_Row]:
    """The levels to be ruled across before anything else is marked (where the piece ends is a mark of its own)."""
    tape, found = sheet.plan.tape.finest if piece.fine else sheet.plan.tape, []
    for level in piece.levels:
        if level.ruled and not level.ends:
            reading = tape.reading(level.down)
            zero, reads = tape.from_zero(reading)
            found.append(_Row("", f"{_level_name(level.words)}{_from_which(zero)}", None, reads, reading.mm))
    return found


def _level_name(words: str) -> str:
    return upper_first(words if words.endswith("level") else f"{words} level")


def _from_which(zero: int) -> str:
    """What is added to a name whose reading down does not count from the first 0."""
    return "" if zero == 1 else f", {f'from the {ordinal(zero)} 0'.replace(' ', NO_BREAK)}"


# ---- one piece on the page ---------------------------------------------------------------------------------------


def _side_by_side(flow: Flow, sheet: ChalkSheet, block: _Block, *, first: bool) -> int:
    """Drawing at the left, table at the right, proof lengths below the drawing. Returns the number of the sheet."""
    page = flow.paper
    table_wide = _TABLE_SHARE * flow.wide
    left_wide = flow.wide - table_wide - _GAP
    heads = _TABLE_HEAD + sum(_stage_high(page, stage, table_wide) for stage in block.stages)
    proofs = _proofs_high(page, block, left_wide)
    others = [step for step in block.notes if step.title != _PROOFS]
    slim = block.piece.long / block.piece.width
    smallest = min(max(_FURTHER + _FURTHER_ROW * block.rows, _SLIM * slim), 85.0) if block.whole else 85.0
    if first:
        smallest = min(max(_SMALLEST, _NARROWEST * block.piece.height / block.piece.width), _TALLEST)
    least = max(heads + _ROW_LOW * block.rows, smallest + proofs) + (0.0 if first else 9.0)
    if flow.y > MARGIN and flow.floor - flow.y < least + 4:
        _owed_key(flow)
        flow.turn()
    if not first:
        differs = f": what differs from the {lower_first(sheet.pieces[0].label)}"
        flow.heading(f"{block.piece.label}{'' if block.whole else differs}")
    top, room = flow.y, flow.floor - flow.y
    number = page.page
    notes = sum(_note_high(page, step, left_wide) for step in others)
    under_table = sum(_note_high(page, step, table_wide) for step in others)
    below_table = heads + _ROW_LOW * block.rows + under_table + 4 < room
    spare = room - heads - (under_table + 4 if below_table else 0.0)
    row = min(_ROW_HIGH, max(_ROW_LOW, spare / max(block.rows, 1)))
    if not first:
        row = min(row, _ROW_LOW + 0.7)
    tall = room - proofs - (0.0 if below_table else notes) - 3
    key = key_drawing(columns=2, wide=_KEY_COLUMN, stretches=flow.stretches)
    if first and not flow.key_drawn and tall - key.paper_height - 6 >= _WITH_KEY:
        tall -= key.paper_height + 6
    if not first:
        tall = min(tall, max(smallest, heads + row * block.rows - proofs))
    drawing = fitted_drawing(
        block.piece,
        block.marked,
        sheet.plan.tape,
        left_wide,
        max(tall, smallest),
        whole=block.lying.kind == "whole",
        unit=sheet.plan.tape.unit,
    )
    page.draw(drawing, MARGIN + (left_wide - drawing.paper_width) / 2, top)
    x = MARGIN + left_wide + _GAP
    right, left_over = _table(page, block, x, top, wide=table_wide, row=row, floor=flow.floor)
    left = _proofs(page, block, MARGIN, top + drawing.paper_height + 2, left_wide)
    for step in others:
        if below_table:
            right = _note(page, step, x, right + 1.5, table_wide)
        else:
            left = _note(page, step, MARGIN, left, left_wide)
    if first and not flow.key_drawn and flow.floor - left >= key.paper_height + 4:
        page.draw(key, MARGIN, flow.floor - key.paper_height)
        flow.key_drawn, left = True, flow.floor
    flow.y = max(left, right) + 3
    if left_over:
        _long_table(flow, left_over, table_wide)
    return number


def _long_table(flow: Flow, stages: Sequence[_Stage], wide: float) -> None:
    """The rows for which the sheet had no room, on as many sheets as they take."""
    while stages:
        flow.turn()
        flow.heading("Marks, continued")
        flow.y, stages = _stages_down(flow.paper, stages, MARGIN, flow.y, wide=wide, row=_ROW_LOW + 0.6,
                                      floor=flow.floor)  # fmt: skip
        flow.y += 3


def fitted_drawing(
    piece: Piece,
    marked: PieceMarks,
    tape: Tape,
    wide: float,
    tall: float,
    *,
    whole: bool = False,
    unit: Unit | None = None,
) -> Drawing:
    """The piece as large as it goes into `wide` × `tall` mm of paper, its words and numbers included."""
    scale = max(piece.width / wide, piece.height / tall)
    drawing = piece_drawing(piece, marked, tape, scale=scale, whole=whole, allowances=unit)
    for _ in range(6):  # words keep their size on paper, so the scale that fits is found by a few tries
        over = max(drawing.paper_width / wide, drawing.paper_height / tall)
        if over <= 1.0:
            break
        scale *= over + 0.004
        drawing = piece_drawing(piece, marked, tape, scale=scale, whole=whole, allowances=unit)
    return drawing


# ---- the table ---------------------------------------------------------------------------------------------------


def _table(
    page: Paper, block: _Block, x: float, y: float, *, wide: float, row: float, floor: float
) -> tuple[float, tuple[_Stage, ...]]:
    """The table of marks; returns the y below it and the stages for which there was no room."""
    if not block.stages:
        return y, ()
    below, left_over = _stages_down(page, block.stages, x, y, wide=wide, row=row, floor=floor)
    if left_over:
        page.words(x + wide, floor + 3.6, "more marks on the next sheet", SMALL, anchor="end")
    return below, left_over


def _stages_down(
    page: Paper, stages: Sequence[_Stage], x: float, y: float, *, wide: float, row: float, floor: float
) -> tuple[float, tuple[_Stage, ...]]:
    """Number, name, across, down, stage by stage, as far as the floor."""
    page.words(x, y + 4, "No.", SMALL)
    page.words(x + 9, y + 4, "Mark", SMALL)
    page.words(x + wide - 19.0, y + 4, "across", SMALL, anchor="end")
    page.words(x + wide, y + 4, "down", SMALL, anchor="end")
    base = y + _TABLE_HEAD
    page.rule(x, base, wide, 0.4)
    for number, stage in enumerate(stages):
        if base + _stage_high(page, stage, wide) + row > floor + 0.5:
            return base, tuple(stages[number:])
        base = _stage_head(page, stage, x, base, wide)
        for index, entry in enumerate(stage.rows):
            if base + row > floor + 0.5:
                rest = replace(stage, note="", rows=stage.rows[index:])
                return base, (rest, *stages[number + 1 :])
            _row_down(page, entry, x, base, wide=wide, row=row)
            base += row
            page.rule(x, base, wide, 0.12)
    return base, ()


def _row_down(page: Paper, entry: _Row, x: float, y: float, *, wide: float, row: float) -> None:
    size = _LARGE if row >= _ROOMY else _READING
    across, down = x + wide - 24.0, x + wide - 6.6
    line = y + row * 0.5 + size / POINTS_A_MM * 0.36
    page.words(x + 6.8, line, entry.number, size, strong=True, anchor="end")
    # Of a level nothing is read across: what is said there instead is wider than a reading.
    said = _ACROSS if entry.down is not None else _THERE
    room = across - x - 17.5 if entry.across is not None else across + 3.0 - x - 9 - page.width_of(said, SMALL)
    if page.width_of(entry.name, _NAME_LEAST) <= room:
        name, small = page.fitted(entry.name, room, _NAME, smallest=_NAME_LEAST)
        page.words(x + 9, line - 0.1, name, small)
    else:
        _in_two_lines(page, entry.name, x + 9, y + row / 2, room)
    if entry.across is None:
        page.words(across + 5.0, line - 0.1, said, SMALL, anchor="end")
    else:
        reading(page, across, line, entry.across, size)
    if entry.down is not None:
        reading(page, down, line, entry.down, size)


def _in_two_lines(page: Paper, name: str, x: float, middle: float, room: float) -> None:
    """A name too long for its row takes two lines about the middle of it, so that nothing of it is cut short."""
    lines = page.wrapped(name, room, _NAME_TWICE)
    for index, words in enumerate(lines):
        page.words(x, middle + (index - (len(lines) - 1) / 2) * _TWICE_LINE + _TWICE_HALF, words, _NAME_TWICE)


def reading(page: Paper, x: float, y: float, what: Reading, size: float = _READING) -> None:
    """A tape reading with its whole number ending at x, so that wholes and parts stand under each other."""
    text = what.pretty
    whole = text.rstrip("⅛¼⅜½⅝¾⅞").split(".")[0]
    page.words(x, y, whole, size, strong=True, anchor="end")
    page.words(x + 0.2, y, text[len(whole) :], size, strong=True)


def _stage_high(page: Paper, stage: _Stage, wide: float) -> float:
    return _STAGE_ROOM + _STAGE_LINE * len(_run_in(page, stage, wide))


def _run_in(page: Paper, stage: _Stage, wide: float) -> list[str]:
    """The lines of a stage's note; the first one stands behind the title."""
    room = wide - page.width_of(stage.title, _STAGE, strong=True) - 3
    first = page.wrapped(stage.note, room, _STAGE_NOTE)[0] if stage.note else ""
    if first and page.width_of(first, _STAGE_NOTE) > room:
        first = ""
    rest = stage.note[len(first) :].strip()
    return [first, *(page.wrapped(rest, wide, _STAGE_NOTE) if rest else [])]


def _stage_head(page: Paper, stage: _Stage, x: float, y: float, wide: float) -> float:
    """The title of a stage with what is ruled and joined; returns the y below it."""
    lines = _run_in(page, stage, wide)
    base = y + _STAGE_LINE + 0.7
    long = page.words(x, base, stage.title, _STAGE, strong=True)
    page.words(x + long + 2.5, base, lines[0], _STAGE_NOTE)
    for line in lines[1:]:
        base += _STAGE_LINE
        page.words(x, base, line, _STAGE_NOTE)
    below = y + _STAGE_ROOM + _STAGE_LINE * len(lines)
    page.rule(x, below, wide, 0.25)
    return below


# ---- proof lengths and notes -------------------------------------------------------------------------------------

_PROOFS = "Proof lengths"


def _proofs_high(page: Paper, block: _Block, wide: float) -> float:
    notes = sum(_note_high(page, step, wide) for step in block.notes if step.title == _PROOFS)
    return notes + (_PROOF_HEAD + _PROOF_ROW * len(block.marked.proofs) if block.marked.proofs else 0.0)


def _proofs(page: Paper, block: _Block, x: float, y: float, wide: float) -> float:
    """Proof lengths, straight from mark to mark, and how they are read. Returns the y below them."""
    if not block.marked.proofs:
        return y
    order = {mark.id: mark for mark in block.marked.marks}
    page.words(x, y + 3.6, _PROOFS, HEAD, strong=True)
    page.words(x + wide, y + 3.6, "before cutting", SMALL, anchor="end")
    page.rule(x, y + 5.4, wide, 0.4)
    base = y + 5.4
    for proof in block.marked.proofs:
        start, end = order[proof.start], order[proof.end]
        line = base + 4.6
        pair = f"{start.order} → {end.order}"
        pair, size = page.fitted(pair, _PAIR, _READING, smallest=8.0, strong=True)
        page.words(x + _PAIR, line, pair, size, strong=True, anchor="end")
        words = upper_first(f"{start.label} to {lower_first(end.label)}")
        if page.width_of(words, _NAME_TWICE) <= wide - 39:
            name, size = page.fitted(words, wide - 39, 9.5, smallest=_NAME_TWICE)
            page.words(x + 20, line - 0.2, name, size)
        else:
            _in_two_lines(page, words, x + 20, base + _PROOF_ROW / 2, wide - 39)
        reading(page, x + wide - 8, line, proof.reads)
        base += _PROOF_ROW
        page.rule(x, base, wide, 0.12)
    base += 1.0
    for step in block.notes:
        if step.title == _PROOFS:
            base = _note(page, step, x, base, wide)
    return base


def _lines(page: Paper, step: Step, wide: float) -> list[str]:
    return page.wrapped(_worded(step), wide, _NOTE)


def _worded(step: Step) -> str:
    return step.on_paper if step.title == _PROOFS else f"{step.title}: {step.on_paper}"


def _note_high(page: Paper, step: Step, wide: float) -> float:
    return _NOTE_LINE * len(_lines(page, step, wide)) + 1.2


def _note(page: Paper, step: Step, x: float, y: float, wide: float) -> float:
    """One paragraph, its title run in. Returns the y below it."""
    for number, line in enumerate(_lines(page, step, wide)):
        y += _NOTE_LINE
        if number == 0 and step.title != _PROOFS and line.startswith(f"{step.title}:"):
            long = page.words(x, y, f"{step.title}:", _NOTE, strong=True)
            page.words(x + long + 1.0, y, line[len(step.title) + 2 :], _NOTE)
        else:
            page.words(x, y, line, _NOTE)
    return y + 1.2
