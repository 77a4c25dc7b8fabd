"""The rings that something must pass, measured by shapely on the finished outline.

The stitch line that is measured is joined within 0.05 mm, four times round the neck: 0.25 mm is left for that.
"""

import math

import pytest
import shapely
from shapely import LineString, Polygon

from drafting.contract.pieces import Piece
from drafting.contract.set_out import SetOut
from tests.drafting.bodies import BODIES, Data, set_out

WOMAN = BODIES["median woman"]
SHRUNK = {"shrink_across": 4, "shrink_along": 6}


def finished(piece: Piece, cloth: Data) -> list[tuple[float, float]]:
    """The stitch line as it is sewn and washed."""
    across, along = (1 - cloth.get(key, 0) / 100 for key in ("shrink_across", "shrink_along"))
    return [(p.x * across, p.y * along) for p in piece.stitch_line]


def level_ring(piece: Piece, cloth: Data) -> float:
    """Twice the narrowest level section of a neck stand, from its highest corner to the side-neck level and 4 below."""
    outline = finished(piece, cloth)
    half = Polygon(outline)
    corner = piece.edges[0].stitch.end.y * (1 - cloth.get("shrink_along", 0) / 100)
    foot = piece.level("side_neck") * (1 - cloth.get("shrink_along", 0) / 100) + 40
    steps = 300
    sections = (
        half.intersection(LineString([(0, y), (300, y)]))
        for y in (corner + 0.01 + (foot - corner) * k / steps for k in range(steps))
    )
    return 2 * min(min(part.bounds[2] for part in shapely.get_parts(found)) for found in sections)


@pytest.mark.parametrize("cloth", [{}, SHRUNK], ids=["plain", "shrunk"])
@pytest.mark.parametrize("lean", [0, 1, 5, 10, 15])
@pytest.mark.parametrize(
    "style", [{}, {"neck_height": "60 mm"}, {"neck_height": "220 mm", "neck_layers": "folded"}, {"neck_slant": 8}]
)
def test_the_ring_of_the_neck_is_the_narrowest_level_section(style: Data, lean: float, cloth: Data) -> None:
    draft = set_out(WOMAN, {**style, "neck_lean": lean}, cloth)
    measured = sum(level_ring(piece, cloth) for piece in draft.pieces)
    assert draft.facts["neck_ring"] == pytest.approx(measured, abs=0.25)
    assert next(girth.girth for girth in draft.girths if girth.at == "neck") == pytest.approx(measured, abs=0.25)


@pytest.mark.parametrize("lean", [0, 8, 15])
def test_a_width_of_the_neck_that_is_given_is_its_narrowest_ring(lean: float) -> None:
    draft = set_out(WOMAN, {"neck_half_width": "112 mm", "neck_lean": lean})
    assert sum(level_ring(piece, {}) for piece in draft.pieces) == pytest.approx(4 * 112, abs=0.25)


@pytest.mark.parametrize("side", ["left", "right"])
@pytest.mark.parametrize("lean", [0, 6])
def test_a_trimmed_neck_edge_is_no_narrower_than_the_ring(side: str, lean: float) -> None:
    draft = set_out(WOMAN, {"neck_slant": 12, "neck_slant_side": side, "neck_lean": lean})
    trimmed = sum(LineString([(p.x, p.y) for p in piece.trim]).length for piece in draft.pieces)
    allowance = draft.pieces[0].edges[1].allowance
    assert trimmed - 4 * allowance >= draft.facts["neck_ring"] - 0.1


def loop_round_slit(draft: SetOut) -> float:
    """The tightest loop through an opened neck: straight across the front, at the back round the end of the slit."""
    front, back, _facing = draft.pieces
    end = back.guides[0].line[-1].y
    levels = [(x, y) for x, y in finished(front, {}) if y > front.edges[0].stitch.end.y and y < end]
    return min(2 * x + 2 * math.hypot(x, end - y) for x, y in levels)


@pytest.mark.parametrize("lean", [0, 10])
@pytest.mark.parametrize("person", ["median woman", "man", "child of 6"])
def test_an_opening_is_measured_on_the_outline(person: str, lean: float) -> None:
    draft = set_out(BODIES[person], {"neck_opening": "centre_back", "neck_lean": lean}, {"stretch_across": 15})
    assert draft.facts["head_ring"] == pytest.approx(loop_round_slit(draft), abs=0.25)
    assert draft.facts["head_ring"] * (1 + 0.8 * 0.15) >= draft.body.head_girth + 10 - 0.1
