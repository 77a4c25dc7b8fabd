"""The seams of `drop_shoulder`: front to back, sleeve to both armholes, and what its bands are sewn to."""

from drafting.contract.seams import EdgeRun, Seam, plain_seam
from drafting.garments.drop_shoulder.parts import Parts
from drafting.parts.band import band_end_seam, band_seam


def seams(parts: Parts) -> tuple[Seam, ...]:
    """Every seam of the pieces. Cap and armhole are curved differently, so they are compared after the wash."""
    found = [plain_seam(("front", edge), ("back", edge)) for edge in ("shoulder", "side")]
    found += [Seam((EdgeRun(name, "armhole"),), (EdgeRun("sleeve", "cap"),), washed=True) for name in ("front", "back")]
    found.append(plain_seam(("sleeve", "under"), ("sleeve", "under")))
    bands = parts.bands
    rings = (
        (bands.neck, (EdgeRun("front", "neck_edge", 2), EdgeRun("back", "neck_edge", 2))),
        (bands.cuff, (EdgeRun("sleeve", "sleeve_end", 2),)),
        (bands.hem, (EdgeRun("front", "hem", 2), EdgeRun("back", "hem", 2))),
    )
    for band, ring in rings:
        if band is not None:
            found += [band_seam(band, ring), band_end_seam(band)]
    return tuple(found)
