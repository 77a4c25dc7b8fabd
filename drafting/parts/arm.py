"""How thick an arm is along its length, and what room the end of a sleeve leaves. Finished millimetres.

What says nothing else is our choice.
"""

from itertools import pairwise
from typing import Final

from drafting.person.measures import Body

#: Where along the arm its girths are taken, as shares of its length.
ARM_AT: Final = (0.3, 0.56, 1.0)
#: Room at the sleeve's end × scale: of a short sleeve, and at the wrist.
END_ROOM: Final = ((0.33, 80.0), (1.0, 60.0))


def arm_girth(body: Body, share: float) -> float:
    """The girth of the arm at a share of its length, straight between upper arm, elbow and wrist, mm."""
    upper, elbow, wrist = ARM_AT
    knots = ((upper, body.upper_arm_girth), (elbow, body.elbow_girth), (wrist, body.wrist_girth))
    if share <= upper:
        return body.upper_arm_girth
    for (low, start), (high, end) in pairwise(knots):
        if share <= high:
            return start + (end - start) * (share - low) / (high - low)
    return body.wrist_girth


def end_room(share: float, grown: float) -> float:
    """Room at the end of a sleeve that ends at this share of the arm, mm."""
    (short, wide), (whole, narrow) = END_ROOM
    at = min(max((share - short) / (whole - short), 0.0), 1.0)
    return (wide + (narrow - wide) * at) * grown
