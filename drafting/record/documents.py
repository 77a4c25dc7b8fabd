"""The files of a result: draft.json, chalk sheet, pattern, drawings. Bytes only; nothing is written here.

The renderers are loaded when they are needed, because a PDF library is slow to start in a browser.
"""

import json
from typing import Any, Literal

from drafting.garments import garments
from drafting.order import Order, Result
from drafting.record.draft_file import DraftFile, draft_file
from drafting.record.papers import Papers, papers_of

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
    return files if result.plan is None else files | printed(papers_of(result), paper)


def printed(papers: Papers, paper: Paper | None = None) -> dict[str, bytes]:
    """The files that papers make: all but draft.json, with `paper` as in `documents`."""
    size = paper or ("Letter" if papers.plan.tape.unit == "in" else "A4")
    files = {"chalk-sheet.pdf": chalk_sheet_pdf(papers, size)}
    if papers.stitching is not None:
        files["chalk-sheet-stitching-line.pdf"] = chalk_sheet_pdf(papers, size, stitching=True)
    files["pattern.pdf"] = pattern_pdf(papers, size)
    files["pattern.svg"] = pattern_svg(papers)
    cloth = cloth_svg(papers)
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


def chalk_sheet_pdf(made: Result | Papers, paper: Paper, *, stitching: bool = False) -> bytes:
    """The sheet to pin above the table. Raises ValueError when the chalk plan is withheld."""
    from drafting.render.pdf_sheet import ChalkSheet, chalk_sheet  # noqa: PLC0415

    papers = _papers(made)
    chosen = papers.stitching if stitching else papers.plan
    if chosen is None:
        raise ValueError("there is no chalk plan to print")
    sheet = ChalkSheet(
        title=papers.title,
        person=papers.person,
        taken_on=papers.taken_on,
        unit=papers.unit,
        pieces=papers.pieces,
        plan=chosen,
        cloth=papers.cloth,
        layout=papers.layout,
        layouts=papers.layouts,
        checks=tuple(check for check in papers.checks if check.result != "caution"),
        adjusted=papers.adjusted,
        finished=papers.finished,
        figures=papers.figures,
        estimates=papers.estimates,
        told=papers.told,
        cautions=tuple(check.with_rules() for check in papers.checks if check.result == "caution"),
        after_cut=papers.after_cut,
        code=papers.code_with_measures if papers.sheet_measures else papers.code,
        code_says=CODE_SAYS if papers.sheet_measures else CODE_SAYS_LESS,
    )
    return chalk_sheet(sheet, paper=paper)


def pattern_pdf(made: Result | Papers, paper: Paper) -> bytes:
    """The pieces at true size on tiles. Raises ValueError when the chalk plan is withheld."""
    from drafting.render.pdf_pattern import pattern  # noqa: PLC0415

    papers = _papers(made)
    return pattern(
        papers.pieces, papers.plan.tape, title=papers.title, person=papers.person, paper=paper, whole=papers.laid_whole
    )


def pattern_svg(made: Result | Papers) -> bytes:
    """The pieces side by side, true to scale, in mm. Raises ValueError when the chalk plan is withheld."""
    from drafting.drawing.piece import beside, piece_drawing  # noqa: PLC0415
    from drafting.render.svg import svg  # noqa: PLC0415

    papers = _papers(made)
    drawn = [
        piece_drawing(
            piece, None, papers.plan.tape, letters=1.5, show_marks=False, whole=piece.name in papers.laid_whole
        )
        for piece in papers.pieces
    ]
    title = f"{papers.title} — {papers.person}".strip(" —")
    return svg(beside(drawn, 60.0, title)).encode()


def cloth_svg(made: Result | Papers) -> bytes | None:
    """The cloth with the pieces laid on it; None when they do not fit, ValueError when the chalk plan is withheld."""
    from drafting.drawing.piece import cloth_drawing  # noqa: PLC0415
    from drafting.render.svg import svg  # noqa: PLC0415

    papers = _papers(made)
    if papers.layout is None:
        return None
    return svg(cloth_drawing(papers.layout, papers.pieces, papers.cloth, papers.unit)).encode()


def _papers(made: Result | Papers) -> Papers:
    return made if isinstance(made, Papers) else papers_of(made)


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
