"""The panels of `circle_skirt`: equal parts of a ring, how many of them, and how wide the waist must be.

A panel lies on the fold; its 0 is the centre that waist and hem are swung from. x runs across from the fold, y down it
from that centre. Finished millimetres; angles in radians from the fold.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from drafting.cloth import SPARE, ClothFacts, passing_factor
from drafting.contract.chalked_line import ChalkedLine
from drafting.garments.circle_skirt.style import FEWEST, MOST_PIECES, Choices
from drafting.geometry.point import Point
from drafting.parts.arcs import panel_long, panel_width, smaller_stretch
from drafting.person.measures import Body
from drafting.person.passing import hip_needs
from drafting.units import Tape

#: The radius is raised in these steps, at most so often, until the waist is wide enough as it is chalked, mm. Our
#: choice: a quarter of a millimetre of radius is a millimetre and a half of a full circle's waist.
RAISED_BY: Final = 0.25
RAISED_AT_MOST: Final = 60
#: What a waist may fall short by, mm: less than a tape shows.
HAIR: Final = 0.05


def waist_needed(body: Body, choices: Choices, cloth: ClothFacts) -> float:
    """The least girth of the waist seam, finished, mm.

    It goes round the waist, passes over the hip by its stretch, and leaves the ring at the level of the hip as wide as
    the hip: a quarter circle grows by little more than one and a half times the depth from waist to hip (CALC).
    """
    passes = hip_needs(body) / passing_factor(smaller_stretch(cloth))
    at_hip = body.hip_girth - 2 * math.pi * choices.circle * body.waist_to_hip
    return max(body.waist_girth, passes, at_hip)


@dataclass(frozen=True, slots=True)
class Ring:
    """The skirt laid out flat: `panels` equal ones, each of the half angle `angle`; finished radii, mm.

    `radius` is that of the waist seam, `length` runs from there to the hem. `waist`, `side` and `hem` are allowances.
    """

    circle: float
    panels: int
    radius: float
    length: float
    waist: float
    side: float
    hem: float

    @property
    def angle(self) -> float:
        """Half the angle of a panel: from its fold to its side."""
        return math.pi * self.circle / self.panels

    @property
    def outer(self) -> float:
        """Radius of the finished hem."""
        return self.radius + self.length

    @property
    def seam(self) -> float:
        """Girth of the waist seam."""
        return self.at(0.0)

    @property
    def sweep(self) -> float:
        """Girth of the hem."""
        return self.at(self.length)

    def at(self, down: float) -> float:
        """Girth of the ring so far below the waist seam."""
        return 2 * math.pi * self.circle * (self.radius + down)

    def width(self, cloth: ClothFacts) -> float:
        """How far a panel reaches across from the fold on the cloth as cut, mm (CALC)."""
        return panel_width(self.outer, self.angle, self.hem, self.side, cloth)

    def long(self, cloth: ClothFacts) -> float:
        """How much of the cloth's length a panel takes as cut, mm (CALC)."""
        return panel_long(self.radius, self.outer, self.angle, (self.waist, self.side, self.hem), cloth)


def fewest_panels(choices: Choices, ring: Ring, cloth: ClothFacts) -> int:
    """The fewest panels that go on this cloth, or MOST_PIECES where none do.

    SPARE is left, because cloth is often narrower than its label says.
    """
    room = cloth.usable_width - SPARE
    for panels in range(FEWEST[choices.circle_word], MOST_PIECES + 1):
        tried = with_panels(ring, panels)
        if cloth.turned:  # each on a fold across the cloth, its length across
            if tried.long(cloth) <= room:
                return panels
        elif 2 * tried.width(cloth) <= room:
            return panels
    return MOST_PIECES


def with_panels(ring: Ring, panels: int) -> Ring:
    """The same skirt in another number of panels."""
    return Ring(ring.circle, panels, ring.radius, ring.length, ring.waist, ring.side, ring.hem)


def solved(body: Body, choices: Choices, cloth: ClothFacts, chalked: ChalkedLine, allowances: dict[str, float]) -> Ring:
    """The ring whose waist seam is wide enough as it will be chalked.

    The tape's steps put a swung radius up to half a step beside where it should be, which a circle's waist feels six
    times: so the radius is raised until the waist that comes of the readings is wide enough.
    """
    need = waist_needed(body, choices, cloth)
    least = need / (2 * math.pi * choices.circle)
    found = Ring(choices.circle, 1, least, choices.length, *(allowances[key] for key in ("waist", "side", "hem")))
    for raised in range(RAISED_AT_MOST):
        radius = least + raised * RAISED_BY
        found = Ring(found.circle, 1, radius, found.length, found.waist, found.side, found.hem)
        found = with_panels(found, choices.panels or fewest_panels(choices, found, cloth))
        if chalked_waist(found, cloth, chalked) >= need - HAIR:
            break
    return found


def chalked_waist(ring: Ring, cloth: ClothFacts, chalked: ChalkedLine) -> float:
    """The waist seam as it comes of the readings, finished, mm; of two chalked lines the smaller.

    A panel is read in the finest steps of the tape. Its waist is swung at one reading and ends at a corner with two;
    every panel is cut like the first, so what is off in half of it is off twice as often as there are panels. On cloth
    that shrinks unevenly nothing is swung, and the least that it can become counts.
    """
    tape = chalked.tape.finest
    across, down = 1 / (1 - cloth.shrink_across), 1 / (1 - cloth.shrink_along)
    if abs(across - down) > 1e-9:
        return ring.seam - 2 * ring.panels * tape.size * math.sqrt(0.5) * (
            1 - min(cloth.shrink_across, cloth.shrink_along)
        )
    lines = {"cut": (True,), "stitch": (False,), "both": (True, False)}[chalked.line]
    return min(ring.seam + 2 * ring.panels * _half_off(ring, tape, across, cut=cut) / across for cut in lines)


def _half_off(ring: Ring, tape: Tape, grown: float, *, cut: bool) -> float:
    """By how much the waist of half a panel is longer as it is chalked, on the cloth, mm."""
    radius = ring.radius * grown - (ring.waist if cut else 0.0)
    angle = ring.angle + (math.asin(min(1.0, ring.side / radius)) if cut else 0.0)
    corner = Point(radius * math.sin(angle), radius * math.cos(angle))
    held = max(0.0, -_highest(ring, grown))  # where the tape is held below the piece's 0
    read = tape.reading(held).mm
    across, below = tape.reading(corner.x).mm, tape.reading(corner.y + held).mm - read
    return tape.reading(radius).mm * math.atan2(across, below) - radius * angle


def _highest(ring: Ring, grown: float) -> float:
    """The highest place of a panel's cut line, mm below the centre: above it where the panel is half a circle."""
    inner, outer = ring.radius * grown - ring.waist, ring.outer * grown + ring.hem
    found = []
    for radius in (inner, outer):
        angle = ring.angle + math.asin(min(1.0, ring.side / radius))
        found.append(radius * math.cos(angle))
    return min(found)


def shares(panels: int) -> Sequence[tuple[float, bool]]:
    """Where seams and middles of panels meet the ring, as shares of it from the centre back, up to the centre front.

    True stands for a seam. In front is the middle of a panel; behind it is one too where their number is even.
    """
    return [(k / (2 * panels), (panels - k) % 2 == 1) for k in range(1, panels)]
