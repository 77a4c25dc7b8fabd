"""The page "At the cloth": how it is folded, where every piece lies, in what order it is cut, how much to buy."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from drafting.chalk.lying import lyings
from drafting.drawing.piece import Drawing, cloth_drawing, fold_drawing
from drafting.layout import (
    across_folds,
    at_table,
    in_cutting_order,
    length_to_buy,
    offers,
    say_bought,
    say_laid,
    say_less,
    way_name,
)  # fmt: skip
from drafting.layout.at_table import how_it_lies
from drafting.layout.laying_words import LIES, RUNS
from drafting.render.pdf import MARGIN, POINTS_A_MM, Paper
from drafting.sentences import upper_first
from drafting.units import UNIT_NAMES, say_length, say_sold

if TYPE_CHECKING:
    from drafting.cloth import ClothFacts
    from drafting.contract.pieces import Piece
    from drafting.layout import Layout
    from drafting.layout.at_table import Laying
    from drafting.render.sheet_data import ChalkSheet
    from drafting.units import Tape, Unit

_TITLE, _HEAD, _BODY, _SMALL, _READING = 20.0, 12.5, 9.5, 8.0, 13.5
_LEAD, _GAP, _FOOT = 1.3, 7.0, 6.0
_DRAWING_TALL = 0.5  # the share of the page's height that the drawing may take
_TEXT_WIDE = 70.0  # the narrowest the words may stand, mm
_PICTURES = (34.0, 48.0)  # narrowest and widest picture of one fold across, mm

Area = tuple[float, float, float, float]  # left, top, width, floor


class _Words:
    """Writes down one area of the page after another, and on a new sheet when all are full: then it `went_on`."""

    def __init__(self, page: Paper, areas: Sequence[Area]) -> None:
        self.page, self.areas = page, list(areas)
        self.x, self.y, self.wide, self.floor = self.areas.pop(0)
        self.top = self.y
        self.went_on = False

    def need(self, height: float) -> None:
        """Room for `height` mm: here, in the next area that has it, or on a new sheet."""
        while self.y + height > self.floor and self.y > self.top:
            if self.areas:
                self.x, self.y, self.wide, self.floor = self.areas.pop(0)
                if self.y + height <= self.floor:
                    self.top = self.y
                    return
                self.top = self.y - 1.0
                continue
            self.page.add_page()
            self.went_on = True
            self.x, self.y = MARGIN, MARGIN
            self.wide, self.floor = self.page.sheet_width - 2 * MARGIN, self.page.sheet_height - MARGIN - _FOOT
            self.top = self.y

    def heading(self, text: str, keep: float = 12.0) -> None:
        """A heading that stays with `keep` mm of what follows."""
        self.need(8.5 + keep)
        if self.y > self.top:
            self.y += 2.5
        fitting, size = self.page.fitted(text, self.wide, _HEAD, smallest=_BODY, strong=True)
        self.page.words(self.x, self.y + 4, fitting, size, strong=True)
        self.page.rule(self.x, self.y + 5.8, self.wide, 0.4)
        self.y += 7.2

    def height(self, text: str) -> float:
        """How much a plain paragraph takes in this column, mm."""
        return len(self.page.wrapped(text, self.wide, _BODY)) * _BODY / POINTS_A_MM * _LEAD + 1.0

    def paragraph(self, text: str, *, number: str = "", strong: bool = False, lead: int = 0) -> None:
        """Wrapped words, with a number in the margin when there is one; the first `lead` characters are strong."""
        indent = 7.0 if number else 0.0
        step = _BODY / POINTS_A_MM * _LEAD
        spare = indent + (1.5 if lead else 0.0)
        self.need(step * min(len(self.page.wrapped(text, self.wide - spare, _BODY, strong=strong)), 8) + 1)
        # The words may go on in another column now, and columns differ in width.
        lines = self.page.wrapped(text, self.wide - spare, _BODY, strong=strong)
        for index, line in enumerate(lines):
            if index:
                self.need(step)
            if not index and number:
                self.page.words(self.x + 5.0, self.y + step * 0.78, number, _BODY, strong=True, anchor="end")
            at, begin = self.x + indent, line[:lead] if not index else ""
            if begin:
                at += self.page.words(at, self.y + step * 0.78, begin, _BODY, strong=True) + 0.9
            self.page.words(at, self.y + step * 0.78, line[len(begin) :].strip(), _BODY, strong=strong)
            self.y += step
        self.y += 1.0

    def _sum_lines(self, name: str, value: str, *, strong: bool) -> list[str]:
        room = self.wide - self.page.width_of(value, 11.0 if strong else _BODY, strong=strong) - 3
        return self.page.wrapped(name, room, _BODY, strong=strong)

    def sum_height(self, name: str, value: str, strong: bool = False, note: str = "") -> float:
        """How much a row of a sum takes in this column, mm."""
        lines = len(self._sum_lines(name, value, strong=strong)) - 1 + len(self._note_lines(note))
        return 5.2 + _BODY / POINTS_A_MM * _LEAD * lines

    def _note_lines(self, note: str) -> list[str]:
        return self.page.wrapped(note, self.wide, _BODY) if note else []

    def sum_row(self, name: str, value: str, *, strong: bool = False, note: str = "") -> None:
        """A name, in as many lines as it takes, a value at the right edge of the last, and a note below both."""
        size = 11.0 if strong else _BODY
        self.need(self.sum_height(name, value, strong, note))
        lines = self._sum_lines(name, value, strong=strong)
        for index, line in enumerate(lines):
            self.y += _BODY / POINTS_A_MM * _LEAD if index else 0.0
            self.page.words(self.x, self.y + 3.7, line, _BODY, strong=strong)
        self.page.words(self.x + self.wide, self.y + 3.7, value, size, strong=strong, anchor="end")
        for line in self._note_lines(note):
            self.y += _BODY / POINTS_A_MM * _LEAD
            self.page.words(self.x, self.y + 3.7, line, _BODY)
        self.y += 5.2
        self.page.rule(self.x, self.y, self.wide, 0.12)

    def laying(self, laying: Laying, name: str, how: str) -> None:
        """One piece set down: its number, name and how it lies, and the two readings of its 0."""
        lines = self.page.wrapped(how, self.wide - 9.0, _SMALL)
        across = (laying.across.pretty if laying.across.steps else "", f"from {laying.counted_from}")
        if not laying.across.steps:
            across = ("", f"on {laying.counted_from}")
        down = (laying.down.pretty, "from the cut end") if laying.down.steps else ("", "at the cut end")
        beside = self._reading_width(*across) + 4.0 + self._reading_width(*down) <= self.wide - 9.0
        high = (13.4 if beside else 18.6) + 3.6 * len(lines)
        self.need(high)
        y = self.y + 5.6
        self.page.words(self.x + 5.2, y, str(laying.order), _READING, strong=True, anchor="end")
        text, size = self.page.fitted(name, self.wide - 9.0, 11.0, smallest=8.0, strong=True)
        self.page.words(self.x + 9.0, y, text, size, strong=True)
        for line in lines:
            y += 3.6
            self.page.words(self.x + 9.0, y, line, _SMALL)
        y += 5.8
        end = self._reading(self.x + 9.0, y, *across)
        if beside:
            self._reading(end + 4.0, y, *down)
        else:
            self._reading(self.x + 9.0, y + 5.2, *down)
        self.y += high
        self.page.rule(self.x, self.y, self.wide, 0.12)

    def _reading(self, x: float, y: float, reading: str, words: str) -> float:
        if reading:
            x += self.page.words(x, y, reading, _READING, strong=True) + 1.4
        return x + self.page.words(x, y, words, _SMALL)

    def _reading_width(self, reading: str, words: str) -> float:
        wide = self.page.width_of(reading, _READING, strong=True) + 1.4 if reading else 0.0
        return wide + self.page.width_of(words, _SMALL)

    def skip_to(self, height: float) -> None:
        """Go on in the next area if `height` mm are free there: for what stands better there."""
        if self.areas and self.areas[0][3] - self.areas[0][1] >= height:
            self.x, self.y, self.wide, self.floor = self.areas.pop(0)
            self.top = self.y


def cloth_page(page: Paper, sheet: ChalkSheet, to_marks: dict[str, str]) -> float | None:
    """Draws the page, on a sheet of its own; it goes on to a further sheet only where it must.

    `to_marks` holds for each piece the step that sends to the sheet of its marks. Where it had to go on, it returns
    how far down it came, mm: what follows may stand below that.
    """
    layout = sheet.layout
    page.add_page()
    page.words(MARGIN, MARGIN + 7.5, "At the cloth", _TITLE, strong=True)
    wide = page.sheet_width - 2 * MARGIN
    text, size = page.fitted(_says(sheet), wide, 10.5, smallest=7.0)
    page.words(MARGIN, MARGIN + 13.5, text, size)
    page.rule(MARGIN, MARGIN + 16, wide, 0.4)
    words = _Words(page, _areas(page, sheet))
    if layout is not None:
        _folding(words, layout, sheet.pieces, sheet.plan.tape)
        _layings(words, layout, sheet.pieces, sheet.plan.tape)
    _steps(words, sheet, to_marks)
    _if_moved(words, sheet)
    _to_buy(words, sheet)
    if layout is not None:
        _other_ways(words, layout, sheet.layouts, sheet.cloth, sheet.unit)
        _pictures(words, layout, sheet.pieces)
    return words.y if words.went_on else None


def _says(sheet: ChalkSheet) -> str:
    """The way the cloth is laid and how much of it, in a line."""
    open_width = say_length(sheet.cloth.width, sheet.unit)
    unit = UNIT_NAMES[sheet.plan.tape.unit]
    if sheet.layout is None:
        return f"The pieces do not fit on cloth {open_width} wide in any way it may be laid. Readings in {unit}."
    long = say_laid(sheet.layout.length, sheet.unit)
    to = "the 0 of each piece"
    if any(piece.starts_off for piece in sheet.pieces):
        to = "the place marked on each piece"
    return f"{way_name(sheet.layout.way)}: {long} of cloth {open_width} wide. Readings in {unit}, to {to}."


def _areas(page: Paper, sheet: ChalkSheet) -> list[Area]:
    """Where words go: beside the drawing and below it; without a drawing in two columns. The drawing is put there."""
    wide, top, floor = page.sheet_width - 2 * MARGIN, MARGIN + 19, page.sheet_height - MARGIN - _FOOT
    if sheet.layout is None:
        half = (wide - _GAP) / 2
        return [(MARGIN, top, half, floor), (MARGIN + half + _GAP, top, half, floor)]
    room = (wide - _TEXT_WIDE - _GAP, (floor - top) * _DRAWING_TALL)
    drawing = fitted_cloth(sheet.layout, sheet.pieces, sheet.cloth, sheet.unit, *room)
    column = max(drawing.paper_width, _TEXT_WIDE)  # words stand below the drawing too, however narrow it is
    page.draw(drawing, MARGIN + (column - drawing.paper_width) / 2, top)
    left = MARGIN + column + _GAP
    below = top + drawing.paper_height + 4
    areas = [(left, top, MARGIN + wide - left, floor)]
    if floor - below > 30:
        areas.append((MARGIN, below, column, floor))
    return areas


def fitted_cloth(
    layout: Layout, pieces: Sequence[Piece], cloth: ClothFacts, unit: Unit, wide: float, tall: float
) -> Drawing:
    """The cloth as large as it goes into `wide` × `tall` mm of paper, its words included."""
    scale = max(layout.laid_width / (wide - 12), layout.length / (tall - 30))
    drawing = cloth_drawing(layout, pieces, cloth, unit, scale=scale)
    for _ in range(8):
        over = max(drawing.paper_width / wide, drawing.paper_height / tall)
        if over <= 1.0:
            break
        scale *= over + 0.01
        drawing = cloth_drawing(layout, pieces, cloth, unit, scale=scale)
    return drawing


def _folding(words: _Words, layout: Layout, pieces: Sequence[Piece], tape: Tape) -> None:
    words.heading("Fold")
    for number, step in enumerate(at_table(layout, pieces, tape).folding, start=1):
        words.paragraph(step, number=str(number))


def _layings(words: _Words, layout: Layout, pieces: Sequence[Piece], tape: Tape) -> None:
    """Where each piece lies, numbered as on the drawing, with the readings of its 0."""
    told = at_table(layout, pieces, tape)
    by_name = {piece.name: piece for piece in pieces}
    lying = {piece.name: lies for piece, lies in zip(pieces, lyings(pieces, layout, tape), strict=True)}
    words.heading("Where the pieces lie", 18)
    for laying, place in zip(told.layings, in_cutting_order(layout, pieces), strict=True):
        lies = lying[laying.piece]
        spot = next(one for one in lies.spots if one.at == place)
        piece = by_name[laying.piece]
        how = LIES[how_it_lies(piece, place, layout)]
        words.laying(laying, piece.label, f"{how} {RUNS[spot.down]}")
    words.y += 1.5


def _steps(words: _Words, sheet: ChalkSheet, to_marks: dict[str, str]) -> None:
    """What is done at the cloth, piece by piece; the marks stand on their own sheets. The count is the last step."""
    words.heading("Chalk and cut in this order", 14)
    number = 0
    for piece in sheet.pieces:
        lines = [(step.title, step.on_paper) for step in sheet.said("cloth", piece.name)]
        chalked = next((k for k, line in enumerate(lines) if line[0] == "Cut"), len(lines))
        if piece.name in to_marks:
            lines.insert(chalked, ("Chalk", to_marks[piece.name]))
        for title, says in lines:
            number += 1
            words.paragraph(f"{title}. {says}", number=str(number), lead=len(title) + 1)


def _if_moved(words: _Words, sheet: ChalkSheet) -> None:
    """What to do when the cloth slipped or a mark is wrong."""
    if sheet.plan.mending:
        words.heading("If something moved", sum(words.height(says) for says in sheet.plan.mending))
        for says in sheet.plan.mending:
            words.paragraph(says)


def _to_buy(words: _Words, sheet: ChalkSheet) -> None:
    """The cloth, as it adds up, and everything else in one list beside it."""
    layout, unit = sheet.layout, sheet.unit
    besides = sheet.after_cut.buy if sheet.after_cut is not None else ()
    if layout is None and not besides:
        return
    rows: list[tuple[str, str, bool]] = []
    if layout is not None:
        bought = length_to_buy(layout, sheet.cloth, unit)
        rows.append(("The pieces as they are laid", say_laid(bought.laid, unit), False))
        rows.append(("To square both ends", f"+ {say_length(bought.squaring, unit)}", False))
        if bought.wash > 0:
            rows.append(("For the first wash", f"+ {say_length(bought.wash, unit)}", False))
        rows.append((f"Cloth, {say_length(bought.width, unit)} wide", say_bought(bought.buy, unit), True))
    for one in besides:
        long = "" if one.length is None else say_sold(one.length, sheet.plan.tape.unit)
        rows.append((upper_first(one.what), long, False))
    words.heading("Buy", sum(words.sum_height(*row) for row in rows))  # a list that is taken to the shop stays whole
    for name, value, strong in rows:
        words.sum_row(name, value, strong=strong)


def _other_ways(words: _Words, layout: Layout, layouts: Sequence[Layout], cloth: ClothFacts, unit: Unit) -> None:
    """The other ways: what each takes, what it buys more or less, and the work that less cloth costs."""
    others = [one for one in layouts if one.way != layout.way]
    if not others:
        return
    prices = {offer.layout.way: offer for offer in offers((layout, *others), cloth)}
    bought = length_to_buy(layout, cloth, unit).buy
    rows = []
    for other in others:
        more = length_to_buy(other, cloth, unit).buy - bought
        amount = f"{say_less(abs(more), unit)} {'more' if more > 0 else 'less'}" if abs(more) > 1.0 else "as much"
        price = prices.get(other.way)
        note = "" if price is None else f"{upper_first(price.price)}. {price.heed}".strip()
        rows.append((f"{way_name(other.way)}: {say_laid(other.length, unit)}", amount, note))
    words.heading("Other ways to lay it", sum(words.sum_height(name, value, note=note) for name, value, note in rows))
    for name, value, note in rows:
        words.sum_row(name, value, note=note)


def _pictures(words: _Words, layout: Layout, pieces: Sequence[Piece]) -> None:
    """A small picture for each fold across."""
    folds = across_folds(layout, pieces)
    if not folds:
        return
    room = (words.areas[0][2] if words.areas else words.wide) / len(folds) - 4
    wide = min(max(room, _PICTURES[0]), _PICTURES[1])
    drawings = [fold_drawing(layout, pieces, fold, scale=layout.laid_width / (wide - 6)) for fold in folds]
    tallest = max(drawing.paper_height for drawing in drawings)
    words.skip_to(tallest + 14)
    words.heading("Each fold across", tallest + 6)
    numbers = {place: number for number, place in enumerate(in_cutting_order(layout, pieces), start=1)}
    x = words.x
    for fold, drawing in sorted(zip(folds, drawings, strict=True), key=lambda one: numbers[one[0].place]):
        if x > words.x and x + drawing.paper_width > words.x + words.wide:
            words.y += tallest + 8
            words.need(tallest + 6)
            x = words.x
        words.page.words(x, words.y + 3.2, f"Fold {numbers[fold.place]}: {fold.end} over", _SMALL, strong=True)
        words.page.draw(drawing, x, words.y + 5)
        x += max(drawing.paper_width, wide) + 4
    words.y += tallest + 8
