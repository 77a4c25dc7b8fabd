"""Front and back of a top as they are cut: each half on the fold, with an armhole, a side and a hem.

Body axes, finished: x across from the fold, y down from the side-neck level, millimetres.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from drafting.contract.cutting import CutOut, FinishedEdge, anchors, cut_out
from drafting.contract.pieces import AnchorKind, Edge, Level, Notch, Part, Piece, Slit, Stage
from drafting.geometry.path import Path
from drafting.geometry.point import Point
from drafting.geometry.segments import Line, Segment
from drafting.parts.band import mark_on_ring
from drafting.parts.flounce import flounce_notches
from drafting.parts.neck import BACK_POINTS, FRONT_POINTS
from drafting.parts.top import TopParts

#: A waist or hip nearer to the hem's corner than this has no notch of its own, mm. Our choice: the hem is its mark.
LEVEL_CLEAR_OF_HEM = 20.0
#: Balance notches this share of the armhole from the underarm; the second of a double one so far below. Common
#: practice, from memory.
NOTCH_AT: Final = 0.45
NOTCH_APART: Final = 10.0
#: The stages of a body at the table: what is ruled across first, then each edge between its corners (common practice,
#: no source); and what the parts of its outline are called.
STAGES: Final[tuple[Stage, ...]] = (
    Stage("levels", "Levels"),
    Stage("widths", "Widths"),
    Stage("neck", "Neck and shoulder"),
    Stage("armhole", "Armhole"),
    Stage("side", "Side"),
    Stage("hem", "Hem"),
)
PARTS: Final[tuple[Part, ...]] = (
    Part("neck_fold", "neck_curve", "neck curve", "neck"),
    Part("neck_corner", "shoulder_line", "shoulder line", "neck"),
    Part("shoulder_end", "armhole_curve", "armhole curve", "armhole"),
    Part("underarm", "side_curve", "side curve", "side"),
    Part("hem_corner", "hem_curve", "hem curve", "hem"),
)
#: What is to be an anchor: its id, label, kind, stage and place.
Wanted = list[tuple[str, str, AnchorKind, str, Point]]


@dataclass(frozen=True, slots=True)
class Half:
    """What front and back may differ in: the end of the shoulder, the armhole down from there, the hem, the dip.

    `notch` is how far the balance notch lies from the shoulder along the armhole, `apart` how far below it the second
    of the back; `dip` how much longer it is at its fold; `bust` the level of the bust where the side is measured there,
    all mm.
    """

    shoulder_end: Point
    armhole: Path
    hem: Sequence[Segment]
    notch: float
    apart: float = NOTCH_APART
    dip: float = 0.0
    notch_id: str = "balance"
    bust: float | None = None


def body_piece(parts: TopParts, half: Half, *, front: bool) -> Piece:
    """Front or back of a top, with its levels, notches and anchors."""
    allow, neck = parts.allowances, parts.neck
    end, underarm = half.shoulder_end, half.armhole.end
    side = Path.of(parts.side.between(underarm.y, parts.hem.corner.y))
    edges = [
        FinishedEdge(
            "neck_edge",
            neck.front if front else neck.back,
            allow["neck"],
            turned=parts.bands.neck is None and parts.hood is None,
            points=(FRONT_POINTS if front else BACK_POINTS)[neck.kind],
        ),
        FinishedEdge("shoulder", Path((Line(neck.end, end),)), allow["shoulder"]),
        FinishedEdge("armhole", half.armhole, allow["armhole"]),
        FinishedEdge("side", side, allow["side"]),
        FinishedEdge(
            "hem", Path(tuple(half.hem)), allow["hem"], turned=not parts.choices.hem_sewn
        ),
    ]  # fmt: skip
    cut = cut_out(edges, parts.cloth.shrink_across, parts.cloth.shrink_along)
    levels = _levels(parts, half, cut)
    notches = _notches(parts, half, cut, front=front)
    name = "front" if front else "back"
    return Piece(
        name,
        name.capitalize(),
        1,
        True,
        cut.edges,
        cut.line,
        levels,
        anchors(cut.line, _anchors(cut, notches)),
        notches,
        slit=Slit("side", parts.slit * cut.down, "slit") if parts.slit > 0 else None,
        stages=STAGES,
        parts=PARTS,
        worn_behind=not front,
        zero=levels[0].down,
        written=(cut.place(Point(0.0, underarm.y)).y, cut.place(Point(0.0, parts.at.waist)).y),
    )


def _levels(parts: TopParts, half: Half, cut: CutOut) -> tuple[Level, ...]:
    """The levels that are ruled across before anything else, and the hem."""

    def down(level: float) -> float:
        return cut.place(Point(0.0, level)).y

    at, dip = parts.at, half.dip
    found = [
        Level("side_neck", "shoulder level", down(0.0), ruled=down(0.0) >= 0, drawn=down(0.0) >= 0),
        Level("underarm", "underarm", down(half.armhole.end.y), ruled=True, width=True),
        Level("waist", "waist", down(at.waist), ruled=True, width=True),
    ]
    if at.reaches_hip:
        found.append(Level("hip", "hip", down(at.hip), ruled=True, width=True))
    if half.bust is not None:
        found.insert(2, Level("bust", "bust", down(half.bust), width=True))
    return (*found, Level("hem", "hem", down(at.hem + dip), width=True, ends=True))


def edge_of(cut: CutOut, name: str) -> Edge:
    """An edge that was cut out, by its name."""
    return next(edge for edge in cut.edges if edge.name == name)


def notch_beside(cut: CutOut, edge_name: str, id: str, label: str, finished: Point, where: str = "") -> Notch:
    """A notch beside a finished point on an edge."""
    edge = edge_of(cut, edge_name)
    at, inner, tangent = edge.stitch.nearest(cut.place(finished))
    return Notch(edge_name, id, label, at, inner, inner + tangent.left() * edge.allowance, where)


def _notches(parts: TopParts, half: Half, cut: CutOut, *, front: bool) -> tuple[Notch, ...]:
    """Balance notches on the armhole, waist, hip and slit on the side, the quarter of a neck band in front."""
    from_shoulder, curve = half.notch, half.armhole
    label = "front of the sleeve" if front else "back of the sleeve"
    found = [notch_beside(cut, "armhole", half.notch_id, label, curve.at_length(from_shoulder)[0])]
    if not front:
        below = curve.at_length(from_shoulder + half.apart)[0]
        found.append(
            notch_beside(cut, "armhole", f"{half.notch_id}_second", "second notch at the back of the sleeve", below)
        )
    at, hem = parts.at, parts.hem.corner.y
    levels = [("waist", "waist", at.waist), ("hip", "hip", at.hip)]
    levels = [one for one in levels if one[2] < hem - LEVEL_CLEAR_OF_HEM]
    if parts.slit > 0:
        levels.append(("slit", "top of the slit", hem - parts.slit))
    found += [notch_beside(cut, "side", name, label, Point(parts.side.x(y), y)) for name, label, y in levels]
    found += parts.pockets.notches(cut, "side")
    # The ring of a hem begins at the centre back: the back reaches from there to the side, the front on to its fold.
    reach = (0.25, 0.5) if front else (0.25, 0.0)
    found += flounce_notches(parts.hem_flounce, cut, "hem", Path(tuple(half.hem)), reach)
    band = parts.bands.neck
    if front and band is not None:
        for mark in band.marks:
            # The marks of the band count from its seam at the centre back; the front edge begins at its fold.
            place, _ = parts.neck.front.at_length(parts.neck.ring / 2 - mark.at)
            found.append(mark_on_ring(cut, "neck_edge", place, mark, "on the neck"))
    return tuple(found)


def _anchors(cut: CutOut, notches: tuple[Notch, ...]) -> Wanted:
    neck_corner, shoulder_end, underarm, hem_corner = cut.corners[:4]
    found: Wanted = [
        ("neck_fold", "neck at the fold", "fold", "levels", cut.line[0]),
        ("neck_corner", "neck at the shoulder", "corner", "neck", neck_corner),
        ("shoulder_end", "end of the shoulder", "corner", "neck", shoulder_end),
        ("underarm", "underarm", "corner", "widths", underarm),
        ("hem_corner", "hem at the side", "corner", "widths", hem_corner),
        ("hem_fold", "hem at the fold", "fold", "levels", cut.line[-1]),
    ]
    for notch in notches:
        if notch.id in {"waist", "hip"}:
            found.append((notch.id, f"{notch.label} at the side", "level", "widths", _level_with(cut, notch)))
    return found


def _level_with(cut: CutOut, notch: Notch) -> Point:
    """Where the cut line is level with a notch on the side seam: the place that is marked on a ruled level."""
    level = notch.inner.y
    crossings = [
        a.between(b, (level - a.y) / (b.y - a.y))
        for a, b in pairwise(cut.line)
        if a.y != b.y and min(a.y, b.y) <= level <= max(a.y, b.y)
    ]
    return min(crossings, key=notch.outer.distance, default=notch.outer)
