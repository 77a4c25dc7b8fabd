"""The finished outline of `knit_skirt`: half of the front, which is half of the back too.

Finished millimetres; x across from the fold, y down from the waist edge at the fold. Under a band the waist edge rises
to the side, and meets it square. Where a casing is turned in, the waist edge is level and the side upright as far as
the casing reaches, so that it lies flat when it is folded in (CALC).
"""

import math
from dataclasses import dataclass
from typing import Final

from drafting import sources
from drafting.cloth import ClothFacts, passing_factor
from drafting.contract.chalked_line import ChalkedLine
from drafting.garments.knit_skirt.style import Choices
from drafting.geometry.path import Path
from drafting.geometry.point import Point
from drafting.geometry.segments import Line, Segment, hermite, quadratic
from drafting.geometry.solve import crossing_value
from drafting.parts.hem import Hem, hem_on
from drafting.parts.side import Side, Skirt, skirt_below
from drafting.person.measures import Body
from drafting.person.passing import hip_needs
from drafting.problems import Adjustment

#: How near an asked quarter of the hem is met, mm: far below the 0.5 mm that a draft promises all round.
MET_WITHIN: Final = 0.001
#: So often the width of the waist is corrected by what its edge is too long; each time it comes a hundred times nearer.
CORRECTED: Final = 6
#: In these steps the quarter of the waist is widened until it passes as it is chalked, mm. Our choice.
WIDENED_BY: Final = 0.25
#: A side that comes in by less than this has a level waist, mm: our choice, a chalk line is wider.
LEVEL_UNDER: Final = 1.0
#: The side runs upright for a casing over at most this share of the way to the hip. Our choice, for a high casing of a
#: child.
UPRIGHT_MOST: Final = 0.6
#: A curve keeps its direction while its slope at an end is at most so many times that of its chord (Fritsch and Carlson
#: 1980).
STEEPER_MOST: Final = 3.0


@dataclass(frozen=True, slots=True)
class Outline:
    """Waist, side and hem of one half, and the quarter of the hip; `depth` is the level of the hip."""

    waist: Path
    side: Side
    hem: Hem
    hip: float
    depth: float

    @property
    def seam(self) -> float:
        """Girth of the waist edge, all round."""
        return 4 * self.waist.length()

    @property
    def rises(self) -> float:
        """How far the waist edge lies higher at the side than at the fold."""
        return -self.waist.end.y

    @property
    def side_path(self) -> Path:
        """The side seam from the waist to the hem."""
        return Path.of(self.side.between(self.waist.end.y, self.hem.corner.y))

    @property
    def waist_slope(self) -> float:
        """Slope of the side at the waist, dx/dy."""
        return self.side.slope(self.waist.end.y)


def outline_of(
    body: Body, choices: Choices, cloth: ClothFacts, chalked: ChalkedLine, casing: float, adjusted: list[Adjustment]
) -> Outline:
    """The outline, solved in its order: hip, waist edge, side, hem; `casing` is the height of one turned in, or 0."""
    depth = body.waist_to_hip
    upright = min(casing, UPRIGHT_MOST * depth)
    hip, quarter = quarters(body, choices, cloth, chalked, upright, adjusted)
    level = Path((Line(Point(0.0, 0.0), Point(quarter, 0.0)),))
    waist = level if upright > 0 else waist_edge(quarter, hip, depth)
    make = _Maker(sources.scale(body.stature), waist, hip, depth, choices.body_length, upright)
    side, hem = _as_asked(choices, make, adjusted)
    return Outline(waist, side, hem, hip, depth)


def quarters(
    body: Body, choices: Choices, cloth: ClothFacts, chalked: ChalkedLine, upright: float, adjusted: list[Adjustment]
) -> tuple[float, float]:
    """Finished quarters of the hip and of the waist edge; the side is `upright` so far below the waist.

    The edge is the largest of the waist with its ease, of what passes over the hip, and of what one seam leaves of the
    hip. It is never wider than the hip: where it would be, the hip is let out to it, and that is told.
    """
    hip = body.hip_girth * (1 + sources.SKIRT_EASE[choices.fit]) / 4
    depth = body.waist_to_hip
    comes_out = depth - upright
    round_waist = (body.waist_girth + sources.SKIRT_WAIST_EASE * sources.scale(body.stature)) / 4
    shaped = sources.SHAPED_TO_HIP["regular"] * min(comes_out / sources.SHAPED_TO_HIP_DEPTH, sources.SKIRT_SHAPED_MOST)
    quarter = max(round_waist, hip - shaped)
    needed = hip_needs(body) / passing_factor(cloth.across) / 4
    passes = max(quarter, needed)

    def as_chalked(wide: float) -> float:
        slope = 0.0 if upright > 0 else slope_at_waist(wide, max(hip, wide), depth)
        return chalked_quarter(wide, slope, choices, cloth, chalked)

    while as_chalked(passes) < needed - 1e-6:
        passes += WIDENED_BY
    if max(quarter, passes) > hip + 1e-6:
        why = (
            "the waist is wider than the hip, and the sides fall straight from it"
            if round_waist >= passes - 1e-6
            else "the waist goes on over the hip, and the cloth gives little"
        )
        adjusted.append(Adjustment("fit", "hip, all round", 4 * hip, 4 * passes, why))
    return max(hip, passes), passes


def chalked_quarter(quarter: float, slope: float, choices: Choices, cloth: ClothFacts, chalked: ChalkedLine) -> float:
    """A quarter of the waist edge as it will be chalked; at a slanting side, read both ways, the least it becomes."""
    if abs(slope) < 1e-6:
        return chalked.chalked(quarter, choices.side, cloth.shrink_across)
    return quarter - chalked.tape.size / 2 * (1 + abs(slope)) * (1 - cloth.shrink_across)


def slope_at_waist(quarter: float, hip: float, depth: float) -> float:
    """The slope at which the side leaves the waist, dx/dy; 0 where it does not come in."""
    comes_in = hip - quarter
    if comes_in < LEVEL_UNDER:
        return 0.0
    return sources.SKIRT_LEAVES_WAIST * comes_in / (depth + sources.SKIRT_WAIST_RISES * comes_in)


def waist_edge(quarter: float, hip: float, depth: float) -> Path:
    """The waist edge of one half, from the fold to the side, so long as `quarter`.

    Level at the fold, and square to the side: near the side it is one parabola that rises over a run of 2·rise/slope
    (CALC), and straight and level from there to the fold.
    """
    fold = Point(0.0, 0.0)
    if slope_at_waist(quarter, hip, depth) == 0.0:
        return Path((Line(fold, Point(quarter, 0.0)),))
    across = quarter
    for _ in range(CORRECTED):
        slope = slope_at_waist(across, hip, depth)
        run = min(2 * sources.SKIRT_WAIST_RISES * (hip - across) / slope, sources.HEM_RUN_SHARE * across)
        begins, corner = Point(across - run, 0.0), Point(across, -run * slope / 2)
        made = Path((Line(fold, begins), quadratic(begins, Point(across - run / 2, 0.0), corner)))
        across -= made.length() - quarter
    return made


@dataclass(frozen=True, slots=True)
class _Maker:
    """Makes side and hem for any way in which the side runs below the hip; `grown` is the body's scale."""

    grown: float
    waist: Path
    hip: float
    depth: float
    length: float
    upright: float

    def __call__(self, skirt: Skirt) -> tuple[Side, Hem]:
        top, hip = self.waist.end, Point(self.hip, self.depth)
        begins = top + Point(0.0, self.upright)
        chord = (hip.x - begins.x) / (hip.y - begins.y)
        arrives = 0.0 if skirt.pegged else min(skirt.slope, STEEPER_MOST * chord)
        upper: list[Segment] = [Line(top, begins)] if self.upright > 0 else []
        upper.append(Line(begins, hip) if chord < 1e-9 else hermite(begins, _square_to(self.waist), hip, arrives))
        side = Side((*upper, *skirt_below(self.grown, hip, arrives, self.length, skirt)))
        return side, hem_on(side, self.length, self.depth)

    def quarter(self, skirt: Skirt) -> float:
        """A quarter of the hem, along its edge."""
        return self(skirt)[1].quarter

    def flared(self, slope: float) -> Skirt:
        """A skirt that runs out straight from the hip, at a slope dx/dy."""
        return Skirt(self.depth, slope)

    def pegged(self, slope: float) -> Skirt:
        """A skirt that bends in evenly, with this slope at the hem."""
        return Skirt(self.depth, slope, pegged=True)


def _square_to(waist: Path) -> float:
    """The slope of the side, dx/dy, that meets the end of the waist edge square."""
    along = waist.segments[-1].tangent(1.0)
    return -along.y / along.x


def _as_asked(choices: Choices, make: _Maker, adjusted: list[Adjustment]) -> tuple[Side, Hem]:
    """Side and hem as they were chosen; a hem of a girth of its own takes the place of the cut below the hip."""
    if choices.hem_girth is None:
        skirt = {
            "straight": make.flared(0.0),
            "a_line": make.flared(sources.SKIRT_FLARE),
            "pegged": make.pegged(2 * sources.SKIRT_PEG),
        }[choices.silhouette]
        return make(skirt)
    quarter = choices.hem_girth / 4
    widens = quarter >= make.quarter(make.flared(0.0))
    most = sources.SKIRT_FLARE_MOST if widens else -math.tan(sources.HEM_PEG_MOST)
    runs = make.flared if widens else make.pegged
    if (make.quarter(runs(most)) < quarter) == widens:
        side, hem = make(runs(most))
        why = (
            "all the width falls at the sides, where more would hang in a point; a part of a circle gives more"
            if widens
            else "the side would bend in too sharply below the hip; a longer skirt narrows more"
        )
        adjusted.append(Adjustment("hem_girth", "hem, all round", choices.hem_girth, 4 * hem.quarter, why))
        return side, hem
    near = MET_WITHIN / max(make.length - make.depth, 1.0)
    slope = crossing_value(lambda slope: make.quarter(runs(slope)) - quarter, 0.0, most, near)
    return make(runs(slope))
