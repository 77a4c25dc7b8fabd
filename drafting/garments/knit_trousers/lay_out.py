"""From the finished outline of `knit_trousers` to its pieces on the cloth: front, back, each a pair, and waistband."""

from typing import Final

from drafting.contract.cutting import CutOut, FinishedEdge, anchors, cut_out
from drafting.contract.pieces import AnchorKind, Guide, GuideMark, Level, Notch, Part, Piece, Stage
from drafting.contract.seams import EdgeRun, Seam
from drafting.garments.knit_trousers.outline import Half
from drafting.garments.knit_trousers.parts import Parts
from drafting.geometry.point import Point
from drafting.parts.band import band_piece
from drafting.parts.legs.held import held_seams
from drafting.parts.notches import level_with, notch_at, plumb_with
from drafting.parts.side import Side

FRONT: Final = "front"
BACK: Final = "back"
#: What "across" counts from: the crease runs inside the piece.
BESIDE: Final = "the line beside the piece"
#: The order is that of a hand at the table: what is ruled across first, then each edge between its corners (common
#: practice, no source).
STAGES: Final = (Stage("levels", "Levels"), Stage("widths", "Widths and crease"), Stage("waist", "Waist"),
                 Stage("seat", "Seat"), Stage("legs", "Inner leg and side"))  # fmt: skip
PARTS: Final = (
    Part("waist_side", "waist_curve", "waist curve", "waist"),
    Part("waist_centre", "seat_curve", "seat curve", "seat"),
    Part("crotch_point", "inner_curve", "inner leg", "legs"),
    Part("hem_inner", "hem_curve", "hem curve", "legs"),
    Part("hem_side", "side_curve", "side curve", "legs"),
)
#: The second tick of the back stands so far from the first, mm (common practice, no source: 1 to 1.3 cm).
NOTCH_APART: Final = 12.0
#: Where name and grain are written, as shares of the way from the crotch to the hem. Our choice.
NAME_AT: Final = 0.12
GRAIN_AT: Final = 0.2


def pieces(parts: Parts) -> tuple[Piece, ...]:
    """Front and back, the waistband, and pocket bags."""
    band = () if parts.held.band is None else (band_piece(parts.held.band, parts.cloth),)
    bags = parts.pockets.pieces(parts.cloth)
    return (_half(parts, front=True), _half(parts, front=False), *band, *bags)


def seams(parts: Parts) -> tuple[Seam, ...]:
    """The side and the inner leg of each leg; then the seat, left leg to right leg; then the waistband.

    Front and back slant differently, so sides and inner legs are compared after the wash.
    """
    seat = (EdgeRun(FRONT, "seat"), EdgeRun(BACK, "seat", backwards=True))
    legs = (Seam((EdgeRun(FRONT, edge),), (EdgeRun(BACK, edge),), washed=True) for edge in ("side", "inner"))
    waist = [EdgeRun(FRONT, "waist", 2), EdgeRun(BACK, "waist", 2)]
    return (*legs, *parts.pockets.seams, Seam(seat, seat), *held_seams(parts.held, waist))


def _half(parts: Parts, *, front: bool) -> Piece:
    made, choices = parts.outline, parts.choices
    half = made.front if front else made.back
    edges = (
        FinishedEdge("waist", half.waist, parts.held.along_edge, turned=parts.held.band is None),
        FinishedEdge("seat", half.seat, parts.seams),
        FinishedEdge("inner", half.inner, parts.seams, label="inner leg"),
        FinishedEdge("hem", half.hem, choices.hem, turned=True),
        FinishedEdge("side", half.side.reversed(), parts.seams),
    )
    cut = cut_out(edges, parts.cloth.shrink_across, parts.cloth.shrink_along, closed=True)
    at = made.at
    named = [("waist", 0.0), ("hip", at.hip), ("crotch", at.crotch), *([("knee", at.knee)] if at.has_knee else [])]
    downs = {name: cut.place(Point(0.0, level)).y for name, level in (*named, ("hem", at.hem))}
    levels = [Level(name, name, downs[name], ruled=True, width=name != "waist") for name, _ in named]
    levels.append(Level("hem", "hem", downs["hem"], width=True, ends=True))
    wanted = _anchors(parts, half, cut, downs, front=front)
    top = next(point for id, *_, point in wanted if id == "crease_top")
    below = downs["hem"] - downs["crotch"]
    return Piece(
        FRONT if front else BACK, "Front" if front else "Back", 2, False, cut.edges, cut.line, tuple(levels),
        anchors(cut.line, wanted), _notches(parts, half, cut, front=front), stages=STAGES, parts=PARTS,
        guides=(_crease(cut, top),), straight=BESIDE, worn_behind=not front, zero=downs["waist"], fine=True,
        written=(downs["crotch"] + NAME_AT * below, downs["crotch"] + GRAIN_AT * below),
    )  # fmt: skip


def _notches(parts: Parts, half: Half, cut: CutOut, *, front: bool) -> tuple[Notch, ...]:
    """On the seat one tick in front and two behind; hip, pocket and knee on the side; the knee on the inner leg."""
    made, name = parts.outline, FRONT if front else BACK
    low, first = half.seat.segments[0].length(), made.front
    found = [notch_at(cut, "seat", f"{name}_balance", f"{name} of the seat", half.seat.at_length(low)[0])]
    if not front:
        second = half.seat.at_length(low - NOTCH_APART)[0]
        found.insert(
            0, notch_at(cut, "seat", f"{name}_balance_second", f"second notch at the {name} of the seat", second)
        )
    knee = made.at.knee if made.at.has_knee else (made.at.crotch + made.at.hem) / 2
    words = "knee" if made.at.has_knee else "middle of the inner leg"
    inner, side = first.at(knee)[1], first.at(knee)[0]
    along_inner = first.inner.nearest(Point(inner, knee))[0]
    found.append(notch_at(cut, "inner", "inner_leg", words, half.inner.at_length(along_inner)[0]))
    long = first.side.length()
    hip = Point(Side(first.side.segments).x(made.at.hip), made.at.hip)
    places = [("hip", "hip", hip)]
    if made.at.has_knee:
        places.append(("knee", "knee", Point(side, knee)))
    for id, label, place in places:
        down = half.side.length() - long + first.side.nearest(place)[0]
        found.append(notch_at(cut, "side", id, label, half.side.at_length(down)[0], where="at the side"))
    found += parts.pockets.notches(cut, "side", behind=not front)
    return tuple(found)


def _anchors(
    parts: Parts, half: Half, cut: CutOut, downs: dict[str, float], *, front: bool
) -> list[tuple[str, str, AnchorKind, str, Point]]:
    at, name = parts.outline.at, "front" if front else "back"
    waist_centre, crotch, hem_inner, hem_side, waist_side = cut.corners
    hip = (parts.outline.upper.front_hip if front else parts.outline.upper.back_hip) + _side_at(half, at.hip)
    found: list[tuple[str, str, AnchorKind, str, Point]] = [
        ("waist_side", "waist at the side", "corner", "widths", waist_side),
        ("crease_top", "waist at the crease", "guide", "widths", plumb_with(cut, cut.place(Point(0.0, 0.0)))),
        ("waist_centre", f"waist at the centre {name}", "corner", "widths", waist_centre),
        (
            "hip_seat",
            f"hip at the centre {name}",
            "level",
            "widths",
            level_with(cut, downs["hip"], cut.place(Point(hip, at.hip))),
        ),
        ("crotch_point", "crotch point", "corner", "widths", crotch),
        ("hem_inner", "hem at the inner leg", "corner", "widths", hem_inner),
        ("hem_side", "hem at the side", "corner", "widths", hem_side),
        (
            "crotch_side",
            "crotch level at the side",
            "level",
            "widths",
            level_with(cut, downs["crotch"], cut.place(Point(_side_at(half, at.crotch), at.crotch))),
        ),
        (
            "hip_side",
            "hip at the side",
            "level",
            "widths",
            level_with(cut, downs["hip"], cut.place(Point(_side_at(half, at.hip), at.hip))),
        ),
    ]
    if at.has_knee:
        side, inner = half.at(at.knee)
        for id, where, across in (("knee_inner", "inner leg", inner), ("knee_side", "side", side)):
            mark = level_with(cut, downs["knee"], cut.place(Point(across, at.knee)))
            found.append((id, f"knee at the {where}", "level", "widths", mark))
    return found


def _side_at(half: Half, level: float) -> float:
    """How far the side lies from the crease at a level; negative."""
    return Side(half.side.segments).x(level)


def _crease(cut: CutOut, top: Point) -> Guide:
    """The crease from waist to hem, along the grain."""
    hem = next(edge for edge in cut.edges if edge.name == "hem")
    inner = Point(cut.place(Point(0.0, 0.0)).x, hem.stitch.start.y)
    outer = Point(inner.x, inner.y + hem.allowance)
    says = (
        "Chalk the crease from {crease_top} straight down to {crease_end}; the grain runs along it. The seat lies "
        "beyond it, farther from the line beside the piece."
    )
    mark = GuideMark("crease_end", "hem at the crease", "guide", outer, inner)
    return Guide("crease", "crease", "widths", (top, outer), (mark,), says)
