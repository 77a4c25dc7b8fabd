"""The waistband of `circle_skirt`, pinned at the seams and the middles of its panels."""

from drafting.cloth import ClothFacts
from drafting.contract.chalked_line import ChalkedLine
from drafting.garments.circle_skirt.panel import Ring, shares
from drafting.garments.circle_skirt.style import Choices
from drafting.parts.band import BandMark
from drafting.parts.waistband import Waistband, waistband
from drafting.person.measures import Body


def waistband_of(body: Body, choices: Choices, cloth: ClothFacts, ring: Ring, chalked: ChalkedLine) -> Waistband:
    """The waistband for this ring."""
    marks = tuple(
        BandMark(f"seam_{number}", "seam of the panels", share * ring.seam)
        if seam
        else BandMark(f"middle_{number}", "middle of a panel", share * ring.seam)
        for number, (share, seam) in enumerate(shares(ring.panels), start=1)
    )
    return waistband(body, choices, cloth, ring.seam, ring.waist, chalked, marks)
