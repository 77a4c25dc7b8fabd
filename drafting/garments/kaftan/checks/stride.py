"""The hem must let a person walk, or be slit at both sides."""

from drafting.contract.judging import fixed
from drafting.parts.checks.stride import ID, ORDER, judge

__all__ = ["ID", "ORDER", "WAYS", "judge"]

WAYS = (
    fixed("style.slit", "auto", "Slit both sides as high as a step needs."),
    fixed("style.ease_bust", "auto", "Let the ease at the bust be worked out, which makes the hem wider."),
    fixed("style.length", "knee", "Let it end at the knee.", rank=2),
)
