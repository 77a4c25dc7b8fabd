"""The band's arithmetic, on the cloth: how long and how high it is cut, where it folds, and where it is pinned."""

from dataclasses import replace
from itertools import combinations

import pytest

from drafting.chalk.plan import plan
from drafting.cloth import ClothFacts
from drafting.contract.pieces import Piece
from drafting.contract.seams import EdgeRun, measured, off
from drafting.drawing.items import Label, label_box, overlap
from drafting.drawing.piece import piece_drawing
from drafting.parts.band import Band, BandMark, band_piece, band_seam, quarter_marks
from drafting.units import Tape

JERSEY = ClothFacts(1500.0, None, 15.0, 0.4, 0.2, 0.0, 0.0, "good", False)
UNWASHED = replace(JERSEY, shrink_across=0.02, shrink_along=0.05)
#: The neck band of the median woman: a neck of 49.4 cm, 0.85 of it, 2.5 high.
NECK = Band("neck_band", "Neck band", "the neck", 494.0, 0.85, 25.0, 7.0, 10.0, quarter_marks(494.0))


def bounds(piece: Piece) -> tuple[float, float]:
    assert min(point.x for point in piece.cut_line) == 0.0
    assert min(point.y for point in piece.cut_line) == 0.0
    return max(point.x for point in piece.cut_line), max(point.y for point in piece.cut_line)


def test_it_is_cut_ring_times_ratio_with_its_seam_and_twice_its_height_with_both_allowances() -> None:
    wide, high = bounds(band_piece(NECK, JERSEY))
    assert 2 * wide == pytest.approx(494.0 * 0.85 + 2 * 10.0)  # 43.99 cm opened out
    assert high == pytest.approx(2 * 25.0 + 2 * 7.0)
    assert NECK.length == pytest.approx(419.9)
    assert NECK.ease == pytest.approx(-74.1)


def test_unwashed_cloth_is_cut_larger_by_what_the_wash_takes_and_the_allowances_are_not() -> None:
    wide, high = bounds(band_piece(NECK, UNWASHED))
    assert 2 * wide == pytest.approx(494.0 * 0.85 / 0.98 + 2 * 10.0)
    assert high == pytest.approx(2 * 25.0 / 0.95 + 2 * 7.0)


def test_the_fold_over_line_runs_along_the_middle_from_the_fold_to_the_cut_end() -> None:
    piece = band_piece(NECK, UNWASHED)
    wide, high = bounds(piece)
    (guide,) = piece.guides
    assert [point.x for point in guide.line] == pytest.approx([0.0, wide])
    assert [point.y for point in guide.line] == pytest.approx([high / 2] * 2)
    assert guide.says == "Fold the neck band on this line, wrong sides together: both long edges are sewn to the neck."
    assert guide.marks[1].inner.x == pytest.approx(wide - 10.0)


def test_quarters_lie_in_the_middle_of_either_half_on_both_long_edges() -> None:
    piece = band_piece(NECK, JERSEY)
    found = {notch.seam: notch for notch in piece.notches}
    assert set(found) == {NECK.first_edge, NECK.second_edge}
    assert found[NECK.first_edge].inner.x == pytest.approx(419.9 / 4)
    assert found[NECK.second_edge].inner.x == pytest.approx(419.9 / 4)
    assert found[NECK.first_edge].outer.y == pytest.approx(0.0)
    assert found[NECK.second_edge].outer.y == pytest.approx(64.0)
    assert found[NECK.first_edge].at == pytest.approx(419.9 / 4)  # from the fold
    assert found[NECK.second_edge].at == pytest.approx(419.9 / 4)  # from the end


def test_a_mark_counts_from_the_seam_of_the_band_and_shrinks_with_its_ratio() -> None:
    band = replace(NECK, marks=(BandMark("shoulder", "shoulder", 100.0),))
    first = next(notch for notch in band_piece(band, JERSEY).notches if notch.seam == band.first_edge)
    assert first.inner.x == pytest.approx(419.9 / 2 - 85.0)


@pytest.mark.parametrize("at", [0.0, 2.0, 246.0, 247.0])
def test_the_fold_and_the_end_are_marks_themselves(at: float) -> None:
    assert band_piece(replace(NECK, marks=(BandMark("there", "there", at),)), JERSEY).notches == ()


@pytest.mark.parametrize("at", [-1.0, 247.1, 494.0])
def test_a_mark_beyond_half_the_ring_is_a_fault(at: float) -> None:
    with pytest.raises(ValueError, match="beyond half the ring"):
        band_piece(replace(NECK, marks=(BandMark("there", "there", at),)), JERSEY)


@pytest.mark.parametrize("cloth", [JERSEY, UNWASHED])
def test_its_seam_knows_by_how_much_it_is_shorter_and_pairs_the_quarters(cloth: ClothFacts) -> None:
    """A second strip of ratio 1 stands for the ring, so that every length is known."""
    ring = replace(NECK, name="ring", ratio=1.0)
    pieces = {one.name: band_piece(one, cloth) for one in (NECK, ring)}
    seam = band_seam(NECK, [EdgeRun("ring", ring.first_edge, 2)])
    wash = 1 - cloth.shrink_across, 1 - cloth.shrink_along
    assert off(seam, pieces, wash) == pytest.approx(0.0, abs=1e-6)
    assert measured(seam.one, pieces, wash).length == pytest.approx(419.9)
    assert off(replace(seam, ease=seam.ease + 4.0), pieces, wash) == pytest.approx(4.0)
    moved = replace(ring, marks=(BandMark("quarter", "quarter mark", 494.0 / 4 + 6.0),))
    pieces["ring"] = band_piece(moved, cloth)
    assert off(seam, pieces, wash) == pytest.approx(6.0 * 0.85)


def test_what_the_wash_takes_counts_only_for_a_seam_compared_after_it() -> None:
    pieces = {one.name: band_piece(one, UNWASHED) for one in (NECK, replace(NECK, name="ring", ratio=1.0))}
    seam = band_seam(NECK, [EdgeRun("ring", "ring_edge", 2)])
    unlike = 74.1 / 0.98 - 74.1
    assert off(replace(seam, washed=False), pieces, (0.98, 0.95)) == pytest.approx(unlike)


def test_it_is_chalked_by_four_corners_two_marks_of_its_fold_over_line_and_its_notches() -> None:
    made = plan((band_piece(NECK, JERSEY),), Tape("cm", "0.5"))
    told = {step.title: step.says for step in made.steps}
    assert told["Length"] == (
        "In centimetres: (3) upper corner at the end across 22.0, down 0.0; (4) lower corner at the end across 22.0, "
        "down 6.4."
    )
    assert "(5) fold-over line at the fold across 0.0, down 3.2" in told["Fold-over line"]
    assert told["Notches"] == (
        "Chalk a short tick across the edge, in centimetres: quarter mark on the upper edge across 10.5, down 0.0; "
        "quarter mark on the lower edge across 10.5, down 6.4."
    )
    assert "both long edges are sewn to the neck" in told["Fold-over line"]


@pytest.mark.parametrize("height", [20.0, 40.0, 60.0])
def test_its_name_stretch_and_grain_are_written_within_it(height: float) -> None:
    """A strip is too low for a name over a number: all stands in lines within it, and nothing on anything else."""
    piece = band_piece(replace(NECK, height=height, ring=840.0, marks=quarter_marks(840.0)), JERSEY)
    made = plan((piece,), Tape("cm", "0.5"))
    drawn = piece_drawing(piece, made.pieces[0], Tape("cm", "0.5"), scale=4.0)
    labels = {item.text: label_box(item, 4.0) for item in drawn.items if isinstance(item, Label)}
    wide, high = bounds(piece)
    for text in ("NECK BAND, cut 1 on the fold", "most stretch", "grain"):
        left, top, right, low = labels[text]
        assert 0.0 < left < right < wide, text
        if height > 20.0:
            assert 0.0 < top < low < high, text
    within = [box for text, box in labels.items() if not text.isdecimal()]
    if height > 20.0:
        assert not any(overlap(a, b) for a, b in combinations(within, 2))


def test_at_true_size_the_word_at_its_fold_stands_on_the_sheet() -> None:
    drawn = piece_drawing(band_piece(NECK, JERSEY), None, Tape("cm", "0.5"), letters=1.5, show_marks=False)
    fold = next(item for item in drawn.items if isinstance(item, Label) and item.text.startswith("FOLD"))
    assert fold.at.x > 0.0
