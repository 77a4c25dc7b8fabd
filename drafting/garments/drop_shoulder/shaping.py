"""Which choice of `drop_shoulder` shapes which edge: what is named, and changed, where an outline crosses itself.

Only what was chosen is listed; what is left to the draft is worked out so that it fits.
"""

from typing import Final

from drafting.garments.drop_shoulder.style import Choices
from drafting.parts.top_shaping import top_shapings
from drafting.problems import Shaping

SIDE: Final = frozenset({"side", "hem"})
#: The edges that each allowance lies outside of, and where that is.
ALLOWANCES: Final = {
    "side": (frozenset({"side", "under"}), "along side and under seam"),
    "armhole": (frozenset({"armhole", "cap"}), "at armhole and cap"),
    "shoulder": (frozenset({"shoulder"}), "at the shoulder"),
    "hem": (frozenset({"hem"}), "at the hem"),
    "sleeve_end": (frozenset({"sleeve_end"}), "at the sleeve end"),
    "neck": (frozenset({"neck_edge"}), "at the neck edge"),
}


def shapings(choices: Choices) -> tuple[Shaping, ...]:
    """The choices that were made, by what they shape."""
    figures = (
        ("extension", choices.extension, "past the shoulder point", frozenset({"shoulder", "armhole"})),
        ("sleeve_end_girth", choices.sleeve_end_girth, "at the sleeve end", frozenset({"under", "sleeve_end"})),
    )
    return top_shapings(choices, SIDE, figures, ALLOWANCES)
