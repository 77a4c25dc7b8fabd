"""How `cut_in_one` is chalked: the stages of the work, and what the parts of its outline are called.

The order is that of a hand at the table: first what is ruled from fold to edge, then each edge between its corners
(common practice, no source).
"""

from collections.abc import Iterable
from typing import Final

from drafting.contract.pieces import Part, Stage

STAGES: Final[tuple[Stage, ...]] = (
    Stage("levels", "Levels"),
    Stage("widths", "Widths"),
    Stage("neck", "Neck and overarm"),
    Stage("sleeve", "Sleeve"),
    Stage("underarm", "Underarm"),
    Stage("side", "Side"),
    Stage("hem", "Hem"),
)
#: The last stage of a back with an opening, so that all other marks keep the numbers of the front.
OPENING_STAGE: Final = Stage("opening", "Opening at the neck")
LOWER_SLEEVE_STAGES: Final[tuple[Stage, ...]] = (
    Stage("levels", "Length"),
    Stage("widths", "Widths"),
    Stage("sleeve", "Joint, under seam and sleeve end"),
)
LOWER_SLEEVE_PARTS: Final[tuple[Part, ...]] = (
    Part("joint_fold", "joint_curve", "joint curve", "sleeve"),
    Part("joint_under", "under_seam_curve", "under seam curve", "sleeve"),
    Part("sleeve_end_under", "sleeve_end", "sleeve end", "sleeve", one="middle"),
)


def parts(anchor_ids: Iterable[str], *, joined: bool) -> tuple[Part, ...]:
    """The parts of a front or back, once round; one whose landmark is missing belongs to the part before it.

    `joined` says that the lower sleeve is a piece of its own, so that this one ends in the joint.
    """
    ids = set(anchor_ids)
    end = ("sleeve_joint", "sleeve joint") if joined else ("sleeve_end", "sleeve end")
    bend = "narrowest" in ids
    found = (
        Part("neck_top", "neck_edge", "neck edge", "neck"),
        Part("neck_corner", "column_curve", "neck stand curve", "neck"),
        Part("shoulder_point", "overarm_curve", "overarm curve", "neck"),
        Part("overarm_end", *end, "sleeve", one="middle"),
        Part("underarm_end", "lead_in", "sleeve bend", "sleeve", late=True)
        if bend
        else Part("underarm_end", "underarm_curve", "underarm curve", "underarm"),
        *((Part("narrowest", "underarm_curve", "underarm curve", "underarm"),) if bend else ()),
        Part("waist" if "waist" in ids else "hip", "side_curve", "side curve", "side"),
        Part("hem_corner", "hem_curve", "hem curve", "hem"),
    )
    return tuple(part for part in found if part.begins in ids)
