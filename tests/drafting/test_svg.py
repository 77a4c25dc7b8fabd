import re
import xml.etree.ElementTree as Tree
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from drafting.chalk.plan import plan
from drafting.drawing.piece import Drawing, Label, piece_drawing
from drafting.geometry.point import Point
from drafting.render.svg import svg
from drafting.units import Tape

from .sample_piece import sample_back, sample_piece

SVG = "{http://www.w3.org/2000/svg}"
INCHES = Tape("in", "1/8")
FRONT = sample_piece()


def paths(root: Tree.Element, role: str) -> list[list[tuple[float, float]]]:
    found = [path for path in root.iter(f"{SVG}path") if path.get("class") == role]
    return [[(float(x), float(y)) for x, y in re.findall(r"([-.\d]+),([-.\d]+)", path.get("d", ""))] for path in found]


def test_true_size_in_millimetres():
    drawing = piece_drawing(FRONT, None, INCHES)
    root = Tree.fromstring(svg(drawing))
    left, top, width, height = (float(value) for value in root.get("viewBox", "").split())
    assert float(root.get("width", "").removesuffix("mm")) == pytest.approx(width)
    assert float(root.get("height", "").removesuffix("mm")) == pytest.approx(height)
    (cut,) = paths(root, "cut")
    for (x, y), point in zip(cut, FRONT.cut_line, strict=True):
        assert (x, y) == (pytest.approx(point.x, abs=6e-4), pytest.approx(point.y, abs=6e-4))
        assert left <= x <= left + width
        assert top <= y <= top + height


def test_a_small_scale_keeps_lines_and_letters_in_paper_millimetres():
    root = Tree.fromstring(svg(piece_drawing(FRONT, None, INCHES, scale=8)))
    share = float(root.get("viewBox", "").split()[2]) / float(root.get("width", "").removesuffix("mm"))
    assert share == pytest.approx(8, abs=0.01)
    (path,) = [path for path in root.iter(f"{SVG}path") if path.get("class") == "cut"]
    assert float(path.get("stroke-width", "")) == pytest.approx(0.6 * 8)


def test_cut_is_solid_and_stitch_is_dashed():
    root = Tree.fromstring(svg(piece_drawing(FRONT, None, INCHES)))
    for path in root.iter(f"{SVG}path"):
        if path.get("class") in ("cut", "stitch"):
            assert (path.get("stroke-dasharray") is not None) == (path.get("class") == "stitch")


def test_svgwrite_finds_nothing_wrong_and_the_bytes_repeat():
    marks = plan((FRONT,), INCHES).pieces[0]
    drawing = piece_drawing(sample_back(), marks, INCHES, scale=7, show_proofs=True)
    assert svg(drawing, debug=True) == svg(drawing) == svg(drawing)


ODD = (
    "<script>alert(1)</script>",
    "Ngozi \"&<>'",
    "🧵 Adé 👗",
    "نجوزي",
    "\x00\x07bell\x1b[31m\x85\ud800\ufffe\uffff",
    "]]> --> <!-- x",
    "long " * 100,
)


@pytest.mark.parametrize("name", ODD)
def test_odd_names_stay_valid_and_harmless(name: str):
    drawing = replace(piece_drawing(FRONT, None, INCHES), title=name)
    drawing = replace(drawing, items=(*drawing.items, Label(Point(0, 0), name, 3.0)))
    text = svg(drawing, description=name)
    root = Tree.fromstring(text)
    text.encode("utf-8")
    assert not list(root.iter(f"{SVG}script"))
    assert not any(key.startswith("on") for element in root.iter() for key in element.attrib)


@given(st.text(st.characters(exclude_categories=[]), max_size=60))
def test_any_text_stays_valid_and_what_has_a_shape_stays(name: str):
    drawing = Drawing((Label(Point(0, 0), name, 3.0),), 10, 10, title=name)
    root = Tree.fromstring(svg(drawing))
    shown = "".join(root.find(f"{SVG}text").itertext())  # type: ignore[union-attr]
    for letter in name:
        if letter.isalnum():
            assert letter in shown
