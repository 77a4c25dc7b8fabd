"""The pieces on the cloth, folded in half lengthwise: length is the sum of the pieces, which is also its bound."""

import pytest
from shapely import Polygon, box

from drafting.layout import lay
from drafting.order import Result
from tests.drafting.bodies import BODIES, Data, draft

WIDE: Data = {"width": "180 cm", "lay": "half"}


def laid(body: str, style: Data | None = None, cloth: Data | None = None) -> Result:
    return draft(BODIES[body], style or {}, {**WIDE, **(cloth or {})})


@pytest.mark.parametrize("body", BODIES)
def test_the_length_is_the_sum_of_the_pieces(body: str) -> None:
    result = laid(body, {"length": "hip"})
    assert result.layout is not None
    heights = [max(point.y for point in piece.cut_line) for piece in result.draft.pieces]
    assert result.layout.length == pytest.approx(sum(heights), abs=1e-9)
    assert result.layout.bound == result.layout.length


@pytest.mark.parametrize("body", BODIES)
@pytest.mark.parametrize(
    "style", [{}, {"neck_height": 0, "sleeve_length": "elbow"}, {"body": "flared", "length": "hip"}]
)
def test_no_two_pieces_overlap_and_none_leaves_the_cloth(body: str, style: Data) -> None:
    result = laid(body, style)
    layout = result.layout
    assert layout is not None
    cloth = box(0, 0, layout.cloth_width / 2 - 15, layout.length).buffer(1e-6)
    outlines = []
    for place in layout.places:
        piece = next(piece for piece in result.draft.pieces if piece.name == place.piece)
        outlines.append(Polygon([(place.x + p.x, place.y + p.y) for p in piece.cut_line]))
        assert place.x == 0.0, "a piece on the fold lies on the fold"
        assert cloth.contains(outlines[-1])
    assert outlines[0].intersection(outlines[1]).area < 1e-6
    covered = 2 * sum(outline.area for outline in outlines)
    assert layout.use == pytest.approx(covered / (layout.length * layout.cloth_width), rel=1e-9)


def test_a_sleeve_wider_than_the_folded_cloth_is_not_laid_and_the_ways_out_are_said() -> None:
    from drafting.order import make
    from tests.drafting.bodies import order, read

    result = make(read(order(BODIES["tall woman"], {}, {"width": "140 cm"})))
    assert result.layout is None
    check = next(check for check in result.checks if check.id == "fits_cloth")
    assert check.result == "warn"
    assert result.outcome == "warn"
    assert result.plan is not None, "the marks are still there: it may be laid another way"
    assert any("shorter" in way.says or "long" in way.says for way in check.ways_out)
    assert any("wide" in way.says for way in check.ways_out)


def test_the_selvages_are_kept_free() -> None:
    result = laid("median woman")
    widest = max(piece.width for piece in result.draft.pieces)
    just = 2 * widest / 10 + 3.0
    assert laid("median woman", cloth={"width": just + 0.01}).layout is not None
    assert laid("median woman", cloth={"width": just - 0.01}).layout is None


def test_a_piece_of_cloth_too_short_is_not_laid() -> None:
    result = laid("median woman")
    assert result.layout is not None
    need = result.layout.length / 10
    assert laid("median woman", cloth={"length": need + 0.01}).layout is not None
    short = laid("median woman", cloth={"length": need - 0.5})
    assert short.layout is None
    assert any(check.id == "cloth_long_enough" and check.result == "warn" for check in short.checks)
    assert lay(short.draft.pieces, short.ready.cloth) is None
