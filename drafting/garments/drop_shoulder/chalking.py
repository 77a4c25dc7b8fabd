"""How the sleeve of `drop_shoulder` is chalked: the stages of the work, and what the parts of its outline are called.

The order is that of a hand at the table: what is ruled across first, then each edge between its corners (common
practice, no source).
"""

from typing import Final

from drafting.contract.pieces import Part, Stage

SLEEVE_STAGES: Final[tuple[Stage, ...]] = (
    Stage("levels", "Length"),
    Stage("widths", "Widths"),
    Stage("cap", "Cap"),
    Stage("under", "Under seam"),
)
SLEEVE_PARTS: Final[tuple[Part, ...]] = (
    Part("cap_fold", "cap_curve", "cap curve", "cap"),
    Part("cap_corner", "under_curve", "under seam curve", "under"),
    Part("sleeve_end_corner", "sleeve_end_curve", "sleeve end", "under"),
)
