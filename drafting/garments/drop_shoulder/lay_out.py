"""From the finished parts of `drop_shoulder` to its pieces on the cloth, with anchors and notches."""

from drafting.contract.cutting import FinishedEdge, anchors, cut_out
from drafting.contract.pieces import Level, Piece
from drafting.garments.drop_shoulder import rules
from drafting.garments.drop_shoulder.chalking import SLEEVE_PARTS, SLEEVE_STAGES
from drafting.garments.drop_shoulder.parts import Parts
from drafting.geometry.path import Path
from drafting.geometry.point import Point
from drafting.geometry.segments import Cubic, Line, Segment
from drafting.parts.band import band_piece
from drafting.parts.flounce import flounce_notches, flounce_piece
from drafting.parts.hood import hood_pieces
from drafting.parts.pouch import pouch_piece, with_pouch
from drafting.parts.top_body import NOTCH_AT, Half, Wanted, body_piece, notch_beside


def pieces(parts: Parts) -> tuple[Piece, ...]:
    """Front and back on the fold, two sleeves on the fold, the bands, and the flounces."""
    front = parts.pockets.on_front(with_pouch(_body(parts, front=True), parts.pouch, parts.cloth), parts.cloth)
    made = (front, _body(parts, front=False), _sleeve(parts))
    banded = tuple(band_piece(band, parts.cloth) for band in parts.bands.all)
    hooded = hood_pieces(parts.hood, parts.cloth)
    pouched = () if parts.pouch is None else (pouch_piece(parts.pouch, parts.cloth),)
    flounced = (flounce_piece(flounce, parts.cloth) for flounce in parts.flounces)
    return (*made, *banded, *hooded, *pouched, *parts.pockets.pieces(parts.cloth), *flounced)


def hem_edge(parts: Parts, *, front: bool) -> tuple[Segment, ...]:
    """The hem from the side to the fold; over a full bust it falls evenly to the fold of the front."""
    if not front or parts.dip <= 0:
        return parts.hem.edge
    corner, fold = parts.hem.corner, parts.hem.edge[-1].end + Point(0.0, parts.dip)
    reach = rules.DIP_HANDLE * corner.x
    along = parts.hem.edge[0].tangent(0.0)
    return (Cubic(corner, corner + along * reach, fold + Point(reach, 0.0), fold),)


def _body(parts: Parts, *, front: bool) -> Piece:
    half = Half(
        parts.over.end,
        parts.armhole.curve,
        hem_edge(parts, front=front),
        (1 - NOTCH_AT) * parts.armhole.length,
        dip=parts.dip if front else 0.0,
    )
    return body_piece(parts, half, front=front)


def _sleeve(parts: Parts) -> Piece:
    made, allow = parts.sleeve, parts.allowances
    end, fold = made.under.end, Point(0.0, made.length)
    edges = [
        FinishedEdge("cap", Path((made.cap,)), allow["armhole"]),
        FinishedEdge("under", Path((made.under,)), allow["side"], label="under seam"),
        FinishedEdge("sleeve_end", Path((Line(end, fold),)), allow["sleeve_end"], turned=not parts.choices.sleeve_sewn),
    ]
    cut = cut_out(edges, parts.cloth.shrink_across, parts.cloth.shrink_along)
    from_top = (1 - NOTCH_AT) * parts.armhole.length
    middle = Path((made.under,)).at_length(made.under.length() / 2)[0]
    notches = (
        notch_beside(cut, "cap", "balance", "front of the sleeve", Path((made.cap,)).at_length(from_top)[0]),
        notch_beside(cut, "under", "under", "middle of the under seam", middle),
        *flounce_notches(parts.sleeve_flounce, cut, "sleeve_end", edges[2].path, (0.0, 0.5)),
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
