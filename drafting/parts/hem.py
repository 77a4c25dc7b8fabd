"""The hem: the side as long as the fold, square to side and fold, and the girth that was asked or must pass.

Body axes, finished: x across from the fold, y down from the side-neck level, millimetres.
"""

import math
from dataclasses import dataclass

from drafting import sources
from drafting.cloth import ClothFacts
from drafting.contract.chalked_line import ChalkedLine
from drafting.geometry.point import Point
from drafting.geometry.segments import Line, Segment, quadratic
from drafting.geometry.solve import crossing_value
from drafting.parts.side import Side, Skirt, side_seam, skirt_as_chosen
from drafting.parts.widths import BodyChoices, Levels, Widths, kept_open, passing_girth, through_hem
from drafting.person.measures import Body
from drafting.problems import Adjustment

#: How near an asked quarter of the hem is met, mm: far below the 0.5 mm that a draft promises all round.
MET_WITHIN = 0.001
#: In so many steps from hip to waist the place is looked for where the side becomes too steep for a flare.
FLARE_STEPS = 40


@dataclass(frozen=True, slots=True)
class Hem:
    """The hem from the side seam to the fold, and where it begins on the side."""

    corner: Point
    edge: tuple[Segment, ...]

    @property
    def quarter(self) -> float:
        """Length of the hem edge of this half piece, mm."""
        return sum(segment.length() for segment in self.edge)


def hem_on(side: Side, hem: float, slants_from: float) -> Hem:
    """The hem of a side: level at the fold, square to the side, which is as long as the fold from `slants_from` down.

    `hem` is its level at the fold. Near the side it is one parabola, straight and level from there to the fold. Level
    and square at once need different rises, so the run of the parabola is solved: 2·rise/tan α for an angle α of the
    side (CALC), held between HEM_RUN_LEAST and HEM_RUN_SHARE of the half width.
    """
    fold = Point(0.0, hem)
    if abs(side.slope(hem)) < math.tan(sources.HEM_STRAIGHT_UNDER):
        corner = Point(side.x(hem), hem)
        return Hem(corner, (Line(corner, fold),))
    y = hem
    for _ in range(4):  # Newton: the length grows by √(1 + slope²) a millimetre of level
        over = side.length(slants_from, y) - (hem - slants_from)
        y -= over / math.hypot(1.0, side.slope(y))
    tangent, x = side.slope(y), side.x(y)
    run = 2 * (hem - y) / tangent
    kept = min(max(run, sources.HEM_RUN_LEAST), sources.HEM_RUN_SHARE * x)
    if kept != run:
        for _ in range(6):
            y = hem - kept * side.slope(y) / 2
        kept = min(kept, sources.HEM_RUN_SHARE * side.x(y))
    corner = Point(side.x(y), y)
    begins = Point(corner.x - kept, hem)
    bend = quadratic(corner, Point(corner.x - kept / 2, hem), begins)
    return Hem(corner, (bend, Line(begins, fold)))


def slant_start(wide: Widths, at: Levels, skirt: Skirt) -> float:
    """The level from which side and fold are compared: where the side begins to slant."""
    if wide.straight:
        return wide.knot
    return skirt.start if at.reaches_hip else at.waist


@dataclass(frozen=True, slots=True)
class _Maker:
    """Makes side and hem of one body for any skirt."""

    grown: float
    at: Levels
    wide: Widths
    out: float

    def __call__(self, skirt: Skirt) -> tuple[Side, Hem]:
        side = side_seam(self.grown, self.at, self.wide, skirt, self.out)
        return side, hem_on(side, self.at.hem, slant_start(self.wide, self.at, skirt))

    def quarter(self, skirt: Skirt) -> float:
        return self(skirt)[1].quarter


def hem_of_body(
    body: Body,
    choices: BodyChoices,
    cloth: ClothFacts,
    at: Levels,
    wide: Widths,
    bust_out: float,
    chalked: ChalkedLine,
    allowance: float,
    adjusted: list[Adjustment],
    skirt: Skirt | None = None,
) -> tuple[Side, Hem]:
    """Side and hem, of the girth asked along its curve; an unasked one is let out until what goes through it passes.

    `skirt` is how the side runs below the hip, where that is not as `body` says.
    """
    make = _Maker(sources.scale(body.stature), at, wide, bust_out)
    side, made = make(skirt or skirt_as_chosen(choices, at, wide))
    if not at.reaches_hip:
        return side, made
    if choices.hem_girth is not None:
        return _of_girth(choices.hem_girth / 4, make, adjusted)
    needed = passing_girth(body, cloth, through_hem(body, choices)) / 4
    least = kept_open(made.quarter, needed, chalked, cloth, allowance)
    if least > made.quarter + MET_WITHIN:
        # The corner of a slanting hem is read both ways, so half a step each way is held in store.
        least += 0.0 if abs(side.slope(made.corner.y)) < 1e-6 else chalked.tape.size
        adjusted.append(
            Adjustment(
                "hem_girth",
                "hem, all round",
                4 * made.quarter,
                4 * least,
                "the body must pass through it when it is put on",
            )
        )
        return _of_girth(least, make, adjusted)
    return side, made


def _of_girth(quarter: float, make: _Maker, adjusted: list[Adjustment]) -> tuple[Side, Hem]:
    """Side and hem with a hem of this quarter, as nearly as the side can run to it."""
    hip = make.at.hip
    plain = make.quarter(Skirt(hip, 0.0))
    if quarter < plain:
        return _narrower(quarter, make, adjusted)

    def flared(slope: float) -> Skirt:
        return Skirt(hip, slope)

    steepest = math.tan(sources.HEM_FLARE_MOST)
    if make.quarter(flared(steepest)) >= quarter:
        slope = crossing_value(
            lambda slope: make.quarter(flared(slope)) - quarter, 0.0, steepest, MET_WITHIN / 2 / (make.at.hem - hip)
        )
        return make(flared(slope))
    # Steeper than that a knit hangs in a point, so the flare begins higher, at the waist at the highest.
    highest = _highest_flare(make, steepest)
    if make.quarter(Skirt(highest, steepest)) < quarter:
        side, hem = make(Skirt(highest, steepest))
        begins = "at the waist" if highest == make.at.waist else "as high as the hip allows"
        why = f"the flare begins {begins} and cannot slant more; a longer skirt or a part of a circle would give more"
        adjusted.append(Adjustment("hem_girth", "hem, all round", 4 * quarter, 4 * hem.quarter, why))
    else:
        start = crossing_value(
            lambda level: make.quarter(Skirt(level, steepest)) - quarter, hip, highest, MET_WITHIN / 2
        )
        side, hem = make(Skirt(start, steepest))
    if side.x(hip) > make.wide.low + 0.05:
        why = "the flare begins above the hip so that the hem gets its girth"
        adjusted.append(Adjustment("ease_hip", "hip, all round", 4 * make.wide.low, 4 * side.x(hip), why))
    return side, hem


def _highest_flare(make: _Maker, steepest: float) -> float:
    """The highest level at which a flare may begin: the waist, or just below where the side runs out more steeply.

    Begun above such a place it would take the hip in. Found to a fortieth of the way from hip to waist.
    """
    side, _ = make(Skirt(make.at.hip, steepest))
    step = (make.at.hip - make.at.waist) / FLARE_STEPS
    highest = make.at.hip
    for count in range(1, FLARE_STEPS + 1):
        level = make.at.hip - count * step
        if side.slope(level) > steepest:
            return highest
        highest = level
    return make.at.waist


def _narrower(quarter: float, make: _Maker, adjusted: list[Adjustment]) -> tuple[Side, Hem]:
    """A hem smaller than the straight one: the side bends in evenly, by at most HEM_PEG_MOST at the hem."""

    def pegged(slope: float) -> Skirt:
        return Skirt(make.at.hip, slope, pegged=True)

    sharpest = -math.tan(sources.HEM_PEG_MOST)
    if make.quarter(pegged(sharpest)) > quarter:
        side, hem = make(pegged(sharpest))
        why = "the side would bend in too sharply below the hip; a longer skirt narrows more"
        adjusted.append(Adjustment("hem_girth", "hem, all round", 4 * quarter, 4 * hem.quarter, why))
        return side, hem
    slope = crossing_value(
        lambda slope: make.quarter(pegged(slope)) - quarter, sharpest, 0.0, MET_WITHIN / (make.at.hem - make.at.hip)
    )
    return make(pegged(slope))
