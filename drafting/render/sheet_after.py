"""After the cut: needle, thread and stitch, the order of sewing, and what to change at the try-on."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from drafting.render.pdf_flow import Flow
    from drafting.render.sheet_data import ChalkSheet

#: Of what is looked for at the try-on so many rows stay with their heading; what is kept for the words of clips, mm.
_ROWS, _CLIPS = 3, 14.0
#: How wide what is seen and what is changed are.
_SHARES = (0.42, 0.58)


def after_cut(flow: Flow, sheet: ChalkSheet) -> None:
    """A part of its own, as the garment tells it; clips, which the chalk plan tells, stand before the seams."""
    told, clips = sheet.after_cut, sheet.said("after")
    if told is None and not clips:
        return
    flow.part()
    if told is not None:
        flow.heading("After the cut")
        for says in (told.needle, told.thread, told.stitch):
            flow.paragraph(says)
        flow.heading("Sew in this order", flow.step_high(told.order[0].says) if told.order and not clips else _CLIPS)
    labels = {piece.name: piece.label for piece in sheet.pieces}
    several = len({step.says for step in clips}) > 1
    for says, clip in {step.says: step for step in reversed(clips)}.items():
        flow.paragraph(f"{labels[clip.piece]}: {says}" if several else says)
    if told is not None:
        for number, step in enumerate(told.order, start=1):
            flow.numbered(number, step.title, step.says)
    if told is not None and told.try_on:
        rows = [(row.seen, row.change) for row in told.try_on]
        flow.heading("Try it on", flow.rows_high(rows[:_ROWS], _SHARES))
        flow.side_by_side(("What you see", "What to change"), rows, _SHARES)
