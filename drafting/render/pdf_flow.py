"""Headings, paragraphs, lists and small tables that run from sheet to sheet."""

from __future__ import annotations

from collections.abc import Sequence

from drafting.render.pdf import MARGIN, POINTS_A_MM, Paper

HEAD, BODY, SMALL = 12.5, 10.0, 8.0
_LEAD = 1.32  # line to line, in ems
_CELL, _CELL_LINE = 9.0, 4.2  # letters of a table in points, line to line in mm
_HEADING, _HEADS = 10.6, 4.8  # what a heading, and the head of a table, take, mm
_FOOT = 6.0  # kept free above the lower margin for the sheet's number, mm
_BETWEEN = 6.0  # between short entries of a list that share a line, mm


class Flow:
    """Writes downward over the whole width, and goes on to the next sheet when one is full.

    `key_drawn` remembers whether the key of signs has found its place; it has the sign of the most stretch where
    anything `stretches`.
    """

    def __init__(self, paper: Paper, *, stretches: bool = True) -> None:
        self.paper = paper
        self.y = MARGIN
        self.wide = paper.sheet_width - 2 * MARGIN
        self.key_drawn = False
        self.stretches = stretches
        self._open = False
        self._down_to: dict[int, float] = {}

    @property
    def floor(self) -> float:
        """The lowest place to write at, mm."""
        return self.paper.sheet_height - MARGIN - _FOOT

    def turn(self) -> None:
        """Go on to a new sheet."""
        self.end()
        self.paper.add_page()
        self._open = True
        self.y = MARGIN

    def carry_on(self, y: float) -> None:
        """Go on below `y` mm of a sheet that something else began."""
        self._open, self.y = True, y

    def part(self) -> None:
        """Begin a part of its own: on a new sheet, unless more than half of the one that is open is free."""
        if self._open:
            self.need((self.floor - MARGIN) / 2)
        else:
            self.turn()

    def end(self) -> None:
        """Close the last sheet; how far down it is written on is remembered."""
        if self._open:
            self._down_to[self.paper.page] = self.y
            self._open = False

    def where_free(self, height: float) -> None:
        """Go on where `height` mm are free: here, else on the latest sheet before that has so much, else on a new one.

        For what stands by itself and belongs to no sheet more than to another.
        """
        if self.y + height <= self.floor:
            return
        free = [sheet for sheet, y in self._down_to.items() if y + height <= self.floor]
        if not free:
            self.turn()
            return
        self.end()
        self.back_to(max(free))

    def back_to(self, sheet: int) -> None:
        """Go on below what is written on a sheet that was closed."""
        self.paper.back_to(sheet)
        self.carry_on(self._down_to[sheet])

    def need(self, height: float) -> None:
        """Make sure that `height` mm are free below, on a new sheet if must be."""
        if self.y + height > self.floor and self.y > MARGIN:
            self.turn()

    def heading(self, text: str, keep: float = 11.4) -> None:
        """A heading that stays with `keep` mm of what follows it."""
        self.need(_HEADING + keep)
        if self.y > MARGIN:
            self.y += 3.0
        for part in self.paper.wrapped(text, self.wide, HEAD, strong=True):
            self.paper.words(MARGIN, self.y + 4, part, HEAD, strong=True)
            self.y += 5.6
        self.paper.rule(MARGIN, self.y, self.wide, 0.4)
        self.y += 2.0

    def paragraph(self, text: str, *, size: float = BODY, strong: bool = False, indent: float = 0.0) -> None:
        """Wrapped text."""
        step = size / POINTS_A_MM * _LEAD
        for part in self.paper.wrapped(text, self.wide - indent, size, strong=strong):
            self.need(step)
            self.paper.words(MARGIN + indent, self.y + step * 0.78, part, size, strong=strong)
            self.y += step
        self.y += 1.0

    def bullet(self, text: str, size: float = BODY) -> None:
        """A line of a list, marked by a short dash."""
        step = size / POINTS_A_MM * _LEAD
        self.need(step)
        self.paper.words(MARGIN + 1, self.y + step * 0.78, "\u2013", size)
        self.paragraph(text, indent=5.0, size=size)

    def _packed(self, texts: Sequence[str], size: float) -> list[str]:
        """The entries of a list whose order does not matter, each line filled with the next that go on it."""
        left, found = list(texts), list[str]()
        while left:
            room = self.wide
            for text in tuple(left):
                long = 5.0 + self.paper.width_of(text, size)
                if room == self.wide or long <= room:
                    found.append(text)
                    left.remove(text)
                    room -= long + _BETWEEN
        return found

    def bullets(self, texts: Sequence[str], size: float = BODY, *, packed: bool = False) -> None:
        """A list; short entries that follow each other share a line, each behind its own dash.

        Of a `packed` one the order does not matter, and later entries may fill a line.
        """
        step, begun = size / POINTS_A_MM * _LEAD, 0.0
        for text in self._packed(texts, size) if packed else texts:
            long = self.paper.width_of(text, size)
            if begun and begun + 5.0 + long > self.wide:
                self.y, begun = self.y + step + 0.4, 0.0
            if not begun and 5.0 + long > self.wide:
                self.bullet(text, size)
                continue
            if not begun:
                self.need(step)
            baseline = self.y + step * 0.78
            self.paper.words(MARGIN + begun + 1, baseline, "\u2013", size)
            self.paper.words(MARGIN + begun + 5, baseline, text, size)
            begun += 5.0 + long + _BETWEEN
        if begun:
            self.y += step + 1.0

    def numbered(self, number: int, title: str, says: str) -> None:
        """A step of the work: its number in the margin, its title, and how."""
        self.need(self.step_high(says))
        self.paper.words(MARGIN + 5.5, self.y + 3.7, str(number), 11.0, strong=True, anchor="end")
        self.paragraph(title, strong=True, indent=8.0, size=10.5)
        self.y -= 0.7
        self.paragraph(says, indent=8.0)

    def step_high(self, says: str) -> float:
        """How much of a step of the work is kept together, mm."""
        step = BODY / POINTS_A_MM * _LEAD
        return min(7.5 + step * len(self.paper.wrapped(says, self.wide - 8.0, BODY)), 60.0)

    def rows_high(self, rows: Sequence[Sequence[str]], shares: Sequence[float]) -> float:
        """How high the head of a table of sentences and these rows are, mm."""
        return _HEADS + sum(self._cells(row, shares)[1] + 0.3 for row in rows)

    def _cells(self, row: Sequence[str], shares: Sequence[float]) -> tuple[list[list[str]], float]:
        """The lines of every cell of a row, and how high the row is, mm."""
        cells = [
            self.paper.wrapped(cell, self.wide * share - 4, _CELL) for cell, share in zip(row, shares, strict=True)
        ]
        return cells, _CELL_LINE * max(len(lines) for lines in cells) + 1.1

    def side_by_side(self, head: Sequence[str], rows: Sequence[Sequence[str]], shares: Sequence[float]) -> None:
        """A table of sentences; every column wraps."""
        lefts = [MARGIN + self.wide * sum(shares[:index]) for index in range(len(shares))]
        self._heads(head, lefts)
        for row in rows:
            cells, high = self._cells(row, shares)
            self.need(high + 0.3)
            for left, lines in zip(lefts, cells, strict=True):
                for index, line in enumerate(lines):
                    self.paper.words(left, self.y + 3.4 + index * _CELL_LINE, line, _CELL)
            self.y += high
            self.paper.rule(MARGIN, self.y, self.wide, 0.1)
            self.y += 0.3
        self.y += 1.5

    def _heads(self, head: Sequence[str], lefts: Sequence[float]) -> None:
        for left, words in zip(lefts, head, strict=True):
            self.paper.words(left, self.y + 3.2, words, SMALL)
        self.y += _HEADS
        self.paper.rule(MARGIN, self.y, self.wide, 0.2)

    def table(self, head: Sequence[str], rows: Sequence[Sequence[str]], shares: Sequence[float]) -> None:
        """A small table; the first column wraps, the others stand at their right edge."""
        size, step = _CELL, _CELL_LINE
        lefts = [MARGIN + self.wide * sum(shares[:index]) for index in range(len(shares))]
        rights = [left + self.wide * share for left, share in zip(lefts, shares, strict=True)]
        self._row(head, rights, SMALL, 4.0)
        self.paper.rule(MARGIN, self.y, self.wide, 0.2)
        for row in rows:
            lines = self.paper.wrapped(row[0], self.wide * shares[0] - 3, size)
            self.need(step * len(lines) + 1.4)
            top = self.y
            self._row(row, rights, size, step, skip_first=True)
            for index, line in enumerate(lines):
                self.paper.words(MARGIN, top + 3.4 + index * step, line, size)
            self.y = top + step * len(lines) + 1.0
            self.paper.rule(MARGIN, self.y, self.wide, 0.1)
            self.y += 0.3
        self.y += 1.5

    def _row(
        self, cells: Sequence[str], rights: Sequence[float], size: float, step: float, *, skip_first: bool = False
    ) -> None:
        for index, (cell, right) in enumerate(zip(cells, rights, strict=True)):
            if index == 0:
                if not skip_first:
                    self.paper.words(MARGIN, self.y + 3.2, cell, size)
            else:
                self.paper.words(right, self.y + 3.4, cell, size, anchor="end")
        self.y += step + 0.8
