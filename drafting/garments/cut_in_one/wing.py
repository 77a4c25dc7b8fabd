"""Sleeve and underarm on one side seam: the ring, the narrowest place, the flare, the curve, the gap to the body."""

import itertools
import math
from dataclasses import dataclass, replace

from drafting import sources
from drafting.cloth import ClothFacts
from drafting.garments.cut_in_one import sleeve as sleeves
from drafting.garments.cut_in_one.style import Choices
from drafting.geometry.point import Point
from drafting.geometry.polyline import distance_to_polyline
from drafting.geometry.segments import flatten
from drafting.geometry.solve import crossing_value, least_enough
from drafting.parts.hem import Hem
from drafting.parts.side import Side, side_seam, skirt_as_chosen
from drafting.parts.widths import Levels, Widths
from drafting.person.measures import Body
from drafting.problems import Adjustment

#: How nearly the cloth at bust level is what was asked, a quarter, mm: all round below the 0.5 mm that is promised.
BUST_MET_WITHIN = 0.1
#: A bust that even so is less than asked is told from so much on, a quarter, mm: half a millimetre all round.
BUST_TOLD_FROM = 0.12
#: The seam is let out by so much first, and never by more, mm. Our choice: a bust is not met by a bulge of 12 cm.
BUST_OUT_FIRST = 8.0
BUST_OUT_MOST = 120.0
#: How near the edge of a cap comes to going just round the arm, mm: far below what a tape shows.
CAP_MET_WITHIN = 0.001
#: An underarm is told as moved from so much on, mm: less is not seen on any tape.
UNDERARM_TOLD_FROM = 0.1
CLEAR_OF_ARMPIT_AND_WAIST = "it must lie below the armpit and clear of the waist"


@dataclass(frozen=True, slots=True)
class Wing:
    """Sleeve and rounded underarm on one side seam."""

    corner: Point
    ring: float
    sleeve: sleeves.Sleeve
    underarm: sleeves.Underarm | None


def wing_with_bust(
    body: Body,
    choices: Choices,
    cloth: ClothFacts,
    at: Levels,
    wide: Widths,
    overarm: sleeves.Overarm,
    adjusted: list[Adjustment],
) -> tuple[Wing | None, Side]:
    """The wing, on a side seam let out above the waist until the cloth at bust level is not less than asked."""
    skirt = skirt_as_chosen(choices, at, wide)

    def made(out: float) -> tuple[Wing | None, Side, list[Adjustment]]:
        side = side_seam(sources.scale(body.stature), at, wide, skirt, out)
        notes: list[Adjustment] = []
        return _wing(body, choices, cloth, at, side, overarm, notes), side, notes

    def lacking(wing: Wing | None, side: Side) -> float:
        return -math.inf if wing is None else wide.bust - cloth_at(at.bust, side, wing.underarm)

    def short_by(out: float) -> float:
        return lacking(*made(out)[:2])

    out = 0.0
    wing, side, notes = made(out)
    if choices.length > at.bust and lacking(wing, side) > BUST_MET_WITHIN:
        most = BUST_OUT_FIRST
        while short_by(most) > 0 and most < BUST_OUT_MOST:
            most *= 2
        out = crossing_value(short_by, 0.0, most, BUST_MET_WITHIN)
        wing, side, notes = made(out)
        why = "the bust lies so near the waist that the seam would cut into it"
        what = "side above the bust, all round"
        adjusted.append(Adjustment("side_above_bust", what, 4 * wide.bust, 4 * (wide.bust + out), why))
        if wing is not None and lacking(wing, side) > BUST_TOLD_FROM:
            met = cloth_at(at.bust, side, wing.underarm)
            why = "the bust lies so near a waist this narrow that the side cannot be let out to it"
            adjusted.append(Adjustment("ease_bust", "bust, all round", 4 * wide.bust, 4 * met, why))
    if wing is not None:
        adjusted.extend(notes)
    return wing, side


def cloth_at(level: float, side: Side, underarm: sleeves.Underarm | None) -> float:
    """Half width of the cloth at a level of the body.

    Side seam, or the underarm curve where it lies further out, mm.
    """
    widest = side.x(level)
    if underarm is not None:
        points = flatten(underarm.curve, 0.05)
        for a, b in itertools.pairwise(points):
            if min(a.y, b.y) <= level <= max(a.y, b.y) and a.y != b.y:
                widest = max(widest, a.between(b, (level - a.y) / (b.y - a.y)).x)
        if level < points[0].y:
            widest = max(widest, points[0].x)
    return widest


def _wing(
    body: Body,
    choices: Choices,
    cloth: ClothFacts,
    at: Levels,
    side: Side,
    overarm: sleeves.Overarm,
    adjusted: list[Adjustment],
) -> Wing | None:
    """Underarm ring, narrowest place, flare and underarm curve on one side seam.

    None when no ring fits above the waist.
    """
    grown = sources.scale(body.stature)
    lowest = at.waist - sources.UNDERARM_ABOVE_WAIST_LEAST * grown
    if choices.deep:
        wanted = min(max(at.waist - deep_above(choices, grown), min(at.armpit, lowest)), lowest)
    else:
        wanted = min(at.armpit + sources.UNDERARM_BELOW_ARMPIT * grown, lowest)
    half_ring = (body.upper_arm_girth + sources.ARM_ROOM[choices.fit] * grown) / 2
    level = sleeves.underarm_level(side, overarm, half_ring, wanted, lowest)
    if level is None:
        return None
    corner = Point(side.x(level), level)
    ring = 2 * overarm.depth(corner)
    notes: list[Adjustment] = []
    made = _sleeve(body, choices, cloth, overarm, corner, ring, notes)
    if made is None:
        return _capped(body, choices, at, side, overarm, wanted, lowest, adjusted)
    rounded = _rounded(body, at, side, made, corner)
    short = made.share == 1.0 and choices.sleeve_length < sources.SHORT_SLEEVE_SHARE * body.arm_length
    if short and (rounded is None or sleeves.hollow_radius(rounded.under) < sources.UNDER_LINE_LEAST):
        return _capped(body, choices, at, side, overarm, wanted, lowest, adjusted)
    why = "the arm needs that much room" if level > wanted + UNDERARM_TOLD_FROM else CLEAR_OF_ARMPIT_AND_WAIST
    adjusted.extend(_underarm_moved(choices, at, grown, corner.y, why))
    adjusted.extend(notes)
    return Wing(corner, ring, made, rounded)


def deep_above(choices: Choices, grown: float) -> float:
    """How far above the waist a deep underarm is asked for, mm."""
    return sources.UNDERARM_ABOVE_WAIST * grown if choices.above_waist is None else choices.above_waist


def ordinary_below_armpit(angle: float) -> float:
    """How far below the armpit an ordinary body's underarm lies at the most, × scale, mm; `angle` is the overarm's."""
    knots = sources.UNDERARM_ORDINARY
    for (a, below_a), (b, below_b) in itertools.pairwise(knots):
        if angle <= b:
            return below_a + (below_b - below_a) * (angle - a) / (b - a)
    return knots[-1][1]


def _underarm_moved(choices: Choices, at: Levels, grown: float, level: float, why: str) -> list[Adjustment]:
    """What is told of the underarm's place: a deep one that is not where it was asked, a regular one out of the rule.

    What every ordinary body needs is the rule, and its place is a finished figure.
    """
    if choices.deep:
        above = deep_above(choices, grown)
        if abs(at.waist - level - above) <= UNDERARM_TOLD_FROM:
            return []
        return [Adjustment("underarm_above_waist", "underarm above the waist", above, at.waist - level, why)]
    most = ordinary_below_armpit(choices.overarm) * grown
    if level - at.armpit <= most + UNDERARM_TOLD_FROM:
        return []
    return [Adjustment("underarm", "underarm below the armpit", most, level - at.armpit, why)]


def _capped(
    body: Body,
    choices: Choices,
    at: Levels,
    side: Side,
    overarm: sleeves.Overarm,
    wanted: float,
    lowest: float,
    adjusted: list[Adjustment],
) -> Wing:
    """A cap, its side seam turning out at the level wanted, or lower until its edge goes round the arm."""
    grown = sources.scale(body.stature)
    radius = max(sources.CAP_RADIUS_LEAST, sources.CAP_RADIUS * grown)
    least = body.upper_arm_girth + sources.CAP_ROOM
    highest = at.armpit + sources.CAP_BELOW_ARMPIT * grown

    def short_by(level: float) -> float:
        made, _ = sleeves.cap(overarm, side, level, choices.sleeve_length, radius)
        return max(least - made.end_girth, highest - made.narrowest.y)

    level = wanted
    if short_by(wanted) > 0:
        level = crossing_value(short_by, wanted, lowest, CAP_MET_WITHIN) if short_by(lowest) <= 0 else lowest
    made, curve = sleeves.cap(overarm, side, level, choices.sleeve_length, radius)
    adjusted.extend(_underarm_moved(choices, at, grown, made.narrowest.y, "the edge of a cap goes round the arm"))
    why = "a sleeve this short is a cap, narrowest at its end and without flare"
    adjusted.extend(_flare_moved(choices, math.degrees(choices.flare), choices.flare_girth, made, why))
    if choices.narrowest_girth is not None:
        adjusted.append(_narrowest_moved(choices.narrowest_girth, made.end_girth, why))
    adjusted.extend(_place_moved(choices, 1.0, why))
    return Wing(made.narrowest, 2 * overarm.depth(made.narrowest), made, curve)


def _rounded(body: Body, at: Levels, side: Side, made: sleeves.Sleeve, corner: Point) -> sleeves.Underarm | None:
    wanted = sources.UNDERARM_RADIUS_SHARE * body.stature
    return sleeves.round_underarm(side, made.under, corner, wanted, at.waist)


def _sleeve(
    body: Body,
    choices: Choices,
    cloth: ClothFacts,
    overarm: sleeves.Overarm,
    corner: Point,
    ring: float,
    adjusted: list[Adjustment],
) -> sleeves.Sleeve | None:
    """The sleeve from the underarm corner; None where it is too short for an under line, and will be a cap."""
    grown = sources.scale(body.stature)
    asked = sleeves.narrowest_share(body, choices)
    flared = choices.flare > 0 or choices.flare_girth is not None
    most = ring - sources.SLEEVE_NARROWS * grown
    # A flared sleeve too short for its underarm curve becomes narrowest further out, then loses its flare, then is a
    # cap.
    shares = [asked]
    if flared:
        nearer = 1 - sources.FLARE_SHORTEST / choices.sleeve_length
        shares += [nearer] if sources.NARROWEST_NEAREST <= nearer < asked else []
        shares += [further for further in sources.NARROWEST_FURTHER if further > asked]
    for share in [*shares, 1.0]:
        wanted = sleeves.wanted_girth(body, choices, cloth, share)
        girth = min(most, wanted if choices.narrowest_girth is None else choices.narrowest_girth)
        narrow = overarm.at(share * choices.sleeve_length) + overarm.below * (girth / 2)
        if flared and share < 1.0 and (1 - share) * choices.sleeve_length < sources.FLARE_SHORTEST - 1e-6:
            continue
        if narrow.x >= corner.x + max(sources.CAP_NEARER_LEAST, sources.CAP_NEARER_THAN * grown):
            break
    else:
        return None
    if choices.narrowest_girth is not None and choices.narrowest_girth > most:
        adjusted.append(_narrowest_moved(choices.narrowest_girth, most, "it must narrow from the underarm"))
    adjusted.extend(_place_moved(choices, share, "the underarm curve and the flare need room beside it"))
    angle = choices.flare
    rest = (1 - share) * choices.sleeve_length
    why = ""
    if share == 1.0:
        angle, why = 0.0, "a sleeve this short has no room to flare"
    else:
        if choices.flare_girth is not None:
            angle = sleeves.flare_of_girth(girth / 2, rest, choices.flare_girth)
            why = "" if angle > 0 else "it is not wider than the sleeve's narrowest place"
        steepest = sources.FLARE_STEEPEST - choices.overarm
        # The flared edge is rest − half·tan(φ/2) long (CALC); a shorter one would be all bend.
        widest = 2 * math.atan(max(0.0, rest - sources.FLARE_EDGE_LEAST) / (girth / 2))
        if angle > min(steepest, widest) + 1e-9:
            steep = steepest <= widest
            angle = min(steepest, widest)
            why = "the under edge would hang too steeply" if steep else "so short a flare cannot spread further"
    made = sleeves.sleeve(overarm, corner, choices.sleeve_length, share, girth, angle)
    if why:
        adjusted.extend(_flare_moved(choices, math.degrees(choices.flare), choices.flare_girth, made, why))
    return made


def _narrowest_moved(before: float, after: float, why: str) -> Adjustment:
    return Adjustment("narrowest_girth", "narrowest girth of the sleeve", before, after, why)


def _place_moved(choices: Choices, share: float, why: str) -> list[Adjustment]:
    """What is told of a narrowest place that was asked for and lies elsewhere; else it is a finished figure."""
    if choices.narrowest_at is None or abs(share - choices.narrowest_at) < 1e-9:
        return []
    before, after = choices.narrowest_at * choices.sleeve_length, share * choices.sleeve_length
    return [Adjustment("narrowest_at", "narrowest place, from the shoulder point", before, after, why)]


def _flare_moved(
    choices: Choices, angle: float, girth: float | None, made: sleeves.Sleeve, why: str
) -> list[Adjustment]:
    """What is told of a flare that was asked for, as a girth or as an angle (degrees), and came out otherwise."""
    if choices.flare_girth is not None and girth is not None:
        return [Adjustment("flare", "girth at the sleeve end", girth, made.end_girth, why)]
    if choices.flare > 0:
        return [Adjustment("flare", "angle of the flare", angle, math.degrees(made.flare), why, "deg")]
    return []


def keep_gap(
    body: Body,
    choices: Choices,
    cloth: ClothFacts,
    side: Side,
    hem: Hem,
    overarm: sleeves.Overarm,
    wing: Wing,
    allowances: dict[str, float],
    adjusted: list[Adjustment],
) -> Wing:
    """Takes flare away until sleeve and body lie far enough apart on the cloth for both allowances and the shears.

    And until the sleeve turns into its flare with a radius that takes the allowance.
    """
    turn = allowances["side"] + sources.SLEEVE_TURN_SPARE

    def apart(made: sleeves.Sleeve) -> bool:
        return gap(side, hem, made, allowances) >= sources.SLEEVE_GAP

    if wing.underarm is None or wing.sleeve.flare == 0.0:
        return wing
    near = not apart(wing.sleeve)
    if not near and sleeves.hollow_radius(wing.underarm.under) >= turn:
        return wing
    share = wing.sleeve.share
    girth = wing.sleeve.narrowest_girth

    def with_flare(flare: float) -> sleeves.Sleeve:
        return sleeves.sleeve(overarm, wing.corner, choices.sleeve_length, share, girth, flare)

    def takes(flare: float) -> bool:
        attempt = with_flare(flare)
        return sleeves.hollow_radius(attempt.under[:-1]) >= turn and apart(attempt)

    made = with_flare(least_enough(takes, wing.sleeve.flare, 0.0, math.radians(0.1)))
    why = "the sleeve would turn too sharply into its flare"
    if near:
        why = "sleeve and body would lie too close together on the cloth"
    adjusted.extend(_flare_moved(choices, math.degrees(wing.sleeve.flare), wing.sleeve.end_girth, made, why))
    # The under line from the narrowest place inward does not depend on the flare, so the underarm curve stays.
    under = (*made.under[:-1], wing.underarm.under[-1])
    return Wing(wing.corner, wing.ring, made, replace(wing.underarm, under=under))


def gap(side: Side, hem: Hem, made: sleeves.Sleeve, allowances: dict[str, float]) -> float:
    """Least distance between the cut edges of the sleeve (from its narrowest place outward) and of the body, mm.

    Negative
    where they would lie over each other.
    """
    body_line = flatten(side.between(side.knots[1].start.y, hem.corner.y), 1.0)
    outer = [p for p in flatten(made.under, 1.0) if p.x >= made.narrowest.x - 1e-6]
    under_end = made.end[-1].end
    hem_corner = under_end + _away(made) * allowances["sleeve_end"]

    def apart(point: Point) -> float:
        inside = side.knots[1].start.y < point.y < hem.corner.y and point.x < side.x(point.y)
        return distance_to_polyline(point, body_line) * (-1.0 if inside else 1.0)

    return min(apart(point) for point in [*outer, under_end, hem_corner]) - 2 * allowances["side"]


def _away(made: sleeves.Sleeve) -> Point:
    """Unit vector out of the sleeve's end at its under corner."""
    return made.under[0].tangent(0.0) * -1.0
