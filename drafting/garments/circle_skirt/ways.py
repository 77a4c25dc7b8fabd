"""Ways out of the shared checks that change the style of `circle_skirt`, and what makes it go on its cloth."""

from collections.abc import Mapping
from typing import Final

from drafting.contract.judging import (
    Change,
    Changes,
    Value,
    Way,
    Words,
    each,
    fixed,
    fixed_change,
)
from drafting.contract.set_out import SetOut
from drafting.garments.circle_skirt.style import CIRCLES, MOST_PIECES
from drafting.parts.skirt import say_shorter, shorter

_NAMES: Final = {
    "three_quarter": "three quarters of a circle",
    "half": "half a circle",
    "quarter": "a quarter of a circle",
}


def _less(draft: SetOut) -> list[Value]:
    """Smaller shares of a circle, the next smaller one first."""
    smaller = [(share, word) for word, share in CIRCLES.items() if share < draft.choices.circle]
    return [word for _, word in sorted(smaller, reverse=True)]


def _more_panels(draft: SetOut) -> list[Value]:
    """More panels than there are."""
    return [str(panels) for panels in range(int(draft.facts["panels"]) + 1, MOST_PIECES + 1)]


def _say_less(value: Value, words: Words) -> str:
    return f"Cut {_NAMES[str(value)]}."


def _say_panels(value: Value, words: Words) -> str:
    return f"Cut it in {value} panels."


WAYS: Final[Mapping[str, tuple[Way, ...]]] = {
    "cloth_long_enough": (
        Way("style.panels", _more_panels, _say_panels),
        Way("style.length", shorter, say_shorter),
        Way("style.circle", _less, _say_less, rank=2),
    ),
    "ease_within_stretch": (fixed("style.waistband", "casing", "Make the waistband a casing with elastic."),),
}


_FEWEST: Final = fixed_change(
    "Leave the number of panels to the draft.", "There are more seams, or other ones.", ("style.panels", "auto")
)
_PANELS: Final = Change(
    each("style.panels", _more_panels),
    lambda changes, words: _say_panels(_value(changes), words),
    "There are more seams.",
)
_SHORT: Final = Change(
    each("style.length", shorter),
    lambda changes, words: say_shorter(_value(changes), words),
    "The skirt is shorter.",
    rank=2,
)
_LESS: Final = Change(
    each("style.circle", _less),
    lambda changes, words: _say_less(_value(changes), words),
    "The skirt is less wide at the hem.",
    rank=2,
)


def _value(changes: Changes) -> Value:
    value = changes[0][1]
    assert value is not None
    return value


#: Best first: what a person sees least comes first. Our choice.
TO_FIT: Final = (_FEWEST, _PANELS, _SHORT, _LESS)
TO_SAVE: Final = (_PANELS, _LESS)
