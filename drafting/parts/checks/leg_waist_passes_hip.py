"""The waist edge of legs, as it will be chalked, must pass over the hip by the stretch round the body."""

from drafting.parts.checks.waist_passes_hip import ID, ORDER, judge
from drafting.parts.judged import MORE_ACROSS

__all__ = ["ID", "ORDER", "WAYS", "judge"]

WAYS = (MORE_ACROSS,)
