"""How `leggings` are sewn up, tried on and what they take besides the cloth: only what applies to the draft.

Everything here is common practice, no source, unless a line says otherwise. Lengths in mm, said in the tape's unit.
"""

from drafting.contract.after_cut import AfterCut, SewStep, TryOn
from drafting.garments.leggings.parts import Parts
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
from drafting.parts.sewing import THREAD, Say, needle, pulled_by, stitch
from drafting.person.passing import foot_needs
from drafting.units import Unit

CALLED = "leggings"


def after_cut(parts: Parts, unit: Unit) -> AfterCut:
    """What follows the cut."""
    say, body = Say(unit), parts.body
    foot = pulled_by(foot_needs(body), parts.outline.hem), "a hem is stretched over the foot"
    waist = pulled_at_waist(body, parts.held), "the waist is stretched over the hip"
    return AfterCut(
        needle(parts.cloth),
        THREAD,
        stitch(parts.cloth, say, waist, foot),
        tuple(_order(parts, say)),
        tuple(_try_on(parts, say)),
        leg_buys(parts.choices, parts.cloth, parts.held, say),
        before_cut(body, say),
    )


def _order(parts: Parts, say: Say) -> list[SewStep]:
    inner = (
        "Fold each leg along its side line, right sides together and notch on notch. Sew the inner leg from the crotch "
        "to the hem."
    )
    return [
        SewStep("inner", "Inner legs", inner),
        seat_step(),
        *waist_steps(parts.held, say, CALLED),
        try_on_step(parts.cloth, parts.held, CALLED),
        hems_step(parts.choices, say),
    ]


def _try_on(parts: Parts, say: Say) -> list[TryOn]:
    return [
        *leg_rows(parts.held, say),
        TryOn(
            "Rings of cloth lie round the leg.",
            f"The leg is too wide there. Take the inner leg in by {say.span(5, 10)}, running to nothing above and "
            f"below.",
        ),
        TryOn(
            "The side line winds round the leg to the front.",
            "The grain ran askew, or one layer was stretched while it was sewn. Open the inner leg and pin it anew, "
            "notch on notch.",
        ),
    ]
