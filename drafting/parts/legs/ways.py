"""Ways out that leggings and trousers have alike: shorter legs, and a casing in place of a band."""

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
    length_of,
    millimetres,
)
from drafting.contract.set_out import SetOut

#: Shorter legs that are tried, as shares of the length. Our choice.
SHORTER: Final = (0.95, 0.9, 0.8, 0.7, 0.6)


def shorter(draft: SetOut) -> list[Value]:
    """Shorter legs, down to the least there may be."""
    least = draft.facts["leg_least"]
    return [millimetres(length) for share in SHORTER if (length := draft.choices.length * share) >= least]


def say_shorter(value: Value, words: Words) -> str:
    """How a shorter leg is offered."""
    return f"Make it {words(length_of(value))} long from the waist at the side to the hem."


def _shorter_words(changes: Changes, words: Words) -> str:
    return say_shorter(str(changes[0][1]), words)


TURNED_IN: Final = fixed("style.waistband", "turned", "Turn a casing in at the waist, which takes no band.")
SHORTER_WAY: Final = Way("style.length", shorter, say_shorter)
WITH_ELASTIC: Final = fixed(
    "style.waistband", "casing", "Sew the waistband with elastic, as long as the waist edge."
)  # fmt: skip
TURNED_CHANGE: Final = fixed_change(
    "Turn a casing in at the waist, which takes no band.", "There is no waistband.", ("style.waistband", "turned")
)
SHORT_CHANGE: Final = Change(each("style.length", shorter), _shorter_words, "The legs are shorter.", rank=2)
