"""The stretch test on the cloth screen: what it says, its picture, and that it comes before the percentage."""

import flet as ft
import flet.canvas as cv
import pytest

from app import parts
from app.pulled import Pulled, read_test, step_words
from app.screens.cloth import _found
from app.text import words
from app.theme import PAPER, PAPER_DARK


def test_what_was_typed_is_read_on_the_tape_in_hand() -> None:
    typed = {"test_across_pulled": "6", "test_across_after": "4 1/8"}
    coarse = read_test(typed, "across", "in", "1/8")
    assert (coarse.percent, coarse.recovery) == (pytest.approx(50), "fair")
    assert coarse.within == pytest.approx(((6 + 1 / 16) / (4 - 1 / 16) - 1.5) * 100)
    assert read_test(typed, "across", "in", "1/4").within > coarse.within  # type: ignore[operator]
    fine = read_test({"test_across_pulled": "15", "test_across_after": "10.5"}, "across", "cm", "0.1")
    assert (fine.percent, fine.recovery) == (pytest.approx(50), "poor")
    assert read_test(typed, "along", "in", "1/8") == Pulled()


def test_a_cloth_that_got_shorter_by_pulling_is_told() -> None:
    wrong = read_test({"test_across_pulled": "9"}, "across", "cm", "0.5")
    assert wrong.percent is None
    assert wrong.wrong == "The pulled length is shorter than the marked one. Measure both again."
    assert read_test({"test_across_pulled": "far"}, "across", "cm", "0.5") == Pulled()
    assert read_test({"test_across_marked": "far", "test_across_after": "9"}, "across", "cm", "0.5") == Pulled()


def test_what_the_test_says_so_far() -> None:
    assert _found(Pulled(), "½ in") == []
    assert _found(Pulled(49.6, 6.01, "fair"), "0.5 cm") == [
        words("test.stretches", percent=50, within=7, step="0.5 cm"),
        words("test.recovers.fair", step="0.5 cm"),
    ]
    assert _found(Pulled(50.0, 6.0, None), "0.5 cm")[0] == words("test.stretches", percent=50, within=6, step="0.5 cm")
    assert _found(Pulled(50.0, float("inf"), None), "1 cm") == []
    assert _found(Pulled(wrong="Measure both again."), "1 cm") == ["Measure both again."]
    assert [step_words(step) for step in ("0.5", "0.1", "1/8", "1/4")] == ["0.5 cm", "0.1 cm", "⅛ in", "¼ in"]


@pytest.mark.parametrize("look", [PAPER, PAPER_DARK])
@pytest.mark.parametrize("width", [328.0, 358.0, 420.0])
@pytest.mark.parametrize("folded", [True, False])
def test_the_picture_keeps_to_its_room(look, width: float, folded: bool) -> None:  # type: ignore[no-untyped-def]
    picture = parts.stretch_picture(look, identifier="p", width=width, words="w", folded=folded)
    canvas = picture.content
    assert isinstance(canvas, cv.Canvas)
    assert isinstance(picture, ft.Semantics)
    assert (picture.label, picture.image) == ("w", True)
    for shape in canvas.shapes:
        for step in shape.elements:
            x, y = getattr(step, "x", None), getattr(step, "y", None)
            if x is not None:
                assert -12 <= x <= width
                assert 0 <= y <= canvas.height
    heavy = [shape for shape in canvas.shapes if shape.paint.stroke_width == 3.5]
    assert len(heavy) == (2 if folded else 0), "the fold is a heavy line, where there is one"
