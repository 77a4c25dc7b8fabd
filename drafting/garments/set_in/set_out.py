"""Setting out `set_in`: from a body, choices and cloth to its pieces.

Order of solving: quarter, neck with its band, across and shoulder, side and armholes as deep as the cap needs, cap with
its hollow, sleeve, hem, allowances.
"""

from dataclasses import dataclass, replace
from functools import partial
from typing import Final

from drafting import sources
from drafting.cloth import ClothFacts, ease_share
from drafting.contract.chalked_line import ChalkedLine
from drafting.contract.cutting import EdgesDoNotMeetError
from drafting.contract.set_out import SetOut
from drafting.garments.set_in import rules
from drafting.garments.set_in.asked import asked
from drafting.garments.set_in.cap import Armholes, hollowed, reaches, tightest
from drafting.garments.set_in.findings import chalked_rings, figures, girths, points_of, record
from drafting.garments.set_in.lay_out import pieces
from drafting.garments.set_in.parts import Parts
from drafting.garments.set_in.seams import seams
from drafting.garments.set_in.sewing import after_cut
from drafting.garments.set_in.shaping import shapings
from drafting.garments.set_in.sleeve import Plan, plan, sleeve
from drafting.garments.set_in.upper import Upper, armhole, upper
from drafting.garments.set_in.worn import worn
from drafting.geometry.point import Point
from drafting.geometry.solve import least_enough
from drafting.parts import neck as necks
from drafting.parts.flounce import can_be_cut, flounce_facts
from drafting.parts.hem import Hem, hem_of_body
from drafting.parts.pockets import pockets_of
from drafting.parts.pouch import pouch_of
from drafting.parts.side import Side, Skirt, body_slope
from drafting.parts.top import BodyAsked, allowances_of, flounces_of, hood_on, neck_of, slit_of
from drafting.parts.top_bands import Bands, as_read, cuff_band, hem_band, neck_band
from drafting.parts.top_style import TopChoices, with_flounces_held
from drafting.parts.widths import Levels, Widths, levels, through_hem, widths
from drafting.person.measures import Body
from drafting.person.passing import head_needs
from drafting.problems import Adjustment

NAME: Final = "set_in"
#: A level is solved to this, mm: far below what a tape shows.
ACCURACY: Final = 1e-3
#: So often a sleeve is widened and tapered after each other. Our choice: it settles in two.
ROUNDS: Final = 3


def set_out(body: Body, choices: TopChoices, cloth: ClothFacts, chalked: ChalkedLine) -> SetOut:
    """Sets out front, back, sleeve and bands, or says what stops it. Lengths in mm; pure and deterministic."""
    adjusted: list[Adjustment] = []
    choices = with_flounces_held(as_read(choices, cloth, chalked), body, adjusted)
    facts: dict[str, float] = {}

    def stopped(check: str) -> SetOut:
        return SetOut(NAME, body, choices, cloth, chalked, facts=facts, adjusted=tuple(adjusted), refused=(check,))

    grown = sources.scale(body.stature)
    to_hem = BodyAsked(
        choices.straight,
        choices.body,
        choices.length - choices.below_hem,
        choices.hem_girth,
        choices.ease_bust,
        choices.ease_waist,
        choices.ease_hip,
        choices.fit,
    )
    at = levels(body, to_hem, adjusted)
    base = necks.NeckBase(
        body.neck_base_girth * sources.NECK_BASE_SHARE, choices.slope, grown, at.bust, choices.neck_depth
    )
    neck = neck_of(body, choices, cloth, base, adjusted)
    ease = body.bust_girth * ease_share(cloth.across, choices.fit) if choices.ease_bust is None else choices.ease_bust
    quarter = (body.bust_girth + ease) / 4
    over = upper(body, base, quarter, adjusted)
    run, least = over.end.x - neck.end.x, max(sources.SHOULDER_RUN_LEAST, sources.SHOULDER_RUN_SCALED * grown)
    facts |= {"shoulder_run": run, "shoulder_run_least": least, "neck_ring": neck.ring}
    if run < least - 1e-6:
        return stopped("shoulder_run")
    trunk = _Trunk(body, to_hem, cloth, at, chalked, choices.side, over, quarter, base)
    solving = _Solving(trunk, choices, adjusted)
    level, wanted = solving.both()
    made = trunk.made(level, adjusted)
    cap = hollowed(made.armholes, wanted.width, wanted.taper)
    made_sleeve = sleeve(wanted, cap, adjusted)
    radius = min(tightest(made.armholes.front), tightest(made.armholes.back), tightest(cap.path()))
    most = max(6.0, radius - rules.ARMHOLE_SPARE)
    allowances = allowances_of(choices, neck, most, made.side.slope(made.hem.corner.y), adjusted)
    passing = through_hem(body, to_hem) + sources.PASSING_EASE * grown
    bands = Bands(
        neck_band(choices, cloth, neck, allowances["neck"], head_needs(body), chalked),
        cuff_band(choices, made_sleeve.end_girth, made_sleeve.cuff),
        hem_band(choices, cloth, 4 * made.hem.quarter, passing, chalked),
    )
    flounces = flounces_of(
        body, choices, cloth, chalked, (made_sleeve.end_girth, 4 * made.hem.quarter), passing, allowances
    )
    if not all(can_be_cut(one, cloth) for one in flounces.values() if one is not None):
        facts |= flounce_facts([one for one in flounces.values() if one is not None], cloth)
        return stopped("flounce_turns")
    slit = slit_of(body, choices, cloth, at, made.side, made.hem, facts, adjusted)
    parts = Parts(
        body=body,
        choices=choices,
        cloth=cloth,
        chalked=chalked,
        base=base,
        neck=neck,
        at=at,
        side=made.side,
        hem=made.hem,
        bands=bands,
        allowances=allowances,
        slit=slit,
        over=over,
        armholes=made.armholes,
        bust=made.wide.knot if made.wide.comes_in > 0 else None,
        sleeve=made_sleeve,
        **flounces,
        hood=hood_on(body, choices, neck, allowances),
        pouch=pouch_of(body, quarter, at.waist, at.hem) if choices.pouch else None,
        pockets=pockets_of(choices.pockets, body, quarter, at, made.side, made.hem.corner, slit, allowances["side"]),
    )
    shaped = shapings(choices)
    try:
        cut = pieces(parts)
    except EdgesDoNotMeetError as error:
        return replace(stopped("outline_simple"), crossed=error.edges, shapings=shaped)
    record(facts, parts, through_hem(body, to_hem), radius)
    return SetOut(
        NAME,
        body,
        choices,
        cloth,
        chalked,
        cut,
        seams(parts),
        girths(parts, through_hem(body, to_hem)),
        figures(parts),
        tuple(adjusted),
        facts,
        points_of(parts),
        after_cut=after_cut(parts, facts, chalked.tape.unit),
        asked=asked(parts),
        shapings=shaped,
        worn=worn(parts),
        chalked_facts=partial(chalked_rings, parts),
        set_on=(*(() if parts.pouch is None else parts.pouch.set_on), *parts.pockets.set_on),
        let_in=parts.pockets.let_in(("front", "back"), "side"),
    )


@dataclass(frozen=True, slots=True)
class _Made:
    """The body with its underarm at one level."""

    wide: Widths
    side: Side
    hem: Hem
    armholes: Armholes


@dataclass(frozen=True, slots=True)
class _Trunk:
    """Makes the body for any level of the underarm."""

    body: Body
    asked: BodyAsked
    cloth: ClothFacts
    at: Levels
    chalked: ChalkedLine
    allowance: float
    over: Upper
    quarter: float
    base: necks.NeckBase

    def wide(self, level: float, adjusted: list[Adjustment]) -> Widths:
        """The widths below an underarm at a level; a shaped side comes in from there to the bust."""
        found = widths(
            self.body, self.asked, self.cloth, self.at, self.chalked, self.allowance, adjusted,
            upper=(self.quarter, level),
        )  # fmt: skip
        if found.straight or found.knot - level < rules.LEVELS_APART:
            return found
        slope = (found.bust - found.waist) / (self.at.waist - found.knot)
        comes_in = max(0.0, min(rules.COMES_IN_MOST, rules.COMES_IN_SHARE * slope))
        return replace(found, comes_in=comes_in)

    def armholes(self, level: float, wide: Widths) -> Armholes:
        """Both armholes, square to the side at its level."""
        slope = body_slope(wide, self.at) if wide.straight else -wide.comes_in
        underarm = Point(wide.bust + wide.comes_in * max(wide.knot - level, 0.0), level)
        front, back = (armhole(self.over, underarm, self.base, slope, front=front) for front in (True, False))
        return Armholes(front, back)

    def made(self, level: float, adjusted: list[Adjustment]) -> _Made:
        """The body with its side and hem; what had to be moved is told."""
        wide = self.wide(level, adjusted)
        straight = wide.straight and self.asked.body == "straight"
        skirt = Skirt(self.at.hip, body_slope(wide, self.at)) if straight else None
        side, hem = hem_of_body(
            self.body, self.asked, self.cloth, self.at, wide, 0.0, self.chalked, self.allowance, adjusted, skirt
        )
        return _Made(wide, side, hem, self.armholes(level, wide))


@dataclass(frozen=True, slots=True)
class _Solving:
    """How deep the armholes are and how wide the sleeve is, so that the height of its cap keeps its limits."""

    trunk: _Trunk
    choices: TopChoices
    adjusted: list[Adjustment]

    def both(self) -> tuple[float, Plan]:
        """The level of the underarm, and the sleeve that is wanted with it."""
        body, fit = self.trunk.body, self.choices.fit
        grown = sources.scale(body.stature)
        lowest = self.trunk.at.waist - rules.UNDERARM_ABOVE_WAIST * grown
        usual = min(body.scye_depth + rules.UNDERARM_BELOW_ARMPIT[fit] * grown, lowest)
        width = body.upper_arm_girth + rules.ARM_ROOM[fit] * grown
        level = usual
        if not self._high_enough(usual, width):
            level = lowest
            if self._high_enough(lowest, width):
                level = least_enough(lambda level: self._high_enough(level, width), usual, lowest, ACCURACY)
            if level - usual > rules.TOLD_FROM:
                what, why = "underarm below the side-neck level", "the sleeve needs this much room for the arm"
                self.adjusted.append(Adjustment("underarm", what, usual, level, why))
        armholes = self._armholes(level)
        found = self._plan(width)
        for _ in range(ROUNDS):
            flattest = reaches(armholes, rules.CAP_MOST[fit], found.taper, rules.HOLLOW[0])
            if flattest <= width:
                break
            found = replace(found, width=flattest)
        if found.width - width > rules.TOLD_FROM:
            why = "the cap of the sleeve would be too high for its armholes"
            self.adjusted.append(Adjustment("upper_arm", "sleeve under the arm", width, found.width, why))
        return level, found

    def _armholes(self, level: float) -> Armholes:
        return self.trunk.armholes(level, self.trunk.wide(level, []))

    def _plan(self, width: float) -> Plan:
        trunk = self.trunk
        return plan(trunk.body, self.choices, trunk.cloth, trunk.over.inset, width, trunk.chalked)

    def _high_enough(self, level: float, width: float) -> bool:
        """Whether a sleeve so wide has a cap that is not too flat for armholes down to this level."""
        share, taper = rules.CAP_LEAST[self.choices.fit], self._plan(width).taper
        return reaches(self._armholes(level), share, taper, rules.HOLLOW[1]) >= width
