"""The seams of `cut_in_one`: front to back over the arm and down the side, and those of what is cut apart."""

from collections.abc import Sequence

from drafting.contract.pieces import Piece
from drafting.contract.seams import EdgeRun, Seam, plain_seam
from drafting.garments.cut_in_one.lay_out import Parts
from drafting.parts.band import band_end_seam, band_seam
from drafting.parts.flounce import flounce_seams
from drafting.parts.hood import hood_seams
from drafting.parts.top_seams import HEM_RING


def seams(made: Sequence[Piece], parts: Parts) -> tuple[Seam, ...]:
    """Every seam of these pieces; at a joint by how much its two edges differ, where the cloth shrinks unevenly."""
    pieces = {piece.name: piece for piece in made}
    found = [plain_seam(("front", edge), ("back", edge)) for edge in ("shoulder", "side")]
    if not pieces["back"].on_fold:
        found.append(plain_seam(("back", "centre_back"), ("back", "centre_back")))
    if "lower_sleeve" in pieces:
        lower = pieces["lower_sleeve"].edge("joint").stitch.length()
        for name in ("front", "back"):
            more = pieces[name].edge("sleeve_joint").stitch.length() - lower
            found.append(plain_seam((name, "sleeve_joint"), ("lower_sleeve", "joint"), more))
        found.append(plain_seam(("lower_sleeve", "under"), ("lower_sleeve", "under")))
    if parts.neck_band is not None:
        ring = (EdgeRun("front", "neck_top", 2), EdgeRun("back", "neck_top", 2))
        found += [band_seam(parts.neck_band, ring), band_end_seam(parts.neck_band)]
    if parts.cuff is not None:
        ends: tuple[EdgeRun, ...] = (EdgeRun("front", "sleeve_end"), EdgeRun("back", "sleeve_end"))
        if "lower_sleeve" in pieces:
            ends = (EdgeRun("lower_sleeve", "sleeve_end", 2),)
        found += [band_seam(parts.cuff, ends), band_end_seam(parts.cuff)]
    found += hood_seams(parts.hood, (EdgeRun("back", "neck_top"), EdgeRun("front", "neck_top", backwards=True)))
    sleeve_ring = (EdgeRun("front", "sleeve_end", backwards=True), EdgeRun("back", "sleeve_end"))
    if "lower_sleeve" in pieces:
        sleeve_ring = (EdgeRun("lower_sleeve", "sleeve_end"), EdgeRun("lower_sleeve", "sleeve_end", backwards=True))
    found += flounce_seams(parts.sleeve_flounce, sleeve_ring)
    return (*found, *flounce_seams(parts.hem_flounce, HEM_RING), *parts.pockets.seams)
