"""A drawing as SVG, in mm: the only module that knows svgwrite."""

import math

import svgwrite

from drafting.drawing.piece import INKS, Drawing, Label, Stroke
from drafting.render.words import plain

#: Families a reader is likely to have when the bundled one is not installed (our choice: a plain upright face).
FAMILY = "'Foldmark Sans', 'Inter', 'DejaVu Sans', sans-serif"


def svg(drawing: Drawing, *, description: str = "", debug: bool = False) -> str:
    """The drawing as one SVG document: width and height in mm of paper, viewBox in mm of cloth, ink only.

    Numbers are written to 0.001 mm. `debug` lets svgwrite check every attribute (slow; for tests). The same
    drawing gives the same text.
    """
    page = svgwrite.Drawing(
        size=(f"{_number(drawing.paper_width)}mm", f"{_number(drawing.paper_height)}mm"),
        viewBox=" ".join(_number(value) for value in (drawing.left, drawing.top, drawing.width, drawing.height)),
        profile="full",
        debug=debug,
    )
    says = plain(description) or "Lengths in millimetres of cloth."
    page.set_desc(title=plain(drawing.title) or "Drawing", desc=says)
    for item in drawing.items:
        if isinstance(item, Label):
            page.add(_words(page, item, drawing.scale))
        elif item.role != "piece_fill":
            page.add(_line(page, item, drawing.scale))
    return '<?xml version="1.0" encoding="utf-8" ?>\n' + str(page.tostring()) + "\n"


def _line(page: "svgwrite.Drawing", stroke: Stroke, scale: float) -> "svgwrite.path.Path":
    ink = INKS[stroke.role]
    run = " L".join(f"{_number(point.x)},{_number(point.y)}" for point in stroke.points)
    attributes: dict[str, object] = {
        "class_": stroke.role,
        "fill": "black" if stroke.filled else "none",
        "stroke": "black",
        "stroke_width": _number(ink.weight * scale),
        "stroke_linejoin": "round",
        "stroke_linecap": "butt" if ink.dash else "round",
    }
    if ink.dash:
        attributes["stroke_dasharray"] = ",".join(_number(length * scale) for length in ink.dash)
    return page.path(d=f"M{run}{' Z' if stroke.closed else ''}", **attributes)


def _words(page: "svgwrite.Drawing", label: Label, scale: float) -> "svgwrite.text.Text":
    size = label.size * scale
    # The letters' middle sits on the place: down by half the height of a capital, 0.36 em in the bundled family.
    drop = 0.36 * size
    attributes: dict[str, object] = {
        "class_": label.role,
        "font_family": FAMILY,
        "font_size": _number(size),
        "font_weight": "600" if label.strong else "400",
        "text_anchor": label.anchor,
        "fill": "black",
        "insert": (_number(label.at.x), _number(label.at.y + drop)),
    }
    if label.angle:
        at = f"{_number(label.at.x)},{_number(label.at.y)}"
        attributes["transform"] = f"rotate({_number(math.degrees(label.angle))},{at})"
    return page.text(plain(label.text), **attributes)


def _number(value: float) -> str:
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text
