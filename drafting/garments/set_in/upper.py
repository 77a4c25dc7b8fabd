"""Width across, shoulder and both armholes of `set_in`: what is solved before the sleeve.

Body axes, finished: x across from the fold, y down from the side-neck level, millimetres.
"""

import math
from dataclasses import dataclass

from drafting.garments.set_in import rules
from drafting.geometry.path import Path
from drafting.geometry.point import Point, direction
from drafting.geometry.segments import Cubic, Line
from drafting.parts.neck import NeckBase
from drafting.person.measures import Body
from drafting.problems import Adjustment


@dataclass(frozen=True, slots=True)
class Upper:
    """The end of the shoulder, and half the garment across front and back where the armholes run upright, mm.

    `inset` is how far the end of the shoulder lies inside the shoulder point, along the shoulder.
    """

    end: Point
    front: float
    back: float
    inset: float


def upper(body: Body, base: NeckBase, quarter: float, adjusted: list[Adjustment]) -> Upper:
    """Across back, across front and shoulder of a body; `quarter` is that at the bust, mm."""
    grown, half = base.grown, body.shoulder_width / 2
    usual = half - rules.SHOULDER_INSIDE * grown
    turned = rules.SHOULDER_HANDLE_LEAST * grown * math.sin(base.slope)
    wanted = max(body.back_width / 2 + rules.ACROSS_BACK, half - rules.ACROSS_INSIDE_MOST * grown)
    wanted = min(wanted, usual - turned)
    back = min(wanted, quarter - rules.TURNS_WITHIN * body.bust_girth)
    if wanted - back > rules.TOLD_FROM:
        why = "the armhole needs room to turn under the arm"
        adjusted.append(Adjustment("across_back", "across the back", 2 * wanted, 2 * back, why))
    across = min(usual, back + rules.SHOULDER_OVER_ACROSS * grown)
    if usual - across > rules.TOLD_FROM:
        why = "the shoulders are so much broader than the back that they would stand off as wings"
        adjusted.append(Adjustment("shoulder_end", "from shoulder to shoulder", 2 * usual, 2 * across, why))
    return Upper(base.end(across), back - rules.FRONT_NARROWER * grown, back, (half - across) / math.cos(base.slope))


def armhole(over: Upper, underarm: Point, base: NeckBase, side_slope: float, *, front: bool) -> Path:
    """One armhole from the end of the shoulder to the underarm: square to both, and upright in between.

    `side_slope` is dx/dy of the side. Its last millimetre is straight.
    """
    side = 0 if front else 1
    grown, end, across = base.grown, over.end, over.front if front else over.back
    room, deep = underarm.x - across, underarm.y - end.y
    drop = min((1 - rules.UPRIGHT_AT[side]) * deep, max(room * room / rules.TURNS_WITH, room))
    upright = Point(across, underarm.y - drop)
    chord, (first, second) = end.distance(upright), rules.UPPER_HANDLES
    square = min(first * chord, (end.x - across) / math.sin(base.slope))
    above = Cubic(
        end,
        end + direction(base.slope + math.pi / 2) * square,
        upright - Point(0.0, second * chord),
        upright,
    )
    down, out = rules.LOWER_HANDLES[side]
    # The radius at the end of a cubic is 3/2·handle²/(how far its other handle ends beside it) (CALC).
    rounded = math.sqrt(rules.UNDERARM_RADIUS * grown * (1 - down) * drop / 1.5) / room
    out = max(out, min(rounded, rules.OUT_MOST))
    outward = Point(1.0, -side_slope).unit()
    last = underarm - outward * rules.STRAIGHT_END
    below = Cubic(
        upright,
        upright + Point(0.0, down * drop),
        underarm - outward * (out * room),
        last,
    )
    return Path((above, below, Line(last, underarm)))
