"""How `knit_skirt` is sewn up, tried on and what it takes besides the cloth: only what applies to the draft.

Everything here is common practice, no source, unless a line says otherwise. Lengths in mm, said in the tape's unit.
"""

from drafting.contract.after_cut import AfterCut, SewStep, TryOn
from drafting.garments.knit_skirt.parts import Parts
from drafting.parts.flounce_sewing import flounce_hung, flounce_rows, flounce_sewn
from drafting.parts.rib import rib_to_buy
from drafting.parts.sewing import THREAD, Say, bought, hang, hem_needle, needle, pulled_by, stitch
from drafting.parts.waistband_sewing import (
    GAP,
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


def after_cut(parts: Parts, unit: Unit) -> AfterCut:
    """What follows the cut."""
    say = Say(unit)
    bands = () if parts.band is None else (parts.band,)
    return AfterCut(
        needle(parts.cloth),
        THREAD,
        stitch(parts.cloth, say, (pulled_at_waist(parts), "the waist is stretched over the hip")),
        tuple(_order(parts, say)),
        tuple(_try_on(parts, say)),
        (
            *bought(parts.cloth, say, "hem and casing" if parts.band is None else "the hem"),
            *elastic_to_buy(parts.elastic, say, _held(parts)),
            *parts.pockets.bought,
            *rib_to_buy(bands, parts.choices.rib, parts.cloth, say),
        ),
        room_in_length(parts.body, say),
    )


def pulled_at_waist(parts: Parts) -> float:
    """By what share waist edge and band are stretched when they go over the hip (CALC)."""
    ring = parts.outline.seam if parts.band is None else min(parts.outline.seam, parts.band.length)
    return pulled_by(parts.body.hip_girth, ring)


def _held(parts: Parts) -> str:
    """What is at the waist."""
    return "casing" if parts.band is None else "waistband"


def _order(parts: Parts, say: Say) -> list[SewStep]:
    return [
        *parts.pockets.around(_sides(parts), say),
        *_waist(parts, say),
        *([] if parts.elastic is None else [elastic_drawn_in(parts.elastic, say)]),
        tried_on(parts.cloth, _held(parts), "Sit down in it, and take a long step."),
        *_ends(parts, say),
    ]


def _ends(parts: Parts, say: Say) -> list[SewStep]:
    """The hem, turned up or with its flounce, after it has hung."""
    if parts.hem_flounce is None:
        return [hang(parts.cloth, long=True), _hem(parts, say)]
    return [flounce_sewn(parts.hem_flounce, say), flounce_hung(parts.cloth, say)]


def _sides(parts: Parts) -> SewStep:
    end = "to the hem"
    if parts.slit > 0:
        end = "down to the top of the slit, and sew back a few stitches there"
    says = f"Right sides together and notch on notch, sew both side seams from the waist {end}."
    return SewStep("sides", "Side seams", says)


def _waist(parts: Parts, say: Say) -> list[SewStep]:
    if parts.waistband is None:
        says = (
            f"Neaten the waist edge. Turn it in by {say(parts.turned_in)} and sew it down all round, "
            f"{say(parts.casing)} below the fold, with a stitch that stretches. At the centre back leave {say(GAP)} "
            "open, for the elastic."
        )
        return [SewStep("waist", "Casing", says)]
    says = (
        "Pin the waistband to the right side of the waist: its seam to the centre back, its fold to the centre front, "
        f"and its notches to the side seams. {sewn_on(parts.waistband)}"
    )
    return [closed_band(parts.waistband, say), SewStep("waist", "Waist seam", says)]


def _hem(parts: Parts, say: Say) -> SewStep:
    says = f"Turn the hem up once, by {say(parts.allowances['hem'])}. {hem_needle(say)}"
    if parts.slit <= 0:
        return SewStep("hem", "Hem", says)
    sides = say(parts.allowances["side"])
    return SewStep(
        "hem",
        "Hem and slits",
        f"Turn the edges of both slits in by {sides} and sew them down, across the top of the slit too. {says}",
    )


def _try_on(parts: Parts, say: Say) -> list[TryOn]:
    little = say(10.0)
    rows = [
        *waist_rows(parts.elastic, say, _held(parts)),
        TryOn(
            "Folds run round the body below the waist, and the skirt creeps up.",
            f"It is tight at the hip. Let both sides out there by {say.span(5, 10)}, as far as the allowance goes.",
        ),
        TryOn(
            "The side stands off below the waist.",
            f"Take both sides in there by {say.span(5, 10)}, running to nothing at the hip.",
        ),
        TryOn(
            "Folds lie across the small of the back.",
            f"Sew the waistband {little} lower at the centre back, running to nothing at the sides."
            if parts.band is not None
            else f"Turn the casing in {little} deeper at the centre back, running to nothing at the sides.",
        ),
        hem_rises(turned=parts.band is None),
        *(flounce_rows() if parts.flounces else []),
    ]
    if parts.choices.silhouette == "pegged" or parts.slit > 0:
        rows.append(
            TryOn("The hem holds back a long step.", "Open both slits farther, or let both sides out at the hem.")
            if parts.slit > 0
            else TryOn("The hem holds back a long step.", "Let both sides out at the hem, or open them in slits.")
        )
    return rows
