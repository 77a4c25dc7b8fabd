"""From the finished parts of `cut_in_one` to its two pieces on the cloth, with anchors, notches and clips."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from drafting import sources
from drafting.cloth import ClothFacts
from drafting.contract.chalked_line import ChalkedLine
from drafting.contract.cutting import CutOut, FinishedEdge, anchors, cut_out
from drafting.contract.pieces import AnchorKind, Edge, Guide, Level, Notch, Piece, Slit, Straightedge
from drafting.garments.cut_in_one.chalking import OPENING_STAGE, STAGES
from drafting.garments.cut_in_one.chalking import parts as chalk_parts
from drafting.garments.cut_in_one.facing import facing
from drafting.garments.cut_in_one.guides import (
    across_centre,
    across_shoulder,
    fold_over_guides,
    opening_guide,
    opening_level,
)
from drafting.garments.cut_in_one.joint import Joint, lower_sleeve
from drafting.garments.cut_in_one.neck import FoldOver, Neck, Shoulder, finished_point, fold_over
from drafting.garments.cut_in_one.sleeve import Overarm, Sleeve, Underarm
from drafting.garments.cut_in_one.style import Choices
from drafting.geometry.path import Path
from drafting.geometry.point import Point
from drafting.geometry.segments import Line, Segment
from drafting.parts.band import Band, band_piece, mark_on_ring
from drafting.parts.flounce import Flounce, flounce_notches, flounce_piece
from drafting.parts.hem import Hem
from drafting.parts.hood import Hood, hood_pieces
from drafting.parts.notches import level_with
from drafting.parts.pockets import NO_POCKETS, Pockets
from drafting.parts.pouch import Pouch, pouch_piece, with_pouch
from drafting.parts.side import Side
from drafting.parts.widths import Levels
from drafting.person.measures import Body

#: A waist or hip nearer to the hem's corner than this has no notch of its own, mm. Our choice: the hem is its mark.
LEVEL_CLEAR_OF_HEM = 20.0
#: Notches whose places are always proven: there the sleeve closes round the arm.
_PROVEN = ("underarm", "narrowest")
_AT_CENTRE = "at the centre back"


@dataclass(frozen=True, slots=True)
class Parts:
    """Everything set out, finished, in body axes: what the pieces are made from."""

    body: Body
    choices: Choices
    cloth: ClothFacts
    at: Levels
    side: Side
    hem: Hem
    shoulder: Shoulder
    overarm: Overarm
    corner: Point
    sleeve: Sleeve
    underarm: Underarm | None
    allowances: dict[str, float]
    slit: float
    opening_end: float
    slant_drop: float
    chalked: ChalkedLine
    joint: Joint | None = None
    cuff: Band | None = None
    neck_band: Band | None = None
    sleeve_flounce: Flounce | None = None
    hem_flounce: Flounce | None = None
    hood: Hood | None = None
    pouch: Pouch | None = None
    pockets: Pockets = NO_POCKETS

    @property
    def flounces(self) -> tuple[Flounce, ...]:
        """Those that there are."""
        return tuple(one for one in (self.sleeve_flounce, self.hem_flounce) if one is not None)

    @property
    def sleeve_sewn(self) -> bool:
        """Whether something is sewn to the end of the sleeve, so that it is not turned."""
        return self.cuff is not None or self.sleeve_flounce is not None


def pieces(parts: Parts, front: Neck, back: Neck) -> tuple[Piece, ...]:
    """Front and back, each cut once on the fold; the back twice with a centre back seam; lower sleeves cut apart.

    The facing of an opening comes last.
    """
    first, second = _front_and_back(parts, front, back)
    made: tuple[Piece, ...] = (parts.pockets.on_front(with_pouch(first, parts.pouch, parts.cloth), parts.cloth), second)
    faced = _faced(parts, made[1])
    if parts.joint is not None:
        lower = lower_sleeve(
            parts.overarm,
            parts.sleeve,
            parts.joint,
            parts.allowances,
            parts.cloth,
            hemmed=not parts.sleeve_sewn,
            flounce=parts.sleeve_flounce,
        )
        made = (*made, lower)
    banded = [band_piece(band, parts.cloth) for band in (parts.neck_band, parts.cuff) if band is not None]
    hooded = hood_pieces(parts.hood, parts.cloth)
    pouched = () if parts.pouch is None else (pouch_piece(parts.pouch, parts.cloth),)
    return (
        *made,
        *faced,
        *banded,
        *hooded,
        *pouched,
        *parts.pockets.pieces(parts.cloth),
        *(flounce_piece(flounce, parts.cloth) for flounce in parts.flounces),
    )


def opening_reached(parts: Parts, pieces: Sequence[Piece]) -> float:
    """Level (finished, from the side-neck level) to which the back is opened as chalked, mm; its top when closed."""
    if not parts.choices.opening:
        return parts.opening_end
    back = next(piece for piece in pieces if piece.name == "back")
    end = next(guide for guide in back.guides if guide.id == "opening").line[-1]
    return (end.y - back.zero) * (1 - parts.cloth.shrink_along)


def facing_size(pieces: Sequence[Piece]) -> tuple[float, float] | None:
    """Width and length of the facing among the pieces, as cut, mm; None where there is none."""
    return next(((piece.width, piece.height) for piece in pieces if piece.name == "facing"), None)


def _faced(parts: Parts, back: Piece) -> tuple[Piece, ...]:
    """The facing of an opening on the fold. One in a centre back seam needs none: its allowances are turned instead."""
    if not parts.choices.opening or parts.choices.back_seam:
        return ()
    line = next(guide for guide in back.guides if guide.id == "opening").line
    return (facing(line[-1].y - line[0].y, parts.chalked.tape),)


def _front_and_back(parts: Parts, front: Neck, back: Neck) -> tuple[Piece, Piece]:
    made = _piece(parts, front, "front")
    if front is not back or parts.choices.back_seam:
        return made, _piece(parts, back, "back")
    twin = _piece(parts, back, "back") if parts.choices.opening else made
    return made, replace(made, name="back", label="Back", worn_behind=True, stages=twin.stages, guides=twin.guides)


def _piece(parts: Parts, neck: Neck, name: str) -> Piece:
    seam = name == "back" and parts.choices.back_seam
    edges = _edges(parts, neck)
    if seam:
        centre = Path((Line(edges[-1].path.end, edges[0].path.start),))
        edges.append(FinishedEdge("centre_back", centre, parts.allowances["centre_back"]))
    cut = cut_out(edges, parts.cloth.shrink_across, parts.cloth.shrink_along, closed=seam)
    at = parts.at
    levels = _levels(at, cut)
    folded = fold_over(neck, parts.choices.lean) if parts.choices.folded and not neck.scooped else None
    opened = name == "back" and parts.choices.opening
    opening = (opening_guide(opening_level(parts.opening_end, cut, parts.chalked), cut, seam=seam),) if opened else ()
    notches = _notches(parts, folded, opening, cut)
    notches += parts.pockets.notches(cut, "side")
    notches += _for_flounces(parts, edges, cut, name)
    if name == "front" and parts.neck_band is not None:
        notches += _quarter_marks(parts.neck_band, neck, cut)
    marked = anchors(cut.line, _anchor_points(parts, neck, cut, notches), seen=("column_foot", "column_end"))
    return Piece(
        name=name,
        label=name.capitalize(),
        cut=2 if seam else 1,
        on_fold=not seam,
        edges=cut.edges,
        cut_line=cut.line,
        levels=levels,
        anchors=marked,
        notches=notches,
        clips=_clips(parts, neck, cut),
        slit=Slit("side", parts.slit * cut.down, "slit") if parts.slit > 0 else None,
        trim=_trim(parts, neck, cut),
        trim_words="neck",
        trim_side=parts.choices.slant_side if parts.slant_drop > 0 else "",
        stages=(*STAGES, OPENING_STAGE) if opened else STAGES,
        parts=chalk_parts((anchor.id for anchor in marked), joined=parts.joint is not None),
        guides=(*(fold_over_guides(folded, cut, seam=seam) if folded else ()), *opening),
        straightedges=(
            Straightedge(
                "shoulder_point", "shoulder point", "overarm_end", "sleeve joint" if parts.joint else "sleeve end"
            ),
        ),
        straight="the centre back cutting line",
        worn_behind=name == "back",
        reaches="sleeve",
        zero=levels[0].down,
        written=(cut.place(Point(0.0, at.bust)).y, cut.place(Point(0.0, at.waist)).y),
    )


def _levels(at: Levels, cut: CutOut) -> tuple[Level, ...]:
    """The levels that are ruled across before anything else, and the hem; a wide scooped neck lies below the first."""

    def down(level: float) -> float:
        return cut.place(Point(0.0, level)).y

    found = [
        Level("side_neck", "shoulder level", down(0.0), ruled=down(0.0) >= 0, drawn=down(0.0) >= 0),
        Level("bust", "bust", down(at.bust), ruled=True, narrows=True),
        Level("waist", "waist", down(at.waist), ruled=True, width=True),
    ]
    if at.reaches_hip:
        found.append(Level("hip", "hip", down(at.hip), ruled=True, width=True))
    return (*found, Level("hem", "hem", down(at.hem), width=True, ends=True))


def _edges(parts: Parts, neck: Neck) -> list[FinishedEdge]:
    allow = parts.allowances
    over = parts.shoulder
    shoulder: list[Segment] = list(neck.column)
    last = shoulder[-1].end if shoulder else neck.top.end
    if over.softening:
        shoulder += [Line(last, over.softening[0].start), *over.softening]
        last = shoulder[-1].end
    joint = parts.joint
    shoulder.append(Line(last, joint.edge[0].start if joint else parts.sleeve.top))
    side: list[Segment] = []
    begin = parts.corner.y
    if parts.underarm is not None:
        side += [*(joint.upper if joint else parts.underarm.under), *parts.underarm.curve]
        begin = parts.underarm.side_level
    side += parts.side.between(begin, parts.hem.corner.y)
    return [
        FinishedEdge(
            "neck_top",
            neck.top,
            allow["neck_top"],
            turned=parts.neck_band is None and parts.hood is None,
            label="neck edge",
        ),
        FinishedEdge("shoulder", Path.of(shoulder), allow["shoulder"]),
        FinishedEdge("sleeve_joint", Path.of(joint.edge), allow["sleeve_joint"])
        if joint
        else FinishedEdge("sleeve_end", Path.of(parts.sleeve.end), allow["sleeve_end"], turned=not parts.sleeve_sewn),
        FinishedEdge("side", Path.of(side), allow["side"]),
        FinishedEdge("hem", Path(parts.hem.edge), allow["hem"], turned=parts.hem_flounce is None),
    ]


def _edge(cut: CutOut, name: str) -> Edge:
    return next(edge for edge in cut.edges if edge.name == name)


def _notches(parts: Parts, folded: FoldOver | None, opening: Sequence[Guide], cut: CutOut) -> tuple[Notch, ...]:
    """A notch at the shoulder point, narrowest sleeve, underarm, waist, hip, and at the top of a slit.

    A folded neck has two at each seam across its fold-over line, an opening in a centre back seam one at its end.
    """
    at = parts.at
    wanted: list[tuple[str, str, str, Point]] = [
        ("shoulder", "shoulder_point", "shoulder point", finished_point(parts.shoulder))
    ]
    if parts.underarm is not None:
        inner_end = parts.sleeve.narrowest.distance(parts.sleeve.end[-1].end)
        if inner_end > 30.0 and parts.joint is None:
            wanted.append(("side", "narrowest", "narrowest place of the sleeve", parts.sleeve.narrowest))
        curve = parts.underarm.curve
        middle = curve[len(curve) // 2].start if len(curve) % 2 == 0 else curve[len(curve) // 2].at(0.5)
        wanted.append(("side", "underarm", "underarm", middle))
    side_from = parts.underarm.side_level if parts.underarm else parts.corner.y
    levels = [("waist", "waist", at.waist), ("hip", "hip", at.hip)]
    levels = [(name, label, y) for name, label, y in levels if y < parts.hem.corner.y - LEVEL_CLEAR_OF_HEM]
    if parts.slit > 0:
        levels.append(("slit", "top of the slit", parts.hem.corner.y - parts.slit))
    for name, label, y in levels:
        if side_from - 1e-6 <= y:
            wanted.append(("side", name, label, Point(parts.side.x(y), y)))
    found: list[Notch] = []
    if folded is not None:
        wanted += [("shoulder", *one) for one in across_shoulder(folded)]
    wanted += _on_straight_edges(parts, folded, cut)
    for seam, name, label, point in wanted:
        edge = _edge(cut, seam)
        if name == "joint":
            distance = edge.stitch.length() / 2
            inner, tangent = edge.stitch.at_length(distance)
        else:
            distance, inner, tangent = edge.stitch.nearest(cut.place(point))
        outer, where = inner + tangent.left() * edge.allowance, _AT_CENTRE if seam == "centre_back" else ""
        found.append(Notch(seam, name, label, distance, inner, outer, where, proven=name in _PROVEN))
    if parts.choices.back_seam:
        for guide in opening:
            mark, edge = guide.marks[0], _edge(cut, "centre_back")
            found.append(
                Notch(
                    "centre_back",
                    guide.id,
                    guide.label,
                    edge.stitch.nearest(mark.inner)[0],
                    mark.inner,
                    mark.outer,
                    _AT_CENTRE,
                )
            )
    return tuple(found)


def _for_flounces(parts: Parts, edges: Sequence[FinishedEdge], cut: CutOut, name: str) -> tuple[Notch, ...]:
    """The notches that flounces are pinned to; the ring of a sleeve begins at its under seam, that of a hem behind."""
    paths = {edge.name: edge.path for edge in edges}
    found = flounce_notches(parts.hem_flounce, cut, "hem", paths["hem"], (0.25, 0.0), twin=True)
    if parts.joint is not None:
        return found
    reach = (0.5, 0.0) if name == "front" else (0.5, 1.0)
    return (*flounce_notches(parts.sleeve_flounce, cut, "sleeve_end", paths["sleeve_end"], reach), *found)


def _quarter_marks(band: Band, neck: Neck, cut: CutOut) -> tuple[Notch, ...]:
    """Where the quarter marks of a neck band meet the front: they count from its seam, the edge from its fold."""
    places = [(mark, neck.top.at_length(band.ring / 2 - mark.at)[0]) for mark in band.marks]
    return tuple(mark_on_ring(cut, "neck_top", place, mark, "on the neck") for mark, place in places)


def _anchor_points(
    parts: Parts, neck: Neck, cut: CutOut, notches: tuple[Notch, ...]
) -> list[tuple[str, str, AnchorKind, str, Point]]:
    neck_corner, end_top, end_under, hem_corner = cut.corners[:4]
    seam = len(cut.corners) > 4  # closed by a centre back seam, whose cut edge stands where the fold would be
    fold = "centre back" if seam else "fold"
    sleeve = "sleeve joint" if parts.joint else "sleeve end"
    found: list[tuple[str, str, AnchorKind, str, Point]] = [
        ("neck_top", f"top of the neck at the {fold}", "fold", "levels", cut.line[0]),
        ("neck_corner", "neck corner", "corner", "widths", neck_corner),
        ("overarm_end", f"top of the {sleeve}", "corner", "neck", end_top),
        ("underarm_end", f"underside of the {sleeve}", "corner", "sleeve", end_under),
        ("hem_corner", "hem at the side", "corner", "widths", hem_corner),
        ("hem_fold", f"hem at the {fold}", "fold", "levels", cut.corners[4] if seam else cut.line[-1]),
    ]
    if neck.column:
        shoulder = _edge(cut, "shoulder")
        begin = shoulder.stitch.segments[0].end
        tangent = shoulder.stitch.segments[0].tangent(1.0)
        foot = begin + tangent.left() * shoulder.allowance
        found.append(("column_foot", "foot of the neck stand", "guide", "neck", foot))
        last = len(neck.column) - 1
        end, tangent = shoulder.stitch.segments[last].end, shoulder.stitch.segments[last].tangent(1.0)
        on_shoulder = end + tangent.left() * shoulder.allowance
        found.append(("column_end", "end of the neck stand curve", "guide", "neck", on_shoulder))
    names: dict[str, tuple[str, AnchorKind, str]] = {
        "shoulder_point": ("shoulder point", "corner", "neck"),
        "narrowest": ("narrowest place of the sleeve", "level", "sleeve"),
        "waist": ("waist at the side", "level", "widths"),
        "hip": ("hip at the side", "level", "widths"),
    }
    for notch in notches:
        if notch.id in names and notch.seam != "centre_back":
            at = level_with(cut, notch.inner.y, notch.outer) if notch.id in {"waist", "hip"} else notch.outer
            found.append((notch.id, *names[notch.id], at))
    return found


def _on_straight_edges(parts: Parts, folded: FoldOver | None, cut: CutOut) -> list[tuple[str, str, str, Point]]:
    """Notches of the two optional seams: waist, hip and folded neck on the centre back, the middle of the joint."""
    names = {edge.name for edge in cut.edges}
    found: list[tuple[str, str, str, Point]] = []
    if "centre_back" in names:
        levels = [("waist", parts.at.waist), ("hip", parts.at.hip)]
        found += [("centre_back", key, key, Point(0.0, y)) for key, y in levels if y < parts.at.hem - 20.0]
        if folded is not None:
            found += [("centre_back", *one) for one in across_centre(folded)]
    if parts.joint is not None:
        found.append(("sleeve_joint", "joint", "middle of the joint", parts.joint.edge[0].at(0.5)))
    return found


def _clips(parts: Parts, neck: Neck, cut: CutOut) -> tuple[tuple[Point, Point], ...]:
    """Snips into the allowance of the two inward curves: out of the neck, and the underarm."""
    found: list[tuple[Point, Point]] = []
    runs: list[tuple[str, tuple[Segment, ...]]] = []
    if neck.column:
        runs.append(("shoulder", neck.column[1:]))
    if parts.underarm is not None:
        runs.append(("side", parts.underarm.curve))
    for name, curve in runs:
        edge = _edge(cut, name)
        path = Path(curve).scaled(cut.across, cut.down, cut.shift)
        size = path.length()
        count = max(3, math.ceil(size / sources.CLIP_EVERY) - 1) if name == "side" else 3
        for step in range(1, count + 1):
            point, tangent = path.at_length(size * step / (count + 1))
            found.append((point + tangent.left() * edge.allowance, point))
    return tuple(found)


def _trim(parts: Parts, neck: Neck, cut: CutOut) -> tuple[Point, ...]:
    """Four points of a slanted cut edge on the opened-out piece, from the high side across to the low side."""
    if parts.slant_drop <= 0:
        return ()
    high = cut.corners[0].y
    wide = cut.corners[0].x
    # The ends run square to the sides, which lean outward by the angle at which the top edge comes down to them.
    square = sources.SLANT_SQUARE * cut.across + (wide - neck.top.end.x * cut.across)
    lean = parts.choices.lean
    fall = square * math.tan(lean)
    low = high + parts.slant_drop * cut.down
    narrower = wide - (low - high) * math.tan(lean)
    return (
        Point(-wide, high),
        Point(-(wide - square), high - fall),
        Point(narrower - square, low - fall),
        Point(narrower, low),
    )
