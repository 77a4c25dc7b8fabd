"""Ways out of the shared checks that change the style of `knit_skirt`, and what makes it go on its cloth."""

from collections.abc import Mapping
from typing import Final

from drafting.contract.judging import Change, Changes, Way, Words, each, fixed, fixed_change
from drafting.parts.skirt import say_shorter, shorter


def _shorter_words(changes: Changes, words: Words) -> str:
    return say_shorter(str(changes[0][1]), words)


WAYS: Final[Mapping[str, tuple[Way, ...]]] = {
    "cloth_long_enough": (
        fixed("style.waistband", "turned", "Turn a casing in at the waist, which takes no band."),
        Way("style.length", shorter, say_shorter),
        fixed("style.silhouette", "straight", "Cut it straight.", rank=2),
    ),
    "ease_within_stretch": (
        fixed("style.waistband", "casing", "Sew the waistband with elastic, as long as the waist of the skirt."),
    ),
}

_TURNED: Final = fixed_change(
    "Turn a casing in at the waist, which takes no band.", "There is no waistband.", ("style.waistband", "turned")
)
_STRAIGHT: Final = fixed_change(
    "Cut it straight.", "The skirt is less wide at the hem.",
    ("style.silhouette", "straight"), ("style.hem_girth", "auto"), rank=2,
)  # fmt: skip
_CLOSE: Final = fixed_change("Choose the close fit.", "The skirt is narrower at the hip.", ("style.fit", "close"))
_SHORT: Final = Change(each("style.length", shorter), _shorter_words, "The skirt is shorter.", rank=2)

#: Best first: what a person sees least comes first. Our choice.
TO_FIT: Final = (_CLOSE, _TURNED, _STRAIGHT, _SHORT)
TO_SAVE: Final = (_TURNED, _CLOSE, _STRAIGHT)
