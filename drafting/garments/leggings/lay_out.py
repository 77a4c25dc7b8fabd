"""From the finished outline of `leggings` to its pieces on the cloth: one leg, cut as a pair, and the waistband."""

from typing import Final

from drafting.contract.cutting import CutOut, FinishedEdge, anchors, cut_out
from drafting.contract.pieces import AnchorKind, Guide, GuideMark, Level, Notch, Part, Piece, Stage
from drafting.contract.seams import EdgeRun, Seam
from drafting.garments.leggings.outline import turned_over
from drafting.garments.leggings.parts import Parts
from drafting.geometry.path import Path
from drafting.geometry.point import Point
from drafting.geometry.segments import Line
from drafting.parts.band import band_piece
from drafting.parts.legs.held import held_seams
from drafting.parts.notches import level_with, notch_at, plumb_with

LEG: Final = "leg"
#: What "across" of the leg counts from: its side line runs inside it.
BESIDE: Final = "the line beside the leg"
#: The order is that of a hand at the table: what is ruled across first, then each edge between its corners (common
#: practice, no source).
STAGES: Final = (Stage("levels", "Levels"), Stage("widths", "Widths and side line"), Stage("waist", "Waist"),
                 Stage("seat", "Seat"), Stage("inner", "Inner leg"))  # fmt: skip
PARTS: Final = (
    Part("waist_front", "waist_curve", "waist curve", "waist"),
    Part("waist_back", "back_seat_curve", "back of the seat", "seat"),
    Part("crotch_back", "back_inner_curve", "back inner leg", "inner"),
    Part("hem_back", "hem_curve", "hem curve", "inner"),
    Part("hem_front", "front_inner_curve", "front inner leg", "inner"),
    Part("crotch_front", "front_seat_curve", "front of the seat", "seat"),
)
#: The second tick of the back stands so far from the first, mm (common practice, no source: 1 to 1.3 cm).
NOTCH_APART: Final = 12.0
#: Where name and grain are written, as shares of the way from the crotch to the hem. Our choice.
NAME_AT: Final = 0.15
GRAIN_AT: Final = 0.22


def pieces(parts: Parts) -> tuple[Piece, ...]:
    """The leg, and the waistband."""
    band = () if parts.held.band is None else (band_piece(parts.held.band, parts.cloth),)
    return (_leg(parts), *band)


def seams(parts: Parts) -> tuple[Seam, ...]:
    """The inner leg of each leg; then the seat, left leg to right leg; then the waistband.

    Front and back of the inner leg slant differently, so they are compared after the wash.
    """
    seat = (EdgeRun(LEG, "back_seat"), EdgeRun(LEG, "front_seat"))
    inner = Seam((EdgeRun(LEG, "front_inner", backwards=True),), (EdgeRun(LEG, "back_inner"),), washed=True)
    return (inner, Seam(seat, seat), *held_seams(parts.held, [EdgeRun(LEG, "waist", 2)]))


def _leg(parts: Parts) -> Piece:
    made, choices = parts.outline, parts.choices
    edges = (
        FinishedEdge("waist", made.waist, parts.held.along_edge, turned=parts.held.band is None),
        FinishedEdge("back_seat", made.back.seat, parts.seams, label="back of the seat"),
        FinishedEdge("back_inner", made.back.inner, parts.seams, label="back inner leg"),
        FinishedEdge("hem", Path((Line(made.back.hem, turned_over(made.front.hem)),)), choices.hem, turned=True),
        FinishedEdge("front_inner", _over(made.front.inner), parts.seams, label="front inner leg"),
        FinishedEdge("front_seat", _over(made.front.seat), parts.seams, label="front of the seat"),
    )
    cut = cut_out(edges, parts.cloth.shrink_across, parts.cloth.shrink_along, closed=True)
    at = made.at
    named = [("waist", 0.0), ("hip", at.hip), ("crotch", at.crotch), *([("knee", at.knee)] if parts.has_knee else [])]
    downs = {name: cut.place(Point(0.0, level)).y for name, level in (*named, ("hem", at.hem))}
    levels = [Level(name, name, downs[name], ruled=True, width=name != "waist") for name, _ in named]
    levels.append(Level("hem", "hem", downs["hem"], width=True, ends=True))
    wanted = _anchors(parts, cut, downs)
    top = next(point for id, *_, point in wanted if id == "waist_side")
    below = downs["hem"] - downs["crotch"]
    return Piece(
        LEG, "Leg", 2, False, cut.edges, cut.line, tuple(levels), anchors(cut.line, wanted), _notches(parts, cut),
        stages=STAGES, parts=PARTS, guides=(_side_line(cut, top),), straight=BESIDE, zero=downs["waist"], fine=True,
        written=(downs["crotch"] + NAME_AT * below, downs["crotch"] + GRAIN_AT * below),
    )  # fmt: skip


def _over(path: Path) -> Path:
    """An edge of the front as it lies on the cloth, from below up."""
    return path.scaled(-1.0, 1.0, Point(0.0, 0.0)).reversed()


def _notches(parts: Parts, cut: CutOut) -> tuple[Notch, ...]:
    """The side at the waist, the middle of the inner leg, and on the seat one tick in front and two behind."""
    made, found = parts.outline, list[Notch]()
    if parts.held.band is not None:
        found.append(notch_at(cut, "waist", "side", "side", Point(0.0, 0.0)))
    back, front = made.back.seat, made.front.seat
    low = back.segments[0].length()
    first, second = (back.at_length(low - away)[0] for away in (0.0, NOTCH_APART))
    found += [
        notch_at(cut, "back_seat", "back_balance_second", "second notch at the back of the seat", second),
        notch_at(cut, "back_seat", "back_balance", "back of the seat", first),
    ]
    inner = made.front.inner
    place = Point(made.front.at(made.at.knee), made.at.knee) if parts.has_knee else inner.at_length(
        inner.length() / 2)[0]  # fmt: skip
    words = "knee" if parts.has_knee else "middle of the inner leg"
    beside = made.back.inner.at_length(inner.nearest(place)[0])[0]
    found += [
        notch_at(cut, "back_inner", "inner_leg", words, beside, where="behind"),
        notch_at(cut, "front_inner", "inner_leg", words, turned_over(place), where="in front"),
        notch_at(cut, "front_seat", "front_balance", "front of the seat", turned_over(front.segments[0].end)),
    ]
    return tuple(found)


def _anchors(parts: Parts, cut: CutOut, downs: dict[str, float]) -> list[tuple[str, str, AnchorKind, str, Point]]:
    made = parts.outline
    waist_back, crotch_back, hem_back, hem_front, crotch_front, waist_front = cut.corners
    side = plumb_with(cut, cut.place(Point(0.0, 0.0)))
    hip_back, hip_front = (
        level_with(cut, downs["hip"], cut.place(Point(sign * wide, made.at.hip)))
        for sign, wide in ((1.0, made.upper.back_hip), (-1.0, made.upper.front_hip))
    )
    found: list[tuple[str, str, AnchorKind, str, Point]] = [
        ("waist_front", "waist at the centre front", "corner", "widths", waist_front),
        ("waist_side", "waist at the side", "guide", "widths", side),
        ("waist_back", "waist at the centre back", "corner", "widths", waist_back),
        ("hip_back", "hip at the centre back", "level", "widths", hip_back),
        ("crotch_back", "crotch point of the back", "corner", "widths", crotch_back),
        ("hem_back", "hem of the back", "corner", "widths", hem_back),
        ("hem_front", "hem of the front", "corner", "widths", hem_front),
        ("crotch_front", "crotch point of the front", "corner", "widths", crotch_front),
        ("hip_front", "hip at the centre front", "level", "widths", hip_front),
    ]
    if parts.has_knee:
        for sign, half, name in ((1.0, made.back, "back"), (-1.0, made.front, "front")):
            place = cut.place(Point(sign * half.at(made.at.knee), made.at.knee))
            mark = level_with(cut, downs["knee"], place)
            found.append((f"knee_{name}", f"knee of the {name}", "level", "widths", mark))
    return found


def _side_line(cut: CutOut, top: Point) -> Guide:
    """The line at the side of the body, from waist to hem: front and back to its sides differ."""
    hem = next(edge for edge in cut.edges if edge.name == "hem")
    inner = Point(cut.place(Point(0.0, 0.0)).x, hem.stitch.start.y)
    outer = Point(inner.x, inner.y + hem.allowance)
    says = (
        "Chalk the side line from {waist_side} straight down to {side_end}; the grain runs along it. The back of the "
        "leg lies beyond it, farther from the line beside the leg: write back on that half, and front on the other."
    )
    mark = GuideMark("side_end", "hem at the side line", "guide", outer, inner)
    return Guide("side_line", "side line", "widths", (top, outer), (mark,), says, ("front", "back"))
