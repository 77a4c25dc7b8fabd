"""How `knit_trousers` are sewn up, tried on and what they take besides the cloth: only what applies to the draft.

Everything here is common practice, no source, unless a line says otherwise. Lengths in mm, said in the tape's unit.
"""

from drafting.contract.after_cut import AfterCut, SewStep, TryOn
from drafting.garments.knit_trousers.parts import Parts
from drafting.parts.legs.sewing import (
    before_cut,
    hems_step,
    leg_buys,
    leg_rows,
    pulled_at_waist,
    seat_step,
    try_on_step,
    waist_steps,
)
from drafting.parts.sewing import THREAD, Say, hang, needle, stitch
from drafting.units import Unit

CALLED = "trousers"


def after_cut(parts: Parts, unit: Unit) -> AfterCut:
    """What follows the cut."""
    say, body = Say(unit), parts.body
    waist = pulled_at_waist(body, parts.held), "the waist is stretched over the hip"
    return AfterCut(
        needle(parts.cloth),
        THREAD,
        stitch(parts.cloth, say, waist),
        tuple(_order(parts, say)),
        tuple(_try_on(parts, say)),
        (*leg_buys(parts.choices, parts.cloth, parts.held, say), *parts.pockets.bought),
        before_cut(body, say),
    )


def _order(parts: Parts, say: Say) -> list[SewStep]:
    sides = "Right sides together and notch on notch, sew front to back at the side of each leg, from waist to hem."
    inner = "Sew the inner leg of each leg from the crotch to the hem, notch on notch."
    return [
        *parts.pockets.around(SewStep("sides", "Sides", sides), say),
        SewStep("inner", "Inner legs", inner),
        seat_step(),
        *waist_steps(parts.held, say, CALLED),
        try_on_step(parts.cloth, parts.held, CALLED),
        hang(parts.cloth, long=True),
        hems_step(parts.choices, say),
    ]


def _try_on(parts: Parts, say: Say) -> list[TryOn]:
    return [
        *leg_rows(parts.held, say),
        TryOn(
            "The crease swings to the inside or the outside.",
            "The side or the inner leg was stretched while it was sewn, or the grain ran askew. Open that seam and pin "
            "it anew, notch on notch.",
        ),
        TryOn(
            "The legs are wider than you like.",
            f"Take side and inner leg in alike, by {say.span(5, 15)} each, from the thigh down.",
        ),
        TryOn("The hem lies on the floor.", "Turn it up more: stand in the shoes that go with it and have it pinned."),
    ]
