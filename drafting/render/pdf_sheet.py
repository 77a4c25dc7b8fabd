"""The chalk sheet, in the order in which it is pinned up.

First what to know before cutting, the drawing, one table of marks and the proof lengths; then the cloth; then what
follows the cut; at the end what is looked up later. The order as a code, lines to write on, and the number of each
sheet are added where there is room. Each part has a file of its own, and no reading of a mark stands twice.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from drafting.render.pdf import MARGIN, PAPERS, Paper, PaperName
from drafting.render.pdf_cloth import cloth_page
from drafting.render.pdf_flow import SMALL, Flow
from drafting.render.sheet_after import after_cut
from drafting.render.sheet_code import code
from drafting.render.sheet_data import ChalkSheet
from drafting.render.sheet_facts import facts
from drafting.render.sheet_know import head, know_first
from drafting.render.sheet_marks import lines_to_write_on, marks

if TYPE_CHECKING:
    from drafting.render.fonts import Fonts

__all__ = ["ChalkSheet", "chalk_sheet"]


def chalk_sheet(sheet: ChalkSheet, *, paper: PaperName = "A4", fonts: Fonts | None = None) -> bytes:
    """The chalk sheet as a PDF, A4 or Letter upright, black ink only. The same sheet gives the same bytes."""
    page = Paper(PAPERS[paper], f"{sheet.title}: chalk sheet", fonts)

    flow = Flow(page, stretches=any(piece.stretches for piece in sheet.pieces))
    flow.turn()
    head(flow, sheet)
    know_first(flow, sheet)
    to_marks = marks(flow, sheet)
    flow.end()
    marked = page.page
    if (down := cloth_page(page, sheet, to_marks)) is not None:
        flow.carry_on(down)
    after_cut(flow, sheet)
    facts(flow, sheet)
    code(flow, sheet)
    flow.end()
    for number in range(1, marked + 1):
        lines_to_write_on(flow, number)
    _feet(page, sheet.title)
    return page.finish()


def _feet(page: Paper, title: str) -> None:
    """At the foot of every sheet which of how many it is, and, where it is not the first, what it belongs to."""
    low, right, count = page.sheet_height - MARGIN, page.sheet_width - MARGIN, len(page.pages)
    for number in range(1, count + 1):
        page.back_to(number)
        said = f"sheet {number} of {count}"
        if number > 1:  # sheets of two garments on one table are told apart
            room = right - MARGIN - page.width_of(said, SMALL) - 6
            whose, size = page.fitted(title, room, SMALL, smallest=SMALL)
            page.words(right, low, whose, size, anchor="end")
        page.words(MARGIN, low, said, SMALL)
