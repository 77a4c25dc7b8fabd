"""The facing of a neck opening: a straight strip with the opening's line down its middle, neatened and never seamed.

It is cut without allowances, along the grain like the back it lies on, so it shrinks as that does.
"""

import math
from typing import Final

from drafting import sources
from drafting.contract.cutting import FinishedEdge, anchors, cut_out
from drafting.contract.pieces import AnchorKind, Guide, GuideMark, Piece, Stage
from drafting.geometry.path import Path
from drafting.geometry.point import Point
from drafting.geometry.segments import Line
from drafting.units import Tape

STAGES: Final[tuple[Stage, ...]] = (
    Stage("levels", "Length"),
    Stage("widths", "Width"),
    Stage("line", "Marked line"),
)


def facing(slit: float, tape: Tape) -> Piece:
    """The facing for an opening that is `slit` mm long on the cloth, from the cut edge of the neck down.

    FACING_WIDE wide and FACING_LONGER longer than the slit, each raised to a whole step of the tape, so that it is
    chalked as it is drafted.
    """

    def raised(size: float) -> float:
        return math.ceil(size / tape.size - 1e-6) * tape.size

    # Both halves of the width are whole steps, so that the line is chalked in the middle.
    wide, long = 2 * raised(sources.FACING_WIDE / 2), raised(slit + sources.FACING_LONGER)
    corners = (Point(0.0, 0.0), Point(wide, 0.0), Point(wide, long), Point(0.0, long))
    names = ("facing_top", "facing_side", "facing_foot", "facing_straight")
    edges = [
        FinishedEdge(name, Path((Line(corners[index], corners[(index + 1) % 4]),)), 0.0)
        for index, name in enumerate(names)
    ]
    cut = cut_out(edges, 0.0, 0.0, closed=True)
    wanted: list[tuple[str, str, AnchorKind, str, Point]] = [
        ("facing_top", "top at the straight edge", "fold", "levels", corners[0]),
        ("facing_top_corner", "top corner", "corner", "widths", corners[1]),
        ("facing_foot_corner", "lower corner", "corner", "widths", corners[2]),
        ("facing_foot", "foot at the straight edge", "fold", "levels", corners[3]),
    ]
    top, end = Point(wide / 2, 0.0), Point(wide / 2, slit)
    marks = (
        GuideMark("line_top", "marked line at the top", "guide", top, top),
        GuideMark("line_end", "marked line at its end", "guide", end, end),
    )
    says = "Do not cut it yet: it is cut with the back, after sewing."
    guide = Guide("marked_line", "marked line", "line", (top, end), marks, says)
    return Piece(
        "facing", "Neck facing", 1, False, cut.edges, cut.line, (), anchors(cut.line, wanted), (), stages=STAGES,
        guides=(guide,),
    )  # fmt: skip
