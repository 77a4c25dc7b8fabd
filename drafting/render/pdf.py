"""A page of paper: letters, lines and drawings in mm, on top of fpdf2.

Everything written goes through `Paper.words`, so that a character the letters lack is drawn as an empty box and
nothing is dropped. The same input gives the same bytes: the date inside the file is fixed.
"""

from __future__ import annotations

import itertools
import math
import unicodedata
from collections.abc import Iterator, Sequence
from datetime import UTC, datetime
from itertools import groupby
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Literal

from fpdf import FPDF, ViewerPreferences

from drafting.drawing.piece import INKS, Drawing, Label, Stroke, clipped, crosses_box, label_box
from drafting.geometry.point import Point
from drafting.geometry.solve import most_whole
from drafting.render.fonts import Fonts, default_fonts
from drafting.render.words import plain
from drafting.sentences import NO_BREAK, unbroken
from drafting.units import INCH

PaperName = Literal["A4", "Letter"]
#: Width and height, mm: ISO 216 for A4; US Letter is 8½ × 11 in.
PAPERS: dict[PaperName, tuple[float, float]] = {"A4": (210.0, 297.0), "Letter": (8.5 * INCH, 11 * INCH)}
#: Longest side of a PDF page in points (PDF 1.7, annex C: 14,400 units of user space).
LONGEST_SIDE = 14_400
POINTS_A_MM = 72 / INCH
MARGIN = 10.0
#: Height of a capital in ems: Inter's is 0.727.
CAPITAL = 0.72
_BOX_WIDE = 0.62  # ems a missing character fills
_REGULAR, _STRONG = "plain", "strong"
# A file needs a date; a fixed one keeps the bytes the same and tells nobody when the sheet was made (our choice).
_DATE = datetime(2000, 1, 1, tzinfo=UTC)
_SHORTENED = "…"


class Paper(FPDF):
    """Sheets of one size, in mm from the upper left corner; letter sizes in points."""

    def __init__(self, size: tuple[float, float], title: str, fonts: Fonts | None = None) -> None:
        """Begin a document; no page yet. Raises ValueError for a side over 14,400 points."""
        if max(size) * POINTS_A_MM > LONGEST_SIDE + 1e-6:
            raise ValueError(f"a page side of {max(size):.0f} mm is over the {LONGEST_SIDE} points a PDF page may have")
        super().__init__(orientation="P", unit="mm", format=size)
        self.sheet_width, self.sheet_height = size
        self._folder = TemporaryDirectory(prefix="letters")
        self.set_auto_page_break(False)
        self.set_margin(0)
        self.alias_nb_pages("")  # no text a person types may turn into a number of pages
        self.set_creation_date(_DATE)
        self.set_title(plain(title))
        self.viewer_preferences = ViewerPreferences(print_scaling="None", display_doc_title=True)
        chosen = fonts or default_fonts()
        for family, source in ((_REGULAR, chosen.regular), (_STRONG, chosen.strong)):
            self.add_font(family, "", self._file(family, source))
        self.shortened: list[tuple[str, str]] = []
        self._widths: dict[tuple[str, float, str], float] = {}

    def finish(self) -> bytes:
        """The document as bytes; the paper cannot be written on afterwards."""
        try:
            return bytes(self.output())
        finally:
            self._folder.cleanup()

    def back_to(self, sheet: int) -> None:
        """Write on a sheet that was begun before, the first is 1; what is written next stands there."""
        self.page = sheet
        # What was set on the sheet written last is not set on this one.
        self.current_font_is_set_on_page = False
        self.line_width = 0.0

    def _file(self, family: str, source: Path | bytes) -> Path:
        if isinstance(source, Path):
            return source
        path = Path(self._folder.name) / f"{family}.ttf"
        path.write_bytes(source)
        return path

    # ---- words -----------------------------------------------------------------------------------------------

    def width_of(self, text: str, size: float, *, strong: bool = False) -> float:
        """Length of a line of writing, mm; `size` in points."""
        self._pen(size, strong=strong)
        return self._width(_one_line(text), size)

    def words(
        self, x: float, y: float, text: str, size: float, *, strong: bool = False,
        anchor: Literal["start", "middle", "end"] = "start", angle: float = 0.0,
    ) -> float:  # fmt: skip
        """Write one line with its baseline at (x, y); `angle` in radians, clockwise positive. Its length in mm."""
        line = _one_line(text)
        self._pen(size, strong=strong)
        length = self._width(line, size)
        start = x - {"start": 0.0, "middle": length / 2, "end": length}[anchor]
        if angle:
            with self.rotation(-math.degrees(angle), x, y):
                self._write(start, y, line, size)
        else:
            self._write(start, y, line, size)
        return length

    def fitted(
        self, text: str, room: float, size: float, *, smallest: float, strong: bool = False, about: str = ""
    ) -> tuple[str, float]:
        """The text and the size at which it fits `room` mm: smaller first, then shortened with "…".

        What had to be shortened is kept in `shortened` under `about`, to be printed in full at the end.
        """
        line = _one_line(text)
        while size > smallest and self.width_of(line, size, strong=strong) > room:
            size = max(size - 0.5, smallest)
        if self.width_of(line, size, strong=strong) <= room:
            return line, size
        if about and (about, line) not in self.shortened:
            self.shortened.append((about, line))

        def cut(count: int) -> str:
            return line[:count].rstrip() + _SHORTENED

        return cut(most_whole(lambda n: self.width_of(cut(n), size, strong=strong) <= room, 0, len(line))), size

    def wrapped(self, text: str, room: float, size: float, *, strong: bool = False) -> list[str]:
        """The text in lines of at most `room` mm, broken between words, or within a word that is too long.

        No line breaks at NO_BREAK.
        """
        self._pen(size, strong=strong)
        space = self._width(" ", size)
        lines: list[str] = []
        now, length = "", -space
        for kept in unbroken(_one_line(text, keep=NO_BREAK)).split(" "):
            word = kept.replace(NO_BREAK, " ")
            wide = self._width(word, size)
            if length + space + wide <= room:
                now, length = f"{now} {word}" if length >= 0 else word, length + space + wide
                continue
            if length >= 0:
                lines.append(now)
            now, length = word, wide
            while length > room and len(now) > 1:
                fits = self._fitting(now, room, size, strong=strong)
                lines.append(now[:fits])
                now = now[fits:]
                length = self._width(now, size)
        return [*lines, now]

    def _fitting(self, word: str, room: float, size: float, *, strong: bool) -> int:
        """How many letters of a word go into the room; one always does."""
        return most_whole(lambda n: self.width_of(word[:n], size, strong=strong) <= room, 1, len(word))

    def _pen(self, size: float, *, strong: bool) -> None:
        self.set_font(_STRONG if strong else _REGULAR, "", size)

    def _runs(self, line: str) -> Iterator[tuple[str, bool]]:
        """The line in runs of characters that the letters have, or have not."""
        run, had = "", True
        for character in line:
            has = self._has(character)
            if run and has != had:
                yield run, had
                run = ""
            run, had = run + character, has
        if run:
            yield run, had

    def _has(self, character: str) -> bool:
        font = self.current_font
        return font is not None and ord(character) in getattr(font, "cmap", {})

    def _width(self, line: str, size: float) -> float:
        """Length of a line in the letters of now, mm; remembered, because most words of a sheet stand there often."""
        told = (self.font_family, size, line)
        if told not in self._widths:
            box = _BOX_WIDE * size / POINTS_A_MM
            self._widths[told] = sum(
                self.get_string_width(run) if has else box * len(run) for run, has in self._runs(line)
            )
        return self._widths[told]

    def _write(self, x: float, y: float, line: str, size: float) -> None:
        em = size / POINTS_A_MM
        for run, has in self._runs(line):
            if has:
                self.text(x, y, run)
                x += self.get_string_width(run)
                continue
            self.pen(em * 0.05)
            for _ in run:
                self.rect(x + 0.07 * em, y - CAPITAL * em, (_BOX_WIDE - 0.14) * em, CAPITAL * em)
                x += _BOX_WIDE * em

    # ---- lines -----------------------------------------------------------------------------------------------

    def pen(self, weight: float, dash: Sequence[float] = (), phase: float = 0.0) -> None:
        """Weight of the lines that follow, dash and gap lengths and how far into them to begin, all mm."""
        self.set_line_width(weight)
        lengths = " ".join(f"{length * self.k:.2f}" for length in dash)
        self._out(f"[{lengths}] {phase * self.k:.2f} d")

    def rule(self, x: float, y: float, length: float, weight: float = 0.15) -> None:
        """A level line."""
        self.pen(weight)
        self.line(x, y, x + length, y)

    def squares(self, x: float, y: float, side: float, rows: Sequence[Sequence[bool]]) -> None:
        """Black squares where a row says so, from the upper left corner; those side by side are drawn as one."""
        self.set_fill_color(0)
        for row, squares in enumerate(rows):
            at = 0
            for dark, run in groupby(squares):
                count = len(list(run))
                if dark:
                    self.rect(x + at * side, y + row * side, count * side, side, style="F")
                at += count

    def draw(self, drawing: Drawing, x: float, y: float, box: tuple[float, float, float, float] | None = None) -> None:
        """Put a drawing with its upper left corner at (x, y).

        With `box` (left, top, right, bottom in mm of cloth) only what lies within it is drawn, and the corner of
        the box comes to (x, y). Lines are cut at the box; words that reach over its edge are cut by the edge.
        """
        left, top = (drawing.left, drawing.top) if box is None else box[:2]
        scale = drawing.scale

        def put(point: Point) -> tuple[float, float]:
            return x + (point.x - left) / scale, y + (point.y - top) / scale

        with self.local_context():
            self._out("1 j 1 J")
            for item in drawing.items:
                if isinstance(item, Label):
                    if box is None or _meet(label_box(item, scale), box):
                        self._label(item, *put(item.at))
                elif item.role != "piece_fill":
                    for run, begun in runs_within(item, box):
                        ink = INKS[item.role]
                        self.pen(ink.weight, ink.dash, begun / scale)
                        self.polyline([put(p) for p in run], polygon=(item.closed and box is None) or item.filled,
                                      style="DF" if item.filled else "D")  # fmt: skip

    def _label(self, label: Label, x: float, y: float) -> None:
        drop = Point(0, CAPITAL / 2 * label.size).turned(label.angle)
        size = label.size * POINTS_A_MM
        at = Point(x, y) + drop
        self.words(at.x, at.y, label.text, size, strong=label.strong, anchor=label.anchor, angle=label.angle)


def runs_within(stroke: Stroke, box: tuple[float, float, float, float] | None) -> Iterator[tuple[list[Point], float]]:
    """The parts of a stroke within a box, each with how far along the stroke it begins (mm of cloth).

    Filled strokes are never cut: they come whole when they touch the box.
    """
    points = [*stroke.points, stroke.points[0]] if stroke.closed and not stroke.filled and box else list(stroke.points)
    if box is None:
        yield points, 0.0
        return
    if stroke.filled:
        if any(crosses_box(a, b, box) for a, b in itertools.pairwise(points)):
            yield points, 0.0
        return
    run: list[Point] = []
    begun = along = 0.0
    for a, b in itertools.pairwise(points):
        inside = clipped(a, b, box)
        size = a.distance(b)
        if inside is None or inside[0] == inside[1]:
            if len(run) > 1:
                yield run, begun
            run = []
        else:
            enter, leave = inside
            if not run or enter > 0:
                if len(run) > 1:
                    yield run, begun
                run, begun = [a.between(b, enter)], along + enter * size
            run.append(a.between(b, leave))
            if leave < 1:
                yield run, begun
                run = []
        along += size
    if len(run) > 1:
        yield run, begun


def _one_line(text: str, keep: str = "") -> str:
    """The text fit for the page: composed letters, no joiners, spaces that the letters have."""
    composed = unicodedata.normalize("NFC", plain(text))
    kept = (" " if unicodedata.category(c) == "Zs" and c not in keep else c for c in composed if not _silent(c))
    return "".join(kept)


def _silent(character: str) -> bool:
    """Joiners and selectors of a variant: they only change how a neighbour looks."""
    return character in "\u200c\u200d" or ord(character) in _SELECTORS


_SELECTORS = range(0xFE00, 0xFE10)


def _meet(a: tuple[float, float, float, float], b: tuple[float, float, float, float]) -> bool:
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]
