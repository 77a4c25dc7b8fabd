"""How `poncho` is seen on the person from the front: the seam lies along shoulder and arm, the hem hangs below."""

import math
from typing import Final

from drafting.contract.front_view import Worn
from drafting.garments.poncho.outline import Parts
from drafting.geometry.point import Point, direction
from drafting.geometry.segments import Cubic, flatten

#: How near the straight joins keep to the curves, mm: a tenth of a pixel on a small screen (our choice).
NEAR: Final = 0.3
#: How far the arms hang below level, radians. Our choice: the poncho is seen best so.
ARM: Final = math.radians(48)
#: The handles of the hem as shares of its way straight across, at the arm and in the middle. Our choice: it hangs in a
#: flat bow.
HANDLES: Final = (0.3, 0.45)


def worn(parts: Parts) -> Worn:
    """The front as it is worn."""
    half = parts.body.shoulder_width / 2
    point = Point(half, (half - parts.base.side_neck) * math.tan(parts.choices.slope))
    along = direction(ARM)
    end = point + along * max(parts.shoulder_point.distance(parts.end), 1.0)
    foot = Point(0.0, max(parts.choices.length, end.y + 1.0))
    reach = end.distance(foot)
    hem = Cubic(end, end - along.left() * (HANDLES[0] * reach), foot + Point(HANDLES[1] * reach, 0.0), foot)
    right = [*parts.neck.front.flatten(NEAR), point, *flatten((hem,), NEAR)]
    left = [Point(-place.x, place.y) for place in reversed(right)]
    return Worn((*right, *left[1:-1]), (), point, ARM)
