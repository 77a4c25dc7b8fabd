"""Ways out of the shared checks that change the style of `leggings`, and what makes them go on their cloth."""

from collections.abc import Mapping
from typing import Final

from drafting.contract.judging import Change, Way
from drafting.parts.legs.ways import SHORT_CHANGE, SHORTER_WAY, TURNED_CHANGE, TURNED_IN, WITH_ELASTIC

WAYS: Final[Mapping[str, tuple[Way, ...]]] = {
    "cloth_long_enough": (TURNED_IN, SHORTER_WAY),
    "ease_within_stretch": (WITH_ELASTIC,),
}
#: Best first: what a person sees least comes first. Our choice.
TO_FIT: Final[tuple[Change, ...]] = (TURNED_CHANGE, SHORT_CHANGE)
TO_SAVE: Final[tuple[Change, ...]] = (TURNED_CHANGE,)
