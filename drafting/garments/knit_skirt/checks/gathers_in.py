"""The waist edge is not so much longer than what holds it that it cannot be drawn in."""

from drafting.contract.judging import fixed
from drafting.parts.checks.gathers_in import ID, ORDER, judge
from drafting.parts.judged import MORE_ACROSS

__all__ = ["ID", "ORDER", "WAYS", "judge"]

WAYS = (
    fixed("style.waistband", "casing", "Sew a waistband with elastic, as long as the waist of the skirt."),
    fixed("style.fit", "regular", "Choose the regular fit."),
    fixed("style.fit", "close", "Choose the close fit."),
    MORE_ACROSS,
)
