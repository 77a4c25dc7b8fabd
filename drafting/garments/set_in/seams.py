"""The seams of `set_in`: front to back, cap to both armholes, and what its bands, flounces and hood are sewn to."""

from drafting.contract.seams import EdgeRun, Seam, plain_seam
from drafting.garments.set_in.parts import Parts
from drafting.garments.set_in.rules import CAP_EASE
from drafting.parts.top_seams import band_seams, part_seams


def seams(parts: Parts) -> tuple[Seam, ...]:
    """Every seam of the pieces. Cap and armhole are curved differently, so they are compared after the wash.

    The cap runs from the underarm of the back up to the shoulder and down to that of the front.
    """
    armholes = (EdgeRun("back", "armhole", backwards=True), EdgeRun("front", "armhole"))
    under = Seam((EdgeRun("sleeve", "under_front"),), (EdgeRun("sleeve", "under_back", backwards=True),))
    return (
        *(plain_seam(("front", edge), ("back", edge)) for edge in ("shoulder", "side")),
        Seam((EdgeRun("sleeve", "cap"),), armholes, CAP_EASE * parts.armholes.whole, washed=True),
        under,
        *band_seams(parts.bands, (EdgeRun("sleeve", "sleeve_end"),)),
        *part_seams(parts, (EdgeRun("sleeve", "sleeve_end"),)),
    )
