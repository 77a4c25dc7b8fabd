"""What a ring must let through: a head, a hand, a hip, and what an estimate adds to it. Millimetres."""

from drafting import sources
from drafting.person.measures import Body


def head_spread(body: Body) -> float:
    """What an estimated head counts with beyond its estimate, mm; 0 where it was measured."""
    if not body.estimated("head_girth"):
        return 0.0
    return sources.HEAD_SPREAD_MAN if body.kind == "man" else sources.HEAD_SPREAD


def head_needs(body: Body) -> float:
    """The girth to which a closed neck must open, mm."""
    return body.head_girth + head_spread(body) + sources.HEAD_EASE


def over_bust(body: Body) -> float:
    """The girth to which a waist must open that is put on over bust and shoulders, mm."""
    return max(body.bust_girth, body.upper_chest_girth) + sources.PASSING_EASE * sources.scale(body.stature)


def hand_needs(body: Body) -> float:
    """The girth to which a sleeve must open, mm."""
    spread = sources.HAND_SPREAD_MAN if body.kind == "man" else sources.HAND_SPREAD
    return body.hand_girth + (spread if body.estimated("hand_girth") else 0.0) + sources.HAND_EASE


def hip_needs(body: Body) -> float:
    """The girth to which whatever goes on over the hip must open, mm."""
    return body.hip_girth + sources.HIP_EASE


def foot_needs(body: Body) -> float:
    """The girth to which whatever is put on over the foot must open, mm."""
    return body.heel_girth + sources.HEEL_EASE
