"""The hem of the skirt must let a person walk, or be slit at both sides."""

from drafting.contract.judging import Way, fixed, length_of, millimetres
from drafting.parts.checks.stride import ID, ORDER, judge

__all__ = ["ID", "ORDER", "WAYS", "judge"]

WAYS = (
    fixed("style.slit", "auto", "Slit both sides as high as a step needs."),
    fixed("style.silhouette", "a_line", "Cut it as an A-line."),
    Way(
        "style.hem_girth",
        lambda draft: (millimetres(draft.facts["walking_girth"] + 2),),
        lambda value, words: f"Make the hem {words(length_of(value))} round.",
    ),
)
