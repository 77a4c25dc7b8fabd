"""From the ring of `circle_skirt` to its pieces on the cloth: one panel, cut several times, and the waistband."""

from dataclasses import dataclass
from typing import Final

from drafting.cloth import ClothFacts
from drafting.contract.cutting import CutOut, FinishedEdge, anchors, cut_out
from drafting.contract.pieces import AnchorKind, Notch, Part, Piece, Stage
from drafting.contract.seams import EdgeRun, Seam, plain_seam
from drafting.garments.circle_skirt.panel import Ring
from drafting.geometry.path import Path
from drafting.geometry.point import Point
from drafting.geometry.segments import Line
from drafting.parts.arcs import arc, inner_arc, place
from drafting.parts.band import band_end_seam, band_piece, band_seam
from drafting.parts.notches import notch_at
from drafting.parts.waistband import Waistband
from drafting.person.measures import Body

PANEL: Final = "panel"
STAGES: Final[tuple[Stage, ...]] = (
    Stage("fold", "Length"),
    Stage("corners", "Waist, hem and corners"),
    Stage("arcs", "Between the corners"),
)
#: Where the arcs curve on cloth that shrinks unevenly, so that they cannot be swung.
PARTS: Final[tuple[Part, ...]] = (
    Part("waist_fold", "waist_curve", "waist curve", "arcs"),
    Part("waist_side", "side_curve", "side", "arcs"),
    Part("hem_side", "hem_curve", "hem curve", "arcs"),
)
#: A notch of the side lies at least this far from the hem, mm. Our choice: the hem is its mark.
CLEAR_OF_HEM: Final = 20.0


@dataclass(frozen=True, slots=True)
class Parts:
    """Everything set out, finished: what the pieces are made from."""

    body: Body
    cloth: ClothFacts
    ring: Ring
    waistband: Waistband


def seam_words(panels: int) -> str:
    """What the seams of the skirt are called."""
    return {1: "centre back", 2: "side"}.get(panels, "seam")


def pieces(parts: Parts) -> tuple[Piece, ...]:
    """The panel and the waistband, both read in the finest steps of the tape: slips add up round the waist."""
    return _panel(parts), band_piece(parts.waistband.band, parts.cloth)


def seams(parts: Parts) -> tuple[Seam, ...]:
    """Panel to panel, the waistband to the waist of them all, and the waistband to itself."""
    waist = EdgeRun(PANEL, "waist", 2 * parts.ring.panels)
    return (
        plain_seam((PANEL, "side"), (PANEL, "side")),
        band_seam(parts.waistband.band, [waist]),
        band_end_seam(parts.waistband.band),
    )


def _panel(parts: Parts) -> Piece:
    ring, cloth = parts.ring, parts.cloth
    centre = Point(0.0, 0.0)
    waist = inner_arc(ring.radius, ring.angle, cloth)
    side = Path((Line(waist.end, place(ring.outer, ring.angle)),))
    edges = (
        FinishedEdge("waist", waist, ring.waist, swung_from=centre),
        FinishedEdge("side", side, ring.side, label="centre back" if ring.panels == 1 else "side"),
        FinishedEdge("hem", arc(ring.outer, ring.angle, 0.0), ring.hem, turned=True, swung_from=centre),
    )
    cut = cut_out(edges, cloth.shrink_across, cloth.shrink_along, origin=centre)
    at = seam_words(ring.panels)
    wanted: list[tuple[str, str, AnchorKind, str, Point]] = [
        ("waist_fold", "waist at the fold", "fold", "fold", cut.line[0]),
        ("waist_side", f"waist at the {at}", "corner", "corners", cut.corners[0]),
        ("hem_side", f"hem at the {at}", "corner", "corners", cut.corners[1]),
        ("hem_fold", "hem at the fold", "fold", "fold", cut.line[-1]),
    ]
    top, foot = cut.line[0].y, cut.line[-1].y
    return Piece(
        PANEL, "Skirt" if ring.panels == 1 else "Skirt panel", ring.panels, True, cut.edges, cut.line, (),
        anchors(cut.line, wanted), _notches(parts, cut), stages=STAGES, parts=PARTS, zero=cut.place(centre).y,
        written=(top + 0.45 * (foot - top), top + 0.5 * (foot - top)), fine=True,
    )  # fmt: skip


def _notches(parts: Parts, cut: CutOut) -> tuple[Notch, ...]:
    """The middle of the waist, its quarter where the skirt has one seam, and the hip on every seam."""
    ring, hip = parts.ring, parts.body.waist_to_hip
    wanted = [("waist", "middle", "middle of the panel", place(ring.radius, 0.0))]
    if ring.panels == 1:
        wanted = [
            ("waist", "middle", "centre front", place(ring.radius, 0.0)),
            ("waist", "quarter", "quarter mark", place(ring.radius, ring.angle / 2)),
        ]
    if hip < ring.length - CLEAR_OF_HEM:
        wanted.append(("side", "hip", "hip", place(ring.radius + hip, ring.angle)))
    return tuple(notch_at(cut, *one) for one in wanted)
