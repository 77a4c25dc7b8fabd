"""What the bands, the flounces and the hood of a top are sewn to."""

from typing import Final

from drafting.contract.seams import EdgeRun, Seam
from drafting.parts.band import band_end_seam, band_seam
from drafting.parts.flounce import flounce_seams
from drafting.parts.hood import hood_seams
from drafting.parts.top import TopParts
from drafting.parts.top_bands import Bands


def band_seams(bands: Bands, sleeve_end: tuple[EdgeRun, ...]) -> tuple[Seam, ...]:
    """Each band to its ring, and to itself; `sleeve_end` is the ring of the cuff."""
    rings = (
        (bands.neck, (EdgeRun("front", "neck_edge", 2), EdgeRun("back", "neck_edge", 2))),
        (bands.cuff, sleeve_end),
        (bands.hem, (EdgeRun("front", "hem", 2), EdgeRun("back", "hem", 2))),
    )
    found: list[Seam] = []
    for band, ring in rings:
        if band is not None:
            found += [band_seam(band, ring), band_end_seam(band)]
    return tuple(found)


#: The ring of a hem, from the centre back over a side to the centre front and on.
HEM_RING: Final = (
    EdgeRun("back", "hem", backwards=True), EdgeRun("front", "hem"),
    EdgeRun("front", "hem", backwards=True), EdgeRun("back", "hem"),
)  # fmt: skip


def part_seams(parts: TopParts, sleeve_end: tuple[EdgeRun, ...]) -> tuple[Seam, ...]:
    """A hood to the neck, each flounce to its ring, and the bags of pockets to each other.

    `sleeve_end` is the ring of a sleeve from its under seam on.
    """
    return (
        *hood_seams(parts.hood, (EdgeRun("back", "neck_edge"), EdgeRun("front", "neck_edge", backwards=True))),
        *flounce_seams(parts.sleeve_flounce, sleeve_end),
        *flounce_seams(parts.hem_flounce, HEM_RING),
        *parts.pockets.seams,
    )
