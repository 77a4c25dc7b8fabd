"""How `set_in` is seen on the person from the front."""

from drafting.contract.front_view import Worn
from drafting.garments.set_in.parts import Parts
from drafting.geometry.point import Point
from drafting.parts import top_worn


def worn(parts: Parts) -> Worn:
    """The front as it is worn; the sleeve is seen as wide as both of its halves together are, half of it below."""
    sleeve, front = parts.sleeve, parts.armholes.front
    shift = (sleeve.cap.back - sleeve.cap.front) / 2
    under = tuple(
        Point(place.x + shift, place.y) for place in sleeve.under(front=True).reversed().flatten(top_worn.NEAR)
    )
    bow = front.start.x - min(place.x for place in front.flatten(top_worn.NEAR))
    arm = top_worn.Hanging(-parts.over.inset, sleeve.length, under, bow, sleeve.cuff)
    return top_worn.worn(parts, arm, parts.armholes.underarm, parts.hem.edge)
