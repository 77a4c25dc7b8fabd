"""The paper where there is no PDF reader: it is made, and made the same again."""

from drafting.chalk.plan import plan
from drafting.cloth import ClothFacts
from drafting.render.pdf_pattern import pattern
from drafting.render.pdf_sheet import ChalkSheet, chalk_sheet
from drafting.units import Tape

from .sample_piece import sample_piece

INCHES = Tape("in", "1/8")
PIECES = (sample_piece(),)


def test_the_chalk_sheet_is_made_and_made_the_same_again():
    cloth = ClothFacts(1500, None, 15, 0.4, 0.2, 0, 0, "good", False)
    sheet = ChalkSheet("Dress", "Ngozi", None, "cm", PIECES, plan(PIECES, INCHES), cloth)
    first = chalk_sheet(sheet)
    assert first.startswith(b"%PDF")
    assert first == chalk_sheet(sheet)


def test_the_pattern_is_made_and_made_the_same_again():
    first = pattern(PIECES, INCHES)
    assert first.startswith(b"%PDF")
    assert first == pattern(PIECES, INCHES)
