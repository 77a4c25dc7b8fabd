"""How `knit_trousers` are seen on the person from the front: from the hip down they hang."""

from drafting.contract.front_view import Worn
from drafting.garments.knit_trousers.parts import Parts
from drafting.parts.legs.worn import legs_worn


def worn(parts: Parts) -> Worn:
    """The trousers as they are worn."""
    made = parts.outline
    return legs_worn(
        parts.body, parts.held, (made.at.hip, made.upper.hip), made.at.crotch, made.at.hem, made.round_leg
    )  # fmt: skip
