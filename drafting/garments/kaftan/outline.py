"""The finished outline of a `kaftan`: neck and slit, overarm, sleeve cut in one, rounded underarm, flared side, hem.

Body axes, finished: x across from the fold, y down from the side-neck level, millimetres. Overarm and under line are
straight, and so is the side; every edge that closes them (the sleeve's end, its joint, the hem) is an arc about the
point where its two neighbours would meet, so that it is square to both (CALC).
"""

import math
from dataclasses import dataclass

from drafting import sources
from drafting.cloth import ClothFacts
from drafting.contract.chalked_line import ChalkedLine
from drafting.garments.kaftan.style import Choices
from drafting.geometry.path import Path
from drafting.geometry.point import Point, direction
from drafting.geometry.segments import Line, Segment, arc, fillet
from drafting.geometry.solve import crossing_value, least_enough
from drafting.parts import neck as necks
from drafting.parts.hem import Hem
from drafting.parts.pockets import NO_POCKETS, Pockets
from drafting.parts.side import Side
from drafting.parts.widths import Levels
from drafting.person.measures import Body
from drafting.person.passing import head_spread
from drafting.problems import Adjustment

#: A sleeve's lines that meet at less than this run side by side, radians: its end is then straight. Our choice.
PARALLEL = 1e-4
#: Straight under line that is left beside the underarm's curve and beside the joint, mm. Our choice: it holds a hem.
LEFT_STRAIGHT = 40.0
#: The underarm's curve keeps so far above the waist, mm. Our choice, so that the waist is marked on the straight side.
ABOVE_WAIST = 10.0


@dataclass(frozen=True, slots=True)
class Opened:
    """The neck with its slit: `end` is how far below the side-neck level it stops, `needs` what the head needs, mm."""

    base: necks.NeckBase
    neck: necks.Neckline
    end: float
    needs: float

    @property
    def slit(self) -> float:
        """The length of the slit, mm."""
        return self.end - self.neck.front.start.y


def head_needed(body: Body) -> float:
    """What a neck of cloth that does not stretch opens to for the head, mm."""
    ease = sources.SLIT_HEAD_EASE_CHILD if body.kind == "child" else sources.SLIT_HEAD_EASE
    return body.head_girth + head_spread(body) + ease


def bust_level(body: Body) -> float:
    """The level of the bust on the cloth, mm; an estimated one lies clear of the waist."""
    bust, waist = body.side_neck_point_to_bust_point, body.back_neck_point_to_waist + sources.NAPE_ABOVE_SIDE_NECK
    return min(bust, sources.BUST_ESTIMATE_LOWEST * waist) if body.estimated("side_neck_point_to_bust_point") else bust


def opened(body: Body, choices: Choices, adjusted: list[Adjustment]) -> Opened:
    """Neck and slit: where the slit would reach the bust before the head passes, the neck is widened."""
    grown = sources.scale(body.stature)
    side_neck, lowest = body.neck_base_girth * sources.NECK_BASE_SHARE, bust_level(body) - sources.SLIT_ABOVE_BUST
    # The back lies as far down for everybody, so that a child's can be turned and clipped too: a base of scale 1.
    base = necks.NeckBase(side_neck, choices.overarm, 1.0, lowest)
    small = body.kind == "child" and body.age is not None and body.age < sources.SMALL_PARTS_UNDER
    outside = sources.KAFTAN_NECK + (sources.KAFTAN_NECK_SMALL if small else 0.0)
    needs = head_needed(body)

    def neck(widened: float) -> necks.Neckline:
        reach = side_neck + outside + widened
        return necks.set_round(base, reach, reach)

    def needed(made: necks.Neckline) -> float:
        return max(0.0, (needs - made.ring) / 2)

    def enough(widened: float) -> bool:
        made = neck(widened)
        return made.front.start.y + needed(made) <= lowest

    widened, most = 0.0, max(0.0, body.shoulder_width / 2 - 1.0 - side_neck - outside)
    if not enough(0.0):
        # Widened so far the head passes without a slit; farther only the neck would come nearer to the bust.
        most = least_enough(lambda value: needed(neck(value)) <= 0, 0.0, most, necks.ACCURACY)
        widened = least_enough(enough, 0.0, most, necks.ACCURACY)
    made = neck(widened)
    top = made.front.start.y
    wanted = max(needed(made), sources.SLIT_LEAST * grown) if choices.neck_slit is None else choices.neck_slit
    end = min(top + wanted, max(lowest, top + 1.0))
    if choices.neck_slit is not None and end < top + wanted - 1e-6:
        why = "it ends above the bust level"
        adjusted.append(Adjustment("neck_slit", "slit of the neck", wanted, end - top, why))
    return Opened(base, made, end, needs)


@dataclass(frozen=True, slots=True)
class Sleeve:
    """The sleeve on its overarm, which runs from `start` (the shoulder point) in the direction `along`.

    `corner` is where the under line meets the side, before it is rounded; `angle` by how much the under line comes
    nearer to the overarm, radians; `length` from the shoulder point to the end.
    """

    start: Point
    along: Point
    corner: Point
    angle: float
    length: float

    @property
    def below(self) -> Point:
        """Unit vector square to the overarm, towards the under side."""
        return self.along.left() * -1.0

    def depth(self, point: Point) -> float:
        """How far a point lies below the overarm, square to it, mm."""
        return (point - self.start).dot(self.below)

    def far(self, point: Point) -> float:
        """How far along the overarm a point lies from the shoulder point, mm."""
        return (point - self.start).dot(self.along)

    def top(self, far: float) -> Point:
        """The place on the overarm so far from the shoulder point."""
        return self.start + self.along * far

    @property
    def under(self) -> Point:
        """Unit vector along the under line, outward."""
        return (self.along * math.cos(self.angle) - self.below * math.sin(self.angle)).unit()

    def apex(self) -> Point:
        """Where overarm and under line would meet, beyond the sleeve's end."""
        return self.top(self.far(self.corner) + self.depth(self.corner) / math.tan(self.angle))

    def across(self, far: float) -> tuple[Segment, ...]:
        """From the overarm to the under line, square to both, so far from the shoulder point."""
        top = self.top(far)
        if abs(self.angle) < PARALLEL:
            return (Line(top, top + self.below * self.depth(self.corner)),)
        apex = self.apex()
        begin = math.atan2(top.y - apex.y, top.x - apex.x)
        return tuple(arc(apex, apex.distance(top), begin, begin - self.angle))

    def half(self, far: float) -> float:
        """Half the girth there, mm."""
        return sum(segment.length() for segment in self.across(far))


def sleeve(body: Body, choices: Choices, quarter: float, level: float, adjusted: list[Adjustment]) -> Sleeve:
    """The sleeve of an underarm at a level: tapered to the wrist, or as wide as the underarm all along."""
    along = direction(choices.overarm)
    half = body.shoulder_width / 2
    side_neck = body.neck_base_girth * sources.NECK_BASE_SHARE
    start = Point(half, (half - side_neck) * math.tan(choices.overarm))
    corner = Point(quarter, level)
    plain = Sleeve(start, along, corner, 0.0, choices.sleeve_length)
    least = plain.far(corner) + corner_leg(body, choices.overarm) + LEFT_STRAIGHT
    length = max(choices.sleeve_length, least)
    if length > choices.sleeve_length + 1e-6:
        why = "the curve of the underarm needs that much room"
        adjusted.append(
            Adjustment(
                "sleeve_length", "length of the sleeve from the shoulder point", choices.sleeve_length, length, why
            )
        )
    deep = plain.depth(corner)
    given = choices.sleeve_end_girth
    if given is not None:
        end, at = given / 2, length
    elif choices.tapered:
        grown = sources.scale(body.stature)
        ring = sources.KAFTAN_END_SHARE * (body.upper_arm_girth + sources.KAFTAN_ARM_ROOM * grown)
        end, at = max(ring, body.hand_girth + sources.KAFTAN_HAND_EASE * grown) / 2, max(length, body.arm_length)
    else:
        end, at = deep, length
    reach = at - plain.far(corner)
    # The under line never comes in more steeply than the sleeve is long, nor does it run out.
    narrowest = deep - reach * math.tan(sources.KAFTAN_TAPER_MOST)
    if given is not None and not narrowest <= end <= deep:
        met = min(max(end, narrowest), deep)
        why = "it is no wider than the underarm" if end > deep else "the under line would come in too steeply"
        adjusted.append(Adjustment("sleeve_end_girth", "girth at the sleeve end", given, 2 * met, why))
    end = min(max(end, narrowest), deep)
    if deep - end < PARALLEL * reach:
        return Sleeve(start, along, corner, 0.0, length)

    def too_deep(angle: float) -> float:
        """By how much the under line of this angle lies deeper at the corner, mm; the end is an arc `end` long."""
        return (reach + end / angle) * math.tan(angle) - deep

    angle = crossing_value(too_deep, 1e-6, 0.7, 1e-9)
    return Sleeve(start, along, corner, angle, length)


def corner_turn(overarm: float, angle: float = 0.0) -> float:
    """How far the outline turns at the underarm, radians: from the under line, inward, into the flared side."""
    inward = math.pi + overarm - angle
    return inward - math.atan2(1.0, sources.KAFTAN_FLARE)


def corner_leg(body: Body, overarm: float, angle: float = 0.0) -> float:
    """How much of under line and side the curve of the underarm takes, mm (CALC)."""
    return sources.KAFTAN_CORNER * body.stature * math.tan(corner_turn(overarm, angle) / 2)


@dataclass(frozen=True, slots=True)
class Underarm:
    """The rounded underarm: its arc, its radius, and how much of both lines it takes, mm."""

    curve: tuple[Segment, ...]
    radius: float
    leg: float


def underarm(body: Body, made: Sleeve, waist: float) -> Underarm | None:
    """The largest arc up to the usual one that leaves under line and side straight; None where none can be sewn."""
    turn = corner_turn(math.atan2(made.along.y, made.along.x), made.angle)
    away = Point(sources.KAFTAN_FLARE, 1.0).unit()
    along_under = made.length - made.far(made.corner)
    room = min((waist - ABOVE_WAIST - made.corner.y) / away.y, along_under - LEFT_STRAIGHT)
    leg = min(sources.KAFTAN_CORNER * body.stature * math.tan(turn / 2), room)
    radius = leg / math.tan(turn / 2)
    if radius < sources.KAFTAN_CORNER_LEAST:
        return None
    return Underarm(tuple(fillet(made.corner, made.under * -1.0, away, leg)), radius, leg)


@dataclass(frozen=True, slots=True)
class Parts:
    """A kaftan for one body: what pieces, findings, sewing and picture are made from. `slit` is that of the sides, mm.

    `allowances` are those of the style, by key; `joint` is how far from the shoulder point the lower sleeve is joined,
    None where it is not.
    """

    body: Body
    choices: Choices
    cloth: ClothFacts
    chalked: ChalkedLine
    at: Levels
    opened: Opened
    sleeve: Sleeve
    underarm: Underarm
    side: Side
    hem: Hem
    slit: float
    joint: float | None
    allowances: dict[str, float]
    pockets: Pockets = NO_POCKETS

    @property
    def neck(self) -> necks.Neckline:
        """The neck."""
        return self.opened.neck

    @property
    def side_from(self) -> float:
        """The level at which the straight side begins, below the curve of the underarm."""
        return self.underarm.curve[-1].end.y

    @property
    def outer(self) -> float:
        """How far from the shoulder point the front and back reach along the overarm, mm."""
        return self.sleeve.length if self.joint is None else self.joint

    def under(self, far: float) -> Point:
        """The place on the under line that belongs to a place of the overarm."""
        return self.sleeve.across(far)[-1].end

    @property
    def side_edge(self) -> Path:
        """From the sleeve's end, or its joint, along the under line, round the underarm and down to the hem."""
        curve = self.underarm.curve
        first, last = Line(self.under(self.outer), curve[0].start), Line(curve[-1].end, self.hem.corner)
        return Path.of((first, *curve, last))


def widths(body: Body, choices: Choices, adjusted: list[Adjustment]) -> float:
    """The quarter at the underarm: for bust and hip, and past the shoulder, so that the sleeve begins beyond it."""
    grown = sources.scale(body.stature)
    past = body.shoulder_width / 2 + sources.KAFTAN_PAST_SHOULDER * grown
    if choices.ease_bust is not None:
        wanted = (body.bust_girth + choices.ease_bust) / 4
        if past > wanted + 1e-6:
            why = "the sleeve begins beyond the shoulder"
            adjusted.append(Adjustment("ease_bust", "bust, all round", 4 * wanted, 4 * past, why))
        return max(wanted, past)
    bust, hip = body.bust_girth + sources.KAFTAN_EASE * grown, body.hip_girth + sources.KAFTAN_HIP_EASE * grown
    return max(bust / 4, hip / 4, past)


def underarm_level(body: Body, choices: Choices, quarter: float) -> float:
    """The level of the underarm: below the armpit, or lower until the arm has its room (CALC)."""
    grown = sources.scale(body.stature)
    side_neck = body.neck_base_girth * sources.NECK_BASE_SHARE
    ring = (body.upper_arm_girth + sources.KAFTAN_ARM_ROOM * grown) / 2
    roomy = ring / math.cos(choices.overarm) + (quarter - side_neck) * math.tan(choices.overarm)
    return max(body.scye_depth + sources.KAFTAN_UNDERARM * grown, roomy)


def side_and_hem(corner: Point, length: float) -> tuple[Side, Hem]:
    """The straight side from the underarm down, and a hem in an arc, square to side and fold."""
    flare = sources.KAFTAN_FLARE
    side = Side((Line(corner, corner + Point(flare, 1.0) * (length - corner.y)),))
    apex = Point(0.0, corner.y - corner.x / flare)
    radius, angle = length - apex.y, math.atan(flare)
    edge = tuple(arc(apex, radius, math.pi / 2 - angle, math.pi / 2))
    return side, Hem(edge[0].start, edge)


def joint_at(choices: Choices, made: Sleeve, round_: Underarm, adjusted: list[Adjustment]) -> float | None:
    """How far from the shoulder point the lower sleeve is joined; None where it is whole or too short for that."""
    if not choices.joined:
        return None
    least = made.far(round_.curve[0].start) + sources.JOINT_BEYOND_CURVE
    at = max(sources.JOINT_AT * made.length, least)
    if made.length - at >= sources.LOWER_SLEEVE_LEAST:
        return at
    why = "the sleeve is too short to be cut apart"
    adjusted.append(Adjustment("lower_sleeve", "lower sleeve, joined", 1.0, 0.0, why, ""))
    return None
