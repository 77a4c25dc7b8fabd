"""The order as a QR code, with what it holds: at the end of the chalk sheet, or on a sheet before that has room."""

from __future__ import annotations

from typing import TYPE_CHECKING

from drafting.render.pdf import MARGIN
from drafting.render.pdf_flow import BODY

if TYPE_CHECKING:
    from drafting.render.pdf_flow import Flow
    from drafting.render.sheet_data import ChalkSheet

MODULE = 0.42
"""Side of one square, mm: our choice, because a phone's camera reads it from a hand's length away."""
SIDE = 50.0
"""Side of the largest code that is printed, mm, with its quiet zone: our choice, because a larger one takes the sheet
that something else needs."""
QUIET = 4
"""Squares that stay white on every side (ISO/IEC 18004)."""
HEAD = "To go on with this on another device"
_BESIDE = 6.0
_LINE = 4.6


def code(flow: Flow, sheet: ChalkSheet) -> None:
    """The code with its words beside it; nothing where the order is too long for one."""
    squares = squares_of(sheet.code) if sheet.code else ()
    side = len(squares) * MODULE
    if not squares or side > SIDE:
        return
    flow.where_free(side)
    top, left = flow.y, MARGIN + side + _BESIDE
    flow.paper.squares(MARGIN, top, MODULE, squares)
    y = top + QUIET * MODULE + 3.4
    flow.paper.words(left, y, HEAD, BODY, strong=True)
    y += _LINE * 1.5
    for says in sheet.code_says:
        for line in flow.paper.wrapped(says, flow.wide - side - _BESIDE, BODY):
            flow.paper.words(left, y, line, BODY)
            y += _LINE
        y += _LINE / 2
    flow.y = max(top + side, y) + 2


def squares_of(text: str) -> tuple[tuple[bool, ...], ...]:
    """The rows of a QR code (ISO/IEC 18004, error correction M) with its quiet zone of four; dark is true.

    Empty where no QR code holds so long a text.
    """
    import segno

    try:
        found = segno.make_qr(text, error="m", boost_error=False)
    except segno.DataOverflowError:
        return ()
    return tuple(tuple(bool(square) for square in row) for row in found.matrix_iter(scale=1, border=QUIET))
