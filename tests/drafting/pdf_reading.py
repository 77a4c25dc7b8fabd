"""Reads lines back out of a PDF page: an own reader of its drawing operators, on top of pypdf's parser."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from io import BytesIO
from typing import Any

import pytest
from pypdf import PageObject, PdfReader
from pypdf.generic import ContentStream

from drafting.render.pdf import MARGIN, Paper
from drafting.units import INCH

MM = INCH / 72


@dataclass(frozen=True)
class Line:
    """One drawn path: its points in mm from the upper left corner, pen width and dash in mm, whether filled."""

    points: tuple[tuple[float, float], ...]
    width: float
    dash: tuple[float, ...]
    filled: bool


def open_pdf(data: bytes) -> PdfReader:
    return PdfReader(BytesIO(data), strict=True)


def _joined(a: tuple[float, ...], b: tuple[float, ...]) -> tuple[float, ...]:
    return (
        a[0] * b[0] + a[1] * b[2], a[0] * b[1] + a[1] * b[3], a[2] * b[0] + a[3] * b[2], a[2] * b[1] + a[3] * b[3],
        a[4] * b[0] + a[5] * b[2] + b[4], a[4] * b[1] + a[5] * b[3] + b[5],
    )  # fmt: skip


def lines_of(page: PageObject) -> list[Line]:
    """Every stroked or filled path of a page, curves by their ends; clip paths left out."""
    tall = float(page.mediabox.height)
    stream = ContentStream(page.get_contents(), page.pdf)
    matrix: tuple[float, ...] = (1, 0, 0, 1, 0, 0)
    width, dash = 1.0, ()
    stack: list[tuple[tuple[float, ...], float, tuple[float, ...]]] = []
    runs: list[list[tuple[float, float]]] = []
    found: list[Line] = []

    def put(x: float, y: float) -> tuple[float, float]:
        m = matrix
        return (m[0] * x + m[2] * y + m[4]) * MM, (tall - (m[1] * x + m[3] * y + m[5])) * MM

    for operands, operator in stream.operations:
        name = operator.decode()
        if name == "q":
            stack.append((matrix, width, dash))
        elif name == "Q":
            matrix, width, dash = stack.pop()
        elif name == "cm":
            matrix = _joined(tuple(float(v) for v in operands), matrix)
        elif name == "w":
            width = float(operands[0]) * MM
        elif name == "d":
            dash = tuple(float(v) * MM for v in operands[0])
        elif name == "m":
            runs.append([put(float(operands[0]), float(operands[1]))])
        elif name in ("l", "c"):
            runs[-1].append(put(float(operands[-2]), float(operands[-1])))
        elif name == "h":
            runs[-1].append(runs[-1][0])
        elif name == "re":
            x, y, w, h = (float(v) for v in operands)
            runs.append([put(x, y), put(x + w, y), put(x + w, y + h), put(x, y + h), put(x, y)])
        elif name in ("S", "s", "B", "b", "f", "F", "n"):
            if name != "n":
                found.extend(Line(tuple(run), width, dash, name in "Bbf") for run in runs)
            runs = []
    return found


def rectangles(page: PageObject) -> list[tuple[float, float]]:
    """Width and height in mm of every upright rectangle."""
    sizes = []
    for line in lines_of(page):
        xs, ys = {round(x, 4) for x, _ in line.points}, {round(y, 4) for _, y in line.points}
        if len(line.points) == 5 and len(xs) == len(ys) == 2 and line.points[0] == line.points[-1]:
            sizes.append((max(xs) - min(xs), max(ys) - min(ys)))
    return sizes


def words_of(data: bytes) -> str:
    """All text of a document, spaces and line ends made one space."""
    return " ".join(" ".join(page.extract_text() for page in open_pdf(data).pages).split())


@contextmanager
def words_over_the_margin() -> Iterator[list[str]]:
    """Collects all words written level that leave the sheet's margins; turned ones stand inside a drawing's box."""
    over: list[str] = []
    words = Paper.words

    def watched(self: Paper, x: float, y: float, text: str, size: float, **how: Any) -> float:
        long = words(self, x, y, text, size, **how)
        if not how.get("angle"):
            start = x - {"start": 0.0, "middle": long / 2, "end": long}[how.get("anchor", "start")]
            inside = start >= MARGIN - 0.6 and start + long <= self.sheet_width - MARGIN + 0.6
            if not (inside and MARGIN <= y <= self.sheet_height - MARGIN + 0.1):
                over.append(text)
        return long

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(Paper, "words", watched)
        yield over
