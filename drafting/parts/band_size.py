"""How long and how high a band is: as wanted, as what must pass needs, and as a tape reads it. Finished millimetres.

A strip this small is drafted at what the tape reads, so that it is chalked as it is drafted. Its length lies across the
cloth, on the fold, with an allowance at its end; its height lies along the cloth, double, with an allowance at each
edge.

What says nothing else is our choice.
"""

from typing import Final

from drafting.cloth import ClothFacts
from drafting.contract.chalked_line import ChalkedLine

#: Where a band is sewn on, and where it is closed, instead of a hem. Common practice, no source.
BAND_ALLOWANCE: Final = 10.0
#: A cuff goes round the wrist with this to spare, by fit. Common practice, from memory.
CUFF_ROOM: Final = {"close": 10.0, "regular": 20.0, "loose": 20.0}
#: Finished height of a cuff × scale, and what may be asked for. Common practice, from memory.
CUFF_HEIGHT: Final = 60.0
CUFF_HEIGHTS: Final = (30.0, 120.0)
#: The end of a sleeve is at most this times its cuff. Our choice.
CUFF_FULLNESS: Final = 1.3
#: Length of a neck band as a share of its seam, of jersey and of rib, and its finished height. Common practice, from
#: memory.
NECK_RATIO: Final = 0.85
NECK_RATIO_RIB: Final = 0.78
NECK_BAND_HEIGHT: Final = 22.0
NECK_BAND_HEIGHTS: Final = (15.0, 40.0)
#: Length of the neck band of a V as a share of its seam; otherwise as above. Common practice, from memory.
NECK_RATIO_V: Final = 0.92
#: Heights of a roll collar, finished. Common practice, from memory.
ROLL_HEIGHT: Final = 200.0
ROLL_HEIGHTS: Final = (120.0, 220.0)
#: A roll collar stands where it is at most this longer than the neck.
ROLL_STANDS: Final = 60.0
#: Where the taper leaves a sleeve wider than its cuff takes up it is gathered, at most this.
CUFF_GATHERED_MOST: Final = 1.5
#: Length of a hem band as a share of the hem, and its height × scale. Common practice, from memory.
HEM_BAND_RATIO: Final = 0.90
HEM_BAND_HEIGHT: Final = 60.0


def band_length(wanted: float, needed: float, most: float, cloth: ClothFacts, chalked: ChalkedLine) -> float:
    """The length of a band near `wanted`, as its half will be chalked: at least `needed`, at most `most`."""
    shrink = cloth.shrink_across
    half = chalked.chalked(max(wanted, needed) / 2, BAND_ALLOWANCE, shrink)
    if 2 * half < needed - 1e-6:
        half = chalked.open_enough(needed / 2, BAND_ALLOWANCE, shrink)
    return min(2 * half, most)


def band_height(height: float, allowance: float, cloth: ClothFacts, chalked: ChalkedLine) -> float:
    """The finished height of a band near `height`, as its cut height will be chalked."""
    return chalked.chalked(2 * height, 2 * allowance, cloth.shrink_along) / 2
