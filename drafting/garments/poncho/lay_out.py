"""From the finished outline of a `poncho` to its two pieces on the cloth, with anchors and notches."""

from typing import Final

from drafting.contract.cutting import CutOut, FinishedEdge, anchors, cut_out
from drafting.contract.pieces import AnchorKind, Level, Notch, Part, Piece, Stage
from drafting.contract.seams import Seam, plain_seam
from drafting.garments.poncho.outline import Parts
from drafting.geometry.point import Point
from drafting.parts.neck import BACK_POINTS, FRONT_POINTS
from drafting.parts.notches import notch_at

#: The order is that of a hand at the table (common practice, no source).
STAGES: Final = (Stage("levels", "Levels"), Stage("neck", "Neck and seam"), Stage("hem", "Hem"))
PARTS: Final = (
    Part("neck_fold", "neck_curve", "neck curve", "neck"),
    Part("neck_corner", "seam_line", "seam line", "neck"),
    Part("hem_corner", "hem_curve", "hem curve", "hem"),
)


def pieces(parts: Parts) -> tuple[Piece, ...]:
    """Front and back, each on the fold."""
    return _piece(parts, front=True), _piece(parts, front=False)


def seams(parts: Parts) -> tuple[Seam, ...]:
    """The one seam of each side, over shoulder and arm."""
    return (plain_seam(("front", "shoulder"), ("back", "shoulder")),)


def _piece(parts: Parts, *, front: bool) -> Piece:
    allow, neck = parts.allowances, parts.neck
    edges = [
        FinishedEdge(
            "neck_edge",
            neck.front if front else neck.back,
            allow["neck"],
            turned=True,
            points=(FRONT_POINTS if front else BACK_POINTS)[neck.kind],
        ),
        FinishedEdge("shoulder", parts.shoulder, allow["shoulder"], label="seam over shoulder and arm"),
        FinishedEdge("hem", parts.hem, allow["hem"], turned=True, swung_from=parts.centre),
    ]
    cut = cut_out(edges, parts.cloth.shrink_across, parts.cloth.shrink_along, origin=parts.centre)
    level, hem = cut.place(Point(0.0, 0.0)).y, cut.place(Point(0.0, parts.choices.length)).y
    name = "front" if front else "back"
    return Piece(
        name,
        name.capitalize(),
        1,
        True,
        cut.edges,
        cut.line,
        _levels(level, hem, min(point.y for point in cut.line)),
        anchors(cut.line, _anchors(cut)),
        _notches(parts, cut),
        stages=STAGES,
        parts=PARTS,
        worn_behind=not front,
        zero=level,
        written=(0.5 * (level + hem), 0.75 * hem),
    )


def _levels(side_neck: float, hem: float, top: float) -> tuple[Level, ...]:
    """The hem, and the shoulder level above it; a wide neck on a steep seam begins below that level.

    `top` is where the piece begins; its 0 is the place from which the hem is swung, which may lie above that.
    """
    end = Level("hem", "hem", hem, ends=True)
    return (Level("side_neck", "shoulder level", side_neck, ruled=True), end) if side_neck > top else (end,)


def _notches(parts: Parts, cut: CutOut) -> tuple[Notch, ...]:
    """The shoulder point on the seam, so that front and back cannot slip along each other."""
    return (notch_at(cut, "shoulder", "shoulder_point", "shoulder point", parts.shoulder_point),)


def _anchors(cut: CutOut) -> list[tuple[str, str, AnchorKind, str, Point]]:
    neck_corner, hem_corner = cut.corners
    return [
        ("neck_fold", "neck at the fold", "fold", "levels", cut.line[0]),
        ("neck_corner", "neck at the seam", "corner", "neck", neck_corner),
        ("hem_corner", "hem at the seam", "corner", "neck", hem_corner),
        ("hem_fold", "hem at the fold", "fold", "levels", cut.line[-1]),
    ]
