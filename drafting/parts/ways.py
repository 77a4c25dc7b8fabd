"""Ways out that several garments of the upper body share: shorter where the cloth is short, and ease worked out."""

from collections.abc import Iterable
from typing import Final

from drafting.contract.judging import Value, Way, Words, fixed, length_of, millimetres
from drafting.contract.set_out import SetOut

#: What is taken off beyond what is needed, mm, one try after the other. Our choice.
TRIES: Final = (2, 15, 40)


def lengths_for_cloth(draft: SetOut, least: float = 0.0) -> list[Value]:
    """Lengths from the side neck that the cloth's length allows: front and back lie one after the other."""
    if draft.cloth_needed is None or draft.cloth.length is None:
        return []
    over = (draft.cloth_needed - draft.cloth.length) / 2
    wanted: Iterable[float] = (draft.choices.length - over - spare for spare in TRIES)
    return [millimetres(length) for length in wanted if length >= least]


def long_from_side_neck(value: Value, words: Words) -> str:
    """How a length is offered."""
    return f"Make it {words(length_of(value))} long from the side-neck point."


SHORTER: Final = Way("style.length", lengths_for_cloth, long_from_side_neck)
EASE_WITHIN_STRETCH: Final = (
    fixed("style.ease_bust", "auto", "Let the ease at the bust be worked out."),
    fixed("style.ease_hip", "auto", "Let the ease at the hip be worked out."),
    fixed("style.ease_waist", "auto", "Let the ease at the waist be worked out."),
    fixed("style.fit", "regular", "Choose the regular fit."),
    fixed("style.fit", "loose", "Choose the loose fit."),
)
