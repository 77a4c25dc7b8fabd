"""From the finished parts of `drop_shoulder` to its pieces on the cloth, with anchors and notches."""

from drafting.contract.cutting import CutOut, FinishedEdge, anchors, cut_out
from drafting.contract.pieces import AnchorKind, Level, Notch, Piece, Slit
from drafting.garments.drop_shoulder import rules
from drafting.garments.drop_shoulder.chalking import PARTS, SLEEVE_PARTS, SLEEVE_STAGES, STAGES
from drafting.garments.drop_shoulder.parts import Parts
from drafting.geometry.path import Path
from drafting.geometry.point import Point
from drafting.geometry.segments import Cubic, Line, Segment
from drafting.parts.band import band_piece, mark_on_ring
from drafting.parts.neck import BACK_POINTS, FRONT_POINTS
from drafting.parts.notches import level_with, notch_at

#: A waist or hip nearer to the hem's corner than this has no notch of its own, mm. Our choice: the hem is its mark.
LEVEL_CLEAR_OF_HEM = 20.0
Wanted = list[tuple[str, str, AnchorKind, str, Point]]


def pieces(parts: Parts) -> tuple[Piece, ...]:
    """Front and back on the fold, two sleeves on the fold, and the bands."""
    made = (_body(parts, front=True), _body(parts, front=False), _sleeve(parts))
    return (*made, *(band_piece(band, parts.cloth) for band in parts.bands.all))


def hem_edge(parts: Parts, *, front: bool) -> tuple[Segment, ...]:
    """The hem from the side to the fold; over a full bust it falls evenly to the fold of the front."""
    if not front or parts.dip <= 0:
        return parts.hem.edge
    corner, fold = parts.hem.corner, parts.hem.edge[-1].end + Point(0.0, parts.dip)
    reach = rules.DIP_HANDLE * corner.x
    along = parts.hem.edge[0].tangent(0.0)
    return (Cubic(corner, corner + along * reach, fold + Point(reach, 0.0), fold),)


def _body(parts: Parts, *, front: bool) -> Piece:
    allow, neck = parts.allowances, parts.neck
    end, underarm = parts.over.end, parts.armhole.underarm
    side = Path.of(parts.side.between(underarm.y, parts.hem.corner.y))
    edges = [
        FinishedEdge(
            "neck_edge",
            neck.front if front else neck.back,
            allow["neck"],
            turned=parts.bands.neck is None,
            points=(FRONT_POINTS if front else BACK_POINTS)[neck.kind],
        ),
        FinishedEdge("shoulder", Path((Line(neck.end, end),)), allow["shoulder"]),
        FinishedEdge("armhole", parts.armhole.curve, allow["armhole"]),
        FinishedEdge("side", side, allow["side"]),
        FinishedEdge(
            "hem", Path(hem_edge(parts, front=front)), allow["hem"], turned=parts.choices.hem_band is None
        ),
    ]  # fmt: skip
    cut = cut_out(edges, parts.cloth.shrink_across, parts.cloth.shrink_along)
    levels = _levels(parts, cut, front=front)
    notches = _notches(parts, cut, front=front)
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


def _levels(parts: Parts, cut: CutOut, *, front: bool) -> tuple[Level, ...]:
    """The levels that are ruled across before anything else, and the hem."""

    def down(level: float) -> float:
        return cut.place(Point(0.0, level)).y

    at, dip = parts.at, parts.dip if front else 0.0
    found = [
        Level("side_neck", "shoulder level", down(0.0), ruled=down(0.0) >= 0, drawn=down(0.0) >= 0),
        Level("underarm", "underarm", down(parts.armhole.underarm.y), ruled=True, width=True),
        Level("waist", "waist", down(at.waist), ruled=True, width=True),
    ]
    if at.reaches_hip:
        found.append(Level("hip", "hip", down(at.hip), ruled=True, width=True))
    return (*found, Level("hem", "hem", down(at.hem + dip), width=True, ends=True))


def _notches(parts: Parts, cut: CutOut, *, front: bool) -> tuple[Notch, ...]:
    """Balance notches on the armhole, waist, hip and slit on the side, the quarter of a neck band in front."""
    from_shoulder = (1 - rules.NOTCH_AT) * parts.armhole.length
    curve = parts.armhole.curve
    label = "front of the sleeve" if front else "back of the sleeve"
    found = [notch_at(cut, "armhole", "balance", label, curve.at_length(from_shoulder)[0])]
    if not front:
        below = curve.at_length(from_shoulder + rules.NOTCH_APART)[0]
        found.append(notch_at(cut, "armhole", "balance_second", "back of the sleeve, second", below))
    at, hem = parts.at, parts.hem.corner.y
    levels = [("waist", "waist", at.waist), ("hip", "hip", at.hip)]
    levels = [one for one in levels if one[2] < hem - LEVEL_CLEAR_OF_HEM]
    if parts.slit > 0:
        levels.append(("slit", "top of the slit", hem - parts.slit))
    found += [notch_at(cut, "side", name, label, Point(parts.side.x(y), y)) for name, label, y in levels]
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
        if notch.seam == "side" and notch.id != "slit":
            place = level_with(cut, notch.inner.y, notch.outer)
            found.append((notch.id, f"{notch.label} at the side", "level", "widths", place))
    return found


def _sleeve(parts: Parts) -> Piece:
    made, allow = parts.sleeve, parts.allowances
    end, fold = made.under.end, Point(0.0, made.length)
    edges = [
        FinishedEdge("cap", Path((made.cap,)), allow["armhole"]),
        FinishedEdge("under", Path((made.under,)), allow["side"], label="under seam"),
        FinishedEdge("sleeve_end", Path((Line(end, fold),)), allow["sleeve_end"], turned=parts.bands.cuff is None),
    ]
    cut = cut_out(edges, parts.cloth.shrink_across, parts.cloth.shrink_along)
    from_top = (1 - rules.NOTCH_AT) * parts.armhole.length
    middle = Path((made.under,)).at_length(made.under.length() / 2)[0]
    notches = (
        notch_at(cut, "cap", "balance", "front of the sleeve", Path((made.cap,)).at_length(from_top)[0]),
        notch_at(cut, "under", "under", "middle of the under seam", middle),
    )
    cap_corner, end_corner = cut.corners[:2]
    wanted: Wanted = [
        ("cap_fold", "top of the cap at the fold", "fold", "levels", cut.line[0]),
        ("cap_corner", "underarm of the sleeve", "corner", "widths", cap_corner),
        ("sleeve_end_corner", "sleeve end at the seam", "corner", "widths", end_corner),
        ("sleeve_end_fold", "sleeve end at the fold", "fold", "levels", cut.line[-1]),
    ]
    levels = (
        Level("cap_top", "top of the cap", cut.place(Point(0.0, 0.0)).y, drawn=False),
        Level("cap_foot", "underarm", cut.place(made.cap.end).y, ruled=True, width=True),
        Level("sleeve_end", "sleeve end", cut.place(fold).y, width=True, ends=True),
    )
    return Piece(
        "sleeve", "Sleeve", 2, True, cut.edges, cut.line, levels, anchors(cut.line, wanted), notches,
        stages=SLEEVE_STAGES, parts=SLEEVE_PARTS,
    )  # fmt: skip
