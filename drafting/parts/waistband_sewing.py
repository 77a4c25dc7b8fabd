"""How a waistband is sewn, tried on and bought for: what all that hangs from the waist shares.

Everything here is common practice, from memory, no source, unless a line says otherwise. Lengths in mm, said in the
tape's unit.
"""

import math
from typing import Final

from drafting.cloth import ClothFacts
from drafting.contract.after_cut import SewStep, ToBuy, TryOn
from drafting.parts.sewing import Say, not_washed
from drafting.parts.waistband import Elastic, Waistband
from drafting.person.measures import Body

#: Room to grow at the hem, mm.
GROWING: Final = (30.0, 50.0)
#: The gap through which elastic is drawn into its casing, mm.
GAP: Final = 40.0
#: Elastic is bought with this stretch or more, in steps of so many percent: our choice, so that it is not at its end
#: when it passes over the hip.
ELASTIC_STEP: Final = 10


def closed_band(held: Waistband, say: Say) -> SewStep:
    """The band is closed to a ring and folded; a casing keeps a gap for its elastic."""
    says = "Right sides together, sew the two ends of the waistband to a ring."
    if held.elastic is not None:
        says = (
            f"Right sides together, sew the two ends of the waistband to a ring. On one half of its height leave "
            f"{say(GAP)} open, for the elastic."
        )
    fold = "Fold it along its fold-over line, wrong sides together, and baste the two long edges on each other."
    return SewStep("band", "Waistband", f"{says} {fold}")


def sewn_on(held: Waistband, garment: str = "skirt") -> str:
    """How a pinned band is sewn to the waist of the garment, a sentence."""
    if held.elastic is None:
        return (
            f"It is shorter than the waist: stretch it evenly from pin to pin while you sew, and never the {garment}."
        )
    return (
        "The half with the gap lies uppermost, so that it comes to lie inside. The waistband is as long as the waist: "
        "sew them together without stretching either."
    )


def elastic_drawn_in(elastic: Elastic, say: Say) -> SewStep:
    """The elastic goes into its casing."""
    says = (
        f"Cut the elastic {say(elastic.cut)} long and draw it through the casing. Lay its ends over each other by "
        f"{say.either('2 cm', '¾ in')}, sew them together in a square, and close the gap. Spread the fullness evenly, "
        "and sew through casing and elastic at the seams, so that the elastic cannot turn over."
    )
    return SewStep("elastic", "Elastic", says)


def tried_on(cloth: ClothFacts, held: str = "waistband", then: str = "", garment: str = "skirt") -> SewStep:
    """The garment is tried on once it holds at the waist; `held` is what is there, `then` one more sentence."""
    says = f"Put the {garment} on over the hip. The {held} lies at the waist and does not slide down when you walk."
    if then:
        says = f"{says} {then}"
    return SewStep("try_on", "Try it on", says + not_washed(cloth), tries_on=True)


def waist_rows(elastic: Elastic | None, say: Say, held: str = "waistband") -> list[TryOn]:
    """What may be wrong at the waist, and what to change; `held` is what holds the garment there."""
    little = say(10.0)
    if elastic is None:
        slides = TryOn(
            "The waistband slides down.", f"Cut it {little} shorter, or sew it as a casing and draw elastic through it."
        )
        return [slides, TryOn("The waistband cuts in.", f"Cut a new one that is {little} longer.")]
    return [
        TryOn(f"The {held} slides down.", f"Make the elastic {little} shorter."),
        TryOn(f"The {held} cuts in.", f"Make the elastic {little} longer."),
    ]


def hem_rises(*, turned: bool = False) -> TryOn:
    """A belly or a seat takes up length; `turned` says that the waist is a casing that is turned in."""
    lower = "Turn the casing in deeper" if turned else "Sew the waistband lower"
    return TryOn(
        "The hem rises in front or behind.",
        f"The belly or the seat takes up length. {lower} on the opposite side, by as much as the hem rises, running to "
        "nothing at the sides.",
    )


def room_in_length(body: Body, say: Say) -> tuple[str, ...]:
    """What to know before a child's skirt is cut."""
    if body.kind != "child":
        return ()
    return (
        f"The marks hold no room to grow: a skirt that is {say.span(*GROWING)} longer can be taken up, "
        "and let down later. Ask for a new sheet with that length.",
    )


def elastic_bought(elastic: Elastic) -> int:
    """The stretch to ask for in the shop, percent: the next step above what is needed."""
    return (math.floor(100 * elastic.stretch / ELASTIC_STEP) + 1) * ELASTIC_STEP


def elastic_to_buy(elastic: Elastic | None, say: Say, held: str = "waistband") -> tuple[ToBuy, ...]:
    """The elastic that goes into what is `held` at the waist; nothing where there is none."""
    if elastic is None:
        return ()
    what = f"elastic {say(elastic.wide)} wide that stretches by {elastic_bought(elastic)} % or more, for the {held}"
    return (ToBuy(what, elastic.cut),)
