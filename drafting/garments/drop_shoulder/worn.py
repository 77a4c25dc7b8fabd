"""How `drop_shoulder` is seen on the person from the front."""

from drafting.contract.front_view import Worn
from drafting.garments.drop_shoulder.lay_out import hem_edge
from drafting.garments.drop_shoulder.parts import Parts
from drafting.geometry.segments import flatten
from drafting.parts import top_worn


def worn(parts: Parts) -> Worn:
    """The front as it is worn."""
    sleeve, armhole = parts.sleeve, parts.armhole
    under = tuple(flatten((sleeve.under.reversed(),), top_worn.NEAR))
    arm = top_worn.Hanging(parts.over.extension, sleeve.length, under, armhole.bow, sleeve.cuff)
    return top_worn.worn(parts, arm, armhole.underarm, hem_edge(parts, front=True))
