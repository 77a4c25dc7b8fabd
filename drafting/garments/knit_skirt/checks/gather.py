"""The waist edge is drawn in to the elastic, or to a band that holds by itself: evenly, or in gathers that are seen."""

from drafting.garments.knit_skirt.checks.gathers_in import WAYS
from drafting.parts.checks.gather import ID, ORDER, judge

__all__ = ["ID", "ORDER", "WAYS", "judge"]
