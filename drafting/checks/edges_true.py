"""Edges leave the fold square, and run smooth across the seams that end in them. Never missed.

Else the draft is at fault.
"""

import math
from itertools import pairwise

from drafting.contract.judging import Way, Words
from drafting.contract.pieces import Piece
from drafting.contract.set_out import SetOut
from drafting.geometry.point import Point
from drafting.geometry.polyline import turn_between
from drafting.problems import Check

ID = "edges_true"
ORDER = 71
WAYS: tuple[Way, ...] = ()
#: Common practice, no source ("trueing"); within 2 degrees for both sides of a seam together.
WITHIN = 2.0


def judge(draft: SetOut, words: Words) -> Check | None:
    """Largest deviation from 90° at the fold, from 180° where two equal seam ends meet in an edge and within an edge.

    Ends that come to a point on purpose are left out. Before shrinkage, since the garment is true when it has shrunk.
    """
    across, down = 1 - draft.cloth.shrink_across, 1 - draft.cloth.shrink_along
    worst = max(_off_square(piece, across, down) for piece in draft.pieces)
    if worst > WITHIN:
        says = f"An edge bends by {worst:.0f} degrees where it should run smooth."
        return Check(ID, "stop", says, worst, WITHIN, "deg")
    return Check(ID, "pass", "Edges leave the fold square and run smooth over the seams.", worst, WITHIN, "deg")


def _off_square(piece: Piece, across: float, down: float) -> float:
    tangents = [
        (
            edge.stitch.segments[0].tangent(0.0).scaled(across, down),
            edge.stitch.segments[-1].tangent(1.0).scaled(across, down),
        )
        for edge in piece.edges
    ]
    fold = Point(0.0, 1.0)
    worst: list[float] = []
    if piece.on_fold:
        ends = (piece.edges[0].comes_to_a_point("start"), piece.edges[-1].comes_to_a_point("end"))
        found = (_from_square(tangents[0][0], fold), _from_square(tangents[-1][1], fold))
        worst += [off for off, point in zip(found, ends, strict=True) if not point]
    pairs = list(pairwise(range(len(tangents))))
    if not piece.on_fold:
        pairs.append((len(tangents) - 1, 0))
    for one, other in pairs:
        before, after = tangents[one], tangents[other]
        edge, following = piece.edges[one], piece.edges[other]
        if edge.comes_to_a_point("end") or following.comes_to_a_point("start"):
            continue
        if edge.turned != following.turned:
            worst.append(2 * _from_square(before[1], after[0]))
    for edge in piece.edges:
        for first, second in pairwise(edge.stitch.segments):
            before_joint = first.tangent(1.0).scaled(across, down)
            after_joint = second.tangent(0.0).scaled(across, down)
            worst.append(math.degrees(abs(turn_between(before_joint, after_joint))))
    return max(worst, default=0.0)  # a piece whose edges are neither turned nor curved has nothing to run smooth


def _from_square(first: Point, second: Point) -> float:
    angle = math.degrees(math.atan2(abs(first.cross(second)), first.dot(second)))
    return abs(angle - 90.0)
