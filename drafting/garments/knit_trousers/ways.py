"""Ways out of the shared checks that change the style of `knit_trousers`, and what makes them go on their cloth."""

from collections.abc import Mapping
from typing import Final

from drafting.contract.judging import Change, Way, fixed, fixed_change
from drafting.parts.legs.ways import SHORT_CHANGE, SHORTER_WAY, TURNED_CHANGE, TURNED_IN, WITH_ELASTIC

WAYS: Final[Mapping[str, tuple[Way, ...]]] = {
    "cloth_long_enough": (
        TURNED_IN,
        SHORTER_WAY,
        fixed("style.silhouette", "straight", "Cut them straight.", rank=2),
    ),
    "ease_within_stretch": (WITH_ELASTIC,),
    "gathers_in": (fixed("style.silhouette", "straight", "Cut them straight, which is narrower at the hip."),),
    "gather": (fixed("style.silhouette", "straight", "Cut them straight, which is narrower at the hip."),),
}
_STRAIGHT: Final = fixed_change(
    "Cut them straight.",
    "The legs are narrower.",
    ("style.silhouette", "straight"),
    ("style.hem_girth", "auto"),
    rank=2,
)
#: Best first: what a person sees least comes first. Our choice.
TO_FIT: Final[tuple[Change, ...]] = (TURNED_CHANGE, _STRAIGHT, SHORT_CHANGE)
TO_SAVE: Final[tuple[Change, ...]] = (TURNED_CHANGE, _STRAIGHT)
