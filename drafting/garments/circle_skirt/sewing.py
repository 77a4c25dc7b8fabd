"""How `circle_skirt` is sewn up, tried on and what it takes besides the cloth: only what applies to the draft.

Everything here is common practice, from memory, no source, unless a line says otherwise. Lengths in mm, said in the
tape's unit.
"""

from drafting.contract.after_cut import AfterCut, SewStep, TryOn
from drafting.garments.circle_skirt.lay_out import Parts
from drafting.parts.rib import rib_to_buy
from drafting.parts.sewing import THREAD, Say, bought, needle, pulled_by, stitch
from drafting.parts.waistband_sewing import (
    closed_band,
    elastic_drawn_in,
    elastic_to_buy,
    hem_rises,
    room_in_length,
    sewn_on,
    tried_on,
    waist_rows,
)
from drafting.units import Unit


def after_cut(parts: Parts, unit: Unit, rib: float | None = None) -> AfterCut:
    """What follows the cut; `rib` is the stretch of the rib that the waistband is cut of."""
    say = Say(unit)
    return AfterCut(
        needle(parts.cloth),
        THREAD,
        stitch(parts.cloth, say, (pulled_at_waist(parts), "the waist is stretched over the hip")),
        tuple(_order(parts, say)),
        tuple(_try_on(parts, say)),
        (
            *bought(parts.cloth, say, "the hem", "two reels"),
            *elastic_to_buy(parts.waistband.elastic, say),
            *rib_to_buy((parts.waistband.band,), rib, parts.cloth, say),
        ),
        room_in_length(parts.body, say),
    )


def pulled_at_waist(parts: Parts) -> float:
    """By what share waist seam and band are stretched when they go over the hip (CALC)."""
    return pulled_by(parts.body.hip_girth, min(parts.ring.seam, parts.waistband.band.length))


def _order(parts: Parts, say: Say) -> list[SewStep]:
    elastic = parts.waistband.elastic
    return [
        _panels(parts),
        closed_band(parts.waistband, say),
        _attached(parts),
        *([] if elastic is None else [elastic_drawn_in(elastic, say)]),
        tried_on(parts.cloth),
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


def _attached(parts: Parts) -> SewStep:
    seam = "its seam to the centre back seam" if parts.ring.panels % 2 else "its seam to the middle of the back"
    pinned = f"Pin the waistband to the right side of the waist: {seam}, its fold to the middle of the front"
    if parts.ring.panels == 1:
        pinned += ", and its quarter marks to those of the skirt."
    elif parts.ring.panels == 2:
        pinned += ", and its notches to the side seams."
    else:
        pinned += ", and its notches to the seams and the middles of the panels."
    return SewStep("waist", "Waist seam", f"{pinned} {sewn_on(parts.waistband)}")


def _try_on(parts: Parts, say: Say) -> list[TryOn]:
    return [
        *waist_rows(parts.waistband.elastic, say),
        TryOn(
            "The hem hangs lower at some places.",
            "The cloth has dropped where it runs slanting. Hang it for another day, then level the hem from the floor.",
        ),
        hem_rises(),
    ]
