"""The files of a result: draft.json, chalk sheet, pattern, drawings. Bytes only; nothing is written here.

The renderers are loaded when they are needed, because a PDF library is slow to start in a browser.
"""

import json
from typing import Any, Literal

from drafting.garments import garments
from drafting.order import Order, Result
from drafting.person.table import MEASURES
from drafting.record.draft_file import DraftFile, draft_file
from drafting.record.order_code import code_text
from drafting.sentences import lower_first

Paper = Literal["A4", "Letter"]


def draft_json(result: Result) -> bytes:
    """draft.json, UTF-8, the same bytes for the same order."""
    record = draft_file(result).model_dump(mode="json", by_alias=True)
    return (json.dumps(record, ensure_ascii=False, indent=1) + "\n").encode()


def documents(result: Result, paper: Paper | None = None) -> dict[str, bytes]:
    """File names and contents. After a stop there is draft.json only; cloth.svg needs a layout.

    `paper` left out: A4 for a tape in centimetres, Letter for one in inches.
    """
    files = {"draft.json": draft_json(result)}
    if result.plan is None:
        return files
    size = paper or ("Letter" if result.ready.tape.unit == "in" else "A4")
    files["chalk-sheet.pdf"] = chalk_sheet_pdf(result, size)
    if result.stitch_plan is not None:
        files["chalk-sheet-stitching-line.pdf"] = chalk_sheet_pdf(result, size, stitching=True)
    files["pattern.pdf"] = pattern_pdf(result, size)
    files["pattern.svg"] = pattern_svg(result)
    cloth = cloth_svg(result)
    if cloth is not None:
        files["cloth.svg"] = cloth
    return files


CODE_SAYS = (
    "This code holds the name, the measures, the shape, the cloth and the tape of this garment.",
    "Take a picture of it, and open that in Foldmark on the other device. Who has this sheet has the measures too.",
)
CODE_SAYS_LESS = (
    "This code holds the shape, the cloth and the tape of this garment, without the name and the measures.",
    "Take a picture of it, and open that in Foldmark on the other device. Then choose for whom it is.",
)


def title_of(order: Order) -> str:
    """The title, or a plain one."""
    return order.title.strip() or garments()[order.garment].title


def chalk_sheet_pdf(result: Result, paper: Paper, *, stitching: bool = False) -> bytes:
    """The sheet to pin above the table. Raises ValueError when the chalk plan is withheld."""
    from drafting.render.pdf_sheet import ChalkSheet, chalk_sheet  # noqa: PLC0415

    chosen = result.stitch_plan if stitching else result.plan
    if chosen is None:
        raise ValueError("there is no chalk plan to print")
    sheet = ChalkSheet(
        title=title_of(result.order),
        person=result.order.person.name,
        taken_on=result.order.person.taken_on,
        unit=result.order.person.unit,
        pieces=result.draft.pieces,
        plan=chosen,
        cloth=result.ready.cloth,
        layout=result.layout,
        layouts=result.layouts,
        checks=tuple(check for check in result.checks if check.result != "caution"),
        adjusted=result.draft.adjusted,
        finished=result.girths,
        figures=result.draft.figures,
        estimates=result.estimates,
        told=tuple(lower_first(MEASURES[each].label_for(result.order.person.kind)) for each in result.told),
        cautions=tuple(check.with_rules() for check in result.checks if check.result == "caution"),
        after_cut=result.draft.after_cut,
        code=code_text(result.order),
        code_says=CODE_SAYS if result.order.sheet_measures else CODE_SAYS_LESS,
    )
    return chalk_sheet(sheet, paper=paper)


def pattern_pdf(result: Result, paper: Paper) -> bytes:
    """The pieces at true size on tiles."""
    from drafting.render.pdf_pattern import pattern  # noqa: PLC0415

    person = result.order.person.name
    return pattern(
        result.draft.pieces, result.ready.tape, title=title_of(result.order), person=person, paper=paper,
        whole=_laid_whole(result),
    )  # fmt: skip


def pattern_svg(result: Result) -> bytes:
    """Both pieces side by side, true to scale, in mm."""
    from drafting.drawing.piece import beside, piece_drawing  # noqa: PLC0415
    from drafting.render.svg import svg  # noqa: PLC0415

    tape = result.ready.tape
    whole = _laid_whole(result)
    drawn = [
        piece_drawing(piece, None, tape, letters=1.5, show_marks=False, whole=piece.name in whole)
        for piece in result.draft.pieces
    ]
    title = f"{title_of(result.order)} — {result.order.person.name}".strip(" —")
    return svg(beside(drawn, 60.0, title)).encode()


def _laid_whole(result: Result) -> frozenset[str]:
    return result.layout.laid_whole if result.layout is not None else frozenset()


def cloth_svg(result: Result) -> bytes | None:
    """The cloth with the pieces laid on it; None when they do not fit."""
    from drafting.drawing.piece import cloth_drawing  # noqa: PLC0415
    from drafting.render.svg import svg  # noqa: PLC0415

    if result.layout is None:
        return None
    drawn = cloth_drawing(result.layout, result.draft.pieces, result.ready.cloth, result.order.person.unit)
    return svg(drawn).encode()


def schema(which: Literal["order", "draft"]) -> dict[str, Any]:
    """The JSON Schema of order.json or draft.json, with the keys of the garment's style in place."""
    if which == "draft":
        return DraftFile.model_json_schema(by_alias=True)
    found = Order.model_json_schema()
    # Each garment's own records under its own name, since two garments may call theirs alike.
    styles = {
        name: garment.style.model_json_schema(ref_template=f"#/$defs/{name}_{{model}}")
        for name, garment in garments().items()
    }
    for name, style in styles.items():
        found["$defs"].update({f"{name}_{own}": record for own, record in style.pop("$defs", {}).items()})
        found["$defs"][f"style_{name}"] = style
    found["properties"]["garment"] = {"enum": list(styles), "default": "cut_in_one"}
    found["properties"]["style"] = {"anyOf": [{"$ref": f"#/$defs/style_{name}"} for name in styles]}
    return found
