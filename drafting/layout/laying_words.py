"""How a piece that is laid on the cloth is told: whole sentences, one for each way it may lie."""

from typing import Final, Literal

from drafting.layout.places import Toward

How = Literal["across", "fold", "pair", "whole_both", "whole_one", "upper", "one", "mirrored"]
"""On a fold across the cloth; on the fold; a pair through both layers; whole through both or through one; through the
upper layer only; from one layer as drafted; from one layer as the mirror of the other."""

CUT: Final[dict[How, str]] = {
    "across": "The {piece} is cut on the fold across the cloth.",
    "fold": "The {piece} is cut on the fold.",
    "pair": "The {piece} is cut through both layers, which gives a left and a right one.",
    "whole_both": "The {piece} is cut whole, through both layers.",
    "whole_one": "The {piece} is cut whole, through the one layer.",
    "upper": "The {piece} is cut through the upper layer only.",
    "one": "The {piece} is cut from one layer, as it is drafted.",
    "mirrored": "The {piece} is cut from one layer, turned over, so that it is the mirror of the other.",
}
LIES: Final[dict[How, str]] = {
    "across": "It lies half on its fold across the cloth.",
    "fold": "It lies half on the fold.",
    "pair": "It is a pair, in two layers.",
    "whole_both": "It lies whole, in two layers.",
    "whole_one": "It lies whole, in one layer.",
    "upper": "It lies in the upper layer only.",
    "one": "It lies in one layer.",
    "mirrored": "It lies in one layer, turned over.",
}
TOP: Final[dict[float, str]] = {
    0: "Its top points to the cut end.",
    180: "Its top points away from the cut end.",
    90: "Its top points to the right edge.",
    270: "Its top points to the left edge.",
}
HALF: Final = "Chalk one half first, then its mirror."
BEGINS: Final[dict[tuple[bool, bool], str]] = {
    (True, True): "In {unit}, its {begins} lies {across} from {counted} and {down} from the cut end.",
    (True, False): "In {unit}, its {begins} lies {across} from {counted} and at the cut end.",
    (False, True): "In {unit}, its {begins} lies on {counted} and {down} from the cut end.",
    (False, False): "In {unit}, its {begins} lies on {counted} and at the cut end.",
}
"""Where it begins, by whether there is something to read across and down."""
RUNS: Final[dict[Toward, str]] = {
    "from_cut_end": "Its length runs away from the cut end.",
    "to_cut_end": "Its length runs towards the cut end.",
    "to_left_edge": "Its length runs towards the left edge.",
    "to_right_edge": "Its length runs towards the right edge.",
    "from_fold": "Its length runs away from the fold.",
    "to_fold": "Its length runs towards the fold.",
    "to_left_fold": "Its length runs towards the left fold.",
    "to_right_fold": "Its length runs towards the right fold.",
    "to_selvages": "Its length runs towards the selvages.",
    "both_sides": "Its length runs to both sides of it.",
    "right": "Its length runs to the right.",
    "left": "Its length runs to the left.",
}
