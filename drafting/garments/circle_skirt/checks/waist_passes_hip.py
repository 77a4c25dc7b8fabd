"""The waist seam, as it will be chalked, must pass over the hip by the smaller stretch of its cloth."""

from drafting.contract.judging import Value, Way
from drafting.contract.set_out import SetOut
from drafting.parts.checks.waist_passes_hip import ID, ORDER, judge

__all__ = ["ID", "ORDER", "WAYS", "judge"]


def _stretches(draft: SetOut) -> list[Value]:
    start = int(draft.cloth.along * 100)
    return list(range(start - start % 5 + 5, 105, 5))


WAYS = (
    Way("cloth.stretch_along", _stretches, lambda value, words: f"Take cloth that stretches {value:g} % along too."),
)
