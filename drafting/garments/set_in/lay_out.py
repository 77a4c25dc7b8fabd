"""From the finished parts of `set_in` to its pieces on the cloth, with anchors, notches and the grain line."""

from drafting.contract.cutting import CutOut, FinishedEdge, anchors, cut_out
from drafting.contract.pieces import Guide, GuideMark, Level, Piece
from drafting.garments.set_in import rules
from drafting.garments.set_in.chalking import BESIDE, SLEEVE_PARTS, SLEEVE_STAGES
from drafting.garments.set_in.parts import Parts
from drafting.geometry.path import Path
from drafting.geometry.point import Point
from drafting.geometry.segments import Line
from drafting.parts.band import band_piece
from drafting.parts.flounce import flounce_notches, flounce_piece
from drafting.parts.hood import hood_pieces
from drafting.parts.pouch import pouch_piece, with_pouch
from drafting.parts.top_body import NOTCH_AT, Half, Wanted, body_piece, edge_of, notch_beside


def pieces(parts: Parts) -> tuple[Piece, ...]:
    """Front and back on the fold, a pair of sleeves, the bands, and the flounces."""
    front = parts.pockets.on_front(with_pouch(_body(parts, front=True), parts.pouch, parts.cloth), parts.cloth)
    made = (front, _body(parts, front=False), _sleeve(parts))
    banded = tuple(band_piece(band, parts.cloth) for band in parts.bands.all)
    hooded = hood_pieces(parts.hood, parts.cloth)
    pouched = () if parts.pouch is None else (pouch_piece(parts.pouch, parts.cloth),)
    flounced = (flounce_piece(flounce, parts.cloth) for flounce in parts.flounces)
    return (*made, *banded, *hooded, *pouched, *parts.pockets.pieces(parts.cloth), *flounced)


def _from_shoulder(parts: Parts, *, front: bool) -> float:
    """How far the balance notch of an armhole lies from the end of the shoulder, mm."""
    return (1 - NOTCH_AT) * parts.armholes.lengths[0 if front else 1]


def _body(parts: Parts, *, front: bool) -> Piece:
    half = Half(
        parts.over.end,
        parts.armholes.front if front else parts.armholes.back,
        parts.hem.edge,
        _from_shoulder(parts, front=front),
        rules.NOTCH_APART,
        notch_id="front_balance" if front else "back_balance",
        bust=parts.bust,
    )
    return body_piece(parts, half, front=front)


def _sleeve(parts: Parts) -> Piece:
    made, allow, turned = parts.sleeve, parts.allowances, not parts.choices.sleeve_sewn
    front = made.under(front=True)
    back = made.under(front=False).scaled(-1.0, 1.0, Point(0.0, 0.0)).reversed()
    cap = made.cap.path()
    edges = [
        FinishedEdge("cap", cap, allow["armhole"]),
        FinishedEdge("under_front", front, allow["side"], label="front under seam"),
        FinishedEdge("sleeve_end", Path((Line(front.end, back.start),)), allow["sleeve_end"], turned=turned),
        FinishedEdge("under_back", back, allow["side"], label="back under seam"),
    ]
    cut = cut_out(edges, parts.cloth.shrink_across, parts.cloth.shrink_along, closed=True)
    ease, (_, behind) = 1 + rules.CAP_EASE, parts.armholes.lengths
    first = behind - _from_shoulder(parts, front=False)
    middle = front.at_length(front.length() / 2)[0]
    at_front = behind + _from_shoulder(parts, front=True)
    notches = (
        notch_beside(cut, "cap", "back_balance", "back of the sleeve", cap.at_length(ease * first)[0]),
        notch_beside(
            cut, "cap", "back_balance_second", "second notch at the back of the sleeve",
            cap.at_length(ease * (first - rules.NOTCH_APART))[0],
        ),
        notch_beside(cut, "cap", "shoulder", "top of the cap", Point(0.0, 0.0)),
        notch_beside(cut, "cap", "front_balance", "front of the sleeve", cap.at_length(ease * at_front)[0]),
        notch_beside(cut, "under_front", "under", "middle of the under seam", middle, where="in front"),
        notch_beside(
            cut, "under_back", "under", "middle of the under seam", Point(-_back_across(parts, middle), middle.y),
            where="behind",
        ),
        *flounce_notches(parts.sleeve_flounce, cut, "sleeve_end", edges[2].path, (0.0, 1.0)),
    )  # fmt: skip
    front_corner, end_front, end_back, back_corner = cut.corners
    top = next(notch.outer for notch in notches if notch.id == "shoulder")
    wanted: Wanted = [
        ("back_corner", "underarm of the back", "corner", "widths", back_corner),
        ("cap_top", "top of the cap", "corner", "widths", top),
        ("front_corner", "underarm of the front", "corner", "widths", front_corner),
        ("end_front", "sleeve end of the front", "corner", "widths", end_front),
        ("end_back", "sleeve end of the back", "corner", "widths", end_back),
    ]
    levels = (
        Level("cap_top", "top of the cap", cut.place(Point(0.0, 0.0)).y, drawn=False),
        Level("cap_foot", "underarm", cut.place(Point(0.0, made.cap.height)).y, ruled=True, width=True),
        Level("sleeve_end", "sleeve end", cut.place(Point(0.0, made.length)).y, width=True, ends=True),
    )
    return Piece(
        "sleeve", "Sleeve", 2, False, cut.edges, cut.line, levels, anchors(cut.line, wanted), notches,
        stages=SLEEVE_STAGES, parts=SLEEVE_PARTS, guides=(_grain(cut, top),), straight=BESIDE,
        fine=True,
    )  # fmt: skip


def _back_across(parts: Parts, front: Point) -> float:
    """How far from the grain line the back under seam lies at the level of a place on that of the front, mm."""
    return front.x - parts.sleeve.cap.front + parts.sleeve.cap.back


def _grain(cut: CutOut, top: Point) -> Guide:
    """The grain line from the top of the cap to the sleeve's end; the halves to its sides differ."""
    end = edge_of(cut, "sleeve_end")
    inner = Point(top.x, end.stitch.start.y)
    outer = Point(top.x, inner.y + end.allowance)
    says = (
        "Chalk the grain line from {cap_top} straight down to {grain_end}. The front of the sleeve lies beyond it, "
        "farther from the line beside the sleeve: write front on that half, and back on the other."
    )
    mark = GuideMark("grain_end", "sleeve end at the grain line", "guide", outer, inner)
    return Guide("sleeve_grain", "grain line", "widths", (top, outer), (mark,), says, ("back", "front"))
