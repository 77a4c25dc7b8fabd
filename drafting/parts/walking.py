"""The hem that a step needs, and the slits at the sides where it is narrower. Finished millimetres."""

import itertools
from typing import Protocol

from drafting import sources
from drafting.cloth import ClothFacts
from drafting.parts.hem import Hem
from drafting.parts.side import Side
from drafting.parts.widths import Levels
from drafting.person.measures import Body
from drafting.problems import Adjustment


class SlitChoice(Protocol):
    """What a style says about slits: None leaves them to the draft, mm."""

    @property
    def slit(self) -> float | None:
        """How high a slit was asked for, mm."""


def walking_girth(body: Body, height: float) -> float:
    """Girth of a hem `height` mm above the floor that lets a person walk, mm; 0 above the hips (CALC)."""
    child = body.kind == "child"
    step = sources.STEP_SHARE_CHILD if child else sources.STEP_SHARE
    hip = (sources.HIP_HEIGHT_SHARE_CHILD if child else sources.HIP_HEIGHT_SHARE) * body.stature
    if height >= hip:
        return 0.0
    share = height / body.stature
    knots = sources.LEG_GIRTH
    leg = knots[0][1] if share <= knots[0][0] else knots[-1][1]
    for (a, girth_a), (b, girth_b) in itertools.pairwise(knots):
        if a <= share <= b:
            leg = girth_a + (girth_b - girth_a) * (share - a) / (b - a)
    return 2 * step * body.stature * (hip - height) / hip + leg * body.stature


def slit_height(
    body: Body,
    choices: SlitChoice,
    cloth: ClothFacts,
    at: Levels,
    side: Side,
    hem: Hem,
    facts: dict[str, float],
    adjusted: list[Adjustment],
) -> float:
    """Height of the side slits above the finished hem, mm, and the facts of walking in it."""
    wearing = 1 + cloth.across / 2
    floor = body.waist_height

    def short(y: float) -> float:
        return walking_girth(body, floor - (y - at.waist)) / wearing - 4 * side.x(y)

    need = walking_girth(body, floor - (at.hem - at.waist)) / wearing
    needed = 0.0
    if need > 4 * hem.quarter + 0.5:
        y = hem.corner.y
        while y > at.waist and short(y) > 0:
            y -= 5.0
        needed = hem.corner.y - y + sources.SLIT_ABOVE
    slit = needed
    if choices.slit is not None:
        slit = min(choices.slit, max(0.0, hem.corner.y - at.hip))
        if slit < choices.slit:
            adjusted.append(Adjustment("slit", "slit", choices.slit, slit, "a slit ends at the hip"))
    facts |= {"hem_girth": 4 * hem.quarter, "walking_girth": need, "slit_needed": needed, "slit": slit}
    return slit
