"""Which choice of `cut_in_one` shapes which edge: what is named, and changed, where an outline crosses itself.

Only what was chosen is listed; what is left to the draft is worked out so that it fits. The likeliest cause of each
part of the outline comes first.
"""

import math

from drafting import sources
from drafting.cloth import ClothFacts, ease_share
from drafting.garments.cut_in_one.style import Choices
from drafting.parts.widths import Levels, Widths
from drafting.person.measures import Body
from drafting.problems import Shaping, Try

#: An asked ease is changed by so much first, mm, then left to the draft. Our choice.
EASE_STEPS = (50.0, 100.0, 200.0, 300.0)
SIDE = frozenset({"side", "hem"})
SLEEVE = frozenset({"side", "sleeve_end", "sleeve_joint"})
NECK = frozenset({"neck_top", "shoulder"})
#: The edges that each allowance lies outside of, and where that is.
ALLOWANCES = {
    "side": ("side", "along side and underarm"),
    "shoulder": ("shoulder", "along shoulder and overarm"),
    "hem": ("hem", "at the hem"),
    "sleeve_end": ("sleeve_end", "at the sleeve end"),
    "neck_top": ("neck_top", "at the neck edge"),
}
#: What is tried where an allowance or a neck height was asked for, mm. Our choice: the least that can be sewn, and a
#: neck that stands with room for its curve.
ALLOWANCE_TRIED = 6.0
NECK_HEIGHT_TRIED = 100.0


def shapings(
    body: Body, choices: Choices, cloth: ClothFacts, at: Levels, wide: Widths, underarm: float
) -> tuple[Shaping, ...]:
    """The choices that were made, by what they shape; the level `underarm` parts sleeve and body, mm."""
    return (
        *_widths(body, choices, cloth, at, wide),
        *_hem(choices),
        *_sleeve(choices, underarm),
        *_neck(choices),
        *_allowances(choices),
    )


def _widths(body: Body, choices: Choices, cloth: ClothFacts, at: Levels, wide: Widths) -> list[Shaping]:
    """The asked eases: first the two between which the side hollows more at the waist, of them the less usual one.

    How sharply it hollows grows with what it comes in by over the square of the depth (CALC: 6·Δ/h² of a cubic that is
    upright at both ends).
    """
    above = (wide.bust - wide.waist) / (at.waist - wide.knot) ** 2
    below = (wide.low - wide.waist) / (at.low - at.waist) ** 2
    last = "hip" if above >= below else "bust"
    usual = ease_share(cloth.across, choices.fit)
    reach = {
        "bust": (-math.inf, (at.waist + at.low) / 2),
        "waist": (-math.inf, math.inf),
        "hip": ((wide.knot + at.waist) / 2, math.inf),
    }
    found = [
        (where == last, -abs(asked - girth * usual), _eased(where, asked, asked - girth * usual, *reach[where]))
        for where, girth, asked in (
            ("bust", body.bust_girth, choices.ease_bust),
            ("waist", body.waist_girth, choices.ease_waist),
            ("hip", body.hip_girth, choices.ease_hip),
        )
        if asked is not None
    ]
    return [shaping for *_, shaping in sorted(found, key=lambda one: one[:2])]


def _eased(where: str, asked: float, beyond: float, top: float, bottom: float) -> Shaping:
    """An asked ease, brought nearer step by step to what the draft would give; `beyond` is how far it lies from it."""
    key, sign, way = f"ease_{where}", -math.copysign(1.0, beyond), "less" if beyond > 0 else "more"
    steps = tuple(
        Try(key, f"{asked + sign * step:.2f} mm", f"Ask for {{}} {way} ease at the {where}.", step)
        for step in EASE_STEPS
        if step < abs(beyond)
    )
    says = (
        f"The ease asked for at the {where} (ease_{where}) makes the side turn so sharply that its cutting line "
        "crosses itself, so it cannot be cut."
    )
    ways = ((steps,) if steps else ()) + ((Try(key, "auto", f"Leave the ease at the {where} to the draft."),),)
    return Shaping(key, says, SIDE, ways, top, bottom)


def _hem(choices: Choices) -> list[Shaping]:
    if choices.hem_girth is None:
        return []
    says = "The girth asked for at the hem (hem_girth) makes hem and side cross each other, so it cannot be cut."
    return [
        Shaping("hem_girth", says, SIDE, ((Try("hem_girth", "auto", "Leave the girth of the hem to the draft."),),))
    ]


def _sleeve(choices: Choices, underarm: float) -> list[Shaping]:
    found: list[Shaping] = []

    def chosen(says: str, way: Try) -> None:
        found.append(Shaping(way.key, says, SLEEVE, ((way,),), bottom=underarm))

    if choices.flare > 0 or choices.flare_girth is not None:
        chosen(
            "The flare of the sleeve (flare) makes sleeve and body cross each other, so it cannot be cut.",
            Try("flare", "none", "Choose a sleeve without flare."),
        )
    if choices.narrowest_girth is not None:
        way = Try("narrowest_girth", "auto", "Leave the girth of the sleeve to the draft.")
        chosen(
            "The girth asked for at the sleeve (narrowest_girth) makes sleeve and body cross each other, "
            "so it cannot be cut.",
            way,
        )
    if choices.deep:
        chosen(
            "The deep underarm (underarm) makes sleeve and body cross each other, so it cannot be cut.",
            Try("underarm", "regular", "Choose the regular underarm."),
        )
    if choices.overarm > math.radians(sources.OVERARM_ANGLE) + 1e-9:
        way = Try("overarm_angle", sources.OVERARM_ANGLE, "Choose an overarm that falls by 20 degrees.")
        chosen("The steep overarm (overarm_angle) makes sleeve and body cross each other, so it cannot be cut.", way)
    return found


def _neck(choices: Choices) -> list[Shaping]:
    found: list[Shaping] = []

    def chosen(says: str, way: Try) -> None:
        found.append(Shaping(way.key, says, NECK, ((way,),)))

    if choices.neck_half_width is not None:
        way = Try("neck_half_width", "auto", "Leave the width of the neck to the draft.")
        chosen(
            "The half width asked for at the neck (neck_half_width) makes the cutting line at the neck cross itself, "
            "so it cannot be cut.",
            way,
        )
    if choices.lean > 0:
        chosen(
            "The lean of the neck (neck_lean) makes the cutting line at the neck cross itself, so it cannot be cut.",
            Try("neck_lean", 0.0, "Choose an upright neck."),
        )
    if choices.neck_height_given:
        way = Try("neck_height", f"{NECK_HEIGHT_TRIED:.2f} mm", "Make the neck {} high.", NECK_HEIGHT_TRIED)
        chosen(
            "The height asked for at the neck (neck_height) makes the cutting line at the neck cross itself, "
            "so it cannot be cut.",
            way,
        )
    return found


def _allowances(choices: Choices) -> list[Shaping]:
    found: list[Shaping] = []
    for name, (edge, where) in ALLOWANCES.items():
        if name in choices.allowances_given:
            key, value = f"allowances.{name}", f"{ALLOWANCE_TRIED:.2f} mm"
            says = f"The allowance asked for {where} ({key}) makes the cutting line cross itself, so it cannot be cut."
            way = Try(key, value, f"Take an allowance of {{}} {where}.", ALLOWANCE_TRIED)
            found.append(Shaping(key, says, frozenset({edge}), ((way,),)))
    return found
