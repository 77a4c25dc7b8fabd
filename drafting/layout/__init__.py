"""Laying the pieces on the cloth: ways to fold it, where each piece lies, how much to buy.

`lay` gives the best layout, `candidates` the best of every way, `search` the same step by step for a screen. `at_table`
says what to do at the cloth, `length_to_buy` and `widths_side_by_side` what to buy, `goes_on` whether a remnant will
do, `lay_together` what several garments save on one length.
"""

from drafting.layout.at_table import (
    AcrossFold,
    AtTable,
    Laying,
    across_folds,
    at_table,
    begun_at,
    in_cutting_order,
)
from drafting.layout.buying import (
    Purchase,
    comparing_widths,
    length_to_buy,
    say_bought,
    say_laid,
    whole_length,
    widths_side_by_side,
)  # fmt: skip
from drafting.layout.choice import (
    NO_DIFFERENCE,
    Progress,
    allowed_ways,
    candidates,
    fits_across,
    going_within,
    lay,
    left_out,
    search,
    shortest,
)  # fmt: skip
from drafting.layout.cost import SOLD_BY, cost, ranked
from drafting.layout.in_hand import Answer, Remnant, WouldDo, goes_on, read_remnant, trying_on
from drafting.layout.offers import ONLY_PLAIN, Offer, heed, offers, say_less
from drafting.layout.places import FoldLine, Layout, Place, Toward
from drafting.layout.placing import CLEARANCE
from drafting.layout.readings import fold_reading
from drafting.layout.shapes import begins_at, laid
from drafting.layout.together import Together, lay_together, laying_together
from drafting.layout.ways import EVERY_WAY, USUAL, WAYS, ClothEdge, Region, way_name, way_of

__all__ = [
    "CLEARANCE",
    "EVERY_WAY",
    "NO_DIFFERENCE",
    "ONLY_PLAIN",
    "SOLD_BY",
    "USUAL",
    "WAYS",
    "AcrossFold",
    "Answer",
    "AtTable",
    "ClothEdge",
    "FoldLine",
    "Laying",
    "Layout",
    "Offer",
    "Place",
    "Progress",
    "Purchase",
    "Region",
    "Remnant",
    "Together",
    "Toward",
    "WouldDo",
    "across_folds",
    "allowed_ways",
    "at_table",
    "begins_at",
    "begun_at",
    "candidates",
    "comparing_widths",
    "cost",
    "fits_across",
    "fold_reading",
    "goes_on",
    "going_within",
    "heed",
    "in_cutting_order",
    "laid",
    "lay",
    "lay_together",
    "laying_together",
    "left_out",
    "length_to_buy",
    "offers",
    "ranked",
    "read_remnant",
    "say_bought",
    "say_laid",
    "say_less",
    "search",
    "shortest",
    "trying_on",
    "way_name",
    "way_of",
    "whole_length",
    "widths_side_by_side",
]
