"""The inner edge of a flounce at the hem must turn so gently that it can be cut and lies flat."""

from drafting.parts.checks.flounce_turns import AT_HEM, ID, ORDER, judge

__all__ = ["ID", "ORDER", "WAYS", "judge"]

WAYS = AT_HEM
