"""How the sleeve of `set_in` is chalked: the stages of the work, and what the parts of its outline are called.

The order is that of a hand at the table: the levels, what lies on them, then each edge between its corners (common
practice, no source).
"""

from typing import Final

from drafting.contract.pieces import Part, Stage

SLEEVE_STAGES: Final[tuple[Stage, ...]] = (
    Stage("levels", "Length"),
    Stage("widths", "Widths and grain line"),
    Stage("cap", "Cap"),
    Stage("under", "Under seams"),
)
SLEEVE_PARTS: Final[tuple[Part, ...]] = (
    Part("back_corner", "back_cap_curve", "back of the cap", "cap"),
    Part("cap_top", "front_cap_curve", "front of the cap", "cap"),
    Part("front_corner", "front_under_curve", "front under seam", "under"),
    Part("end_front", "sleeve_end_curve", "sleeve end", "under"),
    Part("end_back", "back_under_curve", "back under seam", "under"),
)
#: What "across" of the sleeve counts from: its grain line runs inside it.
BESIDE: Final = "the line beside the sleeve"
