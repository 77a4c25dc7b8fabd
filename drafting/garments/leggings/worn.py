"""How `leggings` are seen on the person from the front: close round trunk and legs."""

from itertools import pairwise

from drafting.contract.front_view import Worn
from drafting.garments.leggings.parts import Parts
from drafting.parts.legs.worn import legs_worn


def worn(parts: Parts) -> Worn:
    """The leggings as they are worn, never narrower than the leg in them."""
    made, body = parts.outline, parts.body
    at = made.at
    knots = ((at.crotch, body.thigh_girth), (at.knee, body.knee_girth), (at.calf, body.calf_girth),
             (at.ankle, body.ankle_girth))  # fmt: skip

    def of_body(level: float) -> float:
        for (high, above), (low, below) in pairwise(knots):
            if level <= low:
                return above + (below - above) * max(0.0, level - high) / (low - high)
        return knots[-1][1]

    def round_leg(level: float) -> float:
        return max(made.front.at(level) + made.back.at(level), of_body(level))

    return legs_worn(body, parts.held, (at.hip, made.upper.hip), at.crotch, at.hem, round_leg)
