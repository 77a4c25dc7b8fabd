"""The seams of `drop_shoulder`: front to back, sleeve to armholes, what its bands, flounces and hood are sewn to."""

from drafting.contract.seams import EdgeRun, Seam, plain_seam
from drafting.garments.drop_shoulder.parts import Parts
from drafting.parts.top_seams import band_seams, part_seams


def seams(parts: Parts) -> tuple[Seam, ...]:
    """Every seam of the pieces. Cap and armhole are curved differently, so they are compared after the wash."""
    found = [plain_seam(("front", edge), ("back", edge)) for edge in ("shoulder", "side")]
    found += [Seam((EdgeRun(name, "armhole"),), (EdgeRun("sleeve", "cap"),), washed=True) for name in ("front", "back")]
    found.append(plain_seam(("sleeve", "under"), ("sleeve", "under")))
    ring = (EdgeRun("sleeve", "sleeve_end"), EdgeRun("sleeve", "sleeve_end", backwards=True))
    return (*found, *band_seams(parts.bands, (EdgeRun("sleeve", "sleeve_end", 2),)), *part_seams(parts, ring))
