"""Which choice of `set_in` shapes which edge: what is named, and changed, where an outline crosses itself."""

from typing import Final

from drafting.parts.top_shaping import top_shapings
from drafting.parts.top_style import TopChoices
from drafting.problems import Shaping

UNDER: Final = frozenset({"under_front", "under_back"})
#: The edges that each allowance lies outside of, and where that is.
ALLOWANCES: Final = {
    "side": (UNDER | {"side"}, "along side and under seam"),
    "armhole": (frozenset({"armhole", "cap"}), "at armhole and cap"),
    "shoulder": (frozenset({"shoulder"}), "at the shoulder"),
    "hem": (frozenset({"hem"}), "at the hem"),
    "sleeve_end": (frozenset({"sleeve_end"}), "at the sleeve end"),
    "neck": (frozenset({"neck_edge"}), "at the neck edge"),
}


def shapings(choices: TopChoices) -> tuple[Shaping, ...]:
    """The choices that were made, by what they shape."""
    end = ("sleeve_end_girth", choices.sleeve_end_girth, "at the sleeve end", UNDER | {"sleeve_end"})
    return top_shapings(choices, frozenset({"side", "hem"}), (end,), ALLOWANCES)
