"""From the finished outline of `knit_skirt` to its pieces on the cloth: one half, cut twice, and the waistband."""

from typing import Final

from drafting.contract.cutting import CutOut, FinishedEdge, anchors, cut_out
from drafting.contract.pieces import AnchorKind, Level, Notch, Part, Piece, Slit, Stage
from drafting.contract.seams import EdgeRun, Seam, plain_seam
from drafting.garments.knit_skirt.parts import Parts
from drafting.geometry.path import Path
from drafting.geometry.point import Point
from drafting.parts.band import BandMark, band_end_seam, band_piece, band_seam
from drafting.parts.flounce import flounce_notches, flounce_piece, flounce_seams
from drafting.parts.notches import level_with, notch_at

PANEL: Final = "panel"
#: The order is that of a hand at the table: what is ruled across first, then each edge between its corners (common
#: practice, no source).
STAGES: Final = (Stage("levels", "Levels"), Stage("widths", "Widths"), Stage("waist", "Waist"), Stage("side", "Side"),
                 Stage("hem", "Hem"))  # fmt: skip
PARTS: Final = (
    Part("waist_fold", "waist_curve", "waist curve", "waist"),
    Part("waist_corner", "side_curve", "side curve", "side"),
    Part("hem_corner", "hem_curve", "hem curve", "hem"),
)
#: Where name and grain are written, as shares of the way from the hip to the hem. Our choice: the name above the grain.
NAME_AT: Final = 0.3
GRAIN_AT: Final = 0.35
#: A notch of the side lies at least this far from the hem and from the top of a slit, mm. Our choice: these are marks
#: themselves.
CLEAR: Final = 20.0


def band_marks(seam: float) -> tuple[BandMark, ...]:
    """Where the waistband is pinned beside its seam and its fold: the side seams, at the quarters of the ring."""
    return (BandMark("side_seam", "side seam", seam / 4),)


def pieces(parts: Parts) -> tuple[Piece, ...]:
    """The half skirt, waistband, pocket bags and flounce, read in the finest steps of the tape: slips add up."""
    band = () if parts.band is None else (band_piece(parts.band, parts.cloth),)
    flounced = (flounce_piece(flounce, parts.cloth) for flounce in parts.flounces)
    return (_panel(parts), *band, *parts.pockets.pieces(parts.cloth), *flounced)


def seams(parts: Parts) -> tuple[Seam, ...]:
    """Side to side, the waistband to the waist of front and back and to itself, and a flounce to the hem."""
    found = [plain_seam((PANEL, "side"), (PANEL, "side")), *parts.pockets.seams]
    if parts.band is not None:
        found += [band_seam(parts.band, [EdgeRun(PANEL, "waist", 4)]), band_end_seam(parts.band)]
    half = (EdgeRun(PANEL, "hem", backwards=True), EdgeRun(PANEL, "hem"))
    return (*found, *flounce_seams(parts.hem_flounce, half * 2))


def _panel(parts: Parts) -> Piece:
    made, allow = parts.outline, parts.allowances
    edges = (
        FinishedEdge("waist", made.waist, allow["waist"], turned=parts.band is None),
        FinishedEdge("side", made.side_path, allow["side"]),
        FinishedEdge("hem", Path(made.hem.edge), allow["hem"], turned=parts.hem_flounce is None),
    )
    cut = cut_out(edges, parts.cloth.shrink_across, parts.cloth.shrink_along)
    waist, hip, hem = (cut.place(Point(0.0, level)).y for level in (0.0, made.depth, parts.choices.body_length))
    notches = _notches(parts, cut)
    return Piece(
        PANEL,
        "Panel",
        2,
        True,
        cut.edges,
        cut.line,
        (
            # Under a band nothing is marked on the level of the waist; a casing is folded in on it.
            *((Level("waist", "waist", waist, ruled=True),) if parts.band is None else ()),
            Level("hip", "hip", hip, ruled=True, width=True),
            Level("hem", "hem", hem, width=True, ends=True),
        ),
        anchors(cut.line, _anchors(parts, cut)),
        notches,
        slit=Slit("side", parts.slit * cut.down, "slit") if parts.slit > 0 else None,
        stages=STAGES,
        parts=PARTS,
        zero=waist,
        written=(hip + NAME_AT * (hem - hip), hip + GRAIN_AT * (hem - hip)),
    )


def _notches(parts: Parts, cut: CutOut) -> tuple[Notch, ...]:
    """The middle at the waist, and on the side the hip, one tick, and the top of a slit."""
    made = parts.outline
    found = [notch_at(cut, "waist", "middle", "centre front or back", Point(0.0, 0.0))]
    top = made.hem.corner.y - parts.slit
    if made.depth < top - CLEAR:
        found.append(notch_at(cut, "side", "hip", "hip", Point(made.side.x(made.depth), made.depth)))
    if parts.slit > 0:
        found.append(notch_at(cut, "side", "slit", "top of the slit", Point(made.side.x(top), top)))
    found += parts.pockets.notches(cut, "side")
    at_hem = flounce_notches(parts.hem_flounce, cut, "hem", Path(made.hem.edge), (0.25, 0.0), twin=True)
    return (*found, *at_hem)


def _anchors(parts: Parts, cut: CutOut) -> list[tuple[str, str, AnchorKind, str, Point]]:
    waist_corner, hem_corner = cut.corners
    hip = cut.place(Point(parts.outline.hip, parts.outline.depth))
    return [
        ("waist_fold", "waist at the fold", "fold", "levels", cut.line[0]),
        ("waist_corner", "waist at the side", "corner", "widths", waist_corner),
        ("hip_side", "hip at the side", "level", "widths", level_with(cut, hip.y, hip)),
        ("hem_corner", "hem at the side", "corner", "widths", hem_corner),
        ("hem_fold", "hem at the fold", "fold", "levels", cut.line[-1]),
    ]
