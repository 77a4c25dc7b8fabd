"""How `circle_skirt` is sewn up, tried on and what it takes besides the cloth: only what applies to the draft.

Everything here is common practice, from memory, no source, unless a line says otherwise. Lengths in mm, said in the
tape's unit.
"""

import math
from typing import Final

from drafting.contract.after_cut import AfterCut, SewStep, ToBuy, TryOn
from drafting.garments.circle_skirt.band import Waistband
from drafting.garments.circle_skirt.lay_out import Parts
from drafting.parts.rib import rib_to_buy
from drafting.parts.sewing import THREAD, Say, bought, needle, not_washed, pulled_by, stitch
from drafting.units import Unit

#: Room to grow at the hem, and what a nappy needs round the hip, mm.
GROWING: Final = (30.0, 50.0)
#: The gap through which elastic is drawn into its casing, mm.
GAP: Final = 40.0
#: Elastic is bought with this stretch or more, in steps of so many percent: our choice, so that it is not at its end
#: when it passes over the hip.
ELASTIC_STEP: Final = 10
NAMES: Final = {1: "the centre back seam", 2: "both side seams"}


def after_cut(parts: Parts, unit: Unit, rib: float | None = None) -> AfterCut:
    """What follows the cut; `rib` is the stretch of the rib that the waistband is cut of."""
    say = Say(unit)
    return AfterCut(
        needle(parts.cloth),
        THREAD,
        stitch(parts.cloth, say, (pulled_at_waist(parts), "the waist is stretched over the hip")),
        tuple(_order(parts, say)),
        tuple(_try_on(parts, say)),
        (*_buy(parts, say), *rib_to_buy((parts.waistband.band,), rib, parts.cloth, say)),
        tuple(_before(parts, say)),
    )


def pulled_at_waist(parts: Parts) -> float:
    """By what share waist seam and band are stretched when they go over the hip (CALC)."""
    return pulled_by(parts.body.hip_girth, min(parts.ring.seam, parts.waistband.band.length))


def _order(parts: Parts, say: Say) -> list[SewStep]:
    return [
        _panels(parts),
        *_closed_band(parts, say),
        _attached(parts),
        *([] if parts.waistband.jersey else [_elastic(parts.waistband, say)]),
        _tried(parts),
        SewStep(
            "hang",
            "Hang it and level the hem",
            "Hang the skirt by its waistband for a day: where the cloth runs slanting it drops, and a circle runs "
            "slanting nearly everywhere. Then put it on, measure up from the floor all round, and level the hem.",
        ),
        SewStep(
            "hem",
            "Hem",
            f"Turn the hem up once, by {say(parts.ring.hem)}. Its edge is longer than the skirt there: "
            "ease that in evenly. Sew it with a twin stretch needle, or with a zigzag.",
        ),
    ]


def _panels(parts: Parts) -> SewStep:
    panels = parts.ring.panels
    if panels == 1:
        says = "Right sides together, sew the centre back seam from the waist to the hem, notch on notch."
        return SewStep("panels", "Centre back seam", says)
    if panels == 2:
        says = "Right sides together, sew both side seams from the waist to the hem, notch on notch."
        return SewStep("panels", "Side seams", says)
    says = (
        f"Right sides together, sew the {panels} panels to a ring, each seam from the waist to the hem, notch on "
        f"notch. {where_seams_lie(panels)}"
    )
    return SewStep("panels", "Seams of the panels", says)


def where_seams_lie(panels: int) -> str:
    """Where the seams of three panels or more come to lie on the body, a sentence."""
    if panels % 2:
        return "The middle of one panel is the centre front, and the seam opposite it is the centre back."
    return "The middle of one panel is the centre front, and the middle of the panel opposite it is the centre back."


def _closed_band(parts: Parts, say: Say) -> list[SewStep]:
    says = "Right sides together, sew the two ends of the waistband to a ring."
    if not parts.waistband.jersey:
        says = (
            f"Right sides together, sew the two ends of the waistband to a ring. On one half of its height leave "
            f"{say(GAP)} open, for the elastic."
        )
    fold = "Fold it along its fold-over line, wrong sides together, and baste the two long edges on each other."
    return [SewStep("band", "Waistband", f"{says} {fold}")]


def _attached(parts: Parts) -> SewStep:
    seam = "its seam to the centre back seam" if parts.ring.panels % 2 else "its seam to the middle of the back"
    pinned = f"Pin the waistband to the right side of the waist: {seam}, its fold to the middle of the front"
    if parts.ring.panels == 1:
        pinned += ", and its quarter marks to those of the skirt."
    elif parts.ring.panels == 2:
        pinned += ", and its notches to the side seams."
    else:
        pinned += ", and its notches to the seams and the middles of the panels."
    if parts.waistband.jersey:
        sewn = "It is shorter than the waist: stretch it evenly from pin to pin while you sew, and never the skirt."
    else:
        sewn = "It is as long as the waist: sew them together without stretching either."
    return SewStep("waist", "Waist seam", f"{pinned} {sewn}")


def _elastic(held: Waistband, say: Say) -> SewStep:
    says = (
        f"Cut the elastic {say(held.elastic_cut)} long and draw it through the casing. Lay its ends over each other by "
        f"{say.either('2 cm', '¾ in')}, sew them together in a square, and close the gap. Spread the fullness evenly, "
        "and sew through casing and elastic at the seams, so that the elastic cannot turn over."
    )
    return SewStep("elastic", "Elastic", says)


def _tried(parts: Parts) -> SewStep:
    says = "Put the skirt on over the hip. The waistband lies at the waist and does not slide down when you walk."
    return SewStep("try_on", "Try it on", says + not_washed(parts.cloth), tries_on=True)


def _try_on(parts: Parts, say: Say) -> list[TryOn]:
    little = say(10.0)
    if parts.waistband.jersey:
        slides = TryOn(
            "The waistband slides down.", f"Cut it {little} shorter, or sew it as a casing and draw elastic through it."
        )
        cuts = TryOn("The waistband cuts in.", f"Cut a new one that is {little} longer.")
    else:
        slides = TryOn("The waistband slides down.", f"Make the elastic {little} shorter.")
        cuts = TryOn("The waistband cuts in.", f"Make the elastic {little} longer.")
    return [
        slides,
        cuts,
        TryOn(
            "The hem hangs lower at some places.",
            "The cloth has dropped where it runs slanting. Hang it for another day, then level the hem from the floor.",
        ),
        TryOn(
            "The hem rises in front or behind.",
            "The belly or the seat takes up length. Sew the waistband lower on the opposite side, by as much as the "
            "hem rises, running to nothing at the sides.",
        ),
    ]


def _before(parts: Parts, say: Say) -> list[str]:
    if parts.body.kind != "child":
        return []
    return [
        f"The marks hold no room to grow: a skirt that is {say.span(*GROWING)} longer can be taken up, "
        "and let down later. Ask for a new sheet with that length."
    ]


def elastic_bought(held: Waistband) -> int:
    """The stretch to ask for in the shop, percent: the next step above what is needed."""
    return (math.floor(100 * held.elastic_stretch / ELASTIC_STEP) + 1) * ELASTIC_STEP


def _buy(parts: Parts, say: Say) -> list[ToBuy]:
    buys = bought(parts.cloth, say, "the hem", "two reels")
    held = parts.waistband
    if not held.jersey:
        wide = say(held.elastic_wide)
        buys.append(
            ToBuy(
                f"elastic {wide} wide that stretches by {elastic_bought(held)} % or more, for the waistband",
                held.elastic_cut,
            )
        )
    return buys
