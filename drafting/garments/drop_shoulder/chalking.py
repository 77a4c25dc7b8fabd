"""How `drop_shoulder` is chalked: the stages of the work, and what the parts of its outlines are called.

The order is that of a hand at the table: what is ruled across first, then each edge between its corners (common
practice, no source).
"""

from typing import Final

from drafting.contract.pieces import Part, Stage

STAGES: Final[tuple[Stage, ...]] = (
    Stage("levels", "Levels"),
    Stage("widths", "Widths"),
    Stage("neck", "Neck and shoulder"),
    Stage("armhole", "Armhole"),
    Stage("side", "Side"),
    Stage("hem", "Hem"),
)
PARTS: Final[tuple[Part, ...]] = (
    Part("neck_fold", "neck_curve", "neck curve", "neck"),
    Part("neck_corner", "shoulder_line", "shoulder line", "neck"),
    Part("shoulder_end", "armhole_curve", "armhole curve", "armhole"),
    Part("underarm", "side_curve", "side curve", "side"),
    Part("hem_corner", "hem_curve", "hem curve", "hem"),
)
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
