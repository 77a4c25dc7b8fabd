"""The facings of the neck: in front with the slit, behind without. Each takes the host's own neck edge and shoulder.

What is sewn to the host is a copy of the host's edge, so it moves with it; the outer edge is free and turned under.
"""

from typing import Final

from drafting import sources
from drafting.contract.cutting import CutOut, FinishedEdge, anchors, cut_out
from drafting.contract.pieces import AnchorKind, Guide, GuideMark, Level, Part, Piece, Stage
from drafting.garments.kaftan.outline import Parts
from drafting.geometry.path import Path
from drafting.geometry.point import Point
from drafting.geometry.segments import Cubic, Line

STAGES: Final[tuple[Stage, ...]] = (
    Stage("levels", "Length"),
    Stage("neck", "Neck and shoulder"),
    Stage("outer", "Outer edge"),
)
SLIT_STAGE: Final = Stage("slit", "Marked line of the slit")
#: Handles of the outer edge, as shares of its way down and across: it keeps the facing about as wide as at the shoulder
#: (our choice).
FRONT_HANDLES: Final = (0.55, 0.45)
BACK_HANDLE: Final = 0.5523
#: Its outer edge is turned under by this and stitched, mm. Common practice, no source.
TURNED_UNDER: Final = 6.0


def wide_of(parts: Parts) -> float:
    """How wide the facing is at the shoulder: no wider than half of what is left beside the neck, mm."""
    return min(sources.NECK_FACING_WIDE * sources.scale(parts.body.stature), 0.8 * parts.sleeve.length)


def facing(parts: Parts, stop: float | None) -> Piece:
    """The facing of the front, whose slit stops at the level `stop` (finished, mm); of the back where that is None."""
    neck = parts.neck
    edge = neck.back if stop is None else neck.front
    along, end = parts.sleeve.along, edge.end
    outside = end + along * wide_of(parts)
    down = parts.sleeve.below
    if stop is None:
        foot = Point(0.0, edge.start.y + wide_of(parts))
        deep = foot.y - outside.y
        outer = Path(
            (Cubic(outside, outside + down * (BACK_HANDLE * deep), foot + Point(BACK_HANDLE * outside.x, 0.0), foot),)
        )
        closing: list[FinishedEdge] = []
    else:
        half = sources.FACING_WIDE / 2
        turn = Point(half, edge.start.y + wide_of(parts))
        deep = turn.y - outside.y
        curve = Cubic(
            outside,
            outside + down * (FRONT_HANDLES[0] * deep),
            turn - Point(0.0, FRONT_HANDLES[1] * deep),
            turn,
        )
        foot = Point(half, max(stop, turn.y) + sources.FACING_LONGER)
        outer = Path((curve, Line(turn, foot)))
        end_of_strip = Path((Line(foot, Point(0.0, foot.y)),))
        closing = [FinishedEdge("facing_foot", end_of_strip, TURNED_UNDER, True, "foot of the front neck facing")]
    allow = parts.allowances
    cut = cut_out(
        [
            FinishedEdge("neck_edge", edge, allow["neck"], label="neck edge"),
            FinishedEdge(
                "shoulder", Path((Line(end, outside),)), allow["shoulder"], label="shoulder of the neck facings"
            ),
            FinishedEdge("facing_outer", outer, TURNED_UNDER, turned=True, label="outer edge of the neck facings"),
            *closing,
        ],
        parts.cloth.shrink_across,
        parts.cloth.shrink_along,
    )
    front = stop is not None
    name = "front_facing" if front else "back_facing"
    guides = () if stop is None else (slit_guide(cut, stop, "facing_slit", SLIT_STAGE.key),)
    return Piece(
        name,
        "Front neck facing" if front else "Back neck facing",
        1,
        True,
        cut.edges,
        cut.line,
        (Level("facing_foot", "foot", cut.line[-1].y, ends=True),),
        anchors(cut.line, _anchors(cut, front=front)),
        (),
        stages=(*STAGES, SLIT_STAGE) if front else STAGES,
        parts=_parts(front=front),
        guides=guides,
        fine=True,
        stretches=False,
    )


def _anchors(cut: CutOut, *, front: bool) -> list[tuple[str, str, AnchorKind, str, Point]]:
    found: list[tuple[str, str, AnchorKind, str, Point]] = [
        ("neck_fold", "neck at the fold", "fold", "levels", cut.line[0]),
        ("neck_corner", "neck at the shoulder", "corner", "neck", cut.corners[0]),
        ("facing_shoulder", "outer edge at the shoulder", "corner", "neck", cut.corners[1]),
        ("facing_fold", "foot at the fold", "fold", "levels", cut.line[-1]),
    ]
    if front:
        outer = next(edge for edge in cut.edges if edge.name == "facing_outer")
        turn = outer.stitch.segments[-1].start + Point(outer.allowance, 0.0)
        found.append(("facing_turn", "outer edge beside the slit", "guide", "outer", turn))
        found.append(("facing_corner", "corner of the foot", "corner", "outer", cut.corners[2]))
    return found


def _parts(*, front: bool) -> tuple[Part, ...]:
    found = [
        Part("neck_fold", "neck_curve", "neck curve", "neck"),
        Part("neck_corner", "shoulder_line", "shoulder line", "neck"),
        Part("facing_shoulder", "facing_curve", "outer curve", "outer"),
    ]
    if front:
        found += [
            Part("facing_turn", "facing_strip", "edge beside the slit", "outer"),
            Part("facing_corner", "facing_foot", "foot", "outer"),
        ]
    return tuple(found)


def stop_on_cloth(parts: Parts, cut: CutOut) -> float:
    """How far below the origin the slit stops on the cloth, mm: a whole step of the tape, never less than is needed.

    One that was asked for stops where it was asked.
    """
    size, exact = parts.chalked.tape.size, cut.place(Point(0.0, parts.opened.end)).y
    if parts.choices.neck_slit is not None:
        return exact
    least = parts.neck.front.start.y + max(0.0, (parts.opened.needs - parts.neck.ring) / 2)
    lower = size * int(exact / size + 1e-6)
    return lower if lower >= cut.place(Point(0.0, least)).y - 1e-6 else lower + size


def slit_guide(cut: CutOut, stop: float, name: str, stage: str) -> Guide:
    """The slit down the fold to a finished level, where it stops; it is faced before it is cut."""
    end = cut.place(Point(0.0, stop))
    mark = GuideMark(f"{name}_stop", "stop of the slit", "fold", end, end)
    says = f"Chalk the slit from {{neck_fold}} straight down to {{{name}_stop}}. Do not cut it yet: it is faced first."
    return Guide(name, "slit", stage, (cut.line[0], end), (mark,), says, cut=True)
