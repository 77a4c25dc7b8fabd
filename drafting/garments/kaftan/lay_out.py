"""From the finished outline of a `kaftan` to its pieces on the cloth, with levels, anchors, notches and the slit."""

import math
from typing import Final

from drafting import sources
from drafting.contract.cutting import CutOut, FinishedEdge, anchors, cut_out
from drafting.contract.pieces import AnchorKind, Edge, Guide, Level, Notch, Part, Piece, Slit, Stage, Straightedge
from drafting.contract.seams import Seam, plain_seam
from drafting.garments.kaftan.facing import facing, slit_guide, stop_on_cloth
from drafting.garments.kaftan.outline import Parts
from drafting.geometry.path import Path
from drafting.geometry.point import Point
from drafting.geometry.segments import Cubic, Line, Segment
from drafting.parts.notches import level_with, notch_at

#: The order is that of a hand at the table (common practice, no source).
STAGES: Final[tuple[Stage, ...]] = (
    Stage("levels", "Levels"),
    Stage("widths", "Widths"),
    Stage("neck", "Neck and overarm"),
    Stage("sleeve", "Sleeve"),
    Stage("underarm", "Underarm and side"),
    Stage("hem", "Hem"),
)
SLIT_STAGE: Final = Stage("slit", "Slit of the neck")
LOWER_STAGES: Final[tuple[Stage, ...]] = (
    Stage("levels", "Length"),
    Stage("widths", "Widths"),
    Stage("sleeve", "Joint, under seam and sleeve end"),
)
LOWER_PARTS: Final[tuple[Part, ...]] = (
    Part("joint_fold", "joint_curve", "joint curve", "sleeve"),
    Part("joint_under", "under_seam", "under seam", "sleeve"),
    Part("sleeve_end_under", "sleeve_end_curve", "sleeve end", "sleeve", one="middle"),
)
#: A waist or hip nearer to the hem's corner, to a slit's top or to the curve of the underarm than this has no notch of
#: its own, mm. Our choice.
CLEAR = 20.0


def pieces(parts: Parts) -> tuple[Piece, ...]:
    """Front and back on the fold, lower sleeves where they are cut apart, and the facings of the neck."""
    front, stop = _body(parts, front=True)
    front = parts.pockets.on_front(front, parts.cloth)
    back, _ = _body(parts, front=False)
    lower = () if parts.joint is None else (_lower_sleeve(parts),)
    return (front, back, *lower, facing(parts, stop), facing(parts, None), *parts.pockets.pieces(parts.cloth))


def seams(parts: Parts, made: tuple[Piece, ...]) -> tuple[Seam, ...]:
    """Overarm, underarm and side; the joint of a sleeve cut apart; the neck with its facings."""
    found = [plain_seam(("front", edge), ("back", edge)) for edge in ("shoulder", "side")]
    if parts.joint is not None:
        named = {piece.name: piece for piece in made}
        lower = named["lower_sleeve"].edge("joint").stitch.length()
        for name in ("front", "back"):  # by how much they differ where the cloth shrinks unevenly
            more = named[name].edge("sleeve_joint").stitch.length() - lower
            found.append(plain_seam((name, "sleeve_joint"), ("lower_sleeve", "joint"), more))
        found.append(plain_seam(("lower_sleeve", "under"), ("lower_sleeve", "under")))
    found += [plain_seam((name, "neck_edge"), (f"{name}_facing", "neck_edge")) for name in ("front", "back")]
    found.append(plain_seam(("front_facing", "shoulder"), ("back_facing", "shoulder")))
    found += parts.pockets.seams
    return tuple(found)


def _body(parts: Parts, *, front: bool) -> tuple[Piece, float]:
    """Front or back, and the finished level at which the slit of the front stops, mm."""
    allow, sleeve = parts.allowances, parts.sleeve
    edge = parts.neck.front if front else parts.neck.back
    joined = parts.joint is not None
    end = Path(sleeve.across(parts.outer))
    edges = [
        FinishedEdge("neck_edge", edge, allow["neck"], label="neck edge"),
        FinishedEdge("shoulder", Path((Line(edge.end, end.start),)), allow["shoulder"], label="overarm"),
        FinishedEdge("sleeve_joint", end, allow["sleeve_joint"])
        if joined
        else FinishedEdge("sleeve_end", end, allow["sleeve_end"], turned=True),
        FinishedEdge("side", parts.side_edge, allow["side"]),
        FinishedEdge("hem", Path(parts.hem.edge), allow["hem"], turned=True),
    ]
    cut = cut_out(edges, parts.cloth.shrink_across, parts.cloth.shrink_along)
    levels = _levels(parts, cut)
    notches = _notches(parts, cut)
    name = "front" if front else "back"
    stop, guides = 0.0, tuple[Guide, ...]()
    if front:
        stop = (stop_on_cloth(parts, cut) - cut.shift.y) / cut.down
        guides = (slit_guide(cut, stop, "neck_slit", SLIT_STAGE.key),)
    made = Piece(
        name,
        name.capitalize(),
        1,
        True,
        cut.edges,
        cut.line,
        levels,
        anchors(cut.line, _anchors(parts, cut, notches)),
        notches,
        clips=_clips(parts, cut),
        slit=Slit("side", parts.slit * cut.down, "slit") if parts.slit > 0 else None,
        stages=(*STAGES, SLIT_STAGE) if front else STAGES,
        parts=_parts(joined=joined),
        guides=guides,
        straightedges=(
            Straightedge("shoulder_point", "shoulder point", "overarm_end", "sleeve joint" if joined else "sleeve end"),
        ),
        worn_behind=not front,
        reaches="sleeve",
        zero=cut.place(Point(0.0, 0.0)).y,
        written=(cut.place(Point(0.0, parts.side_from)).y, cut.place(Point(0.0, parts.at.hip)).y),
        stretches=False,
    )
    return made, stop


def _levels(parts: Parts, cut: CutOut) -> tuple[Level, ...]:
    """The levels that are ruled across before anything else, and the hem."""

    def down(level: float) -> float:
        return cut.place(Point(0.0, level)).y

    at = parts.at
    found = [
        Level("side_neck", "shoulder level", down(0.0), ruled=down(0.0) >= 0, drawn=down(0.0) >= 0),
        Level("underarm", "underarm", down(parts.side_from), ruled=True, width=True),
        Level("waist", "waist", down(at.waist), ruled=True, width=True),
        Level("hip", "hip", down(at.hip), ruled=True, width=True),
    ]
    return (*found, Level("hem", "hem", down(at.hem), width=True, ends=True))


def _notches(parts: Parts, cut: CutOut) -> tuple[Notch, ...]:
    """The shoulder point, the middle of the underarm, waist and hip, the top of a side slit, the middle of a joint."""
    at, side = parts.at, parts.side
    curve = Path(parts.underarm.curve)
    found = [
        notch_at(cut, "shoulder", "shoulder_point", "shoulder point", parts.sleeve.start),
        notch_at(cut, "side", "underarm_middle", "underarm", curve.at_length(curve.length() / 2)[0], proven=True),
    ]
    low = parts.hem.corner.y - CLEAR
    levels = [("waist", "waist", at.waist), ("hip", "hip", at.hip)]
    # The curve of the underarm often keeps just as far above the waist: a float's last bits decide nothing.
    levels = [one for one in levels if parts.side_from + CLEAR / 2 - 1e-6 <= one[2] < low]
    if parts.slit > 0:
        top = parts.hem.corner.y - parts.slit
        levels = [one for one in levels if abs(one[2] - top) > CLEAR]
        levels.append(("slit", "top of the slit", top))
    found += [notch_at(cut, "side", name, label, Point(side.x(y), y)) for name, label, y in levels]
    found += parts.pockets.notches(cut, "side")
    if parts.joint is not None:
        middle = Path(parts.sleeve.across(parts.joint))
        found.append(
            notch_at(cut, "sleeve_joint", "joint", "middle of the joint", middle.at_length(middle.length() / 2)[0])
        )
    return tuple(found)


def _anchors(parts: Parts, cut: CutOut, notches: tuple[Notch, ...]) -> list[tuple[str, str, AnchorKind, str, Point]]:
    neck_corner, end_top, end_under, hem_corner = cut.corners[:4]
    sleeve = "sleeve joint" if parts.joint is not None else "sleeve end"
    found: list[tuple[str, str, AnchorKind, str, Point]] = [
        ("neck_fold", "neck at the fold", "fold", "levels", cut.line[0]),
        ("neck_corner", "neck at the shoulder", "corner", "neck", neck_corner),
        ("overarm_end", f"top of the {sleeve}", "corner", "neck", end_top),
        ("underarm_end", f"underside of the {sleeve}", "corner", "sleeve", end_under),
        ("hem_corner", "hem at the side", "corner", "widths", hem_corner),
        ("hem_fold", "hem at the fold", "fold", "levels", cut.line[-1]),
    ]
    edge = _edge(cut, "side")
    segments = edge.stitch.segments
    for name, label, place, stage in (
        ("curve_start", "underarm curve at the sleeve", segments[0].end, "underarm"),
        ("curve_end", "underarm curve at the side", segments[-1].start, "widths"),
    ):
        _, inner, tangent = edge.stitch.nearest(place)
        outer = inner + tangent.left() * edge.allowance
        found.append((name, label, "guide", stage, outer))
    for notch in notches:
        if notch.id in {"waist", "hip"}:
            place = level_with(cut, notch.inner.y, notch.outer)
            found.append((notch.id, f"{notch.label} at the side", "level", "widths", place))
        elif notch.id == "shoulder_point":
            found.append((notch.id, notch.label, "guide", "neck", notch.outer))
    return found


def _parts(*, joined: bool) -> tuple[Part, ...]:
    end = ("sleeve_joint", "sleeve joint") if joined else ("sleeve_end", "sleeve end")
    return (
        Part("neck_fold", "neck_curve", "neck curve", "neck"),
        Part("neck_corner", "overarm_line", "overarm", "neck"),
        Part("overarm_end", *end, "sleeve", one="middle"),
        Part("underarm_end", "under_line", "under line", "sleeve"),
        Part("curve_start", "underarm_curve", "underarm curve", "underarm"),
        Part("curve_end", "side_line", "side", "underarm"),
        Part("hem_corner", "hem_curve", "hem curve", "hem"),
    )


def _clips(parts: Parts, cut: CutOut) -> tuple[tuple[Point, Point], ...]:
    """Snips into the allowance of the underarm's curve."""
    edge = _edge(cut, "side")
    path = Path(parts.underarm.curve).scaled(cut.across, cut.down, cut.shift)
    size = path.length()
    count = max(3, math.ceil(size / sources.CLIP_EVERY) - 1)
    found = []
    for step in range(1, count + 1):
        point, tangent = path.at_length(size * step / (count + 1))
        found.append((point + tangent.left() * edge.allowance, point))
    return tuple(found)


def _edge(cut: CutOut, name: str) -> Edge:
    return next(edge for edge in cut.edges if edge.name == name)


def _lower_sleeve(parts: Parts) -> Piece:
    """The lower sleeve, cut twice on the fold of its overarm, the arm's length along the cloth."""
    assert parts.joint is not None
    sleeve, allow, start = parts.sleeve, parts.allowances, parts.sleeve.top(parts.joint)

    def place(point: Point) -> Point:
        """Across is how far below the overarm, down is how far along it from the joint."""
        away = point - start
        return Point(away.dot(sleeve.below), away.dot(sleeve.along))

    def turned(segment: Segment) -> Segment:
        if isinstance(segment, Line):
            return Line(place(segment.start), place(segment.end))
        return Cubic(*(place(point) for point in (segment.start, segment.first, segment.second, segment.end)))

    joint, end = sleeve.across(parts.joint), sleeve.across(sleeve.length)
    edges = [
        FinishedEdge("joint", Path(tuple(map(turned, joint))), allow["sleeve_joint"], label="sleeve joint"),
        FinishedEdge("under", Path((turned(Line(joint[-1].end, end[-1].end)),)), allow["side"], label="under seam"),
        FinishedEdge(
            "sleeve_end", Path(tuple(turned(s.reversed()) for s in reversed(end))), allow["sleeve_end"], turned=True
        ),
    ]
    cut = cut_out(edges, parts.cloth.shrink_across, parts.cloth.shrink_along)
    joint_corner, end_corner = cut.corners
    notches = []
    for name, label in (("joint", "middle of the joint"), ("under", "middle of the under seam")):
        edge = _edge(cut, name)
        at = edge.stitch.length() / 2
        inner, tangent = edge.stitch.at_length(at)
        notches.append(Notch(name, name, label, at, inner, inner + tangent.left() * edge.allowance))
    wanted: list[tuple[str, str, AnchorKind, str, Point]] = [
        ("joint_fold", "joint at the fold", "fold", "levels", cut.line[0]),
        ("joint_under", "underside of the joint", "corner", "widths", joint_corner),
        ("sleeve_end_under", "underside of the sleeve end", "corner", "widths", end_corner),
        ("sleeve_end_fold", "sleeve end at the fold", "fold", "levels", cut.line[-1]),
    ]
    levels = (
        Level("joint", "joint", cut.place(Point(0.0, 0.0)).y),
        Level("sleeve_end", "sleeve end", cut.place(place(end[0].start)).y, width=True, ends=True),
    )
    return Piece(
        "lower_sleeve", "Lower sleeve", 2, True, cut.edges, cut.line, levels, anchors(cut.line, wanted),
        tuple(notches), stages=LOWER_STAGES, parts=LOWER_PARTS, stretches=False,
    )  # fmt: skip


def slit_as_chalked(parts: Parts, made: tuple[Piece, ...]) -> float:
    """The length of the neck slit as its stop is marked, finished, mm."""
    return made[0].slit_down * (1 - parts.cloth.shrink_along)
