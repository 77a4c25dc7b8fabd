"""The waist seam, as it will be chalked, must pass over the hip by the smaller stretch of its cloth."""

from drafting.contract.judging import Way, stretches_above
from drafting.parts.checks.waist_passes_hip import ID, ORDER, judge

__all__ = ["ID", "ORDER", "WAYS", "judge"]


WAYS = (
    Way(
        "cloth.stretch_along",
        lambda draft: stretches_above(draft.cloth.along),
        lambda value, words: f"Take cloth that stretches {value:g} % along too.",
    ),
)
