"""Lines of a draft as shapely has them."""

from collections.abc import Sequence

from shapely import LineString

from drafting.contract.set_out import SetOut
from drafting.geometry.point import Point


def line(points: Sequence[Point]) -> LineString:
    return LineString([(point.x, point.y) for point in points])


def unshrunk(draft: SetOut, points: Sequence[Point]) -> list[Point]:
    """Places on the cloth as they lie on the garment that is sewn and washed."""
    return [p.scaled(1 - draft.cloth.shrink_across, 1 - draft.cloth.shrink_along) for p in points]
