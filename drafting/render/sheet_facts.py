"""What is looked up later: girths, what was moved, what was estimated, the checks in a line each."""

from __future__ import annotations

from typing import TYPE_CHECKING

from drafting.render.pdf_flow import SMALL
from drafting.render.sheet_marks import key_of_signs
from drafting.sentences import NO_BREAK, upper_first
from drafting.units import say_length

if TYPE_CHECKING:
    from drafting.render.pdf_flow import Flow
    from drafting.render.sheet_data import ChalkSheet
    from drafting.units import Unit

_CHECK = 9.0


def facts(flow: Flow, sheet: ChalkSheet) -> None:
    """They follow what is needed in the work, on the same sheet where there is room."""
    _girths(flow, sheet)
    _told(flow, sheet)
    _moved(flow, sheet)
    _estimates(flow, sheet)
    _checks(flow, sheet)
    if not flow.key_drawn:
        key_of_signs(flow)
    if flow.paper.shortened:
        flow.heading("In full")
        for about, text in flow.paper.shortened:
            flow.paragraph(f"{about}: {text}", size=SMALL)


def _girths(flow: Flow, sheet: ChalkSheet) -> None:
    if not sheet.finished:
        return
    rows = []
    for girth in sheet.finished:
        body = say_length(girth.body, sheet.unit) if girth.body else "–"
        ease = _signed(girth.ease, sheet.unit) if girth.body else "–"
        chalked = say_length(girth.after_rounding, sheet.unit) if girth.after_rounding else "–"
        name = upper_first(girth.label)
        rows.append((name, say_length(girth.girth, sheet.unit), body, ease, chalked))
    flow.need(16 + 5.5 * min(len(rows), 10))
    flow.heading("Finished girths, whole, and what reading the tape makes of them")
    flow.table(("", "finished", "body", "ease", "as chalked"), rows, (0.36, 0.16, 0.16, 0.16, 0.16))
    if sheet.figures:
        said = (f"{figure.label} {say_length(figure.value, sheet.unit)}" for figure in sheet.figures)
        flow.paragraph(f"{upper_first('; '.join(said))}.")


def _moved(flow: Flow, sheet: ChalkSheet) -> None:
    if not sheet.adjusted:
        return
    flow.heading("What was adjusted, and why")
    for change in sheet.adjusted:
        before, after = (_value(value, change.unit, sheet.unit) for value in (change.before, change.after))
        flow.bullet(f"{upper_first(_said(change.what))}: from {before} to {after}, {change.why}")


def _estimates(flow: Flow, sheet: ChalkSheet) -> None:
    if not sheet.estimates:
        return
    flow.heading("Estimated, not measured")
    said = []
    for estimate in sheet.estimates:
        value, spread = say_length(estimate.value, sheet.unit), say_length(estimate.sd, sheet.unit)
        said.append(f"{upper_first(_said(estimate.measure))} {value} (estimated, ±{NO_BREAK}{spread}).")
    said.append("It is better to measure it." if len(said) == 1 else "It is better to measure them.")
    flow.paragraph(" ".join(said))


def _told(flow: Flow, sheet: ChalkSheet) -> None:
    if sheet.told:
        flow.paragraph(f"Told by a garment that fits, not measured on the body: {', '.join(sheet.told)}.", size=SMALL)


def _checks(flow: Flow, sheet: ChalkSheet) -> None:
    passed = [check for check in sheet.checks if check.result in ("pass", "shown")]
    if not passed:
        return
    flow.heading("Checked and found good")
    flow.bullets([check.says for check in passed], size=_CHECK, packed=True)


def _value(value: float, kind: str, unit: Unit) -> str:
    if kind == "mm":
        return say_length(value, unit)
    number = f"{round(value, 1) + 0.0:.1f}".removesuffix(".0")
    return f"{number}{'°' if kind == 'deg' else ' %' if kind == '%' else ''}"


def _signed(mm: float, unit: Unit) -> str:
    words = say_length(abs(mm), unit)
    return f"−{words}" if mm < 0 else f"+{words}"


def _said(name: str) -> str:
    return name.replace("_", " ")
